//! Files of requests: lines of JSON to any calculators, and a table to one.

use crate::arguments::Table;
use crate::failure::Failure;
use crate::service::{Request, Service, Turned, is_busy, said};
use indicatif::{ProgressBar, ProgressStyle};
use reqwest::Method;
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;

/// How many records go in one request.
const PIECE: usize = 500;
const LINES: &str = "application/x-ndjson";

/// What a file holds.
pub fn read(file: &Path) -> Result<String, Failure> {
    let mut text = String::new();
    match file.as_os_str() == "-" {
        true => std::io::stdin().read_to_string(&mut text).map(|_| text),
        false => std::fs::read_to_string(file),
    }
    .map_err(|error| Failure::of_file(file, error))
}

/// The requests of a file, one JSON object a line, with the numbers of their lines.
pub fn requests(file: &Path) -> Result<Vec<(usize, Value)>, Failure> {
    let text = read(file)?;
    let lines = text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty());
    lines
        .map(|(at, line)| match serde_json::from_str::<Value>(line) {
            Ok(request) if request.is_object() => Ok((at + 1, request)),
            Ok(_) => Err(Failure::of_file(file, format!("line {} is no JSON object", at + 1))),
            Err(error) => Err(Failure::of_file(file, format!("line {} is no JSON: {error}", at + 1))),
        })
        .collect()
}

fn bar(length: usize) -> ProgressBar {
    let style = ProgressStyle::with_template("{wide_bar} {pos}/{len} records, {eta} left");
    // Drawn on standard error, and only where that is a terminal.
    ProgressBar::new(length as u64).with_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()))
}

/// Answers to requests, in order, each `{"answer": …}` or `{"problem": …}`. What came before a connection broke is kept,
/// and only the rest is sent again. `each` takes an answer as soon as all before it are there.
pub fn answers(
    service: &Service,
    asked: &[Value],
    mut each: impl FnMut(usize, Value) -> Result<(), Failure>,
) -> Result<(), Failure> {
    let bar = bar(asked.len());
    for (piece, first) in asked.chunks(PIECE).zip((0..).step_by(PIECE)) {
        let mut found: Vec<Option<Value>> = vec![None; piece.len()];
        let mut waits = service.waits();
        while found.iter().any(Option::is_none) {
            let before = found.iter().flatten().count();
            let turned = send(service, piece, &mut found);
            if let Some(Turned::Refused(problem)) = turned {
                return Err(Failure::Refused(problem));
            }
            let got = found.iter().flatten().count();
            bar.set_position((first + got) as u64);
            // Whoever gets on is not failing.
            if got > before {
                waits = service.waits();
                continue;
            }
            let turned = turned.unwrap_or_else(|| Turned::Silent("the service left out records".into()));
            let Some(wait) = waits.next() else { return Err(turned.into()) };
            turned.pause(wait);
        }
        for (at, item) in found.into_iter().flatten().enumerate() {
            each(first + at, item)?;
        }
    }
    bar.finish_and_clear();
    Ok(())
}

/// Sends what has no answer yet and takes what comes; gives why not all of it came.
fn send(service: &Service, piece: &[Value], found: &mut [Option<Value>]) -> Option<Turned> {
    let mut body = String::new();
    for (at, request) in piece.iter().enumerate().filter(|(at, _)| found[*at].is_none()) {
        let mut request = request.clone();
        request["id"] = json!(at.to_string());
        body.push_str(&request.to_string());
        body.push('\n');
    }
    let request = Request {
        method: Method::POST,
        path: "/v1/batch".into(),
        query: &[],
        body: Some((LINES, body)),
        accept: LINES,
    };
    let response = match service.send(&request) {
        Ok(response) => response,
        Err(turned) => return Some(turned),
    };
    let mut turned = None;
    for line in BufReader::new(response).lines() {
        let line = match line {
            Ok(line) => line,
            Err(error) => return Some(Turned::Silent(said(&error))),
        };
        // A line that was cut off holds nothing.
        let Ok(mut item) = serde_json::from_str::<Value>(&line) else { continue };
        let at = item["id"].as_str().and_then(|id| id.parse::<usize>().ok()).filter(|at| *at < found.len());
        let busy = item["problem"]["status"].as_u64().is_some_and(|status| is_busy(status as u16));
        match at {
            Some(_) if busy => {
                turned = Some(Turned::Busy(None, item["problem"]["detail"].as_str().unwrap_or("busy").into()))
            }
            Some(at) => {
                if let Some(fields) = item.as_object_mut() {
                    fields.shift_remove("id");
                }
                found[at] = Some(item);
            }
            None => {}
        }
    }
    turned
}

/// Answers a file of requests, a line for a line.
pub fn lines(service: &Service, file: &Path) -> Result<(), Failure> {
    let asked: Vec<Value> = requests(file)?.into_iter().map(|(_, request)| request).collect();
    let mut refused = 0;
    let mut out = std::io::stdout().lock();
    answers(service, &asked, |at, item| {
        refused += usize::from(item.get("answer").is_none());
        let mut line = json!({ "id": asked[at]["id"] });
        if let (Some(line), Some(item)) = (line.as_object_mut(), item.as_object()) {
            line.extend(item.clone());
        }
        writeln!(out, "{line}").map_err(|error| Failure::of_file(Path::new("standard output"), error))
    })?;
    if refused > 0 { Err(Failure::Records(refused, asked.len())) } else { Ok(()) }
}

/// Answers a table; the answers stand beside its rows.
pub fn table(service: &Service, table: &Table) -> Result<(), Failure> {
    let text = read(&table.file)?;
    let request = Request {
        method: Method::POST,
        path: format!("/v1/{}.csv", table.calculator),
        query: &table.fields,
        body: Some(("text/csv", text)),
        accept: "text/csv",
    };
    let response = service.ask(&request)?;
    let mut out = std::io::stdout().lock();
    let (mut rows, mut refused) = (0, 0);
    let lost = |error: csv::Error| Failure::Unreachable(format!("the table was cut off: {error}"));
    let separator = if table.fields.contains(&("separator".into(), "semicolon".into())) { b';' } else { b',' };
    let mut reader =
        csv::ReaderBuilder::new().delimiter(separator).has_headers(false).from_reader(BufReader::new(response));
    let mut writer = csv::WriterBuilder::new().delimiter(separator).from_writer(&mut out);
    let mut refusals = None;
    for record in reader.records() {
        let record = record.map_err(lost)?;
        match refusals {
            None => refusals = Some(record.iter().position(|name| name == "refused")),
            Some(column) => {
                rows += 1;
                refused +=
                    usize::from(column.and_then(|column| record.get(column)).is_some_and(|says| !says.is_empty()));
            }
        }
        writer.write_record(&record).map_err(lost)?;
    }
    writer.flush().map_err(|error| Failure::of_file(Path::new("standard output"), error))?;
    if refused > 0 { Err(Failure::Records(refused, rows)) } else { Ok(()) }
}
