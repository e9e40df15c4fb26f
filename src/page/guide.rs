//! The guide: one page for each Markdown file beside this one, drawn when first asked for. What the program knows
//! itself, its calculators and its error codes, goes in where a file says `{calculators}` or `{codes}`.

use super::shell;
use crate::calculators::{Entry, REGISTER};
use crate::refusal::Code;
use maud::{PreEscaped, html};
use pulldown_cmark::{CowStr, Event, Options, Parser, Tag, TagEnd};
use std::sync::LazyLock;

macro_rules! files {
    ($($name:literal),* $(,)?) => { &[$(($name, include_str!(concat!("guide/", $name, ".md")))),*] };
}

/// Every page's name and text, in the order of the list.
const FILES: &[(&str, &str)] = files![
    "asking", "calculators", "bench", "quantities", "tolerances", "ranges", "backwards", "tables", "batch", "receipts",
    "readout", "practice", "shop", "settings", "operating", "sources", "limits", "versions", "problems",
];

/// A page of the guide.
#[derive(Debug)]
pub struct Page {
    /// Its name in the address.
    pub name: &'static str,
    title: &'static str,
    /// Its first paragraph, which the list shows too.
    about: &'static str,
    body: String,
}

static PAGES: LazyLock<Vec<Page>> = LazyLock::new(|| FILES.iter().map(|(name, text)| Page::read(name, text)).collect());

/// The address of a page, or of the list.
fn address(name: &str) -> String {
    format!("/guide/{name}")
}

/// Where the guide explains one kind of problem.
pub fn problem_address(kind: &str) -> String {
    format!("/guide/problems#{kind}")
}

/// Every page.
pub fn pages() -> &'static [Page] {
    &PAGES
}

/// The list of the pages.
pub fn list() -> String {
    let body = html! {
        h1 { "Guide" }
        p.about-all { "How to ask Shop Reckoner, what its answers mean, and how to run it." }
        ul.titles {
            @for page in pages() {
                li { a href=(address(page.name)) { (page.title) } p { (page.about) } }
            }
        }
    };
    shell::page("Guide", body)
}

/// The page of that name, if there is one.
pub fn page(name: &str) -> Option<String> {
    let at = pages().iter().position(|page| page.name == name)?;
    let page = &pages()[at];
    let beside = |at: Option<usize>| at.and_then(|at| pages().get(at));
    let body = html! {
        article.guide {
            h1 { (page.title) }
            p.about-all { (page.about) }
            (PreEscaped(&page.body))
        }
        nav aria-label="Guide" {
            h2 { "Guide" }
            @if let Some(next) = beside(Some(at + 1)) { p { "Next: " a href=(address(next.name)) { (next.title) } } }
            @if let Some(last) = beside(at.checked_sub(1)) { p { "Before: " a href=(address(last.name)) { (last.title) } } }
            p { a href="/guide" { "All pages of the guide" } }
        }
    };
    Some(shell::page_at(&format!("{}, guide", page.title), Some(&address(name)), body))
}

impl Page {
    /// Reads a file: its heading, its first paragraph, and the rest.
    fn read(name: &'static str, text: &'static str) -> Self {
        let (title, rest) = text.split_once("\n\n").unwrap_or((text, ""));
        let (about, rest) = rest.split_once("\n\n").unwrap_or((rest, ""));
        let rest = rest.replace("{calculators}\n", &calculators()).replace("{codes}\n", &codes());
        Self { name, title: title.trim_start_matches("# "), about, body: drawn(&rest) }
    }
}

/// The list of calculators.
fn calculators() -> String {
    let one = |entry: &Entry| format!("- [{}](/{1}): {2} `/v1/{1}`\n", entry.title, entry.id, entry.about);
    REGISTER.iter().map(one).collect()
}

/// A section for each error code.
fn codes() -> String {
    let section = |code: &Code| format!("### `{}`\n\n{} {}\n\n", code.as_str(), code.about(), code.way_out());
    Code::ALL.iter().map(section).collect()
}

/// Markdown as a page shows it: headings can be linked to, links to files lead to their pages, and what is wide scrolls.
fn drawn(markdown: &str) -> String {
    let options = Options::ENABLE_TABLES;
    let mut events = Vec::new();
    let mut heading = None;
    for event in Parser::new_ext(markdown, options) {
        match event {
            Event::Start(Tag::Heading { .. }) => heading = Some(events.len()),
            Event::End(TagEnd::Heading(level)) => {
                let inside = heading.take().map(|from| events.split_off(from)).unwrap_or_default();
                let anchor = anchor(&words(&inside));
                events.push(Event::Html(format!("<{level} id=\"{anchor}\"><a href=\"#{anchor}\">").into()));
                events.extend(inside);
                events.push(Event::Html(format!("</a></{level}>\n").into()));
                continue;
            }
            Event::Start(Tag::Table(_)) => scrolling(&mut events, "Table"),
            Event::Start(Tag::CodeBlock(_)) => scrolling(&mut events, "Example"),
            _ => {}
        }
        match event {
            Event::Start(Tag::Heading { .. }) => {}
            Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
                let dest_url = linked(dest_url);
                events.push(Event::Start(Tag::Link { link_type, dest_url, title, id }));
            }
            Event::End(TagEnd::Table | TagEnd::CodeBlock) => {
                events.push(event);
                events.push(Event::Html("</div>\n".into()));
            }
            _ => events.push(event),
        }
    }
    let mut out = String::new();
    pulldown_cmark::html::push_html(&mut out, events.into_iter());
    out
}

/// Opens what scrolls sideways, which the keyboard must reach too.
fn scrolling(events: &mut Vec<Event<'_>>, name: &'static str) {
    let opened = format!("<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"{name}\">");
    events.push(Event::Html(opened.into()));
}

fn words(events: &[Event<'_>]) -> String {
    let word = |event: &Event<'_>| match event {
        Event::Text(text) | Event::Code(text) => Some(text.to_string()),
        _ => None,
    };
    events.iter().filter_map(word).collect()
}

/// The anchor of a heading: its words in small letters with hyphens between.
fn anchor(heading: &str) -> String {
    let kept = |c: char| if c.is_alphanumeric() || c == '_' { c } else { ' ' };
    heading.to_lowercase().chars().map(kept).collect::<String>().split_whitespace().collect::<Vec<_>>().join("-")
}

/// A link to a file of the guide leads to its page.
fn linked(to: CowStr<'_>) -> CowStr<'_> {
    match to.split_once(".md") {
        Some((name, rest)) if !name.contains('/') => format!("{}{rest}", address(name)).into(),
        _ => to,
    }
}
