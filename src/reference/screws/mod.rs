//! Screws as holes are made for them: their sizes as a request names them, clearance holes, heads, counterbores and
//! washers by their standards, from data/clearance_holes.csv, screw_heads.csv, counterbores.csv and washers.csv.

mod size;
#[cfg(test)]
mod tests;

pub use size::ScrewSize;

use super::rows_of;
use crate::quantity::{FoundSize, FoundUpperLimit, Unit};
use serde::Deserialize;
use std::sync::LazyLock;

/// A row for one size of screw.
pub trait OfScrew {
    /// The size as the table writes it.
    fn screw(&self) -> &str;
    /// The screw's nominal diameter in its own unit.
    fn nominal(&self) -> f64;

    /// The unit of the row.
    fn unit(&self) -> Unit {
        if self.screw().starts_with('M') { Unit::Millimetre } else { Unit::Inch }
    }

    /// Whether it is for that screw.
    fn is_for(&self, screw: &ScrewSize) -> bool {
        self.unit() == screw.unit && (self.nominal() - screw.diameter).abs() < 1e-6
    }
}

macro_rules! of_screw {
    ($($row:ty),*) => {
        $(impl OfScrew for $row {
            fn screw(&self) -> &str {
                &self.screw
            }

            fn nominal(&self) -> f64 {
                self.nominal
            }
        })*
    };
}

of_screw!(ClearanceRow, HeadRow, CounterboreRow, WasherRow);

/// Clearance holes of one screw.
#[derive(Debug, Deserialize)]
pub struct ClearanceRow {
    /// The screw.
    pub screw: String,
    nominal: f64,
    close_drill: Option<String>,
    close: f64,
    close_max: f64,
    medium_drill: Option<String>,
    medium: f64,
    medium_max: f64,
    free_drill: Option<String>,
    free: f64,
    free_max: f64,
    other_close: Option<f64>,
    other_medium: Option<f64>,
    other_free: Option<f64>,
    /// A chart that has other sizes.
    pub other: String,
    /// Source key of that chart.
    pub other_source: String,
    /// How far it can be trusted.
    pub other_trust: String,
    /// The standard.
    pub standard: String,
    /// Source key.
    pub source: String,
    /// How far the least size can be trusted.
    pub trust: String,
    /// How far the greatest size of a close or medium hole can be trusted.
    pub limits_trust: String,
}

/// One hole of a row.
#[derive(Clone, Copy, Debug)]
pub struct ClearanceHole {
    /// The least size, by which the hole is called.
    pub least: FoundSize,
    /// The greatest size.
    pub greatest: FoundUpperLimit,
    /// The drill that the standard names.
    pub drill: Option<&'static str>,
    /// The size that another chart has.
    pub other: Option<FoundSize>,
}

impl ClearanceRow {
    /// The hole of a column: close 0, medium 1, free 2.
    pub fn hole(&'static self, column: usize) -> ClearanceHole {
        let unit = self.unit();
        let (least, greatest, drill, other) = match column {
            0 => (self.close, self.close_max, &self.close_drill, self.other_close),
            1 => (self.medium, self.medium_max, &self.medium_drill, self.other_medium),
            _ => (self.free, self.free_max, &self.free_drill, self.other_free),
        };
        ClearanceHole {
            least: FoundSize::stated(least, unit),
            greatest: FoundUpperLimit::stated(greatest, unit),
            drill: drill.as_deref(),
            other: other.map(|size| FoundSize::stated(size, unit)),
        }
    }
}

/// The head of one screw.
#[derive(Debug, Deserialize)]
pub struct HeadRow {
    /// The kind of head.
    pub head: String,
    /// The screw.
    pub screw: String,
    nominal: f64,
    /// Greatest diameter; over the corners of a hexagon, and where a flat head would end sharp.
    pub diameter: f64,
    /// Least diameter of a flat head as made.
    pub least_diameter: Option<f64>,
    /// Across the flats of a hexagon.
    pub flats: Option<f64>,
    /// Greatest height.
    pub height: Option<f64>,
    /// Angle of a flat head in degrees.
    pub angle: Option<f64>,
    /// The standard.
    pub standard: String,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

/// A counterbore of one screw.
#[derive(Debug, Deserialize)]
pub struct CounterboreRow {
    head: String,
    washer: String,
    /// The screw.
    pub screw: String,
    nominal: f64,
    /// Diameter.
    pub diameter: f64,
    /// Depth that the standard gives, with an amount for tolerances.
    pub depth: Option<f64>,
    /// The standard.
    pub standard: String,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

/// The washer of one screw.
#[derive(Debug, Deserialize)]
pub struct WasherRow {
    /// The screw.
    pub screw: String,
    nominal: f64,
    /// Greatest outside diameter.
    pub outside: f64,
    /// Greatest thickness.
    pub thickness: f64,
    /// The standard.
    pub standard: String,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

macro_rules! table {
    ($rows:ident: $row:ty, $file:literal) => {
        static $rows: LazyLock<Vec<$row>> =
            LazyLock::new(|| rows_of(include_str!(concat!("../../../data/", $file))).collect());
    };
}

table!(CLEARANCE: ClearanceRow, "clearance_holes.csv");
table!(HEADS: HeadRow, "screw_heads.csv");
table!(COUNTERBORES: CounterboreRow, "counterbores.csv");
table!(WASHERS: WasherRow, "washers.csv");

/// The row of a screw, or the listed screws nearest to it, the larger first.
fn row_for<'t, R: OfScrew>(rows: impl Iterator<Item = &'t R>, screw: &ScrewSize) -> Result<&'t R, Vec<&'t str>> {
    let (mut below, mut above): (Option<&R>, Option<&R>) = (None, None);
    for row in rows.filter(|row| row.unit() == screw.unit) {
        if row.is_for(screw) {
            return Ok(row);
        }
        let nominal = row.nominal();
        if nominal < screw.diameter && below.is_none_or(|best| best.nominal() < nominal) {
            below = Some(row);
        }
        if nominal > screw.diameter && above.is_none_or(|best| best.nominal() > nominal) {
            above = Some(row);
        }
    }
    Err([above, below].into_iter().flatten().map(OfScrew::screw).collect())
}

/// The clearance holes of a screw, or the listed screws nearest to it.
pub fn clearance_row(screw: &ScrewSize) -> Result<&'static ClearanceRow, Vec<&'static str>> {
    row_for(CLEARANCE.iter(), screw)
}

/// The head of a kind on a screw, or the screws nearest to it that have one.
pub fn head_row(head: &str, screw: &ScrewSize) -> Result<&'static HeadRow, Vec<&'static str>> {
    row_for(HEADS.iter().filter(|row| row.head == head), screw)
}

/// The counterbore that a standard gives for a kind of head, with a flat washer or without.
pub fn counterbore_row(head: &str, flat_washer: bool, screw: &ScrewSize) -> Option<&'static CounterboreRow> {
    let washer = if flat_washer { "flat" } else { "none" };
    row_for(COUNTERBORES.iter().filter(|row| row.head == head && row.washer == washer), screw).ok()
}

/// The flat washer of a screw, or the listed screws nearest to it.
pub fn washer_row(screw: &ScrewSize) -> Result<&'static WasherRow, Vec<&'static str>> {
    row_for(WASHERS.iter(), screw)
}
