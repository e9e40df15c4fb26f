//! One step of a machine's feed: a quill's are steps a turn, a table's steps a minute; both are taken.

use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::{FeedPerRev, FeedRate, Kind, Quantity, kind, pattern::pattern_of, shown, text};
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer, Error, IgnoredAny, MapAccess, Visitor};
use std::borrow::Cow;
use std::fmt;
use utoipa::openapi::schema::{ObjectBuilder, OneOfBuilder, Schema, Type};
use utoipa::openapi::{Ref, RefOr};
use utoipa::{PartialSchema, ToSchema};

/// One step of a feed gear, a turn or a minute.
#[derive(Clone, Copy, Debug)]
pub enum FeedStep {
    /// A feed per turn.
    PerRev(FeedPerRev),
    /// A feed per minute.
    PerMinute(FeedRate),
}

impl FeedStep {
    fn read(text: &str) -> Result<Self, Unread> {
        match FeedRate::read(text) {
            Ok(rate) => Ok(Self::PerMinute(rate)),
            Err(_) => FeedPerRev::read(text).map(Self::PerRev),
        }
    }

    /// The feed without its kind.
    pub fn quantity(&self) -> Quantity {
        match self {
            Self::PerRev(feed) => feed.quantity(),
            Self::PerMinute(rate) => rate.quantity(),
        }
    }

    /// The feed where it is one per minute.
    pub fn rate(&self) -> Option<FeedRate> {
        match self {
            Self::PerMinute(rate) => Some(*rate),
            Self::PerRev(_) => None,
        }
    }
}

struct StepVisitor;

impl<'de> Visitor<'de> for StepVisitor {
    type Value = FeedStep;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a feed such as \"0.1 mm/rev\" or \"100 mm/min\"")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<FeedStep, E> {
        FeedStep::read(text).map_err(carry)
    }

    fn visit_f64<E: Error>(self, value: f64) -> Result<FeedStep, E> {
        self.visit_str(&text::full(value))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<FeedStep, A::Error> {
        let (mut value, mut unit) = (None, String::new());
        while let Some(key) = map.next_key::<String>()? {
            match key.as_str() {
                "value" => value = Some(map.next_value::<f64>()?),
                "unit" => unit = map.next_value::<String>()?,
                // An answer's quantity can be sent back as it is.
                "text" => {
                    map.next_value::<IgnoredAny>()?;
                }
                other => {
                    let says = format!("\"{}\" is not a part of a feed step; it has value and unit.", shown(other));
                    let example = "0.1 mm/rev".into();
                    return Err(carry(Unread { code: Code::ValueUnreadable, says, try_this: example }));
                }
            }
        }
        self.visit_str(&format!("{} {unit}", value.map(text::full).unwrap_or_default()))
    }
}

impl<'de> Deserialize<'de> for FeedStep {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(StepVisitor)
    }
}

impl IntoTree for FeedStep {
    fn tree(&self) -> Option<Node> {
        Some(self.quantity().into())
    }
}

/// The name of the schema of the text form, by which an answer's description knows a quantity.
const TEXT: &str = "FeedStepText";
/// The name of the schema of the object form, which has no tolerance.
const VALUE: &str = "FeedStepValue";

impl FieldType for FeedStep {
    const TYPE: TypeFacts =
        TypeFacts::named::<Self>(Shape::QuantityOrName(None)).with_text(|| Ref::from_schema_name(TEXT).into());
}

impl PartialSchema for FeedStep {
    fn schema() -> RefOr<Schema> {
        OneOfBuilder::new()
            .item(Ref::from_schema_name(TEXT))
            .item(Ref::from_schema_name(VALUE))
            .description(Some("One feed of the machine, per revolution (`0.1 mm/rev`) or per minute (`100 mm/min`)."))
            .into()
    }
}

impl ToSchema for FeedStep {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed("FeedStep")
    }

    fn schemas(parts: &mut Vec<(String, RefOr<Schema>)>) {
        let text = ObjectBuilder::new()
            .schema_type(Type::String)
            .pattern(Some(pattern_of(&[kind::FeedPerRev::ROW, kind::FeedRate::ROW])))
            .description(Some("One feed of the machine, per revolution (`0.1 mm/rev`) or per minute (`100 mm/min`)."))
            .examples([serde_json::json!("0.1 mm/rev"), serde_json::json!("100 mm/min")]);
        parts.push((TEXT.to_owned(), text.into()));
        let words = |about: &str| ObjectBuilder::new().schema_type(Type::String).description(Some(about.to_owned()));
        let units = kind::FeedPerRev::ROW.units.iter().chain(kind::FeedRate::ROW.units).map(|unit| unit.spelling());
        let object = ObjectBuilder::new()
            .property("value", ObjectBuilder::new().schema_type(Type::Number).description(Some("The number.")))
            .property("unit", words("The unit of the number.").enum_values(Some(units.collect::<Vec<_>>())))
            .property("text", words("As an answer has it; not read."))
            .required("value")
            .required("unit")
            .description(Some("One feed of the machine as an object."));
        parts.push((VALUE.to_owned(), object.into()));
    }
}
