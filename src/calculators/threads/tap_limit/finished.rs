//! The threads that taps leave, with the oversize and after the coat.

use super::TapRow;
use super::zones::Hole;
use crate::quantity::{FoundDifference, FoundSize};
use crate::reference::threads::TapName;
use crate::threading::GivenThread;
use crate::working::Record;

/// Least and greatest pitch diameter of a tap, in the thread's unit.
#[derive(Clone, Copy)]
pub struct Zone {
    /// What is marked on it.
    pub name: TapName,
    /// Least.
    pub least: f64,
    /// Greatest.
    pub greatest: f64,
}

/// How near to a limit still counts as within it: far below a printed digit.
pub const TIE: f64 = 1e-9;

/// The threads that the taps leave, and whether they are within the class.
pub fn finished(given: &GivenThread, hole: &Hole, zones: &[Zone], record: &mut Record) -> Vec<TapRow> {
    let unit = given.unit();
    let (low, high) = hole.shifts(unit);
    let (least, greatest) = (hole.pitch_min.quantity().value, hole.pitch_max.quantity().value);
    let difference = |value: f64| FoundDifference::stated(if value.abs() < TIE { 0.0 } else { value }, unit);
    let rows: Vec<TapRow> = zones
        .iter()
        .map(|zone| {
            let (hole_min, hole_max) = (zone.least + low, zone.greatest + high);
            TapRow {
                name: zone.name.text(),
                pitch_min: given.found(zone.least),
                pitch_max: given.found(zone.greatest),
                hole_min: given.found(hole_min),
                hole_max: given.found(hole_max),
                room_below: difference(hole_min - least),
                room_above: difference(greatest - hole_max),
                within_class: hole_min >= least - TIE && hole_max <= greatest + TIE,
            }
        })
        .collect();
    let sizes = |of: fn(&TapRow) -> FoundSize| rows.iter().map(of).collect::<Vec<_>>();
    record
        .look_up("Taps", "as they are marked, smallest first")
        .gives("taps.name", rows.iter().map(|row| row.name.clone()).collect::<Vec<_>>());
    for (what, of, tap, result, finished, change) in [
        (
            "Least pitch diameters of the finished thread",
            "taps.pitch_min",
            sizes(|row| row.pitch_min),
            "taps.hole_min",
            sizes(|row| row.hole_min),
            hole.coat.as_ref().map(|coat| ("pitch_change_max", coat.change_max)),
        ),
        (
            "Greatest pitch diameters of the finished thread",
            "taps.pitch_max",
            sizes(|row| row.pitch_max),
            "taps.hole_max",
            sizes(|row| row.hole_max),
            hole.coat.as_ref().map(|coat| ("pitch_change_min", coat.change_min)),
        ),
    ] {
        let formula = if change.is_some() { "h = t + o - Δ" } else { "h = t + o" };
        let step = record.step(what, formula).with("t", of, tap).with("o", "expected_oversize", hole.oversize);
        match change {
            Some((of, change)) => step.with("Δ", of, change).gives(result, finished),
            None => step.gives(result, finished),
        }
    }
    record
        .step("Room below", "r = h - L")
        .with("h", "taps.hole_min", sizes(|row| row.hole_min))
        .with("L", "pitch_min", hole.pitch_min)
        .gives("taps.room_below", rows.iter().map(|row| row.room_below).collect::<Vec<_>>());
    record
        .step("Room above", "r = U - h")
        .with("U", "pitch_max", hole.pitch_max)
        .with("h", "taps.hole_max", sizes(|row| row.hole_max))
        .gives("taps.room_above", rows.iter().map(|row| row.room_above).collect::<Vec<_>>());
    record.look_up("Within the class", "where neither room is below zero").gives(
        "taps.within_class",
        rows.iter().map(|row| if row.within_class { "true" } else { "false" }).collect::<Vec<_>>(),
    );
    rows
}
