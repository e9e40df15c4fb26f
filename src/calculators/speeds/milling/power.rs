//! What a milling cut takes of the machine, by both published ways.

use super::MillingInput;
use crate::machine::{Drive, Load, ProcessFactor, Removal, compare_methods, specific_force};
use crate::quantity::{
    FoundChipThickness, FoundFeedPerTooth, FoundPercentage, FoundPower, FoundRemovalRate, FoundSpindleSpeed,
    FoundTorque, SiValue,
};
use crate::working::Record;

/// The chip of milling is pressed more than that of turning.
const PROCESS: ProcessFactor = ProcessFactor {
    of: "constant:process_factor",
    value: 1.2,
    source: "tabellenbuch_zerspantechnik",
    place: "p. 215, factor of milling",
};

/// Power by both ways, and what it asks of the machine.
pub struct MillingPower {
    /// By unit power.
    pub power: FoundPower,
    /// By specific cutting force.
    pub by_force: Option<FoundPower>,
    /// At the spindle.
    pub torque: FoundTorque,
    /// What it asks of the motor.
    pub load: Load,
    /// By how much the depth would have to fall.
    pub depth_fall: Option<FoundPercentage>,
}

/// The power of the cut; needs a material.
pub fn of(
    input: &MillingInput,
    (rate, feed, chip): (FoundRemovalRate, FoundFeedPerTooth, FoundChipThickness),
    speed: FoundSpindleSpeed,
    record: &mut Record,
) -> Option<MillingPower> {
    input.drive().note_unused(input.material.as_ref(), record);
    let material = input.material.as_ref()?;
    let removal =
        Removal { rate, feed_of: "feed_per_tooth", feed: feed.into(), feed_si: feed.get().si(), wear: "end_milling" };
    let power = Drive::power(material, &removal, record);
    let by_force = specific_force(material, ("mean_chip", chip), &PROCESS, record).map(|force| {
        let by_force = FoundPower::of(force.get() * rate.get());
        record
            .step("Power at the cutter by specific cutting force", "P = kc × Q")
            .with("kc", "specific_force", force)
            .with("Q", "removal_rate", rate)
            .gives("power_by_specific_force", by_force);
        compare_methods(power, by_force, record);
        by_force
    });
    let torque = Drive::torque(power, speed, record);
    let load = input.drive().load(power, speed, record);
    let depth_fall = load.depth_fall(record);
    record.caution(crate::cautions::FORCES);
    Some(MillingPower { power, by_force, torque, load, depth_fall })
}
