//! The service's own operations: its calculators, tables, checks, description and health.

use super::json_schema::schema;
use super::parts::{any_problem, problem, text};
use crate::calculators::{Entry, REGISTER};
use crate::service::{catalogue, tables, verification};
use serde_json::{Value, json};
use utoipa::openapi::path::{
    HttpMethod, OperationBuilder, Parameter, ParameterBuilder, ParameterIn, PathItem, PathItemBuilder,
};
use utoipa::openapi::{ContentBuilder, Ref, RefOr, Required, Response, ResponseBuilder, Schema};

/// A response of JSON.
pub fn json_response(about: &str, of: impl Into<RefOr<Schema>>, example: Value) -> Response {
    let content = ContentBuilder::new().schema(Some(of)).example(Some(example)).build();
    ResponseBuilder::new().description(about).content("application/json", content).build()
}

/// An operation of the service itself, answered with `ok`.
pub fn operation(id: &str, summary: &str, about: &str, ok: Response) -> OperationBuilder {
    let operation = OperationBuilder::new()
        .tag("service")
        .operation_id(Some(id))
        .summary(Some(summary))
        .description(Some(about))
        .response("200", ok);
    any_problem(operation)
}

fn table_name() -> Parameter {
    ParameterBuilder::new()
        .name("name")
        .parameter_in(ParameterIn::Path)
        .required(Required::True)
        .description(Some("The name of a table, as /v1/tables lists it."))
        .schema(Some(Ref::from_schema_name("TableName")))
        .example(Some(json!(EXAMPLE)))
        .build()
}

/// A part of a calculator's name in an address; the example is the first calculator's.
fn part_of_id(name: &str, about: &str, part: fn(&Entry) -> &'static str) -> Parameter {
    let mut parts: Vec<&str> = REGISTER.iter().map(part).collect();
    let first = parts.first().copied();
    parts.sort_unstable();
    parts.dedup();
    ParameterBuilder::new()
        .name(name)
        .parameter_in(ParameterIn::Path)
        .required(Required::True)
        .description(Some(about))
        .schema(Some(schema(json!({"type": "string", "enum": parts}))))
        .example(first.map(|first| json!(first)))
        .build()
}

const EXAMPLE: &str = "drills_inch";

/// The operations by address.
pub fn operations() -> Vec<(&'static str, PathItem)> {
    let named = |id, summary, about, of: &str, example| {
        operation(id, summary, about, json_response(about, Ref::from_schema_name(of), example))
    };
    let health = named("healthz", "Alive", "Whether the process is alive.", "Health", json!({"status": "ok"}));
    let ready =
        named("readyz", "Ready to answer", "Whether the service takes requests.", "Health", json!({"status": "ready"}))
            .response("503", problem("The service is stopping."));
    let about = "The description of every address, OpenAPI 3.1.";
    let document =
        schema(json!({"type": "object", "description": "An OpenAPI document.", "additionalProperties": true}));
    let description =
        operation("openapi", "This description", about, json_response(about, document, json!({"openapi": "3.1.0"})));
    let all_tables = named("tables", "All tables", "The reference tables.", "Tables", tables::list());
    // Two rows show what the others are like.
    let mut example = tables::one(EXAMPLE).unwrap_or_default();
    if let Some(rows) = example["rows"].as_array_mut() {
        rows.truncate(2);
    }
    let no_table = || problem("There is no such table.");
    let about = "A reference table, each row with its source and trust.";
    let table =
        named("table", "One table", about, "Table", example).parameter(table_name()).response("404", no_table());
    let about = "A reference table as CSV.";
    let lines: String = tables::csv(EXAMPLE).split_inclusive('\n').take(3).collect();
    let table_csv = operation("table_csv", "One table, as CSV", about, text("text/csv", about, Some(lines.into())))
        .parameter(table_name())
        .response("404", no_table());
    let about = "Counts and times in the Prometheus text format.";
    let line = "shop_reckoner_refusals_total{code=\"unit_missing\"} 1\n";
    let metrics = operation("metrics", "Counts and times", about, text("text/plain", about, Some(line.into())));
    let about = format!("The {} calculators with their fields, bounds, examples and search words.", REGISTER.len());
    let calculators = named("calculators", "All calculators", &about, "Catalogue", catalogue::example());
    let about = "What each calculator is checked against in the tests, counted by source.";
    let verified =
        named("verification", "What answers are checked against", about, "Verification", verification::example());
    let about = "Every value that a calculator is checked against, with its place in the source.";
    let verified_one = named(
        "verification_of",
        "What one calculator is checked against",
        about,
        "Verified",
        verification::example_in_full(),
    )
    .parameter(part_of_id("topic", "The topic, the first part of the calculator's name.", |entry| entry.address().0))
    .parameter(part_of_id("calculator", "The second part of the calculator's name.", |entry| entry.address().1))
    .response("404", problem("There is no such calculator."));
    [
        ("/healthz", health),
        ("/readyz", ready),
        ("/openapi.json", description),
        ("/metrics", metrics),
        ("/v1/tables", all_tables),
        ("/v1/tables/{name}", table),
        ("/v1/tables/{name}.csv", table_csv),
        ("/v1/calculators", calculators),
        ("/v1/verification", verified),
        ("/v1/verification/{topic}/{calculator}", verified_one),
    ]
    .into_iter()
    .map(|(path, operation)| (path, PathItemBuilder::new().operation(HttpMethod::Get, operation).build()))
    .collect()
}
