//! Circles of the usual index plates and the usual change gears of a dividing head, from data/index_plates.csv, and
//! plates as a person writes their circles down.

use super::{rows_of, source_key};
use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::{pattern::listed, shown};
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::Deserialize;
use serde::de::Deserializer;
use std::sync::LazyLock;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// The sets of the table: as people call them, and as the table does.
const SETS: [(&str, &str); 4] = [
    ("three plates", "three_plates"),
    ("two sides", "two_sides"),
    ("wide range", "wide_range"),
    ("high numbers", "high_numbers"),
];

/// One side of an index plate: circles that can be used together.
#[derive(Clone, Debug, PartialEq)]
pub struct PlateSide {
    /// What it is called.
    pub name: String,
    /// How many holes each of its circles has.
    pub circles: Vec<u32>,
}

/// A row of the table.
#[derive(Debug, Deserialize, PartialEq)]
pub struct PlateRow {
    set: String,
    part: String,
    numbers: String,
    source: String,
    /// How far it can be relied on.
    pub trust: String,
}

impl PlateRow {
    /// Key of its source.
    pub fn source(&self) -> &'static str {
        source_key(&self.source)
    }

    fn numbers(&self) -> Vec<u32> {
        self.numbers.split(' ').filter_map(|number| number.parse().ok()).collect()
    }
}

fn rows(set: &str) -> impl Iterator<Item = &'static PlateRow> {
    static ROWS: LazyLock<Vec<PlateRow>> =
        LazyLock::new(|| rows_of(include_str!("../../data/index_plates.csv")).collect());
    ROWS.iter().filter(move |row| row.set == set)
}

/// The change gears usual with a dividing head, and their row.
pub fn usual_gears() -> Option<(Vec<u32>, &'static PlateRow)> {
    rows("gears").next().map(|row| (row.numbers(), row))
}

/// Fewest and most holes of a circle.
const HOLES: std::ops::RangeInclusive<u32> = 2..=400;
/// Most circles of one list.
const MOST: usize = 80;
/// Circles that are always right.
const GOOD: &str = "15 16 17 18 19 20; 21 23 27 29 31 33";

/// Index plates: a set by its name, or the circles that somebody has, those of one side of a plate together.
#[derive(Clone, Debug, PartialEq)]
pub struct IndexPlates {
    /// The sides of the plates.
    pub sides: Vec<PlateSide>,
    /// The set, where it is one of the table.
    set: Option<(&'static str, &'static PlateRow)>,
}

impl IndexPlates {
    /// Reads `three plates`, or circles: `15 16 17; 21 23` or `15,16,17`.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let words = text.trim().to_ascii_lowercase().replace(['_', '-'], " ");
        if let Some(set) = SETS.iter().find(|(name, _)| *name == words).and_then(|(name, set)| Self::of(name, set)) {
            return Ok(set);
        }
        let refuse = |code, says| Err(Unread { code, says, try_this: GOOD.into() });
        let parts = text.split(';').count();
        let mut sides = Vec::new();
        for (at, side) in text.split(';').enumerate() {
            let mut circles = Vec::new();
            for word in side.split([' ', ',']).filter(|word| !word.is_empty()) {
                let Ok(holes) = word.parse::<u32>() else {
                    let says = format!(
                        "\"{}\" is neither a set of plates nor the holes of a circle. The sets are three plates, two \
                         sides, wide range and high numbers.",
                        shown(word)
                    );
                    return refuse(Code::ValueUnreadable, says);
                };
                if !HOLES.contains(&holes) {
                    let says = format!("A circle of an index plate has 2 to 400 holes; this one has {holes}.");
                    return refuse(Code::ValueOutOfRange, says);
                }
                circles.push(holes);
            }
            circles.sort_unstable();
            circles.dedup();
            if circles.is_empty() {
                return refuse(Code::ValueUnreadable, "Each side of a plate needs a circle of holes.".into());
            }
            let name = if parts == 1 { "your plate".into() } else { format!("your plate {}", at + 1) };
            sides.push(PlateSide { name, circles });
        }
        match sides.iter().map(|side| side.circles.len()).sum::<usize>() > MOST {
            true => refuse(Code::ValueOutOfRange, format!("Name up to {MOST} circles.")),
            false => Ok(Self { sides, set: None }),
        }
    }

    /// The three plates that come with most heads.
    pub fn usual() -> Self {
        let (name, set) = SETS[0];
        Self::of(name, set).unwrap_or(Self { sides: Vec::new(), set: None })
    }

    fn of(name: &'static str, set: &'static str) -> Option<Self> {
        let sides = rows(set).map(|row| PlateSide { name: row.part.clone(), circles: row.numbers() }).collect();
        Some(Self { sides, set: Some((name, rows(set).next()?)) })
    }

    /// A row of the table, for its source, where the set is one of it.
    pub fn row(&self) -> Option<&'static PlateRow> {
        self.set.map(|(_, row)| row)
    }

    /// The plates in one spelling.
    pub fn text(&self) -> String {
        let side = |side: &PlateSide| side.circles.iter().map(u32::to_string).collect::<Vec<_>>().join(" ");
        let circles = || self.sides.iter().map(side).collect::<Vec<_>>().join("; ");
        self.set.map_or_else(circles, |(name, _)| name.to_owned())
    }
}

impl<'de> Deserialize<'de> for IndexPlates {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::read(&String::deserialize(deserializer)?).map_err(carry)
    }
}

impl IntoTree for IndexPlates {
    fn tree(&self) -> Option<Node> {
        Some(Node::Text(self.text().into(), None))
    }
}

impl FieldType for IndexPlates {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Words);
}

impl PartialSchema for IndexPlates {
    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .pattern(Some(listed("(?:[a-z][a-z _-]+|[0-9]{1,3}(?:[ ,;]+[0-9]{1,3}){0,79})")))
            .description(Some("A set of index plates, or circles."))
            .examples([serde_json::json!(GOOD)])
            .into()
    }
}

impl ToSchema for IndexPlates {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_set_has_circles_and_a_source() {
        for (name, sides, circles) in
            [("three plates", 3, 18), ("two_sides", 2, 22), ("Wide range", 2, 22), ("high-numbers", 6, 66)]
        {
            let found = IndexPlates::read(name).unwrap();
            let all: usize = found.sides.iter().map(|side| side.circles.len()).sum();
            assert_eq!((found.sides.len(), all), (sides, circles), "{name}");
            assert!(found.row().is_some_and(|row| !row.source().is_empty()));
        }
        assert_eq!(usual_gears().map(|(gears, _)| gears.len()), Some(12));
    }

    #[test]
    fn circles_are_read_side_by_side() {
        let read = IndexPlates::read("20,15 16; 33  21").unwrap();
        assert_eq!((read.text(), read.sides.len()), ("15 16 20; 21 33".to_owned(), 2));
        assert!(read.row().is_none());
        for text in ["", ";", "15; ", "15 x", "1", "401", "-5", "1.5"] {
            let unread = IndexPlates::read(text).unwrap_err();
            assert!(IndexPlates::read(&unread.try_this).is_ok(), "{text}");
        }
    }
}
