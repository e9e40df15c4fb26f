//! The service as it is run: how it starts and stops, what it logs and counts, and what it does not let one caller
//! take from the others. All of it by the real executable.

mod common;

use common::Service;
use reqwest::blocking::{Client, RequestBuilder, Response};
use serde_json::Value;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const DRILL: &str = "/v1/holes/drill-point?diameter=1in";

fn client() -> Client {
    Client::builder().timeout(Duration::from_secs(60)).build().expect("a client")
}

fn get(service: &Service, path: &str) -> RequestBuilder {
    client().get(format!("{}{path}", service.base))
}

fn post(service: &Service, path: &str, media_type: &str, body: impl Into<String>) -> RequestBuilder {
    client().post(format!("{}{path}", service.base)).header("content-type", media_type.to_owned()).body(body.into())
}

fn sent(request: RequestBuilder) -> Response {
    request.send().expect("an answer")
}

fn header<'r>(response: &'r Response, name: &str) -> &'r str {
    response.headers().get(name).and_then(|value| value.to_str().ok()).unwrap_or("")
}

fn json(response: Response) -> Value {
    response.json().expect("JSON")
}

/// A connection that is kept open, spoken to by hand.
struct Connection(BufReader<TcpStream>);

impl Connection {
    fn open(service: &Service) -> Self {
        let stream = TcpStream::connect(service.address()).expect("a connection");
        stream.set_read_timeout(Some(Duration::from_secs(30))).expect("a timeout");
        Self(BufReader::new(stream))
    }

    fn send(&mut self, text: &str) {
        self.0.get_mut().write_all(text.as_bytes()).expect("the request is sent");
    }

    fn ask(&mut self, path: &str) {
        self.send(&format!("GET {path} HTTP/1.1\r\nhost: shop\r\n\r\n"));
    }

    /// The head of an answer in small letters, its body read too; nothing where the connection is closed.
    fn answer(&mut self) -> Option<String> {
        let mut head = String::new();
        while !head.ends_with("\r\n\r\n") {
            self.0.read_line(&mut head).ok().filter(|read| *read > 0)?;
        }
        let head = head.to_lowercase();
        let length = head.lines().find_map(|line| line.strip_prefix("content-length: "));
        let mut body = vec![0; length.and_then(|length| length.trim().parse().ok()).unwrap_or(0)];
        self.0.read_exact(&mut body).ok()?;
        Some(head)
    }
}

#[test]
fn nothing_sent_before_it_is_told_to_stop_is_lost() {
    let service = Service::start(&["--drain-timeout", "6"]);
    let mut connections: Vec<Connection> = (0..64).map(|_| Connection::open(&service)).collect();
    for connection in &mut connections {
        connection.ask(DRILL);
        let head = connection.answer().expect("an answer");
        assert!(head.starts_with("http/1.1 200") && !head.contains("connection: close"), "{head}");
    }
    let mut quiet = Connection::open(&service);
    quiet.ask("/healthz");
    quiet.answer().expect("an answer");
    connections.iter_mut().for_each(|connection| connection.ask(DRILL));
    service.stop();
    let mut closed = 0;
    for (at, connection) in connections.iter_mut().enumerate() {
        let head = connection.answer().unwrap_or_else(|| panic!("connection {at} lost its request"));
        assert!(head.starts_with("http/1.1 200"), "{head}");
        // What was answered before the signal came is told nothing; its next request is.
        if !head.contains("connection: close") {
            connection.ask(DRILL);
            let head = connection.answer().unwrap_or_else(|| panic!("connection {at} lost its second request"));
            assert!(head.starts_with("http/1.1 200") && head.contains("connection: close"), "{head}");
        }
        closed += usize::from(connection.answer().is_none());
    }
    assert_eq!(closed, 64, "each is closed after its answer");
    // What is new is answered still, and what watches the service is told.
    assert_eq!(header(&sent(get(&service, DRILL)), "connection"), "close");
    assert_eq!(sent(get(&service, "/healthz")).status(), 200);
    let ready = sent(get(&service, "/readyz"));
    assert_eq!(ready.status(), 503);
    let problem = json(ready);
    assert_eq!(problem["errors"][0]["code"], "not_ready", "{problem}");
    // One that was kept open all the while is answered too.
    quiet.ask(DRILL);
    assert!(quiet.answer().expect("an answer").contains("connection: close"));
    let address = service.address().to_owned();
    let (status, log) = service.wait();
    assert!(status.success(), "{status}");
    assert!(log.contains("requests are still answered") && log.contains("open requests may finish"), "{log}");
    assert!(TcpStream::connect(address).is_err(), "it listens no more");
}

#[test]
fn told_a_second_time_it_stops_at_once_and_a_third_time_it_gives_up_what_is_open() {
    let service = Service::start(&["--drain-timeout", "600", "--stop-timeout", "600"]);
    let mut open = Connection::open(&service);
    open.send("POST /v1/holes/drill-point HTTP/1.1\r\nhost: shop\r\ncontent-type: application/json\r\n");
    open.send("content-length: 22\r\nexpect: 100-continue\r\n\r\n");
    assert!(open.answer().expect("leave to send the body").starts_with("http/1.1 100"));
    let begun = Instant::now();
    service.stop();
    let until = |wanted: &dyn Fn() -> bool| {
        while !wanted() {
            assert!(begun.elapsed() < Duration::from_secs(60), "it does not come");
            std::thread::sleep(Duration::from_millis(20));
        }
    };
    until(&|| sent(get(&service, "/readyz")).status() == 503);
    service.stop();
    until(&|| TcpStream::connect(service.address()).is_err());
    service.stop();
    let (status, _) = service.wait();
    assert!(status.success(), "{status}");
    assert!(begun.elapsed() < Duration::from_secs(60));
}

#[test]
fn a_timeout_leaves_a_trace() {
    let service = Service::start(&["--timeout", "1", "--log", "warn"]);
    let mut open = Connection::open(&service);
    open.send("POST /v1/holes/drill-point HTTP/1.1\r\nhost: shop\r\ncontent-type: application/json\r\n");
    open.send("x-request-id: tern-8\r\ncontent-length: 100\r\n\r\n{");
    let head = open.answer().expect("an answer");
    assert!(head.starts_with("http/1.1 408"), "{head}");
    for line in ["x-request-id: tern-8", "x-content-type-options: nosniff", "content-type: application/problem+json"] {
        assert!(head.contains(line), "{head}");
    }
    let counted = sent(get(&service, "/metrics")).text().expect("text");
    assert!(counted.contains("shop_reckoner_responses_total{status=\"408\"} 1"), "{counted}");
    service.stop();
    let (_, log) = service.wait();
    let line: Value =
        serde_json::from_str(log.lines().find(|line| line.contains("tern-8")).expect("a line")).expect("JSON");
    assert_eq!((&line["fields"]["status"], &line["level"]), (&408.into(), &"WARN".into()), "{line}");
}

#[test]
fn a_trace_goes_into_the_log() {
    let trace = "0af7651916cd43dd8448eb211c80319c";
    let service = Service::start(&[]);
    for (id, parent) in [("tern-1", format!("00-{trace}-b7ad6b7169203331-01")), ("tern-2", format!("00-{trace}-b7-01"))]
    {
        let response = sent(get(&service, DRILL).header("x-request-id", id).header("traceparent", parent));
        assert_eq!(header(&response, "traceparent"), "");
    }
    service.stop();
    let (_, log) = service.wait();
    let line = |id: &str| -> Value {
        serde_json::from_str(log.lines().find(|line| line.contains(id)).expect("a line")).expect("JSON")
    };
    assert_eq!(line("tern-1")["fields"]["trace_id"], trace);
    assert!(line("tern-2")["fields"]["trace_id"].is_null(), "what is not valid is left out");
}

#[test]
fn responses_connections_and_the_process_are_counted() {
    let service = Service::start(&[]);
    let _open = Connection::open(&service);
    sent(get(&service, DRILL));
    sent(get(&service, "/v1/nothing"));
    let text = sent(get(&service, "/metrics")).text().expect("text");
    let value = |name: &str| -> f64 {
        let line =
            text.lines().find_map(|line| line.strip_prefix(name)).unwrap_or_else(|| panic!("no {name} in\n{text}"));
        line.trim().parse().expect("a number")
    };
    assert_eq!(value("shop_reckoner_responses_total{status=\"200\"} "), 1.0);
    assert_eq!(value("shop_reckoner_responses_total{status=\"404\"} "), 1.0);
    assert_eq!(value("shop_reckoner_responses_total{status=\"other\"} "), 0.0);
    assert_eq!(value("shop_reckoner_requests_in_flight "), 1.0, "the one for the metrics");
    assert!(value("shop_reckoner_connections_open ") >= 2.0);
    assert_eq!(value("shop_reckoner_aside_waiting "), 0.0);
    assert!(value("process_resident_memory_bytes ") > 1e6 && value("process_open_fds ") > 3.0);
    let build = format!(
        "shop_reckoner_build_info{{data_version=\"{}\",version=\"{}\"}} ",
        shop_reckoner::data_version(),
        shop_reckoner::VERSION
    );
    assert_eq!(value(&build), 1.0);
}

#[test]
fn a_caller_who_asks_too_often_is_told_when_to_ask_again() {
    let service = Service::start(&["--rate-limit", "1", "--rate-burst", "3"]);
    assert!((0..3).all(|_| sent(get(&service, DRILL)).status() == 200));
    let refused = (0..60).map(|_| sent(get(&service, DRILL))).find(|answer| answer.status() == 429);
    let refused = refused.expect("too often");
    assert!((1..=4).contains(&header(&refused, "retry-after").parse::<u64>().expect("seconds")), "{refused:?}");
    assert_eq!(header(&refused, "content-type"), "application/problem+json");
    assert_eq!(header(&refused, "x-content-type-options"), "nosniff");
    assert_eq!(header(&refused, "x-request-id").len(), 16);
    assert_eq!(json(refused)["errors"][0]["code"], "too_often");
    for path in ["/healthz", "/readyz", "/metrics"] {
        assert!((0..9).all(|_| sent(get(&service, path)).status() == 200), "{path}");
    }
    // Nobody's word is taken for who asks, unless that is set.
    let ask = |service: &Service, from: &str| sent(get(service, DRILL).header("x-forwarded-for", from)).status();
    assert!((0..60).any(|at| ask(&service, &format!("198.51.100.{at}")) == 429));
    let service = Service::start(&["--rate-limit", "1", "--rate-burst", "3", "--trust-forwarded", "x-forwarded-for"]);
    assert!((0..9).all(|at| ask(&service, &format!("203.0.113.5, 198.51.100.{at}")) == 200));
    assert!((0..60).any(|at| ask(&service, &format!("203.0.113.{at}, 198.51.100.77")) == 429));
}

#[test]
fn a_setting_out_of_its_bounds_stops_the_start_before_it_says_that_it_answers() {
    for (flag, values) in [
        ("--workers", &["100000", "-1", "two"][..]),
        ("--body-limit", &["0", "99999999999", ""]),
        ("--query-limit", &["0", "1000000"]),
        ("--header-limit", &["0", "1000000"]),
        ("--allow-origin", &["not a url", "", "https://tern.example/", "tern.example", "https://a.example,b"]),
        ("--timeout", &["0", "100000", "1.5"]),
        ("--drain-timeout", &["100000", "-1"]),
        ("--stop-timeout", &["100000"]),
        ("--rate-limit", &["0", "-1", "9999999"]),
        ("--rate-burst", &["0", "5"]),
        ("--trust-forwarded", &["anything"]),
        ("--log", &["=="]),
        ("--shop", &["/nothing/here.toml"]),
    ] {
        for value in values {
            // Port 0 could be listened on: nothing but the setting is in the way.
            let output = Command::new(env!("CARGO_BIN_EXE_shop-reckoner"))
                .args(["--listen", "127.0.0.1:0", &format!("{flag}={value}")])
                .stdin(Stdio::null())
                .output()
                .expect("it runs");
            let says = String::from_utf8_lossy(&output.stderr);
            assert!(!output.status.success(), "{flag}={value} starts");
            // A burst is refused for the limit that is not there.
            let names = [flag, if flag == "--rate-burst" { "--rate-limit" } else { flag }];
            assert!(names.iter().any(|name| says.contains(name)), "{flag}={value}: {says}");
            assert!(!says.contains("panicked"), "{flag}={value}: {says}");
            assert!(output.stdout.is_empty(), "{flag}={value} says that it answers");
        }
    }
}

#[test]
fn the_least_settings_answer() {
    let bounds = ["--workers", "1", "--body-limit", "1024", "--query-limit", "256", "--header-limit", "1024"];
    let service = Service::start(&[&bounds[..], &["--timeout", "3600", "--stop-timeout", "0"]].concat());
    assert_eq!(sent(get(&service, DRILL)).status(), 200);
    service.stop();
    assert!(service.wait().0.success());
}

#[test]
fn what_is_much_too_much_is_refused_at_once_and_shortly() {
    let service = Service::start(&[]);
    let body = |count: usize| {
        let fields: Vec<String> = (0..count).map(|at| format!("\"x{at}\":1")).collect();
        format!("{{{}}}", fields.join(","))
    };
    let name = "n".repeat(250_000);
    let long_words = "drill-".repeat(1300);
    let json_type = "application/json";
    let requests = [
        post(&service, "/v1/holes/drill-point", json_type, body(20_000)),
        post(&service, "/v1/holes/drill-point", json_type, body(400)),
        post(&service, "/v1/holes/drill-point", json_type, format!("{{\"{name}\":1}}")),
        post(&service, "/v1/holes/drill-point", json_type, format!("{{\"diameter\":{}}}", body(20_000))),
        post(&service, "/v1/practice/check", json_type, body(20_000)),
        post(
            &service,
            "/v1/practice/check",
            json_type,
            format!("{{\"calculator\":\"{name}\",\"seed\":1,\"answer\":\"1\"}}"),
        ),
        post(
            &service,
            "/v1/practice/check",
            json_type,
            format!("{{\"from\":\"/v1/{name}/x\",\"seed\":1,\"answer\":\"1\"}}"),
        ),
        post(&service, "/v1/batch", json_type, format!("[{}]", body(20_000))),
        post(&service, "/v1/batch", json_type, format!("[{{\"calculator\":\"{name}\",\"inputs\":{{}}}}]")),
        post(
            &service,
            "/v1/batch",
            json_type,
            format!("[{{\"calculator\":\"holes/drill-point\",\"inputs\":{}}}]", body(20_000)),
        ),
        post(&service, "/v1/holes/drill-point.csv", "text/csv", format!("diameter,{name} [in]\n1 in,2\n")),
        post(&service, "/v1/recheck", json_type, format!("[{{\"calculator\":\"{name}\",\"inputs\":{{}}}}]")),
        post(
            &service,
            "/v1/recheck",
            json_type,
            format!("[{{\"calculator\":\"holes/drill-point\",\"inputs\":{}}}]", body(20_000)),
        ),
        post(
            &service,
            "/v1/recheck",
            json_type,
            format!(
                "[{{\"calculator\":\"holes/drill-point\",\"link\":\"/v1/holes/drill-point?{}\"}}]",
                "a&".repeat(9_000)
            ),
        ),
        get(&service, &format!("/{}", "n".repeat(8_000))),
        get(&service, &format!("/holes/{}", "n".repeat(8_000))),
        get(&service, &format!("/holes/{long_words}")),
        get(&service, &format!("/v1/holes/{}", "n".repeat(8_000))),
        get(&service, &format!("/v1/tables/{}", "n".repeat(8_000))),
        get(&service, &format!("/?find={long_words}")),
        get(&service, &format!("/holes/drill-point?{}", "a&".repeat(4_000))),
        get(&service, &format!("/v1/holes/drill-point?{}", "a&".repeat(4_000))),
        get(&service, &format!("/v1/holes/drill-point?material={}", "n".repeat(8_000))),
        get(&service, &format!("/v1/speeds/spindle-speed?material={}&diameter=1in&tool=hss", "n".repeat(8_000))),
        get(&service, &format!("/v1/practice?{}", "a&".repeat(4_000))),
    ];
    // Pages and the description are made when first asked for.
    sent(get(&service, "/"));
    sent(get(&service, "/v1/holes/drill-point"));
    for (at, request) in requests.into_iter().enumerate() {
        let begun = Instant::now();
        let response = sent(request);
        let (status, url) = (response.status().as_u16(), response.url().path().chars().take(40).collect::<String>());
        let length = response.bytes().expect("a body").len();
        let took = begun.elapsed();
        assert!([200, 404, 422].contains(&status), "request {at}, {url}: {status}");
        // Not optimized and beside other tests; it is the order of magnitude that matters.
        assert!(took < Duration::from_secs(2), "request {at}, {url}: {took:?}");
        assert!(length < 100_000, "request {at}, {url}: {length} bytes");
    }
}

#[test]
fn of_many_wrong_fields_the_first_are_named() {
    let service = Service::start(&[]);
    let query: Vec<String> = (0..400).map(|at| format!("x{at}=1")).collect();
    let problem = json(sent(get(&service, &format!("{DRILL}&{}", query.join("&")))));
    let errors = problem["errors"].as_array().expect("errors");
    assert_eq!(errors.len(), 51);
    assert_eq!(errors[50]["says"], "350 more fields are wrong, too many to list.");
    let query: Vec<String> = (0..600).map(|at| format!("x{at}=1")).collect();
    let problem = json(sent(get(&service, &format!("{DRILL}&{}", query.join("&")))));
    assert_eq!(problem["errors"][0]["code"], "too_large");
    assert_eq!(problem["errors"].as_array().map(Vec::len), Some(1));
}

#[test]
fn the_query_of_a_batch_holds_for_every_item_that_does_not_say_otherwise() {
    let service = Service::start(&[]);
    let inputs = "\"calculator\":\"holes/drill-point\",\"inputs\":{\"diameter\":\"0.5 in\"";
    let items = [
        format!("{{{inputs}}}}}"),
        format!("{{{inputs}}},\"units\":\"inch\"}}"),
        format!("{{{inputs},\"units\":\"inch\"}}}}"),
    ];
    let unit = |answer: &Value| answer["answer"]["result"]["point_length"]["unit"].clone();
    for (media_type, body) in
        [("application/json", format!("[{}]", items.join(","))), ("application/x-ndjson", items.join("\n"))]
    {
        let text = sent(post(&service, "/v1/batch?units=metric&working=false", media_type, body)).text().expect("text");
        let answers: Vec<Value> = match media_type {
            "application/json" => serde_json::from_str(&text).expect("JSON"),
            _ => text.lines().map(|line| serde_json::from_str(line).expect("JSON")).collect(),
        };
        assert_eq!(answers.iter().map(unit).collect::<Vec<_>>(), ["mm", "in", "in"], "{media_type}: {text}");
        assert_eq!(answers[0]["answer"]["working"], serde_json::json!([]));
    }
    for (path, field) in [
        ("/v1/batch?diameter=1in", "/diameter"),
        ("/v1/batch?pick=point_length", "/pick"),
        ("/v1/batch?units=inch&units=metric", "/units"),
        ("/v1/recheck?units=inch", "/units"),
    ] {
        let response = sent(post(&service, path, "application/json", "[]"));
        assert_eq!(response.status(), 422, "{path}");
        assert_eq!(json(response)["errors"][0]["field"], field, "{path}");
    }
}

#[test]
fn every_refusal_lists_what_is_wrong() {
    let service = Service::start(&["--timeout", "5"]);
    let long = format!("/v1/holes/drill-point?diameter={}", "1".repeat(9000));
    let url = |path: &str| format!("{}{path}", service.base);
    let large = "x".repeat(300_000);
    for (status, code, request) in [
        (404, "not_found", get(&service, "/nothing")),
        (404, "not_found", get(&service, "/v1/drill-point")),
        (404, "not_found", get(&service, "/docs/nothing.js")),
        (405, "method_wrong", client().delete(url(DRILL))),
        (413, "too_large", post(&service, "/v1/holes/drill-point", "application/json", large.clone())),
        (413, "too_large", post(&service, "/v1/holes/drill-point.csv", "text/csv", large.repeat(3))),
        (414, "too_large", get(&service, &long)),
        (415, "media_wrong", post(&service, "/v1/holes/drill-point", "text/plain", "diameter=1in")),
        (415, "media_wrong", post(&service, "/v1/holes/drill-point.csv", "application/json", "{}")),
        (415, "media_wrong", post(&service, "/v1/batch", "application/json", "[]").header("content-encoding", "gzip")),
        (431, "too_large", get(&service, "/healthz").header("x-filler", "f".repeat(20_000))),
    ] {
        let response = sent(request);
        assert_eq!(response.status(), status);
        assert_eq!(header(&response, "content-type"), "application/problem+json");
        let problem = json(response);
        let error = &problem["errors"][0];
        assert_eq!((&error["field"], &error["code"]), (&"".into(), &code.into()), "{status}: {problem}");
        assert!(error["says"].is_string() && error["try"].is_string(), "{status}: {problem}");
    }
}

#[test]
fn a_compressed_body_is_refused_and_told_what_is_read() {
    let service = Service::start(&[]);
    for path in ["/v1/holes/drill-point", "/v1/holes/drill-point.csv", "/v1/batch", "/v1/recheck", "/v1/practice/check"]
    {
        for media_type in ["application/json", "text/csv", "application/x-ndjson"] {
            let refused = sent(post(&service, path, media_type, "{}").header("content-encoding", "gzip"));
            assert_eq!(refused.status(), 415, "{path} {media_type}");
            assert_eq!(header(&refused, "accept-encoding"), "identity", "{path}");
        }
    }
    let plain = post(&service, "/v1/holes/drill-point", "application/json", "{\"diameter\":\"1 in\"}");
    assert_eq!(sent(plain.header("content-encoding", "Identity")).status(), 200);
    let other = sent(post(&service, "/v1/holes/drill-point", "text/plain", "1"));
    assert_eq!((other.status().as_u16(), header(&other, "accept-encoding")), (415, ""), "for another reason");
}

#[test]
fn what_depends_on_the_encoding_says_so() {
    let service = Service::start(&["--allow-origin", "https://tern.example"]);
    let says = |response: &Response| {
        let all = response.headers().get_all("vary").iter().filter_map(|value| value.to_str().ok());
        all.flat_map(|value| value.split(',')).filter(|one| one.trim().eq_ignore_ascii_case("accept-encoding")).count()
    };
    for path in [DRILL, "/", "/v1/tables", "/openapi.json", "/v1/nothing/here", "/holes/drill-point"] {
        for encoding in ["identity", "gzip", "br", ""] {
            let request = get(&service, path).header("origin", "https://tern.example");
            let response =
                sent(if encoding.is_empty() { request } else { request.header("accept-encoding", encoding) });
            assert_eq!(says(&response), 1, "{path} {encoding:?}: {:?}", response.headers());
        }
    }
    let first = sent(get(&service, DRILL));
    let again = sent(get(&service, DRILL).header("if-none-match", header(&first, "etag")));
    assert_eq!((again.status().as_u16(), says(&again)), (304, 1));
    let stream = sent(post(&service, "/v1/batch", "application/json", "[]").header("accept-encoding", "gzip"));
    assert_eq!((header(&stream, "content-encoding"), says(&stream)), ("", 0), "a stream is never compressed");
}
