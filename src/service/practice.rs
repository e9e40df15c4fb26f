//! Practice over HTTP: questions and their marking as JSON, and the pages for a person: a question at a
//! time, and sheets to print. Nothing about the person is kept; everything stands in the address.

use super::aside;
use super::json_body::{json_bytes, stated};
use super::pages::html;
use super::response::{JSON, tagged};
use super::settings::Settings;
use super::shared_refusals::{badly_encoded, unknown_calculator, wrong_method};
use crate::fields::{Count, Fields, Given};
use crate::page::practice as page;
use crate::practice::{Asked, Checked, Question, course};
use crate::refusal::{Code, Refusal};
use actix_web::http::{Method, StatusCode, header};
use actix_web::{HttpRequest, HttpResponse, web};
use serde_json::json;
use std::time::{SystemTime, UNIX_EPOCH};

/// Questions on a sheet where the address does not say how many.
const ON_A_SHEET: u32 = 10;

/// What came of a request, to be sent by the thread it came in on.
enum Came {
    Answer(Vec<u8>),
    Page(StatusCode, String),
    /// The fields of the address to go on to.
    SentOn(Vec<(String, String)>),
    UnknownCalculator(String),
    Refused(Refusal),
}

impl Came {
    fn respond(self, path: &str) -> HttpResponse {
        match self {
            Self::Answer(body) => tagged(JSON, body),
            Self::Page(status, page) => html(status, page),
            Self::SentOn(fields) => to(path, fields.into_iter()),
            // An unknown calculator is answered as its own address would be.
            Self::UnknownCalculator(id) => unknown_calculator(&id),
            Self::Refused(refusal) => super::problem::Problem::refused(refusal).respond(),
        }
    }
}

/// Finds the response to the fields of a request.
async fn respond(request: &HttpRequest, fields: &Fields<'_>, find: fn(&Fields) -> Came) -> HttpResponse {
    let again = || {
        let fields = fields.owned();
        move || find(&fields)
    };
    match aside::work(request, || find(fields), again).await {
        Ok(came) => came.respond("/practice"),
        Err(response) => response,
    }
}

/// `GET /v1/practice`.
pub async fn questions(request: HttpRequest) -> HttpResponse {
    let Some(fields) = Fields::of_query(request.query_string()) else { return badly_encoded().respond() };
    respond(&request, &fields, |fields| match Asked::read(fields).and_then(|asked| asked.questions()) {
        Ok(questions) => Came::Answer(listed(&questions).to_string().into_bytes()),
        Err(refusal) => refused(fields, refusal),
    })
    .await
}

/// `GET /v1/practice/course`.
pub async fn course_listed() -> HttpResponse {
    tagged(JSON, course().to_string().into_bytes())
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
    let body = match json_bytes(&request, payload, settings.body_limit).await {
        Ok(body) => body,
        Err(response) => return response,
    };
    let fields = match stated(&request, Some(&body)) {
        Ok(fields) => fields,
        Err(problem) => return problem.respond(),
    };
    respond(&request, &fields, |fields| match Checked::read(fields) {
        Ok(checked) => Came::Answer(serde_json::to_vec(&checked).unwrap_or_default()),
        Err(refusal) => refused(fields, refusal),
    })
    .await
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

fn refused(fields: &Fields, refusal: Refusal) -> Came {
    match unknown(fields, &refusal) {
        Some(id) => Came::UnknownCalculator(id),
        None => Came::Refused(refusal),
    }
}

/// A page that says what is wrong.
fn wrong(fields: &Fields, refusal: &Refusal) -> Came {
    if refusal.is_of_time() {
        return Came::Refused(refusal.clone());
    }
    let status = match unknown(fields, refusal) {
        Some(_) => StatusCode::NOT_FOUND,
        None => StatusCode::UNPROCESSABLE_ENTITY,
    };
    Came::Page(status, page::start(refusal))
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
    let Some(fields) = given(&request) else { return badly_encoded().respond() };
    if fields.0.is_empty() {
        return html(StatusCode::OK, page::start(&Refusal::default()));
    }
    if let Some(sent_on) = with_seed(&request, &fields) {
        return sent_on;
    }
    respond(&request, &fields, asked_or_marked).await
}

fn asked_or_marked(fields: &Fields) -> Came {
    let has = |fields: &Fields, name: &str| fields.0.iter().any(|(known, _)| known == name);
    if !has(fields, "answer") {
        return match Asked::read(fields).and_then(|asked| asked.questions()) {
            // A task's question has an address of its own.
            Ok(questions) if !has(fields, "calculator") && !questions.is_empty() => {
                let recipe = questions[0].recipe_fields().into_iter();
                Came::SentOn(recipe.map(|(name, value)| (name.to_owned(), value)).collect())
            }
            Ok(questions) => match questions.first() {
                Some(question) => Came::Page(StatusCode::OK, page::question(question, None, &Refusal::default())),
                None => wrong(fields, &Refusal::default()),
            },
            Err(refusal) => wrong(fields, &refusal),
        };
    }
    match Checked::read(fields) {
        Ok(checked) => Came::Page(StatusCode::OK, page::marked(&checked)),
        Err(refusal) => {
            // What is wrong with the answer alone is said beside the question.
            let mut fields = fields.clone();
            let answer = fields.take("answer").map(|answer| answer.said());
            let of_answer = refusal.0.iter().all(|wrong| wrong.field == "/answer");
            match Asked::read(&fields).and_then(|asked| asked.questions()) {
                Ok(questions) if of_answer && !questions.is_empty() => {
                    let page = page::question(&questions[0], answer.as_deref(), &refusal);
                    Came::Page(StatusCode::UNPROCESSABLE_ENTITY, page)
                }
                _ => wrong(&fields, &refusal),
            }
        }
    }
}

/// `/practice/sheet`: questions to print.
pub async fn sheet(request: HttpRequest) -> HttpResponse {
    printed(request, |fields| drawn(fields, page::sheet)).await
}

/// `/practice/answers`: the answers to the same.
pub async fn answers(request: HttpRequest) -> HttpResponse {
    printed(request, |fields| drawn(fields, page::answers)).await
}

async fn printed(request: HttpRequest, draw: fn(&Fields) -> Came) -> HttpResponse {
    let Some(fields) = given(&request) else { return badly_encoded().respond() };
    match with_seed(&request, &fields) {
        Some(sent_on) => sent_on,
        None => respond(&request, &fields, draw).await,
    }
}

fn drawn(fields: &Fields, draw: fn(&Asked, &[Question]) -> String) -> Came {
    let asked = Asked::read(fields).map(|asked| Asked { count: asked.count.or(Count::of(ON_A_SHEET)), ..asked });
    match asked.and_then(|asked| asked.questions().map(|questions| draw(&asked, &questions))) {
        Ok(page) => Came::Page(StatusCode::OK, page),
        Err(refusal) => wrong(fields, &refusal),
    }
}
