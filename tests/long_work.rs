//! Long work as callers see it: it is done aside and in turns, there is only so much of it, and what one
//! row answers has an end.

mod common;

use common::Service;
use reqwest::blocking::{Client, Response};
use serde_json::Value;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::time::Duration;

const LONG: &str = "/v1/holes/drill-point?diameter=1 mm..50 mm step 0.1 mm";
const SHORT: &str = "/v1/holes/drill-point?diameter=0.5 in";
const TABLE: &str = "/v1/holes/drill-point.csv?units=inch";
const CIRCLES: &str = "/v1/patterns/bolt-circle.csv?diameter=4in&units=inch";

fn client() -> Client {
    Client::builder().timeout(Duration::from_secs(60)).build().expect("a client")
}

fn get(service: &Service, path: &str) -> Response {
    client().get(format!("{}{path}", service.base)).send().expect("an answer")
}

/// Posts a table that goes on for as long as what is given back is kept; its first row is answered.
fn open_table(service: &Service) -> TcpStream {
    let mut open = TcpStream::connect(service.base.trim_start_matches("http://")).expect("a connection");
    let head =
        format!("POST {TABLE} HTTP/1.1\r\nHost: tern\r\nContent-Type: text/csv\r\nTransfer-Encoding: chunked\r\n\r\n");
    let rows = "diameter\n0.5 in\n0.25 in\n";
    write!(open, "{head}{:x}\r\n{rows}\r\n", rows.len()).expect("room to write");
    let mut answered = String::new();
    while !answered.contains("\n0.5 in,") {
        let mut part = [0; 4096];
        let read = open.read(&mut part).expect("an answer");
        assert!(read > 0, "{answered}");
        answered.push_str(&String::from_utf8_lossy(&part[..read]));
    }
    open
}

fn post(service: &Service, path: &str, table: String) -> Response {
    let request = client().post(format!("{}{path}", service.base)).header("content-type", "text/csv").body(table);
    request.send().expect("an answer")
}

fn table(service: &Service, path: &str, body: String) -> String {
    post(service, path, body).text().expect("text")
}

#[test]
fn a_stream_is_refused_where_all_places_are_taken_and_answers_are_not() {
    let service = Service::start(&["--long-requests", "1"]);
    let open = open_table(&service);
    let refused = post(&service, TABLE, "diameter\n0.5 in\n".into());
    assert_eq!(refused.status(), 503);
    assert!(refused.headers()["retry-after"].to_str().is_ok_and(|seconds| seconds.parse::<u32>().is_ok()));
    let problem: Value = refused.json().expect("a problem");
    assert_eq!(problem["errors"][0]["code"], "busy");
    for path in [LONG, SHORT, "/healthz"] {
        assert_eq!(get(&service, path).status(), 200, "{path}");
    }
    drop(open);
    // The place is free when the caller has gone; that it has may take a moment to be seen.
    let again = (0..100).any(|_| {
        let answered = post(&service, TABLE, "diameter\n0.5 in\n".into()).status() == 200;
        std::thread::sleep(Duration::from_millis(if answered { 0 } else { 50 }));
        answered
    });
    assert!(again, "no place became free");
}

#[test]
fn a_person_is_told_by_a_page_that_the_service_is_busy_or_took_too_long() {
    let service = Service::start(&["--long-requests", "1", "--timeout", "3", "--query-limit", "65536"]);
    // The way through 1000 scattered places, over again from 30 starts.
    let place = |at: u32| format!("{} mm,{} mm", at * 7919 % 1009, at * 6101 % 997);
    let listed = |count: u32, mark: &str| (1..=count).map(place).collect::<Vec<_>>().join(mark);
    let (points, start) = (listed(1000, ";"), listed(30, "|"));
    let long =
        client().get(format!("{}/datum/visit-order", service.base)).query(&[("points", points), ("start", start)]);
    let asking = std::thread::spawn(move || long.send().expect("an answer"));
    // What is asked before the long one has its place would take that place.
    let is_worked_on =
        || get(&service, "/metrics").text().is_ok_and(|text| text.contains("shop_reckoner_aside_working 1"));
    while !is_worked_on() && !asking.is_finished() {}
    let busy = get(&service, &LONG[3..]);
    assert_eq!((busy.status().as_u16(), busy.headers()["retry-after"].as_bytes()), (503, &b"2"[..]));
    let page = busy.text().expect("a page");
    assert!(page.contains("<h1>Busy</h1>") && page.contains("Try again in 2 seconds."), "{page}");
    let late = asking.join().expect("an answer");
    assert_eq!(
        (late.status().as_u16(), late.headers()["content-type"].as_bytes()),
        (503, &b"text/html; charset=utf-8"[..])
    );
    let page = late.text().expect("a page");
    assert!(page.contains("<h1>This took too long</h1>") && page.contains("Ask for fewer"), "{page}");
}

#[test]
fn a_request_says_the_same_wherever_it_is_worked_on() {
    let service = Service::start(&[]);
    let range: Value = get(&service, LONG).json().expect("JSON");
    let rows = range["rows"].as_array().expect("rows");
    assert_eq!(rows.len(), 491);
    let one: Value = get(&service, &SHORT.replace("0.5 in", "25 mm")).json().expect("JSON");
    assert!(rows.iter().any(|row| row["result"]["point_length"]["value"] == one["result"]["point_length"]["value"]));
}

#[test]
fn long_lists_of_many_rows_come_whole_and_in_order() {
    let service = Service::start(&[]);
    let answered = table(&service, CIRCLES, format!("holes\n{}", "1000\n".repeat(30)));
    let mut lines = answered.lines();
    let header: Vec<&str> = lines.next().expect("a header").split(',').collect();
    let row = header.iter().position(|name| *name == "row").expect("the number of the row");
    let rows: Vec<usize> =
        lines.map(|line| line.split(',').nth(row).expect("a cell").parse().expect("a number")).collect();
    let wanted: Vec<usize> = (1..=30).flat_map(|row| std::iter::repeat_n(row, 1000)).collect();
    assert!(rows == wanted, "{} lines", rows.len());
}

#[test]
fn what_one_row_answers_has_an_end() {
    let service = Service::start(&[]);
    let note = "n".repeat(20_000);
    let answered = table(&service, CIRCLES, format!("note,holes\n{note},1000\nshort,3\n"));
    let lines: Vec<&str> = answered.lines().collect();
    assert_eq!(lines.len(), 1 + 1 + 3, "{} bytes", answered.len());
    assert!(lines[1].contains("too long for a table"), "{}", &lines[1][20_000..]);
    assert!(lines[2].starts_with("short,3,2,"), "{}", lines[2]);
}
