//! Refusals as RFC 9457 problem documents. The one place where a code gets a status.

use crate::refusal::{Code, Refusal, Wrong};
use actix_web::HttpResponse;
use actix_web::http::{StatusCode, header};
use serde::Serialize;

/// The media type of a problem document.
pub const MEDIA_TYPE: &str = "application/problem+json";

/// Said where the service failed.
pub const FAILED: &str = "The service failed. The fault is in the service, not in your request.";

/// Seconds after which a request that found no place may be sent again.
const AGAIN_AFTER: &str = "2";

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

/// The code of a problem that is the request's as a whole, by its status.
fn code_of(status: StatusCode) -> Code {
    match status {
        StatusCode::NOT_FOUND => Code::NotFound,
        StatusCode::METHOD_NOT_ALLOWED => Code::MethodWrong,
        StatusCode::REQUEST_TIMEOUT => Code::TooSlow,
        StatusCode::PAYLOAD_TOO_LARGE | StatusCode::URI_TOO_LONG | StatusCode::REQUEST_HEADER_FIELDS_TOO_LARGE => {
            Code::TooLarge
        }
        StatusCode::UNSUPPORTED_MEDIA_TYPE => Code::MediaWrong,
        StatusCode::TOO_MANY_REQUESTS => Code::TooOften,
        StatusCode::SERVICE_UNAVAILABLE => Code::NotReady,
        status if status.is_server_error() => Code::Failed,
        _ => Code::RequestUnreadable,
    }
}

impl Problem {
    /// A problem of that status.
    pub fn new(status: StatusCode, detail: impl Into<String>, errors: Vec<Wrong>) -> Self {
        let title = status.canonical_reason().unwrap_or("Problem");
        Self { r#type: "about:blank", title, status: status.as_u16(), detail: detail.into(), errors }
    }

    /// A problem of the request as a whole, with what would be right.
    pub fn whole(status: StatusCode, says: impl Into<String>, try_this: impl Into<String>) -> Self {
        let (says, try_this) = (says.into(), Some(try_this.into()));
        let wrong = Wrong { field: String::new(), code: code_of(status), says: says.clone(), try_this };
        Self::new(status, says, vec![wrong])
    }

    /// The problem of a request that the service failed at.
    pub fn failed() -> Self {
        Self::whole(StatusCode::INTERNAL_SERVER_ERROR, FAILED, "another value, and tell the people who run the service")
    }

    /// A refusal as a problem.
    pub fn refused(refusal: Refusal) -> Self {
        Self::new(status(&refusal), refusal.words(), refusal.0)
    }

    /// As a response.
    pub fn respond(&self) -> HttpResponse {
        let status = StatusCode::from_u16(self.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
        let mut response = HttpResponse::build(status);
        response.content_type(MEDIA_TYPE).insert_header(("cache-control", "no-store"));
        if self.errors.iter().any(|wrong| wrong.code == Code::Busy) {
            response.insert_header((header::RETRY_AFTER, AGAIN_AFTER));
        }
        response.body(serde_json::to_string(self).unwrap_or_default())
    }
}
