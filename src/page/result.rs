//! What stands below the answer card, in the order of a handbook: the drawing with every value, what to set, what to
//! beware of, the same in the other system, and what was assumed.

use super::card::Headline;
use super::field::{Filled, in_words, label};
use super::stated::query;
use super::tables::{Cell, cells, chart_lists, figures, in_other, lists, plain, setting, singles};
use crate::asking::{Answer, Body, Form};
use crate::declared::{label as label_at, said_word};
use crate::quantity::System;
use crate::shop;
use crate::tree::Node;
use maud::{Markup, html};

/// What belongs to an answer below its card.
pub fn rest(answer: &Answer, drawing: Markup, filled: &Filled) -> Markup {
    let record = &answer.record;
    html! {
        (body(answer, drawing, filled))
        (take_away(answer, filled))
        @if !record.cautions.is_empty() {
            section.care #care tabindex="-1" {
                h2 { "Take care" }
                ul { @for caution in &record.cautions { li { (in_words(&caution.says, answer.entry)) } } }
            }
        }
        @if !record.notes.is_empty() {
            section.notes { h2 { "Notes" } ul { @for note in &record.notes { li { (in_words(&note.says, answer.entry)) } } } }
        }
        (assumed(answer, filled))
        (other_system(answer, filled))
    }
}

fn body(answer: &Answer, drawing: Markup, filled: &Filled) -> Markup {
    let members = answer.entry.output.members;
    html! {
        @match &answer.body {
            Body::Result(result) => {
                @let headline = Headline::of(answer.entry, result);
                @let rest: Vec<(String, Cell)> = singles(result).into_iter()
                    .filter(|(path, _)| !headline.large.contains(path))
                    .map(|(path, node)| (label_at(members, &path), Cell::of(node)))
                    .collect();
                div.beside {
                    (drawing)
                    @if !rest.is_empty() { div.values { (figures(&rest)) } }
                }
                (to_set(result, answer, filled))
                (lists(&without(result, headline.table(result)), members))
            }
            Body::Rows(rows, difference) => {
                @if let Some(difference) = difference {
                    h3 { "Difference, second less first" }
                    (one(difference, answer))
                }
                (chart_lists(rows, answer.entry.input.members, members))
            }
            Body::Roots(roots) => { @for root in roots { (one(&root.result, answer)) } }
            Body::Correction(correction) => {
                @let name = label(answer.entry, &correction.field);
                @let rows = [
                    (format!("{name}, as meant"), Cell::of(&correction.intended)),
                    ("As it must have been".to_owned(), Cell::of(&correction.as_made)),
                ];
                (figures(&rows))
                (one(&correction.result, answer))
            }
        }
    }
}

/// A result without the list that stands in the card.
fn without(result: &Node, table: Option<Node>) -> Node {
    let (Node::Record(members), Some(Node::Record(taken))) = (result, table) else { return result.clone() };
    Node::Record(members.iter().filter(|(name, _)| taken.iter().all(|(other, _)| other != name)).cloned().collect())
}

fn one(result: &Node, answer: &Answer) -> Markup {
    let members = answer.entry.output.members;
    html! { (figures(&cells(result, members))) (lists(result, members)) }
}

/// What to set on the readout or dial, and what the setting leaves over.
fn to_set(result: &Node, answer: &Answer, filled: &Filled) -> Markup {
    let set: Vec<_> = singles(result)
        .into_iter()
        .filter_map(|(path, node)| match node {
            Node::Quantity(leaf) => setting(leaf).map(|cells| (label_at(answer.entry.output.members, &path), cells)),
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

fn other_system(answer: &Answer, filled: &Filled) -> Markup {
    let Body::Result(result) = &answer.body else { return html! {} };
    let rows = in_other(result, answer.entry.output.members, answer.system);
    let other = match answer.system {
        System::Inch => "metric",
        System::Metric => "inch",
    };
    html! {
        details.other {
            summary { "In " (other) " units" }
            @if !rows.is_empty() { (figures(&rows)) }
            p { a href=(format!("/{}?{}", filled.entry.id, filled.stated.query_with("units", Some(other)))) {
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
            a href=(format!("/{}?{}", filled.entry.id, filled.stated.query(&[]))) data-share { "Link to this answer" } " "
            @if table {
                a href=(format!("/v1/{}.csv?{}", filled.entry.id, filled.stated.query_for(Form::Table))) download { "Table as CSV" } " "
            }
            a href=(format!("/v1/{}?{}", filled.entry.id, filled.stated.query_for(Form::Json))) { "As JSON" }
        }
    }
}

/// What was taken for fields that are not stated, each to be tapped and changed.
fn assumed(answer: &Answer, filled: &Filled) -> Markup {
    html! {
        @if !answer.record.assumed.is_empty() {
            section.assumed {
                h2 { "Assumed" }
                p.hint { "Tap one to change it." }
                ul { @for assumed in &answer.record.assumed {
                    @let value = plain(&assumed.value);
                    li {
                        a href=(filled.with(assumed.field, Some(&as_typed(&assumed.value)))) data-field=(assumed.field)
                            data-value=(as_typed(&assumed.value)) {
                            (label(answer.entry, assumed.field)) ": " b { (said_word(&value)) }
                            " " span.why { (in_words(&assumed.says, answer.entry)) }
                        }
                    }
                } }
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

/// Links to practice on the calculator, and on the very answer where there is a single one.
pub fn practice(answer: Option<&Answer>, filled: &Filled) -> Markup {
    let link = |pairs: Vec<(&str, String)>| {
        let query = query(pairs.into_iter().map(|(name, value)| (name.to_owned(), value)));
        format!("/practice?{query}")
    };
    let calculator = ("calculator", filled.entry.id.to_owned());
    let single = answer.is_some_and(|answer| matches!(answer.body, Body::Result(_)));
    html! {
        p.take {
            a href=(link(vec![calculator.clone()])) { "Practice this" } " "
            @if single {
                @let from = format!("/v1/{}?{}", filled.entry.id, filled.stated.query_for(Form::Json));
                a href=(link(vec![calculator, ("from", from)])) { "Make a question of this answer" }
            }
        }
    }
}
