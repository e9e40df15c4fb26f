//! What a machine does as it is set: from spindle speed, feed and the two overrides back to the cutting
//! speed and the chip, by kinematics.

use crate::calculators::prelude::*;

/// The calculator.
pub struct AsRun;

choice! {
    /// The operation: `cutting`, or `tapping` for tapping and threading, whose feed must not be overridden.
    RunningOperation {
        /// Any cut whose feed is free.
        Cutting = "cutting",
        /// A tap or a thread, whose feed is its lead.
        Tapping = "tapping",
    }
}

/// What the as-run calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct AsRunInput {
    /// Spindle speed as programmed or set.
    #[label("Spindle speed set")]
    pub spindle_speed: SpindleSpeed,
    /// Diameter at the cut; the cutting speed needs it.
    pub diameter: Option<Size>,
    /// Feed rate as programmed, where the feed is per minute; the feed is left out of the answer if no feed is given.
    #[label("Feed rate set")]
    pub feed_rate: Option<FeedRate>,
    /// Feed per revolution as programmed, where the feed follows the spindle; the feed is left out of the answer if no feed is given.
    #[label("Feed per revolution set")]
    pub feed_per_rev: Option<FeedPerRev>,
    /// Number of teeth, 1 to 100; the feed per tooth needs it.
    #[label("Number of teeth")]
    pub teeth: Option<u32>,
    /// Setting of the spindle override.
    #[label("Spindle override")]
    #[absent("100 percent", "The spindle override is assumed to be at 100 percent.")]
    pub speed_override: Option<Override>,
    /// Setting of the feed override.
    #[absent("100 percent", "The feed override is assumed to be at 100 percent.")]
    pub feed_override: Option<Override>,
    /// Cutting or tapping; cutting if absent.
    pub operation: Option<RunningOperation>,
}

/// What the as-run calculator gives; all as the machine runs.
#[derive(Debug, Gives)]
pub struct AsRunResult {
    /// Spindle speed as it runs.
    pub spindle_speed: FoundSpindleSpeed,
    /// Cutting speed at the diameter.
    #[needs(diameter)]
    pub cutting_speed: Option<FoundCuttingSpeed>,
    /// Feed rate as it runs.
    #[needs(feed_rate | feed_per_rev)]
    pub feed_rate: Option<FoundFeedRate>,
    /// Feed per revolution as it runs.
    #[label("Feed per revolution")]
    #[needs(feed_rate | feed_per_rev)]
    pub feed_per_rev: Option<FoundFeedPerRev>,
    /// Feed per tooth as it runs.
    #[needs(teeth, feed_rate | feed_per_rev)]
    pub feed_per_tooth: Option<FoundFeedPerTooth>,
    /// How much thicker or thinner the overrides make the chip.
    #[label("Change of the chip")]
    #[needs(feed_rate | feed_per_rev)]
    pub chip_change: Option<FoundDeviation>,
}

/// At this override nothing is changed.
const WHOLE: f64 = 1.0;

fn is_off(value: Option<Override>) -> bool {
    value.is_some_and(|value| (value.si() - WHOLE).abs() > 1e-9)
}

rules! { check(AsRunInput) {
    not_both(feed_rate, feed_per_rev): "Give the feed per minute or the feed per revolution, not both.";
    never(|input| input.teeth.is_some_and(|teeth| !(1..=100).contains(&teeth)), Code::ValueOutOfRange, teeth = "4"):
        "A tool has 1 to 100 teeth.";
    never(|input| input.taps() && is_off(input.feed_override), Code::Conflict, feed_override = "100 percent"):
        FEED_IS_LEAD;
    // A feed by the minute does not follow a spindle that is slowed.
    never(|input| input.taps() && input.feed_rate.is_some() && is_off(input.speed_override), Code::Conflict,
        speed_override = "100 percent"):
        FEED_IS_LEAD;
} }

const FEED_IS_LEAD: &str =
    "In tapping and threading the feed is the lead, so it must not be overridden. Leave the override at 100 percent.";

impl AsRunInput {
    fn taps(&self) -> bool {
        self.operation == Some(RunningOperation::Tapping)
    }
}

impl Calculator for AsRun {
    const ID: &'static str = "speeds/as-run";
    const TITLE: &'static str = "As the machine runs";
    const ABOUT: &'static str = "The real cutting speed, feed and chip, from the speed and feed that are set and the two \
        overrides.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str = "Time the table over a known length, and hold a tachometer to the spindle.";
    const WORDS: &'static str = "override, dial, spindle override, feed override, surface speed, sfm, chip load, \
        back calculate, actual";
    const EXAMPLES: &'static [Example] = examples! {
        "On a winch bracket the spindle is turned down to 80 percent while the feed stays.":
            spindle_speed = "630 rpm", diameter = "1/2 in", feed_rate = "5 in/min", teeth = "4",
            speed_override = "80 percent", feed_override = "100 percent";
        "An M10 tap in a pump cover, slowed by the spindle override with the feed following.":
            spindle_speed = "300 rpm", diameter = "10 mm", feed_per_rev = "1.5 mm/rev", speed_override = "60 percent",
            operation = "tapping";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {diameter} cutter turns at {spindle_speed}. What cutting speed does it have?" => "cutting_speed":
            { diameter = "3/8 in" | "1/2 in" | "3/4 in" | "1 in", spindle_speed = "315 rpm" | "450 rpm" | "630 rpm" | "900 rpm",
              units = "inch" }
            { diameter = "6 mm" | "10 mm" | "16 mm" | "20 mm", spindle_speed = "315 rpm" | "450 rpm" | "630 rpm" | "900 rpm",
              units = "metric" };
        2 "A {teeth}-flute cutter turns at {spindle_speed} while the table feeds at {feed_rate}. What does each tooth take?"
            => "feed_per_tooth":
            { teeth = "2" | "3" | "4", spindle_speed = "450 rpm" | "630 rpm" | "900 rpm",
              feed_rate = "3 in/min" | "4 in/min" | "5 in/min", units = "inch" }
            { teeth = "2" | "3" | "4", spindle_speed = "450 rpm" | "630 rpm" | "900 rpm",
              feed_rate = "80 mm/min" | "100 mm/min" | "120 mm/min", units = "metric" };
        2 "The spindle is set to {spindle_speed} with its override at {speed_override}. What cutting speed does a {diameter} \
            cutter have?" => "cutting_speed":
            { spindle_speed = "630 rpm" | "900 rpm" | "1000 rpm", speed_override = "80 percent" | "90 percent" | "120 percent",
              diameter = "3/8 in" | "1/2 in", units = "inch" }
            { spindle_speed = "630 rpm" | "900 rpm" | "1000 rpm", speed_override = "80 percent" | "90 percent" | "120 percent",
              diameter = "10 mm" | "12 mm", units = "metric" };
        3 "You turn the spindle override down to {speed_override} and leave the feed at {feed_rate}. By how much does the chip \
            change?" => "chip_change":
            { speed_override = "60 percent" | "70 percent" | "75 percent" | "80 percent" | "90 percent",
              feed_rate = "4 in/min" | "5 in/min" | "100 mm/min", spindle_speed = "630 rpm" };
        3 "A {teeth}-flute cutter is set to {spindle_speed} and {feed_rate}, with the spindle override at {speed_override} and \
            the feed override at {feed_override}. What does each tooth take?" => "feed_per_tooth":
            { teeth = "2" | "4", spindle_speed = "630 rpm" | "900 rpm", feed_rate = "4 in/min" | "6 in/min",
              speed_override = "80 percent" | "90 percent", feed_override = "50 percent" | "70 percent", units = "inch" }
            { teeth = "2" | "4", spindle_speed = "630 rpm" | "900 rpm", feed_rate = "100 mm/min" | "160 mm/min",
              speed_override = "80 percent" | "90 percent", feed_override = "50 percent" | "70 percent", units = "metric" };
    };
    type Input = AsRunInput;
    type Output = AsRunResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed and feed of a turning tool");
        record.caution(cautions::TURNING_SPINDLE);
        record.caution(cautions::SPEED_LIMIT);
        let speed_override = input.speed_override(record);
        let spindle_speed: FoundSpindleSpeed = step!(record, "Spindle speed as it runs",
            n: spindle_speed = N * s, N = spindle_speed: input.spindle_speed, s = speed_override);
        let cutting_speed = input.diameter.map(
            |diameter| step!(record, "Cutting speed", V: cutting_speed = π * D * n, D = diameter, n = spindle_speed),
        );
        if input.taps() {
            record.caution(cautions::TAPPING);
        }
        let feed = match (input.feed_rate, input.feed_per_rev) {
            (Some(rate), _) => Some(by_the_minute(input, rate, (spindle_speed, speed_override), record)),
            (None, Some(feed)) => Some(by_the_turn(input, feed, spindle_speed, record)),
            (None, None) => {
                if input.feed_override.is_some() {
                    record.note("override_without_feed", "The feed override changes nothing without a feed.");
                }
                None
            }
        };
        let feed_per_tooth = input.teeth.zip(feed).map(|(teeth, (_, feed_per_rev, _))| {
            step!(record, "Feed per tooth", fz: feed_per_tooth = f / z, f = feed_per_rev, z = teeth)
        });
        Ok(AsRunResult {
            spindle_speed,
            cutting_speed,
            feed_rate: feed.map(|feed| feed.0),
            feed_per_rev: feed.map(|feed| feed.1),
            feed_per_tooth,
            chip_change: feed.map(|feed| feed.2),
        })
    }
}

/// Feed rate, feed per turn and change of the chip, as the machine runs.
type Running = (FoundFeedRate, FoundFeedPerRev, FoundDeviation);

/// The feed is programmed a minute: it does not follow the spindle.
fn by_the_minute(
    input: &AsRunInput,
    rate: FeedRate,
    (spindle_speed, speed_override): (FoundSpindleSpeed, Override),
    record: &mut Record,
) -> Running {
    let feed_override = input.feed_override(record);
    let feed_rate: FoundFeedRate = step!(record, "Feed rate as it runs",
        vf: feed_rate = F * q, F = feed_rate: rate, q = feed_override);
    let feed_per_rev = step!(record, "Feed per revolution",
        f: feed_per_rev = vf / n, vf = feed_rate, n = spindle_speed);
    let change: FoundDeviation = step!(record, "Change of the chip from the overrides",
        δ: chip_change = q / s - ratio(1.0), q = feed_override, s = speed_override);
    if change.si() > 1e-9 {
        record.note(
            "chip_thickened",
            "Slowing the spindle more than the feed makes the chips thicker and loads tooth and motor more. Turn the feed \
             down with it.",
        );
    } else if change.si() < -1e-9 {
        record.note(
            "chip_thinned",
            "Turning the feed down more than the spindle makes the chips thinner; a tooth with too thin a chip rubs.",
        );
    }
    (feed_rate, feed_per_rev, change)
}

/// The feed is programmed a turn: it follows the spindle.
fn by_the_turn(input: &AsRunInput, feed: FeedPerRev, spindle_speed: FoundSpindleSpeed, record: &mut Record) -> Running {
    let feed_override = input.feed_override(record);
    let feed_per_rev: FoundFeedPerRev = step!(record, "Feed per revolution as it runs",
        f: feed_per_rev = F * q, F = feed_per_rev: feed, q = feed_override);
    let feed_rate = step!(record, "Feed rate", vf: feed_rate = f * n, f = feed_per_rev, n = spindle_speed);
    let change = step!(record, "Change of the chip from the overrides",
        δ: chip_change = q - ratio(1.0), q = feed_override);
    (feed_rate, feed_per_rev, change)
}
