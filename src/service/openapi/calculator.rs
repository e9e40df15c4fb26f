//! What the description says of one calculator: the schemas of its request and answer, and its two
//! operations, with its first example.

use super::operation::Operation;
use super::parts::{Named, json_response, of, reference};
use super::refusals::READS_FIELDS;
use super::{answers, reserved, values};
use crate::asking::{Described, Field, targets};
use crate::calculators::Entry;
use crate::shop::MACHINE_FIELDS;
use serde_json::{Map, Value, json};

/// The part of the schemas' names that is the calculator's.
pub fn stem(entry: &Entry) -> &'static str {
    entry.input.name.trim_end_matches("Input")
}

/// A field's sentence, and whether a request must have it. What a machine or `solve_for` can stand in for is needed
/// only without them, which no schema can say.
fn need(described: &Described, field: &Field) -> (String, bool) {
    if !field.required {
        return (field.about.clone(), false);
    }
    let found = targets(described.entry).any(|name| name == field.name);
    let of_machine = MACHINE_FIELDS.iter().any(|known| known.name == field.name);
    let unless = match (found, of_machine) {
        (false, false) => return (field.about.clone(), true),
        (true, false) => "solve_for names it",
        (false, true) => "the machine has it",
        (true, true) => "solve_for names it or the machine has it",
    };
    (format!("{} Needed, unless {unless}.", field.about), false)
}

/// What a field is, of a sentence that also says what holds if it is absent or with what it goes: the whole sentence
/// stands with the parameter of its name.
fn in_short(about: &str) -> String {
    let ends = ["; ", ": ", ". "].iter().filter_map(|end| about.find(end)).min();
    format!("{}.", about[..ends.unwrap_or(about.len())].trim_end_matches('.'))
}

/// An example's fields as a JSON request.
pub fn inputs(described: &Described, fields: &[(&'static str, &'static str)]) -> Value {
    let typed = fields.iter().map(|(name, value)| {
        let field = described.fields.iter().find(|field| field.name == *name);
        ((*name).to_owned(), field.map_or_else(|| json!(value), |field| field.as_json(value)))
    });
    Value::Object(typed.collect::<Map<_, _>>())
}

fn with_about(mut schema: Value, about: &str) -> Value {
    schema["description"] = json!(about);
    schema
}

/// The schemas of a calculator's types, its request and its answer.
pub fn schemas(described: &Described) -> Named {
    let entry = described.entry;
    let (stem, result) = (stem(entry), entry.output.name);
    let mut parts = Vec::new();
    entry.input.collect(&mut parts);
    entry.output.collect(&mut parts);
    let mut all = values(parts);
    let sought = format!("{stem}Sought");
    let (mut required, mut properties) = (Vec::new(), Map::new());
    for field in &described.fields {
        properties.insert(field.name.clone(), with_about(field.body_schema(), &in_short(&field.about)));
        required.extend(need(described, field).1.then_some(&field.name));
    }
    let (shared, more) = reserved::of_request(described, &sought);
    properties.extend(more);
    let mut own = json!({"type": "object"});
    if !required.is_empty() {
        own["required"] = json!(required);
    }
    own["properties"] = properties.into();
    // What these are is said by their names, and by the operation.
    all.push((format!("{stem}Request"), json!({"allOf": [of(shared), own]})));
    let names: Vec<&str> = targets(entry).collect();
    if !names.is_empty() {
        all.push((sought, json!({"type": "string", "description": "An input.", "enum": names})));
    }
    let mut output = serde_json::to_value(entry.output.schema()).unwrap_or_default();
    output["description"] = json!("What was found.");
    all.push((result.to_owned(), output));
    all.extend(answers::of_calculator(entry, stem, result));
    all
}

/// The query parameter of one of a calculator's own fields, with its value in the first example.
fn parameter(described: &Described, field: &Field) -> Value {
    let (about, is_needed) = need(described, field);
    let schema = field.query_schema();
    let is_list = schema["type"] == "array";
    let mut parameter = json!({"name": field.name, "in": "query", "description": about});
    if is_needed {
        parameter["required"] = json!(true);
    }
    if is_list {
        parameter["style"] = json!("form");
        parameter["explode"] = json!(false);
    }
    parameter["schema"] = schema;
    let stated = described.entry.examples[0].fields.iter().find(|(name, _)| *name == field.name);
    if let Some((_, value)) = stated {
        parameter["example"] = field.as_json(value);
    }
    parameter
}

/// The operations at a calculator's own address.
pub fn operations(described: &Described) -> (String, Value) {
    let entry = described.entry;
    let (topic, _) = entry.address();
    let (id, stem, example) = (entry.operation(), stem(entry), &entry.examples[0]);
    let answer = || reference("responses", stem);
    let mut parameters: Vec<Value> = described.fields.iter().map(|field| parameter(described, field)).collect();
    parameters.extend(reserved::of_calculator(described, &format!("{stem}Sought")));
    let get =
        Operation::new(topic, &id, entry.title, entry.about).parameters(parameters).reads(answer(), &[READS_FIELDS]);
    let body = json!({"application/json": {
        "schema": of(&format!("{stem}Request")), "example": inputs(described, example.fields) }});
    let title = format!("{}, by JSON", entry.title);
    let post = Operation::new(topic, &format!("{id}_post"), &title, "Answered as by GET.")
        .body(body)
        .answers(answer(), &[READS_FIELDS]);
    (format!("/v1/{}", entry.id), json!({"get": get, "post": post}))
}

/// The response with the calculator's answer, as both of its operations give it.
pub fn response(described: &Described) -> (String, Value) {
    let stem = stem(described.entry);
    // That answers carry an ETag is said once, in what the description is about.
    (stem.to_owned(), json_response("The answer.", of(&format!("{stem}Answer"))))
}
