//! Questions as a foreman asks them: each calculator has some of every level, each can be asked with every value it
//! may draw, and it reads as a person speaks.

mod common;

use shop_reckoner::asking::{Form, ask};
use shop_reckoner::calculators::exercise::Exercise;
use shop_reckoner::calculators::{Entry, REGISTER};
use shop_reckoner::fields::{Fields, Given};
use shop_reckoner::tree::Node;

/// Combinations of one set that are asked.
const MOST: usize = 48;

type Set = &'static [(&'static str, &'static [&'static str])];

/// The fields of the combination numbered `at`, first fields turning fastest.
fn combination(set: Set, mut at: usize) -> Vec<(&'static str, &'static str)> {
    let mut turn = |values: &'static [&'static str]| {
        let value = values[at % values.len()];
        at /= values.len();
        value
    };
    set.iter().map(|(name, values)| (*name, turn(values))).collect()
}

/// What is wrong with one question.
fn wrong(entry: &'static Entry, exercise: &Exercise, fields: &[(&'static str, &'static str)]) -> Option<String> {
    let given = fields.iter().map(|(name, value)| ((*name).into(), Given::Text((*value).into()))).collect();
    let answer = match ask(entry, Fields(given), Form::Json) {
        Ok((answer, _)) => answer,
        Err(refusal) => return Some(format!("is refused: {}", refusal.words())),
    };
    match answer.result().and_then(|result| result.at(exercise.asks)) {
        Some(Node::Quantity(_) | Node::Count(_)) => None,
        Some(other) => Some(format!("asks for {} which is {other:?}", exercise.asks)),
        None => Some(format!("asks for {}, which is not there", exercise.asks)),
    }
}

#[test]
fn every_calculator_has_questions_that_can_be_asked() {
    let mut faults = Vec::new();
    for entry in REGISTER {
        let level = |level| entry.exercises.iter().filter(|exercise| exercise.level == level).count();
        if entry.exercises.len() < 3 || level(1) == 0 || level(2) + level(3) == 0 {
            faults.push(format!("{}: {} questions", entry.id, entry.exercises.len()));
        }
        for exercise in entry.exercises {
            let mut fault = |says: String| faults.push(format!("{} \"{}\": {says}", entry.id, exercise.says));
            let names: Vec<&str> = exercise.says.split('{').skip(1).filter_map(|part| part.split('}').next()).collect();
            if exercise.says.contains('_') && names.iter().all(|name| !name.contains('_'))
                || exercise.says.chars().count() > 260
                || !exercise.says.trim_end().ends_with(['?', '.'])
                || !(1..=3).contains(&exercise.level)
            {
                fault("does not read as a question".to_owned());
            }
            for set in exercise.sets {
                for name in &names {
                    if !set.iter().any(|(known, _)| known == name) {
                        fault(format!("{name} has no value in a set"));
                    }
                }
                let all: usize = set.iter().map(|(_, values)| values.len()).product();
                for turn in 0..all.min(MOST) {
                    // A stride without a common divisor reaches every part of a large set.
                    let at = if all <= MOST { turn } else { turn * 7_919 % all };
                    let fields = combination(set, at);
                    if let Some(says) = wrong(entry, exercise, &fields) {
                        fault(format!("{fields:?} {says}"));
                    }
                }
            }
        }
    }
    faults.truncate(60);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn what_is_stated_is_as_round_as_a_drawing() {
    let mut odd = Vec::new();
    for entry in REGISTER {
        for (name, value) in entry
            .exercises
            .iter()
            .flat_map(|exercise| exercise.sets)
            .flat_map(|set| *set)
            .flat_map(|(name, values)| values.iter().map(move |value| (name, value)))
        {
            let digits = |number: &str| {
                number.split('.').nth(1).map_or(0, |rest| rest.chars().take_while(char::is_ascii_digit).count())
            };
            if value.split([' ', ',', ';', '/']).any(|part| digits(part) > 4) {
                odd.push(format!("{} {name} {value}", entry.id));
            }
        }
    }
    assert!(odd.is_empty(), "{}", odd.join("\n"));
}
