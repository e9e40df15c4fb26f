//! The published description, OpenAPI 3.1: made from the register for the committed file, which is what is
//! served. Made anew only by the test that compares the two.

mod about;
mod answers;
mod batch_and_recheck;
mod calculator;
mod choice_names;
mod closing;
mod fitted;
mod forms;
mod operation;
mod parts;
mod parts_by_topic;
mod practice;
pub mod published;
mod refusals;
mod reserved;
mod service_addresses;
mod shared_parameters;

use crate::asking::described;
use crate::declared::Schemas;
use forms::Topic;
use parts::Named;
use serde_json::{Map, Value, json};
use service_addresses::TAG;

/// The description as it is committed.
pub fn text() -> String {
    fitted::text(&document())
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
    let topics = topics();
    let own = service_addresses::operations().into_iter().chain(practice::operations());
    let mut paths: Map<String, Value> = own.chain(batch_and_recheck::operations()).collect();
    for topic in &topics {
        paths.extend(topic.calculators.iter().map(|described| calculator::operations(described)));
        paths.extend(topic.operations());
    }
    let Value::Object(mut parameters) = reserved::parameters() else { return Value::Null };
    shared_parameters::share(&mut paths, &mut parameters);
    let mut responses = refusals::shared();
    if let Some(responses) = responses.as_object_mut() {
        responses.extend(described().iter().take(1).flat_map(|first| forms::responses(first)));
        responses.extend(described().iter().map(|described| calculator::response(described)));
    }
    let mut schemas = schemas();
    schemas.sort_by(|a, b| a.0.cmp(&b.0));
    let mut schemas: Map<String, Value> = schemas.into_iter().collect();
    closing::close(&paths, &parameters, &mut schemas);
    schemas.values_mut().for_each(choice_names::name);
    let tags = std::iter::once(TAG).chain(topics.iter().map(|topic| topic.name));
    let tags: Vec<Value> = tags.map(|name| json!({"name": name, "description": about::tag(name)})).collect();
    json!({
        "openapi": "3.1.0",
        "info": about::info(),
        "servers": [{"url": "/", "description": "This service"}],
        // None is needed, which has to be said.
        "security": [],
        "tags": tags,
        "paths": paths,
        "components": {
            "parameters": parameters, "headers": refusals::headers(), "responses": responses, "schemas": schemas },
    })
}

/// The topics in the register's order.
fn topics() -> Vec<Topic> {
    let mut topics: Vec<Topic> = Vec::new();
    for described in described() {
        let (name, _) = described.entry.address();
        match topics.iter_mut().find(|topic| topic.name == name) {
            Some(topic) => topic.calculators.push(described),
            None => topics.push(Topic { name, calculators: vec![described] }),
        }
    }
    topics
}

/// Schemas as JSON.
fn values(schemas: Schemas) -> Named {
    schemas.into_iter().map(|(name, schema)| (name, serde_json::to_value(schema).unwrap_or_default())).collect()
}

/// Every schema with its name; those that several calculators use are there more than once.
fn schemas() -> Named {
    let mut schemas = parts::schemas();
    for more in [
        answers::shared(),
        reserved::schemas(),
        forms::schemas(),
        service_addresses::schemas(),
        batch_and_recheck::schemas(),
        practice::schemas(),
    ] {
        schemas.extend(more);
    }
    topics().iter().for_each(|topic| schemas.extend(topic.schemas()));
    described().iter().for_each(|described| schemas.extend(calculator::schemas(described)));
    schemas
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn one_name_is_one_schema_also_beside_those_made_here() {
        let mut seen: BTreeMap<String, Value> = BTreeMap::new();
        for (name, schema) in schemas() {
            if let Some(before) = seen.insert(name.clone(), schema.clone()) {
                assert_eq!(before, schema, "{name} is two things");
            }
        }
    }
}
