//! What the description says of practice: its two operations and their schemas, with examples that are
//! the service's own answers.

use super::json_schema::schema;
use super::parts::{a, list, problem_responses, record, words};
use super::service_addresses::{json_response, operation};
use crate::calculators::{REGISTER, Task};
use crate::declared::Schemas;
use crate::fields::Fields;
use crate::practice::{Asked, CODES, Checked, MOST_QUESTIONS, TaskNamed, good};
use crate::service::practice::listed;
use serde_json::{Value, json};
use utoipa::openapi::path::{HttpMethod, ParameterBuilder, ParameterIn, PathItem, PathItemBuilder};
use utoipa::openapi::request_body::RequestBodyBuilder;
use utoipa::openapi::{ContentBuilder, Ref, Required};

/// What each field of a request is.
fn about(name: &str) -> &'static str {
    match name {
        "calculator" => "The calculator. Where from begins with its address it may be left out.",
        "task" => "The calculators of a task take turns; without calculator and task all do.",
        "seed" => {
            "The same seed makes the same questions again; 1 if absent. A number, or text where it is larger than \
                   a JSON number keeps."
        }
        "count" => "How many questions, no two alike; 1 if absent. Fewer are given where no more are to be had.",
        "from" => {
            "The link or the query of an answer, of which questions are made, such as \
                   /v1/holes/drill-point?diameter=1/2 in; in an address it is percent-encoded as a whole."
        }
        "vary" => "Whether the numbers of that answer are changed: true or false (if absent).",
        "machine" => {
            "A machine by its name in the shop's file. If absent, the shop's own machine that fits, if it has one."
        }
        _ => "The answer: a quantity with its unit.",
    }
}

fn of(name: &str) -> Value {
    let whole = json!({"type": "integer", "minimum": 0, "maximum": 9_007_199_254_740_991u64});
    let mut schema = match name {
        "calculator" => json!({"$ref": "#/components/schemas/CalculatorId"}),
        "task" => json!({"$ref": "#/components/schemas/TaskWord"}),
        "seed" => json!({"anyOf": [whole, {"type": "string", "pattern": "^[0-9]{1,20}$"}]}),
        "count" => json!({"type": "integer", "minimum": 1, "maximum": MOST_QUESTIONS}),
        "vary" => json!({"type": "boolean"}),
        "answer" => {
            json!({"anyOf": [{"type": "string", "minLength": 1}, {"$ref": "#/components/schemas/PracticeAnswer"}]})
        }
        _ => json!({"type": "string", "minLength": 1}),
    };
    schema["description"] = json!(about(name));
    schema
}

fn example(name: &str) -> Value {
    let text = good(name).unwrap_or_default();
    match name {
        "seed" | "count" => json!(text.parse::<u64>().unwrap_or_default()),
        "vary" => json!(true),
        _ => json!(text),
    }
}

fn fields(pairs: &[(&str, &str)]) -> Fields<'static> {
    Fields::of_texts(pairs.iter().copied()).owned()
}

const CALCULATOR: &str = "holes/drill-point";

/// A request to mark an answer that has forgotten the drill's point, and what is answered to it.
fn marked() -> (Value, Value) {
    let (from, answer) = ("diameter=1/2 in&point_angle=118 deg&full_depth=3/4 in", "0.75 in");
    let ask = |seed: u64| {
        let seed = seed.to_string();
        let pairs = [("calculator", CALCULATOR), ("seed", &seed), ("from", from), ("answer", answer)];
        Checked::read(&fields(&pairs)).ok().filter(|checked| checked.marked.slip.is_some())
    };
    // The seed chooses which result is asked for.
    let found = (1..50).find_map(|seed| ask(seed).map(|checked| (seed, checked)));
    let Some((seed, checked)) = found else { return Default::default() };
    let body = json!({"calculator": CALCULATOR, "seed": seed, "from": from, "answer": answer});
    (body, serde_json::to_value(&checked).unwrap_or_default())
}

/// The operations by address.
pub fn operations() -> Vec<(&'static str, PathItem)> {
    let shown = [("calculator", CALCULATOR), ("seed", "7"), ("count", "2")];
    let questions = Asked::read(&fields(&shown)).and_then(|asked| asked.questions()).unwrap_or_default();
    let says = "Questions for a calculator, a task or all, from a seed or made of an answer. What each of them asks \
                for is answered at /v1/practice/check.";
    let ok = json_response("The questions.", Ref::from_schema_name("Practice"), listed(&questions));
    let asked = ["calculator", "task", "seed", "count", "from", "vary", "machine"];
    let mut get = operation("practice", "Practice questions", says, ok);
    for name in asked {
        get = get.parameter(
            ParameterBuilder::new()
                .name(name)
                .parameter_in(ParameterIn::Query)
                .required(Required::False)
                .description(Some(about(name)))
                .schema(Some(schema(of(name))))
                // A calculator and a task do not go together, and a machine needs a shop.
                .example(Some(example(name)))
                .build(),
        );
    }
    let get = problem_responses(get.response("404", super::parts::problem("There is no such calculator.")), false);
    let (body, response) = marked();
    let says = "Marks an answer to a question, which is made again from what it was made of. The rounding of a shop is \
                allowed. A wrong answer is told the slip it comes from, where that is seen, and the worked solution.";
    let ok = json_response("The answer, marked.", Ref::from_schema_name("PracticeMarked"), response);
    let content =
        ContentBuilder::new().schema(Some(Ref::from_schema_name("PracticeCheck"))).example(Some(body)).build();
    let body = RequestBodyBuilder::new()
        .description(Some("The question's own fields and the answer."))
        .content("application/json", content)
        .required(Some(Required::True))
        .build();
    let post = operation("practice_check", "Mark an answer", says, ok).request_body(Some(body));
    let post = problem_responses(post.response("404", super::parts::problem("There is no such calculator.")), true);
    [("/v1/practice", HttpMethod::Get, get), ("/v1/practice/check", HttpMethod::Post, post)]
        .into_iter()
        .map(|(path, method, operation)| (path, PathItemBuilder::new().operation(method, operation).build()))
        .collect()
}

/// The schemas of practice.
pub fn schemas() -> Schemas {
    let ids: Vec<&str> = REGISTER.iter().map(|entry| entry.id).collect();
    let tasks: Vec<String> = Task::ALL.into_iter().map(TaskNamed::word).collect();
    let codes: Vec<&str> = CODES.iter().map(|(code, _)| *code).collect();
    let about_codes: Vec<String> = CODES.iter().map(|(code, about)| format!("{code}: {about}.")).collect();
    let question = json!({
        "calculator": a("CalculatorId", "The calculator."),
        "seed": {"type": "integer", "minimum": 0, "description": "The seed of this question alone."},
        "from": words("What it was made of, if it was made of an answer."),
        "vary": {"type": "boolean", "description": "Whether the numbers of that answer were changed."},
        "machine": words("The machine asked for, if one was."),
        "text": words("The question in words."),
        "asks_for": words("The result asked for, as pick names it."),
        "unit": words("The unit asked for; any that measures the same will do."),
        "inputs": {"type": "object", "additionalProperties": {"type": "string"},
                   "description": "The fields of the calculation, each as a query states it."},
    });
    let mut marked = question.clone();
    let more = json!({
        "answered": a("Stated", "The answer as understood."),
        "right": {"type": "boolean", "description": "Whether it is right, rounded as a shop would."},
        "slip": a("PracticeSlip", "What a wrong answer comes from; absent where that is not seen."),
        "expected": a("Stated", "What is right."),
        "allowed": a("Stated", "How far from it an answer may be, either way."),
        "working": list("Step", "The worked solution, step by step."),
        "notes": list("Remark", "What to know about it."),
        "cautions": list("Remark", "What to beware of."),
        "sources": list("SourceUsed", "The sources used."),
        "trust": a("Trust", "The worst trust of the sources used."),
    });
    if let (Some(all), Value::Object(more)) = (marked.as_object_mut(), more) {
        all.extend(more);
    }
    let checked = ["calculator", "seed", "from", "vary", "machine", "answer"];
    let check: serde_json::Map<String, Value> = checked.iter().map(|name| ((*name).to_owned(), of(name))).collect();
    let of_question = ["calculator", "seed", "text", "asks_for", "unit", "inputs"];
    let of_marked = [
        &of_question[..],
        &["answered", "right", "expected", "allowed", "working", "notes", "cautions", "sources", "trust"],
    ]
    .concat();
    let all = json!({
        "CalculatorId": {"type": "string", "enum": ids, "description": "A calculator by its name, topic/calculator."},
        "TaskWord": {"type": "string", "enum": tasks, "description": "A task, by which the calculators are grouped."},
        "Practice": record("Questions to practise on.", &["version", "data_version", "questions"], json!({
            "version": words("The version of the service."),
            "data_version": words("The version of the tables."),
            "questions": list("PracticeQuestion", "The questions.") })),
        "PracticeQuestion": record("A question to practise on.", &of_question, question),
        "PracticeAnswer": record("An answer as an object.", &["value", "unit"], json!({
            "value": {"type": "number", "description": "The number."}, "unit": words("Its unit.") })),
        "PracticeCheck": record("An answer to be marked.", &["seed", "answer"], Value::Object(check)),
        "PracticeSlip": record("What a wrong answer comes from.", &["code", "says"], json!({
            "code": {"type": "string", "enum": codes, "description": about_codes.join(" ")},
            "says": words("What was misunderstood, in words.") })),
        "PracticeMarked": record("A marked answer.", &of_marked, marked),
    });
    let Value::Object(all) = all else { return Vec::new() };
    all.into_iter().map(|(name, value)| (name, schema(value))).collect()
}
