//! README.md and the guide are run: each curl command is sent to the real executable and must print what the text
//! below it shows; README's commands are those that CI runs; the guide names every calculator, setting and error code,
//! and its links lead somewhere.

mod common;

use common::{Service, root};
use serde_json::Value;
use shop_reckoner::calculators::REGISTER;
use shop_reckoner::page::guide;
use shop_reckoner::refusal::Code;
use std::path::PathBuf;

/// The most lines that README may have; what needs more goes into the guide.
const MOST_LINES: usize = 120;

/// Where the guide's files are.
const GUIDE: &str = "src/page/guide";

struct Block {
    language: String,
    text: String,
}

/// README.md and the files of the guide, each with its text.
fn files() -> Vec<(PathBuf, String)> {
    let guide = guide::pages().iter().map(|page| root().join(GUIDE).join(page.name).with_extension("md"));
    let read =
        |path: PathBuf| (path.clone(), std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{path:?}: {e}")));
    std::iter::once(root().join("README.md")).chain(guide).map(read).collect()
}

fn readme() -> String {
    files().swap_remove(0).1
}

fn guide_page(name: &str) -> String {
    guide::page(name).unwrap_or_else(|| panic!("the guide has no page {name}"))
}

fn blocks(markdown: &str) -> Vec<Block> {
    let mut blocks = Vec::new();
    let mut inside: Option<Block> = None;
    for line in markdown.lines() {
        match (line.strip_prefix("```"), &mut inside) {
            (Some(language), None) => inside = Some(Block { language: language.to_owned(), text: String::new() }),
            (Some(_), Some(_)) => blocks.extend(inside.take()),
            (None, Some(block)) => {
                block.text.push_str(line);
                block.text.push('\n');
            }
            (None, None) => {}
        }
    }
    blocks
}

/// Whether all that is shown is in the answer: a text shows an answer in part, but nothing else.
fn shows(shown: &Value, answer: &Value) -> bool {
    match (shown, answer) {
        (Value::Object(shown), Value::Object(answer)) => {
            !shown.is_empty() && shown.iter().all(|(name, one)| answer.get(name).is_some_and(|whole| shows(one, whole)))
        }
        (Value::Array(shown), Value::Array(answer)) => {
            shown.len() == answer.len() && shown.iter().zip(answer).all(|(one, whole)| shows(one, whole))
        }
        _ => shown == answer,
    }
}

#[test]
fn every_curl_prints_what_the_text_shows() {
    let files = files();
    let service = Service::start(&[]);
    // What names a machine is asked of a service that has some, started as the text says.
    let shop = "data/shop/tern-point-works.toml";
    assert!(files.iter().any(|(_, text)| text.contains(&format!("--shop {shop}"))));
    let with_shop = Service::start(&["--shop", root().join(shop).to_str().expect("a path")]);
    let client = reqwest::blocking::Client::new();
    let mut ran = 0;
    for (path, text) in &files {
        let blocks = blocks(text);
        for (at, block) in blocks.iter().enumerate().filter(|(_, block)| block.language == "sh") {
            let Some(rest) = block.text.trim().strip_prefix("curl '") else { continue };
            let base = if rest.contains("&machine=") { &with_shop.base } else { &service.base };
            let rest = rest.trim_end_matches('\'');
            let at_base = |address: &str| address.replace("localhost:8080", base);
            let request = if let Some((address, body)) = rest.split_once("' --data-binary $'") {
                let request = client.post(at_base(address)).header("content-type", "application/x-www-form-urlencoded");
                request.body(body.replace("\\n", "\n"))
            } else if let Some((address, body)) = rest.split_once("' --json '") {
                client.post(at_base(address)).header("content-type", "application/json").body(body.to_owned())
            } else {
                client.get(at_base(rest))
            };
            let response = request.send().expect("an answer");
            let is_refusal = response.status() == 422;
            assert!(is_refusal || response.status() == 200, "{path:?}: {rest}: {}", response.status());
            let next = blocks.get(at + 1).unwrap_or_else(|| panic!("{path:?}: what does {rest} print?"));
            let printed = response.text().expect("text").replace("\r\n", "\n");
            if next.language == "json" {
                let shown: Value = serde_json::from_str(&next.text).unwrap_or_else(|e| panic!("{path:?}: {rest}: {e}"));
                let answer: Value = serde_json::from_str(&printed).expect("JSON");
                assert!(shows(&shown, &answer), "{path:?}: {rest}: {answer:#}");
                let is_problem = answer.get("errors").is_some();
                assert_eq!(is_refusal, is_problem && shown.get("errors").is_some(), "{path:?}: {rest}: {answer:#}");
            } else {
                assert!(!is_refusal, "{path:?}: {rest}: {printed}");
                assert_eq!(next.language, "text", "{path:?}: {rest}");
                assert_eq!(printed.trim_end(), next.text.trim_end(), "{path:?}: {rest}");
            }
            ran += 1;
        }
    }
    assert!(ran >= 10, "only {ran} commands were run");
}

#[test]
fn the_two_commands_of_the_readme_are_those_of_the_project() {
    let commands: Vec<String> =
        blocks(&readme()).into_iter().filter(|b| b.language == "sh").map(|b| b.text.trim().to_owned()).collect();
    let plain: Vec<&str> = commands.iter().map(String::as_str).filter(|c| !c.starts_with("curl")).collect();
    assert_eq!(plain, ["cargo run --release", "cargo test"]);
    let ci = std::fs::read_to_string(root().join(".ci/run")).expect(".ci/run");
    assert!(ci.contains("cargo test"), "CI does not run the README's test command");
    let manifest = std::fs::read_to_string(root().join("Cargo.toml")).expect("Cargo.toml");
    assert!(manifest.contains("default-run = \"shop-reckoner\""));
}

#[test]
fn the_readme_is_short_and_calls_it_three_times() {
    let readme = readme();
    assert!(readme.lines().count() <= MOST_LINES, "README.md is too long: move what is too much into the guide");
    assert_eq!(readme.matches("curl '").count(), 3);
}

#[test]
fn every_file_of_the_guide_is_a_page() {
    let folder = std::fs::read_dir(root().join(GUIDE)).expect("the guide's files");
    let mut files: Vec<String> =
        folder.map(|file| file.expect("a file").file_name().to_string_lossy().into_owned()).collect();
    let mut pages: Vec<String> = guide::pages().iter().map(|page| format!("{}.md", page.name)).collect();
    files.sort();
    pages.sort();
    assert_eq!(files, pages);
}

#[test]
fn the_guide_lists_every_calculator() {
    let page = guide_page("calculators");
    for entry in REGISTER {
        assert!(page.contains(&format!("href=\"/{}\"", entry.id)), "{} is not listed", entry.id);
    }
}

#[test]
fn the_guide_explains_every_error_code() {
    let page = guide_page("problems");
    for code in Code::ALL {
        let code = code.as_str();
        assert!(page.contains(&format!("<h3 id=\"{code}\"><a href=\"#{code}\">")), "{code} is not explained");
    }
    assert!(!page.contains("{codes}") && !guide_page("calculators").contains("{calculators}"));
}

#[test]
fn the_guide_lists_every_setting() {
    let page = guide_page("settings");
    let help = std::process::Command::new(env!("CARGO_BIN_EXE_shop-reckoner")).arg("--help").output().expect("help");
    let help = String::from_utf8_lossy(&help.stdout).into_owned();
    for flag in help.split_whitespace().filter(|word| word.starts_with("--") && word.len() > 4) {
        let flag = flag.trim_end_matches(|c: char| !c.is_ascii_lowercase());
        if !["--help", "--version"].contains(&flag) {
            assert!(page.contains(&format!("<code>{flag}</code>")), "the guide does not name {flag}");
        }
    }
}

#[test]
fn every_link_leads_somewhere() {
    let service = Service::start(&[]);
    let client = reqwest::blocking::Client::new();
    let page = |address: &str| {
        let response = client.get(format!("{}{address}", service.base)).send().expect("an answer");
        assert_eq!(response.status(), 200, "{address}");
        response.text().expect("a page")
    };
    let link = regex::Regex::new("href=\"([^\"]*)\"").expect("a pattern");
    let mut pages: std::collections::HashMap<String, String> = Default::default();
    let list = page("/guide");
    for from in guide::pages() {
        let own = format!("/guide/{}", from.name);
        assert!(list.contains(&format!("href=\"{own}\"")), "{own} is not listed");
        for one in link.captures_iter(&page(&own)) {
            let (address, anchor) = one[1].split_once('#').unwrap_or((&one[1], ""));
            let address = if address.is_empty() { &own } else { address };
            assert!(address.starts_with('/') && !address.starts_with("//"), "{own} links to {address}");
            let there = pages.entry(address.to_owned()).or_insert_with(|| page(address));
            assert!(anchor.is_empty() || there.contains(&format!("id=\"{anchor}\"")), "{own}: no {address}#{anchor}");
        }
    }
    let link = regex::Regex::new(r"\]\(([^)#]*)[^)]*\)").expect("a pattern");
    for one in link.captures_iter(&readme()) {
        assert!(root().join(&one[1]).exists(), "README.md links to {}", &one[1]);
    }
}
