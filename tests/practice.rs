//! Practice: questions from seeds for every calculator, sheets and what is refused; the marking, the slips and
//! the addresses beside.

mod common;
#[path = "practice/everywhere.rs"]
mod everywhere;
#[path = "practice/exercised.rs"]
mod exercised;
#[path = "practice/http.rs"]
mod http;
#[path = "practice/marking.rs"]
mod marking;
#[path = "practice/slips.rs"]
mod slips;

use common::{fields, golden};
use shop_reckoner::calculators::{Entry, Example, REGISTER, find};
use shop_reckoner::fields::{Fields, Given};
use shop_reckoner::practice::{Asked, Checked, LONGEST, Marked, Question, Recipe, TOPICS};
use shop_reckoner::quantity::Unit;
use shop_reckoner::refusal::Refusal;
use std::collections::BTreeSet;

fn recipe(entry: &'static Entry, seed: u64) -> Recipe {
    Recipe { entry, seed, level: None, from: None, vary: false, machine: None }
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

/// What was marked: `right`, the slip's code, or `wrong`.
fn verdict(question: &Question, answer: &str) -> &'static str {
    match mark(question, answer) {
        Marked { right: true, .. } => "right",
        Marked { slips, .. } => slips.first().map_or("wrong", |slip| slip.code),
    }
}

/// The decimals of every number in a text.
fn most_decimals(text: &str) -> usize {
    let parts = text.split(|c: char| !c.is_ascii_digit() && c != '.');
    parts
        .filter_map(|part| part.trim_end_matches('.').split_once('.'))
        .map(|(_, decimals)| decimals.len())
        .max()
        .unwrap_or(0)
}

#[test]
fn every_calculator_asks_short_questions_with_round_numbers_whose_answers_are_right() {
    let mut asked = 0;
    for entry in REGISTER {
        let mut seen = BTreeSet::new();
        for seed in 0..12 {
            let question = question(entry, seed);
            let (text, right) = (&question.text, question.wanted.amount);
            assert!(text.chars().count() <= LONGEST, "{} has {}: {text}", entry.id, text.chars().count());
            assert!(most_decimals(text) <= 4, "{}: {text}", entry.id);
            assert!(text.contains(['?', '.']) && text.len() > 30, "{}: {text}", entry.id);
            assert!(!text.contains(['_', '{', '}']) && !text.contains("NaN"), "{}: {text}", entry.id);
            assert!(right.quantity().is_none() || text.contains(" in "), "{}: no unit is asked for: {text}", entry.id);
            let mut answers = vec![right.text()];
            if let Some(quantity) = right.quantity() {
                answers.push(format!("{} {}", quantity.value, quantity.unit.row().ascii));
                let alike = |unit: &&Unit| unit.row().dimension == quantity.unit.row().dimension;
                for unit in quantity.kind.units.iter().filter(alike) {
                    answers.push(format!("{:.12e} {}", unit.of_si(right.si()), unit.row().ascii));
                }
            }
            for answer in answers {
                assert_eq!(verdict(&question, &answer), "right", "{} seed {seed}: {text} {answer}", entry.id);
            }
            seen.insert(text.clone());
            asked += 1;
        }
        assert!(seen.len() >= 2, "{}: {} different questions from 12 seeds", entry.id, seen.len());
    }
    assert!(asked >= 400, "{asked} questions");
}

#[test]
fn no_calculator_is_without_exercises_but_those_that_the_exercises_name() {
    // That every calculator has exercises, and sound ones, is held by tests/exercises.rs; here only that a question
    // is made of one wherever there is one, and has its level.
    for entry in REGISTER {
        let question = question(entry, 3);
        let levels: Vec<u8> = entry.exercises.iter().map(|exercise| exercise.level).collect();
        match question.recipe.level {
            Some(level) => assert!(levels.contains(&level), "{}", entry.id),
            None => assert!(levels.is_empty(), "{}", entry.id),
        }
        if levels.is_empty() {
            let is_of = |example: &Example| {
                example
                    .fields
                    .iter()
                    .all(|(name, value)| question.fields.iter().any(|(known, stated)| known == name && stated == value))
            };
            assert!(entry.examples.iter().any(is_of), "{}: an example's numbers stay as they are", entry.id);
        }
    }
}

#[test]
fn a_seed_is_the_same_question_for_ever() {
    let mut lines = String::new();
    for entry in REGISTER {
        let (first, again) = (question(entry, 7), question(entry, 7));
        assert_eq!((&first.text, &first.wanted.path), (&again.text, &again.wanted.path));
        let within = first.closeness().words(&first.wanted.amount);
        lines.push_str(&format!("{}: {}\n    {}, right {within}\n", entry.id, first.text, first.wanted.amount.text()));
    }
    golden("tests/practice/questions.txt", &lines);
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
    for of in ["calculator=holes/drill-size&count=12", "task=cut&count=12", "topic=drill&count=12", "count=44"] {
        let sheet = texts(of, 12);
        assert_eq!(sheet, texts(of, 12), "{of}");
        assert_ne!(sheet, texts(of, 13), "{of}");
        let different: BTreeSet<&String> = sheet.iter().collect();
        assert_eq!(different.len(), sheet.len(), "{of}");
        assert!(sheet.len() >= 12, "{of}: {}", sheet.len());
    }
    let all = asked("seed=5&count=44").expect("questions");
    let calculators: BTreeSet<&str> = all.iter().map(|question| question.recipe.entry.id).collect();
    assert_eq!(calculators.len(), REGISTER.len().min(44), "all take turns");
}

#[test]
fn a_topic_and_a_level_narrow_a_sheet() {
    for topic in TOPICS {
        let ids: Vec<&str> = topic.entries().map(|entry| entry.id).collect();
        for question in asked(&format!("topic={}&seed=2&count=8", topic.word)).expect("questions") {
            assert!(ids.contains(&question.recipe.entry.id), "{}: {}", topic.word, question.recipe.entry.id);
        }
    }
    for level in 1..=3 {
        let questions = asked(&format!("calculator=holes/drill-size&level={level}&seed=4&count=4")).expect("questions");
        assert!(questions.iter().all(|question| question.recipe.level == Some(level)));
    }
}

#[test]
fn each_question_of_a_sheet_is_made_again_from_its_own_seed() {
    for question in asked("task=make_the_hole&seed=3&count=9").expect("questions") {
        let mut check: Vec<String> =
            question.recipe_fields().into_iter().map(|(name, value)| format!("{name}={value}")).collect();
        check.push(format!("answer={}", question.wanted.amount.text().replace('%', "percent")));
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
    let says = |text: &str| {
        text.starts_with("For a") && ["1/2 in,", "118° and", "3/4 in:"].iter().all(|part| text.contains(part))
    };
    assert!(says(&questions[0].text), "{}", questions[0].text);
    let mut varied = fields.clone();
    varied.0.push(("vary".into(), Given::Text("true".into())));
    varied.0.push(("count".into(), Given::Text("8".into())));
    let varied = Asked::read(&varied).and_then(|asked| asked.questions()).expect("questions");
    assert_eq!(varied.len(), 8);
    assert!(varied.iter().any(|question| !question.text.contains("of 1/2 in, ")));
    assert!(varied.iter().all(|question| question.fields[0].1.ends_with(" in")), "the unit stays");
    assert!(varied.iter().all(|question| most_decimals(&question.text) <= 4), "the numbers are round");
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
    assert_eq!(wrong("topic=knit"), one("/topic", "not_found"));
    assert_eq!(wrong("level=4"), one("/level", "value_out_of_range"));
    assert_eq!(wrong("level=0"), one("/level", "value_out_of_range"));
    assert_eq!(wrong("from=/v1/holes/drill-point?diameter=1/2 in&level=1"), one("/level", "conflict"));
    assert_eq!(wrong("task=cut&topic=drill").len(), 2);
    assert_eq!(wrong("colour=red&seed=x").len(), 2, "all at once");
    assert_eq!(wrong("calculator=holes/drill-point&task=cut").len(), 2);
    assert_eq!(wrong("from=diameter"), one("/calculator", "field_missing"));
    assert_eq!(wrong("calculator=holes/drill-point&machine=mill"), one("/machine", "not_offered"));
    assert_eq!(wrong("calculator=holes/drill-size&level=9&machine=mill"), one("/level", "value_out_of_range"));
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
