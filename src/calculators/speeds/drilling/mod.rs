//! Speed, feed, thrust, torque and power of drilling: kinematics, and two published methods for the
//! forces, with the reduction of speed and feed that deep holes need.

use crate::calculators::prelude::*;
use crate::machine::{Falls, Limit, Load, Motor, SpeedOrWork, SpindleAndQuill, TurnSet};
use crate::reference::cutting_speeds::Operation;

mod deep;
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
    /// Speed, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Feed per turn wanted; from the feed tables if absent.
    pub feed_per_rev: Option<FeedPerRev>,
    /// Depth of the hole; from three diameters on, speed and feed from the tables are reduced; a short hole if absent.
    pub depth: Option<Extent>,
    /// Included angle of the drill's point.
    #[absent("118 deg", "118° is the general-purpose point; look at the drill.")]
    pub point_angle: Option<PointAngle>,
    /// How the point is ground: standard or split.
    #[absent("standard", "A standard point is taken; a split point takes much less thrust.")]
    pub point: Option<DrillGrind>,
    /// The speeds that the machine has, and the feeds of its quill.
    #[group]
    pub machine: SpindleAndQuill,
    /// The motor of the spindle.
    #[group]
    pub motor: Motor,
}

/// What the drilling calculator gives.
#[derive(Debug, Gives)]
pub struct DrillingResult {
    /// What is set.
    #[group]
    pub set: TurnSet,
    /// Metal removed in a minute.
    #[needs(feed_per_rev)]
    pub removal_rate: Option<FoundRemovalRate>,
    /// The limits that do not allow the exact speed, the feed asked for or the power of the cut.
    pub limited_by: Vec<Limit>,
    /// How far what is set falls short.
    #[group]
    pub falls: Falls,
    /// How much less a deep hole is given.
    #[group]
    pub reductions: deep::Reductions,
    /// The forces of the cut.
    #[group]
    #[needs(material, feed_per_rev)]
    pub forces: Option<forces::Forces>,
    /// What it asks of the motor.
    #[group]
    #[needs(material, feed_per_rev)]
    pub load: Option<Load>,
    /// By how much the feed would have to fall for the power available.
    pub power_feed_fall: Option<FoundPercentage>,
}

fn check(input: &DrillingInput) -> Result<(), ValidationError> {
    input.machine.check(&input.wanted.tooling(Operation::Drilling))
}

impl Calculator for Drilling {
    const ID: &'static str = "speeds/drilling";
    const TITLE: &'static str = "Drilling speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed for a drill, as the machine has them, reduced for deep holes, \
        with the thrust, torque and power that the hole takes by more than one published method.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Look at the chips and measure the hole: uneven chips and a large hole say that the lips are unequal.";
    const WORDS: &'static str = "drill, rpm, twist drill, feed, thrust, torque, deep hole, split point, quill, drill \
        press, spot drill, center drill, centre drill, peck";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2 in high-speed steel drill goes into a winch bracket of annealed 4140 on the bench mill, speed and feed from the tables.":
            diameter = "1/2 in", material = "4140 annealed", tool_material = "hss",
            available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", spindle_power = "1.5 kW",
            efficiency = "85 percent";
        "An 8 mm split-point drill makes an oil hole 40 mm deep in a 304 pump shaft, with the quill's own feeds.":
            diameter = "8 mm", material = "304", tool_material = "hss", range_point = "middle", depth = "40 mm",
            point_angle = "135 deg", point = "split", slowest = "112 rpm", fastest = "1250 rpm", may_exceed = "5 percent",
            fastest_feed = "200 mm/min", quill_feeds = "0.05 mm/rev,0.1 mm/rev,0.15 mm/rev", spindle_power = "1.5 kW",
            base_speed = "500 rpm";
        "A 10 mm drill in grey iron of a mill gear housing at a speed and a feed that are known.":
            diameter = "10 mm", cutting_speed = "25 m/min", feed_per_rev = "0.2 mm/rev", material = "grey-iron-35";
        "What a 6 mm drill does in 1018 on a bench drill that runs at 900 rpm, with two feeds of the spindle.":
            diameter = "6 mm", spindle_speed = "900 rpm", material = "1018", tool_material = "hss",
            available_feeds = "0.1 mm/rev,0.15 mm/rev";
    };
    type Input = DrillingInput;
    type Output = DrillingResult;
    const LEADS: &'static [&'static str] = &["spindle_speed", "feed_per_rev", "load"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed, feed rate and volume of a turning cutter");
        record.cautions(&[cautions::TURNING_SPINDLE, cautions::DRILLING, cautions::SPEED_LIMIT]);
        let tooling = input.wanted.tooling(Operation::Drilling);
        tooling.warn(record);
        let diameter = input.diameter.size;
        let wanted = tooling.speed(record)?;
        let across = Some(diameter.get().si());
        let feed = tooling.feed(input.feed_per_rev, "feed_per_rev", Operation::Drilling, across, record);
        let (wanted, feed, reductions) = deep::reduce(input, wanted, feed, record);
        let (set, mut held, falls) = input.machine.set(wanted, diameter.into(), feed, record)?;
        let removal_rate = set.feed.map(|feed| {
            step!(record, "Metal removed",
                Q: removal_rate = π * squared(D) * vf / 4.0, D = diameter, vf = feed_rate: feed.feed_rate)
        });
        let forces = set.feed.and_then(|feed| forces::find(input, (&set.speed, &feed), record));
        input.motor.note_unused(input.wanted.work.material.as_ref(), record);
        let load = forces.as_ref().and_then(|forces| forces.power).map(|power| {
            held.against.push(("P", "power", power.into()));
            input.motor.load(power, Some(set.speed.spindle_speed), record)
        });
        let power_feed_fall = load
            .as_ref()
            .zip(forces.as_ref())
            .and_then(|(load, forces)| forces::feed_fall(load, input, forces, record));
        let limited_by = held.tell(load.as_ref(), record);
        Ok(DrillingResult { set, removal_rate, limited_by, falls, reductions, forces, load, power_feed_fall })
    }
}
