//! Limits in the units of the other system: rounded inward, at the places that system is written
//! in, and never past each other.

mod common;

use common::asked;
use serde_json::Value;
use shop_reckoner::calculators::find;
use shop_reckoner::reference::threads::{metric_rows, unified_rows};

/// The limits of an answer as pairs of name and value.
fn limits(answer: &Value) -> Vec<(String, f64)> {
    let mut found = Vec::new();
    for side in ["external", "internal"] {
        for (name, value) in answer["result"]["limits"][side].as_object().expect("limits") {
            if name.contains("_m") && name != "class" {
                found.push((format!("{side}.{name}"), value["value"].as_f64().expect("a number")));
            }
        }
    }
    found
}

fn checked(designation: &str, own: &str, other: &str, factor: f64, place: f64) {
    let entry = find("threads/thread").expect("the calculator");
    let ask = |units: &str| asked(entry, &format!("designation={designation}&units={units}")).expect(designation);
    let (printed, converted) = (limits(&ask(own)), limits(&ask(other)));
    assert_eq!(printed.len(), converted.len());
    for ((name, printed), (same, converted)) in printed.iter().zip(&converted) {
        assert_eq!(name, same);
        let inward = if name.contains("max") { printed * factor - converted } else { converted - printed * factor };
        assert!((-1e-9..place).contains(&inward), "{designation} {name}: {printed} became {converted}");
        let counts = converted / place;
        assert!((counts - counts.round()).abs() < 1e-6, "{designation} {name}: {converted} has more places");
    }
    let of = |name: &str| converted.iter().find(|(is, _)| is == name).map(|(_, value)| *value).expect("a limit");
    for (least, greatest) in [
        ("external.major_min", "external.major_max"),
        ("external.pitch_min", "external.pitch_max"),
        ("internal.minor_min", "internal.minor_max"),
        ("internal.pitch_min", "internal.pitch_max"),
    ] {
        assert!(of(least) <= of(greatest), "{designation}: {least} passes {greatest}");
    }
}

#[test]
fn limits_of_every_listed_thread_are_converted_inward() {
    for row in unified_rows() {
        checked(&row.designation(), "inch", "metric", 25.4, 0.001);
    }
    for row in metric_rows() {
        checked(&row.designation, "metric", "inch", 1.0 / 25.4, 0.0001);
    }
}

#[test]
fn a_printed_limit_is_converted_as_by_hand() {
    // 1/4-20 UNC-2A, pitch diameter 0.2164 to 0.2127 in: 5.49656 and 5.40258 mm.
    let entry = find("threads/thread").expect("the calculator");
    let answer = asked(entry, "designation=1/4-20 UNC-2A&units=metric").expect("an answer");
    let external = &answer["result"]["limits"]["external"];
    assert_eq!(external["pitch_max"]["value"], 5.496);
    assert_eq!(external["pitch_min"]["value"], 5.403);
    assert!(answer["notes"].as_array().expect("notes").iter().any(|note| note["code"] == "limits_inward"));
    // What is no limit is converted exactly.
    assert_eq!(answer["result"]["pitch_diameter"]["value"], 5.5245);
    let own = asked(entry, "designation=1/4-20 UNC-2A&units=inch").expect("an answer");
    assert!(!own["notes"].as_array().expect("notes").iter().any(|note| note["code"] == "limits_inward"));
}
