//! Where the cutter of a stepped profile stands along a line or an arc, and the ridges it leaves.

use super::shape::{Arc, Plane};
use super::stepping::{Stepping, X, Y, degrees, numbers, on, without_noise};
use super::{ProfileCutter, ProfileSide};
use crate::arithmetic::directions::Sense;
use crate::calculators::prelude::*;

impl Stepping<'_> {
    /// Places along a line, and its greatest ridge.
    pub fn find_places_along_line(&mut self) -> (Vec<Plane>, FoundExtent) {
        let (profile, steps, diameter) = (self.profile, self.steps, self.input.diameter);
        let contacts = profile.contacts(steps);
        for (what, formula, field, axis) in [
            ("Profile on X", "p = X + (i - 1) × (x - X) / n", "contact.x", X),
            ("Profile on Y", "p = Y + (i - 1) × (y - Y) / n", "contact.y", Y),
        ] {
            self.step_of_ends(what, formula)
                .with("i", "points.number", numbers(steps))
                .with("n", "steps", steps)
                .gives(field, on(&contacts, axis));
        }
        let length: FoundExtent = Found::of_si(profile.length());
        let cusp: FoundExtent = Found::of_si(profile.cusp(steps).unwrap_or_default());
        if profile.flat {
            let places = self.find_square_cutter(&contacts);
            let what = "Ridge: height of the right triangle of one step";
            self.step_of_ends(what, "h = abs((x - X) × (y - Y)) / (n × L)")
                .with("n", "steps", steps)
                .with("L", "length", length)
                .gives("ridge", cusp);
            return (places, cusp);
        }
        let normal = profile.normal();
        let (on_x, on_y) = match self.ends.side {
            ProfileSide::Left => ("u = (Y - y) / L", "v = (x - X) / L"),
            ProfileSide::Right => ("u = (y - Y) / L", "v = (X - x) / L"),
        };
        for (what, formula, field, part) in [
            ("Square to the line toward the cutter, on X", on_x, "square.x", normal.0 + 0.0),
            ("Square to the line toward the cutter, on Y", on_y, "square.y", normal.1 + 0.0),
        ] {
            self.step_of_ends(what, formula).with("L", "length", length).gives(field, part);
        }
        let off = |at: &Plane| (at.0 + normal.0 * profile.half_cutter, at.1 + normal.1 * profile.half_cutter);
        let places = without_noise(contacts.iter().map(off), self.reach(&contacts));
        for (what, square, contact, field, axis) in [
            ("X of the cutter", "square.x", "contact.x", "points.x", X),
            ("Y of the cutter", "square.y", "contact.y", "points.y", Y),
        ] {
            self.record
                .step(what, "q = p + u × D / 2")
                .with("p", contact, on(&contacts, axis))
                .with("u", square, axis(&normal) + 0.0)
                .with("D", "diameter", diameter)
                .gives(field, on(&places, axis));
        }
        let half_step: FoundExtent = step!(self.record, "Half of a step",
            m: half_step = L / (2.0 * n), L = length, n = steps);
        self.record
            .step("Ridge between two round cuts", "h = m^2 / (D / 2 + √(max(D^2 / 4 - m^2, 0)))")
            .with("m", "half_step", half_step)
            .with("D", "diameter", diameter)
            .gives("ridge", cusp);
        (places, cusp)
    }

    /// How far the cutter and what it touches reach from the datum.
    fn reach(&self, contacts: &[Plane]) -> f64 {
        let far = contacts.iter().flat_map(|at| [at.0.abs(), at.1.abs()]).fold(0.0, f64::max);
        far + self.profile.half_cutter
    }

    /// The middle of a square cutter's end: half the cutter aside of where its corner touches.
    fn find_square_cutter(&mut self, contacts: &[Plane]) -> Vec<Plane> {
        // What rounding leaves of a level line's slope is no side.
        let slope = self.profile.normal().0;
        let aside = if slope.abs() < 1e-12 { 0.0 } else { slope.signum() };
        let says = "1 toward larger X, -1 toward smaller X, 0 on a level line";
        self.record
            .look_up("On which side of its corner the cutter stands", says)
            .with("s", "side", self.ends.side.as_str())
            .gives("aside", aside);
        let off = |at: &Plane| (at.0 + aside * self.profile.half_cutter, at.1);
        let places = without_noise(contacts.iter().map(off), self.reach(contacts));
        self.record
            .step("X of the cutter", "q = p + k × D / 2")
            .with("p", "contact.x", on(contacts, X))
            .with("k", "aside", aside)
            .with("D", "diameter", self.input.diameter)
            .gives("points.x", on(&places, X));
        self.record
            .step("Y of the cutter's end", "q = p")
            .with("p", "contact.y", on(contacts, Y))
            .gives("points.y", on(&places, Y));
        places
    }

    /// Places along an arc, and its greatest ridge.
    pub fn find_places_along_arc(&mut self, arc: &Arc, radius: Size) -> (Vec<Plane>, FoundExtent) {
        let (steps, half, diameter) = (self.steps, degrees(arc.half.0), self.input.diameter);
        let step_angle: FoundAngle = step!(self.record, "Angle of one step",
            δ: step_angle = 2.0 * α / n, α = half_angle: half, n = steps);
        let turned: Vec<f64> = (0..=steps).map(|step| arc.degrees(step, steps)).collect();
        let formula = match arc.sense {
            Sense::Counterclockwise => "θ = α + (i - 1) × δ",
            Sense::Clockwise => "θ = α - (i - 1) × δ",
        };
        self.record
            .step("Angle of each place", formula)
            .with("α", "first_angle", degrees(arc.start.0))
            .with("i", "points.number", numbers(steps))
            .with("δ", "step_angle", step_angle)
            .gives("direction", column(&turned, |turned| degrees(*turned)));
        let cusp: FoundExtent = Found::of_si(self.profile.cusp(steps).unwrap_or_default());
        if self.input.cutter == ProfileCutter::Flat {
            let circle = (arc.radius, "radius", radius.into());
            let contacts = self.find_points_of_circle(arc, circle, &turned, ["contact.x", "contact.y"]);
            let places = self.find_square_cutter(&contacts);
            self.find_ridges_of_corners(arc, &contacts, cusp);
            return (places, cusp);
        }
        let what = "Radius on which the cutter's center runs";
        let q: FoundExtent = if arc.hollow {
            step!(self.record, what, q: "tool_radius" = R - D / 2.0, R = radius, D = diameter)
        } else {
            step!(self.record, what, q: "tool_radius" = R + D / 2.0, R = radius, D = diameter)
        };
        let circle = (q.si(), "tool_radius", q.into());
        let places = self.find_points_of_circle(arc, circle, &turned, ["points.x", "points.y"]);
        let half_step: FoundExtent = step!(self.record, "Half the distance between two neighboring places",
            m: half_step = q * sin(δ / 2.0), q = "tool_radius": q, δ = step_angle);
        let formula = if arc.hollow {
            "h = m^2 / (D / 2 + √(max(D^2 / 4 - m^2, 0))) + 2 × q × (sin(δ / 4))^2"
        } else {
            "h = m^2 / (D / 2 + √(max(D^2 / 4 - m^2, 0))) - 2 × q × (sin(δ / 4))^2"
        };
        self.record
            .step("Ridge between two round cuts, off the arc", formula)
            .with("m", "half_step", half_step)
            .with("D", "diameter", diameter)
            .with("q", "tool_radius", q)
            .with("δ", "step_angle", step_angle)
            .gives("ridge", cusp);
        (places, cusp)
    }

    /// Points in the directions of the places on a circle about the arc's centre: its radius, what the steps
    /// call that, and how they show it.
    fn find_points_of_circle(
        &mut self,
        arc: &Arc,
        (radius, of, shown): (f64, &'static str, Shown),
        turned: &[f64],
        fields: [&'static str; 2],
    ) -> Vec<Plane> {
        let reach = radius + arc.center.0.abs() + arc.center.1.abs();
        let points = without_noise(turned.iter().map(|degrees| arc.point(radius, *degrees)), reach);
        for (what, formula, symbol, of_center, field, axis) in [
            ("Place on X", "p = x + R × cos(θ)", "x", "center.x", fields[0], X),
            ("Place on Y", "p = y + R × sin(θ)", "y", "center.y", fields[1], Y),
        ] {
            self.record
                .step(what, formula)
                .with(symbol, of_center, FoundPlace::of_si(axis(&arc.center)))
                .with("R", of, shown.clone())
                .with("θ", "direction", column(turned, |turned| degrees(*turned)))
                .gives(field, on(&points, axis));
        }
        points
    }

    /// The ridges that a square corner leaves on an arc.
    fn find_ridges_of_corners(&mut self, arc: &Arc, contacts: &[Plane], cusp: FoundExtent) {
        let corners = self.profile.corners(contacts);
        for (what, contact, field, axis) in [
            ("Corner left in each step, X", "contact.x", "corner.x", X),
            ("Corner left in each step, Y", "contact.y", "corner.y", Y),
        ] {
            self.record
                .choose(what, "X of one and Y of the other of two neighbors, on the cutter's side of the profile")
                .with("p", contact, on(contacts, axis))
                .gives(field, on(&corners, axis));
        }
        let off = |at: &Plane| Found::of_si((at.0 - arc.center.0).hypot(at.1 - arc.center.1));
        let off: Vec<FoundExtent> = corners.iter().map(off).collect();
        self.record
            .step("Corner from the center of the arc", "r = √((x - u)^2 + (y - v)^2)")
            .with("x", "corner.x", on(&corners, X))
            .with("y", "corner.y", on(&corners, Y))
            .with("u", "center.x", FoundPlace::of_si(arc.center.0))
            .with("v", "center.y", FoundPlace::of_si(arc.center.1))
            .gives("corner.radius", off.clone());
        let ridges: Vec<FoundExtent> =
            off.iter().map(|radius| Found::of_si((radius.si() - arc.radius).abs())).collect();
        let radius: FoundExtent = Found::of_si(arc.radius);
        self.record
            .step("Ridge of each step", "h = abs(r - R)")
            .with("r", "corner.radius", off)
            .with("R", "radius", radius)
            .gives("ridges", ridges.clone());
        self.record.step("Greatest of them", "g = greatest(h)").with("h", "ridges", ridges).gives("ridge", cusp);
    }
}
