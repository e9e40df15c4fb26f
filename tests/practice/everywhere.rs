//! Every slip on every calculator that it fits: how often what it gives, rounded as one would write it, is told as it.

use super::question;
use crate::common::golden;
use shop_reckoner::calculators::REGISTER;
use shop_reckoner::fields::Given;
use shop_reckoner::practice::{CODES, Question, Slip};
use std::collections::{BTreeMap, BTreeSet};

/// Seeds that are asked of each calculator.
const SEEDS: u64 = 16;

/// How often a slip was named of how often it was made.
#[derive(Clone, Copy, Default)]
struct Named {
    named: usize,
    made: usize,
}

impl Named {
    fn add(&mut self, named: bool) {
        self.made += 1;
        self.named += usize::from(named);
    }

    fn share(&self) -> f64 {
        if self.made == 0 { 100.0 } else { 100.0 * self.named as f64 / self.made as f64 }
    }

    fn line(&self, what: &str) -> String {
        format!("{what}: {} of {}, {:.0} %\n", self.named, self.made, self.share())
    }
}

/// What the slip gives, as a trainee writes it down: at the places that the trade writes, or with the three digits that a
/// pocket calculator shows where those places leave fewer.
fn written(question: &Question, value: f64) -> String {
    let right = question.wanted.amount;
    let Some(quantity) = right.quantity() else { return right.with_si(value) };
    let number = quantity.unit.of_si(value);
    let places = (2.0 - number.abs().log10().floor()).max(0.0) as usize;
    let places = places.max(quantity.kind.places(quantity.unit));
    format!("{number:.places$} {}", quantity.unit.row().ascii)
}

/// Answers between half and twice what is right, from nowhere, with three digits.
fn at_random(question: &Question, seed: u64) -> Vec<String> {
    let Some(quantity) = question.wanted.amount.quantity() else { return Vec::new() };
    let mut state = seed * 2 + 1;
    let mut next = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as f64 / (1u64 << 31) as f64
    };
    (0..12)
        .map(|_| format!("{:.2e} {}", quantity.value * 2f64.powf(2.0 * next() - 1.0), quantity.unit.row().ascii))
        .collect()
}

#[test]
fn the_slip_named_is_the_slip_made() {
    let mut by_slip: BTreeMap<&str, Named> = CODES.iter().map(|(code, _)| (*code, Named::default())).collect();
    let mut lines = String::new();
    let (mut all, mut random, mut poor) = (Named::default(), Named::default(), Vec::new());
    for entry in REGISTER {
        let mut here = Named::default();
        let mut seen = BTreeSet::new();
        for seed in 0..SEEDS {
            let question = question(entry, seed);
            if !seen.insert(question.text.clone()) {
                continue;
            }
            let slips = question.slips().expect("slips");
            for answer in at_random(&question, seed) {
                let marked = question.mark_among(&Given::Text(answer.into()), || Ok(slips.clone())).expect("marked");
                if !marked.right {
                    random.add(!marked.slips.is_empty());
                }
            }
            for slip in &slips {
                let answer = written(&question, slip.value);
                let marked = question.mark_among(&Given::Text(answer.clone().into()), || Ok(slips.clone()));
                let marked = marked.unwrap_or_else(|refusal| panic!("{}: {answer}: {refusal:?}", entry.id));
                assert!(!marked.right, "{}: {}: {} {answer} is right", entry.id, question.text, slip.code);
                let is_it = |named: &Slip| {
                    named.code == slip.code && (named.value - slip.value).abs() <= 1e-3 * slip.value.abs()
                };
                let named = marked.slips.iter().any(is_it);
                if std::env::var("UNNAMED").is_ok() && !named {
                    let told: Vec<&str> = marked.slips.iter().map(|slip| slip.code).collect();
                    println!("{} {} {answer} told {told:?}: {} [{}]", entry.id, slip.code, question.text, slip.says);
                }
                by_slip.get_mut(slip.code).unwrap_or_else(|| panic!("{} is not listed", slip.code)).add(named);
                here.add(named);
                all.add(named);
            }
        }
        lines.push_str(&here.line(entry.id));
        if here.share() < 85.0 {
            poor.push(here.line(entry.id));
        }
    }
    let slips: String = by_slip.iter().map(|(code, named)| named.line(code)).collect();
    let report = format!(
        "{}{}\nBy slip\n{slips}\nBy calculator\n{lines}",
        all.line("All"),
        random.line("Answers that come of no slip, told as one")
    );
    golden("tests/practice/slips.txt", &report);
    assert!(all.share() >= 90.0, "{}", all.line("All"));
    assert!(random.share() < 10.0, "{}", random.line("told of no slip"));
    assert!(poor.is_empty(), "{}", poor.concat());
    for (code, named) in by_slip {
        assert!(named.share() >= 85.0, "{}", named.line(code));
    }
}
