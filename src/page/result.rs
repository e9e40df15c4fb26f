//! An answer on a page: the result beside its drawing, the working line by line, what was assumed, cautions, sources.

use crate::asking::{Answer, Body};
use crate::quantity::text;
use crate::tree::{Leaf, Node};
use crate::working::StepIn;
use maud::{Markup, html};

/// An answer: the result with its drawing, what to beware of, what to know, what was assumed.
pub fn result(answer: &Answer, drawing: Markup) -> Markup {
    let record = &answer.record;
    html! {
        section {
            h2 { "Answer" }
            (body(&answer.body, drawing))
        }
        @if !record.cautions.is_empty() {
            section { h2 { "Take care" } ul { @for caution in &record.cautions { li { (caution.says) } } } }
        }
        @if !record.notes.is_empty() {
            section { h2 { "Notes" } ul { @for note in &record.notes { li { (note.says) } } } }
        }
        @if !record.assumed.is_empty() {
            section {
                h2 { "Assumed" }
                ul { @for assumed in &record.assumed {
                    li { (assumed.field.replace('_', " ")) ": " (plain(&assumed.value)) ". " (assumed.says) }
                } }
            }
        }
    }
}

/// How the answer came about: the working and the sources.
pub fn grounds(answer: &Answer) -> Markup {
    let record = &answer.record;
    html! {
        @if !record.steps.is_empty() {
            section {
                h2 { "Working" }
                ol { @for step in &record.steps { (working(step, answer)) } }
            }
        }
        section {
            h2 { "Sources" }
            ul { @for used in &record.sources {
                li { (used.source.title) ", " (used.place) " (" (used.trust.as_str()) ")" }
            } }
        }
    }
}

fn body(body: &Body, drawing: Markup) -> Markup {
    html! {
        @match body {
            Body::Result(result) => {
                div.beside { div.scroll { (record_table(result)) } (drawing) }
                (lists(result))
            }
            Body::Rows(rows, difference) => {
                @for row in rows {
                    h3 { @for (name, node) in &row.varied { (name.replace('_', " ")) " " (plain(node)) " " } }
                    @match &row.outcome {
                        Ok((_, result)) => (one(result)),
                        Err(wrongs) => { @for wrong in wrongs { p.wrong { (wrong.says) } } }
                    }
                }
                @if let Some(difference) = difference { h3 { "Difference, second less first" } (one(difference)) }
            }
            Body::Roots(roots) => {
                @for root in roots { h3 { (plain(&root.value)) } (one(&root.result)) }
            }
            Body::Correction(correction) => {
                table.answer { tbody {
                    tr { th scope="row" { (correction.field.replace('_', " ")) ", as meant" } td { (plain(&correction.intended)) } }
                    tr { th scope="row" { "as it must have been" } td { (plain(&correction.as_made)) } }
                    tr { th scope="row" { "change by" } td { (plain(&correction.change)) } }
                } }
                (one(&correction.result))
            }
        }
    }
}

fn one(result: &Node) -> Markup {
    html! {
        div.scroll { (record_table(result)) }
        (lists(result))
    }
}

fn working(step: &crate::working::Step, answer: &Answer) -> Markup {
    let step = serde_json::to_value(StepIn(step, answer.system)).unwrap_or_default();
    let words = |name: &str| step[name].as_str().unwrap_or_default().to_owned();
    let gives = &step["gives"];
    let given = match (gives["text"].as_str(), gives["value"].as_f64()) {
        (Some(text), _) => text.to_owned(),
        (None, Some(value)) => text::full(value),
        _ => String::new(),
    };
    html! {
        li {
            (words("what")) br;
            (words("formula")) br;
            @if !words("with").is_empty() { (words("with")) br; }
            @if !given.is_empty() { "gives " b { (given) } }
        }
    }
}

/// The single values of a record as a table of two columns.
fn record_table(node: &Node) -> Markup {
    let mut rows = Vec::new();
    singles(node, "", &mut rows);
    html! {
        table.answer { tbody { @for (name, value) in rows { tr { th scope="row" { (name) } td { (value) } } } } }
    }
}

fn singles(node: &Node, name: &str, rows: &mut Vec<(String, String)>) {
    match node {
        Node::Record(members) => {
            for (member, node) in members {
                let member = member.replace('_', " ");
                let name = if name.is_empty() { member } else { format!("{name}, {member}") };
                singles(node, &name, rows);
            }
        }
        Node::List(items) if items.iter().any(|item| matches!(item, Node::Record(_))) => {}
        other => rows.push((name.to_owned(), plain(other))),
    }
}

/// Every list of records in a record, each as a table.
fn lists(node: &Node) -> Markup {
    let Node::Record(members) = node else { return html! {} };
    html! {
        @for (name, node) in members {
            @if let Node::List(rows) = node {
                @if rows.iter().any(|row| matches!(row, Node::Record(_))) {
                    h3 { (name.replace('_', " ")) }
                    div.scroll { (list_table(rows)) }
                }
            }
        }
    }
}

fn list_table(rows: &[Node]) -> Markup {
    let mut header: Vec<&str> = Vec::new();
    for row in rows {
        if let Node::Record(members) = row {
            for (name, _) in members {
                if !header.contains(name) {
                    header.push(name);
                }
            }
        }
    }
    html! {
        table {
            thead { tr { @for name in &header { th scope="col" { (name.replace('_', " ")) } } } }
            tbody { @for row in rows {
                tr { @for name in &header { td { (row.member(name).map(plain).unwrap_or_default()) } } }
            } }
        }
    }
}

/// A value in words.
fn plain(node: &Node) -> String {
    match node {
        Node::Quantity(leaf) => quantity(leaf),
        Node::Number(number) => text::full(*number),
        Node::Count(count) => count.to_string(),
        Node::Truth(truth) => if *truth { "yes" } else { "no" }.to_owned(),
        Node::Text(words, _) => words.to_string(),
        Node::List(items) => items.iter().map(plain).collect::<Vec<_>>().join(", "),
        Node::Record(_) => String::new(),
    }
}

/// A quantity with the range that tolerances give it and what to set.
fn quantity(leaf: &Leaf) -> String {
    let Leaf { quantity, set, range, .. } = leaf;
    let mut out = quantity.text();
    if let Some(range) = range {
        let side = |amount: f64| text::fixed(amount, quantity.kind.places(quantity.unit) + 1);
        if range.minus == range.plus {
            out.push_str(&format!(" ±{}", side(range.plus)));
        } else {
            out.push_str(&format!(" +{} -{}", side(range.plus), side(range.minus)));
        }
    }
    if let Some(set) = set {
        out.push_str(&format!(" (set {}{})", text::fixed(set.to, set.places), set.unit.row().suffix));
    }
    out
}
