//! A gallery of bad requests, each with its golden answer: tests/refusals/requests.txt holds the
//! requests, tests/refusals/answers.txt what the service says to them.

mod common;

use common::{Service, golden, root};
use reqwest::blocking::{Client, Response};
use serde_json::{Value, json};
use shop_reckoner::calculators::find;
use shop_reckoner::refusal::Code;
use std::collections::HashSet;

/// The requests, one a line.
fn gallery() -> String {
    let requests = std::fs::read_to_string(root().join("tests/refusals/requests.txt")).expect("the gallery");
    let lines = requests.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    lines.collect::<Vec<_>>().join("\n")
}

fn send(client: &Client, service: &Service, line: &str) -> Response {
    let mut parts = line.splitn(3, ' ');
    let (method, path, body) = (parts.next().unwrap_or(""), parts.next().unwrap_or(""), parts.next());
    let mut request = client.request(method.parse().expect("a method"), format!("{}{path}", service.base));
    if let Some(body) = body {
        request = request.header("content-type", "application/json").body(body.to_owned());
    }
    request.send().expect("an answer")
}

#[test]
fn every_bad_request_gets_its_golden_answer() {
    let service = Service::start(&[]);
    let client = Client::new();
    let mut out = String::new();
    let mut codes = HashSet::new();
    for line in gallery().lines() {
        let response = send(&client, &service, line);
        let status = response.status();
        assert!(status.is_client_error(), "{line}: {status}");
        assert_eq!(response.headers()["content-type"], "application/problem+json", "{line}");
        let problem: Value = response.json().expect("JSON");
        assert_eq!(problem["status"], status.as_u16());
        let errors = problem["errors"].as_array().expect("errors");
        for error in errors {
            codes.insert(error["code"].as_str().unwrap_or_default().to_owned());
            assert!(error["says"].as_str().is_some_and(|says| says.len() > 10), "{line}: {error}");
        }
        out.push_str(&format!("{line}\n{status}\n"));
        for error in errors {
            let word = |name: &str| error[name].as_str().unwrap_or("-").to_owned();
            out.push_str(&format!(
                "  {} {}: {}\n    try: {}\n",
                word("field"),
                word("code"),
                word("says"),
                word("try")
            ));
        }
        if errors.is_empty() {
            out.push_str(&format!("  {}\n", problem["detail"].as_str().unwrap_or_default()));
        }
        out.push('\n');
    }
    // How long, how much and how often, and how the service is, are no matters of a gallery; tests/http.rs,
    // tests/operation.rs and tests/long_work.rs have them.
    let elsewhere =
        [Code::TooMuchWork, Code::Busy, Code::TooLarge, Code::TooSlow, Code::TooOften, Code::NotReady, Code::Failed];
    for code in Code::ALL.iter().filter(|code| !elsewhere.contains(code)) {
        assert!(codes.contains(code.as_str()), "no request of the gallery is refused with {}", code.as_str());
    }
    golden("tests/refusals/answers.txt", &out);
}

/// Words that tell what to do, where one value is no help.
const WORDS: &[&str] = &["a wider step", "a smaller tolerance", "a value without a tolerance"];

#[test]
fn whatever_is_tried_leads_on() {
    let service = Service::start(&[]);
    let client = Client::new();
    let (mut tried, mut stuck) = (0, Vec::new());
    for line in gallery().lines() {
        let problem: Value = send(&client, &service, line).json().expect("JSON");
        for error in problem["errors"].as_array().expect("errors") {
            let (Some(field), Some(good)) = (error["field"].as_str(), error["try"].as_str()) else { continue };
            if field.is_empty() || WORDS.contains(&good) {
                continue;
            }
            let Some(again) = with_tried(line, field, error["code"].as_str().unwrap_or_default(), good) else {
                stuck.push(format!("{line}\n  {field}: \"{good}\" cannot be put in"));
                continue;
            };
            tried += 1;
            let Some(new) = left_over(&client, &service, &again, error) else { continue };
            // Of two that belong together each is shown, and both lead on.
            let with_another = |other: &Value| {
                let (other_field, good) = (other["field"].as_str()?, other["try"].as_str()?);
                let both = with_tried(&again, other_field, other["code"].as_str().unwrap_or_default(), good)?;
                left_over(&client, &service, &both, error).is_none().then_some(())
            };
            let others = problem["errors"].as_array().expect("errors").iter();
            if others.filter(|other| *other != error && other["says"] == error["says"]).find_map(with_another).is_none()
            {
                stuck.push(format!("{line}\n  {field}: tried \"{good}\" for: {}\n  {again}\n  {new}", error["says"]));
            }
        }
    }
    println!("{tried} tried");
    assert!(stuck.is_empty(), "{} of {tried}:\n{}", stuck.len(), stuck.join("\n\n"));
}

/// What is still wrong with a request in which the way out of `error` was taken: something else may be, but neither this
/// field nor, where fields contradict, this rule.
fn left_over(client: &Client, service: &Service, line: &str, error: &Value) -> Option<Value> {
    let response = send(client, service, line);
    if response.status().is_success() {
        return None;
    }
    let next: Value = response.json().expect("JSON");
    let is_rule = matches!(error["code"].as_str(), Some("conflict" | "no_answer" | "field_missing"));
    let same = |new: &&Value| new["field"] == error["field"] || (is_rule && new["says"] == error["says"]);
    next["errors"].as_array().expect("errors").iter().find(same).cloned()
}

/// The request with `good` in the place of what stands at the pointer `field`.
fn with_tried(line: &str, field: &str, code: &str, good: &str) -> Option<String> {
    let mut parts = line.splitn(3, ' ');
    let (method, path, body) = (parts.next()?, parts.next()?, parts.next());
    let places: Vec<String> =
        field.split('/').skip(1).map(|place| place.replace("~1", "/").replace("~0", "~")).collect();
    let places: Vec<&str> = places.iter().map(String::as_str).collect();
    let renamed = code == "field_unknown" && good != "leave out";
    let in_address = path.split_once('?').is_some_and(|(_, query)| {
        form_urlencoded::parse(query.as_bytes()).any(|(name, _)| places.first().is_some_and(|place| name == *place))
    });
    if let Some(body) = body.filter(|_| !in_address) {
        let mut body: Value = serde_json::from_str(body).ok()?;
        let (last, above) = places.split_last()?;
        let mut node = &mut body;
        for place in above {
            node = if node.is_array() { node.get_mut(place.parse::<usize>().ok()?)? } else { node.get_mut(*place)? };
        }
        match node {
            Value::Object(members) if good == "leave out" => drop(members.remove(*last)),
            Value::Object(members) if renamed => {
                let value = members.remove(*last)?;
                members.insert(good.to_owned(), value);
            }
            Value::Object(members) => drop(members.insert((*last).to_owned(), json!(good))),
            Value::Array(items) => *items.get_mut(last.parse::<usize>().ok()?)? = json!(good),
            Value::String(row) => *row = in_row(row, path, places[0], last, good)?,
            _ => return None,
        }
        return Some(format!("{method} {path} {body}"));
    }
    let (address, query) = path.split_once('?').unwrap_or((path, ""));
    let query = query.split('#').next()?;
    let mut pairs: Vec<(String, String)> = form_urlencoded::parse(query.as_bytes()).into_owned().collect();
    let at = pairs.iter().position(|(name, _)| name == places[0]);
    match (at, &places[1..]) {
        (_, []) if good == "leave out" => pairs.retain(|(name, _)| name != places[0]),
        (Some(at), []) if renamed => pairs[at].0 = good.to_owned(),
        (at, []) => {
            pairs.retain(|(name, _)| name != places[0]);
            pairs.insert(at.unwrap_or(pairs.len()).min(pairs.len()), (places[0].to_owned(), good.to_owned()));
        }
        (Some(at), [row, part @ ..]) => {
            let rows = find(address.trim_start_matches("/v1/"))?.input.members.iter().find(|m| m.name == places[0])?;
            let mark = if rows.of.shape.rows().is_some() { ';' } else { ',' };
            let mut parts: Vec<String> = pairs[at].1.split(mark).map(str::to_owned).collect();
            let one = parts.get_mut(row.parse::<usize>().ok()?)?;
            match part {
                [] => *one = good.to_owned(),
                [part] => *one = in_row(one, address, places[0], part, good)?,
                _ => return None,
            }
            pairs[at].1 = parts.join(&mark.to_string());
        }
        _ => return None,
    }
    let query = form_urlencoded::Serializer::new(String::new()).extend_pairs(pairs).finish();
    let body = body.map(|body| format!(" {body}")).unwrap_or_default();
    Some(format!("{method} {address}?{query}{body}"))
}

/// A row of text with `good` for its part `name`.
fn in_row(row: &str, address: &str, field: &str, name: &str, good: &str) -> Option<String> {
    let members = find(address.trim_start_matches("/v1/"))?.input.members;
    let names = members.iter().find(|member| member.name == field)?.of.shape.rows()?;
    let at = names.iter().position(|member| member.name == name)?;
    let mut parts: Vec<&str> = row.split(',').collect();
    parts.resize(parts.len().max(at + 1), "");
    parts[at] = if good == "leave out" { "" } else { good };
    Some(parts.join(","))
}
