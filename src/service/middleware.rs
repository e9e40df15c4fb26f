//! What goes round every request: its id, the limits of address and headers, the time it may take,
//! and its line in the log.

use super::metrics;
use super::problem::Problem;
use super::settings::Settings;
use actix_web::body::{BoxBody, EitherBody, MessageBody};
use actix_web::dev::{ServiceRequest, ServiceResponse};
use actix_web::http::header::{HeaderMap, HeaderName, HeaderValue};
use actix_web::http::{Method, StatusCode, header};
use actix_web::middleware::Next;
use actix_web::{Error, HttpResponse, web};
use std::sync::LazyLock;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant, SystemTime};

static REQUEST_ID: HeaderName = HeaderName::from_static("x-request-id");

/// Wraps a request.
pub async fn wrap(
    request: ServiceRequest,
    next: Next<impl MessageBody + 'static>,
) -> Result<ServiceResponse<impl MessageBody>, Error> {
    let begun = Instant::now();
    if !is_calculator(request.path()) {
        metrics::other();
    }
    let id = request_id(request.headers());
    let reads = matches!(*request.method(), Method::GET | Method::HEAD);
    let known = request.headers().get(header::IF_NONE_MATCH).filter(|_| reads).cloned();
    let settings = request.app_data::<web::Data<Settings>>().cloned();
    let log = tracing::enabled!(tracing::Level::INFO);
    let said = log.then(|| (request.method().clone(), request.path().to_owned()));
    let limited = settings.as_ref().and_then(|settings| beyond_limits(&request, settings));
    let mut response = match limited {
        Some(response) => request.into_response(response).map_into_right_body(),
        None => {
            let seconds = settings.map_or(10, |settings| settings.timeout);
            match tokio::time::timeout(Duration::from_secs(seconds), next.call(request)).await {
                Ok(response) => response?.map_into_left_body(),
                Err(_) => {
                    let problem = Problem::new(
                        StatusCode::REQUEST_TIMEOUT,
                        format!("The request took longer than {seconds} s and was given up."),
                        Vec::new(),
                    );
                    let error = actix_web::error::InternalError::from_response("timeout", problem.respond());
                    return Err(error.into());
                }
            }
        }
    };
    if let Some((method, path)) = said {
        let status = response.status().as_u16();
        let micros = begun.elapsed().as_micros() as u64;
        let id = id.to_str().unwrap_or_default();
        tracing::info!(request_id = id, method = method.as_str(), path, status, micros, "answered");
    }
    // Said to keep a stream from being compressed; to the caller it says nothing.
    if response.headers().get(header::CONTENT_ENCODING).is_some_and(|encoding| encoding == "identity") {
        response.headers_mut().remove(header::CONTENT_ENCODING);
    }
    tag_encoding(&mut response);
    let unchanged = known
        .as_ref()
        .zip(response.headers().get(header::ETAG))
        .is_some_and(|(known, tag)| response.status() == StatusCode::OK && is_known(known, tag));
    let headers = response.headers_mut();
    headers.insert(REQUEST_ID.clone(), id);
    headers.insert(HeaderName::from_static("x-content-type-options"), HeaderValue::from_static("nosniff"));
    if unchanged {
        *response.response_mut().status_mut() = StatusCode::NOT_MODIFIED;
        for name in [header::CONTENT_TYPE, header::CONTENT_ENCODING, header::CONTENT_LENGTH] {
            response.headers_mut().remove(name);
        }
        return Ok(response.map_body(|_, _| EitherBody::left(BoxBody::new(()))));
    }
    Ok(response.map_body(|_, body| EitherBody::right(body)))
}

/// A strong tag is of the bytes sent, so each encoding has its own.
fn tag_encoding<B>(response: &mut ServiceResponse<B>) {
    let encoding = response.headers().get(header::CONTENT_ENCODING).and_then(|name| name.to_str().ok());
    let tag = response.headers().get(header::ETAG).and_then(|tag| tag.to_str().ok());
    if let (Some(encoding), Some(tag)) = (encoding, tag)
        && let Ok(tag) = HeaderValue::from_str(&format!("{}-{encoding}\"", tag.trim_end_matches('"')))
    {
        response.headers_mut().insert(header::ETAG, tag);
    }
}

/// Whether a caller's If-None-Match names the tag. The comparison is weak, as RFC 9110 has it.
fn is_known(known: &HeaderValue, tag: &HeaderValue) -> bool {
    let (Ok(known), Ok(tag)) = (known.to_str(), tag.to_str()) else { return false };
    known.split(',').map(|one| one.trim().trim_start_matches("W/")).any(|one| one == tag || one == "*")
}

/// Whether the address is one of a calculator, which counts its own requests.
fn is_calculator(path: &str) -> bool {
    let own = ["/v1/calculators", "/v1/tables", "/v1/verification", "/v1/practice", "/v1/batch", "/v1/recheck"];
    path.starts_with("/v1/") && !own.iter().any(|own| path.starts_with(own))
}

/// The caller's own id, if it is a plain one, or a new one.
fn request_id(headers: &HeaderMap) -> HeaderValue {
    static BEGUN: LazyLock<u64> = LazyLock::new(|| {
        let since = SystemTime::now().duration_since(SystemTime::UNIX_EPOCH).unwrap_or_default();
        (since.as_nanos() as u64) ^ u64::from(std::process::id()).rotate_left(40)
    });
    static COUNT: AtomicU64 = AtomicU64::new(0);
    if let Some(given) = headers.get(&REQUEST_ID) {
        let plain = |byte: &u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_' | b'.');
        if given.len() <= 64 && !given.is_empty() && given.as_bytes().iter().all(plain) {
            return given.clone();
        }
    }
    let count = COUNT.fetch_add(1, Ordering::Relaxed);
    // An odd multiplier spreads the count over all digits, so that ids do not look like a sequence.
    let mixed = BEGUN.wrapping_add(count.wrapping_mul(0x9e37_79b9_7f4a_7c15));
    HeaderValue::from_str(&format!("{mixed:016x}")).unwrap_or(HeaderValue::from_static("0"))
}

fn beyond_limits(request: &ServiceRequest, settings: &Settings) -> Option<HttpResponse> {
    let query = request.query_string().len() + request.path().len();
    if query > settings.query_limit {
        let says = format!("The address is longer than {} bytes; POST the fields as JSON.", settings.query_limit);
        return Some(Problem::new(StatusCode::URI_TOO_LONG, says, Vec::new()).respond());
    }
    let headers: usize = request.headers().iter().map(|(name, value)| name.as_str().len() + value.len()).sum();
    if headers > settings.header_limit {
        let says = format!("The headers are larger than {} bytes.", settings.header_limit);
        let status = StatusCode::REQUEST_HEADER_FIELDS_TOO_LARGE;
        return Some(Problem::new(status, says, Vec::new()).respond());
    }
    None
}
