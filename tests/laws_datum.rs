//! Finding zero: the laws that touches, corners, circles and turns obey, built forward from work whose
//! place is known; what is noted and what is refused.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;
use shop_reckoner::refusal::Refusal;

fn answer(id: &str, query: &str) -> Result<Value, Refusal> {
    asked(find(id).expect("the calculator"), query)
}

fn solved(id: &str, query: &str) -> Value {
    answer(id, query).unwrap_or_else(|refusal| panic!("{id}?{query}: {refusal:?}"))
}

fn number(answer: &Value, pointer: &str) -> f64 {
    let at = answer["result"].pointer(pointer).unwrap_or_else(|| panic!("nothing at {pointer}"));
    at["value"].as_f64().or(at.as_f64()).unwrap_or_else(|| panic!("{pointer}: {at}"))
}

fn codes(answer: &Value) -> Vec<&str> {
    answer["notes"].as_array().expect("notes").iter().filter_map(|note| note["code"].as_str()).collect()
}

/// Field and code of each error.
fn refused(id: &str, query: &str) -> Vec<(String, &'static str)> {
    let wrongs = answer(id, query).expect_err(query).0;
    wrongs.into_iter().map(|wrong| (wrong.field, wrong.code.as_str())).collect()
}

fn listed(points: &[(f64, f64)]) -> String {
    points.iter().map(|(x, y)| format!("{x:.15} mm,{y:.15} mm")).collect::<Vec<_>>().join(";")
}

fn turn((x, y): (f64, f64), degrees: f64) -> (f64, f64) {
    let (sin, cos) = degrees.to_radians().sin_cos();
    (x * cos - y * sin, x * sin + y * cos)
}

fn near(a: f64, b: f64, within: f64) -> bool {
    (a - b).abs() <= within
}

#[test]
fn the_wrong_way_of_the_reading_is_off_by_twice_the_radius() {
    let set = |way: &str| {
        let query = format!("reading_was={way}&tip_diameter=0.2in&shim=0.01in&face_position=1in");
        number(&solved("datum/touch-off", &query), "/set_reading")
    };
    assert_eq!((set("growing"), set("falling")), (0.89, 1.11));
}

#[test]
fn a_readout_is_set_in_its_own_steps() {
    let query = "reading_was=growing&tip_diameter=0.2003in&resolution=0.0005in";
    let answer = solved("datum/touch-off", query);
    assert_eq!(number(&answer, "/set_reading/set_to"), -0.1);
    assert_eq!(number(&answer, "/set_reading/left_over"), -0.00015);
    let moved = "reading_0=0.0061in&reading_90=0&reading_180=0&reading_270=0&resolution=0.0005in";
    assert_eq!(number(&solved("datum/indicate", moved), "/move/x/set_to"), -0.003);
}

#[test]
fn the_order_of_two_faces_does_not_matter_but_where_the_reading_is_set() {
    for (touched, width) in [("outside", 3.0), ("inside", 3.4)] {
        let query = |a: &str, b: &str| format!("first={a}&second={b}&tip_diameter=0.2in&touched={touched}");
        let there = solved("datum/between-faces", &query("1in", "4.2in"));
        let back = solved("datum/between-faces", &query("4.2in", "1in"));
        for answer in [&there, &back] {
            assert_eq!((number(answer, "/center"), number(answer, "/width")), (2.6, width));
        }
        assert_eq!((number(&there, "/set_here"), number(&back, "/set_here")), (1.6, -1.6));
    }
}

#[test]
fn three_touches_leave_nothing_over_and_say_so() {
    let answer = solved("datum/bore-or-boss", "points=2in,0;0,2in;-2in,0");
    assert!(codes(&answer).contains(&"nothing_checks"));
    assert!(answer["result"]["out_of_round"].is_null());
    for at in 0..3 {
        assert_eq!(number(&answer, &format!("/residuals/{at}")), 0.0);
    }
    assert_eq!((number(&answer, "/center/x"), number(&answer, "/diameter")), (0.0, 4.0));
    let four = solved("datum/bore-or-boss", "points=2in,0;0,2in;-2in,0;0,-2in");
    assert!(!codes(&four).contains(&"nothing_checks"));
    assert_eq!(number(&four, "/out_of_round"), 0.0);
}

#[test]
fn even_touches_know_the_centre_by_the_root_of_two_over_their_number() {
    for count in 3..12 {
        let points: Vec<(f64, f64)> =
            (0..count).map(|n| turn((50.0, 0.0), 360.0 * f64::from(n) / f64::from(count))).collect();
        let query = format!("points={}&touch_error=0.01mm", listed(&points));
        let found = number(&solved("datum/bore-or-boss", &query), "/center_uncertainty");
        assert!(near(found, 0.01 * (2.0 / f64::from(count)).sqrt(), 1e-12), "{count}: {found}");
    }
}

#[test]
fn short_arcs_are_noted_with_their_height_and_lines_are_refused() {
    let arc = |degrees: f64| {
        let points: Vec<(f64, f64)> = [0.0, 0.5, 1.0].map(|part| turn((100.0, 0.0), part * degrees)).to_vec();
        format!("points={}&touch_error=0.01mm", listed(&points))
    };
    assert!(!codes(&solved("datum/bore-or-boss", &arc(180.0))).contains(&"short_arc"));
    let short = solved("datum/bore-or-boss", &arc(20.0));
    assert!(codes(&short).contains(&"short_arc") && !codes(&short).contains(&"arc_lost"));
    assert!(near(number(&short, "/arc_height"), 100.0 * (1.0 - 10f64.to_radians().cos()), 1e-9));
    assert!(near(number(&short, "/arc_angle"), 20.0, 1e-9));
    assert!(codes(&solved("datum/bore-or-boss", &arc(3.0))).contains(&"arc_lost"));
    for line in ["0,0;1in,1in;2in,2in", "0,0;1in,1in;1in,1in", "0,0;1in,0;2in,0;3in,0", "0,0;1in,0.00001in;2in,0"] {
        let query = format!("points={line}");
        assert_eq!(refused("datum/bore-or-boss", &query), [("/points".to_owned(), "no_answer")], "{line}");
    }
}

#[test]
fn a_slip_of_one_touch_is_named() {
    let points = "50mm,0;0,50mm;-50mm,0;0,-50mm;35.355339mm,35.355339mm;-35.4mm,35.5mm";
    let answer = solved("datum/bore-or-boss", &format!("points={points}&touch_error=0.01mm"));
    let note =
        answer["notes"].as_array().unwrap().iter().find(|note| note["code"] == "touch_off_circle").expect("a note");
    assert!(note["says"].as_str().unwrap().starts_with("Touch 6 "), "{note}");
}

#[test]
fn a_corner_is_refused_where_there_is_none_and_doubted_where_the_tip_would_not_fit() {
    let corner = |edges: &str| format!("{edges}&tip_diameter=0.2in&sides=outside");
    // Other touches on the second edge would leave those of the first on both sides of it.
    let first = [("/first_edge".to_owned(), "conflict")];
    assert_eq!(refused("datum/corner", &corner("first_edge=-1in,0;4in,0&second_edge=0,1in")), first);
    let near = solved("datum/corner", &corner("first_edge=0.05in,0;4in,0&second_edge=0,1in"));
    assert!(codes(&near).contains(&"past_the_corner"));
    let far = solved("datum/corner", &corner("first_edge=0.5in,0;4in,0&second_edge=0,1in"));
    assert!(!codes(&far).contains(&"past_the_corner"));
    // Without a tip it does not matter where the corner lies between the touches.
    let crossed = solved("datum/corner", "first_edge=-1in,0;4in,0&second_edge=0,1in");
    assert_eq!(number(&crossed, "/corner/x"), 0.0);
}

#[test]
fn a_full_width_of_cut_is_hollow_by_the_radius_times_the_sine() {
    let answer = solved("datum/tram", "difference=1in&sweep_diameter=10in&cutter_diameter=3in");
    let sine = 0.1f64.atan().sin();
    assert!(near(number(&answer, "/hollow"), 1.5 * sine, 1e-13));
    let turned = solved("datum/tram", "difference=-1in&sweep_diameter=10in&cutter_diameter=3in");
    assert_eq!(number(&turned, "/hollow"), number(&answer, "/hollow"));
    assert_eq!(number(&turned, "/tilt"), -number(&answer, "/tilt"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn an_edge_turned_back_by_its_angle_lies_on_the_axis(
        first in (-500.0..500.0f64, -500.0..500.0f64), run in 1.0..500.0f64, off in -44.0..44.0f64,
        along_y in any::<bool>(), back in any::<bool>(),
    ) {
        let way = turn((if back { -run } else { run }, 0.0), off + if along_y { 90.0 } else { 0.0 });
        let points = [first, (first.0 + way.0, first.1 + way.1)];
        let along = if along_y { "y_axis" } else { "x_axis" };
        let query = format!("first={}&second={}&along={along}", listed(&points[..1]), listed(&points[1..]));
        let angle = number(&solved("datum/edge-angle", &query), "/angle");
        prop_assert!(near(angle, off, 1e-9), "{angle}");
        let query = format!("points={}&origin={}&angle={:.15} deg", listed(&points), listed(&points[..1]), -angle);
        let turned = solved("datum/turn-and-shift", &query);
        let across = if along_y { "x" } else { "y" };
        for at in 0..2 {
            let off = number(&turned, &format!("/positions/{at}/{across}"));
            prop_assert!(near(off, 0.0, 1e-10), "{off}");
        }
        let reach = number(&turned, if along_y { "/positions/1/y" } else { "/positions/1/x" });
        prop_assert!(near(reach.abs(), run, 1e-9), "{reach}");
    }

    #[test]
    fn a_jaw_tapped_as_told_lies_true(off in -20.0..20.0f64, jaw in 10.0..500.0f64, along_y in any::<bool>()) {
        prop_assume!(off.abs() > 1e-3);
        let axis = if along_y { 90.0 } else { 0.0 };
        let end = turn((jaw, 0.0), off + axis);
        let along = if along_y { "y_axis" } else { "x_axis" };
        let query = format!("first=0,0&second={}&along={along}&jaw_length={jaw:.15} mm&units=metric", listed(&[end]));
        let answer = solved("datum/edge-angle", &query);
        let toward = answer["result"]["tap_toward"].as_str().unwrap();
        let tap = number(&answer, "/tap") * if toward == "growing" { 1.0 } else { -1.0 };
        let across = if along_y { end.0 } else { end.1 };
        prop_assert!(near(across + tap, 0.0, 1e-9), "{across} {tap}");
    }

    #[test]
    fn turns_and_shifts_undo_themselves(
        points in proptest::collection::vec((-500.0..500.0f64, -500.0..500.0f64), 1..6),
        origin in (-500.0..500.0f64, -500.0..500.0f64), angle in -360.0..360.0f64, mirror in 0usize..3,
    ) {
        let mirror = ["none", "x", "y"][mirror];
        let there = solved("datum/turn-and-shift", &format!(
            "points={}&origin={}&angle={angle:.15} deg&mirror={mirror}&units=metric", listed(&points), listed(&[origin]),
        ));
        let gone: Vec<(f64, f64)> = (0..points.len())
            .map(|at| (number(&there, &format!("/positions/{at}/x")), number(&there, &format!("/positions/{at}/y"))))
            .collect();
        // A mirror turns the way of the angle about, and the origin is mirrored with the points.
        let (angle, origin) = match mirror {
            "x" => (angle, (origin.0, -origin.1)),
            "y" => (angle, (-origin.0, origin.1)),
            _ => (-angle, (-origin.0, -origin.1)),
        };
        let back = solved("datum/turn-and-shift", &format!(
            "points={}&origin={}&angle={angle:.15} deg&mirror={mirror}&order=turn_first&units=metric",
            listed(&gone), listed(&[origin]),
        ));
        for (at, (x, y)) in points.iter().enumerate() {
            let found = ["x", "y"].map(|axis| number(&back, &format!("/positions/{at}/{axis}")));
            prop_assert!(near(found[0], *x, 1e-9) && near(found[1], *y, 1e-9), "{found:?}");
        }
    }

    #[test]
    fn a_corner_is_found_however_the_work_lies(
        corner in (-500.0..500.0f64, -500.0..500.0f64), lies in -180.0..180.0f64, opening in 40.0..140.0f64,
        tip in 0.0..10.0f64, outside in any::<bool>(), swapped in any::<bool>(),
        places in (20.0..50.0f64, 60.0..200.0f64, 20.0..50.0f64, 60.0..200.0f64),
    ) {
        // The tip stands off each edge by its radius, away from the metal.
        let off = if outside { -tip / 2.0 } else { tip / 2.0 };
        let touch = |along: f64, across: f64, from: f64| {
            let (x, y) = turn((along, across), lies + from);
            (corner.0 + x, corner.1 + y)
        };
        let first = [touch(places.0, off, 0.0), touch(places.1, off, 0.0)];
        let second = [touch(places.2, -off, opening), touch(places.3, -off, opening)];
        let (first, second) = if swapped { (second, first) } else { (first, second) };
        let sides = if outside { "outside" } else { "inside" };
        let query = format!(
            "first_edge={}&second_edge={}&tip_diameter={tip:.15} mm&sides={sides}&units=metric",
            listed(&first), listed(&second),
        );
        let answer = solved("datum/corner", &query);
        prop_assert!(near(number(&answer, "/corner/x"), corner.0, 1e-9), "{answer}");
        prop_assert!(near(number(&answer, "/corner/y"), corner.1, 1e-9));
        prop_assert!(near(number(&answer, "/corner_angle"), opening, 1e-9));
        prop_assert!(!codes(&answer).contains(&"past_the_corner"));
    }

    #[test]
    fn a_square_corner_needs_one_touch_less(
        corner in (-500.0..500.0f64, -500.0..500.0f64), lies in -180.0..180.0f64, tip in 0.01..10.0f64,
        outside in any::<bool>(), left in any::<bool>(),
    ) {
        let off = if outside { -tip / 2.0 } else { tip / 2.0 };
        let hand = if left { -1.0 } else { 1.0 };
        let touch = |x: f64, y: f64| {
            let (x, y) = turn((hand * x, y), lies);
            (corner.0 + x, corner.1 + y)
        };
        let first = [touch(30.0, off), touch(90.0, off)];
        let query = format!(
            "first_edge={}&second_edge={}&tip_diameter={tip:.15} mm&sides={}&units=metric",
            listed(&first), listed(&[touch(off, 25.0)]), if outside { "outside" } else { "inside" },
        );
        let answer = solved("datum/corner", &query);
        prop_assert!(near(number(&answer, "/corner/x"), corner.0, 1e-9), "{answer}");
        prop_assert!(near(number(&answer, "/corner/y"), corner.1, 1e-9));
        prop_assert!(codes(&answer).contains(&"taken_square"));
    }

    #[test]
    fn a_circle_is_found_wherever_it_lies_and_turned_work_turns_its_centre(
        center in (-500.0..500.0f64, -500.0..500.0f64), diameter in 20.0..300.0f64, tip in 0.0..10.0f64,
        bore in any::<bool>(), start in 0.0..360.0f64,
        noise in proptest::collection::vec(-0.02..0.02f64, 4..9), turned in -180.0..180.0f64,
    ) {
        let path = if bore { (diameter - tip) / 2.0 } else { (diameter + tip) / 2.0 };
        let count = noise.len() as f64;
        let touches = |noisy: f64| -> Vec<(f64, f64)> {
            let place = |(n, off): (usize, &f64)| {
                let (x, y) = turn((path + noisy * off, 0.0), start + 300.0 * n as f64 / count);
                (center.0 + x, center.1 + y)
            };
            noise.iter().enumerate().map(place).collect()
        };
        let feature = if bore { "bore" } else { "boss" };
        let ask = |points: &[(f64, f64)]| {
            let query = format!("points={}&tip_diameter={tip:.15} mm&feature={feature}&units=metric", listed(points));
            let answer = solved("datum/bore-or-boss", &query);
            ["/center/x", "/center/y", "/diameter", "/out_of_round"].map(|at| number(&answer, at))
        };
        let [x, y, d, form] = ask(&touches(0.0));
        prop_assert!(near(x, center.0, 1e-9) && near(y, center.1, 1e-9) && near(d, diameter, 1e-9), "{x} {y} {d}");
        prop_assert!(near(form, 0.0, 1e-9));
        let noisy = touches(1.0);
        let [x, y, d, form] = ask(&noisy);
        let rotated: Vec<(f64, f64)> = noisy.iter().map(|point| turn(*point, turned)).collect();
        let [a, b, c, again] = ask(&rotated);
        let (x, y) = turn((x, y), turned);
        prop_assert!(near(x, a, 1e-8) && near(y, b, 1e-8) && near(c, d, 1e-8) && near(form, again, 1e-8));
    }

    #[test]
    fn the_moves_bring_an_eccentric_circle_true(
        off in (-0.5..0.5f64, -0.5..0.5f64), radius in 20.0..100.0f64, lever in 0.0..60.0f64,
        bore in any::<bool>(), chuck in any::<bool>(), zero in -1.0..1.0f64,
    ) {
        // How far the surface is from the axis of turning, on each side; the indicator is pressed by
        // a near wall of a bore and a far one of a boss.
        let reading = |side: (f64, f64)| {
            let along = off.0 * side.0 + off.1 * side.1;
            let across = off.0 * side.1 - off.1 * side.0;
            let surface = along + (radius * radius - across * across).sqrt();
            let pressed = if bore { -surface } else { surface };
            zero + pressed / lever.to_radians().cos()
        };
        let [a, b, c, d] = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)].map(reading);
        let query = format!(
            "reading_0={a:.15} mm&reading_90={b:.15} mm&reading_180={c:.15} mm&reading_270={d:.15} mm\
             &feature={}&turning={}&lever_angle={lever:.15} deg&units=metric",
            if bore { "bore" } else { "boss" }, if chuck { "chuck" } else { "spindle" },
        );
        let answer = solved("datum/indicate", &query);
        // The spindle goes to the circle's center, or the work the other way to the spindle.
        let way = if chuck { -1.0 } else { 1.0 };
        prop_assert!(near(number(&answer, "/move/x"), way * off.0, 1e-9), "{answer}");
        prop_assert!(near(number(&answer, "/move/y"), way * off.1, 1e-9));
        prop_assert!(near(number(&answer, "/eccentricity"), off.0.hypot(off.1), 1e-9));
    }
}
