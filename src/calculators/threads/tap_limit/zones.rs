//! What the tapped hole must measure when it is done and before it is coated, and how taps for it
//! are marked.

use super::TapLimitInput;
use crate::calculators::prelude::*;
use crate::reference::threads::TapMarking;
use crate::threading::{GivenThread, SideLimits, coat_changes};
use crate::working::known_steps;

/// The pitch diameter of the finished thread and before its coat.
#[derive(Debug, Gives)]
pub struct HoleLimits {
    /// Least pitch diameter of the finished thread, by its class.
    #[label("Pitch diameter, least")]
    pub pitch_min: FoundLowerLimit,
    /// Greatest pitch diameter of the finished thread, by its class.
    #[label("Pitch diameter, greatest")]
    pub pitch_max: FoundUpperLimit,
    /// What the thickest coat takes from the pitch diameter; with a coat only.
    #[label("The thickest coat takes")]
    pub pitch_change_max: Option<FoundExtent>,
    /// What the thinnest coat takes from the pitch diameter; with a coat only.
    #[label("The thinnest coat takes")]
    pub pitch_change_min: Option<FoundExtent>,
    /// Least pitch diameter to tap to before the coat; with a coat only.
    #[label("Tap to, least")]
    pub pitch_min_before: Option<FoundLowerLimit>,
    /// Greatest pitch diameter to tap to before the coat; with a coat only.
    #[label("Tap to, greatest")]
    pub pitch_max_before: Option<FoundUpperLimit>,
}

/// The finished thread, and what lies between it and the tap.
pub struct Hole {
    /// Its limits.
    pub limits: HoleLimits,
    /// How much over the tap it comes out.
    pub oversize: Difference,
}

impl Hole {
    /// True where a coat is still to come.
    pub fn is_coated(&self) -> bool {
        self.limits.pitch_change_max.is_some()
    }

    /// What is added to the tap's least and greatest pitch diameter to come to the finished thread's.
    pub fn shifts(&self, unit: Unit) -> (f64, f64) {
        let over = self.oversize.quantity().in_unit(unit);
        let less = |change: Option<FoundExtent>| change.map_or(over, |change| over - change.quantity().value);
        (less(self.limits.pitch_change_max), less(self.limits.pitch_change_min))
    }
}

/// Limits of the class, the oversize and the coat on record.
pub fn hole(given: &GivenThread, class: &SideLimits, input: &TapLimitInput, record: &mut Record) -> Hole {
    let table =
        format!("{}: class {}, as printed", given.designation.standard(), class.class.as_deref().unwrap_or_default());
    let mut limits = HoleLimits {
        pitch_min: given.stated(class.pitch_min),
        pitch_max: given.stated(class.pitch_max),
        pitch_change_max: None,
        pitch_change_min: None,
        pitch_min_before: None,
        pitch_max_before: None,
    };
    known_steps! { record;
        look_up "Least pitch diameter of the thread", table.clone() => "pitch_min", limits.pitch_min;
        look_up "Greatest pitch diameter of the thread", table => "pitch_max", limits.pitch_max;
    }
    let oversize = input.expected_oversize(record);
    if let (Some(thin), Some(thick)) = (input.thickness_min, input.thickness_max) {
        let (least, greatest) = coat_changes(given, (thin, thick), "takes from the pitch diameter", record);
        let before_min = given.stated(class.pitch_min + greatest.quantity().value);
        let before_max = given.stated(class.pitch_max + least.quantity().value);
        known_steps! { record;
            step "Least pitch diameter before the coat", "p = P + Δ", P = "pitch_min", Δ = "pitch_change_max"
                => "pitch_min_before", before_min;
            step "Greatest pitch diameter before the coat", "p = P + Δ", P = "pitch_max", Δ = "pitch_change_min"
                => "pitch_max_before", before_max;
        }
        (limits.pitch_change_min, limits.pitch_change_max) = (Some(least), Some(greatest));
        (limits.pitch_min_before, limits.pitch_max_before) = (Some(before_min), Some(before_max));
    }
    Hole { limits, oversize }
}

/// How the taps to list are marked.
pub fn marking(given: &GivenThread, input: &TapLimitInput, record: &mut Record) -> TapMarking {
    let named = input.taps.as_ref().and_then(|taps| taps.first()).map(|tap| tap.0.marking);
    let usual = TapMarking::usual(given.thread().system).unwrap_or(TapMarking::HLimit);
    let says = match usual {
        TapMarking::HLimit => "Taps for Unified threads are usually marked with an H limit.",
        _ => "Taps for metric threads are usually marked with a class; those marked D3, D5 and so on go by D limits.",
    };
    record.or_assume(input.marking.or(named), "marking", usual, says)
}
