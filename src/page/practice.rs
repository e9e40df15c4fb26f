//! The pages of practice: where to start, a question with a place for the answer, the marked answer with
//! the worked solution, and sheets to print. All of it works without a script: an answer is a form
//! whose address holds the seed and the answer.

mod sheet;

pub use sheet::{answers, sheet};

use super::{assets, shell};
use crate::asking::{self, Form};
use crate::calculators::{REGISTER, Task};
use crate::drawing::Stands;
use crate::fields::Fields;
use crate::practice::{Checked, Question, TaskNamed, allowed_words, name_of, next_seed};
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

/// Where to start: a calculator or a task, one question or a sheet; and what was wrong with what was asked.
pub fn start(refusal: &Refusal) -> String {
    let tasks: Vec<Task> =
        Task::ALL.into_iter().filter(|task| REGISTER.iter().any(|entry| entry.task == *task)).collect();
    let body = html! {
        nav { a href="/" { "All calculators" } }
        h1 { "Practice" }
        (wrongs(refusal))
        p {
            "Questions with the numbers of a shop, marked with the rounding a shop allows, with the worked solution. \
             A wrong answer is told what it comes from, where that can be seen. Nothing about you is kept: question \
             and answer stand in the address."
        }
        section {
            h2 { "One question" }
            form method="get" action="/practice" {
                div.field {
                    label for="practice-calculator" { "Calculator" }
                    (calculators("practice-calculator", &tasks, false))
                }
                p { button type="submit" { "Ask me" } }
            }
            p { "Or a question of a task:" }
            ul { @for task in &tasks {
                li { a href=(address("/practice", [("task", TaskNamed::word(*task))])) { (task.words()) } }
            } }
        }
        section {
            h2 { "A sheet to print" }
            form method="get" action="/practice/sheet" {
                div.field {
                    label for="sheet-calculator" { "Calculator" }
                    (calculators("sheet-calculator", &tasks, true))
                }
                div.field {
                    label for="sheet-task" { "or task" }
                    select id="sheet-task" name="task" {
                        option value="" { "not stated" }
                        @for task in &tasks { option value=(TaskNamed::word(*task)) { (task.words()) } }
                    }
                }
                div.field {
                    label for="sheet-count" { "Questions" }
                    input id="sheet-count" name="count" value="10" inputmode="numeric" autocomplete="off";
                }
                div.field {
                    label for="sheet-seed" { "Seed" }
                    input id="sheet-seed" name="seed" value="" inputmode="numeric" autocomplete="off"
                        aria-describedby="sheet-seed-about";
                    p.about id="sheet-seed-about" {
                        "The same seed makes the same sheet again. Left empty, one is chosen and stands on the sheet."
                    }
                }
                p { button type="submit" { "Make the sheet" } }
            }
        }
    };
    page("Practice", body)
}

fn calculators(id: &str, tasks: &[Task], or_none: bool) -> Markup {
    html! {
        select id=(id) name="calculator" {
            @if or_none { option value="" { "not stated: all take turns" } }
            @for task in tasks {
                optgroup label=(task.words()) {
                    @for entry in REGISTER.iter().filter(|entry| entry.task == *task) {
                        option value=(entry.id) { (entry.title) }
                    }
                }
            }
        }
    }
}

/// A question with a place for the answer; an answer that could not be read stands in it again.
pub fn question(question: &Question, answer: Option<&str>, refusal: &Refusal) -> String {
    let body = html! {
        nav { a href="/practice" { "Practice" } }
        h1 { (question.recipe.entry.title) }
        (asked(question, answer, refusal))
        (onward(question))
    };
    page("A question", body)
}

fn asked(question: &Question, answer: Option<&str>, refusal: &Refusal) -> Markup {
    html! {
        p.question { (question.text) }
        form method="get" action="/practice" {
            @for (name, value) in question.recipe_fields() { input type="hidden" name=(name) value=(value); }
            div.field {
                label for="answer" { "Your answer, with its unit" }
                input id="answer" name="answer" value=(answer.unwrap_or_default()) autocomplete="off" autocapitalize="off"
                    spellcheck="false" required aria-describedby="answer-about"
                    aria-invalid=[(!refusal.0.is_empty()).then_some("true")];
                (wrongs(refusal))
                p.about id="answer-about" {
                    "Such as " (format!("12.3 {}", question.wanted.quantity.unit.row().ascii))
                    "; any unit that measures it will do. Round as you would in the shop."
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
    html! {
        ul.screen {
            li { a href=(address("/practice", next)) { @if is_linked { "The same with other numbers" } @else { "Another question" } } }
            li { a href=(address("/practice/sheet", sheet)) { "A sheet of ten like it" } }
        }
    }
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
                p { "You answered " b { (said(checked)) } "." }
                @if let Some(slip) = &marked.slip { p.slip { (slip.says) } }
                (asked(question, None, &Refusal::default()))
                details { summary { "Show the answer and how it is worked out" } (solution(checked)) }
            }
        }
        (cautions([question]))
        (onward(question))
    };
    page(if marked.right { "Right" } else { "Not right" }, body)
}

fn said(checked: &Checked) -> String {
    let answered = &checked.marked.answered;
    format!("{}{}", text::full(answered.value), answered.unit.row().suffix)
}

/// What is right and how it is worked out.
fn solution(checked: &Checked) -> Markup {
    let Checked { question, marked } = checked;
    let expected = question.wanted.quantity;
    let allowed = allowed_words(marked.allowed, &expected);
    let fields = question.fields.iter().map(|(name, value)| (name.as_str(), value.clone()));
    html! {
        p {
            "You answered " b { (said(checked)) } "; the " (name_of(&question.wanted.path)) " is " b { (expected.text()) }
            ". Up to " (allowed["text"].as_str().unwrap_or_default()) " from it counts as right."
        }
        h2 { "Worked solution" }
        (drawing(question))
        (working(question))
        p { a href=(address(&format!("/{}", question.recipe.entry.id), fields)) { "The calculator with these numbers" } }
    }
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
    let steps = question
        .answer
        .record
        .steps
        .iter()
        .map(|step| serde_json::to_value(StepIn(step, question.answer.system)).unwrap_or_default());
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
                @if let Some(with) = step["with"].as_str().filter(|with| !with.is_empty()) { (with.replace('_', " ")) br; }
                "gives " b { (given(&step["gives"])) }
            }
        } }
    }
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
