//! The circle of the tip's path, and the touches as they are seen from its centre.

use crate::arithmetic::circle_fit::{Circle, Xy};
use crate::quantity::{FoundExtent, FoundPlace, SiValue};
use uom::si::f64::Length;

pub(super) fn place(value: f64) -> FoundPlace {
    FoundPlace::of(Length::from_si(value))
}

pub(super) fn extent(value: f64) -> FoundExtent {
    FoundExtent::of(Length::from_si(value))
}

/// The circle of the tip's path and the touches seen from its centre.
pub(super) struct Seen {
    pub(super) circle: Circle,
    pub(super) distances: Vec<f64>,
    /// Directions of length one.
    pub(super) directions: Vec<Xy>,
}

impl Seen {
    pub(super) fn new(circle: Circle, points: &[Xy]) -> Self {
        let distances: Vec<f64> = points.iter().map(|p| (p.0 - circle.x).hypot(p.1 - circle.y)).collect();
        let directions =
            points.iter().zip(&distances).map(|(p, d)| ((p.0 - circle.x) / d, (p.1 - circle.y) / d)).collect();
        Self { circle, distances, directions }
    }
}
