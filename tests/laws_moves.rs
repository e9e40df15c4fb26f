//! Moving from zero: the laws that tool offsets, move lists, orders of visiting, stops and handwheels
//! obey, and what is refused.

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

/// The value at a pointer into the result, and with `set` what it is set to.
fn number(answer: &Value, pointer: &str) -> f64 {
    let at = answer["result"].pointer(pointer).unwrap_or_else(|| panic!("nothing at {pointer}: {answer}"));
    at["value"].as_f64().or(at.as_f64()).unwrap_or_else(|| panic!("{pointer}: {at}"))
}

fn column(answer: &Value, list: &str, name: &str) -> Vec<f64> {
    (0..answer["result"][list].as_array().expect(list).len())
        .map(|at| number(answer, &format!("/{list}/{at}/{name}")))
        .collect()
}

fn codes(answer: &Value) -> Vec<&str> {
    answer["notes"].as_array().expect("notes").iter().filter_map(|note| note["code"].as_str()).collect()
}

/// Field, code and value to try of each error.
fn refused(id: &str, query: &str) -> Vec<(String, &'static str, String)> {
    let wrongs = answer(id, query).expect_err(query).0;
    wrongs.into_iter().map(|wrong| (wrong.field, wrong.code.as_str(), wrong.try_this.unwrap_or_default())).collect()
}

/// Every value to try, put in the place of what was refused, is answered.
fn ways_out_work(id: &str, query: &str) {
    for (field, _, value) in refused(id, query) {
        let name = field.trim_start_matches('/').split('/').next().expect("a field").to_owned();
        let mut pairs: Vec<String> =
            query.split('&').filter(|pair| !pair.starts_with(&format!("{name}="))).map(str::to_owned).collect();
        if value != "leave out" {
            pairs.push(format!("{name}={value}"));
        }
        solved(id, &pairs.join("&"));
    }
}

fn listed(points: &[(f64, f64)]) -> String {
    points.iter().map(|(x, y)| format!("{x} mm,{y} mm")).collect::<Vec<_>>().join(";")
}

const TOOLS: &str = "tools=A,10 mm;B,12 mm;C,7.5 mm&reference=B";

#[test]
fn the_reference_has_no_offset_and_the_longer_tool_touches_first() {
    for (way, longer) in [("growing", [2.0, 0.0, 4.5]), ("falling", [-2.0, 0.0, -4.5])] {
        let answer = solved("datum/tool-setting", &format!("{TOOLS}&reading_was={way}"));
        assert_eq!(column(&answer, "offsets", "offset"), [-2.0, 0.0, -4.5]);
        assert_eq!(column(&answer, "offsets", "longer_by"), longer);
    }
}

#[test]
fn tools_that_cannot_be_told_apart_are_refused() {
    for (query, field, code) in [
        ("tools=A,1 mm;A,2 mm&reference=A", "/tools", "conflict"),
        ("tools=A,1 mm;B,2 mm&reference=C", "/reference", "not_found"),
        ("tools=A,1 mm;B,2&reference=A", "/tools/1/reading", "unit_missing"),
        ("tools=A,1 mm;B&reference=A", "/tools/1/reading", "field_missing"),
        (r#"tools=[{"name": "", "reading": "1 mm"}]&reference=A"#, "/tools/0/name", "value_empty"),
    ] {
        let wrong = &refused("datum/tool-setting", query)[0];
        assert_eq!((wrong.0.as_str(), wrong.1), (field, code), "{query}");
    }
    ways_out_work("datum/tool-setting", "tools=end mill,1 mm;drill,2 mm&reference=endmill");
}

#[test]
fn a_list_of_objects_is_asked_alike_in_a_query_and_in_json() {
    let json = r#"tools=[{"name": "A", "reading": "10 mm"}, {"name": "B", "reading": {"value": 12, "unit": "mm"}}]"#;
    let rows = solved("datum/tool-setting", "tools=A,10 mm;B,12 mm&reference=A");
    assert_eq!(solved("datum/tool-setting", &format!("{json}&reference=A"))["result"], rows["result"]);
}

#[test]
fn only_moves_against_the_approach_go_past() {
    let points = "points=10 mm,10 mm;5 mm,20 mm;5 mm,15 mm&backlash=0.2 mm";
    let growing = solved("datum/move-list", &format!("{points}&approach=growing"));
    let rows = growing["result"]["moves"].as_array().expect("moves");
    let past = |row: &Value, name: &str| row.get(name).map(|past| past["value"].as_f64().expect("a length"));
    assert_eq!(rows.iter().map(|row| past(row, "past_x")).collect::<Vec<_>>(), [None, Some(4.6), None]);
    assert_eq!(rows.iter().map(|row| past(row, "past_y")).collect::<Vec<_>>(), [None, None, Some(14.6)]);
    let falling = solved("datum/move-list", &format!("{points}&approach=falling"));
    assert_eq!(past(&falling["result"]["moves"][0], "past_x"), Some(10.4));
    assert!(!solved("datum/move-list", "points=1 mm,1 mm&backlash=0 mm").to_string().contains("past_x"));
    ways_out_work("datum/move-list", "points=1 mm,1 mm&approach=growing");
}

/// The shortest of all orders, by trying them.
fn brute(points: &[(f64, f64)], start: (f64, f64), finish: Option<(f64, f64)>, travel: fn(f64, f64) -> f64) -> f64 {
    fn rest(here: (f64, f64), left: &[(f64, f64)], finish: Option<(f64, f64)>, travel: fn(f64, f64) -> f64) -> f64 {
        if left.is_empty() {
            return finish.map_or(0.0, |end| travel(end.0 - here.0, end.1 - here.1));
        }
        (0..left.len())
            .map(|at| {
                let mut others = left.to_vec();
                let next = others.remove(at);
                travel(next.0 - here.0, next.1 - here.1) + rest(next, &others, finish, travel)
            })
            .fold(f64::INFINITY, f64::min)
    }
    rest(start, points, finish, travel)
}

type Count = (&'static str, fn(f64, f64) -> f64);

const COUNTS: [Count; 3] = [
    ("straight", |x, y| x.hypot(y)),
    ("one_axis_at_a_time", |x, y| x.abs() + y.abs()),
    ("longer_axis", |x, y| x.abs().max(y.abs())),
];

/// Length of the answer's order, measured here; every place is in it once.
fn walked(answer: &Value, points: &[(f64, f64)], start: (f64, f64), finish: Option<(f64, f64)>, count: Count) -> f64 {
    let order: Vec<usize> =
        answer["result"]["order"].as_array().expect("order").iter().map(|n| n.as_u64().expect("n") as usize).collect();
    let mut sorted = order.clone();
    sorted.sort_unstable();
    assert_eq!(sorted, (1..=points.len()).collect::<Vec<_>>());
    let way = std::iter::once(start).chain(order.iter().map(|n| points[n - 1])).chain(finish);
    let way: Vec<(f64, f64)> = way.collect();
    way.windows(2).map(|pair| (count.1)(pair[1].0 - pair[0].0, pair[1].1 - pair[0].1)).sum()
}

#[test]
fn rows_of_holes_given_crosswise_are_found_again() {
    // 10 by 10 holes in an order that jumps about; every way has at least 99 steps of 10 mm.
    let points: Vec<(f64, f64)> =
        (0..100).map(|at| at * 37 % 100).map(|at| (f64::from(at % 10) * 10.0, f64::from(at / 10) * 10.0)).collect();
    let answer = solved("datum/visit-order", &format!("points={}", listed(&points)));
    let length = number(&answer, "/length");
    assert!((990.0..990.0 * 1.12).contains(&length), "{length}");
    assert!(codes(&answer).contains(&"may_not_be_shortest"));
    // A serpentine cannot be bettered and is left as it is.
    let serpentine: Vec<(f64, f64)> = (0..100)
        .map(|at| (at / 10, at % 10))
        .map(|(row, at)| (f64::from(if row % 2 == 0 { at } else { 9 - at }) * 10.0, f64::from(row) * 10.0))
        .collect();
    let answer = solved("datum/visit-order", &format!("points={}", listed(&serpentine)));
    assert_eq!(answer["result"]["order"], serde_json::json!((1..=100).collect::<Vec<u32>>()));
    assert!(codes(&answer).contains(&"as_good_as_given"));
}

#[test]
fn a_thousand_holes_are_answered() {
    let points: Vec<(f64, f64)> =
        (0..1000u32).map(|at| (f64::from(at * 7919 % 1009), f64::from(at * 6007 % 997))).collect();
    let answer = solved("datum/visit-order", &format!("points={}&working=false", listed(&points)));
    // A random way through a square of side a takes about a·n/2, a short one about 0.75·a·√n.
    assert!(number(&answer, "/length") < 0.9 * 1000.0 * 1000f64.sqrt());
}

#[test]
fn stops_of_a_pocket_leave_the_allowance_inside_it() {
    let pocket = "walls=x,10 mm,minus;x,70 mm,plus";
    let answer = solved("datum/wall-stops", &format!("{pocket}&cutter_diameter=12 mm&finish_allowance=0.3 mm"));
    assert_eq!(column(&answer, "stops", "finish"), [16.0, 64.0]);
    assert_eq!(column(&answer, "stops", "rough"), [16.3, 63.7]);
    let boss = "walls=y_axis,10 mm,plus;y_axis,70 mm,minus&cutter_diameter=12 mm&finish_allowance=0.3 mm";
    assert_eq!(column(&solved("datum/wall-stops", boss), "stops", "rough"), [3.7, 76.3]);
}

#[test]
fn a_cutter_that_does_not_fit_is_refused_with_one_that_does() {
    for query in [
        "walls=x_axis,10 mm,minus;x_axis,20 mm,plus&cutter_diameter=12 mm",
        "walls=x_axis,20 mm,plus;y_axis,0 mm,plus;x_axis,10 mm,minus&cutter_diameter=0.5 in",
        "walls=x_axis,10 mm,minus;x_axis,20 mm,plus&cutter_diameter=9.6 mm&finish_allowance=0.3 mm",
    ] {
        assert!(refused("datum/wall-stops", query).iter().all(|wrong| wrong.1 == "no_answer"));
        ways_out_work("datum/wall-stops", query);
    }
    // Walls that turn their backs on each other, or stand across different axes, leave all the room there is.
    solved("datum/wall-stops", "walls=x_axis,10 mm,plus;x_axis,20 mm,minus;y_axis,12 mm,plus&cutter_diameter=50 mm");
    solved("datum/wall-stops", "walls=x_axis,0 in,minus;x_axis,0.5 in,plus&cutter_diameter=12.7 mm");
}

#[test]
fn a_handwheel_counts_turns_and_divisions() {
    let answer = solved("datum/handwheel", "distance=1.2345 in&travel_per_turn=0.2 in&divisions=200");
    let find = |pointer: &str| number(&answer, pointer);
    assert_eq!((find("/turns"), find("/divisions")), (6.0, 34.5));
    assert_eq!((find("/nearest/turns"), find("/nearest/divisions")), (6.0, 35.0));
    assert_eq!((find("/nearest/remainder"), find("/dial_reading")), (-0.0005, 0.0345));
    // Rounding carries into the turns.
    let answer = solved("datum/handwheel", "distance=0.19998 in&travel_per_turn=0.2 in&divisions=200");
    assert_eq!((number(&answer, "/nearest/turns"), number(&answer, "/nearest/divisions")), (1.0, 0.0));
    let still = solved("datum/handwheel", "distance=0&travel_per_turn=0.2 in&divisions=200&backlash=0.01 in");
    assert!(still["result"].get("figures").is_none() && number(&still, "/overshoot") == 0.0);
}

#[test]
fn a_handwheel_takes_what_the_dial_or_the_screw_says() {
    let same = |query: &str| {
        let answer = solved("datum/handwheel", &format!("distance=0.3 in&dial_now=0.01 in&{query}"));
        ["/turns", "/divisions", "/nearest/divisions", "/dial_reading"].map(|pointer| number(&answer, pointer))
    };
    let stated = same("travel_per_turn=0.125 in&divisions=125");
    assert_eq!(stated, [2.0, 50.0, 50.0, 0.06]);
    for other in [
        "threads_per_inch=8&divisions=125",
        "travel_per_division=0.001 in&divisions=125",
        "threads_per_inch=8&travel_per_division=0.001 in",
        "travel_per_turn=0.125 in&travel_per_division=0.001 in",
    ] {
        assert_eq!(same(other), stated, "{other}");
    }
    // With the travel of a division alone the divisions are counted through.
    let answer = solved("datum/handwheel", "distance=1.51 mm&travel_per_division=0.02 mm");
    assert_eq!((number(&answer, "/divisions"), number(&answer, "/nearest/divisions")), (75.5, 76.0));
    assert!(answer["result"].get("turns").is_none() && answer["result"].get("dial_reading").is_none());
}

#[test]
fn a_handwheel_refuses_what_no_dial_shows_with_ways_out() {
    for query in [
        "distance=1 in&travel_per_turn=0.2 in&divisions=200&dial_now=0.3 in",
        "distance=1 in&travel_per_turn=0.2 in&divisions=200&approach=growing",
        "distance=100 in&travel_per_turn=0.00001 in&divisions=200",
        "distance=1 in&travel_per_turn=0.2 in",
        "distance=1 in&travel_per_turn=0.2 in&threads_per_inch=5&divisions=200",
        "distance=1 in&threads_per_inch=1000&divisions=200",
        "distance=1 in&travel_per_turn=0.2 in&travel_per_division=0.03 in",
        "distance=1 in&travel_per_turn=0.2 in&travel_per_division=0.001 in&divisions=100",
        "distance=1 in&travel_per_division=0.001 in&dial_now=0.1 in",
        "distance=100 in&travel_per_division=0.000001 in",
    ] {
        ways_out_work("datum/handwheel", query);
    }
}

#[test]
fn metal_is_not_put_back_on_a_shaft() {
    for query in [
        "measured_diameter=24 mm&target_diameter=25 mm&dial=radius",
        "measured_diameter=26 mm&target_diameter=25 mm&dial=diameter&surface=inside",
    ] {
        assert_eq!(refused("datum/lathe-touch-off", query)[0].1, "no_answer");
        ways_out_work("datum/lathe-touch-off", query);
    }
    assert_eq!(refused("datum/lathe-touch-off", "measured_diameter=24 mm&target_diameter=20 mm")[0].0, "/dial");
}

#[test]
fn a_cross_slide_is_set_as_its_scale_counts() {
    let ask = |rest: &str| {
        let query = format!("measured_diameter=25.5234 mm&target_diameter=24.9967 mm&resolution=0.01 mm{rest}");
        let answer = solved("datum/lathe-touch-off", &query);
        ["set_reading", "target_reading", "infeed_left"]
            .map(|name| answer["result"][name]["set_to"]["value"].as_f64().expect("a setting"))
    };
    assert_eq!(ask("&dial=diameter"), [25.52, 25.0, 0.52]);
    assert_eq!(ask("&dial=diameter&x_reads=diameter"), ask("&dial=diameter"));
    assert_eq!(ask("&dial=radius"), [12.76, 12.5, 0.26]);
    // The dial is one thing, a readout on the slide another.
    assert_eq!(ask("&dial=diameter&x_reads=radius"), ask("&dial=radius"));
    assert_eq!(ask("&dial=radius&x_reads=diameter"), ask("&dial=diameter"));
    let unused = solved("datum/touch-off", "reading_was=growing&tip_diameter=6 mm&resolution=0.01 mm&x_reads=radius");
    assert!(codes(&unused).contains(&"x_reads_unused"));
    let without =
        refused("datum/lathe-touch-off", "measured_diameter=2 in&target_diameter=1 in&dial=radius&x_reads=radius");
    assert_eq!((without[0].0.as_str(), without[0].1), ("/resolution", "field_missing"));
}

proptest! {
    #[test]
    fn with_offsets_taken_off_every_tool_reads_the_same_on_one_face(
        readings in proptest::collection::vec(-400_000i32..400_000, 1..12), reference in 0usize..12,
        knee: bool, falling: bool, up: bool, shift in -100_000i32..100_000,
    ) {
        let reference = reference % readings.len();
        // Readings of a readout in steps of 0.001 mm.
        let mm = |counts: i32| f64::from(counts) / 1000.0;
        let tools: Vec<String> = readings.iter().enumerate().map(|(at, r)| format!("T{at},{} mm", mm(*r))).collect();
        let query = |shift: i32| format!(
            "tools={}&reference=T{reference}&moved={}&reading_was={}&reference_now={} mm&resolution=0.001 mm&z_plus={}",
            tools.join(";"), if knee { "knee" } else { "quill" }, if falling { "falling" } else { "growing" },
            mm(readings[reference] + shift), if up { "up" } else { "down" },
        );
        let answer = solved("datum/tool-setting", &query(shift));
        let offsets = answer["result"]["offsets"].as_array().unwrap();
        for (row, reading) in offsets.iter().zip(&readings) {
            let counts = |name: &str| (row[name]["set_to"]["value"].as_f64().unwrap() * 1000.0).round() as i32;
            prop_assert_eq!(reading - counts("offset"), readings[reference]);
            // A surface that changed is one shift for all.
            prop_assert_eq!(counts("reading_now"), reading + shift);
        }
        prop_assert_eq!(
            column(&answer, "offsets", "offset"),
            column(&solved("datum/tool-setting", &query(0)), "offsets", "offset")
        );
    }

    #[test]
    fn moves_lead_from_place_to_place_as_computed_and_as_set(
        points in proptest::collection::vec((-500.0f64..500.0, -500.0f64..500.0), 1..20), counts in 1u32..40,
    ) {
        let step = f64::from(counts) / 2000.0;
        let query = format!("points={}&feed_rate=100 mm/min&resolution={step} mm", listed(&points));
        let answer = solved("datum/move-list", &query);
        let (dxs, dys) = (column(&answer, "moves", "dx"), column(&answer, "moves", "dy"));
        let (mut at, mut set, mut length) = ((0.0, 0.0), (0.0, 0.0), 0.0);
        for (row, (x, y)) in points.iter().enumerate() {
            at = (at.0 + dxs[row], at.1 + dys[row]);
            prop_assert!((at.0 - x).abs() < 1e-9 && (at.1 - y).abs() < 1e-9);
            length += dxs[row].hypot(dys[row]);
            let counts = |name: &str| {
                let value = answer["result"]["moves"][row][name]["set_to"]["value"].as_f64().unwrap();
                (value / step).round()
            };
            set = (set.0 + counts("dx"), set.1 + counts("dy"));
            prop_assert_eq!(set, (counts("x"), counts("y")));
        }
        prop_assert!((number(&answer, "/total/distance") - length).abs() < 1e-9);
        prop_assert!((number(&answer, "/total/time") - length / 100.0 * 60.0).abs() < 1e-8);
    }

    #[test]
    fn few_holes_are_visited_by_the_shortest_way(
        points in proptest::collection::vec((0u32..200, 0u32..200), 1..7),
        start in proptest::option::of((0u32..200, 0u32..200)), finish in proptest::option::of((0u32..200, 0u32..200)),
        count in 0usize..3,
    ) {
        let mm = |(x, y): (u32, u32)| (f64::from(x) / 2.0, f64::from(y) / 2.0);
        let points: Vec<(f64, f64)> = points.into_iter().map(mm).collect();
        let (start, finish, count) = (start.map(mm), finish.map(mm), COUNTS[count]);
        let part = |name: &str, point: Option<(f64, f64)>| {
            point.map(|point| format!("&{name}={}", listed(&[point]))).unwrap_or_default()
        };
        let query = format!(
            "points={}{}{}&travel={}", listed(&points), part("start", start), part("finish", finish), count.0
        );
        let answer = solved("datum/visit-order", &query);
        let start = start.unwrap_or(points[0]);
        let shortest = brute(&points, start, finish, count.1);
        prop_assert!((number(&answer, "/length") - shortest).abs() < 1e-9);
        prop_assert!((walked(&answer, &points, start, finish, count) - shortest).abs() < 1e-9);
    }

    #[test]
    fn no_order_is_longer_than_the_one_given(
        points in proptest::collection::vec((0.0f64..500.0, 0.0f64..300.0), 1..120),
        finish in proptest::option::of((0.0f64..500.0, 0.0f64..500.0)), count in 0usize..3, sorted: bool,
    ) {
        let mut points = points;
        if sorted {
            points.sort_by(|a, b| a.0.total_cmp(&b.0));
        }
        let count = COUNTS[count];
        let end = finish.map(|point| format!("&finish={}", listed(&[point]))).unwrap_or_default();
        let query = format!("points={}&start=0 mm,0 mm&travel={}{end}&working=false", listed(&points), count.0);
        let answer = solved("datum/visit-order", &query);
        let (length, given) = (number(&answer, "/length"), number(&answer, "/length_as_given"));
        prop_assert!(length <= given * (1.0 + 1e-12));
        prop_assert!((walked(&answer, &points, (0.0, 0.0), finish, count) - length).abs() < 1e-8);
        prop_assert!((column(&answer, "places", "dx").iter().sum::<f64>()
            - column(&answer, "places", "x").last().unwrap()).abs() < 1e-8);
    }

    #[test]
    fn a_cutter_at_its_stop_just_meets_the_wall_and_stays_off_the_metal(
        place in -500.0f64..500.0, diameter in 1.0f64..60.0, allowance in 0.0f64..2.0, plus: bool, x: bool,
    ) {
        let side = if plus { "plus" } else { "minus" };
        let axis = if x { "x_axis" } else { "y_axis" };
        let answer = solved("datum/wall-stops", &format!(
            "walls={axis},{place} mm,{side}&cutter_diameter={diameter} mm&finish_allowance={allowance} mm"
        ));
        // Towards the metal: the cutter's edge at the finishing stop is the wall, at the rough stop the allowance off it.
        let to_metal = if plus { 1.0 } else { -1.0 };
        let edge = |name: &str| number(&answer, &format!("/stops/0/{name}")) + to_metal * diameter / 2.0;
        prop_assert!((edge("finish") - place).abs() < 1e-9);
        prop_assert!((edge("rough") - (place - to_metal * allowance)).abs() < 1e-9);
    }

    #[test]
    fn turns_and_divisions_make_the_distance_and_the_dial_stands_where_it_says(
        distance in -300.0f64..300.0, turn in 1u32..50, divisions in 10u32..500, now in 0.0f64..1.0,
        backlash in 0.001f64..0.5, growing: bool,
    ) {
        let turn = f64::from(turn) / 4.0;
        let way = if growing { "growing" } else { "falling" };
        let now = now * turn * 0.999;
        let answer = solved("datum/handwheel", &format!(
            "distance={distance} mm&travel_per_turn={turn} mm&divisions={divisions}&dial_now={now} mm\
             &backlash={backlash} mm&approach={way}"
        ));
        let find = |pointer: &str| number(&answer, pointer);
        let division = turn / f64::from(divisions);
        prop_assert!((find("/turns") * turn + find("/divisions") * division - distance.abs()).abs() < 1e-9);
        prop_assert!((0.0..f64::from(divisions)).contains(&find("/divisions")));
        let nearest = find("/nearest/turns") * turn + find("/nearest/divisions") * division;
        prop_assert!((nearest + find("/nearest/remainder") - distance.abs()).abs() < 1e-9);
        prop_assert!(find("/nearest/remainder").abs() <= division / 2.0 + 1e-9);
        let off = |found: f64, place: f64| {
            let turns = (found - place) / turn;
            (turns - turns.round()).abs() * turn
        };
        prop_assert!(off(find("/dial_reading"), now + distance) < 1e-9);
        let against = growing == (distance < 0.0);
        let past = if against { 2.0 * backlash } else { 0.0 };
        prop_assert!((find("/overshoot") - past).abs() < 1e-12);
        if against {
            let back = now + distance + if growing { -past } else { past };
            prop_assert!(off(find("/turn_back_at"), back) < 1e-9);
        }
    }
}
