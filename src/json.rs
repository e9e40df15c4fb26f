//! JSON written straight into one buffer. An answer is mostly numbers and texts of our own, which a general writer
//! passes on piece by piece and looks through again.

use crate::quantity::{Unit, text};
use serde::Serialize;
use serde_json::Value;
use std::borrow::Cow;
use std::io::Write;

/// What can be written as JSON.
pub trait ToJson {
    /// Appends it.
    fn write(&self, json: &mut Json);

    /// The same by itself, in a buffer that has room for so many bytes.
    fn bytes(&self, room: usize) -> Vec<u8> {
        let mut json = Json::with_room(room);
        self.write(&mut json);
        json.into_bytes()
    }

    /// The same as a tree.
    fn value(&self) -> Value {
        serde_json::from_slice(&self.bytes(1024)).unwrap_or_default()
    }
}

/// JSON as far as it is written.
pub struct Json(Vec<u8>);

impl Json {
    /// Nothing yet, with room for so many bytes.
    pub fn with_room(bytes: usize) -> Self {
        Self(Vec::with_capacity(bytes))
    }

    /// What is written.
    pub fn into_bytes(self) -> Vec<u8> {
        self.0
    }

    /// How many bytes are written.
    pub fn written(&self) -> usize {
        self.0.len()
    }

    /// Appends what stands between whole values.
    pub fn between(&mut self, bytes: &[u8]) {
        self.0.extend_from_slice(bytes);
    }

    /// An object of the members that `write` names.
    #[inline]
    pub fn object(&mut self, write: impl FnOnce(&mut Self)) {
        self.0.push(b'{');
        write(self);
        self.0.push(b'}');
    }

    /// The name of a member, whose value comes next.
    #[inline]
    pub fn name(&mut self, name: &'static str) -> &mut Self {
        self.0.reserve(name.len() + 4);
        if self.0.last() != Some(&b'{') {
            self.0.push(b',');
        }
        self.0.push(b'"');
        self.0.extend_from_slice(name.as_bytes());
        self.0.extend_from_slice(b"\":");
        self
    }

    /// A member.
    #[inline]
    pub fn member(&mut self, name: &'static str, value: &(impl ToJson + ?Sized)) {
        value.write(self.name(name));
    }

    /// A member, where it is there.
    pub fn member_if_some(&mut self, name: &'static str, value: Option<&(impl ToJson + ?Sized)>) {
        if let Some(value) = value {
            self.member(name, value);
        }
    }

    /// The first members of a quantity: its number, its unit, and its text, which has nothing to escape.
    #[inline]
    pub fn quantity(&mut self, value: f64, unit: Unit, text: impl FnOnce(&mut Vec<u8>)) {
        self.member("value", &value);
        self.name("unit").text(|words| words.plain().extend_from_slice(unit.spelling().as_bytes()));
        self.name("text").text(|words| text(words.plain()));
    }

    /// A list.
    #[inline]
    pub fn list<T>(&mut self, items: impl IntoIterator<Item = T>, mut write: impl FnMut(&mut Self, T)) {
        self.0.push(b'[');
        for (at, item) in items.into_iter().enumerate() {
            if at > 0 {
                self.0.push(b',');
            }
            write(self, item);
        }
        self.0.push(b']');
    }

    /// A text of parts.
    #[inline]
    pub fn text(&mut self, write: impl FnOnce(&mut Text)) {
        self.0.push(b'"');
        write(&mut Text(&mut self.0));
        self.0.push(b'"');
    }

    /// What serde writes.
    pub fn serialized(&mut self, value: &impl Serialize) {
        let before = self.0.len();
        if serde_json::to_writer(&mut self.0, value).is_err() {
            self.0.truncate(before);
        }
    }
}

/// A text as far as it is written.
pub struct Text<'j>(&'j mut Vec<u8>);

impl Text<'_> {
    /// Where numbers and words without anything to escape are appended.
    #[inline]
    pub fn plain(&mut self) -> &mut Vec<u8> {
        self.0
    }

    /// Appends any words.
    #[inline]
    pub fn words(&mut self, words: &str) {
        // Looks at all bytes at once, which is quicker than to stop at the first of the few that must be escaped.
        let escapes = |found, byte| found | (byte < b' ') | (byte == b'"') | (byte == b'\\');
        if words.bytes().fold(false, escapes) {
            let quoted = Value::from(words).to_string();
            self.0.extend_from_slice(&quoted.as_bytes()[1..quoted.len() - 1]);
        } else {
            self.0.extend_from_slice(words.as_bytes());
        }
    }
}

impl ToJson for str {
    fn write(&self, json: &mut Json) {
        json.text(|text| text.words(self));
    }
}

impl ToJson for String {
    fn write(&self, json: &mut Json) {
        self.as_str().write(json);
    }
}

impl ToJson for Cow<'_, str> {
    fn write(&self, json: &mut Json) {
        self.as_ref().write(json);
    }
}

impl ToJson for f64 {
    fn write(&self, json: &mut Json) {
        if self.is_finite() { text::write_digits(&mut json.0, *self) } else { json.0.extend_from_slice(b"null") }
    }
}

impl ToJson for i64 {
    fn write(&self, json: &mut Json) {
        let _ = write!(json.0, "{self}");
    }
}

impl ToJson for bool {
    fn write(&self, json: &mut Json) {
        json.0.extend_from_slice(if *self { b"true" } else { b"false" });
    }
}

impl<T: ToJson> ToJson for [T] {
    fn write(&self, json: &mut Json) {
        json.list(self, |json, item| item.write(json));
    }
}

impl<T: ToJson> ToJson for Vec<T> {
    fn write(&self, json: &mut Json) {
        self.as_slice().write(json);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn written(value: &(impl ToJson + ?Sized)) -> String {
        String::from_utf8(value.bytes(0)).unwrap()
    }

    #[test]
    fn members_and_items_are_parted_by_commas() {
        let mut json = Json::with_room(0);
        json.object(|json| {
            json.member("none", &[0.0; 0][..]);
            json.name("in").object(|json| json.member("deep", "{"));
            json.name("empty").object(|_| ());
            json.member_if_some("absent", None::<&str>);
            json.member("last", &vec![true, false]);
        });
        let text = String::from_utf8(json.into_bytes()).unwrap();
        assert_eq!(text, r#"{"none":[],"in":{"deep":"{"},"empty":{},"last":[true,false]}"#);
    }

    proptest! {
        /// Held against serde_json, which writes everything else.
        #[test]
        fn values_are_written_as_serde_writes_them(words in "\\PC*|[\u{0}-\u{7f}]*", number in any::<f64>(), count in any::<i64>()) {
            prop_assert_eq!(written(words.as_str()), serde_json::to_string(&words).unwrap());
            prop_assert_eq!(written(&number), serde_json::to_string(&number).unwrap());
            prop_assert_eq!(written(&count), serde_json::to_string(&count).unwrap());
        }
    }
}
