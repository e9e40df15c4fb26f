//! A drill as a request names it, in the trade's words: `No.7`, `letter F`, `27/64`, `6.8 mm`.

use crate::calculators::prelude::*;
use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::pattern::pattern_or;
use crate::reference::drills::{Drill, DrillUnit, NAME_PATTERN, named};
use crate::refusal::{Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// A drill by its name.
#[derive(Clone, Copy, Debug)]
pub struct DrillName(pub &'static Drill);

impl DrillName {
    /// Finds the drill that `text` names.
    pub fn read(text: &str) -> Result<Self, Unread> {
        if let Some(drill) = named(text) {
            return Ok(Self(drill));
        }
        let meant = [format!("No.{}", text.trim()), format!("{} mm", text.trim())];
        Err(Unread {
            code: Code::NotFound,
            says: format!("There is no drill named \"{}\".", shown(text)),
            try_this: meant.into_iter().find(|name| named(name).is_some()).unwrap_or_else(|| "No.7".into()),
        })
    }
}

impl<'de> Deserialize<'de> for DrillName {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::read(&String::deserialize(deserializer)?).map_err(carry)
    }
}

impl IntoTree for DrillName {
    fn tree(&self) -> Option<Node> {
        let system = match self.0.unit {
            DrillUnit::Inch => System::Inch,
            DrillUnit::Millimetre => System::Metric,
        };
        Some(Node::Text(self.0.name.into(), Some(system)))
    }
}

impl FieldType for DrillName {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Words);
}

impl PartialSchema for DrillName {
    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .pattern(Some(pattern_or(kind::Size::ROW, NAME_PATTERN)))
            .description(Some("A drill by the trade's name: No.7, letter F, 27/64, 6.8 mm; or several separated by |."))
            .examples([serde_json::json!("No.7")])
            .into()
    }
}

impl ToSchema for DrillName {}
