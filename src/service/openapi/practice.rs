//! What the description says of practice: its operations and their schemas, with examples that are
//! the service's own answers.

use super::operation::tagged;
use super::parts::{Named, a, json_response, list, of, record, words};
use super::refusals::{NAMED, READS_FIELDS};
use super::service_addresses::operation;
use crate::calculators::{REGISTER, Task};
use crate::fields::Fields;
use crate::practice::{CODES, Checked, MOST_QUESTIONS, TOPICS, TaskNamed, course, good};
use serde_json::{Value, json};

/// What each field of a request is.
fn about(name: &str) -> &'static str {
    match name {
        "calculator" => "The calculator. Where from begins with its address it may be left out.",
        "task" => "The calculators of a task take turns; without calculator and task all do.",
        "topic" => "The calculators of a topic of the course take turns.",
        "level" => {
            "How hard: 1 is one look or one sum, 2 takes several steps, at 3 one has to think first. Mixed if absent. A \
                   question made of an answer has no level."
        }
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

fn schema_of(name: &str) -> Value {
    let whole = json!({"type": "integer", "minimum": 0, "maximum": 9_007_199_254_740_991u64});
    let mut schema = match name {
        "calculator" => of("CalculatorId"),
        "task" => of("TaskWord"),
        "topic" => of("TopicWord"),
        "level" => json!({"type": "integer", "minimum": 1, "maximum": 3}),
        "seed" => json!({"oneOf": [whole, {"type": "string", "pattern": "^[0-9]{1,20}$"}]}),
        "count" => json!({"type": "integer", "minimum": 1, "maximum": MOST_QUESTIONS}),
        "vary" => json!({"type": "boolean"}),
        "answer" => {
            json!({"oneOf": [{"type": "string", "minLength": 1}, of("PracticeAnswer")]})
        }
        _ => json!({"type": "string", "minLength": 1}),
    };
    schema["description"] = json!(about(name));
    schema
}

fn example(name: &str) -> Value {
    let text = good(name).unwrap_or_default();
    match name {
        "seed" | "count" | "level" => json!(text.parse::<u64>().unwrap_or_default()),
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
        Checked::read(&fields(&pairs)).ok().filter(|checked| !checked.marked.slips.is_empty())
    };
    // The seed chooses which result is asked for.
    let found = (1..50).find_map(|seed| ask(seed).map(|checked| (seed, checked)));
    let Some((seed, checked)) = found else { return Default::default() };
    let body = json!({"calculator": CALCULATOR, "seed": seed, "from": from, "answer": answer});
    (body, serde_json::to_value(&checked).unwrap_or_default())
}

/// The operations by address.
pub fn operations() -> Vec<(String, Value)> {
    let says = "Questions for a calculator, a task or all, from a seed or made of an answer. What each of them asks \
                for is answered at /v1/practice/check.";
    let parameter = |name: &str| {
        let mut schema = schema_of(name);
        schema.as_object_mut().map(|schema| schema.shift_remove("description"));
        let mut parameter = json!({"name": name, "in": "query", "description": about(name), "schema": schema});
        // A calculator and a task do not go together, nor do a seed's question and an answer's; a machine needs a shop.
        if ["calculator", "seed", "count"].contains(&name) {
            parameter["example"] = example(name);
        }
        parameter
    };
    let asked =
        ["calculator", "task", "topic", "level", "seed", "count", "from", "vary", "machine"].map(parameter).into();
    let get = operation("practice", "Practice questions", says)
        .parameters(asked)
        .reads(json_response("The questions.", of("Practice")), &[READS_FIELDS, NAMED]);
    let (body, mut response) = marked();
    // What the worked solution is like, an answer shows.
    response["working"] = json!([]);
    let says = "Marks an answer to a question, which is made again from what it was made of. The rounding of a shop is \
                allowed. A wrong answer is told the slip it comes from, where that is seen, and the worked solution.";
    let ok = json!({"description": "The answer, marked.", "content": {"application/json": {
        "schema": of("PracticeMarked"), "example": response }}});
    let content = json!({"application/json": {"schema": of("PracticeCheck"), "example": body}});
    let post =
        operation("practice_check", "Mark an answer", says).body(content).answers(tagged(ok), &[READS_FIELDS, NAMED]);
    let says = "The course: topics in an order that builds, each with its calculators, the levels of their questions, and a \
                question that no sum answers. Questions of a topic are asked for at /v1/practice with topic and level.";
    let mut example = course();
    if let Some(topics) = example["topics"].as_array_mut() {
        topics.truncate(1);
    }
    let ok = json!({"description": "The course.", "content": {"application/json": {
        "schema": of("PracticeCourse"), "example": example }}});
    let topics = operation("practice_course", "The course", says).reads(ok, &[]);
    [
        ("/v1/practice", json!({"get": get})),
        ("/v1/practice/check", json!({"post": post})),
        ("/v1/practice/course", json!({"get": topics})),
    ]
    .map(|(path, item)| (path.to_owned(), item))
    .into()
}

/// The schemas of practice.
pub fn schemas() -> Named {
    let ids: Vec<&str> = REGISTER.iter().map(|entry| entry.id).collect();
    let tasks: Vec<String> = Task::ALL.into_iter().map(TaskNamed::word).collect();
    let codes: Vec<&str> = CODES.iter().map(|(code, _)| *code).collect();
    let about_codes: Vec<String> = CODES.iter().map(|(code, about)| format!("{code}: {about}.")).collect();
    let topics: Vec<&str> = TOPICS.iter().map(|topic| topic.word).collect();
    let question = json!({
        "calculator": a("CalculatorId", "The calculator."),
        "seed": {"type": "integer", "minimum": 0, "description": "The seed of this question alone."},
        "level": {"type": "integer", "minimum": 1, "maximum": 3, "description": "How hard it is; absent where it is made of an answer."},
        "from": words("What it was made of, if it was made of an answer."),
        "vary": {"type": "boolean", "description": "Whether the numbers of that answer were changed."},
        "machine": words("The machine asked for, if one was."),
        "text": words("The question in words."),
        "asks_for": words("The result asked for, as pick names it."),
        "unit": words("The unit asked for; any that measures the same will do. Empty for a count."),
        "right_within": words("How close an answer is wanted, in words."),
        "inputs": {"type": "object", "additionalProperties": {"type": "string"},
                   "description": "The fields of the calculation, each as a query states it."},
    });
    let mut marked = question.clone();
    let more = json!({
        "answered": a("Stated", "The answer as understood."),
        "right": {"type": "boolean", "description": "Whether it is right, rounded as a shop would."},
        "slip": a("PracticeSlip", "What a wrong answer comes from; absent where that is not seen."),
        "second_slip": a("PracticeSlip", "Another slip that gives the same; absent where only one does."),
        "expected": a("Stated", "What is right."),
        "allowed": a("Stated", "How far from it an answer may be, either way."),
        "accepted": words("The answers that count as right, in words."),
        "working": list("Step", "The worked solution, step by step."),
        "notes": list("Remark", "What to know about it."),
        "cautions": list("Remark", "What to beware of."),
        "sources": list("SourceUsed", "The sources used."),
        "trust": a("Trust", "The worst trust of the sources used."),
    });
    if let (Some(all), Value::Object(more)) = (marked.as_object_mut(), more) {
        all.extend(more);
    }
    let checked = ["calculator", "seed", "level", "from", "vary", "machine", "answer"];
    let check: serde_json::Map<String, Value> =
        checked.iter().map(|name| ((*name).to_owned(), schema_of(name))).collect();
    let of_question = ["calculator", "seed", "text", "asks_for", "unit", "right_within", "inputs"];
    let of_marked = [
        &of_question[..],
        &["answered", "right", "expected", "allowed", "accepted", "working", "notes", "cautions", "sources", "trust"],
    ]
    .concat();
    let all = json!({
        "CalculatorId": {"type": "string", "enum": ids, "description": "A calculator by its name, topic/calculator."},
        "TaskWord": {"type": "string", "enum": tasks, "description": "A task, by which the calculators are grouped."},
        "TopicWord": {"type": "string", "enum": topics, "description": "A topic of the course."},
        "PracticeCourse": record("The course.", &["version", "data_version", "topics"], json!({
            "version": words("The version of the service."),
            "data_version": words("The version of the tables."),
            "topics": list("PracticeTopic", "The topics, each resting on those before it.") })),
        "PracticeTopic": record("A topic of the course.", &["topic", "title", "about", "calculators", "why"], json!({
            "topic": a("TopicWord", "Its word, for the field topic."),
            "title": words("Its title."),
            "about": words("What one can do after it."),
            "calculators": list("PracticeCalculator", "The calculators it uses."),
            "why": a("PracticeWhy", "A question that no sum answers.") })),
        "PracticeCalculator": record("A calculator of a topic.", &["calculator", "title", "levels"], json!({
            "calculator": a("CalculatorId", "The calculator."),
            "title": words("Its title."),
            "levels": {"type": "array", "items": {"type": "integer", "minimum": 1, "maximum": 3},
                       "description": "The levels of its questions."} })),
        "PracticeWhy": record("A question that no sum answers.", &["question", "answer"], json!({
            "question": words("The question."), "answer": words("Its answer.") })),
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
    all.into_iter().collect()
}
