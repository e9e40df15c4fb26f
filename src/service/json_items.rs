//! Many JSON things in one request, each answered by itself and in order: an array in and an array
//! out, or a line each in and out (`application/x-ndjson`), which streams.

use super::aside;
use super::flow::{Body, Piece, Turn, pieces, respond, worked};
use super::json_body::{essence, json_bytes};
use super::problem::Problem;
use super::records::Records;
use super::settings::Settings;
use super::shared_refusals::{badly_encoded, unreadable, wrong_method};
use crate::fields::Fields;
use crate::json::Json;
use crate::refusal::Refusal;
use actix_web::http::Method;
use actix_web::{HttpRequest, HttpResponse, web};
use bytes::Bytes;
use futures_util::stream::{self, StreamExt};
use serde_json::value::RawValue;
use std::collections::VecDeque;
use std::future::ready;
use std::sync::Arc;
use std::time::Instant;

/// Lines of JSON.
pub const LINES: &str = "application/x-ndjson";
const ALSO_LINES: &[&str] = &[LINES, "application/ndjson", "application/jsonl", "application/x-jsonlines"];

/// How many items of an array are worked on in one go.
const AT_ONCE: usize = 64;

/// About how many bytes an answer has.
const AN_ANSWER: usize = 2048;

/// What parts the items of an array.
const BETWEEN: &[u8] = b",\n";

/// Writes what is answered to one item, given as JSON; or to what could not be read, in words.
pub type Answer = Arc<dyn Fn(Result<&str, &str>, &mut Json) + Send + Sync>;

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
    let Some(query) = Fields::of_query(request.query_string()) else { return badly_encoded().respond() };
    let answer = match answering(query.owned()) {
        Ok(answer) => answer,
        Err(refusal) => return Problem::refused(refusal).respond(),
    };
    let media_type = essence(&request);
    if ALSO_LINES.contains(&media_type.as_str()) {
        let body = Body::new(payload, Records::lines(), &settings);
        let place = match aside::enter(&request) {
            Ok(place) => place,
            Err(problem) => return problem.respond(),
        };
        let signed = answer.clone();
        let sign = move |says: &str| {
            let mut json = Json::with_room(AN_ANSWER);
            signed(Err(says), &mut json);
            json.between(b"\n");
            json.into_bytes()
        };
        return respond(LINES, worked(place, pieces(body), move |piece| by_line(piece, &answer), sign));
    }
    let body = match json_bytes(&request, payload, settings.body_limit).await {
        Ok(body) => body,
        Err(response) => return response,
    };
    let body = body.freeze();
    let items: Vec<&RawValue> = match serde_json::from_slice(&body) {
        Ok(items) => items,
        Err(error) => {
            let says =
                format!("The body is not a JSON array: {error}. Send lines of JSON with the media type {LINES}.");
            return unreadable(&says, Some("[…]")).respond();
        }
    };
    let place = match aside::enter(&request) {
        Ok(place) => place,
        Err(problem) => return problem.respond(),
    };
    // Each item stands behind what parts it from the one before it.
    let of_body = |item: &&RawValue| body.slice_ref(item.get().as_bytes());
    let groups: Vec<_> =
        (0..).step_by(AT_ONCE).zip(items.chunks(AT_ONCE).map(|group| group.iter().map(of_body).collect())).collect();
    let signed = answer.clone();
    let sign = move |says: &str| {
        let mut json = Json::with_room(AN_ANSWER);
        json.between(BETWEEN);
        signed(Err(says), &mut json);
        json.into_bytes()
    };
    let work = move |(mut at, mut group): (usize, VecDeque<Bytes>)| {
        let turn = Turn::begin();
        let mut json = Json::with_room(group.len() * AN_ANSWER);
        while let Some(item) = group.pop_front() {
            json.between(if at > 0 { BETWEEN } else { b"" });
            answer(text(&item), &mut json);
            at += 1;
            if turn.is_over(json.written(), Instant::now()) {
                break;
            }
        }
        (json.into_bytes(), Some((at, group)).filter(|(_, rest)| !rest.is_empty()))
    };
    let parted = worked(place, stream::iter(groups), work, sign);
    let whole = stream::once(ready(Ok(b"[".to_vec()))).chain(parted).chain(stream::once(ready(Ok(b"]\n".to_vec()))));
    respond("application/json", whole)
}

fn by_line(piece: Piece, answer: &Answer) -> (Vec<u8>, Option<Piece>) {
    let mut json = Json::with_room(AN_ANSWER);
    let mut one = |item: Result<&str, &str>| {
        answer(item, &mut json);
        json.between(b"\n");
        json.written()
    };
    let mut rest = match piece {
        Piece::Broken(says, _) => {
            one(Err(&says));
            return (json.into_bytes(), None);
        }
        Piece::Records(bytes, _) => bytes,
    };
    let turn = Turn::begin();
    while !rest.is_empty() {
        let end = memchr::memchr(b'\n', &rest).map_or(rest.len(), |at| at + 1);
        let line = rest.split_to(end);
        // A line without anything in it asks for nothing.
        if line.trim_ascii().is_empty() {
            continue;
        }
        let written = one(text(&line));
        if turn.is_over(written, Instant::now()) {
            break;
        }
    }
    let rest = (!rest.is_empty()).then(|| Piece::Records(rest, 0));
    (json.into_bytes(), rest)
}

fn text(item: &[u8]) -> Result<&str, &'static str> {
    std::str::from_utf8(item).map_err(|_| "The line is not UTF-8 text.")
}
