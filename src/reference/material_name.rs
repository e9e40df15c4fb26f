//! A work material as a request names it: by short name, AISI, UNS or EN designation, number or
//! plain words, as long as they mean one material.

use super::materials::{Material, materials, search};
use crate::declared::{FieldType, Shape, TypeFacts};
use crate::fields::likeness;
use crate::quantity::shown;
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer};
use std::borrow::Cow;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// A material that was named.
#[derive(Clone, Copy, Debug)]
pub struct WorkMaterial(pub &'static Material);

impl WorkMaterial {
    /// Reads a name that means one material.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let found = search(text);
        match found.as_slice() {
            [one] => Ok(Self(one)),
            [] => Err(Unread {
                code: Code::NotFound,
                says: format!("No material of the table is called \"{}\".", shown(text)),
                try_this: nearest(text).to_owned(),
            }),
            [first, ..] => {
                let names: Vec<&str> = found.iter().map(|material| material.id).collect();
                let says = format!("\"{}\" can mean {}: which?", shown(text), listed(&names));
                Err(Unread { code: Code::ValueAmbiguous, says, try_this: first.id.to_owned() })
            }
        }
    }
}

/// A list in words; a long one is cut.
fn listed(names: &[&str]) -> String {
    const MOST: usize = 8;
    if names.len() > MOST {
        format!("{} and {} more", names[..MOST].join(", "), names.len() - MOST)
    } else {
        names.join(" or ")
    }
}

fn nearest(text: &str) -> &'static str {
    let said = text.trim().to_lowercase();
    let near = materials().iter().map(|m| (likeness(&said, m.id), m.id));
    near.filter(|(near, _)| *near > 0.75).max_by(|a, b| a.0.total_cmp(&b.0)).map_or("4140-annealed", |(_, id)| id)
}

impl<'de> Deserialize<'de> for WorkMaterial {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::read(&String::deserialize(deserializer)?).map_err(carry)
    }
}

impl IntoTree for WorkMaterial {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(Cow::Borrowed(self.0.id), None))
    }
}

impl FieldType for WorkMaterial {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Words);
}

impl PartialSchema for WorkMaterial {
    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .min_length(Some(1))
            .description(Some(
                "A work material by its short name, AISI, UNS or EN designation, number, or words that mean one of the \
                 materials: `4140 annealed`, `C45`, `1.4301`.",
            ))
            .into()
    }
}

impl ToSchema for WorkMaterial {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed("WorkMaterial")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_means_several_asks_which() {
        let unread = WorkMaterial::read("42CrMo4").unwrap_err();
        assert_eq!((unread.code, unread.try_this.as_str()), (Code::ValueAmbiguous, "4140-annealed"));
        assert!(unread.says.contains("4140-annealed or 4140-prehardened"));
        let unread = WorkMaterial::read("4140-anealed").unwrap_err();
        assert_eq!((unread.code, unread.try_this.as_str()), (Code::NotFound, "4140-annealed"));
        assert_eq!(WorkMaterial::read("1.4301").unwrap().0.id, "304");
    }
}
