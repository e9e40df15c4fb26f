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
use crate::refusal::Refusal;
use actix_web::http::Method;
use actix_web::{HttpRequest, HttpResponse, web};
use futures_util::stream::{self, StreamExt};
use serde_json::value::RawValue;
use std::collections::VecDeque;
use std::future::ready;
use std::sync::Arc;

/// Lines of JSON.
pub const LINES: &str = "application/x-ndjson";
const ALSO_LINES: &[&str] = &[LINES, "application/ndjson", "application/jsonl", "application/x-jsonlines"];

/// How many items of an array are worked on in one go.
const AT_ONCE: usize = 64;

/// About how many bytes an answer has.
const AN_ANSWER: usize = 2048;

/// What parts the items of an array.
const BETWEEN: &[u8] = b",\n";

/// Appends what is answered to one item, given as JSON; or to what could not be read, in words.
pub type Answer = Arc<dyn Fn(Result<&str, &str>, &mut Vec<u8>) + Send + Sync>;

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
            let mut out = Vec::new();
            signed(Err(says), &mut out);
            out.push(b'\n');
            out
        };
        return respond(LINES, worked(place, pieces(body), move |piece| by_line(piece, &answer), sign));
    }
    let body = match json_bytes(&request, payload, settings.body_limit).await {
        Ok(body) => body,
        Err(response) => return response,
    };
    let items: Vec<Box<RawValue>> = match serde_json::from_slice(&body) {
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
    let mut items = items.into_iter().enumerate().peekable();
    let mut groups: Vec<VecDeque<(usize, Box<RawValue>)>> = Vec::new();
    while items.peek().is_some() {
        groups.push(items.by_ref().take(AT_ONCE).collect());
    }
    let signed = answer.clone();
    let sign = move |says: &str| {
        let mut out = BETWEEN.to_vec();
        signed(Err(says), &mut out);
        out
    };
    let work = move |mut group: VecDeque<(usize, Box<RawValue>)>| {
        let turn = Turn::begin();
        let mut out = Vec::with_capacity(group.len() * AN_ANSWER);
        while let Some((at, item)) = group.pop_front() {
            out.extend_from_slice(if at > 0 { BETWEEN } else { b"" });
            answer(Ok(item.get()), &mut out);
            if turn.is_over(out.len()) {
                break;
            }
        }
        (out, Some(group).filter(|rest| !rest.is_empty()))
    };
    let parted = worked(place, stream::iter(groups), work, sign);
    let whole = stream::once(ready(Ok(b"[".to_vec()))).chain(parted).chain(stream::once(ready(Ok(b"]\n".to_vec()))));
    respond("application/json", whole)
}

fn by_line(piece: Piece, answer: &Answer) -> (Vec<u8>, Option<Piece>) {
    let mut out = Vec::new();
    let mut one = |item: Result<&str, &str>| {
        answer(item, &mut out);
        out.push(b'\n');
        out.len()
    };
    let mut rest = match piece {
        Piece::Broken(says, _) => {
            one(Err(&says));
            return (out, None);
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
        let written = one(std::str::from_utf8(&line).map_err(|_| "The line is not UTF-8 text."));
        if turn.is_over(written) {
            break;
        }
    }
    let rest = (!rest.is_empty()).then(|| Piece::Records(rest, 0));
    (out, rest)
}
