//! README.md is run: each curl command is sent to the real executable and must print what the text
//! below it shows; its commands are those that CI runs; its table of calculators is made from the register.

mod common;

use common::{Service, golden, root};
use shop_reckoner::calculators::REGISTER;
use std::sync::LazyLock;

/// Read once, since one test may write it again.
static README: LazyLock<String> =
    LazyLock::new(|| std::fs::read_to_string(root().join("README.md")).expect("README.md"));

/// The head of the table of calculators.
const HEAD: &str = "| address | what it works out |\n|---|---|\n";

struct Block {
    language: String,
    text: String,
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

#[test]
fn every_curl_of_the_readme_prints_what_it_shows() {
    let blocks = blocks(&README);
    let service = Service::start(&[]);
    // What names a machine is asked of a service that has some, started as the text says.
    let shop = "data/shop/tern-point-works.toml";
    assert!(README.contains(&format!("--shop {shop}")));
    let with_shop = Service::start(&["--shop", root().join(shop).to_str().expect("a path")]);
    let mut ran = 0;
    for (at, block) in blocks.iter().enumerate().filter(|(_, block)| block.language == "sh") {
        let Some(rest) = block.text.trim().strip_prefix("curl '") else { continue };
        let base = if rest.contains("&machine=") { &with_shop.base } else { &service.base };
        let rest = rest.trim_end_matches('\'');
        let (address, body) = match rest.split_once("' --data-binary $'") {
            Some((address, body)) => (address, Some(body.replace("\\n", "\n"))),
            None => (rest, None),
        };
        let address = address.replace("localhost:8080", base);
        let client = reqwest::blocking::Client::new();
        let request = match body {
            Some(body) => client.post(&address).header("content-type", "application/x-www-form-urlencoded").body(body),
            None => client.get(&address),
        };
        let response = request.send().expect("an answer");
        assert_eq!(response.status(), 200, "{address}");
        let shown = blocks.get(at + 1).filter(|next| next.language == "text").expect("what it prints");
        let printed = response.text().expect("text").replace("\r\n", "\n");
        assert_eq!(printed.trim_end(), shown.text.trim_end(), "{address}");
        ran += 1;
    }
    assert!(ran >= 4, "only {ran} commands were run");
}

#[test]
fn the_two_commands_of_the_readme_are_those_of_the_project() {
    let commands: Vec<String> =
        blocks(&README).into_iter().filter(|b| b.language == "sh").map(|b| b.text.trim().to_owned()).collect();
    let plain: Vec<&str> = commands.iter().map(String::as_str).filter(|c| !c.starts_with("curl")).collect();
    assert_eq!(plain, ["cargo run --release", "cargo test"]);
    let ci = std::fs::read_to_string(root().join(".ci/run")).expect(".ci/run");
    assert!(ci.contains("cargo test"), "CI does not run the README's test command");
    let manifest = std::fs::read_to_string(root().join("Cargo.toml")).expect("Cargo.toml");
    assert!(manifest.contains("default-run = \"shop-reckoner\""));
}

/// The table of calculators as the register has it, a row for each.
fn table() -> String {
    let row = |id: &str, about: &str| format!("| `/v1/{id}` | {about} |\n");
    let rows: String = REGISTER.iter().map(|entry| row(entry.id, entry.about)).collect();
    format!("{HEAD}{rows}")
}

#[test]
fn the_table_of_calculators_is_that_of_the_register() {
    let (before, rest) = README.split_once(HEAD).expect("the table of calculators");
    let rows: usize = rest.split_inclusive('\n').take_while(|line| line.starts_with('|')).map(str::len).sum();
    golden("README.md", &format!("{before}{}{}", table(), &rest[rows..]));
}

#[test]
fn the_readme_lists_every_setting() {
    let help = std::process::Command::new(env!("CARGO_BIN_EXE_shop-reckoner")).arg("--help").output().expect("help");
    let help = String::from_utf8_lossy(&help.stdout).into_owned();
    for flag in help.split_whitespace().filter(|word| word.starts_with("--") && word.len() > 4) {
        let flag = flag.trim_end_matches(|c: char| !c.is_ascii_lowercase());
        if !["--help", "--version"].contains(&flag) {
            assert!(README.contains(&format!("`{flag}`")) || README.contains(flag), "README.md does not name {flag}");
        }
    }
}
