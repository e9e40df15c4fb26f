//! Every slip on every calculator that it fits: how often what it gives, rounded as one would write it, is told as it.

use super::question;
use crate::common::golden;
use shop_reckoner::calculators::REGISTER;
use shop_reckoner::fields::Given;
use shop_reckoner::practice::{CODES, Question};
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

/// What the slip gives, as a trainee writes it down: at the places that the trade writes.
fn written(question: &Question, value: f64) -> String {
    let right = question.wanted.amount;
    right.with_si(value).replace('%', "percent").replace('°', " deg")
}

#[test]
fn the_slip_named_is_the_slip_made() {
    let mut by_slip: BTreeMap<&str, Named> = CODES.iter().map(|(code, _)| (*code, Named::default())).collect();
    let mut lines = String::new();
    let (mut all, mut poor) = (Named::default(), Vec::new());
    for entry in REGISTER {
        let mut here = Named::default();
        let mut seen = BTreeSet::new();
        for seed in 0..SEEDS {
            let question = question(entry, seed);
            if !seen.insert(question.text.clone()) {
                continue;
            }
            for slip in question.slips().expect("slips") {
                let answer = written(&question, slip.value);
                let marked = question.mark(&Given::Text(answer.clone().into()));
                let marked = marked.unwrap_or_else(|refusal| panic!("{}: {answer}: {refusal:?}", entry.id));
                assert!(!marked.right, "{}: {}: {} {answer} is right", entry.id, question.text, slip.code);
                let named = marked.slips.iter().any(|named| named.code == slip.code);
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
        if here.share() < 75.0 {
            poor.push(here.line(entry.id));
        }
    }
    let slips: String = by_slip.iter().map(|(code, named)| named.line(code)).collect();
    golden("tests/practice/slips.txt", &format!("{}\nBy slip\n{slips}\nBy calculator\n{lines}", all.line("All")));
    assert!(all.share() >= 90.0, "{}", all.line("All"));
    assert!(poor.is_empty(), "{}", poor.concat());
    for (code, named) in by_slip {
        assert!(named.share() >= 75.0, "{}", named.line(code));
    }
}
