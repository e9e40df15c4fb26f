//! Practice over HTTP: questions and their marking as JSON, and the pages for a person: a question at a
//! time, and sheets to print. Nothing about the person is kept; everything stands in the address.

use super::json_body::json_fields;
use super::pages::html;
use super::response::{JSON, tagged};
use super::settings::Settings;
use super::shared_refusals::{badly_encoded, unknown_calculator, wrong_method};
use crate::fields::{Count, Fields, Given};
use crate::page::practice as page;
use crate::practice::{Asked, Checked, Question};
use crate::refusal::{Code, Refusal};
use actix_web::http::{Method, StatusCode, header};
use actix_web::{HttpRequest, HttpResponse, web};
use serde_json::json;
use std::time::{SystemTime, UNIX_EPOCH};

/// Questions on a sheet where the address does not say how many.
const ON_A_SHEET: u32 = 10;

/// `GET /v1/practice`.
pub async fn questions(request: HttpRequest) -> HttpResponse {
    let Some(fields) = Fields::of_query(request.query_string()) else { return badly_encoded() };
    match Asked::read(&fields).and_then(|asked| asked.questions()) {
        Ok(questions) => tagged(JSON, listed(&questions).to_string().into_bytes()),
        Err(refusal) => refused(&fields, refusal),
    }
}

/// Questions as an answer lists them.
pub fn listed(questions: &[Question]) -> serde_json::Value {
    json!({"version": crate::VERSION, "data_version": crate::data_version(), "questions": questions})
}

/// `POST /v1/practice/check`.
pub async fn check(request: HttpRequest, settings: web::Data<Settings>, payload: web::Payload) -> HttpResponse {
    if *request.method() != Method::POST {
        return wrong_method(&request, "POST, OPTIONS");
    }
    let Some(mut fields) = Fields::of_query(request.query_string()) else { return badly_encoded() };
    match json_fields(&request, payload, settings.body_limit).await {
        Ok(body) => fields.0.extend(body.0),
        Err(response) => return response,
    }
    match Checked::read(&fields) {
        Ok(checked) => tagged(JSON, serde_json::to_vec(&checked).unwrap_or_default()),
        Err(refusal) => refused(&fields, refusal),
    }
}

/// The calculator that is not there, if that is all that is wrong.
fn unknown(fields: &Fields, refusal: &Refusal) -> Option<String> {
    match refusal.0.as_slice() {
        [one] if one.code == Code::NotFound && one.field == "/calculator" => {
            fields.0.iter().find(|(name, _)| name == "calculator").map(|(_, value)| value.said())
        }
        _ => None,
    }
}

/// An unknown calculator is answered as its own address would be.
fn refused(fields: &Fields, refusal: Refusal) -> HttpResponse {
    match unknown(fields, &refusal) {
        Some(id) => unknown_calculator(&id),
        None => super::problem::Problem::refused(refusal).respond(),
    }
}

/// A page that says what is wrong.
fn wrong(fields: &Fields, refusal: &Refusal) -> HttpResponse {
    let status = match unknown(fields, refusal) {
        Some(_) => StatusCode::NOT_FOUND,
        None => StatusCode::UNPROCESSABLE_ENTITY,
    };
    html(status, page::start(refusal))
}

/// The fields of a form, whose empty ones count as not given.
fn given(request: &HttpRequest) -> Option<Fields<'_>> {
    let mut fields = Fields::of_query(request.query_string())?;
    fields.0.retain(|(_, value)| !value.said().trim().is_empty());
    // A blank beside a number is nobody's meaning.
    for (_, value) in &mut fields.0 {
        if let Given::Text(text) = value {
            *text = text.trim().to_owned().into();
        }
    }
    Some(fields)
}

/// A seed from the clock, for an address that has none; the address then has it, so that it can be
/// kept and passed on.
fn with_seed(request: &HttpRequest, fields: &Fields) -> Option<HttpResponse> {
    if fields.0.iter().any(|(name, _)| name == "seed") {
        return None;
    }
    let now = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |time| time.as_micros() as u64);
    let pairs = fields.0.iter().map(|(name, value)| (name.to_string(), value.said()));
    Some(to(request.path(), pairs.chain([("seed".to_owned(), crate::practice::next_seed(now).to_string())])))
}

/// Sends on to an address.
fn to(path: &str, fields: impl Iterator<Item = (String, String)>) -> HttpResponse {
    let query = form_urlencoded::Serializer::new(String::new()).extend_pairs(fields).finish();
    HttpResponse::SeeOther()
        .insert_header((header::LOCATION, format!("{path}?{query}")))
        .insert_header((header::CACHE_CONTROL, "no-store"))
        .finish()
}

/// `/practice`: where to start, a question, or a question with its answer marked.
pub async fn person(request: HttpRequest) -> HttpResponse {
    let Some(mut fields) = given(&request) else { return badly_encoded() };
    let has = |fields: &Fields, name: &str| fields.0.iter().any(|(known, _)| known == name);
    if fields.0.is_empty() {
        return html(StatusCode::OK, page::start(&Refusal::default()));
    }
    if let Some(sent_on) = with_seed(&request, &fields) {
        return sent_on;
    }
    if !has(&fields, "answer") {
        return match Asked::read(&fields).and_then(|asked| asked.questions()) {
            // A task's question has an address of its own.
            Ok(questions) if !has(&fields, "calculator") && !questions.is_empty() => {
                to("/practice", questions[0].recipe_fields().into_iter().map(|(name, value)| (name.to_owned(), value)))
            }
            Ok(questions) => match questions.first() {
                Some(question) => html(StatusCode::OK, page::question(question, None, &Refusal::default())),
                None => wrong(&fields, &Refusal::default()),
            },
            Err(refusal) => wrong(&fields, &refusal),
        };
    }
    match Checked::read(&fields) {
        Ok(checked) => html(StatusCode::OK, page::marked(&checked)),
        Err(refusal) => {
            // What is wrong with the answer alone is said beside the question.
            let answer = fields.take("answer").map(|answer| answer.said());
            let of_answer = refusal.0.iter().all(|wrong| wrong.field == "/answer");
            match Asked::read(&fields).and_then(|asked| asked.questions()) {
                Ok(questions) if of_answer && !questions.is_empty() => {
                    html(StatusCode::UNPROCESSABLE_ENTITY, page::question(&questions[0], answer.as_deref(), &refusal))
                }
                _ => wrong(&fields, &refusal),
            }
        }
    }
}

/// `/practice/sheet`: questions to print.
pub async fn sheet(request: HttpRequest) -> HttpResponse {
    printed(&request, page::sheet)
}

/// `/practice/answers`: the answers to the same.
pub async fn answers(request: HttpRequest) -> HttpResponse {
    printed(&request, page::answers)
}

fn printed(request: &HttpRequest, draw: fn(&Asked, &[Question]) -> String) -> HttpResponse {
    let Some(fields) = given(request) else { return badly_encoded() };
    if let Some(sent_on) = with_seed(request, &fields) {
        return sent_on;
    }
    let asked = Asked::read(&fields).map(|asked| Asked { count: asked.count.or(Count::of(ON_A_SHEET)), ..asked });
    match asked.and_then(|asked| asked.questions().map(|questions| draw(&asked, &questions))) {
        Ok(page) => html(StatusCode::OK, page),
        Err(refusal) => wrong(&fields, &refusal),
    }
}
