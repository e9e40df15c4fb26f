//! What a machine does as it is set: from spindle speed, feed and the two overrides back to the cutting
//! speed and the chip, by kinematics.

use crate::calculators::prelude::*;

/// The calculator.
pub struct AsRun;

choice! {
    /// What runs: an ordinary `cutting` operation, or `tapping` and threading, whose feed must not be overridden.
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
    pub spindle_speed: SpindleSpeed,
    /// Diameter at the cut; the cutting speed needs it.
    pub diameter: Option<Size>,
    /// Feed rate as programmed, where the feed is a minute; the feed is not looked at if absent.
    pub feed_rate: Option<FeedRate>,
    /// Feed per turn as programmed, where the feed follows the spindle; the feed is not looked at if absent.
    pub feed_per_rev: Option<FeedPerRev>,
    /// Number of teeth, 1 to 100; the feed per tooth needs it.
    pub teeth: Option<u32>,
    /// What the spindle override is set to.
    #[absent("100 percent", "The spindle override is taken at 100 percent.")]
    pub speed_override: Option<Override>,
    /// What the feed override is set to.
    #[absent("100 percent", "The feed override is taken at 100 percent.")]
    pub feed_override: Option<Override>,
    /// Cutting or tapping; cutting if absent.
    pub operation: Option<RunningOperation>,
}

/// What the as-run calculator gives; all as the machine runs.
#[derive(Debug, Gives)]
pub struct AsRunResult {
    /// Spindle speed.
    pub spindle_speed: FoundSpindleSpeed,
    /// Cutting speed at the diameter.
    #[needs(diameter)]
    pub cutting_speed: Option<FoundCuttingSpeed>,
    /// Feed rate.
    #[needs(feed_rate | feed_per_rev)]
    pub feed_rate: Option<FoundFeedRate>,
    /// Feed per turn.
    #[needs(feed_rate | feed_per_rev)]
    pub feed_per_rev: Option<FoundFeedPerRev>,
    /// Feed per tooth.
    #[needs(teeth, feed_rate | feed_per_rev)]
    pub feed_per_tooth: Option<FoundFeedPerTooth>,
    /// By how much the overrides make the feed per turn, and with it the chip, thicker or thinner.
    #[needs(feed_rate | feed_per_rev)]
    pub chip_change: Option<FoundDeviation>,
}

/// At this override nothing is changed.
const WHOLE: f64 = 1.0;

fn is_off(value: Option<Override>) -> bool {
    value.is_some_and(|value| (value.si() - WHOLE).abs() > 1e-9)
}

rules! { check(AsRunInput) {
    not_both(feed_rate, feed_per_rev): "The feed is programmed a minute or a turn, not both.";
    never(|input| input.teeth.is_some_and(|teeth| !(1..=100).contains(&teeth)), Code::ValueOutOfRange, teeth = "4"):
        "A tool has 1 to 100 teeth.";
    never(|input| input.taps() && is_off(input.feed_override), Code::Conflict, feed_override = "100 percent"):
        FEED_IS_LEAD;
    // A feed by the minute does not follow a spindle that is slowed.
    never(|input| input.taps() && input.feed_rate.is_some() && is_off(input.speed_override), Code::Conflict,
        speed_override = "100 percent"):
        FEED_IS_LEAD;
} }

const FEED_IS_LEAD: &str = "In tapping and threading the feed is the lead: it must not be overridden.";

impl AsRunInput {
    fn taps(&self) -> bool {
        self.operation == Some(RunningOperation::Tapping)
    }
}

impl Calculator for AsRun {
    const ID: &'static str = "speeds/as-run";
    const TITLE: &'static str = "As the machine runs";
    const ABOUT: &'static str = "From the speed and feed that are set and the two overrides to the cutting speed, the feed \
        and the chip as they are.";
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
                    record.note("override_without_feed", "feed_override matters only with a feed.");
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
    let feed_per_rev = step!(record, "Feed per turn",
        f: feed_per_rev = vf / n, vf = feed_rate, n = spindle_speed);
    let change: FoundDeviation = step!(record, "Change of the chip by the overrides",
        δ: chip_change = q / s - ratio(1.0), q = feed_override, s = speed_override);
    if change.si() > 1e-9 {
        record.note(
            "chip_thickened",
            "A spindle that is slowed more than the feed takes thicker chips: tooth and motor bear more. Turn the feed \
             down with it.",
        );
    } else if change.si() < -1e-9 {
        record.note(
            "chip_thinned",
            "A feed that is turned down more than the spindle thins the chip: too thin, a tooth rubs.",
        );
    }
    (feed_rate, feed_per_rev, change)
}

/// The feed is programmed a turn: it follows the spindle.
fn by_the_turn(input: &AsRunInput, feed: FeedPerRev, spindle_speed: FoundSpindleSpeed, record: &mut Record) -> Running {
    let feed_override = input.feed_override(record);
    let feed_per_rev: FoundFeedPerRev = step!(record, "Feed per turn as it runs",
        f: feed_per_rev = F * q, F = feed_per_rev: feed, q = feed_override);
    let feed_rate = step!(record, "Feed rate", vf: feed_rate = f * n, f = feed_per_rev, n = spindle_speed);
    let change = step!(record, "Change of the chip by the overrides",
        δ: chip_change = q - ratio(1.0), q = feed_override);
    (feed_rate, feed_per_rev, change)
}
