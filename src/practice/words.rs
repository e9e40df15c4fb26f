//! The sentence of a question, built from the names of the fields and the sentences of the results.

use super::wanted::Wanted;
use crate::asking::{Answer, describe_entry};
use crate::calculators::Entry;
use crate::quantity::{System, Unit, text};
use crate::reference::drills;
use crate::shop;
use crate::tree::Node;
use serde_json::Value;
use std::collections::HashMap;
use std::sync::Mutex;

/// Where a question is set when no shop's file was given.
const DEMONSTRATION: &str = "Tern Point Works";

/// The whole text of a question.
pub fn question(entry: &'static Entry, fields: &[(String, String)], answer: &Answer, wanted: &Wanted) -> String {
    let shop = shop::installed().map_or(DEMONSTRATION, |shop| shop.name.as_str());
    let described = describe_entry(entry).map(|described| described.fields.as_slice()).unwrap_or_default();
    let is_point = |name: &str| described.iter().any(|field| field.name == name && field.is_point());
    let stated: Vec<String> = fields
        .iter()
        .filter(|(name, _)| !matches!(name.as_str(), "units" | "machine" | "resolution"))
        .map(|(name, value)| stated(name, value, is_point(name)))
        .collect();
    let machine = fields.iter().find(|(name, _)| name == "machine").map(|(_, machine)| format!(", on the {machine}"));
    let taken: Vec<String> = answer
        .record
        .assumed
        .iter()
        .filter(|assumed| assumed.field != "units" && !fields.iter().any(|(name, _)| name == assumed.field))
        .map(|assumed| named(&spaced(assumed.field), &node(&in_system(&assumed.value, answer.system))))
        .collect();
    let mut out = format!("{} at {shop}{}", entry.title, machine.unwrap_or_default());
    if !stated.is_empty() {
        out.push_str(&format!(": {}", stated.join("; ")));
    }
    out.push('.');
    if !taken.is_empty() {
        out.push_str(&format!(" Take {}.", taken.join("; ")));
    }
    let name = name_of(&wanted.path);
    let verb = if is_plural(name.split(' ').next().unwrap_or_default()) { "are" } else { "is" };
    out.push_str(&format!(" What {verb} the {name}"));
    let about = about(entry, &wanted.path);
    let row = row(answer.result(), &wanted.path);
    if !row.is_empty() {
        out.push_str(&format!(" ({row})"));
    }
    let last = spaced(wanted.path.rsplit('/').next().unwrap_or_default());
    if !about.is_empty() && about.trim_start_matches("its ") != last {
        out.push_str(&format!(", that is: {about}"));
    }
    out.push_str(&format!("? Answer in {}.", unit_words(wanted.quantity.unit)));
    out
}

fn is_plural(word: &str) -> bool {
    word == "teeth" || (word.ends_with('s') && !["ss", "us", "is"].iter().any(|end| word.ends_with(end)))
}

/// A default in the units of the answer, to six digits where it was worked out.
fn in_system(value: &Node, system: System) -> Node {
    let mut value = value.clone();
    value.each_quantity(&mut |leaf| {
        leaf.quantity = leaf.quantity.in_system(system);
        leaf.quantity.value = text::rough(leaf.quantity.value);
    });
    value
}

/// What tells the row of a list that a path leads to from the others: its words and counts. A drill's
/// name would give its size away.
fn row(result: Option<&Node>, path: &str) -> String {
    let parts: Vec<&str> = path.split('/').collect();
    let Some(last) = parts.iter().rposition(|part| part.parse::<usize>().is_ok()) else { return String::new() };
    let found = parts[..=last].iter().try_fold(result, |node, part| Some(node?.step(part)));
    let Some(Some(Node::Record(members))) = found else { return String::new() };
    let tells =
        |name: &str| !["number", "source", "trust", "designation", "condition"].iter().any(|no| name.contains(no));
    members
        .iter()
        .filter(|(name, _)| tells(name))
        .filter_map(|(name, node)| match node {
            Node::Text(words, _) if drills::named(words).is_none() => Some(named(&spaced(name), &spaced(words))),
            Node::Count(count) => Some(named(&spaced(name), &count.to_string())),
            Node::List(items) if items.iter().all(|item| matches!(item, Node::Count(_))) => {
                Some(named(&spaced(name), &items.iter().map(self::node).collect::<Vec<_>>().join(", ")))
            }
            _ => None,
        })
        .take(4)
        .collect::<Vec<_>>()
        .join(", ")
}

fn spaced(name: &str) -> String {
    name.replace('_', " ")
}

/// A field with its value, in words.
fn stated(name: &str, value: &str, is_point: bool) -> String {
    let name = spaced(name);
    if is_point && !value.contains('(') {
        return named(&name, &format!("({})", pretty(value)));
    }
    if value.trim().parse::<u32>().is_ok() && (name.ends_with('s') || name == "teeth") {
        return format!("{} {name}", value.trim());
    }
    named(&name, &pretty(value))
}

fn named(name: &str, value: &str) -> String {
    let parted = if name.ends_with(|c: char| c.is_ascii_digit()) { " = " } else { " " };
    format!("{name}{parted}{value}")
}

/// A value as a query has it, as one would write it.
fn pretty(value: &str) -> String {
    let one = |part: &str| {
        let part = part.trim();
        let is_word = part.starts_with(|c: char| c.is_ascii_lowercase());
        let part = if is_word { spaced(part) } else { part.to_owned() };
        part.strip_suffix(" deg").map(|number| format!("{number}°")).unwrap_or(part).replace(" percent", " %")
    };
    let row = |row: &str| row.split(',').map(one).collect::<Vec<_>>().join(", ");
    if let Some(listed) = serde_json::from_str(value).ok().filter(|read: &Value| read.is_array() || read.is_object()) {
        json(&listed)
    } else if value.contains(';') {
        value.split(';').map(|part| format!("({})", row(part))).collect::<Vec<_>>().join(", ")
    } else {
        row(value)
    }
}

/// A list or an object that a query states as JSON, in words.
fn json(value: &Value) -> String {
    match value {
        Value::Array(items) => items.iter().map(json).collect::<Vec<_>>().join(", "),
        Value::Object(members) => {
            let members: Vec<String> = members.iter().map(|(name, value)| named(&spaced(name), &json(value))).collect();
            format!("({})", members.join(", "))
        }
        Value::String(text) => pretty(text),
        other => other.to_string(),
    }
}

/// A value of the tree, in words.
fn node(value: &Node) -> String {
    match value {
        Node::Quantity(leaf) => {
            let quantity = leaf.quantity;
            let number = text::full(text::tidy(quantity.value));
            format!("{number}{}", quantity.unit.row().suffix)
        }
        Node::Number(number) => text::full(*number),
        Node::Count(count) => count.to_string(),
        Node::Truth(truth) => if *truth { "yes" } else { "no" }.to_owned(),
        Node::Text(words, _) => spaced(words),
        Node::List(items) => items.iter().map(node).collect::<Vec<_>>().join(", "),
        Node::Record(members) => {
            let members: Vec<String> = members.iter().map(|(name, value)| named(&spaced(name), &node(value))).collect();
            format!("({})", members.join(", "))
        }
    }
}

/// `positions/2/x` as `x of position 3`, `limits/external/major_max` as `major max (limits, external)`.
pub fn name_of(path: &str) -> String {
    let parts: Vec<&str> = path.split('/').collect();
    let mut words: Vec<String> = Vec::new();
    let mut of: Vec<String> = Vec::new();
    let mut at = 0;
    while at < parts.len() {
        let row = parts.get(at + 1).and_then(|next| next.parse::<usize>().ok());
        match row {
            Some(row) => {
                of.push(format!("{} {}", singular(&spaced(parts[at])), row + 1));
                at += 2;
            }
            None => {
                words.push(spaced(parts[at]));
                at += 1;
            }
        }
    }
    let Some(last) = words.pop() else { return of.join(", ") };
    let inside = if words.is_empty() { String::new() } else { format!(" ({})", words.join(", ")) };
    let row = if of.is_empty() { String::new() } else { format!(" of {}", of.join(", ")) };
    format!("{last}{inside}{row}")
}

fn singular(words: &str) -> String {
    match words.strip_suffix("ies") {
        Some(stem) => format!("{stem}y"),
        None => words.strip_suffix('s').unwrap_or(words).to_owned(),
    }
}

/// The unit as a sentence says it: `in in` reads badly.
pub fn unit_words(unit: Unit) -> String {
    let words = match unit {
        Unit::Inch => return "inches".to_owned(),
        Unit::Degree => "degrees",
        Unit::InchPerMinute => "inches a minute",
        Unit::InchPerRev => "inches a turn",
        Unit::InchPerTooth => "inches a tooth",
        Unit::SquareInch => "square inches",
        Unit::CubicInchPerMinute => "cubic inches a minute",
        other => return other.spelling().to_owned(),
    };
    format!("{words} ({})", unit.row().ascii)
}

/// The sentence of a result, from the schema of the calculator's answer; empty where it has none.
fn about(entry: &'static Entry, path: &str) -> String {
    static KNOWN: Mutex<Option<HashMap<(&str, String), String>>> = Mutex::new(None);
    let key = (entry.id, super::wanted::unnumbered(path));
    let mut known = KNOWN.lock().unwrap_or_else(|poisoned| poisoned.into_inner());
    let known = known.get_or_insert_default();
    known.entry(key).or_insert_with(|| described(entry, path)).clone()
}

fn described(entry: &Entry, path: &str) -> String {
    let (mut members, mut says) = (entry.output.members, "");
    for part in path.split('/') {
        // Numbers of rows name no member.
        let Some(member) = members.iter().find(|member| member.name == part) else { continue };
        says = member.about;
        members = member.of.shape.members();
    }
    // Behind a semicolon stands what the result needs or when it is there.
    let says = says.split(';').next().unwrap_or_default().trim().trim_end_matches('.');
    spaced(&lower_first(says))
}

fn lower_first(words: &str) -> String {
    let mut chars = words.chars();
    match (chars.next(), chars.clone().next()) {
        // A name or a symbol keeps its capital.
        (Some(first), Some(second)) if second.is_lowercase() => {
            first.to_lowercase().collect::<String>() + chars.as_str()
        }
        _ => words.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_becomes_words() {
        for (path, words) in [
            ("tip_depth", "tip depth"),
            ("positions/2/x", "x of position 3"),
            ("limits/external/major_max", "major max (limits, external)"),
            ("residuals/0", "residual 1"),
        ] {
            assert_eq!(name_of(path), words);
        }
    }

    #[test]
    fn a_value_of_a_query_is_written_as_one_would() {
        assert_eq!(pretty("0 in,0 in;1 in,0 in"), "(0 in, 0 in), (1 in, 0 in)");
        assert_eq!(pretty("118 deg"), "118°");
        assert_eq!(pretty("y_axis"), "y axis");
        assert_eq!(pretty(r#"[{"axis": "x_axis", "place": "10 mm"}]"#), "(axis x axis, place 10 mm)");
        assert_eq!(pretty("112 rpm,160 rpm"), "112 rpm, 160 rpm");
        assert_eq!(stated("holes", "6", false), "6 holes");
        assert_eq!(stated("reading_0", "0.2 mm", false), "reading 0 = 0.2 mm");
        assert_eq!(stated("from", "1 in,2 in", true), "from (1 in, 2 in)");
    }
}
