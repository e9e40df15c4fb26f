//! Speed, feed, chip and removal rate of milling with one side of the cut at the cutter's rim: plane
//! geometry of the engagement, checked against textbook examples and a numerical integration.

use crate::calculators::{Calculator, Draw, Example, Task};
use crate::machine::{Limit, cutting_speed_at, exact_speed, tell_limits};
use crate::quantity::{
    CuttingSpeed, EdgeAngle, FeedPerTooth, FeedRate, FoundAngle, FoundChipThickness, FoundCuttingSpeed,
    FoundFeedPerTooth, FoundFeedRate, FoundRemovalRate, FoundSpindleSpeed, Percentage, SiValue, Size, SpindleSpeed,
    Unit, text,
};
use crate::refusal::Refusal;
use crate::working::Record;
use serde::Deserialize;
use std::f64::consts::TAU;
use utoipa::ToSchema;
use validator::Validate;

mod drawing;
mod engagement;
mod feed;
mod rules;
#[cfg(test)]
mod tests;

use engagement::Engagement;

/// The calculator.
pub struct Milling;

crate::choice! {
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

crate::choice! {
    /// Which way the tooth meets the work: `climb` with the feed of the work, `conventional` against it.
    MillingWay {
        /// The tooth goes with the feed of the work: chip thick first, thin last.
        Climb = "climb",
        /// The tooth goes against the feed of the work: chip thin first, thick last.
        Conventional = "conventional",
    }
}

/// What the milling calculator asks for.
#[derive(Debug, Deserialize, Validate, ToSchema)]
#[serde(deny_unknown_fields)]
#[validate(schema(function = "rules::check"))]
pub struct MillingInput {
    /// Diameter of the cutter at the cut.
    pub diameter: Size,
    /// Number of teeth, 1 to 100.
    #[schema(minimum = 1, maximum = 100)]
    pub teeth: u32,
    /// Cutting speed wanted at the diameter.
    pub cutting_speed: CuttingSpeed,
    /// Feed per tooth wanted; the chip thickness wanted where hold_chip holds it.
    pub feed_per_tooth: FeedPerTooth,
    /// Width of the cut across the feed, from the rim inwards; no more than the diameter.
    pub radial_depth: Size,
    /// Depth of the cut along the cutter's axis.
    pub axial_depth: Size,
    /// Angle between cutting edge and feed; 90 deg, a square shoulder, if absent.
    pub cutting_edge_angle: Option<EdgeAngle>,
    /// Which chip is to be as thick as the feed per tooth asked for: none, greatest or mean; none if absent.
    pub hold_chip: Option<HoldChip>,
    /// Climb or conventional milling; changes no number, and nothing is said of it if absent.
    pub way: Option<MillingWay>,
    /// Slowest speed to be used; no limit if absent.
    pub slowest: Option<SpindleSpeed>,
    /// Fastest speed to be used, by the machine, the holder or the cutter; no limit if absent.
    pub fastest: Option<SpindleSpeed>,
    /// The speeds that gears or pulleys give, in any order; any speed if absent. Those outside slowest to fastest are left out.
    pub available: Option<Vec<SpindleSpeed>>,
    /// How far above the exact speed the speed chosen may be, in percent of the exact speed; 0 if absent.
    pub may_exceed: Option<Percentage>,
    /// Fastest feed rate to be used; no limit if absent.
    pub fastest_feed: Option<FeedRate>,
    /// The feed rates that the table has, in any order; any feed if absent. Those above fastest_feed are left out.
    pub available_feeds: Option<Vec<FeedRate>>,
}

crate::tree!(MillingInput {
    diameter,
    teeth,
    cutting_speed,
    feed_per_tooth,
    radial_depth,
    axial_depth,
    cutting_edge_angle,
    hold_chip,
    way,
    slowest,
    fastest,
    available,
    may_exceed,
    fastest_feed,
    available_feeds,
});

/// What the milling calculator gives; all at the spindle speed and the feed rate to set.
#[derive(Debug, ToSchema)]
pub struct MillingResult {
    /// Spindle speed to set.
    pub spindle_speed: FoundSpindleSpeed,
    /// Speed that gives the cutting speed exactly.
    pub exact_speed: FoundSpindleSpeed,
    /// Cutting speed at the spindle speed to set.
    pub cutting_speed: FoundCuttingSpeed,
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
    /// The limits that do not allow the exact speed or the feed rate asked for.
    pub limited_by: Vec<Limit>,
}

crate::tree!(MillingResult {
    spindle_speed,
    exact_speed,
    cutting_speed,
    feed_rate,
    feed_per_tooth,
    mean_chip,
    greatest_chip,
    removal_rate,
    engagement_angle,
    teeth_in_cut,
    limited_by,
});

impl Calculator for Milling {
    const ID: &'static str = "speeds/milling";
    const TITLE: &'static str = "Milling speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed rate for a milling cutter, as the machine has them, with the \
        chip that each tooth then takes and the metal removed.";
    const TASK: Task = Task::Cut;
    const WORDS: &'static [&'static str] = &[
        "end mill",
        "face mill",
        "rpm",
        "feed",
        "chip load",
        "chip thinning",
        "climb",
        "conventional",
        "stepover",
        "slot",
        "removal rate",
        "engagement",
        "shoulder",
    ];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A four-flute 1/2 in high-speed steel end mill cuts a 1/4 in step in a winch bracket on the bench mill.",
            fields: &[
                ("diameter", "1/2 in"),
                ("teeth", "4"),
                ("cutting_speed", "70 ft/min"),
                ("feed_per_tooth", "0.002 in/tooth"),
                ("radial_depth", "0.250 in"),
                ("axial_depth", "0.250 in"),
                ("available", "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm"),
            ],
        },
        Example {
            says: "A 50 mm face mill with edges at 45° takes a light side cut off a mill gear housing, its greatest chip \
                   held at 0.1 mm, within the speeds and feeds of the machine.",
            fields: &[
                ("diameter", "50 mm"),
                ("teeth", "4"),
                ("cutting_speed", "120 m/min"),
                ("feed_per_tooth", "0.1 mm/tooth"),
                ("radial_depth", "10 mm"),
                ("axial_depth", "2 mm"),
                ("cutting_edge_angle", "45 deg"),
                ("hold_chip", "greatest"),
                ("way", "conventional"),
                ("slowest", "112 rpm"),
                ("fastest", "900 rpm"),
                ("available", "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm"),
                ("may_exceed", "10 percent"),
                ("fastest_feed", "500 mm/min"),
                ("available_feeds", "40 mm/min,63 mm/min,100 mm/min,160 mm/min,250 mm/min,400 mm/min"),
            ],
        },
    ];
    type Input = MillingInput;
    type Output = MillingResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed, feed rate and volume of a turning cutter");
        record.source("geometry", "engagement of a circle with a straight face; chip taken square to the rim");
        record.source("iso_3002_1", "tool cutting edge angle");
        rules::warn(input, record);
        let edge = record.or_assume(
            input.cutting_edge_angle,
            "cutting_edge_angle",
            EdgeAngle::stated(90.0, Unit::Degree),
            "The edge is taken as parallel to the cutter's axis, as an end mill's is.",
        );
        let hold = record.or_assume(
            input.hold_chip,
            "hold_chip",
            HoldChip::None,
            "The feed per tooth is taken as asked; the chip may be thinner.",
        );
        let diameter = &input.diameter;
        let exact = exact_speed(&input.cutting_speed, diameter, record)?;
        let chosen = input.spindle().choose(exact, record);
        let spindle_speed = chosen.speed.ok_or_else(|| rules::no_speed(input, exact, chosen.above))?;
        let cutting_speed = cutting_speed_at("cutting_speed", ("spindle_speed", spindle_speed), diameter, record);

        let cut = Engagement::of(&input.radial_depth, diameter, edge, record);
        let teeth = f64::from(input.teeth);
        let (of, wanted) = input.feed_wanted(&cut, hold, record);
        let feeds = input.feeds();
        let wanted_rate = FoundFeedRate::of(wanted.get() * teeth * spindle_speed.get());
        record
            .step("Feed rate for that feed per tooth", "vf = fz × z × n")
            .with("fz", of, wanted)
            .with("z", "teeth", input.teeth)
            .with("n", "spindle_speed", spindle_speed)
            .gives(feeds.wanted_field(), wanted_rate);
        let feed = feeds.choose(wanted_rate, record);
        let feed_rate = feed.rate.ok_or_else(|| rules::no_feed(input, wanted_rate))?;
        let feed_per_tooth = input.feed_found((feed_rate.get() / (teeth * spindle_speed.get())).si());
        record
            .step("Feed per tooth at that feed rate", "fz = vf / (z × n)")
            .with("vf", "feed_rate", feed_rate)
            .with("z", "teeth", input.teeth)
            .with("n", "spindle_speed", spindle_speed)
            .gives("feed_per_tooth", feed_per_tooth);

        let mean_chip = cut.mean_chip(feed_per_tooth, record);
        let greatest_chip = cut.greatest_chip(feed_per_tooth, record);
        let removal_rate = FoundRemovalRate::of(input.radial_depth.get() * input.axial_depth.get() * feed_rate.get());
        record
            .step("Metal removed", "Q = ae × ap × vf")
            .with("ae", "radial_depth", input.radial_depth)
            .with("ap", "axial_depth", input.axial_depth)
            .with("vf", "feed_rate", feed_rate)
            .gives("removal_rate", removal_rate);
        let teeth_in_cut = text::tidy(teeth * cut.angle.get().si() / TAU);
        record
            .step("Teeth in the cut", "zc = z × φ / (2 × π)")
            .with("z", "teeth", input.teeth)
            .with("φ", "engagement_angle", cut.angle)
            .gives("teeth_in_cut", teeth_in_cut);

        rules::note_feed(input, hold, &feed.limited_by, greatest_chip, record);
        let mut limited_by = chosen.limited_by;
        let mut asked = vec![("n", "exact_speed", exact.into())];
        if !feed.limited_by.is_empty() {
            asked.push(("v", feeds.wanted_field(), wanted_rate.into()));
            limited_by.extend(feed.limited_by);
        }
        tell_limits(&limited_by, &asked, record);
        Ok(MillingResult {
            spindle_speed,
            exact_speed: exact,
            cutting_speed,
            feed_rate,
            feed_per_tooth,
            mean_chip,
            greatest_chip,
            removal_rate,
            engagement_angle: cut.angle,
            teeth_in_cut,
            limited_by,
        })
    }
}
