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
fn what_is_misread_is_said_with_what_was_probably_meant() {
    use Code::{ValueAmbiguous, ValueUnreadable};
    for (text, like, code, says, good) in [
        ("12,7 mm", "0.5 in", ValueAmbiguous, "write a decimal point, not a comma", "12.7 mm"),
        ("-12,7", "0.5 in", ValueAmbiguous, "a decimal point, not a comma", "-12.7 in"),
        ("118,5", "118 deg", ValueAmbiguous, "a decimal point, not a comma", "118.5 deg"),
        ("1,250 mm", "0.5 in", ValueAmbiguous, "a decimal point or a thousands mark?", "1.250 mm"),
        ("1,250 rpm", "450 rpm", ValueAmbiguous, "a decimal point or a thousands mark?", "1250 rpm"),
        ("1,250.5 mm", "0.5 in", ValueAmbiguous, "leave out the thousands comma", "1250.5 mm"),
        ("1,250,000 mm", "0.5 in", ValueAmbiguous, "leave out the thousands commas", "1250000 mm"),
        ("1.250,5 mm", "0.5 in", ValueAmbiguous, "a decimal point, not a comma", "1250.5 mm"),
        ("1,2,3 mm", "0.5 in", ValueAmbiguous, "without commas", "0.5 in"),
        ("1 250 mm", "0.5 in", ValueUnreadable, "gaps and marks within a number", "1250 mm"),
        ("1'250 mm", "0.5 in", ValueUnreadable, "gaps and marks within a number", "1250 mm"),
        ("1’250.5 mm", "0.5 in", ValueUnreadable, "gaps and marks within a number", "1250.5 mm"),
        ("1_000 in", "0.5 in", ValueUnreadable, "gaps and marks within a number", "1000 in"),
        ("1.250.000 mm", "0.5 in", ValueUnreadable, "more than one decimal point", "0.5 in"),
        ("5' 6\"", "0.5 in", ValueUnreadable, "feet and inches", "66 in"),
        ("5′-6½″", "0.5 in", ValueUnreadable, "feet and inches", "66.5 in"),
        ("5 ft 6 1/2 in", "0.5 in", ValueUnreadable, "feet and inches", "66.5 in"),
        ("-1'6", "0.5 in", ValueUnreadable, "feet and inches", "-18 in"),
        ("5'6\"", "30 deg", ValueUnreadable, "minutes or seconds without degrees", "0°5'6\""),
        ("20 tpi ±1", "0.05 in", ValueUnreadable, "Threads per inch take no tolerance", "20 tpi"),
        ("0.05 ±1 tpi", "0.05 in", ValueUnreadable, "Threads per inch take no tolerance", "0.05 tpi"),
    ] {
        let unread = read(text, like).expect_err(text);
        assert_eq!(unread.code, code, "{text}: {}", unread.says);
        assert!(unread.says.contains(says), "{text}: {}", unread.says);
        assert_eq!(unread.try_this, good, "{text}");
        assert!(read(&unread.try_this, like).is_ok(), "{text}: {}", unread.try_this);
    }
}

#[test]
fn an_inch_has_many_marks() {
    for text in ["1.5\"", "1.5″", "1.5”", "1.5''", "1.5′′", "1.5 in.", "1.5 inch", "1.5 inches", "1.5 In", "1-1/2\""]
    {
        assert_eq!(value(text), (1.5, Some(Unit::Inch)), "{text}");
    }
    assert_eq!(value("12°30'36''"), (12.51, Some(Unit::Degree)));
    assert_eq!(value("5'"), (5.0, Some(Unit::Foot)));
    for text in ["11-1/2 tpi", "11.5TPI", "11½ threads per inch", "11.5 threads/in", "11.5 t.p.i."] {
        assert_eq!(value(text), (11.5, Some(Unit::ThreadsPerInch)), "{text}");
    }
}

#[test]
fn an_unknown_unit_is_told_from_those_of_the_kind() {
    use super::kinds::{CuttingSpeed, FeedPerTooth, Roughness, Size};
    let size = Size::read("12 mmm").unwrap_err();
    assert_eq!((size.code, size.try_this.as_str()), (Code::UnitUnknown, "12 mm"));
    assert!(size.says.contains("use in, mm, ft"), "{}", size.says);
    assert_eq!(Size::read("1/2 inhc").unwrap_err().try_this, "0.5 in");
    assert_eq!(Size::read("3 furlong").unwrap_err().try_this, "0.5 in");
    assert_eq!(CuttingSpeed::read("70 ft/mim").unwrap_err().try_this, "70 ft/min");
    assert_eq!(FeedPerTooth::read("0.1 mm/tooht").unwrap_err().try_this, "0.1 mm/tooth");
    // What would be a unit of a length is none of roughness.
    assert_eq!(Roughness::read("1.6 umm").unwrap_err().try_this, "1.6 um");
}

#[test]
fn only_a_percentage_stands_without_its_unit() {
    use super::kinds::{Angle, Deviation, Efficiency, FeedRate, Percentage, Size, SpindleSpeed, ThreadPercent};
    let of = |text: &str| ThreadPercent::read(text).map(|read| (read.quantity().value, read.quantity().unit));
    assert_eq!(of("70"), Ok((70.0, Unit::Percent)));
    assert_eq!(of("70"), of("70 percent"));
    assert_eq!(Percentage::read("5 ±1").unwrap().quantity().tolerance, Some((1.0, 1.0)));
    assert_eq!(Deviation::read("-4.5").unwrap().quantity().unit, Unit::Percent);
    assert_eq!(Percentage::read("0").unwrap().quantity().value, 0.0);
    assert_eq!(of("140").unwrap_err().code, Code::ValueOutOfRange);
    // From 0 to 1 it could be a share.
    for (unread, good) in [
        (Efficiency::read("0.85").unwrap_err(), "85 percent"),
        (Efficiency::read("1").unwrap_err(), "100 percent"),
        (ThreadPercent::read(".7").unwrap_err(), "70 percent"),
        (Percentage::read("0.05").unwrap_err(), "5 percent"),
        (Percentage::read("0.5").unwrap_err(), "0.5 percent"),
    ] {
        assert_eq!((unread.code, unread.try_this.as_str()), (Code::ValueAmbiguous, good), "{}", unread.says);
    }
    let missing = [
        Size::read("0.5").unwrap_err(),
        SpindleSpeed::read("450").unwrap_err(),
        FeedRate::read("4").unwrap_err(),
        Angle::read("30").unwrap_err(),
    ];
    assert_eq!(missing.map(|unread| unread.code), [Code::UnitMissing; 4]);
}

#[test]
fn threads_per_inch_are_a_pitch_and_no_other_length() {
    use super::kinds::{Size, ThreadPitch};
    let pitch = ThreadPitch::read("11-1/2 tpi").unwrap();
    assert_eq!((pitch.quantity().text(), pitch.length().quantity().value), ("11.5 tpi".into(), 1.0 / 11.5));
    let code = |text: &str| ThreadPitch::read(text).unwrap_err().code;
    assert_eq!((code("0 tpi"), code("-4 tpi"), code("1e-9 tpi")), [Code::ValueOutOfRange; 3].into());
    let unread = Size::read("20 tpi").unwrap_err();
    assert_eq!(unread.code, Code::UnitWrong);
    assert!(unread.says.contains("a number of threads in an inch, not a length"), "{}", unread.says);
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
