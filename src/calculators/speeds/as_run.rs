//! What a machine does as it is set: from spindle speed, feed and the two overrides back to the cutting
//! speed and the chip, by kinematics.

use crate::calculators::{Calculator, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::quantity::{
    FeedPerRev, FeedRate, FoundCuttingSpeed, FoundDeviation, FoundFeedPerRev, FoundFeedPerTooth, FoundFeedRate,
    FoundSpindleSpeed, Override, SiValue, Size, SpindleSpeed, Unit,
};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::Record;
use std::f64::consts::PI;
use validator::ValidationError;

/// The calculator.
pub struct AsRun;

crate::choice! {
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
    /// Diameter at the cut.
    pub diameter: Size,
    /// Feed rate as programmed, where the feed is a minute; the feed is not looked at if absent.
    pub feed_rate: Option<FeedRate>,
    /// Feed per turn as programmed, where the feed follows the spindle; the feed is not looked at if absent.
    pub feed_per_rev: Option<FeedPerRev>,
    /// Number of teeth, 1 to 100; the feed per tooth needs it.
    pub teeth: Option<u32>,
    /// What the spindle override is set to; 100 percent if absent.
    pub speed_override: Option<Override>,
    /// What the feed override is set to; 100 percent if absent.
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
    pub cutting_speed: FoundCuttingSpeed,
    /// Feed rate.
    pub feed_rate: Option<FoundFeedRate>,
    /// Feed per turn.
    pub feed_per_rev: Option<FoundFeedPerRev>,
    /// Feed per tooth; needs teeth.
    pub feed_per_tooth: Option<FoundFeedPerTooth>,
    /// By how much the overrides make the feed per turn, and with it the chip, thicker or thinner.
    pub chip_change: Option<FoundDeviation>,
}

/// At this override nothing is changed.
const WHOLE: f64 = 1.0;

fn is_off(value: Option<Override>) -> bool {
    value.is_some_and(|value| (value.get().si() - WHOLE).abs() > 1e-9)
}

fn check(input: &AsRunInput) -> Result<(), ValidationError> {
    if input.feed_rate.is_some() && input.feed_per_rev.is_some() {
        let ways = [("feed_rate", "leave out"), ("feed_per_rev", "leave out")];
        return Err(rule_broken(Code::Conflict, "The feed is programmed a minute or a turn, not both.", &ways));
    }
    if input.teeth.is_some_and(|teeth| !(1..=100).contains(&teeth)) {
        return Err(rule_broken(Code::ValueOutOfRange, "A tool has 1 to 100 teeth.", &[("teeth", "4")]));
    }
    if input.teeth.is_some() && input.feed_rate.is_none() && input.feed_per_rev.is_none() {
        let ways = [("feed_rate", "4.3 in/min"), ("teeth", "leave out")];
        return Err(rule_broken(Code::Conflict, "The feed per tooth needs a feed.", &ways));
    }
    if input.operation == Some(RunningOperation::Tapping) {
        let says = "In tapping and threading the feed is the lead: it must not be overridden.";
        if is_off(input.feed_override) {
            return Err(rule_broken(Code::Conflict, says, &[("feed_override", "100 percent")]));
        }
        // A feed by the minute does not follow a spindle that is slowed.
        if input.feed_rate.is_some() && is_off(input.speed_override) {
            return Err(rule_broken(Code::Conflict, says, &[("speed_override", "100 percent")]));
        }
    }
    Ok(())
}

impl Calculator for AsRun {
    const ID: &'static str = "speeds/as-run";
    const TITLE: &'static str = "As the machine runs";
    const ABOUT: &'static str = "From the speed and feed that are set and the two overrides to the cutting speed, the feed \
        and the chip as they are.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str = "Time the table over a known length, and hold a tachometer to the spindle.";
    const WORDS: &'static [&'static str] = &[
        "override",
        "dial",
        "spindle override",
        "feed override",
        "surface speed",
        "chip load",
        "back calculate",
        "actual",
    ];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "On a winch bracket the spindle is turned down to 80 percent while the feed stays.",
            fields: &[
                ("spindle_speed", "630 rpm"),
                ("diameter", "1/2 in"),
                ("feed_rate", "5 in/min"),
                ("teeth", "4"),
                ("speed_override", "80 percent"),
                ("feed_override", "100 percent"),
            ],
        },
        Example {
            says: "An M10 tap in a pump cover, slowed by the spindle override with the feed following.",
            fields: &[
                ("spindle_speed", "300 rpm"),
                ("diameter", "10 mm"),
                ("feed_per_rev", "1.5 mm/rev"),
                ("speed_override", "60 percent"),
                ("operation", "tapping"),
            ],
        },
    ];
    type Input = AsRunInput;
    type Output = AsRunResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed and feed of a turning tool");
        record.caution(cautions::TURNING_SPINDLE);
        record.caution(cautions::SPEED_LIMIT);
        let hundred = Override::stated(100.0, Unit::Percent);
        let speed_override = record.or_assume(
            input.speed_override,
            "speed_override",
            hundred,
            "The spindle override is taken at 100 percent.",
        );
        let spindle_speed = FoundSpindleSpeed::of(input.spindle_speed.get() * speed_override.get().si());
        record
            .step("Spindle speed as it runs", "n = N × s")
            .with("N", "spindle_speed", input.spindle_speed)
            .with("s", "speed_override", speed_override)
            .gives("spindle_speed", spindle_speed);
        let cutting_speed = FoundCuttingSpeed::of(PI * input.diameter.get() * spindle_speed.get());
        record
            .step("Cutting speed", "V = π × D × n")
            .with("D", "diameter", input.diameter)
            .with("n", "spindle_speed", spindle_speed)
            .gives("cutting_speed", cutting_speed);
        if input.operation == Some(RunningOperation::Tapping) {
            record.caution(cautions::TAPPING);
        }
        let mut result = AsRunResult {
            spindle_speed,
            cutting_speed,
            feed_rate: None,
            feed_per_rev: None,
            feed_per_tooth: None,
            chip_change: None,
        };
        if input.feed_rate.is_some() || input.feed_per_rev.is_some() {
            let feed_override = record.or_assume(
                input.feed_override,
                "feed_override",
                hundred,
                "The feed override is taken at 100 percent.",
            );
            match (input.feed_rate, input.feed_per_rev) {
                (Some(rate), _) => by_the_minute(rate, (speed_override, feed_override), &mut result, record),
                (None, Some(feed)) => by_the_turn(feed, feed_override, &mut result, record),
                (None, None) => {}
            }
            tell_tooth(input, &mut result, record);
        } else if input.feed_override.is_some() {
            record.note("override_without_feed", "feed_override matters only with a feed.");
        }
        Ok(result)
    }
}

/// The feed is programmed a minute: it does not follow the spindle.
fn by_the_minute(
    rate: FeedRate,
    (speed_override, feed_override): (Override, Override),
    result: &mut AsRunResult,
    record: &mut Record,
) {
    let feed_rate = FoundFeedRate::of(rate.get() * feed_override.get().si());
    record
        .step("Feed rate as it runs", "vf = F × q")
        .with("F", "feed_rate", rate)
        .with("q", "feed_override", feed_override)
        .gives("feed_rate", feed_rate);
    let per_rev: uom::si::f64::Length = feed_rate.get() / result.spindle_speed.get();
    let feed_per_rev = FoundFeedPerRev::of(per_rev);
    record
        .step("Feed per turn", "f = vf / n")
        .with("vf", "feed_rate", feed_rate)
        .with("n", "spindle_speed", result.spindle_speed)
        .gives("feed_per_rev", feed_per_rev);
    let change = feed_override.get().si() / speed_override.get().si() - 1.0;
    let change = FoundDeviation::of(SiValue::from_si(change));
    record
        .step("Change of the chip by the overrides", "δ = q / s - 1")
        .with("q", "feed_override", feed_override)
        .with("s", "speed_override", speed_override)
        .gives("chip_change", change);
    if change.get().si() > 1e-9 {
        record.note(
            "chip_thickened",
            "A spindle that is slowed more than the feed takes thicker chips: tooth and motor bear more. Turn the feed \
             down with it.",
        );
    } else if change.get().si() < -1e-9 {
        record.note(
            "chip_thinned",
            "A feed that is turned down more than the spindle thins the chip: too thin, a tooth rubs.",
        );
    }
    result.feed_rate = Some(feed_rate);
    result.feed_per_rev = Some(feed_per_rev);
    result.chip_change = Some(change);
}

/// The feed is programmed a turn: it follows the spindle.
fn by_the_turn(feed: FeedPerRev, feed_override: Override, result: &mut AsRunResult, record: &mut Record) {
    let unit = feed.quantity().unit;
    let found = FoundFeedPerRev::stated(unit.of_si(feed.get().si() * feed_override.get().si()), unit);
    record
        .step("Feed per turn as it runs", "f = F × q")
        .with("F", "feed_per_rev", feed)
        .with("q", "feed_override", feed_override)
        .gives("feed_per_rev", found);
    let feed_rate = FoundFeedRate::of(found.get() * result.spindle_speed.get());
    record
        .step("Feed rate", "vf = f × n")
        .with("f", "feed_per_rev", found)
        .with("n", "spindle_speed", result.spindle_speed)
        .gives("feed_rate", feed_rate);
    let change = FoundDeviation::of(SiValue::from_si(feed_override.get().si() - 1.0));
    record
        .step("Change of the chip by the overrides", "δ = q - 1")
        .with("q", "feed_override", feed_override)
        .gives("chip_change", change);
    result.feed_rate = Some(feed_rate);
    result.feed_per_rev = Some(found);
    result.chip_change = Some(change);
}

fn tell_tooth(input: &AsRunInput, result: &mut AsRunResult, record: &mut Record) {
    let Some((teeth, feed)) = input.teeth.zip(result.feed_per_rev) else { return };
    let per_tooth = FoundFeedPerTooth::of(feed.get() / f64::from(teeth));
    record
        .step("Feed per tooth", "fz = f / z")
        .with("f", "feed_per_rev", feed)
        .with("z", "teeth", teeth)
        .gives("feed_per_tooth", per_tooth);
    result.feed_per_tooth = Some(per_tooth);
}
