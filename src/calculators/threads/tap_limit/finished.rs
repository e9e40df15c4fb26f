//! The threads that taps leave, with the oversize and after the coat.

use super::TapRow;
use super::zones::Hole;
use crate::calculators::prelude::*;
use crate::reference::threads::TapName;
use crate::threading::GivenThread;
use crate::working::{column, known_steps};

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
    let (least, greatest) = (hole.limits.pitch_min.quantity().value, hole.limits.pitch_max.quantity().value);
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
    known_steps! { record;
        look_up "Taps", "as they are marked, smallest first" => "taps.name", column(&rows, |row| row.name.clone());
    }
    for (what, tap, change, field, finished) in [
        (
            "Least pitch diameters of the finished thread",
            "taps.pitch_min",
            "pitch_change_max",
            "taps.hole_min",
            column(&rows, |row| row.hole_min),
        ),
        (
            "Greatest pitch diameters of the finished thread",
            "taps.pitch_max",
            "pitch_change_min",
            "taps.hole_max",
            column(&rows, |row| row.hole_max),
        ),
    ] {
        if hole.is_coated() {
            known_steps! { record;
                step what, "h = t + o - Δ", t = tap, o = "expected_oversize": hole.oversize, Δ = change
                    => field, finished;
            }
        } else {
            known_steps! { record;
                step what, "h = t + o", t = tap, o = "expected_oversize": hole.oversize => field, finished;
            }
        }
    }
    known_steps! { record;
        step "Room below", "r = h - L", h = "taps.hole_min", L = "pitch_min"
            => "taps.room_below", column(&rows, |row| row.room_below);
        step "Room above", "r = U - h", U = "pitch_max", h = "taps.hole_max"
            => "taps.room_above", column(&rows, |row| row.room_above);
        look_up "Within the class", "true where neither room is below zero"
            => "taps.within_class", column(&rows, |row| if row.within_class { "true" } else { "false" });
    }
    rows
}
