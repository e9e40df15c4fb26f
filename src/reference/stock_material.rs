//! A material as a rack or a stock list names it: one grade, or all that a word such as steel or brass covers. What is
//! asked of it is a range over all of them, so that the word need not be narrowed.

use super::material_aliases::alias;
use super::material_physical::{Physical, Property, physical};
use super::material_search::{of_ids, with_id, with_words};
use super::materials::Material;
use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::shown;
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use crate::working::Record;
use serde::de::{Deserialize, Deserializer};
use std::borrow::Cow;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// A material, as it was named.
#[derive(Clone, Debug)]
pub struct StockMaterial {
    said: String,
    /// The materials that the name covers: at least one.
    pub covers: Vec<&'static Material>,
}

impl StockMaterial {
    /// Reads a name that one or several materials have.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let named = |covers| Ok(Self { said: text.to_owned(), covers });
        if let Some(one) = with_id(text) {
            return named(vec![one]);
        }
        let covers = alias(text).map_or_else(|| with_words(text), |alias| of_ids(&alias.materials));
        if covers.is_empty() {
            let says = format!(
                "No material of the tables is called \"{}\". Names are listed at /v1/tables/materials; you can leave \
                 the material out and give the density.",
                shown(text)
            );
            return Err(Unread::new(Code::NotFound, says, "leave out"));
        }
        named(covers)
    }

    /// The range of a property over all that the name covers, with its least and greatest cited.
    pub fn range_of(
        &self,
        (property, name): (fn(&Physical) -> Property, &'static str),
        record: &mut Record,
    ) -> (f64, f64) {
        let rows: Vec<&'static Physical> = self.covers.iter().map(|material| physical(material)).collect();
        let least = rows.iter().min_by(|a, b| property(a).low.total_cmp(&property(b).low));
        let most = rows.iter().max_by(|a, b| property(a).high.total_cmp(&property(b).high));
        for row in [most, least].into_iter().flatten() {
            property(row).cite(record, name, row);
        }
        (least.map_or(0.0, |row| property(row).low), most.map_or(0.0, |row| property(row).high))
    }

    /// The materials it covers, in words; a long list is cut.
    pub fn listed(&self) -> String {
        const MOST: usize = 6;
        let names: Vec<&str> = self.covers.iter().take(MOST).map(|material| material.id).collect();
        let more = self.covers.len().saturating_sub(MOST);
        if more > 0 { format!("{} and {more} more", names.join(", ")) } else { names.join(", ") }
    }
}

impl<'de> Deserialize<'de> for StockMaterial {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::read(&String::deserialize(deserializer)?).map_err(carry)
    }
}

impl IntoTree for StockMaterial {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(self.said.clone().into(), None))
    }
}

impl FieldType for StockMaterial {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Words);
}

impl PartialSchema for StockMaterial {
    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .min_length(Some(1))
            .description(Some(
                "A material by its short name, a designation, or a word that covers several: `1018`, `EN AW-6061`, \
                 `brass`.",
            ))
            .into()
    }
}

impl ToSchema for StockMaterial {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed("StockMaterial")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_covers_all_that_have_it() {
        let read = |text| StockMaterial::read(text).expect("a material");
        assert_eq!(read("6061").covers.len(), 1);
        assert_eq!(read("EN AW-6061").covers[0].id, "6061");
        assert_eq!(read("brass").covers.len(), 4);
        let density: (fn(&Physical) -> Property, _) = (|row| row.density, "density");
        assert_eq!(read("brass").range_of(density, &mut Record::new(false)), (8410.0, 8530.0));
        assert!(read("brass").listed().contains("c36000"));
        assert_eq!(StockMaterial::read("unobtainium").unwrap_err().code, Code::NotFound);
    }
}
