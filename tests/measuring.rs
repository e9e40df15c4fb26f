//! What the calculators of measuring say beside their numbers: verdicts, what is undecided or ambiguous, which table an
//! answer rests on, and that nothing is said outside of a table.

mod common;

use common::{asked, fields};
use serde_json::Value;
use shop_reckoner::asking::{Form, ask};
use shop_reckoner::calculators::find;

fn answer(id: &str, query: &str) -> Value {
    asked(find(id).expect("the calculator"), query).unwrap_or_else(|refusal| panic!("{id}?{query}: {refusal:?}"))
}

fn notes(answer: &Value) -> Vec<&str> {
    answer["notes"].as_array().into_iter().flatten().filter_map(|note| note["code"].as_str()).collect()
}

fn refused(id: &str, query: &str) -> String {
    match ask(find(id).expect("the calculator"), fields(query), Form::Json) {
        Ok(_) => panic!("{id}?{query} is answered"),
        Err(refusal) => refusal.words(),
    }
}

const HOLE: &str = "basic_x=25 mm&basic_y=40 mm&measured_y=40 mm";

#[test]
fn a_position_near_its_limit_is_undecided_by_a_poor_measurement() {
    let verdict = |x: &str, uncertainty: &str| {
        let query = format!("zone=0.2 mm&{HOLE}&measured_x={x} mm&uncertainty={uncertainty} mm");
        answer("measure/position-error", &query)["result"]["verdict"].as_str().map(str::to_owned)
    };
    // 0.09 mm off is 0.18 mm of the zone's 0.2: 0.02 is left, as much as a coordinate good to 0.01 mm can hide.
    assert_eq!(verdict("25.09", "0").as_deref(), Some("within"));
    assert_eq!(verdict("25.09", "0.01").as_deref(), Some("within"));
    assert_eq!(verdict("25.09", "0.02").as_deref(), Some("undecided"));
    assert_eq!(verdict("25.11", "0.02").as_deref(), Some("undecided"));
    assert_eq!(verdict("25.13", "0.02").as_deref(), Some("outside"));
    let near = answer("measure/position-error", &format!("zone=0.2 mm&{HOLE}&measured_x=25.1 mm&uncertainty=0.02 mm"));
    assert!(notes(&near).contains(&"undecided"), "{near}");
}

#[test]
fn a_hole_past_maximum_material_is_out_wherever_it_is() {
    let query = format!("zone=0.2 mm&{HOLE}&measured_x=25 mm&mmc_size=10 mm&measured_size=9.98 mm&feature=hole");
    let small = answer("measure/position-error", &query);
    assert_eq!(small["result"]["verdict"], "outside");
    assert_eq!(small["result"]["holes"][0]["bonus"]["value"], 0.0);
    assert!(notes(&small).contains(&"out_of_size"), "{small}");
    let large = answer("measure/position-error", &format!("{query}&lmc_size=10.2 mm").replace("9.98", "10.25"));
    assert_eq!(large["result"]["verdict"], "outside");
    // A stud grows its bonus the other way.
    let stud = answer("measure/position-error", &query.replace("feature=hole", "feature=shaft"));
    assert_eq!(stud["result"]["verdict"], "within");
}

#[test]
fn a_square_is_judged_as_a_square() {
    let corner = "plus_minus=0.1 mm&basic_x=0 mm&basic_y=0 mm&measured_x=0.09 mm&measured_y=0.09 mm";
    let corner = answer("measure/position-error", corner);
    assert_eq!(corner["result"]["verdict"], "within");
    assert!(corner["result"]["position_error"]["value"].as_f64() > Some(0.2));
}

#[test]
fn several_sizes_that_fit_are_said_to_be_ambiguous() {
    // 15/32 in is 11.906 mm: with 0.1 mm either way 11.9 and 12 mm fit as well.
    let many = answer("measure/likely-size", "measured_size=11.93 mm&error=0.1 mm");
    assert_eq!(many["result"]["ambiguous"], true);
    assert!(notes(&many).contains(&"ambiguous"));
    let one = answer("measure/likely-size", "measured_size=0.4999 in&error=0.001 in&families=fraction");
    assert_eq!(
        (&one["result"]["name"], &one["result"]["candidates"][0]["how_sure"]),
        (&"1/2 in".into(), &"only".into())
    );
    let none = answer("measure/likely-size", "measured_size=0.507 in&error=0.001 in&families=fraction");
    assert!(none["result"].get("name").is_none() && notes(&none).contains(&"none_fits"));
}

#[test]
fn a_worn_bore_was_smaller_and_a_worn_shaft_larger() {
    let first = |feature: &str| {
        let query = format!("measured_size=25.3 mm&error=0.02 mm&feature={feature}&wear=0.8 mm&families=millimeter");
        answer("measure/likely-size", &query)["result"]["name"].as_str().map(str::to_owned)
    };
    assert_eq!(first("hole").as_deref(), Some("25 mm"));
    assert_eq!(first("shaft").as_deref(), Some("26 mm"));
}

#[test]
fn hardness_names_its_tables_and_stops_where_they_do() {
    let at_45 = answer("measure/hardness", "rockwell_c=45");
    let tables: Vec<&str> = at_45["result"]["by_table"]
        .as_array()
        .expect("tables")
        .iter()
        .filter_map(|row| row["table"].as_str())
        .collect();
    assert_eq!(tables, ["ASTM E140 table 1", "SAE J417, Brinell steps", "ISO 18265 table A.1"]);
    assert!(notes(&at_45).contains(&"tables_differ"));
    assert!(!notes(&at_45).contains(&"recalled"));
    // Above 470 HV the rows of ISO 18265 are recalled.
    assert!(notes(&answer("measure/hardness", "vickers=700")).contains(&"recalled"));
    for (query, near) in [("rockwell_c=69", "68"), ("rockwell_c=19", "20"), ("brinell=700", "627")] {
        let says = refused("measure/hardness", query);
        assert!(says.contains(&format!("Try {near}.")), "{query}: {says}");
    }
}

#[test]
fn a_gauge_closer_than_any_class_is_said_to_be_none() {
    let close = answer("measure/gauge-makers", "feature=hole&least=0.5 in&greatest=0.50015 in");
    assert!(close["result"].get("class").is_none() && notes(&close).contains(&"no_class"), "{close}");
    let worn = answer("measure/gauge-makers", "feature=hole&least=0.5 in&greatest=0.502 in&go_measured=0.4999 in");
    assert_eq!(worn["result"]["verdict"], "outside");
}

#[test]
fn ranges_of_expansion_stay_ranges() {
    let acrylic =
        answer("measure/at-temperature", "drawing_size=100 mm&material=acrylic&part_temperature=30 degC&units=metric");
    let of = |name: &str| acrylic["result"][name]["value"].as_f64().expect("a number");
    assert!(of("reads_least") < of("reads") && of("reads") < of("reads_most"));
    assert_eq!((of("expansion_low"), of("expansion_high")), (90.0, 162.0));
    assert!(
        refused("measure/at-temperature", "drawing_size=100 mm&material=6061&part_temperature=0")
            .contains("has no unit")
    );
}

#[test]
fn a_size_on_its_general_limit_is_within() {
    let limit = answer("measure/general-tolerance", "size=80 mm&measured_size=80.3 mm");
    assert_eq!(limit["result"]["verdict"], "within");
    assert_eq!(limit["assumed"][0]["field"], "class");
    let over = answer("measure/general-tolerance", "size=80 mm&measured_size=80.31 mm");
    assert_eq!(over["result"]["verdict"], "outside");
    assert!(notes(&over).contains(&"not_rejected"));
}

#[test]
fn a_grade_counts_both_of_its_values() {
    let at = |query: &str| answer("measure/surface-grade", query)["result"].clone();
    assert_eq!(at("ra=63 uin")["work_to"], "N7");
    assert_eq!(at("ra=1.6 um")["work_to"], "N7");
    assert_eq!(at("ra=1.5 um")["work_to"], "N6");
    assert_eq!(at("grade=N7&measured_ra=63 uin")["verdict"], "within");
    assert_eq!(at("grade=N7&measured_ra=1.7 um")["verdict"], "outside");
}
