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
    /// Whether the cut is `rough` or `finish`; it decides which published speeds and feeds are taken.
    TurningCut {
        /// A roughing cut.
        Rough = "rough",
        /// A finishing cut.
        Finish = "finish",
    }
}

choice! {
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
    /// Depth of the cut on the radius; the diameter falls by twice of it. Removal, force and power need it.
    pub depth_of_cut: Option<Size>,
    /// Speed, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Rough or finish, for the published speeds and feeds.
    #[absent("rough", "A roughing cut is taken; finishing cuts run faster and feed less.")]
    pub cut: Option<TurningCut>,
    /// Feed per turn wanted; from the feed tables if absent.
    pub feed_per_rev: Option<FeedPerRev>,
    /// Angle between cutting edge and feed.
    #[absent("90 deg", "The edge is taken as square to the feed.")]
    pub cutting_edge_angle: Option<EdgeAngle>,
    /// At which diameter the volume is reckoned: mean, which is exact, or outer, as some textbooks do.
    #[absent("mean", "The volume is reckoned at the mean diameter, which is exact.")]
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
        let says = "A cut as deep as the radius leaves nothing of the work.";
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
    const ABOUT: &'static str = "Spindle speed and feed for turning along the work, as the lathe has them, with the chip, \
        the metal removed, the cutting force and the power.";
    const TASK: Task = Task::Turn;
    const ANOTHER_CHECK: &'static str =
        "Measure the diameter at both ends: a difference says that the work or the tool gives way.";
    const WORDS: &'static str = "lathe, rpm, surface speed, feed per rev, depth of cut, roughing, finishing, \
        horsepower, shaft";
    const NEAR: &'static str = "knurl, knurling, taper";
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
        "A textbook's volume, reckoned on the outside, for a 200 mm drum.":
            diameter = "200 mm", depth_of_cut = "4 mm", cutting_speed = "100 m/min", feed_per_rev = "0.25 mm/rev",
            removal_by = "outer";
        "What a winch drum of 1045 is turned at by a spindle that runs at 112 rpm, before a depth is chosen.":
            diameter = "6 in", spindle_speed = "112 rpm", material = "1045-normalised", tool_material = "hss";
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
