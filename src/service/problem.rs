//! Refusals as RFC 9457 problem documents. The one place where a code gets a status.

use crate::page::guide::problem_address;
use crate::refusal::{Code, Refusal, Wrong};
use actix_web::HttpResponse;
use actix_web::http::{StatusCode, header};
use serde::Serialize;

/// The media type of a problem document.
pub const MEDIA_TYPE: &str = "application/problem+json";

/// Said where the service failed.
pub const FAILED: &str = "The service failed. The fault is its own, not the request's.";

/// Seconds after which a request that found no place may be sent again.
const AGAIN_AFTER: &str = "2";

/// What `type` ends in where fields of the request are wrong; the errors' codes say what is wrong with each.
const FIELDS_WRONG: &str = "fields_wrong";

/// The statuses of problems that are the request's as a whole, each with its code.
const OF_THE_WHOLE: &[(StatusCode, Code)] = &[
    (StatusCode::BAD_REQUEST, Code::RequestUnreadable),
    (StatusCode::NOT_FOUND, Code::NotFound),
    (StatusCode::METHOD_NOT_ALLOWED, Code::MethodWrong),
    (StatusCode::REQUEST_TIMEOUT, Code::TooSlow),
    (StatusCode::PAYLOAD_TOO_LARGE, Code::TooLarge),
    (StatusCode::URI_TOO_LONG, Code::TooLarge),
    (StatusCode::UNSUPPORTED_MEDIA_TYPE, Code::MediaWrong),
    (StatusCode::TOO_MANY_REQUESTS, Code::TooOften),
    (StatusCode::REQUEST_HEADER_FIELDS_TOO_LARGE, Code::TooLarge),
    (StatusCode::INTERNAL_SERVER_ERROR, Code::Failed),
    (StatusCode::SERVICE_UNAVAILABLE, Code::NotReady),
];

/// A problem document.
#[derive(Clone, Debug, Serialize)]
pub struct Problem {
    /// Where the guide explains this kind of problem: a relative reference.
    pub r#type: String,
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
    let known = OF_THE_WHOLE.iter().find(|(known, _)| *known == status);
    let other = if status.is_server_error() { Code::Failed } else { Code::RequestUnreadable };
    known.map_or(other, |(_, code)| *code)
}

/// The code that says what kind of problem it is; none where fields are wrong.
fn kind(status: StatusCode, errors: &[Wrong]) -> Option<Code> {
    let among = |code: &Code| errors.iter().any(|wrong| wrong.code == *code);
    match status {
        StatusCode::UNPROCESSABLE_ENTITY => None,
        StatusCode::SERVICE_UNAVAILABLE => {
            Some([Code::TooMuchWork, Code::Busy].into_iter().find(among).unwrap_or(Code::NotReady))
        }
        _ => Some(code_of(status)),
    }
}

impl Problem {
    /// A problem of that status.
    pub fn new(status: StatusCode, detail: impl Into<String>, errors: Vec<Wrong>) -> Self {
        let title = status.canonical_reason().unwrap_or("Problem");
        let r#type = problem_address(kind(status, &errors).map_or(FIELDS_WRONG, Code::as_str));
        Self { r#type, title, status: status.as_u16(), detail: detail.into(), errors }
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

    fn status(&self) -> StatusCode {
        StatusCode::from_u16(self.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR)
    }

    /// The code that says what kind of problem it is; none where fields are wrong.
    pub fn kind(&self) -> Option<Code> {
        kind(self.status(), &self.errors)
    }

    /// As a response, which carries the problem along for a page to be made of it.
    pub fn respond(self) -> HttpResponse {
        let mut response = HttpResponse::build(self.status());
        response.content_type(MEDIA_TYPE).insert_header(("cache-control", "no-store"));
        if self.errors.iter().any(|wrong| wrong.code == Code::Busy) {
            response.insert_header((header::RETRY_AFTER, AGAIN_AFTER));
        }
        let mut response = response.body(serde_json::to_string(&self).unwrap_or_default());
        response.extensions_mut().insert(self);
        response
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::guide;

    #[test]
    fn every_problem_leads_to_its_place_in_the_guide() {
        let page = guide::page("problems").expect("the page on problems");
        let statuses = OF_THE_WHOLE.iter().map(|(status, _)| *status).chain([StatusCode::UNPROCESSABLE_ENTITY]);
        for status in statuses {
            let title = format!("{} {}", status.as_u16(), status.canonical_reason().expect("a title"));
            assert!(page.contains(&title), "the guide does not name {title}");
            let whole = Problem::new(status, "", Vec::new());
            let with = |code: &Code| Problem::new(status, "", vec![Wrong::new("depth", *code, "Too deep.", "1 in")]);
            for problem in Code::ALL.iter().map(with).chain([whole]) {
                let anchor = problem.r#type.strip_prefix("/guide/problems#").expect("the page on problems");
                assert!(page.contains(&format!("id=\"{anchor}\"")), "{title}: no place {anchor}");
            }
        }
    }
}
