//! Drills that tables print for pipe and Whitworth threads, from data/tap_drills.csv.

use super::series::read_table;
use super::{Thread, ThreadSystem};
use crate::quantity::{FoundSize, Unit};
use serde::Deserialize;
use std::sync::LazyLock;

/// One printed drill.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct TapDrillRow {
    /// `NPT`, `G`, `Rc`, `BSW` or `BSF`.
    pub series: String,
    /// Size of the thread as written.
    pub size: String,
    /// The drill as the trade names it.
    pub drill: String,
    /// Its diameter.
    pub diameter: f64,
    /// Unit of the diameter: `in` or `mm`.
    pub unit: String,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

impl TapDrillRow {
    /// Its diameter in its own unit.
    pub fn found(&self) -> FoundSize {
        FoundSize::stated(self.diameter, if self.unit == "mm" { Unit::Millimetre } else { Unit::Inch })
    }
}

static ROWS: LazyLock<Vec<TapDrillRow>> = LazyLock::new(|| read_table(include_str!("../../../data/tap_drills.csv")));

/// The drill that a table prints for a thread, if one does.
pub fn published_tap_drill(thread: &Thread) -> Option<&'static TapDrillRow> {
    if !thread.standard || thread.system == ThreadSystem::Unified {
        return None;
    }
    let series = thread.series.as_deref()?;
    ROWS.iter().find(|row| row.series == series && row.size == thread.size)
}

#[cfg(test)]
mod tests {
    use super::super::{npt, read};
    use super::*;
    use crate::reference::drills::{DrillUnit, named};

    #[test]
    fn a_drill_with_a_name_of_the_trade_has_the_diameter_of_that_name() {
        for row in ROWS.iter().filter(|row| row.unit == "in") {
            if let Some(drill) = named(&row.drill) {
                assert!(drill.unit == DrillUnit::Inch && drill.diameter == row.diameter, "{}", row.drill);
            }
        }
    }

    #[test]
    fn a_drill_for_npt_without_reaming_is_near_the_minor_diameter_at_the_small_end() {
        for row in ROWS.iter().filter(|row| row.series == "NPT") {
            let minor = npt(&read(&format!("{} NPT", row.size)).unwrap()).unwrap().small_end_minor;
            assert!((row.diameter - minor).abs() < 0.0125, "{}: {} for {minor}", row.size, row.diameter);
        }
    }

    #[test]
    fn every_row_belongs_to_a_listed_thread() {
        for row in ROWS.iter() {
            let text = match row.series.as_str() {
                "G" | "Rc" => format!("{} {}", row.series, row.size),
                _ => format!("{} {}", row.size, row.series),
            };
            let thread = read(&text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert_eq!(published_tap_drill(&thread), Some(row), "{text}");
        }
    }
}
