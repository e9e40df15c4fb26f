//! `GET /v1/calculators`: every calculator with its fields, bounds, examples and search words.

use crate::asking::{Described, described};
use crate::shop::{self, Shop};
use serde_json::{Value, json};
use std::sync::LazyLock;

/// The catalogue as JSON text, made once.
pub fn catalogue() -> &'static str {
    static TEXT: LazyLock<String> = LazyLock::new(|| {
        let calculators: Vec<Value> = described().iter().copied().map(one).collect();
        let mut catalogue =
            json!({ "version": crate::VERSION, "data_version": crate::data_version(), "calculators": calculators });
        if let Some(shop) = shop::installed() {
            catalogue["shop"] = listed(shop);
        }
        catalogue.to_string()
    });
    &TEXT
}

fn listed(shop: &Shop) -> Value {
    let machines: Vec<Value> = shop
        .machines
        .iter()
        .map(|machine| {
            let fields: serde_json::Map<String, Value> =
                machine.fields.iter().map(|(name, value)| ((*name).to_owned(), json!(value))).collect();
            json!({ "name": machine.name, "fields": fields })
        })
        .collect();
    json!({ "name": shop.name, "hash": shop.hash, "machines": machines })
}

fn one(described: &Described) -> Value {
    let entry = described.entry;
    let examples: Vec<Value> = entry
        .examples
        .iter()
        .map(|example| {
            let inputs: serde_json::Map<String, Value> =
                example.fields.iter().map(|(name, value)| ((*name).to_owned(), json!(value))).collect();
            json!({ "says": example.says, "inputs": inputs, "address": address(entry.id, example.fields) })
        })
        .collect();
    let mut one = json!({
        "id": entry.id,
        "title": entry.title,
        "about": entry.about,
        "task": entry.task.words(),
        "words": entry.each_word().collect::<Vec<_>>(),
        "address": format!("/v1/{}", entry.id),
        "page": format!("/{}", entry.id),
        "fields": described.fields,
        "results": described.results,
        "examples": examples,
    });
    if entry.draw.is_some() {
        one["drawing"] = json!(format!("/v1/{}.svg", entry.id));
    }
    one
}

/// The address that asks an example.
pub fn address(id: &str, fields: &[(&str, &str)]) -> String {
    let query = form_urlencoded::Serializer::new(String::new()).extend_pairs(fields).finish().replace('+', "%20");
    format!("/v1/{id}?{query}")
}
