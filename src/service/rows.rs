//! `POST /v1/{topic}/{calculator}.csv`: a table of requests in, the same rows with their results out,
//! as a stream.

use super::aside;
use super::flow::{Body, Piece, Turn, pieces, respond, worked};
use super::json_body::essence;
use super::metrics;
use super::problem::Problem;
use super::records::Records;
use super::response::CSV;
use super::settings::Settings;
use crate::asking::{Sheet, delimiter, separator};
use crate::calculators::Entry;
use crate::fields::Fields;
use actix_web::http::StatusCode;
use actix_web::{HttpRequest, HttpResponse, web};
use futures_util::stream::{self, StreamExt};
use std::sync::Arc;

/// Media types a table may come with: its own, those that programs give any text or file, and what a
/// form's body has, which is what curl says of a file unless told.
const TABLES: &[&str] = &[
    "", "text/csv", "text/plain", "application/csv", "application/vnd.ms-excel", "application/octet-stream",
    "application/x-www-form-urlencoded",
];

/// Answers a table.
pub async fn answer(
    request: &HttpRequest,
    entry: &'static Entry,
    query: Fields<'static>,
    settings: &Settings,
    payload: web::Payload,
) -> HttpResponse {
    if !TABLES.contains(&essence(request).as_str()) {
        let says = "The body must be a table, sent with the header Content-Type: text/csv.";
        return Problem::whole(StatusCode::UNSUPPORTED_MEDIA_TYPE, says, "text/csv").respond();
    }
    let records = Records::csv(delimiter(separator(&query)));
    let mut body = Body::new(payload, records, settings);
    let head = match body.begin(2).await {
        Ok(head) => head,
        Err((status, says)) => {
            return Problem::whole(status, says, "a header and shorter rows").respond();
        }
    };
    // The first row may be any work there is, as each later one.
    let again = || {
        let (query, head) = (query.clone(), head.clone());
        move || Sheet::open(entry, query, &head)
    };
    let sheet = match aside::work(request, || Sheet::open(entry, query.clone(), &head), again).await {
        Ok(Ok(sheet)) => Arc::new(sheet),
        Ok(Err(refusal)) => {
            metrics::asked_rows(entry, 0, &[refusal.0.iter().map(|wrong| wrong.code).collect()]);
            return Problem::refused(refusal).respond();
        }
        Err(response) => return response,
    };
    let place = match aside::enter(request) {
        Ok(place) => place,
        Err(problem) => return problem.respond(),
    };
    body.skip_one();
    let first = stream::once(std::future::ready(Ok(sheet.head())));
    let signed = sheet.clone();
    let sign = move |says: &str| signed.broken(says, 0);
    let rest = worked(place, pieces(body), move |piece| answered(&sheet, piece), sign);
    respond(CSV, first.chain(rest))
}

/// Answers the rows of a piece, for a turn; gives what is left of it.
fn answered(sheet: &Sheet, piece: Piece) -> (Vec<u8>, Option<Piece>) {
    let (bytes, number) = match piece {
        Piece::Broken(says, number) => return (sheet.broken(&says, number), None),
        Piece::Records(bytes, number) => (bytes, number),
    };
    let turn = Turn::begin();
    let answered = sheet.rows(&bytes, number, |written, now| turn.is_over(written, now));
    metrics::asked_rows(sheet.entry(), answered.answered, &answered.refused);
    let rest = (answered.taken < bytes.len()).then(|| {
        let rows = answered.answered + answered.refused.len() as u64;
        Piece::Records(bytes.slice(answered.taken..), number + rows)
    });
    (answered.lines, rest)
}
