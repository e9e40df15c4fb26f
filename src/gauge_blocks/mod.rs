//! Which gauge blocks are at hand, and the fewest of them that make a height: a set by name, the shop's own blocks, those
//! in use left out, wear blocks on both ends. Heights are counted in whole tenths of a nanometer, so that no sum is rounded.

mod stack;

pub use stack::{BlockStack, StackBlock, note_blocks, tell_blocks};

use crate::arithmetic::fewest::Sizes;
use crate::declared::{Asks, Gives};
use crate::quantity::{FoundFineDifference, GaugeSize, Unit, text};
use crate::reference::gauge_blocks::BlockSet;
use crate::refusal::{Code, Refusal, Wrong, rule_broken};
use crate::tell;
use crate::working::Record;
use validator::ValidationError;

/// The gauge blocks at hand, as a request states them.
#[derive(Clone, Debug, Default, Asks)]
pub struct BlocksAtHand {
    /// Set of gauge blocks, by its unit and the number of its pieces.
    #[label("Set of gauge blocks")]
    pub set: Option<BlockSet>,
    /// Sizes of your own blocks: besides the set, or alone where no set is named. A size listed twice is two blocks.
    #[label("Own blocks")]
    pub own: Option<Vec<GaugeSize>>,
    /// Sizes of blocks that are missing or in use.
    #[label("Missing or in use")]
    pub missing: Option<Vec<GaugeSize>>,
    /// Size of two wear blocks, one for each end of the stack; none if absent.
    #[label("Wear block on each end")]
    pub wear_block: Option<GaugeSize>,
    /// Most blocks in a stack, 1 to 12, wear blocks among them.
    #[absent("10", "A stack has at most ten blocks.")]
    #[label("Most blocks in a stack")]
    #[bounds(1, 12)]
    pub most_blocks: Option<u32>,
}

/// Most sizes of a list.
const MOST_SIZES: usize = 150;
/// Tenths of a nanometer in a meter.
const COUNTS: f64 = 1e10;

/// A length in whole tenths of a nanometer.
pub fn counts(meters: f64) -> i64 {
    (meters * COUNTS).round() as i64
}

/// The same back in meters.
pub fn meters(counts: i64) -> f64 {
    counts as f64 / COUNTS
}

/// A height as a request states it in `unit`.
pub fn said(height: i64, unit: Unit) -> String {
    format!("{} {}", text::full(text::tidy(unit.of_si(meters(height)))), unit.row().ascii)
}

impl BlocksAtHand {
    /// Refuses lists that are empty or too long, and numbers of blocks that no stack has.
    pub fn check(&self) -> Result<(), ValidationError> {
        for (field, list) in [("own", &self.own), ("missing", &self.missing)] {
            let good = if field == "own" { "0.1 in,0.2 in,0.35 in" } else { "0.05 in" };
            match list.as_deref() {
                Some([]) => {
                    let says = "No size is listed. Leave the field out, or list the blocks.";
                    return Err(rule_broken(Code::ValueEmpty, says, &[(field, good)]));
                }
                Some(list) if list.len() > MOST_SIZES => {
                    let says = "At most 150 sizes can be listed.";
                    return Err(rule_broken(Code::TooLarge, says, &[(field, good)]));
                }
                _ => {}
            }
        }
        if self.most_blocks.is_some_and(|most| !(1..=12).contains(&most)) {
            let says = "A stack has 1 to 12 blocks.";
            return Err(rule_broken(Code::ValueOutOfRange, says, &[("most_blocks", "10")]));
        }
        if self.wear_block.is_some() && self.most_blocks.is_some_and(|most| most < 3) {
            let says = "With a wear block on each end a stack has at least 3 blocks.";
            return Err(rule_broken(Code::Conflict, says, &[("most_blocks", "5"), ("wear_block", "leave out")]));
        }
        Ok(())
    }

    /// Whether any block is named.
    pub fn is_named(&self) -> bool {
        self.set.is_some() || self.own.is_some()
    }

    /// The fields that mean nothing without a set or own blocks, to be left out.
    pub fn without_blocks(&self) -> Vec<(&'static str, &'static str)> {
        let stated = crate::declared::stated!(self: missing, wear_block, most_blocks);
        if self.is_named() { Vec::new() } else { crate::declared::to_leave_out(&stated) }
    }

    /// The blocks to choose from: of `set`, where that is assumed for want of any, or of those named.
    pub fn rack(&self, assumed: Option<BlockSet>, record: &mut Record) -> Result<Rack, Refusal> {
        let set = self.set.or(assumed);
        let mut blocks = set.map(BlockSet::sizes).unwrap_or_default();
        blocks.extend(self.own.iter().flatten());
        for size in self.missing.iter().flatten() {
            let at = blocks.iter().position(|block| counts(block.si()) == counts(size.si()));
            let Some(at) = at else { return Err(not_there(size, &blocks)) };
            blocks.remove(at);
        }
        if let Some(set) = set {
            set.cite(record);
            if let (Some(wear), None) = (set.wear_block(), self.wear_block) {
                let wear = said(counts(wear.si()), wear.quantity().unit);
                record.note(
                    "wear_blocks",
                    format!("The two wear blocks of the set, {wear}, are not used. Give the wear block to put one on each end."),
                );
            }
        }
        let most = self.most_blocks(record) as usize;
        let sizes = Sizes::of(blocks.iter().map(|size| counts(size.si())).collect())?;
        Ok(Rack { blocks, sizes, wear: self.wear_block, most })
    }
}

/// A block to be left out that is not among those at hand.
fn not_there(size: &GaugeSize, blocks: &[GaugeSize]) -> Refusal {
    let unit = size.quantity().unit;
    let says =
        format!("There is no block of {} to leave out: it is not among those at hand.", said(counts(size.si()), unit));
    let off = |block: &&GaugeSize| (counts(block.si()) - counts(size.si())).abs();
    let nearest = blocks.iter().min_by_key(off).map(|block| said(counts(block.si()), block.quantity().unit));
    Refusal::one(Wrong::new("missing", Code::NotFound, says, nearest.unwrap_or_else(|| "leave out".to_owned())))
}

/// The blocks to choose from.
pub struct Rack {
    blocks: Vec<GaugeSize>,
    sizes: Sizes,
    wear: Option<GaugeSize>,
    most: usize,
}

impl Rack {
    /// The height of both wear blocks.
    fn worn(&self) -> i64 {
        self.wear.map_or(0, |wear| 2 * counts(wear.si()))
    }

    /// Most blocks beside wear blocks.
    fn most_of_set(&self) -> usize {
        self.most - if self.wear.is_some() { 2 } else { 0 }
    }

    /// The fewest blocks that make a height, the finest first, wear blocks aside.
    pub fn fewest(&self, height: i64) -> Result<Option<Vec<i64>>, Refusal> {
        self.sizes.fewest(height - self.worn(), self.most_of_set())
    }

    /// The same from the blocks that `taken` leaves.
    pub fn fewest_without(&self, height: i64, taken: &[i64]) -> Result<Option<Vec<i64>>, Refusal> {
        let mut left: Vec<i64> = self.blocks.iter().map(|size| counts(size.si())).collect();
        for size in taken {
            if let Some(at) = left.iter().position(|one| one == size) {
                left.swap_remove(at);
            }
        }
        Sizes::of(left)?.fewest(height - self.worn(), self.most_of_set())
    }

    /// The nearest heights that can be made, at or below and at or above a height.
    pub fn nearest(&self, height: i64) -> Result<(Option<i64>, Option<i64>), Refusal> {
        let (below, above) = self.sizes.nearest(height - self.worn(), self.most_of_set())?;
        Ok((below.map(|below| below + self.worn()), above.map(|above| above + self.worn())))
    }

    /// How many blocks a height takes that is refused only for their number.
    pub fn needs(&self, height: i64) -> Result<Option<usize>, Refusal> {
        let more = self.sizes.fewest(height - self.worn(), 12 - self.most + self.most_of_set())?;
        Ok(more.map(|taken| taken.len() + self.most - self.most_of_set()))
    }

    /// The block of a size, as the set or the list states it.
    fn block(&self, size: i64) -> GaugeSize {
        let known = self.blocks.iter().find(|block| counts(block.si()) == size);
        known.copied().unwrap_or(GaugeSize::stated(meters(size) * 1000.0, Unit::Millimetre))
    }
}
