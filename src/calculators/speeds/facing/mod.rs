//! Speed, feed and time of facing and parting, with the spindle's speed held or the surface speed held up
//! to the spindle's limit: kinematics of a spiral.

use crate::calculators::prelude::*;
use crate::machine::{
    CutDiameter, CutPower, Falls, Limit, Motor, PowerTaken, ProcessFactor, Removal, SpeedOrWork, SpindleAndFeeds,
    Tooling, TurnSet, cut_power, process_factor,
};
use crate::reference::cutting_speeds::Operation;
use crate::suggestion::{Way, value};

mod spiral;

/// The calculator.
pub struct Facing;

/// Facing is cut like outside turning.
const FACING: ProcessFactor = process_factor(1.0, "outside turning is the base of the factors");

/// A chip in a groove is pressed from both sides.
const PARTING: ProcessFactor = process_factor(1.3, "factor of parting and grooving");

choice! {
    /// The kind of cut: `facing`, across the end, or `parting`, through to the inner diameter with the tool's width.
    FacingCut {
        /// Across the end of the work.
        Facing = "facing",
        /// Through the work.
        Parting = "parting",
    }
}

choice! {
    /// What the machine keeps constant while the tool goes inward: `spindle_speed`, or `surface_speed` with a spindle that speeds up.
    FacingHold {
        /// The spindle's speed; the surface speed falls towards the center.
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
    /// Diameter at which the cut ends; 0, the center, if absent.
    #[absent("0", like = outer_diameter, "The cut is assumed to go to the center.")]
    pub inner_diameter: Option<Extent>,
    /// Thickness faced off, or the width of the parting tool; removal rate and power need it.
    #[label("Depth of cut or tool width")]
    pub depth_of_cut: Option<Size>,
    /// Speed at the outer diameter, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Facing or parting.
    #[label("Facing or parting")]
    #[absent("facing", "A facing cut is assumed.")]
    pub cut: Option<FacingCut>,
    /// What the machine keeps constant: spindle_speed or surface_speed.
    #[label("Kept constant")]
    #[absent("spindle_speed", "The spindle speed is assumed constant, so the surface speed falls toward the center.")]
    pub hold: Option<FacingHold>,
    /// Feed per revolution wanted; taken from the feed tables if absent.
    #[label("Feed per revolution")]
    pub feed_per_rev: Option<FeedPerRev>,
    /// The speeds and the feeds that the machine has.
    #[group]
    pub machine: SpindleAndFeeds,
    /// The motor of the spindle.
    #[group]
    pub motor: Motor,
}

/// What the facing calculator gives; speeds and rates where the cut begins.
#[derive(Debug, Gives)]
pub struct FacingResult {
    /// What is set.
    #[group]
    pub set: TurnSet,
    /// The way of the tool.
    #[group]
    pub path: spiral::Path,
    /// Metal removed in a minute where the cut begins.
    #[label("Metal removal rate")]
    #[needs(depth_of_cut, feed_per_rev)]
    pub removal_rate: Option<FoundRemovalRate>,
    /// The limits that rule out the exact speed, the feed asked for or the power of the cut.
    pub limited_by: Vec<Limit>,
    /// How far what is set falls short.
    #[group]
    pub falls: Falls,
    /// What the cut takes of the machine.
    #[group]
    #[needs(material, depth_of_cut, feed_per_rev)]
    pub power: Option<PowerTaken>,
    /// How much less the depth of cut must be for the power available.
    #[label("Reduce depth of cut by")]
    pub depth_fall: Option<FoundPercentage>,
}

fn check(input: &FacingInput) -> Result<(), ValidationError> {
    let outer = input.outer_diameter.quantity();
    if let Some(inner) = input.inner_diameter.filter(|inner| inner.quantity().si() >= outer.si()) {
        let less = value(outer.si() / 2.0, inner.quantity().unit, Way::Down);
        let says = "The cut goes inward: the inner diameter must be smaller than the outer diameter.";
        return Err(rule_broken(Code::Conflict, says, &[("inner_diameter", &less)]));
    }
    check_hold(input)?;
    input.machine.check(&input.tooling())
}

rules! { check_hold(FacingInput) {
    never(|input| input.holds_surface_speed() && input.wanted.spindle_speed.is_some(), Code::Conflict,
        spindle_speed = "leave out", hold = "spindle_speed"): "A spindle speed that is set cannot keep the surface speed constant. Give a cutting speed, or keep the spindle speed constant.";
    never(|input| input.holds_surface_speed() && input.machine.spindle.available.is_some(), Code::Conflict,
        available = "leave out", hold = "spindle_speed"): "A spindle with fixed speeds cannot keep the surface speed constant.";
    never(|input| input.holds_surface_speed() && input.machine.spindle.fastest.is_none() && input.to_centre(),
        Code::FieldMissing, fastest = "1250 rpm", hold = "spindle_speed"):
        "To keep the surface speed constant to the center, give the fastest speed: without it the spindle would run away.";
} }

impl FacingInput {
    fn holds_surface_speed(&self) -> bool {
        self.hold == Some(FacingHold::SurfaceSpeed)
    }

    fn to_centre(&self) -> bool {
        self.inner_diameter.is_none_or(|inner| inner.quantity().si() == 0.0)
    }

    fn tooling(&self) -> Tooling {
        self.wanted.tooling(Operation::TurningRough)
    }
}

impl Calculator for Facing {
    const ID: &'static str = "speeds/facing";
    const TITLE: &'static str = "Facing and parting";
    const ABOUT: &'static str = "Spindle speed, feed and time for facing or parting, with the spindle speed kept constant, or \
        the surface speed kept constant up to the spindle's fastest speed.";
    const TASK: Task = Task::Turn;
    const ANOTHER_CHECK: &'static str =
        "Lay a straightedge across the face: a hollow or a high middle means that the cross slide is not square.";
    const WORDS: &'static str = "face, part off, cut off, lathe, constant surface speed, css, clamp, rpm, time, \
        parting off, cutoff";
    const EXAMPLES: &'static [Example] = examples! {
        "A 2 in winch shaft end of 1018 is faced 0.05 in deep down to a 1 in bore.":
            outer_diameter = "2 in", inner_diameter = "1 in", depth_of_cut = "0.05 in", material = "1018",
            tool_material = "hss", available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm",
            spindle_power = "1.5 kW", efficiency = "85 percent";
        "A 50 mm pump shaft is faced to the center with the surface speed kept constant, up to 1250 rpm.":
            outer_diameter = "50 mm", cutting_speed = "60 m/min", feed_per_rev = "0.1 mm/rev", hold = "surface_speed",
            slowest = "50 rpm", fastest = "1250 rpm", may_exceed = "0 percent", fastest_feed = "500 mm/min";
        "A 30 mm bar of bronze is parted with a 3 mm tool on a lathe with feed gears.":
            outer_diameter = "30 mm", depth_of_cut = "3 mm", material = "c93200", tool_material = "hss",
            range_point = "low", cut = "parting", fastest = "400 rpm",
            available_feeds = "0.05 mm/rev,0.08 mm/rev,0.1 mm/rev", spindle_power = "1.5 kW", base_speed = "500 rpm";
        "A flange of 1018, 8 in over, faced by a spindle that runs at 63 rpm.":
            outer_diameter = "8 in", inner_diameter = "3 in", spindle_speed = "63 rpm", material = "1018",
            tool_material = "hss";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You face a {outer_diameter} bar to the center at {spindle_speed} and {feed_per_rev}. How long does the cut take?"
            => "cutting_time":
            { outer_diameter = "1-1/2 in" | "2 in" | "3 in", spindle_speed = "160 rpm" | "224 rpm" | "315 rpm",
              feed_per_rev = "0.004 in/rev" | "0.005 in/rev" }
            { outer_diameter = "40 mm" | "50 mm" | "75 mm", spindle_speed = "160 rpm" | "224 rpm" | "315 rpm",
              feed_per_rev = "0.1 mm/rev" | "0.12 mm/rev" };
        1 "You face a {outer_diameter} flange at {cutting_speed} on its outside. How fast must the lathe turn?"
            => "exact_speed":
            { outer_diameter = "3 in" | "4 in" | "6 in", cutting_speed = "80 ft/min" | "100 ft/min" }
            { outer_diameter = "75 mm" | "100 mm" | "150 mm", cutting_speed = "25 m/min" | "30 m/min" };
        2 "You face a flange from {outer_diameter} down to a {inner_diameter} bore at {spindle_speed} and {feed_per_rev}. How \
            long does it take?" => "cutting_time":
            { outer_diameter = "4 in" | "5 in" | "6 in", inner_diameter = "1 in" | "2 in",
              spindle_speed = "63 rpm" | "112 rpm", feed_per_rev = "0.005 in/rev" | "0.008 in/rev" }
            { outer_diameter = "100 mm" | "120 mm" | "150 mm", inner_diameter = "30 mm" | "50 mm",
              spindle_speed = "63 rpm" | "112 rpm", feed_per_rev = "0.12 mm/rev" | "0.2 mm/rev" };
        2 "You face a flange from {outer_diameter} down to a {inner_diameter} bore at a steady {spindle_speed}. What cutting \
            speed is left at the bore?" => "inner_cutting_speed":
            { outer_diameter = "4 in" | "6 in", inner_diameter = "1 in" | "1-1/2 in" | "2 in",
              spindle_speed = "63 rpm" | "112 rpm", units = "inch" }
            { outer_diameter = "100 mm" | "150 mm", inner_diameter = "25 mm" | "40 mm" | "50 mm",
              spindle_speed = "63 rpm" | "112 rpm", units = "metric" };
        3 "A lathe faces {outer_diameter} bar to the center and keeps {cutting_speed} as far as its top speed of {fastest}. \
            At what diameter does it reach that?" => "limit_diameter":
            { outer_diameter = "2 in" | "3 in", cutting_speed = "200 ft/min" | "250 ft/min" | "300 ft/min",
              fastest = "900 rpm" | "1250 rpm", hold = "surface_speed", units = "inch" }
            { outer_diameter = "50 mm" | "75 mm", cutting_speed = "60 m/min" | "80 m/min" | "90 m/min",
              fastest = "900 rpm" | "1250 rpm", hold = "surface_speed", units = "metric" };
    };
    type Input = FacingInput;
    type Output = FacingResult;
    const LEADS: &'static [&'static str] = &["spindle_speed", "feed_per_rev", "load"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "a tool that feeds inward over a turning face");
        record.cautions(cautions::ON_THE_LATHE);
        let tooling = input.tooling();
        tooling.warn(record);
        let cut = input.cut(record);
        let hold = input.hold(record);
        let inner = input.inner_diameter(record);
        if hold == FacingHold::SurfaceSpeed {
            record.caution(cautions::CONSTANT_SURFACE_SPEED);
        }
        let (operation, process) = match cut {
            FacingCut::Facing => (Operation::TurningRough, &FACING),
            FacingCut::Parting => {
                record.caution(cautions::PARTING);
                (Operation::Parting, &PARTING)
            }
        };
        let wanted = tooling.speed(record)?;
        let feed = tooling.feed(input.feed_per_rev, "feed_per_rev", operation, None, record);
        let across = CutDiameter { of: "outer_diameter", size: input.outer_diameter };
        let (set, mut held, falls) = input.machine.set(wanted, across, feed, record)?;
        let path = match hold {
            FacingHold::SpindleSpeed => spiral::at_one_speed(input, inner, &set, record),
            FacingHold::SurfaceSpeed => spiral::at_surface_speed(input, (wanted, inner), &set, record),
        };
        let removed = set.feed.zip(input.depth_of_cut).map(|(feed, depth)| {
            let rate: FoundRemovalRate = step!(record, "Metal removed where the cut begins", Q: removal_rate = π * D * ap * vf,
                D = outer_diameter: input.outer_diameter, ap = depth_of_cut: depth, vf = feed_rate: feed.feed_rate);
            (rate, feed.feed_per_rev)
        });
        let power = removed.and_then(|(rate, feed_per_rev)| {
            let chip = step!(record, "Thickness of the chip", h: chip_thickness = f, f = feed_per_rev);
            let removal = Removal::of(rate, ("feed_per_rev", feed_per_rev), "turning_rough");
            let drive = (input.wanted.work.material.as_ref(), &input.motor);
            let chip = ("chip_thickness", chip, process);
            cut_power(drive, &removal, chip, set.speed.spindle_speed, &mut held.against, record)
        });
        Ok(FacingResult {
            set,
            path,
            removal_rate: removed.map(|(rate, _)| rate),
            limited_by: held.tell(power.as_ref().map(|power| &power.load), record),
            falls,
            power: power.as_ref().map(CutPower::taken),
            depth_fall: power.and_then(|power| power.depth_fall),
        })
    }
}
