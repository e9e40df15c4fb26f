//! What a page's address is joined to.

use super::*;
use crate::asking::describe_entry;
use crate::calculators::find;

fn stated(id: &str, query: &str) -> Stated {
    Stated::of_query(describe_entry(find(id).expect("a calculator")).expect("described"), query)
}

fn query_of(id: &str, query: &str) -> String {
    stated(id, query).query(&[])
}

#[test]
fn a_bare_number_takes_the_unit_chosen_beside_it() {
    let id = "holes/drill-point";
    assert_eq!(query_of(id, "full_depth=20&full_depth.unit=mm"), "full_depth=20%20mm");
    assert_eq!(query_of(id, "full_depth=3/4&full_depth.unit=in"), "full_depth=3%2F4%20in");
    assert_eq!(query_of(id, "point_angle=118&point_angle.unit=deg"), "point_angle=118%20deg");
    assert_eq!(
        query_of(id, "full_depth=1/4..1+step+1/4&full_depth.unit=in"),
        "full_depth=1%2F4..1%20step%201%2F4%20in"
    );
    assert_eq!(query_of(id, "point_angle=118|135&point_angle.unit=deg"), "point_angle=118%20deg%7C135%20deg");
    assert_eq!(
        query_of(id, "full_depth=2.000+%2B0.002/-0.000&full_depth.unit=in"),
        "full_depth=2.000%20%2B0.002%2F-0.000%20in"
    );
}

#[test]
fn a_unit_typed_in_the_field_wins() {
    let stated = stated("holes/drill-point", "full_depth=12.7mm&full_depth.unit=in");
    assert_eq!(stated.said("full_depth").as_deref(), Some("12.7mm"));
    let described = describe_entry(find("holes/drill-point").expect("a calculator")).expect("described");
    let field = described.fields.iter().find(|field| field.name == "full_depth").expect("a field");
    assert_eq!(stated.shown(field), ("12.7".to_owned(), Some(Unit::Millimetre)));
}

#[test]
fn without_a_unit_chosen_a_bare_number_stays_bare() {
    assert_eq!(query_of("holes/drill-point", "full_depth=20&full_depth.unit="), "full_depth=20");
    assert_eq!(query_of("holes/drill-point", "full_depth=20&full_depth.unit=furlong"), "full_depth=20");
}

#[test]
fn a_drill_s_name_stays_a_name() {
    for name in ["%237", "F", "No.7"] {
        let query = format!("diameter={name}&diameter.unit=mm");
        assert!(!query_of("holes/drill-point", &query).contains("mm"), "{query}");
    }
    // A fraction alone names a drill; with a unit chosen beside it, it is a number like any other.
    assert_eq!(query_of("holes/drill-point", "diameter=27/64&diameter.unit="), "diameter=27%2F64");
    assert_eq!(query_of("holes/drill-point", "diameter=27/64&diameter.unit=in"), "diameter=27%2F64%20in");
    assert_eq!(query_of("holes/drill-point", "diameter=8.5&diameter.unit=mm"), "diameter=8.5%20mm");
}

#[test]
fn each_number_of_a_list_and_of_lines_takes_the_unit() {
    assert_eq!(
        query_of("speeds/spindle-speed", "available=112,+160+rpm,224&available.unit=rpm"),
        "available=112%20rpm%2C160%20rpm%2C224%20rpm"
    );
    assert_eq!(
        query_of("datum/visit-order", "points=0,0%0D%0A1,2.5%0D%0A&points.unit=in"),
        "points=0%20in%2C0%20in%3B1%20in%2C2.5%20in"
    );
}

#[test]
fn parts_of_a_range_and_of_a_wanted_result_are_joined() {
    let id = "holes/drill-point";
    assert_eq!(
        query_of(id, "range.of=diameter&range.from=1/4&range.to=1&range.step=1/16&diameter.unit=in"),
        "diameter=1%2F4..1%20step%201%2F16%20in"
    );
    assert_eq!(
        query_of(id, "wanted.of=point_length&wanted=0.152+in&solve_for=diameter"),
        "wanted=point_length%3A0.152%20in&solve_for=diameter"
    );
}

#[test]
fn a_list_in_one_unit_stands_in_bare_numbers_beside_it() {
    let shown = |id: &str, name: &str, query: &str| {
        let described = describe_entry(find(id).expect("a calculator")).expect("described");
        let field = described.fields.iter().find(|field| field.name == name).expect("a field");
        stated(id, query).shown(field)
    };
    let points = "points=0.5+in,-3/8+in%3B2+in,1-1/4in";
    assert_eq!(shown("datum/visit-order", "points", points), ("0.5,-3/8;2,1-1/4".to_owned(), Some(Unit::Inch)));
    // Two units stay as they are typed.
    let mixed = "points=0.5+in,2+mm%3B2+in,1+in";
    assert_eq!(shown("datum/visit-order", "points", mixed), ("0.5 in,2 mm;2 in,1 in".to_owned(), None));
    let speeds = "available=112+rpm,160+rpm";
    assert_eq!(shown("speeds/spindle-speed", "available", speeds), ("112,160".to_owned(), Some(Unit::Rpm)));
}
