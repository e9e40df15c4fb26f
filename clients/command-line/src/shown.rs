//! An answer for people: results by their labels, lists as tables, then what was assumed, notes and cautions.

use comfy_table::{ContentArrangement, Table, presets};
use serde_json::{Map, Value};
use shop_reckoner::calculators::find;
use shop_reckoner::declared::{Member, capital, label, said_word};
use std::io::Write;

/// Prints a text. A reader that has seen enough closes the pipe; that ends it quietly.
pub fn print(text: &str) {
    let mut out = std::io::stdout().lock();
    if writeln!(out, "{text}").is_err() {
        std::process::exit(0);
    }
}

/// Rows in columns, as wide as the terminal.
pub fn columns(rows: impl Iterator<Item = Vec<String>>) -> String {
    let mut table = Table::new();
    table.load_preset(presets::NOTHING).set_content_arrangement(ContentArrangement::Dynamic).add_rows(rows);
    table.lines().map(|line| line.trim_end().to_owned()).collect::<Vec<_>>().join("\n")
}

/// An answer.
pub fn answer(document: &Value, working: bool) -> String {
    let entry = document["calculator"].as_str().and_then(find);
    let members = entry.map_or(&[][..], |entry| entry.output.members);
    let asked = entry.map_or(&[][..], |entry| entry.input.members);
    let mut parts = Vec::new();
    for row in document["rows"].as_array().into_iter().flatten() {
        let inputs = single_values(asked, "", &row["inputs"]);
        parts.push(inputs.iter().map(|(name, value)| format!("{name} {value}")).collect::<Vec<_>>().join(", "));
        match row.get("result") {
            Some(result) => parts.extend(result_of(members, result)),
            None => parts.push(row["errors"][0]["says"].as_str().unwrap_or_default().to_owned()),
        }
    }
    for root in document["roots"].as_array().into_iter().flatten() {
        let ends = [&root["value"], &root["up_to"]].into_iter().filter(|end| !end.is_null()).map(written);
        parts.push(ends.collect::<Vec<_>>().join(" to "));
        parts.extend(result_of(members, &root["result"]));
    }
    if let Some(correction) = document["correction"].as_object() {
        let field = correction["field"].as_str().unwrap_or_default();
        let rest = correction.iter().filter(|(name, value)| *name != "field" && value.is_object());
        parts.push(label(asked, field));
        parts.push(columns(rest.map(|(name, value)| vec![capital(&said_word(name)), written(value)])));
    }
    parts.extend(result_of(members, &document["result"]));
    parts.extend(sentences("Assumed", &document["assumed"], |item| {
        Some(format!("{}: {}", label(asked, item["field"].as_str()?), written(&item["value"])))
    }));
    parts.extend(sentences("Notes", &document["notes"], says));
    parts.extend(sentences("Take care", &document["cautions"], says));
    if working {
        parts.extend(sentences("Worked out", &document["working"], |step| {
            let rest = ["formula", "table", "with"].iter().filter_map(|part| step[*part].as_str());
            let said = std::iter::once(step["what"].as_str()?).chain(rest).collect::<Vec<_>>().join("; ");
            Some(format!("{said}; gives {}", written(&step["gives"])))
        }));
        parts.extend(sentences("Sources", &document["sources"], |source| {
            Some(format!(
                "{}: {} ({})",
                source["title"].as_str()?,
                source["where"].as_str()?,
                source["trust"].as_str()?
            ))
        }));
    }
    parts.join("\n\n")
}

fn says(item: &Value) -> Option<String> {
    item["says"].as_str().map(str::to_owned)
}

fn sentences(head: &str, list: &Value, said: impl Fn(&Value) -> Option<String>) -> Option<String> {
    let lines: Vec<String> = list.as_array()?.iter().filter_map(said).map(|line| format!("  {line}")).collect();
    (!lines.is_empty()).then(|| format!("{head}\n{}", lines.join("\n")))
}

/// Single values in two columns, then each list as a table under its label.
fn result_of(members: &[Member], result: &Value) -> Vec<String> {
    let values = single_values(members, "", result);
    let mut parts = Vec::new();
    if !values.is_empty() {
        parts.push(columns(values.into_iter().map(|(name, value)| vec![name, value])));
    }
    for (path, rows) in lists("", result) {
        let mut names: Vec<&str> = Vec::new();
        for (name, value) in rows.iter().filter_map(Value::as_object).flatten() {
            if !value.is_array() && !names.contains(&name.as_str()) {
                names.push(name);
            }
        }
        let head = names.iter().map(|name| label(members, &format!("{path}.{name}"))).collect();
        let body = rows.iter().map(|row| names.iter().map(|name| written(&row[*name])).collect());
        parts.push(format!("{}\n{}", label(members, &path), columns(std::iter::once(head).chain(body))));
    }
    parts
}

fn is_quantity(fields: &Map<String, Value>) -> bool {
    fields.contains_key("value") && fields.contains_key("unit")
}

/// Labels and values that are no lists of records, however deep.
fn single_values(members: &[Member], path: &str, value: &Value) -> Vec<(String, String)> {
    match value {
        Value::Object(fields) if !is_quantity(fields) => {
            fields.iter().flat_map(|(name, value)| single_values(members, &joined(path, name), value)).collect()
        }
        Value::Array(items)
            if items.iter().any(Value::is_object)
                && !items.iter().all(|item| item.as_object().is_some_and(is_quantity)) =>
        {
            Vec::new()
        }
        Value::Null => Vec::new(),
        _ => vec![(label(members, path), written(value))],
    }
}

/// Lists of records with their paths, however deep.
fn lists<'v>(path: &str, value: &'v Value) -> Vec<(String, &'v [Value])> {
    match value {
        Value::Object(fields) if !is_quantity(fields) => {
            fields.iter().flat_map(|(name, value)| lists(&joined(path, name), value)).collect()
        }
        Value::Array(items) if items.iter().any(|item| item.as_object().is_some_and(|fields| !is_quantity(fields))) => {
            vec![(path.to_owned(), items)]
        }
        _ => Vec::new(),
    }
}

fn joined(path: &str, name: &str) -> String {
    if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") }
}

/// A value as a person reads it.
fn written(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::Bool(true) => "yes".into(),
        Value::Bool(false) => "no".into(),
        // A word of the service's, such as x_axis.
        Value::String(text) if text.contains('_') => said_word(text),
        Value::String(text) => text.clone(),
        Value::Array(items) => items.iter().map(written).collect::<Vec<_>>().join(", "),
        Value::Object(fields) => match fields.get("text").and_then(Value::as_str) {
            Some(text) => text.to_owned(),
            None => fields.values().map(written).collect::<Vec<_>>().join(" "),
        },
        Value::Number(_) => value.to_string(),
    }
}
