//! The distances between neighboring holes of a bolt circle that a caliper checks.

use super::check::gap;
use super::{BoltCircleInput, Distances};
use crate::calculators::prelude::*;
use uom::si::f64::Length;

/// Chord, and with the holes' diameter what a caliper reads.
pub fn find_distances(
    input: &BoltCircleInput,
    radius: FoundSize,
    step_angle: Option<FoundAngle>,
    record: &mut Record,
) -> Distances {
    let Some(step) = step_angle else {
        if input.hole_diameter.is_some() {
            record.note("one_hole", "A single hole has no neighbor, so the hole diameter changes nothing.");
        }
        return Distances::default();
    };
    let chord: FoundExtent = step!(record, "Distance between neighboring centers",
        c: adjacent_chord = 2.0 * R * abs(sin(δ / 2.0)), R = radius, δ = step_angle: step);
    let closing = 360.0 - input.sweep_degrees().abs();
    if closing != 0.0 && closing < step.degrees().abs() * (1.0 - 1e-12) {
        record.note(
            "ends_close",
            "The sweep leaves less room between the last hole and the first than there is between neighbors.",
        );
    }
    let alone = Distances { adjacent_chord: Some(chord), ..Distances::default() };
    let Some(hole) = input.hole_diameter else { return alone };
    let between = gap(chord.get(), hole.get());
    if between.si() < 0.0 {
        record.note(
            "neighbours_overlap",
            "Holes next to each other in the full pattern would run into each other, though none of those listed do; \
             there is no gap between neighbors to check.",
        );
        return alone;
    }
    let mut distance = |what, formula, field, found: Length| {
        let found = FoundExtent::of(found);
        let step = record.step(what, formula).with("c", "adjacent_chord", chord);
        step.with("d", "hole_diameter", hole).gives(field, found);
        Some(found)
    };
    let distances = Distances {
        gap: distance("Metal between neighboring holes", "g = c - d", "gap", between),
        over_pins: distance("Caliper outside the pins", "o = c + d", "over_pins", chord.get() + hole.get()),
        between_pins: distance("Caliper inside the pins", "b = c - d", "between_pins", between),
        ..alone
    };
    record.note("pins_fit", "Check over pins that fill the holes; loose pins lean, and the check shows nothing.");
    distances
}
