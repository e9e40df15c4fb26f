//! The power of a cut by both published ways, and what it asks of spindle and motor.

use super::{Load, Motor, ProcessFactor, Removal, compare_methods, specific_force};
use crate::cautions;
use crate::quantity::{
    FoundChipThickness, FoundCuttingForce, FoundFeedPerRev, FoundPercentage, FoundPower, FoundSpecificForce,
    FoundSpindleSpeed, FoundTorque, SiValue, Size,
};
use crate::reference::material_name::WorkMaterial;
use crate::working::{Record, Shown};

/// Power by both ways, torque and load.
#[derive(Clone, Debug)]
pub struct CutPower {
    /// By unit power.
    pub power: FoundPower,
    /// Specific cutting force at the chip.
    pub force: Option<FoundSpecificForce>,
    /// By specific cutting force.
    pub by_force: Option<FoundPower>,
    /// At the spindle.
    pub torque: FoundTorque,
    /// What it asks of the motor.
    pub load: Load,
    /// By how much the depth would have to fall.
    pub depth_fall: Option<FoundPercentage>,
}

impl CutPower {
    /// The cutting force of a turning tool at that depth and feed. Records the step that gives
    /// `cutting_force`.
    pub fn turning_force(&self, depth: Size, feed: FoundFeedPerRev, record: &mut Record) -> Option<FoundCuttingForce> {
        let force = self.force?;
        let found = force.get().si() * depth.get().si() * feed.get().si();
        let found = FoundCuttingForce::of(SiValue::from_si(found));
        record
            .step("Cutting force", "Fc = kc × ap × f")
            .with("kc", "specific_force", force)
            .with("ap", "depth_of_cut", depth)
            .with("f", "feed_per_rev", feed)
            .gives("cutting_force", found);
        Some(found)
    }
}

/// The power of a cut; none without a material. Records the steps that give `power`,
/// `specific_force`, `power_by_specific_force`, `torque`, `motor_power`, `power_available`, `load`
/// and `depth_fall`, and adds to what the limits are held against.
pub fn cut_power(
    (material, drive): (Option<&WorkMaterial>, &Motor),
    removal: &Removal,
    (chip_of, chip, process): (&'static str, FoundChipThickness, &ProcessFactor),
    speed: FoundSpindleSpeed,
    held: &mut Vec<(&'static str, &'static str, Shown)>,
    record: &mut Record,
) -> Option<CutPower> {
    drive.note_unused(material, record);
    let material = material?;
    let power = Motor::power(material, removal, record);
    let force = specific_force(material, (chip_of, chip), process, record);
    let by_force = force.map(|force| {
        let by_force = FoundPower::of(force.get() * removal.rate.get());
        record
            .step("Power at the tool by specific cutting force", "P = kc × Q")
            .with("kc", "specific_force", force)
            .with("Q", "removal_rate", removal.rate)
            .gives("power_by_specific_force", by_force);
        compare_methods(power, by_force, record);
        by_force
    });
    let torque = Motor::torque(power, speed, record);
    let load = drive.load(power, speed, record);
    let depth_fall = load.depth_fall(record);
    record.caution(cautions::FORCES);
    held.push(("P", "power", power.into()));
    Some(CutPower { power, force, by_force, torque, load, depth_fall })
}
