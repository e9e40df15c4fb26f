//! What holes for screws must obey: charts that differ are named, what is turned round comes back, and parts fit in their
//! holes.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;

fn answer(id: &str, query: &str) -> Value {
    asked(find(id).expect(id), query).unwrap_or_else(|refusal| panic!("{id}?{query}: {}", refusal.words()))
}

fn refused(id: &str, query: &str) -> Vec<String> {
    let refusal = asked(find(id).expect(id), query).expect_err(query);
    refusal.0.into_iter().map(|wrong| format!("{} {}", wrong.field, wrong.says)).collect()
}

fn note<'a>(answer: &'a Value, code: &str) -> Option<&'a str> {
    answer["notes"].as_array()?.iter().find(|note| note["code"] == code)?["says"].as_str()
}

/// A result in millimeters.
fn mm(answer: &Value, name: &str) -> f64 {
    let quantity = &answer["result"][name];
    assert_eq!(quantity["unit"], "mm", "{name}: {quantity}");
    quantity["value"].as_f64().expect(name)
}

#[test]
fn a_chart_with_another_hole_is_named_with_its_size() {
    let m12 = answer("holes/clearance", "screw=M12&from=tables");
    assert_eq!(m12["result"]["hole_standard"], "ISO 273");
    assert_eq!(mm(&m12, "hole_diameter"), 13.5);
    let says = note(&m12, "charts_differ").expect("the other chart");
    assert!(says.contains("BS 4186") && says.contains("14") && says.contains("ISO 273 has 13.5"), "{says}");
    let quarter = answer("holes/clearance", "screw=1/4&from=tables");
    let says = note(&quarter, "charts_differ").expect("the shop's chart");
    assert!(says.contains("shop charts have 0.2660 in") && says.contains("B18.2.8 has 0.2810 in"), "{says}");
    for same in ["screw=M8&from=tables", "screw=M12&fit=close&from=tables"] {
        assert_eq!(note(&answer("holes/clearance", same), "charts_differ"), None, "{same}");
    }
}

#[test]
fn what_rests_on_memory_says_so() {
    for (id, query, trust) in [
        ("holes/clearance", "screw=M8&from=tables", "handbook"),
        ("holes/clearance", "screw=1/4&fit=medium&from=tables", "from memory"),
        ("holes/countersink", "screw=1/2&head=machine", "from memory"),
        ("holes/counterbore", "screw=M3&from=tables", "from memory"),
    ] {
        assert_eq!(answer(id, query)["trust"], trust, "{id}?{query}");
    }
}

#[test]
fn the_drill_is_the_smallest_that_the_hole_allows() {
    for (query, name, within) in [
        ("screw=M8&from=tables", "9 mm", true),
        ("screw=M8&systems=fraction,letter,number&from=tables", "T", false),
        ("screw=1/4&fit=close&from=tables", "17/64", true),
        ("screw=1/4&fit=close&systems=metric&from=tables", "6.8 mm", true),
        ("screw=M12&fit=medium&systems=fraction&from=tables", "35/64", false),
    ] {
        let found = answer("holes/clearance", query);
        let drill = &found["result"]["drill"];
        let is_within = drill["within"].as_bool().expect("within");
        if name != "T" {
            assert_eq!((drill["name"].as_str(), is_within), (Some(name), within), "{query}");
        }
        assert_eq!(note(&found, "drill_over_limit").is_some(), !is_within, "{query}");
    }
}

#[test]
fn a_counterbore_that_comes_through_is_refused_and_a_thin_floor_told() {
    assert_eq!(mm(&answer("holes/counterbore", "screw=M8&from=tables"), "depth"), 8.0);
    let thin = answer("holes/counterbore", "screw=M8&thickness=11 mm&from=tables");
    assert!(note(&thin, "thin_under_head").is_some());
    assert_eq!(note(&answer("holes/counterbore", "screw=M8&thickness=20 mm&from=tables"), "thin_under_head"), None);
    assert!(refused("holes/counterbore", "screw=M8&thickness=8 mm")[0].contains("through"));
    let says = answer("holes/counterbore", "screw=M8&from=tables");
    assert!(note(&says, "standard_depth").is_some_and(|says| says.contains("8.600 mm")));
}

#[test]
fn a_tool_of_another_angle_than_the_head_is_told_first() {
    let other = answer("holes/countersink", "screw=M6&point_angle=82 deg");
    assert_eq!(other["notes"][0]["code"], "angles_differ");
    assert_eq!(note(&answer("holes/countersink", "screw=M6"), "angles_differ"), None);
    assert!(refused("holes/countersink", "screw=M6&head=machine_100")[0].contains("inch"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    #[test]
    fn the_travel_found_gives_the_countersink_back(
        mouth in 2.0..40.0f64, angle in 40.0..140.0f64, part in 0.05..0.9f64, way in 0usize..3,
    ) {
        let tip = match way {
            0 => format!("hole_diameter={} mm", mouth * part),
            1 => format!("tip_flat={} mm", mouth * part),
            _ => format!("tip_radius={} mm", mouth * part),
        };
        let there = answer("holes/countersink", &format!("diameter={mouth} mm&point_angle={angle} deg&{tip}"));
        let travel = mm(&there, "travel");
        let back = answer("holes/countersink", &format!("quill_travel={travel} mm&point_angle={angle} deg&{tip}"));
        prop_assert!((mm(&back, "mouth_diameter") - mouth).abs() < 1e-9 * mouth);
        prop_assert!((mm(&back, "travel") - travel).abs() < 1e-9 * mouth);
    }

    #[test]
    fn a_spot_as_wide_as_the_drill_is_as_deep_as_the_point(diameter in 1.0..40.0f64, angle in 60.0..150.0f64) {
        let query = format!("diameter={diameter} mm&point_angle={angle} deg&mouth_diameter={diameter} mm");
        let spot = answer("holes/drill-point", &query);
        prop_assert!((mm(&spot, "tip_depth") - mm(&spot, "point_length")).abs() < 1e-9 * diameter);
    }

    #[test]
    fn both_depths_of_a_step_drill_lead_to_each_other(
        small in 1.0..20.0f64, ratio in 1.1..2.5f64, long in 0.0..3.0f64, deep in 0.0..2.0f64, angle in 60.0..180.0f64,
    ) {
        let drill = format!(
            "diameter={small} mm&step_diameter={} mm&step_length={} mm&step_angle={angle} deg",
            small * ratio, small * long
        );
        let there = answer("holes/drill-point", &format!("{drill}&step_floor={} mm", small * deep));
        let back = answer("holes/drill-point", &format!("{drill}&full_depth={} mm", mm(&there, "tip_depth") - mm(&there, "point_length")));
        prop_assert!((mm(&there, "tip_depth") - mm(&back, "tip_depth")).abs() < 1e-9 * small);
        prop_assert!((mm(&back, "large_depth") - small * deep).abs() < 1e-9 * small);
    }

    #[test]
    fn drills_between_two_limits_lie_there_with_their_room(least in 1.0..20.0f64, wide in 0.3..1.5f64) {
        let greatest = least + wide;
        let query = format!("least={least} mm&greatest={greatest} mm&systems=metric&count=50&from=tables&units=metric");
        let found = answer("holes/drill-size", &query);
        let drills = found["result"]["drills"].as_array().expect("drills");
        prop_assert!(!drills.is_empty());
        for drill in drills {
            let (size, room) = (mm_of(&drill["diameter"]), mm_of(&drill["room"]));
            prop_assert!(size >= least - 1e-9 && size <= greatest + 1e-9);
            prop_assert!((size + room - greatest).abs() < 1e-9);
        }
    }
}

fn mm_of(quantity: &Value) -> f64 {
    assert_eq!(quantity["unit"], "mm", "{quantity}");
    quantity["value"].as_f64().expect("a number")
}
