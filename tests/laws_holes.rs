//! Laws of holes: what two calculators must say alike, and what must hold whatever is asked.

mod common;

use common::asked;
use serde_json::Value;
use shop_reckoner::calculators::find;

fn answer(id: &str, query: &str) -> Value {
    asked(find(id).expect("a calculator"), query).unwrap_or_else(|refusal| panic!("{id}?{query}: {refusal:?}"))
}

fn refused(id: &str, query: &str) -> Vec<(String, String, Option<String>)> {
    let refusal = asked(find(id).expect("a calculator"), query).expect_err(query);
    refusal.0.into_iter().map(|wrong| (wrong.field, wrong.says, wrong.try_this)).collect()
}

fn number(answer: &Value, path: &str) -> f64 {
    let at = answer["result"].pointer(path).unwrap_or_else(|| panic!("no {path} in {answer}"));
    at["value"].as_f64().or_else(|| at.as_f64()).expect("a number")
}

fn notes(answer: &Value) -> Vec<&str> {
    answer["notes"].as_array().expect("notes").iter().filter_map(|note| note["code"].as_str()).collect()
}

#[test]
fn the_thickness_that_a_refusal_names_is_enough() {
    for (id, query) in [
        ("holes/tapped-blind", "thread=M8&thread_depth=16 mm&drill=6.8 mm&floor=3 mm"),
        ("holes/tapped-blind", "thread=1/4-20 UNC&full_threads=10&drill=No.7"),
        ("holes/inserts", "thread=M8&diameters=2&floor=3 mm"),
    ] {
        let wrong = refused(id, &format!("{query}&thickness=10 mm"));
        let (_, says, thickness) = wrong.iter().find(|(field, ..)| field == "/thickness").expect("the thickness");
        let thickness = thickness.clone().expect("a value");
        assert!(says.contains(&thickness), "{says} does not name {thickness}");
        let sound = answer(id, &format!("{query}&thickness={thickness}"));
        assert!(number(&sound, "/floor_left") > 0.0);
        // Every other way out that is named works too, alone.
        for (field, _, value) in &wrong {
            let (name, value) = (field.trim_start_matches('/'), value.clone().expect("a value"));
            if name != "thickness" {
                let others: Vec<&str> =
                    query.split('&').filter(|part| !part.starts_with(&format!("{name}="))).collect();
                answer(id, &format!("{}&thickness=10 mm&{name}={value}", others.join("&")));
            }
        }
    }
}

#[test]
fn the_tip_of_a_tapped_hole_goes_as_deep_as_that_of_any_drill() {
    let tapped = answer("holes/tapped-blind", "thread=M10&thread_depth=18 mm&drill=8.5 mm&units=metric");
    let full = number(&tapped, "/full_depth");
    let drilled = answer("holes/drill-point", &format!("diameter=8.5 mm&full_depth={full} mm&units=metric"));
    assert!((number(&tapped, "/tip_depth") - number(&drilled, "/tip_depth")).abs() < 1e-9);
}

#[test]
fn a_deep_thread_with_a_short_chamfer_gets_the_room_of_bs_1936() {
    // 0.2 of 40 mm are 8 mm, 6.4 pitches: 2 on the chamfer, 4.5 below it.
    let deep = answer("holes/tapped-blind", "thread=M8&thread_depth=40 mm&tap_chamfer=bottoming&units=metric");
    assert!((number(&deep, "/full_depth") - (40.0 + 6.5 * 1.25)).abs() < 1e-9);
    let shallow = answer("holes/tapped-blind", "thread=M8&thread_depth=12 mm&tap_chamfer=plug&units=metric");
    assert!((number(&shallow, "/full_depth") - (12.0 + 6.0 * 1.25)).abs() < 1e-9);
}

#[test]
fn the_drill_starts_on_its_center_only_in_a_wider_spot() {
    for (spot, point, first) in [
        ("90", "118", "lips"),
        ("120", "118", "center"),
        ("118", "118", "center and lips together"),
        ("142", "140", "center"),
    ] {
        let query = format!("mouth=9 mm&drill=8 mm&spot_angle={spot} deg&point_angle={point} deg");
        let found = answer("holes/spot-drill", &query);
        assert_eq!(found["result"]["touches_with"], first);
        assert_eq!(notes(&found).contains(&"lips_first"), first == "lips");
    }
    let none = answer("holes/spot-drill", "mouth=5 mm&drill=8 mm");
    assert!(none["result"]["chamfer_left"].is_null() && notes(&none).contains(&"no_chamfer"));
}

#[test]
fn pecks_end_at_the_depth_and_never_grow() {
    for query in [
        "diameter=8 mm&depth=60 mm&material=304",
        "diameter=1/4 in&depth=2 in&material=1018",
        "diameter=2 mm&depth=30 mm&material=c36000",
        "diameter=0.3 mm&depth=3 mm",
        "diameter=5 mm&depth=47.3 mm&first_peck=11 mm&next_peck=7 mm&smallest_peck=1.3 mm&shrink=30 percent",
    ] {
        let found = answer("holes/pecks", query);
        let pecks = found["result"]["pecks"].as_array().expect("pecks");
        let value = |peck: &Value, name: &str| peck[name]["value"].as_f64().expect("a number");
        let (mut depth, mut longest) = (0.0, f64::INFINITY);
        for peck in pecks {
            let length = value(peck, "length");
            assert!(length > 0.0 && length <= longest + 1e-9, "{query}: {found}");
            longest = length;
            depth += length;
            assert!((value(peck, "depth") - depth).abs() < 1e-9, "{query}");
        }
        let asked = found["inputs"]["depth"]["value"].as_f64().expect("the depth");
        let in_same = pecks.last().map(|peck| value(peck, "depth")).expect("a peck");
        assert!((in_same - asked).abs() < 1e-9 || found["inputs"]["depth"]["unit"] != pecks[0]["depth"]["unit"]);
        assert_eq!(pecks.last().map(|peck| peck["then"].clone()), Some("the hole is done".into()));
    }
}

#[test]
fn chips_are_only_broken_where_the_hole_is_shallow() {
    let found = answer("holes/pecks", "diameter=10 mm&depth=80 mm&material=c36000&retract=break&units=metric");
    for peck in found["result"]["pecks"].as_array().expect("pecks") {
        let depth = peck["depth"]["value"].as_f64().expect("a depth");
        let then = peck["then"].as_str().expect("words");
        assert_eq!(then == "break the chips", depth <= 30.0, "{peck}");
    }
    assert!(notes(&found).contains(&"clear_when_deep"));
}

#[test]
fn a_bore_never_passes_its_target() {
    for counts in ["radius", "diameter"] {
        for target in [1.0213, 1.05, 1.2505, 1.9999] {
            let query = format!(
                "now=1 in&target={target} in&depth_of_cut=0.03 in&finish=0.012 in&division=0.001 in&head_counts={counts}&units=inch"
            );
            let found = answer("holes/bore-steps", &query);
            let cuts = found["result"]["cuts"].as_array().expect("cuts");
            let growth = if counts == "radius" { 0.002 } else { 0.001 };
            let mut bore = 1.0;
            for cut in cuts {
                bore += growth * cut["divisions"].as_f64().expect("divisions");
                assert!((cut["diameter"]["value"].as_f64().expect("a bore") - bore).abs() < 1e-9, "{query}");
                let rough = cut["kind"] == "rough";
                assert!(
                    !rough || (bore <= target - 0.012 + 1e-9 && cut["depth"]["value"].as_f64() <= Some(0.03 + 1e-12))
                );
            }
            let left = number(&found, "/left_over");
            assert!(left >= 0.0 && left < growth && (bore + left - target).abs() < 1e-9, "{query}: {left}");
        }
    }
}

#[test]
fn a_head_that_is_not_known_is_assumed_to_count_the_radius() {
    let query = "now=1 in&target=1.1 in&depth_of_cut=0.02 in&division=0.001 in&units=inch";
    let assumed = answer("holes/bore-steps", query);
    let careful = answer("holes/bore-steps", &format!("{query}&head_counts=radius"));
    assert_eq!(assumed["result"], careful["result"]);
}

#[test]
fn a_past_bore_is_refused_in_plain_words() {
    let wrong = refused("holes/bore-steps", "now=40.02 mm&target=40 mm&depth_of_cut=0.5 mm");
    assert!(
        wrong.iter().all(|(_, says, _)| says.contains("already") && says.contains("cannot make it smaller")),
        "{wrong:?}"
    );
}

#[test]
fn a_center_drill_makes_the_cone_for_the_work_and_says_what_is_recalled() {
    for (work, kind, name) in
        [("20 mm", "a", "A 2.5"), ("1 in", "plain", "#5"), ("50 mm", "b", "B 4"), ("8 mm", "r", "R 1.25")]
    {
        let found = answer("holes/centre-drill", &format!("work_diameter={work}&kind={kind}"));
        assert_eq!(found["result"]["name"], name, "{work}");
        assert_eq!(found["trust"], "from memory", "{work}");
    }
    let arc = answer("holes/centre-drill", "work_diameter=8 mm&kind=r");
    assert!(arc["result"]["cone_depth"].is_null() && notes(&arc).contains(&"arc"));
}

#[test]
fn the_drill_for_a_reamer_leaves_the_stock_of_the_chart() {
    for (query, drill) in [
        ("diameter=10 mm&from=tables&units=metric", "9.6 mm"),
        ("diameter=1/2 in&from=tables&units=inch", "31/64"),
        ("diameter=8 mm&reamer=hand&from=tables&units=metric", "7.7 mm"),
    ] {
        let found = answer("holes/reaming", query);
        let stock = number(&found, "/drill/stock_left");
        assert_eq!(found["result"]["drill"]["name"], drill, "{query}");
        assert!(stock >= number(&found, "/stock_low") && stock <= number(&found, "/stock_high"), "{query}");
    }
}

#[test]
fn where_no_drill_leaves_the_stock_the_nearest_are_named() {
    let found = answer("holes/reaming", "diameter=20 mm&reamer=hand&from=tables&units=metric");
    assert!(found["result"]["drill"].is_null());
    let notes = found["notes"].as_array().expect("notes");
    let says =
        notes.iter().find(|note| note["code"] == "no_drill").and_then(|note| note["says"].as_str()).expect("words");
    assert!(says.contains("19.5 mm leaves") && says.contains("19.75 mm leaves"), "{says}");
}

#[test]
fn no_peck_and_no_roughing_cut_is_a_sliver() {
    let pecks = answer("holes/pecks", "diameter=8 mm&depth=50 mm&material=304&units=metric");
    for peck in pecks["result"]["pecks"].as_array().expect("pecks") {
        assert!(peck["length"]["value"].as_f64().expect("a length") >= 1.0, "{peck}");
    }
    let bore =
        answer("holes/bore-steps", "now=39.77 mm&target=40 mm&depth_of_cut=0.5 mm&division=0.01 mm&units=metric");
    let cuts = bore["result"]["cuts"].as_array().expect("cuts");
    assert_eq!((cuts.len(), &cuts[0]["divisions"]), (1, &Value::from(11)));
}

#[test]
fn a_reamer_is_judged_by_the_limits_of_its_class() {
    for (measured, begins) in [
        ("20.022 mm", "too large"),
        ("20.019 mm", "at risk"),
        ("20.015 mm", "good"),
        ("20.003 mm", "worn"),
        ("19.998 mm", "too small"),
    ] {
        let found =
            answer("holes/reaming", &format!("diameter=20 mm&hole_class=H7&reamer_measured={measured}&from=tables"));
        assert!(
            found["result"]["verdict"].as_str().is_some_and(|words| words.starts_with(begins)),
            "{measured}: {found}"
        );
    }
}

#[test]
fn an_insert_that_no_list_has_gets_a_drill_above_the_least_minor_diameter() {
    let found = answer("holes/inserts", "thread=M9&units=metric");
    assert!(notes(&found).contains(&"not_in_the_list") && found["result"]["drill_name"].is_null());
    assert!(number(&found, "/drill_diameter") > number(&found, "/minor_min"));
    let listed = answer("holes/inserts", "thread=M8&units=metric");
    assert_eq!(
        (listed["result"]["drill_name"].as_str(), listed["trust"].as_str()),
        (Some("8.4 mm"), Some("from memory"))
    );
}
