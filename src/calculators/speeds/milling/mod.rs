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
    /// Number of teeth, 1 to 100; the feed rate needs it.
    #[bounds(1, 100)]
    pub teeth: Option<u32>,
    /// Speed, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Feed per tooth wanted; the chip thickness wanted where hold_chip holds it; from the feed tables if absent.
    pub feed_per_tooth: Option<FeedPerTooth>,
    /// Width of the cut across the feed, from the rim inwards; no more than the diameter. Chip, removal and power need it.
    pub radial_depth: Option<Size>,
    /// Depth of the cut along the cutter's axis; removal and power need it.
    pub axial_depth: Option<Size>,
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
    /// What each tooth advances at that feed rate.
    #[needs(teeth, feed_per_tooth)]
    pub feed_per_tooth: Option<FoundFeedPerTooth>,
    /// Mean thickness of the chip over the engagement.
    #[needs(radial_depth, teeth, feed_per_tooth)]
    pub mean_chip: Option<FoundChipThickness>,
    /// Greatest thickness of the chip.
    #[needs(radial_depth, teeth, feed_per_tooth)]
    pub greatest_chip: Option<FoundChipThickness>,
    /// Metal removed in a minute.
    #[needs(radial_depth, axial_depth, teeth, feed_per_tooth)]
    pub removal_rate: Option<FoundRemovalRate>,
    /// Angle that a tooth turns through while it cuts.
    #[needs(radial_depth)]
    pub engagement_angle: Option<FoundAngle>,
    /// Mean number of teeth that cut at once, for straight flutes.
    #[needs(radial_depth, teeth)]
    pub teeth_in_cut: Option<f64>,
    /// The limits that do not allow the exact speed, the feed rate asked for or the power of the cut.
    pub limited_by: Vec<Limit>,
    /// Diameter at the depth of cut, where a corner radius makes it smaller than the cutter's.
    pub effective_diameter: Option<FoundSize>,
    /// What the cut takes of the machine.
    #[group]
    #[needs(material, radial_depth, axial_depth, teeth, feed_per_tooth)]
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
        stepover, slot, removal rate, engagement, shoulder, ball nose, horsepower, material, flute, fly cutter";
    const NEAR: &'static str = "keyway, keyseat, dovetail, T-slot";
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
