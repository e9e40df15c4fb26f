//! The published description, OpenAPI 3.1, built from the register: the operations of each
//! calculator and the service's own.

mod batch_and_recheck;
mod calculator;
mod json_schema;
mod parts;
mod practice;
mod service_addresses;

use crate::asking::described;
use crate::declared::Schemas;
use serde_json::Value;
use std::collections::BTreeMap;
use std::sync::LazyLock;
use utoipa::openapi::path::PathsBuilder;
use utoipa::openapi::schema::{ComponentsBuilder, Schema};
use utoipa::openapi::tag::TagBuilder;
use utoipa::openapi::{InfoBuilder, LicenseBuilder, OpenApiBuilder, RefOr, ServerBuilder};

const ABOUT: &str = "The arithmetic of a machine shop: drills, patterns, arcs, threads, speeds. Every answer carries its \
    inputs as understood, what was assumed, the working, sources and cautions. Starting points, not settings: the tool \
    maker's data, the machine's manual and qualified people come first.\n\nA quantity is a text with its unit, such as \
    `0.5 in`, `1-1/2 in`, `12.7mm`, `12°30'`, `2.000 ±0.001 in`; in JSON also an object. Where several stand in place \
    of one, parted by `|`, or a range such as `1/4 in..1 in step 1/16 in`, the answer has `rows` in place of `result`; \
    so for counts and words, though words are held here to one of the list, so that clients know them. Lists are \
    parted by commas in a query.\n\nA refusal is a problem document (RFC 9457) that names every wrong field, what is \
    wrong with it, and a value to try: 400 where the request cannot be read, 422 where it can and is wrong. Answers \
    carry an ETag, and If-None-Match is heeded. There are no accounts and no keys.";

/// The description as it is served, made once.
pub fn served() -> &'static str {
    static TEXT: LazyLock<String> = LazyLock::new(|| document().to_string());
    &TEXT
}

/// The description for people to read and compare: the same, a line for each member.
pub fn text() -> String {
    let mut text = serde_json::to_string_pretty(&document()).unwrap_or_default();
    text.push('\n');
    text
}

/// Every operation as `METHOD path operation_id`, sorted: the description at a glance.
pub fn operations() -> String {
    let document = document();
    let mut lines = Vec::new();
    for (path, item) in document["paths"].as_object().into_iter().flatten() {
        for (method, operation) in item.as_object().into_iter().flatten() {
            if let Some(id) = operation["operationId"].as_str() {
                lines.push(format!("{} {path} {id}", method.to_uppercase()));
            }
        }
    }
    lines.sort_by_key(|line| line.split(' ').nth(1).map(|path| (path.to_owned(), line.clone())));
    lines.join("\n") + "\n"
}

/// The description.
pub fn document() -> Value {
    let mut paths = PathsBuilder::new();
    let own = service_addresses::operations().into_iter();
    for (path, item) in own.chain(practice::operations()).chain(batch_and_recheck::operations()) {
        paths = paths.path(path, item);
    }
    let mut tags: Vec<String> = Vec::new();
    for described in described() {
        let (topic, _) = described.entry.address();
        if !tags.iter().any(|tag| tag == topic) {
            tags.push(topic.to_owned());
        }
        for (path, item) in calculator::operations(described) {
            paths = paths.path(path, item);
        }
    }
    let tags = ["service"].into_iter().map(str::to_owned).chain(tags);
    let schemas: BTreeMap<String, RefOr<Schema>> = schemas().into_iter().collect();
    let document = OpenApiBuilder::new()
        .info(
            InfoBuilder::new()
                .title("Shop Reckoner")
                .version(crate::VERSION)
                .description(Some(ABOUT))
                .license(Some(
                    LicenseBuilder::new().name("MIT OR Apache-2.0").identifier(Some("MIT OR Apache-2.0")).build(),
                ))
                .build(),
        )
        // None is needed, which has to be said.
        .security(Some([]))
        .servers(Some([ServerBuilder::new().url("/").description(Some("This service")).build()]))
        .tags(Some(tags.map(|tag| TagBuilder::new().name(&tag).description(Some(about_tag(&tag))).build())))
        .paths(paths)
        .components(Some(ComponentsBuilder::new().schemas_from_iter(schemas).build()))
        .build();
    serde_json::to_value(document).unwrap_or_default()
}

/// Every schema with its name; those that several calculators use are there more than once.
fn schemas() -> Schemas {
    let mut schemas = parts::schemas();
    schemas.extend(batch_and_recheck::schemas());
    schemas.extend(practice::schemas());
    described().iter().for_each(|described| schemas.extend(calculator::schemas(described)));
    schemas
}

fn about_tag(tag: &str) -> String {
    match tag {
        "service" => "The service itself: its calculators, tables, description and health.".into(),
        topic => {
            let titles: Vec<&str> = described()
                .iter()
                .filter(|described| described.entry.address().0 == topic)
                .map(|described| described.entry.title)
                .collect();
            format!("{}.", titles.join(", "))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_name_is_one_schema_also_beside_those_made_here() {
        let mut seen: BTreeMap<String, Value> = BTreeMap::new();
        for (name, schema) in schemas() {
            let schema = serde_json::to_value(schema).unwrap_or_default();
            if let Some(before) = seen.insert(name.clone(), schema.clone()) {
                assert_eq!(before, schema, "{name} is two things");
            }
        }
    }
}
