//! A work material as a request names it: by short name, AISI, UNS or EN designation, number or plain words, as long
//! as they mean one material. A name that does not is never read as another metal.

use super::material_aliases::{Alias, Relation, alias};
use super::material_search::{careful, of_ids, with_id, with_words};
use super::materials::Material;
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

/// The way out where no material can be shown: the field may be left out beside a cutting speed.
const LEAVE_OUT: &str = "leave out";

/// Where names are found, and what does without one.
const HOW_TO_NAME: &str = "Names are listed at /v1/tables/materials and found by speeds/materials; without a material \
                           give the cutting speed and the feed from the tool maker's data.";

impl WorkMaterial {
    /// Reads a name that means one material.
    pub fn read(text: &str) -> Result<Self, Unread> {
        if let Some(one) = with_id(text) {
            return Ok(Self(one));
        }
        if let Some(alias) = alias(text) {
            return by_alias(text, alias);
        }
        let found = with_words(text);
        match found.as_slice() {
            [one] => Ok(Self(one)),
            [] => Err(unknown(text)),
            _ => Err(which(text, "", &found)),
        }
    }
}

fn by_alias(text: &str, alias: &Alias) -> Result<WorkMaterial, Unread> {
    let found = of_ids(&alias.materials);
    let refused = |code, says: String| {
        let try_this = careful(&found).map_or(LEAVE_OUT, |material| material.id);
        Err(Unread::new(code, says, try_this))
    };
    let said = shown(text);
    let differs = if alias.says.is_empty() { String::new() } else { format!(" ({})", alias.says) };
    match (alias.relation, found.as_slice()) {
        (Relation::Same, [one]) => Ok(WorkMaterial(one)),
        (Relation::Same, _) => Err(which(text, "", &found)),
        (Relation::Near, _) => refused(
            Code::NotFound,
            format!(
                "\"{said}\" is near {}, not the same{differs}: give {} if that will do.",
                listed(&found, "and"),
                listed(&found, "or")
            ),
        ),
        (Relation::Ask, []) => refused(Code::ValueAmbiguous, format!("{} {HOW_TO_NAME}", open(&said, alias.says))),
        (Relation::Ask, _) => Err(which(text, alias.says, &found)),
        (Relation::Known, _) => refused(
            Code::NotOffered,
            format!("\"{said}\" is known, {}, but the tables have no speeds for it. {HOW_TO_NAME}", alias.says),
        ),
    }
}

fn open(said: &str, question: &str) -> String {
    format!("\"{said}\" can be more than one material. {question}")
}

/// Several materials are meant: which? The one that is hardest to cut is shown, as the careful one; none is where the
/// tables have only one of those that are meant.
fn which(text: &str, question: &str, found: &[&'static Material]) -> Unread {
    let said = shown(text);
    let says = match (question, found) {
        ("", _) => format!("\"{said}\" can mean {}: which?", listed(found, "or")),
        (_, [one]) => format!("{} The tables have only {}: give that if it is meant.", open(&said, question), one.id),
        _ => format!("{} Of the tables it can be {}.", open(&said, question), listed(found, "or")),
    };
    let try_this = if found.len() > 1 { careful(found) } else { None };
    Unread::new(Code::ValueAmbiguous, says, try_this.map_or(LEAVE_OUT, |material| material.id))
}

/// A list in words; a long one is cut.
fn listed(found: &[&'static Material], last: &str) -> String {
    const MOST: usize = 8;
    let names: Vec<&str> = found.iter().map(|material| material.id).collect();
    if names.len() > MOST {
        format!("{} and {} more", names[..MOST].join(", "), names.len() - MOST)
    } else {
        names.join(&format!(" {last} "))
    }
}

/// No material is called so. Only one whose number stands in the text is shown, such as 7075 for 7075-T651.
fn unknown(text: &str) -> Unread {
    let said = shown(text);
    match same_number(text) {
        Some(near) => {
            let says = format!("No material of the tables is called \"{said}\"; is it {}? {HOW_TO_NAME}", near.id);
            Unread::new(Code::NotFound, says, near.id)
        }
        None => {
            let says = format!("No material of the tables is called \"{said}\". {HOW_TO_NAME}");
            Unread::new(Code::NotFound, says, LEAVE_OUT)
        }
    }
}

/// The material that the beginning of a text names by a number of three digits or more, when what follows is not
/// known; of several the one that is spelled most like the text.
fn same_number(text: &str) -> Option<&'static Material> {
    let parts: Vec<&str> =
        text.split(|c: char| c.is_whitespace() || c == '-').filter(|part| !part.is_empty()).collect();
    for end in (1..parts.len()).rev() {
        let begins = parts[..end].join(" ");
        if begins.chars().filter(char::is_ascii_digit).count() < 3 {
            continue;
        }
        let found = match (with_id(&begins), alias(&begins)) {
            (Some(one), _) => vec![one],
            (None, Some(alias)) if alias.relation == Relation::Same => of_ids(&alias.materials),
            (None, Some(_)) => return None,
            (None, None) => with_words(&begins),
        };
        let said = text.trim().to_lowercase();
        let alike = |material: &Material| likeness(&said, material.id);
        if let Some(most) = found.into_iter().max_by(|a, b| alike(a).total_cmp(&alike(b))) {
            return Some(most);
        }
    }
    None
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
                 materials: `4140 annealed`, `G10180`, `EN AW-6061`. Any text; the short names are listed at \
                 /v1/tables/materials and other designations at /v1/tables/material_aliases. One that is only near a \
                 material of the tables is refused and says which it is near.",
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
mod tests;
