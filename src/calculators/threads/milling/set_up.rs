//! The speed of the spindle and the feed of the tips.

use super::ThreadMillingInput;
use crate::calculators::prelude::*;
use crate::machine::{CutDiameter, Limit, WantedSpeed, cutting_speed_at, exact_speed};

/// What is set.
pub struct SetUp {
    /// For the cutting speed wanted.
    pub exact_speed: FoundSpindleSpeed,
    /// To set.
    pub spindle_speed: FoundSpindleSpeed,
    /// At that speed.
    pub cutting_speed: FoundCuttingSpeed,
    /// Of the tips.
    pub edge_feed_rate: FoundFeedRate,
    /// Limits of the machine that bind.
    pub limited_by: Vec<Limit>,
}

/// Chooses the speed, and the feed of the tips that goes with it.
pub fn speed(input: &ThreadMillingInput, record: &mut Record) -> Result<SetUp, Refusal> {
    let across = CutDiameter { of: "cutter_diameter", size: input.cutter_diameter };
    let exact = exact_speed(WantedSpeed::from(input.cutting_speed), across, record)?;
    let chosen = input.spindle.choose(exact, record);
    let Some(spindle_speed) = chosen.speed else {
        let says = "The slowest speed that may be used is above the exact speed by more than may_exceed allows; cut faster \
                    only if the tool maker allows it.";
        let ways = match chosen.above {
            Some(slowest) => input.spindle.ways_out((exact, slowest), &input.cutting_speed, across),
            None => vec![("available", "leave out".to_owned())],
        };
        return Err(Refusal::no_answer(says, &ways));
    };
    let cutting_speed = cutting_speed_at("cutting_speed", ("spindle_speed", spindle_speed), across, record);
    let teeth = input.teeth.get();
    let edge = FoundFeedRate::of(input.feed_per_tooth.get() * f64::from(teeth) * spindle_speed.get());
    record
        .step("Feed rate of the tips along the thread", "vf = fz × z × n")
        .with("fz", "feed_per_tooth", input.feed_per_tooth)
        .with("z", "teeth", teeth)
        .with("n", "spindle_speed", spindle_speed)
        .gives("edge_feed_rate", edge);
    Ok(SetUp { exact_speed: exact, spindle_speed, cutting_speed, edge_feed_rate: edge, limited_by: chosen.limited_by })
}
