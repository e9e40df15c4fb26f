//! What the description says of many requests in one: batches and rechecks.

use super::calculator::{inputs, stem};
use super::parts::{Named, a, list, of, record, words};
use super::refusals::READS_FIELDS;
use super::reserved;
use super::service_addresses::operation;
use crate::asking::{Form, described};
use crate::calculators::REGISTER;
use crate::service::json_items::LINES;
use serde_json::{Value, json};

fn any_object(about: &str) -> Value {
    json!({"type": "object", "additionalProperties": true, "description": about})
}

fn id(about: &str) -> Value {
    a("ItemId", about)
}

fn id_schema() -> Value {
    json!({"oneOf": [{"type": "string"},
                     {"type": "integer", "minimum": -9_007_199_254_740_991_i64, "maximum": 9_007_199_254_740_991_i64}],
           "description": "A name of the caller's own for an item."})
}

/// The inputs of an item, which are those of any calculator.
fn item_inputs() -> Value {
    let requests: Vec<Value> = REGISTER.iter().map(|entry| of(&format!("{}Request", stem(entry)))).collect();
    json!({"description": "What the calculator's own address takes by POST.", "anyOf": requests})
}

/// One request of a batch: a calculator, its inputs, and the reserved fields beside them.
fn item() -> Value {
    let (shared, more) = reserved::of_item();
    let mut own = json!({
        "id": id("A name of the caller's own, given back with the answer."),
        "calculator": of("CalculatorId"),
        "inputs": of("ItemInputs"),
    });
    if let Some(properties) = own.as_object_mut() {
        properties.extend(more);
    }
    json!({
        "description": "One request of a batch: a calculator and its inputs, and beside them the reserved fields, which \
                        may also stand among the inputs.",
        "allOf": [of(shared), {"type": "object", "required": ["calculator", "inputs"], "properties": own}],
    })
}

/// The schemas.
pub fn schemas() -> Named {
    let plain = || vec![json!({"type": "string"}), json!({"type": "number"}), of("AnyFields")];
    let any = || a("AnyValue", "What stands there.");
    let any_value =
        [plain(), vec![json!({"type": "boolean"}), json!({"type": "array", "items": of("AnyItem")})]].concat();
    let versions = |about: &str| a("GivenBy", about);
    let all = json!({
        "AnyItem": {"description": "An item of any list.", "oneOf": plain()},
        "AnyValue": {"description": "Any value.", "oneOf": any_value},
        "ItemId": id_schema(),
        "ItemInputs": item_inputs(),
        "BatchItem": item(),
        "BatchAnswer": record("What became of one item: its answer, or why it is refused.", &[], json!({
            "id": id("The item's own name, if it has one."),
            "answer": a("AnswerFrame", "The answer, as the calculator's own address gives it."),
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
    all.into_iter().collect()
}

/// An operation that takes many of one thing and gives as many of another: an array, or lines, for one. The answers of
/// the example would be whole answers, so none are shown.
fn many(
    id: &str,
    summary: &str,
    about: &str,
    parameters: Vec<Value>,
    (of_one, into): (&str, &str),
    asked: &[Value],
) -> Value {
    let array = |name: &str| json!({"schema": list(name, "The items.")});
    let lines =
        |name: &str| json!({"schema": {"type": "string", "description": format!("Lines of JSON, in each a {name}.")}});
    let (mut in_array, mut in_lines) = (array(of_one), lines(of_one));
    in_array["example"] = json!(asked);
    in_lines["example"] = asked.iter().map(|item| format!("{item}\n")).collect::<String>().into();
    let ok = json!({"description": "What became of each item, in order.",
                    "content": {"application/json": array(into), LINES: lines(into)}});
    operation(id, summary, about)
        .parameters(parameters)
        .body(json!({"application/json": in_array, LINES: in_lines}))
        .answers(ok, &[READS_FIELDS])
}

/// The operations by address.
pub fn operations() -> Vec<(String, Value)> {
    let items: Vec<Value> = described()
        .iter()
        .take(2)
        .zip(["A1", "A2"])
        .map(|(described, id)| {
            let inputs = inputs(described, described.entry.examples[0].fields);
            json!({"id": id, "calculator": described.entry.id, "inputs": inputs, "working": false})
        })
        .collect();
    let batch = many(
        "batch",
        "Many requests in one",
        "Many requests to any calculators, each answered or refused in its place, in order. An array goes in and comes \
         out as one; sent as lines of JSON, application/x-ndjson, each line is answered by a line and both stream, \
         however many there are. A field of the address holds for every item that does not state it itself.",
        reserved::of_form(Form::Json),
        ("BatchItem", "BatchAnswer"),
        &items,
    );
    let again = many(
        "recheck",
        "Old answers held against today's",
        "Takes answers as they were given and says for each whether it would be the same today, where it would differ, \
         and which rows of a source, which version or which file of the shop made the difference. Also by lines of JSON, \
         application/x-ndjson. Nothing is remembered: the answers themselves say all that is needed.",
        Vec::new(),
        ("OldAnswer", "RecheckAnswer"),
        &[json!({"calculator": items[0]["calculator"], "inputs": items[0]["inputs"], "result": {}})],
    );
    vec![("/v1/batch".to_owned(), json!({"post": batch})), ("/v1/recheck".to_owned(), json!({"post": again}))]
}
