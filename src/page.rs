//! The pages: the calculators by task, a form for each and its answer as a page of a handbook, drawn on the
//! server from the register, so that a new calculator appears without an edit here. They work without the
//! script; with it they answer as one types.

pub mod assets;
mod card;
mod control;
mod field;
mod form;
mod grounds;
pub mod guide;
pub mod practice;
pub mod problem;
pub mod reference;
mod result;
mod search;
pub mod shell;
mod stated;
mod tables;

use crate::asking::{self, Body, Described, Form, describe_entry, described};
use crate::calculators::{Entry, Task};
use crate::drawing::Stands;
use crate::fields::Fields;
use crate::refusal::{Code, Refusal};
use crate::shop;
use field::Filled;
use maud::{Markup, PreEscaped, html};
use stated::Stated;

/// The list of calculators, grouped by task, or those that the words in a query find.
pub fn list(query: &str) -> String {
    let words = Fields::of_query(query).and_then(|mut fields| fields.take("find")).map(|find| find.said());
    let words = words.map(|words| words.trim().to_owned()).filter(|words| !words.is_empty());
    let body = html! {
        h1 { (shell::NAME) }
        p.about-all {
            "The sums of a machine shop, checked and with their sources"
            @if let Some(shop) = shop::installed() { ", for the machines of " (shop.name) }
            "."
        }
        form #find role="search" action="/" method="get" {
            label for="words" { "Find" }
            div.entry {
                input #words name="find" type="search" value=(words.as_deref().unwrap_or_default()) autocomplete="off"
                    autocapitalize="off" spellcheck="false" placeholder="drill tip, PCD, three wires …";
                button type="submit" { "Find" }
            }
        }
        div #list {
            @match &words {
                Some(words) => (found(words)),
                None => (by_task()),
            }
        }
    };
    shell::page(shell::NAME, body)
}

fn by_task() -> Markup {
    let tasks: Vec<(&Task, Vec<&Described>)> = Task::ALL
        .iter()
        .map(|task| {
            (task, described().iter().copied().filter(|described| described.entry.task == *task).collect::<Vec<_>>())
        })
        .filter(|(_, of_task)| !of_task.is_empty())
        .collect();
    let anchor = |task: &Task| task.words().to_lowercase().replace(' ', "-");
    html! {
        // Filled by the script from what is kept on this device alone.
        div #own hidden {}
        nav.tasks aria-label="Tasks" {
            @for (task, _) in &tasks { a href=(format!("#{}", anchor(task))) { (task.words()) } " " }
        }
        @for (task, calculators) in &tasks {
            section {
                h2 id=(anchor(task)) { (task.words()) }
                (titles(calculators))
            }
        }
    }
}

fn titles(calculators: &[&Described]) -> Markup {
    html! {
        ul.titles {
            @for described in calculators {
                li {
                    a href=(format!("/{}", described.entry.id)) { (described.entry.title) }
                    p { (described.entry.about) }
                }
            }
        }
    }
}

fn found(words: &str) -> Markup {
    let found = search::found(words);
    html! {
        section {
            h2 { "Found for “" (crate::quantity::shown(words)) "”" }
            @if found.is_empty() { p { "Nothing answers to these words." } } @else { (titles(&found)) }
        }
        p { a.tap href="/" { "All calculators" } }
    }
}

/// The page for an address that has no calculator.
pub fn missing(id: &str) -> String {
    let name = id.rsplit('/').next().unwrap_or(id).replace('-', " ");
    let near = search::found(&name);
    let body = html! {
        h1 { "No such calculator" }
        p { "There is no calculator " (crate::quantity::shown(id)) "." }
        @if !near.is_empty() { section { h2 { "Near it" } (titles(&near)) } }
        p { a.tap href="/" { "All calculators" } }
    };
    shell::page("No such calculator", body)
}

/// The page that a device shows for one it has not kept, while the service cannot be reached.
pub fn offline() -> String {
    let body = html! {
        h1 { "Not connected" }
        p { "The service cannot be reached, so nothing can be worked out now, and this page was not kept on this device." }
        p { "What was opened before is kept and can be read:" }
        ul.titles #kept-pages {}
        p { a.tap href="/" { "All calculators" } }
    };
    shell::page("Not connected", body)
}

/// A calculator's page filled from a query, and whether the query could be answered. Refused where the time was up,
/// which says nothing of the fields.
pub fn form(entry: &'static Entry, query: &str) -> Result<(String, bool), Refusal> {
    let Some(described) = describe_entry(entry) else { return Ok((missing(entry.id), false)) };
    let stated = Stated::of_query(described, query);
    let outcome = (!stated.is_empty()).then(|| asking::ask(entry, stated.fields.clone(), Form::Json));
    let refusal = match &outcome {
        Some(Err(refusal)) if refusal.is_of_time() => return Err(refusal.clone()),
        Some(Err(refusal)) => refusal.clone(),
        _ => Refusal::default(),
    };
    let sound = refusal.0.is_empty() && !stated.broken;
    let filled = Filled { entry, stated: &stated, refusal: &refusal };
    let answer = outcome.as_ref().and_then(|outcome| outcome.as_ref().ok()).map(|(answer, _)| answer);
    // The form comes first for whoever hears or tabs through the page; a phone shows the answer above it.
    let body = html! {
        article.calculator {
            div.title {
                h1 { (entry.title) }
                (about(entry))
                @if stated.broken { p.wrong { "The address is not well percent-encoded; the form below is empty." } }
            }
            (form::form(described, &filled))
            div.sheet {
                div #answer tabindex="-1" {
                    @match &outcome {
                        Some(Ok((answer, _))) => (card::card(answer, &filled)),
                        Some(Err(refusal)) => (unanswered(entry, refusal)),
                        None => (awaited(described)),
                    }
                }
                div #rest {
                    (given(entry, &stated))
                    @if let Some(answer) = answer { (result::rest(answer, drawing(entry, &stated, &answer.body), &filled)) }
                }
                div #grounds {
                    @if let Some(answer) = answer { (grounds::grounds(answer, &filled)) }
                    (result::practice(answer, &filled))
                }
                div.last { (examples(entry)) }
            }
        }
    };
    let query = stated.query(&[]);
    let address = if query.is_empty() { format!("/{}", entry.id) } else { format!("/{}?{query}", entry.id) };
    Ok((shell::page_at(entry.title, Some(&address), body), sound))
}

/// What a calculator does: on a phone the first part of the sentence, to be opened.
fn about(entry: &Entry) -> Markup {
    // A part that says something; a list's first words would not.
    let ends = entry.about.match_indices([',', ':', ';']).map(|(at, _)| at).find(|at| *at >= 24);
    html! {
        p.about-all { (entry.about) }
        @match ends {
            Some(end) => details.about-short { summary { (&entry.about[..end]) " …" } p { (entry.about) } },
            None => p.about-short { (entry.about) },
        }
    }
}

/// In place of an answer before anything is asked: what it takes.
fn awaited(described: &Described) -> Markup {
    let needed: Vec<&str> = described.fields.iter().filter(|field| field.required).map(|field| field.label).collect();
    html! {
        section.unanswered {
            p { @if needed.is_empty() { "The answer stands here." } @else { "Needed: " b { (needed.join(", ")) } "." } }
        }
    }
}

/// What is stated, for a sheet of paper, on which a form makes no sense.
fn given(entry: &Entry, stated: &Stated) -> Markup {
    let given = field::given(entry, &stated.fields);
    html! {
        @if !given.is_empty() {
            section.given {
                h2 { "Given" }
                table { tbody { @for (name, value) in given { tr { th scope="row" { (name) } td { (value) } } } } }
                p { "/" (entry.id) "?" (stated.query(&[])) }
            }
        }
    }
}

/// In place of an answer: what is still needed, or that something is wrong above.
fn unanswered(entry: &Entry, refusal: &Refusal) -> Markup {
    let missing: Vec<String> = refusal
        .0
        .iter()
        .filter(|wrong| wrong.code == Code::FieldMissing)
        .map(|wrong| field::label(entry, field::field_of(wrong)))
        .collect();
    html! {
        section.unanswered {
            @if missing.len() == refusal.0.len() && !missing.is_empty() {
                p { "Still needed: " b { (missing.join(", ")) } "." }
            } @else {
                p.wrong { "No answer yet. What is wrong stands at its field." }
            }
        }
    }
}

/// The drawing of the answer, with the address it has by itself.
fn drawing(entry: &'static Entry, stated: &Stated, body: &Body) -> Markup {
    // A table of answers has no one drawing.
    if !matches!(body, Body::Result(_)) {
        return html! {};
    }
    let svg = match asking::drawing(entry, stated.fields.clone(), Form::Json, Stands::InPage) {
        Some(Ok(svg)) => svg,
        Some(Err(refusal)) if refusal.is_of_time() => return html! { p.wrong { "No drawing: " (refusal.words()) } },
        _ => return html! {},
    };
    html! {
        figure.drawing {
            (PreEscaped(svg))
            figcaption {
                a href=(format!("/v1/{}.svg?{}", entry.id, stated.query_for(Form::Drawing))) { "The drawing by itself" }
            }
        }
    }
}

fn examples(entry: &Entry) -> Markup {
    html! {
        section.examples {
            h2 { "Examples" }
            ul {
                @for example in entry.examples {
                    @let pairs = example.fields.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned()));
                    li { a href=(format!("/{}?{}#answer", entry.id, stated::query(pairs))) { (example.says) } }
                }
            }
        }
    }
}
