//! Bolt circles: exact places, conventions, what is refused, and the laws every pattern obeys.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;
use shop_reckoner::refusal::Refusal;

fn answer(query: &str) -> Result<Value, Refusal> {
    asked(find("patterns/bolt-circle").expect("the calculator"), query)
}

fn solved(query: &str) -> Value {
    answer(query).unwrap_or_else(|refusal| panic!("{query}: {refusal:?}"))
}

fn column(answer: &Value, name: &str) -> Vec<f64> {
    let rows = answer["result"]["positions"].as_array().unwrap();
    rows.iter().map(|row| row[name]["value"].as_f64().or(row[name].as_f64()).unwrap()).collect()
}

fn places(query: &str) -> Vec<(f64, f64)> {
    let answer = solved(query);
    column(&answer, "x").into_iter().zip(column(&answer, "y")).collect()
}

fn notes(query: &str) -> Vec<String> {
    let answer = solved(query);
    answer["notes"].as_array().unwrap().iter().map(|note| note["code"].as_str().unwrap().to_owned()).collect()
}

/// Field, code and value to try.
fn refused(query: &str) -> Vec<(String, &'static str, String)> {
    let wrongs = answer(query).unwrap_err().0;
    wrongs.into_iter().map(|w| (w.field, w.code.as_str(), w.try_this.unwrap())).collect()
}

#[test]
fn zeros_and_halves_are_exact() {
    assert_eq!(places("diameter=4in&holes=4"), [(2.0, 0.0), (0.0, 2.0), (-2.0, 0.0), (0.0, -2.0)]);
    let twelve = solved("diameter=4in&holes=12&start_angle=90deg");
    for at in [0, 6] {
        assert_eq!(column(&twelve, "x")[at], 0.0);
    }
    for (at, y) in [(0, 2.0), (2, 1.0), (3, 0.0), (4, -1.0), (6, -2.0), (9, 0.0), (10, 1.0)] {
        assert_eq!(column(&twelve, "y")[at], y, "hole {at}");
    }
    // 7 steps of 360/7: the last hole of 8 in 360·7/7 would be the first.
    let angles = column(&solved("diameter=100mm&holes=360&start_angle=-180deg"), "angle");
    assert_eq!(angles[..2], [180.0, 181.0]);
    assert_eq!(angles[180], 0.0);
}

#[test]
fn a_tiny_start_angle_is_not_snapped_to_zero() {
    let y = column(&solved("diameter=4in&holes=4&start_angle=0.0000001deg"), "y")[0];
    assert!((y / (2.0 * 1e-7f64.to_radians()) - 1.0).abs() < 1e-14, "{y}");
    let y = column(&solved("diameter=4in&holes=4&start_angle=-0.0000001deg"), "y")[0];
    assert!((y / (-2.0 * 1e-7f64.to_radians()) - 1.0).abs() < 1e-14, "{y}");
}

#[test]
fn each_convention_puts_the_first_quarter_where_it_says() {
    for (convention, second) in [
        ("", (0.0, 2.0)),
        ("&hole_order=clockwise", (0.0, -2.0)),
        ("&angle_sense=clockwise&hole_order=clockwise", (0.0, -2.0)),
        ("&angle_sense=clockwise", (0.0, 2.0)),
        ("&angle_from=y_axis&start_angle=-90deg", (0.0, 2.0)),
        ("&angle_from=y_axis&angle_sense=clockwise&start_angle=90deg&hole_order=clockwise", (0.0, -2.0)),
    ] {
        let found = places(&format!("diameter=4in&holes=4{convention}"));
        assert_eq!(found[..2], [(2.0, 0.0), second], "{convention}");
    }
}

#[test]
fn angles_are_printed_in_the_convention_asked_for_below_a_full_turn() {
    for (query, expected) in [
        ("", [0.0, 90.0, 180.0, 270.0]),
        ("&start_angle=90deg", [90.0, 180.0, 270.0, 0.0]),
        ("&hole_order=clockwise", [0.0, 270.0, 180.0, 90.0]),
        ("&angle_sense=clockwise&hole_order=clockwise", [0.0, 90.0, 180.0, 270.0]),
        ("&angle_from=y_axis&angle_sense=clockwise", [0.0, 270.0, 180.0, 90.0]),
        ("&start_angle=-750deg", [330.0, 60.0, 150.0, 240.0]),
    ] {
        assert_eq!(column(&solved(&format!("diameter=4in&holes=4{query}")), "angle"), expected, "{query}");
    }
}

#[test]
fn a_partial_sweep_has_holes_at_both_ends_and_can_run_backwards() {
    assert_eq!(column(&solved("diameter=4in&holes=4&sweep=90deg"), "angle"), [0.0, 30.0, 60.0, 90.0]);
    assert_eq!(column(&solved("diameter=4in&holes=3&sweep=-90deg"), "angle"), [0.0, 315.0, 270.0]);
    let whole = solved("diameter=4in&holes=4&sweep=6.283185307179586rad");
    assert_eq!(column(&whole, "angle"), [0.0, 90.0, 180.0, 270.0]);
    assert_eq!(whole["result"]["step_angle"]["value"], 90.0);
    assert!(notes("diameter=4in&holes=5&sweep=350deg").contains(&"ends_close".to_owned()));
    assert!(!notes("diameter=4in&holes=5&sweep=288deg").contains(&"ends_close".to_owned()));
}

#[test]
fn only_keeps_the_numbers_and_moves_go_between_the_holes_listed() {
    let all = places("diameter=8in&holes=12");
    let some = solved("diameter=8in&holes=12&only=4,1,11");
    assert_eq!(column(&some, "number"), [4.0, 1.0, 11.0]);
    let dx = column(&some, "dx");
    for (found, expected) in dx.iter().zip([all[3].0, all[0].0 - all[3].0, all[10].0 - all[0].0]) {
        assert!((found - expected).abs() < 1e-13);
    }
}

#[test]
fn the_hole_picked_up_is_hole_1() {
    for convention in ["", "&angle_sense=clockwise", "&angle_from=y_axis", "&angle_from=y_axis&angle_sense=clockwise"] {
        for (x, y) in [(1.5, 2.0), (-2.5, 0.0), (0.0, -2.5), (-2.0, 1.5), (2.0, -1.5), (0.7, -2.4)] {
            let query =
                format!("diameter=5in&holes=6&through={} in,{} in&center_x=1in&center_y=-1in", x + 1.0, y - 1.0);
            let found = places(&format!("{query}{convention}"))[0];
            assert!((found.0 - x - 1.0).abs() < 1e-14 && (found.1 - y + 1.0).abs() < 1e-14, "{x} {y} {found:?}");
            assert!(!notes(&query).contains(&"through_off_circle".to_owned()));
        }
    }
    let off = "diameter=5in&holes=6&through=1.52 in,2 in";
    assert!(notes(off).contains(&"through_off_circle".to_owned()));
    for (x, percent) in [(2.001, "lies 0.05 percent"), (2.00001, "lies less than 0.01 percent")] {
        let answer = solved(&format!("diameter=4 in&holes=6&through={x} in,0 in"));
        let notes = answer["notes"].as_array().unwrap();
        let note = notes.iter().find(|note| note["code"] == "through_off_circle").expect("the note");
        assert!(note["says"].as_str().unwrap().contains(percent), "{note}");
    }
    let says = solved(off)["notes"][0]["says"].as_str().unwrap().to_owned();
    assert!(says.contains("0.48 percent farther"), "{says}");
    let wrong = &refused("diameter=5in&holes=6&through=1in,2in&center_x=1in&center_y=2in")[0];
    assert_eq!((wrong.0.as_str(), wrong.1), ("/through", "no_answer"));
}

#[test]
fn one_hole_has_no_step_and_no_chord() {
    let answer = solved("diameter=4in&holes=1&start_angle=30deg&hole_diameter=9in");
    assert_eq!(answer["result"].as_object().unwrap().keys().collect::<Vec<_>>(), ["positions"]);
    assert_eq!(column(&answer, "y"), [1.0]);
}

#[test]
fn pins_and_gap_follow_from_chord_and_hole() {
    let answer = solved("diameter=4in&holes=6&hole_diameter=0.5in");
    let value = |name: &str| answer["result"][name]["value"].as_f64().unwrap();
    assert_eq!(["adjacent_chord", "gap", "over_pins", "between_pins"].map(value), [2.0, 1.5, 2.5, 1.5]);
    assert_eq!(solved("diameter=4in&holes=6&hole_diameter=2in")["result"]["gap"]["value"], 0.0);
}

#[test]
fn holes_that_overlap_are_refused_with_values_that_do_not() {
    for (diameter, holes, hole, rest) in [
        ("4 in", "6", "2.01 in", ""),
        ("4 in", "6", "60 mm", ""),
        ("100 mm", "1000", "3 mm", ""),
        ("100 mm", "4", "150 mm", ""),
        ("4 in", "5", "0.5 in", "&sweep=350 deg"),
        ("4 in", "40", "0.5 in", "&sweep=-180 deg"),
        ("4 in", "40", "0.5 in", "&only=1,2,7"),
    ] {
        let query = |field: &str, value: &str| {
            let pick = |name: &str, given: &str| if name == field { value.to_owned() } else { given.to_owned() };
            format!(
                "diameter={}&holes={}&hole_diameter={}{rest}",
                pick("diameter", diameter),
                pick("holes", holes),
                pick("hole_diameter", hole)
            )
        };
        let wrongs = refused(&query("", ""));
        assert!(wrongs.len() >= 2);
        for (field, code, value) in wrongs {
            assert_eq!(code, "conflict");
            solved(&query(&field[1..], &value));
        }
    }
    assert_eq!(refused("diameter=4in&holes=6&hole_diameter=2.01in").last().unwrap().2, "5");
}

#[test]
fn holes_not_listed_may_overlap() {
    let answer = solved("diameter=4in&holes=12&only=1,4,7,10&hole_diameter=1.5in");
    assert!(answer["result"].get("gap").is_none() && answer["result"].get("over_pins").is_none());
    assert!(
        notes("diameter=4in&holes=12&only=1,4,7,10&hole_diameter=1.5in").contains(&"neighbours_overlap".to_owned())
    );
}

#[test]
fn what_cannot_be_is_refused() {
    for (query, field, code) in [
        ("diameter=4in&holes=0", "/holes", "value_out_of_range"),
        ("diameter=4in&holes=1001", "/holes", "value_out_of_range"),
        ("diameter=4in&holes=2.5", "/holes", "value_unreadable"),
        ("diameter=0in&holes=6", "/diameter", "value_out_of_range"),
        ("diameter=4in&holes=6&sweep=0deg", "/sweep", "value_out_of_range"),
        ("diameter=4in&holes=6&sweep=360.1deg", "/sweep", "value_out_of_range"),
        ("diameter=4in&holes=1&sweep=90deg", "/holes", "conflict"),
        ("diameter=4in&holes=6&only=1,7", "/only", "value_out_of_range"),
        ("diameter=4in&holes=6&only=0", "/only", "value_out_of_range"),
        ("diameter=4in&holes=6&only=1,2,1", "/only", "value_out_of_range"),
        ("diameter=4in&holes=6&through=1in,2in&start_angle=3deg", "/start_angle", "conflict"),
        ("holes=6", "/diameter", "field_missing"),
    ] {
        let wrong = &refused(query)[0];
        assert_eq!((wrong.0.as_str(), wrong.1), (field, code), "{query}");
    }
    assert_eq!(refused("diameter=4in&holes=6&only=3,7,3,1")[0].2, "3,1");
    // Bounds are found together with all else that cannot be read.
    assert_eq!(refused("diameter=4&holes=0&sweep=x").len(), 3);
}

#[test]
fn an_order_against_the_angles_is_said() {
    assert!(notes("diameter=4in&holes=4&angle_sense=clockwise").contains(&"order_against_angles".to_owned()));
    let both = "diameter=4in&holes=4&angle_sense=clockwise&hole_order=clockwise";
    assert!(!notes(both).contains(&"order_against_angles".to_owned()));
}

#[test]
fn moves_set_on_a_readout_sum_to_the_places_set() {
    let answer = solved("diameter=3.7in&holes=7&start_angle=11deg&resolution=0.0005in&center_x=1.23in");
    let rows = answer["result"]["positions"].as_array().unwrap();
    let counts = |value: &Value| (value["set_to"]["value"].as_f64().unwrap() / 0.0005).round();
    let mut at = 0.0;
    for row in rows {
        at += counts(&row["dx"]);
        assert_eq!(at, counts(&row["x"]));
    }
}

proptest! {
    #[test]
    fn every_hole_lies_on_the_circle_and_the_moves_lead_there(
        diameter in 1.0f64..2000.0, holes in 2u32..60, start in -720.0f64..720.0, sweep in -360.0f64..360.0,
        x in -500.0f64..500.0, y in -500.0f64..500.0, words in 0usize..8,
    ) {
        let [a, b, c] = [words & 1 != 0, words & 2 != 0, words & 4 != 0];
        let query = format!(
            "diameter={diameter} mm&holes={holes}&start_angle={start} deg&sweep={sweep} deg&center_x={x} mm&\
             center_y={y} mm&angle_from={}&angle_sense={}&hole_order={}",
            if a { "x_axis" } else { "y_axis" },
            if b { "clockwise" } else { "counterclockwise" },
            if c { "clockwise" } else { "counterclockwise" },
        );
        let answer = solved(&query);
        let (xs, ys) = (column(&answer, "x"), column(&answer, "y"));
        let (dxs, dys) = (column(&answer, "dx"), column(&answer, "dy"));
        let within = 1e-12 * (diameter + x.abs() + y.abs());
        let chord = answer["result"]["adjacent_chord"]["value"].as_f64().unwrap();
        let turn = sweep / f64::from(holes - 1) * if c { -1.0 } else { 1.0 };
        for at in 0..xs.len() {
            prop_assert!(((xs[at] - x).hypot(ys[at] - y) - diameter / 2.0).abs() < within);
            if at > 0 {
                prop_assert!((dxs[at].hypot(dys[at]) - chord).abs() < 2.0 * within);
                // Counterclockwise by a step: the cross product of the two radii.
                let cross = (xs[at - 1] - x) * (ys[at] - y) - (ys[at - 1] - y) * (xs[at] - x);
                let expected = diameter * diameter / 4.0 * turn.to_radians().sin();
                prop_assert!((cross - expected).abs() < 4.0 * within * diameter);
            }
        }
        prop_assert!((dxs.iter().sum::<f64>() - xs[xs.len() - 1]).abs() < within * f64::from(holes));
        prop_assert!((dys.iter().sum::<f64>() - ys[ys.len() - 1]).abs() < within * f64::from(holes));
        // The printed angle leads to the printed place.
        for (at, degrees) in column(&answer, "angle").into_iter().enumerate() {
            prop_assert!((0.0..360.0).contains(&degrees));
            let (sin, cos) = degrees.to_radians().sin_cos();
            let sign = if b { -1.0 } else { 1.0 };
            let (u, v) = if a { (cos, sign * sin) } else { (-sign * sin, cos) };
            prop_assert!((x + diameter / 2.0 * u - xs[at]).abs() < 4.0 * within);
            prop_assert!((y + diameter / 2.0 * v - ys[at]).abs() < 4.0 * within);
        }
    }

    #[test]
    fn a_full_circle_balances_about_its_centre(diameter in 1.0f64..2000.0, holes in 2u32..200, start in -360.0f64..360.0) {
        let answer = solved(&format!("diameter={diameter} mm&holes={holes}&start_angle={start} deg"));
        for axis in ["x", "y"] {
            prop_assert!(column(&answer, axis).iter().sum::<f64>().abs() < 1e-12 * diameter * f64::from(holes));
        }
    }
}
