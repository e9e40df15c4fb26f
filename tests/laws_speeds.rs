//! Laws of the cutting calculators: what must hold between two answers whatever the tables say, and ways
//! out of refusals that must lead to an answer.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;
use shop_reckoner::declared::{in_sentence, label};
use shop_reckoner::reference::materials::materials;
use shop_reckoner::refusal::Refusal;

fn ask(id: &str, query: &str) -> Result<Value, Refusal> {
    asked(find(id).expect("the calculator"), query)
}

fn solved(id: &str, query: &str) -> Value {
    ask(id, query).unwrap_or_else(|refusal| panic!("{id}?{query}: {refusal:?}"))
}

fn number(answer: &Value, field: &str) -> f64 {
    let value = &answer["result"][field];
    value["value"].as_f64().or(value.as_f64()).unwrap_or_else(|| panic!("no {field}: {}", answer["result"]))
}

fn codes(answer: &Value, list: &str) -> Vec<String> {
    let list = answer[list].as_array().expect("a list");
    list.iter().map(|one| one["code"].as_str().unwrap_or_default().to_owned()).collect()
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
}

#[test]
fn every_material_is_found_by_its_short_name_alone() {
    for material in materials() {
        let answer = solved("speeds/materials", &format!("search={}", material.id));
        let rows = answer["result"]["rows"].as_array().expect("rows");
        assert_eq!(rows.len(), 1, "{}", material.id);
        assert_eq!(rows[0]["id"], material.id);
        for row in answer["result"]["speeds"].as_array().expect("speeds") {
            assert_eq!(row["material"], material.id);
            assert!(row["low"]["value"].as_f64() <= row["high"]["value"].as_f64());
        }
    }
}

#[test]
fn a_material_brings_its_own_cautions_to_every_answer() {
    for (material, code) in
        [("az31", "magnesium"), ("c17200", "beryllium"), ("ptfe", "plastic_fumes"), ("ti-6al-4v", "titanium")]
    {
        let milling = format!(
            "diameter=10mm&teeth=2&cutting_speed=30m/min&feed_per_tooth=0.05mm&radial_depth=2mm&axial_depth=2mm&material={material}"
        );
        let turning =
            format!("diameter=20mm&depth_of_cut=1mm&cutting_speed=30m/min&feed_per_rev=0.1mm&material={material}");
        let drilling = format!("diameter=5mm&cutting_speed=20m/min&feed_per_rev=0.05mm&material={material}");
        for (id, query) in [("speeds/milling", milling), ("speeds/turning", turning), ("speeds/drilling", drilling)] {
            assert!(codes(&solved(id, &query), "cautions").contains(&code.to_owned()), "{id} {material}");
        }
        let search = solved("speeds/materials", &format!("search={material}"));
        assert!(codes(&search, "cautions").contains(&code.to_owned()));
    }
}

/// Every material with every tool is answered, or refused with ways out that lead on.
#[test]
fn whatever_the_tables_hold_there_is_an_answer_or_a_way_to_one() {
    let operations = [
        ("speeds/milling", "diameter=10 mm&teeth=4&radial_depth=2 mm&axial_depth=2 mm", "feed_per_tooth=0.05 mm/tooth"),
        ("speeds/drilling", "diameter=10 mm", "feed_per_rev=0.1 mm/rev"),
        ("speeds/reaming", "diameter=10 mm", "feed_per_rev=0.1 mm/rev"),
        ("speeds/turning", "diameter=40 mm&depth_of_cut=1 mm", "feed_per_rev=0.1 mm/rev"),
        ("speeds/boring", "diameter=40 mm&depth_of_cut=1 mm", "feed_per_rev=0.1 mm/rev"),
        ("speeds/tapping", "thread=M8", ""),
    ];
    let (mut answered, mut refused) = (0, 0);
    for material in materials() {
        for tool in ["hss", "cobalt", "carbide", "coated_carbide"] {
            for (id, query, feed) in &operations {
                let known = format!("{query}&material={}&tool_material={tool}", material.id);
                match ask(id, &known) {
                    Ok(answer) => {
                        answered += 1;
                        assert!(number(&answer, "spindle_speed") > 0.0);
                    }
                    Err(refusal) => {
                        refused += 1;
                        // A stated speed and feed must always do.
                        let stated = format!("{known}&cutting_speed=20 m/min&{feed}");
                        assert!(ask(id, &stated).is_ok(), "{id}?{stated}");
                        assert!(refusal.0.iter().all(|wrong| wrong.try_this.is_some()), "{id}?{known}: {refusal:?}");
                    }
                }
            }
        }
    }
    assert!(answered > 900 && refused > 100, "{answered} answered, {refused} refused");
}

#[test]
fn the_middle_of_a_range_lies_between_its_ends() {
    // 304 with carbide has one value since the slower of two sources stands, no range.
    for (material, tool) in [("4140-annealed", "hss"), ("6061", "hss"), ("17-4ph", "hss"), ("1018", "hss")] {
        let speed = |point: &str| {
            let query = format!(
                "diameter=10 mm&teeth=4&radial_depth=2 mm&axial_depth=2 mm&material={material}&tool_material={tool}&range_point={point}"
            );
            number(&solved("speeds/milling", &query), "exact_speed")
        };
        let (low, middle, high) = (speed("low"), speed("middle"), speed("high"));
        assert!(low < middle && middle < high && near(middle, (low + high) / 2.0), "{material}: {low} {middle} {high}");
    }
}

#[test]
fn what_falls_short_is_what_the_limits_say() {
    let query = "diameter=12 mm&cutting_speed=30 m/min&feed_per_rev=0.2 mm/rev&available=224 rpm,450 rpm&available_feeds=0.05 mm/rev,0.12 mm/rev&units=metric";
    let answer = solved("speeds/drilling", query);
    let (exact, set) = (number(&answer, "exact_speed"), number(&answer, "spindle_speed"));
    assert!(near(set, exact * (1.0 - number(&answer, "speed_fall") / 100.0)));
    assert!(near(number(&answer, "feed_per_rev"), 0.12));
    assert!(near(number(&answer, "feed_fall"), 40.0));
    let limits: Vec<&str> =
        answer["result"]["limited_by"].as_array().expect("limits").iter().filter_map(Value::as_str).collect();
    assert_eq!(limits, ["available", "available_feeds"]);
}

#[test]
fn feeds_a_turn_and_feeds_a_minute_are_both_taken() {
    let common = "diameter=12 mm&cutting_speed=30 m/min&feed_per_rev=0.2 mm/rev&units=metric";
    let minute = solved("speeds/drilling", &format!("{common}&available_feeds=40 mm/min,100 mm/min"));
    assert!(near(number(&minute, "feed_rate"), 100.0));
    assert!(ask("speeds/drilling", &format!("{common}&available_feeds=0.1 mm/rev,100 mm/min")).is_err());
}

/// The result without a field of the request that it does not need is the same, and what needs it says so.
#[test]
fn a_field_is_needed_only_by_the_results_that_need_it() {
    let cases = [
        (
            "speeds/milling",
            "diameter=12 mm&teeth=4&cutting_speed=30 m/min&feed_per_tooth=0.05 mm/tooth",
            "radial_depth=3 mm&axial_depth=5 mm",
            "feed_rate",
            "removal_rate",
        ),
        (
            "speeds/turning",
            "diameter=40 mm&cutting_speed=60 m/min&feed_per_rev=0.2 mm/rev",
            "depth_of_cut=1 mm",
            "feed_rate",
            "removal_rate",
        ),
        (
            "speeds/boring", "diameter=40 mm&cutting_speed=60 m/min", "feed_per_rev=0.1 mm/rev", "spindle_speed",
            "feed_rate",
        ),
        (
            "speeds/drilling", "diameter=12 mm&cutting_speed=25 m/min", "feed_per_rev=0.2 mm/rev", "spindle_speed",
            "removal_rate",
        ),
        ("speeds/sawing", "section=40 mm&cutting_speed=60 m/min", "tooth_pitch=3 mm", "cutting_speed", "teeth_in_cut"),
        ("speeds/as-run", "spindle_speed=630 rpm", "diameter=12 mm", "spindle_speed", "cutting_speed"),
    ];
    for (id, without, field, kept, lost) in cases {
        let (bare, whole) =
            (solved(id, &format!("{without}&units=metric")), solved(id, &format!("{without}&{field}&units=metric")));
        assert!(near(number(&bare, kept), number(&whole, kept)), "{id}");
        assert!(bare["result"].get(lost).is_none() && whole["result"].get(lost).is_some(), "{id}");
        let name = field.split('=').next().unwrap_or_default();
        let entry = find(id).expect("a calculator");
        let called = |members, name| in_sentence(&label(members, name));
        let notes = bare["notes"].as_array().expect("notes");
        let note = notes.iter().find(|note| note["code"] == "left_out").unwrap_or_else(|| panic!("{id}: {notes:?}"));
        let says = note["says"].as_str().unwrap_or_default();
        let (lost, name) = (called(entry.output.members, lost), called(entry.input.members, name));
        assert!(says.contains(&lost) && says.contains(&name), "{id}: {says}");
    }
}

#[test]
fn a_point_of_a_range_beside_all_that_is_stated_is_said_to_change_nothing() {
    for (id, query) in [
        ("speeds/drilling", "diameter=8 mm&cutting_speed=20 m/min&feed_per_rev=0.1 mm/rev&range_point=high"),
        ("speeds/milling", "diameter=8 mm&cutting_speed=20 m/min&feed_per_tooth=0.05 mm&range_point=high"),
        ("speeds/tapping", "thread=M8&spindle_speed=200 rpm&range_point=high"),
        ("speeds/spindle-speed", "diameter=8 mm&cutting_speed=20 m/min&range_point=high"),
    ] {
        assert!(codes(&solved(id, query), "notes").contains(&"range_point_without_effect".to_owned()), "{id}");
    }
}

/// A manual spindle taps at 40 percent of the listed speed and a head at 70, by common practice; by hand no speed is
/// given at all, and under power the first of the tap's own cautions says what it must be driven by.
#[test]
fn how_a_tap_is_driven_decides_its_speed() {
    let tap = "thread=#4-40 UNC&material=1018&tool_material=hss&units=inch";
    let exact = |by: &str| number(&solved("speeds/tapping", &format!("{tap}&by={by}")), "exact_speed");
    let rigid = exact("rigid");
    assert!(near(exact("tapping_head"), 0.7 * rigid) && near(exact("reversing_spindle"), 0.4 * rigid));
    let assumed = solved("speeds/tapping", tap);
    assert!(near(number(&assumed, "exact_speed"), 0.4 * rigid));
    assert!(assumed["assumed"].as_array().expect("assumed").iter().any(|one| one["field"] == "by"));
    assert!(codes(&assumed, "cautions").contains(&"power_tapping".to_owned()));
    let hand = solved("speeds/tapping", "thread=#4-40 UNC&by=hand&units=inch");
    assert!(hand["result"].get("spindle_speed").is_none() && near(number(&hand, "feed_per_rev"), 1.0 / 40.0));
    assert!(codes(&hand, "notes").contains(&"turn_and_break".to_owned()));
    assert!(codes(&hand, "cautions").contains(&"hand_tapping".to_owned()));
}

#[test]
fn what_would_stall_the_machine_is_the_first_caution() {
    let cut = "spindle_power=0.2 kW&material=1045-normalised&tool_material=hss";
    for (id, query) in [
        ("speeds/milling", "diameter=20 mm&teeth=4&radial_depth=15 mm&axial_depth=20 mm"),
        ("speeds/turning", "diameter=50 mm&depth_of_cut=5 mm"),
        ("speeds/drilling", "diameter=25 mm"),
    ] {
        let answer = solved(id, &format!("{query}&{cut}"));
        assert_eq!(codes(&answer, "cautions")[0], "would_stall", "{id}");
        assert!(number(&answer, "load") > 100.0);
    }
}

#[test]
fn big_work_and_speeds_near_the_fastest_have_the_rated_speed_looked_at() {
    let warned = |id: &str, query: &str| codes(&solved(id, query), "cautions").contains(&"rated_speed".to_owned());
    assert!(warned("speeds/turning", "diameter=200 mm&cutting_speed=60 m/min&feed_per_rev=0.1 mm/rev"));
    assert!(warned("speeds/turning", "diameter=40 mm&cutting_speed=60 m/min&feed_per_rev=0.1 mm/rev&fastest=500 rpm"));
    assert!(!warned("speeds/turning", "diameter=40 mm&cutting_speed=60 m/min&feed_per_rev=0.1 mm/rev&fastest=900 rpm"));
    assert!(warned("speeds/spindle-speed", "diameter=8 in&cutting_speed=300 ft/min"));
}

/// Only what sets and moves nothing by itself goes without the caution that the maker's data and the shop's rules come
/// first.
#[test]
fn whose_word_comes_first_is_said_by_all_that_can_hurt() {
    let without: Vec<&str> = shop_reckoner::calculators::REGISTER
        .iter()
        .filter(|entry| {
            let answer = solved(entry.id, &common::query(entry.examples[0].fields));
            !codes(&answer, "cautions").contains(&"starting_point".to_owned())
        })
        .map(|entry| entry.id)
        .collect();
    // Sums of figures and of stock, limits, the choice of a fit and the check of a part set no machine. Pressing and heating
    // can hurt, and the weight of a bar is said by a caution of its own.
    let thread = ["thread", "plated", "identify"].map(|name| format!("threads/{name}"));
    let fits = ["find", "limits", "running"].map(|name| format!("fits/{name}"));
    let drawn = ["triangle", "sine-bar", "rolls-and-balls", "gauge-blocks"].map(|name| format!("geometry/{name}"));
    let stock = ["mass", "cut-list"].map(|name| format!("stock/{name}"));
    let checked = [
        "position-error", "general-tolerance", "gauge-makers", "at-temperature", "likely-size", "surface-grade",
        "hardness",
    ]
    .map(|name| format!("measure/{name}"));
    let expected = [&["geometry/arc".to_owned()][..], &thread, &fits, &drawn, &stock, &checked].concat();
    assert_eq!(without, expected);
}

#[test]
fn a_tiny_cut_of_a_ball_keeps_its_figures() {
    let answer = solved("speeds/ball-nose", "diameter=10 mm&axial_depth=0.000001 mm&units=metric");
    // 2 √(ap (D - ap)).
    let exact = 2.0 * (1e-6_f64 * (10.0 - 1e-6)).sqrt();
    assert!((number(&answer, "effective_diameter") / exact - 1.0).abs() < 1e-12);
}

/// At a feed as wide as the nose's radius the parabola's mean deviation is some five percent less than the arc's.
#[test]
fn an_exact_finish_is_that_of_the_arc() {
    let answer = solved("speeds/surface-finish", "nose_radius=1 mm&feed_per_rev=1 mm/rev&units=metric");
    let parabola = 1000.0 / (18.0 * 3f64.sqrt());
    let share = number(&answer, "roughness_ra") / parabola;
    assert!((1.04..1.06).contains(&share), "{share}");
    assert!((number(&answer, "theoretical_height") - 1000.0 * (1.0 - 0.75f64.sqrt())).abs() < 1e-9);
    assert!(codes(&answer, "notes").contains(&"usual_rule".to_owned()));
}

#[test]
fn one_test_with_its_exponent_is_as_good_as_the_constants() {
    let life = "cutting_speed=80 m/min&units=metric";
    let test = solved("speeds/tool-life", &format!("first_speed=90 m/min&first_life=20 min&exponent=0.25&{life}"));
    let constant = 90.0 * 20f64.powf(0.25);
    assert!(near(number(&test, "speed_for_one_minute"), constant));
    let more = format!(
        "first_speed=90 m/min&first_life=20 min&exponent=0.25&{life}&tested_feed=0.2 mm&feed=0.4 mm&feed_exponent=0.5"
    );
    // Twice the feed to the power of a half, and life goes with the fourth power of the speed.
    let shorter = number(&test, "tool_life") / number(&solved("speeds/tool-life", &more), "tool_life");
    assert!(near(shorter, 4.0), "{shorter}");
}

#[test]
fn a_deep_hole_is_reduced_only_where_the_tables_are_used() {
    let deep = "diameter=10 mm&material=1018&tool_material=hss&depth=40 mm&units=metric";
    let table = solved("speeds/drilling", deep);
    let short = solved("speeds/drilling", &deep.replace("depth=40", "depth=20"));
    assert!(near(number(&table, "exact_speed"), 0.8 * number(&short, "exact_speed")));
    assert!(near(number(&table, "feed_per_rev"), 0.9 * number(&short, "feed_per_rev")));
    let stated = solved("speeds/drilling", &format!("{deep}&cutting_speed=25 m/min&feed_per_rev=0.2 mm/rev"));
    assert!(stated["result"].get("speed_reduction").is_none() && near(number(&stated, "feed_per_rev"), 0.2));
    // What all reductions come to is said before anything else.
    assert!(
        ["feed_below_published", "speed_below_published"]
            .contains(&table["notes"][0]["code"].as_str().unwrap_or_default())
    );
    let beyond = solved("speeds/drilling", &deep.replace("depth=40", "depth=90"));
    assert!(codes(&beyond, "notes").contains(&"deeper_than_table".to_owned()));
}

#[test]
fn a_split_point_thrusts_less_and_turns_no_harder() {
    let query = "diameter=10 mm&cutting_speed=25 m/min&feed_per_rev=0.2 mm/rev&material=1018&units=metric";
    let (standard, split) =
        (solved("speeds/drilling", query), solved("speeds/drilling", &format!("{query}&point=split")));
    assert!(number(&split, "thrust") < number(&standard, "thrust"));
    assert!(number(&split, "torque") <= number(&standard, "torque"));
}

#[test]
fn a_feed_that_falls_as_told_takes_the_power_that_there_is() {
    let query = "diameter=20 mm&cutting_speed=25 m/min&material=4140-annealed&spindle_power=200 W&efficiency=100 percent&units=metric";
    let answer = solved("speeds/drilling", &format!("{query}&feed_per_rev=0.3 mm/rev"));
    assert!(answer["result"]["limited_by"].as_array().expect("limits").iter().any(|limit| limit == "power"));
    let feed = 0.3 * (1.0 - number(&answer, "power_feed_fall") / 100.0);
    let less = solved("speeds/drilling", &format!("{query}&feed_per_rev={feed} mm/rev"));
    assert!((number(&less, "load") - 100.0).abs() < 1e-6, "{}", number(&less, "load"));
}

#[test]
fn the_outer_diameter_overstates_the_volume_by_the_depth() {
    let query = "diameter=50 mm&depth_of_cut=5 mm&cutting_speed=60 m/min&feed_per_rev=0.2 mm/rev&units=metric";
    let mean = number(&solved("speeds/turning", query), "removal_rate");
    let outer = number(&solved("speeds/turning", &format!("{query}&removal_by=outer")), "removal_rate");
    assert!(near(outer / mean, 50.0 / 45.0));
}

#[test]
fn overrides_in_tapping_are_refused_but_a_following_feed_may_be_slowed() {
    let tap = "spindle_speed=300 rpm&diameter=10 mm&operation=tapping";
    assert!(ask("speeds/as-run", &format!("{tap}&feed_per_rev=1.5 mm/rev&feed_override=90 percent")).is_err());
    assert!(ask("speeds/as-run", &format!("{tap}&feed_rate=450 mm/min&speed_override=90 percent")).is_err());
    let slowed = solved("speeds/as-run", &format!("{tap}&feed_per_rev=1.5 mm/rev&speed_override=50 percent"));
    assert!(near(number(&slowed, "feed_per_rev"), 1.5) && near(number(&slowed, "feed_rate"), 225.0));
}

#[test]
fn overrides_are_noted_where_they_change_the_chip_and_only_there() {
    for (speed, feed, noted) in
        [(80, 80, None), (100, 100, None), (80, 81, Some("chip_thickened")), (81, 80, Some("chip_thinned"))]
    {
        let query = format!(
            "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&speed_override={speed} percent&feed_override={feed} percent"
        );
        let notes = codes(&solved("speeds/as-run", &query), "notes");
        let of_chip: Vec<&str> = notes.iter().map(String::as_str).filter(|note| note.starts_with("chip_thi")).collect();
        assert_eq!(of_chip, Vec::from_iter(noted), "{query}");
    }
}

#[test]
fn slowing_the_spindle_alone_thickens_the_chip_and_says_so() {
    let query =
        "spindle_speed=630 rpm&diameter=12 mm&feed_rate=120 mm/min&teeth=4&speed_override=80 percent&units=metric";
    let answer = solved("speeds/as-run", query);
    assert!(near(number(&answer, "chip_change"), 25.0));
    assert!(codes(&answer, "notes").contains(&"chip_thickened".to_owned()));
}

#[test]
fn a_wanted_roughness_gives_the_feed_that_leaves_it() {
    for method in ["exact", "usual"] {
        for (field, value) in [("theoretical_height", 6.3), ("roughness_ra", 1.6)] {
            let query = format!("nose_radius=0.8 mm&{field}={value} um&method={method}&units=metric");
            let answer = solved("speeds/surface-finish", &query);
            let feed = number(&answer, "feed_per_rev");
            let back = format!("nose_radius=0.8 mm&feed_per_rev={feed} mm/rev&method={method}&units=metric");
            assert!((number(&solved("speeds/surface-finish", &back), field) - value).abs() < 1e-9);
        }
    }
}

#[test]
fn a_cutter_that_goes_clear_takes_longer_than_one_that_stops_at_full_width() {
    let query = "operation=face_milling&length=200 mm&feed_rate=300 mm/min&diameter=100 mm&width=60 mm&units=metric";
    let (full, clear) = (
        number(&solved("speeds/cutting-time", query), "travel"),
        number(&solved("speeds/cutting-time", &format!("{query}&clear_out=clear")), "travel"),
    );
    assert!(near(full, 210.0) && near(clear, 300.0));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn life_and_speed_are_each_others_way_back(constant in 50.0..500.0f64, exponent in 0.08..0.6f64, share in 0.3..0.95f64) {
        let law = format!("speed_for_one_minute={constant} m/min&exponent={exponent}&units=metric");
        let speed = constant * share;
        let life = number(&solved("speeds/tool-life", &format!("{law}&cutting_speed={speed} m/min")), "tool_life");
        prop_assume!(life < 1e6);
        let back = number(&solved("speeds/tool-life", &format!("{law}&tool_life={life} min")), "cutting_speed");
        prop_assert!((back - speed).abs() < 1e-9 * speed);
        let slower = number(&solved("speeds/tool-life", &format!("{law}&cutting_speed={} m/min", speed * 0.9)), "tool_life");
        prop_assert!(slower > life);
    }

    #[test]
    fn the_least_cost_wants_a_longer_life_than_the_greatest_output(
        exponent in 0.1..0.5f64, change in 0.5..10.0f64, edge in 0.1..20.0f64, rate in 10.0..200.0f64,
    ) {
        let query = format!("speed_for_one_minute=200 m/min&exponent={exponent}&change_time={change} min&edge_cost={edge}&hourly_rate={rate}&units=metric");
        let answer = solved("speeds/tool-life", &query);
        prop_assert!(number(&answer, "life_for_cost") > number(&answer, "life_for_output"));
        prop_assert!(number(&answer, "speed_for_cost") < number(&answer, "speed_for_output"));
    }

    #[test]
    fn a_held_surface_speed_is_never_slower_than_a_held_spindle_of_its_start(
        outer in 20.0..200.0f64, inner in 0.0..0.9f64, speed in 20.0..200.0f64,
    ) {
        let query = format!("outer_diameter={outer} mm&inner_diameter={} mm&cutting_speed={speed} m/min&feed_per_rev=0.1 mm/rev&fastest=19000 rpm&units=metric", outer * inner);
        let spindle = number(&solved("speeds/facing", &query), "cutting_time");
        let surface = number(&solved("speeds/facing", &format!("{query}&hold=surface_speed")), "cutting_time");
        prop_assert!(surface <= spindle * (1.0 + 1e-9));
    }

    #[test]
    fn a_round_feed_of_a_tap_is_round_and_not_above_the_exact_speed(speed in 2.0..60.0f64, size in 0usize..5) {
        let thread = ["M3", "M6", "M8", "M12", "M20"][size];
        let answer = solved("speeds/tapping", &format!("thread={thread}&cutting_speed={speed} m/min&units=metric"));
        let (rate, turns) = (number(&answer, "round_feed_rate"), number(&answer, "round_speed"));
        prop_assert!(turns <= number(&answer, "exact_speed") * (1.0 + 1e-9));
        let figures = format!("{rate:e}");
        prop_assert!(figures.split('e').next().unwrap_or_default().len() <= 3, "{figures}");
        prop_assert!(near(rate, turns * number(&answer, "feed_per_rev")));
    }

    #[test]
    fn a_helix_goes_as_deep_as_asked(depth in 1.0..50.0f64, pitch in 0.1..5.0f64, wider in 1.05..2.5f64) {
        let query = format!("way=helix&depth={depth} mm&feed_rate=200 mm/min&diameter=12 mm&hole_diameter={} mm&pitch={pitch} mm&units=metric", 12.0 * wider);
        let answer = solved("speeds/entry", &query);
        let sloping = number(&answer, "turns") - 1.0;
        prop_assert!(sloping * pitch >= depth * (1.0 - 1e-9) && (sloping - 1.0) * pitch < depth);
        prop_assert!(number(&answer, "center_feed_rate") < 200.0);
    }
}
