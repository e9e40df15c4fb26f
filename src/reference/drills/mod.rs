//! Twist drill sizes: fraction, number and letter sizes after ASME B94.11M, metric sizes after
//! BS 328 and ISO 235, from data/drills_inch.csv and data/drills_metric.csv.

use crate::declared::{FieldType, Shape, TypeFacts};
use crate::sources::{self, Trust};
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;
use utoipa::ToSchema;

const INCH_ROWS: &str = include_str!("../../../data/drills_inch.csv");
const METRIC_ROWS: &str = include_str!("../../../data/drills_metric.csv");

/// The series a drill belongs to: fractions of an inch, numbers, letters or millimeters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "lowercase")]
pub enum DrillSystem {
    /// Fractions of an inch, `27/64`.
    Fraction,
    /// Number sizes, `#7`.
    Number,
    /// Letter sizes, `F`.
    Letter,
    /// Millimeter sizes, `6.8 mm`.
    Metric,
}

impl FieldType for DrillSystem {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Choice(&["fraction", "number", "letter", "metric"]));
}

impl DrillSystem {
    /// Every system, in the order in which drills of one size are listed.
    pub const ALL: [DrillSystem; 4] =
        [DrillSystem::Fraction, DrillSystem::Number, DrillSystem::Letter, DrillSystem::Metric];

    /// The word that requests, answers and tables use.
    pub const fn as_str(self) -> &'static str {
        match self {
            DrillSystem::Fraction => "fraction",
            DrillSystem::Number => "number",
            DrillSystem::Letter => "letter",
            DrillSystem::Metric => "metric",
        }
    }
}

/// The unit in which a drill's size is defined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DrillUnit {
    /// Inches.
    Inch,
    /// Millimeters.
    Millimetre,
}

/// One drill of the tables.
#[derive(Debug, Clone, PartialEq)]
pub struct Drill {
    /// The trade's name for it: `27/64`, `#7`, `F`, `6.8 mm`.
    pub name: &'static str,
    /// The series it belongs to.
    pub system: DrillSystem,
    /// Nominal diameter in the unit it is named in.
    pub diameter: f64,
    /// The unit of the diameter.
    pub unit: DrillUnit,
    /// Key of the source in data/sources.toml.
    pub source: &'static str,
    /// How far the row can be relied on.
    pub trust: Trust,
}

impl Drill {
    /// Nominal diameter in inches.
    pub fn inches(&self) -> f64 {
        match self.unit {
            DrillUnit::Inch => self.diameter,
            DrillUnit::Millimetre => self.diameter / 25.4,
        }
    }

    /// Nominal diameter in millimeters.
    pub fn millimetres(&self) -> f64 {
        match self.unit {
            DrillUnit::Inch => self.diameter * 25.4,
            DrillUnit::Millimetre => self.diameter,
        }
    }

    // Every size of the tables is a whole number of nanometres, so equal sizes compare as equal.
    fn nanometres(&self) -> i64 {
        (self.millimetres() * 1e6).round() as i64
    }
}

/// One line of a table as it is written; the column of the other unit is there for the reader and the tests.
#[derive(Deserialize)]
struct Row {
    name: String,
    system: DrillSystem,
    diameter: f64,
    unit: String,
    source: String,
    trust: Trust,
}

static DRILLS: LazyLock<Vec<Drill>> = LazyLock::new(|| {
    let mut drills: Vec<Drill> = [INCH_ROWS, METRIC_ROWS]
        .into_iter()
        .flat_map(|table| csv::Reader::from_reader(table.as_bytes()).into_deserialize())
        .map(|row| row.expect("the drill tables are compiled in and read by the tests"))
        .map(drill_of)
        .collect();
    drills.sort_by_key(|drill| (drill.nanometres(), drill.system));
    drills
});

fn drill_of(row: Row) -> Drill {
    Drill {
        name: row.name.leak(),
        system: row.system,
        diameter: row.diameter,
        unit: if row.unit == "mm" { DrillUnit::Millimetre } else { DrillUnit::Inch },
        // The key that sources.toml already holds, so that text is kept once.
        source: sources::source(&row.source).map_or("", |source| source.key),
        trust: row.trust,
    }
}

/// Every drill of the tables, smallest first.
pub fn drills() -> &'static [Drill] {
    &DRILLS
}

/// The pattern of a name of the trade that no length has: a number or a letter.
pub const NAME_PATTERN: &str =
    r"(?:(?:#|[Nn][Oo][.\s]|[Nn][Uu][Mm][Bb][Ee][Rr]\s)\s*[0-9]{1,2}|(?:[Ll][Ee][Tt][Tt][Ee][Rr]\s+)?[A-Za-z])";

/// The drill that a name of the trade means: `#7`, `No.7`, `number 7`, `F`, `letter F`, `27/64`,
/// `1-1/16 in`, `6.8 mm`. A bare number is a size without a unit, not a name.
pub fn named(text: &str) -> Option<&'static Drill> {
    let said = text.trim().to_ascii_lowercase();
    if let Some(number) = number_said(&said) {
        return find(DrillSystem::Number, |name| name.strip_prefix('#') == Some(number));
    }
    if let Some(size) = said.strip_suffix("mm") {
        let size = size.trim_end();
        return find(DrillSystem::Metric, |name| name.strip_suffix(" mm") == Some(size));
    }
    let letter = said.strip_prefix("letter ").map_or(said.as_str(), str::trim_start);
    if letter.len() == 1 && letter.as_bytes()[0].is_ascii_alphabetic() {
        return find(DrillSystem::Letter, |name| name.eq_ignore_ascii_case(letter));
    }
    let inches = ["inch", "in", "\""].into_iter().find_map(|unit| said.strip_suffix(unit));
    if inches.is_none() && !said.contains('/') {
        return None;
    }
    let fraction = mixed_with_hyphen(inches.unwrap_or(&said).trim_end());
    find(DrillSystem::Fraction, |name| name == fraction)
}

/// What follows `#`, `No.`, `No`, `number` in a number size.
fn number_said(said: &str) -> Option<&str> {
    ["#", "no.", "no ", "number "].into_iter().find_map(|word| said.strip_prefix(word)).map(str::trim_start)
}

/// `1 1/16` as the tables write it, `1-1/16`.
fn mixed_with_hyphen(said: &str) -> String {
    said.split_whitespace().collect::<Vec<_>>().join("-")
}

fn find(system: DrillSystem, is_meant: impl Fn(&str) -> bool) -> Option<&'static Drill> {
    drills().iter().find(|drill| drill.system == system && is_meant(drill.name))
}

#[cfg(test)]
mod tests;
