//! An answer on a page, in the order of a handbook: the result large, the drawing beside it, what to set,
//! the same in the other system, what to beware of, and what was assumed.

use super::field::Filled;
use super::field::words;
use super::stated::query;
use super::tables::{Cell, chart, in_other, lists, plain, setting, singles, two_columns};
use crate::asking::{Answer, Body, Form};
use crate::calculators::Entry;
use crate::quantity::System;
use crate::shop;
use crate::tree::Node;
use maud::{Markup, html};

/// An answer with its drawing.
pub fn result(answer: &Answer, drawing: Markup, filled: &Filled) -> Markup {
    let record = &answer.record;
    html! {
        section.answer-part {
            h2 { "Answer" }
            (body(answer, drawing, filled))
            (take_away(answer, filled))
        }
        @if !record.cautions.is_empty() {
            section.care { h2 { "Take care" } ul { @for caution in &record.cautions { li { (caution.says) } } } }
        }
        @if !record.notes.is_empty() {
            section { h2 { "Notes" } ul { @for note in &record.notes { li { (note.says) } } } }
        }
        (assumed(answer, filled))
    }
}

/// What a result is asked for first, each by its path and what it is called: what the calculator names, else a thing
/// chosen by name, such as a stock drill, then the first single quantity. Nothing where a list comes before them.
pub fn leading(entry: &Entry, result: &Node) -> Vec<(String, String, Cell)> {
    let first = |paths: &&str| paths.split('|').find_map(|path| lead(result, path));
    let named: Vec<_> = entry.leads.iter().filter_map(first).collect();
    if !named.is_empty() {
        return named;
    }
    let Node::Record(members) = result else { return Vec::new() };
    let is_table =
        |node: &Node| matches!(node, Node::List(rows) if rows.iter().any(|row| matches!(row, Node::Record(_))));
    if members.first().is_some_and(|(_, node)| is_table(node)) {
        return Vec::new();
    }
    let named = members.iter().filter_map(|(member, node)| match node.member("name") {
        Some(name @ Node::Text(..)) => Some((format!("{}, name", words(member)), words(member), Cell::of(name))),
        _ => None,
    });
    let singles = singles(result);
    let first = singles.iter().find(|(_, node)| matches!(node, Node::Quantity(_))).or(singles.first());
    named.chain(first.map(|(name, node)| (name.clone(), name.clone(), Cell::of(node)))).collect()
}

/// What stands at a path; of a first row, by its name in the row.
fn lead(result: &Node, path: &str) -> Option<(String, String, Cell)> {
    let cell = Cell::of(result.at(path)?);
    let name = path.split_once("/0/").map_or(words(path), |(_, rest)| format!("first/{}", words(rest)));
    let name = name.replace('/', ", ");
    Some((name.clone(), name, cell))
}

fn body(answer: &Answer, drawing: Markup, filled: &Filled) -> Markup {
    html! {
        @match &answer.body {
            Body::Result(result) => {
                @let leads = leading(answer.entry, result);
                div.beside {
                    div.values {
                        @for (_, name, cell) in &leads {
                            p.lead { span.lead-name { (name) } " " b data-copy=(cell.bare) { (cell.text) } }
                        }
                        @let rest = singles(result).into_iter().map(|(name, node)| (name, Cell::of(node)));
                        @let rest: Vec<_> = rest.filter(|(name, _)| leads.iter().all(|(lead, _, _)| lead != name)).collect();
                        @if leads.is_empty() { (lists(result)) }
                        @if !rest.is_empty() { (two_columns(&rest)) }
                    }
                    (drawing)
                }
                @if !leads.is_empty() { (lists(result)) }
                (to_set(result, answer, filled))
                (other_system(result, answer.system, filled))
            }
            Body::Rows(rows, difference) => {
                (chart(rows))
                @if let Some(difference) = difference {
                    h3 { "Difference, second less first" }
                    (one(difference))
                }
            }
            Body::Roots(roots) => {
                @for root in roots {
                    p.lead {
                        span.lead-name { (words(&filled.stated.said("solve_for").unwrap_or_default())) } " "
                        b data-copy=(Cell::of(&root.value).bare) { (plain(&root.value)) }
                        @if let Some(up_to) = &root.up_to { " to " b { (plain(up_to)) } }
                    }
                    (one(&root.result))
                }
            }
            Body::Correction(correction) => {
                p.lead { span.lead-name { "change " (words(&correction.field)) " by" } " " b { (plain(&correction.change)) } }
                @let rows = [
                    (format!("{}, as meant", words(&correction.field)), Cell::of(&correction.intended)),
                    ("as it must have been".to_owned(), Cell::of(&correction.as_made)),
                ];
                (two_columns(&rows))
                (one(&correction.result))
            }
        }
    }
}

fn one(result: &Node) -> Markup {
    let rows: Vec<(String, Cell)> = singles(result).into_iter().map(|(name, node)| (name, Cell::of(node))).collect();
    html! { (two_columns(&rows)) (lists(result)) }
}

/// What to set on the readout or dial, and what the setting leaves over.
fn to_set(result: &Node, answer: &Answer, filled: &Filled) -> Markup {
    let set: Vec<_> = singles(result)
        .into_iter()
        .filter_map(|(name, node)| match node {
            Node::Quantity(leaf) => setting(leaf).map(|cells| (name, cells)),
            _ => None,
        })
        .collect();
    let machine = filled.stated.said("machine");
    html! {
        @if !set.is_empty() {
            h3 { "Set on the " @if let Some(machine) = &machine { (machine) } @else { "readout" } }
            table.answer { tbody { @for (name, (to, left)) in &set {
                tr {
                    th scope="row" { (name) }
                    td data-copy=(to.bare) { (to.text) }
                    td.left-over { "leaves " (left.text) }
                }
            } } }
        } @else if settable(answer) && !filled.in_use("resolution") {
            p.hint {
                "To see what to set, state the "
                a href="#field-resolution" data-open="resolution" { "step of the readout" }
                @if shop::installed().is_some_and(|shop| !shop.machines.is_empty()) {
                    " or choose " a href="#field-machine" data-open="machine" { "a machine" }
                }
                "."
            }
        }
    }
}

fn settable(answer: &Answer) -> bool {
    let Body::Result(result) = &answer.body else { return false };
    let mut found = false;
    result.clone().each_quantity(&mut |leaf| found |= leaf.quantity.kind.setting != crate::quantity::Setting::Never);
    found
}

fn other_system(result: &Node, system: System, filled: &Filled) -> Markup {
    let rows = in_other(result, system);
    let other = match system {
        System::Inch => "metric",
        System::Metric => "inch",
    };
    html! {
        details.other {
            summary { "In " (other) " units" }
            @if !rows.is_empty() { (two_columns(&rows)) }
            p { a href=(format!("/{}?{}", filled.id, filled.stated.query_with("units", Some(other)))) {
                "The whole answer in " (other) " units"
            } }
        }
    }
}

/// The answer to take along: a link, a table, paper.
fn take_away(answer: &Answer, filled: &Filled) -> Markup {
    let table = matches!(answer.body, Body::Result(_) | Body::Rows(..));
    html! {
        p.take data-main {
            a href=(format!("/{}?{}", filled.id, filled.stated.query(&[]))) data-share { "Link to this answer" } " "
            @if table {
                a href=(format!("/v1/{}.csv?{}", filled.id, filled.stated.query_for(Form::Table))) download { "Table as CSV" } " "
            }
            a href=(format!("/v1/{}?{}", filled.id, filled.stated.query_for(Form::Json))) { "As JSON" }
        }
    }
}

/// What was taken for fields that are not stated, each to be tapped and changed.
fn assumed(answer: &Answer, filled: &Filled) -> Markup {
    html! {
        @if !answer.record.assumed.is_empty() {
            section.assumed {
                h2 { "Assumed" }
                dl { @for assumed in &answer.record.assumed {
                    @let value = plain(&assumed.value);
                    dt {
                        a href=(filled.with(assumed.field, Some(&as_typed(&assumed.value)))) data-field=(assumed.field)
                            data-value=(as_typed(&assumed.value)) {
                            (words(assumed.field)) ": " b { (words(&value)) }
                        }
                    }
                    dd { (assumed.says) }
                } }
                p.hint { "Tap one to change it." }
            }
        }
    }
}

/// A value as one would type it.
fn as_typed(node: &Node) -> String {
    match node {
        Node::Quantity(leaf) => {
            let quantity = leaf.quantity;
            format!("{} {}", crate::quantity::text::full(quantity.value), quantity.unit.row().ascii)
        }
        Node::List(items) => {
            let separator = if items.iter().any(|item| matches!(item, Node::Record(_))) { ";" } else { "," };
            items.iter().map(as_typed).collect::<Vec<_>>().join(separator)
        }
        Node::Record(members) => members.iter().map(|(_, node)| as_typed(node)).collect::<Vec<_>>().join(","),
        Node::Truth(truth) => truth.to_string(),
        other => plain(other),
    }
}

/// Links to practise on the calculator, and on the very answer where there is a single one.
pub fn practice(answer: Option<&Answer>, filled: &Filled) -> Markup {
    let link = |pairs: Vec<(&str, String)>| {
        let query = query(pairs.into_iter().map(|(name, value)| (name.to_owned(), value)));
        format!("/practice?{query}")
    };
    let calculator = ("calculator", filled.id.to_owned());
    let single = answer.is_some_and(|answer| matches!(answer.body, Body::Result(_)));
    html! {
        p.take {
            a href=(link(vec![calculator.clone()])) { "Practise this" } " "
            @if single {
                @let from = format!("/v1/{}?{}", filled.id, filled.stated.query_for(Form::Json));
                a href=(link(vec![calculator, ("from", from)])) { "Make a question of this answer" }
            }
        }
    }
}
