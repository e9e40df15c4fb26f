//! What was measured, and how far off it may be: the same fields wherever a part is judged.

use crate::declared::Asks;
use crate::quantity::{Extent, Unit};
use crate::working::Record;

crate::choice! {
    /// A `hole`, which grows as metal goes, or a `shaft`, a stud or a pin, which shrinks.
    HoleOrShaft {
        /// A hole, a bore or a slot.
        Hole = "hole",
        /// A shaft, a stud, a pin or a boss.
        Shaft = "shaft" | "stud" | "pin" | "boss",
    }
}

/// How far off a measurement may be.
#[derive(Clone, Copy, Debug, Default, Asks)]
pub struct MeasuredWithin {
    /// How far off what was measured may be, either way.
    #[label("Measurement may be off by")]
    #[absent("0", value = Extent::stated(0.0, Unit::Millimetre), "The measurement is taken as exact.")]
    pub uncertainty: Option<Extent>,
}

impl MeasuredWithin {
    /// How far off it may be; where that is not said, the measurement is taken as exact, which goes on record.
    pub fn off_by(&self, record: &mut Record) -> Extent {
        self.uncertainty(record)
    }
}
