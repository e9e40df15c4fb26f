//! The first page of practice: the course, topic by topic, and where to ask for one question or a sheet.

use super::{address, page, wrongs};
use crate::calculators::{REGISTER, Task};
use crate::practice::{TOPICS, Topic, levels};
use crate::refusal::Refusal;
use maud::{Markup, html};

/// The levels, with what each is like.
const LEVELS: [(u8, &str); 3] = [(1, "one look or one sum"), (2, "several steps"), (3, "think first")];

/// The course, one question, a sheet; and what was wrong with what was asked.
pub fn start(refusal: &Refusal) -> String {
    let body = html! {
        nav { a href="/" { "All calculators" } }
        h1 { "Practice" }
        (wrongs(refusal))
        p {
            "Questions as a foreman asks them, marked with the rounding a shop allows, with the worked solution. If you \
             slip, you are told what the slip was, where that can be seen. Nothing about you is kept: question and answer \
             stand in the address."
        }
        section {
            h2 { "The course" }
            p { "Eight topics. Each rests on those before it. Level 1 is one look or one sum, level 2 takes several steps, \
                 and at level 3 you have to think first." }
            ol.course { @for topic in TOPICS { li { (one(topic)) } } }
        }
        section {
            h2 { "One question" }
            form method="get" action="/practice" {
                div.field {
                    label for="practice-calculator" { "Calculator" }
                    (calculators("practice-calculator", false))
                }
                p { button type="submit" { "Ask me" } }
            }
        }
        section { h2 { "A sheet to print" } (sheet_form()) }
    };
    page("Practice", body)
}

/// The levels that a topic has questions of; where exercises are not written yet, examples serve all of them.
fn levels_of(topic: &'static Topic) -> Vec<u8> {
    let has = |level: u8| topic.entries().any(|entry| entry.exercises.is_empty() || levels(entry).contains(&level));
    LEVELS.iter().map(|(level, _)| *level).filter(|level| has(*level)).collect()
}

fn one(topic: &'static Topic) -> Markup {
    let to = |path: &str, level: u8, count: Option<u8>| {
        let fields = [("topic", topic.word.to_owned()), ("level", level.to_string())];
        address(path, fields.into_iter().chain(count.map(|count| ("count", count.to_string()))))
    };
    html! {
        h3 id=(topic.word) { (topic.title) }
        p { (topic.about) }
        p.levels { "A question: " @for level in levels_of(topic) { a href=(to("/practice", level, None)) { "level " (level) } " " } }
        p.levels { "A sheet: " @for level in levels_of(topic) {
            a href=(to("/practice/sheet", level, Some(10))) { "level " (level) } " "
        } }
        details {
            summary { "Calculators, and a question that no sum answers" }
            ul { @for entry in topic.entries() {
                li { a href=(address("/practice", [("calculator", entry.id.to_owned())])) { (entry.title) } }
            } }
            p { b { (topic.why) } }
            details { summary { "The answer" } p { (topic.because) } }
        }
    }
}

fn sheet_form() -> Markup {
    html! {
        form method="get" action="/practice/sheet" {
            div.field {
                label for="sheet-topic" { "Topic" }
                select id="sheet-topic" name="topic" {
                    option value="" { "all topics" }
                    @for topic in TOPICS { option value=(topic.word) { (topic.title) } }
                }
            }
            div.field {
                label for="sheet-calculator" { "or calculator" }
                (calculators("sheet-calculator", true))
            }
            div.field {
                label for="sheet-level" { "Level" }
                select id="sheet-level" name="level" {
                    option value="" { "mixed" }
                    @for (level, like) in LEVELS { option value=(level) { (level) ": " (like) } }
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
}

fn calculators(id: &str, or_none: bool) -> Markup {
    html! {
        select id=(id) name="calculator" {
            @if or_none { option value="" { "none: all of the topic take turns" } }
            @for task in Task::ALL {
                optgroup label=(task.words()) {
                    @for entry in REGISTER.iter().filter(|entry| entry.task == task) {
                        option value=(entry.id) { (entry.title) }
                    }
                }
            }
        }
    }
}
