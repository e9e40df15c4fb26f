//! Sheets to print: the questions, and the answers to them.

use super::{address, cautions, page, right, taken, working};
use crate::practice::{Asked, Question, TaskNamed, accepted};
use maud::{Markup, html};

/// The fields of a sheet, for the address of its other half.
fn sheet_fields(asked: &Asked) -> Vec<(&'static str, String)> {
    let mut fields = Vec::new();
    if let Some(calculator) = &asked.calculator {
        fields.push(("calculator", calculator.clone()));
    }
    if let Some(task) = asked.task {
        fields.push(("task", TaskNamed::word(task.0)));
    }
    fields.extend(asked.topic.map(|topic| ("topic", topic.0.word.to_owned())));
    fields.extend(asked.level().map(|level| ("level", level.to_string())));
    fields.push(("seed", asked.seed().to_string()));
    if let Some(count) = asked.count {
        fields.push(("count", count.get().to_string()));
    }
    if let Some(from) = &asked.from {
        fields.push(("from", from.clone()));
    }
    if let Some(vary) = asked.vary {
        fields.push(("vary", vary.to_string()));
    }
    if let Some(machine) = &asked.machine {
        fields.push(("machine", machine.clone()));
    }
    fields
}

/// What a sheet is of.
fn subject(asked: &Asked, questions: &[Question]) -> String {
    let of = match (asked.task, asked.topic, questions.first()) {
        (Some(task), ..) => task.0.words(),
        (_, Some(topic), _) => topic.0.title,
        (.., Some(first)) if asked.calculator.is_some() || asked.from.is_some() => first.recipe.entry.title,
        _ => "All topics",
    };
    match asked.level() {
        Some(level) => format!("{of}, level {level}"),
        None => of.to_owned(),
    }
}

fn count(questions: &[Question]) -> String {
    format!("{} question{}", questions.len(), if questions.len() == 1 { "" } else { "s" })
}

/// The question of a topic that no sum answers, with what stands below it.
fn why(asked: &Asked, below: impl Fn(&'static str) -> Markup) -> Markup {
    html! {
        @if let Some(topic) = asked.topic {
            section.why { h2 { "And say why" } p { (topic.0.why) } (below(topic.0.because)) }
        }
    }
}

/// A sheet of questions to print.
pub fn sheet(asked: &Asked, questions: &[Question]) -> String {
    let body = html! {
        nav.screen {
            a href="/practice" { "Practice" } " "
            a href=(address("/practice/answers", sheet_fields(asked))) { "The answers to this sheet" }
        }
        h1 { "Practice: " (subject(asked, questions)) }
        p.person {
            span.line { "Name" } span.line { "Date" } span.line.short { "Score" } span { "of " (questions.len()) }
        }
        p { "Seed " (asked.seed()) ". " (count(questions)) ". Write the unit with each answer." }
        ol.sheet { @for question in questions { li {
            p { (question.text) }
            div.room {}
            span.blank { "Answer:" }
        } } }
        (why(asked, |_| html! { div.room {} }))
    };
    page("Practice sheet", body)
}

/// The answers to a sheet, with the solutions unfolded.
pub fn answers(asked: &Asked, questions: &[Question]) -> String {
    let body = html! {
        nav.screen {
            a href="/practice" { "Practice" } " "
            a href=(address("/practice/sheet", sheet_fields(asked))) { "The questions" }
        }
        h1 { "Answers: " (subject(asked, questions)) }
        p { "Seed " (asked.seed()) ". " (count(questions)) ". Beside each answer stands what counts as right." }
        ol.answers { @for question in questions { li {
            p.asked { (question.text) }
            p {
                b { (right(question)) } " (" (accepted(&question.wanted.amount, question.room())) ") "
                a.screen href=(address("/practice", question.recipe_fields())) { "this question alone" }
            }
            details open { summary.screen { "Worked solution" } (taken(question)) (working(question)) }
        } } }
        (why(asked, |because| html! { p { b { (because) } } }))
        (cautions(questions))
        p { "Practice only: at the machine the tool maker's data, the machine's manual and qualified people come first." }
    };
    page("Answers to a practice sheet", body)
}
