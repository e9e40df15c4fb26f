//! `POST /v1/{topic}/{calculator}.csv`: a table of requests in, the same rows with their results out,
//! as a stream.

use super::flow::{Body, Piece, pieces, respond, worked};
use super::json_body::essence;
use super::metrics;
use super::problem::Problem;
use super::records::Records;
use super::response::CSV;
use super::settings::Settings;
use super::tracing_span::carried_on;
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
            return Problem::whole(status, says, "a header and rows, each shorter, as they come").respond();
        }
    };
    // The first row may be any work there is, as each later one.
    let opened = web::block(carried_on(move || Sheet::open(entry, query, &head))).await;
    let sheet = match opened {
        Ok(Ok(sheet)) => Arc::new(sheet),
        Ok(Err(refusal)) => {
            metrics::asked_rows(entry, 0, &[refusal.0.iter().map(|wrong| wrong.code).collect()]);
            return Problem::refused(refusal).respond();
        }
        Err(_) => return Problem::failed().respond(),
    };
    body.skip_one();
    let failed = sheet.broken(FAILED, 0);
    let first = stream::once(std::future::ready(sheet.head()));
    let rest = worked(pieces(body), move |piece| answered(&sheet, piece), failed);
    respond(CSV, first.chain(rest))
}

const FAILED: &str = "The service failed here, by a fault of its own.";

fn answered(sheet: &Sheet, piece: Piece) -> Vec<u8> {
    match piece {
        Piece::Broken(says, number) => sheet.broken(&says, number),
        Piece::Records(bytes, number) => {
            let answered = sheet.rows(&bytes, number);
            metrics::asked_rows(sheet.entry(), answered.answered, &answered.refused);
            answered.lines
        }
    }
}
