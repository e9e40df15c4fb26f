//! Practice: questions from seeds for every calculator, the marking of answers, and the slips, each
//! against what it gives by arithmetic of the test's own.

mod common;

use common::{fields, golden};
use shop_reckoner::calculators::{Entry, REGISTER, find};
use shop_reckoner::fields::{Fields, Given};
use shop_reckoner::practice::{Asked, CODES, Checked, Marked, Question, Recipe};
use shop_reckoner::refusal::Refusal;
use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::PI;

fn recipe(entry: &'static Entry, seed: u64) -> Recipe {
    Recipe { entry, seed, from: None, vary: false, machine: None }
}

fn question(entry: &'static Entry, seed: u64) -> Question {
    Question::make(recipe(entry, seed)).unwrap_or_else(|refusal| panic!("{} seed {seed}: {refusal:?}", entry.id))
}

/// The question made of an answer that asks for `path`, whatever seed that has.
fn of_answer(id: &str, from: &str, path: &str) -> Question {
    let entry = find(id).unwrap_or_else(|| panic!("{id}"));
    for seed in 0..400 {
        let recipe = Recipe { from: Some(from.to_owned()), ..recipe(entry, seed) };
        let question = Question::make(recipe).unwrap_or_else(|refusal| panic!("{id}?{from}: {refusal:?}"));
        if question.wanted.path == path {
            return question;
        }
    }
    panic!("{id}?{from}: no seed asks for {path}");
}

fn mark(question: &Question, answer: &str) -> Marked {
    question.mark(&Given::Text(answer.to_owned().into())).unwrap_or_else(|refusal| panic!("{answer}: {refusal:?}"))
}

fn refused(question: &Question, answer: Given) -> (String, &'static str) {
    let Refusal(wrongs) = question.mark(&answer).expect_err("a refusal");
    (wrongs[0].says.clone(), wrongs[0].code.as_str())
}

/// What was marked: `right`, the slip's code, or `wrong`.
fn verdict(question: &Question, answer: &str) -> &'static str {
    match mark(question, answer) {
        Marked { right: true, .. } => "right",
        Marked { slip: Some(slip), .. } => slip.code,
        _ => "wrong",
    }
}

#[test]
fn every_calculator_asks_sound_questions_whose_answers_are_right() {
    for entry in REGISTER {
        let mut seen = BTreeSet::new();
        for seed in 0..12 {
            let question = question(entry, seed);
            let (text, right) = (&question.text, question.wanted.quantity);
            assert!(text.contains(entry.title) && text.contains('?') && text.len() > 60, "{}: {text}", entry.id);
            assert!(!text.contains('_') && !text.contains("NaN"), "{}: {text}", entry.id);
            for answer in [
                format!("{} {}", right.value, right.unit.row().ascii),
                right.text(),
                format!("{:.12e} {}", right.value, right.unit.row().ascii),
            ] {
                assert_eq!(verdict(&question, &answer), "right", "{} seed {seed}: {text} {answer}", entry.id);
            }
            for unit in right.kind.units.iter().filter(|unit| unit.row().dimension == right.unit.row().dimension) {
                let answer = format!("{:.12e} {}", unit.of_si(right.si()), unit.row().ascii);
                assert_eq!(verdict(&question, &answer), "right", "{} seed {seed}: {text} {answer}", entry.id);
            }
            seen.insert(text.clone());
        }
        assert!(seen.len() >= 6, "{}: {} different questions from 12 seeds", entry.id, seen.len());
    }
}

#[test]
fn a_seed_is_the_same_question_for_ever() {
    let mut lines = String::new();
    for entry in REGISTER {
        let (first, again) = (question(entry, 7), question(entry, 7));
        assert_eq!((&first.text, &first.wanted.path), (&again.text, &again.wanted.path));
        lines.push_str(&format!("{}: {}\n    {}\n", entry.id, first.text, first.wanted.quantity.text()));
    }
    golden("tests/practice/questions.txt", &lines);
}

#[test]
fn the_rounding_of_a_shop_is_right_and_more_is_not() {
    // 0.25 in / tan 59° = 0.150215 in = 3.815 mm.
    let point = of_answer("holes/drill-point", "diameter=1/2 in&point_angle=118 deg", "point_length");
    for right in ["0.1502 in", "0.150 in", "0.15 in", "3.815 mm", "3.82 mm", "0.15021 in", "150 thou"] {
        assert_eq!(verdict(&point, right), "right", "{right}");
    }
    for wrong in ["0.151 in", "0.149 in", "3.8 mm", "0.16 in"] {
        assert_eq!(verdict(&point, wrong), "wrong", "{wrong}");
    }
    // 70 ft/min over π × 1/2 in: 534.76 rpm.
    let speed = of_answer("speeds/spindle-speed", "cutting_speed=70 ft/min&diameter=1/2 in", "exact_speed");
    for (answer, marked) in [("535 rpm", "right"), ("534.8 rpm", "right"), ("540 rpm", "wrong"), ("530 rpm", "wrong")] {
        assert_eq!(verdict(&speed, answer), marked, "{answer}");
    }
    // A limit is to its last place: 1/4-20 UNC-2A has its greatest pitch diameter at 0.2164 in (ASME B1.1).
    let limit = of_answer("threads/thread", "designation=1/4-20 UNC-2A", "pitch_diameter");
    assert_eq!(verdict(&limit, "0.2175 in"), "right");
    let tilt = of_answer("datum/edge-angle", "first=0 in,0.100 in&second=5 in,0.112 in&along=x_axis", "angle");
    // atan(0.012 / 5) = 0.1375°, which is 8' 15".
    for (answer, marked) in
        [("0.1375 deg", "right"), ("0.138 deg", "right"), ("0.15 deg", "wrong"), ("0°8'15\"", "right")]
    {
        assert_eq!(verdict(&tilt, answer), marked, "{answer}");
    }
}

#[test]
fn an_answer_needs_its_unit_and_a_zero_does_not() {
    let point = of_answer("holes/drill-point", "diameter=1/2 in&point_angle=118 deg", "point_length");
    let (says, code) = refused(&point, Given::Text("0.1502".into()));
    assert_eq!(code, "unit_missing");
    assert!(says.contains("0.1502 in") && says.contains("0.1502 mm"), "{says}");
    assert_eq!(refused(&point, Given::Number(0.1502)).1, "unit_missing");
    assert_eq!(refused(&point, Given::Text("a bit".into())).1, "value_unreadable");
    assert_eq!(refused(&point, Given::Text(" ".into())).1, "value_empty");
    assert_eq!(refused(&point, Given::Text("0.15 furlongs".into())).1, "unit_unknown");
    assert_eq!(refused(&point, Given::Text("0.15 ±0.01 in".into())).1, "value_unreadable");
    assert_eq!(verdict(&point, "0"), "wrong");
    let object = |value: f64, unit: &'static str| {
        Given::Object(vec![("value".into(), Given::Number(value)), ("unit".into(), Given::Text(unit.into()))])
    };
    assert!(point.mark(&object(0.1502, "in")).expect("marked").right);
    assert_eq!(refused(&point, object(0.1502, "cubit")).1, "value_unreadable");
}

/// A slip: the calculator, the inputs, the result asked for, and what the slip gives.
type Slip<'s> = (&'s str, &'s str, &'s str, f64, &'s str);

#[track_caller]
fn slips(code: &str, cases: &[Slip]) {
    for (id, from, path, value, unit) in cases {
        let question = of_answer(id, from, path);
        let marked = mark(&question, &format!("{value:.9e} {unit}"));
        let right = question.wanted.quantity.text();
        assert!(!marked.right, "{id}?{from}: {path} = {value} {unit} is right? {right}");
        let found = marked.slip.map(|slip| slip.code);
        assert_eq!(found, Some(code), "{id}?{from}: {path} = {value} {unit}; right is {right}");
    }
}

fn tan(degrees: f64) -> f64 {
    degrees.to_radians().tan()
}

fn sin(degrees: f64) -> f64 {
    degrees.to_radians().sin()
}

fn cos(degrees: f64) -> f64 {
    degrees.to_radians().cos()
}

const DRILL: &str = "diameter=1/2 in&point_angle=118 deg&full_depth=3/4 in";
const CIRCLE: &str = "diameter=4 in&holes=6&start_angle=20 deg";
const TIME: &str =
    "operation=drilling&length=50 mm&feed_rate=60 mm/min&diameter=15 mm&point_angle=118 deg&depth_to=full_diameter";
const MILL: &str = "diameter=1/2 in&teeth=4&cutting_speed=70 ft/min&feed_per_tooth=0.002 in/tooth&radial_depth=0.25 in&axial_depth=0.25 in";

#[test]
fn a_wrong_unit_or_system_is_seen() {
    slips(
        "wrong_unit",
        &[
            ("holes/drill-point", DRILL, "point_length", 0.25 / tan(59.0), "mm"),
            ("holes/drill-point", DRILL, "point_length", 25.4 * 0.25 / tan(59.0), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/1/x", 2.0 * cos(80.0) * 25.4, "in"),
            // The 12 inches of a foot left out.
            (
                "speeds/spindle-speed",
                "cutting_speed=70 ft/min&diameter=1/2 in",
                "exact_speed",
                70.0 / (PI * 0.5),
                "rpm",
            ),
            // The 1000 millimetres of a metre left out.
            ("speeds/spindle-speed", "cutting_speed=18 m/min&diameter=40 mm", "exact_speed", 18.0 / (PI * 40.0), "rpm"),
            ("speeds/hand-feed", "feed_rate=3.6 in/min&travel_per_turn=0.1 in", "time_per_turn", 0.1 / 3.6, "s"),
            (
                "speeds/as-run",
                "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&teeth=4",
                "cutting_speed",
                PI * 0.5 * 630.0,
                "ft/min",
            ),
            (
                "speeds/surface-finish",
                "nose_radius=0.8 mm&feed_per_rev=0.2 mm/rev&method=usual",
                "theoretical_height",
                0.04 / (8.0 * 0.8) * 1000.0,
                "uin",
            ),
            // A power asked for, a torque answered.
            ("speeds/hand-feed", "feed_rate=3.6 in/min&travel_per_turn=0.1 in", "time_per_turn", 36.0, "rpm"),
            // A bar of 1/2 in on a speed in metres: its half taken as millimetres.
            (
                "speeds/spindle-speed",
                "cutting_speed=18 m/min&diameter=1/2 in",
                "exact_speed",
                18000.0 / (PI * 0.5),
                "rpm",
            ),
        ],
    );
}

#[test]
fn degrees_for_radians_are_seen() {
    slips(
        "degrees_for_radians",
        &[
            // Radius of an arc: length over the angle, which was left in degrees.
            ("geometry/arc", "arc_length=9 in&angle=210 deg", "solutions/0/radius", 9.0 / 210.0, "in"),
            // The pocket calculator set to radians.
            ("holes/drill-point", DRILL, "point_length", 0.25 / 59f64.tan(), "in"),
            ("holes/drill-point", DRILL, "tip_depth", 0.75 + 0.25 / 59f64.tan(), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/1/x", 2.0 * 80f64.cos(), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/2/y", 2.0 * 140f64.sin(), "in"),
            ("datum/tram", "difference=0.003 in&sweep_diameter=8 in", "tilt", 0.003 / 8.0, "deg"),
            (
                "datum/edge-angle",
                "first=0 in,0.100 in&second=5 in,0.112 in&along=x_axis",
                "angle",
                (0.012f64 / 5.0).atan(),
                "deg",
            ),
            (
                "speeds/entry",
                "way=ramp&depth=3/8 in&feed_rate=4 in/min&ramp_angle=3 deg",
                "down_feed_rate",
                (4.0 * 3f64.sin()).abs(),
                "in/min",
            ),
        ],
    );
}

#[test]
fn a_radius_for_a_diameter_is_seen() {
    slips(
        "radius_for_diameter",
        &[
            ("patterns/bolt-circle", CIRCLE, "positions/1/x", 4.0 * cos(80.0), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/1/y", 1.0 * sin(80.0), "in"),
            ("holes/drill-point", DRILL, "point_length", 0.5 / tan(59.0), "in"),
            ("holes/drill-point", DRILL, "tip_depth", 0.75 + 0.125 / tan(59.0), "in"),
            (
                "speeds/spindle-speed",
                "cutting_speed=70 ft/min&diameter=1/2 in",
                "exact_speed",
                840.0 / (PI * 0.25),
                "rpm",
            ),
            (
                "speeds/as-run",
                "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&teeth=4",
                "cutting_speed",
                PI * 0.25 * 630.0 / 12.0,
                "ft/min",
            ),
            ("speeds/milling", MILL, "spindle_speed", 840.0 / (PI * 0.25), "rpm"),
            (
                "speeds/surface-finish",
                "nose_radius=0.8 mm&feed_per_rev=0.2 mm/rev&method=usual",
                "theoretical_height",
                0.04 / (8.0 * 1.6) * 1000.0,
                "um",
            ),
            ("speeds/cutting-time", TIME, "travel", 50.0 + 15.0 / tan(59.0), "mm"),
            // A whole tip taken off where half of it belongs.
            (
                "datum/touch-off",
                "reading_was=growing&tip_diameter=0.200 in&face_position=0 in",
                "set_reading",
                -0.2,
                "in",
            ),
            (
                "datum/between-faces",
                "first=-0.100 in&second=3.104 in&tip_diameter=0.200 in&touched=outside",
                "width",
                3.104,
                "in",
            ),
            (
                "datum/wall-stops",
                "walls=x_axis,10 mm,minus;x_axis,70 mm,plus&cutter_diameter=12 mm&finish_allowance=0.3 mm",
                "stops/0/finish",
                22.0,
                "mm",
            ),
            (
                "datum/lathe-touch-off",
                "measured_diameter=1.2620 in&target_diameter=1.2500 in&dial=diameter",
                "infeed_left",
                0.006,
                "in",
            ),
            (
                "datum/lathe-touch-off",
                "measured_diameter=39.46 mm&target_diameter=40 mm&dial=radius&surface=inside",
                "infeed_left",
                0.54,
                "mm",
            ),
            (
                "datum/bore-or-boss",
                "points=1 in,0 in;0 in,1 in;-1 in,0 in;0 in,-1 in&tip_diameter=0.2 in&feature=bore",
                "diameter",
                1.1,
                "in",
            ),
            ("geometry/arc", "chord=21 mm&height=6 mm", "solutions/0/radius", 2.0 * 12.1875, "mm"),
            ("geometry/arc", "radius=10 mm&chord=12 mm", "solutions/0/height", 20.0 - (400.0f64 - 36.0).sqrt(), "mm"),
        ],
    );
}

#[test]
fn an_included_angle_for_its_half_is_seen() {
    slips(
        "included_angle",
        &[
            ("holes/drill-point", DRILL, "point_length", 0.25 / tan(29.5), "in"),
            ("holes/drill-point", "diameter=1/2 in&point_angle=82 deg", "point_length", 0.25 / tan(82.0), "in"),
            // tan 118° is negative, and most drop the sign.
            ("holes/drill-point", DRILL, "point_length", -0.25 / tan(118.0), "in"),
            ("speeds/cutting-time", TIME, "travel", 50.0 + 7.5 / tan(29.5), "mm"),
            (
                "speeds/drilling",
                "diameter=10 mm&cutting_speed=25 m/min&feed_per_rev=0.2 mm/rev&material=grey-iron-35&point_angle=118 deg",
                "chip_thickness",
                0.1 * sin(29.5),
                "mm",
            ),
            // Best wire: half the pitch over the cosine of half the thread's angle.
            ("threads/wires", "thread=1/4-20 UNC", "best_wire", 0.025 / cos(60.0), "in"),
        ],
    );
}

#[test]
fn a_forgotten_drill_point_is_seen() {
    slips(
        "drill_point_forgotten",
        &[
            ("holes/drill-point", DRILL, "tip_depth", 0.75, "in"),
            (
                "holes/drill-point",
                "diameter=8.5 mm&point_angle=135 deg&thickness=12 mm&breakthrough=1 mm",
                "travel",
                13.0,
                "mm",
            ),
            // Zeroed at the lips the point does not count.
            (
                "holes/drill-point",
                "diameter=8.5 mm&point_angle=135 deg&thickness=12 mm&breakthrough=1 mm&zeroed_at=lips",
                "travel",
                13.0 + 4.25 / tan(67.5),
                "mm",
            ),
            ("speeds/cutting-time", TIME, "travel", 50.0, "mm"),
            ("speeds/cutting-time", TIME, "cutting_time", 50.0 / 60.0, "min"),
            (
                "speeds/drilling",
                "diameter=8 mm&cutting_speed=25 m/min&feed_per_rev=0.2 mm/rev&material=304&depth=40 mm&point_angle=118 deg",
                "cutting_time",
                40.0 / (0.2 * 25000.0 / (PI * 8.0)),
                "min",
            ),
        ],
    );
}

#[test]
fn an_angle_from_the_wrong_zero_is_seen() {
    slips(
        "angle_zero",
        &[
            ("patterns/bolt-circle", CIRCLE, "positions/0/x", 2.0 * sin(20.0), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/1/y", 2.0 * sin(40.0), "in"),
            ("patterns/bolt-circle", CIRCLE, "positions/1/angle", 10.0, "deg"),
            (
                "datum/turn-and-shift",
                "points=3 in,1 in&angle=30 deg",
                "positions/0/x",
                3.0 * cos(30.0) + sin(30.0),
                "in",
            ),
            // The lead angle in place of the cutting edge angle.
            (
                "speeds/turning",
                "diameter=40 mm&depth_of_cut=1 mm&cutting_speed=60 m/min&feed_per_rev=0.2 mm/rev&cutting_edge_angle=60 deg",
                "chip_thickness",
                0.2 * sin(30.0),
                "mm",
            ),
            (
                "datum/edge-angle",
                "first=0 in,0.100 in&second=5 in,0.600 in&along=x_axis",
                "angle",
                90.0 - 0.1f64.atan().to_degrees(),
                "deg",
            ),
        ],
    );
}

#[test]
fn a_feed_a_tooth_for_a_feed_a_turn_is_seen() {
    let turns = 840.0 / (PI * 0.5);
    slips(
        "feed_per_tooth",
        &[
            ("speeds/milling", MILL, "feed_rate", 0.002 * turns, "in/min"),
            ("speeds/milling", MILL, "feed_rate", 0.002 * turns * 16.0, "in/min"),
            ("speeds/milling", MILL, "removal_rate", 0.25 * 0.25 * 0.002 * turns, "in3/min"),
            (
                "speeds/as-run",
                "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&teeth=4",
                "feed_per_tooth",
                5.0 / 630.0,
                "in/tooth",
            ),
            (
                "speeds/as-run",
                "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&teeth=4",
                "feed_per_rev",
                5.0 / 630.0 / 4.0,
                "in/rev",
            ),
            // The right number with the other's unit.
            (
                "speeds/as-run",
                "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&teeth=4",
                "feed_per_tooth",
                5.0 / 630.0 / 4.0,
                "in/rev",
            ),
        ],
    );
}

#[test]
fn signs_points_and_other_results_are_seen() {
    slips(
        "sign",
        &[(
            "datum/touch-off",
            "reading_was=growing&tip_diameter=0.200 in&face_position=0 in",
            "set_reading",
            0.1,
            "in",
        )],
    );
    slips("decimal_point", &[("holes/drill-point", DRILL, "point_length", 2.5 / tan(59.0), "in")]);
    slips("other_result", &[("patterns/bolt-circle", CIRCLE, "positions/1/y", 2.0 * cos(80.0), "in")]);
}

#[test]
fn every_slip_is_told_on_every_calculator_it_fits() {
    let mut fits: BTreeMap<&str, BTreeSet<&str>> = CODES.iter().map(|(code, _)| (*code, BTreeSet::new())).collect();
    for entry in REGISTER {
        for (at, example) in entry.examples.iter().enumerate() {
            let from: Vec<String> = example.fields.iter().map(|(name, value)| format!("{name}={value}")).collect();
            for seed in 0..2 {
                let made =
                    Recipe { from: Some(from.join("&").replace('%', "%25")), ..recipe(entry, seed + 2 * at as u64) };
                let question = Question::make(made).unwrap_or_else(|refusal| panic!("{}: {refusal:?}", entry.id));
                let right = question.wanted.quantity;
                let mut tried = BTreeSet::new();
                for slip in question.slips() {
                    let tried_with = fits.get_mut(slip.code).unwrap_or_else(|| panic!("{} is not listed", slip.code));
                    tried_with.insert(entry.id);
                    if !tried.insert(slip.code) {
                        continue;
                    }
                    let answer = format!("{:.12e} {}", right.unit.of_si(slip.value), right.unit.row().ascii);
                    let marked = mark(&question, &answer);
                    assert!(!marked.right, "{}: {} {answer} is right", entry.id, slip.code);
                    let told =
                        marked.slip.unwrap_or_else(|| panic!("{}: {} {answer} is not seen", entry.id, slip.code));
                    // Two slips can give the same; then the one that is looked for first is told.
                    let order = |code: &str| CODES.iter().position(|(known, _)| *known == code);
                    assert!(
                        told.code == slip.code || order(told.code) <= order(slip.code),
                        "{}: {answer} is {}, told as {}",
                        entry.id,
                        slip.code,
                        told.code
                    );
                }
            }
        }
    }
    let lines: Vec<String> = fits
        .iter()
        .map(|(code, calculators)| format!("{code}: {}\n", calculators.iter().copied().collect::<Vec<_>>().join(", ")))
        .collect();
    golden("tests/practice/slips.txt", &lines.concat());
}

fn asked(text: &str) -> Result<Vec<Question>, Refusal> {
    Asked::read(&fields(text)).and_then(|asked| asked.questions())
}

fn wrong(text: &str) -> Vec<(String, &'static str)> {
    let Refusal(wrongs) = asked(text).expect_err("a refusal");
    wrongs.into_iter().map(|wrong| (wrong.field, wrong.code.as_str())).collect()
}

#[test]
fn a_sheet_is_the_same_for_the_same_seed_and_has_no_question_twice() {
    let texts = |text: &str| -> Vec<String> {
        asked(text).expect("questions").into_iter().map(|question| question.text).collect()
    };
    for of in ["calculator=patterns/bolt-circle", "task=cut", "count=44", "calculator=datum/tram"] {
        let sheet = texts(&format!("{of}&seed=12&count=20").replace("count=44&seed=12&count=20", "seed=12&count=44"));
        assert_eq!(
            sheet,
            texts(&format!("{of}&seed=12&count=20").replace("count=44&seed=12&count=20", "seed=12&count=44"))
        );
        let different: BTreeSet<&String> = sheet.iter().collect();
        assert_eq!(different.len(), sheet.len(), "{of}");
        assert!(sheet.len() >= 20, "{of}: {}", sheet.len());
        assert_ne!(sheet, texts(&format!("{of}&seed=13").replace("count=44&seed=13", "seed=13&count=44")));
    }
    let all = asked("seed=5&count=44").expect("questions");
    let calculators: BTreeSet<&str> = all.iter().map(|question| question.recipe.entry.id).collect();
    assert_eq!(calculators.len(), REGISTER.len().min(44), "all take turns");
}

#[test]
fn each_question_of_a_sheet_is_made_again_from_its_own_seed() {
    for question in asked("task=make_the_hole&seed=3&count=9").expect("questions") {
        let mut check: Vec<String> =
            question.recipe_fields().into_iter().map(|(name, value)| format!("{name}={value}")).collect();
        check.push(format!("answer={}", question.wanted.quantity.text().replace('%', "percent")));
        let checked = Checked::read(&fields(&check.join("&"))).expect("marked");
        assert_eq!(checked.question.text, question.text);
        assert!(checked.marked.right, "{check:?}");
    }
}

#[test]
fn a_question_is_made_of_an_answers_link() {
    let link = "/v1/holes/drill-point?diameter=1/2%20in&point_angle=118deg&full_depth=3/4+in&working=false&pick=x";
    let fields = Fields(vec![("from".into(), Given::Text(link.into())), ("seed".into(), Given::Text("2".into()))]);
    let questions = Asked::read(&fields).and_then(|asked| asked.questions()).expect("a question");
    let names: Vec<&str> = questions[0].fields.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(names, ["diameter", "point_angle", "full_depth"], "what only says how an answer is written is left out");
    assert!(questions[0].text.contains("diameter 1/2 in"), "{}", questions[0].text);
    let mut varied = fields.clone();
    varied.0.push(("vary".into(), Given::Text("true".into())));
    varied.0.push(("count".into(), Given::Text("8".into())));
    let varied = Asked::read(&varied).and_then(|asked| asked.questions()).expect("questions");
    assert_eq!(varied.len(), 8);
    assert!(varied.iter().any(|question| !question.text.contains("diameter 1/2 in")));
    assert!(varied.iter().all(|question| question.fields[0].1.ends_with(" in")), "the unit stays");
}

#[test]
fn what_is_wrong_with_a_request_is_said() {
    let one = |field: &str, code| vec![(field.to_owned(), code)];
    assert_eq!(wrong("calculator=holes/drill-pont"), one("/calculator", "not_found"));
    assert_eq!(wrong("calculator=holes/drill-point&count=0"), one("/count", "value_out_of_range"));
    assert_eq!(wrong("count=101"), one("/count", "value_out_of_range"));
    assert_eq!(wrong("seed=-1"), one("/seed", "value_unreadable"));
    assert_eq!(wrong("seed=1.5"), one("/seed", "value_unreadable"));
    assert_eq!(wrong("seed=18446744073709551616"), one("/seed", "value_out_of_range"));
    assert_eq!(wrong("task=knit"), one("/task", "not_found"));
    assert_eq!(wrong("colour=red&seed=x").len(), 2, "all at once");
    assert_eq!(wrong("calculator=holes/drill-point&task=cut").len(), 2);
    assert_eq!(wrong("from=diameter"), one("/calculator", "field_missing"));
    assert_eq!(wrong("calculator=holes/drill-point&machine=mill"), one("/machine", "not_offered"));
    for (from, code) in [
        ("/v1/holes/drill-pont?x", "not_found"),
        ("/v1/datum/tram?difference", "conflict"),
        ("solve_for", "not_offered"),
        ("%zz", "value_unreadable"),
    ] {
        let fields = Fields(vec![
            ("calculator".into(), Given::Text("holes/drill-point".into())),
            ("from".into(), Given::Text(format!("{from}=1").into())),
        ]);
        let Refusal(wrongs) = Asked::read(&fields).and_then(|asked| asked.questions()).expect_err("a refusal");
        assert!(wrongs.iter().any(|wrong| wrong.field == "/from" && wrong.code.as_str() == code), "{from}: {wrongs:?}");
    }
    let ranged = Fields(vec![
        ("calculator".into(), Given::Text("holes/drill-point".into())),
        ("from".into(), Given::Text("diameter=1/4 in|1/2 in".into())),
    ]);
    let Refusal(wrongs) = Asked::read(&ranged).and_then(|asked| asked.questions()).expect_err("a refusal");
    assert_eq!((wrongs[0].field.as_str(), wrongs[0].code.as_str()), ("/from", "not_offered"));
    let broken = Fields(vec![
        ("calculator".into(), Given::Text("holes/drill-point".into())),
        ("from".into(), Given::Text("diameter=0.5&point_angle=x".into())),
    ]);
    let Refusal(wrongs) = Asked::read(&broken).and_then(|asked| asked.questions()).expect_err("a refusal");
    let said: Vec<&str> = wrongs.iter().map(|wrong| wrong.says.split(':').next().unwrap_or_default()).collect();
    assert_eq!(said, ["diameter", "point_angle"]);
    assert_eq!(asked("seed=18446744073709551615").expect("the largest seed").len(), 1);
}

#[test]
fn marking_needs_seed_and_answer() {
    let codes = |text: &str| -> Vec<(String, &'static str)> {
        let Refusal(wrongs) = Checked::read(&fields(text)).map(|_| ()).expect_err("a refusal");
        wrongs.into_iter().map(|wrong| (wrong.field, wrong.code.as_str())).collect()
    };
    let missing = |field: &str| (field.to_owned(), "field_missing");
    assert_eq!(codes("calculator=holes/drill-point"), [missing("/seed"), missing("/answer")]);
    assert_eq!(codes("seed=1&answer=1 in"), [missing("/calculator")]);
}
