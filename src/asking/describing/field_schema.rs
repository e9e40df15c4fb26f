//! The schemas of one field: of its text in a query, of its value in a JSON request, and of its value
//! as an answer repeats it; drawn from the schema that its type has.

use super::schema_reference::{reference, without_null as without_choice};
use serde_json::{Map, Value, json};

/// The schema of one text of a query; an array where the field is a list.
pub fn query(schema: &Value, parts: &Map<String, Value>) -> Value {
    if let Some(items) = schema.get("items") {
        return json!({"type": "array", "minItems": 1, "items": single(items, parts)});
    }
    or_numbers(single(schema, parts), parts)
}

/// The schema of the value in a JSON request.
pub fn body(schema: &Value, parts: &Map<String, Value>) -> Value {
    let mut schema = schema.clone();
    if schema.get("items").is_some() {
        schema["type"] = json!("array");
        return schema;
    }
    or_numbers(schema, parts)
}

/// The schema of the value as an answer repeats it.
pub fn stated(schema: &Value, parts: &Map<String, Value>) -> Value {
    if let Some(items) = schema.get("items") {
        return json!({"type": "array", "items": stated(items, parts)});
    }
    let part = part_of(schema, parts);
    if let Some(row) = row_of(part).and_then(|name| parts.get(name)) {
        let members = row["properties"].as_object().into_iter().flatten();
        let members: Map<String, Value> = members
            .map(|(name, member)| {
                let mut schema = stated(without_choice(member), parts);
                // Each member keeps its own sentence, wherever the choice with null has put it.
                let about = member.get("description").or_else(|| without_choice(member).get("description"));
                if let Some(about) = about {
                    schema["description"] = about.clone();
                }
                (name.clone(), schema)
            })
            .collect();
        let row = json!({"type": "object", "required": row["required"], "additionalProperties": false,
                         "properties": members});
        return json!({"type": "array", "items": row});
    }
    let single = single(schema, parts);
    match reference(&single) {
        Some("PointText") => json!({"$ref": "#/components/schemas/StatedPoint"}),
        Some("PointsText") => json!({"type": "array", "items": {"$ref": "#/components/schemas/StatedPoint"}}),
        Some(text) if text.ends_with("Text") => stated_quantity(),
        // Words are repeated as understood, which a pattern of the request does not bind.
        Some(_) if part["type"] == "string" && part.get("enum").is_none() => json!({"type": "string"}),
        _ => single,
    }
}

/// The name of the objects of a list that a query states as rows of text.
pub fn row_of(part: &Value) -> Option<&str> {
    let mut forms = part["oneOf"].as_array().into_iter().flatten();
    let list = forms.find(|form| form["type"] == "array")?;
    reference(&list["items"]).filter(|name| *name != "Point")
}

/// What the schema is, or what it refers to.
fn part_of<'v>(schema: &'v Value, parts: &'v Map<String, Value>) -> &'v Value {
    reference(schema).and_then(|name| parts.get(name)).unwrap_or(schema)
}

/// The schema of a quantity as an answer repeats it.
pub fn stated_quantity() -> Value {
    json!({"$ref": "#/components/schemas/Stated"})
}

/// A single value: the text form of what has several forms, else what stands there.
fn single(schema: &Value, parts: &Map<String, Value>) -> Value {
    let part = part_of(schema, parts);
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

/// A number, or several of them as text.
fn or_numbers(mut schema: Value, parts: &Map<String, Value>) -> Value {
    if let Some(map) = schema.as_object_mut()
        && map.get("type").is_some_and(Value::is_array)
    {
        map.insert("type".into(), without_null(&map["type"]));
    }
    let is_number = ["integer", "number"].iter().any(|word| part_of(&schema, parts)["type"] == *word);
    if !is_number {
        return schema;
    }
    let about = schema.as_object_mut().and_then(|map| map.shift_remove("description"));
    let mut both = json!({"anyOf": [schema, {"$ref": "#/components/schemas/Numbers"}]});
    if let Some(about) = about {
        both["description"] = about;
    }
    both
}
