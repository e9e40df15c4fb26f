//! Many JSON things in one request, each answered by itself and in order: an array in and an array
//! out, or a line each in and out (`application/x-ndjson`), which streams.

use super::flow::{Body, Piece, pieces, respond, worked};
use super::json_body::{essence, json_bytes};
use super::problem::Problem;
use super::records::Records;
use super::settings::Settings;
use super::shared_refusals::{badly_encoded, unreadable, wrong_method};
use crate::fields::Fields;
use crate::refusal::Refusal;
use actix_web::http::Method;
use actix_web::{HttpRequest, HttpResponse, web};
use futures_util::stream::{self, StreamExt};
use serde_json::value::RawValue;
use std::future::ready;
use std::sync::Arc;

/// Lines of JSON.
pub const LINES: &str = "application/x-ndjson";
const ALSO_LINES: &[&str] = &[LINES, "application/ndjson", "application/jsonl", "application/x-jsonlines"];

/// How many items of an array are worked on in one go.
const AT_ONCE: usize = 32;

/// What parts the items of an array.
const BETWEEN: &[u8] = b",\n";

/// What is answered to one item, given as JSON; or to what could not be read, in words.
pub type Answer = Arc<dyn Fn(Result<&str, &str>) -> Vec<u8> + Send + Sync>;

/// How the items are answered, by the fields of the query, which hold for all of them.
pub type Answering = fn(Fields<'static>) -> Result<Answer, Refusal>;

/// Answers the items of a request, one by one.
pub async fn answer(
    request: HttpRequest,
    settings: web::Data<Settings>,
    payload: web::Payload,
    answering: Answering,
) -> HttpResponse {
    if *request.method() != Method::POST {
        return wrong_method(&request, "POST, OPTIONS");
    }
    let Some(query) = Fields::of_query(request.query_string()) else { return badly_encoded() };
    let answer = match answering(query.owned()) {
        Ok(answer) => answer,
        Err(refusal) => return Problem::refused(refusal).respond(),
    };
    let media_type = essence(&request);
    if ALSO_LINES.contains(&media_type.as_str()) {
        let body = Body::new(payload, Records::lines(), &settings);
        let failed = [answer(Err(FAILED)), b"\n".to_vec()].concat();
        return respond(LINES, worked(pieces(body), move |piece| by_line(piece, &answer), failed));
    }
    let body = match json_bytes(&request, payload, settings.body_limit).await {
        Ok(body) => body,
        Err(response) => return response,
    };
    let items: Vec<Box<RawValue>> = match serde_json::from_slice(&body) {
        Ok(items) => items,
        Err(error) => {
            let says = format!("The body is not a JSON array: {error}. Lines of JSON have the media type {LINES}.");
            return unreadable(&says, Some("[…]"));
        }
    };
    let mut items = items.into_iter().peekable();
    let mut groups: Vec<Vec<Box<RawValue>>> = Vec::new();
    while items.peek().is_some() {
        groups.push(items.by_ref().take(AT_ONCE).collect());
    }
    let failed = answer(Err(FAILED));
    let work = move |group: Vec<Box<RawValue>>| {
        group.iter().map(|item| answer(Ok(item.get()))).collect::<Vec<_>>().join(BETWEEN)
    };
    let parted = worked(stream::iter(groups), work, failed)
        .enumerate()
        .map(|(at, group)| if at == 0 { group } else { [BETWEEN, &group].concat() });
    let whole = stream::once(ready(b"[".to_vec())).chain(parted).chain(stream::once(ready(b"]\n".to_vec())));
    respond("application/json", whole)
}

const FAILED: &str = "The service failed here, by a fault of its own.";

fn by_line(piece: Piece, answer: &Answer) -> Vec<u8> {
    let mut out = Vec::new();
    let mut one = |item: Result<&str, &str>| {
        out.extend(answer(item));
        out.push(b'\n');
    };
    match piece {
        Piece::Broken(says, _) => one(Err(&says)),
        Piece::Records(bytes, _) => {
            // A line without anything in it asks for nothing.
            for line in bytes.split(|byte| *byte == b'\n').filter(|line| !line.trim_ascii().is_empty()) {
                one(std::str::from_utf8(line).map_err(|_| "The line is not UTF-8."));
            }
        }
    }
    out
}
