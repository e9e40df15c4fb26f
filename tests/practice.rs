//! Practice.

mod common;

use shop_reckoner::calculators::REGISTER;
use shop_reckoner::practice::{Question, Recipe};

#[test]
fn look() {
    for entry in REGISTER {
        println!("== {}", entry.id);
        for seed in 0..6 {
            let recipe = Recipe { entry, seed, from: None, vary: false, machine: None };
            match Question::make(recipe) {
                Ok(question) => {
                    println!("{seed}: {}", question.text);
                    println!("     = {}", question.wanted.quantity.text());
                    let slips = question.slips();
                    let right = question.wanted.quantity;
                    let line: Vec<String> = slips.iter().map(|s| format!("{} {:.5}", s.code, right.unit.of_si(s.value))).collect();
                    if seed < 2 { println!("     {}", line.join("; ")); }
                }
                Err(refusal) => println!("{seed}: REFUSED {refusal:?}"),
            }
        }
    }
}
