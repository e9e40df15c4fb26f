//! Compound trains in the order of how near they come to a ratio: products of two gears are sorted once, and for each
//! two drivers the driven ones are gone through outwards from where the ratio would be met.

use std::cmp::Ordering;
use std::collections::BinaryHeap;
use std::collections::binary_heap::PeekMut;

/// How far a ratio is off, in units below which errors differ by rounding alone.
pub fn off((driving, driven): (u32, u32), wanted: f64) -> f64 {
    (error((driving, driven), wanted).abs() * 1e13).round()
}

/// How far a ratio is off, as a share.
fn error((driving, driven): (u32, u32), wanted: f64) -> f64 {
    f64::from(driving) / f64::from(driven) / wanted - 1.0
}

/// Two gears that are owned, the smaller first.
pub struct Pair {
    /// Their teeth multiplied.
    pub product: u32,
    /// Their teeth.
    pub wheels: (u32, u32),
}

/// Every two gears by their product, those with as many teeth once.
pub fn pairs(gears: &[u32]) -> Vec<Pair> {
    let mut gears = gears.to_vec();
    gears.sort_unstable();
    let from = |at: usize| gears[at + 1..].iter().map(move |other| (at, *other));
    let all = (0..gears.len()).flat_map(from).map(|(at, b)| Pair { product: gears[at] * b, wheels: (gears[at], b) });
    let mut all: Vec<Pair> = all.collect();
    all.sort_unstable_by_key(|pair| (pair.product, pair.wheels));
    all.dedup_by_key(|pair| pair.wheels);
    all
}

/// Compound trains, the nearest to a ratio first: for each two drivers the driven ones outwards from where the ratio
/// would be met.
pub struct Search<'p> {
    pairs: &'p [Pair],
    wanted: f64,
    next: BinaryHeap<Next>,
}

/// A train found.
pub struct Found {
    /// How far it is off.
    pub off: f64,
    /// Its drivers.
    pub drivers: (u32, u32),
    /// Its driven gears.
    pub driven: (u32, u32),
}

/// The next train of two drivers in one direction.
struct Next {
    off: f64,
    drivers: usize,
    driven: usize,
    /// Towards larger driven gears.
    rising: bool,
}

impl<'p> Search<'p> {
    /// Trains of these that are no further off than `reach`, at first; what follows on them may be.
    pub fn of(pairs: &'p [Pair], wanted: f64, reach: f64) -> Self {
        let mut search = Self { pairs, wanted, next: BinaryHeap::new() };
        let (mut next, mut split) = (Vec::new(), 0);
        for (drivers, pair) in pairs.iter().enumerate() {
            while split < pairs.len() && error((pair.product, pairs[split].product), wanted) > 0.0 {
                split += 1;
            }
            next.extend(search.at(drivers, Some(split), true).filter(|next| next.off <= reach));
            next.extend(search.at(drivers, split.checked_sub(1), false).filter(|next| next.off <= reach));
        }
        search.next = next.into();
        search
    }

    fn at(&self, drivers: usize, driven: Option<usize>, rising: bool) -> Option<Next> {
        let driven = driven.filter(|at| *at < self.pairs.len())?;
        let off = off((self.pairs[drivers].product, self.pairs[driven].product), self.wanted);
        Some(Next { off, drivers, driven, rising })
    }

    /// The next one.
    pub fn next(&mut self) -> Option<Found> {
        let Next { off, drivers, driven, rising } = *self.next.peek()?;
        let further = if rising { Some(driven + 1) } else { driven.checked_sub(1) };
        let further = self.at(drivers, further, rising);
        let top = self.next.peek_mut()?;
        match further {
            Some(further) => *{ top } = further,
            None => drop(PeekMut::pop(top)),
        }
        Some(Found { off, drivers: self.pairs[drivers].wheels, driven: self.pairs[driven].wheels })
    }
}

impl Ord for Next {
    // The heap gives its greatest first.
    fn cmp(&self, other: &Self) -> Ordering {
        other.off.total_cmp(&self.off)
    }
}

impl PartialOrd for Next {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Next {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Next {}
