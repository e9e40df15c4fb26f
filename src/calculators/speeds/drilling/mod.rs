//! Speed, feed, thrust, torque and power of drilling: kinematics, and two published methods for the
//! forces, with the reduction of speed and feed that deep holes need.

use crate::calculators::prelude::*;
use crate::machine::{FeedLimits, Limit, Motor, SpindleLimits, Tooling, TurnCut, WorkAndTool, check_turn, tell_limits};
use crate::reference::cutting_speeds::Operation;

mod deep;
mod examples;
mod forces;

/// The calculator.
pub struct Drilling;

choice! {
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
    /// The work and the tool.
    #[group]
    pub work: WorkAndTool,
    /// Feed per turn wanted; from the feed tables if absent.
    pub feed_per_rev: Option<FeedPerRev>,
    /// Depth of the hole; from three diameters on, speed and feed from the tables are reduced; a short hole if absent.
    pub depth: Option<Extent>,
    /// Included angle of the drill's point; 118 deg if absent.
    pub point_angle: Option<PointAngle>,
    /// How the point is ground: standard or split; standard if absent.
    pub point: Option<DrillGrind>,
    /// The speeds that the machine has.
    #[group]
    pub spindle: SpindleLimits,
    /// The feeds that the machine has.
    #[group]
    pub feeds: FeedLimits,
    /// The motor of the spindle.
    #[group]
    pub motor: Motor,
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
    check_turn(&input.spindle, &input.feeds)
}

impl DrillingInput {
    fn tooling(&self) -> Tooling {
        self.work.tooling(self.cutting_speed, Operation::Drilling)
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
            spindle: &input.spindle,
            feeds: &input.feeds,
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
        let drive = input.motor;
        drive.note_unused(input.work.material.as_ref(), record);
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
