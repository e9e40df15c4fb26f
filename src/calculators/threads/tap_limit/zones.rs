//! What the tapped hole must measure when it is done and before it is coated, and how taps for it
//! are marked.

use super::TapLimitInput;
use crate::quantity::{Difference, Extent, FoundExtent, FoundLowerLimit, FoundUpperLimit, Unit};
use crate::reference::threads::{InternalLimits, TapMarking};
use crate::threading::GivenThread;
use crate::working::Record;

/// What a coat does.
pub struct Coat {
    /// What the thinnest takes from the pitch diameter.
    pub change_min: FoundExtent,
    /// What the thickest takes.
    pub change_max: FoundExtent,
    /// Least pitch diameter before it.
    pub pitch_min_before: FoundLowerLimit,
    /// Greatest pitch diameter before it.
    pub pitch_max_before: FoundUpperLimit,
}

/// The pitch diameter of the finished thread, and what lies between it and the tap's.
pub struct Hole {
    /// Least.
    pub pitch_min: FoundLowerLimit,
    /// Greatest.
    pub pitch_max: FoundUpperLimit,
    /// How much over the tap it comes out.
    pub oversize: Difference,
    /// The coat, if any.
    pub coat: Option<Coat>,
}

impl Hole {
    /// What is added to the tap's least and greatest pitch diameter to come to the finished thread's.
    pub fn shifts(&self, unit: Unit) -> (f64, f64) {
        let over = self.oversize.quantity().in_unit(unit);
        match &self.coat {
            None => (over, over),
            Some(coat) => (over - coat.change_max.quantity().value, over - coat.change_min.quantity().value),
        }
    }
}

/// Limits of the class, the oversize and the coat on record.
pub fn hole(given: &GivenThread, limits: &InternalLimits, input: &TapLimitInput, record: &mut Record) -> Hole {
    let unit = given.unit();
    let pitch_min = FoundLowerLimit::stated(limits.pitch_min, unit);
    let pitch_max = FoundUpperLimit::stated(limits.pitch_max, unit);
    let table = format!("{}: class {}, as printed", given.designation.standard(), limits.class);
    record.look_up("Least pitch diameter of the thread", table.clone()).gives("pitch_min", pitch_min);
    record.look_up("Greatest pitch diameter of the thread", table).gives("pitch_max", pitch_max);
    let oversize = record.or_assume(
        input.expected_oversize,
        "expected_oversize",
        Difference::stated(0.0, unit),
        "The hole is taken to come out as large as the tap; a trial piece shows by how much it does not.",
    );
    let coat = match (input.thickness_min, input.thickness_max) {
        (Some(thin), Some(thick)) => Some(coat(given, (pitch_min, pitch_max), (thin, thick), record)),
        _ => None,
    };
    Hole { pitch_min, pitch_max, oversize, coat }
}

fn coat(
    given: &GivenThread,
    (pitch_min, pitch_max): (FoundLowerLimit, FoundUpperLimit),
    (thin, thick): (Extent, Extent),
    record: &mut Record,
) -> Coat {
    record.source(
        "geometry",
        "a coat on both flanks moves the pitch line by its thickness over the sine of half their angle",
    );
    let unit = given.unit();
    let factor = 2.0 / given.half_angle.degrees().to_radians().sin();
    let change = |thickness: Extent| FoundExtent::stated(factor * thickness.quantity().in_unit(unit), unit);
    let (change_min, change_max) = (change(thin), change(thick));
    for (what, of, thickness, field, found) in [
        ("What the thinnest coat takes from the pitch diameter", "thickness_min", thin, "pitch_change_min", change_min),
        (
            "What the thickest coat takes from the pitch diameter",
            "thickness_max",
            thick,
            "pitch_change_max",
            change_max,
        ),
    ] {
        record
            .step(what, "Δ = 2 × t / sin(α)")
            .with("t", of, thickness)
            .with("α", "half_flank_angle", given.half_angle)
            .gives(field, found);
    }
    let before_min = FoundLowerLimit::stated(pitch_min.quantity().value + change_max.quantity().value, unit);
    let before_max = FoundUpperLimit::stated(pitch_max.quantity().value + change_min.quantity().value, unit);
    record
        .step("Least pitch diameter before the coat", "p = P + Δ")
        .with("P", "pitch_min", pitch_min)
        .with("Δ", "pitch_change_max", change_max)
        .gives("pitch_min_before", before_min);
    record
        .step("Greatest pitch diameter before the coat", "p = P + Δ")
        .with("P", "pitch_max", pitch_max)
        .with("Δ", "pitch_change_min", change_min)
        .gives("pitch_max_before", before_max);
    record.note(
        "plating_uneven",
        "A coat grows thicker on crests and edges than in roots, and a long or deep thread gets less inside: the plater's \
         own experience comes first, and a trial piece is measured before and after.",
    );
    Coat { change_min, change_max, pitch_min_before: before_min, pitch_max_before: before_max }
}

/// How the taps to list are marked.
pub fn marking(given: &GivenThread, input: &TapLimitInput, record: &mut Record) -> TapMarking {
    let named = input.taps.as_ref().and_then(|taps| taps.first()).map(|tap| tap.0.marking);
    let usual = TapMarking::usual(given.thread().system).unwrap_or(TapMarking::HLimit);
    match (input.marking, named) {
        (Some(marking), _) | (None, Some(marking)) => marking,
        (None, None) => {
            let says = match usual {
                TapMarking::HLimit => "Taps for Unified threads are as a rule marked with an H limit.",
                _ => {
                    "Taps for metric threads are as a rule marked with a class; those marked D5 and so on go by d_limit."
                }
            };
            record.or_assume(None, "marking", usual, says)
        }
    }
}
