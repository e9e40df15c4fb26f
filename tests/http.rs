//! The service as its callers meet it: the real executable over HTTP, every operation of the
//! published description.

mod common;

use common::Service;
use reqwest::Method;
use reqwest::blocking::{Client, Response};
use serde_json::{Value, json};
use shop_reckoner::calculators::REGISTER;
use std::collections::BTreeSet;
use std::time::{Duration, Instant};

struct Caller {
    service: Service,
    client: Client,
    exercised: std::cell::RefCell<BTreeSet<String>>,
}

impl Caller {
    fn new() -> Self {
        Self::with(&[])
    }

    fn with(arguments: &[&str]) -> Self {
        let client = Client::builder().timeout(Duration::from_secs(60)).build().expect("a client");
        Self { service: Service::start(arguments), client, exercised: Default::default() }
    }

    fn url(&self, path: &str) -> String {
        format!("{}{path}", self.service.base)
    }

    fn send(&self, method: Method, path: &str) -> Response {
        let bare = path.split('?').next().unwrap_or_default();
        self.exercised.borrow_mut().insert(format!("{method} {bare}"));
        self.client.request(method, self.url(path)).send().expect("an answer")
    }

    fn get(&self, path: &str) -> Response {
        self.send(Method::GET, path)
    }

    fn ask(&self, path: &str, fields: &[(&str, &str)]) -> Response {
        self.exercised.borrow_mut().insert(format!("GET {path}"));
        self.client.get(self.url(path)).query(fields).send().expect("an answer")
    }

    fn post(&self, path: &str, body: impl Into<String>) -> Response {
        self.exercised.borrow_mut().insert(format!("POST {path}"));
        let request = self.client.post(self.url(path)).header("content-type", "application/json");
        request.body(body.into()).send().expect("an answer")
    }
}

fn header<'r>(response: &'r Response, name: &str) -> &'r str {
    response.headers().get(name).and_then(|value| value.to_str().ok()).unwrap_or("")
}

/// The first single quantity or number of a result, by its path.
fn first_leaf(value: &Value, path: &str) -> Option<String> {
    match value {
        Value::Object(map) if map.contains_key("value") && map.contains_key("unit") => Some(path.to_owned()),
        Value::Object(map) => map.iter().find_map(|(name, value)| {
            first_leaf(value, &if path.is_empty() { name.clone() } else { format!("{path}/{name}") })
        }),
        Value::Array(list) => list.iter().enumerate().find_map(|(at, v)| first_leaf(v, &format!("{path}/{at}"))),
        _ => None,
    }
}

#[test]
fn every_operation_of_the_description_answers() {
    let caller = Caller::new();
    for entry in REGISTER {
        let path = format!("/v1/{}", entry.id);
        for example in entry.examples {
            let response = caller.ask(&path, example.fields);
            assert_eq!(response.status(), 200, "{path} {example:?}");
            assert_eq!(header(&response, "content-type"), "application/json");
            assert_eq!(header(&response, "cache-control"), "no-cache");
            let answer: Value = response.json().expect("JSON");
            for part in ["inputs", "assumed", "result", "working", "notes", "cautions", "sources", "trust"] {
                assert!(!answer[part].is_null(), "{path}: no {part}");
            }
            assert_eq!(answer["calculator"], entry.id);

            let inputs: serde_json::Map<String, Value> =
                example.fields.iter().map(|(name, value)| ((*name).to_owned(), json!(value))).collect();
            let posted: Value = caller.post(&path, Value::Object(inputs).to_string()).json().expect("JSON");
            assert_eq!(posted, answer, "GET and POST of {path} differ");

            // An answer's inputs can be sent back as they are.
            let again: Value = caller.post(&path, answer["inputs"].to_string()).json().expect("JSON");
            assert_eq!(again["result"], answer["result"], "{path}: inputs sent back");

            let brief: Value =
                caller.ask(&path, &[example.fields, &[("working", "false")]].concat()).json().expect("JSON");
            assert_eq!(brief["working"], json!([]));
            assert_eq!(brief["result"], answer["result"]);

            let leaf = first_leaf(&answer["result"], "").expect("a quantity");
            // By its field: a family of threads or drills assumed can be called metric too.
            let assumed = answer["assumed"].as_array().into_iter().flatten().find(|one| one["field"] == "units");
            let units = assumed.and_then(|one| one["value"].as_str()).unwrap_or("inch");
            let picked = [example.fields, &[("pick", leaf.as_str()), ("units", units)]].concat();
            let response = caller.ask(&format!("{path}.txt"), &picked);
            assert_eq!(response.status(), 200, "{path}.txt {leaf}");
            assert!(header(&response, "content-type").starts_with("text/plain"));
            let cell: f64 = response.text().expect("text").parse().expect("a bare number");
            let value = answer["result"].pointer(&format!("/{leaf}/value")).and_then(Value::as_f64).expect("a value");
            assert_eq!(cell, value, "{path}.txt {leaf}");

            let response = caller.ask(&format!("{path}.svg"), example.fields);
            if entry.draw.is_some() {
                assert_eq!(response.status(), 200, "{path}.svg");
                assert_eq!(header(&response, "content-type"), "image/svg+xml");
                assert!(header(&response, "content-security-policy").starts_with("default-src 'none'"));
                assert!(response.text().expect("text").starts_with("<svg "), "{path}.svg");
            } else {
                assert_eq!(response.status(), 404, "{path}.svg");
                let problem: Value = response.json().expect("JSON");
                assert_eq!(problem["errors"][0]["try"], path);
            }

            let response = caller.ask(&format!("{path}.csv"), example.fields);
            assert_eq!(response.status(), 200, "{path}.csv");
            assert!(header(&response, "content-type").starts_with("text/csv"));
            let text = response.text().expect("text");
            let mut reader = csv::Reader::from_reader(text.as_bytes());
            assert!(!reader.headers().expect("a header").is_empty());
            assert!(reader.records().count() >= 1 && reader.records().all(|row| row.is_ok()), "{path}.csv");

            let table = caller.post(&format!("{path}.csv"), "");
            assert_eq!(table.status(), 415, "a table is no JSON");
        }
    }
    for path in ["/v1/batch", "/v1/recheck"] {
        assert_eq!(caller.post(path, "[]").json::<Value>().expect("JSON"), json!([]));
    }
    for path in ["/healthz", "/readyz", "/openapi.json", "/v1/calculators"] {
        let response = caller.get(path);
        assert_eq!(response.status(), 200, "{path}");
        let _: Value = response.json().expect("JSON");
    }
    let practice: Value = caller.get("/v1/practice").json().expect("JSON");
    let answer = json!({"calculator": practice["questions"][0]["calculator"], "seed": 1, "answer": "0"});
    let marked: Value = caller.post("/v1/practice/check", answer.to_string()).json().expect("JSON");
    assert_eq!(marked["text"], practice["questions"][0]["text"]);
    assert!(caller.get("/metrics").text().expect("text").contains("shop_reckoner_requests_total"));
    let tables: Value = caller.get("/v1/tables").json().expect("JSON");
    for table in tables["tables"].as_array().expect("tables") {
        let address = table["address"].as_str().expect("an address");
        let rows: Value = caller.get(address).json().expect("JSON");
        assert_eq!(rows["rows"].as_array().map(Vec::len), table["rows"].as_u64().map(|n| n as usize), "{address}");
        for row in rows["rows"].as_array().expect("rows") {
            // A row of several properties has a source and a trust for each.
            let told = |what: &str| {
                let mut of = row
                    .as_object()
                    .expect("a row")
                    .iter()
                    .filter(|(name, _)| name.split('_').next_back() == Some(what));
                of.clone().next().is_some() && of.all(|(_, value)| value.is_string())
            };
            assert!(told("source") && told("trust"), "{address}: {row}");
        }
        assert!(caller.get(&format!("{address}.csv")).text().expect("text").lines().count() > 1);
    }
    let verified: Value = caller.get("/v1/verification").json().expect("JSON");
    for (one, entry) in verified["calculators"].as_array().expect("calculators").iter().zip(REGISTER.iter()) {
        let id = one["calculator"].as_str().expect("an id");
        let full: Value = caller.get(&format!("/v1/verification/{id}")).json().expect("JSON");
        assert_eq!((&full["calculator"], &full["sources"]), (&one["calculator"], &one["sources"]));
        let counts = one["sources"].as_array().expect("sources").iter().map(|source| source["count"].as_u64());
        let checks = full["checks"].as_array().map(Vec::len).unwrap_or_default();
        assert_eq!(counts.map(Option::unwrap_or_default).sum::<u64>(), checks as u64, "{id}");
        assert_eq!(caller.get(&format!("/v1/verification/{}", entry.id)).status(), 200, "{}", entry.id);
    }
    assert_eq!(caller.get("/v1/verification/holes/nothing").status(), 404);
    for part in ["/openapi", "/openapi/holes.json", "/v1/practice/course"] {
        assert_eq!(caller.get(part).status(), 200, "{part}");
    }
    let document: Value = caller.get("/openapi.json").json().expect("JSON");
    let mut untried = Vec::new();
    for (path, item) in document["paths"].as_object().expect("paths") {
        for method in item.as_object().expect("operations").keys() {
            let operation = format!("{} {path}", method.to_uppercase());
            let tried = caller.exercised.borrow();
            let named = operation.split_once('{').zip(operation.rsplit_once('}'));
            let is_tried = |one: &String| match named {
                Some(((before, _), (_, after))) => {
                    one.starts_with(before) && one.ends_with(after) && one.contains('.') == after.contains('.')
                }
                None => *one == operation,
            };
            if !tried.iter().any(is_tried) {
                untried.push(operation);
            }
        }
    }
    assert!(untried.is_empty(), "operations of the description that no test exercises: {untried:?}");
}

/// The example of an operation, sent as it stands in the description.
#[test]
fn the_examples_of_the_description_are_answered() {
    let caller = Caller::new();
    let document: Value = caller.get("/openapi.json").json().expect("JSON");
    let resolved = |value: &Value| -> Value {
        let to = value["$ref"].as_str().map(|to| document.pointer(to.trim_start_matches('#')).expect("there").clone());
        to.unwrap_or_else(|| value.clone())
    };
    let words = |value: &Value| value.as_str().map_or_else(|| value.to_string(), str::to_owned);
    let mut bodies = 0;
    for (path, item) in document["paths"].as_object().expect("paths") {
        for (method, operation) in item.as_object().expect("operations") {
            let (mut address, mut query) = (path.clone(), Vec::new());
            for parameter in operation["parameters"].as_array().into_iter().flatten().map(resolved) {
                let (name, example) = (parameter["name"].as_str().expect("a name"), &parameter["example"]);
                match (parameter["in"].as_str(), example) {
                    (_, Value::Null) => {}
                    (Some("path"), _) => address = address.replace(&format!("{{{name}}}"), &words(example)),
                    (_, Value::Object(fields)) => {
                        query.extend(fields.iter().map(|(name, one)| (name.clone(), words(one))))
                    }
                    (_, Value::Array(list)) => {
                        query.push((name.to_owned(), list.iter().map(words).collect::<Vec<_>>().join(",")));
                    }
                    _ => query.push((name.to_owned(), words(example))),
                }
            }
            let method: Method = method.to_uppercase().parse().expect("a method");
            let request = caller.client.request(method, caller.url(&address)).query(&query);
            let contents = operation["requestBody"]["content"].as_object().into_iter().flatten();
            let mut requests: Vec<_> = contents
                .map(|(media, content)| {
                    let body = words(&content["example"]);
                    request.try_clone().expect("no body yet").header("content-type", media).body(body)
                })
                .collect();
            bodies += requests.len();
            if requests.is_empty() {
                requests.push(request);
            }
            for request in requests {
                let response = request.send().expect("an answer");
                let (status, says) = (response.status(), response.text().expect("text"));
                assert_eq!(status, 200, "{path} {query:?}: {says}");
                assert!(!says.contains("\"problem\"") || path != "/v1/batch", "{path}: {says}");
            }
        }
    }
    assert!(bodies > REGISTER.len());
}

#[test]
fn head_answers_as_get_does_without_the_body() {
    let caller = Caller::new();
    for path in ["/", "/healthz", "/openapi.json", "/v1/calculators", "/holes/drill-point", "/guide", "/guide/asking"] {
        let got = caller.get(path);
        let head = caller.send(Method::HEAD, path);
        assert_eq!(head.status(), got.status(), "{path}");
        assert_eq!(header(&head, "content-type"), header(&got, "content-type"), "{path}");
        assert_eq!(header(&head, "content-length"), header(&got, "content-length"), "{path}");
        assert!(head.bytes().expect("no body").is_empty(), "{path}");
    }
    let head = caller.send(Method::HEAD, "/v1/holes/drill-point.txt?diameter=1in&pick=point_length");
    assert_eq!(head.status(), 422);
}

#[test]
fn a_wrong_method_is_told_the_right_ones() {
    let caller = Caller::new();
    let one = "/v1/holes/drill-point";
    for (path, allow) in [
        (one, "GET, HEAD, POST, OPTIONS"),
        ("/v1/holes/drill-point.txt", "GET, HEAD, OPTIONS"),
        ("/v1/holes/drill-point.csv", "GET, HEAD, POST, OPTIONS"),
        ("/v1/batch", "POST, OPTIONS"),
        ("/v1/recheck", "POST, OPTIONS"),
        ("/v1/calculators", "GET, HEAD, OPTIONS"),
        ("/openapi.json", "GET, HEAD, OPTIONS"),
        ("/holes/drill-point", "GET, HEAD, OPTIONS"),
        ("/guide/asking", "GET, HEAD, OPTIONS"),
        ("/", "GET, HEAD, OPTIONS"),
    ] {
        for method in [Method::DELETE, Method::PUT, Method::PATCH, Method::TRACE] {
            let response = caller.send(method.clone(), path);
            assert_eq!(response.status(), 405, "{method} {path}");
            assert_eq!(header(&response, "allow"), allow, "{method} {path}");
            assert_eq!(header(&response, "content-type"), "application/problem+json");
        }
        let options = caller.send(Method::OPTIONS, path);
        assert_eq!((options.status().as_u16(), header(&options, "allow")), (204, allow), "{path}");
    }
    assert_eq!(caller.post("/v1/holes/drill-point.txt", "{}").status(), 405);
}

#[test]
fn what_is_not_there_is_answered_with_the_nearest_names() {
    let caller = Caller::new();
    for (path, near) in [
        ("/v1/holes/drill-pont", "/v1/holes/drill-point"),
        ("/v1/drill-point/holes", ""),
        ("/v1/patterns/boltcircle", "/v1/patterns/bolt-circle"),
        ("/v1/holes/drill-point.json", "/v1/holes/drill-point"),
        ("/v1/patterns/PCD", ""),
    ] {
        let response = caller.get(path);
        assert_eq!(response.status(), 404, "{path}");
        let problem: Value = response.json().expect("JSON");
        let hint = problem["errors"][0]["try"].as_str().unwrap_or_default();
        assert!(hint.starts_with("/v1/"), "{path}: {hint}");
        if !near.is_empty() {
            assert_eq!(hint, near, "{path}");
        }
    }
    assert_eq!(caller.get("/v1").status(), 404);
    assert_eq!(caller.get("/favicon.ico").status(), 404);
}

#[test]
fn what_is_too_large_is_refused_by_its_own_status() {
    let caller = Caller::new();
    let path = "/v1/holes/drill-point";
    let long = format!("{path}?diameter={}", "1".repeat(9000));
    assert_eq!(caller.get(&long).status(), 414);
    let body = format!("{{\"diameter\": \"{}\"}}", " ".repeat(300_000));
    assert_eq!(caller.post(path, body).status(), 413);
    let plain = caller.client.post(caller.url(path)).body("diameter=1in").send().expect("an answer");
    assert_eq!(plain.status(), 415);
    let fat =
        caller.client.get(caller.url("/healthz")).header("x-filler", "f".repeat(20_000)).send().expect("an answer");
    assert_eq!(fat.status(), 431);
    for broken in ["", "{", "[]", "3", "{\"diameter\": 1in}", "\u{feff}{}"] {
        assert_eq!(caller.post(path, broken).status(), 400, "{broken}");
    }
    let bytes: Vec<u8> = b"{\"diameter\": \"\xff in\"}".to_vec();
    let request = caller.client.post(caller.url(path)).header("content-type", "application/json").body(bytes);
    assert_eq!(request.send().expect("an answer").status(), 400);
}

#[test]
fn a_deeply_nested_body_is_refused_and_the_service_lives_on() {
    let caller = Caller::new();
    let body = format!("{{\"diameter\": {}{}}}", "[".repeat(50_000), "]".repeat(50_000));
    assert_eq!(caller.post("/v1/holes/drill-point", body).status(), 400);
    assert_eq!(caller.get("/healthz").status(), 200);
}

#[test]
fn a_cell_never_flips_its_unit_and_can_be_told_of_refusals_in_words() {
    let caller = Caller::new();
    let path = "/v1/holes/drill-point.txt";
    let without = caller.ask(path, &[("diameter", "1/2 in"), ("pick", "point_length")]);
    assert_eq!(without.status(), 422);
    let problem: Value = without.json().expect("JSON");
    assert_eq!(problem["errors"][0]["field"], "/units");
    let cell = |more: &[(&str, &str)]| {
        let response = caller.ask(path, &[&[("diameter", "1/2 in")], more].concat());
        (response.status().as_u16(), response.text().expect("text"))
    };
    let shop = [("pick", "point_length"), ("units", "inch"), ("digits", "shop")];
    assert_eq!(cell(&shop), (200, "0.1502".into()));
    assert_eq!(cell(&[("pick", "point_length"), ("units", "metric"), ("digits", "shop")]), (200, "3.815".into()));
    assert_eq!(cell(&[("pick", "/trust")]), (200, "derivation".into()));
    assert_eq!(cell(&[("pick", "/result/point_length/unit"), ("units", "metric")]), (200, "mm".into()));
    let (status, words) = cell(&[("pick", "nothing_such"), ("units", "inch"), ("refusals", "text")]);
    assert_eq!(status, 200);
    assert!(words.starts_with("REFUSED: "), "{words}");
    assert_eq!(cell(&[("pick", "nothing_such"), ("units", "inch")]).0, 422);
    let (status, words) = cell(&[("pick", "tip_depth"), ("refusals", "text"), ("full_depth", "12")]);
    assert_eq!((status, words.starts_with("REFUSED: ")), (200, true), "{words}");
}

#[test]
fn a_request_keeps_its_id_and_is_logged_with_it() {
    let caller = Caller::new();
    let response =
        caller.client.get(caller.url("/healthz")).header("x-request-id", "tern-point-7").send().expect("an answer");
    assert_eq!(header(&response, "x-request-id"), "tern-point-7");
    let made = caller.get("/healthz");
    assert_eq!(header(&made, "x-request-id").len(), 16);
    let forged = caller.client.get(caller.url("/healthz")).header("x-request-id", "a b{").send().expect("an answer");
    assert_ne!(header(&forged, "x-request-id"), "a b{");
    let Caller { service, .. } = caller;
    service.stop();
    let (status, log) = service.wait();
    assert!(status.success(), "{status}");
    let line = log.lines().find(|line| line.contains("tern-point-7")).expect("a line in the log");
    let line: Value = serde_json::from_str(line).expect("the log is JSON lines");
    assert_eq!(line["fields"]["status"], 200);
    assert_eq!(line["fields"]["path"], "/healthz");
}

#[test]
fn it_stops_when_told_and_lets_an_open_request_finish() {
    use std::io::{Read, Write};
    let caller = Caller::new();
    let address = caller.service.base.trim_start_matches("http://").to_owned();
    let mut open = std::net::TcpStream::connect(address).expect("a connection");
    let body = "{\"diameter\": \"0.5 in\"}";
    let head = format!(
        "POST /v1/holes/drill-point HTTP/1.1\r\nhost: shop\r\ncontent-type: application/json\r\n\
         content-length: {}\r\nexpect: 100-continue\r\nconnection: close\r\n\r\n",
        body.len()
    );
    open.write_all(head.as_bytes()).expect("the head is sent");
    // The service says "100 Continue" once it has the request in hand and waits for the body.
    let mut go_on = [0; 25];
    open.read_exact(&mut go_on).expect("leave to send the body");
    assert!(go_on.starts_with(b"HTTP/1.1 100"));
    caller.service.stop();
    std::thread::sleep(Duration::from_millis(300));
    open.write_all(body.as_bytes()).expect("the body is sent");
    let mut answer = String::new();
    open.read_to_string(&mut answer).expect("an answer");
    assert!(answer.starts_with("HTTP/1.1 200"), "{answer}");
    let begun = Instant::now();
    let Caller { service, .. } = caller;
    assert!(service.wait().0.success());
    assert!(begun.elapsed() < Duration::from_secs(20));
}

#[test]
fn a_request_that_never_ends_is_given_up() {
    use std::io::{Read, Write};
    let caller = Caller::with(&["--timeout", "1"]);
    let address = caller.service.base.trim_start_matches("http://").to_owned();
    let mut open = std::net::TcpStream::connect(address).expect("a connection");
    open.set_read_timeout(Some(Duration::from_secs(15))).expect("a timeout");
    let head = "POST /v1/holes/drill-point HTTP/1.1\r\nhost: shop\r\ncontent-type: application/json\r\n\
                content-length: 100\r\n\r\n{";
    open.write_all(head.as_bytes()).expect("the head is sent");
    let mut answer = [0; 64];
    let read = open.read(&mut answer).expect("an answer within the time");
    assert!(String::from_utf8_lossy(&answer[..read]).starts_with("HTTP/1.1 408"));
}

#[test]
fn a_request_that_takes_too_long_is_refused_while_others_are_answered() {
    let caller = Caller::with(&["--timeout", "1", "--workers", "1"]);
    // The way through 1000 scattered places, over again from 30 starts.
    let place = |at: u32| format!("{} mm,{} mm", at * 7919 % 1009, at * 6101 % 997);
    let listed = |count: u32, mark: &str| (1..=count).map(place).collect::<Vec<_>>().join(mark);
    let body = json!({"points": listed(1000, ";"), "start": listed(30, "|")}).to_string();
    let (client, url) = (caller.client.clone(), caller.url("/v1/datum/visit-order"));
    let asking = std::thread::spawn(move || {
        let request = client.post(url).header("content-type", "application/json").body(body);
        let answer = request.send().expect("an answer");
        (answer.status().as_u16(), answer.text().expect("words"))
    });
    let mut meanwhile = 0;
    while !asking.is_finished() {
        assert_eq!(caller.get("/v1/holes/drill-point?diameter=1in").status(), 200);
        meanwhile += 1;
    }
    let (status, problem) = asking.join().expect("an answer");
    assert_eq!(status, 503, "{problem}");
    assert!(problem.contains("\"code\":\"too_much_work\""), "{problem}");
    assert!(meanwhile > 1, "the one worker answered nothing else meanwhile");
}

#[test]
fn a_setting_that_cannot_be_used_stops_the_start_with_its_reason() {
    let busy = std::net::TcpListener::bind("127.0.0.1:0").expect("a port");
    let address = busy.local_addr().expect("its address").to_string();
    let run = |arguments: &[&str]| {
        let output = std::process::Command::new(env!("CARGO_BIN_EXE_shop-reckoner")).args(arguments).output();
        let output = output.expect("it runs");
        (output.status.success(), String::from_utf8_lossy(&output.stderr).into_owned())
    };
    let (ok, says) = run(&["--listen", &address]);
    assert!(!ok && says.contains(&address), "{says}");
    let (ok, says) = run(&["--listen", "nowhere"]);
    assert!(!ok && says.contains("--listen"), "{says}");
    let (ok, says) = run(&["--listen", "127.0.0.1:0", "--log", "=="]);
    assert!(!ok && says.contains("--log"), "{says}");
}

#[test]
fn what_is_unchanged_is_not_sent_again_in_any_encoding() {
    let caller = Caller::new();
    for path in [
        "/v1/holes/drill-point?diameter=1in", "/openapi.json", "/", "/v1/tables/drills_inch", "/docs/",
        "/openapi/holes.json", "/guide/problems",
    ] {
        let mut tags = Vec::new();
        for encoding in ["identity", "gzip", "br"] {
            let get = |tag: Option<&str>| {
                let request = caller.client.get(caller.url(path)).header("accept-encoding", encoding);
                let request = tag.into_iter().fold(request, |request, tag| request.header("if-none-match", tag));
                request.send().expect("an answer")
            };
            let first = get(None);
            let sent_in = header(&first, "content-encoding").to_owned();
            assert_eq!(sent_in, if encoding == "identity" { "" } else { encoding }, "{path}");
            let tag = header(&first, "etag").to_owned();
            assert!(tag.starts_with('"') && tag.ends_with('"') && !tag.starts_with("W/"), "{path}: {tag}");
            let again = get(Some(&tag));
            assert_eq!((again.status().as_u16(), header(&again, "etag")), (304, tag.as_str()), "{path} {encoding}");
            assert!(again.bytes().expect("no body").is_empty());
            assert_eq!(get(Some("\"another\"")).status(), 200);
            tags.push(tag);
        }
        tags.dedup();
        assert_eq!(tags.len(), 3, "{path}: each encoding has its own tag: {tags:?}");
    }
    let refused = caller.get("/v1/holes/drill-point");
    assert_eq!(header(&refused, "etag"), "");
}

#[test]
fn pages_from_elsewhere_may_ask_only_where_that_is_set() {
    let ask = |caller: &Caller, origin: &str| {
        let request = caller.client.get(caller.url("/v1/holes/drill-point?diameter=1in")).header("origin", origin);
        header(&request.send().expect("an answer"), "access-control-allow-origin").to_owned()
    };
    assert_eq!(ask(&Caller::new(), "https://tern.example"), "");
    let caller = Caller::with(&["--allow-origin", "https://tern.example"]);
    assert_eq!(ask(&caller, "https://tern.example"), "https://tern.example");
    assert_eq!(ask(&caller, "https://other.example"), "");
    let preflight = caller.client.request(Method::OPTIONS, caller.url("/v1/holes/drill-point"));
    let preflight = preflight.header("origin", "https://tern.example").header("access-control-request-method", "POST");
    let preflight = preflight.header("access-control-request-headers", "content-type").send().expect("an answer");
    assert!(header(&preflight, "access-control-allow-methods").contains("POST"), "{preflight:?}");
    assert_eq!(ask(&Caller::with(&["--allow-origin", "*"]), "https://any.example"), "*");
}

#[test]
fn what_was_asked_is_counted_under_closed_labels() {
    let caller = Caller::new();
    caller.get("/v1/holes/drill-point?diameter=1in");
    caller.get("/v1/holes/drill-point.txt?diameter=1");
    caller.get("/v1/no-such/thing");
    caller.get("/made-up-by-somebody");
    let text = caller.get("/metrics").text().expect("text");
    let has = |line: &str| assert!(text.lines().any(|is| is == line), "no {line} in\n{text}");
    has("shop_reckoner_requests_total{calculator=\"holes/drill-point\",form=\"json\",outcome=\"answered\"} 1");
    has("shop_reckoner_requests_total{calculator=\"holes/drill-point\",form=\"txt\",outcome=\"refused\"} 1");
    has("shop_reckoner_refusals_total{code=\"unit_missing\"} 1");
    has("shop_reckoner_answer_seconds_count{calculator=\"holes/drill-point\"} 2");
    assert!(!text.contains("made-up") && !text.contains("no-such"), "{text}");
}

#[test]
fn the_reference_opens_by_topic_from_the_binary_alone() {
    let caller = Caller::new();
    let list = caller.get("/docs").text().expect("a page");
    let parts: Value = caller.get("/openapi").json().expect("JSON");
    let parts = parts["parts"].as_array().expect("parts");
    assert!(parts.len() > 6, "a part for each topic and one for the rest");
    for part in parts {
        let path = format!("/docs/{}", part["name"].as_str().expect("a name"));
        assert!(list.contains(&format!("href=\"{path}\"")), "{path} is not listed");
        let page = caller.get(&path).text().expect("a page");
        assert!(page.contains(&format!("data-description={}", part["address"])), "{page}");
        let parts = page.split("href=\"").chain(page.split("src=\"")).skip(1);
        let files: Vec<&str> =
            parts.filter_map(|rest| rest.split('"').next()).filter(|file| file.starts_with("/assets")).collect();
        assert!(files.iter().any(|file| file.ends_with(".js")) && files.iter().any(|file| file.ends_with(".css")));
        assert!(!page.contains("=\"//") && !page.contains("=\"http"), "{path} asks elsewhere: {page}");
        for file in files {
            assert_eq!(caller.get(file).status(), 200, "{file}");
        }
    }
    assert_eq!(caller.get("/docs/nothing").status(), 404);
}

#[test]
fn the_description_is_served_as_it_is_committed_and_in_parts() {
    let caller = Caller::new();
    let committed = include_str!("../openapi/openapi.json");
    assert_eq!(caller.get("/openapi.json").text().expect("text"), committed);
    let whole: Value = serde_json::from_str(committed).expect("JSON");
    let list: Value = caller.get("/openapi").json().expect("JSON");
    let mut operations = 0;
    for part in list["parts"].as_array().expect("parts") {
        let response = caller.get(part["address"].as_str().expect("an address"));
        assert_eq!(header(&response, "vary"), "accept-encoding");
        let served: Value = response.json().expect("JSON");
        for (path, item) in served["paths"].as_object().expect("paths") {
            assert_eq!(item, &whole["paths"][path], "{path}");
        }
        operations += part["operations"].as_u64().expect("a number");
    }
    let items = whole["paths"].as_object().expect("paths").values();
    let all: usize = items.map(|item| item.as_object().expect("operations").len()).sum();
    assert_eq!(operations as usize, all);
    assert_eq!(caller.get("/openapi/nothing.json").status(), 404);
}

#[test]
fn every_calculator_has_a_page_that_opens_empty_and_filled() {
    let caller = Caller::new();
    let list = caller.get("/").text().expect("a page");
    for entry in REGISTER {
        assert!(list.contains(&format!("href=\"/{}\"", entry.id)), "{} is not listed", entry.id);
        let path = format!("/{}", entry.id);
        let empty = caller.get(&path);
        assert_eq!(empty.status(), 200, "{path}");
        let page = empty.text().expect("a page");
        for field in &shop_reckoner::asking::describe_entry(entry).expect("described").fields {
            assert!(page.contains(&format!("name=\"{}\"", field.name)), "{path} has no field {}", field.name);
        }
        for example in entry.examples {
            let filled = caller.ask(&path, example.fields);
            assert_eq!(filled.status(), 200, "{path} {example:?}");
            let page = filled.text().expect("a page");
            assert!(page.contains("<h2>Answer</h2>") && page.contains("<h2>Working</h2>"), "{path}");
        }
    }
    let wrong = caller.get("/holes/drill-point?diameter=0.5&point_angle=%3Cscript%3E");
    assert_eq!(wrong.status(), 422);
    assert!(header(&wrong, "content-security-policy").contains("default-src 'none'"));
    let page = wrong.text().expect("a page");
    assert!(page.contains("has no unit") && !page.contains("<script>"), "{page}");
    assert_eq!(caller.get("/holes/nothing").status(), 404);
}

#[test]
fn a_page_loads_nothing_from_elsewhere_and_runs_nothing_inline() {
    let caller = Caller::new();
    // `on…=` attributes would be scripts inside the page.
    let inline = regex::Regex::new(r#"<[^>]* on[a-z]+=""#).expect("a pattern");
    for path in ["/", "/?find=drill+tip", "/?find=M8", "/offline", "/holes/tap-drill?thread=M8", "/holes/nothing"] {
        let response = caller.get(path);
        let policy = header(&response, "content-security-policy").to_owned();
        assert!(policy.starts_with("default-src 'none'") && !policy.contains("unsafe"), "{path}: {policy}");
        let page = response.text().expect("a page").replace("xmlns=\"http://www.w3.org/2000/svg\"", "");
        assert!(!page.contains("<style") && !page.contains(" style=") && !page.contains("://"), "{path}");
        assert!(!inline.is_match(&page), "{path}");
        assert_eq!(page.matches("<script").count(), page.matches("<script src=\"/assets/").count(), "{path}");
    }
    for asset in shop_reckoner::page::assets::all() {
        let response = caller.get(&asset.address);
        assert_eq!(header(&response, "content-type"), asset.media_type);
        let keep = if asset.for_ever { "public, max-age=31536000, immutable" } else { "no-cache" };
        assert_eq!(header(&response, "cache-control"), keep, "{}", asset.address);
        assert_eq!(response.text().expect("text"), asset.text);
    }
}

#[test]
fn a_unit_chosen_beside_a_field_is_a_matter_of_pages_alone() {
    let caller = Caller::new();
    let chosen = "diameter=0.5&diameter.unit=in&point_angle=118&point_angle.unit=deg";
    let page = caller.get(&format!("/holes/drill-point?{chosen}")).text().expect("a page");
    assert!(page.contains("<h2>Answer</h2>"), "{page}");
    let address = "/holes/drill-point?diameter=0.5%20in&amp;point_angle=118%20deg";
    assert!(page.contains(&format!("<link rel=\"canonical\" href=\"{address}\">")), "{page}");
    assert_eq!(caller.get(&format!("/v1/holes/drill-point?{chosen}")).status(), 422);
    assert_eq!(caller.get(&format!("/v1{}", address.replace("&amp;", "&"))).status(), 200);
}

#[test]
fn every_problem_leads_to_its_place_in_the_guide() {
    let caller = Caller::with(&["--timeout", "60"]);
    let drill = "/v1/holes/drill-point";
    let answered = [
        (400, caller.get(&format!("{drill}?diameter=%FF"))),
        (404, caller.get("/v1/holes/nothing")),
        (405, caller.send(Method::DELETE, drill)),
        (413, caller.post(drill, " ".repeat(300_000))),
        (414, caller.get(&format!("{drill}?diameter={}", "1".repeat(9000)))),
        (415, caller.client.post(caller.url(drill)).body("diameter=1in").send().expect("an answer")),
        (422, caller.get(drill)),
    ];
    for (status, response) in answered {
        assert_eq!(response.status(), status);
        let problem: Value = response.json().expect("JSON");
        let (page, anchor) = problem["type"].as_str().and_then(|kind| kind.split_once('#')).expect("an address");
        let page = caller.get(page);
        assert_eq!(page.status(), 200, "{problem}");
        assert!(page.text().expect("a page").contains(&format!("id=\"{anchor}\"")), "{problem}");
    }
}

#[test]
fn a_person_is_told_of_a_problem_by_a_page_and_a_program_by_a_document() {
    let caller = Caller::with(&["--rate-limit", "1", "--rate-burst", "6"]);
    let ask = |method: Method, path: &str, accept: &str| {
        let request = caller.client.request(method, caller.url(path)).header("accept", accept);
        request.send().expect("an answer")
    };
    let browser = "text/html,application/xhtml+xml,*/*;q=0.8";
    for (path, accept, is_page) in [
        ("/no/such/page", browser, true),
        ("/no/such/page/at/all", "application/json", false),
        ("/guide/nothing", "*/*", true),
        ("/v1/holes/nothing", browser, false),
    ] {
        let response = ask(Method::GET, path, accept);
        assert_eq!(response.status(), 404, "{path}");
        let media_type = if is_page { "text/html; charset=utf-8" } else { "application/problem+json" };
        assert_eq!(header(&response, "content-type"), media_type, "{path} {accept}");
        assert_eq!(header(&response, "content-security-policy").starts_with("default-src 'none'"), is_page, "{path}");
    }
    let long = format!("/holes/drill-point?diameter={}", "1".repeat(9000));
    assert_eq!(header(&ask(Method::GET, &long, browser), "content-type"), "text/html; charset=utf-8");
    let mut refused = ask(Method::GET, "/holes/drill-point?diameter=1in", browser);
    for _ in 0..20 {
        if refused.status() == 429 {
            break;
        }
        refused = ask(Method::GET, "/holes/drill-point?diameter=1in", browser);
    }
    assert_eq!((refused.status().as_u16(), header(&refused, "cache-control")), (429, "no-store"));
    let seconds = header(&refused, "retry-after").to_owned();
    let page = refused.text().expect("a page");
    assert!(page.contains("<h1>Too many requests</h1>") && page.contains(&format!("Try again in {seconds} second")));
    assert!(page.contains("href=\"/holes/drill-point?diameter=1in\"") && page.contains("<header>"), "{page}");
}
