//! The least and greatest of a function's numbers within the tolerances of its inputs, also where they lie inside
//! and not at a corner. Deterministic, with a bounded number of points.

use super::propagation::{Outcome, Toleranced};

/// The most points computed beyond the corners, for all numbers together; fewer where a point has many numbers.
pub const MOST: usize = 1500;
/// The numbers of all points together that are worth as much.
const MOST_NUMBERS: usize = 30_000;
/// Halvings by the golden section: an extreme is flat, so that a thousandth of a cell is plenty.
const STEPS: usize = 22;
/// Rounds over all inputs from one start.
const ROUNDS: usize = 4;
/// How far from a corner it is looked whether a number still grows inwards, as a share of a cell.
const PROBE: f64 = 1e-3;

/// The search, with the points that it has computed.
///
/// First a lattice is sampled: 17 places of one input, 9 by 9 of two, 5 by 5 by 5 of three; of more inputs each alone at
/// 9 places. From the best point so far, each input in turn then runs along its line, a cell either way, by the golden
/// section, until nothing more is gained. The best corner is a start like any sample. So an extreme is found that a line from the best sample leads to: one that is
/// narrower than a cell and away from it can be missed, as can one that four or more inputs reach only together.
/// What is found is never beyond what the function does reach.
pub struct Search<'f, F> {
    inputs: &'f [Toleranced],
    f: &'f F,
    computed: Vec<(Vec<f64>, Outcome)>,
    left: usize,
}

impl<'f, F: Fn(&[f64]) -> Option<Outcome>> Search<'f, F> {
    /// A search that knows one point.
    pub fn new(inputs: &'f [Toleranced], f: &'f F, point: Vec<f64>, outcome: Outcome) -> Self {
        let numbers = outcome.numbers.len() + outcome.words.len();
        let left = (MOST_NUMBERS / numbers.max(1)).clamp(20, MOST);
        Self { inputs, f, computed: vec![(point, outcome)], left }
    }

    /// Every point computed, and what the function has there.
    pub fn computed(&self) -> &[(Vec<f64>, Outcome)] {
        &self.computed
    }

    /// The inputs that do vary.
    fn varied(&self) -> Vec<usize> {
        (0..self.inputs.len()).filter(|at| self.inputs[*at].plus + self.inputs[*at].minus > 0.0).collect()
    }

    /// Places along each line.
    fn places(&self) -> usize {
        match self.varied().len() {
            0 | 1 => 17,
            3 => 5,
            _ => 9,
        }
    }

    fn between(&self, input: usize, share: f64) -> f64 {
        let Toleranced { value, plus, minus } = self.inputs[input];
        value - minus + (plus + minus) * share
    }

    fn compute(&mut self, point: Vec<f64>) -> Result<(), Vec<f64>> {
        if self.left == 0 || self.computed.iter().any(|(known, _)| *known == point) {
            return Ok(());
        }
        self.left -= 1;
        match (self.f)(&point) {
            Some(outcome) => {
                self.computed.push((point, outcome));
                Ok(())
            }
            None => Err(point),
        }
    }

    /// Samples the tolerances, for all numbers at once.
    pub fn sample(&mut self) -> Result<(), Vec<f64>> {
        let (varied, places) = (self.varied(), self.places());
        let middle: Vec<f64> = self.inputs.iter().map(|input| input.value).collect();
        let place = |search: &Self, input: usize, at: usize| search.between(input, at as f64 / (places - 1) as f64);
        if varied.len() > 3 {
            for input in varied {
                for at in 0..places {
                    let mut point = middle.clone();
                    point[input] = place(self, input, at);
                    self.compute(point)?;
                }
            }
            return Ok(());
        }
        for number in 0..places.pow(varied.len() as u32) {
            let (mut point, mut rest) = (middle.clone(), number);
            for input in &varied {
                point[*input] = place(self, *input, rest % places);
                rest /= places;
            }
            self.compute(point)?;
        }
        Ok(())
    }

    /// The least and the greatest of one number, of which the worst corners are known.
    pub fn extremes(
        &mut self,
        corners: [Vec<f64>; 2],
        of: impl Fn(&Outcome) -> Option<f64>,
    ) -> Result<(f64, f64), Vec<f64>> {
        for corner in corners.into_iter().filter(|corner| !corner.is_empty()) {
            self.compute(corner)?;
        }
        let least = self.least(&of)?;
        let greatest = -self.least(&|outcome: &Outcome| of(outcome).map(|number| -number))?;
        Ok((least, greatest))
    }

    fn best(&self, of: &impl Fn(&Outcome) -> Option<f64>) -> Option<(Vec<f64>, f64)> {
        let known = self.computed.iter().filter_map(|(point, outcome)| Some((point, of(outcome)?)));
        known.min_by(|a, b| a.1.total_cmp(&b.1)).map(|(point, least)| (point.clone(), least))
    }

    fn least(&mut self, of: &impl Fn(&Outcome) -> Option<f64>) -> Result<f64, Vec<f64>> {
        let Some((mut point, mut least)) = self.best(of) else { return Ok(f64::NAN) };
        let cell = 1.0 / (self.places() - 1) as f64;
        for _ in 0..ROUNDS {
            let before = least;
            for input in self.varied() {
                let (low, high) = (self.between(input, 0.0), self.between(input, 1.0));
                let wide = (high - low) * cell;
                let (from, to) = ((point[input] - wide).max(low), (point[input] + wide).min(high));
                let at = |value: f64| {
                    let mut moved = point.clone();
                    moved[input] = value;
                    moved
                };
                // At an end, a look a little inwards tells whether there is anything to find.
                let inwards = [(low, PROBE), (high, -PROBE)].into_iter().find(|(end, _)| *end == point[input]);
                if let Some((end, by)) = inwards {
                    self.compute(at(end + by * wide))?;
                    if self.best(of).is_none_or(|(_, now)| now >= least) {
                        continue;
                    }
                }
                self.along(&at, from, to, of)?;
                if let Some((now, value)) = self.best(of) {
                    (point, least) = (now, value);
                }
            }
            if self.left == 0 || before - least <= least.abs() * 1e-12 {
                break;
            }
        }
        Ok(least)
    }

    /// Computes points that close in on the least along a line.
    fn along(
        &mut self,
        at: &impl Fn(f64) -> Vec<f64>,
        from: f64,
        to: f64,
        of: &impl Fn(&Outcome) -> Option<f64>,
    ) -> Result<(), Vec<f64>> {
        let share = 0.381_966_011_250_105;
        let (mut low, mut high) = (from, to);
        let value = |search: &mut Self, place: f64| -> Result<f64, Vec<f64>> {
            let point = at(place);
            search.compute(point.clone())?;
            let known = search.computed.iter().rev().find(|(known, _)| *known == point);
            Ok(known.and_then(|(_, outcome)| of(outcome)).unwrap_or(f64::INFINITY))
        };
        let (mut one, mut two) = (low + (high - low) * share, high - (high - low) * share);
        let (mut at_one, mut at_two) = (value(self, one)?, value(self, two)?);
        for _ in 0..STEPS {
            if self.left == 0 {
                break;
            }
            if at_one <= at_two {
                (high, two, at_two) = (two, one, at_one);
                one = low + (high - low) * share;
                at_one = value(self, one)?;
            } else {
                (low, one, at_one) = (one, two, at_two);
                two = high - (high - low) * share;
                at_two = value(self, two)?;
            }
        }
        Ok(())
    }
}
