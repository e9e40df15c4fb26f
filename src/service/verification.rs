//! `GET /v1/verification`: what each calculator is checked against, counted by source; below it, for one
//! calculator, every value with its place in the source.

use super::response::{JSON, tagged};
use super::shared_refusals::unknown_calculator;
use crate::verification::{self, Checked};
use actix_web::{HttpResponse, web};
use serde_json::{Value, json};
use std::sync::LazyLock;

/// Every calculator with its checks by source.
pub async fn all() -> HttpResponse {
    static TEXT: LazyLock<String> = LazyLock::new(|| summary().to_string());
    tagged(JSON, TEXT.as_bytes())
}

/// One calculator with every check.
pub async fn one(path: web::Path<(String, String)>) -> HttpResponse {
    let (topic, name) = path.into_inner();
    let id = format!("{topic}/{name}");
    match verification::of(&id) {
        Some(checked) => tagged(JSON, in_full(checked).to_string().into_bytes()),
        None => unknown_calculator(&id),
    }
}

fn summary() -> Value {
    let calculators: Vec<Value> = verification::all().iter().map(counted).collect();
    json!({ "version": crate::VERSION, "data_version": crate::data_version(), "calculators": calculators })
}

fn counted(checked: &Checked) -> Value {
    json!({ "calculator": checked.calculator, "outside": checked.outside(), "sources": checked.by_source() })
}

fn in_full(checked: &Checked) -> Value {
    let mut full = counted(checked);
    full["checks"] = json!(checked.checks);
    full
}
