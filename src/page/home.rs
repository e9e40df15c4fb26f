//! The first page: the search that answers, what is kept on the device, and the calculators by task; and the pages for
//! what is not there.

mod answers;

use super::search::{self, Found, Question};
use super::{assets, shell};
use crate::asking::{Described, described};
use crate::calculators::Task;
use crate::fields::Fields;
use crate::quantity::shown;
use crate::shop;
use form_urlencoded::byte_serialize;
use maud::{Markup, html};

/// What to type, for who has not yet: one of each sort.
const TO_TRY: [&str; 7] = ["M8", "1/4-20", "#7", "27/64", "1/2 hss 1018", "6 holes 4 in", "25.4 mm in inch"];

/// The first page, or what is found for the words in a query.
pub fn list(query: &str) -> String {
    let words = Fields::of_query(query).and_then(|mut fields| fields.take("find")).map(|find| find.said());
    let words = words.map(|words| words.trim().to_owned()).filter(|words| !words.is_empty());
    let body = html! {
        link rel="stylesheet" href=(assets::home_style());
        h1 { (shell::NAME) }
        p.about-all {
            "The sums of a machine shop, checked and with their sources"
            @if let Some(shop) = shop::installed() { ", for the machines of " (shop.name) }
            "."
        }
        form #find role="search" action="/" method="get" {
            label for="words" { "Find, or type and see" }
            div.entry {
                input #words name="find" type="search" value=(words.as_deref().unwrap_or_default()) autocomplete="off"
                    autocapitalize="off" spellcheck="false" enterkeyhint="search" aria-describedby="heard"
                    placeholder="M8, #7, 1/2 hss 1018 …";
                button type="submit" { "Find" }
            }
            // What the script found, in one sentence, for who listens.
            p #heard.away role="status" aria-live="polite" {}
        }
        div #list {
            @match &words {
                Some(words) => (found(words)),
                None => (by_task()),
            }
        }
        script src=(assets::search_script()) defer {}
    };
    shell::page(shell::NAME, body)
}

fn by_task() -> Markup {
    let of_task = |task: &Task| -> Vec<&Described> {
        described().iter().copied().filter(|described| described.entry.task == *task).collect()
    };
    let anchor = |task: &Task| task.words().to_lowercase().replace(' ', "-");
    html! {
        // Filled by the script from what is kept on this device alone.
        div #own hidden {}
        div.by-task {
            label.describe { input #describe type="checkbox"; " Say what each does" }
            @for (task, calculators) in Task::ALL.iter().map(|task| (task, of_task(task))) {
                @if !calculators.is_empty() {
                    details.task id=(anchor(task)) {
                        summary { h2 { (task.words()) } " " span.count { (calculators.len()) } }
                        (titles(&calculators))
                    }
                }
            }
        }
    }
}

fn titles(calculators: &[&Described]) -> Markup {
    html! {
        ul.titles {
            @for described in calculators {
                li {
                    a href=(format!("/{}", described.entry.id)) title=(described.entry.about) { (described.entry.title) }
                    p { (described.entry.about) }
                }
            }
        }
    }
}

fn found(words: &str) -> Markup {
    let found = search::look(words);
    html! {
        section.found data-said=(answers::in_one_sentence(&found)) {
            h2 { "Found for “" (shown(words)) "”" }
            @for question in &found.questions { (asked(question)) }
            (answers::answers(&found))
            @if !found.nearest.is_empty() {
                p { "There is no calculator for “" (shown(words)) "”. Nearest:" }
                (titles(&found.nearest))
            }
            @if !found.by_words.is_empty() { (titles(&found.by_words)) }
            @if found.is_empty() { (nothing(&found)) }
        }
        p { a.tap href="/" { "All calculators" } }
    }
}

/// What is open, with ways to say it.
fn asked(question: &Question) -> Markup {
    html! {
        p.open-question { (question.says) }
        @if !question.ways.is_empty() {
            p.try { @for (says, whole) in &question.ways { (way(says, whole)) " " } }
        }
    }
}

fn way(says: &str, whole: &str) -> Markup {
    let whole: String = byte_serialize(whole.as_bytes()).collect();
    html! { a.tap href=(format!("/?find={whole}")) { (says) } }
}

/// Nothing was found: what can be typed.
fn nothing(found: &Found) -> Markup {
    html! {
        @if found.questions.is_empty() { p { "Nothing found." } }
        p { "Try a thread, a drill, a tool and its work, a size to convert, or a word such as rpm, vise or edge finder:" }
        p.try { @for phrase in TO_TRY { (way(phrase, phrase)) " " } }
    }
}

/// The page for an address that has no calculator.
pub fn missing(id: &str) -> String {
    let name = id.rsplit('/').next().unwrap_or(id).replace('-', " ");
    let near = search::found(&name);
    let body = html! {
        h1 { "No such calculator" }
        p { "There is no calculator " (shown(id)) "." }
        @if !near.is_empty() { section { h2 { "Near it" } (titles(&near)) } }
        p { a.tap href="/" { "All calculators" } }
    };
    shell::page("No such calculator", body)
}
