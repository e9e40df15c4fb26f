//! The schemas of one field: of its text in a query, of its value in a JSON request, and of its value
//! as an answer repeats it; drawn from the schema that its type has.

use super::describe::reference;
use serde_json::{Map, Value, json};

/// The schema of one text of a query; an array where the field is a list.
pub fn query(schema: &Value, parts: &Map<String, Value>) -> Value {
    if let Some(items) = schema.get("items") {
        return json!({"type": "array", "minItems": 1, "items": single(items, parts)});
    }
    or_counts(single(schema, parts))
}

/// The schema of the value in a JSON request.
pub fn body(schema: &Value, _parts: &Map<String, Value>) -> Value {
    let mut schema = schema.clone();
    if schema.get("items").is_some() {
        schema["type"] = json!("array");
        return schema;
    }
    or_counts(schema)
}

/// The schema of the value as an answer repeats it.
pub fn stated(schema: &Value, parts: &Map<String, Value>) -> Value {
    if let Some(items) = schema.get("items") {
        return json!({"type": "array", "items": stated(items, parts)});
    }
    let single = single(schema, parts);
    match reference(&single) {
        Some("PointText") => json!({"$ref": "#/components/schemas/StatedPoint"}),
        Some("PointsText") => json!({"type": "array", "items": {"$ref": "#/components/schemas/StatedPoint"}}),
        Some(text) if text.ends_with("Text") => stated_quantity(),
        Some(name) if parts.get(name).is_some_and(|part| part.get("enum").is_some()) => single,
        Some(_) => json!({"type": "string"}),
        None => single,
    }
}

/// The schema of a quantity as an answer repeats it.
pub fn stated_quantity() -> Value {
    json!({"$ref": "#/components/schemas/Stated"})
}

/// A single value: the text form of what has several forms, else what stands there.
fn single(schema: &Value, parts: &Map<String, Value>) -> Value {
    let part = reference(schema).and_then(|name| parts.get(name)).unwrap_or(schema);
    if let Some(first) = part.get("oneOf").and_then(|forms| forms.get(0)) {
        return first.clone();
    }
    let mut single = schema.clone();
    if let Some(map) = single.as_object_mut() {
        map.shift_remove("description");
        if map.get("type").is_some_and(Value::is_array) {
            map.insert("type".into(), without_null(&map["type"]));
        }
        if map.get("type") == Some(&json!("string")) && !map.contains_key("enum") {
            map.entry("minLength").or_insert(json!(1));
        }
    }
    single
}

/// `["integer", "null"]` as `integer`.
fn without_null(types: &Value) -> Value {
    let real = types.as_array().into_iter().flatten().find(|one| *one != "null");
    real.cloned().unwrap_or_default()
}

/// A count, or several of them as text.
fn or_counts(mut schema: Value) -> Value {
    if let Some(map) = schema.as_object_mut()
        && map.get("type").is_some_and(Value::is_array)
    {
        map.insert("type".into(), without_null(&map["type"]));
    }
    if schema["type"] != "integer" {
        return schema;
    }
    let about = schema.as_object_mut().and_then(|map| map.shift_remove("description"));
    let mut both = json!({"anyOf": [schema, {"$ref": "#/components/schemas/Counts"}]});
    if let Some(about) = about {
        both["description"] = about;
    }
    both
}
