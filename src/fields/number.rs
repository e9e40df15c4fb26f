//! A plain number above zero, without a unit: an exponent, a price. Read from text or JSON alike.

use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::shown;
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer, Error, Visitor};
use std::borrow::Cow;
use std::fmt;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, SchemaType, Type};
use utoipa::{PartialSchema, ToSchema};

/// The greatest number taken.
const MOST: f64 = 1e9;
/// The least number taken.
const LEAST: f64 = 1e-9;

/// A number above zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlainNumber(f64);

impl PlainNumber {
    /// The number.
    pub const fn get(self) -> f64 {
        self.0
    }

    /// A number that the service itself states.
    pub const fn stated(value: f64) -> Self {
        Self(value)
    }

    fn read(text: &str) -> Result<Self, Unread> {
        let refuse = |code, says| Err(Unread { code, says, try_this: String::new() });
        match text.trim().parse::<f64>() {
            Ok(number) if (LEAST..=MOST).contains(&number) => Ok(Self(number)),
            Ok(number) if number.is_finite() => {
                refuse(Code::ValueOutOfRange, format!("\"{}\" is not above 0 and up to 1000000000.", shown(text)))
            }
            _ => refuse(Code::ValueUnreadable, format!("\"{}\" is not a plain number, without a unit.", shown(text))),
        }
    }
}

struct NumberVisitor;

impl Visitor<'_> for NumberVisitor {
    type Value = PlainNumber;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a plain number")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<PlainNumber, E> {
        PlainNumber::read(text).map_err(carry)
    }

    fn visit_f64<E: Error>(self, number: f64) -> Result<PlainNumber, E> {
        PlainNumber::read(&number.to_string()).map_err(carry)
    }
}

impl<'de> Deserialize<'de> for PlainNumber {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(NumberVisitor)
    }
}

impl IntoTree for PlainNumber {
    fn tree(&self) -> Option<Node> {
        Some(Node::Number(self.0))
    }
}

impl FieldType for PlainNumber {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Number);
}

impl PartialSchema for PlainNumber {
    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(SchemaType::Type(Type::Number))
            .exclusive_minimum(Some(0.0))
            .maximum(Some(MOST))
            .description(Some("A plain number above zero, without a unit."))
            .into()
    }
}

impl ToSchema for PlainNumber {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed("PlainNumber")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plain_number_is_above_zero_and_has_no_unit() {
        assert_eq!(PlainNumber::read(" 0.25 ").map(PlainNumber::get), Ok(0.25));
        for text in ["0", "-1", "1e12", "1e-30"] {
            assert_eq!(PlainNumber::read(text).unwrap_err().code, Code::ValueOutOfRange, "{text}");
        }
        for text in ["", "NaN", "inf", "1 in", "1,5"] {
            assert_eq!(PlainNumber::read(text).unwrap_err().code, Code::ValueUnreadable, "{text}");
        }
    }
}
