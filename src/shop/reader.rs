//! Reads a shop's file with the place of every key and value, so that whatever is wrong can be
//! named with its line.

use super::fault::{Fault, Faults};
use crate::fields::nearest;
use crate::quantity::shown;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A value of the file, with its place.
pub type Value<'t> = Spanned<DeValue<'t>>;

/// A text of the file, with its place.
pub struct Text<'v> {
    /// The text.
    pub text: &'v str,
    /// Where it stands.
    pub span: Range<usize>,
}

/// The file, and what was found wrong with it.
pub struct Reader<'t> {
    text: &'t str,
    faults: Vec<Fault>,
}

/// Reads the text of a file: what `content` makes of its table, or all that is wrong with it.
pub fn read<T>(text: &str, content: impl FnOnce(&mut Reader, &DeTable) -> T) -> Result<T, Faults> {
    let mut reader = Reader { text, faults: Vec::new() };
    let (table, errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() {
        let content = content(&mut reader, table.get_ref());
        if reader.faults.is_empty() {
            return Ok(content);
        }
    }
    // What the parser says after its first error is mostly what follows from it.
    if let Some(error) = errors.first() {
        reader.unreadable(error);
    }
    reader.faults.sort_by_key(|fault| fault.line);
    Err(Faults(reader.faults))
}

impl Reader<'_> {
    /// Notes what is wrong at `span`; `try_this` is what the file would rather have.
    pub fn fault(&mut self, span: Range<usize>, key: &str, says: impl Into<String>, try_this: impl Into<String>) {
        let line = 1 + self.text.as_bytes()[..span.start.min(self.text.len())].iter().filter(|b| **b == b'\n').count();
        let (says, try_this) = (says.into(), try_this.into());
        self.faults.push(Fault { line, key: key.to_owned(), says, try_this });
    }

    /// A line that is no TOML.
    fn unreadable(&mut self, error: &toml::de::Error) {
        let span = error.span().unwrap_or(0..0);
        let says = error.message().replace('\n', "; ");
        if says == "duplicate key" {
            let key = self.text.get(span.clone()).unwrap_or_default().to_owned();
            self.fault(span, &key, "This key is given twice.", "leaving one of them out");
            return;
        }
        self.fault(span, "", format!("This cannot be read as TOML: {says}."), "a line such as slowest = \"112 rpm\"");
    }

    /// A key that means nothing here, `full` being the key with those it stands under.
    pub fn unknown(&mut self, span: Range<usize>, full: &str, key: &str, known: &[&str]) {
        let near = nearest(key, known.iter().copied()).or(known.first().copied()).unwrap_or_default().to_owned();
        self.fault(span, &shown(full), format!("This key is unknown; the keys here are {}.", known.join(", ")), near);
    }

    /// A value of the wrong kind.
    pub fn wrong_kind(&mut self, key: &str, value: &Value, wanted: &str, good: &str) {
        let is = match value.get_ref() {
            DeValue::String(_) => "a text",
            DeValue::Integer(_) | DeValue::Float(_) => "a number",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date",
            DeValue::Array(_) => "a list",
            DeValue::Table(_) => "a table",
        };
        self.fault(value.span(), key, format!("This is {is}; give {wanted}."), good);
    }

    /// The value as one text.
    pub fn text<'v>(&mut self, key: &str, value: &'v Value, good: &str) -> Option<Text<'v>> {
        match value.get_ref() {
            DeValue::String(text) => Some(Text { text, span: value.span() }),
            _ => {
                self.wrong_kind(key, value, "a text", good);
                None
            }
        }
    }

    /// The value as a list of texts; a bare number is taken as its text, so that the reader of
    /// quantities can ask for its unit.
    pub fn texts<'v>(&mut self, key: &str, value: &'v Value, good: &str) -> Vec<Text<'v>> {
        let DeValue::Array(items) = value.get_ref() else {
            self.wrong_kind(key, value, "a list", good);
            return Vec::new();
        };
        if items.is_empty() {
            self.fault(value.span(), key, "This list is empty; leave the key out where there is nothing.", good);
        }
        let mut texts = Vec::with_capacity(items.len());
        for item in items {
            let text = match item.get_ref() {
                DeValue::String(text) => text.as_ref(),
                DeValue::Integer(number) => number.as_str(),
                DeValue::Float(number) => number.as_str(),
                _ => {
                    self.wrong_kind(key, item, "a text", good);
                    continue;
                }
            };
            texts.push(Text { text, span: item.span() });
        }
        texts
    }

    /// The value as a table.
    pub fn table<'v, 't>(&mut self, key: &str, value: &'v Value<'t>, good: &str) -> Option<&'v DeTable<'t>> {
        match value.get_ref() {
            DeValue::Table(table) => Some(table),
            _ => {
                self.wrong_kind(key, value, "a table", good);
                None
            }
        }
    }
}

/// A text as the file writes it.
pub fn quoted(text: &str) -> String {
    format!("{text:?}")
}
