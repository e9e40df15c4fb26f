//! The fewest of some sizes, each used once, that add up to a height: whole numbers, exactly. The finest digit goes first:
//! sizes are parted into classes by their fineness, and only sizes of a class can take away its digit.

use crate::budget::go_on;
use crate::refusal::Refusal;
use std::collections::HashMap;

/// Sizes of one fineness, the largest first.
struct Class {
    sizes: Vec<i64>,
    /// What every size of the coarser classes is a multiple of; none for the coarsest class.
    coarser: Option<i64>,
    /// By what a size leaves of `coarser`, or by the size itself, where the last of such stands.
    by_rest: HashMap<i64, usize>,
    /// The sizes of all coarser classes, the largest first.
    coarse: Vec<i64>,
}

/// Sizes to choose from, in whole numbers above zero.
pub struct Sizes {
    classes: Vec<Class>,
    /// All of them, the largest first.
    all: Vec<i64>,
    /// What every size is a multiple of.
    grid: i64,
}

/// How far the next coarser grid is looked for.
const COARSEST_STEP: i64 = 2_000;
/// Steps on each side at which a height that can be made is looked for, before all heights are.
const NEAR: i64 = 40;
/// Heights of which a list is made at most.
const MOST_HEIGHTS: i64 = 20_000_000;
/// Heights gone through in well under a thousandth of a second.
const A_WHILE: usize = 100_000;

fn common_divisor(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { common_divisor(b, a % b) }
}

fn grid_of(sizes: &[i64]) -> i64 {
    sizes.iter().copied().fold(0, common_divisor)
}

/// The next coarser grid on which no two unlike sizes that are no multiples of it leave the same.
fn coarser(sizes: &[i64], grid: i64) -> Result<Option<i64>, Refusal> {
    for step in 2..=COARSEST_STEP {
        go_on()?;
        let next = grid * step;
        let mut rests = HashMap::new();
        let fine = sizes.iter().filter(|size| **size % next != 0);
        if fine.clone().count() < sizes.len() && fine.clone().all(|s| *rests.entry(s % next).or_insert(*s) == *s) {
            return Ok(Some(next));
        }
    }
    Ok(None)
}

/// The sum of so many of the first.
fn first(sizes: &[i64], count: usize) -> i64 {
    sizes.iter().take(count).sum()
}

impl Sizes {
    /// The same sizes, parted by fineness.
    pub fn of(mut all: Vec<i64>) -> Result<Self, Refusal> {
        all.sort_unstable_by(|a, b| b.cmp(a));
        let (mut rest, mut classes) = (all.clone(), Vec::new());
        while !rest.is_empty() {
            let coarser = coarser(&rest, grid_of(&rest))?;
            let (coarse, sizes): (Vec<i64>, Vec<i64>) =
                rest.iter().partition(|size| coarser.is_some_and(|coarser| **size % coarser == 0));
            let by_rest = sizes.iter().enumerate().map(|(at, size)| (coarser.map_or(*size, |of| size % of), at));
            classes.push(Class { by_rest: by_rest.collect(), sizes, coarser, coarse: coarse.clone() });
            rest = coarse;
        }
        Ok(Self { classes, grid: grid_of(&all), all })
    }

    /// The fewest that add up to `height`, at most `most`, the finest first; none where no such sum is that high.
    pub fn fewest(&self, height: i64, most: usize) -> Result<Option<Vec<i64>>, Refusal> {
        if self.all.is_empty() || height <= 0 || height % self.grid != 0 {
            return Ok(None);
        }
        for count in 1..=most.min(self.all.len()) {
            let mut taken = Vec::with_capacity(count);
            if first(&self.all, count) >= height && self.class(0, height, count, &mut taken)? {
                return Ok(Some(taken));
            }
        }
        Ok(None)
    }

    /// Takes exactly `count` of the classes from `at` on, which add up to `height`.
    fn class(&self, at: usize, height: i64, count: usize, taken: &mut Vec<i64>) -> Result<bool, Refusal> {
        let Some(class) = self.classes.get(at) else { return Ok(height == 0 && count == 0) };
        for here in 0..=count.min(class.sizes.len()) {
            if self.within(at, 0, (height, here, count - here), taken)? {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Takes `here` more of class `at`, from the place `from` of it on, and `later` of the coarser ones.
    fn within(
        &self,
        at: usize,
        from: usize,
        (height, here, later): (i64, usize, usize),
        taken: &mut Vec<i64>,
    ) -> Result<bool, Refusal> {
        go_on()?;
        let class = &self.classes[at];
        let highest = first(class.sizes.get(from..).unwrap_or_default(), here) + first(&class.coarse, later);
        if height < 0 || height > highest {
            return Ok(false);
        }
        let left = class.coarser.map_or(height, |of| height % of);
        match here {
            0 if left != 0 => Ok(false),
            0 => self.class(at + 1, height, later, taken),
            1 => {
                let Some(place) = class.by_rest.get(&left).filter(|place| **place >= from) else { return Ok(false) };
                taken.push(class.sizes[*place]);
                let whole = self.within(at, place + 1, (height - class.sizes[*place], 0, later), taken)?;
                if !whole {
                    taken.pop();
                }
                Ok(whole)
            }
            _ => {
                for (place, size) in class.sizes.iter().enumerate().skip(from) {
                    taken.push(*size);
                    if self.within(at, place + 1, (height - size, here - 1, later), taken)? {
                        return Ok(true);
                    }
                    taken.pop();
                }
                Ok(false)
            }
        }
    }

    /// The heights nearest to `height`, at or below and at or above it, that at most `most` add up to.
    pub fn nearest(&self, height: i64, most: usize) -> Result<(Option<i64>, Option<i64>), Refusal> {
        let Some(least) = self.all.last().copied() else { return Ok((None, None)) };
        let highest = first(&self.all, most);
        if height < least {
            return Ok((None, Some(least)));
        }
        if height >= highest {
            return Ok((Some(highest), (height == highest).then_some(highest)));
        }
        let (down, up) = (height / self.grid, (height + self.grid - 1) / self.grid);
        let can = |height: i64| Ok::<bool, Refusal>(self.fewest(height, most)?.is_some());
        let mut found = (None, None);
        for step in 0..NEAR {
            if found.0.is_none() && can((down - step) * self.grid)? {
                found.0 = Some((down - step) * self.grid);
            }
            if found.1.is_none() && can((up + step) * self.grid)? {
                found.1 = Some((up + step) * self.grid);
            }
        }
        if found.0.is_none() || found.1.is_none() { self.of_all_heights((down, up), most) } else { Ok(found) }
    }

    /// The same from the fewest sizes of every height, in steps of the grid.
    fn of_all_heights(&self, (down, up): (i64, i64), most: usize) -> Result<(Option<i64>, Option<i64>), Refusal> {
        let end = up + self.all.first().map_or(0, |size| size / self.grid);
        if end > MOST_HEIGHTS {
            return Ok((None, None));
        }
        let end = end as usize;
        // 255 stands for a height that cannot be made.
        let mut count = vec![u8::MAX; end + 1];
        count[0] = 0;
        for size in &self.all {
            let size = (size / self.grid) as usize;
            for height in (size..=end).rev() {
                if height % A_WHILE == 0 {
                    go_on()?;
                }
                count[height] = count[height].min(count[height - size].saturating_add(1));
            }
        }
        let can = |height: &usize| usize::from(count[*height]) <= most;
        let back = |height: usize| height as i64 * self.grid;
        Ok(((1..=down as usize).rev().find(can).map(back), (up as usize..=end).find(can).map(back)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sizes(all: &[i64]) -> Sizes {
        Sizes::of(all.to_vec()).expect("sizes")
    }

    #[test]
    fn each_size_is_used_once() {
        let some = sizes(&[1, 2, 2, 5, 10]);
        assert_eq!(some.fewest(4, 5).expect("time"), Some(vec![2, 2]));
        assert_eq!(some.fewest(6, 5).expect("time").map(|taken| taken.len()), Some(2));
        assert_eq!(some.fewest(21, 5).expect("time"), None);
        assert_eq!(some.nearest(25, 5).expect("time"), (Some(20), None));
        assert_eq!(sizes(&[3, 7]).nearest(5, 2).expect("time"), (Some(3), Some(7)));
        assert_eq!(sizes(&[3, 7]).nearest(2, 2).expect("time"), (None, Some(3)));
        assert_eq!(sizes(&[]).nearest(2, 2).expect("time"), (None, None));
    }

    /// A number that looks like chance, from a seed.
    fn next(seed: &mut u64) -> u64 {
        *seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        *seed >> 33
    }

    #[test]
    fn small_lists_agree_with_every_subset() {
        let mut seed = 7;
        for _ in 0..60 {
            let count = 2 + next(&mut seed) % 9;
            let steps = [1, 5, 10, 50][(next(&mut seed) % 4) as usize];
            let all: Vec<i64> = (0..count).map(|_| (1 + (next(&mut seed) % 40) as i64) * steps).collect();
            let mut fewest: HashMap<i64, usize> = HashMap::new();
            for chosen in 1_u32..1 << all.len() {
                let sum = all.iter().enumerate().filter(|(at, _)| chosen >> at & 1 == 1).map(|(_, size)| size).sum();
                let count = chosen.count_ones() as usize;
                fewest.entry(sum).and_modify(|known| *known = count.min(*known)).or_insert(count);
            }
            let some = sizes(&all);
            let most = 1 + (next(&mut seed) % 6) as usize;
            for height in 1..all.iter().sum::<i64>() + 5 {
                let known = fewest.get(&height).filter(|count| **count <= most);
                let found = some.fewest(height, most).expect("time");
                assert_eq!(found.as_ref().map(Vec::len), known.copied(), "{all:?} {height} {most}");
                let mut left = all.clone();
                for size in found.iter().flatten() {
                    let at = left.iter().position(|one| one == size).expect("a size that is left");
                    left.swap_remove(at);
                }
                assert_eq!(found.map_or(height, |taken| taken.iter().sum()), height);
                let can = |way: fn(i64, i64) -> bool| {
                    fewest.iter().filter(move |(sum, n)| **n <= most && way(**sum, height)).map(|(sum, _)| *sum)
                };
                let nearest = (can(|sum, height| sum <= height).max(), can(|sum, height| sum >= height).min());
                assert_eq!(some.nearest(height, most).expect("time"), nearest, "{all:?} {height} {most}");
            }
        }
    }
}
