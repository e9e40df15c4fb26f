//! One value of an answer for a cell of a spreadsheet: the bare number or word.

use crate::asking::describing::{Digits, Reserved};
use crate::asking::solving::Answer;
use crate::json::ToJson;
use crate::quantity::{Quantity, Unit, shown, text};
use crate::refusal::{Code, Refusal, Wrong};
use crate::tree::Node;
use serde_json::Value;

/// What `pick` names in the answer, as a cell shows it.
pub fn cell(answer: &Answer, reserved: &Reserved) -> Result<String, Refusal> {
    // Nearly always it is a value of the result, for which the answer need not be written out.
    match reserved.pick.as_ref().and_then(|pick| answer.result()?.at(pick)) {
        Some(Node::Quantity(leaf)) => {
            let Quantity { value, unit, .. } = leaf.quantity;
            quantity(Some(unit), Some(value), || Some(leaf.quantity.text()), answer, reserved)
        }
        Some(Node::Number(number)) => Ok(text::full(*number)),
        Some(Node::Count(count)) => Ok(count.to_string()),
        Some(Node::Truth(truth)) => Ok(truth.to_string()),
        Some(Node::Text(words, _)) => Ok(words.to_string()),
        _ => picked_from_all(answer, reserved),
    }
}

/// A quantity as a cell shows it, whose unit must be one that was asked for.
fn quantity(
    unit: Option<Unit>,
    value: Option<f64>,
    words: impl FnOnce() -> Option<String>,
    answer: &Answer,
    reserved: &Reserved,
) -> Result<String, Refusal> {
    let Some(units) = reserved.units else {
        return Err(Refusal::one(Wrong::new(
            "units",
            Code::FieldMissing,
            "Give units, inch or metric, so that the unit of the cell can never change.",
            answer.system.as_str(),
        )));
    };
    // A setting is in the unit of its resolution, an input as it was stated.
    if let Some(unit) = unit
        && let Some(system) = unit.system().filter(|system| *system != units)
    {
        let pick = reserved.pick.as_deref().unwrap_or_default();
        let says = format!("\"{}\" is in {}, not in the units asked for.", shown(pick), unit.spelling());
        return Err(Refusal::one(Wrong::new("units", Code::Conflict, says, system.as_str())));
    }
    let shop = if reserved.digits == Some(Digits::Shop) { words() } else { None };
    Ok(match shop {
        Some(words) => leading_number(&words).to_owned(),
        None => value.map(text::full).unwrap_or_default(),
    })
}

/// The same for anything that the whole answer holds.
fn picked_from_all(answer: &Answer, reserved: &Reserved) -> Result<String, Refusal> {
    let value = answer.value();
    let leaves = leaves(&value["result"]);
    let first = leaves.first().cloned().unwrap_or_default();
    let Some(pick) = &reserved.pick else {
        let says = "Say which value the cell shows: give pick.";
        return Err(Refusal::one(Wrong::new("pick", Code::FieldMissing, says, first)));
    };
    let found = match pick.strip_prefix('/') {
        Some(_) => value.pointer(pick),
        None => value["result"].pointer(&format!("/{pick}")),
    };
    match found {
        Some(Value::Object(map)) if map.contains_key("value") && map.contains_key("unit") => {
            let unit = map["unit"].as_str().and_then(Unit::named);
            let words = || map.get("text").and_then(Value::as_str).map(str::to_owned);
            quantity(unit, map["value"].as_f64(), words, answer, reserved)
        }
        Some(Value::Number(number)) => Ok(number.as_f64().map_or_else(|| number.to_string(), text::full)),
        Some(Value::String(words)) => Ok(words.clone()),
        Some(Value::Bool(truth)) => Ok(truth.to_string()),
        Some(_) => {
            let inside = leaves.iter().find(|leaf| leaf.starts_with(&format!("{pick}/"))).cloned().unwrap_or(first);
            let says = format!("\"{}\" holds more than one value; a cell shows one.", shown(pick));
            Err(Refusal::one(Wrong::new("pick", Code::ValueUnreadable, says, inside)))
        }
        None => {
            let near = crate::fields::nearest(pick, leaves.iter().map(String::as_str)).unwrap_or(&first).to_owned();
            let says = format!("There is no \"{}\" in this answer's result.", shown(pick));
            Err(Refusal::one(Wrong::new("pick", Code::NotFound, says, near)))
        }
    }
}

/// The number that a quantity's text begins with.
fn leading_number(words: &str) -> &str {
    let end = words.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-')).unwrap_or(words.len());
    &words[..end]
}

/// The paths of all single values in a result.
fn leaves(result: &Value) -> Vec<String> {
    fn walk(value: &Value, path: &str, out: &mut Vec<String>) {
        let join = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}/{name}") };
        match value {
            Value::Object(map) if map.contains_key("value") && map.contains_key("unit") => out.push(path.to_owned()),
            Value::Object(map) => map.iter().for_each(|(name, value)| walk(value, &join(name), out)),
            Value::Array(list) => list.iter().enumerate().for_each(|(at, v)| walk(v, &join(&at.to_string()), out)),
            _ => out.push(path.to_owned()),
        }
    }
    let mut out = Vec::new();
    walk(result, "", &mut out);
    out
}
