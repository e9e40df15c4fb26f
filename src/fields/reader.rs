//! serde's view of the fields: a deserializer of what a query or JSON gave.

use super::given::Given;
use super::read_error::ReadError;
use super::rows;
use crate::quantity::shown;
use crate::refusal::Code;
use serde::de::value::StrDeserializer;
use serde::de::{DeserializeSeed, Deserializer, IntoDeserializer, MapAccess, SeqAccess, Visitor};
use serde::forward_to_deserialize_any;
use std::borrow::Cow;

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
            Given::Null => Err(ReadError::new(Code::ValueEmpty, "null is not a value; leave the field out.")),
            Given::Text(text) if text.chars().all(char::is_whitespace) => Err(ReadError::new(
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

    /// An object may also be one text, its parts in declared order separated by commas.
    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, ReadError> {
        self.check()?;
        let read = match self.0 {
            Given::Text(text) => {
                let object = rows::named(text, fields).map_err(|says| ReadError::new(Code::ValueUnreadable, says))?;
                GivenReader(&object).deserialize_any(visitor)
            }
            _ => self.deserialize_any(visitor),
        };
        read.map_err(|error: ReadError| error.in_row(fields))
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
                format!("\"{}\" is not true or false.", shown(&self.0.said())),
            )),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        self.check()?;
        match self.0 {
            Given::Text(text) => visitor.visit_str(text.trim()),
            Given::Number(_) => visitor.visit_str(&self.0.said()),
            other => Err(ReadError::new(Code::ValueUnreadable, format!("Give words here, not {}.", other.said()))),
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        self.deserialize_string(visitor)
    }

    /// A list may also be one text, its items separated by commas.
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
