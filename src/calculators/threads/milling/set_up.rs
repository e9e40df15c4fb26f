//! The speed of the spindle and the feed of the tips.

use super::ThreadMillingInput;
use crate::calculators::prelude::*;
use crate::machine::{CutDiameter, Held, SetSpeed};

/// What is set on the machine.
#[derive(Debug, Gives)]
pub struct SetUp {
    /// Spindle speed to set.
    pub spindle_speed: FoundSpindleSpeed,
    /// Spindle speed for the cutting speed wanted.
    pub exact_speed: FoundSpindleSpeed,
    /// Cutting speed at the spindle speed to set.
    pub cutting_speed: FoundCuttingSpeed,
    /// Feed rate of the tips along the thread.
    #[label("Feed at the tips")]
    pub edge_feed_rate: FoundFeedRate,
}

/// Chooses the speed, and the feed of the tips that goes with it; with the limits of the machine that bind.
pub fn speed(input: &ThreadMillingInput, record: &mut Record) -> Result<(SetUp, Held), Refusal> {
    let across = CutDiameter { of: "cutter_diameter", size: input.cutter_diameter };
    let (set, held) = input.spindle.set(input.cutting_speed.into(), across, record)?;
    let SetSpeed { spindle_speed, exact_speed, cutting_speed } = set;
    let edge_feed_rate: FoundFeedRate = step!(record, "Feed rate of the tips along the thread",
        vf: edge_feed_rate = fz * z * n,
        fz = feed_per_tooth: input.feed_per_tooth, z = teeth: input.teeth.get(), n = spindle_speed);
    Ok((SetUp { spindle_speed, exact_speed, cutting_speed, edge_feed_rate }, held))
}
