//! A value as it was given, from a query (always text) or from JSON. Unlike a JSON map it keeps
//! repeated names, so that they can be refused.

use super::Fields;
use crate::quantity::Quantity;
use crate::tree::Node;
use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::borrow::Cow;
use std::fmt;

/// One value of a request.
#[derive(Clone, Debug, PartialEq)]
pub enum Given<'a> {
    /// JSON's null, which no field takes.
    Null,
    /// True or false.
    Truth(bool),
    /// A number.
    Number(f64),
    /// Text; all that a query has.
    Text(Cow<'a, str>),
    /// A list.
    List(Vec<Given<'a>>),
    /// An object.
    Object(Vec<(Cow<'a, str>, Given<'a>)>),
}

impl Given<'static> {
    /// A node of an answer's inputs as it would be sent back.
    pub fn of(node: &Node) -> Self {
        match node {
            Node::Quantity(leaf) => {
                let Quantity { value, unit, tolerance, .. } = leaf.quantity;
                let mut members = vec![
                    (Cow::Borrowed("value"), Given::Number(value)),
                    (Cow::Borrowed("unit"), Given::Text(Cow::Borrowed(unit.spelling()))),
                ];
                if let Some((plus, minus)) = tolerance {
                    members.push((Cow::Borrowed("plus"), Given::Number(plus)));
                    members.push((Cow::Borrowed("minus"), Given::Number(minus)));
                }
                Given::Object(members)
            }
            Node::Number(number) => Given::Number(*number),
            Node::Count(count) => Given::Number(*count as f64),
            Node::Truth(truth) => Given::Truth(*truth),
            Node::Text(words, _) => Given::Text(words.clone()),
            Node::List(items) => Given::List(items.iter().map(Given::of).collect()),
            Node::Record(members) => {
                Given::Object(members.iter().map(|(name, node)| (Cow::Borrowed(*name), Given::of(node))).collect())
            }
        }
    }
}

impl Given<'_> {
    /// The same, holding its own text.
    pub fn owned(&self) -> Given<'static> {
        match self {
            Given::Null => Given::Null,
            Given::Truth(truth) => Given::Truth(*truth),
            Given::Number(number) => Given::Number(*number),
            Given::Text(text) => Given::Text(Cow::Owned(text.to_string())),
            Given::List(items) => Given::List(items.iter().map(Given::owned).collect()),
            Given::Object(members) => Given::Object(
                members.iter().map(|(name, value)| (Cow::Owned(name.to_string()), value.owned())).collect(),
            ),
        }
    }

    /// The value as one would say it.
    pub fn said(&self) -> String {
        match self {
            Given::Null => "null".into(),
            Given::Truth(truth) => truth.to_string(),
            Given::Number(number) => crate::quantity::text::full(*number),
            Given::Text(text) => text.to_string(),
            Given::List(_) => "a list".into(),
            Given::Object(_) => "an object".into(),
        }
    }
}

struct GivenVisitor;

impl<'de> Deserialize<'de> for Given<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(GivenVisitor)
    }
}

impl<'de> Visitor<'de> for GivenVisitor {
    type Value = Given<'de>;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_unit<E: Error>(self) -> Result<Self::Value, E> {
        Ok(Given::Null)
    }

    fn visit_bool<E: Error>(self, truth: bool) -> Result<Self::Value, E> {
        Ok(Given::Truth(truth))
    }

    fn visit_f64<E: Error>(self, number: f64) -> Result<Self::Value, E> {
        Ok(Given::Number(number))
    }

    fn visit_u64<E: Error>(self, number: u64) -> Result<Self::Value, E> {
        Ok(Given::Number(number as f64))
    }

    fn visit_i64<E: Error>(self, number: i64) -> Result<Self::Value, E> {
        Ok(Given::Number(number as f64))
    }

    fn visit_borrowed_str<E: Error>(self, text: &'de str) -> Result<Self::Value, E> {
        Ok(Given::Text(Cow::Borrowed(text)))
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Self::Value, E> {
        Ok(Given::Text(Cow::Owned(text.to_owned())))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Self::Value, A::Error> {
        let mut items = Vec::new();
        while let Some(item) = list.next_element::<Given<'de>>()? {
            items.push(item);
        }
        Ok(Given::List(items))
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Self::Value, A::Error> {
        pairs(map).map(Given::Object)
    }
}

/// A member's name, lent by the JSON text where it stands there without escapes.
#[derive(serde::Deserialize)]
struct Name<'a>(#[serde(borrow)] Cow<'a, str>);

fn pairs<'de, A: MapAccess<'de>>(mut map: A) -> Result<Vec<(Cow<'de, str>, Given<'de>)>, A::Error> {
    let mut members = Vec::new();
    while let Some((Name(name), value)) = map.next_entry()? {
        members.push((name, value));
    }
    Ok(members)
}

impl<'de> Deserialize<'de> for Fields<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct FieldsVisitor;
        impl<'de> Visitor<'de> for FieldsVisitor {
            type Value = Fields<'de>;

            fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
                f.write_str("a JSON object of fields")
            }

            fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Self::Value, A::Error> {
                pairs(map).map(Fields)
            }
        }
        deserializer.deserialize_map(FieldsVisitor)
    }
}
