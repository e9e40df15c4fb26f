//! Many requests in one: tables, arrays and lines of JSON, as their callers meet them.

mod common;

use common::Service;
use reqwest::blocking::{Client, Response};
use serde_json::{Value, json};
use shop_reckoner::calculators::REGISTER;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::time::{Duration, Instant};

const DRILL: &str = "/v1/holes/drill-point";

struct Caller {
    service: Service,
    client: Client,
}

impl Caller {
    fn new() -> Self {
        Self::with(&[])
    }

    fn with(arguments: &[&str]) -> Self {
        let client = Client::builder().timeout(Duration::from_secs(60)).build().expect("a client");
        Self { service: Service::start(arguments), client }
    }

    fn send(&self, path: &str, media_type: &str, body: impl Into<reqwest::blocking::Body>) -> Response {
        let url = format!("{}{path}", self.service.base);
        self.client.post(url).header("content-type", media_type).body(body).send().expect("an answer")
    }

    fn table(&self, path: &str, body: impl Into<String>) -> String {
        let response = self.send(path, "text/csv", body.into());
        let status = response.status();
        let text = response.text().expect("text");
        assert_eq!(status, 200, "{path}: {text}");
        text
    }

    fn refused(&self, path: &str, body: &str) -> Value {
        let response = self.send(path, "text/csv", body.to_owned());
        assert_eq!(response.status(), 422, "{body}");
        assert_eq!(response.headers()["content-type"], "application/problem+json");
        response.json().expect("a problem")
    }

    fn json(&self, path: &str, body: &Value) -> Value {
        let response = self.send(path, "application/json", body.to_string());
        assert_eq!(response.status(), 200);
        response.json().expect("JSON")
    }

    fn lines(&self, path: &str, body: impl Into<reqwest::blocking::Body>) -> Vec<Value> {
        let response = self.send(path, "application/x-ndjson", body);
        assert_eq!(response.status(), 200);
        assert_eq!(response.headers()["content-type"], "application/x-ndjson");
        let text = response.text().expect("text");
        text.lines().map(|line| serde_json::from_str(line).unwrap_or_else(|error| panic!("{error}: {line}"))).collect()
    }

    fn get(&self, path: &str) -> Value {
        let response = self.client.get(format!("{}{path}", self.service.base)).send().expect("an answer");
        assert_eq!(response.status(), 200, "{path}");
        response.json().expect("JSON")
    }
}

/// The rows of a table as pairs of heading and cell.
fn rows(table: &str, delimiter: u8) -> Vec<Vec<(String, String)>> {
    let mut reader = csv::ReaderBuilder::new().delimiter(delimiter).from_reader(table.as_bytes());
    let header = reader.headers().expect("a header").clone();
    let row = |row: csv::StringRecord| {
        header.iter().zip(row.iter()).map(|(name, cell)| (name.to_owned(), cell.to_owned())).collect()
    };
    reader.records().map(|record| row(record.expect("a row as long as the header"))).collect()
}

fn cell<'r>(row: &'r [(String, String)], name: &str) -> &'r str {
    row.iter().find(|(heading, _)| heading == name).map_or_else(|| panic!("no {name} in {row:?}"), |(_, cell)| cell)
}

#[test]
fn rows_come_back_in_order_with_their_results_and_refusals() {
    let caller = Caller::new();
    let table = "part,diameter [in],point_angle,full_depth [in]\r\n\
                 W-1,0.5,118 deg,0.75\r\n\
                 W-2,,118 deg,1\r\n\
                 W-3,12 mm,,\r\n\
                 \"W,4\",1/2,135,0.75\r\n\
                 W-5,0.25\r\n\
                 W-6,0.25|0.5,118 deg,\r\n\
                 W-7,#7,118 deg,1 in\r\n";
    let answered = caller.table(&format!("{DRILL}.csv"), table);
    assert_eq!(
        answered.lines().next().expect("a header"),
        "part,diameter [in],point_angle,full_depth [in],point_length [in],tip_depth [in],travel [in],\
         shoulder_length [in],large_depth [in],refused"
    );
    let rows = rows(&answered, b',');
    let parts: Vec<&str> = rows.iter().map(|row| cell(row, "part")).collect();
    assert_eq!(parts, ["W-1", "W-2", "W-3", "W,4", "W-5", "W-6", "W-7"]);
    // Half of 1/2 in over the tangent of 59°: 0.25/1.664279.
    let length: f64 = cell(&rows[0], "point_length [in]").parse().expect("a number");
    assert!((length - 0.25 / 59f64.to_radians().tan()).abs() < 1e-12);
    assert_eq!(cell(&rows[0], "refused"), "");
    for (at, words) in [
        (1, "diameter: Needed: drill."),
        (3, "point_angle: \"135\" has no unit"),
        (4, "This row has 2 cells; the header has 4."),
        (5, "several values"),
    ] {
        let refused = cell(&rows[at], "refused");
        assert!(refused.contains(words), "{refused}");
        assert_eq!(cell(&rows[at], "point_length [in]"), "");
    }
    // An empty cell is not given, a cell's own unit goes before the header's, and results keep one unit.
    let length: f64 = cell(&rows[2], "point_length [in]").parse().expect("a number");
    assert!((length * 25.4 - 6.0 / 59f64.to_radians().tan()).abs() < 1e-12);
    assert_eq!(cell(&rows[2], "tip_depth [in]"), "");
    assert!(cell(&rows[6], "tip_depth [in]").parse::<f64>().is_ok());
}

#[test]
fn a_table_says_the_same_as_the_calculator_asked_row_by_row() {
    let caller = Caller::new();
    let mut tables = 0;
    for entry in REGISTER {
        for example in entry.examples {
            let query = serde_json::json!(example.fields.iter().copied().collect::<std::collections::BTreeMap<_, _>>());
            let url = format!("{}/v1/{}.csv", caller.service.base, entry.id);
            let alone = caller.client.get(&url).query(&query).send().expect("an answer").text().expect("text");
            let alone = rows(&alone, b',');
            let json = caller.client.get(url.trim_end_matches(".csv")).query(&query).send().expect("an answer");
            let json: Value = json.json().expect("JSON");
            let is_list = |value: &Value| value.as_array().is_some_and(|rows| rows.iter().any(Value::is_object));
            let results = json["result"].as_object().expect("a result");
            let list =
                results.iter().find(|(_, value)| is_list(value)).map(|(name, _)| name.as_str()).unwrap_or_default();
            let mut writer = csv::Writer::from_writer(Vec::new());
            writer.write_record(example.fields.iter().map(|(name, _)| name)).expect("a header");
            writer.write_record(example.fields.iter().map(|(_, value)| value)).expect("a row");
            let table = String::from_utf8(writer.into_inner().expect("bytes")).expect("text");
            let answered = caller.table(&format!("/v1/{}.csv", entry.id), table);
            let answered = rows(&answered, b',');
            assert_eq!(answered.len(), alone.len(), "{} {example:?}", entry.id);
            for (row, wanted) in answered.iter().zip(&alone) {
                assert_eq!(cell(row, "refused"), "", "{} {example:?}", entry.id);
                for (name, value) in wanted {
                    // A column of a list named like a result, or a result like an input, says whose it is.
                    let names = [format!("{list}.{name}"), format!("result {name}")];
                    let other = names.iter().find(|other| row.iter().any(|(heading, _)| heading == *other));
                    let name = other.unwrap_or(name);
                    assert_eq!(cell(row, name), value, "{} {name} {example:?}", entry.id);
                }
            }
            tables += 1;
        }
    }
    assert!(tables > 40, "{tables}");
}

#[test]
fn a_list_result_is_in_long_form_and_pick_chooses_columns() {
    let caller = Caller::new();
    let path = "/v1/patterns/bolt-circle.csv";
    let answered = caller.table(path, "diameter [mm],holes\n100,3\nx,4\n60,2\n");
    let long = rows(&answered, b',');
    let numbers: Vec<&str> = long.iter().map(|row| cell(row, "row")).collect();
    assert_eq!(numbers, ["1", "1", "1", "2", "3", "3"]);
    assert_eq!(cell(&long[0], "number"), "1");
    assert_eq!(cell(&long[0], "x [mm]"), "50");
    assert!(cell(&long[0], "adjacent_chord [mm]").starts_with("86.602"));
    assert!(!cell(&long[3], "refused").is_empty());
    let answered = caller.table(&format!("{path}?pick=adjacent_chord,step_angle"), "diameter [mm],holes\n100,4\n");
    assert_eq!(
        answered,
        "diameter [mm],holes,step_angle [deg],adjacent_chord [mm],refused\r\n100,4,90,70.7106781186548,\r\n"
    );
    let problem = caller.refused(&format!("{path}?pick=chord"), "diameter [mm],holes\n100,4\n");
    assert_eq!(problem["errors"][0]["field"], "/pick");
}

#[test]
fn a_table_of_semicolons_has_decimal_commas_in_and_out() {
    let caller = Caller::new();
    let path = format!("{DRILL}.csv?separator=semicolon&point_angle=118deg");
    let table = "teil;diameter [mm];full_depth\nA;12,7;19,05 mm\nB;\"8,5\";\nC;1.250;\nD;0.5;\nE;12.5;2,5 mm\n";
    let answered = caller.table(&path, table);
    let rows = rows(&answered, b';');
    let number = |row: usize, name: &str| cell(&rows[row], name).replace(',', ".").parse::<f64>().expect("a number");
    assert!((number(0, "point_length [mm]") - 6.35 / 59f64.to_radians().tan()).abs() < 1e-9);
    assert!(cell(&rows[0], "point_length [mm]").contains(','));
    assert!((number(0, "tip_depth [mm]") - 19.05 - number(0, "point_length [mm]")).abs() < 1e-9);
    assert!((number(1, "point_length [mm]") - 4.25 / 59f64.to_radians().tan()).abs() < 1e-9);
    assert!(cell(&rows[2], "refused").contains("thousands mark"));
    assert!((number(3, "point_length [mm]") - 0.25 / 59f64.to_radians().tan()).abs() < 1e-9);
    let problem = caller.refused(&format!("{DRILL}.csv"), table);
    assert_eq!(
        (problem["errors"][0]["field"].as_str(), problem["errors"][0]["try"].as_str()),
        (Some("/separator"), Some("semicolon"))
    );
}

#[test]
fn no_cell_becomes_a_formula() {
    let caller = Caller::new();
    let table = "remark,=1+1,diameter [in]\n=HYPERLINK(\"http://x\"),@x,0.5\n-1+cmd|' /C x'!A0,-3,=2\n+A1,\t=1,1\n";
    let answered = caller.table(&format!("{DRILL}.csv"), table);
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(answered.as_bytes());
    let mut cells = 0;
    for row in reader.records() {
        for cell in row.expect("a row").iter() {
            let begins = cell.trim_start().chars().next().unwrap_or(' ');
            let is_number = cell.parse::<f64>().is_ok();
            assert!(is_number || !['=', '+', '-', '@', '\t'].contains(&begins), "{cell:?}");
            cells += 1;
        }
    }
    // Two columns of a step drill stand in each of the four rows.
    assert_eq!(cells, 36);
    assert!(answered.contains("'=HYPERLINK"));
    // So is a name in a table of one answer.
    let tools = r#"[{"name": "T1", "reading": "1 in"}, {"name": "=1+1", "reading": "2 in"}]"#;
    let url = format!("{}/v1/datum/tool-setting.csv", caller.service.base);
    let one = caller
        .client
        .get(url)
        .query(&[("tools", tools), ("reference", "T1")])
        .send()
        .expect("an answer")
        .text()
        .expect("text");
    assert!(one.contains("'=1+1") && !one.contains("\n=1+1"), "{one}");
}

#[test]
fn a_wrong_header_is_refused_before_any_row() {
    let caller = Caller::new();
    let path = format!("{DRILL}.csv");
    for (header, field, code) in [
        ("diamter [in]", "/diamter", "field_unknown"),
        ("diameter [in],angle", "/angle", "field_unknown"),
        ("diameter [in],point_length [in]", "/point_length", "field_unknown"),
        ("diameter [furlong]", "/diameter", "unit_unknown"),
        ("diameter [in],point_angle [in]", "/point_angle", "unit_wrong"),
        ("diameter [in],diameter [mm]", "/diameter", "field_repeated"),
        ("diameter [in],units", "/units", "not_offered"),
        ("diameter [in],zeroed_at [in]", "/zeroed_at", "unit_wrong"),
        ("part,full_depth [in]", "/diameter", "field_missing"),
    ] {
        let problem = caller.refused(&path, &format!("{header}\n1,1\n"));
        let errors = problem["errors"].as_array().expect("errors");
        assert!(errors.iter().any(|error| error["field"] == field && error["code"] == code), "{header}: {problem}");
    }
    for (query, field, code) in [
        ("?diameter=1in", "/diameter", "field_repeated"),
        ("?colour=red", "/colour", "field_unknown"),
        ("?working=false", "/working", "not_offered"),
        ("?units=feet", "/units", "value_unreadable"),
        ("?machine=mill", "/machine", "not_offered"),
    ] {
        let problem = caller.refused(&format!("{path}{query}"), "diameter [in]\n1\n");
        let errors = problem["errors"].as_array().expect("errors");
        assert!(errors.iter().any(|error| error["field"] == field && error["code"] == code), "{query}: {problem}");
    }
    assert_eq!(caller.refused(&path, "")["errors"][0]["code"], "value_empty");
    // With no unit in the header the first row decides the units; refused, it cannot.
    let problem = caller.refused(&path, "diameter\n1\n2 in\n");
    assert_eq!(problem["errors"][0]["field"], "/units");
    assert!(caller.table(&path, "diameter\n1 mm\n2 in\n").contains("[mm]"));
    assert!(caller.table(&format!("{path}?units=inch"), "diameter\n1\n2 in\n").contains("point_length [in]"));
    for (media_type, status) in
        [("application/json", 415), ("text/csv", 422), ("application/x-www-form-urlencoded", 422)]
    {
        assert_eq!(caller.send(&path, media_type, "").status(), status, "{media_type}");
    }
    assert_eq!(caller.send(&path, "text/csv", b"diam\xffeter\n1\n".to_vec()).status(), 400);
}

#[test]
fn what_goes_along_is_untouched_and_odd_files_are_read() {
    let caller = Caller::new();
    let path = format!("{DRILL}.csv");
    let table =
        "\u{feff}\"part\",_angle,\"diameter [in]\"\r\n\"a \"\"big\"\" one\r\nof two lines\",7,0.5\r\n\r\nb,,\"0.25\"";
    let answered = caller.table(&path, table);
    let read = rows(&answered, b',');
    assert_eq!(read.len(), 2);
    assert_eq!(cell(&read[0], "part"), "a \"big\" one\r\nof two lines");
    assert_eq!(cell(&read[0], "_angle"), "7");
    assert!(cell(&read[1], "point_length [in]").starts_with("0.0751"));
    // An inch mark in a cell is no quotation mark.
    let read = rows(&caller.table(&path, "diameter,part\n1/2\",x\n3/8\",y\n"), b',');
    assert_eq!((read.len(), cell(&read[1], "part"), cell(&read[1], "refused")), (2, "y", ""));
    // A quotation mark that is never closed is said, not swallowed.
    let answered = caller.table(&path, "part,diameter [in]\na,1\n\"b,1\nc,1\nd,1\n");
    assert!(answered.trim_end().ends_with("A quotation mark that starts here is never closed."), "{answered}");
    // Only a header: only a header.
    assert_eq!(caller.table(&path, "diameter [in]\n").lines().count(), 1);
    let bytes = b"part,diameter [in]\n\xff,1\nx,\xff\n".to_vec();
    let answered = caller.send(&path, "text/csv", bytes).bytes().expect("bytes");
    let answered = String::from_utf8_lossy(&answered).into_owned();
    assert!(answered.lines().nth(1).expect("a row").ends_with(','), "{answered}");
    assert!(answered.contains("The cell is not UTF-8 text."), "{answered}");
}

#[test]
fn tolerances_resolution_and_machines_have_their_columns() {
    let path = format!("{DRILL}.csv");
    let caller = Caller::new();
    let answered = caller.table(&path, "diameter [in],point_angle\n0.500 ±0.002,118deg\n0.25,118deg\n");
    let read = rows(&answered, b',');
    let number = |row: usize, name: &str| cell(&read[row], name).parse::<f64>().expect("a number");
    assert!(number(0, "point_length_least [in]") < number(0, "point_length [in]"));
    assert!(number(0, "point_length_greatest [in]") > number(0, "point_length [in]"));
    assert_eq!(cell(&read[1], "point_length_least [in]"), "");
    let late = caller.table(&path, "diameter [in],point_angle\n0.25,118deg\n0.500 ±0.002,118deg\n");
    assert!(late.contains("the first row has none"), "{late}");
    let set = caller.table(&format!("{path}?resolution=0.0005in"), "diameter [in],full_depth [in]\n0.5,0.75\n");
    let read = rows(&set, b',');
    assert_eq!(cell(&read[0], "tip_depth_set_to [in]"), "0.9000");
    let shop = common::root().join("data/shop/tern-point-works.toml");
    let caller = Caller::with(&["--shop", shop.to_str().expect("a path")]);
    let path = "/v1/speeds/spindle-speed.csv?machine=mill";
    let read = rows(&caller.table(path, "cutting_speed [ft/min],diameter [in]\n70,0.5\n"), b',');
    let (_, cell) = read[0].iter().find(|(name, _)| name.starts_with("spindle_speed")).expect("a speed");
    assert_eq!(cell, "450");
}

/// A reader that makes up a body as it is read.
struct Made {
    at: usize,
    count: usize,
    rest: Vec<u8>,
    line: fn(usize) -> String,
}

impl Read for Made {
    fn read(&mut self, into: &mut [u8]) -> std::io::Result<usize> {
        while self.rest.len() < into.len() && self.at < self.count {
            self.rest.extend((self.line)(self.at).into_bytes());
            self.at += 1;
        }
        let count = into.len().min(self.rest.len());
        into[..count].copy_from_slice(&self.rest[..count]);
        self.rest.drain(..count);
        Ok(count)
    }
}

fn made(count: usize, line: fn(usize) -> String) -> reqwest::blocking::Body {
    reqwest::blocking::Body::new(Made { at: 0, count, rest: Vec::new(), line })
}

#[test]
fn long_tables_and_lines_keep_their_order() {
    let caller = Caller::new();
    let body = made(20_000, |at| match at {
        0 => "part,diameter [in]\n".into(),
        at if at % 7 == 0 => format!("\"P\n{at}\",{}\n", at % 100 + 1),
        at => format!("P{at},{}\n", at % 9),
    });
    let answered = caller.send(&format!("{DRILL}.csv"), "text/csv", body).text().expect("text");
    let read = rows(&answered, b',');
    assert_eq!(read.len(), 19_999);
    for (at, row) in read.iter().enumerate() {
        let part = cell(row, "part").replace('\n', "");
        assert_eq!(part, format!("P{}", at + 1));
        let refused = (at + 1) % 7 != 0 && (at + 1) % 9 == 0;
        assert_eq!(!cell(row, "refused").is_empty(), refused, "{row:?}");
    }
    let body = made(2_000, |at| {
        format!(
            "{{\"id\": {at}, \"calculator\": \"holes/drill-point\", \"working\": false, \"inputs\": {{\"diameter\": \"{} in\"}}}}\n",
            at % 5
        )
    });
    let lines = caller.lines("/v1/batch", body);
    assert_eq!(lines.len(), 2_000);
    for (at, line) in lines.iter().enumerate() {
        assert_eq!(line["id"], at);
        assert_eq!(line["answer"].is_object(), at % 5 != 0, "{at}: {line}");
    }
}

#[test]
fn a_batch_answers_and_refuses_each_item_in_its_place() {
    let caller = Caller::new();
    let good = json!({"calculator": "holes/drill-point", "inputs": {"diameter": "1/2 in"}});
    let items = json!([
        {"id": "A", "calculator": "holes/drill-point", "inputs": {"diameter": "1/2 in"}, "units": "metric", "working": false},
        {"id": 7, "calculator": "holes/drill-pont", "inputs": {}},
        {"id": "C", "calculator": "patterns/bolt-circle", "inputs": {"diameter": "4", "holes": 6}, "units": "feet"},
        3,
        {"id": "E", "inputs": {}, "colour": "red"},
        good,
        {"calculator": "holes/drill-point", "inputs": {"diameter": "1/4 in|1/2 in", "resolution": "0.001 in"}},
        {"calculator": "holes/drill-point", "inputs": {"diameter": "1 in"}, "inputs": {}},
    ]);
    let answers = caller.json("/v1/batch", &items);
    let answers = answers.as_array().expect("an array");
    assert_eq!(answers.len(), 8);
    let alone = caller.get(&format!("{DRILL}?diameter=1/2%20in&units=metric&working=false"));
    assert_eq!(answers[0]["id"], "A");
    for part in ["result", "inputs", "link", "sources", "working"] {
        // The fields were asked in the other order, which the link keeps.
        if part != "link" {
            assert_eq!(answers[0]["answer"][part], alone[part], "{part}");
        }
    }
    assert_eq!((&answers[1]["id"], &answers[1]["problem"]["status"]), (&json!(7), &json!(404)));
    assert_eq!(answers[1]["problem"]["errors"][0]["try"], "/v1/holes/drill-point");
    let fields: Vec<&str> = answers[2]["problem"]["errors"]
        .as_array()
        .expect("errors")
        .iter()
        .filter_map(|e| e["field"].as_str())
        .collect();
    assert_eq!(fields, ["/units", "/inputs/diameter"]);
    assert_eq!((answers[3]["problem"]["status"].as_u64(), answers[3].get("id")), (Some(400), None));
    assert_eq!(answers[4]["problem"]["errors"].as_array().map(Vec::len), Some(2));
    assert_eq!(answers[5]["answer"]["result"], caller.get(&format!("{DRILL}?diameter=1/2%20in"))["result"]);
    assert_eq!(answers[6]["answer"]["rows"].as_array().map(Vec::len), Some(2));
    let lines: Vec<String> = items.as_array().expect("items").iter().map(Value::to_string).collect();
    assert_eq!(caller.lines("/v1/batch", lines.join("\n")), *answers, "lines are answered as the array is");
    assert_eq!(caller.json("/v1/batch", &json!([])), json!([]));
    for (id, given_back) in [
        ("7.0", json!(7)),
        ("9007199254740991", json!(9_007_199_254_740_991_i64)),
        ("9007199254740992", json!(null)),
        ("0.5", json!(null)),
    ] {
        let line = format!(r#"{{"id": {id}, "calculator": "holes/drill-point", "inputs": {{"diameter": "1 in"}}}}"#);
        let answered = &caller.lines("/v1/batch", line)[0];
        assert_eq!((&answered["id"], answered["answer"].is_null()), (&given_back, given_back.is_null()), "{id}");
    }
    let twice = r#"{"calculator": "holes/drill-point", "calculator": "x", "inputs": {}}"#;
    assert_eq!(caller.lines("/v1/batch", twice)[0]["problem"]["errors"][0]["code"], "field_repeated");
    for (body, status) in [("{}", 400), ("[1", 400), ("", 400), ("[]", 200)] {
        assert_eq!(caller.send("/v1/batch", "application/json", body).status(), status, "{body}");
    }
    assert_eq!(caller.send("/v1/batch", "text/plain", "[]").status(), 415);
    let large = format!("[\"{}\"]", "x".repeat(300_000));
    assert_eq!(caller.send("/v1/batch", "application/json", large).status(), 413);
}

#[test]
fn a_broken_line_is_that_lines_error() {
    let caller = Caller::new();
    let good = r#"{"calculator": "holes/drill-point", "inputs": {"diameter": "1/2 in"}, "working": false}"#;
    let mut body = Vec::new();
    for line in [good.as_bytes(), b"{\"calculator\": ", b"\xff", b"", &[b'x'; 600_000], b"[1]", good.as_bytes()] {
        body.extend_from_slice(line);
        body.push(b'\n');
    }
    let lines = caller.lines("/v1/batch", body);
    let kinds: Vec<bool> = lines.iter().map(|line| line["answer"].is_object()).collect();
    assert_eq!(kinds, [true, false, false, false, false, true]);
    assert!(lines[3]["problem"]["detail"].as_str().expect("words").contains("longer than 262144 bytes"));
    assert_eq!(lines[2]["problem"]["status"], 400);
}

#[test]
fn every_answer_has_a_link_that_gives_it_again() {
    let caller = Caller::new();
    for entry in REGISTER {
        for example in entry.examples {
            let inputs: Value = example
                .fields
                .iter()
                .map(|(name, value)| (name.to_string(), json!(value)))
                .collect::<serde_json::Map<_, _>>()
                .into();
            let path = format!("/v1/{}", entry.id);
            let first = caller.json(&path, &inputs);
            let link = first["link"].as_str().expect("a link");
            assert!(link.is_ascii() && link.starts_with(&format!("{path}?")), "{link}");
            assert_eq!(caller.get(link), first, "{link}");
            // Inputs sent back as objects make a link too.
            let again = caller.json(&path, &first["inputs"]);
            let by_link = caller.get(again["link"].as_str().expect("a link"));
            assert_eq!(by_link["result"], again["result"], "{}", again["link"]);
            assert_eq!(by_link["inputs"], again["inputs"], "{}", again["link"]);
        }
    }
    let toleranced = json!({"diameter": {"value": 0.5, "unit": "in", "plus": 0.002, "minus": 0.001}});
    let first = caller.json(DRILL, &toleranced);
    assert_eq!(caller.get(first["link"].as_str().expect("a link"))["result"], first["result"]);
    let many = vec![json!({"x": "1.2345 in", "y": "2.3456 in"}); 900];
    let long = caller.json("/v1/datum/visit-order", &json!({"points": many}));
    assert!(long.get("link").is_none());
}

#[test]
fn an_answer_rechecked_is_the_same_or_says_why_not() {
    let caller = Caller::new();
    let mut answers = Vec::new();
    for entry in REGISTER {
        for example in entry.examples {
            let fields: std::collections::BTreeMap<_, _> = example.fields.iter().copied().collect();
            let url = format!("{}/v1/{}", caller.service.base, entry.id);
            let answer: Value = caller.client.get(url).query(&fields).send().expect("an answer").json().expect("JSON");
            answers.push(answer);
        }
    }
    answers.push(caller.get(&format!("{DRILL}?diameter=1/4%20in..1%20in%20step%201/4%20in")));
    answers
        .push(caller.get(&format!("{DRILL}?point_angle=118%20deg&solve_for=diameter&wanted=point_length:0.152%20in")));
    let lines: Vec<String> = answers.iter().map(Value::to_string).collect();
    let rechecked = caller.lines("/v1/recheck", lines.join("\n"));
    assert_eq!(rechecked.len(), answers.len());
    for (line, answer) in rechecked.iter().zip(&answers) {
        assert_eq!(line["recheck"]["verdict"], "same", "{line} of {}", answer["link"]);
    }
    // Without its link an answer is asked again by its inputs.
    let mut bare = answers[0].clone();
    bare.as_object_mut().expect("an object").remove("link");
    let one = |answer: &Value| caller.json("/v1/recheck", &json!([answer]))[0].clone();
    assert_eq!(one(&bare)["recheck"]["verdict"], "same");
    // As a batch gave it.
    let line = json!({"id": "A", "answer": answers[0]});
    assert_eq!((one(&line)["id"].as_str(), one(&line)["recheck"]["verdict"].as_str()), (Some("A"), Some("same")));
    for (broken, status) in
        [(json!(3), 400), (json!({}), 422), (json!({"id": 1, "problem": {}}), 400), (json!({"calculator": "a/b"}), 422)]
    {
        assert_eq!(one(&broken)["problem"]["status"], status, "{broken}");
    }
}

#[test]
fn a_recheck_names_the_rows_the_version_or_the_hand_that_made_the_difference() {
    let caller = Caller::new();
    let one = |answer: &Value| caller.json("/v1/recheck", &json!([answer]))[0]["recheck"].clone();
    let whats = |recheck: &Value| -> Vec<String> {
        let because = recheck["because"].as_array().expect("because").iter();
        because.map(|because| because["what"].as_str().unwrap_or_default().to_owned()).collect()
    };
    // As an older table, with another diameter of the drill, would have answered.
    let answer = caller.get("/v1/holes/drill-size?diameter=0.2%20in&units=inch");
    let source = answer["sources"].as_array().expect("sources").iter().position(|s| s["data_version"].is_string());
    let source = source.expect("a source with rows");
    let mut old = answer.clone();
    old["data_version"] = json!("000000000000");
    old["sources"][source]["data_version"] = json!("111111111111");
    old["result"]["drills"][0]["diameter"]["value"] = json!(0.1995);
    let recheck = one(&old);
    assert_eq!((recheck["verdict"].as_str(), recheck["count"].as_u64()), (Some("differs"), Some(1)), "{recheck}");
    assert_eq!(recheck["differences"][0]["at"], "/result/drills/0/diameter/value");
    assert_eq!(recheck["differences"][0]["was"], 0.1995);
    let because = &recheck["because"][0];
    assert_eq!(
        (because["what"].as_str(), because["source"].as_str()),
        (Some("data"), answer["sources"][source]["key"].as_str())
    );
    assert!(
        because["tables"]
            .as_array()
            .expect("tables")
            .iter()
            .any(|table| table.as_str().unwrap_or("").starts_with("drills"))
    );
    assert!(!because["places"].as_array().expect("places").is_empty());
    // As an older version would have answered.
    let answer = caller.get(&format!("{DRILL}?diameter=1/2%20in"));
    let mut old = answer.clone();
    old["version"] = json!("0.0.1");
    old["result"]["point_length"]["value"] = json!(0.15);
    old["working"][0]["gives"]["value"] = json!(0.15);
    let recheck = one(&old);
    assert_eq!(whats(&recheck), ["version", "version"]);
    assert_eq!(recheck["because"][1]["step"], answer["working"][0]["what"]);
    // Altered by hand.
    let mut old = answer.clone();
    old["result"]["point_length"]["value"] = json!(0.15);
    assert_eq!(whats(&one(&old)), ["altered"]);
    // An older version that answered the same is the same.
    let mut old = answer.clone();
    (old["version"], old["data_version"]) = (json!("0.0.1"), json!("000000000000"));
    let recheck = one(&old);
    assert_eq!((recheck["verdict"].as_str(), recheck["was"]["version"].as_str()), (Some("same"), Some("0.0.1")));
    // A request that is refused today.
    let mut old = answer.clone();
    old["link"] = json!(format!("{DRILL}?diameter=1/2%20in&colour=red"));
    let recheck = one(&old);
    assert_eq!(
        (recheck["verdict"].as_str(), recheck["errors"][0]["field"].as_str()),
        (Some("refused"), Some("/colour"))
    );
    // A link to elsewhere is not followed.
    let mut old = answer;
    old["link"] = json!("http://127.0.0.1/v1/holes/drill-point?diameter=1in");
    assert_eq!(caller.json("/v1/recheck", &json!([old]))[0]["problem"]["errors"][0]["field"], "/link");
}

/// Opens a request whose body is sent in chunks.
fn open(base: &str, path: &str, media_type: &str) -> TcpStream {
    let address = base.trim_start_matches("http://");
    let mut stream = TcpStream::connect(address).expect("a connection");
    stream.set_read_timeout(Some(Duration::from_secs(20))).expect("a time limit");
    write!(stream, "POST {path} HTTP/1.1\r\nHost: x\r\nContent-Type: {media_type}\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n").expect("sent");
    stream
}

fn chunk(stream: &mut TcpStream, bytes: &[u8]) -> std::io::Result<()> {
    write!(stream, "{:x}\r\n", bytes.len())?;
    stream.write_all(bytes)?;
    stream.write_all(b"\r\n")
}

fn read_until(stream: &mut TcpStream, wanted: &str) -> String {
    let (mut text, mut part) = (String::new(), [0; 4096]);
    while !text.contains(wanted) {
        let count = stream.read(&mut part).expect("more of the answer");
        assert!(count > 0, "the answer ended without {wanted}: {text}");
        text.push_str(&String::from_utf8_lossy(&part[..count]));
    }
    text
}

#[test]
fn a_row_is_answered_before_the_next_is_sent() {
    let caller = Caller::new();
    let mut stream = open(&caller.service.base, &format!("{DRILL}.csv"), "text/csv");
    chunk(&mut stream, b"part,diameter [in]\nA,0.5\n").expect("sent");
    read_until(&mut stream, "A,0.5,0.150215");
    chunk(&mut stream, b"B,0.2").expect("sent");
    chunk(&mut stream, b"5\n").expect("sent");
    read_until(&mut stream, "B,0.25,0.0751");
    stream.write_all(b"0\r\n\r\n").expect("sent");
    let mut rest = String::new();
    stream.read_to_string(&mut rest).expect("the end");
    let mut stream = open(&caller.service.base, "/v1/batch", "application/x-ndjson");
    for id in 1..4 {
        let line = format!(
            "{{\"id\": {id}, \"calculator\": \"holes/drill-point\", \"inputs\": {{\"diameter\": \"1 in\"}}}}\n"
        );
        chunk(&mut stream, line.as_bytes()).expect("sent");
        read_until(&mut stream, &format!("{{\"id\":{id},\"answer\":"));
    }
}

#[test]
fn silence_ends_a_stream_and_slowness_does_not() {
    let caller = Caller::with(&["--timeout", "3"]);
    let path = format!("{DRILL}.csv");
    // What is made when first needed takes its time in a build for tests.
    let _ = caller.send(&path, "text/csv", "diameter [in]\n0.5\n").text();
    let mut stream = open(&caller.service.base, &path, "text/csv");
    chunk(&mut stream, b"diameter [in]\n0.5\n").expect("sent");
    for _ in 0..5 {
        std::thread::sleep(Duration::from_secs(1));
        chunk(&mut stream, b"0.25\n").expect("sent");
    }
    let begun = Instant::now();
    let text = read_until(&mut stream, "Nothing came for 3 s");
    assert_eq!(text.matches("0.25,0.0751").count(), 5, "{text}");
    assert!(begun.elapsed() < Duration::from_secs(10));
}

#[test]
fn a_reader_that_waits_holds_the_work_and_memory_stays_flat() {
    let caller = Caller::new();
    let mut stream = open(&caller.service.base, &format!("{DRILL}.csv"), "text/csv");
    chunk(&mut stream, b"diameter [in],full_depth [in]\n").expect("sent");
    stream.set_write_timeout(Some(Duration::from_secs(2))).expect("a time limit");
    let rows = b"0.5,0.75\n".repeat(1000);
    let mut sent = 0;
    // Nothing is read, so that before long nothing more is taken.
    while chunk(&mut stream, &rows).is_ok() {
        sent += rows.len();
        assert!(sent < 64 << 20, "the service takes in what nobody reads");
    }
    let status = std::fs::read_to_string(format!("/proc/{}/status", caller.service.pid())).expect("Linux");
    let resident: usize = status
        .lines()
        .find_map(|line| line.strip_prefix("VmRSS:"))
        .and_then(|rest| rest.trim().split(' ').next()?.parse().ok())
        .expect("the memory resident");
    assert!(resident < 160 << 10, "{resident} kB resident");
    drop(stream);
    assert_eq!(caller.client.get(format!("{}/healthz", caller.service.base)).send().expect("an answer").status(), 200);
}

#[test]
fn streams_are_not_compressed_and_others_are() {
    let caller = Caller::new();
    let url = format!("{}{DRILL}.csv", caller.service.base);
    let response = caller
        .client
        .post(url)
        .header("accept-encoding", "gzip")
        .body("diameter [in]\n0.5\n")
        .send()
        .expect("an answer");
    assert!(response.headers().get("content-encoding").is_none());
    assert!(response.headers().get("etag").is_none());
    assert!(response.text().expect("text").contains("0.150215"));
}
