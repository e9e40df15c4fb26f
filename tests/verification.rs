//! `/v1/verification` says what data/checks holds, no more and no less.

mod common;

use common::checks;
use shop_reckoner::calculators::REGISTER;
use shop_reckoner::verification::{KINDS, all, of};

#[test]
fn every_row_of_the_checks_is_told_once() {
    let mut read: Vec<String> = checks()
        .iter()
        .map(|c| [&c.calculator, &c.inputs, &c.field, &c.expected, &c.unit, &c.tolerance, &c.source, &c.place, &c.kind])
        .map(|parts| parts.map(String::as_str).join("\n"))
        .collect();
    let mut told: Vec<String> = all()
        .iter()
        .flat_map(|checked| &checked.checks)
        .map(|c| [&c.calculator, &c.inputs, &c.field, &c.expected, &c.unit, &c.tolerance, &c.source, &c.place, &c.kind])
        .map(|parts| parts.map(String::as_str).join("\n"))
        .collect();
    read.sort();
    told.sort();
    assert!(read.len() > 1000);
    assert_eq!(read, told);
}

#[test]
fn every_calculator_is_verified_and_counts_only_what_comes_from_outside() {
    assert_eq!(all().len(), REGISTER.len());
    for entry in REGISTER {
        let checked = of(entry.id).unwrap_or_else(|| panic!("{} is not verified", entry.id));
        let outside = checks().iter().filter(|check| check.calculator == entry.id && check.is_outside()).count();
        assert_eq!(checked.outside(), outside, "{}", entry.id);
        let by_source = checked.by_source();
        assert_eq!(by_source.iter().map(|source| source.count).sum::<usize>(), checked.checks.len());
        assert!(by_source.iter().all(|source| KINDS.contains(&source.kind) && !source.title.is_empty()));
    }
}
