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
mod home;
pub mod practice;
pub mod problem;
pub mod reference;
mod result;
mod search;
pub mod shell;
mod stated;
mod tables;

use crate::asking::{self, Body, Described, Form, describe_entry};
use crate::calculators::Entry;
use crate::drawing::Stands;
use crate::refusal::{Code, Refusal};
use field::Filled;
pub use home::{list, missing};
use maud::{Markup, PreEscaped, html};
use stated::Stated;

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
