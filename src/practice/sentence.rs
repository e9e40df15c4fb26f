//! The sentence of a question: an exercise's own with the values in place, or one made of labels where the question
//! is made of an answer.

use super::wanted::{Amount, Wanted};
use crate::asking::Answer;
use crate::calculators::Entry;
use crate::declared::{Member, Shape, TypeFacts, in_sentence, label, label_of, one_after_another, said_word};
use crate::quantity::{Unit, read, text};
use crate::reference::drills;
use crate::tree::Node;

/// Longest question, in characters: what is read at a bench without losing the thread.
pub const LONGEST: usize = 300;

/// An exercise's sentence with the values of its fields in place.
pub fn filled(entry: &Entry, says: &str, value_of: impl Fn(&str) -> Option<String>) -> String {
    let mut parts = says.split('{');
    let mut out = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (name, rest) = part.split_once('}').unwrap_or((part, ""));
        out.push_str(&value_of(name).map_or_else(|| said_word(name), |value| said(entry, name, &value)));
        out.push_str(rest);
    }
    // A sentence that is written over several lines reads as one.
    out.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A field's value as a person says it.
pub fn said(entry: &Entry, name: &str, value: &str) -> String {
    let member = entry.input.members.iter().find(|member| member.name == name);
    let shape = member.map_or(Shape::Words, |member| member.of.shape);
    match shape {
        Shape::Choice(_) | Shape::List(TypeFacts { shape: Shape::Choice(_), .. }) => {
            value.split(',').map(|word| said_word(word.trim())).collect::<Vec<_>>().join(", ")
        }
        Shape::Point | Shape::Points => points(value),
        Shape::List(_) => list(value),
        Shape::Rows(_) => rows(shape.members(), value),
        // A class 6H is not six hours.
        Shape::Words => value.trim().to_owned(),
        _ => one(value),
    }
}

/// A quantity with its unit as it is spelled: `118 deg` is `118°`; anything else as it stands.
fn one(value: &str) -> String {
    let value = value.trim();
    let at = value.find(|c: char| c.is_alphabetic() || c == '%').unwrap_or(value.len());
    let (number, unit) = (value[..at].trim_end(), Unit::named(&value[at..]));
    match unit {
        Some(unit) if read(number, "1 in").is_ok() => format!("{number}{}", unit.row().suffix),
        _ => value.to_owned(),
    }
}

/// `112 rpm,160 rpm` as `112, 160 rpm`.
fn list(value: &str) -> String {
    let parts: Vec<&str> =
        value.trim_matches(['[', ']']).split(',').map(|part| part.trim().trim_matches('"')).collect();
    let unit = |part: &str| part.rsplit_once(' ').map(|(_, unit)| unit.to_owned());
    let alike = parts.iter().all(|part| unit(part).is_some() && unit(part) == unit(parts[0]));
    let bare = |(at, part): (usize, &&str)| match part.rsplit_once(' ') {
        Some((number, _)) if alike && at + 1 < parts.len() => number.to_owned(),
        _ => one(part),
    };
    parts.iter().enumerate().map(bare).collect::<Vec<_>>().join(", ")
}

fn points(value: &str) -> String {
    if value.contains(['(', '{']) {
        return value.to_owned();
    }
    let point = |row: &str| format!("({})", row.split(',').map(one).collect::<Vec<_>>().join(", "));
    value.split(';').filter(|row| !row.trim().is_empty()).map(point).collect::<Vec<_>>().join(", ")
}

/// Rows of objects, each as its values one after the other: `T1,1.25 in;T2,3.5 in` is `T1 1.25 in, T2 3.5 in`.
fn rows(members: &[Member], value: &str) -> String {
    let part = |member: Option<&Member>, part: &str| match member.map(|member| member.of.shape) {
        Some(Shape::Choice(_)) => said_word(part.trim()),
        Some(Shape::Words) => part.trim().to_owned(),
        _ => one(part),
    };
    if let Ok(serde_json::Value::Array(listed)) = serde_json::from_str(value) {
        let row = |row: &serde_json::Value| {
            let parts = row.as_object().into_iter().flatten().map(|(name, said)| {
                let said = said.as_str().map_or_else(|| said.to_string(), str::to_owned);
                part(members.iter().find(|member| member.name == name), &said)
            });
            parts.collect::<Vec<_>>().join(" ")
        };
        return listed.iter().map(row).collect::<Vec<_>>().join(", ");
    }
    let row = |row: &str| {
        let parts = row.split(',').enumerate().filter(|(_, said)| !said.trim().is_empty());
        parts.map(|(at, said)| part(members.get(at), said)).collect::<Vec<_>>().join(" ")
    };
    value.split(';').filter(|text| !text.trim().is_empty()).map(row).collect::<Vec<_>>().join(", ")
}

/// The sentence made of labels, with what is assumed as far as there is room: "For a diameter of 1/2 in and a full
/// depth of 3/4 in: what is the tip depth?"
pub fn of_labels(entry: &Entry, fields: &[(String, String)], answer: &Answer, wanted: &Wanted) -> String {
    let is_reserved = |name: &str| matches!(name, "units" | "machine" | "resolution" | "x_reads" | "z_plus");
    let stated: Vec<String> =
        fields.iter().filter(|(name, _)| !is_reserved(name)).map(|(name, value)| stated(entry, name, value)).collect();
    let machine = fields.iter().find(|(name, _)| name == "machine").map(|(_, name)| format!(" on the {name}"));
    let machine = machine.unwrap_or_default();
    let asks = asked_for(entry, answer, &wanted.path);
    let given = match stated.as_slice() {
        [] => format!("{}{machine}", entry.title),
        given => format!("For {}{machine}", one_after_another(given, "and")),
    };
    let out = format!("{given}: what is the {asks}?");
    let unstated = answer.record.assumed.iter().filter(|assumed| {
        assumed.field != "units" && !is_reserved(assumed.field) && !fields.iter().any(|(name, _)| name == assumed.field)
    });
    let mut taken = String::new();
    for assumed in unstated {
        let Some(value) = said_node(&assumed.value) else { continue };
        let more = format!("{} {value}", in_sentence(&label_of(entry.input.members, assumed.field)));
        if [&out, &taken, &more].iter().map(|part| part.chars().count()).sum::<usize>() + 50 < LONGEST {
            taken.push_str(if taken.is_empty() { " Take " } else { ", " });
            taken.push_str(&more);
        }
    }
    if taken.is_empty() { out } else { format!("{out}{taken}.") }
}

/// A field with its value: `a diameter of 1/2 in`, `6 holes`, `reference tool T1`.
fn stated(entry: &Entry, name: &str, value: &str) -> String {
    let words = in_sentence(&label_of(entry.input.members, name));
    let member = entry.input.members.iter().find(|member| member.name == name);
    let value = said(entry, name, value);
    let is_single = |shape: &Shape| matches!(shape, Shape::Quantity(_) | Shape::QuantityOrName(_));
    match member.map(|member| member.of.shape) {
        Some(Shape::Count { .. }) if words.ends_with('s') => format!("{value} {words}"),
        Some(shape) if is_single(&shape) && value.starts_with(|c: char| c.is_ascii_digit() || "-+".contains(c)) => {
            let article = match words.chars().next() {
                Some('a' | 'e' | 'i' | 'o') => "an",
                _ => "a",
            };
            format!("{article} {words} of {value}")
        }
        _ => format!("{words} {value}"),
    }
}

/// The result asked for, in words: `tip depth`, `X of position 3`, `low of speed 2 (milling, HSS)`.
pub fn asked_for(entry: &Entry, answer: &Answer, path: &str) -> String {
    let words = label(entry.output.members, path);
    let parts: Vec<&str> = path.split('/').collect();
    let Some(row) = parts.iter().rposition(|part| part.parse::<usize>().is_ok()) else { return in_sentence(&words) };
    let of = label(entry.output.members, &parts[..=row].join("/"));
    let rest = words.strip_prefix(&of).map(|rest| rest.trim_start_matches(", ")).unwrap_or_default();
    let what = if rest.is_empty() { String::new() } else { format!("{} of ", in_sentence(rest)) };
    let told = told_row(answer.result(), &parts[..=row]);
    let told = if told.is_empty() { told } else { format!(" ({told})") };
    format!("{what}{}{told}", in_sentence(&of))
}

/// What tells a row of a list from the others: its words. A drill's name would give its size away.
fn told_row(result: Option<&Node>, parts: &[&str]) -> String {
    let found = parts.iter().try_fold(result, |node, part| Some(node?.step(part)));
    let Some(Some(Node::Record(members))) = found else { return String::new() };
    let tells = |name: &str| !["number", "source", "trust", "designation", "condition", "says"].contains(&name);
    let words = members.iter().filter(|(name, _)| tells(name)).filter_map(|(_, node)| match node {
        Node::Text(words, _) if drills::named(words).is_none() => Some(said_word(words)),
        _ => None,
    });
    words.take(3).collect::<Vec<_>>().join(", ")
}

/// A single value as a person says it; lists and records are not told.
pub fn said_node(node: &Node) -> Option<String> {
    Some(match node {
        Node::Quantity(leaf) => {
            format!("{}{}", text::full(text::round(leaf.quantity.value, 4)), leaf.quantity.unit.row().suffix)
        }
        Node::Number(number) => text::full(*number),
        Node::Count(count) => count.to_string(),
        Node::Truth(truth) => if *truth { "yes" } else { "no" }.to_owned(),
        Node::Text(words, _) => said_word(words),
        Node::List(_) | Node::Record(_) => return None,
    })
}

/// How to answer: in which unit, or by which name.
pub fn answer_in(wanted: &Wanted) -> String {
    match wanted.amount {
        Amount::Count(_) => String::new(),
        Amount::Quantity(quantity) => {
            let unit = unit_words(quantity.unit);
            match wanted.drill {
                Some(_) => format!(" Name the drill, or give its size in {unit}."),
                None => format!(" Answer in {unit}."),
            }
        }
    }
}

/// The unit as a sentence says it: `in in` reads badly.
fn unit_words(unit: Unit) -> &'static str {
    match unit {
        Unit::Inch => "inches",
        Unit::Degree => "degrees",
        Unit::Percent => "percent",
        Unit::Second => "seconds",
        Unit::Minute => "minutes",
        Unit::Hour => "hours",
        other => other.spelling(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calculators::find;

    #[test]
    fn values_are_said_as_a_person_says_them() {
        for (value, says) in [
            ("118 deg", "118°"),
            ("118deg", "118°"),
            ("1/2 in", "1/2 in"),
            ("0.45 in3/min", "0.45 in³/min"),
            ("No.7", "No.7"),
            ("letter F", "letter F"),
            ("1/4-20 UNC", "1/4-20 UNC"),
        ] {
            assert_eq!(one(value), says);
        }
        assert_eq!(list("112 rpm,160 rpm, 224 rpm"), "112, 160, 224 rpm");
        assert_eq!(list("20,25,40"), "20, 25, 40");
        assert_eq!(points("1 in,2 in"), "(1 in, 2 in)");
        assert_eq!(points("0 in,0 in;1 in,0 in"), "(0 in, 0 in), (1 in, 0 in)");
    }

    #[test]
    fn a_sentence_takes_its_values_in() {
        let entry = find("holes/drill-point").expect("it is in the register");
        let value = |name: &str| {
            let all = [("diameter", "1/2 in"), ("point_angle", "118 deg"), ("zeroed_at", "lips")];
            all.iter().find(|(known, _)| *known == name).map(|(_, value)| (*value).to_owned())
        };
        let says = "A {diameter} drill with a {point_angle} point, zeroed at the {zeroed_at}: how long is the point?";
        let says = filled(entry, says, value);
        assert_eq!(says, "A 1/2 in drill with a 118° point, zeroed at the lips: how long is the point?");
    }
}
