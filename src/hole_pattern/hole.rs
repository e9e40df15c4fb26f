//! A hole of a pattern, and what checks two of them.

use crate::declared::Gives;
use crate::quantity::{FoundAngle, FoundExtent, FoundMove, FoundPlace};

/// A hole of a pattern.
#[derive(Clone, Debug, Gives)]
pub struct PatternHole {
    /// Its number in the full pattern.
    pub number: u32,
    /// Where it is on X.
    pub x: FoundPlace,
    /// Where it is on Y.
    pub y: FoundPlace,
    /// Move on X from the hole listed before it; the first from datum zero.
    #[label("X move")]
    pub dx: FoundMove,
    /// Move on Y from the hole listed before it; the first from datum zero.
    #[label("Y move")]
    pub dy: FoundMove,
    /// Its angle about the middle of the pattern, from 0 to below 360 deg, counterclockwise from +X; on a circle measured as the angle of hole 1 is. A hole at the middle has none.
    pub angle: Option<FoundAngle>,
}

impl PatternHole {
    /// Where it is, in meters.
    pub fn at(&self) -> (f64, f64) {
        (self.x.si(), self.y.si())
    }
}

/// Two holes to measure over.
#[derive(Clone, Debug, Gives)]
pub struct PatternCheck {
    /// Number of the one hole.
    #[label("From hole")]
    pub from: u32,
    /// Number of the other hole.
    #[label("To hole")]
    pub to: u32,
    /// Distance between their centers.
    #[label("Center to center")]
    pub centers: FoundExtent,
    /// Caliper outside pins that fill the two holes; needs the hole diameter.
    pub over_pins: Option<FoundExtent>,
    /// Caliper between those pins; needs the hole diameter.
    pub between_pins: Option<FoundExtent>,
}
