//! Tests of reading: what people type, what it means, and what is refused.

use super::*;
use crate::reference::threads::ThreadSystem;

fn name(text: &str) -> String {
    match read(text) {
        Ok(thread) => {
            let mut name = thread.designation.clone();
            for class in [&thread.internal_class, &thread.external_class] {
                name += &class.as_ref().map_or(String::new(), |class| format!(" {class}"));
            }
            if thread.left_hand {
                name += " LH";
            }
            if !thread.standard {
                name += " (computed)";
            }
            name
        }
        Err(error) => format!("{:?}", error.kind),
    }
}

#[test]
fn unified_designations_are_read_as_shops_write_them() {
    for (typed, meant) in [
        ("1/4-20", "1/4-20 UNC"),
        (".250-20 UNC 2A", "1/4-20 UNC 2A"),
        ("1/4-20 UNC-2A", "1/4-20 UNC 2A"),
        ("0.25-20", "1/4-20 UNC"),
        (".313-18", "5/16-18 UNC"),
        ("1/4\"-20", "1/4-20 UNC"),
        ("¼-20", "1/4-20 UNC"),
        ("1/4 x 20 tpi", "1/4-20 UNC"),
        ("1/4 UNC", "1/4-20 UNC"),
        ("1/4-20 UNC-2A-LH", "1/4-20 UNC 2A LH"),
        ("1/4-20unc2a/2b", "1/4-20 UNC 2B 2A"),
        ("1/4-20 UNRC-3A", "1/4-20 UNRC 3A"),
        ("10-32", "#10-32 UNF"),
        ("#10-32", "#10-32 UNF"),
        ("#10-32UNF", "#10-32 UNF"),
        ("No.10-32", "#10-32 UNF"),
        ("No 10-32", "#10-32 UNF"),
        ("2-56", "#2-56 UNC"),
        ("0-80", "#0-80 UNF"),
        ("1 1/4-7", "1 1/4-7 UNC"),
        ("1-1/4-7 UNC", "1 1/4-7 UNC"),
        ("2-4 1/2", "2-4.5 UNC"),
        ("2 1/4-4-1/2 UNC-2B", "2 1/4-4.5 UNC 2B"),
        ("1-12 UNF", "1-12 UNF"),
        ("1-8", "1-8 UNC"),
        ("1-8 UN", "1-8 UNC"),
        ("1 1/8-8UN", "1 1/8-8 UN"),
        ("1-14", "1-14 UNS"),
    ] {
        assert_eq!(name(typed), meant, "{typed}");
    }
}

#[test]
fn metric_designations_are_read_as_shops_write_them() {
    for (typed, meant) in [
        ("M8", "M8"),
        ("m8x1", "M8x1"),
        ("M8×1.25-6g", "M8 6g"),
        ("M8 x 1.25", "M8"),
        ("M8-1.25", "M8"),
        ("M10-6H", "M10 6H"),
        ("M20x1.5-4g6g", "M20x1.5 4g6g"),
        ("M6-6H/6g", "M6 6H 6g"),
        ("M6-5H6H/5g6g", "M6 5H6H 5g6g"),
        ("M6-6H6g", "M6 6H 6g"),
        ("M8-LH", "M8 LH"),
    ] {
        assert_eq!(name(typed), meant, "{typed}");
    }
    let thread = read("M16xPh4P2").unwrap();
    assert_eq!((thread.starts, thread.pitch, thread.lead()), (2, 2.0, 4.0));
}

#[test]
fn a_bare_whole_number_is_settled_by_the_lists_and_then_by_the_pitch() {
    assert_eq!(name("12-24"), "#12-24 UNC");
    assert_eq!(name("1-28"), "1-28 UN");
    assert_eq!(name("2-20"), "2-20 UN");
    assert_eq!(name("4-36"), "#4-36 UNS (computed)");
    assert_eq!(name("3-10"), "3-10 UNS (computed)");
    assert_eq!(name("1.000-24"), "1.000-24 UNS (computed)");
    assert_eq!(read("1-24").unwrap_err().try_this, "1.000-24");
}

#[test]
fn a_size_in_no_list_is_computed_and_its_neighbours_named() {
    let thread = read("1/4-24").unwrap();
    assert!(!thread.standard);
    assert_eq!(thread.nearest, ["1/4-28 UNF", "1/4-20 UNC"]);
    let thread = read("M10x0.5").unwrap();
    assert_eq!((thread.system, thread.standard), (ThreadSystem::Metric, false));
    assert_eq!(thread.nearest[0], "M10x0.75");
}

#[test]
fn a_series_that_lacks_the_size_is_refused_with_those_that_exist() {
    let error = read("1/4-28 UNC").unwrap_err();
    assert_eq!(error.kind, ErrorKind::SeriesMismatch);
    assert_eq!(error.nearest, ["1/4-20 UNC", "1/4-28 UNF"]);
    assert_eq!(error.try_this, "1/4-20 UNC");
    assert_eq!(name("1-14 UNF"), "SeriesMismatch");
    assert_eq!(name("1/4-20 UNS"), "SeriesMismatch");
}

#[test]
fn threads_of_other_standards_are_named_and_refused() {
    for text in ["NPTF 1/4", "1/4-18 NPSM", "MJ8x1", "1/4-20 UNJC", "10-32 NF", "2 BA", "Rd 40x1/6", "W 21.8x1/14"] {
        assert_eq!(name(text), "NotOffered", "{text}");
    }
}

#[test]
fn pipe_whitworth_and_power_threads_are_read_as_shops_write_them() {
    for (typed, meant) in [
        ("1/4-18 NPT", "1/4-18 NPT"),
        ("NPT 1/4", "1/4-18 NPT"),
        ("1-1/2 - 11 1/2 NPT", "1 1/2-11.5 NPT"),
        ("14 OD-8 NPT", "14-8 NPT"),
        ("G 1/2 A", "G 1/2 A"),
        ("G1/2", "G 1/2"),
        ("1/2 BSPP", "G 1/2"),
        ("R 1/2", "R 1/2"),
        ("Rp 3/4", "Rp 3/4"),
        ("1/4 whitworth", "1/4-20 BSW"),
        ("1/4-26 BSF", "1/4-26 BSF"),
        ("1/4-24 Whit", "1/4-24 Whitworth (computed)"),
        ("1-5 Acme-2G", "1-5 Acme 2G 2G"),
        ("1-4 acme", "1-4 Acme (computed)"),
        ("Tr 20x4", "Tr20x4"),
        ("tr20 X 4-7e LH", "Tr20x4 7e LH"),
    ] {
        assert_eq!(name(typed), meant, "{typed}");
    }
    let thread = read("Tr40x14P7").unwrap();
    assert_eq!((thread.starts, thread.pitch, thread.lead()), (2, 7.0, 14.0));
}

#[test]
fn pipe_whitworth_and_power_threads_that_do_not_exist_are_refused_with_neighbours() {
    for (text, kind, first) in [
        ("7/16 NPT", "SeriesMismatch", "1/2-14 NPT"),
        ("1/4-14 NPT", "SeriesMismatch", "1/4-18 NPT"),
        ("G 9/16", "SeriesMismatch", "G 5/8"),
        ("R 5/8", "SeriesMismatch", "R 3/4"),
        ("1/2 BSP", "Ambiguous", "G 1/2"),
        ("1/2 BSPT", "Ambiguous", "R 1/2"),
        ("1/4-26 BSW", "SeriesMismatch", "1/4-26 BSF"),
        ("Tr20", "PitchMissing", "Tr20x2"),
        ("1-5 Acme-5C", "ClassUnknown", ""),
        ("Tr20x4-6g", "ClassUnknown", ""),
        ("1/2-14 NPT-2B", "Unreadable", ""),
        ("Tr20x15", "OutOfRange", ""),
    ] {
        let error = read(text).unwrap_err();
        assert_eq!(format!("{:?}", error.kind), kind, "{text}: {}", error.says);
        assert!(read(&error.try_this).is_ok(), "{text}: {}", error.try_this);
        assert!(
            first.is_empty() || error.nearest.first().is_some_and(|near| near == first),
            "{text}: {:?}",
            error.nearest
        );
    }
}

#[test]
fn what_cannot_be_a_thread_is_refused() {
    for (text, kind) in [
        ("", "Empty"),
        ("  ", "Empty"),
        ("winch bolt", "Unreadable"),
        ("M", "Unreadable"),
        ("1/0-20", "Unreadable"),
        ("1/4-20 x 1", "Unreadable"),
        ("M8x1.25x25", "Unreadable"),
        ("M8x1,25", "Ambiguous"),
        ("1/4", "PitchMissing"),
        ("1 UNC", "PitchMissing"),
        ("M15", "PitchMissing"),
        ("M8x25", "OutOfRange"),
        ("#14-20", "OutOfRange"),
        ("1/4-0", "OutOfRange"),
        ("0-8", "OutOfRange"),
        ("-1/4-20 UNC-4A", "ClassUnknown"),
        ("M8-5g", "ClassUnknown"),
        ("M8-6c", "ClassWithoutData"),
        ("1/4-20 2A 3A", "Ambiguous"),
        // 1/2-20 or number 12; 1/4-20; number 10 or ten inches: nobody but the writer knows.
        ("12-20", "Ambiguous"),
        ("14-20", "Ambiguous"),
        ("10-20", "Ambiguous"),
        ("516-18", "Ambiguous"),
        ("M1.7", "PitchMissing"),
    ] {
        assert_eq!(name(text), kind, "{text}");
    }
}

#[test]
fn a_bare_size_that_can_be_only_one_is_read_and_every_reading_offered_reads() {
    assert_eq!(
        (name("12-24"), name("10-32"), name("1-8")),
        ("#12-24 UNC".into(), "#10-32 UNF".into(), "1-8 UNC".into())
    );
    for text in ["12-20", "14-20", "10-20", "516-18"] {
        for reading in read(text).unwrap_err().nearest {
            let thread = read(&reading).unwrap();
            assert_eq!(read(&thread.designation).unwrap().diameter, thread.diameter, "{text}: {reading}");
        }
    }
    assert_eq!(read("12-20").unwrap_err().nearest, ["1/2-20 UNF", "#12-20", "12.000-20"]);
}

#[test]
fn every_listed_designation_reads_back_as_itself() {
    use crate::reference::threads::series::{metric_rows, primary_rows};
    let unified = primary_rows().map(|row| row.designation());
    let metric = metric_rows().iter().map(|row| row.designation.clone());
    for text in unified.chain(metric) {
        assert_eq!(name(&text), text);
    }
}

#[test]
fn every_value_to_try_is_accepted_or_is_a_class() {
    for text in ["", "x", "1/4", "M15", "M8x25", "1/4-28 UNC", "2 BA", "M8x1,25", "1/4-20 4C"] {
        let error = read(text).unwrap_err();
        assert!(read(&error.try_this).is_ok(), "{text}: {}", error.try_this);
    }
}
