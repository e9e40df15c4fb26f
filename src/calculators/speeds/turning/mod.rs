//! Speed, feed, removal rate, force and power of turning along the work: kinematics of the helix cut, and
//! two published methods for the power.

use crate::calculators::prelude::*;
use crate::machine::{
    AlongTheWork, Motor, ProcessFactor, SpeedOrWork, SpindleAndFeeds, Tooling, TurnedCut, process_factor,
};
use crate::reference::cutting_speeds::Operation;
use crate::suggestion::{Way, value};

/// The calculator.
pub struct Turning;

/// Outside turning is what specific cutting force is measured in.
const PROCESS: ProcessFactor = process_factor(1.0, "outside turning is the base of the factors");

choice! {
    /// Whether the cut is `rough` or `finish`; it decides which published speeds and feeds are used.
    TurningCut {
        /// A roughing cut.
        Rough = "rough",
        /// A finishing cut.
        Finish = "finish",
    }
}

choice! {
    /// At which diameter the volume removed is calculated: `mean`, which is exact, or `outer`, as some textbooks do.
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
    /// Diameter of the work before the cut.
    #[label("Diameter before the cut")]
    pub diameter: Size,
    /// Depth of the cut on the radius; the diameter shrinks by twice that. Removal rate, force and power need it.
    pub depth_of_cut: Option<Size>,
    /// Speed, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Rough or finish, for the published speeds and feeds.
    #[label("Rough or finish")]
    #[absent("rough", "A roughing cut is assumed; finishing cuts run faster and feed less.")]
    pub cut: Option<TurningCut>,
    /// Feed per revolution wanted; taken from the feed tables if absent.
    #[label("Feed per revolution")]
    pub feed_per_rev: Option<FeedPerRev>,
    /// Angle between cutting edge and feed.
    #[absent("90 deg", "The cutting edge is assumed square to the feed.")]
    pub cutting_edge_angle: Option<EdgeAngle>,
    /// At which diameter the volume is calculated: mean, which is exact, or outer, as some textbooks do.
    #[label("Diameter for removal rate")]
    #[absent("mean", "The volume is calculated at the mean diameter, which is exact.")]
    pub removal_by: Option<RemovalDiameter>,
    /// The speeds and the feeds that the machine has.
    #[group]
    pub machine: SpindleAndFeeds,
    /// The motor of the spindle.
    #[group]
    pub motor: Motor,
}

/// What the turning calculator gives.
#[derive(Debug, Gives)]
pub struct TurningResult {
    /// The cut.
    #[group]
    pub cut: TurnedCut,
}

fn check(input: &TurningInput) -> Result<(), ValidationError> {
    let across = input.diameter.quantity();
    let depth = input.depth_of_cut.map(|depth| depth.quantity());
    if let Some(depth) = depth.filter(|depth| 2.0 * depth.si() >= across.si()) {
        let less = value(across.si() / 4.0, depth.unit, Way::Down);
        let says = "A cut as deep as the radius leaves no work. Give a smaller depth of cut.";
        return Err(rule_broken(Code::Conflict, says, &[("depth_of_cut", &less)]));
    }
    input.machine.check(&input.tooling())
}

impl TurningInput {
    /// The name in the table of wear factors, and the operation.
    fn operation(&self) -> (&'static str, Operation) {
        match self.cut {
            Some(TurningCut::Finish) => ("turning_finish", Operation::TurningFinish),
            _ => ("turning_rough", Operation::TurningRough),
        }
    }

    fn tooling(&self) -> Tooling {
        self.wanted.tooling(self.operation().1)
    }
}

impl Calculator for Turning {
    const ID: &'static str = "speeds/turning";
    const TITLE: &'static str = "Turning speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed to set for turning along the work on your lathe, with the chip, the \
        metal removed, the cutting force and the power.";
    const TASK: Task = Task::Turn;
    const ANOTHER_CHECK: &'static str =
        "Measure the diameter at both ends: a taper means that the work or the tool springs.";
    const WORDS: &'static str = "lathe, rpm, surface speed, feed per rev, depth of cut, roughing, finishing, \
        horsepower, shaft";
    const NEAR: &'static str = "knurl, knurling";
    const EXAMPLES: &'static [Example] = examples! {
        "A 2 in winch shaft of 1045 is roughed 0.1 in deep with a high-speed steel tool.":
            diameter = "2 in", depth_of_cut = "0.1 in", material = "1045-normalised", tool_material = "hss",
            available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", spindle_power = "1.5 kW",
            efficiency = "80 percent";
        "A 40 mm pump shaft of 316 gets its finishing cut on a lathe with feed gears.":
            diameter = "40 mm", depth_of_cut = "0.5 mm", material = "316", tool_material = "hss", range_point = "middle",
            cut = "finish", cutting_edge_angle = "60 deg", slowest = "100 rpm", fastest = "900 rpm",
            may_exceed = "10 percent", fastest_feed = "200 mm/min",
            available_feeds = "0.05 mm/rev,0.08 mm/rev,0.1 mm/rev,0.16 mm/rev", spindle_power = "1.5 kW",
            base_speed = "400 rpm";
        "A textbook's metal removal rate, calculated at the outside, for a 200 mm drum.":
            diameter = "200 mm", depth_of_cut = "4 mm", cutting_speed = "100 m/min", feed_per_rev = "0.25 mm/rev",
            removal_by = "outer";
        "What a winch drum of 1045 is turned at by a spindle that runs at 112 rpm, before a depth is chosen.":
            diameter = "6 in", spindle_speed = "112 rpm", material = "1045-normalised", tool_material = "hss";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You turn {diameter} bar at {cutting_speed}. How fast must the lathe turn?" => "exact_speed":
            { diameter = "3/4 in" | "1 in" | "1-1/2 in" | "2 in" | "3 in",
              cutting_speed = "80 ft/min" | "100 ft/min" | "250 ft/min" }
            { diameter = "20 mm" | "30 mm" | "40 mm" | "50 mm" | "75 mm",
              cutting_speed = "25 m/min" | "30 m/min" | "80 m/min" };
        1 "The lathe turns a {diameter} pump shaft at {spindle_speed} and feeds {feed_per_rev}. How fast does the carriage \
            move?" => "feed_rate":
            { diameter = "1 in" | "1-1/2 in", spindle_speed = "160 rpm" | "224 rpm" | "315 rpm" | "450 rpm",
              feed_per_rev = "0.004 in/rev" | "0.006 in/rev" | "0.01 in/rev", units = "inch" }
            { diameter = "30 mm" | "40 mm", spindle_speed = "160 rpm" | "224 rpm" | "315 rpm" | "450 rpm",
              feed_per_rev = "0.1 mm/rev" | "0.15 mm/rev" | "0.25 mm/rev", units = "metric" };
        2 "A {diameter} shaft takes {cutting_speed}. The lathe has 112, 160, 224, 315, 450, 630, 900 and 1250 rpm, and you \
            do not go over. Which do you set?" => "spindle_speed":
            { diameter = "3/4 in" | "1 in" | "1-1/2 in" | "2 in", cutting_speed = "80 ft/min" | "90 ft/min" | "250 ft/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" }
            { diameter = "25 mm" | "30 mm" | "40 mm" | "50 mm", cutting_speed = "25 m/min" | "30 m/min" | "80 m/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
        2 "The edge of your tool stands at {cutting_edge_angle} to the feed, and the feed is {feed_per_rev}. How thick is the \
            chip?" => "chip_thickness":
            { cutting_edge_angle = "45 deg" | "60 deg" | "75 deg", feed_per_rev = "0.008 in/rev" | "0.01 in/rev",
              diameter = "2 in", spindle_speed = "224 rpm", units = "inch" }
            { cutting_edge_angle = "45 deg" | "60 deg" | "75 deg", feed_per_rev = "0.2 mm/rev" | "0.3 mm/rev",
              diameter = "50 mm", spindle_speed = "224 rpm", units = "metric" };
        3 "A {diameter} bar at {spindle_speed} is roughed {depth_of_cut} deep on the radius at {feed_per_rev}. How much metal \
            comes off in a minute, taken at the mean diameter?" => "removal_rate":
            { diameter = "1-1/2 in" | "2 in" | "3 in", spindle_speed = "160 rpm" | "224 rpm",
              depth_of_cut = "0.05 in" | "0.1 in", feed_per_rev = "0.008 in/rev" | "0.01 in/rev", units = "inch" }
            { diameter = "40 mm" | "50 mm" | "75 mm", spindle_speed = "160 rpm" | "224 rpm",
              depth_of_cut = "1 mm" | "2 mm", feed_per_rev = "0.2 mm/rev" | "0.25 mm/rev", units = "metric" };
    };
    type Input = TurningInput;
    type Output = TurningResult;
    const LEADS: &'static [&'static str] = &["spindle_speed", "feed_per_rev", "load"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed, feed rate and volume of a turning work");
        record.source("iso_3002_1", "tool cutting edge angle");
        record.cautions(cautions::ON_THE_LATHE);
        let tooling = input.tooling();
        tooling.warn(record);
        if !input.wanted.states_speed() || input.feed_per_rev.is_none() {
            input.cut(record);
        }
        let (wear, operation) = input.operation();
        let wanted = tooling.speed(record)?;
        let feed = tooling.feed(input.feed_per_rev, "feed_per_rev", operation, None, record);
        let set = input.machine.set(wanted, input.diameter.into(), feed, record)?;
        let cut = AlongTheWork {
            diameter: input.diameter,
            depth_of_cut: input.depth_of_cut,
            edge: input.cutting_edge_angle(record),
            drive: (input.wanted.work.material.as_ref(), &input.motor),
            process: &PROCESS,
            wear,
        };
        let removal = |depth, mean_diameter, feed_rate, record: &mut Record| match input.removal_by(record) {
            RemovalDiameter::Mean => step!(record, "Metal removed", Q: removal_rate = π * D * ap * vf,
                D = mean_diameter, ap = depth_of_cut: depth, vf = feed_rate),
            RemovalDiameter::Outer => step!(record, "Metal removed", Q: removal_rate = π * D * ap * vf,
                D = diameter: input.diameter, ap = depth_of_cut: depth, vf = feed_rate),
        };
        Ok(TurningResult { cut: cut.cut(set, removal, record) })
    }
}
