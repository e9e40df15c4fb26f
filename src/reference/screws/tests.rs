//! What the tables of screws must hold, and how a screw's size is read.

use super::*;
use crate::reference::drills::named;
use crate::refusal::Code;
use crate::sources::{Trust, source};

fn read(text: &str) -> ScrewSize {
    ScrewSize::read(text).unwrap_or_else(|unread| panic!("{text}: {}", unread.says))
}

#[test]
fn a_size_and_a_thread_of_that_size_are_the_same_screw() {
    for (texts, name, diameter) in [
        (&["M8", "m8", "M8x1", "M8-6g", "8 mm", "8mm"][..], "M8", 8.0),
        (&["1/4", "1/4 in", "1/4\"", "0.25 in", "1/4-20", "1/4-28 UNF-2A"], "1/4", 0.25),
        (&["#10", "No.10", "no 10", "number 10", "#10-32", "No.10-24 UNC"], "#10", 0.19),
        (&["1-1/8", "1 1/8 in", "1-1/8-7 UNC"], "1 1/8", 1.125),
        (&["1 in", "1-8 UNC"], "1", 1.0),
        (&["M2.5"], "M2.5", 2.5),
    ] {
        for text in texts {
            assert_eq!((read(text).name.as_str(), read(text).diameter), (name, diameter), "{text}");
        }
    }
}

#[test]
fn what_is_no_screw_is_refused_with_one_to_try() {
    for (text, code) in [
        ("", Code::ValueEmpty),
        ("10", Code::ValueAmbiguous),
        ("0.3", Code::ValueAmbiguous),
        ("#14", Code::NotFound),
        ("G 1/2", Code::NotOffered),
        ("1/4 NPT", Code::NotOffered),
        ("cap screw", Code::ValueUnreadable),
        ("9 in", Code::ValueOutOfRange),
        ("0 in", Code::ValueOutOfRange),
    ] {
        let unread = ScrewSize::read(text).unwrap_err();
        assert_eq!(unread.code, code, "{text:?}: {}", unread.says);
        assert!(ScrewSize::read(&unread.try_this).is_ok(), "{text:?}: {}", unread.try_this);
    }
}

#[test]
fn every_row_is_for_a_screw_that_reads_and_names_a_source() {
    fn sound<R: OfScrew>(rows: &[R], of: impl Fn(&R) -> (&str, &str)) {
        for row in rows {
            let text = if row.unit() == Unit::Inch { format!("{} in", row.screw()) } else { row.screw().to_owned() };
            let text = if text.starts_with('#') { row.screw().to_owned() } else { text };
            assert!(row.is_for(&read(&text)), "{text}");
            let (key, trust) = of(row);
            assert!(source(key).is_some() && Trust::named(trust).is_some(), "{text}: {key}, {trust}");
        }
    }
    sound(&CLEARANCE, |row| (&row.source, &row.trust));
    sound(&HEADS, |row| (&row.source, &row.trust));
    sound(&COUNTERBORES, |row| (&row.source, &row.trust));
    sound(&WASHERS, |row| (&row.source, &row.trust));
    assert_eq!((CLEARANCE.len(), HEADS.len(), COUNTERBORES.len(), WASHERS.len()), (73, 199, 79, 51));
}

#[test]
fn holes_grow_from_close_to_free_and_with_the_screw() {
    for unit in [Unit::Inch, Unit::Millimetre] {
        let rows: Vec<&'static ClearanceRow> = CLEARANCE.iter().filter(|row| row.unit() == unit).collect();
        let sizes = |row: &&'static ClearanceRow| [0, 1, 2].map(|column| row.hole(column).least.quantity().value);
        for row in &rows {
            let [close, medium, free] = sizes(row);
            assert!(row.nominal < close && close < medium && medium < free, "{}", row.screw);
            assert!((0..3).all(|at| row.hole(at).greatest.quantity().value > sizes(row)[at]), "{}", row.screw);
        }
        assert!(rows.windows(2).all(|pair| sizes(&pair[0]).iter().zip(sizes(&pair[1])).all(|(a, b)| *a < b)));
    }
}

#[test]
fn a_drill_that_the_standard_names_rounds_to_the_least_hole() {
    for (row, column) in CLEARANCE.iter().flat_map(|row| [0, 1, 2].map(|column| (row, column))) {
        if let Some(name) = row.hole(column).drill {
            let text = if name.len() > 2 || name.starts_with('#') { name.to_owned() } else { format!("letter {name}") };
            let drill = named(&text).unwrap_or_else(|| panic!("{}: {name}", row.screw));
            let least = row.hole(column).least.quantity().value;
            assert!((drill.diameter - least).abs() <= 0.00055, "{} {name}: {least}", row.screw);
        }
    }
}

#[test]
fn a_counterbore_takes_its_head_and_a_washer_its_screw() {
    for row in COUNTERBORES.iter() {
        let kinds: &[&str] = if row.head == "socket" { &["socket", "low_socket"] } else { &["hexagon"] };
        for head in HEADS.iter().filter(|head| kinds.contains(&&*head.head) && head.screw == row.screw) {
            assert!(
                row.diameter > head.diameter,
                "{} {}: {} over {}",
                row.head,
                row.screw,
                row.diameter,
                head.diameter
            );
        }
    }
    assert!(WASHERS.iter().all(|row| row.outside > row.nominal && row.thickness > 0.0));
}
