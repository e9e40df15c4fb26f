//! Speed, feed, thrust, torque and power of drilling: kinematics, and two published methods for the
//! forces, with the reduction of speed and feed that deep holes need.

use crate::calculators::{Calculator, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::machine::{Drive, FeedStep, Limit, RangePoint, Spindle, Tooling, TurnCut, check_turn, tell_limits};
use crate::quantity::{
    CuttingSpeed, Efficiency, Extent, FeedPerRev, FeedRate, FoundCuttingForce, FoundCuttingSpeed, FoundFeedPerRev,
    FoundFeedRate, FoundPercentage, FoundPower, FoundRemovalRate, FoundSpindleSpeed, FoundTorque, Percentage,
    PointAngle, Power, SiValue, SpindleSpeed,
};
use crate::reference::cutting_speeds::{Operation, ToolMaterial};
use crate::reference::drill_diameter::DrillDiameter;
use crate::reference::material_name::WorkMaterial;
use crate::refusal::Refusal;
use crate::working::Record;
use std::f64::consts::PI;
use validator::ValidationError;

mod deep;
mod examples;
mod forces;

/// The calculator.
pub struct Drilling;

crate::choice! {
    /// How the drill's point is ground: `standard` with its whole chisel edge, or `split`, which shortens it.
    DrillGrind {
        /// A chisel edge of 0.18 of the diameter.
        Standard = "standard",
        /// A chisel edge of 0.03 of the diameter.
        Split = "split",
    }
}

/// What the drilling calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct DrillingInput {
    /// Diameter of the drill, or the drill's name.
    pub diameter: DrillDiameter,
    /// Cutting speed wanted at the diameter; from the tables for material and tool_material if absent.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Work material by short name, designation, number or words, such as 4140 annealed; forces and power need it.
    pub material: Option<WorkMaterial>,
    /// What the tool is made of: hss, cobalt, carbide or coated_carbide; needed where speed or feed comes from the tables.
    pub tool_material: Option<ToolMaterial>,
    /// Which point of a published range is taken: low, middle or high; low if absent.
    pub range_point: Option<RangePoint>,
    /// Feed per turn wanted; from the feed tables if absent.
    pub feed_per_rev: Option<FeedPerRev>,
    /// Depth of the hole; from three diameters on, speed and feed from the tables are reduced; a short hole if absent.
    pub depth: Option<Extent>,
    /// Included angle of the drill's point; 118 deg if absent.
    pub point_angle: Option<PointAngle>,
    /// How the point is ground: standard or split; standard if absent.
    pub point: Option<DrillGrind>,
    /// Slowest speed to be used; no limit if absent.
    pub slowest: Option<SpindleSpeed>,
    /// Fastest speed to be used, by the machine, the chuck, the holder or the tool; no limit if absent.
    pub fastest: Option<SpindleSpeed>,
    /// The speeds that gears or pulleys give, in any order; any speed if absent. Those outside slowest to fastest are left out.
    pub available: Option<Vec<SpindleSpeed>>,
    /// How far above the exact speed the speed chosen may be, in percent of the exact speed; 0 if absent.
    pub may_exceed: Option<Percentage>,
    /// Fastest feed rate to be used; no limit if absent.
    pub fastest_feed: Option<FeedRate>,
    /// The feeds that the machine has, all a turn or all a minute, in any order; any feed if absent.
    pub available_feeds: Option<Vec<FeedStep>>,
    /// Power of the spindle's motor; the power of the cut is held against nothing if absent.
    pub spindle_power: Option<Power>,
    /// Speed below which the motor has less power, in proportion to the speed; full power at every speed if absent, as behind gears or belts.
    pub base_speed: Option<SpindleSpeed>,
    /// Share of the motor's power that comes to the tool; 80 percent if absent.
    pub efficiency: Option<Efficiency>,
}

/// What the drilling calculator gives.
#[derive(Debug, Gives)]
pub struct DrillingResult {
    /// Spindle speed to set.
    pub spindle_speed: FoundSpindleSpeed,
    /// Speed that gives the cutting speed exactly.
    pub exact_speed: FoundSpindleSpeed,
    /// Cutting speed at the spindle speed to set.
    pub cutting_speed: FoundCuttingSpeed,
    /// Feed rate at that spindle speed.
    pub feed_rate: FoundFeedRate,
    /// Feed per turn to set.
    pub feed_per_rev: FoundFeedPerRev,
    /// Metal removed in a minute.
    pub removal_rate: FoundRemovalRate,
    /// The limits that do not allow the exact speed, the feed asked for or the power of the cut.
    pub limited_by: Vec<Limit>,
    /// By how much the spindle speed is below the exact one.
    pub speed_fall: Option<FoundPercentage>,
    /// By how much the feed rate is below the one asked for.
    pub feed_fall: Option<FoundPercentage>,
    /// Reduction of the cutting speed for the depth of the hole.
    pub speed_reduction: Option<FoundPercentage>,
    /// Reduction of the feed for the depth of the hole.
    pub feed_reduction: Option<FoundPercentage>,
    /// Thrust by the handbook's formula; needs a material that it knows.
    pub thrust: Option<FoundCuttingForce>,
    /// Torque by the handbook's formula, or by specific cutting force where it does not know the material.
    pub torque: Option<FoundTorque>,
    /// Power at the drill for that torque.
    pub power: Option<FoundPower>,
    /// Torque by specific cutting force, the second way.
    pub torque_by_specific_force: Option<FoundTorque>,
    /// Thrust by a tool maker's formula, where it lists the material.
    pub thrust_by_catalogue: Option<FoundCuttingForce>,
    /// Torque by a tool maker's formula, where it lists the material.
    pub torque_by_catalogue: Option<FoundTorque>,
    /// Power that the motor gives for the power at the tool; needs material.
    pub motor_power: Option<FoundPower>,
    /// Power that the spindle has at its speed; needs spindle_power.
    pub power_available: Option<FoundPower>,
    /// Power of the cut as a share of the power available; needs spindle_power.
    pub load: Option<FoundPercentage>,
    /// By how much the feed would have to fall for the power available.
    pub power_feed_fall: Option<FoundPercentage>,
}

fn check(input: &DrillingInput) -> Result<(), ValidationError> {
    let feed = ("feed_per_rev", "0.004 in/rev", input.feed_per_rev.is_some());
    input.tooling().check(Some(feed))?;
    check_turn(&input.spindle(), input.fastest_feed.as_ref(), input.available_feeds.as_deref())
}

impl DrillingInput {
    fn tooling(&self) -> Tooling {
        Tooling {
            material: self.material,
            tool: self.tool_material,
            point: self.range_point,
            cutting_speed: self.cutting_speed,
            operation: Operation::Drilling,
        }
    }

    fn spindle(&self) -> Spindle<'_> {
        Spindle {
            slowest: self.slowest,
            fastest: self.fastest,
            available: self.available.as_deref(),
            may_exceed: self.may_exceed,
        }
    }

    fn drive(&self) -> Drive {
        Drive { power: self.spindle_power, base_speed: self.base_speed, efficiency: self.efficiency }
    }
}

impl Calculator for Drilling {
    const ID: &'static str = "speeds/drilling";
    const TITLE: &'static str = "Drilling speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed for a drill, as the machine has them, reduced for deep holes, \
        with the thrust, torque and power that the hole takes by more than one published method.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Look at the chips and measure the hole: uneven chips and a large hole say that the lips are unequal.";
    const WORDS: &'static [&'static str] = &[
        "drill",
        "rpm",
        "twist drill",
        "feed",
        "thrust",
        "torque",
        "deep hole",
        "split point",
        "quill",
        "drill press",
    ];
    const EXAMPLES: &'static [Example] = examples::EXAMPLES;
    type Input = DrillingInput;
    type Output = DrillingResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed, feed rate and volume of a turning cutter");
        for caution in [cautions::STARTING_POINT, cautions::TURNING_SPINDLE, cautions::DRILLING, cautions::SPEED_LIMIT]
        {
            record.caution(caution);
        }
        let tooling = input.tooling();
        tooling.warn(record);
        let size = input.diameter.size;
        let wanted = tooling.speed(record)?;
        let asked =
            tooling.feed(input.feed_per_rev, "feed_per_rev", Operation::Drilling, Some(size.get().si()), record)?;
        let reduced = deep::reduce(input, wanted, asked, record);
        let cut = TurnCut {
            wanted: reduced.wanted,
            across: size.into(),
            feed: reduced.feed,
            spindle: input.spindle(),
            fastest_feed: input.fastest_feed,
            available_feeds: input.available_feeds.as_deref(),
        };
        let set = cut.set(record)?;
        let area = PI / 4.0 * size.get() * size.get();
        let removal_rate = FoundRemovalRate::of(area * set.feed_rate.get());
        record
            .step("Metal removed", "Q = π × D ^ 2 × vf / 4")
            .with("D", "diameter", size)
            .with("vf", "feed_rate", set.feed_rate)
            .gives("removal_rate", removal_rate);
        let forces = forces::find(input, &set, record);
        let mut limited_by = set.limited_by;
        let mut held = set.held;
        let drive = input.drive();
        drive.note_unused(input.material.as_ref(), record);
        let load = forces.power.map(|power| drive.load(power, set.spindle_speed, record));
        if let Some((load, power)) = load.as_ref().zip(forces.power) {
            load.limit(&mut limited_by);
            held.push(("P", "power", power.into()));
        }
        let power_feed_fall = load.as_ref().and_then(|load| forces::feed_fall(load, &forces, record));
        tell_limits(&limited_by, &held, record);
        Ok(DrillingResult {
            spindle_speed: set.spindle_speed,
            exact_speed: set.exact_speed,
            cutting_speed: set.cutting_speed,
            feed_rate: set.feed_rate,
            feed_per_rev: set.feed_per_rev,
            removal_rate,
            limited_by,
            speed_fall: set.speed_fall,
            feed_fall: set.feed_fall,
            speed_reduction: reduced.speed_reduction,
            feed_reduction: reduced.feed_reduction,
            thrust: forces.thrust,
            torque: forces.torque,
            power: forces.power,
            torque_by_specific_force: forces.by_force,
            thrust_by_catalogue: forces.catalogue.map(|(thrust, _)| thrust),
            torque_by_catalogue: forces.catalogue.map(|(_, torque)| torque),
            motor_power: load.map(|load| load.motor_power),
            power_available: load.and_then(|load| load.power_available),
            load: load.and_then(|load| load.load),
            power_feed_fall,
        })
    }
}
