//! Which pieces to cut from which bars so that the least length of bar is begun: first-fit by falling size, then branch
//! and bound over whole bars (bin completion), in whole picometers. Where neither a bound nor an exhausted search proves
//! the plan the best, it says so.

use super::bound::{Bound, NONE};
use crate::budget::go_on;
use crate::refusal::Refusal;
use std::collections::HashMap;

/// Pieces of one size.
#[derive(Clone, Debug)]
pub struct PieceKind {
    /// Length of the cut with the saw's kerf, in picometers.
    pub size: u64,
    /// How many.
    pub count: u32,
}

/// Bars of one length.
#[derive(Clone, Debug)]
pub struct BarKind {
    /// What it holds of cuts with their kerfs, in picometers.
    pub room: u64,
    /// How long it is.
    pub length: u64,
    /// How many there are.
    pub count: u32,
}

/// A bar: its kind, and how many pieces of each kind come from it.
pub type CutBar = (usize, Vec<u32>);

/// What was found.
#[derive(Debug)]
pub struct Plan {
    /// The bars; none where these bars do not yield the pieces.
    pub bars: Option<Vec<CutBar>>,
    /// No plan needs less length of bar than this, in picometers.
    pub least: u64,
    /// Whether it is proven that no plan is better; or, where there is none, that none exists.
    pub proven: bool,
}

/// Fillings looked at before the search ends with the best plan so far.
const MOST_STEPS: usize = 150_000;
/// Fillings of one bar kept at one node.
const MOST_FILLINGS: usize = 3_000;
/// States remembered.
const MOST_STATES: usize = 40_000;

/// The best plan; pieces sorted by falling size.
pub fn plan(pieces: &[PieceKind], bars: &[BarKind]) -> Result<Plan, Refusal> {
    let counts: Vec<u32> = pieces.iter().map(|piece| piece.count).collect();
    let stock: Vec<u32> = bars.iter().map(|bar| bar.count).collect();
    let bound = Bound::of(pieces, bars);
    let least = bound.least(&counts, &stock);
    let mut search = Search {
        pieces,
        bars,
        bound,
        best: (NONE, None),
        seen: HashMap::new(),
        steps: 0,
        whole: true,
        chosen: Vec::new(),
    };
    for order in Order::ALL {
        go_on()?;
        search.first_fit(order, counts.clone(), stock.clone());
    }
    if search.best.0 > least {
        search.complete(0, &counts, &stock)?;
    }
    let proven = search.whole || search.best.0 <= least;
    let least = if search.whole && search.best.1.is_some() { search.best.0 } else { least };
    Ok(Plan { bars: search.best.1, least, proven })
}

/// Which bar is begun next.
#[derive(Clone, Copy)]
enum Order {
    Longest,
    Shortest,
    LeastWaste,
}

impl Order {
    const ALL: [Order; 3] = [Order::Longest, Order::Shortest, Order::LeastWaste];
}

struct Search<'a> {
    pieces: &'a [PieceKind],
    bars: &'a [BarKind],
    bound: Bound,
    /// The least length of bar, with its plan.
    best: (u64, Option<Vec<CutBar>>),
    /// The length begun with which a state was met before.
    seen: HashMap<(Vec<u32>, Vec<u32>), u64>,
    steps: usize,
    /// Whether nothing was left out of the search.
    whole: bool,
    chosen: Vec<CutBar>,
}

impl Search<'_> {
    /// Fills a bar with the largest pieces first; what is left of its room.
    fn greedy(&self, bar: usize, counts: &[u32]) -> (Vec<u32>, u64) {
        let mut left = self.bars[bar].room;
        let fill = self.pieces.iter().zip(counts).map(|(piece, count)| {
            let number = (left / piece.size).min(u64::from(*count)) as u32;
            left -= piece.size * u64::from(number);
            number
        });
        (fill.collect(), left)
    }

    fn first_fit(&mut self, order: Order, mut counts: Vec<u32>, mut stock: Vec<u32>) {
        let (mut plan, mut used) = (Vec::new(), 0);
        while let Some(largest) = counts.iter().position(|count| *count > 0) {
            let fits = |bar: &usize| stock[*bar] > 0 && self.bars[*bar].room >= self.pieces[largest].size;
            let fitting = (0..self.bars.len()).filter(fits);
            let bar = match order {
                Order::Longest => fitting.max_by_key(|bar| self.bars[*bar].length),
                Order::Shortest => fitting.min_by_key(|bar| self.bars[*bar].length),
                Order::LeastWaste => fitting.min_by(|a, b| {
                    let waste = |bar: usize| self.greedy(bar, &counts).1 as f64 / self.bars[bar].length as f64;
                    waste(*a).total_cmp(&waste(*b)).then(self.bars[*b].length.cmp(&self.bars[*a].length))
                }),
            };
            let Some(bar) = bar else { return };
            let (fill, _) = self.greedy(bar, &counts);
            counts.iter_mut().zip(&fill).for_each(|(count, number)| *count -= number);
            stock[bar] -= 1;
            used += self.bars[bar].length;
            plan.push((bar, fill));
        }
        used -= self.shorten(&mut plan, &mut stock);
        if used < self.best.0 {
            self.best = (used, Some(plan));
        }
    }

    /// Takes the shortest bar that holds what each bar yields; gives the length saved.
    fn shorten(&self, plan: &mut [CutBar], stock: &mut [u32]) -> u64 {
        let mut saved = 0;
        for (bar, fill) in plan {
            let size: u64 = self.pieces.iter().zip(fill.iter()).map(|(piece, n)| piece.size * u64::from(*n)).sum();
            let fits = |other: &usize| stock[*other] > 0 && self.bars[*other].room >= size;
            let shortest = (0..self.bars.len()).filter(fits).min_by_key(|other| self.bars[*other].length);
            if let Some(other) = shortest.filter(|other| self.bars[*other].length < self.bars[*bar].length) {
                saved += self.bars[*bar].length - self.bars[other].length;
                stock[*bar] += 1;
                stock[other] -= 1;
                *bar = other;
            }
        }
        saved
    }

    /// Completes a plan of which bars of the length `used` are cut: the largest piece left comes from the next bar.
    fn complete(&mut self, used: u64, counts: &[u32], stock: &[u32]) -> Result<(), Refusal> {
        go_on()?;
        let Some(largest) = counts.iter().position(|count| *count > 0) else {
            if used < self.best.0 {
                self.best = (used, Some(self.chosen.clone()));
            }
            return Ok(());
        };
        if used.saturating_add(self.bound.least(counts, stock)) >= self.best.0 {
            return Ok(());
        }
        let state = (counts.to_vec(), stock.to_vec());
        match self.seen.get(&state) {
            Some(before) if *before <= used => return Ok(()),
            _ if self.seen.len() < MOST_STATES => {
                self.seen.insert(state, used);
            }
            _ => {}
        }
        for bar in 0..self.bars.len() {
            if stock[bar] == 0 || self.bars[bar].room < self.pieces[largest].size {
                continue;
            }
            let mut stock = stock.to_vec();
            stock[bar] -= 1;
            for fill in self.fillings(bar, largest, counts) {
                if self.steps > MOST_STEPS {
                    self.whole = false;
                    return Ok(());
                }
                let left: Vec<u32> = counts.iter().zip(&fill).map(|(count, number)| count - number).collect();
                self.chosen.push((bar, fill));
                let done = self.complete(used + self.bars[bar].length, &left, &stock);
                self.chosen.pop();
                done?;
            }
        }
        Ok(())
    }

    /// The fillings of a bar that hold the largest piece and to which nothing can be added, the fullest first.
    fn fillings(&mut self, bar: usize, largest: usize, counts: &[u32]) -> Vec<Vec<u32>> {
        let mut found = Vec::new();
        let mut fill = vec![0; counts.len()];
        self.fill(largest, (largest, self.bars[bar].room), counts, &mut fill, &mut found);
        found.sort_by_key(|(left, _)| *left);
        found.into_iter().map(|(_, fill)| fill).collect()
    }

    fn fill(
        &mut self,
        at: usize,
        (largest, left): (usize, u64),
        counts: &[u32],
        fill: &mut Vec<u32>,
        found: &mut Vec<(u64, Vec<u32>)>,
    ) {
        if found.len() >= MOST_FILLINGS || self.steps > MOST_STEPS {
            self.whole = false;
            return;
        }
        if at == counts.len() {
            self.steps += 1;
            let more = |kind: usize| counts[kind] > fill[kind] && self.pieces[kind].size <= left;
            if !(largest..counts.len()).any(more) {
                found.push((left, fill.clone()));
            }
            return;
        }
        let most = (left / self.pieces[at].size).min(u64::from(counts[at])) as u32;
        for number in (u32::from(at == largest)..=most).rev() {
            fill[at] = number;
            let left = left - self.pieces[at].size * u64::from(number);
            self.fill(at + 1, (largest, left), counts, fill, found);
        }
        fill[at] = 0;
    }
}
