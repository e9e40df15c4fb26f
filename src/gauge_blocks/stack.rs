//! A stack of gauge blocks as an answer has it, and its steps: the last digit first, as one does it by hand.

use super::{BlocksAtHand, FoundFineDifference, Gives, Rack, Record, Refusal, counts, meters, tell};
use crate::quantity::FoundGaugeSize;

/// A block of a stack.
#[derive(Clone, Copy, Debug, Gives)]
pub struct StackBlock {
    /// Number of the block, from the bottom.
    #[label("Block")]
    pub number: u32,
    /// Its size.
    pub size: FoundGaugeSize,
}

/// A stack of gauge blocks.
#[derive(Clone, Debug, Gives)]
pub struct BlockStack {
    /// The blocks from the bottom up: the thickest at the bottom, wear blocks on both ends.
    #[label("Blocks", "block")]
    pub blocks: Vec<StackBlock>,
    /// How many blocks the stack has.
    #[label("Number of blocks")]
    pub block_count: u32,
    /// Height of the blocks together.
    #[label("Height of the blocks")]
    pub stack_height: FoundGaugeSize,
}

/// What the steps call the block taken, and what it leaves, one after the other.
const TAKEN: [(&str, &str, &str); 12] = [
    ("block_1", "left_1", "b1"),
    ("block_2", "left_2", "b2"),
    ("block_3", "left_3", "b3"),
    ("block_4", "left_4", "b4"),
    ("block_5", "left_5", "b5"),
    ("block_6", "left_6", "b6"),
    ("block_7", "left_7", "b7"),
    ("block_8", "left_8", "b8"),
    ("block_9", "left_9", "b9"),
    ("block_10", "left_10", "b10"),
    ("block_11", "left_11", "b11"),
    ("block_12", "left_12", "b12"),
];

const RULE: &str = "the fewest blocks that make the height; the last digit goes first";

/// The blocks `taken` from the bottom up, with the wear blocks.
fn from_the_bottom(rack: &Rack, taken: &[i64]) -> Vec<StackBlock> {
    let mut sizes = taken.to_vec();
    sizes.sort_unstable_by(|a, b| b.cmp(a));
    let mut sizes: Vec<FoundGaugeSize> = sizes.into_iter().map(|size| rack.block(size).found()).collect();
    if let Some(wear) = rack.wear {
        sizes.insert(0, wear.found());
        sizes.push(wear.found());
    }
    sizes.into_iter().zip(1..).map(|(size, number)| StackBlock { number, size }).collect()
}

/// The stack of the blocks `taken` for a height that they make; its steps begin at `wanted`, the field of that height.
pub fn tell_blocks(
    (at_hand, rack): (&BlocksAtHand, &Rack),
    wanted: &'static str,
    (height, taken): (i64, &[i64]),
    record: &mut Record,
) -> BlockStack {
    let stack_height = FoundGaugeSize::of_si(meters(height));
    let whole = FoundFineDifference::of_si(meters(height));
    let (mut from, mut left) = (wanted, height);
    if let Some(wear_block) = at_hand.wear_block {
        left = height - 2 * counts(wear_block.si());
        let between = FoundFineDifference::of_si(meters(left));
        tell!(record.step("Left between the wear blocks", "l = h - 2 × w"), h = (wanted): whole, w = wear_block
            => between_wear_blocks: between);
        from = "between_wear_blocks";
    }
    let mut draft = Vec::with_capacity(taken.len());
    for (size, (block, after, symbol)) in taken.iter().zip(TAKEN) {
        let what = if *size == left { "Block for the rest" } else { "Block for the last digits of what is left" };
        let found = rack.block(*size).found();
        tell!(record.look_up(what, RULE) => (block): found);
        let before = FoundFineDifference::of_si(meters(left));
        left -= size;
        let rest = FoundFineDifference::of_si(meters(left));
        tell!(record.step("Left over it", "r = l - b"), l = (from): before, b = (block): found => (after): rest);
        from = after;
        draft.push((symbol, block, found));
    }
    let blocks = from_the_bottom(rack, taken);
    let mut choice = record.choose("The stack from the bottom up", "the thickest first, wear blocks outermost");
    for (symbol, block, found) in draft {
        choice = choice.with(symbol, block, found);
    }
    if let Some(wear_block) = at_hand.wear_block {
        choice = choice.with("w", "wear_block", wear_block);
    }
    tell!(choice => blocks.size);
    tell!(record.look_up("Numbers of the blocks", "from the bottom up") => blocks.number);
    let block_count = blocks.len() as u32;
    tell!(record.step("Number of blocks", "n = greatest(i)"), i = blocks.number => block_count);
    tell!(record.step("Height of the blocks", "s = sum(b)"), b = blocks.size => stack_height);
    BlockStack { blocks, block_count, stack_height }
}

impl Rack {
    /// A second stack of the same height from the blocks that are left; none where there is none.
    pub fn second(&self, height: i64, taken: &[i64]) -> Result<Vec<StackBlock>, Refusal> {
        let second = self.fewest_without(height, taken)?;
        Ok(second.map(|taken| from_the_bottom(self, &taken)).unwrap_or_default())
    }
}

/// What every answer with a stack says.
pub fn note_blocks(record: &mut Record) {
    record.note(
        "wringing",
        "Clean the blocks, wring them, and let blocks and work come to 20 °C together. Each block adds its own deviation: \
         for close work take it from the certificate.",
    );
}
