//! The fewest gauge blocks that make a height, from a set or the shop's own, and a second stack from what is left: sums of
//! whole numbers, checked against the least number for every height.

mod drawing;

use crate::calculators::prelude::*;
use crate::gauge_blocks::{BlockStack, BlocksAtHand, Rack, StackBlock, counts, meters, note_blocks, said, tell_blocks};
use crate::reference::gauge_blocks::BlockSet;

/// The calculator.
pub struct GaugeBlocks;

/// What the gauge block calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct GaugeBlocksInput {
    /// Height that the stack should have.
    #[label("Height wanted")]
    pub height: GaugeSize,
    /// The blocks at hand; if no set and no own block is named, the set of 81 for a height in inches, of 87 for one in millimeters.
    #[group]
    pub at_hand: BlocksAtHand,
}

/// What the gauge block calculator gives.
#[derive(Debug, Gives)]
pub struct GaugeBlocksResult {
    /// The stack.
    #[group]
    pub stack: BlockStack,
    /// A second stack of the same height, from the blocks that the first leaves; empty where they make none.
    #[label("Second stack", "block of the second stack")]
    pub second_blocks: Vec<StackBlock>,
}

fn check(input: &GaugeBlocksInput) -> Result<(), ValidationError> {
    input.at_hand.check()
}

impl Calculator for GaugeBlocks {
    const ID: &'static str = "geometry/gauge-blocks";
    const TITLE: &'static str = "Gauge block stack";
    const ABOUT: &'static str = "The fewest gauge blocks of a set that make a height, from the bottom up, and a second stack \
        of the same height from what is left.";
    const TASK: Task = Task::Check;
    // Blocks on a plate; no machine is set.
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Add the sizes marked on the blocks, then measure the wrung stack with a \
        micrometer: it shows a wrong block at once.";
    const WORDS: &'static str = "gage blocks, gauge blocks, slip gauges, jo blocks, stack, wringing, wring, build up, \
        wear blocks, set of 81, set of 88";
    const EXAMPLES: &'static [Example] = examples! {
        "A height gauge is set to 1.3787 in for a winch bracket, with the 81-piece set.":
            height = "1.3787 in", set = "inch_81";
        "A pump cover is checked at 58.345 mm with the 112-piece set.": height = "58.345 mm", set = "metric_112";
        "A stack of 2.1437 in with wear blocks for an anvil that is often slid over; the 0.1007 in block is away.":
            height = "2.1437 in", set = "inch_83", wear_block = "0.05 in", missing = "0.1007 in", most_blocks = "8";
        "What is left of an old set makes 52.215 mm under a mill beam, between two 2 mm wear blocks.":
            height = "52.215 mm", own = "1.005 mm,1.01 mm,1.5 mm,2.2 mm,3 mm,4 mm,10 mm,20 mm,40 mm", wear_block = "2 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You wring up {height} with the 81-piece set. How many blocks at the least?" => "block_count":
            { height = "0.375 in" | "1.25 in" | "0.6254 in" | "1.3787 in" | "2.108 in", set = "inch_81" };
        1 "A stack of {height} from the 87-piece metric set: how many blocks at the least?" => "block_count":
            { height = "12.5 mm" | "26.38 mm" | "41.125 mm" | "58.345 mm", set = "metric_87" };
        2 "You build {height} with as few blocks of the 81-piece set as will do. Which one lies at the bottom?"
            => "blocks/0/size":
            { height = "1.3787 in" | "2.6254 in" | "3.125 in" | "1.0625 in", set = "inch_81" };
        2 "You build {height} with as few blocks of the 112-piece set as will do. Which one lies at the bottom?"
            => "blocks/0/size":
            { height = "58.345 mm" | "81.5 mm" | "37.26 mm", set = "metric_112" };
        3 "A stack of {height} has a wear block of {wear_block} on each end. How many blocks are in it, those two too?"
            => "block_count":
            { height = "1.3787 in" | "2.25 in" | "0.6254 in", wear_block = "0.05 in", set = "inch_83" }
            { height = "30.5 mm" | "58.345 mm" | "22.74 mm", wear_block = "2 mm", set = "metric_87" };
    };
    type Input = GaugeBlocksInput;
    type Output = GaugeBlocksResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("npl_gauge_block_faq", "the last digit first");
        let assumed = (!input.at_hand.is_named()).then(|| assumed_set(input.height, record));
        let rack = input.at_hand.rack(assumed, record)?;
        let height = counts(input.height.si());
        // What is finer than the blocks are counted in is refused like any height that they do not make.
        let is_whole = (meters(height) - input.height.si()).abs() < 1e-13;
        let Some(taken) = (if is_whole { rack.fewest(height)? } else { None }) else {
            return Err(refuse(input, &rack, (height, is_whole))?);
        };
        let stack = tell_blocks((&input.at_hand, &rack), "height", (height, &taken), record);
        let second_blocks = rack.second(height, &taken)?;
        if second_blocks.is_empty() {
            record.note("no_second_stack", "The blocks that are left make no second stack of this height.");
        } else {
            let rule = "the same from the blocks that the first stack leaves";
            tell!(record.look_up("Second stack from the bottom up", rule) => second_blocks.size);
            tell!(record.look_up("Numbers of its blocks", "from the bottom up") => second_blocks.number);
            if input.at_hand.wear_block.is_some() {
                record.note("four_wear_blocks", "Both stacks together take four wear blocks.");
            }
        }
        note_blocks(record);
        Ok(GaugeBlocksResult { stack, second_blocks })
    }
}

/// The set that is assumed, one that larger sets hold too.
fn assumed_set(height: GaugeSize, record: &mut Record) -> BlockSet {
    let (set, says) = if height.quantity().unit.system() == Some(System::Metric) {
        (BlockSet::Metric87, "No set is named, so one of 87 is assumed. A set of 88 has all its blocks.")
    } else {
        (BlockSet::Inch81, "No set is named, so one of 81 is assumed. A set of 83 has all its blocks.")
    };
    record.assume("set", &set, says);
    set
}

/// The refusal of a height that the blocks do not make, with the nearest ones that they do.
fn refuse(input: &GaugeBlocksInput, rack: &Rack, (height, is_whole): (i64, bool)) -> Result<Refusal, Refusal> {
    let unit = input.height.quantity().unit;
    if is_whole && let Some(needs) = rack.needs(height)? {
        let says = format!("This height takes {needs} blocks. Allow as many, or name another set.");
        return Ok(Refusal::no_answer(&says, &[("most_blocks", needs.to_string())]));
    }
    let (below, above) = rack.nearest(height)?;
    let asked = crate::machine::as_stated(&input.height);
    let (says, good) = match (below.map(|below| said(below, unit)), above.map(|above| said(above, unit))) {
        (Some(below), Some(above)) if below == above => {
            (format!("These blocks make no stack of {asked}. The nearest is {below}."), below)
        }
        (Some(below), Some(above)) => {
            (format!("These blocks make no stack of {asked}. The nearest are {below} and {above}."), below)
        }
        (Some(below), None) => {
            (format!("These blocks make no stack of {asked}. The highest they make is {below}."), below)
        }
        (None, Some(above)) => {
            (format!("These blocks make no stack of {asked}. The lowest they make is {above}."), above)
        }
        (None, None) => (format!("These blocks make no stack of {asked}. Name another set."), "leave out".to_owned()),
    };
    let field = if below.or(above).is_some() { "height" } else { "own" };
    Ok(Refusal::no_answer(&says, &[(field, good)]))
}
