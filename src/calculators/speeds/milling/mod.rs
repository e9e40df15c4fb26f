//! Speed, feed, chip and removal rate of milling with one side of the cut at the cutter's rim: plane
//! geometry of the engagement, checked against textbook examples and a numerical integration.

use crate::calculators::prelude::*;
use crate::machine::{
    CutPower, Falls, Limit, Motor, PowerTaken, ProcessFactor, Removal, Screws, SetSpeed, SpeedOrWork, SpindleLimits,
    cut_power,
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
    /// Which chip thickness to hold at the feed per tooth asked for: `none` uses the feed as it is; `greatest` or `mean` raises the feed until that chip is as thick.
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
    #[label("Cutter diameter")]
    pub diameter: Size,
    /// Number of teeth, 1 to 100; the feed rate needs it.
    #[label("Number of teeth")]
    #[bounds(1, 100)]
    pub teeth: Option<u32>,
    /// Speed, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Feed per tooth wanted, or the chip thickness wanted where the chip is held; taken from the feed tables if absent.
    pub feed_per_tooth: Option<FeedPerTooth>,
    /// Width of the cut across the feed, no more than the diameter. Chip, removal rate and power need it.
    #[label("Width of cut")]
    pub radial_depth: Option<Size>,
    /// Depth of the cut along the cutter's axis; removal rate and power need it.
    #[label("Depth of cut")]
    pub axial_depth: Option<Size>,
    /// Distance from the path of the cutter's axis to the middle of the cut, to either side; the cut starts at the cutter's edge, as in a side cut, if absent.
    #[label("Cut off center by")]
    pub cut_offset: Option<Difference>,
    /// Radius of the cutter's corner, half the diameter for a ball nose; a sharp corner if absent.
    #[label("Corner radius of cutter")]
    pub corner_radius: Option<Size>,
    /// Angle between cutting edge and feed; 90 deg, a square shoulder, if absent.
    #[absent("90 deg", "The cutting edge is assumed parallel to the cutter's axis, as on an end mill.")]
    pub cutting_edge_angle: Option<EdgeAngle>,
    /// Which chip thickness to hold at the feed per tooth asked for: none, greatest or mean.
    #[label("Chip to hold")]
    #[absent("none", "The feed per tooth is used as asked for; the chip may be thinner.")]
    pub hold_chip: Option<HoldChip>,
    /// Climb or conventional milling; it changes the cautions, not the numbers. No caution for either if absent.
    #[label("Climb or conventional")]
    pub way: Option<MillingWay>,
    /// The speeds that the machine has.
    #[group]
    pub spindle: SpindleLimits,
    /// Fastest feed rate to use; no limit if absent.
    #[label("Fastest feed rate")]
    pub fastest_feed: Option<FeedRate>,
    /// The feed rates that the table has, in any order; any feed if absent. Those above the fastest feed rate are left out.
    #[label("Feeds the machine has")]
    pub available_feeds: Option<Vec<FeedRate>>,
    /// The motor of the spindle.
    #[group]
    pub motor: Motor,
    /// The screws of the table.
    #[group]
    pub screws: Screws,
}

/// What the milling calculator gives; all at the spindle speed and the feed rate to set.
#[derive(Debug, Gives)]
pub struct MillingResult {
    /// The speed.
    #[group]
    pub speed: SetSpeed,
    /// Feed rate of the table to set.
    #[needs(teeth, feed_per_tooth)]
    pub feed_rate: Option<FoundFeedRate>,
    /// Advance of each tooth at that feed rate.
    #[needs(teeth, feed_per_tooth)]
    pub feed_per_tooth: Option<FoundFeedPerTooth>,
    /// Mean thickness of the chip over the engagement.
    #[label("Mean chip thickness")]
    #[needs(radial_depth, teeth, feed_per_tooth)]
    pub mean_chip: Option<FoundChipThickness>,
    /// Greatest thickness of the chip.
    #[label("Greatest chip thickness")]
    #[needs(radial_depth, teeth, feed_per_tooth)]
    pub greatest_chip: Option<FoundChipThickness>,
    /// Metal removed in a minute.
    #[label("Metal removal rate")]
    #[needs(radial_depth, axial_depth, teeth, feed_per_tooth)]
    pub removal_rate: Option<FoundRemovalRate>,
    /// Angle that a tooth turns through while it cuts.
    #[label("Angle in cut per tooth")]
    #[needs(radial_depth)]
    pub engagement_angle: Option<FoundAngle>,
    /// Mean number of teeth that cut at once, for straight flutes.
    #[label("Teeth in cut at once")]
    #[needs(radial_depth, teeth)]
    pub teeth_in_cut: Option<f64>,
    /// The limits that rule out the exact speed, the feed rate asked for or the power of the cut.
    pub limited_by: Vec<Limit>,
    /// Diameter at the depth of cut, where a corner radius makes it smaller than the cutter's.
    #[label("Diameter that cuts")]
    pub effective_diameter: Option<FoundSize>,
    /// What the cut takes of the machine.
    #[group]
    #[needs(material, radial_depth, axial_depth, teeth, feed_per_tooth)]
    pub power: Option<PowerTaken>,
    /// How far what is set falls short.
    #[group]
    pub falls: Falls,
    /// How much less the depth of cut must be for the power available.
    #[label("Reduce depth of cut by")]
    pub depth_fall: Option<FoundPercentage>,
}

impl Calculator for Milling {
    const ID: &'static str = "speeds/milling";
    const TITLE: &'static str = "Milling speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed rate to set for a milling cutter on your machine, with the chip \
        that each tooth then takes and the metal removed.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str = "Time the table over a known length: length divided by time is the feed.";
    const WORDS: &'static str = "end mill, face mill, rpm, feed, chip load, chip thinning, climb, conventional, \
        stepover, slot, removal rate, engagement, shoulder, ball nose, horsepower, material, flute, fly cutter";
    const NEAR: &'static str = "T-slot";
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
        "What a 3/8 in end mill does in a winch plate of 1018 at the 630 rpm that are set, on a table whose screws have play.":
            diameter = "3/8 in", teeth = "4", spindle_speed = "630 rpm", material = "1018", tool_material = "hss",
            backlash = "0.006 in";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {teeth}-flute end mill turns at {spindle_speed} and takes {feed_per_tooth}. How fast must the table feed?"
            => "feed_rate":
            { teeth = "2" | "3" | "4", spindle_speed = "450 rpm" | "630 rpm" | "900 rpm" | "1250 rpm",
              feed_per_tooth = "0.001 in/tooth" | "0.002 in/tooth" | "0.003 in/tooth", diameter = "1/2 in",
              units = "inch" }
            { teeth = "2" | "3" | "4", spindle_speed = "450 rpm" | "630 rpm" | "900 rpm" | "1250 rpm",
              feed_per_tooth = "0.03 mm/tooth" | "0.05 mm/tooth" | "0.08 mm/tooth", diameter = "10 mm",
              units = "metric" };
        2 "A {diameter} end mill with {teeth} flutes takes {cutting_speed} and {feed_per_tooth}, on a mill with any speed \
            you like. How fast must the table feed?" => "feed_rate":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in" | "3/4 in", teeth = "2" | "4",
              cutting_speed = "70 ft/min" | "80 ft/min" | "100 ft/min",
              feed_per_tooth = "0.001 in/tooth" | "0.002 in/tooth", units = "inch" }
            { diameter = "6 mm" | "10 mm" | "12 mm" | "20 mm", teeth = "2" | "4",
              cutting_speed = "20 m/min" | "25 m/min" | "30 m/min",
              feed_per_tooth = "0.03 mm/tooth" | "0.05 mm/tooth", units = "metric" };
        2 "A {teeth}-flute end mill at {spindle_speed} and {feed_per_tooth} takes a cut {radial_depth} wide and \
            {axial_depth} deep. How much metal comes off in a minute?" => "removal_rate":
            { teeth = "2" | "4", spindle_speed = "450 rpm" | "630 rpm" | "900 rpm", feed_per_tooth = "0.002 in/tooth",
              radial_depth = "1/8 in" | "1/4 in" | "1/2 in", axial_depth = "0.1 in" | "0.2 in", diameter = "1/2 in",
              units = "inch" }
            { teeth = "2" | "4", spindle_speed = "450 rpm" | "630 rpm" | "900 rpm", feed_per_tooth = "0.05 mm/tooth",
              radial_depth = "3 mm" | "6 mm" | "12 mm", axial_depth = "2 mm" | "5 mm", diameter = "12 mm",
              units = "metric" };
        2 "A {diameter} end mill takes a side cut {radial_depth} wide. Through what angle does each tooth cut?"
            => "engagement_angle":
            { diameter = "3/8 in" | "1/2 in" | "3/4 in", radial_depth = "0.05 in" | "1/8 in" | "1/4 in",
              spindle_speed = "450 rpm" }
            { diameter = "10 mm" | "12 mm" | "20 mm", radial_depth = "1 mm" | "2 mm" | "5 mm",
              spindle_speed = "450 rpm" };
        3 "A {teeth}-flute {diameter} cutter takes {cutting_speed} and {feed_per_tooth}. You set the next slower of 112, \
            160, 224, 315, 450, 630, 900 and 1250 rpm. How fast must the table feed?" => "feed_rate":
            { teeth = "2" | "4", diameter = "3/8 in" | "1/2 in" | "5/8 in" | "3/4 in", cutting_speed = "70 ft/min" | "90 ft/min",
              feed_per_tooth = "0.002 in/tooth" | "0.003 in/tooth", units = "inch",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" }
            { teeth = "2" | "4", diameter = "10 mm" | "12 mm" | "16 mm" | "20 mm", cutting_speed = "20 m/min" | "25 m/min",
              feed_per_tooth = "0.05 mm/tooth" | "0.08 mm/tooth", units = "metric",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
        3 "A {diameter} end mill shaves {radial_depth} off the side of a pad. Its thickest chip must be {feed_per_tooth}. \
            What feed per tooth does that take?" => "feed_per_tooth":
            { diameter = "1/2 in" | "5/8 in" | "3/4 in", radial_depth = "0.03 in" | "0.05 in" | "0.08 in",
              feed_per_tooth = "0.002 in/tooth" | "0.003 in/tooth", teeth = "4", spindle_speed = "450 rpm",
              hold_chip = "greatest", units = "inch" }
            { diameter = "12 mm" | "16 mm" | "20 mm", radial_depth = "1 mm" | "1.5 mm" | "2 mm",
              feed_per_tooth = "0.05 mm/tooth" | "0.08 mm/tooth", teeth = "4", spindle_speed = "450 rpm",
              hold_chip = "greatest", units = "metric" };
    };
    type Input = MillingInput;
    type Output = MillingResult;
    const LEADS: &'static [&'static str] = &["spindle_speed", "feed_rate", "load"];
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
        let (speed, mut held) = input.spindle.set(tooling.speed(record)?, across, record)?;
        let MillingInput { diameter, teeth, radial_depth, axial_depth, .. } = *input;
        let cut = radial_depth.map(|depth| Engagement::of((depth, diameter), input.cut_offset, edge, record));
        let asked =
            tooling.feed(input.feed_per_tooth, "feed_per_tooth", Operation::Milling, Some(diameter.si()), record);
        let (feed, falls) = match asked.zip(teeth) {
            Some((asked, teeth)) => {
                let (set, falls) = feed::set(input, (&speed, cut.as_ref()), (asked, hold, teeth), &mut held, record);
                (Some(set), falls)
            }
            None => (None, Falls { speed_fall: speed.fall(record), feed_fall: None }),
        };
        let chips = cut.as_ref().zip(feed.as_ref()).map(|(cut, feed)| {
            (cut.mean_chip(feed.feed_per_tooth, record), cut.greatest_chip(feed.feed_per_tooth, record))
        });
        if let Some(((_, greatest), feed)) = chips.zip(feed.as_ref()) {
            rules::note_chip((feed.asked, hold), greatest, record);
        }
        let depths = radial_depth.zip(axial_depth).zip(feed.as_ref());
        let removal_rate = depths.map(|((radial_depth, axial_depth), feed)| {
            step!(record, "Metal removed", Q: removal_rate = ae * ap * vf,
                ae = radial_depth, ap = axial_depth, vf = feed_rate: feed.feed_rate)
        });
        let teeth_in_cut = cut.as_ref().zip(teeth).map(|(cut, teeth)| {
            let in_cut = text::tidy(f64::from(teeth) * cut.angle.get().si() / TAU);
            record
                .step("Teeth in the cut", "zc = z × φ / (2 × π)")
                .with("z", "teeth", teeth)
                .with("φ", "engagement_angle", cut.angle)
                .gives("teeth_in_cut", in_cut);
            in_cut
        });
        let drive = (input.wanted.work.material.as_ref(), &input.motor);
        let power = removal_rate.zip(chips).zip(feed.as_ref()).and_then(|((rate, (mean_chip, _)), feed)| {
            let removal = Removal::of(rate, ("feed_per_tooth", feed.feed_per_tooth), "end_milling");
            let chip = ("mean_chip", mean_chip, &PROCESS);
            cut_power(drive, &removal, chip, speed.spindle_speed, &mut held.against, record)
        });
        Ok(MillingResult {
            speed,
            feed_rate: feed.as_ref().map(|feed| feed.feed_rate),
            feed_per_tooth: feed.as_ref().map(|feed| feed.feed_per_tooth),
            mean_chip: chips.map(|(mean, _)| mean),
            greatest_chip: chips.map(|(_, greatest)| greatest),
            removal_rate,
            engagement_angle: cut.as_ref().map(|cut| cut.angle),
            teeth_in_cut,
            limited_by: held.tell(power.as_ref().map(|power| &power.load), record),
            effective_diameter: (across.of == corner::FIELD).then(|| across.size.found()),
            power: power.as_ref().map(CutPower::taken),
            falls,
            depth_fall: power.and_then(|power| power.depth_fall),
        })
    }
}
