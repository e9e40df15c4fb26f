//! Tolerances, ranges and solving backwards, for every calculator alike.

mod common;

use common::{asked, fields, query, root};
use proptest::prelude::*;
use serde::Deserialize;
use serde_json::Value;
use shop_reckoner::asking::{Form, ask, table};
use shop_reckoner::calculators::{Entry, REGISTER, find};
use shop_reckoner::fields::Fields;
use shop_reckoner::json::ToJson;

fn entry(id: &str) -> &'static Entry {
    find(id).expect("a calculator")
}

fn answer(id: &str, text: &str) -> Value {
    asked(entry(id), text).unwrap_or_else(|refusal| panic!("{id}?{text}: {refusal:?}"))
}

fn refused(id: &str, text: &str) -> Vec<(String, &'static str)> {
    let refusal = asked(entry(id), text).map(|_| ()).expect_err("a refusal");
    refusal.0.into_iter().map(|wrong| (wrong.field, wrong.code.as_str())).collect()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

#[test]
fn a_radius_from_chord_and_height_carries_its_range() {
    let answer = answer("geometry/arc", "chord=60 ±0.02 mm&height=4 ±0.02 mm");
    let radius = &answer["result"]["solutions"][0]["radius"];
    let spread = &radius["plus_minus"];
    assert!((number(&spread["worst_case"]["plus"]) - 0.6275).abs() < 0.001, "{radius}");
    assert_eq!((spread["most_from"].as_str(), spread["method"].as_str()), (Some("height"), Some("derivatives")));
    assert!(
        number(&radius["least"]) < number(&radius["value"]) && number(&radius["value"]) < number(&radius["greatest"])
    );
    assert_eq!(answer["inputs"]["chord"]["plus"], 0.02);
}

#[test]
fn a_tolerance_is_in_the_units_of_the_answer() {
    let inch = answer("holes/drill-point", "diameter=0.500 ±0.002 in&units=inch");
    let metric = answer("holes/drill-point", "diameter=0.500 ±0.002 in&units=metric");
    let plus = |answer: &Value| number(&answer["result"]["point_length"]["plus_minus"]["worst_case"]["plus"]);
    assert!((plus(&inch) * 25.4 - plus(&metric)).abs() < 1e-6);
    assert!((plus(&inch) - 0.002 * 0.5 / 59f64.to_radians().tan()).abs() < 1e-8);
}

#[test]
fn a_drill_that_changes_within_the_tolerance_is_said_to() {
    let answer = answer("holes/drill-size", "diameter=0.2500 ±0.004 in&count=1");
    let note = answer["notes"].as_array().expect("notes").iter().find(|n| n["code"] == "changes_within_tolerance");
    assert!(
        note.is_some_and(|note| note["says"].as_str().unwrap_or("").contains("drills.name")),
        "{}",
        answer["notes"]
    );
    let diameter = &answer["result"]["drills"][0]["diameter"];
    assert_eq!(diameter["plus_minus"]["method"], "corners", "{diameter}");
}

#[test]
fn a_speed_step_is_solved_at_the_corners() {
    let text = "cutting_speed=70 ft/min&diameter=0.425 ±0.005 in&available=112 rpm,160 rpm,450 rpm,630 rpm&may_exceed=0 percent";
    let answer = answer("speeds/spindle-speed", text);
    let speed = &answer["result"]["spindle_speed"];
    assert_eq!(speed["plus_minus"]["method"], "corners", "{speed}");
    assert_eq!((number(&speed["least"]), number(&speed["greatest"])), (450.0, 630.0));
    assert_eq!(answer["result"]["exact_speed"]["plus_minus"]["method"], "derivatives");
}

#[test]
fn tolerances_beyond_what_can_be_answered_are_refused() {
    assert_eq!(refused("geometry/arc", "radius=10 ±2 mm&chord=19 mm"), [("/radius".to_owned(), "no_answer")]);
}

/// The Monte Carlo rows of tests/checks/tolerance.py.
#[test]
fn root_sum_squares_agree_with_a_monte_carlo() {
    let mut reader = csv::Reader::from_path(root().join("tests/checks/tolerance.csv")).expect("the rows");
    let mut rows = 0;
    for row in reader.records() {
        let row = row.expect("a row");
        let (id, inputs, field, expected, tolerance) = (&row[0], &row[1], &row[2], &row[3], &row[4]);
        let answer = answer(id, inputs);
        let leaf = answer["result"].pointer(field).unwrap_or_else(|| panic!("{id}: no {field}"));
        let is = number(&leaf["plus_minus"]["root_sum_square"]);
        let (expected, tolerance): (f64, f64) =
            (expected.parse().expect("a number"), tolerance.parse().expect("a number"));
        assert!((is - expected).abs() <= tolerance, "{id}?{inputs} {field}: {is}, not {expected} ±{tolerance}");
        rows += 1;
    }
    assert!(rows >= 5);
}

#[test]
fn a_range_is_a_table_of_the_same_answers() {
    let ranged = answer("holes/drill-point", "diameter=1/4 in..1 in step 1/16 in&point_angle=118 deg|135 deg");
    let rows = ranged["rows"].as_array().expect("rows");
    assert_eq!(rows.len(), 26);
    assert!(ranged.get("result").is_none() && ranged.get("difference").is_none());
    for row in rows {
        let one = |name: &str| {
            let quantity = &row["inputs"][name];
            format!("{name}={} {}", number(&quantity["value"]), quantity["unit"].as_str().expect("a unit"))
        };
        let alone = answer("holes/drill-point", &format!("{}&{}", one("diameter"), one("point_angle")));
        assert_eq!(row["result"], alone["result"]);
    }
    assert_eq!(rows[1]["inputs"]["point_angle"]["value"], 135.0);
    assert_eq!(rows[25]["inputs"]["diameter"]["value"], 1.0);
}

#[test]
fn two_cases_stand_side_by_side_with_their_difference() {
    let both = answer("holes/drill-point", "diameter=12 mm&point_angle=118 deg|135 deg");
    let length = |row: usize| number(&both["rows"][row]["result"]["point_length"]["value"]);
    let difference = number(&both["difference"]["point_length"]["value"]);
    assert!((difference - (length(1) - length(0))).abs() < 1e-12, "{}", both["difference"]);
}

#[test]
fn a_row_that_is_refused_stops_no_other() {
    let rows = answer("geometry/arc", "radius=10 mm&chord=18 mm..22 mm step 2 mm");
    let rows = rows["rows"].as_array().expect("rows");
    assert_eq!(rows.len(), 3);
    assert!(rows[0]["result"].is_object() && rows[1]["result"].is_object());
    assert_eq!(rows[2]["errors"][0]["code"], "no_answer");
    assert_eq!(rows[2]["inputs"]["chord"], "22 mm");
}

#[test]
fn a_range_reads_as_it_is_said_or_is_refused() {
    let count = |range: &str| {
        let answer = answer("holes/drill-point", &format!("diameter={range}"));
        answer["rows"].as_array().map(Vec::len)
    };
    assert_eq!(count("1..3 mm step 0.5 mm"), Some(5));
    assert_eq!(count("3 mm..1 mm step 0.5"), Some(5));
    assert_eq!(count("0.1 in..0.2 in step 1 mm"), Some(3));
    assert_eq!(count("#7|F|27/64"), Some(3));
    let code = |text: &str| refused("holes/drill-point", text)[0].1;
    assert_eq!(code("diameter=1 in..2 in"), "value_unreadable");
    assert_eq!(code("diameter=1 in..2 in step 0 in"), "value_out_of_range");
    assert_eq!(code("diameter=1 in..2 in step 1 deg"), "value_unreadable");
    assert_eq!(code("diameter=1 in..2 in step 0.0001 in"), "value_out_of_range");
    assert_eq!(code("diameter=1 mm..100 mm step 1 mm&point_angle=100 deg..140 deg step 1 deg"), "value_out_of_range");
    assert_eq!(code("diameter=1..3 step 1"), "unit_missing");
}

#[test]
fn a_range_as_csv_has_the_varied_inputs_in_front() {
    let (ranged, reserved) =
        ask(entry("holes/drill-point"), fields("diameter=1 in|2 in&units=inch"), Form::Table).expect("an answer");
    let text = table(&ranged, &reserved);
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines[0], "diameter [in],point_length [in]");
    assert!(lines[1].starts_with("1,0.300430309513"), "{text}");
    assert_eq!(lines.len(), 3);
}

#[test]
fn solving_backwards_finds_every_input() {
    let found =
        answer("holes/drill-point", "point_angle=118 deg&solve_for=diameter&wanted=point_length:0.150215154757 in");
    let roots = found["roots"].as_array().expect("roots");
    assert_eq!(roots.len(), 1, "{roots:?}");
    assert!((number(&roots[0]["value"]["value"]) - 0.5).abs() < 1e-9, "{}", roots[0]);
    assert_eq!(roots[0]["result"]["point_length"]["text"], "0.1502 in");
    // A radius of 10 mm over a chord of 12 mm has two heights.
    let found = answer("geometry/arc", "chord=12 mm&solve_for=height&wanted=solutions/0/radius:10 mm");
    let heights: Vec<f64> =
        found["roots"].as_array().expect("roots").iter().map(|r| number(&r["value"]["value"])).collect();
    assert_eq!(heights.len(), 2, "{heights:?}");
    assert!((heights[0] - 2.0).abs() < 1e-8 && (heights[1] - 18.0).abs() < 1e-8, "{heights:?}");
}

#[test]
fn what_no_input_gives_is_refused_with_what_can_be_had() {
    let no = "diameter=10 mm&full_depth=20 mm&solve_for=point_angle&wanted=tip_depth:5 mm";
    assert_eq!(refused("holes/drill-point", no), [("/wanted".to_owned(), "no_answer")]);
    let code = |text: &str| refused("holes/drill-point", text)[0].clone();
    assert_eq!(code("solve_for=diameter&wanted=point_lenght:1 in"), ("/wanted".to_owned(), "not_found"));
    assert_eq!(code("solve_for=diametre&wanted=point_length:1 in"), ("/solve_for".to_owned(), "not_found"));
    assert_eq!(code("solve_for=diameter&wanted=point_length"), ("/wanted".to_owned(), "value_unreadable"));
    assert_eq!(code("solve_for=diameter&wanted=point_length:1"), ("/wanted".to_owned(), "unit_missing"));
    assert_eq!(code("solve_for=diameter&wanted=point_length:1 deg"), ("/wanted".to_owned(), "unit_wrong"));
    assert_eq!(code("solve_for=diameter"), ("/wanted".to_owned(), "field_missing"));
    assert_eq!(code("diameter=1 in&solve_for=diameter&wanted=point_length:1 in").1, "conflict");
}

#[test]
fn what_is_shown_for_a_missing_half_is_of_the_same_calculator() {
    let mut without: Vec<&str> = Vec::new();
    for entry in REGISTER {
        let shown = |text: &str| -> Vec<(String, String)> {
            let refusal = asked(entry, text).expect_err(text);
            refusal.0.into_iter().map(|wrong| (wrong.field, wrong.try_this.unwrap_or_default())).collect()
        };
        let example = query(entry.examples[0].fields);
        let answered = asked(entry, &example).unwrap_or_else(|refusal| panic!("{}: {refusal:?}", entry.id));
        for (one, other) in [("solve_for", "wanted"), ("correct", "measured")] {
            let goals = shown(&format!("{one}=diameter"));
            if goals.iter().any(|(field, good)| field[1..] == *one && good == "leave out") {
                let also = format!("{example}&{one}=metal&{other}=x:1 mm");
                assert_eq!(shown(&also), [(format!("/{one}"), "leave out".to_owned())]);
                without.push(entry.id);
                continue;
            }
            let Some((_, goal)) = goals.iter().find(|(field, _)| field[1..] == *other) else {
                panic!("{}: {one} is refused without {other}: {goals:?}", entry.id);
            };
            let (path, value) = goal.split_once(':').unwrap_or_else(|| panic!("{}: {goal}", entry.id));
            let result = &answered["result"].pointer(&format!("/{path}"));
            let unit = result.and_then(|at| at["unit"].as_str()).unwrap_or_else(|| panic!("{}: {goal}", entry.id));
            assert!(value.ends_with(unit) || unit == "deg", "{}: {goal} in {unit}", entry.id);
            let names = shown(&format!("{other}={goal}"));
            let Some((_, name)) = names.iter().find(|(field, _)| field[1..] == *one) else {
                panic!("{}: {other} is refused without {one}: {names:?}", entry.id);
            };
            assert!(entry.good(name).is_some(), "{}: {name} is no input of it", entry.id);
        }
    }
    without.dedup();
    assert_eq!(without, ["speeds/materials", "datum/visit-order"], "only places or words go in");
}

#[test]
fn a_measured_result_corrects_its_input() {
    let text = "diameter=0.5 in&point_angle=118 deg&measured=point_length:0.1443375673 in&correct=point_angle";
    let answer = answer("holes/drill-point", text);
    let correction = &answer["correction"];
    assert!((number(&correction["as_made"]["value"]) - 120.0).abs() < 1e-6, "{correction}");
    assert!((number(&correction["change"]["value"]) + 2.0).abs() < 1e-6, "{correction}");
    assert_eq!(refused("holes/drill-point", "diameter=0.5 in&measured=point_length:0.15 in")[0].0, "/correct");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    #[test]
    fn solving_backwards_undoes_solving_forwards(diameter in 0.05..4.0f64, angle in 60.0..150.0f64) {
        let forwards = answer("holes/drill-point", &format!("diameter={diameter} in&point_angle={angle} deg"));
        let length = number(&forwards["result"]["point_length"]["value"]);
        let wanted = format!("wanted=point_length:{length} in");
        let back = answer("holes/drill-point", &format!("point_angle={angle} deg&solve_for=diameter&{wanted}"));
        prop_assert!((number(&back["roots"][0]["value"]["value"]) - diameter).abs() < 1e-7 * diameter);
        let back = answer("holes/drill-point", &format!("diameter={diameter} in&solve_for=point_angle&{wanted}"));
        prop_assert!((number(&back["roots"][0]["value"]["value"]) - angle).abs() < 1e-6);
    }
}

fn tried(id: &str, text: &str) -> Vec<(String, String)> {
    let refusal = asked(entry(id), text).map(|_| ()).expect_err(text);
    refusal.0.into_iter().map(|wrong| (wrong.field, wrong.try_this.unwrap_or_default())).collect()
}

#[test]
fn a_percentage_needs_no_unit_and_is_echoed_with_it() {
    let bare = answer("holes/tap-drill", "thread=M8&thread_percent=70");
    assert_eq!(bare["inputs"]["thread_percent"]["unit"], "percent");
    assert_eq!(bare["result"], answer("holes/tap-drill", "thread=M8&thread_percent=70 percent")["result"]);
    assert!(bare["assumed"].as_array().expect("a list").iter().all(|one| one["field"] != "thread_percent"));
    let fields = serde_json::json!({"thread": "M8", "thread_percent": 70});
    let (json, _) = ask(entry("holes/tap-drill"), Fields::deserialize(&fields).expect("fields"), Form::Json).unwrap();
    assert_eq!(json.value()["result"], bare["result"]);
    let rows = answer("holes/tap-drill", "thread=M8&thread_percent=60..75 step 5");
    assert_eq!(rows["rows"].as_array().map(Vec::len), Some(4));
    let share = tried("holes/tap-drill", "thread=M8&thread_percent=0.7");
    assert_eq!(share, [("/thread_percent".to_owned(), "70 percent".to_owned())]);
}

#[test]
fn what_is_tried_is_in_the_system_of_the_request() {
    for (id, text, good) in [
        ("holes/drill-point", "diameter=0.5&units=metric", "0.5 mm"),
        ("holes/drill-point", "diameter=0.5&units=inch", "0.5 in"),
        ("holes/drill-point", "diameter=0.5", "0.5 in"),
        ("holes/drill-point", "diameter=0.5&full_depth=20 mm", "0.5 mm"),
        ("holes/drill-point", "diameter=wide&full_depth=20 mm", "12 mm"),
        ("holes/drill-point", "diameter=-1 mm", "12.7 mm"),
        ("holes/drill-point", "full_depth=20 mm", "12 mm"),
        ("holes/drill-point", "diameter=1 mm&resolution=0.01", "0.01 mm"),
        ("speeds/spindle-speed", "diameter=12 mm&cutting_speed=30", "30 m/min"),
        ("speeds/spindle-speed", "diameter=1/2 in&cutting_speed=30", "30 ft/min"),
        ("speeds/spindle-speed", "diameter=12 mm&cutting_speed=30&units=inch", "30 ft/min"),
        ("threads/thread", "designation=M10&engagement=10", "10 mm"),
        ("datum/move-list", "points=1 mm,0 mm;2 mm,3", "12 mm,10 mm;60 mm,10 mm;60 mm,40 mm;12 mm,40 mm"),
    ] {
        let tried = tried(id, text);
        assert_eq!((tried.len(), tried[0].1.as_str()), (1, good), "{id}?{text}: {tried:?}");
    }
    let rows = answer("holes/drill-point", "diameter=10 mm|11&units=metric");
    assert_eq!(rows["rows"][1]["errors"][0]["try"], "11 mm", "{}", rows["rows"][1]);
}

#[test]
fn a_pitch_without_a_unit_is_of_the_system_that_states_it_so() {
    let gear = answer("geometry/spur-gear", "teeth=24&diametral_pitch=12&pressure_angle=14.5 deg");
    assert_eq!(gear["result"]["blank_diameter"]["unit"], "in", "{gear}");
    let metric = answer("geometry/spur-gear", "teeth=24&diametral_pitch=12&pressure_angle=14.5 deg&units=metric");
    assert_eq!(metric["result"]["blank_diameter"]["unit"], "mm");
    // A size with a unit says more.
    let pins = answer("geometry/spur-gear", "teeth=24&diametral_pitch=12&pin_diameter=3.6 mm");
    assert_eq!(pins["result"]["blank_diameter"]["unit"], "mm");
}

#[test]
fn threads_per_inch_are_a_lead() {
    let dial = |lead: &str| format!("lead={lead}&leadscrew_lead=8 tpi&dial_gear=32&dial_marks=8");
    let counted = answer("threads/threading-dial", &dial("11-1/2 tpi"));
    let divided = answer("threads/threading-dial", "lead=2/23 in&leadscrew_lead=1/8 in&dial_gear=32&dial_marks=8");
    assert_eq!(counted["result"], divided["result"]);
    assert_eq!(counted["inputs"]["lead"], serde_json::json!({"value": 11.5, "unit": "tpi", "text": "11.5 tpi"}));
    assert!(counted["link"].as_str().is_some_and(|link| link.contains("11-1/2%20tpi")), "{}", counted["link"]);
    let gears = "gears=20,30,40,45,50,55,60,65,80,127";
    let cut = |lead: &str| answer("threads/change-gears", &format!("lead={lead}&leadscrew_lead=8 tpi&{gears}"));
    assert_eq!(cut("13 tpi")["result"]["trains"], cut("1/13 in")["result"]["trains"]);
    let part = answer("threads/identify", "major_diameter=0.498 in&pitch=13 threads per inch");
    assert_eq!(part["result"]["thread"], "1/2-13 UNC", "{}", part["result"]);
    let rows = answer("threads/threading-dial", &dial("8..12 tpi step 2"));
    assert_eq!(rows["rows"][1]["inputs"]["lead"]["text"], "10 tpi", "{rows}");
    assert_eq!(refused("threads/threading-dial", &dial("8 tpi..2 mm step 1 tpi"))[0].1, "value_unreadable");
    assert_eq!(refused("threads/threading-dial", &dial("11.5 ±0.1 tpi"))[0].1, "value_unreadable");
    assert_eq!(refused("holes/drill-point", "diameter=20 tpi"), [("/diameter".to_owned(), "unit_wrong")]);
}

#[test]
fn a_count_is_wanted_by_a_bare_number_and_found_over_a_stretch() {
    let wheel = "travel_per_turn=0.2 in&divisions=200&solve_for=distance";
    let found = answer("datum/handwheel", &format!("{wheel}&wanted=turns:40"));
    let roots = found["roots"].as_array().expect("roots");
    let stretch = roots.last().expect("a root");
    assert!((number(&stretch["value"]["value"]) - 8.0).abs() < 0.001, "{stretch}");
    assert!((number(&stretch["up_to"]["value"]) - 8.2).abs() < 0.002, "{stretch}");
    assert_eq!(stretch["result"]["turns"], 40);
    let notes = found["notes"].as_array().expect("notes");
    let says = |code: &str| notes.iter().find(|note| note["code"] == code).and_then(|note| note["says"].as_str());
    assert!(says("every_value_between").is_some_and(|says| says.contains("Every distance from")), "{notes:?}");
    assert_eq!(
        refused("datum/handwheel", &format!("{wheel}&wanted=turns:40 in")),
        [("/wanted".to_owned(), "unit_wrong")]
    );
}

#[test]
fn a_stepped_speed_is_solved_for_the_stretch_that_gives_it() {
    let text = "cutting_speed=70 ft/min&available=112 rpm,160 rpm,450 rpm,630 rpm&may_exceed=0 percent&solve_for=diameter\
        &wanted=spindle_speed:450 rpm&units=inch";
    let found = answer("speeds/spindle-speed", text);
    let roots = found["roots"].as_array().expect("roots");
    assert_eq!(roots.len(), 1, "{roots:?}");
    // 450 rpm is taken from where the exact speed is 630 rpm down to where it is 450.
    let at = |speed: f64| 70.0 * 12.0 / (std::f64::consts::PI * speed);
    let (from, to) = (number(&roots[0]["value"]["value"]), number(&roots[0]["up_to"]["value"]));
    assert!((from - at(630.0)).abs() < 1e-5 && (to - at(450.0)).abs() < 1e-5, "{from} to {to}");
    for end in [from, to] {
        let forwards = text.split("&solve_for").next().expect("the inputs");
        let answer = answer("speeds/spindle-speed", &format!("{forwards}&diameter={end} in&units=inch"));
        assert_eq!(answer["result"]["spindle_speed"]["value"], 450.0);
    }
}

#[test]
fn roots_that_touch_or_lie_close_are_found() {
    let heights = |radius: &str| -> Vec<f64> {
        let text = format!("chord=20 mm&solve_for=height&wanted=solutions/0/radius:{radius} mm");
        let found = answer("geometry/arc", &text);
        found["roots"].as_array().expect("roots").iter().map(|root| number(&root["value"]["value"])).collect()
    };
    // A radius over a chord is least where the height is half of it: h = r ± root(r² - c²/4).
    let touch = heights("10");
    assert!(touch.len() == 1 && (touch[0] - 10.0).abs() < 1e-3, "{touch:?}");
    for radius in ["10.0000001", "10.00001", "10.001", "10.1", "11"] {
        let r: f64 = radius.parse().expect("a number");
        let half = (r * r - 100.0).sqrt();
        let found = heights(radius);
        assert_eq!(found.len(), 2, "{radius}: {found:?}");
        let wanted = [r - half, r + half];
        assert!(
            found.iter().zip(wanted).all(|(is, wanted)| (is - wanted).abs() < 1e-6),
            "{radius}: {found:?} {wanted:?}"
        );
    }
    assert_eq!(
        refused("geometry/arc", "chord=20 mm&solve_for=height&wanted=solutions/0/radius:9.99 mm")[0].1,
        "no_answer"
    );
}

#[test]
fn an_extreme_inside_the_tolerances_is_found() {
    let answer = answer("geometry/arc", "chord=20 mm&height=11 ±2 mm");
    let radius = &answer["result"]["solutions"][0]["radius"];
    assert!((number(&radius["least"]) - 10.0).abs() < 1e-6, "{radius}");
    assert!((number(&radius["greatest"]) - (400.0 / (8.0 * 13.0) + 6.5)).abs() < 1e-6, "{radius}");
    assert_eq!(radius["plus_minus"]["method"], "inside");
}

/// Every number of an answer that has a range holds what a dense scan of the tolerances reaches.
#[test]
fn ranges_hold_what_dense_scans_reach() {
    for (id, text, scans) in [
        ("geometry/arc", "chord={} mm&height={} mm", &[(20.0, 0.5), (11.0, 2.0)][..]),
        ("geometry/arc", "radius={} mm&angle={} deg", &[(10.0, 0.2), (180.0, 60.0)]),
        ("holes/drill-point", "diameter={} mm&point_angle={} deg", &[(12.0, 1.0), (118.0, 30.0)]),
        ("patterns/bolt-circle", "diameter={} mm&holes=5&start_angle={} deg", &[(100.0, 1.0), (10.0, 40.0)]),
        ("speeds/surface-finish", "nose_radius={} mm&feed_per_rev={} mm/rev", &[(0.8, 0.1), (0.2, 0.1)]),
        ("speeds/ball-nose", "diameter={} mm&axial_depth={} mm", &[(10.0, 0.5), (4.0, 0.7)]),
    ] {
        let filled = |values: &[String]| {
            let mut text = text.to_owned();
            values.iter().for_each(|value| text = text.replacen("{}", value, 1));
            text
        };
        let toleranced = filled(&scans.iter().map(|(value, by)| format!("{value} ±{by}")).collect::<Vec<_>>());
        let whole = answer(id, &toleranced);
        const STEPS: usize = 24;
        let mut reached: std::collections::BTreeMap<String, (f64, f64)> = Default::default();
        for number in 0..(STEPS + 1) * (STEPS + 1) {
            let at = [number % (STEPS + 1), number / (STEPS + 1)];
            let place = |(value, by): &(f64, f64), at: usize| value - by + 2.0 * by * at as f64 / STEPS as f64;
            let values: Vec<String> = scans.iter().zip(at).map(|(scan, at)| place(scan, at).to_string()).collect();
            let one = answer(id, &format!("{}&units=metric&working=false", filled(&values)));
            leaves(&one["result"], "", &mut |path, leaf| {
                let value = self::number(&leaf["value"]);
                let known = reached.entry(path.to_owned()).or_insert((value, value));
                *known = (known.0.min(value), known.1.max(value));
            });
        }
        let mut held = 0;
        leaves(&whole["result"], "", &mut |path, leaf| {
            if leaf.get("least").is_none() {
                return;
            }
            let (least, greatest) = reached[path];
            let (from, to) = (number(&leaf["least"]), number(&leaf["greatest"]));
            // A straight line may be off by a fiftieth of the spread, and a scan by what lies between its points.
            let by = (greatest - least) * 0.03 + 1e-9;
            assert!(
                from <= least + by && to >= greatest - by,
                "{id} {path}: {from} to {to}, scanned {least} to {greatest}"
            );
            assert!(
                from >= least - by && to <= greatest + by,
                "{id} {path}: {from} to {to}, scanned {least} to {greatest}"
            );
            held += 1;
        });
        assert!(held > 0, "{id}: nothing has a range");
    }
}

fn leaves(node: &Value, path: &str, act: &mut impl FnMut(&str, &Value)) {
    match node {
        Value::Object(members) if members.contains_key("unit") && members.contains_key("value") => act(path, node),
        Value::Object(members) => members.iter().for_each(|(name, node)| leaves(node, &format!("{path}/{name}"), act)),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(at, node)| leaves(node, &format!("{path}/{at}"), act))
        }
        _ => {}
    }
}

#[test]
fn a_quantity_of_an_answer_is_sent_back_as_it_is_with_its_spread() {
    let spread = answer("holes/drill-point", "diameter=0.500 ±0.002 in&full_depth=1 in&resolution=0.001 in");
    let length = spread["result"]["tip_depth"].clone();
    assert!(length["plus_minus"].is_object() && length["set_to"].is_object(), "{length}");
    let body = serde_json::json!({"diameter": length});
    let fields = Fields::deserialize(&body).expect("fields");
    let (again, _) = ask(entry("holes/drill-point"), fields, Form::Json).expect("an answer");
    let again = again.value();
    let (sent, read) = (&length["plus_minus"]["worst_case"], &again["inputs"]["diameter"]);
    assert_eq!((&read["value"], &read["plus"], &read["minus"]), (&length["value"], &sent["plus"], &sent["minus"]));
    assert!(again["result"]["point_length"]["plus_minus"].is_object(), "{again}");

    let mut both = length;
    both["plus"] = 0.1.into();
    let body = serde_json::json!({"diameter": both});
    let fields = Fields::deserialize(&body).expect("fields");
    let refusal = ask(entry("holes/drill-point"), fields, Form::Json).map(|_| ()).expect_err("a refusal");
    assert_eq!((refusal.0[0].field.as_str(), refusal.0[0].code.as_str()), ("/diameter", "value_unreadable"));
}

#[test]
fn a_table_that_would_outgrow_memory_is_refused() {
    let wide = "diameter=100 mm..500 mm step 1 mm&holes=1000";
    assert_eq!(refused("patterns/bolt-circle", wide), [("/diameter".to_owned(), "value_out_of_range")]);
    let rows = answer("patterns/bolt-circle", "diameter=100 mm..500 mm step 1 mm&holes=6")["rows"].clone();
    assert_eq!(rows.as_array().map(Vec::len), Some(401));
}
