//! Speed of tapping and the feed that goes with it: kinematics; the feed is the thread's lead times the
//! turns, and nothing else.

use crate::calculators::prelude::*;
use crate::machine::{CutDiameter, Limit, SetSpeed, SpindleLimits, Tooling, WorkAndTool};
use crate::reference::cutting_speeds::Operation;

/// The calculator.
pub struct Tapping;

/// What the tapping calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct TappingInput {
    /// Designation of the thread, such as 1/4-20 UNC or M8.
    pub thread: Designation,
    /// Cutting speed wanted at the thread's size; from the tables for material and tool_material if absent.
    pub cutting_speed: Option<CuttingSpeed>,
    /// The work and the tool.
    #[group]
    pub work: WorkAndTool,
    /// The speeds that the machine has.
    #[group]
    pub spindle: SpindleLimits,
}

/// What the tapping calculator gives.
#[derive(Debug, Gives)]
pub struct TappingResult {
    /// The speed.
    #[group]
    pub speed: SetSpeed,
    /// Feed rate that the thread makes at that spindle speed.
    pub feed_rate: FoundFeedRate,
    /// Feed per turn: the lead of the thread.
    pub feed_per_rev: FoundFeedPerRev,
    /// The limits that do not allow the exact speed.
    pub limited_by: Vec<Limit>,
    /// By how much the spindle speed is below the exact one.
    pub speed_fall: Option<FoundPercentage>,
    /// A speed of a round feed rate.
    #[group]
    pub round: Option<RoundFeed>,
}

/// A speed whose feed rate is a round number.
#[derive(Debug, Gives)]
pub struct RoundFeed {
    /// A speed at or below the exact one whose feed rate is a round number; absent where the machine has steps.
    pub round_speed: FoundSpindleSpeed,
    /// That round feed rate.
    pub round_feed_rate: FoundFeedRate,
}

fn check(input: &TappingInput) -> Result<(), ValidationError> {
    input.tooling().check(None)?;
    input.spindle.check()
}

impl TappingInput {
    fn tooling(&self) -> Tooling {
        self.work.tooling(self.cutting_speed, Operation::Tapping)
    }
}

/// Size and lead, with their steps.
fn size_and_lead(thread: &Designation, record: &mut Record) -> (Size, FoundSize, FoundFeedPerRev) {
    let basis = &thread.thread;
    if let Some(provenance) = basis.provenance {
        record.source_of_row(provenance.source, format!("series, {}", basis.designation), provenance.trust);
    }
    let size = Size::stated(basis.diameter, thread.unit());
    let lead = FoundSize::stated(text::tidy(basis.lead()), thread.unit());
    let named = || thread.text();
    record.look_up("Size", "as the designation says it").with("T", "thread", named()).gives("size", size);
    record
        .look_up("Lead", "the pitch that the designation says, times its starts")
        .with("T", "thread", named())
        .gives("lead", lead);
    let unit = match thread.unit() {
        Unit::Inch => Unit::InchPerRev,
        _ => Unit::MillimetrePerRev,
    };
    let feed = FoundFeedPerRev::stated(text::tidy(basis.lead()), unit);
    record.step("Feed per turn", "f = P").with("P", "lead", lead).gives("feed_per_rev", feed);
    (size, lead, feed)
}

/// A speed whose feed rate is a round number.
fn round(input: &TappingInput, exact: FoundSpindleSpeed, lead: FoundSize, record: &mut Record) -> Option<RoundFeed> {
    let fastest = input.spindle.fastest.map_or(f64::INFINITY, |fastest| fastest.get().si());
    if input.spindle.available.is_some() {
        return None;
    }
    let unit = match input.thread.unit() {
        Unit::Inch => Unit::InchPerMinute,
        _ => Unit::MillimetrePerMinute,
    };
    let greatest = unit.of_si(lead.get().si() * exact.get().si().min(fastest));
    let place = 10f64.powi(greatest.log10().floor() as i32 - 1);
    // A double's rounding must not take a whole place off.
    let rate = text::tidy((greatest / place * (1.0 + 1e-12)).floor() * place);
    let round_feed_rate = FoundFeedRate::stated(rate, unit);
    if input.spindle.slowest.is_some_and(|slowest| round_feed_rate.get() / lead.get() < slowest.get()) {
        return None;
    }
    record
        .look_up(
            "A round feed rate at or below that of the exact speed",
            "cut to two figures, not above the fastest speed",
        )
        .with("n", "exact_speed", exact)
        .with("P", "lead", lead)
        .gives("round_feed_rate", round_feed_rate);
    let round_speed = step!(record, "Its spindle speed",
        n: round_speed = vf / P, vf = round_feed_rate, P = lead);
    Some(RoundFeed { round_speed, round_feed_rate })
}

impl Calculator for Tapping {
    const ID: &'static str = "speeds/tapping";
    const TITLE: &'static str = "Tapping speed and feed";
    const ABOUT: &'static str = "Spindle speed for a tap, as the machine has it, the feed rate that its lead makes, and \
        a speed at which that feed rate is a round number.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Try the thread with a plug gauge or with the screw itself, and count the turns it goes in.";
    const WORDS: &'static str = "tap, thread, rigid tapping, rpm, lead, pitch, feed rate";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/4-20 tap in a 1018 winch bracket on the bench mill.":
            thread = "1/4-20 UNC", material = "1018", tool_material = "hss",
            available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm";
        "An M8 tap in a pump cover of 6061, at any speed up to 600 rpm.":
            thread = "M8", material = "6061", tool_material = "hss", range_point = "low", slowest = "112 rpm",
            fastest = "600 rpm", may_exceed = "0 percent";
        "An M10 tap at 8 m/min.": thread = "M10", cutting_speed = "8 m/min";
    };
    type Input = TappingInput;
    type Output = TappingResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "a tap advances its lead in each turn");
        for caution in [cautions::STARTING_POINT, cautions::TURNING_SPINDLE, cautions::TAPPING, cautions::SPEED_LIMIT] {
            record.caution(caution);
        }
        record.note(
            "overrides_locked",
            "The feed is the lead times the turns: feed and spindle overrides stay at 100 percent, and the spindle must \
             be able to stop and turn back at this speed.",
        );
        let tooling = input.tooling();
        tooling.warn(record);
        let (size, lead, feed_per_rev) = size_and_lead(&input.thread, record);
        let across = CutDiameter { of: "size", size };
        let wanted = tooling.speed(record)?;
        let (speed, held) = input.spindle.set(wanted, across, record)?;
        let feed_rate = step!(record, "Feed rate", vf: feed_rate = P * n,
            P = lead, n = spindle_speed: speed.spindle_speed);
        let round = round(input, speed.exact_speed, lead, record);
        let speed_fall = speed.fall(record);
        Ok(TappingResult { speed, feed_rate, feed_per_rev, limited_by: held.tell(None, record), speed_fall, round })
    }
}
