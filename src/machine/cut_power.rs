//! The power of a cut by both published ways, and what it asks of spindle and motor.

use super::drive::unit_power;
use super::{Load, Motor, ProcessFactor, Removal, compare_methods, specific_force};
use crate::cautions;
use crate::declared::{Gives, step};
use crate::quantity::{
    FoundChipThickness, FoundPercentage, FoundPower, FoundSpecificForce, FoundSpindleSpeed, FoundTorque,
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

/// What a cut takes of the machine, as results have it.
#[derive(Clone, Copy, Debug, Gives)]
pub struct PowerTaken {
    /// Power at the tool by unit power; needs a work material.
    #[label("Power at the tool")]
    pub power: FoundPower,
    /// Power at the tool by specific cutting force, the second method; needs a material whose force is known.
    #[label("Power by specific force")]
    pub power_by_specific_force: Option<FoundPower>,
    /// Torque at the spindle for that power; needs a work material.
    #[label("Torque at the spindle")]
    pub torque: FoundTorque,
    /// What it asks of the motor.
    #[group]
    pub load: Load,
}

impl CutPower {
    /// As results have it.
    pub fn taken(&self) -> PowerTaken {
        let CutPower { power, by_force, torque, load, .. } = *self;
        PowerTaken { power, power_by_specific_force: by_force, torque, load }
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
    let power = unit_power(material, removal, record);
    let force = specific_force(material, (chip_of, chip), process, record);
    let by_force = force.map(|force| {
        let by_force = step!(record, "Power at the tool by specific cutting force",
            P: power_by_specific_force = kc * Q, kc = specific_force: force, Q = removal_rate: removal.rate);
        compare_methods(power, by_force, record);
        by_force
    });
    let torque = step!(record, "Torque at the spindle",
        M: torque = P / (2.0 * π * n), P = power, n = spindle_speed: speed);
    let load = drive.load(power, Some(speed), record);
    let depth_fall = load.depth_fall(record);
    record.caution(cautions::FORCES);
    held.push(("P", "power", power.into()));
    Some(CutPower { power, force, by_force, torque, load, depth_fall })
}
