//! Speed of tapping and the feed that goes with it: kinematics; the feed is the thread's lead times the
//! turns, and nothing else.

use crate::calculators::prelude::*;
use crate::machine::{CutDiameter, Held, Limit, SetSpeed, SpeedOrWork, SpindleLimits, Tooling, Wanted};
use crate::reference::cutting_speeds::Operation;

/// The calculator.
pub struct Tapping;

choice! {
    /// How the tap is driven: by `hand` with a wrench, by a `tapping_head`, by the `reversing_spindle` of a manual machine, or `rigid` by a machine whose feed follows its spindle.
    TapDrive {
        /// With a wrench, the drive off.
        Hand = "hand",
        /// By a head that turns back and gives along the axis.
        TappingHead = "tapping_head",
        /// By a spindle that is turned back, fed by hand.
        ReversingSpindle = "reversing_spindle",
        /// By a feed that follows the spindle.
        Rigid = "rigid",
    }
}

const fn share(value: f64, place: &'static str) -> Constant {
    Constant { of: "constant:share_for_the_drive", value, source: "common_practice", place }
}

/// Fed by hand at a spindle that is turned back, 40 to 60 percent of the listed speed are in use.
const REVERSING: Constant = share(0.4, "tapping by a manual spindle at 40 to 60 percent of the listed speed");
/// In a tapping head, 70 to 100 percent.
const HEAD: Constant = share(0.7, "tapping by a tapping head at 70 to 100 percent of the listed speed");

impl TapDrive {
    /// The share of the listed speed, where it is not the whole.
    fn share(self) -> Option<&'static Constant> {
        match self {
            TapDrive::TappingHead => Some(&HEAD),
            TapDrive::ReversingSpindle => Some(&REVERSING),
            TapDrive::Hand | TapDrive::Rigid => None,
        }
    }
}

/// What the tapping calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct TappingInput {
    /// Designation of the thread, such as 1/4-20 UNC or M8.
    pub thread: Designation,
    /// How the tap is driven: hand, tapping_head, reversing_spindle or rigid.
    #[label("How the tap is driven")]
    #[absent(
        "reversing_spindle",
        "A manual machine with a reversing spindle is assumed, the slowest way under power; by hand no speed is needed."
    )]
    pub by: Option<TapDrive>,
    /// Speed at the thread's size, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// The speeds that the machine has.
    #[group]
    pub spindle: SpindleLimits,
}

/// What the tapping calculator gives.
#[derive(Debug, Gives)]
pub struct TappingResult {
    /// The speed; none by hand.
    #[group]
    pub speed: Option<SetSpeed>,
    /// Feed rate that the thread makes at that spindle speed; none by hand.
    pub feed_rate: Option<FoundFeedRate>,
    /// Feed per revolution, which is the lead of the thread.
    #[label("Feed per revolution")]
    pub feed_per_rev: FoundFeedPerRev,
    /// The limits that rule out the exact speed.
    pub limited_by: Vec<Limit>,
    /// How far the spindle speed is below the exact one.
    #[label("Speed below exact by")]
    pub speed_fall: Option<FoundPercentage>,
    /// A speed of a round feed rate.
    #[group]
    pub round: Option<RoundFeed>,
}

/// A speed whose feed rate is a round number.
#[derive(Debug, Gives)]
pub struct RoundFeed {
    /// A speed at or below the exact one whose feed rate is a round number; absent where the speeds of the machine are given.
    #[label("Speed for a round feed rate")]
    pub round_speed: FoundSpindleSpeed,
    /// That round feed rate.
    pub round_feed_rate: FoundFeedRate,
}

fn check(input: &TappingInput) -> Result<(), ValidationError> {
    if input.by != Some(TapDrive::Hand) {
        input.tooling().check()?;
    }
    input.spindle.check()
}

impl TappingInput {
    fn tooling(&self) -> Tooling {
        self.wanted.tooling(Operation::Tapping)
    }
}

/// The speed of tapping: as stated, or the share of the table's that the drive bears.
fn speed(input: &TappingInput, by: TapDrive, record: &mut Record) -> Result<Wanted, Refusal> {
    let wanted = input.tooling().speed(record)?;
    let Some(share) = by.share().filter(|_| !input.wanted.states_speed()) else { return Ok(wanted) };
    Ok(wanted.map(|listed| {
        let wanted = listed.times(share.value, "tapping_cutting_speed").of_another_operation();
        record
            .step("Cutting speed for the drive", "V = k × Vt")
            .constant("k", share)
            .with("Vt", listed.of, listed.speed)
            .gives(wanted.of, wanted.speed);
        wanted
    }))
}

/// The cautions, and what the drive asks of the hand.
fn warn(by: TapDrive, record: &mut Record) {
    if by == TapDrive::Hand {
        record.cautions(&[cautions::HAND_TAPPING, cautions::TAPPING]);
        record.note(
            "turn_and_break",
            "By hand there is no speed to set: use oil, turn the tap in about one turn, then back about half a turn to break \
             the chip. Where it turns hard, back it out and clear it.",
        );
        return;
    }
    record.cautions(&[cautions::POWER_TAPPING, cautions::TURNING_SPINDLE, cautions::TAPPING, cautions::SPEED_LIMIT]);
    record.note(
        "overrides_locked",
        "The feed rate is the lead times the spindle speed: leave both overrides at 100 percent, and make sure that the \
         spindle can stop and reverse at this speed.",
    );
    match by {
        TapDrive::TappingHead => record.note(
            "head_rating",
            "A tapping head has its own top speed and range of sizes: stay within them, and set its stop bar.",
        ),
        TapDrive::ReversingSpindle => record.note(
            "reverse_in_time",
            "Try first, clear of the work, how many turns the spindle coasts after you reverse it: the tap goes in by as many \
             leads. If that is too far, use the slowest speed, or tap by hand.",
        ),
        TapDrive::Hand | TapDrive::Rigid => {}
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
    record.look_up("Size", "from the designation").with("T", "thread", named()).gives("size", size);
    record
        .look_up("Lead", "the pitch in the designation, times its starts")
        .with("T", "thread", named())
        .gives("lead", lead);
    let unit = match thread.unit() {
        Unit::Inch => Unit::InchPerRev,
        _ => Unit::MillimetrePerRev,
    };
    let feed = FoundFeedPerRev::stated(text::tidy(basis.lead()), unit);
    record.step("Feed per revolution", "f = P").with("P", "lead", lead).gives("feed_per_rev", feed);
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
            "rounded down to two figures, not above the fastest speed",
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
    const ABOUT: &'static str = "Spindle speed to set for a tap on your machine, the feed rate for its lead, and a speed at \
        which that feed rate is a round number.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Try the thread with a plug gauge or the screw itself, and count the turns it goes in.";
    const WORDS: &'static str = "tap, thread, rigid tapping, rpm, lead, pitch, feed rate";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/4-20 tap in a 1018 winch bracket on the bench mill.":
            thread = "1/4-20 UNC", material = "1018", tool_material = "hss", by = "reversing_spindle",
            available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm";
        "An M8 tap in a pump cover of 6061, at any speed up to 600 rpm.":
            thread = "M8", material = "6061", tool_material = "hss", range_point = "low", slowest = "112 rpm",
            fastest = "600 rpm", may_exceed = "0 percent";
        "An M10 tap at 8 m/min.": thread = "M10", cutting_speed = "8 m/min", by = "rigid";
        "An M6 tap in a pump cover of 6061 in a tapping head, the spindle at 315 rpm.":
            thread = "M6", spindle_speed = "315 rpm", material = "6061", tool_material = "hss", by = "tapping_head";
        "A 5/16-18 tap in a winch handle, by hand.": thread = "5/16-18 UNC", by = "hand";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You tap {thread} by hand. How far does the tap go in with each turn?" => "feed_per_rev":
            { thread = "#10-24 UNC" | "1/4-20 UNC" | "5/16-18 UNC" | "3/8-16 UNC" | "1/2-13 UNC", by = "hand",
              units = "inch" }
            { thread = "M4" | "M6" | "M8" | "M10" | "M12", by = "hand", units = "metric" };
        1 "The tap for {thread} turns at {spindle_speed} in a tapping head. How fast does it go in?" => "feed_rate":
            { thread = "1/4-20 UNC" | "5/16-18 UNC" | "3/8-16 UNC", spindle_speed = "112 rpm" | "160 rpm" | "224 rpm",
              by = "tapping_head", units = "inch" }
            { thread = "M6" | "M8" | "M10" | "M12", spindle_speed = "112 rpm" | "160 rpm" | "224 rpm",
              by = "tapping_head", units = "metric" };
        2 "The tap for {thread} is to cut at {cutting_speed} on its outside diameter. How fast must the spindle turn?"
            => "exact_speed":
            { thread = "#10-32 UNF" | "1/4-20 UNC" | "5/16-18 UNC" | "3/8-16 UNC",
              cutting_speed = "10 ft/min" | "15 ft/min" | "20 ft/min", by = "tapping_head" }
            { thread = "M5" | "M6" | "M8" | "M10", cutting_speed = "4 m/min" | "5 m/min" | "6 m/min",
              by = "tapping_head" };
        2 "What cutting speed does the tap for {thread} have on its outside diameter at {spindle_speed}?" => "cutting_speed":
            { thread = "1/4-20 UNC" | "5/16-18 UNC" | "3/8-16 UNC" | "1/2-13 UNC", spindle_speed = "112 rpm" | "160 rpm",
              by = "reversing_spindle", units = "inch" }
            { thread = "M6" | "M8" | "M10" | "M12", spindle_speed = "112 rpm" | "160 rpm",
              by = "reversing_spindle", units = "metric" };
        3 "The tap for {thread} takes {cutting_speed}. You set the next slower of 112, 160, 224, 315, 450, 630, 900 and 1250 rpm. \
            How fast does the tap go in?" => "feed_rate":
            { thread = "1/4-20 UNC" | "5/16-18 UNC", cutting_speed = "15 ft/min" | "20 ft/min" | "25 ft/min",
              by = "tapping_head", units = "inch",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" }
            { thread = "M5" | "M6" | "M8", cutting_speed = "5 m/min" | "6 m/min" | "8 m/min",
              by = "tapping_head", units = "metric",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
    };
    type Input = TappingInput;
    type Output = TappingResult;
    const LEADS: &'static [&'static str] = &["spindle_speed", "feed_per_rev"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "a tap advances its lead in each turn");
        let by = input.by(record);
        warn(by, record);
        let tooling = input.tooling();
        tooling.warn(record);
        tooling.tell_unused_point(true, record);
        let (size, lead, feed_per_rev) = size_and_lead(&input.thread, record);
        if by == TapDrive::Hand {
            if input.wanted.states_speed() || input.spindle.available.is_some() {
                record.note(
                    "speed_without_effect",
                    "By hand, neither a speed nor the speeds of the machine change anything.",
                );
            }
            return Ok(TappingResult {
                speed: None,
                feed_rate: None,
                feed_per_rev,
                limited_by: Vec::new(),
                speed_fall: None,
                round: None,
            });
        }
        let across = CutDiameter { of: "size", size };
        let (speed, held): (SetSpeed, Held) = input.spindle.set(speed(input, by, record)?, across, record)?;
        let feed_rate = step!(record, "Feed rate", vf: feed_rate = P * n,
            P = lead, n = spindle_speed: speed.spindle_speed);
        let round = round(input, speed.exact_speed, lead, record);
        let speed_fall = speed.fall(record);
        Ok(TappingResult {
            speed: Some(speed),
            feed_rate: Some(feed_rate),
            feed_per_rev,
            limited_by: held.tell(None, record),
            speed_fall,
            round,
        })
    }
}
