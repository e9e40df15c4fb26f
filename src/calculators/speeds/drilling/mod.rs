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
    #[label("Drill diameter")]
    pub diameter: DrillDiameter,
    /// Speed, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Feed per revolution wanted; taken from the feed tables if absent.
    #[label("Feed per revolution")]
    pub feed_per_rev: Option<FeedPerRev>,
    /// Depth of the hole. From three diameters on, speed and feed from the tables are reduced; a shallow hole if absent.
    #[label("Depth of hole")]
    pub depth: Option<Extent>,
    /// Included angle of the drill's point.
    #[absent("118 deg", "The usual 118° point is assumed; look at the drill.")]
    pub point_angle: Option<PointAngle>,
    /// How the point is ground: standard or split.
    #[label("Grind of the point")]
    #[absent("standard", "A standard point is assumed; a split point takes much less thrust.")]
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
    #[label("Metal removal rate")]
    #[needs(feed_per_rev)]
    pub removal_rate: Option<FoundRemovalRate>,
    /// The limits that rule out the exact speed, the feed asked for or the power of the cut.
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
    /// How much less the feed must be for the power available.
    #[label("Reduce feed by")]
    pub power_feed_fall: Option<FoundPercentage>,
}

fn check(input: &DrillingInput) -> Result<(), ValidationError> {
    input.machine.check(&input.wanted.tooling(Operation::Drilling))
}

impl Calculator for Drilling {
    const ID: &'static str = "speeds/drilling";
    const TITLE: &'static str = "Drilling speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed to set for a drill on your machine, reduced for deep holes, with the \
        thrust, torque and power of the cut by more than one published method.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Look at the chips and measure the hole: uneven chips and an oversize hole mean unequal lips.";
    const WORDS: &'static str = "drill, rpm, twist drill, feed, thrust, torque, deep hole, split point, quill, \
        drill press, spot drill, center drill, centre drill, peck";
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
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {diameter} drill is to cut at {cutting_speed}. How fast must the spindle turn?" => "exact_speed":
            { diameter = "1/4 in" | "5/16 in" | "3/8 in" | "1/2 in" | "5/8 in",
              cutting_speed = "60 ft/min" | "80 ft/min" | "100 ft/min" }
            { diameter = "5 mm" | "6.8 mm" | "9 mm" | "10.2 mm" | "12 mm",
              cutting_speed = "20 m/min" | "25 m/min" | "30 m/min" };
        1 "A {diameter} drill turns at {spindle_speed} and feeds {feed_per_rev}. How fast does it go down?"
            => "feed_rate":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in", spindle_speed = "315 rpm" | "450 rpm" | "630 rpm",
              feed_per_rev = "0.004 in/rev" | "0.006 in/rev" | "0.008 in/rev", units = "inch" }
            { diameter = "6 mm" | "9 mm" | "10 mm", spindle_speed = "450 rpm" | "630 rpm" | "900 rpm",
              feed_per_rev = "0.1 mm/rev" | "0.15 mm/rev" | "0.2 mm/rev", units = "metric" };
        2 "A {diameter} drill takes {cutting_speed}. The mill has 112, 160, 224, 315, 450, 630, 900 and 1250 rpm, and you \
            do not go over. Which do you set?" => "spindle_speed":
            { diameter = "1/4 in" | "5/16 in" | "3/8 in" | "1/2 in" | "5/8 in",
              cutting_speed = "50 ft/min" | "70 ft/min" | "80 ft/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" }
            { diameter = "6.8 mm" | "9 mm" | "10.2 mm" | "12 mm" | "16 mm",
              cutting_speed = "15 m/min" | "20 m/min" | "25 m/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
        2 "A {diameter} drill at {spindle_speed} feeds {feed_per_rev}. How much metal comes out of the hole in a minute?"
            => "removal_rate":
            { diameter = "3/8 in" | "1/2 in" | "3/4 in", spindle_speed = "224 rpm" | "315 rpm" | "450 rpm",
              feed_per_rev = "0.006 in/rev" | "0.008 in/rev", units = "inch" }
            { diameter = "10 mm" | "12 mm" | "16 mm", spindle_speed = "315 rpm" | "450 rpm" | "630 rpm",
              feed_per_rev = "0.15 mm/rev" | "0.2 mm/rev", units = "metric" };
        3 "A {diameter} drill takes {cutting_speed} and {feed_per_rev}. You set the next slower of 112, 160, 224, 315, 450, \
            630, 900 and 1250 rpm. How fast does it go down?" => "feed_rate":
            { diameter = "5/16 in" | "3/8 in" | "1/2 in", cutting_speed = "50 ft/min" | "70 ft/min" | "80 ft/min",
              feed_per_rev = "0.005 in/rev" | "0.006 in/rev", units = "inch",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" }
            { diameter = "9 mm" | "10.2 mm" | "12 mm", cutting_speed = "15 m/min" | "20 m/min" | "25 m/min",
              feed_per_rev = "0.1 mm/rev" | "0.15 mm/rev", units = "metric",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
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
