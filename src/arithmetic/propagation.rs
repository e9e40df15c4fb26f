//! How tolerances on inputs spread to results: worst case and root-sum-square, by partial
//! derivatives where the result is smooth (JCGM 100:2008, 5.1.2 and 5.1.4) and at the corners of the
//! tolerances and inside them where it steps, bends or changes its branch. Takes any function.

mod reached;

use super::extremes::Search;
use reached::Reached;

/// How many toleranced inputs are propagated at most: each doubles the corners.
pub const MOST_INPUTS: usize = 12;

/// A function's results at one point: each by its path, and the words and counts beside them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outcome {
    /// Numbers by path.
    pub numbers: Vec<(String, f64)>,
    /// Everything else by path.
    pub words: Vec<(String, String)>,
}

/// How a spread was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// By partial derivatives.
    Derivatives,
    /// At the corners of the tolerances.
    Corners,
    /// Inside the tolerances, beyond what the corners reach.
    Inside,
}

impl Method {
    /// The word in the answer.
    pub const fn as_str(self) -> &'static str {
        match self {
            Method::Derivatives => "derivatives",
            Method::Corners => "corners",
            Method::Inside => "inside",
        }
    }
}

/// The spread of one number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// Worst case below the value, as a positive amount.
    pub minus: f64,
    /// Worst case above the value.
    pub plus: f64,
    /// Root of the summed squares of what each input does alone.
    pub root_sum_square: f64,
    /// The input that does most, by its number.
    pub most_from: usize,
    /// How the worst case was found.
    pub method: Method,
}

/// The spreads of a function's numbers, and what else changes within the tolerances.
#[derive(Clone, Debug, Default)]
pub struct Propagated {
    /// Spread by path; a number that is not there at every corner has none.
    pub spreads: Vec<(String, Spread)>,
    /// Paths of words and numbers that change or come and go within the tolerances.
    pub changes: Vec<String>,
}

/// A toleranced input: its value and the amounts above and below.
#[derive(Clone, Copy, Debug)]
pub struct Toleranced {
    /// The value.
    pub value: f64,
    /// Tolerance above.
    pub plus: f64,
    /// Tolerance below, as a positive amount.
    pub minus: f64,
}

/// Spreads `inputs` through `f`. The error is a point within the tolerances where `f` has no result.
///
/// Every corner is computed, and each input alone at its ends and half way to them. A number that a straight line
/// follows to a fiftieth of its spread needs no more. For one that bends, the extremes inside are searched for
/// ([`Search`] says how, how far, and what it can miss).
pub fn propagate(inputs: &[Toleranced], f: impl Fn(&[f64]) -> Option<Outcome>) -> Result<Propagated, Vec<f64>> {
    let middle: Vec<f64> = inputs.iter().map(|input| input.value).collect();
    let at = |point: &[f64]| f(point).ok_or_else(|| point.to_vec());
    let nominal = at(&middle)?;
    let slopes = slopes(inputs, &middle, &nominal, &f);
    // Point by point, since all their outcomes together can be very many.
    let mut reached: Vec<Option<Reached>> = nominal
        .numbers
        .iter()
        .zip(slopes)
        .map(|((_, value), slopes)| Some(Reached::of(*value, slopes, inputs)))
        .collect();
    let mut is_same = vec![true; nominal.words.len()];
    let halves = halves(inputs).map(|point| (point, false));
    for (point, is_corner) in corners(inputs).map(|point| (point, true)).chain(halves) {
        let outcome = at(&point)?;
        for (number, (path, _)) in nominal.numbers.iter().enumerate() {
            let value = found(&outcome.numbers, number, path).copied();
            reached[number] = reached[number]
                .take()
                .zip(value)
                .map(|(reached, value)| reached.with(inputs, &point, value, is_corner));
        }
        tell_changes(&nominal, &outcome, &mut is_same);
    }
    // Each input alone at its two ends, for what it does by itself.
    let mut alone = Vec::with_capacity(inputs.len());
    for (number, input) in inputs.iter().enumerate() {
        let end = |value: f64| {
            let mut point = middle.clone();
            point[number] = value;
            at(&point)
        };
        alone.push((end(input.value - input.minus)?, end(input.value + input.plus)?));
    }
    let mut spreads: Vec<Option<Spread>> = Vec::with_capacity(nominal.numbers.len());
    let mut bent = Vec::new();
    for (number, ((path, _), reached)) in nominal.numbers.iter().zip(reached).enumerate() {
        let value = |outcome: &Outcome| found(&outcome.numbers, number, path).copied();
        let alone: Option<Vec<(f64, f64)>> =
            alone.iter().map(|(low, high)| Some((value(low)?, value(high)?))).collect();
        let both = reached.zip(alone);
        if let Some((reached, _)) = &both
            && !reached.is_smooth()
        {
            bent.push((number, reached.worst_corners().map(<[f64]>::to_vec)));
        }
        spreads.push(both.map(|(reached, alone)| reached.spread(inputs, &alone)));
    }
    if !bent.is_empty() {
        let mut search = Search::new(inputs, &f, middle, nominal.clone());
        search.sample()?;
        for (number, corners) in bent {
            let (path, value) = &nominal.numbers[number];
            let of = |outcome: &Outcome| found(&outcome.numbers, number, path).copied();
            let (least, greatest) = search.extremes(corners, of)?;
            if let Some(spread) = &mut spreads[number] {
                spread.widen(value - least, greatest - value);
            }
        }
        for (_, outcome) in search.computed() {
            tell_changes(&nominal, outcome, &mut is_same);
            for (number, (path, _)) in nominal.numbers.iter().enumerate() {
                if found(&outcome.numbers, number, path).is_none() {
                    spreads[number] = None;
                }
            }
        }
    }
    let mut out = Propagated::default();
    out.changes.extend(nominal.words.iter().zip(is_same).filter(|(_, same)| !same).map(|((path, _), _)| path.clone()));
    for ((path, _), spread) in nominal.numbers.iter().zip(spreads) {
        match spread {
            Some(spread) => out.spreads.push((path.clone(), spread)),
            None => out.changes.push(path.clone()),
        }
    }
    Ok(out)
}

/// Marks the words that are not the nominal ones.
fn tell_changes(nominal: &Outcome, outcome: &Outcome, is_same: &mut [bool]) {
    for (number, (path, words)) in nominal.words.iter().enumerate() {
        is_same[number] &= found(&outcome.words, number, path) == Some(words);
    }
}

/// Each input alone half way to its ends, where a bend shows that the corners do not.
fn halves(inputs: &[Toleranced]) -> impl Iterator<Item = Vec<f64>> {
    let half = |at: usize, by: f64| {
        let mut point: Vec<f64> = inputs.iter().map(|input| input.value).collect();
        point[at] += by / 2.0;
        (by != 0.0).then_some(point)
    };
    inputs.iter().enumerate().flat_map(move |(at, input)| [half(at, -input.minus), half(at, input.plus)]).flatten()
}

impl Spread {
    /// With what lies inside, if it is beyond the corners by more than noise.
    fn widen(&mut self, minus: f64, plus: f64) {
        let noise = (self.minus + self.plus) * 1e-6;
        if minus > self.minus + noise || plus > self.plus + noise {
            self.method = Method::Inside;
        }
        (self.minus, self.plus) = (self.minus.max(minus), self.plus.max(plus));
    }
}

/// What stands at that path, which is usually at the same place in the list.
fn found<'l, T>(list: &'l [(String, T)], number: usize, path: &str) -> Option<&'l T> {
    match list.get(number) {
        Some((known, value)) if known == path => Some(value),
        _ => list.iter().find(|(known, _)| known == path).map(|(_, value)| value),
    }
}

fn corners(inputs: &[Toleranced]) -> impl Iterator<Item = Vec<f64>> {
    (0..1usize << inputs.len()).map(move |bits| {
        let end = |(at, input): (usize, &Toleranced)| {
            if bits >> at & 1 == 1 { input.value + input.plus } else { input.value - input.minus }
        };
        inputs.iter().enumerate().map(end).collect()
    })
}

/// For each of the nominal numbers its derivatives by the inputs; none where one of them is not to be had.
fn slopes(
    inputs: &[Toleranced],
    middle: &[f64],
    nominal: &Outcome,
    f: &impl Fn(&[f64]) -> Option<Outcome>,
) -> Vec<Option<Vec<f64>>> {
    let mut all = vec![Some(Vec::with_capacity(inputs.len())); nominal.numbers.len()];
    for (at, input) in inputs.iter().enumerate() {
        // A step well inside the tolerance, yet wide enough to rise above rounding.
        let step = ((input.plus + input.minus) / 200.0).max(input.value.abs() * 1e-7);
        let moved = |by: f64| {
            let mut point = middle.to_vec();
            point[at] += by;
            f(&point)
        };
        let (low, high) = (moved(-step), moved(step));
        for (number, (path, value)) in nominal.numbers.iter().enumerate() {
            let at =
                |side: &Option<Outcome>| side.as_ref().and_then(|side| found(&side.numbers, number, path).copied());
            let slope = match (at(&low), at(&high)) {
                (Some(low), Some(high)) => Some((high - low) / (2.0 * step)),
                (None, Some(high)) => Some((high - value) / step),
                (Some(low), None) => Some((value - low) / step),
                (None, None) => None,
            };
            all[number] = all[number].take().zip(slope).map(|(mut slopes, slope)| {
                slopes.push(slope);
                slopes
            });
        }
    }
    all
}

#[cfg(test)]
mod tests;
