//! Triangles of every case against sizes found in fifty digits, and what holds of every triangle.

mod common;

use common::{asked, root};
use serde_json::Value;
use shop_reckoner::calculators::find;

const SIZES: [&str; 7] = ["side_a", "side_b", "side_c", "angle_a", "angle_b", "angle_c", "area"];

fn solutions(query: &str) -> Vec<Value> {
    let entry = find("geometry/triangle").expect("the calculator");
    let answer = asked(entry, query).unwrap_or_else(|refusal| panic!("{query}: {refusal:?}"));
    answer["result"]["solutions"].as_array().cloned().unwrap_or_default()
}

fn size(solution: &Value, name: &str) -> f64 {
    solution[name]["value"].as_f64().expect("a number")
}

#[test]
fn random_triangles_are_right_to_twelve_digits_or_to_what_their_sizes_have() {
    let text = std::fs::read_to_string(root().join("tests/triangles/random.csv")).expect("the triangles");
    let rows: Vec<Vec<&str>> = text.lines().skip(1).map(|line| line.split(',').collect()).collect();
    assert!(rows.len() > 1500);
    let (mut before, mut at, mut worst) = ("", 0, 0.0f64);
    let mut found = Vec::new();
    for row in &rows {
        at = if row[0] == before { at + 1 } else { 0 };
        if at == 0 {
            found = solutions(&format!("{}&units=metric", row[0]));
            assert_eq!(found.len().to_string(), row[1], "{}", row[0]);
        }
        before = row[0];
        // How much a change of a size by a part of itself changes the answer: what rounding of the sizes alone does.
        let condition: f64 = row[9].parse().expect("a number");
        for (name, exact) in SIZES.iter().zip(&row[2..9]) {
            let exact: f64 = exact.parse().expect("a number");
            let off = (size(&found[at], name) / exact - 1.0).abs();
            let allowed = 1e-12_f64.max(condition * 4.0 * f64::EPSILON);
            assert!(off <= allowed, "{} {name}: {} for {exact}, off by {off:e}", row[0], size(&found[at], name));
            worst = worst.max(off / condition);
        }
    }
    // Values are sent with fifteen digits, so half a unit in the last of them counts beside the rounding of the sizes.
    assert!(worst < 1e-14, "{worst:e}");
}

#[test]
fn the_right_angle_is_met_exactly_and_the_least_that_reaches_is_one_triangle() {
    let one = solutions("side_a=3in&side_b=4in&angle_c=90deg");
    assert_eq!((one.len(), size(&one[0], "side_c"), size(&one[0], "area")), (1, 5.0, 6.0));
    for query in ["side_a=50mm&side_b=100mm&angle_a=30deg", "side_a=2in&side_b=101.6mm&angle_a=30deg"] {
        let found = solutions(query);
        assert_eq!(found.len(), 1, "{query}");
        assert_eq!(size(&found[0], "angle_b"), 90.0, "{query}");
    }
}

#[test]
fn what_cannot_be_a_triangle_is_refused_with_its_reason() {
    let entry = find("geometry/triangle").expect("the calculator");
    for (query, words) in [
        ("side_a=3in&side_b=4in&side_c=7in", "do not reach each other"),
        ("side_a=49.9mm&side_b=100mm&angle_a=30deg", "too short to reach"),
        ("side_a=100mm&side_b=100mm&angle_a=90deg", "must be the longest"),
        ("side_a=3in&angle_a=100deg&angle_b=80deg", "leave nothing for the third"),
        ("angle_a=60deg&angle_b=60deg&angle_c=60deg", "fix the shape"),
        ("side_a=3in&side_b=4in", "only two are given"),
        ("side_a=3in&side_b=4in&side_c=5in&angle_c=90deg", "exactly three"),
        ("side_a=3in&side_b=4in&angle_c=180deg", "less than 180"),
    ] {
        let refusal = asked(entry, query).expect_err(query);
        assert!(refusal.words().contains(words), "{query}: {}", refusal.words());
    }
}
