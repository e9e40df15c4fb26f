//! Measuring and cutting threads: the laws these calculators obey, what they note and what they refuse.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;
use shop_reckoner::refusal::Refusal;

fn answer(id: &str, query: &str) -> Result<Value, Refusal> {
    asked(find(id).unwrap_or_else(|| panic!("no calculator {id}")), query)
}

fn solved(id: &str, query: &str) -> Value {
    answer(id, query).unwrap_or_else(|refusal| panic!("{id}?{query}: {refusal:?}"))
}

fn number(answer: &Value, pointer: &str) -> f64 {
    let at = answer["result"].pointer(pointer).unwrap_or_else(|| panic!("nothing at {pointer}: {}", answer["result"]));
    at["value"].as_f64().or(at.as_f64()).unwrap_or_else(|| panic!("{pointer}: {at}"))
}

fn notes(answer: &Value) -> Vec<&str> {
    answer["notes"].as_array().expect("notes").iter().filter_map(|note| note["code"].as_str()).collect()
}

/// Field and code of each error.
fn refused(id: &str, query: &str) -> Vec<(String, &'static str)> {
    let refusal = answer(id, query).expect_err(query);
    refusal.0.into_iter().map(|wrong| (wrong.field, wrong.code.as_str())).collect()
}

fn one(field: &str, code: &'static str) -> Vec<(String, &'static str)> {
    vec![(field.to_owned(), code)]
}

#[test]
fn a_steep_thread_is_measured_by_its_contact_and_a_fine_one_by_the_table_rule() {
    let correction = |query: &str| {
        let answer = solved("threads/wires", query);
        let assumed = answer["assumed"].as_array().unwrap();
        assumed.iter().find(|one| one["field"] == "correction").map(|one| one["value"].as_str().unwrap().to_owned())
    };
    assert_eq!(correction("thread=1/4-20").as_deref(), Some("none"));
    assert_eq!(correction("thread=1-5 Acme").as_deref(), Some("lead_angle"));
    assert_eq!(correction("thread=1-5 Acme (3 STARTS)").as_deref(), Some("contact"));
    assert_eq!(correction("thread=1/4-20&correction=contact"), None);
    assert!(notes(&solved("threads/wires", "thread=1/4-20")).contains(&"lead_angle_left_out"));
    assert!(
        notes(&solved("threads/wires", "thread=1-5 Acme (3 STARTS)&correction=lead_angle")).contains(&"steep_thread")
    );
}

#[test]
fn wires_that_do_not_fit_and_threads_that_cannot_be_measured_are_refused() {
    assert_eq!(refused("threads/wires", "thread=1/4-20&wire_diameter=0.1 in"), one("/wire_diameter", "no_answer"));
    assert_eq!(refused("threads/wires", "thread=1/4-20&wire_diameter=0.01 in"), one("/wire_diameter", "no_answer"));
    assert_eq!(refused("threads/wires", "thread=1/4 NPT"), one("/thread", "conflict"));
    assert_eq!(refused("threads/wires", "thread=Rp 1/2"), one("/thread", "conflict"));
    assert_eq!(
        refused("threads/wires", "thread=M8&measured_over_wires=80 mm"),
        one("/measured_over_wires", "no_answer")
    );
    assert_eq!(refused("threads/wires", "thread=M8&pitch_diameter=9 mm"), one("/pitch_diameter", "no_answer"));
    assert_eq!(refused("threads/wires", "thread=M8&compound_angle=29 deg").len(), 2);
    // A thread of another family is no way out.
    assert_eq!(refused("threads/wires", "thread=M8&class=2A"), one("/class", "conflict"));
}

#[test]
fn a_reading_is_placed_against_the_limits() {
    let reading = |over: &str| {
        let answer = solved("threads/wires", &format!("thread=M8-6g&measured_over_wires={over}"));
        (
            answer["result"]["reading"]["against_limits"].as_str().unwrap().to_owned(),
            number(&answer, "/reading/infeed_left"),
        )
    };
    let limits = solved("threads/wires", "thread=M8-6g");
    let (top, bottom) = (number(&limits, "/limits/over_wires_max"), number(&limits, "/limits/over_wires_min"));
    assert_eq!(reading(&format!("{} mm", top + 0.05)).0, "above");
    let (within, left) = reading(&format!("{} mm", (top + bottom) / 2.0));
    assert_eq!(within, "within");
    assert!(left.abs() < 1e-9, "{left}");
    let (below, left) = reading(&format!("{} mm", bottom - 0.01));
    assert!(below == "below" && left < 0.0);
}

#[test]
fn a_screw_is_measured_over_wires_between_the_limits_of_its_class() {
    // ASME B1.1, 1-8 UNC 2A: pitch diameter 0.9100 to 0.9168 in. M = E + 3 W - 0.866025 P with the best wire
    // 0.577350 P: M = E + 0.866025 P.
    let answer = solved("threads/wires", "thread=1-8 UNC-2A");
    let more = 0.866_025_403_784_438_6 * 0.125;
    assert!((number(&answer, "/limits/over_wires_min") - (0.9100 + more)).abs() < 1e-12);
    assert!((number(&answer, "/limits/over_wires_max") - (0.9168 + more)).abs() < 1e-12);
    // The basic size lies above: a screw cut to it is too large, and the answer says so.
    assert!(number(&answer, "/over_wires") > number(&answer, "/limits/over_wires_max"));
    assert!(notes(&answer).contains(&"over_wires_above_class"));
    let aimed = solved("threads/wires", "thread=1-8 UNC-2A&pitch_diameter=0.9134 in&wire_diameter=0.073 in");
    assert!(!notes(&aimed).contains(&"over_wires_above_class"));
}

#[test]
fn a_lead_angle_is_one_wherever_it_is_asked_for() {
    for thread in ["M10", "1-8 UNC", "1-5 Acme (2 STARTS)", "Tr28x5", "G 1/2", "1/2-12 BSW"] {
        let of = |id: &str, field: &str| number(&solved(id, &format!("{field}={thread}")), "/lead_angle");
        let angle = of("threads/thread", "designation");
        assert_eq!(angle, of("threads/wires", "thread"), "{thread}");
        assert_eq!(angle, of("threads/single-point", "thread"), "{thread}");
    }
}

#[test]
fn a_coat_fills_the_root_and_the_go_ring_leaves_room_for_it() {
    let query = "thread=1/2-13 UNC&side=external&external_class=2A&thickness_min=0.0002 in&thickness_max=0.0003 in";
    let answer = solved("threads/plated", query);
    let at = |pointer: &str| number(&answer, pointer);
    // Twice the coat on the diameter of the root, four times it on the pitch diameter.
    assert!((at("/root/after") - at("/root/before") - 0.0006).abs() < 1e-12);
    assert!((at("/go_gauge/pitch_after") - 0.4500).abs() < 1e-12);
    assert!((at("/go_gauge/pitch_before") - 0.4488).abs() < 1e-12);
    // The basic form of the ring: ASME B1.1, least minor diameter of 1/2-13 2B 0.417 in, in full 0.41669.
    assert!((at("/go_gauge/crest_after") - 0.416_691).abs() < 1e-6);
    let acme = "thread=3/4-6 Acme&side=external&thickness_min=0.0001 in&thickness_max=0.0004 in";
    assert!(solved("threads/plated", acme)["result"].get("go_gauge").is_none());
}

#[test]
fn an_uneven_coat_that_uses_up_the_tolerance_is_refused() {
    let query = |more: &str| format!("thread=M8&side=external{more}");
    let fields = refused("threads/plated", &query("&thickness_min=0 mm&thickness_max=0.5 mm"));
    // Whatever the coat may reach, it is too uneven: only a thinner one helps.
    assert_eq!(fields, one("/thickness_max", "no_answer"));
    assert_eq!(refused("threads/plated", &query("&thickness_min=8 um&thickness_max=5 um")).len(), 2);
    assert_eq!(refused("threads/plated", &query("&thickness_min=0 um&thickness_max=5 um&internal_class=6H")).len(), 2);
    assert_eq!(
        refused("threads/plated", "thread=1/4-20 BSW&side=external&thickness_min=0 um&thickness_max=5 um").len(),
        1
    );
}

#[test]
fn a_train_needs_a_lead_and_wheels_that_differ() {
    let query = |more: &str| format!("leadscrew_lead=1/8 in{more}");
    assert_eq!(refused("threads/change-gears", &query("&gears=20,40")).len(), 3);
    assert_eq!(refused("threads/change-gears", &query("&gears=20,40&lead=1 mm&thread=M6")).len(), 2);
    assert_eq!(refused("threads/change-gears", &query("&gears=20&lead=1 mm")), one("/gears", "value_out_of_range"));
    assert_eq!(refused("threads/change-gears", &query("&gears=20,3&lead=1 mm")), one("/gears", "value_out_of_range"));
    assert_eq!(refused("threads/change-gears", &query("&gears=20,20&lead=1 mm")), one("/gears", "no_answer"));
    assert_eq!(refused("threads/change-gears", &query("&gears=20,40&lead=1 mm&stud_wheel=40")).len(), 2);
    let exact = solved("threads/change-gears", &query("&lead=1/8 in&gears=20,40,40"));
    assert_eq!(number(&exact, "/trains/0/error"), 0.0);
}

#[test]
fn a_train_on_the_lathe_is_told_what_it_cuts() {
    // 40/50 x 50/127 turns an eighth of an inch into 1 mm: 25.4 / 8 x 40 / 127.
    let query = "train=40/50 x 50/127&leadscrew_lead=1/8 in&units=metric";
    let answer = solved("threads/change-gears", query);
    assert!((number(&answer, "/cut/lead") - 1.0).abs() < 1e-12);
    assert!((number(&answer, "/cut/threads_per_inch") - 25.4).abs() < 1e-9);
    assert_eq!(answer["result"]["cut"]["nearest_metric"]["thread"], "M6");
    assert_eq!(number(&answer, "/cut/nearest_metric/error"), 0.0);
    assert!(answer["result"].get("trains").is_none());
    let wanted = solved("threads/change-gears", &format!("{query}&thread=M8&gears=20,40,50,60"));
    assert!((number(&wanted, "/cut/error") + 20.0).abs() < 1e-9 && !wanted["result"]["trains"][0].is_null());
    // A stud that turns half as fast halves the lead.
    let half = solved("threads/change-gears", &format!("{query}&spindle_wheel=30&stud_wheel=60"));
    assert!((number(&half, "/cut/lead") - 0.5).abs() < 1e-12);
    let wrong = refused("threads/change-gears", "train=40/7&leadscrew_lead=1/8 in");
    assert_eq!(wrong, one("/train", "value_out_of_range"));
}

#[test]
fn a_thread_mill_comes_onto_its_path_along_an_arc_that_touches_it() {
    let query = "thread=M24x1.5&side=internal&cutter_diameter=16 mm&teeth=4&cutting_speed=80 m/min\
                 &feed_per_tooth=0.05 mm/tooth";
    let arc = solved("threads/milling", &format!("{query}&entry=arc_45"));
    let at = |pointer: &str| number(&arc, pointer);
    let (path, radius) = (at("/path_diameter") / 2.0, at("/entry_arc_diameter") / 2.0);
    let (middle, turn) = (path - radius, at("/entry_arc_angle").to_radians());
    // The arc begins just clear of the wall, 45 degrees round the axis before the place where it touches the path.
    let start = (middle + radius * turn.cos(), -radius * turn.sin());
    assert!((start.0.hypot(start.1) - at("/entry_start_radius")).abs() < 1e-9);
    assert!((start.1.atan2(start.0).to_degrees() + 45.0).abs() < 1e-9);
    assert_eq!(at("/entry_rise"), 1.5 / 8.0);
    // Evenly along the arc it rises as the helix does at that place round the axis, to within two micrometers.
    for share in 1..20 {
        let left = turn * (1.0 - f64::from(share) / 20.0);
        let (x, y) = (middle + radius * left.cos(), -radius * left.sin());
        let risen = 1.5 / 8.0 * f64::from(share) / 20.0;
        let helix = 1.5 * (y.atan2(x) + std::f64::consts::FRAC_PI_4) / std::f64::consts::TAU;
        assert!((risen - helix).abs() < 2e-3, "{share}: {risen} {helix}");
    }
    let stud = query.replace("internal", "external");
    assert_eq!(refused("threads/milling", &format!("{stud}&entry=arc_45")).len(), 2);
}

#[test]
fn a_dial_that_does_not_follow_says_so() {
    let dial = |lead: &str| {
        solved("threads/threading-dial", &format!("lead={lead}&leadscrew_lead=1/8 in&dial_gear=32&dial_marks=8"))
    };
    assert!(notes(&dial("1/24 in")).contains(&"close_anywhere"));
    let metric = dial("1.75 mm");
    assert!(notes(&metric).contains(&"dial_does_not_follow"));
    assert!(metric["result"].get("marks").is_none() && metric["result"].get("every_marks").is_none());
    assert_eq!(
        refused("threads/threading-dial", "lead=0.123456789 mm&leadscrew_lead=3.14159265 mm&dial_gear=32&dial_marks=8")
            .len(),
        2,
        "either of the leads can be another"
    );
}

proptest! {
    #[test]
    fn a_measurement_leads_back_to_the_pitch_diameter_it_came_from(
        thread in prop::sample::select(vec!["1/4-20", "M10", "1-5 Acme", "1-5 Acme (4 STARTS)", "Tr40x14P7", "1/2-12 BSW", "G 1"]),
        correction in prop::sample::select(vec!["none", "lead_angle", "contact"]),
        off in -0.3..0.3_f64,
    ) {
        let basic = solved("threads/thread", &format!("designation={thread}&units=metric"));
        let target = number(&basic, "/pitch_diameter") + off * number(&basic, "/pitch");
        let query = format!("thread={thread}&correction={correction}&units=metric");
        let over = number(&solved("threads/wires", &format!("{query}&pitch_diameter={target} mm")), "/over_wires");
        let back = number(&solved("threads/wires", &format!("{query}&measured_over_wires={over} mm")), "/reading/pitch_diameter");
        prop_assert!((back - target).abs() < 1e-9, "{query}: {back} is not {target}");
    }

    #[test]
    fn the_contact_solution_comes_down_to_the_simple_one_where_the_lead_is_small(tpi in 8u32..40) {
        let query = |correction: &str| format!("thread=4.000-{tpi}&correction={correction}&units=inch");
        let contact = number(&solved("threads/wires", &query("contact")), "/over_wires");
        let simple = number(&solved("threads/wires", &query("lead_angle")), "/over_wires");
        prop_assert!((contact - simple).abs() < 2e-6, "{contact} {simple}");
    }

    #[test]
    fn at_the_marks_of_a_dial_the_carriage_is_a_whole_number_of_leads_on(
        tpi in 1u32..60, screw in prop::sample::select(vec![4u32, 5, 6, 8]), gear in prop::sample::select(vec![16u32, 24, 32, 40]),
    ) {
        let query = format!("lead=1/{tpi} in&leadscrew_lead=1/{screw} in&dial_gear={gear}&dial_marks=8&units=inch");
        let dial = solved("threads/threading-dial", &query);
        if let Some(every) = dial["result"]["every_marks"].as_f64() {
            let travel = every * f64::from(gear) / 8.0 / f64::from(screw);
            let leads = travel * f64::from(tpi);
            prop_assert!((leads - leads.round()).abs() < 1e-9, "{query}: {leads}");
            let turns = every * f64::from(gear) / 8.0;
            prop_assert!((turns - turns.round()).abs() < 1e-9, "{query}: {turns}");
        }
    }

    #[test]
    fn trains_come_nearest_first_and_use_owned_wheels(
        gears in prop::collection::vec(16u32..100, 4..9), lead in 0.2..6.0_f64,
    ) {
        let list: Vec<String> = gears.iter().map(ToString::to_string).collect();
        let query = format!("lead={lead} mm&leadscrew_lead=3 mm&gears={}&units=metric", list.join(","));
        if let Ok(answer) = answer("threads/change-gears", &query) {
            let trains = answer["result"]["trains"].as_array().unwrap();
            let error = |train: &Value| train["error"]["value"].as_f64().unwrap().abs();
            for pair in trains.windows(2) {
                let clears = |train: &Value| train["clears"].as_bool().unwrap();
                prop_assert!(clears(&pair[0]) >= clears(&pair[1]), "{query}");
                prop_assert!(clears(&pair[0]) != clears(&pair[1]) || error(&pair[0]) <= error(&pair[1]) + 1e-9, "{query}");
            }
            for train in trains {
                let wheel = |name: &str| train[name].as_u64();
                let used: Vec<u64> =
                    ["first_driver", "first_driven", "second_driver", "second_driven"].iter().filter_map(|n| wheel(n)).collect();
                let mut left = gears.clone();
                for teeth in &used {
                    let at = left.iter().position(|own| u64::from(*own) == *teeth);
                    prop_assert!(at.is_some(), "{query}: {train}");
                    left.remove(at.unwrap());
                }
                let drive = |i: usize| used.get(i).map_or(1.0, |teeth| *teeth as f64);
                let ratio = drive(0) * drive(2) / (drive(1) * drive(3));
                prop_assert!((train["lead"]["value"].as_f64().unwrap() - 3.0 * ratio).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn a_coat_within_its_thickness_brings_the_thread_within_its_limits(
        thread in prop::sample::select(vec!["M8", "M20", "Tr28x5", "G 1"]), thin in 0.0..8.0_f64, more in 0.0..3.0_f64, at in 0.0..1.0_f64,
        side in prop::sample::select(vec!["external", "internal"]),
    ) {
        let thick = thin + more;
        let query = format!("thread={thread}&side={side}&thickness_min={thin} um&thickness_max={thick} um&units=metric");
        let plated = solved("threads/plated", &query);
        let (least, greatest) = (number(&plated, "/before/pitch_min"), number(&plated, "/before/pitch_max"));
        let (thin_moves, thick_moves) = (number(&plated, "/pitch_change_min"), number(&plated, "/pitch_change_max"));
        let sign = if side == "external" { 1.0 } else { -1.0 };
        let cut = least + at * (greatest - least);
        for coat in [thin_moves, thick_moves, (thin_moves + thick_moves) / 2.0] {
            let after = cut + sign * coat;
            prop_assert!(after <= number(&plated, "/after/pitch_max") + 1e-9, "{query}: {after}");
            prop_assert!(after >= number(&plated, "/after/pitch_min") - 1e-9, "{query}: {after}");
        }
    }
}
