//! Practice over HTTP and on its pages, also with a shop's own machines.

use crate::common::{Service, root};
use reqwest::blocking::{Client, Response};
use reqwest::redirect::Policy;
use serde_json::{Value, json};

struct Caller {
    service: Service,
    client: Client,
}

impl Caller {
    fn with(arguments: &[&str]) -> Self {
        Self {
            service: Service::start(arguments),
            client: Client::builder().redirect(Policy::none()).build().expect("a client"),
        }
    }

    fn get(&self, path: &str, fields: &[(&str, &str)]) -> Response {
        self.client.get(format!("{}{path}", self.service.base)).query(fields).send().expect("an answer")
    }

    fn json(&self, fields: &[(&str, &str)]) -> Value {
        let response = self.get("/v1/practice", fields);
        assert_eq!(response.status(), 200, "{fields:?}");
        response.json().expect("JSON")
    }

    fn page(&self, path: &str, fields: &[(&str, &str)]) -> (u16, String) {
        let response = self.get(path, fields);
        (response.status().as_u16(), response.text().expect("text"))
    }

    fn check(&self, body: &Value) -> (u16, Value) {
        let request = self.client.post(format!("{}/v1/practice/check", self.service.base)).json(body);
        let response = request.send().expect("an answer");
        (response.status().as_u16(), response.json().expect("JSON"))
    }
}

fn with_answer(question: &Value, answer: &str) -> Value {
    let mut check = json!({"calculator": question["calculator"], "seed": question["seed"], "answer": answer});
    if !question["level"].is_null() {
        check["level"] = question["level"].clone();
    }
    check
}

#[test]
fn questions_are_asked_and_answers_are_marked() {
    let caller = Caller::with(&[]);
    let all = caller.json(&[("calculator", "holes/drill-point"), ("seed", "7"), ("count", "3")]);
    let questions = all["questions"].as_array().expect("questions");
    assert_eq!(questions.len(), 3);
    assert_eq!(questions[0]["seed"], 7);
    for question in questions {
        for part in ["calculator", "seed", "text", "asks_for", "unit", "right_within", "inputs"] {
            assert!(!question[part].is_null(), "{question}");
        }
        let (status, wrong) = caller.check(&with_answer(question, "1000 in"));
        assert_eq!((status, &wrong["right"]), (200, &json!(false)), "{wrong}");
        assert!(wrong["accepted"].as_str().is_some_and(|says| says.starts_with("from ")), "{wrong}");
        let (status, right) = caller.check(&with_answer(question, wrong["expected"]["text"].as_str().expect("a text")));
        assert_eq!((status, &right["right"]), (200, &json!(true)), "{right}");
        assert!(right["slip"].is_null() && !right["working"].as_array().expect("steps").is_empty());
        assert_eq!(right["text"], question["text"]);
        // The calculator gives what practice calls right.
        let address = format!("{}/v1/{}", caller.service.base, question["calculator"].as_str().unwrap_or_default());
        let answer: Value =
            caller.client.post(address).json(&question["inputs"]).send().expect("an answer").json().expect("JSON");
        let pointer = format!("/result/{}/value", question["asks_for"].as_str().unwrap_or_default());
        assert_eq!(answer.pointer(&pointer), right["expected"].get("value"), "{answer}");
        assert_eq!(answer["working"], right["working"]);
    }
    let as_text = json!({"calculator": "holes/drill-point", "seed": "7", "answer": {"value": 1000.0, "unit": "in"}});
    assert_eq!(caller.check(&as_text).0, 200);
    let (status, problem) = caller.check(&json!({"calculator": "holes/drill-point", "seed": 7, "answer": "0.15"}));
    assert_eq!((status, &problem["errors"][0]["code"]), (422, &json!("unit_missing")));
    let (status, problem) = caller.check(&json!({"calculator": "holes/drill-pont", "seed": 7, "answer": "0.15 in"}));
    assert_eq!((status, &problem["errors"][0]["try"]), (404, &json!("/v1/holes/drill-point")), "{problem}");
    let (status, problem) = caller.check(&json!({"seed": 1e300, "colour": "red"}));
    assert_eq!(status, 422);
    assert!(problem["errors"].as_array().is_some_and(|errors| errors.len() == 3), "{problem}");
    let (status, problem) =
        caller.check(&json!({"calculator": "holes/drill-point", "seed": 9007199254740993u64, "answer": "1 in"}));
    assert_eq!((status, &problem["errors"][0]["field"]), (422, &json!("/seed")), "{problem}");
    assert_eq!(caller.get("/v1/practice", &[("calculator", "nothing/such")]).status(), 404);
    assert_eq!(caller.get("/v1/practice", &[("count", "101")]).status(), 422);
    assert_eq!(caller.get("/v1/practice/check", &[]).status(), 405);
    let head = caller.client.head(format!("{}/v1/practice?seed=3", caller.service.base)).send().expect("an answer");
    assert_eq!(head.status(), 200);
}

#[test]
fn a_question_of_a_link_is_marked_from_what_it_was_made_of() {
    let caller = Caller::with(&[]);
    let link = "/v1/holes/drill-point?diameter=1/2%20in&point_angle=118%20deg&full_depth=3/4%20in";
    let question = &caller.json(&[("from", link), ("seed", "4")])["questions"][0];
    let mut check = json!({"from": question["from"], "seed": question["seed"], "answer": "0.75 in"});
    let (status, marked) = caller.check(&check);
    assert_eq!((status, &marked["text"]), (200, &question["text"]), "{marked}");
    check["vary"] = json!(true);
    let varied = &caller.json(&[("from", link), ("seed", "4"), ("vary", "true")])["questions"][0];
    assert_eq!(caller.check(&check).1["text"], varied["text"]);
    assert_ne!(varied["text"], question["text"]);
}

#[test]
fn a_person_is_asked_and_marked_without_a_script() {
    let caller = Caller::with(&[]);
    let (status, start) = caller.page("/practice", &[]);
    assert_eq!(status, 200);
    assert!(start.contains("<form") && start.contains("holes/drill-point"));
    let sent_on = caller.get("/practice", &[("calculator", "holes/drill-point"), ("seed", "")]);
    assert_eq!(sent_on.status(), 303);
    let location = sent_on.headers()["location"].to_str().expect("an address").to_owned();
    assert!(location.starts_with("/practice?calculator=holes%2Fdrill-point&seed="), "{location}");
    let of_task = caller.get("/practice", &[("task", "cut"), ("seed", "3")]);
    assert!(of_task.headers()["location"].to_str().is_ok_and(|address| address.contains("calculator=speeds%2F")));

    let asked = [("calculator", "patterns/bolt-circle"), ("seed", "3")];
    let (status, page) = caller.page("/practice", &asked);
    assert_eq!(status, 200);
    let question = &caller.json(&asked)["questions"][0];
    let text = question["text"].as_str().expect("a text");
    assert!(page.contains(text), "{page}");
    assert!(page.contains("name=\"seed\" value=\"3\"") && page.contains("name=\"answer\""));
    let within = question["right_within"].as_str().expect("words");
    assert!(page.contains(&format!("Right {within}.")), "how close it is wanted is said before one answers");
    let expected = caller.check(&with_answer(question, "1 in")).1["expected"].clone();
    let right = expected["text"].as_str().expect("a text");
    let (status, page) = caller.page("/practice", &[&asked[..], &[("answer", right)]].concat());
    assert_eq!(status, 200);
    assert!(page.contains("Right.") && page.contains("Worked solution") && page.contains(right), "{page}");
    let ten_times = format!(
        "{} {}",
        10.0 * expected["value"].as_f64().unwrap_or_default(),
        expected["unit"].as_str().unwrap_or_default()
    );
    let slip = caller.check(&with_answer(question, &ten_times)).1["slip"]["says"].clone();
    let slip = slip.as_str().expect("a slip");
    let (status, page) = caller.page("/practice", &[&asked[..], &[("answer", &ten_times)]].concat());
    assert_eq!(status, 200);
    assert!(page.contains("Not right.") && page.contains(slip) && page.contains("Worked solution"), "{page}");
    let (status, page) = caller.page("/practice", &[&asked[..], &[("answer", "12.5")]].concat());
    assert_eq!(status, 422);
    assert!(page.contains("Say the unit") && page.contains("value=\"12.5\"") && page.contains(text), "{page}");
    let (status, page) = caller.page("/practice", &[("calculator", "no/such"), ("seed", "1")]);
    assert_eq!(status, 404);
    assert!(page.contains("There is no calculator"));
    let (_, page) = caller.page("/practice", &[&asked[..], &[("answer", "<b>&\" in")]].concat());
    assert!(!page.contains("<b>&\""), "what was typed is escaped");
}

#[test]
fn the_page_of_an_answer_makes_a_question_of_it() {
    let caller = Caller::with(&[]);
    assert!(caller.page("/", &[]).1.contains("href=\"/practice\""));
    let asked = [("diameter", "1/2 in"), ("point_angle", "118 deg"), ("full_depth", "3/4 in")];
    let (_, page) = caller.page("/holes/drill-point", &asked);
    let link =
        page.split("href=\"").find(|part| part.starts_with("/practice?") && part.contains("from=")).expect("the link");
    let link = link.split('"').next().unwrap_or_default().replace("&amp;", "&");
    let sent_on = caller.get(&link, &[]);
    assert_eq!(sent_on.status(), 303);
    let (status, page) = caller.page(sent_on.headers()["location"].to_str().expect("an address"), &[]);
    assert_eq!(status, 200);
    assert!(["of 1/2 in, ", "of 118° and ", "of 3/4 in: what is"].iter().all(|part| page.contains(part)), "{page}");
    assert!(page.contains("The same with other numbers"));
}

#[test]
fn a_sheet_and_its_answers_belong_together() {
    let caller = Caller::with(&[]);
    let asked = [("task", "make_the_hole"), ("seed", "41"), ("count", "6")];
    let questions = caller.json(&asked)["questions"].clone();
    let (status, sheet) = caller.page("/practice/sheet", &asked);
    assert_eq!((status, &sheet), (200, &caller.page("/practice/sheet", &asked).1), "the same for the same seed");
    let (status, answers) = caller.page("/practice/answers", &asked);
    assert_eq!(status, 200);
    assert!(sheet.contains("Seed 41") && answers.contains("Seed 41"));
    assert!(sheet.contains("/practice/answers?task=make_the_hole&amp;seed=41&amp;count=6"), "{sheet}");
    for question in questions.as_array().expect("questions") {
        assert!(sheet.contains(question["text"].as_str().expect("a text")));
        let expected = caller.check(&with_answer(question, "1 in")).1["expected"]["text"].clone();
        let expected = expected.as_str().expect("a text");
        assert!(answers.contains(expected), "{expected}");
    }
    assert_eq!(sheet.matches("Answer:").count(), 6);
    assert!(["Name", "Date", "Score", "of 6"].iter().all(|line| sheet.contains(line)), "{sheet}");
    assert_eq!(answers.matches("<details open>").count(), 6, "the solutions are unfolded");
    let other = [("task", "make_the_hole"), ("seed", "42"), ("count", "6")];
    assert_ne!(sheet, caller.page("/practice/sheet", &other).1);
    assert_eq!(caller.page("/practice/sheet", &[("seed", "1"), ("count", "1000")]).0, 422);
    let style = caller.get(shop_reckoner::page::assets::practice_style(), &[]);
    assert!(style.text().expect("text").contains("@media print"));
}

#[test]
fn the_course_leads_through_its_topics() {
    let caller = Caller::with(&[]);
    let course: Value = caller.get("/v1/practice/course", &[]).json().expect("JSON");
    let topics = course["topics"].as_array().expect("topics");
    let words: Vec<&str> = topics.iter().filter_map(|topic| topic["topic"].as_str()).collect();
    assert_eq!(words, ["measure", "fit", "drill", "tap", "speeds", "lay_out", "find_zero", "thread", "repair"]);
    let (_, start) = caller.page("/practice", &[]);
    for topic in topics {
        let word = topic["topic"].as_str().expect("a word");
        let why = topic["why"]["question"].as_str().expect("a question");
        assert!(start.contains(why) && start.contains(&format!("/practice/sheet?topic={word}&amp;level=1")), "{word}");
        let asked = [("topic", word), ("seed", "5"), ("count", "4")];
        let calculators = topic["calculators"].to_string();
        for question in caller.json(&asked)["questions"].as_array().expect("questions") {
            assert!(calculators.contains(question["calculator"].as_str().expect("an id")), "{question}");
        }
        let because = topic["why"]["answer"].as_str().expect("an answer").replace('"', "&quot;");
        let (sheet, answers) = (caller.page("/practice/sheet", &asked).1, caller.page("/practice/answers", &asked).1);
        assert!(sheet.contains(why) && !sheet.contains(&because), "{word}: the answer stands on the other sheet");
        assert!(answers.contains(why) && answers.contains(&because), "{word}");
        let sent_on = caller.get("/practice", &[("topic", word), ("seed", "5")]);
        assert_eq!(sent_on.status(), 303, "{word}");
    }
    let (status, page) = caller.page("/practice", &[("topic", "knitting"), ("seed", "1")]);
    assert_eq!(status, 422);
    assert!(page.contains("the topics are measure, fit, drill"), "{page}");
}

#[test]
fn a_shop_is_asked_about_its_own_machines() {
    let shop = root().join("data/shop/tern-point-works.toml");
    let caller = Caller::with(&["--shop", shop.to_str().expect("a path")]);
    let questions = |calculator: &str, more: &[(&str, &str)]| -> Vec<Value> {
        let asked = [&[("calculator", calculator), ("seed", "1"), ("count", "20")][..], more].concat();
        caller.json(&asked)["questions"].as_array().expect("questions").clone()
    };
    // What a machine has of a question is taken from the machine, and the question says which machine that is.
    let own = ["available", "slowest", "fastest", "spindle_power", "efficiency", "base_speed", "available_feeds"];
    for (calculator, machine) in [("speeds/milling", "mill"), ("speeds/boring", "lathe"), ("patterns/bolt-circle", "")]
    {
        for question in questions(calculator, &[]) {
            let on = question["inputs"]["machine"].as_str().unwrap_or_default();
            assert!(on.is_empty() || on == machine, "{question}");
            let says = question["text"].as_str().expect("a text");
            assert!(on.is_empty() || says.contains(&format!("on the {machine}")), "{question}");
            assert!(on.is_empty() || own.iter().all(|name| question["inputs"][name].is_null()), "{question}");
        }
    }
    let asked = questions("speeds/spindle-speed", &[("machine", "lathe")]);
    let on_lathe = asked.iter().find(|question| question["inputs"]["machine"] == "lathe").expect("one on the lathe");
    assert!(on_lathe["text"].as_str().is_some_and(|text| text.contains("on the lathe")), "{on_lathe}");
    let mut check = with_answer(on_lathe, "1 rpm");
    check["machine"] = json!("lathe");
    let marked = caller.check(&check).1;
    assert_eq!(marked["text"], on_lathe["text"]);
    assert_eq!(caller.get("/v1/practice", &[("calculator", "speeds/milling"), ("machine", "plane")]).status(), 422);
}
