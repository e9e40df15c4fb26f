//! The refusals that several addresses share: what cannot be read, what is not there, and methods that
//! are not answered.

use super::problem::Problem;
use crate::calculators::REGISTER;
use crate::declared::one_after_another;
use crate::fields::{likeness, nearest};
use crate::quantity::shown;
use crate::refusal::{Code, Refusal, Wrong};
use actix_web::http::{Method, StatusCode, header};
use actix_web::{HttpRequest, HttpResponse};

/// 400 for an address that cannot be read.
pub fn badly_encoded() -> Problem {
    unreadable("The address is not percent-encoded UTF-8.", Some("%20 for a space, %23 for #"))
}

/// 400 for a request that cannot be read.
pub fn unreadable(says: &str, try_this: Option<&str>) -> Problem {
    Problem::refused(Refusal::one(Wrong {
        field: String::new(),
        code: Code::RequestUnreadable,
        says: says.to_owned(),
        try_this: try_this.map(str::to_owned),
    }))
}

/// 404 for an address with no calculator, with the nearest names.
pub fn unknown_calculator(id: &str) -> HttpResponse {
    unknown_calculator_problem(id).respond()
}

/// The problem of a calculator there is none of.
pub fn unknown_calculator_problem(id: &str) -> Problem {
    let name = id.rsplit('/').next().unwrap_or(id);
    let mut near: Vec<(f64, &str)> = REGISTER
        .iter()
        .map(|entry| {
            let by_name = likeness(name, entry.address().1);
            let by_id = likeness(id, entry.id);
            let by_word = entry.each_word().map(|word| likeness(name, word)).fold(0.0, f64::max);
            (by_name.max(by_id).max(by_word), entry.id)
        })
        .collect();
    near.sort_by(|a, b| b.0.total_cmp(&a.0));
    let names: Vec<&str> = near.iter().take(3).map(|(_, id)| *id).collect();
    let says = format!(
        "There is no calculator {}. The nearest are {}. /v1/calculators lists all of them.",
        shown(id),
        names.join(", ")
    );
    let wrong = Wrong {
        field: String::new(),
        code: Code::NotFound,
        says: says.clone(),
        try_this: names.first().map(|id| format!("/v1/{id}")),
    };
    Problem::new(StatusCode::NOT_FOUND, says, vec![wrong])
}

/// 404 for any other address.
pub async fn not_found(request: HttpRequest) -> HttpResponse {
    let addresses = [
        "/", "/v1/calculators", "/v1/tables", "/v1/verification", "/guide", "/practice", "/v1/practice",
        "/openapi.json", "/openapi", "/docs", "/metrics", "/healthz", "/readyz",
    ];
    let near = nearest(request.path(), addresses.into_iter()).unwrap_or("/v1/calculators");
    let says = format!("Nothing is at the address {}.", shown(request.path()));
    let wrong =
        Wrong { field: String::new(), code: Code::NotFound, says: says.clone(), try_this: Some(near.to_owned()) };
    Problem::new(StatusCode::NOT_FOUND, says, vec![wrong]).respond()
}

/// 405 with the methods there are; OPTIONS is told them too.
pub fn wrong_method(request: &HttpRequest, allow: &'static str) -> HttpResponse {
    if *request.method() == Method::OPTIONS {
        return HttpResponse::NoContent().insert_header((header::ALLOW, allow)).finish();
    }
    let says = format!(
        "Use {} here, not {}.",
        one_after_another(&allow.split(", ").collect::<Vec<_>>(), "or"),
        shown(request.method().as_str())
    );
    let first = allow.split(',').next().unwrap_or(allow);
    let mut response = Problem::whole(StatusCode::METHOD_NOT_ALLOWED, says, first).respond();
    response.headers_mut().insert(header::ALLOW, header::HeaderValue::from_static(allow));
    response
}
