//! Points, lines and circles of a plane as several calculators ask for them and give them, and the steps from one
//! place to another.

use super::circle_fit::Circle;
use super::touching::{Pair, metres};
use crate::declared::{Asks, Gives, step};
use crate::fields::Point;
use crate::quantity::{Found, FoundPlace, FoundSize, Place, Size};
use crate::working::Record;

/// A place that a readout is set to.
#[derive(Clone, Copy, Debug, Gives)]
pub struct ReadoutPoint {
    /// On X.
    #[label("X")]
    pub x: FoundPlace,
    /// On Y.
    #[label("Y")]
    pub y: FoundPlace,
}

impl ReadoutPoint {
    /// The place of so many meters on X and on Y.
    pub fn of((x, y): (f64, f64)) -> Self {
        // What rounding leaves of zero is zero.
        let clean = |place: f64| Found::of_si(if place.abs() < 1e-15 { 0.0 } else { place });
        Self { x: clean(x), y: clean(y) }
    }

    /// Where it is, in meters.
    pub fn at(&self) -> (f64, f64) {
        (self.x.si(), self.y.si())
    }
}

/// One circle or two.
#[derive(Clone, Copy, Debug, Asks)]
pub struct TwoCircles {
    /// X and Y of the first circle's center.
    #[label("Center of the first circle")]
    pub first_center: Option<Point>,
    /// Diameter of the first circle.
    #[label("Diameter of the first circle")]
    pub first_diameter: Option<Size>,
    /// X and Y of the second circle's center.
    #[label("Center of the second circle")]
    pub second_center: Option<Point>,
    /// Diameter of the second circle.
    #[label("Diameter of the second circle")]
    pub second_diameter: Option<Size>,
}

/// A circle as it was stated.
#[derive(Clone, Copy, Debug)]
pub struct StatedCircle {
    /// Its center.
    pub center: Point,
    /// Its diameter.
    pub diameter: Size,
}

impl StatedCircle {
    /// The circle in meters.
    pub fn circle(&self) -> Circle {
        let (x, y) = metres(&self.center);
        Circle { x, y, r: self.diameter.si() / 2.0 }
    }
}

impl TwoCircles {
    /// The first circle, if it is given.
    pub fn first(&self) -> Option<StatedCircle> {
        Some(StatedCircle { center: self.first_center?, diameter: self.first_diameter? })
    }

    /// The second circle, if it is given.
    pub fn second(&self) -> Option<StatedCircle> {
        Some(StatedCircle { center: self.second_center?, diameter: self.second_diameter? })
    }
}

crate::rules! { pub(crate) check_circles(TwoCircles) {
    needs(first_center => first_diameter = "2 in"): "The first circle needs its diameter.";
    needs(first_diameter => first_center = "0 in,0 in"): "The first circle needs its center.";
    needs(second_center => second_diameter = "1 in"): "The second circle needs its diameter.";
    needs(second_diameter => second_center = "5 in,0 in"): "The second circle needs its center.";
} }

/// A point and the names of its places.
pub fn named(point: Point, of: [&'static str; 2]) -> Pair<Place> {
    Pair { of, on: [point.x, point.y] }
}

/// The way from one place to another: its parts on X and Y, and how long it is.
pub fn find_way(from: &Pair<Place>, to: &Pair<Place>, record: &mut Record) -> (Pair<FoundPlace>, FoundSize) {
    let of = ["way.x", "way.y"];
    let [x, y] = [0, 1].map(|on| -> FoundPlace {
        let what = ["From the one to the other, on X", "From the one to the other, on Y"][on];
        step!(record, what, p: (of[on]) = b - a, a = (from.of[on]): from.on[on], b = (to.of[on]): to.on[on])
    });
    let distance: FoundSize = Found::of_si(x.si().hypot(y.si()));
    record
        .step("How far apart they are", "c = √(u^2 + v^2)")
        .with_pair(["u", "v"], &Pair { of, on: [x, y] })
        .gives("center_distance", distance);
    (Pair { of, on: [x, y] }, distance)
}
