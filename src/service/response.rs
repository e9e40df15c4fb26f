//! Responses that are answers: their media types, and the tag of their bytes.

use actix_web::http::header;
use actix_web::{HttpResponse, web};
use serde::Serialize;
use twox_hash::XxHash3_64;

/// The whole answer.
pub const JSON: &str = "application/json";
/// Text for a cell.
pub const TEXT: &str = "text/plain; charset=utf-8";
/// A table.
pub const CSV: &str = "text/csv; charset=utf-8; header=present";
/// A drawing.
pub const SVG: &str = "image/svg+xml";

/// A response of JSON.
pub fn json(body: &'static str) -> HttpResponse {
    tagged(JSON, body)
}

/// A response that a cache may keep but must ask about: with the tag of its bytes.
pub fn tagged(media_type: &str, body: impl Into<web::Bytes>) -> HttpResponse {
    let body = body.into();
    let tag = format!("\"{:016x}\"", XxHash3_64::oneshot(&body));
    HttpResponse::Ok()
        .content_type(media_type)
        .insert_header((header::CACHE_CONTROL, "no-cache"))
        .insert_header((header::ETAG, tag))
        .body(body)
}

/// An answer as JSON, in a buffer that most answers fit in.
pub fn json_of(answer: &impl Serialize) -> Vec<u8> {
    let mut out = Vec::with_capacity(8192);
    write_json(&mut out, answer);
    out
}

/// Appends JSON.
pub fn write_json(out: &mut Vec<u8>, what: &impl Serialize) {
    let before = out.len();
    if serde_json::to_writer(&mut *out, what).is_err() {
        out.truncate(before);
    }
}
