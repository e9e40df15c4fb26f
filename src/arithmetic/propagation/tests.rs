//! Spreads against worked examples of the guides, dense scans and by hand.

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
fn words_and_numbers_that_come_and_go_are_told() {
    let f = |x: &[f64]| {
        let mut outcome = one(x[0])?;
        outcome.words = vec![("kind".into(), "same".into()), ("side".into(), (x[0] > 1.0).to_string())];
        outcome.numbers.extend((x[0] < 1.05).then(|| ("z".to_owned(), 1.0)));
        Some(outcome)
    };
    let propagated = propagate(&[plus_minus(1.0, 0.1)], f).unwrap();
    assert_eq!(propagated.changes, ["side", "z"]);
    assert_eq!(propagated.spreads.iter().map(|(path, _)| path.as_str()).collect::<Vec<_>>(), ["y"]);
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
    let bowl = |x: &[f64]| (x[0] - 0.31).powi(2) + 2.0 * (x[1] + 0.47).powi(2) + 0.5 * (x[0] - 0.31) * (x[1] + 0.47);
    let spread = spread_of(&[plus_minus(0.0, 1.0), plus_minus(0.0, 1.0)], bowl);
    assert!((bowl(&[0.0, 0.0]) - spread.minus).abs() < 1e-6, "{spread:?}");
    let spread = spread_of(&[plus_minus(1.0, 1.0), plus_minus(2.0, 1.0)], |x| (x[0] - x[1]).powi(2));
    assert!((spread.minus - 1.0).abs() < 1e-9 && (spread.plus - 8.0).abs() < 1e-9, "{spread:?}");
}

#[test]
fn worst_cases_agree_with_dense_scans() {
    type Case = (&'static str, fn(&[f64]) -> f64, Vec<Toleranced>);
    let cases: [Case; 6] = [
        ("cosine", |x| (3.0 * x[0]).cos() + x[1], vec![plus_minus(0.3, 1.5), plus_minus(0.0, 0.2)]),
        ("product", |x| x[0] * x[1], vec![plus_minus(0.2, 1.0), plus_minus(-0.1, 1.0)]),
        ("saddle", |x| x[0] * x[0] - x[1] * x[1], vec![plus_minus(0.1, 1.0), plus_minus(0.2, 1.0)]),
        ("ratio", |x| x[0] / (1.0 + x[0] * x[0]) * x[1], vec![plus_minus(0.8, 0.7), plus_minus(1.0, 0.1)]),
        ("cubic", |x| x[0].powi(3) - x[0], vec![plus_minus(0.1, 1.2)]),
        (
            "three",
            |x| (x[0] - 0.2).abs() + (x[1] * x[2]).sin(),
            vec![plus_minus(0.0, 1.0), plus_minus(1.0, 1.0), plus_minus(1.5, 0.7)],
        ),
    ];
    for (name, f, inputs) in cases {
        let spread = spread_of(&inputs, f);
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
    assert!(counted(|x| 2.0 * x[0] + x[1], 2) <= 1 + 4 + 2 * 2 + 2 * 2 + 2 * 2);
    assert!(counted(|x| x.iter().map(|x| (9.0 * x).sin()).sum(), 6) < 64 + 36 + crate::arithmetic::extremes::MOST);
}

#[test]
fn a_point_without_a_result_is_given_back() {
    let outcome = propagate(&[plus_minus(1.0, 2.0)], |x| one(x[0].sqrt()));
    assert_eq!(outcome.unwrap_err(), [-1.0]);
}
