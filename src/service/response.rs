//! Responses that are answers: their media types, and the tag of their bytes.

use actix_web::http::header::{self, HeaderValue};
use actix_web::{HttpResponse, web};
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
pub fn tagged(media_type: &'static str, body: impl Into<web::Bytes>) -> HttpResponse {
    let body = body.into();
    let mut tag = [b'"'; 18];
    tag[1..17].copy_from_slice(&hexadecimal(XxHash3_64::oneshot(&body)));
    HttpResponse::Ok()
        .insert_header((header::CONTENT_TYPE, HeaderValue::from_static(media_type)))
        .insert_header((header::CACHE_CONTROL, HeaderValue::from_static("no-cache")))
        .insert_header((header::ETAG, &tag[..]))
        .body(body)
}

/// A number in 16 hexadecimal digits.
pub fn hexadecimal(number: u64) -> [u8; 16] {
    std::array::from_fn(|at| b"0123456789abcdef"[(number >> (60 - 4 * at)) as usize & 15])
}
