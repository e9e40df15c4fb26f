//! What a request has is closed, so that a wrong name is seen before it is sent, and not empty; what an answer has is
//! open, since fields are added and a reader passes over those that it does not know.

use super::parts_by_topic::refer;
use serde_json::{Map, Value, json};
use std::collections::BTreeSet;

/// Closes the schemas of `components` that `paths` refer to in a request, and opens all others.
pub fn close(paths: &Map<String, Value>, parameters: &Map<String, Value>, schemas: &mut Map<String, Value>) {
    let mut asked = BTreeSet::new();
    let mut unread: Vec<&Value> = parameters.values().collect();
    for operation in paths.values().filter_map(Value::as_object).flat_map(Map::values) {
        unread.extend(["parameters", "requestBody"].iter().filter_map(|part| operation.get(part)));
    }
    while let Some(value) = unread.pop() {
        refer(value, &mut |to| {
            let name = name_of(to);
            if asked.insert(name.to_owned()) {
                unread.extend(schemas.get(name));
            }
        });
    }
    let extended: BTreeSet<String> = schemas.values().flat_map(extends).collect();
    for (name, schema) in schemas.iter_mut() {
        if asked.contains(name) {
            fill(schema);
        }
        if !asked.contains(name) || extended.contains(name) {
            open(schema);
        } else if own_parts(schema).any(|part| part.get("properties").is_some()) {
            schema["unevaluatedProperties"] = json!(false);
        } else if schema.get("properties").is_some() {
            schema["additionalProperties"] = json!(false);
        }
    }
}

fn name_of(to: &str) -> &str {
    to.rsplit('/').next().unwrap_or_default()
}

/// The parts that a schema is put together from.
fn own_parts(schema: &Value) -> impl Iterator<Item = &Value> {
    schema["allOf"].as_array().into_iter().flatten()
}

/// The names of the schemas that `schema` adds to.
fn extends(schema: &Value) -> Vec<String> {
    own_parts(schema).filter_map(|part| Some(name_of(part.get("$ref")?.as_str()?).to_owned())).collect()
}

/// Says of the texts and lists within a schema of a request that they hold something: a field that is empty is refused.
fn fill(schema: &mut Value) {
    for part in schema.get_mut("allOf").and_then(Value::as_array_mut).into_iter().flatten() {
        fill(part);
    }
    for property in schema.get_mut("properties").and_then(Value::as_object_mut).into_iter().flat_map(Map::values_mut) {
        let least = match property["type"].as_str() {
            Some("string") if property.get("enum").is_none() && property.get("pattern").is_none() => "minLength",
            Some("array") => "minItems",
            _ => continue,
        };
        if property.get(least).is_none() {
            property[least] = json!(1);
        }
    }
}

fn open(schema: &mut Value) {
    match schema {
        Value::Object(map) => {
            if map.get("additionalProperties") == Some(&json!(false)) {
                map.shift_remove("additionalProperties");
            }
            map.values_mut().for_each(open);
        }
        Value::Array(list) => list.iter_mut().for_each(open),
        _ => {}
    }
}
