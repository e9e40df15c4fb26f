//! The budget of a request's work: whatever is asked ends when the time is up, and says so and nothing else.

use serde_json::json;
use shop_reckoner::asking::{self, Form, ask, recheck};
use shop_reckoner::budget::Budget;
use shop_reckoner::calculators::{Entry, REGISTER, find};
use shop_reckoner::drawing::Stands;
use shop_reckoner::fields::{Fields, Given};
use shop_reckoner::practice::{Asked, Checked};
use shop_reckoner::refusal::{Code, Refusal};
use std::time::Duration;

/// A time in which none of what follows can be worked out.
const SHORT: Duration = Duration::from_millis(5);

fn spent() -> Budget {
    let budget = Budget::of(Duration::from_secs(3600));
    budget.give_up();
    budget
}

fn of_query(query: &str) -> Fields<'_> {
    Fields::of_query(query).expect("a query")
}

fn entry(id: &str) -> &'static Entry {
    find(id).expect("a calculator")
}

fn assert_of_time<T>(refused: Result<T, Refusal>, what: &str) {
    let codes: Vec<Code> = refused.err().unwrap_or_default().0.iter().map(|wrong| wrong.code).collect();
    assert_eq!(codes, [Code::TooMuchWork], "{what}");
}

/// Wheels with 20 to 59 teeth.
fn wheels() -> String {
    (20..60).map(|teeth| teeth.to_string()).collect::<Vec<_>>().join(",")
}

/// Places strewn without a pattern, the first twelve with a tolerance.
fn strewn(count: usize) -> String {
    let place = |at: usize| {
        let along = |by: f64| ((at + 1) as f64 * by).fract() * 500.0;
        let tolerance = if at < 12 { " %2B/-0.1" } else { "" };
        format!("{:.2}{tolerance} mm,{:.2} mm", along(0.618_034), along(0.324_718))
    };
    (0..count).map(place).collect::<Vec<_>>().join(";")
}

/// A hundred gauge blocks of sizes that nobody makes.
fn odd_blocks() -> String {
    let size = |at: usize| 1.0 + ((at + 1) as f64 * 0.618_034).fract() * 20.0;
    (0..100).map(|at| format!("{:.4} mm", size(at))).collect::<Vec<_>>().join(",")
}

#[test]
fn every_long_request_ends_when_its_time_is_up() {
    let wheels = wheels();
    let arc =
        "from=20 mm,0.5 mm&to=0.5 mm,20 mm&radius=20 mm&sense=counterclockwise&cutter=flat&diameter=10 mm&side=right";
    for (id, query) in [
        ("geometry/gauge-blocks", format!("height=71.2345 mm&own={}", odd_blocks())),
        (
            "threads/change-gears",
            format!("solve_for=lead&wanted=wanted_lead:4 mm&leadscrew_lead=3 mm&count=50&gears={wheels}"),
        ),
        ("threads/change-gears", format!("lead=1 mm..4 mm step 0.01 mm&leadscrew_lead=3 mm&count=50&gears={wheels}")),
        ("datum/visit-order", format!("points={}", strewn(88))),
        ("datum/visit-order", format!("points={}", strewn(1000).replace(" %2B/-0.1", ""))),
        ("datum/visit-order", format!("points={}&start=0 mm,0 mm&finish=1 mm,1 mm", strewn(11))),
        ("datum/stepped-profile", format!("{arc}&cusp=0.001 mm..0.5 mm step 0.001 mm")),
        ("datum/stepped-profile", format!("{arc}&solve_for=cusp&wanted=length:1 m")),
        ("patterns/bolt-circle", "diameter=100 mm..200 mm step 1 mm&holes=1000".to_owned()),
        ("holes/drill-point", "point_angle=118 deg&solve_for=diameter&wanted=point_length:0.15 in".to_owned()),
        (
            "holes/drill-point",
            "diameter=10 mm&point_angle=120 deg&correct=point_angle&measured=point_length:3 mm".to_owned(),
        ),
    ] {
        assert_of_time(Budget::of(SHORT).spend(|| ask(entry(id), of_query(&query), Form::Json)), &query);
    }
}

#[test]
fn nothing_is_answered_or_drawn_without_time() {
    for entry in REGISTER {
        for example in entry.examples {
            let fields = || Fields::of_texts(example.fields.iter().copied());
            assert_of_time(spent().spend(|| ask(entry, fields(), Form::Json)), entry.id);
            // What else is wrong may not stand in for it.
            let mut wrong = fields();
            wrong.0.push(("units".into(), Given::Text("furlongs".into())));
            assert_of_time(spent().spend(|| ask(entry, wrong, Form::Json)), entry.id);
            if let Some(drawn) = spent().spend(|| asking::drawing(entry, fields(), Form::Json, Stands::Alone)) {
                assert_of_time(drawn, entry.id);
            }
        }
    }
}

#[test]
fn a_name_or_unit_that_no_result_has_is_refused_before_anything_is_tried() {
    // What is missing would be found out by the first try.
    for (wanted, code) in [("wanted_leed:4 mm", Code::NotFound), ("wanted_lead:4 deg", Code::UnitWrong)] {
        let query = format!("solve_for=lead&gears={}&wanted={wanted}", wheels());
        let refusal = ask(entry("threads/change-gears"), of_query(&query), Form::Json).map(|_| ()).unwrap_err();
        let wrongs: Vec<(&str, Code)> = refusal.0.iter().map(|wrong| (wrong.field.as_str(), wrong.code)).collect();
        assert_eq!(wrongs, [("/wanted", code)], "{wanted}");
    }
}

#[test]
fn practice_ends_when_its_time_is_up_and_is_the_same_afterwards() {
    let from =
        "/v1/datum/visit-order?points=0 in,0 in;1 in,2 in;3 in,1 in;2 in,2 in;4 in,0 in;5 in,5 in;1 in,1 in;2 in,7 in";
    for (vary, count) in [("true", "100"), ("false", "100")] {
        let fields = Fields::of_texts([("from", from), ("vary", vary), ("count", count), ("seed", "7")]);
        let asked = Asked::read(&fields).expect("a request");
        assert_of_time(Budget::of(SHORT).spend(|| asked.questions()), vary);
    }
    for entry in REGISTER {
        let fields = Fields::of_texts([("calculator", entry.id), ("seed", "7")]);
        let asked = Asked::read(&fields).expect("a request");
        let texts =
            || -> Vec<String> { asked.questions().unwrap().into_iter().map(|question| question.text).collect() };
        let before = texts();
        assert_of_time(spent().spend(|| asked.questions()), entry.id);
        assert_eq!(texts(), before, "{}", entry.id);
    }
}

#[test]
fn an_answer_is_not_marked_without_looking_at_every_slip() {
    let asked = [("calculator", "holes/drill-point"), ("seed", "7"), ("answer", "123 mm")];
    let question = Checked::read(&Fields::of_texts(asked)).expect("a marked answer").question;
    assert!(!question.slips().expect("slips").is_empty());
    assert_of_time(spent().spend(|| question.slips()), "slips");
    assert_of_time(spent().spend(|| question.mark(&Given::Text("123 mm".into()))), "a wrong answer");
    assert_of_time(spent().spend(|| Checked::read(&Fields::of_texts(asked))), "a question");
}

#[test]
fn an_answer_that_there_is_no_time_to_recheck_is_not_said_to_be_refused() {
    let link = "/v1/holes/drill-point?diameter=0.5%20in";
    assert_of_time(spent().spend(|| recheck(&json!({"calculator": "holes/drill-point", "link": link}))), "recheck");
}

#[test]
fn a_range_of_more_rows_than_can_be_counted_is_refused() {
    let fields = (0..70).map(|at| (format!("field_{at}").into(), Given::Text("1 in|2 in".into())));
    let refusal = ask(entry("holes/drill-point"), Fields(fields.collect()), Form::Json).map(|_| ()).unwrap_err();
    assert_eq!((refusal.0.len(), refusal.0[0].code), (70, Code::ValueOutOfRange));
}
