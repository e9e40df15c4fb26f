//! The address that gives an answer again.

use crate::asking::describing::{RESERVED, describe_entry};
use crate::calculators::Entry;
use crate::fields::{Fields, Given};
use crate::quantity::text;
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use serde::ser::{Serialize, Serializer};
use std::fmt::Write;

/// The longest link an answer carries; the address of a longer one would be refused by many on its way.
pub const LONGEST_LINK: usize = 4000;

/// The address at which GET gives the answer to `fields` again, below the service's own; `None` where
/// it would be too long. The fields are in declared order, so that what is asked alike has one address.
pub fn link(entry: &'static Entry, fields: &Fields) -> Option<String> {
    let mut link = String::with_capacity(128);
    link.push_str("/v1/");
    link.push_str(entry.id);
    let declared = describe_entry(entry).map(|described| described.fields.as_slice()).unwrap_or_default();
    let place = |name: &str| {
        let own = declared.iter().position(|field| field.name == name);
        let reserved = || declared.len() + RESERVED.iter().position(|known| *known == name).unwrap_or(RESERVED.len());
        own.unwrap_or_else(reserved)
    };
    let mut fields: Vec<_> = fields.0.iter().map(|(name, value)| (place(name), name, value)).collect();
    fields.sort_by_key(|(place, ..)| *place);
    for (at, (_, name, value)) in fields.into_iter().enumerate() {
        link.push(if at == 0 { '?' } else { '&' });
        encode(name, &mut link);
        link.push('=');
        match value {
            Given::Text(text) => encode(text, &mut link),
            other => encode(&as_text(other), &mut link),
        }
        if link.len() > LONGEST_LINK {
            return None;
        }
    }
    Some(link)
}

/// What is percent-encoded: all but what a query may hold as it is and nobody on the way takes for a mark.
const ENCODED: &AsciiSet =
    &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~').remove(b'/').remove(b',').remove(b':');

fn encode(text: &str, out: &mut String) {
    out.extend(utf8_percent_encode(text, ENCODED));
}

/// A value of a JSON request as a query states it.
fn as_text(value: &Given) -> String {
    match value {
        Given::List(items) => match items.iter().map(point).collect::<Option<Vec<_>>>() {
            Some(points) if !points.is_empty() => points.join(";"),
            _ if items.iter().any(|item| matches!(item, Given::Object(_)) && quantity(item).is_none()) => json(value),
            _ => items.iter().map(as_text).collect::<Vec<_>>().join(","),
        },
        Given::Object(_) => quantity(value).or_else(|| point(value)).unwrap_or_else(|| json(value)),
        plain => plain.said(),
    }
}

fn member<'g>(members: &'g [(std::borrow::Cow<str>, Given)], name: &str) -> Option<&'g Given<'g>> {
    members.iter().find(|(key, _)| key == name).map(|(_, value)| value)
}

/// `{"value": 0.5, "unit": "in", "plus": 0.001, "minus": 0}` as `0.5 +0.001/-0 in`.
fn quantity(value: &Given) -> Option<String> {
    let Given::Object(members) = value else { return None };
    let Some(Given::Number(number)) = member(members, "value") else { return None };
    // A spread that an answer has is a tolerance when it is sent back.
    let spread = match member(members, "plus_minus") {
        Some(Given::Object(spread)) => match member(spread, "worst_case") {
            Some(Given::Object(worst)) => Some(worst),
            _ => None,
        },
        _ => None,
    };
    let sides = spread.unwrap_or(members);
    let amount = |name: &str| match member(sides, name) {
        Some(Given::Number(number)) => *number,
        _ => 0.0,
    };
    let mut out = text::full(*number);
    if member(sides, "plus").is_some() || member(sides, "minus").is_some() {
        let _ = write!(out, " +{}/-{}", text::full(amount("plus")), text::full(amount("minus")));
    }
    if let Some(Given::Text(unit)) = member(members, "unit") {
        let _ = write!(out, " {unit}");
    }
    Some(out)
}

/// `{"x": …, "y": …}` as `1 in,2 in`.
fn point(value: &Given) -> Option<String> {
    let Given::Object(members) = value else { return None };
    let (Some(x), Some(y)) = (member(members, "x"), member(members, "y")) else { return None };
    if members.len() > 2 || matches!(x, Given::List(_)) || matches!(y, Given::List(_)) {
        return None;
    }
    Some(format!("{},{}", as_text(x), as_text(y)))
}

fn json(value: &Given) -> String {
    serde_json::to_string(&Plain(value)).unwrap_or_default()
}

/// A value as the JSON it came as.
struct Plain<'g, 'a>(&'g Given<'a>);

impl Serialize for Plain<'_, '_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self.0 {
            Given::Null => serializer.serialize_unit(),
            Given::Truth(truth) => serializer.serialize_bool(*truth),
            Given::Number(number) => serializer.serialize_f64(*number),
            Given::Text(text) => serializer.serialize_str(text),
            Given::List(items) => serializer.collect_seq(items.iter().map(Plain)),
            Given::Object(members) => {
                serializer.collect_map(members.iter().map(|(name, value)| (name.as_ref(), Plain(value))))
            }
        }
    }
}
