//! An edge that was touched, and plain numbers of points with their way back to quantities.

use crate::fields::Point;
use crate::quantity::{FoundExtent, FoundPlace, SiValue};
use uom::si::f64::Length;

pub(super) type Xy = (f64, f64);

pub(super) fn place(value: f64) -> FoundPlace {
    FoundPlace::of(Length::from_si(value))
}

pub(super) fn extent(value: f64) -> FoundExtent {
    FoundExtent::of(Length::from_si(value))
}

pub(super) fn xy(point: Point) -> Xy {
    (point.x.get().si(), point.y.get().si())
}

/// An edge: a touch on it, its direction, the names under which the record has both.
pub(super) struct Edge {
    pub(super) field: &'static str,
    pub(super) touches: Vec<Point>,
    pub(super) direction: Xy,
    pub(super) touch_names: [[&'static str; 2]; 2],
    pub(super) direction_names: [&'static str; 2],
}

/// Touches that make a corner.
pub(super) fn good(field: &str) -> &'static str {
    if field == "first_edge" { "1 in,-0.1 in;5 in,-0.1 in" } else { "-0.1 in,1 in" }
}
