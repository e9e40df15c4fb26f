//! A drill's diameter as a request states it: a length, or the trade's name for a drill (`#7`, `F`,
//! `27/64`).

use super::drills::{Drill, DrillSystem, DrillUnit, NAME_PATTERN, named};
use crate::declared::{FieldType, HasSize, HasUnit, Shape, TypeFacts};
use crate::quantity::pattern::pattern_or;
use crate::quantity::{FoundSize, Kind, Measure, Size, Unit, kind, value_name};
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Leaf, Node};
use serde::de::{Deserialize, Deserializer, Error, MapAccess, Visitor};
use std::borrow::Cow;
use std::fmt;
use utoipa::openapi::schema::{ObjectBuilder, OneOfBuilder, Schema, Type};
use utoipa::openapi::{Ref, RefOr};
use utoipa::{PartialSchema, ToSchema};

/// A drill's diameter, with the drill's name if it was given by name.
#[derive(Clone, Copy, Debug)]
pub struct DrillDiameter {
    /// The diameter.
    pub size: Size,
    /// The drill it was named as.
    pub drill: Option<&'static Drill>,
}

impl Drill {
    /// The drill's diameter as stated in its table.
    pub fn size(&self) -> Size {
        Size::stated(self.diameter, self.stated_in())
    }

    /// The drill's diameter as a result.
    pub fn found(&self) -> FoundSize {
        FoundSize::stated(self.diameter, self.stated_in())
    }

    fn stated_in(&self) -> Unit {
        match self.unit {
            DrillUnit::Inch => Unit::Inch,
            DrillUnit::Millimetre => Unit::Millimetre,
        }
    }
}

impl DrillDiameter {
    /// Reads a name of the trade or a length.
    pub fn read(text: &str) -> Result<Self, Unread> {
        // A size with a unit is a length, even where a drill of that size has the same name.
        let text = text.trim();
        let begins_as_name = text.starts_with(|c: char| c.is_alphabetic() || c == '#');
        if (begins_as_name || text.contains('/'))
            && let Some(drill) = named(text)
        {
            return Ok(Self { size: drill.size(), drill: Some(drill) });
        }
        let is_word = |word: &&str| text.get(..word.len()).is_some_and(|head| head.eq_ignore_ascii_case(word));
        if begins_as_name && (text.len() == 1 || ["#", "no", "number", "letter"].iter().any(is_word)) {
            return Err(Unread {
                code: Code::NotFound,
                says: format!("There is no drill named \"{}\".", crate::quantity::shown(text)),
                try_this: "No.7".into(),
            });
        }
        Measure::<kind::Size>::read(text).map(|size| Self { size, drill: None })
    }
}

impl IntoTree for DrillDiameter {
    fn tree(&self) -> Option<Node> {
        let name = self.drill.map(|drill| Cow::Borrowed(drill.name));
        Some(Node::Quantity(Leaf { quantity: self.size.quantity(), name, set: None, range: None }))
    }
}

impl IntoTree for DrillSystem {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(Cow::Borrowed(self.as_str()), None))
    }
}

impl<'de> Deserialize<'de> for DrillDiameter {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(DrillVisitor)
    }
}

struct DrillVisitor;

impl<'de> Visitor<'de> for DrillVisitor {
    type Value = DrillDiameter;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a drill's name or a length")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Self::Value, E> {
        DrillDiameter::read(text).map_err(carry)
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<Self::Value, E> {
        self.visit_str(&crate::quantity::text::full(value))
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Self::Value, A::Error> {
        let size = Size::deserialize(serde::de::value::MapAccessDeserializer::new(map))?;
        Ok(DrillDiameter { size, drill: None })
    }
}

/// The name of the schema of the text form.
const TEXT: &str = "DrillDiameterText";

impl FieldType for DrillDiameter {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::QuantityOrName(Some(kind::Size::ROW)))
        .with_text(|| Ref::from_schema_name(TEXT).into());
}

impl HasUnit for DrillDiameter {
    fn unit(&self) -> Unit {
        self.size.quantity().unit
    }
}

impl HasSize for DrillDiameter {
    fn size(&self) -> Option<f64> {
        self.size.size()
    }
}

impl PartialSchema for DrillDiameter {
    fn schema() -> RefOr<Schema> {
        OneOfBuilder::new()
            .item(Ref::from_schema_name(TEXT))
            .item(Ref::from_schema_name(value_name(kind::Size::ROW)))
            .description(Some("A drill's diameter: a length, or the trade's name for a drill."))
            .examples([serde_json::json!("0.5 in"), serde_json::json!("No.7")])
            .into()
    }
}

impl ToSchema for DrillDiameter {
    fn schemas(parts: &mut Vec<(String, RefOr<Schema>)>) {
        let text = ObjectBuilder::new()
            .schema_type(Type::String)
            .pattern(Some(pattern_or(kind::Size::ROW, NAME_PATTERN)))
            .description(Some(
                "A drill's diameter: a length, or the trade's name for a drill, as No.7, letter F, 27/64. In an address \
                 # is written %23, or No. stands for it. Several parted by | ask for a table.",
            ))
            .examples([serde_json::json!("0.5 in"), serde_json::json!("No.7")]);
        parts.push((TEXT.to_owned(), text.into()));
        Size::schemas(parts);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_lengths_are_told_apart() {
        let read = |text: &str| DrillDiameter::read(text).unwrap();
        assert_eq!(read("#7").drill.unwrap().name, "#7");
        assert_eq!(read("No.7").size.quantity().value, 0.201);
        assert_eq!(read("F").size.quantity().value, 0.257);
        assert_eq!(read("27/64").size.quantity().value, 0.421875);
        assert_eq!(read("12.7 mm").drill, None);
        assert_eq!(DrillDiameter::read("7").unwrap_err().code, Code::UnitMissing);
        assert_eq!(DrillDiameter::read("#200").unwrap_err().code, Code::NotFound);
        assert_eq!(DrillDiameter::read("").unwrap_err().code, Code::ValueEmpty);
        assert_eq!(DrillDiameter::read("-1/2").unwrap_err().code, Code::UnitMissing);
    }
}
