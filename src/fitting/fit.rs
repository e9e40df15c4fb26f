//! A fit as a drawing names it: `25 mm H7/g6`, `25 H7`, `⌀25 g6`.

use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::{Size, shown, text};
use crate::reference::fits::ToleranceClass;
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// Longer than any fit.
const LONGEST: usize = 60;

/// A fit to try.
const GOOD: &str = "25 mm H7/g6";

/// A size with the tolerance class of a hole, of a shaft, or of both.
#[derive(Clone, Debug)]
pub struct Fit {
    /// The nominal size.
    pub size: Size,
    /// The class of the hole.
    pub hole: Option<ToleranceClass>,
    /// The class of the shaft.
    pub shaft: Option<ToleranceClass>,
}

fn unread(code: Code, says: String) -> Unread {
    Unread { code, says, try_this: GOOD.into() }
}

impl Fit {
    /// Reads a size and one class, or two in either order. A size without a unit is in millimeters, as the standard
    /// counts.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let said = shown(text);
        if text.trim().is_empty() {
            return Err(unread(Code::ValueEmpty, "Name a size and a tolerance class.".into()));
        }
        if text.chars().count() > LONGEST {
            return Err(unread(Code::ValueUnreadable, format!("A fit has at most {LONGEST} characters.")));
        }
        let text = text.trim().trim_start_matches(['Ø', 'ø', '⌀', '∅']).trim_start();
        let Some((at, classes)) = classes(text) else {
            let says = format!("\"{said}\" names no tolerance class such as H7 for a hole or g6 for a shaft.");
            return Err(unread(Code::ValueUnreadable, says));
        };
        let size = text[..at].trim();
        let size =
            if size.ends_with(|c: char| c.is_ascii_digit() || c == '.') { format!("{size} mm") } else { size.into() };
        let size = Size::read(&size).map_err(|unread| Unread { try_this: GOOD.into(), ..unread })?;
        if size.quantity().tolerance.is_some() {
            return Err(unread(
                Code::Conflict,
                "The classes are the tolerance: give the size alone before them.".into(),
            ));
        }
        let (mut hole, mut shaft) = (None, None);
        for class in classes {
            let place = if class.is_hole { &mut hole } else { &mut shaft };
            if place.replace(class).is_some() {
                let part = if class.is_hole { "hole" } else { "shaft" };
                return Err(unread(Code::Conflict, format!("\"{said}\" names two classes for the {part}.")));
            }
        }
        Ok(Self { size, hole, shaft })
    }

    /// The size as it was stated.
    pub fn size_text(&self) -> String {
        let size = self.size.quantity();
        format!("{} {}", text::full(size.value), size.unit.row().ascii)
    }

    /// The classes as a drawing writes them.
    pub fn classes(&self) -> String {
        let classes = [self.hole, self.shaft].into_iter().flatten().map(|class| class.to_string());
        classes.collect::<Vec<_>>().join("/")
    }

    /// The fit as a drawing writes it.
    pub fn text(&self) -> String {
        format!("{} {}", self.size_text(), self.classes())
    }
}

/// Where the classes begin, and what they are: letters and figures, with a stroke, a hyphen or a space between them.
fn classes(text: &str) -> Option<(usize, Vec<ToleranceClass>)> {
    let starts = text.char_indices().filter(|(_, c)| c.is_ascii_alphabetic()).map(|(at, _)| at);
    starts.filter(|at| !text[..*at].ends_with(|c: char| c.is_ascii_alphabetic())).find_map(|at| {
        let (mut rest, mut classes) = (&text[at..], Vec::new());
        while !rest.is_empty() {
            let figures = rest.find(|c: char| c.is_ascii_digit())?;
            let end = rest[figures..].find(|c: char| !c.is_ascii_digit()).map_or(rest.len(), |length| figures + length);
            classes.push(ToleranceClass::read(&rest[..end])?);
            rest = rest[end..].trim_start_matches(['/', '-', ' ']);
        }
        Some((at, classes))
    })
}

impl<'de> Deserialize<'de> for Fit {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::read(&String::deserialize(deserializer)?).map_err(carry)
    }
}

impl IntoTree for Fit {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(self.text().into(), self.size.quantity().unit.system()))
    }
}

impl FieldType for Fit {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Words);
}

impl PartialSchema for Fit {
    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .min_length(Some(1))
            .description(Some(
                "A size with a tolerance class of a hole, of a shaft or of both: 25 mm H7/g6, 25 H7, 25 g6.",
            ))
            .examples([serde_json::json!(GOOD)])
            .into()
    }
}

impl ToSchema for Fit {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fit_is_read_as_drawings_write_it() {
        for (text, as_read) in [
            ("25 mm H7/g6", "25 mm H7/g6"),
            ("25H7", "25 mm H7"),
            ("⌀25 g6", "25 mm g6"),
            ("40 H7g6", "40 mm H7/g6"),
            ("1 in H7-g6", "1 in H7/g6"),
            ("1-1/2 in g6/H7", "1.5 in H7/g6"),
            ("12.5 js5", "12.5 mm js5"),
        ] {
            assert_eq!(Fit::read(text).map(|fit| fit.text()), Ok(as_read.to_owned()), "{text}");
        }
        for text in ["", "25", "25 mm", "H7/g6", "25 H7/G7", "25 H25", "25 ±0.1 H7", "0 H7", "-5 h6", "25 Hg7"] {
            assert!(Fit::read(text).is_err_and(|unread| unread.try_this == GOOD), "{text}");
        }
    }
}
