//! Speed, feed, chip and removal rate of milling with one side of the cut at the cutter's rim: plane
//! geometry of the engagement, checked against textbook examples and a numerical integration.

use crate::calculators::prelude::*;
use crate::machine::{
    CutPower, Falls, Held, Limit, Motor, PowerTaken, ProcessFactor, Removal, SetSpeed, SpeedOrWork, SpindleLimits,
    cut_power, cutting_speed_at, exact_speed,
};
use crate::reference::cutting_speeds::Operation;
use std::f64::consts::TAU;

mod corner;
mod drawing;
mod engagement;
mod feed;
mod rules;
#[cfg(test)]
mod tests;

use engagement::Engagement;
use feed::feed_found;

/// The calculator.
pub struct Milling;

/// The chip of milling is pressed more than that of turning.
const PROCESS: ProcessFactor = ProcessFactor {
    of: "constant:process_factor",
    value: 1.2,
    source: "tabellenbuch_zerspantechnik",
    place: "p. 215, factor of milling",
};

choice! {
    /// What chip is to be as thick as the feed per tooth asked for: `none` takes the feed as it is, `greatest` or `mean` raises it until that chip is.
    HoldChip {
        /// The feed per tooth is taken as it is.
        None = "none",
        /// The thickest part of the chip.
        Greatest = "greatest",
        /// The mean thickness of the chip.
        Mean = "mean",
    }
}

choice! {
    /// Which way the tooth meets the work: `climb` with the feed of the work, `conventional` against it.
    MillingWay {
        /// The tooth goes with the feed of the work: chip thick first, thin last.
        Climb = "climb",
        /// The tooth goes against the feed of the work: chip thin first, thick last.
        Conventional = "conventional",
    }
}

/// What the milling calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = rules::check)]
pub struct MillingInput {
    /// Diameter of the cutter at the cut.
    pub diameter: Size,
    /// Number of teeth, 1 to 100.
    #[bounds(1, 100)]
    pub teeth: u32,
    /// Speed, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Feed per tooth wanted; the chip thickness wanted where hold_chip holds it; from the feed tables if absent.
    pub feed_per_tooth: Option<FeedPerTooth>,
    /// Width of the cut across the feed, from the rim inwards; no more than the diameter.
    pub radial_depth: Size,
    /// Depth of the cut along the cutter's axis.
    pub axial_depth: Size,
    /// How far the middle of the cut lies from the path of the cutter's axis, to either side; one side of the cut lies at the rim if absent.
    pub cut_offset: Option<Difference>,
    /// Radius of the cutter's corner, half the diameter for a ball nose; a sharp corner if absent.
    pub corner_radius: Option<Size>,
    /// Angle between cutting edge and feed; 90 deg, a square shoulder, if absent.
    #[absent("90 deg", "The edge is taken as parallel to the cutter's axis, as an end mill's is.")]
    pub cutting_edge_angle: Option<EdgeAngle>,
    /// Which chip is to be as thick as the feed per tooth asked for: none, greatest or mean.
    #[absent("none", "The feed per tooth is taken as asked; the chip may be thinner.")]
    pub hold_chip: Option<HoldChip>,
    /// Climb or conventional milling; changes no number, and nothing is said of it if absent.
    pub way: Option<MillingWay>,
    /// The speeds that the machine has.
    #[group]
    pub spindle: SpindleLimits,
    /// Fastest feed rate to be used; no limit if absent.
    pub fastest_feed: Option<FeedRate>,
    /// The feed rates that the table has, in any order; any feed if absent. Those above fastest_feed are left out.
    pub available_feeds: Option<Vec<FeedRate>>,
    /// The motor of the spindle.
    #[group]
    pub motor: Motor,
}

/// What the milling calculator gives; all at the spindle speed and the feed rate to set.
#[derive(Debug, Gives)]
pub struct MillingResult {
    /// The speed.
    #[group]
    pub speed: SetSpeed,
    /// Feed rate of the table to set.
    pub feed_rate: FoundFeedRate,
    /// What each tooth advances at that feed rate.
    pub feed_per_tooth: FoundFeedPerTooth,
    /// Mean thickness of the chip over the engagement.
    pub mean_chip: FoundChipThickness,
    /// Greatest thickness of the chip.
    pub greatest_chip: FoundChipThickness,
    /// Metal removed in a minute.
    pub removal_rate: FoundRemovalRate,
    /// Angle that a tooth turns through while it cuts.
    pub engagement_angle: FoundAngle,
    /// Mean number of teeth that cut at once, for straight flutes.
    pub teeth_in_cut: f64,
    /// The limits that do not allow the exact speed, the feed rate asked for or the power of the cut.
    pub limited_by: Vec<Limit>,
    /// Diameter at the depth of cut, where a corner radius makes it smaller than the cutter's.
    pub effective_diameter: Option<FoundSize>,
    /// What the cut takes of the machine.
    #[group]
    pub power: Option<PowerTaken>,
    /// How far what is set falls short.
    #[group]
    pub falls: Falls,
    /// By how much the depth of cut would have to fall for the power available.
    pub depth_fall: Option<FoundPercentage>,
}

impl Calculator for Milling {
    const ID: &'static str = "speeds/milling";
    const TITLE: &'static str = "Milling speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed rate for a milling cutter, as the machine has them, with the \
        chip that each tooth then takes and the metal removed.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str = "Time the table over a known length: the length over the time is the feed.";
    const WORDS: &'static str = "end mill, face mill, rpm, feed, chip load, chip thinning, climb, conventional, \
        stepover, slot, removal rate, engagement, shoulder, ball nose, horsepower, material";
    const EXAMPLES: &'static [Example] = examples! {
        "A four-flute 1/2 in high-speed steel end mill cuts a 1/4 in step in a winch bracket of annealed 4140 on the bench mill.":
            diameter = "1/2 in", teeth = "4", cutting_speed = "70 ft/min", material = "4140 annealed",
            tool_material = "hss", feed_per_tooth = "0.002 in/tooth", radial_depth = "0.250 in", axial_depth = "0.250 in",
            available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", spindle_power = "1.5 kW",
            efficiency = "85 percent";
        "A 50 mm face mill with edges at 45° takes a light side cut off a mill gear housing, its greatest chip held at 0.1 mm, within the speeds and feeds of the machine.":
            diameter = "50 mm", teeth = "4", cutting_speed = "120 m/min", feed_per_tooth = "0.1 mm/tooth",
            radial_depth = "10 mm", axial_depth = "2 mm", cutting_edge_angle = "45 deg", hold_chip = "greatest",
            way = "conventional", slowest = "112 rpm", fastest = "900 rpm",
            available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", may_exceed = "10 percent",
            fastest_feed = "500 mm/min",
            available_feeds = "40 mm/min,63 mm/min,100 mm/min,160 mm/min,250 mm/min,400 mm/min";
        "A 12 mm two-flute ball-nose cutter of high-speed steel follows the curve of a bronze pump casing, speed and feed from the tables.":
            diameter = "12 mm", teeth = "2", material = "c93200", tool_material = "hss", range_point = "middle",
            radial_depth = "1 mm", axial_depth = "0.5 mm", corner_radius = "6 mm", spindle_power = "1.5 kW",
            base_speed = "500 rpm";
        "A 2 in face mill runs down the middle of a 1-1/4 in wide mill gear pad.":
            diameter = "2 in", teeth = "5", cutting_speed = "250 ft/min", feed_per_tooth = "0.004 in/tooth",
            radial_depth = "1.25 in", axial_depth = "0.05 in", cut_offset = "0.1 in";
    };
    type Input = MillingInput;
    type Output = MillingResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed, feed rate and volume of a turning cutter");
        record.source("geometry", "engagement of a circle with a straight face; chip taken square to the rim");
        record.source("iso_3002_1", "tool cutting edge angle");
        rules::warn(input, record);
        let edge = input.cutting_edge_angle(record);
        let hold = input.hold_chip(record);
        let tooling = input.wanted.tooling(Operation::Milling);
        tooling.warn(record);
        let across = corner::cut_diameter(input, record);
        let wanted_speed = tooling.speed(record)?;
        let exact_speed = exact_speed(wanted_speed, across, record)?;
        let chosen = input.spindle.choose(exact_speed, record);
        let spindle_speed =
            chosen.speed.ok_or_else(|| rules::no_speed(input, wanted_speed, (exact_speed, chosen.above)))?;
        let cutting_speed = cutting_speed_at("cutting_speed", ("spindle_speed", spindle_speed), across, record);
        let speed = SetSpeed { spindle_speed, exact_speed, cutting_speed };

        let MillingInput { diameter, teeth, radial_depth, axial_depth, .. } = *input;
        let cut = Engagement::of((radial_depth, diameter), input.cut_offset, edge, record);
        let size = Some(diameter.get().si());
        let asked = tooling.feed(input.feed_per_tooth, "feed_per_tooth", Operation::Milling, size, record)?;
        let (of, wanted) = feed::feed_wanted(&cut, (asked, hold), record);
        let feeds = input.feeds();
        let name = feeds.wanted_field();
        let wanted_rate = step!(record, "Feed rate for that feed per tooth",
            vf: (name) = fz * z * n, fz = (of): wanted, z = teeth, n = spindle_speed);
        let chosen_feed = feeds.choose(wanted_rate, record);
        let feed_rate = chosen_feed.rate.ok_or_else(|| rules::no_feed(input, asked, wanted_rate))?;
        let feed_per_tooth = feed_found(&asked, (feed_rate.get() / (f64::from(teeth) * spindle_speed.get())).si());
        record
            .step("Feed per tooth at that feed rate", "fz = vf / (z × n)")
            .with("vf", "feed_rate", feed_rate)
            .with("z", "teeth", teeth)
            .with("n", "spindle_speed", spindle_speed)
            .gives("feed_per_tooth", feed_per_tooth);

        let mean_chip = cut.mean_chip(feed_per_tooth, record);
        let greatest_chip = cut.greatest_chip(feed_per_tooth, record);
        let removal_rate = step!(record, "Metal removed", Q: removal_rate = ae * ap * vf,
            ae = radial_depth, ap = axial_depth, vf = feed_rate);
        let teeth_in_cut = text::tidy(f64::from(teeth) * cut.angle.get().si() / TAU);
        record
            .step("Teeth in the cut", "zc = z × φ / (2 × π)")
            .with("z", "teeth", teeth)
            .with("φ", "engagement_angle", cut.angle)
            .gives("teeth_in_cut", teeth_in_cut);
        rules::note_feed((asked, hold), &chosen_feed.limited_by, greatest_chip, record);
        let mut held = Held::of(exact_speed, chosen.limited_by);
        let drive = (input.wanted.work.material.as_ref(), &input.motor);
        let removal = Removal::of(removal_rate, ("feed_per_tooth", feed_per_tooth), "end_milling");
        let chip = ("mean_chip", mean_chip, &PROCESS);
        let power = cut_power(drive, &removal, chip, spindle_speed, &mut held.against, record);
        let falls = chosen_feed.falls(&speed, (name, wanted_rate), &mut held, record);
        Ok(MillingResult {
            speed,
            feed_rate,
            feed_per_tooth,
            mean_chip,
            greatest_chip,
            removal_rate,
            engagement_angle: cut.angle,
            teeth_in_cut,
            limited_by: held.tell(power.as_ref().map(|power| &power.load), record),
            effective_diameter: (across.of == corner::FIELD).then(|| across.size.found()),
            power: power.as_ref().map(CutPower::taken),
            falls,
            depth_fall: power.and_then(|power| power.depth_fall),
        })
    }
}
