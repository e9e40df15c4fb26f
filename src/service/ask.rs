//! The calculators' addresses: `/v1/{topic}/{calculator}` as JSON, `.txt` as a cell, `.csv` as a table,
//! `.svg` as a drawing.

use super::problem::Problem;
use super::settings::Settings;
use super::{metrics, rows, tagged};
use crate::asking::{self, Form, RefusalsAs};
use crate::calculators::{Entry, REGISTER, find};
use crate::drawing::Stands;
use crate::fields::{Fields, Given, nearest};
use crate::refusal::{Code, Refusal, Wrong};
use actix_web::http::{Method, StatusCode, header};
use actix_web::{HttpRequest, HttpResponse, web};
use bytes::BytesMut;
use futures_util::StreamExt;
use std::time::{Duration, Instant};

/// Text for a cell.
pub const TEXT: &str = "text/plain; charset=utf-8";
/// A table.
pub const CSV: &str = "text/csv; charset=utf-8; header=present";
/// A drawing.
pub const SVG: &str = "image/svg+xml";
/// What a drawing opened by itself may do: nothing but use its own style.
const SVG_POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'";

/// Answers GET, HEAD and POST at a calculator's address.
pub async fn answer(
    request: HttpRequest,
    path: web::Path<(String, String)>,
    settings: web::Data<Settings>,
    payload: web::Payload,
) -> HttpResponse {
    let (topic, name) = path.into_inner();
    let (name, form) = match name.rsplit_once('.') {
        Some((name, "txt")) => (name, Form::Cell),
        Some((name, "csv")) => (name, Form::Table),
        Some((name, "svg")) => (name, Form::Drawing),
        _ => (name.as_str(), Form::Json),
    };
    let id = format!("{topic}/{name}");
    let Some(entry) = find(&id) else { return unknown(&id) };
    let takes_posts = matches!(form, Form::Json | Form::Table);
    let allow = if takes_posts { "GET, HEAD, POST, OPTIONS" } else { "GET, HEAD, OPTIONS" };
    let posted = match *request.method() {
        Method::GET | Method::HEAD => false,
        Method::POST if takes_posts => true,
        _ => return wrong_method(&request, allow),
    };
    let Some(mut fields) = Fields::of_query(request.query_string()) else {
        return badly_encoded();
    };
    if posted && form == Form::Table {
        return rows::answer(&request, entry, fields.owned(), &settings, payload).await;
    }
    if posted {
        match body(&request, payload, settings.body_limit).await {
            Ok(body) => fields.0.extend(body.0),
            Err(response) => return response,
        }
    }
    if !asking::is_long(&fields) {
        return respond(entry, answered(entry, fields, form));
    }
    let fields = fields.owned();
    match aside(&settings, move || answered(entry, fields, form)).await {
        Ok(answered) => respond(entry, answered),
        Err(response) => response,
    }
}

/// Works aside, so that short requests of this thread go on, and within the time of a request.
pub async fn aside<T: Send + 'static>(
    settings: &Settings,
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, HttpResponse> {
    let time = Duration::from_secs(settings.timeout).mul_f64(0.9);
    let until = Instant::now() + time;
    match tokio::time::timeout(time, web::block(move || asking::within(until, work))).await {
        Ok(Ok(done)) => Ok(done),
        Ok(Err(_)) => {
            Err(Problem::new(StatusCode::SERVICE_UNAVAILABLE, "The service is stopping.", Vec::new()).respond())
        }
        // One calculation can take long by itself; the work is left to find out that its time is up.
        Err(_) => Err(Problem::refused(asking::too_much_work()).respond()),
    }
}

/// 404 for the drawing of a calculator that has none.
fn undrawn(entry: &Entry) -> HttpResponse {
    let drawn: Vec<&str> = REGISTER.iter().filter(|entry| entry.draw.is_some()).map(|entry| entry.id).collect();
    let says = format!("{} has no drawing; {} have.", entry.id, drawn.join(", "));
    let try_this = Some(format!("/v1/{}", entry.id));
    let wrong = Wrong { field: String::new(), code: Code::NotFound, says: says.clone(), try_this };
    Problem::new(StatusCode::NOT_FOUND, says, vec![wrong]).respond()
}

/// What came of a request to a calculator, to be sent by the thread it came in on.
struct Answered {
    form: Form,
    /// Whether a refusal is wanted as words in a cell.
    in_words: bool,
    outcome: Result<Vec<u8>, Refusal>,
}

/// Asks the calculator. `None` where a drawing is asked for and there is none.
fn answered(entry: &'static Entry, fields: Fields, form: Form) -> Option<Answered> {
    let in_words = form == Form::Cell
        && fields.0.iter().any(|(name, value)| {
            name == "refusals" && matches!(value, Given::Text(text) if text == RefusalsAs::Text.as_str())
        });
    let begun = Instant::now();
    let ask = |fields| asking::ask(entry, fields, form);
    let outcome = match form {
        Form::Json => ask(fields).map(|(answer, _)| serde_json::to_vec(&answer).unwrap_or_default()),
        Form::Cell => {
            ask(fields).and_then(|(answer, reserved)| asking::cell(&answer, &reserved)).map(String::into_bytes)
        }
        Form::Table | Form::Sheet => {
            ask(fields).map(|(answer, reserved)| asking::table(&answer, &reserved).into_bytes())
        }
        Form::Drawing => asking::drawing(entry, fields, form, Stands::Alone)?.map(String::into_bytes),
    };
    metrics::asked(entry, form, outcome.as_ref().err(), begun.elapsed());
    Some(Answered { form, in_words, outcome })
}

fn respond(entry: &'static Entry, answered: Option<Answered>) -> HttpResponse {
    let Some(Answered { form, in_words, outcome }) = answered else { return undrawn(entry) };
    match outcome {
        Ok(body) => {
            let media_type = match form {
                Form::Json => "application/json",
                Form::Cell => TEXT,
                Form::Table | Form::Sheet => CSV,
                Form::Drawing => SVG,
            };
            let mut response = tagged(media_type, body);
            if form == Form::Drawing {
                let policy = header::HeaderValue::from_static(SVG_POLICY);
                response.headers_mut().insert(header::CONTENT_SECURITY_POLICY, policy);
            }
            response
        }
        Err(refusal) if in_words => HttpResponse::Ok()
            .content_type(TEXT)
            .insert_header((header::CACHE_CONTROL, "no-cache"))
            .body(format!("REFUSED: {}", refusal.words())),
        Err(refusal) => Problem::refused(refusal).respond(),
    }
}

/// The media type of a request's body, without its parameters.
pub fn essence(request: &HttpRequest) -> String {
    let media_type = request.headers().get(header::CONTENT_TYPE).and_then(|value| value.to_str().ok()).unwrap_or("");
    media_type.split(';').next().unwrap_or_default().trim().to_ascii_lowercase()
}

/// The bytes of a JSON body.
pub async fn json_bytes(
    request: &HttpRequest,
    mut payload: web::Payload,
    limit: usize,
) -> Result<BytesMut, HttpResponse> {
    let essence = essence(request);
    if essence != "application/json" && !(essence.starts_with("application/") && essence.ends_with("+json")) {
        let says = "The body must be JSON, sent with the header Content-Type: application/json.";
        return Err(Problem::new(StatusCode::UNSUPPORTED_MEDIA_TYPE, says, Vec::new()).respond());
    }
    let mut bytes = BytesMut::new();
    while let Some(part) = payload.next().await {
        let Ok(part) = part else { return Err(unreadable("The body broke off.", None)) };
        if bytes.len() + part.len() > limit {
            let says = format!("The body is larger than {limit} bytes.");
            return Err(Problem::new(StatusCode::PAYLOAD_TOO_LARGE, says, Vec::new()).respond());
        }
        bytes.extend_from_slice(&part);
    }
    Ok(bytes)
}

/// Reads a JSON body.
pub async fn body(request: &HttpRequest, payload: web::Payload, limit: usize) -> Result<Fields<'static>, HttpResponse> {
    let bytes = json_bytes(request, payload, limit).await?;
    serde_json::from_slice(&bytes).map_err(|error| {
        let says = format!("The body is not a JSON object of fields: {error}.");
        unreadable(&says, Some(r#"{"diameter": "0.5 in"}"#))
    })
}

/// 400 for an address that cannot be read.
pub fn badly_encoded() -> HttpResponse {
    unreadable("The address is not well percent-encoded UTF-8.", Some("%20 for a space, %23 for #"))
}

/// 400 for a request that cannot be read.
pub fn unreadable(says: &str, try_this: Option<&str>) -> HttpResponse {
    Problem::refused(Refusal::one(Wrong {
        field: String::new(),
        code: Code::RequestUnreadable,
        says: says.to_owned(),
        try_this: try_this.map(str::to_owned),
    }))
    .respond()
}

/// 404 for an address with no calculator, with the nearest names.
pub fn unknown(id: &str) -> HttpResponse {
    unknown_problem(id).respond()
}

/// The problem of a calculator there is none of.
pub fn unknown_problem(id: &str) -> Problem {
    let name = id.rsplit('/').next().unwrap_or(id);
    let mut near: Vec<(f64, &str)> = REGISTER
        .iter()
        .map(|entry| {
            let by_name = strsim::jaro_winkler(name, entry.address().1);
            let by_id = strsim::jaro_winkler(id, entry.id);
            let by_word = entry.words.iter().map(|word| strsim::jaro_winkler(name, word)).fold(0.0, f64::max);
            (by_name.max(by_id).max(by_word), entry.id)
        })
        .collect();
    near.sort_by(|a, b| b.0.total_cmp(&a.0));
    let names: Vec<&str> = near.iter().take(3).map(|(_, id)| *id).collect();
    let says = format!(
        "There is no calculator {}; the nearest are {}. All are listed at /v1/calculators.",
        crate::quantity::shown(id),
        names.join(", ")
    );
    let wrong = Wrong {
        field: String::new(),
        code: Code::NotFound,
        says: says.clone(),
        try_this: names.first().map(|id| format!("/v1/{id}")),
    };
    Problem::new(StatusCode::NOT_FOUND, says, vec![wrong])
}

/// 404 for any other address.
pub async fn not_found(request: HttpRequest) -> HttpResponse {
    let addresses = [
        "/",
        "/v1/calculators",
        "/v1/tables",
        "/v1/verification",
        "/practice",
        "/v1/practice",
        "/openapi.json",
        "/docs",
        "/metrics",
        "/healthz",
        "/readyz",
    ];
    let near = nearest(request.path(), addresses.into_iter()).unwrap_or("/v1/calculators");
    let says = format!("There is nothing at {}.", crate::quantity::shown(request.path()));
    let wrong =
        Wrong { field: String::new(), code: Code::NotFound, says: says.clone(), try_this: Some(near.to_owned()) };
    Problem::new(StatusCode::NOT_FOUND, says, vec![wrong]).respond()
}

/// 405 with the methods there are; OPTIONS is told them too.
pub fn wrong_method(request: &HttpRequest, allow: &'static str) -> HttpResponse {
    if *request.method() == Method::OPTIONS {
        return HttpResponse::NoContent().insert_header((header::ALLOW, allow)).finish();
    }
    let says = format!("{} is not answered here; {allow} are.", crate::quantity::shown(request.method().as_str()));
    let mut response = Problem::new(StatusCode::METHOD_NOT_ALLOWED, says, Vec::new()).respond();
    response.headers_mut().insert(header::ALLOW, header::HeaderValue::from_static(allow));
    response
}
