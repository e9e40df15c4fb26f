//! The distances between neighboring holes of a circle that a caliper checks.

use crate::declared::{Gives, step};
use crate::quantity::{FoundAngle, FoundExtent, FoundSize, SiValue, Size};
use crate::working::Record;
use uom::si::f64::Length;

/// What a caliper can check between neighboring holes.
#[derive(Debug, Default, Gives)]
pub struct Distances {
    /// Straight distance between the centers of neighboring holes of the pattern; absent for one hole.
    #[label("Center to center")]
    pub adjacent_chord: Option<FoundExtent>,
    /// Metal between the edges of neighboring holes; needs the hole diameter.
    #[label("Metal between holes")]
    pub gap: Option<FoundExtent>,
    /// Caliper outside pins in neighboring holes: chord plus hole diameter; needs the hole diameter.
    pub over_pins: Option<FoundExtent>,
    /// Caliper inside pins in neighboring holes: chord less hole diameter; needs the hole diameter.
    pub between_pins: Option<FoundExtent>,
}

/// What is left between two holes with centers so far apart; the rounding of the subtraction is none.
pub fn gap(chord: Length, hole: Length) -> Length {
    let gap = chord - hole;
    if gap.si().abs() <= 4.0 * f64::EPSILON * hole.si() { Length::from_si(0.0) } else { gap }
}

/// The smallest angle between two of the holes listed, in degrees, where `apart` is that of so many steps, with the
/// numbers of the two; `None` for a single hole.
pub fn least_separation(mut numbers: Vec<u32>, apart: impl Fn(u32) -> f64) -> Option<(f64, u32, u32)> {
    numbers.sort_unstable();
    let (first, last) = (*numbers.first()?, *numbers.last()?);
    let inside = numbers.windows(2).map(|pair| (apart(pair[1] - pair[0]), pair[0], pair[1]));
    // The last and the first may be nearest across the gap that a sweep leaves open.
    let across = (first != last).then(|| (360.0 - apart(last - first), first, last));
    inside.chain(across).reduce(|least, other| if other.0 < least.0 { other } else { least })
}

/// Chord, and with the holes' diameter what a caliper reads; `swept` is the whole angle of the pattern, in degrees.
pub fn find_distances(
    hole: Option<Size>,
    swept: f64,
    radius: FoundSize,
    step_angle: Option<FoundAngle>,
    record: &mut Record,
) -> Distances {
    let Some(step) = step_angle else {
        if hole.is_some() {
            record.note("one_hole", "A single hole has no neighbor, so the hole diameter changes nothing.");
        }
        return Distances::default();
    };
    let chord: FoundExtent = step!(record, "Distance between neighboring centers",
        c: adjacent_chord = 2.0 * R * abs(sin(δ / 2.0)), R = radius, δ = step_angle: step);
    let closing = 360.0 - swept.abs();
    if closing != 0.0 && closing < step.degrees().abs() * (1.0 - 1e-12) {
        record.note(
            "ends_close",
            "The sweep leaves less room between the last hole and the first than there is between neighbors.",
        );
    }
    let alone = Distances { adjacent_chord: Some(chord), ..Distances::default() };
    let Some(hole) = hole else { return alone };
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
