//! What the operations share: the parts of an answer, the problem document, the service's own
//! operations.

use super::schema;
use crate::asking::{Form, ask};
use crate::calculators::{Entry, REGISTER, Schemas};
use crate::fields::{Fields, Given};
use crate::refusal::Code;
use crate::sources::Trust;
use serde_json::{Map, Value, json};
use utoipa::PartialSchema;
use utoipa::openapi::Required;
use utoipa::openapi::path::{HttpMethod, OperationBuilder, ParameterBuilder, ParameterIn, PathItem, PathItemBuilder};
use utoipa::openapi::{ContentBuilder, Ref, Response, ResponseBuilder};

/// An example's fields as a JSON object.
pub fn inputs(fields: &[(&'static str, &'static str)]) -> Value {
    Value::Object(fields.iter().map(|(name, value)| ((*name).to_owned(), json!(value))).collect::<Map<_, _>>())
}

/// The answer to an example, as the service gives it.
pub fn asked(entry: &'static Entry, fields: &[(&'static str, &'static str)]) -> Option<Value> {
    let fields = Fields(fields.iter().map(|(name, value)| ((*name).into(), Given::Text((*value).into()))).collect());
    ask(entry, fields, Form::Json).ok().and_then(|(answer, _)| serde_json::to_value(answer).ok())
}

/// The schema of an answer whose result has the schema `result`.
pub fn answer_schema(result: &str) -> Value {
    let list = |of: &str, about: &str| json!({"type": "array", "description": about, "items": {"$ref": format!("#/components/schemas/{of}")}});
    let words = |about: &str| json!({"type": "string", "description": about});
    json!({
        "type": "object",
        "required": ["calculator", "version", "data_version", "inputs", "assumed", "working", "notes", "cautions", "sources", "trust"],
        "additionalProperties": false,
        "properties": {
            "calculator": words("The calculator that answered."),
            "version": words("The version of the service."),
            "data_version": words("The version of the tables."),
            "shop": {"$ref": "#/components/schemas/ShopUsed",
                     "description": "The shop that was answered for; only where the service was started with --shop."},
            "inputs": {"type": "object", "description": "The inputs as understood, value and unit as stated.",
                       "additionalProperties": true},
            "assumed": list("Assumed", "Every default that was used."),
            "result": {"$ref": format!("#/components/schemas/{result}"),
                       "description": "The result; absent where rows or roots stand instead."},
            "rows": list("Row", "One row for each case, where an input holds a list or a range."),
            "difference": {"type": "object",
                           "description": "The second row's result less the first's, where there are two rows."},
            "roots": list("Root", "Every value of solve_for that gives the result wanted."),
            "correction": {"$ref": "#/components/schemas/Correction",
                           "description": "The correction of an input, where a result was measured."},
            "working": list("Step", "The working, step by step; empty if it is not wanted."),
            "notes": list("Remark", "What to know about the answer."),
            "cautions": list("Remark", "What to beware of."),
            "sources": list("SourceUsed", "The sources used."),
            "trust": {"$ref": "#/components/schemas/Trust", "description": "The worst trust of the sources used."},
        }
    })
}

/// Schemas that every answer and refusal uses.
pub fn common_schemas() -> Schemas {
    let words = |about: &str| json!({"type": "string", "description": about});
    let record = |about: &str, required: &[&str], properties: Value| {
        json!({"type": "object", "description": about, "required": required, "additionalProperties": false,
               "properties": properties})
    };
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
                      "type": ["object", "string", "number", "boolean", "array"]},
            "says": words("Why.") })),
        "SourceUsed": record("A source and the place in it.", &["key", "title", "where", "trust"], json!({
            "key": words("The source's short name."), "title": words("Its title."),
            "where": words("The place in it, or what was taken from it."),
            "trust": {"$ref": "#/components/schemas/Trust", "description": "How far this can be trusted."} })),
        "Step": record("One step of the working.", &["what", "by", "formula", "with", "gives"], json!({
            "what": words("What the step finds."),
            "by": {"type": "string", "enum": ["formula", "table", "choice"],
                   "description": "Whether it is computed, looked up, or chosen among the values shown."},
            "formula": words("The formula, the table or the rule."),
            "with": words("Each symbol, what it stands for, and its value: `D (diameter) = 0.5 in; …`."),
            "gives": {"$ref": "#/components/schemas/Gives", "description": "What the step gives."} })),
        "Row": record("One case of a list or range of inputs.", &["inputs"], json!({
            "inputs": {"type": "object", "description": "The inputs of this case."},
            "result": {"type": "object", "description": "Its result."},
            "errors": {"type": "array", "items": {"$ref": "#/components/schemas/Wrong"},
                       "description": "What is wrong with it, if it is refused."} })),
        "Root": record("One value of an input that gives the wanted result.", &["value", "inputs", "result"], json!({
            "value": {"type": "object", "description": "The value of the input."},
            "inputs": {"type": "object", "description": "All inputs."},
            "result": {"type": "object", "description": "The result they give."} })),
        "Correction": record("What to change an input by.", &["field", "intended", "as_made", "change"], json!({
            "field": words("The input."),
            "intended": {"type": "object", "description": "What it was meant to be."},
            "as_made": {"type": "object", "description": "What it must have been, from the result measured."},
            "change": {"type": "object", "description": "Intended less as made: what to add."} })),
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
            "status": words("ok, or ready.") })),
        "Tables": record("The reference tables.", &["data_version", "tables"], json!({
            "data_version": words("The version of the tables."),
            "tables": {"type": "array", "items": {"type": "object"},
                       "description": "The tables: name, columns, rows, address."} })),
        "Table": record("A reference table.", &["name", "data_version", "columns", "rows"], json!({
            "name": words("Its name."), "data_version": words("The version of the tables."),
            "columns": {"type": "array", "items": {"type": "string"}, "description": "The columns, in order."},
            "rows": {"type": "array", "items": {"type": "object"},
                     "description": "The rows, each with its source and trust."} })),
        "Catalogue": record("Every calculator.", &["version", "data_version", "calculators"], json!({
            "version": words("The version of the service."),
            "data_version": words("The version of the tables."),
            "shop": {"$ref": "#/components/schemas/ShopListed",
                     "description": "The shop and its machines; only where the service was started with --shop."},
            "calculators": {"type": "array", "description": "The calculators, in the register's order.",
                            "items": {"$ref": "#/components/schemas/CatalogueEntry"}} })),
        "CatalogueEntry": {"type": "object", "description": "One calculator.",
            "required": ["id", "title", "about", "task", "words", "address", "page", "fields", "results", "examples"],
            "properties": {
                "id": words("Its name, topic/calculator."), "title": words("Its title."),
                "about": words("What it does."), "task": words("The job it belongs to."),
                "words": {"type": "array", "items": {"type": "string"}, "description": "Words to find it by."},
                "address": words("Where it is asked."), "page": words("Where its page is."),
                "drawing": words("Where its drawing is, if it has one."),
                "fields": {"type": "array", "items": {"type": "object"},
                           "description": "Its fields: name, about, required, example, form, units, choices, least, most."},
                "results": {"type": "array", "items": {"type": "object"}, "description": "Its results: name, about."},
                "examples": {"type": "array", "items": {"type": "object"},
                             "description": "Examples: says, inputs, address."} } },
    });
    let mut schemas: Schemas = Vec::new();
    if let Value::Object(all) = all {
        schemas.extend(all.into_iter().map(|(name, value)| (name, schema(value))));
    }
    schemas.push(("Resolution".into(), crate::quantity::Resolution::schema()));
    schemas
}

fn problem(about: &str) -> Response {
    ResponseBuilder::new()
        .description(about)
        .content(
            crate::service::problem::MEDIA_TYPE,
            ContentBuilder::new().schema(Some(Ref::from_schema_name("Problem"))).build(),
        )
        .build()
}

/// Adds the refusals that any calculator's operation can give.
pub fn problem_responses(operation: OperationBuilder, posts: bool) -> OperationBuilder {
    let mut operation = operation
        .response("400", problem("The request cannot be read: broken JSON, percent-encoding or UTF-8."))
        .response("408", problem("The request took too long."))
        .response("422", problem("The request can be read and is wrong: every wrong field, with a value to try."))
        .response("431", problem("The headers are too large."));
    if posts {
        operation = operation
            .response("413", problem("The body is too large."))
            .response("415", problem("The body is not JSON."));
    } else {
        operation = operation.response("414", problem("The address is too long."));
    }
    operation
}

/// The service's own operations.
pub fn own_operations() -> Vec<(&'static str, PathItem)> {
    let operation = |id: &str, summary: &str, about: &str, schema: &str, example: Value| {
        let ok = ResponseBuilder::new()
            .description(about)
            .content(
                "application/json",
                ContentBuilder::new().schema(Some(Ref::from_schema_name(schema))).example(Some(example)).build(),
            )
            .build();
        OperationBuilder::new()
            .tag("service")
            .operation_id(Some(id))
            .summary(Some(summary))
            .description(Some(about))
            .response("200", ok)
            .response("431", problem("The headers are too large."))
    };
    let item = |operation: OperationBuilder| PathItemBuilder::new().operation(HttpMethod::Get, operation).build();
    let catalogue = json!({"version": crate::VERSION, "data_version": crate::data_version(), "calculators": []});
    let ready = operation(
        "readyz",
        "Ready to answer",
        "Whether the service takes requests.",
        "Health",
        json!({"status": "ready"}),
    )
    .response("503", problem("The service is stopping."));
    let description = OperationBuilder::new()
        .tag("service")
        .operation_id(Some("openapi"))
        .summary(Some("This description"))
        .description(Some("The description of every address, OpenAPI 3.1."))
        .response(
            "200",
            ResponseBuilder::new()
                .description("The description.")
                .content(
                    "application/json",
                    ContentBuilder::new()
                        .schema(Some(schema(json!({"type": "object", "description": "An OpenAPI document."}))))
                        .example(Some(json!({"openapi": "3.1.0"})))
                        .build(),
                )
                .build(),
        )
        .response("431", problem("The headers are too large."));
    let tables = json!({"data_version": crate::data_version(), "tables": []});
    let text = |id: &str, summary: &str, about: &str, media: &str, example: &str| {
        let ok = ResponseBuilder::new()
            .description(about)
            .content(
                media,
                ContentBuilder::new()
                    .schema(Some(schema(json!({"type": "string", "description": about}))))
                    .example(Some(json!(example)))
                    .build(),
            )
            .build();
        OperationBuilder::new()
            .tag("service")
            .operation_id(Some(id))
            .summary(Some(summary))
            .description(Some(about))
            .response("200", ok)
            .response("431", problem("The headers are too large."))
    };
    let table_name = || {
        ParameterBuilder::new()
            .name("name")
            .parameter_in(ParameterIn::Path)
            .required(Required::True)
            .description(Some("The name of a table, as /v1/tables lists it."))
            .schema(Some(schema(json!({"type": "string", "enum": crate::service::tables::names()}))))
            .example(Some(json!("drills_inch")))
    };
    let table = json!({"name": "drills_inch", "data_version": crate::data_version(), "columns": [], "rows": []});
    let table =
        operation("table", "One table", "A reference table, each row with its source and trust.", "Table", table)
            .parameter(table_name())
            .response("404", problem("There is no such table."));
    let table_csv = text("table_csv", "One table, as CSV", "A reference table as CSV.", "text/csv", "name,system\r\n")
        .parameter(table_name())
        .response("404", problem("There is no such table."));
    let metrics =
        text("metrics", "Counts and times", "Counts and times in the Prometheus text format.", "text/plain", "");
    let about = format!("The {} calculators with their fields, bounds, examples and search words.", REGISTER.len());
    vec![
        (
            "/healthz",
            item(operation("healthz", "Alive", "Whether the process is alive.", "Health", json!({"status": "ok"}))),
        ),
        ("/readyz", item(ready)),
        ("/openapi.json", item(description)),
        ("/metrics", item(metrics)),
        ("/v1/tables", item(operation("tables", "All tables", "The reference tables.", "Tables", tables))),
        ("/v1/tables/{name}", item(table)),
        ("/v1/tables/{name}.csv", item(table_csv)),
        ("/v1/calculators", item(operation("calculators", "All calculators", &about, "Catalogue", catalogue))),
    ]
}
