//! The pages and the files they need, with what a browser may do with them.

use super::aside;
use super::problem::Problem;
use super::readable::readable;
use super::response::tagged;
use crate::calculators::find;
use crate::page::{self, assets, guide};
use actix_web::http::header::{HeaderMap, HeaderValue};
use actix_web::http::{StatusCode, header};
use actix_web::{HttpRequest, HttpResponse, web};
use twox_hash::XxHash3_64;

/// What a page may load: its own style, script and drawings, nothing from elsewhere, nothing inline.
const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; img-src 'self'; \
                      manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; \
                      frame-ancestors 'none'";

/// The list, the page without a connection, and the files.
pub fn routes(config: &mut web::ServiceConfig) {
    config
        .service(readable("/", list))
        .service(readable(assets::OFFLINE, || async { html(StatusCode::OK, page::offline()) }))
        .service(readable("/guide", || async { html(StatusCode::OK, guide::list()) }))
        .service(readable("/guide/{page}", guide_page));
    for asset in assets::all() {
        let keep = if asset.for_ever { "public, max-age=31536000, immutable" } else { "no-cache" };
        config.service(readable(&asset.address, move || async move {
            let mut response = tagged(asset.media_type, asset.text.as_str());
            response.headers_mut().insert(header::CACHE_CONTROL, header::HeaderValue::from_static(keep));
            response
        }));
    }
}

/// A page.
pub fn html(status: StatusCode, body: String) -> HttpResponse {
    let mut response = HttpResponse::build(status)
        .insert_header((header::CACHE_CONTROL, "no-cache"))
        .insert_header((header::ETAG, format!("\"{:016x}\"", XxHash3_64::oneshot(body.as_bytes()))))
        .body(body);
    of_html(response.headers_mut());
    response
}

/// Says that a response is a page, and what that page may do.
pub fn of_html(headers: &mut HeaderMap) {
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static("text/html; charset=utf-8"));
    headers.insert(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(POLICY));
    headers.insert(header::REFERRER_POLICY, HeaderValue::from_static("no-referrer"));
}

/// A page of the guide.
async fn guide_page(path: web::Path<String>) -> HttpResponse {
    match guide::page(&path) {
        Some(page) => html(StatusCode::OK, page),
        None => Problem::whole(StatusCode::NOT_FOUND, "The guide has no such page.", "/guide").respond(),
    }
}

/// The first page, which answers what is looked for.
async fn list(request: HttpRequest) -> HttpResponse {
    let query = request.query_string();
    let again = || {
        let query = query.to_owned();
        move || page::list(&query)
    };
    match aside::work(&request, || page::list(query), again).await {
        Ok(page) => html(StatusCode::OK, page),
        Err(response) => response,
    }
}

/// The page of a calculator, filled from the query.
pub async fn form(request: HttpRequest, path: web::Path<(String, String)>) -> HttpResponse {
    let (topic, name) = path.into_inner();
    let id = format!("{topic}/{name}");
    let Some(entry) = find(&id) else { return html(StatusCode::NOT_FOUND, page::missing(&id)) };
    let query = request.query_string();
    let again = || {
        let query = query.to_owned();
        move || page::form(entry, &query)
    };
    match aside::work(&request, || page::form(entry, query), again).await {
        Ok(Ok((page, true))) => html(StatusCode::OK, page),
        Ok(Ok((page, false))) => html(StatusCode::UNPROCESSABLE_ENTITY, page),
        Ok(Err(refusal)) => Problem::refused(refusal).respond(),
        Err(response) => response,
    }
}
