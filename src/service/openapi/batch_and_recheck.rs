//! What the description says of many requests in one: batches and rechecks.

use super::json_schema::schema;
use super::parts::{a, any_problem, list, problem, record, words};
use crate::asking::{Form, ask, recheck, reserved_fields};
use crate::calculators::REGISTER;
use crate::declared::Schemas;
use crate::fields::Fields;
use serde_json::{Value, json};
use utoipa::openapi::path::{
    HttpMethod, OperationBuilder, Parameter, ParameterBuilder, ParameterIn, PathItem, PathItemBuilder,
};
use utoipa::openapi::request_body::RequestBodyBuilder;
use utoipa::openapi::{ContentBuilder, Required, ResponseBuilder};

fn any_object(about: &str) -> Value {
    json!({"type": "object", "additionalProperties": true, "description": about})
}

fn id(about: &str) -> Value {
    json!({"anyOf": [{"type": "string"},
                     {"type": "integer", "minimum": -9_007_199_254_740_991_i64, "maximum": 9_007_199_254_740_991_i64}],
           "description": about})
}

/// One request of a batch: a calculator, its inputs, and the reserved fields beside them.
fn item() -> Value {
    let mut item = record(
        "One request of a batch.",
        &["calculator", "inputs"],
        json!({
            "id": id("A name of the caller's own, given back with the answer."),
            "calculator": a("CalculatorName", "The calculator."),
            "inputs": any_object("Its fields, as its own address takes them by POST; the reserved fields may stand here too."),
        }),
    );
    for name in Form::Json.names() {
        let Some(field) = reserved_fields().iter().find(|field| field.name == *name) else { continue };
        item["properties"][name] = field.body_schema();
        item["properties"][name]["description"] = json!(field.about);
    }
    item
}

/// The schemas.
pub fn schemas() -> Schemas {
    let ids: Vec<&str> = REGISTER.iter().map(|entry| entry.id).collect();
    let object = || json!({"type": "object", "additionalProperties": true});
    let any = || {
        json!({"description": "What stands there.", "anyOf": [
            {"type": "string"}, {"type": "number"}, {"type": "boolean"}, object(),
            {"type": "array", "items": {"anyOf": [{"type": "string"}, {"type": "number"}, object()]}}]})
    };
    let versions = |about: &str| a("GivenBy", about);
    let all = json!({
        "CalculatorName": {"type": "string", "enum": ids, "description": "The name of a calculator."},
        "BatchItem": item(),
        "BatchAnswer": record("What became of one item: its answer, or why it is refused.", &[], json!({
            "id": id("The item's own name, if it has one."),
            "answer": any_object("The answer, as the calculator's own address gives it."),
            "problem": a("Problem", "Why it is refused; its pointers are into the item.") })),
        "OldAnswer": any_object("An answer as it was given, by itself or as a batch gave it."),
        "RecheckAnswer": record("What has become of one answer.", &[], json!({
            "id": id("The item's own name, if it is a batch's."),
            "recheck": a("Recheck", "How it stands today."),
            "problem": a("Problem", "Why it cannot be rechecked.") })),
        "GivenBy": record("What an answer is given by.", &["version", "data_version"], json!({
            "version": words("The version of the service."), "data_version": words("The version of the tables."),
            "shop": words("The hash of the shop's file, where it is given for a shop.") })),
        "Recheck": record("An answer held against today's.",
            &["calculator", "verdict", "was", "now", "count", "differences", "because"], json!({
            "calculator": words("The calculator."),
            "verdict": {"type": "string", "enum": ["same", "differs", "refused"],
                        "description": "Whether it would be the same today, another, or refused."},
            "was": versions("What it was given by."), "now": versions("What answers today."),
            "count": {"type": "integer", "minimum": 0, "description": "How many places differ."},
            "differences": list("PlaceApart", "The places that differ, the first 100 of them."),
            "because": list("Because", "What made the difference, as far as the answer tells."),
            "errors": list("Wrong", "Why the same request would be refused."),
            "link": words("The address that gives today's answer.") })),
        "PlaceApart": record("One place at which two answers differ.", &["at"], json!({
            "at": words("The place in the answer, a JSON Pointer (RFC 6901)."), "was": any(), "now": any() })),
        "Because": record("What made a difference.", &["what", "says"], json!({
            "what": {"type": "string", "enum": ["data", "version", "shop", "altered"],
                     "description": "Rows of a table, the service, the shop's file, or the answer itself after it was given."},
            "says": words("In words."), "source": words("The source whose rows changed."),
            "places": {"type": "array", "items": {"type": "string"},
                       "description": "The places in the source that the answer rests on."},
            "tables": {"type": "array", "items": {"type": "string"},
                       "description": "The tables in which rows from it stand, as /v1/tables names them."},
            "step": words("The first step of the working that gives something else."),
            "was": any(), "now": any() })),
    });
    let Value::Object(all) = all else { return Vec::new() };
    all.into_iter().map(|(name, value)| (name, schema(value))).collect()
}

/// The reserved fields as parameters of the address.
fn for_every_item() -> Vec<Parameter> {
    let reserved = reserved_fields().iter().filter(|field| Form::Json.names().contains(&field.name.as_str()));
    reserved
        .map(|field| {
            ParameterBuilder::new()
                .name(&field.name)
                .parameter_in(ParameterIn::Query)
                .required(Required::False)
                .description(Some(&field.about))
                .schema(Some(schema(field.query_schema())))
                .example(Some(field.as_json(&field.example)))
                .build()
        })
        .collect()
}

/// An operation that takes an array of one thing and gives an array of another.
fn array_operation(
    id: &str,
    summary: &str,
    about: &str,
    parameters: Vec<Parameter>,
    (of, into): (&str, &str),
    (asked, answered): (Value, Value),
) -> PathItem {
    let content = |name: &str, about: &str, example: Value| {
        let of = schema(list(name, about));
        ContentBuilder::new().schema(Some(of)).example(Some(example)).build()
    };
    let operation = OperationBuilder::new()
        .tag("service")
        .operation_id(Some(id))
        .summary(Some(summary))
        .description(Some(about))
        .parameters((!parameters.is_empty()).then_some(parameters))
        .request_body(Some(
            RequestBodyBuilder::new()
                .description(Some("The items; as lines of JSON they have the media type application/x-ndjson."))
                .required(Some(Required::True))
                .content("application/json", content(of, "The items.", asked))
                .build(),
        ))
        .response(
            "200",
            ResponseBuilder::new()
                .description("What became of each item, in order.")
                .content("application/json", content(into, "What became of each item, in order.", answered))
                .build(),
        )
        .response("400", problem("The request cannot be read: it is no JSON array."))
        .response("413", problem("The body is too large: as lines of JSON there is no limit but for each line."))
        .response("415", problem("The body is neither JSON nor lines of JSON, or it is compressed."))
        .response("422", problem("The address has a field that it does not take."));
    PathItemBuilder::new().operation(HttpMethod::Post, any_problem(operation).build()).build()
}

/// The operations by address.
pub fn operations() -> Vec<(&'static str, PathItem)> {
    let entry = &REGISTER[0];
    let example = &entry.examples[0];
    let inputs: Value = example
        .fields
        .iter()
        .map(|(name, value)| ((*name).to_owned(), json!(value)))
        .collect::<serde_json::Map<_, _>>()
        .into();
    let item = json!({"id": "A1", "calculator": entry.id, "inputs": inputs, "working": false});
    let fields: Fields = serde_json::from_value(inputs).unwrap_or_default();
    let answer = ask(entry, fields, Form::Json).ok().and_then(|(answer, _)| serde_json::to_value(&answer).ok());
    let mut answer = answer.unwrap_or_default();
    answer["working"] = json!([]);
    let rechecked = recheck(&answer).ok().and_then(|rechecked| serde_json::to_value(rechecked).ok());
    let batch = array_operation(
        "batch",
        "Many requests in one",
        "Many requests to any calculators, each answered or refused in its place, in order. An array goes in and comes \
         out as one; sent as lines of JSON, application/x-ndjson, each line is answered by a line and both stream, \
         however many there are. A field of the address holds for every item that does not state it itself.",
        for_every_item(),
        ("BatchItem", "BatchAnswer"),
        (json!([item]), json!([{"id": "A1", "answer": answer}])),
    );
    let again = array_operation(
        "recheck",
        "Old answers held against today's",
        "Takes answers as they were given and says for each whether it would be the same today, where it would differ, \
         and which rows of a source, which version or which file of the shop made the difference. Also by lines of JSON, \
         application/x-ndjson. Nothing is remembered: the answers themselves say all that is needed.",
        Vec::new(),
        ("OldAnswer", "RecheckAnswer"),
        (json!([answer]), json!([{"recheck": rechecked}])),
    );
    vec![("/v1/batch", batch), ("/v1/recheck", again)]
}
