//! Threads identified, rescued and cut by a single point: the laws these calculators obey, what they note and
//! what they refuse.

mod common;

use common::asked;
use proptest::prelude::*;
use serde_json::Value;
use shop_reckoner::calculators::find;
use shop_reckoner::reference::threads::{ThreadSystem, external_limits, internal_limits, listed};
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

fn rows<'v>(answer: &'v Value, list: &str) -> &'v [Value] {
    answer["result"][list].as_array().unwrap_or_else(|| panic!("no {list}"))
}

fn names(answer: &Value, list: &str) -> Vec<String> {
    rows(answer, list).iter().map(|row| row["thread"].as_str().expect("a thread").to_owned()).collect()
}

fn notes(answer: &Value) -> Vec<&str> {
    answer["notes"].as_array().expect("notes").iter().filter_map(|note| note["code"].as_str()).collect()
}

/// Field and code of each error.
fn refused(id: &str, query: &str) -> Vec<(String, &'static str)> {
    let refusal = answer(id, query).expect_err(query);
    refusal.0.into_iter().map(|wrong| (wrong.field, wrong.code.as_str())).collect()
}

#[test]
fn every_listed_screw_measured_in_the_middle_of_its_class_is_among_the_candidates_and_fits() {
    for listed in listed().iter().filter(|listed| listed.thread().has_external()) {
        let thread = listed.thread();
        let Ok(limits) = external_limits(thread, None, None) else { continue };
        let unit = if thread.system.in_inches() { "in" } else { "mm" };
        let size = (limits.major_min + limits.major_max) / 2.0;
        let name = listed.designation.text();
        let query = format!("major_diameter={size} {unit}&pitch={} {unit}&count=30", thread.pitch);
        let answer = solved("threads/identify", &query);
        let row = rows(&answer, "candidates").iter().find(|row| row["thread"] == name);
        let row = row.unwrap_or_else(|| panic!("{name} is not among {:?}", names(&answer, "candidates")));
        assert_eq!(row["fits"], true, "{name}: {row}");
    }
}

#[test]
fn every_coarse_screw_and_nut_is_named_first() {
    let coarse = |series: &Option<String>| matches!(series.as_deref(), Some("UNC" | "coarse"));
    let mut seen = 0;
    for listed in listed().iter().filter(|listed| coarse(&listed.thread().series) && listed.rareness == 0) {
        let thread = listed.thread();
        let unit = if thread.system == ThreadSystem::Unified { "in" } else { "mm" };
        let name = listed.designation.text();
        let (screw, nut) = (external_limits(thread, None, None).unwrap(), internal_limits(thread, None, None).unwrap());
        for (field, low, high) in
            [("major_diameter", screw.major_min, screw.major_max), ("minor_diameter", nut.minor_min, nut.minor_max)]
        {
            for size in [low, (low + high) / 2.0, high] {
                let query =
                    format!("{field}={size} {unit}&pitch={} {unit}&pitch_error=0.01 mm&wear=0 in", thread.pitch);
                let answer = solved("threads/identify", &query);
                assert_eq!(answer["result"]["thread"], name.as_str(), "{query}");
            }
        }
        seen += 1;
    }
    assert!(seen > 40, "{seen}");
}

#[test]
fn a_worn_screw_still_fits_and_a_larger_one_than_its_thread_does_not() {
    let fits = |size: &str, more: &str| {
        let answer = solved("threads/identify", &format!("major_diameter={size}&threads_per_inch=13{more}"));
        rows(&answer, "candidates").iter().any(|row| row["thread"] == "1/2-13 UNC" && row["fits"] == true)
    };
    // Class 2A: 0.4876 to 0.4985 in; the error assumed is 0.002 in and the wear 0.004 in.
    assert!(fits("0.4820 in", "") && !fits("0.4810 in", ""));
    assert!(!fits("0.4820 in", "&wear=0 in") && fits("0.4820 in", "&wear=0.01 in"));
    assert!(fits("0.5000 in", "") && !fits("0.5010 in", ""));
}

#[test]
fn the_near_twins_of_the_trade_are_named() {
    for (query, first, twin) in [
        ("major_diameter=0.497 in&threads_per_inch=13", "1/2-13 UNC", "1/2-12 BSW"),
        ("major_diameter=0.497 in&threads_per_inch=12", "1/2-12 BSW", "1/2-13 UNC"),
        ("major_diameter=9.93 mm&pitch=1 mm", "M10x1", "G 1/8"),
        ("major_diameter=9.65 mm&threads_per_inch=28", "G 1/8", "M10x1"),
        ("major_diameter=9.65 mm&threads_per_inch=28", "G 1/8", "R 1/8"),
        ("major_diameter=33.1 mm&threads_per_inch=11", "G 1", "M33x2"),
        ("major_diameter=4.9 mm&pitch=0.8 mm", "M5", "#10-32 UNF"),
    ] {
        let answer = solved("threads/identify", query);
        assert_eq!(answer["result"]["thread"], first, "{query}");
        assert!(names(&answer, "twins").iter().any(|name| name == twin), "{query}: {:?}", names(&answer, "twins"));
    }
}

#[test]
fn what_is_known_of_flanks_body_and_family_leaves_the_others_out() {
    let all = |query: &str| names(&solved("threads/identify", query), "candidates");
    let base = "major_diameter=20.8 mm&threads_per_inch=14";
    assert!(all(base).contains(&"1/2-14 NPT".to_owned()) && all(base).contains(&"G 1/2".to_owned()));
    assert!(!all(&format!("{base}&flank_angle=55 deg")).contains(&"1/2-14 NPT".to_owned()));
    assert!(!all(&format!("{base}&body=taper")).contains(&"G 1/2".to_owned()));
    assert_eq!(all(&format!("{base}&families=npt&count=1")), ["1/2-14 NPT"]);
    assert_eq!(refused("threads/identify", &format!("{base}&flank_angle=29 deg&families=npt")).len(), 2);
}

#[test]
fn nothing_fits_a_thread_that_no_list_has() {
    let answer = solved("threads/identify", "major_diameter=17.3 mm&pitch=2.9 mm");
    assert!(answer["result"]["thread"].is_null() && notes(&answer).contains(&"none_fits"));
    assert!(!rows(&answer, "candidates").is_empty());
}

#[test]
fn every_way_to_say_a_pitch_gives_the_same_candidates() {
    let of = |pitch: &str| {
        names(
            &solved("threads/identify", &format!("major_diameter=0.371 in&pitch_error=0.0005 in&{pitch}")),
            "candidates",
        )
    };
    assert_eq!(of("pitch=0.0625 in"), of("threads_per_inch=16"));
    assert_eq!(of("turns=24&turns_length=1.5 in"), of("threads_per_inch=16"));
    assert_eq!(refused("threads/identify", "major_diameter=1 in&turns=3").len(), 2);
    assert_eq!(refused("threads/identify", "major_diameter=1 in").len(), 4);
}

#[test]
fn every_rescue_cleans_up_with_a_drill_within_the_class() {
    for listed in listed().iter().filter(|listed| listed.rareness <= 1 && listed.thread().has_internal()) {
        let thread = listed.thread();
        if !matches!(thread.system, ThreadSystem::Unified | ThreadSystem::Metric) {
            continue;
        }
        let name = listed.designation.text();
        let Ok(answer) = answer("threads/rescue", &format!("thread={name}&units=metric")) else { continue };
        let clean = number(&answer, "/clean_diameter");
        let mut before = 0.0;
        for row in rows(&answer, "candidates") {
            let at = |field: &str| row[field]["value"].as_f64().unwrap_or_else(|| panic!("{name}: {row}"));
            // A drill as large as the old thread takes it away: no drill cuts smaller than it is.
            assert!(
                at("drill_diameter") >= clean - 1e-9 && at("major_diameter") > at("drill_diameter"),
                "{name}: {row}"
            );
            assert!((at("drill_diameter") - clean - at("clears_by")).abs() < 1e-9, "{name}: {row}");
            assert!(at("major_diameter") >= before, "{name}: {row}");
            before = at("major_diameter");
            let new = shop_reckoner::reference::threads::read(row["thread"].as_str().unwrap()).unwrap();
            let limits = internal_limits(&new, None, None).unwrap();
            let scale = if new.system.in_inches() { 25.4 } else { 1.0 };
            let within = at("drill_diameter") / scale;
            assert!(within >= limits.minor_min - 1e-9 && within <= limits.minor_max + 1e-9, "{name}: {row}");
        }
    }
}

#[test]
fn the_next_size_of_the_trade_is_offered_with_an_inch_drill() {
    // 3/8-16 is drilled away by a 3/8 drill, which lies within 7/16-14 2B: 0.360 to 0.376 in.
    let answer = solved("threads/rescue", "thread=3/8-16");
    assert_eq!(answer["result"]["thread"], "7/16-14 UNC");
    assert_eq!(rows(&answer, "candidates")[0]["drill"], "3/8");
    // Of 5/8-11 2B, 0.527 to 0.546 in, 13.5 mm is nearer to 75 percent than 17/32 in.
    for row in rows(&solved("threads/rescue", "thread=1/2-13"), "candidates") {
        let metric = row["drill"].as_str().unwrap().ends_with("mm");
        // Of the fine threads of 18 an inch no inch drill lies within the class.
        let fine = row["thread"].as_str().unwrap().contains("-18");
        assert_eq!(metric, row["family"] == "metric" || fine, "{row}");
    }
}

#[test]
fn a_thin_wall_is_said_and_the_next_thread_is_not_taken() {
    let answer = solved("threads/rescue", "thread=M8&edge_distance=8 mm&least_wall=3.5 mm");
    assert!(answer["result"]["thread"].is_null() && notes(&answer).contains(&"wall_too_thin"));
    assert!(rows(&answer, "candidates").iter().all(|row| row["wall_enough"] == false));
    let answer = solved("threads/rescue", "thread=M8&edge_distance=8 mm&least_wall=3 mm&families=metric");
    assert_eq!(answer["result"]["thread"], "M10");
    assert!((number(&answer, "/candidates/0/wall_left") - 3.0).abs() < 1e-12);
}

#[test]
fn a_torn_hole_wants_a_larger_thread_than_its_old_one_says() {
    let first = |query: &str| solved("threads/rescue", query)["result"]["thread"].clone();
    assert_eq!(first("thread=M8&families=metric"), "M10");
    assert_eq!(first("thread=M8&hole_diameter=8.9 mm&families=metric&lists=common"), "M10x1");
    assert_eq!(first("thread=M8&hole_diameter=7.5 mm&families=metric"), "M10");
    assert_eq!(refused("threads/rescue", "thread=1/2-14 NPT").len(), 1);
    assert_eq!(refused("threads/rescue", "thread=M8&families=trapezoidal").len(), 1);
    let pipe = solved("threads/rescue", "thread=1/2-14 NPT&hole_diameter=21.5 mm&families=npt");
    assert_eq!(pipe["result"]["thread"], "3/4-14 NPT");
    assert_eq!(rows(&pipe, "candidates")[0]["pitch_kept"], true);
}

#[test]
fn a_power_nut_reaches_deeper_than_its_screw() {
    // ASME B1.5: 0.020 in on the diameter; ISO 2904: twice 0.25 mm.
    assert_eq!(number(&solved("threads/rescue", "thread=1-5 Acme"), "/clean_diameter"), 1.02);
    assert_eq!(number(&solved("threads/rescue", "thread=Tr20x4"), "/clean_diameter"), 20.5);
}

#[test]
fn the_wire_insert_is_left_to_its_maker() {
    assert!(notes(&solved("threads/rescue", "thread=M8")).contains(&"wire_insert"));
}

#[test]
fn a_left_hand_thread_runs_away_from_the_headstock_and_starts_stand_apart() {
    let right = solved("threads/single-point", "thread=M8");
    let left = solved("threads/single-point", "thread=M8-LH");
    assert_eq!(right["result"]["carriage_goes"], "towards_headstock");
    assert_eq!(left["result"]["carriage_goes"], "towards_tailstock");
    assert_eq!(right["result"]["passes"], left["result"]["passes"]);
    assert!(notes(&left).contains(&"left_hand"));
    let three = solved("threads/single-point", "thread=M20xPh6P2");
    assert_eq!(number(&three, "/start_turn"), 120.0);
    assert_eq!((number(&three, "/lead"), number(&three, "/pitch")), (6.0, 2.0));
}

#[test]
fn a_thread_that_cannot_be_cut_so_is_refused() {
    let one = |field: &str, code: &'static str| vec![(field.to_owned(), code)];
    let id = "threads/single-point";
    assert_eq!(refused(id, "thread=M8&pitch_diameter=5 mm").len(), 2);
    assert_eq!(refused(id, "thread=1/2 NPT"), one("/thread", "not_offered"));
    assert_eq!(refused(id, "thread=M8&blank_diameter=7 mm"), one("/blank_diameter", "no_answer"));
    assert_eq!(refused(id, "thread=M8&blank_diameter=8.5 mm"), one("/blank_diameter", "no_answer"));
    assert_eq!(refused(id, "thread=M8&tip_flat=0.7 mm"), one("/tip_flat", "no_answer"));
    assert_eq!(refused(id, "thread=M8&tip_radius=0.6 mm"), one("/tip_radius", "no_answer"));
    assert_eq!(refused(id, "thread=M8&compound_angle=30.5 deg"), one("/compound_angle", "value_out_of_range"));
    assert_eq!(refused(id, "thread=M8&passes=5&least_depth=0.1 mm").len(), 2);
    assert_eq!(refused(id, "thread=G 1/2&law=equal_area").len(), 2);
    assert_eq!(refused(id, "thread=M8&first_depth=0.001 mm").len(), 2);
    assert!(notes(&solved(id, "thread=M8&tip_flat=0.4 mm")).contains(&"root_shallow"));
    assert!(notes(&solved(id, "thread=M8&blank_diameter=7.6 mm")).contains(&"blank_outside_class"));
}

#[test]
fn a_thread_is_cut_in_equal_chips_from_a_blank_within_its_class() {
    // 12 to 20 passes are usual for 8 threads an inch; ASME B1.1, 1-8 UNC 2A: major diameter 0.9830 to 0.9980 in.
    let answer = solved("threads/single-point", "thread=1-8 UNC-2A");
    let count = number(&answer, "/pass_count");
    assert!((12.0..=20.0).contains(&count), "{count}");
    let blank = answer["assumed"].as_array().unwrap().iter().find(|one| one["field"] == "blank_diameter").unwrap();
    let blank = blank["value"]["value"].as_f64().unwrap();
    assert!((0.9830..=0.9980).contains(&blank), "{blank}");
    let areas: Vec<f64> = rows(&answer, "passes")[..count as usize - 1]
        .iter()
        .map(|pass| pass["chip_area"]["value"].as_f64().unwrap())
        .collect();
    assert!(areas.iter().all(|area| (area / areas[0] - 1.0).abs() < 1e-9), "{areas:?}");
    for (thread, passes) in [("1/4-20 UNC-2A", 4.0..=10.0), ("M24x3-6g", 12.0..=20.0), ("1/2-13 UNC-2A", 8.0..=14.0)] {
        let count = number(&solved("threads/single-point", &format!("thread={thread}")), "/pass_count");
        assert!(passes.contains(&count), "{thread}: {count}");
    }
}

#[test]
fn readings_are_set_in_whole_steps_of_the_dial() {
    let answer = solved("threads/single-point", "thread=M8&passes=7&dial=diameter&resolution=0.02 mm&x_reads=radius");
    for row in rows(&answer, "passes") {
        let set = |field: &str| row[field]["set_to"]["value"].as_f64().unwrap_or_else(|| panic!("{field}: {row}"));
        for field in ["dial_reading", "tip_diameter"] {
            assert!((set(field) / 0.02 - (set(field) / 0.02).round()).abs() < 1e-9, "{row}");
        }
        let radius = row["tip_diameter"]["value"].as_f64().unwrap() / 2.0;
        assert!((set("tip_diameter") - radius).abs() <= 0.010_000_1, "{row}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn passes_grow_to_the_depth_and_never_below_the_least(
        blank in 7.8f64..8.0,
        first in 0.05f64..0.5,
        least in 0.02f64..0.2,
        flat in 0.0f64..0.3,
        angle in 0.5f64..30.0,
        springs in 0u32..4,
        law in prop::sample::select(vec!["square_root", "equal_area"]),
    ) {
        let query = format!(
            "thread=M8&blank_diameter={blank} mm&first_depth={first} mm&least_depth={least} mm&tip_flat={flat} mm\
             &compound_angle={angle} deg&spring_passes={springs}&law={law}&units=metric"
        );
        let answer = solved("threads/single-point", &query);
        let (depth, count) = (number(&answer, "/depth"), number(&answer, "/pass_count") as usize);
        let passes = rows(&answer, "passes");
        prop_assert_eq!(passes.len(), count + springs as usize);
        let mut before = 0.0;
        for (at, pass) in passes.iter().enumerate() {
            let of = |field: &str| pass[field]["value"].as_f64().unwrap();
            prop_assert!((of("depth") - before - of("added")).abs() < 1e-9);
            let cuts = at < count;
            prop_assert!(!cuts || of("added") > 0.0);
            prop_assert!(at + 1 >= count || of("added") >= least - 1e-9, "{}", pass);
            prop_assert!(at != 0 || of("added") <= first.max(least) + 1e-9, "{}", pass);
            prop_assert!(cuts || of("added").abs() < 1e-12);
            let travel = of("depth") / angle.to_radians().cos();
            prop_assert!((of("dial_reading") - travel).abs() < 1e-9);
            prop_assert!((blank - 2.0 * of("depth") - of("tip_diameter")).abs() < 1e-9);
            before = of("depth");
        }
        prop_assert!((before - depth).abs() < 1e-9);
    }

    #[test]
    fn equal_areas_are_equal_and_a_sharp_tip_makes_both_laws_one(
        passes in 1u32..30,
        flat in 0.0f64..0.4,
    ) {
        let of = |flat: f64, law: &str| {
            let query = format!(
                "thread=Tr20x4&tip_flat={flat} mm&passes={passes}&spring_passes=0&law={law}&units=metric"
            );
            solved("threads/single-point", &query)
        };
        let areas: Vec<f64> = rows(&of(flat, "equal_area"), "passes")
            .iter()
            .map(|row| row["chip_area"]["value"].as_f64().unwrap())
            .collect();
        prop_assert!(areas.iter().all(|area| (area / areas[0] - 1.0).abs() < 1e-6), "{:?}", areas);
        let (one, two) = (of(0.0, "equal_area"), of(0.0, "square_root"));
        for (a, b) in rows(&one, "passes").iter().zip(rows(&two, "passes")) {
            let depth = |row: &Value| row["depth"]["value"].as_f64().unwrap();
            prop_assert!((depth(a) - depth(b)).abs() < 1e-9);
        }
    }

    #[test]
    fn a_nut_and_a_screw_of_one_pitch_diameter_have_one_groove(aim in 7.1f64..7.3, flat in 0.0f64..0.25) {
        let of = |side: &str, blank: f64| {
            let query = format!(
                "thread=M8&side={side}&pitch_diameter={aim} mm&blank_diameter={blank} mm&tip_flat={flat} mm&units=metric"
            );
            number(&solved("threads/single-point", &query), "/depth")
        };
        // Mirrored on the pitch line, blank and groove are the same.
        prop_assert!((of("external", aim + 0.6) - of("internal", aim - 0.6)).abs() < 1e-9);
    }
}
