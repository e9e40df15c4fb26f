//! The rows of data/checks: every answer against a value from outside the project, to the last
//! digit that its source prints.

mod common;

use common::{Check, asked, checks, golden};
use serde_json::Value;
use shop_reckoner::calculators::REGISTER;
use std::collections::{BTreeMap, HashMap};

/// What the answer has at the row's field, or why there is nothing.
fn found<'v>(answer: &'v Value, field: &str) -> Result<&'v Value, String> {
    let mut at = &answer["result"];
    let mut walked = String::new();
    // The slash of a name such as 27/64 parts nothing.
    let mut named = false;
    let parts = field.trim_start_matches('/').split(|c| {
        named = (named || c == '[') && c != ']';
        c == '/' && !named
    });
    for part in parts {
        // `candidates[name=#7]` is the row of that name.
        let next = match part.split_once('[') {
            Some((list, wanted)) => {
                let (key, value) = wanted.trim_end_matches(']').split_once('=').ok_or("bad selector")?;
                let rows = at[list].as_array().ok_or_else(|| format!("{walked}/{list} is no list"))?;
                rows.iter().find(|row| row[key] == value)
            }
            None => match part.parse::<usize>() {
                Ok(number) => at.get(number),
                Err(_) => at.get(part),
            },
        };
        walked = format!("{walked}/{part}");
        at = next.ok_or_else(|| format!("nothing at {walked}"))?;
    }
    Ok(at)
}

/// Compares; the error says how they differ.
fn compare(check: &Check, value: &Value) -> Result<(), String> {
    if check.tolerance.is_empty() {
        let is = match value {
            Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        return if is == check.expected { Ok(()) } else { Err(format!("is {is}, not {}", check.expected)) };
    }
    let (is, unit) = match value {
        Value::Object(_) => (value["value"].as_f64(), value["unit"].as_str().unwrap_or("")),
        other => (other.as_f64(), ""),
    };
    let is = is.ok_or_else(|| format!("{value} is no number"))?;
    let ascii = |unit: &str| unit.replace('³', "3").replace('²', "2").replace('µ', "u");
    if ascii(unit) != ascii(&check.unit) {
        return Err(format!("is in {unit}, not {}", check.unit));
    }
    let expected: f64 = check.expected.parse().map_err(|_| format!("{} is no number", check.expected))?;
    let tolerance: f64 = check.tolerance.parse().map_err(|_| format!("{} is no tolerance", check.tolerance))?;
    // A tolerance of half a printed digit is itself a double; the last bits are no difference.
    let slack = tolerance * (1.0 + 1e-9) + expected.abs() * 4.0 * f64::EPSILON;
    if (is - expected).abs() <= slack { Ok(()) } else { Err(format!("is {is}, not {expected} ±{tolerance}")) }
}

fn answers() -> impl FnMut(&Check) -> Result<Value, String> {
    let mut kept: HashMap<(String, String), Result<Value, String>> = HashMap::new();
    move |check| {
        kept.entry((check.calculator.clone(), check.inputs.clone()))
            .or_insert_with(|| asked(check.entry(), &check.inputs).map_err(|refusal| format!("refused: {refusal:?}")))
            .clone()
    }
}

#[test]
fn every_answer_agrees_with_its_outside_value() {
    let mut answer = answers();
    let mut failures = Vec::new();
    let mut counts: BTreeMap<(String, String), usize> = BTreeMap::new();
    for check in checks() {
        *counts.entry((check.calculator.clone(), check.kind.clone())).or_default() += 1;
        let outcome = answer(&check).and_then(|answer| compare(&check, found(&answer, &check.field)?));
        if let Err(says) = outcome {
            failures.push(format!("{} {}?{} {}: {says}", check.line, check.calculator, check.inputs, check.field));
        }
    }
    let lines: Vec<String> =
        counts.iter().map(|((calculator, kind), count)| format!("{calculator}: {count} {kind}\n")).collect();
    golden("data/checks/counts.txt", &lines.concat());
    assert!(failures.is_empty(), "{} of the checks fail:\n{}", failures.len(), failures.join("\n"));
}

#[test]
fn every_calculator_has_at_least_five_outside_checks() {
    let checks = checks();
    for entry in REGISTER {
        let outside = checks.iter().filter(|check| check.calculator == entry.id && check.is_outside()).count();
        assert!(outside >= 5, "{} has {outside} outside checks", entry.id);
    }
}

#[test]
fn a_changed_expected_value_is_noticed_in_every_row() {
    let mut answer = answers();
    for check in checks() {
        let Ok(answer) = answer(&check) else { continue };
        let Ok(value) = found(&answer, &check.field) else { continue };
        let mut changed = check.clone();
        if check.tolerance.is_empty() {
            changed.expected.push('x');
        } else {
            let expected: f64 = check.expected.parse().expect("a number");
            let tolerance: f64 = check.tolerance.parse().expect("a tolerance");
            let shift = (3.0 * tolerance).max(expected.abs() * 1e-12);
            changed.expected = format!("{}", expected + shift);
        }
        assert!(compare(&changed, value).is_err(), "{}: a change goes unnoticed", check.line);
    }
}

#[test]
fn every_check_is_of_a_known_kind_and_names_its_source() {
    for check in checks() {
        let kinds = ["published", "library", "common practice", "from memory"];
        assert!(kinds.contains(&check.kind.as_str()), "{}: kind {}", check.line, check.kind);
        assert!(shop_reckoner::sources::source(&check.source).is_some(), "{}: source {}", check.line, check.source);
        assert!(!check.place.is_empty(), "{}: no place in the source", check.line);
        if check.kind == "library" {
            let script = check.place.split_whitespace().find(|word| word.starts_with("tests/checks/"));
            let script = script.unwrap_or_else(|| panic!("{}: no script named", check.line));
            let script = script.trim_end_matches([',', ';', ':']);
            assert!(common::root().join(script).exists(), "{}: no {script}", check.line);
        }
    }
}
