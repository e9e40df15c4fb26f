//! Laws of fits: holes and shafts mirror each other, bands hold their edges, a thin ring is what a thin ring is, and a fit
//! found keeps what it was asked for.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;
use shop_reckoner::refusal::Refusal;

fn ask(id: &str, query: &str) -> Result<Value, Refusal> {
    asked(find(id).expect("the calculator"), query).map(|answer| answer["result"].clone())
}

fn value(result: &Value, path: &str) -> f64 {
    result.pointer(path).and_then(|at| at["value"].as_f64()).unwrap_or_else(|| panic!("no {path} in {result}"))
}

fn clearances(fit: &str) -> (f64, f64) {
    let result = ask("fits/limits", &format!("fit={fit}&units=metric")).expect(fit);
    (value(&result, "/least_clearance"), value(&result, "/greatest_clearance"))
}

fn same(a: (f64, f64), b: (f64, f64)) -> bool {
    (a.0 - b.0).abs() < 1e-9 && (a.1 - b.1).abs() < 1e-9
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    #[test]
    fn a_fit_on_the_shaft_leaves_what_the_same_fit_on_the_hole_does(size in 3.1..500.0f64, at in 0usize..8) {
        // The standard adds to holes of fine grades so that this holds also for a finer shaft.
        let (hole, shaft) = [
            ("H7/p6", "P7/h6"), ("H7/s6", "S7/h6"), ("H7/u6", "U7/h6"), ("H7/k6", "K7/h6"), ("H7/n6", "N7/h6"),
            ("H8/f7", "F8/h7"), ("H7/g6", "G7/h6"), ("H11/c11", "C11/h11"),
        ][at];
        let size = (size * 100.0).round() / 100.0;
        let (hole, shaft) = (clearances(&format!("{size} mm {hole}")), clearances(&format!("{size} mm {shaft}")));
        prop_assert!(same(hole, shaft), "{hole:?} on the hole, {shaft:?} on the shaft");
    }

    #[test]
    fn an_inch_fit_leaves_the_same_on_hole_and_shaft(size in 0.02..19.0f64, at in 0usize..7) {
        let class = ["RC2", "RC6", "LC5", "LT2", "LN3", "FN1", "FN4"][at];
        let asked = |basis: &str| {
            let query = format!("size={size:.3} in&class={class}&basis={basis}&units=inch");
            ask("fits/running", &query).expect("an answer")
        };
        let (hole, shaft) = (asked("hole"), asked("shaft"));
        for path in ["/least_clearance", "/greatest_clearance"] {
            prop_assert!((value(&hole, path) - value(&shaft, path)).abs() < 1e-12);
        }
        let nominal = format!("{size:.3}").parse::<f64>().expect("a number");
        prop_assert!((value(&hole, "/hole/least") - nominal).abs() < 1e-12);
        prop_assert!((value(&shaft, "/shaft/greatest") - nominal).abs() < 1e-12);
    }

    #[test]
    fn a_mate_to_suit_leaves_the_clearances_of_the_fit(off in -0.2..0.2f64) {
        let made = 40.0 + (off * 1000.0).round() / 1000.0;
        let result = ask("fits/limits", &format!("fit=40 mm H7/f7&measured_hole={made} mm&units=metric")).expect("one");
        let least = made - value(&result, "/shaft_to_suit/greatest");
        let most = made - value(&result, "/shaft_to_suit/least");
        prop_assert!(same((least, most), clearances("40 mm H7/f7")));
    }

    #[test]
    fn a_thin_ring_is_pulled_as_far_as_it_is_stretched(diameter in 50.0..500.0f64, thin in 0.0005..0.002f64) {
        // On a solid shaft a thousand times as thick all of the stretch is the ring's.
        let outside = diameter * (1.0 + 2.0 * thin);
        let query = format!(
            "diameter={diameter} mm&interference={} mm&hub_diameter={outside} mm&hub_modulus=200000 MPa&units=metric",
            diameter / 1000.0
        );
        let result = ask("fits/press", &query).expect("an answer");
        let pull = value(&result, "/hub_stress");
        prop_assert!((pull / 200.0 - 1.0).abs() < 3.0 * thin, "{pull} N/mm² at a stretch of a thousandth");
        let pressure = pull * 2.0 * thin;
        prop_assert!((value(&result, "/pressure") / pressure - 1.0).abs() < 3.0 * thin);
    }

    #[test]
    fn a_fit_said_to_keep_within_does(size in 1.5..300.0f64, least in -0.1..0.2f64, more in 0.02..0.4f64) {
        let (low, high) = ((least * 1e4).round() / 1e4, ((least + more) * 1e4).round() / 1e4);
        let query = format!("size={size:.2} mm&least_clearance={low} mm&greatest_clearance={high} mm&units=metric");
        let result = ask("fits/find", &query).expect("fits");
        let fits = result["fits"].as_array().expect("a list");
        prop_assert!(!fits.is_empty());
        let mut seen_outside = false;
        for fit in fits {
            let (least, most) = (value(fit, "/least_clearance"), value(fit, "/greatest_clearance"));
            let is_within = least >= low - 1e-9 && most <= high + 1e-9;
            prop_assert_eq!(fit["within"].as_bool(), Some(is_within), "{}", fit);
            prop_assert!(!(is_within && seen_outside), "those within come first");
            seen_outside |= !is_within;
            let name = fit["name"].as_str().expect("a name");
            let of_its_name = clearances(&format!("{size:.2} mm {name}"));
            prop_assert!(same((least, most), of_its_name), "{}", name);
        }
    }
}

#[test]
fn the_edges_of_bands_belong_to_the_smaller_one() {
    let upper =
        |fit: &str, path: &str| value(&ask("fits/limits", &format!("fit={fit}&units=metric")).expect(fit), path);
    assert_eq!(upper("50 mm H7", "/hole/upper_deviation"), 0.025);
    assert_eq!(upper("50.001 mm H7", "/hole/upper_deviation"), 0.030);
    assert_eq!(upper("315 mm M6", "/hole/upper_deviation"), -0.009);
    assert_eq!(upper("316 mm M6", "/hole/upper_deviation"), -0.010);
    for fit in ["0.8 mm a11", "20 mm t6", "12 mm v6", "12 mm cd8", "40 mm K9", "0 mm H7", "-1 mm h6", "3151 mm H7"] {
        assert!(ask("fits/limits", &format!("fit={fit}")).is_err(), "{fit}");
    }
}
