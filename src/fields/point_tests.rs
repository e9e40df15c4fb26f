//! Points as text and as JSON, and what is wrong with those that cannot be read.

use crate::fields::{Fields, Point, Points};
use crate::refusal::{Code, Refusal};
use serde::Deserialize;

#[derive(Deserialize, Debug)]
#[serde(deny_unknown_fields)]
struct Input {
    through: Option<Point>,
    points: Option<Points>,
}

fn good(name: &str) -> Option<&'static str> {
    (name == "through").then_some("1.5 in,2 in")
}

fn query(text: &str) -> Result<Input, Refusal> {
    Fields::of_query(text).unwrap().read(good)
}

fn json(text: &str) -> Result<Input, Refusal> {
    serde_json::from_str::<Fields>(text).unwrap().read(good)
}

fn pair(point: &Point) -> (f64, f64) {
    (point.x.quantity().value, point.y.quantity().value)
}

#[test]
fn a_point_reads_alike_from_text_and_from_an_object() {
    for input in [
        query("through=1.5 in,-2 in"),
        query("through=1.5in, -2in"),
        json(r#"{"through": "1-1/2 in,-2 in"}"#),
        json(r#"{"through": {"x": "1.5 in", "y": {"value": -2, "unit": "in"}}}"#),
    ] {
        assert_eq!(pair(&input.unwrap().through.unwrap()), (1.5, -2.0));
    }
    assert_eq!(pair(&query("through=0,3 mm").unwrap().through.unwrap()), (0.0, 3.0));
}

#[test]
fn a_list_of_points_reads_alike_from_text_and_from_a_list() {
    for input in [
        query("points=0 in,0 in;1 in,0 in"),
        json(r#"{"points": [{"x": "0 in", "y": "0 in"}, {"x": "1 in", "y": 0}]}"#),
        json(r#"{"points": ["0 in,0 in", "1 in,0 in"]}"#),
    ] {
        let points = input.unwrap().points.unwrap().0;
        assert_eq!(points.iter().map(pair).collect::<Vec<_>>(), [(0.0, 0.0), (1.0, 0.0)]);
    }
    assert_eq!(query("points=1 mm,2 mm").unwrap().points.unwrap().0.len(), 1);
}

#[test]
fn a_wrong_point_says_which_coordinate_and_what_to_try() {
    let first = |input: Result<Input, Refusal>| input.unwrap_err().0.remove(0);
    let wrong = first(query("through=1.5,2 in"));
    assert_eq!((wrong.field.as_str(), wrong.code), ("/through", Code::UnitMissing));
    assert!(wrong.says.starts_with("x: "), "{}", wrong.says);
    assert_eq!(wrong.try_this.as_deref(), Some("1.5 in,2 in"));
    let wrong = first(json(r#"{"through": {"x": "1.5 in", "y": "2 deg"}}"#));
    assert_eq!((wrong.field.as_str(), wrong.code), ("/through/y", Code::UnitWrong));
    for (text, code) in [
        ("through=1,5 in,2 in", Code::ValueUnreadable),
        ("through=1 in", Code::ValueUnreadable),
        ("through=1 in,", Code::ValueEmpty),
        ("points=1 in,0 in;", Code::ValueUnreadable),
        ("points=1 in,0 in;1 in,0.5", Code::UnitMissing),
    ] {
        assert_eq!(first(query(text)).code, code, "{text}");
    }
    for (text, field, code) in [
        (r#"{"through": {"x": "1 in"}}"#, "/through", Code::FieldMissing),
        (r#"{"through": {"x": "1 in", "x": "1 in"}}"#, "/through", Code::ValueUnreadable),
        (r#"{"through": {"x": "1 in", "z": "1 in"}}"#, "/through", Code::ValueUnreadable),
        (r#"{"through": 3}"#, "/through", Code::ValueUnreadable),
        (r#"{"points": []}"#, "/points", Code::ValueEmpty),
        (r#"{"points": ["1 in,1 in", {"x": "1 in", "y": 2}]}"#, "/points/1/y", Code::UnitMissing),
    ] {
        let wrong = first(json(text));
        assert_eq!((wrong.field.as_str(), wrong.code), (field, code), "{text}");
    }
}

#[test]
fn too_many_points_are_refused() {
    let many = vec!["1 in,1 in"; 1001].join(";");
    assert_eq!(Points::read(&many).unwrap_err().code, Code::ValueOutOfRange);
    assert_eq!(Points::read(&many[..many.len() - 10]).unwrap().0.len(), 1000);
}
