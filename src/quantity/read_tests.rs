//! What the reader takes, what it refuses, and that it never falls over.

use super::read::read;
use super::units::Unit;
use crate::refusal::Code;
use proptest::prelude::*;

fn value(text: &str) -> (f64, Option<Unit>) {
    let written = read(text, "0.5 in").unwrap_or_else(|e| panic!("{text}: {}", e.says));
    (written.value, written.unit)
}

fn code(text: &str) -> Code {
    match read(text, "0.5 in") {
        Ok(written) => panic!("{text} was read as {written:?}"),
        Err(unread) => {
            assert!(!unread.says.is_empty() && !unread.try_this.is_empty());
            unread.code
        }
    }
}

#[test]
fn numbers_read_as_people_write_them() {
    let inch = Some(Unit::Inch);
    for (text, wanted) in [
        ("0.5 in", 0.5),
        ("1/2 in", 0.5),
        ("1-1/2 in", 1.5),
        ("1 1/2\"", 1.5),
        ("1½ in", 1.5),
        ("½\"", 0.5),
        (".25in", 0.25),
        ("+2. inches", 2.0),
        ("-1-1/2 in", -1.5),
        ("3.5e-3 in", 0.0035),
        ("3.5E+1 IN", 35.0),
        ("−0.25 in", -0.25),
        ("27⁄64 in", 27.0 / 64.0),
    ] {
        assert_eq!(value(text), (wanted, inch), "{text}");
    }
    assert_eq!(value("12.7mm"), (12.7, Some(Unit::Millimetre)));
    assert_eq!(value("5 µm"), value("5 um"));
    assert_eq!(value("2 in³/min"), value("2 in3/min"));
    assert_eq!(value("12 lbf·ft"), value("12 lbf.ft"));
    assert_eq!(value("75 %"), value("75 percent"));
    assert_eq!(value("0"), (0.0, None));
}

#[test]
fn degrees_minutes_seconds_are_read() {
    let deg = Some(Unit::Degree);
    assert_eq!(value("12°30'"), (12.5, deg));
    assert_eq!(value("12deg 30min"), (12.5, deg));
    assert_eq!(value("30°15'"), (30.25, deg));
    assert_eq!(value("12°30'36\""), (12.51, deg));
    assert_eq!(value("-1° 30′"), (-1.5, deg));
    assert_eq!(value("118 deg"), (118.0, deg));
    assert_eq!(value("118°"), (118.0, deg));
    assert_eq!(code("12°75'"), Code::ValueUnreadable);
    assert_eq!(code("12.5°30'"), Code::ValueUnreadable);
}

#[test]
fn tolerances_are_carried() {
    for text in ["2.000 ±0.001 in", "2.000 +/-0.001 in", "2.000 in ±0.001 in", "2 in ±1 thou", "2.000 in +/- 0.001"]
    {
        let written = read(text, "1 in").unwrap_or_else(|e| panic!("{text}: {}", e.says));
        assert_eq!(
            (written.value, written.unit, written.tolerance),
            (2.0, Some(Unit::Inch), Some((0.001, 0.001))),
            "{text}"
        );
    }
    let written = read("2.000 +0.002/-0.000 in", "1 in").unwrap();
    assert_eq!(written.tolerance, Some((0.002, 0.0)));
    assert_eq!(read("2e+3 mm", "1 in").unwrap().tolerance, None);
    assert_eq!(code("2.000 ±x in"), Code::ValueUnreadable);
    assert_eq!(code("2.000 in ±1 deg"), Code::ValueUnreadable);
}

#[test]
fn what_can_be_meant_two_ways_is_asked_about() {
    for text in ["5 mil", "5mils", "1,250 mm", "12,7 mm", "1,250"] {
        assert_eq!(code(text), Code::ValueAmbiguous, "{text}");
    }
    assert_eq!(read("12,7 mm", "0.5 in").unwrap_err().try_this, "12.7 mm");
}

#[test]
fn what_is_no_quantity_is_refused() {
    assert_eq!(code(""), Code::ValueEmpty);
    assert_eq!(code("   "), Code::ValueEmpty);
    for text in [
        "NaN in", "inf in", "in", "x", "1/0 in", "1/2/3 in", "1.5/2 in", "--1 in", "1_000 in", "5 ?", "½5 in", "1½2 in",
    ] {
        assert_eq!(code(text), Code::ValueUnreadable, "{text}");
    }
    assert_eq!(code("1e999 in"), Code::ValueOutOfRange);
    assert_eq!(code("3 furlong"), Code::UnitUnknown);
    assert_eq!(code("0x10 in"), Code::UnitUnknown);
    assert_eq!(code("1 3/2 in"), Code::ValueAmbiguous);
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,80}") {
        let _ = read(&text, "0.5 in");
    }

    #[test]
    fn text_near_a_quantity_is_read_or_refused(text in "[-+0-9./,eE °'\"a-zµ±²³·½ ]{0,24}") {
        if let Ok(written) = read(&text, "0.5 in") {
            prop_assert!(written.value.is_finite());
        }
    }

    #[test]
    fn what_is_printed_in_full_reads_back_the_same(value in proptest::num::f64::NORMAL) {
        let text = format!("{} mm", super::text::full(value));
        let written = read(&text, "1 mm").unwrap();
        prop_assert_eq!(written.value, value);
    }
}
