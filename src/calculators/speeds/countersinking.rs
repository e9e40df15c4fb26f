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
    pub diameter: Size,
    /// Speed at the largest diameter, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Share of the drilling speed that is taken where the speed comes from the tables.
    #[absent(
        "25 percent",
        "A quarter of the drilling speed keeps most countersinks from chattering; up to a half is in use."
    )]
    pub speed_share: Option<Override>,
    /// Feed per turn wanted; from the feed tables if absent.
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
    /// The limits that do not allow the exact speed or the feed asked for.
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
            record.note("share_without_effect", "speed_share matters only where the speed comes from the tables.");
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
    const ABOUT: &'static str = "Spindle speed and feed for a countersink or counterbore: a share of the drilling speed \
        at the largest diameter it cuts, as the machine has it.";
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
