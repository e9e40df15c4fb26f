//! The published description for people: its parts, and each part's operations to read and to try, which a
//! script draws from the part's own file.

use super::{assets, shell};
use maud::{Markup, html};

/// A part of the description.
#[derive(Clone, Copy, Debug)]
pub struct Part<'p> {
    /// Its name: a topic, or what is no calculator.
    pub name: &'p str,
    /// What it holds.
    pub about: &'p str,
}

/// Where a part's page is.
fn address(name: &str) -> String {
    format!("/docs/{name}")
}

/// The list of the parts; `about` is what the description says of the whole, a paragraph a line.
pub fn overview(about: &str, parts: &[Part]) -> String {
    let body = html! {
        h1 { "For programs" }
        h2 { "By topic" }
        ul.titles {
            @for part in parts {
                li {
                    a href=(address(part.name)) { (titled(part.name)) }
                    p { (part.about) }
                }
            }
        }
        p { a href="/openapi.json" { "The whole description" } " (OpenAPI 3.1); in parts: " a href="/openapi" { "/openapi" } }
        h2 { "What holds for all" }
        @for paragraph in about.split("\n\n") { p { (with_code(paragraph)) } }
    };
    framed("For programs", body)
}

/// The page of one part.
pub fn part(part: Part, parts: &[Part]) -> String {
    let description = format!("/openapi/{}.json", part.name);
    let title = titled(part.name);
    let body = html! {
        h1 { (title) ", for programs" }
        nav.tasks aria-label="Topics" {
            a href="/docs/" { "All" } " "
            @for other in parts.iter().filter(|other| other.name != part.name) {
                a href=(address(other.name)) { (titled(other.name)) } " "
            }
        }
        div #operations aria-busy="true" data-description=(description) {
            p { "Each operation can be opened and tried here, which needs the script. The description itself is at "
                a href=(description) { (description) } "." }
        }
        script src=(assets::reference_script()) defer {}
    };
    framed(&format!("{title}, for programs"), body)
}

fn framed(title: &str, body: Markup) -> String {
    shell::page(title, html! { link rel="stylesheet" href=(assets::reference_style()); (body) })
}

fn titled(name: &str) -> String {
    let (first, rest) = name.split_at(1);
    first.to_uppercase() + rest
}

/// A text with the parts between backticks as code.
fn with_code(text: &str) -> Markup {
    html! {
        @for (at, part) in text.split('`').enumerate() {
            @if at % 2 == 1 { code { (part) } } @else { (part) }
        }
    }
}
