//! Exercises for trial on real calculators: the sentence, the level, what is drawn, names for answers, and slips that
//! were once told wrong.

use super::{mark, recipe, verdict};
use shop_reckoner::calculators::exercise::Exercise;
use shop_reckoner::calculators::{Entry, find};
use shop_reckoner::exercises;
use shop_reckoner::fields::Given;
use shop_reckoner::practice::{Question, Recipe};
use std::collections::BTreeSet;

/// A calculator with other exercises than its own.
fn with(id: &str, exercises: &'static [Exercise]) -> &'static Entry {
    let entry = find(id).expect("it is in the register");
    Box::leak(Box::new(Entry { exercises, ..*entry }))
}

const DRILL_POINT: &[Exercise] = exercises! {
    1 "A {diameter} drill has a {point_angle} point. How long is the point?" => "point_length":
        { diameter = "1/2 in" | "3/8 in", point_angle = "118 deg" | "135 deg" }
        { diameter = "10 mm" | "12 mm", point_angle = "118 deg" };
    2 "A {diameter} drill has a {point_angle} point. The hole is {full_depth} deep at full size: how deep is the tip?"
        => "tip_depth": { diameter = "1/2 in", point_angle = "118 deg", full_depth = "3/4 in" | "1 in" };
};

fn question(entry: &'static Entry, seed: u64, level: Option<u8>) -> Question {
    Question::make(Recipe { level, ..recipe(entry, seed) }).expect("a question")
}

#[test]
fn a_question_is_the_exercise_with_the_values_drawn() {
    let entry = with("holes/drill-point", DRILL_POINT);
    let mut seen = BTreeSet::new();
    for seed in 0..150 {
        let asked = question(entry, seed, None);
        let again = question(entry, seed, asked.recipe.level);
        assert_eq!(asked.text, again.text, "the level that was drawn makes the same question again");
        let unit = if asked.text.contains("mm") { "mm" } else { "inches" };
        assert!(asked.text.ends_with(&format!("? Answer in {unit}.")), "{}", asked.text);
        assert_eq!(asked.text.contains("tip?"), asked.recipe.level == Some(2));
        assert!(asked.text.contains('°') && !asked.text.contains("deg"), "{}", asked.text);
        seen.insert(asked.text);
    }
    assert_eq!(seen.len(), 8, "{seen:?}");
    let refused = Question::make(Recipe { level: Some(3), ..recipe(entry, 1) }).expect_err("there is no level 3");
    assert!(refused.0[0].says.contains("level 1 and 2"), "{refused:?}");
}

#[test]
fn points_rows_words_and_lists_are_said_in_words() {
    let entry = with(
        "datum/turn-and-shift",
        exercises! {
            1 "The vise is turned {angle}. Where does {points} come to lie in X?" => "positions/0/x":
                { points = "3 in,1 in", angle = "30 deg" };
        },
    );
    let says = "The vise is turned 30°. Where does (3 in, 1 in) come to lie in X? Answer in inches.";
    assert_eq!(question(entry, 1, None).text, says);
    let entry = with(
        "datum/wall-stops",
        exercises! {
            1 "Walls: {walls}. The cutter is {cutter_diameter}. Where do you stop at the first?" => "stops/0/finish":
                { walls = "x_axis,10 mm,minus;x_axis,70 mm,plus", cutter_diameter = "12 mm" };
        },
    );
    let text = question(entry, 1, None).text;
    assert!(
        text.contains("X axis")
            && text.contains("10 mm")
            && text.contains("minus, X axis 70 mm")
            && !text.contains('_'),
        "{text}"
    );
    let entry = with(
        "speeds/spindle-speed",
        exercises! {
            2 "The head has {available}. A {diameter} drill wants {cutting_speed}. What do you set?" => "spindle_speed":
                { available = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm", diameter = "1/2 in",
                  cutting_speed = "70 ft/min" };
        },
    );
    let text = question(entry, 1, None).text;
    assert!(text.starts_with("The head has 112, 160, 224, 315, 450, 630, 900, 1250 rpm. A 1/2 in drill"), "{text}");
}

#[test]
fn a_drill_may_be_named_where_the_question_does_not_name_it() {
    let entry = find("holes/drill-size").expect("it is in the register");
    let named = (0..40).map(|seed| question(entry, seed, None)).find(|asked| asked.text.contains("Name the drill"));
    let named = named.expect("a drill is asked for");
    let drill = named.wanted.drill.expect("its drill");
    assert_eq!(verdict(&named, drill.name), "right", "{}", named.text);
    assert_eq!(verdict(&named, &named.wanted.amount.text()), "right");
    assert!(!mark(&named, "#60").right && !mark(&named, "letter Z").right);
    // Where the drill is given, its size is asked for, and its name is no answer.
    let sized = (0..40).map(|seed| question(entry, seed, Some(1))).find(|asked| asked.text.contains("What size"));
    let sized = sized.expect("a size is asked for");
    assert!(sized.wanted.drill.is_none() && sized.text.ends_with("Answer in inches."), "{}", sized.text);
}

#[test]
fn a_count_is_asked_for_without_a_unit_and_marked_exactly() {
    let entry = with(
        "threads/threading-dial",
        exercises! {
            2 "A {lead} thread on a lathe with a {leadscrew_lead} lead screw: after how many turns of the screw do they meet?"
                => "screw_turns": { lead = "1.75 mm", leadscrew_lead = "1/8 in", dial_gear = "32", dial_marks = "8" };
        },
    );
    let asked = question(entry, 1, None);
    // 3.175 mm times 70 is 222.25 mm, which is 127 times 1.75 mm; 127 is prime, so fewer turns do not meet.
    assert!(asked.text.ends_with("do they meet?") && asked.wanted.amount.text() == "70", "{asked:?}");
    assert_eq!(asked.closeness().words(&asked.wanted.amount), "exactly");
    for (answer, marked) in [("70", "right"), ("70 turns", "right"), ("69", "spaces_for_holes"), ("35", "wrong")] {
        assert_eq!(verdict(&asked, answer), marked, "{answer}");
    }
    assert!(asked.mark(&Given::Text("seventy".into())).is_err());
}

/// Slips that were once told as something else or not at all.
#[test]
fn the_right_slip_is_told() {
    let codes = |entry, answer: &str| -> Vec<&str> {
        mark(&question(entry, 1, None), answer).slips.iter().map(|slip| slip.code).collect()
    };
    let point = with(
        "holes/drill-point",
        exercises! {
            2 "A {diameter} drill with a {point_angle} point drills {full_depth} deep at full size. How deep is the tip?"
                => "tip_depth": { diameter = "1/2 in", point_angle = "118 deg", full_depth = "3/4 in" };
        },
    );
    // The whole diameter for the radius: 0.75 + 0.5 / tan 59°.
    assert_eq!(codes(point, "1.0504 in")[0], "radius_for_diameter");
    assert_eq!(codes(point, "0.75 in")[0], "drill_point_forgotten");
    let circle = with(
        "patterns/bolt-circle",
        exercises! {
            2 "{holes} holes of {hole_diameter} lie on a {diameter} circle. How much metal is left between two of them?"
                => "gap": { diameter = "4 in", holes = "6", hole_diameter = "1/2 in" };
        },
    );
    // Six holes on a 4 in circle are 2 in apart; the metal between is 1.5 in.
    assert_eq!(codes(circle, "2.0000 in")[0], "left_out");
    assert_eq!(codes(circle, "1.7500 in")[0], "radius_for_diameter");
    let touch = with(
        "datum/touch-off",
        exercises! {
            1 "A {tip_diameter} tip touches the face that lies at {face_position}; the reading was growing. What do you set?"
                => "set_reading": { tip_diameter = "6 mm", face_position = "118.6 mm", reading_was = "growing" };
        },
    );
    // Half of the tip the wrong way: 118.6 + 3.
    assert!(codes(touch, "121.600 mm").iter().any(|code| ["wrong_side", "tool_diameter"].contains(code)));
    assert!(codes(touch, "118.600 mm").contains(&"tool_diameter"));
    assert!(codes(touch, "112.600 mm").contains(&"radius_for_diameter"));
    let lathe = with(
        "datum/lathe-touch-off",
        exercises! {
            2 "The bar measures {measured_diameter} and is to be {target_diameter}. The dial counts radii. How far in?"
                => "infeed_left": { measured_diameter = "39.42 mm", target_diameter = "38 mm", dial = "radius" };
        },
    );
    // 1.42 mm off the diameter is 0.71 mm of infeed.
    assert_eq!(codes(lathe, "1.420 mm")[0], "radius_for_diameter");
    assert_eq!(codes(lathe, "-0.710 mm")[0], "sign");
    assert!(codes(lathe, "0.4 mm").is_empty(), "none fits");
}
