//! Arcs by every pair of sizes: what exists, what does not, and that suggestions work.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;
use shop_reckoner::refusal::Refusal;

const SIZES: [&str; 6] = ["radius", "chord", "height", "arc_length", "angle", "segment_area"];

fn answer(query: &str) -> Result<Value, Refusal> {
    asked(find("geometry/arc").expect("the calculator"), query)
}

fn solutions(query: &str) -> Vec<[f64; 6]> {
    let answer = answer(query).unwrap_or_else(|refusal| panic!("{query}: {refusal:?}"));
    let rows = answer["result"]["solutions"].as_array().unwrap();
    rows.iter().map(|row| SIZES.map(|name| row[name]["value"].as_f64().unwrap())).collect()
}

fn refused(query: &str) -> Vec<(String, &'static str, String)> {
    let wrongs = answer(query).unwrap_err().0;
    wrongs.into_iter().map(|w| (w.field, w.code.as_str(), w.try_this.unwrap())).collect()
}

#[test]
fn the_textbook_arc_is_found() {
    let found = solutions("chord=21mm&height=6mm");
    assert_eq!(found.len(), 1);
    assert_eq!(found[0][0], 12.1875);
    assert!((found[0][3] - 25.308373).abs() < 5e-7);
}

#[test]
fn a_radius_and_a_chord_have_two_arcs_and_a_diameter_one() {
    let found = solutions("radius=10mm&chord=12mm");
    assert_eq!(found.iter().map(|arc| arc[2]).collect::<Vec<_>>(), [2.0, 18.0]);
    for query in
        ["radius=2in&chord=4in", "radius=50.8mm&chord=4in", "radius=0.1in&chord=0.2in", "radius=2in&chord=101.6mm"]
    {
        let found = solutions(query);
        assert_eq!(found.len(), 1, "{query}");
        assert_eq!(found[0][4], 180.0, "{query}");
    }
    assert_eq!(solutions("radius=2in&chord=2in").iter().map(|arc| arc[4]).collect::<Vec<_>>(), [60.0, 300.0]);
}

#[test]
fn where_radius_and_chord_have_one_arc_the_working_says_why() {
    let why = |query: &str| {
        let answer = answer(query).expect("an arc");
        let steps = answer["working"].as_array().expect("steps").iter();
        let choices = steps.filter(|step| step["gives"]["field"] == "solutions.angle");
        choices.map(|step| step["formula"].as_str().expect("a rule").to_owned()).collect::<Vec<_>>().join("\n")
    };
    assert!(why("radius=30 mm&chord=60 mm").contains("the chord is a diameter"));
    assert!(why("radius=1000 m&chord=1e-12 m").contains("so nearly the full circle"));
}

#[test]
fn a_half_circle_by_length_and_area_is_one_solution() {
    let (length, area) = (std::f64::consts::PI, std::f64::consts::PI / 2.0);
    let found = solutions(&format!("arc_length={length}in&segment_area={area}in2"));
    assert_eq!(found.len(), 1);
    assert_eq!(found[0][4], 180.0);
}

#[test]
fn what_does_not_exist_is_refused_on_both_sizes_with_values_that_work() {
    for query in [
        "radius=2 in&chord=4.01 in", "radius=2 in&height=4 in", "radius=2 in&arc_length=12.6 in",
        "radius=2 in&segment_area=12.6 in2", "chord=10mm&arc_length=9mm", "chord=10mm&arc_length=10mm",
        "height=10mm&arc_length=27.6mm", "height=10mm&segment_area=78mm2", "arc_length=10 in&segment_area=16 in2",
        "radius=20 um&chord=3 thou",
    ] {
        let fields: Vec<(&str, &str)> = query.split('&').map(|pair| pair.split_once('=').unwrap()).collect();
        let wrongs = refused(query);
        assert_eq!(wrongs.len(), 2, "{query}");
        for (at, (field, code, value)) in wrongs.iter().enumerate() {
            assert_eq!((field.as_str(), *code), (format!("/{}", fields[at].0).as_str(), "no_answer"));
            let (other, given) = fields[1 - at];
            assert!(!solutions(&format!("{}={value}&{other}={given}", fields[at].0)).is_empty());
        }
    }
}

#[test]
fn fewer_or_more_than_two_are_refused_with_values_that_work() {
    assert_eq!(refused("").iter().map(|w| w.0.as_str()).collect::<Vec<_>>(), ["/chord", "/height"]);
    for (name, value) in [
        ("radius", "2 in"),
        ("chord", "33 mm"),
        ("height", "40 thou"),
        ("arc_length", "5 in"),
        ("angle", "200 deg"),
        ("segment_area", "7 in2"),
    ] {
        let wrongs = refused(&format!("{name}={value}"));
        assert_eq!(wrongs.len(), 5);
        for (field, code, other) in wrongs {
            assert_eq!(code, "field_missing");
            assert!(!solutions(&format!("{name}={value}&{}={other}", &field[1..])).is_empty());
        }
    }
    let wrongs = refused("radius=2in&chord=3in&height=1in");
    assert_eq!(
        wrongs.iter().map(|w| (w.0.as_str(), w.1)).collect::<Vec<_>>(),
        [("/chord", "conflict"), ("/height", "conflict"), ("/radius", "conflict"),]
    );
}

#[test]
fn a_full_turn_is_no_arc() {
    for angle in ["360 deg", "6.283185307179586 rad", "359.9999999999999999 deg"] {
        assert_eq!(refused(&format!("radius=2in&angle={angle}"))[0].1, "value_out_of_range", "{angle}");
    }
    assert_eq!(solutions("radius=2in&angle=359.9deg").len(), 1);
}

#[test]
fn a_shallow_arc_keeps_its_digits() {
    // Height c² / (8 r), area 2/3 c h, to the order of the squared angle, 1e-12.
    let arc = solutions("radius=100000mm&chord=0.1mm")[0];
    assert!((arc[2] / 1.25e-8 - 1.0).abs() < 2e-12, "{}", arc[2]);
    assert!((arc[5] / (2.0 / 3.0 * 0.1 * 1.25e-8) - 1.0).abs() < 2e-12, "{}", arc[5]);
}

#[test]
fn what_is_sensitive_is_said() {
    let codes = |query: &str| -> Vec<String> {
        let answer = answer(query).unwrap();
        answer["notes"].as_array().unwrap().iter().map(|note| note["code"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(codes("chord=21mm&height=6mm"), [""; 0]);
    assert_eq!(codes("chord=100mm&height=1mm"), ["shallow_height"]);
    assert_eq!(codes("chord=100mm&arc_length=100.1mm"), ["nearly_straight"]);
    assert_eq!(codes("radius=10mm&chord=12mm"), ["two_arcs"]);
    assert_eq!(codes("radius=10mm&chord=19.99mm"), ["two_arcs", "near_half_circle"]);
}

/// All six sizes of a circle's arc, from the definitions.
fn arc_of(radius: f64, degrees: f64) -> [f64; 6] {
    let angle = degrees.to_radians();
    let (sin, cos) = (angle / 2.0).sin_cos();
    [
        radius,
        2.0 * radius * sin,
        radius * (1.0 - cos),
        radius * angle,
        degrees,
        radius * radius * (angle / 2.0 - sin * cos),
    ]
}

fn near(a: f64, b: f64, within: f64) -> bool {
    (a - b).abs() <= within * a.abs().max(b.abs())
}

proptest! {
    #[test]
    fn from_any_pair_the_arc_itself_is_among_the_solutions(radius in 0.1f64..900.0, degrees in 1.0f64..359.0) {
        let whole = arc_of(radius, degrees);
        let unit = ["mm", "mm", "mm", "mm", "deg", "mm2"];
        for first in 0..6 {
            for second in first + 1..6 {
                let query = format!(
                    "{}={} {}&{}={} {}&units=metric",
                    SIZES[first], whole[first], unit[first], SIZES[second], whole[second], unit[second],
                );
                let found = solutions(&query);
                // Two solutions that meet are as sensitive as the root of what is left of the digits.
                let same = |arc: &[f64; 6]| (0..6).all(|at| near(arc[at], whole[at], 2e-5));
                prop_assert!(found.iter().any(same), "{query}: {found:?}");
                prop_assert!(found.iter().any(same) && found.len() <= 2);
                prop_assert!(found.windows(2).all(|pair| pair[0][4] < pair[1][4]));
            }
        }
    }

    #[test]
    fn every_solution_obeys_the_laws_of_the_circle(
        first in 0usize..6, second in 0usize..6, a in 0.01f64..100.0, b in 0.01f64..100.0,
    ) {
        prop_assume!(first != second);
        let (first, second) = (first.min(second), first.max(second));
        let unit = ["mm", "mm", "mm", "mm", "deg", "mm2"];
        let query = format!("{}={a} {}&{}={b} {}&units=metric", SIZES[first], unit[first], SIZES[second], unit[second]);
        let Ok(_) = answer(&query) else {
            prop_assert_eq!(refused(&query).len(), 2);
            return Ok(());
        };
        for arc in solutions(&query) {
            let [radius, chord, height, length, degrees, area] = arc;
            prop_assert!(arc.iter().all(|size| size.is_finite() && *size > 0.0) && degrees < 360.0);
            let law = arc_of(radius, degrees);
            prop_assert!((chord - law[1]).abs() <= 1e-12 * radius, "{query}: {arc:?}");
            prop_assert!((height - law[2]).abs() <= 1e-12 * radius, "{query}: {arc:?}");
            prop_assert!(near(length, law[3], 1e-12), "{query}: {arc:?}");
            prop_assert!((area - law[5]).abs() <= 1e-12 * radius * radius, "{query}: {arc:?}");
            // By the theorem of Pythagoras, without the angle.
            prop_assert!(near(chord * chord / 4.0 + (radius - height).powi(2), radius * radius, 1e-12), "{query}");
            for (at, given) in [(first, a), (second, b)] {
                prop_assert!(near(arc[at], given, 1e-14), "{query}: {arc:?}");
            }
        }
    }

    #[test]
    fn extreme_sizes_answer_or_refuse(
        first in 0usize..6, second in 0usize..6, a in -12f64..3.0, b in -12f64..3.0,
    ) {
        prop_assume!(first != second);
        let text = |at: usize, power: f64| match SIZES[at] {
            "angle" => format!("angle={} rad", 10f64.powf(power.min(0.79))),
            "segment_area" => format!("segment_area={:e} mm2", 10f64.powf(power + 6.0)),
            name => format!("{name}={:e} m", 10f64.powf(power)),
        };
        if let Ok(answer) = answer(&format!("{}&{}", text(first, a), text(second, b))) {
            for arc in answer["result"]["solutions"].as_array().unwrap() {
                for name in SIZES {
                    let value = arc[name]["value"].as_f64();
                    prop_assert!(value.is_some_and(|value| value.is_finite() && value > 0.0), "{name}: {arc}");
                }
            }
        }
    }
}
