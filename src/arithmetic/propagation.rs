//! How tolerances on inputs spread to results: worst case and root-sum-square, by partial
//! derivatives where the result is smooth (JCGM 100:2008, 5.1.2 and 5.1.4) and at the corners of the
//! tolerances and inside them where it steps, bends or changes its branch. Takes any function.

use super::extremes::Search;

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
    let mut computed: Vec<(Vec<f64>, Outcome)> =
        corners(inputs).map(|point| at(&point).map(|outcome| (point, outcome))).collect::<Result<_, _>>()?;
    // Each input alone, for what it does by itself.
    let mut alone = Vec::with_capacity(inputs.len());
    for (number, input) in inputs.iter().enumerate() {
        let moved = |by: f64| {
            let mut point = middle.clone();
            point[number] = input.value + by;
            at(&point).map(|outcome| (point, outcome))
        };
        alone.push((moved(-input.minus)?.1, moved(input.plus)?.1));
        for half in [-input.minus / 2.0, input.plus / 2.0].into_iter().filter(|half| *half != 0.0) {
            computed.push(moved(half)?);
        }
    }
    let slopes = slopes(inputs, &middle, &nominal, &f);
    let mut out = Propagated::default();
    let mut bent: Vec<(usize, usize)> = Vec::new();
    for (number, (path, value)) in nominal.numbers.iter().enumerate() {
        let reached: Option<Vec<f64>> = computed.iter().map(|(_, outcome)| found(outcome, number, path)).collect();
        let alone: Option<Vec<(f64, f64)>> =
            alone.iter().map(|(low, high)| Some((found(low, number, path)?, found(high, number, path)?))).collect();
        let (Some(reached), Some(alone)) = (reached, alone) else {
            out.changes.push(path.clone());
            continue;
        };
        let slopes: Option<Vec<f64>> = slopes.iter().map(|list| list.get(number).copied().flatten()).collect();
        let spread = spread(inputs, *value, &computed, &reached, &alone, slopes.as_deref());
        if spread.method != Method::Derivatives {
            bent.push((number, out.spreads.len()));
        }
        out.spreads.push((path.clone(), spread));
    }
    if !bent.is_empty() {
        computed.push((middle, nominal.clone()));
        let mut search = Search::new(inputs, &f, computed);
        search.sample()?;
        for (number, place) in bent {
            let (path, value) = &nominal.numbers[number];
            let ends = search.extremes(|outcome| found(outcome, number, path))?;
            let spread = &mut out.spreads[place].1;
            let (minus, plus) = (value - ends.0, ends.1 - value);
            let more = |inside: f64, corners: f64| inside > corners + (spread.minus + spread.plus) * 1e-6;
            if more(minus, spread.minus) || more(plus, spread.plus) {
                spread.method = Method::Inside;
            }
            (spread.minus, spread.plus) = (spread.minus.max(minus), spread.plus.max(plus));
        }
        computed = search.computed;
    }
    let gone = |path: &str, number: usize| computed.iter().any(|(_, outcome)| found(outcome, number, path).is_none());
    for (number, (path, _)) in nominal.numbers.iter().enumerate() {
        if gone(path, number) && !out.changes.contains(path) {
            out.spreads.retain(|(known, _)| known != path);
            out.changes.push(path.clone());
        }
    }
    let changed = nominal.words.iter().filter(|(path, words)| {
        let same = |outcome: &Outcome| outcome.words.iter().any(|(known, is)| known == path && is == words);
        !computed.iter().all(|(_, outcome)| same(outcome))
    });
    out.changes.splice(0..0, changed.map(|(path, _)| path.clone()));
    Ok(out)
}

/// The number of that path, which is usually at the same place in the list.
fn found(outcome: &Outcome, number: usize, path: &str) -> Option<f64> {
    match outcome.numbers.get(number) {
        Some((known, value)) if known == path => Some(*value),
        _ => outcome.numbers.iter().find(|(known, _)| known == path).map(|(_, value)| *value),
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

/// For each input, the derivative of each of the nominal numbers.
fn slopes(
    inputs: &[Toleranced],
    middle: &[f64],
    nominal: &Outcome,
    f: &impl Fn(&[f64]) -> Option<Outcome>,
) -> Vec<Vec<Option<f64>>> {
    let slope = |(at, input): (usize, &Toleranced)| {
        // A step well inside the tolerance, yet wide enough to rise above rounding.
        let step = ((input.plus + input.minus) / 200.0).max(input.value.abs() * 1e-7);
        let moved = |by: f64| {
            let mut point = middle.to_vec();
            point[at] += by;
            f(&point)
        };
        let (low, high) = (moved(-step), moved(step));
        let of = |(number, (path, value)): (usize, &(String, f64))| {
            let at = |side: &Option<Outcome>| side.as_ref().and_then(|outcome| found(outcome, number, path));
            match (at(&low), at(&high)) {
                (Some(low), Some(high)) => Some((high - low) / (2.0 * step)),
                (None, Some(high)) => Some((high - value) / step),
                (Some(low), None) => Some((value - low) / step),
                (None, None) => None,
            }
        };
        nominal.numbers.iter().enumerate().map(of).collect()
    };
    inputs.iter().enumerate().map(slope).collect()
}

fn spread(
    inputs: &[Toleranced],
    value: f64,
    computed: &[(Vec<f64>, Outcome)],
    reached: &[f64],
    alone: &[(f64, f64)],
    slopes: Option<&[f64]>,
) -> Spread {
    let effect = |(low, high): &(f64, f64)| (high - low).abs().max((low - value).abs()).max((high - value).abs());
    let most_from = (0..inputs.len())
        .max_by(|a, b| effect(&alone[*a]).total_cmp(&effect(&alone[*b])).then(b.cmp(a)))
        .unwrap_or_default();
    if let Some(slopes) = slopes {
        let (mut minus, mut plus, mut squares) = (0.0, 0.0, 0.0);
        for (slope, input) in slopes.iter().zip(inputs) {
            let (down, up) = if *slope < 0.0 { (input.plus, input.minus) } else { (input.minus, input.plus) };
            minus += slope.abs() * down;
            plus += slope.abs() * up;
            squares += (slope * (input.plus + input.minus) / 2.0).powi(2);
        }
        let linear = |point: &[f64]| {
            let moved = slopes.iter().zip(point).zip(inputs).map(|((slope, x), input)| slope * (x - input.value));
            value + moved.sum::<f64>()
        };
        // Smooth enough: the straight line misses no point by more than a fiftieth of the spread.
        let near = ((plus + minus) / 2.0) * 0.02 + value.abs() * 1e-12;
        if computed.iter().zip(reached).all(|((point, _), is)| (linear(point) - is).abs() <= near) {
            return Spread { minus, plus, root_sum_square: squares.sqrt(), most_from, method: Method::Derivatives };
        }
    }
    // What lies inside is told from what the corners reach.
    let reach = reached[..1 << inputs.len()].iter().chain(alone.iter().flat_map(|(low, high)| [low, high])).copied();
    let least = reach.clone().fold(value, f64::min);
    let greatest = reach.fold(value, f64::max);
    let squares: f64 = alone.iter().map(|ends| (effect(ends) / 2.0).powi(2)).sum();
    Spread {
        minus: value - least,
        plus: greatest - value,
        root_sum_square: squares.sqrt(),
        most_from,
        method: Method::Corners,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plus_minus(value: f64, by: f64) -> Toleranced {
        Toleranced { value, plus: by, minus: by }
    }

    fn one(value: f64) -> Option<Outcome> {
        value.is_finite().then(|| Outcome { numbers: vec![("y".into(), value)], words: Vec::new() })
    }

    fn spread_of(inputs: &[Toleranced], f: impl Fn(&[f64]) -> f64) -> Spread {
        propagate(inputs, |x| one(f(x))).unwrap().spreads[0].1
    }

    #[test]
    fn a_radius_from_chord_and_height_is_worse_than_its_inputs() {
        let r = |x: &[f64]| x[0] * x[0] / (8.0 * x[1]) + x[1] / 2.0;
        let spread = spread_of(&[plus_minus(60.0, 0.02), plus_minus(4.0, 0.02)], r);
        // dr/dc = c/(4h) = 3.75, dr/dh = 1/2 - c²/(8h²) = -27.625.
        assert!((spread.plus - 0.6275).abs() < 1e-6, "{spread:?}");
        assert!((spread.root_sum_square - (0.075f64.powi(2) + 0.5525f64.powi(2)).sqrt()).abs() < 1e-6);
        assert_eq!((spread.most_from, spread.method), (1, Method::Derivatives));
    }

    #[test]
    fn the_end_gauge_of_gum_h1_has_its_standard_uncertainty() {
        // JCGM 100:2008, H.1: l = l_s + d - l_s (δα θ + α_s δθ), in nm; u(l) = 32 nm first order,
        // the component of δθ 16.6 nm. d combines 5.8, 3.9 and 6.7 nm (H.1.3.2), θ combines 0.2 and
        // 0.35 °C, δα ±1e-6 and δθ ±0.05 °C are rectangular.
        let inputs = [
            plus_minus(50_000_623.0, 25.0),
            plus_minus(215.0, (5.8f64.powi(2) + 3.9f64.powi(2) + 6.7f64.powi(2)).sqrt()),
            plus_minus(0.0, 1e-6 / 3f64.sqrt()),
            plus_minus(-0.1, 0.41),
            plus_minus(11.5e-6, 2e-6 / 3f64.sqrt()),
            plus_minus(0.0, 0.05 / 3f64.sqrt()),
        ];
        let l = |x: &[f64]| x[0] + x[1] - x[0] * (x[2] * x[3] + x[4] * x[5]);
        let spread = spread_of(&inputs, l);
        assert!((spread.root_sum_square - 32.0).abs() < 0.5, "{spread:?}");
        assert_eq!(spread.most_from, 0);
        let alone = spread_of(&inputs[5..], |x| l(&[50_000_623.0, 215.0, 0.0, -0.1, 11.5e-6, x[0]]));
        assert!((alone.root_sum_square - 16.599).abs() < 0.001, "{alone:?}");
    }

    #[test]
    fn the_impedance_of_gum_h2_has_its_standard_uncertainties() {
        // JCGM 100:2008, H.2: voltage in V, current in A and phase in rad, read five times together. The readings
        // are Table H.2 from memory; the correlations and results they must give are those quoted by the test suite
        // of Sandia's suncal. The means hang together, so they are written by three numbers that do not, of standard
        // deviation 1, through the Cholesky factor of their covariances.
        let readings = [
            [5.007, 4.994, 5.005, 4.990, 4.999],
            [19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3],
            [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
        ];
        let mean = readings.map(|of| of.iter().sum::<f64>() / 5.0);
        let covariance = |i: usize, j: usize| {
            (0..5).map(|k| (readings[i][k] - mean[i]) * (readings[j][k] - mean[j])).sum::<f64>() / 20.0
        };
        let r = |i, j| covariance(i, j) / (covariance(i, i) * covariance(j, j)).sqrt();
        for (stated, found) in [(-0.3553, r(0, 1)), (0.8576, r(0, 2)), (-0.6451, r(1, 2))] {
            assert!((stated - found).abs() < 1e-4, "{found}");
        }
        let mut factor = [[0.0; 3]; 3];
        for i in 0..3 {
            for j in 0..=i {
                let rest = covariance(i, j) - (0..j).map(|k| factor[i][k] * factor[j][k]).sum::<f64>();
                factor[i][j] = if i == j { rest.sqrt() } else { rest / factor[j][j] };
            }
        }
        let at = |z: &[f64], i: usize| mean[i] + (0..3).map(|k| factor[i][k] * z[k]).sum::<f64>();
        let inputs = [plus_minus(0.0, 1.0); 3];
        let resistance = |z: &[f64]| at(z, 0) / at(z, 1) * at(z, 2).cos();
        assert!((resistance(&[0.0; 3]) - 127.732).abs() < 1e-3);
        let reactance = spread_of(&inputs, |z| at(z, 0) / at(z, 1) * at(z, 2).sin());
        assert!((reactance.root_sum_square - 0.295).abs() < 1e-3, "{reactance:?}");
        let impedance = spread_of(&inputs, |z| at(z, 0) / at(z, 1));
        assert!((impedance.root_sum_square - 0.236).abs() < 1e-3, "{impedance:?}");
    }

    #[test]
    fn the_expansion_of_nist_tn_1900_e13_has_its_standard_uncertainty() {
        // NIST TN 1900, E13: α = (L1 - L0) / (L0 (T1 - T0)). The result is that quoted by the test suite of Sandia's
        // suncal, to its three figures; the inputs' standard uncertainties are taken as stated.
        let inputs =
            [(1.4999, 1e-4), (288.15, 0.02), (1.5021, 2e-4), (373.10, 0.05)].map(|(value, u)| plus_minus(value, u));
        let spread = spread_of(&inputs, |x| (x[2] - x[0]) / (x[0] * (x[3] - x[1])));
        assert!((spread.root_sum_square - 1.76e-6).abs() < 1e-8, "{spread:?}");
        assert_eq!(spread.most_from, 2);
    }

    #[test]
    fn unequal_tolerances_go_the_way_the_slope_points() {
        let input = Toleranced { value: 2.0, plus: 0.002, minus: 0.0 };
        let falling = spread_of(&[input], |x| -3.0 * x[0]);
        assert!((falling.minus - 0.006).abs() < 1e-12 && falling.plus.abs() < 1e-12, "{falling:?}");
    }

    #[test]
    fn a_stepped_result_is_solved_at_the_corners() {
        let spread = spread_of(&[plus_minus(10.4, 0.2)], |x| x[0].round());
        assert_eq!((spread.minus, spread.plus, spread.method), (0.0, 1.0, Method::Corners));
    }

    #[test]
    fn a_bend_is_solved_at_the_corners() {
        let spread = spread_of(&[plus_minus(0.0, 0.5)], |x| x[0].cos());
        assert!((spread.minus - (1.0 - 0.5f64.cos())).abs() < 1e-12 && spread.plus == 0.0, "{spread:?}");
        assert_eq!(spread.method, Method::Corners);
    }

    #[test]
    fn an_extreme_inside_the_tolerances_is_found() {
        // r = c²/8h + h/2 is least where h is half the chord.
        let r = |x: &[f64]| x[0] * x[0] / (8.0 * x[1]) + x[1] / 2.0;
        let exact = Toleranced { value: 20.0, plus: 0.0, minus: 0.0 };
        let spread = spread_of(&[exact, plus_minus(11.0, 2.0)], r);
        let (least, greatest) = (10.0, 400.0 / (8.0 * 13.0) + 6.5);
        let value = r(&[20.0, 11.0]);
        assert!((value - spread.minus - least).abs() < 1e-9, "{spread:?}");
        assert_eq!((spread.plus, spread.method), (greatest - value, Method::Inside));
        // Wholly inside, away from every axis and edge; and along a diagonal.
        let bowl =
            |x: &[f64]| (x[0] - 0.31).powi(2) + 2.0 * (x[1] + 0.47).powi(2) + 0.5 * (x[0] - 0.31) * (x[1] + 0.47);
        let spread = spread_of(&[plus_minus(0.0, 1.0), plus_minus(0.0, 1.0)], bowl);
        assert!((bowl(&[0.0, 0.0]) - spread.minus).abs() < 1e-6, "{spread:?}");
        let spread = spread_of(&[plus_minus(1.0, 1.0), plus_minus(2.0, 1.0)], |x| (x[0] - x[1]).powi(2));
        assert!((spread.minus - 1.0).abs() < 1e-9 && (spread.plus - 8.0).abs() < 1e-9, "{spread:?}");
    }

    #[test]
    fn worst_cases_agree_with_dense_scans() {
        let cases: [(&str, fn(&[f64]) -> f64, &[Toleranced]); 6] = [
            ("cosine", |x| (3.0 * x[0]).cos() + x[1], &[plus_minus(0.3, 1.5), plus_minus(0.0, 0.2)]),
            ("product", |x| x[0] * x[1], &[plus_minus(0.2, 1.0), plus_minus(-0.1, 1.0)]),
            ("saddle", |x| x[0] * x[0] - x[1] * x[1], &[plus_minus(0.1, 1.0), plus_minus(0.2, 1.0)]),
            ("ratio", |x| x[0] / (1.0 + x[0] * x[0]) * x[1], &[plus_minus(0.8, 0.7), plus_minus(1.0, 0.1)]),
            ("cubic", |x| x[0].powi(3) - x[0], &[plus_minus(0.1, 1.2)]),
            (
                "three",
                |x| (x[0] - 0.2).abs() + (x[1] * x[2]).sin(),
                &[plus_minus(0.0, 1.0), plus_minus(1.0, 1.0), plus_minus(1.5, 0.7)],
            ),
        ];
        for (name, f, inputs) in cases {
            let spread = spread_of(inputs, f);
            let value = f(&inputs.iter().map(|input| input.value).collect::<Vec<_>>());
            let steps: usize = if inputs.len() == 3 { 120 } else { 2000 };
            let (mut least, mut greatest) = (value, value);
            for number in 0..(steps + 1).pow(inputs.len().min(3) as u32).min(4_100_000) {
                let mut rest = number;
                let point: Vec<f64> = inputs
                    .iter()
                    .map(|input| {
                        let at = (rest % (steps + 1)) as f64 / steps as f64;
                        rest /= steps + 1;
                        input.value - input.minus + at * (input.minus + input.plus)
                    })
                    .collect();
                let is = f(&point);
                (least, greatest) = (least.min(is), greatest.max(is));
            }
            let reach = greatest - least;
            assert!(value - spread.minus <= least + reach * 1e-6, "{name}: {spread:?}, least {least}");
            assert!(value + spread.plus >= greatest - reach * 1e-6, "{name}: {spread:?}, greatest {greatest}");
            assert!(value - spread.minus >= least - reach * 2e-3, "{name}: {spread:?}, least {least}");
            assert!(value + spread.plus <= greatest + reach * 2e-3, "{name}: {spread:?}, greatest {greatest}");
        }
    }

    #[test]
    fn a_straight_result_is_cheap_and_a_bent_one_bounded() {
        let count = std::cell::Cell::new(0);
        let counted = |f: fn(&[f64]) -> f64, inputs: usize| {
            count.set(0);
            spread_of(&vec![plus_minus(1.0, 0.5); inputs], |x| {
                count.set(count.get() + 1);
                f(x)
            });
            count.get()
        };
        assert!(counted(|x| 2.0 * x[0] + x[1], 2) <= 1 + 4 + 4 * 2 + 2 * 2);
        assert!(counted(|x| x.iter().map(|x| (9.0 * x).sin()).sum(), 6) < 64 + 36 + super::super::extremes::MOST);
    }

    #[test]
    fn a_point_without_a_result_is_given_back() {
        let outcome = propagate(&[plus_minus(1.0, 2.0)], |x| one(x[0].sqrt()));
        assert_eq!(outcome.unwrap_err(), [-1.0]);
    }
}
