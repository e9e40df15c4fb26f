//! Sheets to print: the questions, and the answers to them.

use super::{address, cautions, page, working};
use crate::practice::{Asked, Question, TaskNamed, allowed_words, name_of};
use maud::html;

/// The fields of a sheet, for the address of its other half.
fn sheet_fields(asked: &Asked) -> Vec<(&'static str, String)> {
    let mut fields = Vec::new();
    if let Some(calculator) = &asked.calculator {
        fields.push(("calculator", calculator.clone()));
    }
    if let Some(task) = asked.task {
        fields.push(("task", TaskNamed::word(task.0)));
    }
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
    match (asked.task, questions.first()) {
        (Some(task), _) => task.0.words().to_owned(),
        (None, Some(first)) if asked.calculator.is_some() || asked.from.is_some() => {
            first.recipe.entry.title.to_owned()
        }
        _ => "All calculators".to_owned(),
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
        p { "Seed " (asked.seed()) ". " (questions.len()) " questions. Say the unit with each answer. Name:" }
        ol.sheet { @for question in questions { li { (question.text) span.blank { "Answer:" } } } }
    };
    page("Practice sheet", body)
}

/// The answers to a sheet.
pub fn answers(asked: &Asked, questions: &[Question]) -> String {
    let body = html! {
        nav.screen {
            a href="/practice" { "Practice" } " "
            a href=(address("/practice/sheet", sheet_fields(asked))) { "The questions" }
        }
        h1 { "Answers: " (subject(asked, questions)) }
        p { "Seed " (asked.seed()) ". Beside each, how far an answer may be off." }
        ol.answers { @for question in questions {
            @let expected = question.wanted.quantity;
            @let allowed = allowed_words(question.allowed(), &expected);
            li {
                (name_of(&question.wanted.path)) ": " b { (expected.text()) }
                " " (allowed["text"].as_str().unwrap_or_default()) " "
                a.screen href=(address("/practice", question.recipe_fields())) { "this question alone" }
                details { summary { "Worked solution" } (working(question)) }
            }
        } }
        (cautions(questions))
        p { "Practice only: at the machine the tool maker's data, the machine's manual and qualified people come first." }
    };
    page("Answers to a practice sheet", body)
}
