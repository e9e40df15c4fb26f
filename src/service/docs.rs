//! `/docs`: the published description to read and try in a browser, by topic, from the binary alone.

use super::openapi::published;
use super::pages::html;
use super::problem::Problem;
use crate::page::reference::{self, Part};
use actix_web::http::{StatusCode, header};
use actix_web::{HttpResponse, web};

/// `/docs` without its stroke, from which relative links would go astray.
pub async fn to_folder() -> HttpResponse {
    HttpResponse::PermanentRedirect().insert_header((header::LOCATION, "/docs/")).finish()
}

/// The list of the topics.
pub async fn overview() -> HttpResponse {
    html(StatusCode::OK, reference::overview(published::about(), &published::parts()))
}

/// The page of one topic.
pub async fn one(path: web::Path<String>) -> HttpResponse {
    let parts: Vec<Part> = published::parts();
    match parts.iter().find(|part| part.name == path.as_str()) {
        Some(part) => html(StatusCode::OK, reference::part(*part, &parts)),
        None => Problem::whole(StatusCode::NOT_FOUND, "The reference has no such topic.", "/docs/").respond(),
    }
}
