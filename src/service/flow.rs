//! Records that stream in and answers that stream out, in order: a body is cut at whole records, the
//! pieces are worked on by several threads, and no more is read than has room to be worked on, so that
//! memory stays flat and a slow reader slows the work.

use super::aside::{Place, Undone};
use super::current_request::{current, wait_for};
use super::problem::FAILED;
use super::records::{Cut, Records};
use super::settings::Settings;
use crate::budget::Budget;
use actix_web::HttpResponse;
use actix_web::http::{StatusCode, header};
use actix_web::web::{self, Bytes};
use futures_util::FutureExt;
use futures_util::stream::{self, Stream, StreamExt};
use std::rc::Rc;
use std::sync::Arc;
use std::time::{Duration, Instant};

const BROKE_OFF: &str = "The body ended too early, here.";
const STOPPED: &str = "The service stopped here. Ask again for what is missing.";

/// The budget of a stream, which ends with its reader and not with a time; its items have a time each.
const WITHOUT_END: Duration = Duration::from_secs(24 * 3600);

/// Ends a stream whose answers are not all there, so that the reader sees it break off.
#[derive(Debug)]
pub struct BrokenOff;

impl std::fmt::Display for BrokenOff {
    fn fmt(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
        f.write_str("the answer broke off")
    }
}

impl std::error::Error for BrokenOff {}

/// What is to be answered in one go.
pub enum Piece {
    /// Whole records, and the number of the first.
    Records(Bytes, u64),
    /// A record that cannot be read, in words, and its number.
    Broken(String, u64),
}

/// A body being read.
pub struct Body {
    payload: web::Payload,
    records: Records,
    idle: Duration,
    limit: usize,
    over: bool,
}

impl Body {
    /// A body of records parted as `records` says; of these one may have as many bytes as a whole body
    /// elsewhere, and the time limit is one of silence.
    pub fn new(payload: web::Payload, records: Records, settings: &Settings) -> Self {
        Self { payload, records, idle: Duration::from_secs(settings.timeout), limit: settings.body_limit, over: false }
    }

    /// Takes in what has come. `false` at the end of the body; `Err` where it breaks off, with why.
    async fn more(&mut self) -> Result<bool, (StatusCode, String)> {
        match tokio::time::timeout(self.idle, self.payload.next()).await {
            Ok(Some(Ok(bytes))) => {
                self.records.push(&bytes);
                Ok(true)
            }
            Ok(None) => Ok(false),
            Ok(Some(Err(_))) => Err((StatusCode::BAD_REQUEST, BROKE_OFF.into())),
            Err(_) => {
                let says =
                    format!("Nothing came for {} s. The service does not wait for the rest.", self.idle.as_secs());
                Err((StatusCode::REQUEST_TIMEOUT, says))
            }
        }
    }

    /// Reads until the first `count` records are there whole, or the body has ended; gives what has come.
    pub async fn begin(&mut self, count: u64) -> Result<Vec<u8>, (StatusCode, String)> {
        while self.records.whole() < count {
            if self.records.len() > self.limit.saturating_mul(2) {
                let says = format!("The first lines are longer than {} bytes.", self.limit);
                return Err((StatusCode::PAYLOAD_TOO_LARGE, says));
            }
            if !self.more().await? {
                self.over = true;
                break;
            }
        }
        Ok(self.records.begun().to_vec())
    }

    /// Passes over the first record.
    pub fn skip_one(&mut self) {
        self.records.skip_one();
    }

    async fn next(&mut self) -> Option<Piece> {
        loop {
            // What is there already is taken first, so that pieces are large where records come fast
            // and a single record is answered where they come slowly.
            while !self.over && self.records.len() < self.records.enough() {
                match self.payload.next().now_or_never() {
                    Some(Some(Ok(bytes))) => self.records.push(&bytes),
                    Some(None) => self.over = true,
                    Some(Some(Err(_))) => return self.give_up(BROKE_OFF.into()),
                    None => break,
                }
            }
            match self.records.cut(self.limit, self.over) {
                Cut::Records(bytes, number) => return Some(Piece::Records(bytes, number)),
                Cut::TooLong(number) => {
                    let says = format!(
                        "This record is longer than {} bytes. Look for a quotation mark that is never closed.",
                        self.limit
                    );
                    return Some(Piece::Broken(says, number));
                }
                Cut::Open(number) => {
                    return Some(Piece::Broken("A quotation mark that starts here is never closed.".into(), number));
                }
                Cut::Nothing if self.over => return None,
                Cut::Nothing => match self.more().await {
                    Ok(more) => self.over = !more,
                    Err((_, says)) => return self.give_up(says),
                },
            }
        }
    }

    fn give_up(&mut self, says: String) -> Option<Piece> {
        self.over = true;
        Some(Piece::Broken(says, self.records.drop_rest()))
    }
}

/// How many pieces of one request are worked on or wait to be sent.
fn in_hand() -> usize {
    2 * std::thread::available_parallelism().map_or(1, usize::from)
}

/// About how many bytes of answers are made before they are sent, so that memory stays flat.
const ENOUGH: usize = 256 * 1024;

/// How long one piece is worked on before the work of others has its turn.
const TURN: Duration = Duration::from_millis(50);

/// Says when a piece has been worked on long enough: its answers are sent, the rest of it comes later.
pub struct Turn(Instant);

impl Turn {
    /// A turn that begins.
    pub fn begin() -> Self {
        Self(Instant::now())
    }

    /// Whether it is over by now, so many bytes having been written.
    pub fn is_over(&self, written: usize, now: Instant) -> bool {
        written >= ENOUGH || now.saturating_duration_since(self.0) > TURN
    }
}

/// The pieces of a body.
pub fn pieces(body: Body) -> impl Stream<Item = Piece> {
    stream::unfold(body, |mut body| async move { body.next().await.map(|piece| (piece, body)) })
}

/// Works on each piece aside, and gives what comes of them in order. `work` gives the answers of one
/// turn and the rest of the piece; `sign` is what stands in place of answers that could not be made.
pub fn worked<P: Send + 'static>(
    place: Place,
    pieces: impl Stream<Item = P> + 'static,
    work: impl Fn(P) -> (Vec<u8>, Option<P>) + Send + Sync + 'static,
    sign: impl Fn(&str) -> Vec<u8> + 'static,
) -> impl Stream<Item = Result<Vec<u8>, BrokenOff>> {
    let work = Arc::new(work);
    let (place, sign) = (Rc::new(place), Rc::new(sign));
    // A stream is asked on after its handler has ended.
    let named = current();
    let turn = move |piece: P| {
        let (work, place) = (work.clone(), place.clone());
        wait_for(named.clone(), async move { place.work(Budget::of(WITHOUT_END), move || work(piece)).await })
    };
    // The first turn of each piece; the rest follows when its answers are wanted.
    let begun = pieces.map(turn.clone()).buffered(in_hand()).boxed_local();
    stream::unfold((begun, None, false), move |(mut begun, rest, over)| {
        let (turn, sign) = (turn.clone(), sign.clone());
        async move {
            if over {
                return Some((Err(BrokenOff), (stream::empty().boxed_local(), None, true)));
            }
            let done = match rest {
                Some(rest) => turn(rest).await,
                None => begun.next().await?,
            };
            Some(match done {
                Ok((chunk, rest)) => (Ok(chunk), (begun, rest, false)),
                Err(Undone::Failed) => (Ok(sign(FAILED)), (begun, None, false)),
                Err(_) => (Ok(sign(STOPPED)), (begun, None, true)),
            })
        }
    })
}

/// Answers with a stream. It is sent as it comes, so nothing may compress it, which would hold it back.
pub fn respond(media_type: &str, body: impl Stream<Item = Result<Vec<u8>, BrokenOff>> + 'static) -> HttpResponse {
    HttpResponse::Ok()
        .content_type(media_type)
        .insert_header((header::CACHE_CONTROL, "no-store"))
        .insert_header(header::ContentEncoding::Identity)
        .streaming(body.map(|bytes| bytes.map(Bytes::from)))
}
