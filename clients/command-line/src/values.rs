//! The values file that a CAM post reads: every number of every answer under the name of its request, with its unit, what
//! was asked and assumed, the version of the tables, and a checksum. Most posts cannot call out, so it is written
//! beforehand. `clients/cam-post` has its schema and a reader.

use crate::arguments::Values;
use crate::failure::Failure;
use crate::record_file::{answers, requests};
use crate::service::Service;
use serde_json::{Map, Value, json};
use std::collections::HashSet;
use std::fmt::Write;
use std::path::Path;

/// The form of the file; another number would be another form.
const FORM: &str = "values 1";

/// Asks all requests and writes the file. If one is refused, no file is written: a post must not go on with half of it.
pub fn write(service: &Service, told: &Values) -> Result<(), Failure> {
    let ending = told.output.extension().and_then(|ending| ending.to_str()).unwrap_or_default();
    if !["json", "csv"].contains(&ending) {
        return Err(Failure::of_file(&told.output, "the name must end in .json or .csv"));
    }
    let mut asked = Vec::new();
    let mut names = HashSet::new();
    for (line, mut request) in requests(&told.file)? {
        let name = request["id"].as_str().unwrap_or_default().to_owned();
        if name.is_empty() || !names.insert(name) {
            let says = format!("line {line}: each request needs an \"id\" of its own, such as \"T3\"");
            return Err(Failure::of_file(&told.file, says));
        }
        if request["units"].as_str().is_some_and(|units| units != told.units.word()) {
            return Err(Failure::of_file(
                &told.file,
                format!("line {line}: the file is to be in {} units", told.units.word()),
            ));
        }
        request["units"] = json!(told.units.word());
        request["working"] = json!(false);
        asked.push(request);
    }
    let (mut found, mut refused) = (Map::new(), 0);
    let mut made_by = json!({});
    answers(service, &asked, |at, item| {
        let name = asked[at]["id"].as_str().unwrap_or_default();
        match item.get("answer") {
            Some(answer) => {
                made_by =
                    json!({ "service": answer["version"], "tables": answer["data_version"], "shop": answer["shop"] });
                found.insert(name.to_owned(), kept(answer));
            }
            None => {
                refused += 1;
                eprintln!("{name}: {}", item["problem"]["detail"].as_str().unwrap_or_default());
            }
        }
        Ok(())
    })?;
    if refused > 0 {
        return Err(Failure::Records(refused, asked.len()));
    }
    let text = match ending {
        "csv" => as_csv(&found)?,
        _ => as_json(told.units.word(), &made_by, &found),
    };
    std::fs::write(&told.output, text).map_err(|error| Failure::of_file(&told.output, error))
}

/// What is kept of an answer. A list of results, such as holes, stays a list.
fn kept(answer: &Value) -> Value {
    json!({
        "calculator": answer["calculator"], "inputs": answer["inputs"], "assumed": answer["assumed"],
        "result": answer["result"], "notes": answer["notes"], "cautions": answer["cautions"], "link": answer["link"],
    })
}

/// The checksum is of every byte behind its own line, in CRC-32 of ITU-T V.42. The text is ASCII, so that a reader of any
/// encoding sees the same.
fn as_json(units: &str, made_by: &Value, found: &Map<String, Value>) -> String {
    let document = json!({ "form": FORM, "units": units, "made_by": made_by, "values": found });
    let pretty = serde_json::to_string_pretty(&document).unwrap_or_default();
    let mut rest = String::new();
    for letter in pretty.trim_start_matches("{\n").chars() {
        match letter.is_ascii() {
            true => rest.push(letter),
            false => letter.encode_utf16(&mut [0; 2]).iter().for_each(|unit| {
                let _ = write!(rest, "\\u{unit:04x}");
            }),
        }
    }
    rest.push('\n');
    format!("{{\n  \"checksum\": \"{:08x}\",\n{rest}", crc32fast::hash(rest.as_bytes()))
}

/// A line for each number, and a last one with the checksum of all bytes before it.
fn as_csv(found: &Map<String, Value>) -> Result<String, Failure> {
    let wrong = |error: &dyn std::fmt::Display| Failure::of_file(Path::new("the values"), error);
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::Any(b'\n')).from_writer(Vec::new());
    writer.write_record(["id", "calculator", "result", "value", "unit"]).map_err(|error| wrong(&error))?;
    for (name, kept) in found {
        let mut rows = Vec::new();
        flatten("", &kept["result"], &mut rows);
        for (path, value, unit) in rows {
            let calculator = kept["calculator"].as_str().unwrap_or_default();
            writer.write_record([name, calculator, &path, &value, &unit]).map_err(|error| wrong(&error))?;
        }
    }
    let bytes = writer.into_inner().map_err(|error| wrong(&error))?;
    let sum = crc32fast::hash(&bytes);
    let text = String::from_utf8(bytes).map_err(|error| wrong(&error))?;
    Ok(format!("{text}checksum,,,{sum:08x},crc32\n"))
}

/// Every value of a result with its path and unit; rows of lists are counted from 0.
fn flatten(path: &str, value: &Value, rows: &mut Vec<(String, String, String)>) {
    let below = |name: &str| if path.is_empty() { name.to_owned() } else { format!("{path}.{name}") };
    match value {
        Value::Object(fields) => match (fields.get("value"), fields.get("unit").and_then(Value::as_str)) {
            (Some(value), Some(unit)) => rows.push((path.to_owned(), value.to_string(), unit.to_owned())),
            _ => fields.iter().for_each(|(name, value)| flatten(&below(name), value, rows)),
        },
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(at, item)| flatten(&below(&at.to_string()), item, rows));
        }
        Value::String(text) => rows.push((path.to_owned(), text.clone(), String::new())),
        Value::Null => {}
        other => rows.push((path.to_owned(), other.to_string(), String::new())),
    }
}
