//! Refusals as RFC 9457 problem documents. The one place where a code gets a status.

use crate::refusal::{Code, Refusal, Wrong};
use actix_web::HttpResponse;
use actix_web::http::StatusCode;
use serde::Serialize;

/// The media type of a problem document.
pub const MEDIA_TYPE: &str = "application/problem+json";

/// A problem document.
#[derive(Debug, Serialize)]
pub struct Problem {
    /// `about:blank`: the status says what kind of problem it is.
    pub r#type: &'static str,
    /// The status in words.
    pub title: &'static str,
    /// The HTTP status.
    pub status: u16,
    /// What is wrong, in words, all together.
    pub detail: String,
    /// What is wrong, one by one.
    pub errors: Vec<Wrong>,
}

/// The status of a refusal: 400 where the request cannot be read, 503 where there was no time for it, 422 where it can be read
/// and is wrong.
fn status(refusal: &Refusal) -> StatusCode {
    let is = |code| refusal.0.iter().any(|wrong| wrong.code == code);
    if is(Code::RequestUnreadable) {
        StatusCode::BAD_REQUEST
    } else if is(Code::TooMuchWork) || is(Code::Busy) {
        StatusCode::SERVICE_UNAVAILABLE
    } else {
        StatusCode::UNPROCESSABLE_ENTITY
    }
}

impl Problem {
    /// A problem of that status.
    pub fn new(status: StatusCode, detail: impl Into<String>, errors: Vec<Wrong>) -> Self {
        let title = status.canonical_reason().unwrap_or("Problem");
        Self { r#type: "about:blank", title, status: status.as_u16(), detail: detail.into(), errors }
    }

    /// A refusal as a problem.
    pub fn refused(refusal: Refusal) -> Self {
        Self::new(status(&refusal), refusal.words(), refusal.0)
    }

    /// As a response.
    pub fn respond(&self) -> HttpResponse {
        let status = StatusCode::from_u16(self.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
        HttpResponse::build(status)
            .content_type(MEDIA_TYPE)
            .insert_header(("cache-control", "no-store"))
            .body(serde_json::to_string(self).unwrap_or_default())
    }
}
