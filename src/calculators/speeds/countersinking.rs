//! Speed and feed of countersinking: a share of the drilling speed at the largest diameter cut, which
//! is common practice against chatter.

use crate::calculators::prelude::*;
use crate::machine::{Falls, Limit, SpeedOrWork, SpindleAndQuill, Tooling, TurnSet, Wanted};
use crate::reference::cutting_speeds::Operation;

/// The calculator.
pub struct Countersinking;

/// What the countersinking calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct CountersinkingInput {
    /// Largest diameter that is cut.
    #[label("Largest diameter cut")]
    pub diameter: Size,
    /// Speed at the largest diameter, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Share of the drilling speed to use where the speed comes from the tables.
    #[label("Share of drilling speed")]
    #[absent(
        "25 percent",
        "A quarter of the drilling speed keeps most countersinks from chattering; shops use up to a half."
    )]
    pub speed_share: Option<Override>,
    /// Feed per revolution wanted; taken from the feed tables if absent.
    #[label("Feed per revolution")]
    pub feed_per_rev: Option<FeedPerRev>,
    /// The speeds that the machine has, and the feeds of its quill.
    #[group]
    pub machine: SpindleAndQuill,
}

/// What the countersinking calculator gives.
#[derive(Debug, Gives)]
pub struct CountersinkingResult {
    /// What is set.
    #[group]
    pub set: TurnSet,
    /// The limits that rule out the exact speed or the feed asked for.
    pub limited_by: Vec<Limit>,
    /// How far what is set falls short.
    #[group]
    pub falls: Falls,
}

fn check(input: &CountersinkingInput) -> Result<(), ValidationError> {
    input.machine.check(&input.tooling())
}

impl CountersinkingInput {
    fn tooling(&self) -> Tooling {
        self.wanted.tooling(Operation::Drilling)
    }
}

fn speed(input: &CountersinkingInput, record: &mut Record) -> Result<Wanted, Refusal> {
    let wanted = input.tooling().speed(record)?;
    if input.wanted.states_speed() {
        // What is published is for drilling.
        let wanted = match wanted {
            Wanted::Cutting(stated) => Wanted::Cutting(stated.of_another_operation()),
            Wanted::Turns(turns, _) => Wanted::Turns(turns, None),
        };
        if input.speed_share.is_some() {
            record.note(
                "share_without_effect",
                "The share of the drilling speed changes nothing here, because the speed is given.",
            );
        }
        return Ok(wanted);
    }
    record.source("common_practice", "countersinking at a quarter to a half of the drilling speed");
    let share = input.speed_share(record);
    Ok(wanted.map(|drilling| {
        let wanted = drilling.times(share.get().si(), "countersinking_cutting_speed").of_another_operation();
        record
            .step("Cutting speed of countersinking", "V = k × Vd")
            .with("k", "speed_share", share)
            .with("Vd", drilling.of, drilling.speed)
            .gives(wanted.of, wanted.speed);
        wanted
    }))
}

impl Calculator for Countersinking {
    const ID: &'static str = "speeds/countersinking";
    const TITLE: &'static str = "Countersinking speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed to set for a countersink or counterbore on your machine: a share of \
        the drilling speed at the largest diameter it cuts.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str = "Put the screw in and feel across its head with a straightedge.";
    const WORDS: &'static str = "countersink, counterbore, chamfer, deburr, chatter, rpm, spot face, flat head";
    const EXAMPLES: &'static [Example] = examples! {
        "A countersink opens a hole in a 1018 winch plate to 3/4 in on the bench mill.":
            diameter = "3/4 in", material = "1018", tool_material = "hss",
            available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm";
        "A 12 mm countersink in 6061 covers of a pump at a half of the drilling speed.":
            diameter = "12 mm", material = "6061", tool_material = "hss", range_point = "middle",
            speed_share = "50 percent", slowest = "112 rpm", fastest = "1250 rpm", may_exceed = "10 percent",
            fastest_feed = "300 mm/min", quill_feeds = "0.1 mm/rev,0.2 mm/rev";
        "A counterbore of 18 mm at a speed and a feed that are known.":
            diameter = "18 mm", cutting_speed = "8 m/min", feed_per_rev = "0.1 mm/rev";
        "A 20 mm countersink in 1018 at 112 rpm, with two feeds of the spindle.":
            diameter = "20 mm", spindle_speed = "112 rpm", material = "1018", tool_material = "hss",
            available_feeds = "0.1 mm/rev,0.2 mm/rev";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A countersink opens a hole to {diameter} at {cutting_speed}. How fast must the spindle turn?"
            => "exact_speed":
            { diameter = "3/8 in" | "1/2 in" | "5/8 in" | "3/4 in", cutting_speed = "20 ft/min" | "25 ft/min" | "30 ft/min" }
            { diameter = "10 mm" | "12 mm" | "16 mm" | "20 mm", cutting_speed = "6 m/min" | "8 m/min" | "10 m/min" };
        1 "A {diameter} countersink turns at {spindle_speed} and feeds {feed_per_rev}. How fast does it go down?"
            => "feed_rate":
            { diameter = "1/2 in" | "3/4 in", spindle_speed = "112 rpm" | "160 rpm" | "224 rpm",
              feed_per_rev = "0.003 in/rev" | "0.004 in/rev" | "0.005 in/rev", units = "inch" }
            { diameter = "12 mm" | "20 mm", spindle_speed = "112 rpm" | "160 rpm" | "224 rpm",
              feed_per_rev = "0.08 mm/rev" | "0.1 mm/rev" | "0.15 mm/rev", units = "metric" };
        2 "A countersink cuts to {diameter} at {cutting_speed}, a quarter of the drilling speed. Which of 112, 160, 224, \
            315, 450, 630, 900 and 1250 rpm do you set without going over?" => "spindle_speed":
            { diameter = "3/8 in" | "1/2 in" | "5/8 in", cutting_speed = "20 ft/min" | "25 ft/min" | "30 ft/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" }
            { diameter = "10 mm" | "12 mm" | "16 mm", cutting_speed = "6 m/min" | "8 m/min" | "10 m/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
        3 "A countersink chatters at {spindle_speed}, cutting to {diameter}. What cutting speed does it have at its rim?"
            => "cutting_speed":
            { diameter = "1/2 in" | "5/8 in" | "3/4 in", spindle_speed = "315 rpm" | "450 rpm" | "630 rpm", units = "inch" }
            { diameter = "12 mm" | "16 mm" | "20 mm", spindle_speed = "315 rpm" | "450 rpm" | "630 rpm",
              units = "metric" };
    };
    type Input = CountersinkingInput;
    type Output = CountersinkingResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed and feed rate of a turning tool");
        record.cautions(&[cautions::TURNING_SPINDLE, cautions::COUNTERSINKING, cautions::SPEED_LIMIT]);
        let tooling = input.tooling();
        tooling.warn(record);
        let wanted = speed(input, record)?;
        let across = Some(input.diameter.get().si());
        let feed = tooling.feed(input.feed_per_rev, "feed_per_rev", Operation::Countersinking, across, record);
        let (set, held, falls) = input.machine.set(wanted, input.diameter.into(), feed, record)?;
        Ok(CountersinkingResult { set, limited_by: held.tell(None, record), falls })
    }
}
