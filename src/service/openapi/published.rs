//! The description as it is served: the committed file, and its parts by topic, which are made of it once.

use super::parts_by_topic::part;
use crate::page;
use crate::service::compressed::Compressed;
use crate::service::problem::Problem;
use crate::service::response::{JSON, tagged};
use actix_web::http::StatusCode;
use actix_web::{HttpRequest, HttpResponse, web};
use serde_json::{Value, json};
use std::sync::LazyLock;

/// The committed description.
pub const COMMITTED: &str = include_str!("../../../openapi/openapi.json");

struct Part {
    name: String,
    about: String,
    operations: usize,
    served: Compressed,
}

struct Parts {
    about: String,
    parts: Vec<Part>,
}

static PARTS: LazyLock<Parts> = LazyLock::new(|| {
    let document: Value = serde_json::from_str(COMMITTED).unwrap_or_default();
    let one = |tag: &Value| {
        let name = tag["name"].as_str().unwrap_or_default();
        let part = part(&document, name);
        let items = part["paths"].as_object().into_iter().flat_map(|paths| paths.values());
        let operations: usize = items.filter_map(Value::as_object).map(serde_json::Map::len).sum();
        let about = tag["description"].as_str().unwrap_or_default().to_owned();
        Part { name: name.to_owned(), about, operations, served: Compressed::new(JSON, part.to_string()) }
    };
    let about = document["info"]["description"].as_str().unwrap_or_default().to_owned();
    Parts { about, parts: document["tags"].as_array().into_iter().flatten().map(one).collect() }
});

/// Answers `/openapi.json`.
pub async fn whole(request: HttpRequest) -> HttpResponse {
    static WHOLE: LazyLock<Compressed> = LazyLock::new(|| Compressed::new(JSON, COMMITTED));
    WHOLE.respond(&request)
}

/// Answers `/openapi`: the list of the parts.
pub async fn list() -> HttpResponse {
    let one = |part: &Part| {
        json!({"name": part.name, "about": part.about, "address": format!("/openapi/{}.json", part.name),
               "operations": part.operations})
    };
    let parts: Vec<Value> = PARTS.parts.iter().map(one).collect();
    tagged(JSON, json!({"whole": "/openapi.json", "parts": parts}).to_string().into_bytes())
}

/// Answers `/openapi/{part}.json`.
pub async fn one(request: HttpRequest, path: web::Path<String>) -> HttpResponse {
    let name = path.into_inner();
    match PARTS.parts.iter().find(|part| part.name == name) {
        Some(part) => part.served.respond(&request),
        None => {
            let names: Vec<&str> = PARTS.parts.iter().map(|part| part.name.as_str()).collect();
            let says = format!("The description has no such part; its parts are {}.", names.join(", "));
            Problem::new(StatusCode::NOT_FOUND, says, Vec::new()).respond()
        }
    }
}

/// What the description says of the whole.
pub fn about() -> &'static str {
    &PARTS.about
}

/// The parts by name.
pub fn parts() -> Vec<page::reference::Part<'static>> {
    PARTS.parts.iter().map(|part| page::reference::Part { name: &part.name, about: &part.about }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whatever is referred to within `value`.
    fn references(value: &Value) -> Vec<String> {
        match value {
            Value::Object(map) => {
                let own = map.get("$ref").and_then(Value::as_str).map(str::to_owned);
                own.into_iter().chain(map.values().flat_map(references)).collect()
            }
            Value::Array(list) => list.iter().flat_map(references).collect(),
            _ => Vec::new(),
        }
    }

    #[test]
    fn the_parts_are_whole_and_are_together_the_whole() {
        let document: Value = serde_json::from_str(COMMITTED).expect("JSON");
        let mut paths = Vec::new();
        for tag in document["tags"].as_array().expect("tags") {
            let part = part(&document, tag["name"].as_str().expect("a name"));
            for to in references(&part) {
                assert!(part.pointer(to.trim_start_matches('#')).is_some(), "{}: {to}", tag["name"]);
            }
            for (path, item) in part["paths"].as_object().expect("paths") {
                assert_eq!(item, &document["paths"][path]);
                paths.push(path.clone());
            }
        }
        paths.sort();
        let mut all: Vec<String> = document["paths"].as_object().expect("paths").keys().cloned().collect();
        all.sort();
        assert_eq!(paths, all);
    }
}
