//! The root of a plated thread, which the coat fills as it thickens the crests, and the go gauge: the basic form at
//! the limit that the coat comes up to. Derived from the form of the thread.

use super::{PlatedInput, PlatedLimits, PlatedSide};
use crate::calculators::prelude::*;
use crate::reference::threads::ThreadSystem;
use crate::threading::GivenThread;
use crate::working::known_steps;

/// The limit of the root: greatest minor diameter of a screw, least major diameter of a nut.
#[derive(Debug, Gives)]
pub struct RootLimits {
    /// Greatest minor diameter of a screw, least major diameter of a nut, after plating.
    #[label("Root after plating")]
    pub after: FoundSize,
    /// The same before plating.
    #[label("Root before plating")]
    pub before: FoundSize,
}

/// The go gauge at its nominal size; its maker gives its tolerance and wear.
#[derive(Debug, Gives)]
pub struct GoGauge {
    /// A `ring` for a screw, a `plug` for a nut.
    pub kind: &'static str,
    /// Its pitch diameter before plating.
    #[label("Pitch diameter before")]
    pub pitch_before: FoundSize,
    /// Its crest diameter before plating: minor of the ring, major of the plug.
    #[label("Crest diameter before")]
    pub crest_before: FoundSize,
    /// Its pitch diameter after plating.
    #[label("Pitch diameter after")]
    pub pitch_after: FoundSize,
    /// Its crest diameter after plating.
    #[label("Crest diameter after")]
    pub crest_after: FoundSize,
}

/// The root after plating, and before: on a screw the thickest coat fills it, in a nut it lies outside.
pub fn root_limits(given: &GivenThread, input: &PlatedInput, after: f64, record: &mut Record) -> RootLimits {
    let thick = input.thickness_max.quantity().in_unit(given.unit());
    let (way, formula, what) = match input.side {
        PlatedSide::External => (-1.0, "r = R - 2 × t", "minor diameter of the screw's root"),
        PlatedSide::Internal => (1.0, "r = R + 2 × t", "major diameter of the nut's root"),
    };
    let limits = RootLimits { after: given.found(after), before: given.found(after + way * 2.0 * thick) };
    let standard = given.designation.standard();
    known_steps! { record;
        look_up format!("Limit of the {what} after plating"),
            format!("{standard}: limit of the class, moved as far as the pitch diameter may move")
            => "root.after", limits.after;
        step "The same before plating", formula, R = "root.after", t = "thickness_max": input.thickness_max
            => "root.before", limits.before;
    }
    limits
}

/// The go gauge before and after plating, of threads of 60 degrees.
pub fn go_gauge(
    given: &GivenThread,
    input: &PlatedInput,
    (before, after): (&PlatedLimits, &PlatedLimits),
    record: &mut Record,
) -> Option<GoGauge> {
    if !matches!(given.thread().system, ThreadSystem::Unified | ThreadSystem::Metric) {
        return None;
    }
    let size = |quantity: Quantity| given.found(quantity.value);
    let pitch = given.thread().pitch;
    // The ring reaches a quarter of the triangle below the pitch line on each side, the plug three eighths above it.
    let (kind, of, way, formula, share) = match input.side {
        PlatedSide::External => ("ring", "pitch_max", -1.0, "c = E - √(3) × P / 4", 3f64.sqrt() / 4.0),
        PlatedSide::Internal => ("plug", "pitch_min", 1.0, "c = E + 3 × √(3) × P / 8", 3.0 * 3f64.sqrt() / 8.0),
    };
    let limit = |limits: &PlatedLimits| match input.side {
        PlatedSide::External => size(limits.pitch_max.quantity()),
        PlatedSide::Internal => size(limits.pitch_min.quantity()),
    };
    let (pitch_before, pitch_after) = (limit(before), limit(after));
    let crest = |at: FoundSize| given.found(at.quantity().value + way * share * pitch);
    let (crest_before, crest_after) = (crest(pitch_before), crest(pitch_after));
    record.source("geometry", "the go gauge has the basic form, its pitch diameter at the maximum-metal limit");
    let (of_before, of_after) = match of {
        "pitch_max" => ("before.pitch_max", "after.pitch_max"),
        _ => ("before.pitch_min", "after.pitch_min"),
    };
    record.look_up("Go gauge", "a ring for a screw, a plug for a nut").gives("go_gauge.kind", kind);
    known_steps! { record;
        look_up "Its pitch diameter before plating", "the maximum-metal limit", E = (of_before)
            => "go_gauge.pitch_before", pitch_before;
        step "Its crest diameter before plating", formula, E = "go_gauge.pitch_before", P = "pitch"
            => "go_gauge.crest_before", crest_before;
        look_up "Its pitch diameter after plating", "the maximum-metal limit", E = (of_after)
            => "go_gauge.pitch_after", pitch_after;
        step "Its crest diameter after plating", formula, E = "go_gauge.pitch_after", P = "pitch"
            => "go_gauge.crest_after", crest_after;
    }
    notes!(record => go_gauge:
        "The go gauge is given at its nominal size. A gauge for the plated thread cannot tell, before plating, whether \
         there is room for the coat.");
    Some(GoGauge { kind, pitch_before, crest_before, pitch_after, crest_after })
}
