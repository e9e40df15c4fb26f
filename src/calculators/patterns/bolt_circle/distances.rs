//! The distances between neighbouring holes of a bolt circle that a caliper checks.

use super::check::gap;
use super::{BoltCircleInput, BoltCircleResult};
use crate::quantity::{FoundExtent, FoundSize, SiValue, angle};
use crate::working::Record;
use uom::si::f64::Length;

/// Chord, and with the holes' diameter what a caliper reads.
pub fn find_distances(input: &BoltCircleInput, radius: Length, result: &mut BoltCircleResult, record: &mut Record) {
    let Some(step) = result.step_angle else {
        if input.hole_diameter.is_some() {
            record.note("one_hole", "A single hole has no neighbour: hole_diameter changes nothing.");
        }
        return;
    };
    let chord = 2.0 * radius * angle::sin(step.degrees() / 2.0).abs();
    let adjacent = FoundExtent::of(chord);
    record
        .step("Distance of neighbouring centres", "c = 2 × R × abs(sin(δ / 2))")
        .with("R", "radius", FoundSize::of(radius))
        .with("δ", "step_angle", step)
        .gives("adjacent_chord", adjacent);
    result.adjacent_chord = Some(adjacent);
    let closing = 360.0 - input.sweep_degrees().abs();
    if closing != 0.0 && closing < step.degrees().abs() * (1.0 - 1e-12) {
        record.note(
            "ends_close",
            "The sweep leaves less room between the last hole and the first than there is between neighbours.",
        );
    }
    let Some(hole) = input.hole_diameter else { return };
    let between = gap(chord, hole.get());
    if between.si() < 0.0 {
        record.note(
            "neighbours_overlap",
            "Holes next to each other in the full pattern would run into each other, though none of those listed do; \
             there is no gap between neighbours to check.",
        );
        return;
    }
    let mut distance = |what, formula, field, found: Length| {
        let found = FoundExtent::of(found);
        record
            .step(what, formula)
            .with("c", "adjacent_chord", adjacent)
            .with("d", "hole_diameter", hole)
            .gives(field, found);
        Some(found)
    };
    result.gap = distance("Metal between neighbouring holes", "g = c - d", "gap", between);
    result.over_pins = distance("Caliper outside the pins", "o = c + d", "over_pins", chord + hole.get());
    result.between_pins = distance("Caliper inside the pins", "b = c - d", "between_pins", between);
    record.note(
        "pins_fit",
        "The check over pins holds for pins that fill the holes; looser ones lean, and it shows nothing.",
    );
}
