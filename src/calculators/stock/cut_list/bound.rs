//! Lengths of bar that no plan can do without: the pieces' sum over what bars can hold, and pieces that cannot share a
//! bar (Martello and Toth 1990, bound L2).

use super::plan::{BarKind, PieceKind};
use std::collections::BTreeSet;

/// No plan at all.
pub const NONE: u64 = u64::MAX;

/// Sums of pieces followed to find how full a bar can be.
const MOST_SUMS: usize = 20_000;

/// What the bounds are computed from.
pub struct Bound {
    sizes: Vec<u64>,
    /// Room that pieces can fill and length of each kind of bar.
    bars: Vec<(u64, u64)>,
    /// The kinds of bar, the most room for its length first.
    by_value: Vec<usize>,
    /// What every length of bars is a multiple of.
    step: u64,
}

impl Bound {
    /// The bounds of pieces and bars.
    pub fn of(pieces: &[PieceKind], bars: &[BarKind]) -> Self {
        let widest = bars.iter().map(|bar| bar.room).max().unwrap_or(0);
        let sums = sums_of(pieces, widest);
        let fillable = |room: u64| sums.as_ref().and_then(|sums| sums.range(..=room).next_back()).copied();
        let rooms: Vec<(u64, u64)> =
            bars.iter().map(|bar| (fillable(bar.room).unwrap_or(bar.room), bar.length)).collect();
        let mut by_value: Vec<usize> = (0..bars.len()).collect();
        let cost = |at: &usize| rooms[*at].1 as f64 / rooms[*at].0.max(1) as f64;
        by_value.sort_by(|a, b| cost(a).total_cmp(&cost(b)));
        let step = bars.iter().fold(0, |step, bar| common_divisor(step, bar.length)).max(1);
        Self { sizes: pieces.iter().map(|piece| piece.size).collect(), bars: rooms, by_value, step }
    }

    /// The least length of bar for so many pieces of each kind from so many bars of each kind; [`NONE`] where they do
    /// not hold them.
    pub fn least(&self, counts: &[u32], stock: &[u32]) -> u64 {
        let sum = self.by_sum(counts, stock);
        if sum == NONE { NONE } else { sum.max(self.by_number(counts, stock)) }
    }

    /// All pieces melted together, in the bars that hold most for their length.
    fn by_sum(&self, counts: &[u32], stock: &[u32]) -> u64 {
        let mut left: u64 = self.sizes.iter().zip(counts).map(|(size, count)| size * u64::from(*count)).sum();
        let mut length = 0.0;
        for at in &self.by_value {
            let (room, each) = self.bars[*at];
            if left == 0 || room == 0 {
                continue;
            }
            let taken = left.min(room.saturating_mul(u64::from(stock[*at])));
            length += each as f64 * (taken as f64 / room as f64);
            left -= taken;
        }
        if left > 0 {
            return NONE;
        }
        // What rounding can add must not raise the bound.
        let steps = (length / self.step as f64 * (1.0 - 1e-12)).ceil();
        steps as u64 * self.step
    }

    /// Bars that pieces need because they cannot share one, each taken to be the shortest.
    fn by_number(&self, counts: &[u32], stock: &[u32]) -> u64 {
        let there = || self.bars.iter().zip(stock).filter(|(_, count)| **count > 0).map(|(bar, _)| *bar);
        let room = there().map(|(room, _)| room).max().unwrap_or(0);
        let shortest = there().map(|(_, length)| length).min().unwrap_or(0);
        let kinds = || self.sizes.iter().zip(counts).filter(|(_, count)| **count > 0);
        let bars = kinds().map(|(size, _)| *size).filter(|size| 2 * size <= room).chain([0]).map(|small| {
            let (mut alone, mut halves, mut free, mut rest) = (0u64, 0u64, 0u64, 0u64);
            for (size, count) in kinds() {
                let count = u64::from(*count);
                if *size + small > room {
                    alone += count;
                } else if 2 * size > room {
                    halves += count;
                    free += (room - size) * count;
                } else if *size >= small {
                    rest += size * count;
                }
            }
            alone + halves + rest.saturating_sub(free).div_ceil(room.max(1))
        });
        bars.max().unwrap_or(0).saturating_mul(shortest)
    }
}

/// Every sum of pieces up to `most`; none where they are too many.
fn sums_of(pieces: &[PieceKind], most: u64) -> Option<BTreeSet<u64>> {
    let mut sums = BTreeSet::from([0]);
    for piece in pieces {
        for _ in 0..u64::from(piece.count).min(most / piece.size.max(1)) {
            let more: Vec<u64> = sums.iter().map(|sum| sum + piece.size).take_while(|sum| *sum <= most).collect();
            let before = sums.len();
            sums.extend(more);
            if sums.len() > MOST_SUMS {
                return None;
            }
            if sums.len() == before {
                break;
            }
        }
    }
    Some(sums)
}

fn common_divisor(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { common_divisor(b, a % b) }
}
