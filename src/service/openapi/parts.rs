//! The parts that the operations share: an answer, a refusal, the catalogue, the tables; and the
//! responses that any operation can give.

use super::json_schema::schema;
use crate::asking::{FORMS, reserved_schemas};
use crate::declared::Schemas;
use crate::quantity::pattern;
use crate::refusal::Code;
use crate::service::tables;
use crate::sources::Trust;
use crate::verification;
use serde_json::{Value, json};
use utoipa::openapi::path::OperationBuilder;
use utoipa::openapi::{ContentBuilder, HeaderBuilder, Ref, Response, ResponseBuilder};

/// A text.
pub fn words(about: &str) -> Value {
    json!({"type": "string", "description": about})
}

/// What another schema describes, with a sentence of its own.
pub fn a(name: &str, about: &str) -> Value {
    json!({"$ref": format!("#/components/schemas/{name}"), "description": about})
}

/// A list of what another schema describes.
pub fn list(of: &str, about: &str) -> Value {
    json!({"type": "array", "description": about, "items": {"$ref": format!("#/components/schemas/{of}")}})
}

fn texts(about: &str) -> Value {
    json!({"type": "array", "items": {"type": "string"}, "description": about})
}

/// An object with these members and no others.
pub fn record(about: &str, required: &[&str], properties: Value) -> Value {
    json!({"type": "object", "description": about, "required": required, "additionalProperties": false,
           "properties": properties})
}

/// The schemas of a calculator's answer; `stem` begins their names, `result` is that of its result.
pub fn answer_schemas(id: &str, stem: &str, result: &str) -> Schemas {
    let inputs = format!("{stem}Inputs");
    let case = record(
        "One case of a list or range of inputs.",
        &["inputs"],
        json!({
        "inputs": {"type": "object", "additionalProperties": true,
                   "description": "The inputs of this case as understood; if it is refused, those that vary."},
        "result": a(result, "Its result."),
        "errors": list("Wrong", "What is wrong with it, if it is refused.") }),
    );
    let root = record(
        "One value of an input that gives the wanted result.",
        &["value", "inputs", "result"],
        json!({
        "value": a("Stated", "The value of the input."),
        "up_to": a("Stated", "Only where every value from that one on to this one gives the result."),
        "inputs": a(&inputs, "All inputs."),
        "result": a(result, "The result they give.") }),
    );
    let answer = json!({
        "type": "object",
        "description": format!("The answer of {id}."),
        "required": ["calculator", "version", "data_version", "inputs", "assumed", "working", "notes", "cautions", "sources", "trust"],
        "additionalProperties": false,
        "properties": {
            "calculator": words("The calculator that answered."),
            "version": words("The version of the service."),
            "data_version": words("The version of the tables."),
            "link": words("The address that gives this answer again by GET; absent where it would be too long. With the answer itself it is the receipt that /v1/recheck takes."),
            "shop": {"$ref": "#/components/schemas/ShopUsed",
                     "description": "The shop that was answered for; only where the service was started with --shop."},
            "inputs": a(&inputs, "The inputs as understood, value and unit as stated."),
            "assumed": list("Assumed", "Every default that was used."),
            "result": a(result, "The result; absent where rows or roots stand instead."),
            "rows": list(&format!("{stem}Case"), "One row for each case, where an input holds a list or a range."),
            "difference": {"type": "object", "additionalProperties": true,
                           "description": "The second row's result less the first's, where there are two rows."},
            "roots": list(&format!("{stem}Root"), "Every value of solve_for that gives the result wanted."),
            "correction": a("Correction", "The correction of an input, where a result was measured."),
            "working": list("Step", "The working, step by step; empty if it is not wanted."),
            "notes": list("Remark", "What to know about the answer."),
            "cautions": list("Remark", "What to beware of."),
            "sources": list("SourceUsed", "The sources used."),
            "trust": a("Trust", "The worst trust of the sources used."),
        }
    });
    let named = [("Case", case), ("Root", root), ("Answer", answer)];
    named.into_iter().map(|(name, value)| (format!("{stem}{name}"), schema(value))).collect()
}

/// Schemas that every answer and refusal uses.
pub fn schemas() -> Schemas {
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
            "value": {"description": "What was taken for it: a quantity, a word, a count or a list.",
                      "anyOf": [{"$ref": "#/components/schemas/Stated"},
                                {"$ref": "#/components/schemas/StatedPoint"}, {"type": "string"}, {"type": "number"},
                                {"type": "boolean"}, {"type": "array", "items": {"anyOf": [
                                    {"$ref": "#/components/schemas/Stated"}, {"type": "string"}, {"type": "number"}]}}]},
            "says": words("Why.") })),
        "SourceUsed": record("A source and the place in it.", &["key", "title", "where", "trust"], json!({
            "key": words("The source's short name."), "title": words("Its title."),
            "where": words("The place in it, or what was taken from it."),
            "trust": {"$ref": "#/components/schemas/Trust", "description": "How far this can be trusted."},
            "data_version": words("The version of the rows taken from it; absent where no table has any.") })),
        "Step": record("One step of the working.", &["what", "by", "formula", "with", "gives"], json!({
            "what": words("What the step finds."),
            "by": {"type": "string", "enum": ["formula", "table", "choice"],
                   "description": "Whether it is computed, looked up, or chosen among the values shown."},
            "formula": words("The formula, the table or the rule."),
            "with": words("Each symbol, what it stands for, and its value: `D (diameter) = 0.5 in; …`."),
            "gives": {"$ref": "#/components/schemas/Gives", "description": "What the step gives."} })),
        "Stated": record("A quantity as an answer repeats it.", &["value", "unit", "text"], json!({
            "value": {"type": "number", "description": "The number in full."},
            "unit": words("The unit of the number."),
            "text": words("Rounded as the trade writes it, with the unit."),
            "plus": {"type": "number", "minimum": 0, "description": "Tolerance above the value, in the same unit."},
            "minus": {"type": "number", "minimum": 0, "description": "Tolerance below the value, as a positive amount."},
            "name": words("The name it was asked by, such as a drill's.") })),
        "StatedPoint": record("A point as an answer repeats it.", &["x", "y"], json!({
            "x": a("Stated", "Its place on the X axis."), "y": a("Stated", "Its place on the Y axis.") })),
        "Numbers": {"type": "string", "pattern": pattern::numbers(), "examples": ["4|6|8", "4..12 step 2"],
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
            "machines": {"type": "array", "items": {"$ref": "#/components/schemas/MachineListed"},
                         "description": "Its machines."} })),
        "MachineListed": record("A machine of the shop.", &["name", "fields"], json!({
            "name": words("Its name, as machine=name in a request states it."),
            "fields": {"type": "object", "additionalProperties": {"type": "string"},
                       "description": "The fields it stands in for, with their values."} })),
        "Problem": record("A refusal, after RFC 9457.", &["type", "title", "status", "detail", "errors"], json!({
            "type": words("about:blank: the status says what kind of problem it is."),
            "title": words("The status in words."),
            "status": {"type": "integer", "description": "The HTTP status.", "minimum": 400, "maximum": 599},
            "detail": words("What is wrong, all together."),
            "errors": {"type": "array", "items": {"$ref": "#/components/schemas/Wrong"},
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
                     "items": {"type": "object", "additionalProperties": {"anyOf": [{"type": "string"}, {"type": "number"}]}}} })),
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
            "kind": {"$ref": "#/components/schemas/KindOfCheck", "description": "What kind of check."},
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
            "kind": {"$ref": "#/components/schemas/KindOfCheck", "description": "What kind of check."} })),
        "Catalogue": record("Every calculator.", &["version", "data_version", "calculators"], json!({
            "version": words("The version of the service."),
            "data_version": words("The version of the tables."),
            "shop": {"$ref": "#/components/schemas/ShopListed",
                     "description": "The shop and its machines; only where the service was started with --shop."},
            "calculators": {"type": "array", "description": "The calculators, in the register's order.",
                            "items": {"$ref": "#/components/schemas/CatalogueEntry"}} })),
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
        "CatalogueField": record("A field of a calculator.", &["name", "about", "required", "example", "form"], json!({
            "name": words("Its name."), "about": words("What it is."),
            "required": {"type": "boolean", "description": "Whether it must be given."},
            "example": words("A good value, as a query states it."),
            "form": {"type": "string", "enum": FORMS, "description": "The form it takes."},
            "units": texts("The units it is read in, where it is a quantity."),
            "choices": texts("The words to choose from, where it is a choice."),
            "least": words("The lower bound, in words."), "most": words("The upper bound, in words.") })),
        "CatalogueResult": record("A result of a calculator.", &["name", "about"], json!({
            "name": words("Its name."), "about": words("What it is.") })),
        "CatalogueExample": record("An example of a calculator.", &["says", "inputs", "address"], json!({
            "says": words("What is worked out."),
            "inputs": {"type": "object", "additionalProperties": {"type": "string"},
                       "description": "The fields, each as a query states it."},
            "address": words("The address that asks it.") })),
    });
    let mut schemas: Schemas = Vec::new();
    if let Value::Object(all) = all {
        schemas.extend(all.into_iter().map(|(name, value)| (name, schema(value))));
    }
    schemas.extend(reserved_schemas());
    schemas
}

/// A response of bare text.
pub fn text(media: &str, about: &str, example: Option<Value>) -> Response {
    ResponseBuilder::new()
        .description(about)
        .content(
            media,
            ContentBuilder::new()
                .schema(Some(schema(json!({"type": "string", "description": about}))))
                .example(example)
                .build(),
        )
        .build()
}

/// A refusal.
pub fn problem(about: &str) -> Response {
    ResponseBuilder::new()
        .description(about)
        .content(
            crate::service::problem::MEDIA_TYPE,
            ContentBuilder::new().schema(Some(Ref::from_schema_name("Problem"))).build(),
        )
        .build()
}

/// The refusal of a caller who asks too often.
fn too_often() -> Response {
    let seconds = schema(json!({"type": "integer", "minimum": 1, "description": "Seconds to wait."}));
    let header = HeaderBuilder::new().schema(Some(seconds)).description(Some("When to ask again.")).build();
    ResponseBuilder::from(problem("The caller asks more often than is allowed; only where a limit is set."))
        .header("Retry-After", header)
        .build()
}

/// Adds the refusals that any operation can give.
pub fn any_problem(operation: OperationBuilder) -> OperationBuilder {
    operation
        .response("408", problem("The request took too long."))
        .response("414", problem("The address is too long."))
        .response("429", too_often())
        .response("431", problem("The headers are too large."))
}

/// Adds the refusals that any calculator's operation can give.
pub fn problem_responses(operation: OperationBuilder, posts: bool) -> OperationBuilder {
    let operation = any_problem(
        operation
            .response("400", problem("The request cannot be read: broken JSON, percent-encoding or UTF-8."))
            .response("422", problem("The request can be read and is wrong: every wrong field, with a value to try."))
            .response(
                "503",
                problem("The answer takes longer to work out than a request may, or the service is stopping."),
            ),
    );
    if !posts {
        return operation;
    }
    operation
        .response("413", problem("The body is too large."))
        .response("415", problem("The body is not JSON, or it is compressed."))
}
