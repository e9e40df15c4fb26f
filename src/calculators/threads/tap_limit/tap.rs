//! A tap as a request names it, by what is marked on it.

use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::pattern::listed;
use crate::reference::threads::{TAP_PATTERN, TapName};
use crate::refusal::carry;
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// A tap by its marking.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tap(pub TapName);

impl<'de> Deserialize<'de> for Tap {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        TapName::read(&String::deserialize(deserializer)?).map(Self).map_err(carry)
    }
}

impl IntoTree for Tap {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(self.0.text().into(), None))
    }
}

impl FieldType for Tap {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Words);
}

impl PartialSchema for Tap {
    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .pattern(Some(listed(TAP_PATTERN)))
            .description(Some("A tap by its marking: H3 or GH3, L1, D5, ISO 2."))
            .examples([serde_json::json!("H3")])
            .into()
    }
}

impl ToSchema for Tap {}
