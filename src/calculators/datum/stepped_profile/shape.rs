//! The plane geometry under a stepped profile: a line or an arc, where it is touched, and how high
//! the ridges stand that a cutter leaves between its places.

use crate::arithmetic::directions::{Sense, angle_of};
use crate::budget::go_on;
use crate::fields::Point;
use crate::quantity::{angle, text};
use crate::refusal::Refusal;
use std::ops::RangeInclusive;

/// Most steps of one profile.
pub const MOST_STEPS: u32 = 1000;

/// A point or a direction in the plane, in SI units.
pub type Plane = (f64, f64);

/// A point in SI units.
pub fn plane(point: &Point) -> Plane {
    (point.x.si(), point.y.si())
}

/// The profile.
#[derive(Clone, Copy, Debug)]
pub enum Shape {
    /// A straight line.
    Line,
    /// An arc of no more than half a circle.
    Arc(Arc),
}

/// An arc: its circle, where it starts and how far it turns.
#[derive(Clone, Copy, Debug)]
pub struct Arc {
    /// Center.
    pub center: Plane,
    /// Radius.
    pub radius: f64,
    /// From the center to the middle of the chord.
    pub apothem: f64,
    /// Angle of the first point, in degrees, and the formula that found it.
    pub start: (f64, &'static str),
    /// Half the angle it turns through, in degrees, and the formula that found it.
    pub half: (f64, &'static str),
    /// Which way it turns.
    pub sense: Sense,
    /// The tool is on the side of the center.
    pub hollow: bool,
}

/// A profile with the cutter that makes it.
#[derive(Clone, Copy, Debug)]
pub struct Profile {
    /// First point.
    pub from: Plane,
    /// Last point.
    pub to: Plane,
    /// What lies between.
    pub shape: Shape,
    /// The tool is left of the way from the first point to the last.
    pub left: bool,
    /// The cutter's end is square; round if not.
    pub flat: bool,
    /// Half the cutter's diameter.
    pub half_cutter: f64,
}

impl Arc {
    /// The arc of that radius between two points a chord apart, which is no longer than a diameter.
    pub fn between(from: Plane, to: Plane, radius: f64, sense: Sense, left: bool) -> Self {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let chord = dx.hypot(dy);
        // What rounding leaves of a chord that is a diameter is no distance.
        let apothem = match radius - chord / 2.0 {
            short if short < 1e-12 * radius => 0.0,
            short => (short * (radius + chord / 2.0)).sqrt(),
        };
        let sign = if sense == Sense::Counterclockwise { 1.0 } else { -1.0 };
        let center =
            ((from.0 + to.0) / 2.0 - sign * apothem * dy / chord, (from.1 + to.1) / 2.0 + sign * apothem * dx / chord);
        let start = angle_of(from.0 - center.0, from.1 - center.1);
        let half = angle_of(apothem, chord / 2.0);
        let hollow = left == (sense == Sense::Counterclockwise);
        Self { center, radius, apothem, start, half, sense, hollow }
    }

    /// Angle of the point after `step` of `steps`.
    pub fn degrees(&self, step: u32, steps: u32) -> f64 {
        let turned = f64::from(step) * 2.0 * self.half.0 / f64::from(steps);
        if self.sense == Sense::Counterclockwise { self.start.0 + turned } else { self.start.0 - turned }
    }

    /// The point after `step` of `steps`.
    fn contact(&self, step: u32, steps: u32) -> Plane {
        self.point(self.radius, self.degrees(step, steps))
    }

    /// How far a point lies off the arc's circle.
    fn off(&self, point: &Plane) -> f64 {
        ((point.0 - self.center.0).hypot(point.1 - self.center.1) - self.radius).abs()
    }

    /// A point on a circle about the same center.
    pub fn point(&self, radius: f64, degrees: f64) -> Plane {
        let (sin, cos) = angle::sin_cos(degrees);
        (self.center.0 + radius * cos, self.center.1 + radius * sin)
    }
}

impl Profile {
    /// Length along the profile.
    pub fn length(&self) -> f64 {
        match self.shape {
            Shape::Line => self.chord(),
            Shape::Arc(arc) => arc.radius * 2.0 * arc.half.0.to_radians(),
        }
    }

    /// Straight distance between its ends.
    pub fn chord(&self) -> f64 {
        (self.to.0 - self.from.0).hypot(self.to.1 - self.from.1)
    }

    /// Length one towards the tool, square to the line between the ends.
    pub fn normal(&self) -> Plane {
        let (dx, dy) = ((self.to.0 - self.from.0) / self.chord(), (self.to.1 - self.from.1) / self.chord());
        if self.left { (-dy, dx) } else { (dy, -dx) }
    }

    /// Radius of the circle on which the middle of a round cutter goes.
    pub fn tool_radius(&self, arc: &Arc) -> f64 {
        if arc.hollow { arc.radius - self.half_cutter } else { arc.radius + self.half_cutter }
    }

    /// Where the profile is touched after each step.
    pub fn contacts(&self, steps: u32) -> Vec<Plane> {
        let on_line = |step: u32| {
            let along = f64::from(step) / f64::from(steps);
            (self.from.0 + along * (self.to.0 - self.from.0), self.from.1 + along * (self.to.1 - self.from.1))
        };
        match self.shape {
            Shape::Line => (0..=steps).map(on_line).collect(),
            Shape::Arc(arc) => (0..=steps).map(|step| arc.contact(step, steps)).collect(),
        }
    }

    /// The fewest steps that leave no ridge higher than `most`.
    pub fn fewest_steps(&self, most: f64) -> Result<Option<u32>, Refusal> {
        match self.shape {
            Shape::Arc(arc) if self.flat => self.fewest_along(&arc, most),
            _ => first_in(1..=MOST_STEPS, |steps| self.cusp(steps).is_some_and(|cusp| cusp <= most)),
        }
    }

    /// The fewest steps, from so many on, that the cutter is wide enough for.
    pub fn fewest_wide_enough(&self, from: u32) -> Result<Option<u32>, Refusal> {
        first_in(from..=MOST_STEPS, |steps| self.cusp(steps).is_some())
    }

    /// The same for a square cutter along an arc, where each step leaves another ridge. One that is too high
    /// is enough, and with one step more it is nearly in the same place: that is looked at first.
    fn fewest_along(&self, arc: &Arc, most: f64) -> Result<Option<u32>, Refusal> {
        // The last one seen too high, from 0 to 1 along the profile.
        let mut high = 0.5;
        let is_high = |corner: &Plane| arc.off(corner) > most;
        first_in(1..=MOST_STEPS, |steps| {
            let at = ((high * f64::from(steps)) as u32).min(steps - 1);
            let pair = [at, at + 1].map(|step| arc.contact(step, steps));
            if self.corners(&pair).iter().any(is_high) {
                return false;
            }
            let contacts = self.contacts(steps);
            match self.corners(&contacts).iter().position(is_high) {
                Some(at) => {
                    high = (at as f64 + 0.5) / f64::from(steps);
                    false
                }
                None => self.fits(&contacts),
            }
        })
    }

    /// Whether the cutter is wide enough to leave no more than ridges between contacts.
    fn fits(&self, contacts: &[Plane]) -> bool {
        let widest = 2.0 * self.half_cutter * (1.0 + 1e-12);
        contacts.windows(2).all(|pair| (pair[1].0 - pair[0].0).abs() <= widest)
    }

    /// The corners that a square cutter leaves standing, one for each step: each has the X of one of
    /// two neighboring contacts and the Y of the other, on the side of the tool.
    pub fn corners(&self, contacts: &[Plane]) -> Vec<Plane> {
        let (nx, ny) = self.normal();
        let corner = |pair: &[Plane]| {
            let (a, b) = ((pair[0].0, pair[1].1), (pair[1].0, pair[0].1));
            let towards_tool = (a.0 - b.0) * nx + (a.1 - b.1) * ny;
            if towards_tool >= 0.0 { a } else { b }
        };
        contacts.windows(2).map(corner).collect()
    }

    /// Height of the greatest ridge left between places, square to the profile; `None` where the
    /// cutter's places lie so far apart that it leaves more than ridges.
    pub fn cusp(&self, steps: u32) -> Option<f64> {
        let (r, n) = (self.half_cutter, f64::from(steps));
        let widest = 2.0 * r * (1.0 + 1e-12);
        match self.shape {
            Shape::Line if self.flat => {
                let (dx, dy) = ((self.to.0 - self.from.0).abs(), (self.to.1 - self.from.1).abs());
                (dx / n <= widest).then(|| dx * dy / (n * self.chord()))
            }
            Shape::Line => ridge(self.length() / n / 2.0, r),
            Shape::Arc(arc) if self.flat => {
                let contacts = self.contacts(steps);
                let fits = self.fits(&contacts);
                fits.then(|| self.corners(&contacts).iter().map(|corner| arc.off(corner)).fold(0.0, f64::max))
            }
            Shape::Arc(arc) => {
                let (q, step) = (self.tool_radius(&arc), 2.0 * arc.half.0 / n);
                let bow = 2.0 * q * angle::sin(step / 4.0).powi(2);
                let height = ridge(q * angle::sin(step / 2.0), r)?;
                Some(if arc.hollow { height + bow } else { height - bow })
            }
        }
    }

    /// True where a round cutter of that radius does not go into the hollow of the arc.
    pub fn is_too_hollow(&self, half_cutter: f64) -> bool {
        matches!(self.shape, Shape::Arc(arc) if !self.flat && arc.hollow && half_cutter >= arc.radius * (1.0 - 1e-9))
    }

    /// True where an arc turns over its highest or lowest point, or stands upright within its length.
    pub fn leaves_quadrant(&self) -> bool {
        let Shape::Arc(arc) = self.shape else { return false };
        let arms = [self.from, self.to].map(|end| (end.0 - arc.center.0, end.1 - arc.center.1));
        // A hair beyond is no height: that goes with the square of it.
        let slack = arc.radius * arc.radius * 1e-6;
        arms[0].0 * arms[1].0 < -slack || arms[0].1 * arms[1].1 < -slack || arc.half.0 > 45.0 + 1e-4
    }
}

/// The first number of steps that is fit.
fn first_in(steps: RangeInclusive<u32>, mut is_fit: impl FnMut(u32) -> bool) -> Result<Option<u32>, Refusal> {
    for steps in steps {
        go_on()?;
        if is_fit(steps) {
            return Ok(Some(steps));
        }
    }
    Ok(None)
}

/// Steps of that size in a length, without the noise that would make one more of them.
pub fn steps_in(length: f64, step: f64) -> f64 {
    text::round(length / step, 9)
}

/// Height of the ridge between two round cuts of that radius whose middles are twice `half` apart.
fn ridge(half: f64, radius: f64) -> Option<f64> {
    let under = radius * radius - half * half;
    (half <= radius * (1.0 + 1e-12)).then(|| half * half / (radius + under.max(0.0).sqrt()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chord_that_is_a_diameter_but_for_rounding_has_its_centre_in_the_middle() {
        for step in 0..360 {
            let (sin, cos) = f64::from(step).to_radians().sin_cos();
            let to = (0.3 + 0.05 * cos, 0.2 + 0.05 * sin);
            let arc = Arc::between((0.3, 0.2), to, 0.025, Sense::Clockwise, true);
            assert_eq!((arc.apothem, arc.half.0), (0.0, 90.0), "{step}");
        }
    }

    #[test]
    fn an_end_a_hair_beyond_a_quadrant_is_within_it() {
        for (radius, beyond) in [(0.01, 1e-7), (0.01, 1e-3), (10.0, 1e-7), (10.0, 1e-3)] {
            for quadrant in [0.0, 90.0, 180.0, 270.0] {
                let on = |degrees: f64| {
                    let (sin, cos) = (quadrant + degrees).to_radians().sin_cos();
                    (radius * cos, radius * sin)
                };
                let (from, to) = (on(-beyond), on(60.0));
                let arc = Arc::between(from, to, radius, Sense::Counterclockwise, true);
                let profile = Profile { from, to, shape: Shape::Arc(arc), left: true, flat: false, half_cutter: 0.001 };
                assert_eq!(profile.leaves_quadrant(), beyond > 1e-6, "{radius} {quadrant} {beyond}");
            }
        }
    }

    #[test]
    fn the_fewest_steps_are_those_found_by_trying_each() {
        for flat in [true, false] {
            for (end, hollow) in [(5.0, true), (40.0, true), (88.0, true), (30.0, false), (89.0, false)] {
                let on = |degrees: f64| {
                    let (sin, cos) = f64::to_radians(degrees).sin_cos();
                    (0.02 * cos, 0.02 * sin)
                };
                let (from, to) = (on(1.0), on(end));
                let arc = Arc::between(from, to, 0.02, Sense::Counterclockwise, hollow);
                for half_cutter in [0.0005, 0.005] {
                    let profile = Profile { from, to, shape: Shape::Arc(arc), left: hollow, flat, half_cutter };
                    for most in [1e-3, 2e-5, 1e-6, 1e-7] {
                        let tried = (1..=MOST_STEPS).find(|n| profile.cusp(*n).is_some_and(|cusp| cusp <= most));
                        assert_eq!(profile.fewest_steps(most), Ok(tried), "{flat} {end} {half_cutter} {most}");
                    }
                }
            }
        }
    }
}
