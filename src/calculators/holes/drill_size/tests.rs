//! Drills near a size, against a plain search of the tables.

use super::*;
use crate::fields::{Fields, Given};
use crate::reference::drills::drills;
use proptest::prelude::*;
use validator::Validate;

fn solved(query: &str) -> Result<(DrillSizeResult, Record), Refusal> {
    let pair = |pair: &str| {
        let (name, value) = pair.split_once('=').unwrap_or((pair, ""));
        (name.to_owned().into(), Given::Text(value.to_owned().into()))
    };
    let input: DrillSizeInput = Fields(query.split('&').map(pair).collect()).read(|_| None)?;
    input.validate()?;
    let mut record = Record::new(true);
    Ok((DrillSize::solve(&input, &mut record)?, record))
}

fn names(query: &str) -> Vec<&'static str> {
    let (result, _) = solved(query).unwrap_or_else(|refusal| panic!("{query}: {refusal:?}"));
    result.drills.iter().map(|drill| drill.name).collect()
}

#[test]
fn a_named_drill_comes_first_among_those_of_its_size() {
    assert_eq!(names("name=E&count=2"), ["E", "1/4"]);
    assert_eq!(names("name=1/4&count=2"), ["1/4", "E"]);
    assert_eq!(names("diameter=E&count=2"), ["E", "1/4"]);
    assert_eq!(names("diameter=0.25 in&count=2"), ["1/4", "E"]);
    assert_eq!(names("name=12.7 mm&systems=fraction&count=1"), ["1/2"]);
}

#[test]
fn equal_sizes_in_two_units_differ_by_nothing() {
    let (result, _) = solved("diameter=6.35 mm&systems=fraction,letter&count=2&side=under").unwrap();
    assert_eq!(result.drills.len(), 2);
    for drill in result.drills {
        let zero = drill.difference.quantity().value;
        assert!(zero == 0.0 && zero.is_sign_positive());
    }
}

#[test]
fn halfway_between_two_drills_the_smaller_comes_first() {
    assert_eq!(names("diameter=0.2 in&systems=number&count=2"), ["#8", "#7"]);
}

#[test]
fn exactly_one_of_diameter_and_name_is_asked_for() {
    for query in ["diameter=0.2 in&name=No.7", "count=3"] {
        let fields: Vec<String> = solved(query).unwrap_err().0.into_iter().map(|wrong| wrong.field).collect();
        assert_eq!(fields, ["/diameter", "/name"], "{query}");
    }
}

#[test]
fn an_unknown_name_is_refused_with_one_that_is_known() {
    for (name, meant) in [("7", "No.7"), ("6.8", "6.8 mm"), ("#200", "No.7"), ("winch", "No.7")] {
        let refusal = solved(&format!("name={name}")).unwrap_err();
        assert_eq!(refusal.0[0].try_this.as_deref(), Some(meant));
        assert_eq!(refusal.0[0].code, Code::NotFound);
        assert!(solved(&format!("name={meant}")).is_ok());
    }
}

#[test]
fn counts_and_systems_out_of_bounds_are_refused() {
    for query in ["diameter=5 mm&count=0", "diameter=5 mm&count=51", "diameter=5 mm&systems=imperial"] {
        assert!(solved(query).is_err(), "{query}");
    }
    assert_eq!(names("diameter=5 mm&count=50").len(), 50);
    assert_eq!(names("diameter=5 mm").len(), 5);
}

#[test]
fn a_size_outside_the_table_is_noted_or_refused_with_a_way_out() {
    let (_, record) = solved("diameter=9 in&systems=number").unwrap();
    assert!(record.notes.iter().any(|note| note.code == "outside_table" && note.says.contains("from #97 to #1")));
    let (_, record) = solved("diameter=5 mm&systems=number").unwrap();
    assert!(!record.notes.iter().any(|note| note.code == "outside_table"));
    for query in ["diameter=0.3 in&systems=number&side=over", "name=Z&systems=number&side=over"] {
        let refusal = solved(query).unwrap_err();
        assert_eq!(refusal.0.len(), 3);
        for wrong in refusal.0 {
            assert_eq!(wrong.code, Code::NoAnswer);
            let field = wrong.field.trim_start_matches('/').to_owned();
            let kept: Vec<&str> = query.split('&').filter(|part| !part.starts_with(&format!("{field}="))).collect();
            let mended = format!("{}&{field}={}", kept.join("&"), wrong.try_this.unwrap());
            assert!(!names(&mended).is_empty(), "{mended}");
        }
    }
}

proptest! {
    #[test]
    fn no_drill_left_out_is_nearer(
        size in 0.1..30.0f64,
        count in 1usize..=50,
        side in prop::sample::select(vec!["nearest", "under", "over"]),
        system in prop::sample::select(DrillSystem::ALL.to_vec()),
    ) {
        let query = format!("diameter={size} mm&count={count}&side={side}&systems={}", system.as_str());
        let Ok((result, _)) = solved(&query) else { return Ok(()) };
        let on_side = |difference: f64| match side {
            "under" => difference <= 1e-9,
            "over" => difference >= -1e-9,
            _ => true,
        };
        let mut off: Vec<f64> = drills()
            .iter()
            .filter(|drill| drill.system == system)
            .map(|drill| drill.millimetres() - size)
            .filter(|difference| on_side(*difference))
            .map(f64::abs)
            .collect();
        off.sort_by(f64::total_cmp);
        off.truncate(count);
        let found: Vec<f64> =
            result.drills.iter().map(|drill| (drill.difference.get().si() * 1000.0).abs()).collect();
        prop_assert_eq!(found.len(), off.len());
        for (found, off) in found.iter().zip(&off) {
            prop_assert!((found - off).abs() < 1e-9, "{} {}", found, off);
        }
    }
}
