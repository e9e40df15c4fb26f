//! A gallery of bad requests, each with its golden answer: tests/refusals/requests.txt holds the
//! requests, tests/refusals/answers.txt what the service says to them.

mod common;

use common::{Service, golden, root};
use serde_json::Value;
use shop_reckoner::refusal::Code;

#[test]
fn every_bad_request_gets_its_golden_answer() {
    let service = Service::start(&[]);
    let client = reqwest::blocking::Client::new();
    let requests = std::fs::read_to_string(root().join("tests/refusals/requests.txt")).expect("the gallery");
    let mut out = String::new();
    let mut codes = std::collections::HashSet::new();
    for line in requests.lines().filter(|line| !line.is_empty() && !line.starts_with('#')) {
        let mut parts = line.splitn(3, ' ');
        let (method, path, body) = (parts.next().unwrap_or(""), parts.next().unwrap_or(""), parts.next());
        let mut request = client.request(method.parse().expect("a method"), format!("{}{path}", service.base));
        if let Some(body) = body {
            request = request.header("content-type", "application/json").body(body.to_owned());
        }
        let response = request.send().expect("an answer");
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
    // How long, how much and how often, and how the service is, are no matters of a gallery; tests/http.rs and
    // tests/operation.rs have them.
    let elsewhere = [Code::TooMuchWork, Code::TooLarge, Code::TooSlow, Code::TooOften, Code::NotReady, Code::Failed];
    for code in Code::ALL.iter().filter(|code| !elsewhere.contains(code)) {
        assert!(codes.contains(code.as_str()), "no request of the gallery is refused with {}", code.as_str());
    }
    golden("tests/refusals/answers.txt", &out);
}
