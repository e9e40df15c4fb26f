//! The simple and compound trains of a set of gears that come nearest to a ratio: all simple ones are looked at, the
//! compound ones from the nearest outwards until as many clear as are wanted.

mod search;

use crate::budget::go_on;
use crate::refusal::Refusal;
use search::{Found, Pair, Search, off, pairs};

/// Most gears of one set.
const MOST_GEARS: usize = 40;
/// Fewest and most teeth of a gear.
pub const TEETH: std::ops::RangeInclusive<u32> = 8..=400;

/// What is wrong with a set of gears.
pub fn wrong_gears(gears: &[u32]) -> Option<String> {
    if gears.len() < 2 || gears.len() > MOST_GEARS {
        return Some("Name 2 to 40 gears.".into());
    }
    let wrong = gears.iter().find(|teeth| !TEETH.contains(teeth))?;
    Some(format!("Gears have 8 to 400 teeth; this one has {wrong}."))
}

/// A train: pairs of driver and driven gear.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Train {
    /// First driver and the gear it drives.
    pub first: (u32, u32),
    /// Second driver, on the shaft of the first driven gear, and the gear it drives.
    pub second: Option<(u32, u32)>,
    /// Whether the gears clear the shafts beside them.
    pub clears: bool,
}

impl Train {
    /// Turns of the last gear for one of the first.
    pub fn ratio(&self) -> f64 {
        let (c, d) = self.second.unwrap_or((1, 1));
        f64::from(self.first.0 * c) / f64::from(self.first.1 * d)
    }

    /// How far its ratio is off, as a share.
    pub fn error_from(&self, wanted: f64) -> f64 {
        self.ratio() / wanted - 1.0
    }

    fn teeth(&self) -> u32 {
        let (c, d) = self.second.unwrap_or((0, 0));
        self.first.0 + self.first.1 + c + d
    }

    /// `40/60` or `40/60 × 50/30`.
    pub fn text(&self) -> String {
        let (a, b) = self.first;
        match self.second {
            None => format!("{a}/{b}"),
            Some((c, d)) => format!("{a}/{b} × {c}/{d}"),
        }
    }
}

/// Two gears in mesh hold their shafts apart by half their teeth together; the gear beside the
/// first shaft needs half its own and room for the shaft.
fn clears((a, b): (u32, u32), (c, d): (u32, u32), clearance: u32) -> bool {
    a + b >= c + clearance && c + d >= b + clearance
}

/// The ways to set up two drivers and two driven gears; the first that clears, else the first.
fn arranged(drivers: (u32, u32), driven: (u32, u32), clearance: u32) -> Train {
    let ((a, c), (b, d)) = (drivers, driven);
    let ways = [((a, b), (c, d)), ((a, d), (c, b)), ((c, b), (a, d)), ((c, d), (a, b))];
    let clear = ways.iter().find(|(first, second)| clears(*first, *second, clearance));
    let (first, second) = *clear.unwrap_or(&ways[0]);
    Train { first, second: Some(second), clears: clear.is_some() }
}

/// Trains that are tried between two looks at the time.
const TRIED_AT_ONCE: usize = 256;

/// The `count` trains nearest to a ratio, those that clear first; of equal ones the simple and the one with fewer teeth.
pub fn trains(gears: &[u32], wanted: f64, clearance: u32, count: usize) -> Result<Vec<Train>, Refusal> {
    let pairs = pairs(gears);
    let (mut clear, mut others) = (Nearest::of(count), Nearest::of(count));
    let mut simple: Vec<(f64, (u32, u32))> = Vec::with_capacity(2 * pairs.len());
    for &Pair { wheels: (a, b), .. } in &pairs {
        // A gear that drives its like changes nothing.
        let ways: &[(u32, u32)] = match a == b {
            false => &[(a, b), (b, a)],
            true if (wanted - 1.0).abs() < 1e-12 => &[(a, b)],
            true => &[],
        };
        simple.extend(ways.iter().map(|first| (off(*first, wanted), *first)));
    }
    if simple.len() > count {
        let furthest = simple.select_nth_unstable_by(count - 1, |a, b| a.0.total_cmp(&b.0)).1.0;
        simple.retain(|(off, _)| *off <= furthest);
    }
    for (off, first) in simple {
        clear.take(off, Train { first, second: None, clears: true });
    }
    let mut search = Search::of(&pairs, wanted, clear.reach());
    for tried in 0.. {
        if tried % TRIED_AT_ONCE == 0 {
            go_on()?;
        }
        let Some(Found { off, drivers, driven }) = search.next().filter(|found| found.off <= clear.reach()) else {
            break;
        };
        // A gear over its like is no more than an idler.
        if [driven.0, driven.1].iter().any(|teeth| *teeth == drivers.0 || *teeth == drivers.1) {
            continue;
        }
        let train = arranged(drivers, driven, clearance);
        if train.clears { clear.take(off, train) } else { others.take(off, train) }
    }
    let found = clear.list.into_iter().chain(others.list).map(|(_, train)| train);
    Ok(found.take(count).collect())
}

/// The nearest trains seen, in their order.
struct Nearest {
    most: usize,
    list: Vec<(f64, Train)>,
}

impl Nearest {
    fn of(most: usize) -> Self {
        Self { most, list: Vec::with_capacity(most + 1) }
    }

    /// Beyond it nothing is taken any more.
    fn reach(&self) -> f64 {
        if self.list.len() < self.most { f64::INFINITY } else { self.list.last().map_or(f64::INFINITY, |last| last.0) }
    }

    fn take(&mut self, off: f64, train: Train) {
        if off > self.reach() {
            return;
        }
        let order = |known: &(f64, Train)| {
            let (one, other) = (&known.1, &train);
            known
                .0
                .total_cmp(&off)
                .then(one.second.is_some().cmp(&other.second.is_some()))
                .then(one.teeth().cmp(&other.teeth()))
                .then_with(|| one.text().cmp(&other.text()))
        };
        let at = self.list.partition_point(|known| order(known).is_lt());
        self.list.insert(at, (off, train));
        self.list.truncate(self.most);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::budget::Budget;
    use crate::refusal::Code;
    use std::collections::HashSet;
    use std::time::Duration;

    #[test]
    fn a_gear_is_used_no_more_often_than_it_is_owned() {
        for train in trains(&[20, 40, 40, 60, 80], 0.5, 0, 50).unwrap() {
            let mut used = vec![train.first.0, train.first.1];
            used.extend(train.second.into_iter().flat_map(|(c, d)| [c, d]));
            for teeth in [20, 40, 60, 80] {
                let owned = [20, 40, 40, 60, 80].iter().filter(|own| **own == teeth).count();
                assert!(used.iter().filter(|use_| **use_ == teeth).count() <= owned, "{}", train.text());
            }
        }
    }

    #[test]
    fn a_large_driven_gear_that_would_sit_on_the_next_shaft_does_not_clear() {
        assert!(!clears((20, 100), (30, 20), 15));
        assert!(clears((40, 60), (50, 55), 15));
    }

    /// The same by setting up every train there is and sorting them all.
    fn by_trying_all(gears: &[u32], wanted: f64, clearance: u32, count: usize) -> Vec<Train> {
        let (mut seen, mut all) = (HashSet::new(), Vec::new());
        let others = |not: &[usize]| (0..gears.len()).filter(|at| !not.contains(at)).collect::<Vec<usize>>();
        for a in others(&[]) {
            for b in others(&[a]) {
                let first = (gears[a], gears[b]);
                if (first.0 != first.1 || (wanted - 1.0).abs() < 1e-12) && seen.insert([first.0, 0, first.1, 0]) {
                    all.push(Train { first, second: None, clears: true });
                }
                for c in others(&[a, b]).into_iter().filter(|c| gears[a] <= gears[*c]) {
                    for d in others(&[a, b, c]).into_iter().filter(|d| gears[b] <= gears[*d]) {
                        let (drivers, driven) = ((gears[a], gears[c]), (gears[b], gears[d]));
                        let idles = [drivers.0, drivers.1].iter().any(|teeth| [driven.0, driven.1].contains(teeth));
                        if !idles && seen.insert([drivers.0, drivers.1, driven.0, driven.1]) {
                            all.push(arranged(drivers, driven, clearance));
                        }
                    }
                }
            }
        }
        all.sort_by_cached_key(|train| {
            let off = (train.error_from(wanted).abs() * 1e13).round();
            (!train.clears, off.to_bits(), train.second.is_some(), train.teeth(), train.text())
        });
        all.truncate(count);
        all
    }

    #[test]
    fn the_trains_are_those_found_by_trying_all() {
        let mut state = 88_172_645_463_325_252_u64;
        let mut below = |end: u64| {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            state % end
        };
        for number in 0..3000 {
            let most = if number % 100 == 0 { 14 } else { 8 };
            // Few sizes, so that many trains come to the same, or many.
            let sizes = [4, 12, 60, 380][below(4) as usize];
            let gears: Vec<u32> = (0..2 + below(most - 1)).map(|_| 8 + below(sizes) as u32).collect();
            let (first, last, middle) = (gears[0], gears[gears.len() - 1], gears[gears.len() / 2]);
            let wanted = match below(6) {
                0 => 1.0,
                1 => f64::from(first) / f64::from(last),
                2 => f64::from(first * middle) / f64::from(last * gears[1]),
                3 => 10f64.powf(below(1000) as f64 / 25.0 - 20.0),
                _ => 10f64.powf(below(1000) as f64 / 500.0 - 1.0),
            };
            let (clearance, count) = (below(101) as u32, 1 + below(50) as usize);
            let found = trains(&gears, wanted, clearance, count).unwrap();
            let tried = by_trying_all(&gears, wanted, clearance, count);
            assert_eq!(found, tried, "{gears:?} to {wanted}, {clearance} teeth, {count} trains");
        }
    }

    /// Forty gears, of which half a million trains can be made.
    fn forty() -> Vec<u32> {
        (20..60).collect()
    }

    #[test]
    fn few_of_all_trains_are_tried() {
        for wanted in [1e-9, 0.3, 1.0, 4.0 / 3.0, 8.0, 1e6] {
            let furthest = trains(&forty(), wanted, 15, 50).unwrap()[49];
            let (pairs, reach) = (pairs(&forty()), (furthest.error_from(wanted).abs() * 1e13).round());
            let mut search = Search::of(&pairs, wanted, reach);
            let tried = std::iter::from_fn(|| search.next()).take_while(|found| found.off <= reach).count();
            assert!(tried < 5000, "{tried} tried for {wanted}");
        }
    }

    #[test]
    fn a_spent_budget_ends_the_search() {
        let spent = Budget::of(Duration::ZERO);
        spent.give_up();
        let refusal = spent.spend(|| trains(&forty(), 4.0 / 3.0, 15, 50)).unwrap_err();
        assert_eq!(refusal.0[0].code, Code::TooMuchWork);
    }
}
