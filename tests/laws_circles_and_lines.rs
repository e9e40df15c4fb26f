//! Circles through points, blends and tangent lines against places found in fifty digits, and what holds of them all.

mod common;

use common::{asked, root};
use serde_json::Value;
use shop_reckoner::calculators::find;

fn result(name: &str, query: &str) -> Value {
    let entry = find(&format!("geometry/{name}")).expect("the calculator");
    let answer = asked(entry, query).unwrap_or_else(|refusal| panic!("{name}?{query}: {refusal:?}"));
    answer["result"].clone()
}

fn number(value: &Value) -> Option<f64> {
    value["value"].as_f64()
}

/// The places of an answer: each as up to six numbers, in millimeters.
fn places(name: &str, result: &Value) -> Vec<Vec<Option<f64>>> {
    let of = |place: &Value, names: &[&str]| -> Vec<Option<f64>> {
        names.iter().flat_map(|name| [number(&place[*name]["x"]), number(&place[*name]["y"])]).collect()
    };
    let rows =
        |list: &Value, names: &[&str]| list.as_array().expect("a list").iter().map(|row| of(row, names)).collect();
    match name {
        "tangents" => rows(&result["tangents"], &["first", "second"]),
        "fillet" => rows(&result["fillets"], &["center", "first", "second"]),
        _ => ["center", "other_center"]
            .iter()
            .filter(|center| result[**center].is_object())
            .map(|center| [of(result, &[center]), vec![number(&result["radius"]), Some(0.0)]].concat())
            .collect(),
    }
}

/// How far a place is off.
fn off(found: &[Option<f64>], exact: &[f64]) -> f64 {
    let far = |(at, exact): (usize, &f64)| {
        found.get(at).copied().flatten().map_or(f64::INFINITY, |found| (found - exact).abs())
    };
    exact.iter().enumerate().map(far).fold(0.0, f64::max)
}

#[test]
fn random_circles_and_lines_are_right_to_twelve_digits_or_to_what_their_places_have() {
    let text = std::fs::read_to_string(root().join("tests/circles_and_lines/random.csv")).expect("the places");
    let mut rows = csv::Reader::from_reader(text.as_bytes());
    let (mut count, mut worst, mut before) = (0, 0.0f64, String::new());
    let mut found = Vec::new();
    for row in rows.records().map(|row| row.expect("a row")) {
        let (name, request) = (&row[0], &row[1]);
        if before != request {
            found = places(name, &result(name, &format!("{request}&units=metric")));
            assert_eq!(found.len().to_string(), row[2], "{name}?{request}");
            before = request.to_owned();
        }
        let exact: Vec<f64> = (3..9).filter_map(|at| row[at].parse().ok()).collect();
        let condition: f64 = row[9].parse().expect("a number");
        // Places are as sharp as the largest number of the request or of the answer.
        let words = request.split(|c: char| !(c.is_ascii_digit() || ".-e".contains(c)));
        let stated = words.filter_map(|word| word.parse::<f64>().ok());
        let size = stated.chain(exact.iter().copied()).fold(0.0, |size: f64, part| size.max(part.abs()));
        let off = found.iter().map(|found| off(found, &exact)).fold(f64::INFINITY, f64::min) / size;
        assert!(
            off <= 1e-12_f64.max(condition * 1e-14),
            "{name}?{request}: off by {off:e} of {size}, condition {condition}"
        );
        worst = worst.max(off / condition);
        count += 1;
    }
    assert!(count > 2000, "{count} places");
    println!("{count} places, worst relative error {worst:e} of the condition");
    assert!(worst < 1e-14, "{worst:e}");
}

#[test]
fn simple_figures_come_out_exactly() {
    let square = result("fillet", "radius=1 in&corner_angle=90 deg&units=inch");
    let arc = &square["fillets"][0];
    assert_eq!(
        [&arc["center"]["x"], &arc["center"]["y"], &arc["arc_angle"]].map(number),
        [Some(1.0), Some(1.0), Some(90.0)]
    );
    // 3, 4, 5: the tangent from 5 away to a radius of 3 is 4 long.
    let line = result("tangents", "first_center=0 mm,0 mm&first_diameter=6 mm&from_point=5 mm,0 mm&units=metric");
    assert_eq!(number(&line["tangents"][0]["length"]), Some(4.0));
    let pair = result("circle-through", "points=0 mm,0 mm;8 mm,0 mm&radius=5 mm&units=metric");
    assert_eq!([number(&pair["center"]["y"]), number(&pair["other_center"]["y"])], [Some(3.0), Some(-3.0)]);
}

#[test]
fn equal_pulleys_have_the_belt_of_two_straights_and_one_circle() {
    let query =
        "first_center=0 mm,0 mm&first_diameter=100 mm&second_center=300 mm,0 mm&second_diameter=100 mm&units=metric";
    let belt = number(&result("tangents", query)["open_belt"]).expect("a length");
    assert!((belt - (600.0 + 100.0 * std::f64::consts::PI)).abs() < 1e-9, "{belt}");
}
