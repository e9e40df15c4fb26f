//! Every slip on every calculator that it fits: what it gives is told as it, and the list of what fits
//! where is kept.

use super::{mark, recipe};
use crate::common::golden;
use shop_reckoner::calculators::REGISTER;
use shop_reckoner::practice::{CODES, Question, Recipe};
use std::collections::{BTreeMap, BTreeSet};

/// Questions that are made of each example.
const QUESTIONS: u64 = 6;

#[test]
fn every_slip_is_told_on_every_calculator_it_fits() {
    let mut fits: BTreeMap<&str, BTreeSet<&str>> = CODES.iter().map(|(code, _)| (*code, BTreeSet::new())).collect();
    let mut told: BTreeSet<(&str, &str)> = BTreeSet::new();
    for entry in REGISTER {
        for (at, example) in entry.examples.iter().enumerate() {
            let from: Vec<String> = example.fields.iter().map(|(name, value)| format!("{name}={value}")).collect();
            for seed in 0..QUESTIONS {
                let from = Some(from.join("&").replace('%', "%25"));
                let question = Question::make(Recipe { from, ..recipe(entry, seed + QUESTIONS * at as u64) });
                let question = question.unwrap_or_else(|refusal| panic!("{}: {refusal:?}", entry.id));
                let (right, all) = (question.wanted.quantity, question.slips().unwrap());
                for slip in &all {
                    fits.get_mut(slip.code).unwrap_or_else(|| panic!("{} is not listed", slip.code)).insert(entry.id);
                    if told.contains(&(slip.code, entry.id)) {
                        continue;
                    }
                    let answer = format!("{:.12e} {}", right.unit.of_si(slip.value), right.unit.row().ascii);
                    let marked = mark(&question, &answer);
                    assert!(!marked.right, "{}: {} {answer} is right", entry.id, slip.code);
                    let seen =
                        marked.slip.unwrap_or_else(|| panic!("{}: {} {answer} is not seen", entry.id, slip.code));
                    // Another slip can give the same; then that which is looked for first is told.
                    let near = (seen.value - slip.value).abs() <= 0.02 * slip.value.abs();
                    assert!(near, "{}: {answer} is {}, told as {}", entry.id, slip.code, seen.code);
                    told.insert((seen.code, entry.id));
                }
            }
        }
    }
    // Another result can be what a missing conversion gives, and then is told as that.
    for (code, calculators) in fits.iter().filter(|(code, _)| **code != "other_result") {
        for calculator in calculators {
            assert!(told.contains(&(code, calculator)), "{code} is never told on {calculator}");
        }
    }
    let lines: Vec<String> = fits
        .iter()
        .map(|(code, calculators)| format!("{code}: {}\n", calculators.iter().copied().collect::<Vec<_>>().join(", ")))
        .collect();
    golden("tests/practice/slips.txt", &lines.concat());
}
