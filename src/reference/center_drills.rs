//! Center drills by their sizes, from data/center_drills.csv, and the cone that suits a diameter of work, from
//! data/center_holes.csv.

use super::{by_name, rows_of, source_key};
use crate::quantity::{FoundSize, Unit};
use crate::refusal::{Code, Unread};
use crate::sources::Trust;
use serde::Deserialize;
use std::sync::LazyLock;

crate::choice! {
    /// Kind of center drill: `plain` or `bell` in inch sizes; `a` plain, `b` with a protecting chamfer or `r` with a radius, in millimeters.
    CenterDrillKind {
        /// Inch sizes #00 to #8, a cone of 60°.
        Plain = "plain",
        /// Inch sizes #11 to #18, a cone of 60° below a protecting one of 120°.
        Bell = "bell",
        /// Metric, a cone of 60°.
        A = "a" | "A",
        /// Metric, a cone of 60° below a protecting one of 120°.
        B = "b" | "B",
        /// Metric, an arc in place of the cone.
        R = "r" | "R",
    }
}

/// A size of center drill; lengths in its unit.
#[derive(Debug)]
pub struct CenterDrill {
    /// Its name, `#3` or `A 2.5`.
    pub name: &'static str,
    /// Its kind.
    pub kind: CenterDrillKind,
    /// The unit of its lengths.
    pub unit: Unit,
    /// Diameter of the pilot.
    pub pilot: f64,
    /// Least and greatest length of the pilot, where they are known.
    pub pilot_length: Option<(f64, f64)>,
    /// Diameter of the body.
    pub body: f64,
    /// Diameter at which its cone ends or the standard ends it; none where only the body ends it.
    pub cone_end: Option<f64>,
    /// Key of the source.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
}

#[derive(Deserialize)]
struct Row {
    name: String,
    kind: CenterDrillKind,
    unit: String,
    pilot: f64,
    pilot_length_least: Option<f64>,
    pilot_length_most: Option<f64>,
    body: f64,
    cone_end: Option<f64>,
    source: String,
    trust: Trust,
}

/// Every size, from small to large within a kind.
pub fn center_drills() -> &'static [CenterDrill] {
    static ROWS: LazyLock<Vec<CenterDrill>> = LazyLock::new(|| {
        let row = |row: Row| CenterDrill {
            name: row.name.leak(),
            kind: row.kind,
            unit: if row.unit == "mm" { Unit::Millimetre } else { Unit::Inch },
            pilot: row.pilot,
            pilot_length: row.pilot_length_least.zip(row.pilot_length_most),
            body: row.body,
            cone_end: row.cone_end,
            source: source_key(&row.source),
            trust: row.trust,
        };
        rows_of(include_str!("../../data/center_drills.csv")).map(row).collect()
    });
    &ROWS
}

impl CenterDrill {
    /// A length of it as a result.
    pub fn found(&self, length: f64) -> FoundSize {
        FoundSize::stated(length, self.unit)
    }

    /// Share of the body to which a plain center drill is let in where no table ends its cone, by common practice.
    pub const SHARE_OF_BODY: f64 = 0.9;

    /// The largest cone that it is to make.
    pub fn largest_cone(&self) -> f64 {
        self.cone_end.unwrap_or(Self::SHARE_OF_BODY * self.body)
    }
}

/// A center drill by its name.
#[derive(Clone, Copy, Debug)]
pub struct CenterDrillName(pub &'static CenterDrill);

impl CenterDrillName {
    /// Reads `#3`, `No.3`, `A 2.5`, `b4`.
    pub fn read(text: &str) -> Result<Self, Unread> {
        // The point of a size counts, the one after "No" does not.
        let said = text.to_ascii_lowercase().replace("no.", "#").replace("no ", "#").replace(' ', "");
        let name = |drill: &CenterDrill| drill.name.to_ascii_lowercase().replace(' ', "");
        let found = center_drills().iter().find(|drill| name(drill) == said);
        let like = || center_drills().iter().find(|drill| name(drill)[1..] == said);
        found.map(Self).ok_or_else(|| Unread {
            code: Code::NotFound,
            says: format!("There is no center drill named \"{}\".", crate::quantity::shown(text)),
            try_this: like().map_or("#3", |drill| drill.name).to_owned(),
        })
    }

    fn name(&self) -> String {
        self.0.name.to_owned()
    }
}

by_name!(CenterDrillName, "A center drill by its name: #3, A 2.5, B 4, R 3.15.", "#3");

/// The center hole that a course sets for work of some diameter, in millimeters.
#[derive(Debug, Deserialize)]
pub struct CenterHoleRow {
    /// Work above this diameter,
    pub work_over_mm: f64,
    /// up to and including this.
    pub work_up_to_mm: f64,
    /// Diameter of the pilot.
    pub pilot_mm: f64,
    /// Diameter of the cone.
    pub cone_mm: f64,
    /// Key of the source.
    pub source: String,
    /// How far it can be relied on.
    pub trust: String,
}

/// The center hole for work of so many millimeters; none above the table.
pub fn center_hole(work: f64) -> Option<&'static CenterHoleRow> {
    static ROWS: LazyLock<Vec<CenterHoleRow>> =
        LazyLock::new(|| rows_of(include_str!("../../data/center_holes.csv")).collect());
    ROWS.iter().find(|row| row.work_over_mm < work && work <= row.work_up_to_mm * (1.0 + 1e-12))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_cone_is_larger_than_the_pilot_and_no_larger_than_the_body() {
        for drill in center_drills() {
            let cone = drill.largest_cone();
            assert!(drill.pilot < cone && cone <= drill.body && !drill.source.is_empty(), "{}", drill.name);
            assert!(drill.pilot_length.is_none_or(|(least, most)| least <= most), "{}", drill.name);
        }
    }

    #[test]
    fn names_are_read_as_they_are_said() {
        for (said, name) in [("#3", "#3"), ("No.3", "#3"), ("no 11", "#11"), ("a2.5", "A 2.5"), ("B 4", "B 4")] {
            assert_eq!(CenterDrillName::read(said).map(|found| found.0.name), Ok(name), "{said}");
        }
        assert_eq!(CenterDrillName::read("2.5").unwrap_err().try_this, "A 2.5");
        assert_eq!(CenterDrillName::read("?").unwrap_err().try_this, "#3");
    }

    #[test]
    fn work_on_an_edge_belongs_to_the_smaller_row() {
        assert_eq!(center_hole(25.0).map(|row| row.cone_mm), Some(5.0));
        assert_eq!(center_hole(25.4).map(|row| row.cone_mm), Some(8.0));
        assert!(center_hole(101.0).is_none());
    }
}
