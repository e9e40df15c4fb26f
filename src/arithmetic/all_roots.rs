//! Every place where a function is zero, closed in on from the values at which it was tried: crossings, touches, two
//! roots between two tries, and stretches over which it stays zero.

use super::roots::root_between;

/// Where a function is zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Zero {
    /// At one place.
    At(f64),
    /// All the way from one place to another.
    Along(f64, f64),
}

impl Zero {
    /// Its least place.
    pub const fn least(self) -> f64 {
        match self {
            Zero::At(at) | Zero::Along(at, _) => at,
        }
    }

    /// The place of it that is nearest to `to`.
    pub fn nearest(self, to: f64) -> f64 {
        match self {
            Zero::At(at) => at,
            Zero::Along(from, end) => to.clamp(from, end),
        }
    }
}

/// Most dips towards zero that are looked into, the nearest to zero first.
const MOST_DIPS: usize = 16;
/// Most ends of where the function has values that are closed in on.
const MOST_ENDS: usize = 8;
/// Steps of each search for a dip's bottom or for an end.
const STEPS: usize = 60;
/// How far beside a zero the function is looked at to tell a stretch from a touch, as a share of the place.
const BESIDE: f64 = 1e-5;

/// A function of which some values are known.
pub struct Tried<'f, F> {
    /// Gives NaN where it has no value.
    pub f: &'f F,
    /// Places, rising, each with the value there; NaN where there is none.
    pub at: Vec<(f64, f64)>,
    /// What counts as zero.
    pub near: f64,
    /// The noise of a value.
    pub noise: f64,
}

impl<F: Fn(f64) -> f64> Tried<'_, F> {
    /// Every zero that shows between the places, rising. What both begins and ends between two of them without bending
    /// the three values there towards zero is not seen; beyond 16 dips and 8 ends no more are looked into.
    pub fn zeros(mut self) -> Vec<Zero> {
        self.add_ends();
        let mut found = self.met();
        for pair in self.at.windows(2) {
            let ((low, a), (high, b)) = (pair[0], pair[1]);
            if !self.is_zero(a) && !self.is_zero(b) && a * b < 0.0 {
                found.extend(self.crossing(low, high));
            }
        }
        for (three, sign) in self.dips() {
            found.extend(self.bottom(three, sign));
        }
        found.sort_by(|a, b| a.least().total_cmp(&b.least()));
        let mut zeros: Vec<Zero> = Vec::new();
        for zero in found {
            let same = |known: &Zero| (known.nearest(zero.least()) - zero.least()).abs() <= zero.least().abs() * 2e-9;
            match zeros.last_mut() {
                Some(last) if same(last) => {
                    if matches!(zero, Zero::Along(..)) && matches!(last, Zero::At(_)) {
                        *last = zero;
                    }
                }
                _ => zeros.push(zero),
            }
        }
        zeros
    }

    fn is_zero(&self, value: f64) -> bool {
        value.abs() <= self.near
    }

    fn meets(&self, at: f64) -> bool {
        self.is_zero((self.f)(at))
    }

    /// Of `good` and `bad`, the place nearest to `bad` that is still good.
    fn end(&self, good: f64, bad: f64, is_good: impl Fn(f64) -> bool) -> f64 {
        let (mut good, mut bad) = (good, bad);
        for _ in 0..STEPS {
            let middle = good + (bad - good) / 2.0;
            if middle == good || middle == bad {
                break;
            }
            if is_good(middle) { good = middle } else { bad = middle }
        }
        good
    }

    /// Adds the places where the values begin and end.
    fn add_ends(&mut self) {
        let mut ends = Vec::new();
        for pair in self.at.windows(2) {
            let ((low, a), (high, b)) = (pair[0], pair[1]);
            if a.is_nan() != b.is_nan() && ends.len() < MOST_ENDS {
                let (good, bad) = if a.is_nan() { (high, low) } else { (low, high) };
                let end = self.end(good, bad, |at| !(self.f)(at).is_nan());
                ends.push((end, (self.f)(end)));
            }
        }
        self.at.extend(ends);
        self.at.sort_by(|a, b| a.0.total_cmp(&b.0));
        self.at.dedup_by(|a, b| a.0 == b.0);
    }

    /// Zeros at the places tried themselves.
    fn met(&self) -> Vec<Zero> {
        let mut found = Vec::new();
        let mut first = 0;
        while first < self.at.len() {
            let last = first + self.at[first..].iter().take_while(|(_, value)| self.is_zero(*value)).count();
            if last > first {
                let before = first.checked_sub(1).map(|at| self.at[at].0);
                let after = self.at.get(last).map(|(at, _)| *at);
                found.push(self.widened(self.at[first].0, self.at[last - 1].0, before, after));
            }
            first = last + 1;
        }
        found
    }

    /// A zero as wide as it is, which ends between `before` and `after`.
    fn widened(&self, from: f64, to: f64, before: Option<f64>, after: Option<f64>) -> Zero {
        if from == to && !self.is_flat(from) {
            return Zero::At(from);
        }
        let end = |good: f64, bad: Option<f64>| bad.map_or(good, |bad| self.end(good, bad, |at| self.meets(at)));
        let (from, to) = (end(from, before), end(to, after));
        if to - from <= from.abs().max(to.abs()) * 1e-9 { Zero::At(from) } else { Zero::Along(from, to) }
    }

    /// Whether the function does not change beside a place: near a touch it changes with the square.
    fn is_flat(&self, at: f64) -> bool {
        let here = (self.f)(at);
        [-BESIDE, BESIDE].iter().any(|by| ((self.f)(at + by * at.abs()) - here).abs() <= self.noise)
    }

    fn crossing(&self, low: f64, high: f64) -> Option<Zero> {
        let root = root_between(self.f, low, high)?;
        // A jump over zero is no root.
        self.meets(root).then(|| self.widened(root, root, Some(low), Some(high)))
    }

    /// Three places of which the middle one is nearest to zero, with the sign there.
    fn dips(&self) -> Vec<([f64; 3], f64)> {
        let mut dips: Vec<(f64, [f64; 3], f64)> = Vec::new();
        for three in self.at.windows(3) {
            let sign = three[1].1.signum();
            let [a, b, c] = [three[0].1 * sign, three[1].1 * sign, three[2].1 * sign];
            let is_dip = b > self.near && b <= a && b <= c && (b < a - self.noise || b < c - self.noise);
            if is_dip {
                dips.push((b, [three[0].0, three[1].0, three[2].0], sign));
            }
        }
        dips.sort_by(|a, b| a.0.total_cmp(&b.0));
        dips.into_iter().take(MOST_DIPS).map(|(_, three, sign)| (three, sign)).collect()
    }

    /// The zeros at or beside the bottom of a dip: none, one that touches, or two.
    fn bottom(&self, [first, middle, last]: [f64; 3], sign: f64) -> Vec<Zero> {
        let value = |at: f64| sign * (self.f)(at);
        let (mut low, mut high) = (first, last);
        let mut best = (middle, value(middle));
        let share = 0.381_966_011_250_105;
        let (mut one, mut two) = (low + (high - low) * share, high - (high - low) * share);
        let (mut at_one, mut at_two) = (value(one), value(two));
        for _ in 0..STEPS {
            for (at, is) in [(one, at_one), (two, at_two)] {
                if is < best.1 {
                    best = (at, is);
                }
            }
            if best.1 <= self.near || high - low <= best.0.abs() * 4.0 * f64::EPSILON {
                break;
            }
            if at_one < at_two {
                (high, two, at_two) = (two, one, at_one);
                one = low + (high - low) * share;
                at_one = value(one);
            } else {
                (low, one, at_one) = (one, two, at_two);
                two = high - (high - low) * share;
                at_two = value(two);
            }
        }
        if best.1 < -self.near {
            [(first, best.0), (best.0, last)].iter().filter_map(|(low, high)| self.crossing(*low, *high)).collect()
        } else if best.1 <= self.near {
            vec![self.widened(best.0, best.0, Some(first), Some(last))]
        } else {
            Vec::new()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn zeros(f: impl Fn(f64) -> f64, from: f64, to: f64) -> Vec<Zero> {
        let places = (0..=100).map(|at| from + (to - from) * f64::from(at) / 100.0);
        let at = places.map(|x| (x, f(x))).collect();
        Tried { f: &f, at, near: 1e-11, noise: 1e-15 }.zeros()
    }

    fn places(f: impl Fn(f64) -> f64, from: f64, to: f64) -> Vec<f64> {
        let each = zeros(f, from, to).into_iter().map(|zero| match zero {
            Zero::At(at) => at,
            Zero::Along(from, to) => panic!("a stretch from {from} to {to}"),
        });
        each.collect()
    }

    #[track_caller]
    fn near(found: &[f64], wanted: &[f64], by: f64) {
        assert_eq!(found.len(), wanted.len(), "{found:?}");
        assert!(found.iter().zip(wanted).all(|(a, b)| (a - b).abs() <= by), "{found:?}");
    }

    #[test]
    fn crossings_touches_and_close_pairs_are_found() {
        near(&places(|x| x * x - 2.0, 0.0, 5.0), &[2f64.sqrt()], 1e-12);
        near(&places(|x| (x - 1.2345).powi(2), 0.0, 5.0), &[1.2345], 1e-5);
        // Two roots a hundredth of the distance between two tries apart, and closer than a try is wide.
        near(&places(|x| (x - 1.2345) * (x - 1.2350), 0.0, 5.0), &[1.2345, 1.2350], 1e-9);
        near(&places(|x| -(x - 1.2345) * (x - 1.2350), 0.0, 5.0), &[1.2345, 1.2350], 1e-9);
        near(&places(|x| (x - 1.0) * (x - 1.0), 0.0, 5.0), &[1.0], 1e-9);
        assert_eq!(places(|x| (x - 1.2345).powi(2) + 1e-6, 0.0, 5.0), [0.0; 0]);
    }

    #[test]
    fn a_stretch_is_told_with_its_ends() {
        let plateau = |x: f64| (x - 2.0).clamp(0.0, 1.0);
        let Zero::Along(from, to) = zeros(plateau, 0.0, 5.0)[0] else { panic!() };
        assert!(from == 0.0 && (to - 2.0).abs() < 1e-10, "{from} to {to}");
        // Narrower than the distance between two tries, stepped, and between values of one sign or two.
        for step in [
            (|x: f64| {
                if x < 1.21 {
                    -1.0
                } else if x <= 1.22 {
                    0.0
                } else {
                    1.0
                }
            }) as fn(f64) -> f64,
            |x: f64| {
                if x < 1.21 {
                    1.21 - x
                } else if x <= 1.22 {
                    0.0
                } else {
                    x - 1.22
                }
            },
        ] {
            let found = zeros(step, 0.0, 5.0);
            let [Zero::Along(from, to)] = found[..] else { panic!("{found:?}") };
            assert!((from - 1.21).abs() < 1e-9 && (to - 1.22).abs() < 1e-9, "{from} to {to}");
        }
        assert_eq!(zeros(|x| if x < 1.2 { -1.0 } else { 1.0 }, 0.0, 5.0), []);
    }

    #[test]
    fn a_root_between_the_last_try_and_the_end_of_the_values_is_found() {
        let f = |x: f64| if x < 1.234 { f64::NAN } else { x - 1.235 };
        near(&places(f, 0.0, 5.0), &[1.235], 1e-12);
    }

    #[test]
    fn a_bounded_number_of_values_is_asked_for() {
        let count = std::cell::Cell::new(0);
        let f = |x: f64| {
            count.set(count.get() + 1);
            (x * 40.0).sin() + 1.0 + 1e-6
        };
        assert_eq!(zeros(f, 0.0, 5.0), []);
        assert!(count.get() < 100 + 16 * 64, "{}", count.get());
    }
}
