//! What many drawings show alike: blocks, touches, lists of numbered places; and where that lies.

use super::{Drawing, Ink, Mark, Point};
use crate::quantity::angle;

impl Drawing {
    /// A rectangle between two of its corners, first along X.
    pub fn block(&mut self, ink: Ink, (left, low): Point, (right, high): Point) -> &mut Mark {
        self.closed(ink, vec![(left, low), (right, low), (right, high), (left, high)])
    }

    /// Where a tip touched: its circle, if it has one, and its middle.
    pub fn touch(&mut self, at: Point, tip_radius: f64) -> &mut Mark {
        if tip_radius > 0.0 {
            self.circle(Ink::Thin, at, tip_radius).of("tip_diameter");
        }
        self.dot(at)
    }

    /// The places of a list.
    pub fn dots(&mut self, field: &'static str, places: &[Point]) {
        for (at, number) in places.iter().zip(1..) {
            self.dot(*at).of(field).number(number);
        }
    }

    /// The place of one input or result, under a cross.
    pub fn crossed_dot(&mut self, field: &'static str, at: Point) {
        self.cross(at, 0.0);
        self.dot(at).of(field);
    }
}

/// The direction from one point to another, in degrees.
pub fn direction(from: Point, to: Point) -> f64 {
    (to.1 - from.1).atan2(to.0 - from.0).to_degrees()
}

/// The point so far from another in a direction in degrees.
pub fn on_circle(centre: Point, radius: f64, degrees: f64) -> Point {
    let (sin, cos) = angle::sin_cos(degrees);
    (centre.0 + radius * cos, centre.1 + radius * sin)
}

/// The middle of several points, as their mean.
pub fn middle(points: &[Point]) -> Point {
    let count = points.len().max(1) as f64;
    (points.iter().map(|p| p.0).sum::<f64>() / count, points.iter().map(|p| p.1).sum::<f64>() / count)
}

/// The least and the greatest of several values.
pub fn span(values: impl Iterator<Item = f64>) -> (f64, f64) {
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)))
}
