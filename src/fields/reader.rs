//! serde's view of the fields: a deserializer whose errors know the field, the code and a way out.

use super::given::Given;
use super::rows;
use crate::quantity::shown;
use crate::refusal::{Code, Wrong, code_named};
use serde::de::value::StrDeserializer;
use serde::de::{self, DeserializeSeed, Deserializer, IntoDeserializer, MapAccess, SeqAccess, Unexpected, Visitor};
use serde::forward_to_deserialize_any;
use std::borrow::Cow;
use std::fmt;

/// Why a field could not be read.
#[derive(Debug)]
pub struct ReadError {
    /// From the innermost place outwards.
    path: Vec<String>,
    code: Code,
    says: String,
    try_this: Option<String>,
}

impl ReadError {
    fn new(code: Code, says: impl Into<String>) -> Self {
        Self { path: Vec::new(), code, says: says.into(), try_this: None }
    }

    fn at(mut self, place: impl Into<String>) -> Self {
        self.path.push(place.into());
        self
    }

    /// As a wrong of a refusal; `good` finds a value to try where the error has none.
    pub fn wrong(self, good: impl Fn(&str) -> Option<&'static str>) -> Wrong {
        let mut field = String::new();
        for place in self.path.iter().rev() {
            field.push('/');
            field.push_str(&place.replace('~', "~0").replace('/', "~1"));
        }
        let name = self.path.last().map(String::as_str).unwrap_or_default();
        let try_this = self.try_this.or_else(|| good(name).map(str::to_owned));
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
        // Structured errors come through serde as fields parted by the unit separator.
        let mut parts = text.strip_prefix('\u{1f}').unwrap_or("").splitn(3, '\u{1f}');
        if let (Some(code), Some(says), Some(value)) = (parts.next(), parts.next(), parts.next()) {
            let mut error = Self::new(code_named(code), says);
            error.try_this = (!value.is_empty()).then(|| value.to_owned());
            return error;
        }
        Self::new(Code::ValueUnreadable, format!("The value is not of the right form: {text}."))
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
        Self::new(Code::ValueUnreadable, format!("Here stands {stands}, where {wanted} is wanted."))
    }

    fn missing_field(field: &'static str) -> Self {
        Self::new(Code::FieldMissing, format!("The field {field} is needed.")).at(field)
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
        let mut error =
            Self::new(Code::ValueUnreadable, format!("\"{}\" is not one of {}.", shown(variant), expected.join(", ")));
        error.try_this = nearest(variant, expected.iter().copied()).or(expected.first().copied()).map(str::to_owned);
        error
    }

    fn duplicate_field(field: &'static str) -> Self {
        Self::new(Code::FieldRepeated, format!("The field {field} is there more than once.")).at(field)
    }
}

/// The name nearest to `wanted`, if any is near.
pub fn nearest<'n>(wanted: &str, names: impl Iterator<Item = &'n str>) -> Option<&'n str> {
    names
        .map(|name| (strsim::jaro_winkler(wanted, name), name))
        .filter(|(near, _)| *near > 0.7)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, name)| name)
}

/// Reads a request's fields.
pub struct FieldsReader<'f, 'a>(pub &'f [(Cow<'a, str>, Given<'a>)]);

impl<'de> Deserializer<'de> for FieldsReader<'_, '_> {
    type Error = ReadError;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        visitor.visit_map(Members { rest: self.0.iter(), value: None })
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf option unit
        unit_struct newtype_struct seq tuple tuple_struct map struct enum identifier ignored_any
    }
}

struct Members<'f, 'a> {
    rest: std::slice::Iter<'f, (Cow<'a, str>, Given<'a>)>,
    value: Option<(&'f str, &'f Given<'a>)>,
}

impl<'de> MapAccess<'de> for Members<'_, '_> {
    type Error = ReadError;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, ReadError> {
        let Some((name, value)) = self.rest.next() else { return Ok(None) };
        self.value = Some((name, value));
        let name: StrDeserializer<ReadError> = name.as_ref().into_deserializer();
        seed.deserialize(name).map(Some)
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, ReadError> {
        let (name, value) = self.value.take().ok_or_else(|| ReadError::new(Code::ValueUnreadable, "No value."))?;
        seed.deserialize(GivenReader(value)).map_err(|error| error.at(name))
    }
}

/// Reads one value.
struct GivenReader<'f, 'a>(&'f Given<'a>);

impl GivenReader<'_, '_> {
    /// Refuses what is no value at all, before anything reads it.
    fn check(&self) -> Result<(), ReadError> {
        match self.0 {
            Given::Null => Err(ReadError::new(Code::ValueEmpty, "null is no value; leave the field out.")),
            Given::Text(text) if text.trim().is_empty() => Err(ReadError::new(
                Code::ValueEmpty,
                "The value is empty. In an address a # must be written %23 and a + must be written %2B.",
            )),
            _ => Ok(()),
        }
    }

    fn whole_number(&self) -> Result<f64, ReadError> {
        self.check()?;
        let value = match self.0 {
            Given::Number(number) => Some(*number),
            Given::Text(text) => text.trim().parse::<f64>().ok(),
            _ => None,
        };
        match value {
            Some(number) if number.fract() == 0.0 && number.abs() < 1e15 => Ok(number),
            _ => Err(ReadError::new(
                Code::ValueUnreadable,
                format!("\"{}\" is not a whole number.", shown(&self.0.said())),
            )),
        }
    }
}

impl<'de> Deserializer<'de> for GivenReader<'_, '_> {
    type Error = ReadError;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        self.check()?;
        match self.0 {
            Given::Null => visitor.visit_unit(),
            Given::Truth(truth) => visitor.visit_bool(*truth),
            Given::Number(number) => visitor.visit_f64(*number),
            Given::Text(text) => visitor.visit_str(text),
            Given::List(items) => visitor.visit_seq(Items { rest: items.iter(), at: 0 }),
            Given::Object(members) => visitor.visit_map(Members { rest: members.iter(), value: None }),
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        visitor.visit_some(self)
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, ReadError> {
        let rows = match self.0 {
            Given::Text(text) if name == rows::NAME => {
                self.check()?;
                Some(rows::parted(text).map_err(|says| ReadError::new(Code::ValueUnreadable, says))?)
            }
            given if name == rows::NAME => rows::as_list(given),
            _ => None,
        };
        match rows {
            Some(rows) => visitor.visit_newtype_struct(GivenReader(&rows)),
            None => visitor.visit_newtype_struct(self),
        }
    }

    /// An object may also be one text, its parts in declared order parted by commas.
    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, ReadError> {
        self.check()?;
        match self.0 {
            Given::Text(text) => {
                let object = rows::named(text, fields).map_err(|says| ReadError::new(Code::ValueUnreadable, says))?;
                GivenReader(&object).deserialize_any(visitor)
            }
            _ => self.deserialize_any(visitor),
        }
    }

    fn deserialize_u32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        let number = self.whole_number()?;
        if !(0.0..=f64::from(u32::MAX)).contains(&number) {
            return Err(ReadError::new(
                Code::ValueOutOfRange,
                format!("\"{}\" is not a count.", shown(&self.0.said())),
            ));
        }
        visitor.visit_u32(number as u32)
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        self.check()?;
        let truth = match self.0 {
            Given::Truth(truth) => Some(*truth),
            Given::Text(text) => text.trim().parse().ok(),
            _ => None,
        };
        match truth {
            Some(truth) => visitor.visit_bool(truth),
            None => Err(ReadError::new(
                Code::ValueUnreadable,
                format!("\"{}\" is neither true nor false.", shown(&self.0.said())),
            )),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        self.check()?;
        match self.0 {
            Given::Text(text) => visitor.visit_str(text.trim()),
            Given::Number(_) => visitor.visit_str(&self.0.said()),
            other => Err(ReadError::new(
                Code::ValueUnreadable,
                format!("Here stands {}, where words are wanted.", other.said()),
            )),
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        self.deserialize_string(visitor)
    }

    /// A list may also be one text, its items parted by commas.
    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        self.check()?;
        match self.0 {
            Given::Text(text) => {
                let items: Vec<Given> = text.split(',').map(|item| Given::Text(item.into())).collect();
                visitor.visit_seq(Items { rest: items.iter(), at: 0 })
            }
            _ => self.deserialize_any(visitor),
        }
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, ReadError> {
        self.check()?;
        let said = self.0.said().trim().to_lowercase();
        let word: StrDeserializer<ReadError> = said.as_str().into_deserializer();
        visitor.visit_enum(word)
    }

    forward_to_deserialize_any! {
        i8 i16 i32 i64 i128 u8 u16 u64 u128 f32 f64 char bytes byte_buf unit
        unit_struct tuple tuple_struct map identifier ignored_any
    }
}

struct Items<'f, 'a> {
    rest: std::slice::Iter<'f, Given<'a>>,
    at: usize,
}

impl<'de> SeqAccess<'de> for Items<'_, '_> {
    type Error = ReadError;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, ReadError> {
        let Some(item) = self.rest.next() else { return Ok(None) };
        let at = self.at;
        self.at += 1;
        seed.deserialize(GivenReader(item)).map(Some).map_err(|error| error.at(at.to_string()))
    }
}
