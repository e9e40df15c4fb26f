//! Problems as pages: what a person asked for by a browser and cannot have is told as a page in the frame, with the
//! same status and headers. Programs get the problem document.

use super::pages::of_html;
use super::problem::Problem;
use crate::calculators::find;
use crate::page::problem::{Told, page};
use actix_web::body::{BoxBody, MessageBody};
use actix_web::dev::{ServiceRequest, ServiceResponse};
use actix_web::error::InternalError;
use actix_web::http::{Method, header};
use actix_web::middleware::Next;
use actix_web::{Error, HttpResponse};

/// Wraps a request: a problem that a person would see becomes a page.
pub async fn show(
    request: ServiceRequest,
    next: Next<impl MessageBody + 'static>,
) -> Result<ServiceResponse<impl MessageBody>, Error> {
    let asked = of_a_person(&request).then(|| own_address(&request));
    match (next.call(request).await, asked) {
        (Ok(response), Some(asked)) => {
            let (request, response) = response.map_into_boxed_body().into_parts();
            Ok(ServiceResponse::new(request, shown(response, &asked)))
        }
        (Err(error), Some(asked)) => {
            let response = shown(error.error_response(), &asked);
            Err(InternalError::from_response(error, response).into())
        }
        (outcome, None) => outcome.map(ServiceResponse::map_into_boxed_body),
    }
}

/// Whether a person reads what comes back: a page is asked for, or a browser asks for what is not for programs.
fn of_a_person(request: &ServiceRequest) -> bool {
    let path = request.path();
    let first = path.split('/').nth(1).unwrap_or_default();
    if !matches!(*request.method(), Method::GET | Method::HEAD) {
        return false;
    }
    match first {
        "v1" | "openapi" | "openapi.json" | "healthz" | "readyz" | "metrics" => false,
        "" | "guide" | "practice" | "offline" => true,
        _ => find(path.trim_start_matches('/')).is_some() || takes_html(request),
    }
}

/// The address asked for, to link to; two slashes in front would lead to another site.
fn own_address(request: &ServiceRequest) -> String {
    let address = request.uri().path_and_query().map_or("/", |address| address.as_str());
    if address.starts_with("//") { "/".to_owned() } else { address.to_owned() }
}

fn takes_html(request: &ServiceRequest) -> bool {
    let accepted = request.headers().get_all(header::ACCEPT);
    accepted.filter_map(|value| value.to_str().ok()).any(|value| value.contains("text/html"))
}

/// The response with its problem as a page, where it has one.
fn shown(response: HttpResponse<BoxBody>, asked: &str) -> HttpResponse<BoxBody> {
    let Some(problem) = response.extensions().get::<Problem>().cloned() else { return response };
    let wait = response.headers().get(header::RETRY_AFTER).and_then(|seconds| seconds.to_str().ok());
    let says = problem.errors.first().map_or(&problem.detail, |wrong| &wrong.says);
    let page = page(&Told { code: problem.kind(), says, wait, asked, explained: &problem.r#type });
    let mut response = response.set_body(BoxBody::new(page));
    of_html(response.headers_mut());
    response
}
