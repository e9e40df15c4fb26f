//! Speed, feed, removal rate, force and power of turning along the work: kinematics of the helix cut, and
//! two published methods for the power.

use crate::calculators::{Calculator, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::machine::{
    Drive, FeedStep, Limit, ProcessFactor, RangePoint, Removal, Spindle, Tooling, TurnCut, check_turn, cut_power,
    tell_limits,
};
use crate::quantity::{
    CuttingSpeed, EdgeAngle, Efficiency, FeedPerRev, FeedRate, FoundChipThickness, FoundCuttingForce,
    FoundCuttingSpeed, FoundFeedPerRev, FoundFeedRate, FoundPercentage, FoundPower, FoundRemovalRate, FoundSize,
    FoundSpindleSpeed, FoundTorque, Percentage, Power, SiValue, Size, SpindleSpeed, Unit, angle,
};
use crate::reference::cutting_speeds::{Operation, ToolMaterial};
use crate::reference::material_name::WorkMaterial;
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::Record;
use std::f64::consts::PI;
use validator::ValidationError;

mod examples;

/// The calculator.
pub struct Turning;

/// Outside turning is what specific cutting force is measured in.
const PROCESS: ProcessFactor = ProcessFactor {
    of: "constant:process_factor",
    value: 1.0,
    source: "process_factor_memory",
    place: "outside turning is the base of the factors",
};

crate::choice! {
    /// Whether the cut is `rough` or `finish`; it decides which published speeds and feeds are taken.
    TurningCut {
        /// A roughing cut.
        Rough = "rough",
        /// A finishing cut.
        Finish = "finish",
    }
}

crate::choice! {
    /// At which diameter the volume removed is reckoned: `mean`, which is exact, or `outer`, as some textbooks do.
    RemovalDiameter {
        /// In the middle of the depth of cut: the exact volume.
        Mean = "mean",
        /// At the outside, which overstates the volume.
        Outer = "outer",
    }
}

/// What the turning calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct TurningInput {
    /// Diameter of the work before the cut, the largest that is cut.
    pub diameter: Size,
    /// Depth of the cut on the radius; the diameter falls by twice of it.
    pub depth_of_cut: Size,
    /// Cutting speed wanted at the diameter; from the tables for material and tool_material if absent.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Work material by short name, designation, number or words, such as 4140 annealed; forces and power need it.
    pub material: Option<WorkMaterial>,
    /// What the tool is made of: hss, cobalt, carbide or coated_carbide; needed where speed or feed comes from the tables.
    pub tool_material: Option<ToolMaterial>,
    /// Which point of a published range is taken: low, middle or high; low if absent.
    pub range_point: Option<RangePoint>,
    /// Rough or finish, for the published speeds and feeds; rough if absent.
    pub cut: Option<TurningCut>,
    /// Feed per turn wanted; from the feed tables if absent.
    pub feed_per_rev: Option<FeedPerRev>,
    /// Angle between cutting edge and feed; 90 deg if absent.
    pub cutting_edge_angle: Option<EdgeAngle>,
    /// At which diameter the volume is reckoned: mean, which is exact, or outer, as some textbooks do; mean if absent.
    pub removal_by: Option<RemovalDiameter>,
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

/// What the turning calculator gives.
#[derive(Debug, Gives)]
pub struct TurningResult {
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
    /// Thickness of the chip.
    pub chip_thickness: FoundChipThickness,
    /// Diameter in the middle of the depth of cut.
    pub mean_diameter: FoundSize,
    /// Metal removed in a minute.
    pub removal_rate: FoundRemovalRate,
    /// The limits that do not allow the exact speed, the feed asked for or the power of the cut.
    pub limited_by: Vec<Limit>,
    /// By how much the spindle speed is below the exact one.
    pub speed_fall: Option<FoundPercentage>,
    /// By how much the feed rate is below the one asked for.
    pub feed_fall: Option<FoundPercentage>,
    /// Cutting force by specific cutting force; needs material.
    pub cutting_force: Option<FoundCuttingForce>,
    /// Power at the tool by unit power; needs material.
    pub power: Option<FoundPower>,
    /// Power at the tool by specific cutting force, the second way; needs material.
    pub power_by_specific_force: Option<FoundPower>,
    /// Torque at the spindle for that power; needs material.
    pub torque: Option<FoundTorque>,
    /// Power that the motor gives for the power at the tool; needs material.
    pub motor_power: Option<FoundPower>,
    /// Power that the spindle has at its speed; needs spindle_power.
    pub power_available: Option<FoundPower>,
    /// Power of the cut as a share of the power available; needs spindle_power.
    pub load: Option<FoundPercentage>,
    /// By how much the depth of cut would have to fall for the power available.
    pub depth_fall: Option<FoundPercentage>,
}

fn check(input: &TurningInput) -> Result<(), ValidationError> {
    let (depth, across) = (input.depth_of_cut.quantity(), input.diameter.quantity());
    if 2.0 * depth.si() >= across.si() {
        let less = crate::suggestion::value(across.si() / 4.0, depth.unit, crate::suggestion::Way::Down);
        let says = "A cut as deep as the radius leaves nothing of the work.";
        return Err(rule_broken(Code::Conflict, says, &[("depth_of_cut", &less)]));
    }
    let feed = ("feed_per_rev", "0.010 in/rev", input.feed_per_rev.is_some());
    input.tooling().check(Some(feed))?;
    check_turn(&input.spindle(), input.fastest_feed.as_ref(), input.available_feeds.as_deref())
}

impl TurningInput {
    fn operation(&self) -> Operation {
        match self.cut {
            Some(TurningCut::Finish) => Operation::TurningFinish,
            _ => Operation::TurningRough,
        }
    }

    fn tooling(&self) -> Tooling {
        Tooling {
            material: self.material,
            tool: self.tool_material,
            point: self.range_point,
            cutting_speed: self.cutting_speed,
            operation: self.operation(),
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

impl Calculator for Turning {
    const ID: &'static str = "speeds/turning";
    const TITLE: &'static str = "Turning speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed for turning along the work, as the lathe has them, with the chip, \
        the metal removed, the cutting force and the power.";
    const TASK: Task = Task::Turn;
    const ANOTHER_CHECK: &'static str =
        "Measure the diameter at both ends: a difference says that the work or the tool gives way.";
    const WORDS: &'static [&'static str] = &[
        "lathe",
        "rpm",
        "surface speed",
        "feed per rev",
        "depth of cut",
        "roughing",
        "finishing",
        "horsepower",
        "shaft",
    ];
    const EXAMPLES: &'static [Example] = examples::EXAMPLES;
    type Input = TurningInput;
    type Output = TurningResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed, feed rate and volume of a turning work");
        record.source("iso_3002_1", "tool cutting edge angle");
        for caution in [cautions::STARTING_POINT, cautions::TURNING_SPINDLE, cautions::TURNING, cautions::SPEED_LIMIT] {
            record.caution(caution);
        }
        let tooling = input.tooling();
        tooling.warn(record);
        if input.cutting_speed.is_none() || input.feed_per_rev.is_none() {
            let says = "A roughing cut is taken; finishing cuts run faster and feed less.";
            record.or_assume(input.cut, "cut", TurningCut::Rough, says);
        }
        let wanted = tooling.speed(record)?;
        let feed = tooling.feed(input.feed_per_rev, "feed_per_rev", input.operation(), None, record)?;
        let cut = TurnCut {
            wanted,
            across: input.diameter.into(),
            feed: ("feed_per_rev", feed),
            spindle: input.spindle(),
            fastest_feed: input.fastest_feed,
            available_feeds: input.available_feeds.as_deref(),
        };
        let set = cut.set(record)?;
        let edge = record.or_assume(
            input.cutting_edge_angle,
            "cutting_edge_angle",
            EdgeAngle::stated(90.0, Unit::Degree),
            "The edge is taken as square to the feed.",
        );
        let chip = FoundChipThickness::of(set.feed_per_rev.get() * angle::sin(edge.degrees()));
        record
            .step("Thickness of the chip", "h = f × sin(κ)")
            .with("f", "feed_per_rev", set.feed_per_rev)
            .with("κ", "cutting_edge_angle", edge)
            .gives("chip_thickness", chip);
        let mean_diameter = FoundSize::of(input.diameter.get() - input.depth_of_cut.get());
        record
            .step("Diameter in the middle of the cut", "Dm = D - ap")
            .with("D", "diameter", input.diameter)
            .with("ap", "depth_of_cut", input.depth_of_cut)
            .gives("mean_diameter", mean_diameter);
        let removal_by = record.or_assume(
            input.removal_by,
            "removal_by",
            RemovalDiameter::Mean,
            "The volume is reckoned at the mean diameter, which is exact.",
        );
        let (of, around) = match removal_by {
            RemovalDiameter::Mean => ("mean_diameter", mean_diameter),
            RemovalDiameter::Outer => ("diameter", input.diameter.found()),
        };
        let removal_rate = FoundRemovalRate::of(PI * around.get() * input.depth_of_cut.get() * set.feed_rate.get());
        let step = record.step("Metal removed", "Q = π × D × ap × vf");
        let step = match removal_by {
            RemovalDiameter::Mean => step.with("D", of, around),
            RemovalDiameter::Outer => step.with("D", of, input.diameter),
        };
        step.with("ap", "depth_of_cut", input.depth_of_cut)
            .with("vf", "feed_rate", set.feed_rate)
            .gives("removal_rate", removal_rate);
        let mut limited_by = set.limited_by.clone();
        let mut held = set.held.clone();
        let removal = Removal {
            rate: removal_rate,
            feed_of: "feed_per_rev",
            feed: set.feed_per_rev.into(),
            feed_si: set.feed_per_rev.get().si(),
            wear: if input.cut == Some(TurningCut::Finish) { "turning_finish" } else { "turning_rough" },
        };
        let work = (input.material.as_ref(), &input.drive());
        let chip_of = ("chip_thickness", chip, &PROCESS);
        let power = cut_power(work, &removal, chip_of, set.spindle_speed, &mut held, record);
        let cutting_force =
            power.as_ref().and_then(|power| power.turning_force(input.depth_of_cut, set.feed_per_rev, record));
        if let Some(power) = &power {
            power.load.limit(&mut limited_by);
        }
        tell_limits(&limited_by, &held, record);
        let load = power.as_ref().map(|power| power.load);
        Ok(TurningResult {
            spindle_speed: set.spindle_speed,
            exact_speed: set.exact_speed,
            cutting_speed: set.cutting_speed,
            feed_rate: set.feed_rate,
            feed_per_rev: set.feed_per_rev,
            chip_thickness: chip,
            mean_diameter,
            removal_rate,
            limited_by,
            speed_fall: set.speed_fall,
            feed_fall: set.feed_fall,
            cutting_force,
            power: power.as_ref().map(|power| power.power),
            power_by_specific_force: power.as_ref().and_then(|power| power.by_force),
            torque: power.as_ref().map(|power| power.torque),
            motor_power: load.map(|load| load.motor_power),
            power_available: load.and_then(|load| load.power_available),
            load: load.and_then(|load| load.load),
            depth_fall: power.as_ref().and_then(|power| power.depth_fall),
        })
    }
}
