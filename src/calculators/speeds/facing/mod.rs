//! Speed, feed and time of facing and parting, with the spindle's speed held or the surface speed held up
//! to the spindle's limit: kinematics of a spiral.

use crate::calculators::{Calculator, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::machine::{
    CutDiameter, Drive, FeedStep, Limit, RangePoint, Spindle, Tooling, TurnCut, check_turn, tell_limits,
};
use crate::quantity::{
    CuttingSpeed, Efficiency, Extent, FeedPerRev, FeedRate, FoundCuttingSpeed, FoundExtent, FoundFeedPerRev,
    FoundFeedRate, FoundPercentage, FoundPower, FoundRemovalRate, FoundSpindleSpeed, FoundTorque, FoundWorkTime,
    Percentage, Power, Size, SpindleSpeed,
};
use crate::reference::cutting_speeds::{Operation, ToolMaterial};
use crate::reference::material_name::WorkMaterial;
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::Record;
use validator::ValidationError;

mod examples;
mod power;
mod spiral;

/// The calculator.
pub struct Facing;

crate::choice! {
    /// What is cut: `facing`, across the end, or `parting`, through to the inner diameter with the tool's width.
    FacingCut {
        /// Across the end of the work.
        Facing = "facing",
        /// Through the work.
        Parting = "parting",
    }
}

crate::choice! {
    /// What the machine holds while the tool goes inward: `spindle_speed`, or `surface_speed` with a spindle that speeds up.
    FacingHold {
        /// The spindle's speed; the surface speed falls towards the centre.
        SpindleSpeed = "spindle_speed",
        /// The surface speed, until the spindle reaches its fastest.
        SurfaceSpeed = "surface_speed",
    }
}

/// What the facing calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct FacingInput {
    /// Diameter at which the cut begins.
    pub outer_diameter: Size,
    /// Diameter at which the cut ends; 0, the centre, if absent.
    pub inner_diameter: Option<Extent>,
    /// Thickness that is faced off, or the width of the parting tool; removal and power need it.
    pub depth_of_cut: Option<Size>,
    /// Cutting speed wanted at the outer diameter; from the tables for material and tool_material if absent.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Work material by short name, designation, number or words, such as 4140 annealed; forces and power need it.
    pub material: Option<WorkMaterial>,
    /// What the tool is made of: hss, cobalt, carbide or coated_carbide; needed where speed or feed comes from the tables.
    pub tool_material: Option<ToolMaterial>,
    /// Which point of a published range is taken: low, middle or high; low if absent.
    pub range_point: Option<RangePoint>,
    /// Facing or parting; facing if absent.
    pub cut: Option<FacingCut>,
    /// What the machine holds: spindle_speed or surface_speed; spindle_speed if absent.
    pub hold: Option<FacingHold>,
    /// Feed per turn wanted; from the feed tables if absent.
    pub feed_per_rev: Option<FeedPerRev>,
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

/// What the facing calculator gives; speeds and rates where the cut begins.
#[derive(Debug, Gives)]
pub struct FacingResult {
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
    /// Time of the cut from the outer to the inner diameter.
    pub cutting_time: FoundWorkTime,
    /// Spindle speed where the cut ends, or the fastest where that holds it.
    pub inner_spindle_speed: FoundSpindleSpeed,
    /// Cutting speed where the cut ends; absent at the centre, where it is nothing.
    pub inner_cutting_speed: Option<FoundCuttingSpeed>,
    /// Diameter at which a spindle that holds the surface speed reaches its fastest.
    pub limit_diameter: Option<FoundExtent>,
    /// Metal removed in a minute where the cut begins; needs depth_of_cut.
    pub removal_rate: Option<FoundRemovalRate>,
    /// The limits that do not allow the exact speed, the feed asked for or the power of the cut.
    pub limited_by: Vec<Limit>,
    /// By how much the spindle speed is below the exact one.
    pub speed_fall: Option<FoundPercentage>,
    /// By how much the feed rate is below the one asked for.
    pub feed_fall: Option<FoundPercentage>,
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

fn check(input: &FacingInput) -> Result<(), ValidationError> {
    let outer = input.outer_diameter.quantity();
    if let Some(inner) = input.inner_diameter
        && inner.quantity().si() >= outer.si()
    {
        let less = crate::suggestion::value(outer.si() / 2.0, inner.quantity().unit, crate::suggestion::Way::Down);
        let says = "The cut goes inward: inner_diameter must be below outer_diameter.";
        return Err(rule_broken(Code::Conflict, says, &[("inner_diameter", &less)]));
    }
    if input.hold == Some(FacingHold::SurfaceSpeed) {
        if input.available.is_some() {
            let says = "A spindle with steps cannot hold the surface speed.";
            let ways = [("available", "leave out"), ("hold", "spindle_speed")];
            return Err(rule_broken(Code::Conflict, says, &ways));
        }
        let to_centre = input.inner_diameter.is_none_or(|inner| inner.quantity().si() == 0.0);
        if input.fastest.is_none() && to_centre {
            let says =
                "Held to the centre, the surface speed would have the spindle run away: state its fastest speed.";
            let ways = [("fastest", "1250 rpm"), ("hold", "spindle_speed")];
            return Err(rule_broken(Code::FieldMissing, says, &ways));
        }
    }
    let feed = ("feed_per_rev", "0.005 in/rev", input.feed_per_rev.is_some());
    input.tooling().check(Some(feed))?;
    check_turn(&input.spindle(), input.fastest_feed.as_ref(), input.available_feeds.as_deref())
}

impl FacingInput {
    fn tooling(&self) -> Tooling {
        Tooling {
            material: self.material,
            tool: self.tool_material,
            point: self.range_point,
            cutting_speed: self.cutting_speed,
            operation: Operation::TurningRough,
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

impl Calculator for Facing {
    const ID: &'static str = "speeds/facing";
    const TITLE: &'static str = "Facing and parting";
    const ABOUT: &'static str = "Spindle speed, feed and time for facing or parting, with the spindle's speed held or the \
        surface speed held up to the spindle's fastest.";
    const TASK: Task = Task::Turn;
    const ANOTHER_CHECK: &'static str =
        "Lay a straightedge across the face: one that is hollow or high says that the cross slide is not square.";
    const WORDS: &'static [&'static str] =
        &["face", "part off", "cut off", "lathe", "constant surface speed", "css", "clamp", "rpm", "time"];
    const EXAMPLES: &'static [Example] = examples::EXAMPLES;
    type Input = FacingInput;
    type Output = FacingResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "a tool that feeds inward over a turning face");
        for caution in [cautions::STARTING_POINT, cautions::TURNING_SPINDLE, cautions::TURNING, cautions::SPEED_LIMIT] {
            record.caution(caution);
        }
        let tooling = input.tooling();
        tooling.warn(record);
        let cut = record.or_assume(input.cut, "cut", FacingCut::Facing, "The end of the work is faced.");
        let hold = record.or_assume(
            input.hold,
            "hold",
            FacingHold::SpindleSpeed,
            "The spindle's speed is taken to stay; then the surface speed falls towards the centre.",
        );
        let inner = record.or_assume(
            input.inner_diameter,
            "inner_diameter",
            Extent::stated(0.0, input.outer_diameter.quantity().unit),
            "The cut is taken to go to the centre.",
        );
        if hold == FacingHold::SurfaceSpeed {
            record.caution(cautions::CONSTANT_SURFACE_SPEED);
        }
        let operation = match cut {
            FacingCut::Facing => Operation::TurningRough,
            FacingCut::Parting => {
                record.caution(cautions::PARTING);
                Operation::Parting
            }
        };
        let wanted = tooling.speed(record)?;
        let feed = tooling.feed(input.feed_per_rev, "feed_per_rev", operation, None, record)?;
        let across = CutDiameter { of: "outer_diameter", size: input.outer_diameter };
        let turn = TurnCut {
            wanted,
            across,
            feed: ("feed_per_rev", feed),
            spindle: input.spindle(),
            fastest_feed: input.fastest_feed,
            available_feeds: input.available_feeds.as_deref(),
        };
        let set = turn.set(record)?;
        let path = match hold {
            FacingHold::SpindleSpeed => spiral::at_one_speed(input, inner, &set, record),
            FacingHold::SurfaceSpeed => spiral::at_surface_speed(input, (wanted, inner), &set, record),
        };
        let mut limited_by = set.limited_by.clone();
        let mut held = set.held.clone();
        let removal_rate = power::removal_rate(input, &set, record);
        let power = removal_rate.and_then(|rate| power::find(input, (cut, rate), &set, &mut held, record));
        if let Some(power) = &power {
            power.load.limit(&mut limited_by);
        }
        tell_limits(&limited_by, &held, record);
        let load = power.as_ref().map(|power| power.load);
        Ok(FacingResult {
            spindle_speed: set.spindle_speed,
            exact_speed: set.exact_speed,
            cutting_speed: set.cutting_speed,
            feed_rate: set.feed_rate,
            feed_per_rev: set.feed_per_rev,
            cutting_time: path.time,
            inner_spindle_speed: path.inner_speed,
            inner_cutting_speed: path.inner_cutting_speed,
            limit_diameter: path.limit_diameter,
            removal_rate,
            limited_by,
            speed_fall: set.speed_fall,
            feed_fall: set.feed_fall,
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
