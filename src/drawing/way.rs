//! A way from place to place.

use super::{Drawing, Ink, Point};

impl Drawing {
    /// A way through places, with an arrow's head on each leg that has room for it.
    pub fn way(&mut self, places: &[Point]) {
        for pair in places.windows(2) {
            self.leg(Ink::Thin, pair[0], pair[1]).of("way");
        }
    }
}

/// The direction in degrees in which there is most room beside a place of a way: away from the legs
/// that come to it and leave it.
pub fn free_side(way: &[Point], at: usize) -> f64 {
    let here = way[at];
    let to = |other: Option<&Point>| {
        let (dx, dy) = other.map_or((0.0, 0.0), |other| (other.0 - here.0, other.1 - here.1));
        let length = dx.hypot(dy);
        if length > 0.0 { (dx / length, dy / length) } else { (0.0, 0.0) }
    };
    let before = to(at.checked_sub(1).and_then(|before| way.get(before)));
    let after = to(way.get(at + 1));
    let (x, y) = (before.0 + after.0, before.1 + after.1);
    if x.hypot(y) > 1e-3 {
        return (-y).atan2(-x).to_degrees();
    }
    // Straight through, to the left of the way; alone, upwards.
    if after == (0.0, 0.0) { 90.0 } else { after.0.atan2(-after.1).to_degrees() }
}
