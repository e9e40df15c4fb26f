//! The calculators' addresses: `/v1/{topic}/{calculator}` as JSON, `.txt` as a cell, `.csv` as a table,
//! `.svg` as a drawing.

use super::aside;
use super::json_body::{json_bytes, stated};
use super::problem::Problem;
use super::response::{CSV, JSON, SVG, TEXT, tagged};
use super::settings::Settings;
use super::shared_refusals::{badly_encoded, unknown_calculator, wrong_method};
use super::{metrics, rows};
use crate::asking::{self, Form, RefusalsAs};
use crate::calculators::{Entry, REGISTER, find};
use crate::drawing::Stands;
use crate::fields::{Fields, Given};
use crate::json::ToJson;
use crate::refusal::{Code, Refusal, Wrong};
use actix_web::body::{BoxBody, MessageBody};
use actix_web::dev::{ServiceRequest, ServiceResponse};
use actix_web::http::{Method, StatusCode, header};
use actix_web::middleware::Next;
use actix_web::{Error, FromRequest, HttpRequest, HttpResponse, web};
use std::time::{Duration, Instant};

/// What a drawing opened by itself may do: nothing but use its own style.
const SVG_POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'";

/// What most answers fit in.
const AN_ANSWER: usize = 8192;

/// Answers at the calculators' addresses without the router, which tries one pattern after the other.
pub async fn before_the_router(
    request: ServiceRequest,
    next: Next<impl MessageBody + 'static>,
) -> Result<ServiceResponse<BoxBody>, Error> {
    let asked = request.path().strip_prefix("/v1/").map(parted);
    let Some((Some(entry), form)) = asked.map(|(id, form)| (find(id), form)) else {
        return next.call(request).await.map(ServiceResponse::map_into_boxed_body);
    };
    let (request, mut payload) = request.into_parts();
    let payload = web::Payload::from_request(&request, &mut payload).await?;
    let response = answer(&request, entry, form, payload).await;
    Ok(ServiceResponse::new(request, response))
}

/// Answers at an address that has the form of a calculator's but was not known as it stands.
pub async fn by_the_router(
    request: HttpRequest,
    path: web::Path<(String, String)>,
    payload: web::Payload,
) -> HttpResponse {
    let address = format!("{}/{}", path.0, path.1);
    let (id, form) = parted(&address);
    match find(id) {
        Some(entry) => answer(&request, entry, form, payload).await,
        None => unknown_calculator(id),
    }
}

/// The calculator's own part of an address, and the form asked for.
fn parted(address: &str) -> (&str, Form) {
    match address.rsplit_once('.') {
        Some((id, "txt")) => (id, Form::Cell),
        Some((id, "csv")) => (id, Form::Table),
        Some((id, "svg")) => (id, Form::Drawing),
        _ => (address, Form::Json),
    }
}

/// Answers GET, HEAD and POST.
async fn answer(request: &HttpRequest, entry: &'static Entry, form: Form, payload: web::Payload) -> HttpResponse {
    let Some(settings) = request.app_data::<web::Data<Settings>>() else { return Problem::failed().respond() };
    let takes_posts = matches!(form, Form::Json | Form::Table);
    let allow = if takes_posts { "GET, HEAD, POST, OPTIONS" } else { "GET, HEAD, OPTIONS" };
    let posted = match *request.method() {
        Method::GET | Method::HEAD => false,
        Method::POST if takes_posts => true,
        _ => return wrong_method(request, allow),
    };
    if posted && form == Form::Table {
        let Some(query) = Fields::of_query(request.query_string()) else { return badly_encoded().respond() };
        return rows::answer(request, entry, query.owned(), settings, payload).await;
    }
    let body = match posted {
        true => match json_bytes(request, payload, settings.body_limit).await {
            Ok(body) => Some(body),
            Err(response) => return response,
        },
        false => None,
    };
    let read = || stated(request, body.as_deref());
    let fields = match read() {
        Ok(fields) => fields,
        Err(problem) => return problem.respond(),
    };
    let again = || {
        let fields = read().map_or_else(|_| Fields(Vec::new()), |fields| fields.owned());
        move || answered(entry, fields, form)
    };
    match aside::work(request, || answered(entry, fields, form), again).await {
        Ok(answered) => respond(entry, answered),
        Err(response) => response,
    }
}

/// 404 for the drawing of a calculator that has none.
fn undrawn(entry: &Entry) -> HttpResponse {
    let drawn: Vec<&str> = REGISTER.iter().filter(|entry| entry.draw.is_some()).map(|entry| entry.id).collect();
    let says = format!("{} has no drawing; these have one: {}.", entry.id, drawn.join(", "));
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
    took: Duration,
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
        Form::Json => ask(fields).map(|(answer, _)| answer.bytes(AN_ANSWER)),
        Form::Cell => {
            ask(fields).and_then(|(answer, reserved)| asking::cell(&answer, &reserved)).map(String::into_bytes)
        }
        Form::Table | Form::Sheet => {
            ask(fields).map(|(answer, reserved)| asking::table(&answer, &reserved).into_bytes())
        }
        Form::Drawing => asking::drawing(entry, fields, form, Stands::Alone)?.map(String::into_bytes),
    };
    Some(Answered { form, in_words, outcome, took: begun.elapsed() })
}

fn respond(entry: &'static Entry, answered: Option<Answered>) -> HttpResponse {
    let Some(Answered { form, in_words, outcome, took }) = answered else { return undrawn(entry) };
    metrics::asked(entry, form, outcome.as_ref().err(), took);
    match outcome {
        Ok(body) => {
            let media_type = match form {
                Form::Json => JSON,
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
