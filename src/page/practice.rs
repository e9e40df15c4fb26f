//! The pages of practice: the course, a question with a place for the answer, the marked answer with
//! the worked solution, and sheets to print. All of it works without a script: an answer is a form
//! whose address holds the seed and the answer.

mod course;
mod sheet;

pub use course::start;
pub use sheet::{answers, sheet};

use super::{assets, shell};
use crate::asking::{self, Form};
use crate::declared::{in_sentence, label_of};
use crate::drawing::Stands;
use crate::fields::Fields;
use crate::json::ToJson;
use crate::practice::{Checked, Question, Topic, accepted, next_seed, said_node};
use crate::quantity::text;
use crate::refusal::Refusal;
use crate::working::StepIn;
use maud::{Markup, PreEscaped, html};
use std::collections::BTreeMap;

fn page(title: &str, body: Markup) -> String {
    shell::page(title, html! { link rel="stylesheet" href=(assets::practice_style()); (body) })
}

/// An address of practice with its query.
fn address<'f>(path: &str, fields: impl IntoIterator<Item = (&'f str, String)>) -> String {
    let query = form_urlencoded::Serializer::new(String::new()).extend_pairs(fields).finish();
    if query.is_empty() { path.to_owned() } else { format!("{path}?{query}") }
}

fn wrongs(refusal: &Refusal) -> Markup {
    html! {
        @for wrong in &refusal.0 {
            p.wrong role="alert" {
                (wrong.says)
                @if let Some(value) = &wrong.try_this { " Try " b { (value) } "." }
            }
        }
    }
}

/// A question with a place for the answer; an answer that could not be read stands in it again.
pub fn question(question: &Question, answer: Option<&str>, refusal: &Refusal) -> String {
    let body = html! {
        nav { a href="/practice" { "Practice" } }
        h1 { (question.recipe.entry.title) }
        (level(question))
        (asked(question, answer, refusal))
        (onward(question))
    };
    page("A question", body)
}

fn level(question: &Question) -> Markup {
    html! { @if let Some(level) = question.recipe.level { p.about { "Level " (level) } } }
}

fn asked(question: &Question, answer: Option<&str>, refusal: &Refusal) -> Markup {
    html! {
        p.question { (question.text) }
        form method="get" action="/practice" {
            @for (name, value) in question.recipe_fields() { input type="hidden" name=(name) value=(value); }
            div.field {
                label for="answer" {
                    @if question.wanted.amount.quantity().is_some() { "Your answer, with its unit" } @else { "Your answer" }
                }
                input id="answer" name="answer" value=(answer.unwrap_or_default()) autocomplete="off" autocapitalize="off"
                    spellcheck="false" required aria-describedby="answer-about"
                    aria-invalid=[(!refusal.0.is_empty()).then_some("true")];
                (wrongs(refusal))
                p.about id="answer-about" {
                    @match question.wanted.amount.quantity() {
                        Some(right) => { "Such as " (format!("12.3 {}", right.unit.row().ascii)) "; any unit that measures it will do. "
                            @if question.wanted.drill.is_some() { "So will the drill's name. " }
                        }
                        None => { "A whole number. " }
                    }
                    "Right " (question.closeness().words(&question.wanted.amount)) "."
                }
            }
            p { button type="submit" { "Mark it" } }
        }
    }
}

/// Where to go from a question.
fn onward(question: &Question) -> Markup {
    let mut next = question.recipe_fields();
    let is_linked = question.recipe.from.is_some();
    for (name, value) in &mut next {
        if *name == "seed" {
            *value = next_seed(question.recipe.seed).to_string();
        }
    }
    if is_linked && !question.recipe.vary {
        next.push(("vary", "true".to_owned()));
    }
    let mut sheet = next.clone();
    sheet.push(("count", "10".to_owned()));
    let topic = Topic::of(question.recipe.entry).filter(|_| !is_linked);
    html! {
        ul.screen {
            @if let Some(topic) = topic {
                li {
                    a href=(address("/practice", of_topic(topic, question.recipe.level))) {
                        "Another question of this topic: " (in_sentence(topic.title))
                    }
                }
            }
            li { a href=(address("/practice", next)) { @if is_linked { "The same with other numbers" } @else { "Another question of this calculator" } } }
            li { a href=(address("/practice/sheet", sheet)) { "A sheet of ten like it" } }
        }
    }
}

fn of_topic(topic: &Topic, level: Option<u8>) -> Vec<(&'static str, String)> {
    let topic = [("topic", topic.word.to_owned())];
    topic.into_iter().chain(level.map(|level| ("level", level.to_string()))).collect()
}

/// A marked answer with the worked solution.
pub fn marked(checked: &Checked) -> String {
    let Checked { question, marked } = checked;
    let entry = question.recipe.entry;
    let body = html! {
        nav { a href="/practice" { "Practice" } }
        h1 { (entry.title) }
        section {
            @if marked.right {
                p.verdict role="status" { "Right." }
                p.question { (question.text) }
                (solution(checked))
            } @else {
                p.verdict role="status" { "Not right." }
                p { "You answered " b { (marked.answered.said) } "." }
                @for (at, slip) in marked.slips.iter().enumerate() {
                    p.slip { @if at > 0 { "Or else: " } (slip.says) }
                }
                (asked(question, None, &Refusal::default()))
                details { summary { "Show the answer and how it is worked out" } (solution(checked)) }
            }
        }
        (cautions([question]))
        (onward(question))
    };
    page(if marked.right { "Right" } else { "Not right" }, body)
}

/// What is right and how it is worked out.
fn solution(checked: &Checked) -> Markup {
    let Checked { question, marked } = checked;
    let expected = question.wanted.amount;
    let fields = question.fields.iter().map(|(name, value)| (name.as_str(), value.clone()));
    html! {
        p {
            "You answered " b { (marked.answered.said) } "; the " (question.asked_for()) " is " b { (right(question)) } "."
        }
        p { "Right is " (accepted(&expected, question.room())) "." }
        h2 { "Worked solution" }
        (drawing(question))
        (taken(question))
        (working(question))
        p { a href=(address(&format!("/{}", question.recipe.entry.id), fields)) { "The calculator with these numbers" } }
    }
}

/// What is right, by its name too where it has one.
fn right(question: &Question) -> String {
    let text = question.wanted.amount.text();
    match question.wanted.drill.filter(|drill| !drill.name.ends_with("mm")) {
        Some(drill) => format!("{text} ({})", drill.name),
        None => text,
    }
}

/// All that was assumed.
fn taken(question: &Question) -> Markup {
    let members = question.recipe.entry.input.members;
    let assumed = question.answer.record.assumed.iter().filter(|assumed| assumed.field != "units");
    let taken: Vec<String> = assumed
        .filter_map(|assumed| {
            Some(format!("{} {}", in_sentence(&label_of(members, assumed.field)), said_node(&assumed.value)?))
        })
        .collect();
    html! { @if !taken.is_empty() { p { "Taken: " (taken.join("; ")) "." } } }
}

fn drawing(question: &Question) -> Markup {
    let fields = question.fields.iter().map(|(name, value)| (name.as_str(), value.as_str()));
    match asking::drawing(question.recipe.entry, Fields::of_texts(fields), Form::Json, Stands::InPage) {
        Some(Ok(svg)) => html! { figure.drawing { (PreEscaped(svg)) } },
        Some(Err(refusal)) if refusal.is_of_time() => html! { p.wrong { "No drawing: " (refusal.words()) } },
        _ => html! {},
    }
}

/// The steps of the worked solution.
fn working(question: &Question) -> Markup {
    let steps = question.steps().into_iter().map(|step| StepIn(step, question.answer.system).value());
    let given = |gives: &serde_json::Value| match (gives["text"].as_str(), gives["value"].as_f64()) {
        (Some(text), _) => text.to_owned(),
        (None, Some(value)) => text::full(value),
        _ => {
            let numbers = gives["values"].as_array().into_iter().flatten().filter_map(serde_json::Value::as_f64);
            let words = gives["texts"].as_array().into_iter().flatten().filter_map(|word| word.as_str());
            let parts: Vec<String> =
                numbers.map(|number| text::full(text::round(number, 6))).chain(words.map(str::to_owned)).collect();
            format!("{} {}", parts.join(", "), gives["unit"].as_str().unwrap_or_default())
        }
    };
    html! {
        ol { @for step in steps {
            li {
                (step["what"].as_str().unwrap_or_default()) br;
                (step["formula"].as_str().unwrap_or_default()) br;
                @if let Some(with) = step["with"].as_str().filter(|with| !with.is_empty()) { (short(&with.replace('_', " "))) br; }
                "gives " b { (given(&step["gives"])) }
            }
        } }
    }
}

/// The numbers of a text with no more decimals than can be followed on paper.
fn short(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for part in text.split_inclusive(|c: char| !c.is_ascii_digit() && c != '.') {
        let number = part.trim_end_matches(|c: char| !c.is_ascii_digit());
        let decimals = number.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        match number.parse::<f64>().ok().filter(|_| decimals > 6) {
            Some(value) => {
                let places = if value < 0.01 { 8 } else { 6 };
                out.push_str(&text::full(text::round(value, places)));
                out.push_str(&part[number.len()..]);
            }
            None => out.push_str(part),
        }
    }
    out
}

/// What to beware of where the sums are used at a machine, each once.
fn cautions<'q>(questions: impl IntoIterator<Item = &'q Question>) -> Markup {
    let mut all: BTreeMap<&str, String> = BTreeMap::new();
    for question in questions {
        for caution in &question.answer.record.cautions {
            all.entry(caution.code).or_insert_with(|| caution.says.to_string());
        }
    }
    html! {
        @if !all.is_empty() {
            section { h2 { "Take care" } ul { @for says in all.values() { li { (says) } } } }
        }
    }
}
