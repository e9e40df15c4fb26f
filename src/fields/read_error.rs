//! Why a field could not be read: serde's errors with the field, the code and a way out.

use super::likeness::nearest;
use crate::quantity::shown;
use crate::refusal::{Code, Unread, Wrong, carried, pointer};
use serde::de::{self, Unexpected};
use std::fmt;

/// Why a field could not be read.
#[derive(Debug)]
pub struct ReadError {
    /// From the innermost place outwards.
    path: Vec<String>,
    code: Code,
    says: String,
    try_this: Option<String>,
    /// Whether it lies in an object of a list, and if in one of its parts, in which.
    row: Option<Option<usize>>,
}

impl ReadError {
    /// Found at no place yet.
    pub(super) fn new(code: Code, says: impl Into<String>) -> Self {
        Self { path: Vec::new(), code, says: says.into(), try_this: None, row: None }
    }

    /// The same, at `place` of what it was found in.
    pub(super) fn at(mut self, place: impl Into<String>) -> Self {
        self.path.push(place.into());
        self
    }

    /// The field of the request that it was found in.
    pub(super) fn field(&self) -> &str {
        self.path.last().map(String::as_str).unwrap_or_default()
    }

    /// Whether it was found in a part of the field.
    pub(super) fn is_inside(&self) -> bool {
        self.path.len() > 1
    }

    /// The same, found in an object of these fields, which a query states as a row.
    pub(super) fn in_row(mut self, fields: &[&str]) -> Self {
        self.row = Some(self.path.last().and_then(|place| fields.iter().position(|field| field == place)));
        self
    }

    /// Of a good list of rows what is good in this place: one row, or one of its parts.
    fn part_of<'g>(&self, good: &'g str) -> &'g str {
        let first = good.split(';').next().unwrap_or(good);
        match (self.row, self.path.len()) {
            (Some(Some(part)), 3) => first.split(',').nth(part).unwrap_or(good),
            (Some(_), 2) => first,
            _ => good,
        }
    }

    /// As a wrong of a refusal; `good` finds a value to try where the error has none.
    pub fn wrong(self, good: impl Fn(&str) -> Option<&'static str>) -> Wrong {
        let field = pointer(self.path.iter().rev().map(String::as_str));
        let good = || good(self.field()).map(|good| self.part_of(good).to_owned());
        let try_this = self.try_this.clone().or_else(good);
        Wrong { field, code: self.code, says: self.says, try_this }
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.says)
    }
}

impl std::error::Error for ReadError {}

impl de::Error for ReadError {
    fn custom<T: fmt::Display>(message: T) -> Self {
        let text = message.to_string();
        if let Some(Unread { code, says, try_this }) = carried(&text) {
            let try_this = (!try_this.is_empty()).then_some(try_this);
            return Self { path: Vec::new(), code, says, try_this, row: None };
        }
        Self::new(Code::ValueUnreadable, format!("This value cannot be read: {text}."))
    }

    fn invalid_type(unexpected: Unexpected, expected: &dyn de::Expected) -> Self {
        let stands = match unexpected {
            Unexpected::Str(text) => format!("\"{}\"", shown(text)),
            Unexpected::Seq => "a list".to_owned(),
            Unexpected::Map => "an object".to_owned(),
            Unexpected::Bool(truth) => truth.to_string(),
            Unexpected::Float(number) => format!("\"{}\"", crate::quantity::text::full(number)),
            other => other.to_string(),
        };
        let wanted = match expected.to_string().as_str() {
            "f64" => "a number".to_owned(),
            words if words.starts_with("struct ") => "an object".to_owned(),
            words => words.to_owned(),
        };
        Self::new(Code::ValueUnreadable, format!("Give {wanted} here, not {stands}."))
    }

    fn missing_field(field: &'static str) -> Self {
        Self::new(Code::FieldMissing, format!("Needed: {field}.")).at(field)
    }

    fn unknown_field(field: &str, expected: &'static [&'static str]) -> Self {
        let near = nearest(field, expected.iter().copied());
        let mut error = Self::new(
            Code::FieldUnknown,
            format!("There is no field {}; the fields are {}.", shown(field), expected.join(", ")),
        );
        error.try_this = Some(near.unwrap_or("leave out").to_owned());
        error.at(field)
    }

    fn unknown_variant(variant: &str, expected: &'static [&'static str]) -> Self {
        // A word that is read in both cases is named once.
        let mut words: Vec<&str> = Vec::with_capacity(expected.len());
        for word in expected {
            if !words.iter().any(|known| known.eq_ignore_ascii_case(word)) {
                words.push(word);
            }
        }
        let mut error =
            Self::new(Code::ValueUnreadable, format!("\"{}\" is not one of {}.", shown(variant), words.join(", ")));
        error.try_this = nearest(variant, expected.iter().copied()).or(expected.first().copied()).map(str::to_owned);
        error
    }

    fn duplicate_field(field: &'static str) -> Self {
        Self::new(Code::FieldRepeated, format!("{field} is given more than once.")).at(field)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::refusal::carry;

    fn wrong(error: ReadError) -> Wrong {
        error.at("depth").wrong(|_| Some("1 in"))
    }

    #[test]
    fn a_refusal_keeps_its_code_its_words_and_its_way_out() {
        let unread = Unread::new(Code::UnitMissing, "\"5\" has no unit: 5 in or 5 mm?", "5 in");
        assert_eq!(wrong(carry(unread.clone())), Wrong::unread("depth", unread));
        let unread = Unread::new(Code::ValueOutOfRange, "9 is not from 1 to 8.", "");
        assert_eq!(wrong(carry(unread)), Wrong::new("depth", Code::ValueOutOfRange, "9 is not from 1 to 8.", "1 in"));
    }

    #[test]
    fn the_same_words_of_another_reader_are_only_words() {
        let unread = Unread::new(Code::NotFound, "No such drill.", "#7");
        let words = carry::<serde_json::Error>(unread).to_string();
        let says = "This value cannot be read: No such drill..";
        assert_eq!(wrong(de::Error::custom(words)), Wrong::new("depth", Code::ValueUnreadable, says, "1 in"));
    }
}
