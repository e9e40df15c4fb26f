//! The schemas that the operations share: what every answer has, a refusal, the catalogue, the tables.

use crate::asking::FORMS;
use crate::quantity::pattern;
use crate::refusal::Code;
use crate::service::tables;
use crate::sources::Trust;
use crate::verification;
use serde_json::{Value, json};

/// Schemas by their names.
pub type Named = Vec<(String, Value)>;

/// A reference to a component.
pub fn reference(kind: &str, name: &str) -> Value {
    json!({"$ref": format!("#/components/{kind}/{name}")})
}

/// A reference to a schema.
pub fn of(name: &str) -> Value {
    reference("schemas", name)
}

/// A text.
pub fn words(about: &str) -> Value {
    json!({"type": "string", "description": about})
}

/// What another schema describes, with a sentence of its own.
pub fn a(name: &str, about: &str) -> Value {
    json!({"$ref": of(name)["$ref"], "description": about})
}

/// A list of what another schema describes.
pub fn list(name: &str, about: &str) -> Value {
    json!({"type": "array", "description": about, "items": of(name)})
}

fn texts(about: &str) -> Value {
    json!({"type": "array", "items": {"type": "string"}, "description": about})
}

/// An object with these members and no others.
pub fn record(about: &str, required: &[&str], properties: Value) -> Value {
    json!({"type": "object", "description": about, "required": required, "additionalProperties": false,
           "properties": properties})
}

/// Schemas that every answer and refusal uses.
pub fn schemas() -> Named {
    let trusts: Vec<&str> = Trust::ALL.iter().filter(|t| **t != Trust::Library).map(|t| t.as_str()).collect();
    let codes: Vec<&str> = Code::ALL.iter().map(|code| code.as_str()).collect();
    let about_codes: Vec<String> =
        Code::ALL.iter().map(|code| format!("{}: {}", code.as_str(), code.about())).collect();
    let all = json!({
        "Trust": {"type": "string", "enum": trusts,
                  "description": "How far a value can be trusted, best to worst as listed."},
        "Remark": record("A note or a caution.", &["code", "says"], json!({
            "code": words("A short name that does not change."), "says": words("The words.") })),
        "Assumed": record("A default that was used.", &["field", "value", "says"], json!({
            "field": words("The field that was not given."),
            "value": a("StatedValue", "What was taken for it."),
            "says": words("Why.") })),
        "SourceUsed": record("A source and the place in it.", &["key", "title", "where", "trust"], json!({
            "key": words("The source's short name."), "title": words("Its title."),
            "where": words("The place in it, or what was taken from it."),
            "trust": a("Trust", "How far this can be trusted."),
            "data_version": words("The version of the rows taken from it; absent where no table has any.") })),
        "Step": record("One step of the working.", &["what", "by", "formula", "with", "gives"], json!({
            "what": words("What the step finds."),
            "by": {"type": "string", "enum": ["formula", "table", "choice"],
                   "description": "Whether it is computed, looked up, or chosen among the values shown."},
            "formula": words("The formula, the table or the rule."),
            "with": words("Each symbol, what it stands for, and its value: `D (diameter) = 0.5 in; …`."),
            "gives": a("Gives", "What the step gives.") })),
        "Stated": record("A quantity as an answer repeats it.", &["value", "unit", "text"], json!({
            "value": {"type": "number", "description": "The number in full."},
            "unit": words("The unit of the number."),
            "text": words("Rounded as the trade writes it, with the unit."),
            "plus": {"type": "number", "minimum": 0, "description": "Tolerance above the value, in the same unit."},
            "minus": {"type": "number", "minimum": 0, "description": "Tolerance below the value, as a positive amount."},
            "name": words("The name it was asked by, such as a drill's.") })),
        "StatedPoint": record("A point as an answer repeats it.", &["x", "y"], json!({
            "x": a("Stated", "Its place on the X axis."), "y": a("Stated", "Its place on the Y axis.") })),
        "Counts": {"type": "string", "pattern": pattern::counts(), "examples": ["4|6|8", "4..12 step 2"],
                   "description": "Several whole numbers in place of one, parted by |, or a range: from..to step by. They ask for a table."},
        "Numbers": {"type": "string", "pattern": pattern::numbers(), "examples": ["0.5|1", "0.5..2 step 0.5"],
                   "description": "Several numbers in place of one, parted by |, or a range: from..to step by. They ask for a table."},
        "Correction": record("What to change an input by.", &["field", "intended", "as_made", "change"], json!({
            "field": words("The input."),
            "intended": a("Stated", "What it was meant to be."),
            "as_made": a("Stated", "What it must have been, from the result measured."),
            "change": a("Stated", "Intended less as made: what to add.") })),
        "Gives": record("What a step gives: one value, or one for each row of a list.", &["field"], json!({
            "field": words("The result or intermediate value, by its path without list numbers."),
            "value": {"type": "number", "description": "The number in full."},
            "unit": words("The unit of the number or numbers."),
            "text": words("The value rounded as the trade writes it, or the words."),
            "values": {"type": "array", "items": {"type": "number"}, "description": "One number for each row."},
            "texts": {"type": "array", "items": {"type": "string"}, "description": "One word for each row."} })),
        "ShopUsed": record("A shop, as its file says.", &["name", "hash"], json!({
            "name": words("Its name."), "hash": words("The hash of its file.") })),
        "ShopListed": record("A shop and its machines.", &["name", "hash", "machines"], json!({
            "name": words("Its name."), "hash": words("The hash of its file."),
            "machines": {"type": "array", "items": of("MachineListed"),
                         "description": "Its machines."} })),
        "MachineListed": record("A machine of the shop.", &["name", "fields"], json!({
            "name": words("Its name, as machine=name in a request states it."),
            "fields": {"type": "object", "additionalProperties": {"type": "string"},
                       "description": "The fields it stands in for, with their values."} })),
        "Problem": record("A refusal, after RFC 9457.", &["type", "title", "status", "detail", "errors"], json!({
            "type": words("Where the guide explains this kind of problem, such as /guide/problems#fields_wrong: a reference \
                           relative to the service's address."),
            "title": words("The status in words."),
            "status": {"type": "integer", "description": "The HTTP status.", "minimum": 400, "maximum": 599},
            "detail": words("What is wrong, all together."),
            "errors": {"type": "array", "items": of("Wrong"),
                       "description": "What is wrong, one by one."} })),
        "Wrong": record("One thing that is wrong.", &["field", "code", "says"], json!({
            "field": words("A JSON Pointer (RFC 6901) to the field; empty where it is the request as a whole."),
            "code": {"type": "string", "enum": codes, "description": about_codes.join(" ")},
            "says": words("What is wrong, in words."),
            "try": words("A value or way that would be right.") })),
        "Health": record("How the service is.", &["status"], json!({
            "status": {"type": "string", "enum": ["ok", "ready"], "description": "ok, or ready."} })),
        "Tables": record("The reference tables.", &["data_version", "tables"], json!({
            "data_version": words("The version of the tables."),
            "tables": list("TableListed", "The tables.") })),
        "TableName": {"type": "string", "enum": tables::names(), "description": "The name of a reference table."},
        "TableListed": record("A reference table in the list.", &["name", "columns", "rows", "address"], json!({
            "name": words("Its name."), "columns": texts("The columns, in order."),
            "rows": {"type": "integer", "minimum": 0, "description": "How many rows it has."},
            "address": words("Where it is; with .csv behind it, as CSV.") })),
        "Table": record("A reference table.", &["name", "data_version", "columns", "rows"], json!({
            "name": words("Its name."), "data_version": words("The version of the tables."),
            "columns": texts("The columns, in order."),
            "rows": {"type": "array", "description": "The rows, each with its source and trust; an empty cell is left out.",
                     "items": {"type": "object", "additionalProperties": {"oneOf": [{"type": "string"}, {"type": "number"}]}}} })),
        "Verification": record("What each calculator is checked against.", &["version", "data_version", "calculators"], json!({
            "version": words("The version of the service."),
            "data_version": words("The version of the tables."),
            "calculators": list("VerifiedBySource", "The calculators with their checks by source.") })),
        "VerifiedBySource": record("One calculator's checks by source.", &["calculator", "outside", "sources"], json!({
            "calculator": words("The calculator."),
            "outside": {"type": "integer", "minimum": 0, "description": "How many checks come from outside: printed, or from a general-purpose library."},
            "sources": list("ChecksOfSource", "Its checks by kind and source.") })),
        "Verified": record("One calculator's checks.", &["calculator", "outside", "sources", "checks"], json!({
            "calculator": words("The calculator."),
            "outside": {"type": "integer", "minimum": 0, "description": "How many checks come from outside: printed, or from a general-purpose library."},
            "sources": list("ChecksOfSource", "Its checks by kind and source."),
            "checks": list("Check", "Every check.") })),
        "ChecksOfSource": record("The checks of one kind from one source.", &["kind", "source", "title", "count", "places"], json!({
            "kind": a("KindOfCheck", "What kind of check."),
            "source": words("The source's short name."), "title": words("Its title."),
            "count": {"type": "integer", "minimum": 1, "description": "How many."},
            "places": texts("Where in the source, or the scripts that made them.") })),
        "KindOfCheck": {"type": "string", "enum": verification::KINDS,
                        "description": "Where a check value comes from; published and library are from outside."},
        "Check": record("A value that an answer must give.", &["inputs", "field", "expected", "source", "place", "kind"], json!({
            "inputs": words("The request as query text, not percent-encoded."),
            "field": words("Where in the result, as a JSON Pointer; a row may be named as [name=value]."),
            "expected": words("The value: a number, or words where there is no tolerance."),
            "unit": words("The unit of the number."),
            "tolerance": words("The greatest difference allowed."),
            "source": words("The source's short name."),
            "place": words("Where in the source, or the script that made it."),
            "kind": a("KindOfCheck", "What kind of check.") })),
        "Catalogue": record("Every calculator.", &["version", "data_version", "calculators"], json!({
            "version": words("The version of the service."),
            "data_version": words("The version of the tables."),
            "shop": a("ShopListed", "The shop and its machines; only where the service was started with --shop."),
            "calculators": {"type": "array", "description": "The calculators, in the register's order.",
                            "items": of("CatalogueEntry")} })),
        "CatalogueEntry": record("One calculator.",
            &["id", "title", "about", "task", "words", "address", "page", "fields", "results", "examples"], json!({
            "id": words("Its name, topic/calculator."), "title": words("Its title."),
            "about": words("What it does."), "task": words("The job it belongs to."),
            "words": texts("Words to find it by."),
            "address": words("Where it is asked."), "page": words("Where its page is."),
            "drawing": words("Where its drawing is, if it has one."),
            "fields": list("CatalogueField", "Its fields, in order."),
            "results": list("CatalogueResult", "Its results, in order."),
            "examples": list("CatalogueExample", "Examples; the first shows the main use.") })),
        "CatalogueField": record("A field of a calculator.", &["name", "label", "about", "required", "example", "form"], json!({
            "name": words("Its name."), "label": words("What a person calls it."), "about": words("What it is."),
            "required": {"type": "boolean", "description": "Whether it must be given."},
            "example": words("A good value, as a query states it."),
            "form": {"type": "string", "enum": FORMS, "description": "The form it takes."},
            "units": texts("The units it is read in, where it is a quantity."),
            "choices": texts("The words to choose from, where it is a choice."),
            "least": words("The lower bound, in words."), "most": words("The upper bound, in words.") })),
        "CatalogueResult": record("A result of a calculator.", &["name", "label", "about"], json!({
            "name": words("Its name."), "label": words("What a person calls it."), "about": words("What it is.") })),
        "CatalogueExample": record("An example of a calculator.", &["says", "inputs", "address"], json!({
            "says": words("What is worked out."),
            "inputs": {"type": "object", "additionalProperties": {"type": "string"},
                       "description": "The fields, each as a query states it."},
            "address": words("The address that asks it.") })),
    });
    let Value::Object(all) = all else { return Vec::new() };
    all.into_iter().collect()
}

/// A response of text.
pub fn text(media: &str, about: &str, example: Option<Value>) -> Value {
    let mut content = json!({"schema": {"type": "string"}});
    if let Some(example) = example {
        content["example"] = example;
    }
    json!({"description": about, "content": {media: content}})
}

/// A response of JSON. A whole answer would be a long example: one is had by asking.
pub fn json_response(about: &str, schema: Value) -> Value {
    json!({"description": about, "content": {"application/json": {"schema": schema}}})
}
