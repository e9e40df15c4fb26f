//! Speed, feed and stock of reaming: kinematics, published speeds, and half the drilling speed where
//! none is published for reaming (US War Department, TM 1-420).

use crate::calculators::prelude::*;
use crate::machine::{Falls, Limit, SpeedOrWork, SpindleAndQuill, Stock, TurnSet, WantedSpeed};
use crate::reference::cutting_speeds::Operation;
use crate::shop::tell_reamer;

/// The calculator.
pub struct Reaming;

/// The share of the drilling speed where no reaming speed is published.
const HALF: Constant = Constant {
    of: "constant:share_of_drilling_speed",
    value: 0.5,
    source: "tm1_420",
    place: "paragraph 37, reaming at about half the drilling speed",
};

/// What the reaming calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct ReamingInput {
    /// Diameter of the reamer.
    #[label("Reamer diameter")]
    pub diameter: Size,
    /// Speed, work and tool.
    #[group]
    pub wanted: SpeedOrWork,
    /// Feed per revolution wanted; taken from the feed tables if absent.
    #[label("Feed per revolution")]
    pub feed_per_rev: Option<FeedPerRev>,
    /// The speeds that the machine has, and the feeds of its quill.
    #[group]
    pub machine: SpindleAndQuill,
}

/// What the reaming calculator gives.
#[derive(Debug, Gives)]
pub struct ReamingResult {
    /// What is set.
    #[group]
    pub set: TurnSet,
    /// The limits that rule out the exact speed or the feed asked for.
    pub limited_by: Vec<Limit>,
    /// How far what is set falls short.
    #[group]
    pub falls: Falls,
    /// The stock to leave.
    #[group]
    pub stock: Option<Stock>,
}

fn check(input: &ReamingInput) -> Result<(), ValidationError> {
    input.machine.check(&input.wanted.tooling(Operation::Reaming))
}

/// The cutting speed where it is published for drilling only.
fn half_of_drilling(drilling: WantedSpeed, record: &mut Record) -> WantedSpeed {
    let wanted = drilling.times(HALF.value, "reaming_cutting_speed");
    record
        .step("Cutting speed of reaming", "V = k × Vd")
        .constant("k", &HALF)
        .with("Vd", drilling.of, drilling.speed)
        .gives(wanted.of, wanted.speed);
    record.note(
        "half_of_drilling",
        "No reaming speed is published for this material and tool, so half the drilling speed is used. Shops use from a \
         third to two thirds.",
    );
    wanted
}

impl Calculator for Reaming {
    const ID: &'static str = "speeds/reaming";
    const TITLE: &'static str = "Reaming speed and feed";
    const ABOUT: &'static str = "Spindle speed and feed to set for a machine reamer on your machine, and the stock to leave \
        for it.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Try plug gauges at both ends: a bell mouth means that reamer and hole were not in line.";
    const WORDS: &'static str = "reamer, ream, stock, allowance, rpm, feed, fit, dowel";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2 in high-speed steel machine reamer finishes a bushing hole in a 1018 winch bracket on the bench mill.":
            diameter = "1/2 in", material = "1018", tool_material = "hss",
            available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm";
        "A 10 mm reamer in bearing bronze of a pump bush, within what the mill's quill has.":
            diameter = "10 mm", material = "c93200", tool_material = "hss", range_point = "low", slowest = "112 rpm",
            fastest = "630 rpm", may_exceed = "0 percent", fastest_feed = "250 mm/min",
            quill_feeds = "0.1 mm/rev,0.2 mm/rev,0.3 mm/rev";
        "A 6 mm reamer at a speed and a feed that are known.":
            diameter = "6 mm", cutting_speed = "10 m/min", feed_per_rev = "0.15 mm/rev";
        "An 8 mm reamer in 1018 on a drill press that runs at 250 rpm, with three feeds of the spindle.":
            diameter = "8 mm", spindle_speed = "250 rpm", material = "1018", tool_material = "hss",
            available_feeds = "0.1 mm/rev,0.2 mm/rev,0.3 mm/rev";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {diameter} reamer is to cut at {cutting_speed}. How fast must the spindle turn?" => "exact_speed":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in" | "3/4 in", cutting_speed = "30 ft/min" | "40 ft/min" | "50 ft/min" }
            { diameter = "6 mm" | "7 mm" | "10 mm" | "12 mm", cutting_speed = "8 m/min" | "10 m/min" | "12 m/min" };
        1 "A {diameter} machine reamer finishes a bushing hole. What is the least stock the chart leaves on the diameter?"
            => "stock_low":
            { diameter = "3/16 in" | "1/4 in" | "3/8 in" | "1/2 in" | "5/8 in" | "3/4 in" | "1 in",
              cutting_speed = "40 ft/min", units = "inch" };
        2 "You machine-ream to {diameter}. By the chart of reaming stock, what is the largest hole you may drill first?"
            => "drill_high":
            { diameter = "3/16 in" | "1/4 in" | "3/8 in" | "1/2 in" | "5/8 in" | "3/4 in" | "1 in",
              cutting_speed = "40 ft/min", units = "inch" };
        2 "A {diameter} reamer takes {cutting_speed}. The mill has 112, 160, 224, 315, 450, 630, 900 and 1250 rpm, and you \
            do not go over. Which do you set?" => "spindle_speed":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in" | "3/4 in", cutting_speed = "30 ft/min" | "40 ft/min" | "50 ft/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" }
            { diameter = "6 mm" | "7 mm" | "10 mm" | "12 mm", cutting_speed = "8 m/min" | "10 m/min" | "12 m/min",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
        3 "A {diameter} reamer takes {cutting_speed} and {feed_per_rev}. You set the next slower of 112, 160, 224, 315, \
            450, 630, 900 and 1250 rpm. How fast does it go down?" => "feed_rate":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in", cutting_speed = "30 ft/min" | "40 ft/min",
              feed_per_rev = "0.006 in/rev" | "0.01 in/rev", units = "inch",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" }
            { diameter = "6 mm" | "7 mm" | "10 mm", cutting_speed = "8 m/min" | "10 m/min",
              feed_per_rev = "0.15 mm/rev" | "0.2 mm/rev", units = "metric",
              available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm" };
    };
    type Input = ReamingInput;
    type Output = ReamingResult;

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("kinematics", "cutting speed and feed rate of a turning tool");
        record.cautions(&[cautions::TURNING_SPINDLE, cautions::REAMING, cautions::SPEED_LIMIT]);
        let tooling = input.wanted.tooling(Operation::Reaming);
        tooling.warn(record);
        let size = input.diameter;
        tell_reamer(&size, record);
        let wanted = tooling.speed_or(Operation::Drilling, half_of_drilling, record)?;
        let across = Some(size.get().si());
        let feed = tooling.feed(input.feed_per_rev, "feed_per_rev", Operation::Reaming, across, record);
        let (set, held, falls) = input.machine.set(wanted, size.into(), feed, record)?;
        let stock = Stock::for_machine(size, record);
        Ok(ReamingResult { set, limited_by: held.tell(None, record), falls, stock })
    }
}
