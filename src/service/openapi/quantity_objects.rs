//! Quantities as objects: kinds that have the same units have the same object, so it is described once, and
//! named by what it measures.

use super::parts::of;
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;

/// Gives the objects of quantities with the same units one schema, and what referred to them refers to it.
pub fn share(schemas: &mut Map<String, Value>) {
    let mut names: BTreeMap<String, String> = BTreeMap::new();
    let mut shared: BTreeMap<String, Value> = BTreeMap::new();
    for (name, schema) in schemas.iter() {
        let unit = schema["properties"]["unit"]["$ref"].as_str().and_then(|unit| unit.rsplit('/').next());
        let Some(measured) = unit.and_then(|unit| unit.strip_suffix("Unit")).filter(|_| name.ends_with("Value")) else {
            continue;
        };
        let mut schema = schema.clone();
        schema["description"] = json!("A quantity as an object: one of an answer can be sent back as it is.");
        let to = format!("{measured}Value");
        // What differs in more than its words stays by itself.
        if shared.entry(to.clone()).or_insert_with(|| schema.clone())["properties"] == schema["properties"] {
            names.insert(name.clone(), to);
        }
    }
    schemas.retain(|name, _| !names.contains_key(name));
    schemas.extend(shared);
    schemas.values_mut().for_each(|schema| refer(schema, &names));
}

fn refer(value: &mut Value, names: &BTreeMap<String, String>) {
    match value {
        Value::Object(map) => {
            let to = map.get("$ref").and_then(Value::as_str).and_then(|to| names.get(to.rsplit('/').next()?));
            if let Some(to) = to {
                map["$ref"] = of(to)["$ref"].clone();
            }
            map.values_mut().for_each(|value| refer(value, names));
        }
        Value::Array(list) => list.iter_mut().for_each(|value| refer(value, names)),
        _ => {}
    }
}
