//! Moves of a dividing head that make a step: by the direct plate, by one circle, by two circles, and by one circle with
//! gears that turn the plate. All in fractions of whole numbers.

use crate::arithmetic::fraction::{Fraction, greatest_divisor};
use crate::arithmetic::gear_trains::{Train, trains};
use crate::budget::go_on;
use crate::calculators::prelude::*;
use crate::reference::index_plates::PlateSide;

choice! {
    /// A way to index: `direct`, `simple`, `compound` or `differential`.
    IndexMethod {
        /// The spindle is turned by hand, its own plate of holes stops it.
        Direct = "direct",
        /// The crank turns so many holes of one circle.
        Simple = "simple",
        /// The crank turns so many holes of one circle, then with its plate so many of another.
        Compound = "compound",
        /// Gears from the spindle turn the plate meanwhile.
        Differential = "differential",
    }
}

/// What is to be made.
#[derive(Clone, Copy, Debug)]
pub struct Wanted {
    /// Share of a turn of the spindle for one step.
    pub share: Fraction,
    /// Turns of the crank for one turn of the spindle.
    pub ratio: u32,
    /// Into how many parts the whole turn is divided.
    pub divisions: Option<u32>,
}

impl Wanted {
    /// Turns of the worm for one step.
    pub fn turns(&self) -> Fraction {
        self.share.times(i128::from(self.ratio))
    }
}

/// A movement of the crank: so many holes of a circle.
#[derive(Clone, Debug, PartialEq)]
pub struct Movement {
    /// Holes of the circle.
    pub circle: u32,
    /// Holes moved, in all.
    pub holes: i128,
    /// The side of the plate it is on.
    pub plate: String,
}

impl Movement {
    fn turns(&self) -> Fraction {
        Fraction::of(self.holes, i128::from(self.circle))
    }
}

/// A way to make a step.
#[derive(Clone, Debug)]
pub struct Move {
    /// How.
    pub method: IndexMethod,
    /// The movement of the crank; absent for whole turns.
    pub first: Option<Movement>,
    /// The second movement of compound indexing, with its sign.
    pub second: Option<Movement>,
    /// The gears of differential indexing, and turns of the plate for one of the spindle.
    pub gears: Option<(Train, Fraction)>,
    /// Turns of the worm that it makes.
    pub worm: Fraction,
}

impl Move {
    fn of_circle(method: IndexMethod, first: Movement, worm: Fraction) -> Self {
        Self { method, first: Some(first), second: None, gears: None, worm }
    }
}

/// Most ways of one method.
const MOST: usize = 3;
/// Turns of the plate for one of the spindle that gears are looked for.
const MOST_TURNS: i128 = 8;

/// By the direct plate, if its holes fall on the step.
pub fn direct(wanted: &Wanted, holes: u32) -> Option<Move> {
    let moved = wanted.share.times(i128::from(holes)).whole()?;
    let first = Movement { circle: holes, holes: moved, plate: "direct plate".into() };
    Some(Move::of_circle(IndexMethod::Direct, first, wanted.turns()))
}

/// Every circle of the plates that makes the step exactly, the fewest holes first; whole turns need no circle.
pub fn simple(wanted: &Wanted, plates: &[PlateSide]) -> Vec<Move> {
    let turns = wanted.turns();
    if turns.whole().is_some() {
        return vec![Move { method: IndexMethod::Simple, first: None, second: None, gears: None, worm: turns }];
    }
    let mut found: Vec<Move> = movements(plates, |circle| turns.times(i128::from(circle)).whole())
        .map(|first| Move::of_circle(IndexMethod::Simple, first, turns))
        .collect();
    found.sort_by_key(|way| way.first.as_ref().map(|first| (first.circle, first.holes)));
    found.dedup_by_key(|way| way.first.as_ref().map(|first| first.circle));
    found
}

/// The circles whose nearest hole is nearest to the step.
pub fn nearest_simple(wanted: &Wanted, plates: &[PlateSide]) -> Vec<Move> {
    let turns = wanted.turns();
    let nearest = |circle: u32| Some(turns.times(i128::from(circle)).nearest()).filter(|holes| *holes > 0);
    let mut found: Vec<Move> = movements(plates, nearest)
        .map(|first| {
            let worm = first.turns();
            Move::of_circle(IndexMethod::Simple, first, worm)
        })
        .collect();
    found.sort_by_key(|way| (way.worm.less(turns).size(), way.first.as_ref().map(|first| first.circle)));
    found.dedup_by_key(|way| way.worm);
    found.truncate(MOST);
    found
}

fn movements(plates: &[PlateSide], holes: impl Fn(u32) -> Option<i128>) -> impl Iterator<Item = Movement> {
    plates
        .iter()
        .flat_map(|side| side.circles.iter().map(move |circle| (side, *circle)))
        .filter_map(move |(side, circle)| Some(Movement { circle, holes: holes(circle)?, plate: side.name.clone() }))
}

/// Two circles of one side of a plate: exactly, the fewest holes first; or else, where `nearly`, as near as they come.
pub fn compound(wanted: &Wanted, plates: &[PlateSide], nearly: bool) -> Result<Vec<Move>, Refusal> {
    let turns = wanted.turns();
    let mut found: Vec<Move> = Vec::new();
    for side in plates {
        for a in &side.circles {
            go_on()?;
            for b in side.circles.iter().filter(|b| *b != a) {
                let common = i128::from(*a) * i128::from(*b) / greatest_divisor((*a).into(), (*b).into());
                let parts = turns.times(common);
                if !nearly && parts.whole().is_none() {
                    continue;
                }
                found.extend(two_circles(parts.nearest(), common, (*a, *b), &side.name));
            }
        }
    }
    let counted = |way: &Move| [&way.first, &way.second].into_iter().flatten().map(|one| one.holes.abs()).sum::<i128>();
    // Of two movements on, the longer comes first.
    let second = |way: &Move| way.second.as_ref().map_or(0, |second| second.holes);
    found.sort_by_key(|way| (way.worm.less(turns).size(), counted(way), second(way) < 0, second(way)));
    // The same two movements in the other order are the same way.
    let circles = |way: &Move| {
        let mut both: Vec<u32> = [&way.first, &way.second].into_iter().flatten().map(|one| one.circle).collect();
        both.sort_unstable();
        both
    };
    let mut seen: Vec<Vec<u32>> = Vec::new();
    found.retain(|way| {
        let is_new = !seen.contains(&circles(way));
        seen.push(circles(way));
        is_new
    });
    found.truncate(if nearly { 1 } else { MOST });
    Ok(found)
}

/// The movements by circles `a`, forwards, and `b`, less than a turn either way, that make `parts` of `common` parts of a
/// turn with the fewest holes.
fn two_circles(parts: i128, common: i128, (a, b): (u32, u32), plate: &str) -> Option<Move> {
    let (per_a, per_b) = (common / i128::from(a), common / i128::from(b));
    let second = (1 - i128::from(b)..i128::from(b)).filter(|second| *second != 0);
    let both = second.filter_map(|second| {
        let left = parts - second * per_b;
        (left > 0 && left % per_a == 0).then(|| (left / per_a, second))
    });
    let (first, second) = both.min_by_key(|(first, second)| (first + second.abs(), *second < 0, *second))?;
    let of = |circle, holes| Movement { circle, holes, plate: plate.to_owned() };
    Some(Move {
        method: IndexMethod::Compound,
        first: Some(of(a, first)),
        second: Some(of(b, second)),
        gears: None,
        worm: Fraction::of(parts, common),
    })
}

/// A movement near the step, and gears that turn the plate by what it lacks in a whole turn of the spindle. Simple trains come
/// first, then movements that a whole number of divisions has.
pub fn differential(
    wanted: &Wanted,
    divisions: u32,
    plates: &[PlateSide],
    gears: &[u32],
) -> Result<Vec<Move>, Refusal> {
    let (ratio, count) = (i128::from(wanted.ratio), i128::from(divisions));
    let mut tried: Vec<(bool, Fraction, Movement)> = Vec::new();
    for side in plates {
        for circle in &side.circles {
            go_on()?;
            let around = i128::from(*circle);
            let holes = |turns: i128| Fraction::of(turns * around, count).floor();
            for holes in (holes(ratio - MOST_TURNS).max(0) + 1)..=holes(ratio + MOST_TURNS) {
                let first = Movement { circle: *circle, holes, plate: side.name.clone() };
                let lacking = Fraction::of(ratio, 1).less(first.turns().times(count));
                let is_known = |known: &(bool, Fraction, Movement)| known.1 == lacking;
                if lacking.top != 0 && !tried.iter().any(is_known) {
                    let is_whole = (ratio * around) % holes == 0;
                    tried.push((!is_whole, lacking, first));
                }
            }
        }
    }
    tried.sort_by_key(|(is_part, lacking, first)| (*is_part, lacking.size(), first.circle));
    let mut found: Vec<Move> = Vec::new();
    for only_simple in [true, false] {
        for (_, lacking, first) in &tried {
            if found.len() == MOST {
                return Ok(found);
            }
            go_on()?;
            let train = if only_simple { one_pair(lacking, gears) } else { nearest_train(lacking, gears)? };
            let Some(train) = train.filter(|train| makes(train, lacking)) else { continue };
            if found.iter().any(|way| way.first.as_ref() == Some(first)) {
                continue;
            }
            let way = Move::of_circle(IndexMethod::Differential, first.clone(), wanted.turns());
            found.push(Move { gears: Some((train, *lacking)), ..way });
        }
    }
    Ok(found)
}

fn makes(train: &Train, lacking: &Fraction) -> bool {
    let (c, d) = train.second.unwrap_or((1, 1));
    let drivers = i128::from(train.first.0) * i128::from(c);
    Fraction::of(drivers, i128::from(train.first.1) * i128::from(d)) == lacking.size()
}

fn one_pair(lacking: &Fraction, gears: &[u32]) -> Option<Train> {
    let pairs = gears.iter().enumerate().flat_map(|(at, driver)| {
        let others = gears.iter().enumerate().filter(move |(other, _)| *other != at);
        others.map(move |(_, driven)| Train { first: (*driver, *driven), second: None, clears: true })
    });
    pairs.filter(|train| makes(train, lacking)).min_by_key(|train| train.first)
}

fn nearest_train(lacking: &Fraction, gears: &[u32]) -> Result<Option<Train>, Refusal> {
    Ok(trains(gears, lacking.size().get(), 0, 1)?.into_iter().next())
}
