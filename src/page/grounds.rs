//! What an answer rests on: the working line by line, what the calculator is checked against, another way
//! to check the part, and the sources with how far each can be trusted.

use super::field::{Filled, in_words};
use crate::asking::Answer;
use crate::declared::label;
use crate::json::ToJson;
use crate::quantity::text;
use crate::verification;
use crate::working::{Step, StepIn};
use maud::{Markup, html};
use serde_json::Value;

/// The working and the sources of an answer.
pub fn grounds(answer: &Answer, filled: &Filled) -> Markup {
    let record = &answer.record;
    html! {
        @if !record.steps.is_empty() {
            details.ground.working open {
                summary { h2 { "Working" } }
                ol { @for step in &record.steps { (line(step, answer)) } }
            }
        }
        @if !answer.entry.another_check.is_empty() {
            section.another {
                h2 { "Check it another way" }
                p { (answer.entry.another_check) }
                p.hint {
                    "Measured something else? State it under "
                    a href="#field-measured" data-open="measured" { "Backwards" }
                    ", and see what an input must have been."
                }
            }
        }
        (checked(filled.entry.id))
        details.ground.sources #sources open {
            summary { h2 { "Sources" } }
            p { "Trust in this answer: " b { (record.trust().as_str()) } "." }
            ul { @for used in &record.sources {
                li { (used.source.title) ", " (used.place) " " span.trust { "(" (used.trust.as_str()) ")" } }
            } }
        }
    }
}

fn line(step: &Step, answer: &Answer) -> Markup {
    let step = StepIn(step, answer.system).value();
    let part = |name: &str| step[name].as_str().unwrap_or_default().to_owned();
    let with = part("with");
    let gives = given(&step["gives"]);
    html! {
        li {
            span.what { (in_words(&part("what"), answer.entry)) }
            " " div.how {
                @if !part("formula").is_empty() { span.formula { (part("formula")) } " " }
                @if !with.is_empty() { ul.with { @for symbol in with.split("; ") { li { (in_words(symbol, answer.entry)) } } } }
            }
            @if !gives.is_empty() { " " span.gives { (step["gives"]["field"].as_str().map_or_else(|| "Gives".to_owned(), |field| label(answer.entry.output.members, field))) " = " b { (in_words(&gives, answer.entry)) } } }
        }
    }
}

/// What a step gives, in words.
fn given(gives: &Value) -> String {
    let unit = gives["unit"].as_str().unwrap_or_default();
    if let Some(text) = gives["text"].as_str() {
        return text.to_owned();
    }
    if let Some(value) = gives["value"].as_f64() {
        return text::full(value);
    }
    if let Some(texts) = gives["texts"].as_array() {
        return texts.iter().filter_map(Value::as_str).collect::<Vec<_>>().join(", ");
    }
    let Some(values) = gives["values"].as_array() else { return String::new() };
    let values: Vec<String> =
        values.iter().filter_map(Value::as_f64).map(|value| text::full(text::round(value, 5))).collect();
    format!("{} {unit}", values.join(", ")).trim_end().to_owned()
}

/// What the calculator is checked against, by source.
fn checked(id: &str) -> Markup {
    let Some(checked) = verification::of(id) else { return html! {} };
    html! {
        details.ground.checked open {
            summary { h2 { "Checked against" } }
            p {
                "Tests compare this calculator with every value below; " (checked.outside())
                " of them come from outside, printed or from a general-purpose library."
            }
            ul { @for source in checked.by_source() {
                li { (source.count) " " (source.kind) ": " (source.title) }
            } }
            p.hint { a href=(format!("/v1/verification/{id}")) { "Every value, with its place in the source" } }
        }
    }
}
