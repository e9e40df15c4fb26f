//! Drills for the taps of helical coil inserts, from data/insert_drills.csv.

use super::threads::{Thread, ThreadSystem};
use super::{rows_of, source_key};
use crate::quantity::Unit;
use crate::sources::Trust;
use serde::Deserialize;
use std::sync::LazyLock;

/// The hole for one insert.
#[derive(Debug)]
pub struct InsertDrill {
    /// The thread that the insert gives.
    pub thread: &'static str,
    /// The unit of its lengths.
    pub unit: Unit,
    size: f64,
    pitch: f64,
    /// Whether it is for a forming tap.
    pub forming: bool,
    /// The trade's name of the drill; empty for a forming tap.
    pub drill: &'static str,
    /// Its diameter.
    pub diameter: f64,
    /// Key of the source.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
}

#[derive(Deserialize)]
struct Row {
    thread: String,
    unit: String,
    size: f64,
    pitch_or_threads: f64,
    method: String,
    drill: String,
    drill_diameter: f64,
    source: String,
    trust: Trust,
}

/// Every row.
pub fn insert_drills() -> &'static [InsertDrill] {
    static ROWS: LazyLock<Vec<InsertDrill>> = LazyLock::new(|| {
        let row = |row: Row| {
            let is_metric = row.unit == "mm";
            InsertDrill {
                thread: row.thread.leak(),
                unit: if is_metric { Unit::Millimetre } else { Unit::Inch },
                size: row.size,
                pitch: if is_metric { row.pitch_or_threads } else { 1.0 / row.pitch_or_threads },
                forming: row.method == "forming",
                drill: row.drill.leak(),
                diameter: row.drill_diameter,
                source: source_key(&row.source),
                trust: row.trust,
            }
        };
        rows_of(include_str!("../../data/insert_drills.csv")).map(row).collect()
    });
    &ROWS
}

/// The row for a thread, for a cutting or a forming tap.
pub fn insert_drill(thread: &Thread, forming: bool) -> Option<&'static InsertDrill> {
    let unit = match thread.system {
        ThreadSystem::Metric => Unit::Millimetre,
        ThreadSystem::Unified => Unit::Inch,
        _ => return None,
    };
    let same = |a: f64, b: f64| (a - b).abs() < 1e-6;
    insert_drills().iter().find(|row| {
        row.unit == unit && row.forming == forming && same(row.size, thread.diameter) && same(row.pitch, thread.pitch)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_drill_leaves_no_more_metal_than_the_thread_for_the_insert_has() {
        for row in insert_drills() {
            let least = row.size + 3f64.sqrt() / 8.0 * row.pitch;
            let most = row.size + 3.0 * 3f64.sqrt() / 4.0 * row.pitch;
            assert!(row.diameter > least && row.diameter < most, "{}", row.thread);
            assert!(!row.source.is_empty() && row.forming == row.drill.is_empty(), "{}", row.thread);
        }
    }
}
