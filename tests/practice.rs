//! Practice: questions from seeds for every calculator, the marking of answers, sheets; the slips and
//! the addresses beside.

mod common;
#[path = "practice/everywhere.rs"]
mod everywhere;
#[path = "practice/http.rs"]
mod http;
#[path = "practice/slips.rs"]
mod slips;

use common::{fields, golden};
use shop_reckoner::calculators::{Entry, REGISTER, find};
use shop_reckoner::fields::{Fields, Given};
use shop_reckoner::practice::{Asked, Checked, Marked, Question, Recipe};
use shop_reckoner::refusal::Refusal;
use std::collections::BTreeSet;

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
    let limit = of_answer("threads/thread", "designation=1/4-20 UNC-2A", "limits/external/pitch_max");
    for (answer, marked) in [("0.2164 in", "right"), ("0.216 in", "wrong"), ("0.2165 in", "wrong")] {
        assert_eq!(verdict(&limit, answer), marked, "{answer}");
    }
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

fn asked(text: &str) -> Result<Vec<Question>, Refusal> {
    Asked::read(&fields(text)).and_then(|asked| asked.questions())
}

fn wrong(text: &str) -> Vec<(String, &'static str)> {
    let Refusal(wrongs) = asked(text).expect_err("a refusal");
    wrongs.into_iter().map(|wrong| (wrong.field, wrong.code.as_str())).collect()
}

#[test]
fn a_sheet_is_the_same_for_the_same_seed_and_has_no_question_twice() {
    let texts = |of: &str, seed: u64| -> Vec<String> {
        let questions = asked(&format!("{of}&seed={seed}")).expect("questions");
        questions.into_iter().map(|question| question.text).collect()
    };
    for of in
        ["calculator=patterns/bolt-circle&count=20", "task=cut&count=20", "calculator=datum/tram&count=20", "count=44"]
    {
        let sheet = texts(of, 12);
        assert_eq!(sheet, texts(of, 12), "{of}");
        assert_ne!(sheet, texts(of, 13), "{of}");
        let different: BTreeSet<&String> = sheet.iter().collect();
        assert_eq!(different.len(), sheet.len(), "{of}");
        assert!(sheet.len() >= 20, "{of}: {}", sheet.len());
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
