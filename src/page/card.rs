//! The answer card: what a person came for, large, its context in one line with how far it can be trusted, and where
//! the cautions and notes stand.

use super::field::{Filled, label as field_label};
use super::tables::{Cell, chart, is_table, lists, plain, setting, singles};
use crate::asking::{Answer, Body};
use crate::calculators::Entry;
use crate::declared::{in_sentence, label};
use crate::tree::Node;
use crate::working::Record;
use maud::{Markup, html};

/// How many things at most stand in the line of context.
const CONTEXT: usize = 3;

/// The card of an answer.
pub fn card(answer: &Answer, filled: &Filled) -> Markup {
    let entry = answer.entry;
    html! {
        section.answer-part {
            h2 { "Answer" }
            @match &answer.body {
                Body::Result(result) => {
                    @let headline = Headline::of(entry, result);
                    @if !headline.large.is_empty() {
                        div.leads { @for path in &headline.large { (lead(entry, result, path)) } }
                    }
                    @if let Some(table) = headline.table(result) { div.main-table { (lists(&table, entry.output.members)) } }
                    (context(&headline.context, &answer.record))
                }
                Body::Rows(rows, _) => {
                    div.main-table { (chart(rows, entry.input.members, entry.output.members)) }
                    (context(&[], &answer.record))
                }
                Body::Roots(roots) => {
                    @let name = filled.stated.said("solve_for").unwrap_or_default();
                    div.leads { @for root in roots {
                        p.lead {
                            span.lead-name { (field_label(entry, &name)) } " "
                            b data-copy=(Cell::of(&root.value).bare) { (plain(&root.value)) }
                            @if let Some(up_to) = &root.up_to { " to " b { (plain(up_to)) } }
                        }
                    } }
                    (context(&[], &answer.record))
                }
                Body::Correction(correction) => {
                    div.leads { p.lead {
                        span.lead-name { "Change " (in_sentence(&field_label(entry, &correction.field))) " by" } " "
                        b { (plain(&correction.change)) }
                    } }
                    (context(&[], &answer.record))
                }
            }
        }
    }
}

/// What stands in the card: paths of what is large, and the line of context.
pub struct Headline {
    /// One path, or two that are read together. None where a list is what a person came for.
    pub large: Vec<String>,
    /// What belongs to it, in words.
    pub context: Vec<String>,
}

impl Headline {
    /// The headline of a result.
    pub fn of(entry: &Entry, result: &Node) -> Self {
        let mut leads = leading(entry, result);
        let is_pair = matches!(leads.as_slice(), [first, second, ..] if is_pair(result, first, second));
        let after = leads.split_off(leads.len().min(if is_pair { 2 } else { 1 }));
        let members = entry.output.members;
        // What is set on the machine stands before what is only told.
        let set = singles(result).into_iter().filter(|(path, _)| !leads.contains(path)).filter_map(|(path, node)| {
            let Node::Quantity(leaf) = node else { return None };
            setting(leaf).map(|(to, _)| format!("set {} {}", in_sentence(&label(members, &path)), to.text))
        });
        let mut context: Vec<String> = set.take(CONTEXT).collect();
        let told: Vec<String> = entry.context.iter().filter_map(|part| filled_in(result, part)).collect();
        context.extend(told);
        if entry.context.is_empty() {
            let more = singles(result).into_iter().filter(|(_, node)| matches!(node, Node::Quantity(_)));
            let more = more.map(|(path, _)| path).filter(|path| !leads.contains(path) && !after.contains(path));
            let room = CONTEXT.saturating_sub(context.len());
            let all: Vec<String> = after.iter().cloned().chain(more).take(room).collect();
            context.extend(
                all.iter()
                    .filter_map(|path| Some((path, result.at(path)?)))
                    .map(|(path, node)| format!("{} {}", in_sentence(&label(members, path)), plain(node))),
            );
        }
        Self { large: leads, context }
    }

    /// The list that a person came for, where there is nothing large.
    pub fn table(&self, result: &Node) -> Option<Node> {
        let Node::Record(members) = result else { return None };
        let (name, list) = members.iter().find(|(_, node)| is_table(node)).filter(|_| self.large.is_empty())?;
        Some(Node::Record(vec![(name, list.clone())]))
    }
}

/// What a result is asked for first, by paths: what the calculator names, else a thing chosen by name, such as a stock
/// drill, then the first single quantity. Nothing where a list comes before them.
pub fn leading(entry: &Entry, result: &Node) -> Vec<String> {
    let first = |paths: &&str| paths.split('|').find(|path| result.at(path).is_some()).map(str::to_owned);
    let named: Vec<String> = entry.leads.iter().filter_map(first).collect();
    if !named.is_empty() {
        return named;
    }
    let Node::Record(members) = result else { return Vec::new() };
    if members.first().is_some_and(|(_, node)| is_table(node)) {
        return Vec::new();
    }
    let named = members.iter().filter_map(|(member, node)| match node.member("name") {
        Some(Node::Text(..)) => Some(format!("{member}/name")),
        _ => None,
    });
    let singles = singles(result);
    let first = singles.iter().find(|(_, node)| matches!(node, Node::Quantity(_))).or(singles.first());
    named.chain(first.map(|(path, _)| path.clone())).collect()
}

/// Whether two values are read together: places on two axes, speed and feed, the least and the greatest.
fn is_pair(result: &Node, first: &str, second: &str) -> bool {
    let parent = |path: &str| path.rsplit_once('/').map_or(String::new(), |(parent, _)| parent.to_owned());
    let is_number = |node: &Node| matches!(node, Node::Quantity(_) | Node::Number(_) | Node::Count(_));
    match (result.at(first), result.at(second)) {
        (Some(one), Some(other)) => parent(first) == parent(second) && is_number(one) == is_number(other),
        _ => false,
    }
}

/// A part of the line of context with the values of its paths; none where one of them is absent.
fn filled_in(result: &Node, part: &str) -> Option<String> {
    let mut out = String::new();
    let mut rest = part;
    while let Some((before, after)) = rest.split_once('{') {
        let (path, after) = after.split_once('}')?;
        out.push_str(before);
        out.push_str(&plain(path.split('|').find_map(|path| result.at(path))?));
        rest = after;
    }
    out.push_str(rest);
    Some(out)
}

fn lead(entry: &Entry, result: &Node, path: &str) -> Markup {
    let Some(node) = result.at(path) else { return html! {} };
    let cell = Cell::of(node);
    let set = match node {
        Node::Quantity(leaf) => setting(leaf).map(|(to, _)| to),
        _ => None,
    };
    html! {
        p.lead {
            span.lead-name { (label(entry.output.members, path)) } " "
            b data-copy=(cell.bare) { (cell.text) }
            @if let Some(set) = set { " " span.lead-set { "set " b data-copy=(set.bare) { (set.text) } } }
        }
    }
}

fn context(parts: &[String], record: &Record) -> Markup {
    let counted = |count: usize, one: &str, several: &str| {
        if count == 1 { format!("1 {one}") } else { format!("{count} {several}") }
    };
    html! {
        p.context {
            @for part in parts { span { (part) } " · " }
            a.trust href="#sources" data-open="sources" title="How far this answer can be trusted" { (record.trust().as_str()) }
            @if !record.cautions.is_empty() {
                span.warns { " · " a href="#care" { (counted(record.cautions.len(), "caution", "cautions")) } }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Headline;
    use crate::asking::{Body, Form, ask};
    use crate::calculators::{REGISTER, find};
    use crate::fields::Fields;

    fn headline(id: &str, fields: &[(&str, &str)]) -> Headline {
        let entry = find(id).expect("a calculator");
        let asked = Fields::of_texts(fields.iter().copied());
        let (answer, _) = ask(entry, asked, Form::Json).expect("an answer");
        let Body::Result(result) = answer.body else { panic!("{id} has no one result") };
        Headline::of(entry, &result)
    }

    #[test]
    fn what_is_read_together_is_large_together() {
        let touches = [("points", "3.15 in,2 in;2 in,3.15 in;0.85 in,2 in")];
        assert_eq!(headline("datum/bore-or-boss", &touches).large, ["center/x", "center/y"]);
        let drill = headline("holes/tap-drill", &[("thread", "M8"), ("from", "tables")]);
        assert_eq!(drill.large, ["drill/name"]);
        assert_eq!(drill.context, ["73.9 % thread", "within 6H · 0.112 mm room"]);
    }

    #[test]
    fn what_to_set_stands_first_in_the_context() {
        let fields = [("diameter", "8.5 mm"), ("full_depth", "20 mm"), ("resolution", "0.005 mm")];
        let headline = headline("holes/drill-point", &fields);
        assert!(headline.context[0].starts_with("set "), "{:?}", headline.context);
    }

    #[test]
    fn every_example_has_something_large_or_a_list() {
        for entry in REGISTER {
            for example in entry.examples {
                let asked = Fields::of_texts(example.fields.iter().copied());
                let (answer, _) = ask(entry, asked, Form::Json).expect("an answer");
                let Body::Result(result) = &answer.body else { continue };
                let headline = Headline::of(entry, result);
                assert!(!headline.large.is_empty() || headline.table(result).is_some(), "{} {example:?}", entry.id);
            }
        }
    }

    #[test]
    fn the_context_of_every_calculator_names_results_that_there_are() {
        for entry in REGISTER {
            for part in entry.context {
                let paths = part.split('{').skip(1).filter_map(|after| after.split_once('}')).map(|(path, _)| path);
                for path in paths.flat_map(|paths| paths.split('|')) {
                    let mut members = entry.output.members;
                    for name in path.split('/').filter(|name| name.parse::<usize>().is_err()) {
                        let member = members.iter().find(|member| member.name == name);
                        members = member.unwrap_or_else(|| panic!("{} has no {path}", entry.id)).of.shape.members();
                    }
                }
            }
        }
    }
}
