//! Speed, feed, chip and removal rate of milling with one side of the cut at the cutter's rim: plane
//! geometry of the engagement, checked against textbook examples and a numerical integration.

use crate::calculators::{Calculator, Draw, Example, Task};
use crate::declared::{Asks, Gives};
use crate::machine::{Limit, RangePoint, cutting_speed_at, exact_speed, fall, tell_limits};
use crate::quantity::{
    CuttingSpeed, Difference, EdgeAngle, Efficiency, FeedPerTooth, FeedRate, FoundAngle, FoundChipThickness,
    FoundCuttingSpeed, FoundFeedPerTooth, FoundFeedRate, FoundPercentage, FoundPower, FoundRemovalRate, FoundSize,
    FoundSpindleSpeed, FoundTorque, Percentage, Power, SiValue, Size, SpindleSpeed, Unit, text,
};
use crate::reference::cutting_speeds::{Operation, ToolMaterial};
use crate::reference::material_name::WorkMaterial;
use crate::refusal::Refusal;
use crate::working::Record;
use std::f64::consts::TAU;

mod corner;
mod drawing;
mod engagement;
mod examples;
mod feed;
mod power;
mod rules;
#[cfg(test)]
mod tests;

use engagement::Engagement;
use feed::feed_found;

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
#[derive(Debug, Asks)]
#[asks(check = rules::check)]
pub struct MillingInput {
    /// Diameter of the cutter at the cut.
    pub diameter: Size,
    /// Number of teeth, 1 to 100.
    #[bounds(1, 100)]
    pub teeth: u32,
    /// Cutting speed wanted at the diameter; from the tables for material and tool_material if absent.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Work material by short name, designation, number or words, such as 4140 annealed; the power of the cut needs it.
    pub material: Option<WorkMaterial>,
    /// What the cutter is made of: hss, cobalt, carbide or coated_carbide; needed where speed or feed comes from the tables.
    pub tool_material: Option<ToolMaterial>,
    /// Which point of a published range is taken: low, middle or high; low if absent.
    pub range_point: Option<RangePoint>,
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
    /// Power of the spindle's motor; the power of the cut is held against nothing if absent.
    pub spindle_power: Option<Power>,
    /// Speed below which the motor has less power, in proportion to the speed; full power at every speed if absent, as behind gears or belts.
    pub base_speed: Option<SpindleSpeed>,
    /// Share of the motor's power that comes to the cutter; 80 percent if absent.
    pub efficiency: Option<Efficiency>,
}

/// What the milling calculator gives; all at the spindle speed and the feed rate to set.
#[derive(Debug, Gives)]
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
    /// The limits that do not allow the exact speed, the feed rate asked for or the power of the cut.
    pub limited_by: Vec<Limit>,
    /// Diameter at the depth of cut, where a corner radius makes it smaller than the cutter's.
    pub effective_diameter: Option<FoundSize>,
    /// Power at the cutter by unit power; needs material.
    pub power: Option<FoundPower>,
    /// Power at the cutter by specific cutting force, the second way; needs material.
    pub power_by_specific_force: Option<FoundPower>,
    /// Torque at the spindle for that power; needs material.
    pub torque: Option<FoundTorque>,
    /// Power that the motor gives for the power at the cutter; needs material.
    pub motor_power: Option<FoundPower>,
    /// Power that the spindle has at its speed; needs spindle_power.
    pub power_available: Option<FoundPower>,
    /// Power of the cut as a share of the power available; needs spindle_power.
    pub load: Option<FoundPercentage>,
    /// By how much the spindle speed is below the exact one.
    pub speed_fall: Option<FoundPercentage>,
    /// By how much the feed rate is below the one asked for.
    pub feed_fall: Option<FoundPercentage>,
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
        "ball nose",
        "horsepower",
        "material",
    ];
    const EXAMPLES: &'static [Example] = examples::EXAMPLES;
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
        let tooling = input.tooling();
        tooling.warn(record);
        let diameter = &input.diameter;
        let across = corner::cut_diameter(input, record);
        let wanted_speed = tooling.speed(record)?;
        let exact = exact_speed(wanted_speed, across, record)?;
        let chosen = input.spindle().choose(exact, record);
        let spindle_speed = chosen.speed.ok_or_else(|| rules::no_speed(input, wanted_speed, exact, chosen.above))?;
        let cutting_speed = cutting_speed_at("cutting_speed", ("spindle_speed", spindle_speed), across, record);

        let cut = Engagement::of(&input.radial_depth, diameter, input.cut_offset.as_ref(), edge, record);
        let teeth = f64::from(input.teeth);
        let size = Some(diameter.get().si());
        let asked = tooling.feed(input.feed_per_tooth, "feed_per_tooth", Operation::Milling, size, record)?;
        let (of, wanted) = input.feed_wanted(&cut, (asked, hold), record);
        let feeds = input.feeds();
        let wanted_rate = FoundFeedRate::of(wanted.get() * teeth * spindle_speed.get());
        record
            .step("Feed rate for that feed per tooth", "vf = fz × z × n")
            .with("fz", of, wanted)
            .with("z", "teeth", input.teeth)
            .with("n", "spindle_speed", spindle_speed)
            .gives(feeds.wanted_field(), wanted_rate);
        let feed = feeds.choose(wanted_rate, record);
        let feed_rate = feed.rate.ok_or_else(|| rules::no_feed(input, asked, wanted_rate))?;
        let feed_per_tooth = feed_found(&asked, (feed_rate.get() / (teeth * spindle_speed.get())).si());
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
        rules::note_feed((asked, hold), &feed.limited_by, greatest_chip, record);
        let mut limited_by = chosen.limited_by;
        let mut held = vec![("n", "exact_speed", exact.into())];
        let power = power::find(input, (removal_rate, feed_per_tooth, mean_chip), spindle_speed, &mut held, record);
        let share = 1.0 - (spindle_speed.get() / exact.get()).si();
        let speed_fall =
            fall("speed_fall", ("exact_speed", exact.into()), ("spindle_speed", spindle_speed.into()), share, record);
        let mut feed_fall = None;
        if !feed.limited_by.is_empty() {
            let name = feeds.wanted_field();
            held.push(("v", name, wanted_rate.into()));
            limited_by.extend(feed.limited_by);
            let share = 1.0 - (feed_rate.get() / wanted_rate.get()).si();
            feed_fall = fall("feed_fall", (name, wanted_rate.into()), ("feed_rate", feed_rate.into()), share, record);
        }
        if let Some(power) = &power {
            power.load.limit(&mut limited_by);
        }
        tell_limits(&limited_by, &held, record);
        let load = power.as_ref().map(|power| power.load);
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
            effective_diameter: (across.of == corner::FIELD).then(|| across.size.found()),
            power: power.as_ref().map(|power| power.power),
            power_by_specific_force: power.as_ref().and_then(|power| power.by_force),
            torque: power.as_ref().map(|power| power.torque),
            motor_power: load.map(|load| load.motor_power),
            power_available: load.and_then(|load| load.power_available),
            load: load.and_then(|load| load.load),
            speed_fall,
            feed_fall,
            depth_fall: power.as_ref().and_then(|power| power.depth_fall),
        })
    }
}
