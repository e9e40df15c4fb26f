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
    assert_eq!(refused("threads/wires", "thread=M8&class=2A").len(), 2);
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
}
