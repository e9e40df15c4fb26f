//! The working of a stepped profile: its length, its steps and its moves.

use super::ends::{ends, metres};
use super::places::{find_places_along_arc, find_places_along_line};
use super::shape::{Arc, Profile, Shape, steps_in};
use super::{ProfilePlace, SteppedProfileInput, SteppedProfileResult};
use crate::arithmetic::directions::Sense;
use crate::arithmetic::travel::{AxisColumns, find_moves};
use crate::quantity::kind::Extent;
use crate::quantity::{FoundAngle, FoundDifference, FoundExtent, FoundMove, FoundPlace, SiValue, Unit};
use crate::working::Record;

const X: AxisColumns = AxisColumns { symbol: "x", places: "points.x", before: "before.x", moves: "points.dx" };
const Y: AxisColumns = AxisColumns { symbol: "y", places: "points.y", before: "before.y", moves: "points.dy" };

/// The result, with its steps.
pub fn solve(input: &SteppedProfileInput, profile: &Profile, steps: u32, record: &mut Record) -> SteppedProfileResult {
    let chord: FoundExtent = metres(profile.chord());
    let chord_field = if matches!(profile.shape, Shape::Line) { "length" } else { "chord" };
    ends(record.step("Straight distance between the ends", "c = √((x - X)^2 + (y - Y)^2)"), input)
        .gives(chord_field, chord);
    if let Shape::Arc(arc) = &profile.shape {
        find_arc(input, profile, arc, record);
    }
    let length: FoundExtent = metres(profile.length());
    let step = find_step_length(input, length, steps, record);
    let numbers: Vec<u32> = (1..=steps + 1).collect();
    let shown: Vec<f64> = numbers.iter().copied().map(f64::from).collect();
    record
        .look_up("Places", "every whole number from 1 to one more than the steps")
        .with("n", "steps", steps)
        .gives("points.number", shown.clone());
    let (xs, ys, cusp) = match &profile.shape {
        Shape::Line => find_places_along_line(input, profile, steps, &shown, record),
        Shape::Arc(arc) => find_places_along_arc(input, profile, arc, steps, &shown, record),
    };
    let datum = (metres(0.0), "0, the datum,");
    let dxs: Vec<FoundMove> = find_moves(&xs, datum, X, record);
    let dys: Vec<FoundMove> = find_moves(&ys, datum, Y, record);
    let rows = numbers.into_iter().zip(xs).zip(ys).zip(dxs).zip(dys);
    let points = rows.map(|((((number, x), y), dx), dy)| ProfilePlace { number, x, y, dx, dy }).collect();
    // Last, since the fields of that name asked for are used above.
    record.choose("Length of a step", "as found above").with("s", "step_made", step).gives("step", step);
    record.choose("Greatest ridge", "as found above").with("h", "ridge", cusp).gives("cusp", cusp);
    SteppedProfileResult { points, cusp, steps, step, length }
}

/// How many steps, and how long each is.
fn find_step_length(input: &SteppedProfileInput, length: FoundExtent, steps: u32, record: &mut Record) -> FoundExtent {
    match (input.step, input.cusp) {
        (Some(step), _) => {
            let ratio = steps_in(length.get().si(), step.get().si());
            record
                .step("Steps of the length asked for", "m = L / s")
                .with("L", "length", length)
                .with("s", "step", step)
                .gives("exact_steps", ratio);
            record
                .step("Whole steps, none longer", "n = max(1, -floor(-m))")
                .with("m", "exact_steps", ratio)
                .gives("steps", steps);
        }
        (None, cusp) => {
            let draft = record.look_up("Steps", "the fewest even steps that leave no ridge higher than h");
            let draft = match cusp {
                Some(cusp) => draft.with("h", "cusp", cusp),
                None => draft,
            };
            draft.gives("steps", steps);
        }
    }
    let step: FoundExtent = metres(length.get().si() / f64::from(steps));
    record
        .step("Length of an even step", "s = L / n")
        .with("L", "length", length)
        .with("n", "steps", steps)
        .gives("step_made", step);
    step
}

/// Centre, first angle and turn of the arc.
fn find_arc(input: &SteppedProfileInput, profile: &Profile, arc: &Arc, record: &mut Record) {
    let Some(radius) = input.radius else { return };
    let chord: FoundExtent = metres(profile.chord());
    let apothem: FoundExtent = metres(arc.apothem);
    if arc.apothem == 0.0 {
        record
            .look_up("Centre from the middle of the chord", "0, the chord being a diameter")
            .with("c", "chord", chord)
            .gives("apothem", apothem);
    } else {
        record
            .step("Centre from the middle of the chord", "a = √((R - c / 2) × (R + c / 2))")
            .with("R", "radius", radius)
            .with("c", "chord", chord)
            .gives("apothem", apothem);
    }
    let (for_x, for_y) = match arc.sense {
        Sense::Counterclockwise => ("u = (X + x) / 2 - a × (y - Y) / c", "v = (Y + y) / 2 + a × (x - X) / c"),
        Sense::Clockwise => ("u = (X + x) / 2 + a × (y - Y) / c", "v = (Y + y) / 2 - a × (x - X) / c"),
    };
    let center: (FoundPlace, FoundPlace) = (metres(arc.center.0), metres(arc.center.1));
    for (what, formula, field, found) in
        [("Centre on X", for_x, "center.x", center.0), ("Centre on Y", for_y, "center.y", center.1)]
    {
        ends(record.step(what, formula), input)
            .with("a", "apothem", apothem)
            .with("c", "chord", chord)
            .gives(field, found);
    }
    let arm: (FoundDifference, FoundDifference) =
        (metres(profile.from.0 - arc.center.0), metres(profile.from.1 - arc.center.1));
    record
        .step("First point from the centre, on X", "u = X - x")
        .with("X", "from.x", input.from.x)
        .with("x", "center.x", center.0)
        .gives("arm.x", arm.0);
    record
        .step("First point from the centre, on Y", "v = Y - y")
        .with("Y", "from.y", input.from.y)
        .with("y", "center.y", center.1)
        .gives("arm.y", arm.1);
    record
        .step("Angle of the first point", arc.start.1)
        .with("u", "arm.x", arm.0)
        .with("v", "arm.y", arm.1)
        .gives("first_angle", FoundAngle::stated(arc.start.0, Unit::Degree));
    let half_chord: FoundExtent = metres(profile.chord() / 2.0);
    record.step("Half of the chord", "v = c / 2").with("c", "chord", chord).gives("half_chord", half_chord);
    let half = FoundAngle::stated(arc.half.0, Unit::Degree);
    record
        .step("Half of the angle that the arc turns through", arc.half.1)
        .with("u", "apothem", apothem)
        .with("v", "half_chord", half_chord)
        .gives("half_angle", half);
    record
        .step("Length of the arc", "L = 2 × R × α")
        .with("R", "radius", radius)
        .with("α", "half_angle", half)
        .gives("length", metres::<Extent>(profile.length()));
}
