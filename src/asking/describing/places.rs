//! The places of a calculator's results, drawn from the schema of its output, so that they are known
//! before anything is answered.

use super::schema_reference::{reference, without_null};
use serde_json::{Map, Value};

/// What stands in one place of a result.
#[derive(Clone, Debug)]
pub enum Part {
    /// A quantity.
    Quantity {
        /// Its unit in an inch answer.
        inch: String,
        /// Its unit in a metric answer.
        metric: String,
        /// Whether a machine is set to it.
        settable: bool,
    },
    /// A word, a count, a number, or several of them.
    Plain,
    /// Named parts.
    Record(Vec<(String, Part)>),
    /// A list of records.
    Rows(Vec<(String, Part)>),
}

/// Every place of a calculator's results.
#[derive(Clone, Debug)]
pub struct Places(pub Vec<(String, Part)>);

impl Places {
    /// The places that the schema `output` has; `parts` are the schemas it refers to.
    pub fn of(output: &Value, parts: &Map<String, Value>) -> Self {
        Self(members(output, parts, 0))
    }
}

/// The members of an object's schema. Deeper than results go is a loop of references.
fn members(schema: &Value, parts: &Map<String, Value>, depth: usize) -> Vec<(String, Part)> {
    let properties = schema.get("properties").and_then(Value::as_object).into_iter().flatten();
    let each = properties.map(|(name, property)| (name.clone(), part(property, parts, depth)));
    // A list within a row has no place in a table.
    each.filter(|(_, part)| depth == 0 || !matches!(part, Part::Rows(_))).collect()
}

fn part(property: &Value, parts: &Map<String, Value>, depth: usize) -> Part {
    let schema = resolved(property, parts);
    if depth > 6 {
        return Part::Plain;
    }
    if schema["type"] == "array" || schema["type"][0] == "array" {
        let items = resolved(&schema["items"], parts);
        let is_record = items.get("properties").is_some() && items["properties"].get("unit").is_none();
        return if is_record { Part::Rows(members(items, parts, depth + 1)) } else { Part::Plain };
    }
    let Some(properties) = schema.get("properties") else { return Part::Plain };
    let units = properties["unit"].get("enum").and_then(Value::as_array);
    match units.map(Vec::as_slice) {
        Some([inch, rest @ ..]) => {
            let text = |unit: &Value| unit.as_str().unwrap_or_default().to_owned();
            let metric = text(rest.first().unwrap_or(inch));
            Part::Quantity { inch: text(inch), metric, settable: properties.get("set_to").is_some() }
        }
        _ => Part::Record(members(schema, parts, depth + 1)),
    }
}

fn resolved<'v>(schema: &'v Value, parts: &'v Map<String, Value>) -> &'v Value {
    let single = without_null(schema);
    reference(single).and_then(|name| parts.get(name)).unwrap_or(single)
}
