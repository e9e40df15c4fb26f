//! The working of a stepped profile: its length, its steps and its moves.

use super::shape::{Arc, Shape, steps_in};
use super::stepping::{Stepping, X, Y, degrees, numbers, on};
use super::{ProfilePlace, SteppedProfileResult};
use crate::arithmetic::directions::Sense;
use crate::arithmetic::travel::{AxisColumns, find_moves};
use crate::calculators::prelude::*;

const ON_X: AxisColumns = AxisColumns { symbol: "x", places: "points.x", before: "before.x", moves: "points.dx" };
const ON_Y: AxisColumns = AxisColumns { symbol: "y", places: "points.y", before: "before.y", moves: "points.dy" };

impl Stepping<'_> {
    /// The result, with its steps.
    pub fn solve(mut self) -> SteppedProfileResult {
        let chord: FoundExtent = Found::of_si(self.profile.chord());
        let chord_field = if matches!(self.profile.shape, Shape::Line) { "length" } else { "chord" };
        self.step_of_ends("Straight distance between the ends", "c = √((x - X)^2 + (y - Y)^2)")
            .gives(chord_field, chord);
        let arc = match (self.profile.shape, self.input.radius) {
            (Shape::Arc(arc), Some(radius)) => Some((arc, radius)),
            _ => None,
        };
        let length = arc.map_or(chord, |(arc, radius)| self.find_arc(&arc, radius, chord));
        let step = self.find_step_length(length);
        let steps = self.steps;
        self.record
            .look_up("Places", "every whole number from 1 to one more than the steps")
            .with("n", "steps", steps)
            .gives("points.number", numbers(steps));
        let (places, cusp) = match arc {
            Some((arc, radius)) => self.find_places_along_arc(&arc, radius),
            None => self.find_places_along_line(),
        };
        let (xs, ys) = (on(&places, X), on(&places, Y));
        let datum = (Found::of_si(0.0), "zero, the datum,");
        let dxs = find_moves(&xs, datum, ON_X, self.record);
        let dys = find_moves(&ys, datum, ON_Y, self.record);
        let rows = (1..).zip(xs).zip(ys).zip(dxs).zip(dys);
        let points = rows.map(|((((number, x), y), dx), dy)| ProfilePlace { number, x, y, dx, dy }).collect();
        // Last, since the fields of that name asked for are used above.
        self.record.choose("Length of a step", "as found above").with("s", "step_made", step).gives("step", step);
        self.record.choose("Greatest ridge", "as found above").with("h", "ridge", cusp).gives("cusp", cusp);
        let [first_point, last_point] = self.ends.of_corner();
        SteppedProfileResult { points, cusp, steps, step, length, first_point, last_point }
    }

    /// How many steps, and how long each is.
    fn find_step_length(&mut self, length: FoundExtent) -> FoundExtent {
        let steps = self.steps;
        if let Some(step) = self.input.step {
            let ratio = steps_in(length.si(), step.si());
            self.record
                .step("Steps of the length asked for", "m = L / s")
                .with("L", "length", length)
                .with("s", "step", step)
                .gives("exact_steps", ratio);
            self.record
                .step("Whole steps, none longer", "n = max(1, -floor(-m))")
                .with("m", "exact_steps", ratio)
                .gives("steps", steps);
        } else {
            let draft = self.record.look_up("Steps", "the fewest even steps that leave no ridge higher than h");
            let draft = match self.input.cusp {
                Some(cusp) => draft.with("h", "cusp", cusp),
                None => draft,
            };
            draft.gives("steps", steps);
        }
        step!(self.record, "Length of an even step", s: "step_made" = L / n, L = length, n = steps)
    }

    /// Center, first angle, turn and length of the arc.
    fn find_arc(&mut self, arc: &Arc, radius: Size, chord: FoundExtent) -> FoundExtent {
        let what = "Center from the middle of the chord";
        let apothem: FoundExtent = if arc.apothem == 0.0 {
            let none = Found::of_si(0.0);
            self.record.look_up(what, "0, the chord being a diameter").with("c", "chord", chord).gives("apothem", none);
            none
        } else {
            step!(self.record, what, a: apothem = root((R - c / 2.0) * (R + c / 2.0)), R = radius, c = chord)
        };
        let (for_x, for_y) = match arc.sense {
            Sense::Counterclockwise => ("u = (X + x) / 2 - a × (y - Y) / c", "v = (Y + y) / 2 + a × (x - X) / c"),
            Sense::Clockwise => ("u = (X + x) / 2 + a × (y - Y) / c", "v = (Y + y) / 2 - a × (x - X) / c"),
        };
        let center: (FoundPlace, FoundPlace) = (Found::of_si(arc.center.0), Found::of_si(arc.center.1));
        for (what, formula, field, found) in
            [("Center on X", for_x, "center.x", center.0), ("Center on Y", for_y, "center.y", center.1)]
        {
            self.step_of_ends(what, formula)
                .with("a", "apothem", apothem)
                .with("c", "chord", chord)
                .gives(field, found);
        }
        let (from, [x, y, ..]) = (self.ends.from, &self.ends.shown);
        let arm_x: FoundDifference = Found::of_si(from.0 - arc.center.0);
        let arm_y: FoundDifference = Found::of_si(from.1 - arc.center.1);
        for (what, formula, symbols, (end, shown), center, arm) in [
            ("First point from the center, on X", "u = X - x", ["X", "x"], x, ("center.x", center.0), ("arm.x", arm_x)),
            ("First point from the center, on Y", "v = Y - y", ["Y", "y"], y, ("center.y", center.1), ("arm.y", arm_y)),
        ] {
            let draft = self.record.step(what, formula).with(symbols[0], end, shown.clone());
            draft.with(symbols[1], center.0, center.1).gives(arm.0, arm.1);
        }
        self.record
            .step("Angle of the first point", arc.start.1)
            .with("u", "arm.x", arm_x)
            .with("v", "arm.y", arm_y)
            .gives("first_angle", degrees(arc.start.0));
        let half_chord: FoundExtent = step!(self.record, "Half of the chord", v: half_chord = c / 2.0, c = chord);
        let half_angle = degrees(arc.half.0);
        self.record
            .step("Half of the angle that the arc turns through", arc.half.1)
            .with("u", "apothem", apothem)
            .with("v", "half_chord", half_chord)
            .gives("half_angle", half_angle);
        step!(self.record, "Length of the arc", L: length = 2.0 * R * α, R = radius, α = half_angle)
    }
}
