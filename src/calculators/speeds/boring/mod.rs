//! Speed, feed, removal rate, force and power of boring: kinematics, published speeds, and three quarters
//! of the turning speed where none is published for boring.

use crate::calculators::prelude::*;
use crate::machine::{AlongTheWork, Motor, ProcessFactor, SpeedOrWork, SpindleAndFeeds, TurnedCut, process_factor};
use crate::reference::cutting_speeds::Operation;
use crate::suggestion::{Way, value};

mod bar;

/// The calculator.
pub struct Boring;

/// A chip of inside turning is pressed more.
const PROCESS: ProcessFactor = process_factor(1.2, "factor of inside turning");

/// What the boring calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct BoringInput {
    /// Diameter of the bore after the cut.
    #[label("Bore after the cut")]
    pub diameter: Size,
    /// Depth of the cut on the radius; the diameter grows by twice that. Removal rate, force and power need it.
    pub depth_of_cut: Option<Size>,
    /// Speed, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Feed per revolution wanted; taken from the feed tables if absent.
    #[label("Feed per revolution")]
    pub feed_per_rev: Option<FeedPerRev>,
    /// Angle between cutting edge and feed.
    #[absent("90 deg", "The cutting edge is assumed square to the feed.")]
    pub cutting_edge_angle: Option<EdgeAngle>,
    /// How far the boring bar sticks out; the bar is not checked for chatter if absent.
    #[label("Overhang of the bar")]
    pub overhang: Option<Extent>,
    /// Diameter of the boring bar; the bar is not checked for chatter if absent.
    #[label("Diameter of the bar")]
    pub bar_diameter: Option<Size>,
    /// The speeds and the feeds that the machine has.
    #[group]
    pub machine: SpindleAndFeeds,
    /// The motor of the spindle.
    #[group]
    pub motor: Motor,
}

/// What the boring calculator gives.
#[derive(Debug, Gives)]
pub struct BoringResult {
    /// The cut.
    #[group]
    pub cut: TurnedCut,
    /// Overhang of the bar, in diameters of the bar.
    #[label("Overhang in bar diameters")]
    #[needs(overhang, bar_diameter)]
    pub overhang_ratio: Option<f64>,
}

fn check(input: &BoringInput) -> Result<(), ValidationError> {
    let across = input.diameter.quantity();
    let depth = input.depth_of_cut.map(|depth| depth.quantity());
    if let Some(depth) = depth.filter(|depth| 2.0 * depth.si() >= across.si()) {
        let less = value(across.si() / 4.0, depth.unit, Way::Down);
        let says = "A cut as deep as the radius would need no bore before it. Give a smaller depth of cut.";
        return Err(rule_broken(Code::Conflict, says, &[("depth_of_cut", &less)]));
    }
    if let Some(bar) = input.bar_diameter.filter(|bar| bar.get() >= input.diameter.get()) {
        let less = value(across.si() / 2.0, bar.quantity().unit, Way::Down);
        return Err(rule_broken(Code::Conflict, "The bar must be smaller than the bore.", &[("bar_diameter", &less)]));
    }
    input.machine.check(&input.wanted.tooling(Operation::Boring))
}

impl Calculator for Boring {
    const ID: &'static str = "speeds/boring";
    const TITLE: &'static str = "Boring speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed to set for boring on your machine, with the chip, the metal removed, \
        the cutting force, the power and the overhang of the bar.";
    const TASK: Task = Task::Turn;
    const ANOTHER_CHECK: &'static str = "Measure the bore in two directions and at both ends with a bore gauge.";
    const WORDS: &'static str = "bore, boring bar, boring head, inside turning, overhang, chatter, rpm, feed";
    const EXAMPLES: &'static [Example] = examples! {
        "A pump casing of grey iron is bored to 1-1/2 in, 0.05 in deep, with a 5/8 in bar 3 in out.":
            diameter = "1-1/2 in", depth_of_cut = "0.05 in", material = "grey-iron-35", tool_material = "hss",
            overhang = "3 in", bar_diameter = "5/8 in",
            available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", spindle_power = "1.5 kW",
            efficiency = "85 percent";
        "A bronze bush of a winch is bored to 40 mm.":
            diameter = "40 mm", depth_of_cut = "0.5 mm", material = "c93200", tool_material = "hss", range_point = "low",
            cutting_edge_angle = "75 deg", slowest = "112 rpm", fastest = "900 rpm", may_exceed = "5 percent",
            fastest_feed = "150 mm/min", available_feeds = "0.05 mm/rev,0.1 mm/rev", spindle_power = "1.5 kW",
            base_speed = "400 rpm";
        "A bore of 50 mm at a speed and a feed that are known.":
            diameter = "50 mm", depth_of_cut = "1 mm", cutting_speed = "60 m/min", feed_per_rev = "0.1 mm/rev";
        "A pump casing of grey iron bored to 80 mm by a spindle that runs at 160 rpm.":
            diameter = "80 mm", spindle_speed = "160 rpm", material = "grey-iron-35", tool_material = "hss";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You bore a pump casing to {diameter} at {cutting_speed}. How fast must the spindle turn?" => "exact_speed":
            { diameter = "1 in" | "1-1/2 in" | "2 in" | "3 in", cutting_speed = "50 ft/min" | "60 ft/min" | "80 ft/min" }
            { diameter = "30 mm" | "40 mm" | "50 mm" | "75 mm", cutting_speed = "15 m/min" | "20 m/min" | "25 m/min" };
        1 "The spindle bores a {diameter} hole at {spindle_speed} and feeds {feed_per_rev}. How fast does the bar go in?"
            => "feed_rate":
            { diameter = "1-1/2 in" | "2 in", spindle_speed = "112 rpm" | "160 rpm" | "224 rpm",
              feed_per_rev = "0.003 in/rev" | "0.004 in/rev" | "0.006 in/rev", units = "inch" }
            { diameter = "40 mm" | "50 mm", spindle_speed = "112 rpm" | "160 rpm" | "224 rpm",
              feed_per_rev = "0.08 mm/rev" | "0.1 mm/rev" | "0.15 mm/rev", units = "metric" };
        2 "A bush is bored to {diameter} at {cutting_speed}. Which of 112, 160, 224, 315, 450, 630, 900 and 1250 rpm do you \
            set without going over?" => "spindle_speed":
            { diameter = "1 in" | "1-1/4 in" | "1-1/2 in", cutting_speed = "50 ft/min" | "60 ft/min" | "80 ft/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" }
            { diameter = "25 mm" | "30 mm" | "40 mm", cutting_speed = "15 m/min" | "20 m/min" | "25 m/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
        2 "You take {depth_of_cut} on the radius and the bore comes to {diameter}. What is its diameter halfway through the \
            cut?" => "mean_diameter":
            { diameter = "1-1/2 in" | "2 in" | "2-1/2 in", depth_of_cut = "0.02 in" | "0.05 in" | "0.1 in",
              spindle_speed = "160 rpm", units = "inch" }
            { diameter = "40 mm" | "50 mm" | "65 mm", depth_of_cut = "0.5 mm" | "1 mm" | "2 mm",
              spindle_speed = "160 rpm", units = "metric" };
        3 "A bore comes to {diameter}, {depth_of_cut} deep on the radius, at {spindle_speed} and {feed_per_rev}. How much metal \
            comes out in a minute, taken at the mean diameter?" => "removal_rate":
            { diameter = "1-1/2 in" | "2 in" | "3 in", depth_of_cut = "0.05 in" | "0.1 in",
              spindle_speed = "112 rpm" | "160 rpm", feed_per_rev = "0.004 in/rev" | "0.006 in/rev", units = "inch" }
            { diameter = "40 mm" | "50 mm" | "75 mm", depth_of_cut = "1 mm" | "2 mm",
              spindle_speed = "112 rpm" | "160 rpm", feed_per_rev = "0.1 mm/rev" | "0.15 mm/rev", units = "metric" };
    };
    type Input = BoringInput;
    type Output = BoringResult;
    const LEADS: &'static [&'static str] = &["spindle_speed", "feed_per_rev", "load"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed, feed rate and volume of inside turning");
        record.source("iso_3002_1", "tool cutting edge angle");
        record.cautions(cautions::ON_THE_LATHE);
        record.caution(cautions::BORING);
        let tooling = input.wanted.tooling(Operation::Boring);
        tooling.warn(record);
        let wanted = tooling.speed_or(Operation::TurningRough, bar::share_of_turning, record)?;
        let feed = tooling.feed(input.feed_per_rev, "feed_per_rev", Operation::Boring, None, record);
        let set = input.machine.set(wanted, input.diameter.into(), feed, record)?;
        let overhang_ratio = bar::overhang_ratio(input, record);
        let cut = AlongTheWork {
            diameter: input.diameter,
            depth_of_cut: input.depth_of_cut,
            edge: input.cutting_edge_angle(record),
            drive: (input.wanted.work.material.as_ref(), &input.motor),
            process: &PROCESS,
            wear: "turning_rough",
        };
        let removal = |depth, mean_diameter, feed_rate, record: &mut Record| {
            step!(record, "Metal removed", Q: removal_rate = π * Dm * ap * vf,
                Dm = mean_diameter, ap = depth_of_cut: depth, vf = feed_rate)
        };
        Ok(BoringResult { cut: cut.cut(set, removal, record), overhang_ratio })
    }
}
