//! The working that answers show: every formula evaluated with the values shown must give the value
//! shown, every number must come from an input, a cited constant or an earlier step, and every
//! result must be what some step gives.

mod common;

use common::{asked, checks, query};
use exmex::Express;
use serde_json::Value;
use shop_reckoner::calculators::REGISTER;
use shop_reckoner::quantity::{Unit, read};
use std::collections::{HashMap, HashSet};

/// A value of the working: numbers in SI units, or words.
#[derive(Clone, Debug)]
enum Known {
    Numbers(Vec<f64>),
    Words(Vec<String>),
}

fn same(a: f64, b: f64, within: f64) -> bool {
    let size = a.abs().max(b.abs());
    (a - b).abs() <= within * size || (a - b).abs() < 1e-15
}

impl Known {
    fn agrees(&self, other: &Known) -> bool {
        match (self, other) {
            (Known::Numbers(a), Known::Numbers(b)) => {
                a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(*a, *b, 1e-11))
            }
            (Known::Words(a), Known::Words(b)) => a == b,
            _ => false,
        }
    }
}

/// One value as the working writes it.
fn one(text: &str) -> Result<f64, String> {
    let written = read(text, "1 in").map_err(|unread| format!("\"{text}\": {}", unread.says))?;
    Ok(written.unit.map_or(written.value, |unit| unit.to_si(written.value)))
}

fn several(text: &str) -> Known {
    let parts: Vec<&str> = text.split(", ").collect();
    match parts.iter().map(|part| one(part)).collect::<Result<Vec<_>, _>>() {
        Ok(numbers) => Known::Numbers(numbers),
        Err(_) => Known::Words(parts.into_iter().map(str::to_owned).collect()),
    }
}

fn unit(value: &Value) -> Option<Unit> {
    Unit::named(value["unit"].as_str()?)
}

/// What a step gives.
fn gives(step: &Value) -> Known {
    let given = &step["gives"];
    let si = |number: f64| unit(given).map_or(number, |unit| unit.to_si(number));
    if let Some(values) = given["values"].as_array() {
        Known::Numbers(values.iter().filter_map(Value::as_f64).map(si).collect())
    } else if let Some(texts) = given["texts"].as_array() {
        Known::Words(texts.iter().filter_map(Value::as_str).map(str::to_owned).collect())
    } else if let Some(value) = given["value"].as_f64() {
        Known::Numbers(vec![si(value)])
    } else {
        Known::Words(vec![given["text"].as_str().unwrap_or_default().to_owned()])
    }
}

/// Every leaf under `value` by its path without list numbers.
fn leaves(value: &Value, path: &str, out: &mut HashMap<String, Vec<Value>>) {
    match value {
        Value::Object(map) if map.contains_key("value") && map.contains_key("unit") => {
            out.entry(path.to_owned()).or_default().push(value.clone());
        }
        Value::Object(map) => {
            for (name, member) in map {
                let path = if path.is_empty() { name.clone() } else { format!("{path}.{name}") };
                leaves(member, &path, out);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| leaves(item, path, out)),
        leaf => out.entry(path.to_owned()).or_default().push(leaf.clone()),
    }
}

fn known(values: &[Value]) -> Known {
    let number = |value: &Value| match value {
        Value::Object(_) => value["value"].as_f64().map(|n| unit(value).map_or(n, |unit| unit.to_si(n))),
        other => other.as_f64(),
    };
    match values.iter().map(number).collect::<Option<Vec<_>>>() {
        Some(numbers) => Known::Numbers(numbers),
        None => Known::Words(
            values.iter().map(|value| value.as_str().map_or_else(|| value.to_string(), str::to_owned)).collect(),
        ),
    }
}

/// A formula in the evaluator's spelling, with its symbols in braces.
fn spelled(formula: &str, symbols: &[String]) -> Result<String, String> {
    let right = formula.split_once('=').ok_or("the formula has no =")?.1;
    let mut out = String::new();
    let mut chars = right.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '×' | '·' => out.push('*'),
            '−' | '–' => out.push('-'),
            '√' => out.push_str("sqrt"),
            'π' if !chars.peek().is_some_and(|c| c.is_alphanumeric()) => out.push_str("3.14159265358979323846"),
            c if c.is_alphabetic() => {
                let mut word = String::from(c);
                while let Some(next) = chars.peek().copied().filter(|c| c.is_alphanumeric() || *c == '_') {
                    word.push(next);
                    chars.next();
                }
                if chars.peek() == Some(&'(') && !symbols.contains(&word) {
                    out.push_str(&word);
                } else if symbols.contains(&word) {
                    out.push_str(&format!("{{{word}}}"));
                } else {
                    return Err(format!("the symbol {word} has no value"));
                }
            }
            c if c.is_ascii_digit() => {
                let mut number = String::from(c);
                while let Some(next) = chars.peek().copied().filter(|c| c.is_ascii_digit() || *c == '.') {
                    number.push(next);
                    chars.next();
                }
                let whole: u32 = number.parse().map_err(|_| format!("{number} is no cited constant"))?;
                if whole > 360 {
                    return Err(format!("{number} is no cited constant"));
                }
                out.push_str(&number);
            }
            c => out.push(c),
        }
    }
    Ok(out)
}

type OverRows = fn(&[f64]) -> f64;

/// The functions that run over the rows of a list.
const OVER_ROWS: &[(&str, OverRows)] = &[
    ("sum(", |rows| rows.iter().sum()),
    ("least(", |rows| rows.iter().copied().fold(f64::INFINITY, f64::min)),
    ("greatest(", |rows| rows.iter().copied().fold(f64::NEG_INFINITY, f64::max)),
];

/// The formula with a symbol of its own for each part that runs over the rows of a list.
fn over_rows(formula: &str, with: &[(String, Known)]) -> Result<(String, Vec<(String, Known)>), String> {
    let (mut formula, mut with) = (formula.to_owned(), with.to_vec());
    let found = |formula: &str| OVER_ROWS.iter().find_map(|(name, act)| Some((formula.find(name)?, *name, *act)));
    while let Some((at, name, act)) = found(&formula) {
        let inside = at + name.len();
        let mut depth = 1;
        let length = formula[inside..].find(|c| {
            depth += i32::from(c == '(') - i32::from(c == ')');
            depth == 0
        });
        let end = inside + length.ok_or("a bracket is not closed")?;
        let rows = with.iter().map(|(_, known)| match known {
            Known::Numbers(list) => list.len(),
            Known::Words(_) => 0,
        });
        let values = evaluate(&format!("x = {}", &formula[inside..end]), &with, rows.max().unwrap_or_default())?;
        let symbol = format!("Σ{}", with.len());
        formula.replace_range(at..=end, &symbol);
        with.push((symbol, Known::Numbers(vec![act(&values)])));
    }
    Ok((formula, with))
}

fn evaluate(formula: &str, with: &[(String, Known)], rows: usize) -> Result<Vec<f64>, String> {
    let (formula, with) = over_rows(formula, with)?;
    let symbols: Vec<String> = with.iter().map(|(symbol, _)| symbol.clone()).collect();
    let spelled = spelled(&formula, &symbols)?;
    let parsed = exmex::parse::<f64>(&spelled).map_err(|error| format!("{spelled}: {error}"))?;
    (0..rows)
        .map(|row| {
            let values: Vec<f64> = parsed
                .var_names()
                .iter()
                .map(|name| match with.iter().find(|(symbol, _)| symbol == name) {
                    Some((_, Known::Numbers(list))) if list.len() == 1 => Ok(list[0]),
                    Some((_, Known::Numbers(list))) if list.len() == rows => Ok(list[row]),
                    other => Err(format!("{name} has no number for row {row}: {other:?}")),
                })
                .collect::<Result<_, _>>()?;
            parsed.eval(&values).map_err(|error| error.to_string())
        })
        .collect()
}

fn verify(answer: &Value) -> Result<(), String> {
    let mut origins: HashMap<String, Known> = HashMap::new();
    let mut inputs = HashMap::new();
    leaves(&answer["inputs"], "", &mut inputs);
    for (path, values) in &inputs {
        origins.insert(path.clone(), known(values));
    }
    for assumed in answer["assumed"].as_array().into_iter().flatten() {
        let mut value = HashMap::new();
        leaves(&assumed["value"], "", &mut value);
        let name = assumed["field"].as_str().unwrap_or_default().to_owned();
        for (path, values) in value {
            let path = if path.is_empty() { name.clone() } else { format!("{name}.{path}") };
            origins.insert(path, known(&values));
        }
    }
    let mut given = HashSet::new();
    for step in answer["working"].as_array().into_iter().flatten() {
        let formula = step["formula"].as_str().unwrap_or_default();
        let says = |words: String| format!("step \"{formula}\": {words}");
        let mut with = Vec::new();
        for part in step["with"].as_str().unwrap_or_default().split("; ").filter(|part| !part.is_empty()) {
            let (name, value) = part.split_once(" = ").ok_or_else(|| says(format!("\"{part}\"")))?;
            let (symbol, of) = name.split_once(" (").ok_or_else(|| says(format!("\"{part}\"")))?;
            let of = of.trim_end_matches(')');
            let value = several(value);
            match origins.get(of) {
                _ if of.starts_with("constant:") => {}
                Some(origin) if origin.agrees(&value) => {}
                origin => return Err(says(format!("{symbol} ({of}) = {value:?}, but {of} is {origin:?}"))),
            }
            with.push((symbol.to_owned(), value));
        }
        let gives = gives(step);
        match (step["by"].as_str(), &gives) {
            (Some("formula"), Known::Numbers(numbers)) => {
                let values = evaluate(formula, &with, numbers.len()).map_err(says)?;
                for (computed, shown) in values.iter().zip(numbers) {
                    // A difference of near numbers shows no more than the digits of its parts.
                    let size = with.iter().fold(0.0, |size: f64, (_, known)| match known {
                        Known::Numbers(list) => list.iter().fold(size, |size, n| size.max(n.abs())),
                        Known::Words(_) => size,
                    });
                    if !same(*computed, *shown, 1e-9) && (computed - shown).abs() > size * 1e-13 {
                        return Err(says(format!("gives {computed}, but {shown} is shown")));
                    }
                }
            }
            (Some("choice"), Known::Numbers(numbers)) => {
                let offered: Vec<f64> = with
                    .iter()
                    .flat_map(|(_, known)| match known {
                        Known::Numbers(list) => list.clone(),
                        Known::Words(_) => Vec::new(),
                    })
                    .collect();
                for number in numbers {
                    if !offered.iter().any(|one| same(*one, *number, 1e-11)) {
                        return Err(says(format!("chooses {number} from {offered:?}")));
                    }
                }
            }
            (Some("choice" | "table"), _) => {}
            other => return Err(says(format!("is of no known kind: {other:?}"))),
        }
        let field = step["gives"]["field"].as_str().unwrap_or_default().to_owned();
        if !given.insert(field.clone()) {
            return Err(says(format!("{field} is given a second time")));
        }
        origins.insert(field, gives);
    }
    let mut results = HashMap::new();
    leaves(&answer["result"], "", &mut results);
    for (path, values) in &results {
        let path = path.replace(".set_to", "").replace(".left_over", "");
        if !given.contains(&path) {
            return Err(format!("the result {path} is given by no step"));
        }
        let shown = known(values);
        if !origins[&path].agrees(&shown) {
            return Err(format!("the result {path} is {shown:?}, but its step gives {:?}", origins[&path]));
        }
    }
    Ok(())
}

#[test]
fn every_example_shows_working_that_is_right() {
    let mut failures = Vec::new();
    for entry in REGISTER {
        for example in entry.examples {
            for units in ["", "&units=inch", "&units=metric"] {
                let text = format!("{}{units}", query(example.fields));
                let outcome = asked(entry, &text).map_err(|r| format!("{r:?}")).and_then(|answer| verify(&answer));
                if let Err(says) = outcome {
                    failures.push(format!("{}?{text}: {says}", entry.id));
                }
            }
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

/// The paths of an answer's results.
fn result_paths(answer: &Value) -> HashSet<String> {
    let mut results = HashMap::new();
    leaves(&answer["result"], "", &mut results);
    results.into_keys().collect()
}

#[test]
fn every_checked_answer_shows_working_that_is_right() {
    let mut seen = HashSet::new();
    let mut failures = Vec::new();
    // What a calculator's answers have between them, and the answers.
    let mut paths: HashMap<String, HashSet<String>> = HashMap::new();
    let mut answers = Vec::new();
    for check in checks() {
        if !seen.insert((check.calculator.clone(), check.inputs.clone())) {
            continue;
        }
        let Ok(answer) = asked(check.entry(), &check.inputs) else { continue };
        if let Err(says) = verify(&answer) {
            failures.push(format!("{}?{}: {says}", check.calculator, check.inputs));
        }
        paths.entry(check.calculator.clone()).or_default().extend(result_paths(&answer));
        answers.push((check.calculator, check.inputs, answer));
    }
    // What one answer has among its results another that works it out has too.
    for (calculator, inputs, answer) in &answers {
        let has = result_paths(answer);
        let worked_out = answer["working"].as_array().into_iter().flatten();
        for field in worked_out.filter_map(|step| step["gives"]["field"].as_str()) {
            if paths[calculator].contains(field) && !has.contains(field) {
                failures.push(format!("{calculator}?{inputs}: {field} is worked out, and is not among the results"));
            }
        }
    }
    assert!(failures.is_empty(), "{} answers:\n{}", failures.len(), failures.join("\n"));
}

#[test]
fn a_formula_can_run_over_rows() {
    let with = [("x".to_owned(), Known::Numbers(vec![1.0, 2.0, 4.0])), ("a".to_owned(), Known::Numbers(vec![3.0]))];
    assert_eq!(evaluate("y = sum(a × x) / 3 - greatest(x) + least((x - a)^2)", &with, 1), Ok(vec![4.0]));
}

#[test]
fn a_wrong_step_is_noticed() {
    let entry = &REGISTER[0];
    let text: Vec<String> = entry.examples[0].fields.iter().map(|(name, value)| format!("{name}={value}")).collect();
    let answer = asked(entry, &text.join("&")).expect("the first example");
    assert_eq!(verify(&answer), Ok(()));
    for (at, step) in answer["working"].as_array().expect("steps").iter().enumerate() {
        let mut changed = answer.clone();
        let gives = &mut changed["working"][at]["gives"];
        if let Some(value) = step["gives"]["value"].as_f64() {
            gives["value"] = (value + 0.001).into();
        } else if step["gives"]["values"].is_array() {
            gives["values"][0] = 0.001.into();
        } else {
            continue;
        }
        assert!(verify(&changed).is_err(), "a change in step {at} goes unnoticed");
        let mut unnamed = answer.clone();
        unnamed["working"][at]["gives"]["field"] = "something_else".into();
        assert!(verify(&unnamed).is_err(), "a missing step {at} goes unnoticed");
    }
}
