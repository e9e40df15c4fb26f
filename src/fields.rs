//! A request as a map of fields, from a query or from JSON, and its reading into a typed input with
//! every wrong field found at once.

mod count;
mod given;
mod likeness;
mod mending;
mod number;
mod point;
mod read_error;
mod reader;
mod rows;

pub use count::Count;
pub use given::Given;
pub use likeness::{is_slip, likeness, nearest};
pub use number::PlainNumber;
pub use point::{MOST_POINTS, Point, Points};

use crate::quantity::may_have_tolerance;
use crate::refusal::{Code, Refusal, Wrong};
use read_error::ReadError;
use reader::FieldsReader;
pub use rows::{MOST_ROWS, Rows};
use serde::de::DeserializeOwned;
use std::borrow::Cow;

/// Most fields of one request; a list stated item by item is many.
pub const MOST_FIELDS: usize = 500;

/// The fields of a request in the order given; a repeated one is there twice.
#[derive(Clone, Debug, Default)]
pub struct Fields<'a>(pub Vec<(Cow<'a, str>, Given<'a>)>);

impl Fields<'static> {
    /// An answer's inputs as a request that asks for the same again.
    pub fn of_inputs(inputs: &crate::tree::Node) -> Self {
        let crate::tree::Node::Record(members) = inputs else { return Self::default() };
        Self(members.iter().map(|(name, node)| (Cow::Borrowed(*name), Given::of(node))).collect())
    }
}

impl<'a> Fields<'a> {
    /// Names and their texts.
    pub fn of_texts(pairs: impl IntoIterator<Item = (&'a str, &'a str)>) -> Self {
        Self(pairs.into_iter().map(|(name, text)| (Cow::Borrowed(name), Given::Text(Cow::Borrowed(text)))).collect())
    }

    /// Reads the query of an address; `None` if the percent-encoding or the UTF-8 is broken.
    pub fn of_query(query: &'a str) -> Option<Self> {
        let mut fields = Vec::with_capacity(8);
        for pair in query.split('&').filter(|pair| !pair.is_empty()) {
            let (name, value) = pair.split_once('=').unwrap_or((pair, ""));
            fields.push((decoded(name)?, Given::Text(decoded(value)?)));
        }
        Some(Self(fields))
    }

    /// The same, holding its own text.
    pub fn owned(&self) -> Fields<'static> {
        Fields(self.0.iter().map(|(name, value)| (Cow::Owned(name.to_string()), value.owned())).collect())
    }

    /// Whether any of them may have a tolerance.
    pub fn may_have_tolerance(&self) -> bool {
        self.0.iter().any(|(_, value)| match value {
            Given::Text(text) => may_have_tolerance(text),
            Given::Null | Given::Truth(_) | Given::Number(_) => false,
            Given::List(_) | Given::Object(_) => true,
        })
    }

    /// Refuses more fields than any request needs, before each is held against all others.
    pub fn check_count(&self) -> Result<(), Refusal> {
        if self.0.len() <= MOST_FIELDS {
            return Ok(());
        }
        let says = format!("The request has {} fields; at most {MOST_FIELDS} are read.", self.0.len());
        let try_this = Some("a list in one field, only=1,2,3".to_owned());
        Err(Refusal::one(Wrong { field: String::new(), code: Code::TooLarge, says, try_this }))
    }

    /// Makes one list of a list that a query states item by item, `only=2&only=4`, as many clients do.
    pub fn join_lists(&mut self, is_list: impl Fn(&str) -> bool) {
        for at in (1..self.0.len()).rev() {
            let name = &self.0[at].0;
            let Some(before) = self.0[..at].iter().rposition(|(known, _)| known == name) else { continue };
            if let (Given::Text(head), Given::Text(tail)) = (&self.0[before].1, &self.0[at].1)
                && is_list(name)
            {
                self.0[before].1 = Given::Text(format!("{head},{tail}").into());
                self.0.remove(at);
            }
        }
    }

    /// Takes the field `name` out; the first, if it is there more than once.
    pub fn take(&mut self, name: &str) -> Option<Given<'a>> {
        let at = self.0.iter().position(|(key, _)| key == name)?;
        Some(self.0.remove(at).1)
    }

    /// Reads the fields into an input. `good` finds a good value for a field, which stands in for a
    /// wrong one so that the rest can be read too.
    pub fn read<T: DeserializeOwned>(&self, good: impl Fn(&str) -> Option<&'static str>) -> Result<T, Refusal> {
        self.check_count()?;
        T::deserialize(FieldsReader(&self.0)).map_err(|first| self.all_wrong::<T>(first, &good))
    }

    /// The same, and what `act` makes of the input, which is large and so not moved.
    pub fn read_and<T: DeserializeOwned, R>(
        &self,
        good: impl Fn(&str) -> Option<&'static str>,
        act: impl FnOnce(&T) -> R,
    ) -> Result<R, Refusal> {
        self.check_count()?;
        match T::deserialize(FieldsReader(&self.0)) {
            Ok(ref input) => Ok(act(input)),
            Err(first) => Err(self.all_wrong::<T>(first, &good)),
        }
    }

    fn all_wrong<T: DeserializeOwned>(&self, first: ReadError, good: &dyn Fn(&str) -> Option<&'static str>) -> Refusal {
        mending::all_wrong(self, first, &|fields| T::deserialize(FieldsReader(&fields.0)).err(), good)
    }
}

/// A part of a query without its percent-encoding; a plus stands for a space.
fn decoded(text: &str) -> Option<Cow<'_, str>> {
    if !text.contains(['%', '+']) {
        return Some(Cow::Borrowed(text));
    }
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        match byte {
            b'+' => bytes.push(b' '),
            b'%' => {
                let digit = |b: u8| char::from(b).to_digit(16);
                let high = digit(rest.next()?)?;
                let low = digit(rest.next()?)?;
                bytes.push((high * 16 + low) as u8);
            }
            byte => bytes.push(byte),
        }
    }
    String::from_utf8(bytes).ok().map(Cow::Owned)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{PointAngle, Size};
    use crate::refusal::Code;
    use serde::Deserialize;

    #[derive(Deserialize, Debug)]
    #[serde(deny_unknown_fields)]
    #[allow(dead_code)]
    struct Input {
        diameter: Size,
        point_angle: Option<PointAngle>,
        holes: Option<u32>,
        only: Option<Vec<u32>>,
    }

    fn good(name: &str) -> Option<&'static str> {
        match name {
            "diameter" => Some("0.5 in"),
            "point_angle" => Some("118 deg"),
            "holes" => Some("6"),
            _ => None,
        }
    }

    fn read(query: &str) -> Result<Input, Refusal> {
        Fields::of_query(query).unwrap().read(good)
    }

    fn codes(query: &str) -> Vec<(String, &'static str)> {
        read(query).unwrap_err().0.into_iter().map(|w| (w.field, w.code.as_str())).collect()
    }

    #[test]
    fn a_query_and_json_read_alike() {
        for count in ["6", "6.0", "%36"] {
            let input = read(&format!("diameter=1/2%20in&holes={count}&only=1,3")).unwrap();
            assert_eq!((input.diameter.quantity().value, input.holes, input.only), (0.5, Some(6), Some(vec![1, 3])));
        }
        let json = r#"{"diameter": {"value": 0.5, "unit": "in", "text": "x"}, "holes": 6.0, "only": [1, "3"]}"#;
        let fields: Fields = serde_json::from_str(json).unwrap();
        let input: Input = fields.read(good).unwrap();
        assert_eq!((input.diameter.quantity().value, input.holes, input.only), (0.5, Some(6), Some(vec![1, 3])));
    }

    #[test]
    fn every_wrong_field_is_found_at_once() {
        assert_eq!(
            codes("diameter=0.5&point_angle=x&holes=2.5&colour=red&holes=3"),
            [
                ("/diameter".into(), "unit_missing"),
                ("/point_angle".into(), "value_unreadable"),
                ("/holes".into(), "value_unreadable"),
                ("/colour".into(), "field_unknown"),
            ]
        );
        assert_eq!(codes("point_angle=118deg"), [("/diameter".into(), "field_missing")]);
        assert_eq!(codes("diameter=1in&diameter=2in"), [("/diameter".into(), "field_repeated")]);
        assert_eq!(codes("diameter="), [("/diameter".into(), "value_empty")]);
        assert_eq!(codes("diameter=1in&only=1,x"), [("/only/1".into(), "value_unreadable")]);
    }

    #[test]
    fn a_name_with_strokes_is_refused_once() {
        assert_eq!(codes("diameter=1in&a/b~c=1"), [("/a~1b~0c".into(), "field_unknown")]);
    }

    #[test]
    fn a_name_of_any_length_is_shown_short() {
        let refusal = read(&format!("diameter=1in&{}=1", "d".repeat(100_000))).unwrap_err();
        assert_eq!(refusal.0.len(), 1);
        assert!(refusal.0[0].field.len() < 200 && refusal.0[0].says.len() < 200, "{refusal:?}");
    }

    #[test]
    fn very_many_fields_are_not_read_and_of_many_wrong_ones_the_first_are_named() {
        let unknown = |count: usize| (0..count).map(|at| format!("x{at}=1")).collect::<Vec<_>>().join("&");
        let refusal = read(&format!("diameter=1in&{}", unknown(MOST_FIELDS))).unwrap_err();
        assert_eq!((refusal.0.len(), refusal.0[0].code), (1, Code::TooLarge));
        let refusal = read(&format!("diameter=1in&{}", unknown(MOST_FIELDS - 1))).unwrap_err();
        assert_eq!(refusal.0.len(), 51);
        assert!(refusal.0[50].says.starts_with("449 more"), "{:?}", refusal.0[50]);
    }

    #[test]
    fn a_list_may_be_stated_item_by_item() {
        let mut fields = Fields::of_query("only=2&diameter=1in&only=4,5&only=6&diameter=2in").unwrap();
        fields.join_lists(|name| name == "only");
        let left: Vec<(&str, String)> = fields.0.iter().map(|(name, value)| (name.as_ref(), value.said())).collect();
        let wanted = [("only", "2,4,5,6"), ("diameter", "1in"), ("diameter", "2in")];
        assert_eq!(left, wanted.map(|(name, value)| (name, value.to_owned())));
    }

    #[test]
    fn a_null_and_a_repeated_json_field_are_refused() {
        for (json, code) in [
            (r#"{"diameter": "1 in", "holes": null}"#, Code::ValueEmpty),
            (r#"{"diameter": "1 in", "diameter": "2 in"}"#, Code::FieldRepeated),
            (r#"{"diameter": 0.5}"#, Code::UnitMissing),
            (r#"{"diameter": [1]}"#, Code::ValueUnreadable),
            (r#"{"diameter": {"value": 1, "unit": "in", "size": 3}}"#, Code::ValueUnreadable),
        ] {
            let fields: Fields = serde_json::from_str(json).unwrap();
            let refusal = fields.read::<Input>(good).unwrap_err();
            assert_eq!(refusal.0[0].code, code, "{json}: {refusal:?}");
        }
    }

    #[test]
    fn broken_percent_encoding_and_utf8_are_not_read() {
        for query in ["a=%", "a=%4", "a=%zz", "a=%ff", "%c3=1"] {
            assert!(Fields::of_query(query).is_none(), "{query}");
        }
    }
}
