//! What the drill tables and the reading of drill names must hold.

use super::*;
use std::collections::HashSet;

fn meant(text: &str) -> Option<&'static str> {
    named(text).map(|drill| drill.name)
}

#[test]
fn every_row_of_both_tables_is_read() {
    let written = INCH_ROWS.lines().count() - 1 + METRIC_ROWS.lines().count() - 1;
    assert_eq!(drills().len(), written);
    let count = |system| drills().iter().filter(|drill| drill.system == system).count();
    // Numbers 1 to 97 and letters A to Z are whole; fractions run by 64ths to 1-3/4 and on to 3.
    assert_eq!(count(DrillSystem::Number), 97);
    assert_eq!(count(DrillSystem::Letter), 26);
    assert_eq!(count(DrillSystem::Fraction), 112 + 16 + 12);
}

#[test]
fn drills_run_from_small_to_large() {
    assert!(drills().windows(2).all(|pair| pair[0].nanometres() <= pair[1].nanometres()));
}

#[test]
fn drills_of_one_size_are_listed_fraction_first() {
    let quarter: Vec<_> = drills().iter().filter(|drill| drill.nanometres() == 6_350_000).map(|d| d.name).collect();
    assert_eq!(quarter, ["1/4", "E"]);
    let half: Vec<_> = drills().iter().filter(|drill| drill.nanometres() == 12_700_000).map(|d| d.name).collect();
    assert_eq!(half, ["1/2", "12.7 mm"]);
}

#[test]
fn every_name_is_used_once() {
    let names: HashSet<_> = drills().iter().map(|drill| drill.name).collect();
    assert_eq!(names.len(), drills().len());
}

#[test]
fn unit_and_system_agree() {
    for drill in drills() {
        let metric = drill.system == DrillSystem::Metric;
        assert_eq!(drill.unit == DrillUnit::Millimetre, metric, "{}", drill.name);
    }
    let units = |table: &'static str| -> HashSet<String> {
        let mut reader = csv::Reader::from_reader(table.as_bytes());
        reader.records().map(|row| row.unwrap()[3].to_owned()).collect()
    };
    assert_eq!(units(INCH_ROWS), HashSet::from(["in".to_owned()]));
    assert_eq!(units(METRIC_ROWS), HashSet::from(["mm".to_owned()]));
}

#[test]
fn inch_and_millimetre_columns_agree() {
    // The second column was rounded where it was printed: 4 places of a millimeter, 5 of an inch.
    let agree = |table: &str, factor: f64, half_a_digit: f64| {
        for row in csv::Reader::from_reader(table.as_bytes()).records() {
            let row = row.unwrap();
            let diameter: f64 = row[2].parse().unwrap();
            let also: f64 = row[4].parse().unwrap();
            assert!((diameter * factor - also).abs() <= half_a_digit + 1e-9, "{}", &row[0]);
        }
    };
    agree(INCH_ROWS, 25.4, 5e-5);
    agree(METRIC_ROWS, 1.0 / 25.4, 5e-6);
}

#[test]
fn a_fraction_is_worth_what_its_name_says() {
    for drill in drills().iter().filter(|drill| drill.system == DrillSystem::Fraction) {
        let (whole, part) = match drill.name.split_once('-') {
            Some((whole, part)) => (whole, part),
            None if drill.name.contains('/') => ("0", drill.name),
            None => (drill.name, "0/1"),
        };
        let (over, under) = part.split_once('/').unwrap();
        let number = |text: &str| text.parse::<f64>().unwrap();
        let value = number(whole) + number(over) / number(under);
        assert_eq!(drill.diameter, value, "{}", drill.name);
    }
}

#[test]
fn a_metric_drill_is_worth_what_its_name_says() {
    for drill in drills().iter().filter(|drill| drill.system == DrillSystem::Metric) {
        let value: f64 = drill.name.strip_suffix(" mm").unwrap().parse().unwrap();
        assert_eq!(drill.diameter, value, "{}", drill.name);
    }
}

#[test]
fn letters_grow_and_numbers_shrink() {
    let letters: Vec<_> = ('A'..='Z').map(|c| named(&c.to_string()).unwrap().diameter).collect();
    assert!(letters.windows(2).all(|pair| pair[0] < pair[1]));
    let numbers: Vec<_> = (1..=97).map(|n| named(&format!("#{n}")).unwrap().diameter).collect();
    assert!(numbers.windows(2).all(|pair| pair[0] > pair[1]));
}

#[test]
fn number_sizes_equal_the_handbook() {
    // Machinery's Handbook, 31st edition, p. 2155, table 2: the drills of the small Unified threads.
    let printed = [
        ("#53", 0.0595),
        ("#50", 0.0700),
        ("#49", 0.0730),
        ("#47", 0.0785),
        ("#46", 0.0810),
        ("#45", 0.0820),
        ("#44", 0.0860),
        ("#43", 0.0890),
        ("#42", 0.0935),
    ];
    for (name, inches) in printed {
        assert_eq!(named(name).unwrap().diameter, inches, "{name}");
    }
}

#[test]
fn every_row_names_a_known_source() {
    for drill in drills() {
        assert!(sources::source(drill.source).is_some(), "{}", drill.name);
    }
}

#[test]
fn number_letter_and_fraction_names_are_read_as_the_trade_says_them() {
    for text in ["#7", " #7 ", "# 7", "No.7", "No. 7", "no 7", "number 7", "NUMBER 7"] {
        assert_eq!(meant(text), Some("#7"), "{text}");
    }
    for text in ["F", "f", "letter F", "Letter f", "LETTER F"] {
        assert_eq!(meant(text), Some("F"), "{text}");
    }
    for text in ["27/64", "27/64 in", "27/64in", "27/64\"", "27/64 inch", "27/64 IN"] {
        assert_eq!(meant(text), Some("27/64"), "{text}");
    }
    for text in ["1-1/16", "1 1/16", "1-1/16 in", "1 1/16\""] {
        assert_eq!(meant(text), Some("1-1/16"), "{text}");
    }
    assert_eq!(meant("1 in"), Some("1"));
    assert_eq!(meant("6.8 mm"), Some("6.8 mm"));
    assert_eq!(meant("6.8mm"), Some("6.8 mm"));
}

#[test]
fn every_drill_is_found_by_its_own_name() {
    for drill in drills() {
        let whole = drill.system == DrillSystem::Fraction && !drill.name.contains('/');
        let name = if whole { format!("{} in", drill.name) } else { drill.name.to_owned() };
        assert_eq!(named(&name), Some(drill), "{name}");
    }
}

#[test]
fn what_is_no_drill_name_is_not_guessed() {
    let not_names = [
        "", " ", "#", "No.", "number", "letter", "letter ", "7", "1", "2", "0.201", "0.25 in", "in", "mm", "\"", "#0",
        "#98", "#07", "#7.0", "#-7", "##7", "#7 in", "7#", "FF", "AB", "letter 7", "é", "#é", "2/4", "54/128", "1/3",
        "27 / 64", "3-1/64", "1--1/16", "-1/16", "6.80 mm", "6,8 mm", "250 mm", "No.F", "letter letter F", "F in",
        "NaN", "inf in",
    ];
    for text in not_names {
        assert_eq!(meant(text), None, "{text:?}");
    }
}
