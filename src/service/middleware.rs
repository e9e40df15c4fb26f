//! What goes round every request, also one that is refused or given up: its id and its trace, its line in the log, its
//! count, and the headers that every response has.

use super::current_request::{Named, wait_for};
use super::metrics::{self, Held};
use super::response::hexadecimal;
use super::stopping;
use super::trace_context::trace_id;
use actix_web::body::{BodySize, BoxBody, MessageBody};
use actix_web::dev::{ServiceRequest, ServiceResponse};
use actix_web::error::InternalError;
use actix_web::http::header::{HeaderMap, HeaderName, HeaderValue};
use actix_web::http::{ConnectionType, Method, StatusCode, header};
use actix_web::middleware::Next;
use actix_web::web::Bytes;
use actix_web::{Error, HttpResponse};
use std::pin::Pin;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, LazyLock};
use std::task::{Context, Poll};
use std::time::{Instant, SystemTime};

static REQUEST_ID: HeaderName = HeaderName::from_static("x-request-id");

/// Wraps a request.
pub async fn wrap(
    request: ServiceRequest,
    next: Next<impl MessageBody + 'static>,
) -> Result<ServiceResponse<impl MessageBody>, Error> {
    let in_flight = metrics::in_flight();
    if !is_calculator(request.path()) {
        metrics::other();
    }
    let asked = Request::of(&request);
    match wait_for(Some(asked.named.clone()), next.call(request)).await {
        Ok(mut response) => {
            asked.finish(response.response_mut());
            let emptied = response.status() == StatusCode::NOT_MODIFIED;
            Ok(response.map_body(|_, body| InFlight {
                body: if emptied { BoxBody::new(()) } else { body.boxed() },
                _counted: in_flight,
            }))
        }
        // Given up, or refused by the framework: its response is finished as any other.
        Err(error) => {
            let mut response = error.error_response();
            asked.finish(&mut response);
            Err(InternalError::from_response(error, response).into())
        }
    }
}

/// What is known of a request before it is answered.
struct Request {
    named: Arc<Named>,
    /// The tags of what the caller has already.
    known: Option<HeaderValue>,
    /// When it began, method and path, where they are logged.
    said: Option<(Instant, Method, String)>,
}

impl Request {
    fn of(request: &ServiceRequest) -> Self {
        let reads = matches!(*request.method(), Method::GET | Method::HEAD);
        let log = tracing::enabled!(tracing::Level::WARN);
        Self {
            named: Arc::new(Named {
                id: request_id(request.headers()),
                trace: trace_id(request.headers()).map(str::to_owned),
            }),
            known: request.headers().get(header::IF_NONE_MATCH).filter(|_| reads).cloned(),
            said: log.then(|| (Instant::now(), request.method().clone(), request.path().to_owned())),
        }
    }

    /// Gives a response the headers that all have, counts it and logs it.
    fn finish<B>(self, response: &mut HttpResponse<B>) {
        vary(response);
        tag_encoding(response);
        let tag = response.headers().get(header::ETAG);
        let unchanged = self.known.as_ref().zip(tag).is_some_and(|(known, tag)| is_known(known, tag));
        if unchanged && response.status() == StatusCode::OK {
            *response.status_mut() = StatusCode::NOT_MODIFIED;
            for name in [header::CONTENT_TYPE, header::CONTENT_ENCODING, header::CONTENT_LENGTH] {
                response.headers_mut().remove(name);
            }
        }
        if stopping::is_stopping() {
            response.head_mut().set_connection_type(ConnectionType::Close);
        }
        self.log(response.status());
        metrics::responded(response.status().as_u16());
        let headers = response.headers_mut();
        headers.insert(REQUEST_ID.clone(), self.named.id.clone());
        headers.insert(HeaderName::from_static("x-content-type-options"), HeaderValue::from_static("nosniff"));
    }

    fn log(&self, status: StatusCode) {
        let Some((begun, method, path)) = &self.said else { return };
        let id = self.named.id.to_str().unwrap_or_default();
        let (method, status, trace_id) = (method.as_str(), status.as_u16(), self.named.trace.as_deref());
        let micros = begun.elapsed().as_micros() as u64;
        // What the service could not do in time, or at all, is wanted also where answers are not logged.
        if status == 408 || status >= 500 {
            tracing::warn!(request_id = id, trace_id, method, path, status, micros, "not answered");
        } else {
            tracing::info!(request_id = id, trace_id, method, path, status, micros, "answered");
        }
    }
}

/// A body that counts as in flight until it is sent or given up.
struct InFlight {
    body: BoxBody,
    _counted: Held,
}

impl MessageBody for InFlight {
    type Error = Box<dyn std::error::Error>;

    fn size(&self) -> BodySize {
        self.body.size()
    }

    fn poll_next(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<Option<Result<Bytes, Self::Error>>> {
        Pin::new(&mut self.body).poll_next(context)
    }
}

/// Says that an answer would be other bytes in another encoding.
fn vary<B>(response: &mut HttpResponse<B>) {
    let is_stream = response.headers().get(header::CONTENT_ENCODING).is_some_and(|encoding| encoding == "identity");
    if is_stream {
        // Said to keep a stream from being compressed; to the caller it says nothing.
        response.headers_mut().remove(header::CONTENT_ENCODING);
        return;
    }
    let names =
        |value: &HeaderValue| value.as_bytes().to_ascii_lowercase().windows(15).any(|is| is == b"accept-encoding");
    let is_said = response.headers().get_all(header::VARY).any(names);
    if response.headers().contains_key(header::CONTENT_TYPE) && !is_said {
        response.headers_mut().append(header::VARY, HeaderValue::from_static("Accept-Encoding"));
    }
}

/// A strong tag is of the bytes sent, so each encoding has its own.
fn tag_encoding<B>(response: &mut HttpResponse<B>) {
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
    HeaderValue::from_bytes(&hexadecimal(mixed)).unwrap_or(HeaderValue::from_static("0"))
}
