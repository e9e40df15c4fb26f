//! The service's own operations: its calculators, tables, checks, description and health.

use super::operation::Operation;
use super::parts::{Named, json_response, list, of, record, text, words};
use super::refusals::NAMED;
use crate::calculators::{Entry, REGISTER};
use crate::service::tables;
use serde_json::{Value, json};

/// The tag of what is no calculator.
pub const TAG: &str = "service";

const EXAMPLE: &str = "drills_inch";

/// An operation of the service itself.
pub fn operation(id: &str, summary: &str, about: &str) -> Operation {
    Operation::new(TAG, id, summary, about)
}

fn in_path(name: &str, about: &str, schema: Value, example: &str) -> Value {
    json!({"name": name, "in": "path", "required": true, "description": about, "schema": schema, "example": example})
}

/// A part of a calculator's name in an address; the example is the first calculator's.
fn part_of_id(name: &str, about: &str, schema: &str, part: fn(&Entry) -> &'static str) -> Value {
    in_path(name, about, of(schema), REGISTER.first().map_or("", part))
}

/// The schemas.
pub fn schemas() -> Named {
    let parts = |about: &str, part: fn(&Entry) -> &'static str| {
        let mut parts: Vec<&str> = REGISTER.iter().map(part).collect();
        parts.sort_unstable();
        parts.dedup();
        json!({"type": "string", "description": about, "enum": parts})
    };
    let document = json!({"type": "object", "description": "An OpenAPI document.", "additionalProperties": true});
    let mut topics: Vec<&str> = vec![TAG];
    for entry in REGISTER {
        if !topics.contains(&entry.address().0) {
            topics.push(entry.address().0);
        }
    }
    let listed = json!({
        "name": of("Part"), "about": words("What it holds."), "address": words("Where it is."),
        "operations": {"type": "integer", "minimum": 1, "description": "How many operations it has."} });
    [
        (
            "Part",
            json!({"type": "string", "description": "A part of the description: a topic, or service.", "enum": topics}),
        ),
        ("PartListed", record("A part of the description.", &["name", "about", "address", "operations"], listed)),
        (
            "Parts",
            record(
                "The parts of the description.",
                &["whole", "parts"],
                json!({
            "whole": words("Where the whole is."), "parts": list("PartListed", "The parts.") }),
            ),
        ),
        ("TopicName", parts("A topic, the first part of a calculator's name.", |entry| entry.address().0)),
        ("NameInTopic", parts("The second part of a calculator's name.", |entry| entry.address().1)),
        ("Description", document),
    ]
    .map(|(name, schema)| (name.to_owned(), schema))
    .into()
}

/// The operations by address.
pub fn operations() -> Vec<(String, Value)> {
    let read = |id, summary, about: &str, schema: &str| {
        operation(id, summary, about).reads(json_response(about, of(schema)), &[])
    };
    let named = |id, summary, about: &str, schema: &str, parameters| {
        operation(id, summary, about).parameters(parameters).reads(json_response(about, of(schema)), &[NAMED])
    };
    let table_name = || {
        let about = "The name of a table, as /v1/tables lists it.";
        vec![in_path("name", about, of("TableName"), EXAMPLE)]
    };
    let about = "A reference table as CSV.";
    let lines: String = tables::csv(EXAMPLE).split_inclusive('\n').take(3).collect();
    let table_csv = operation("table_csv", "One table, as CSV", about)
        .parameters(table_name())
        .reads(text("text/csv", about, Some(lines.into())), &[NAMED]);
    let about = "Counts and times in the Prometheus text format.";
    let line = "shop_reckoner_refusals_total{code=\"unit_missing\"} 1\n";
    // Another each time, so it has no tag.
    let metrics =
        operation("metrics", "Counts and times", about).answers(text("text/plain", about, Some(line.into())), &[]);
    let id = vec![
        part_of_id("topic", "The topic, the first part of the calculator's name.", "TopicName", |entry| {
            entry.address().0
        }),
        part_of_id("calculator", "The second part of the calculator's name.", "NameInTopic", |entry| entry.address().1),
    ];
    let topic = vec![in_path("topic", "A topic, or service for what is not a calculator.", of("Part"), "holes")];
    let ready = json_response("Whether the service takes requests.", of("Health"));
    let all = [
        ("/healthz", read("healthz", "Alive", "Whether the process is alive.", "Health")),
        (
            "/readyz",
            operation("readyz", "Ready to answer", "Whether the service takes requests; 503 while it stops.")
                .reads(ready, &[]),
        ),
        (
            "/openapi.json",
            read("openapi", "This description", "The description of every address, OpenAPI 3.1.", "Description"),
        ),
        (
            "/openapi",
            read("openapi_parts", "The description's parts", "The description in parts, one for each topic.", "Parts"),
        ),
        (
            "/openapi/{topic}.json",
            named(
                "openapi_part",
                "The description of one topic",
                "The description of one topic's addresses, whole by itself.",
                "Description",
                topic,
            ),
        ),
        ("/metrics", metrics),
        ("/v1/tables", read("tables", "All tables", "The reference tables.", "Tables")),
        (
            "/v1/tables/{name}",
            named(
                "table",
                "One table",
                "A reference table, each row with its source and trust.",
                "Table",
                table_name(),
            ),
        ),
        ("/v1/tables/{name}.csv", table_csv),
        (
            "/v1/calculators",
            read(
                "calculators",
                "All calculators",
                "Every calculator with its fields, bounds, examples and search words.",
                "Catalogue",
            ),
        ),
        (
            "/v1/verification",
            read(
                "verification",
                "What answers are checked against",
                "What each calculator is checked against in the tests, counted by source.",
                "Verification",
            ),
        ),
        (
            "/v1/verification/{topic}/{calculator}",
            named(
                "verification_of",
                "What one calculator is checked against",
                "Every value that a calculator is checked against, with its place in the source.",
                "Verified",
                id,
            ),
        ),
    ];
    all.into_iter().map(|(path, get)| (path.to_owned(), json!({"get": get}))).collect()
}
