//! Answers below the search box: each calculator's main values for what was typed, and the way to its whole page.

use crate::asking::{Answer, Body};
use crate::calculators::Entry;
use crate::cautions;
use crate::declared::label as result_label;
use crate::page::card::leading;
use crate::page::field::{in_words, label};
use crate::page::search::{Answered, Conversion, Found, Further, parts};
use crate::page::tables::{Cell, figures, is_table, plain, row_cells, rows_table, singles};
use crate::tree::Node;
use maud::{Markup, html};

/// Values that are shown beside the leading ones.
const MOST_VALUES: usize = 8;
/// Values that the words ask for.
const MOST_WANTED: usize = 16;
/// Rows of a table that are shown.
const MOST_ROWS: usize = 12;

/// All that was answered, and what takes it further.
pub fn answers(found: &Found) -> Markup {
    let cares =
        |answered: &Answered| answered.answer.record.cautions.iter().any(|one| one.code == cautions::STARTING_POINT.0);
    html! {
        @if let Some(conversion) = &found.conversion { (converted(conversion)) }
        div.cards { @for answered in &found.answers { (card(answered)) } }
        @if found.answers.iter().any(cares) { p.care-all { (cautions::STARTING_POINT.1) } }
        @if !found.further.is_empty() {
            h3 { @if found.answers.is_empty() { "Goes on with" } @else { "Takes it further" } }
            ul.titles.further { @for further in &found.further { (goes_on(further)) } }
        }
    }
}

/// The first of it in one sentence, for who listens.
pub fn in_one_sentence(found: &Found) -> String {
    let mut says: Vec<String> = found.questions.iter().map(|question| question.says.clone()).take(1).collect();
    if let Some(conversion) = &found.conversion {
        says.push(format!("{} is {}.", conversion.stated, all(conversion)));
    }
    if let Some(first) = found.answers.first() {
        let values = leads(&first.answer).into_iter().map(|(name, cell)| format!("{name} {}", cell.text));
        let values = values.take(2).collect::<Vec<_>>().join(", ");
        says.push(format!("{}: {values}.", first.answer.entry.title).replace(": .", "."));
    }
    let listed = found.by_words.len() + found.nearest.len() + found.further.len();
    match (found.answers.len(), listed) {
        (0, 0) if says.is_empty() => says.push("Nothing found.".to_owned()),
        (0, 0) => {}
        (0, 1) => says.push("1 calculator found.".to_owned()),
        (0, listed) => says.push(format!("{listed} calculators found.")),
        (1, _) => says.push("1 answer.".to_owned()),
        (answers, _) => says.push(format!("{answers} answers.")),
    }
    says.join(" ")
}

fn all(conversion: &Conversion) -> String {
    conversion.others.iter().map(|(says, _)| says.as_str()).collect::<Vec<_>>().join(" or ")
}

fn converted(conversion: &Conversion) -> Markup {
    html! {
        section.found-answer.converted {
            p.lead {
                span.lead-name { (conversion.stated) }
                @for (says, is_rounded) in &conversion.others {
                    " " b { @if *is_rounded { "≈ " } @else { "= " } (says) }
                }
            }
        }
    }
}

fn card(answered: &Answered) -> Markup {
    let Answered { filled, answer, words } = answered;
    let record = &answer.record;
    let own: Vec<_> = record.cautions.iter().filter(|one| one.code != cautions::STARTING_POINT.0).collect();
    html! {
        section.found-answer {
            h3 { a href=(format!("{}#answer", filled.address())) { (answer.entry.title) } }
            p.with-fields { (said(filled)) }
            @match &answer.body {
                Body::Result(result) => (values(answer, result, words)),
                Body::Rows(rows, _) => {
                    @let cells = rows.iter().take(MOST_ROWS).map(|row| {
                        let varied = row.varied.iter().map(|(name, node)| (label(answer.entry, name), Cell::of(node)));
                        match &row.outcome {
                            Ok((_, result)) => varied.chain(leads_of(answer.entry, result)).collect(),
                            Err(wrongs) => {
                                let says: Vec<&str> = wrongs.iter().map(|wrong| wrong.says.as_str()).collect();
                                varied.chain([("Refused".to_owned(), Cell::words(says.join(" ")))]).collect()
                            }
                        }
                    });
                    (rows_table(answer.entry.title, cells.collect()))
                }
                // Only a request that asks backwards has one of these.
                Body::Roots(_) | Body::Correction(_) => {}
            }
            @let assumed: Vec<String> = record.assumed.iter().filter(|one| one.field != "units")
                .map(|one| format!("{}: {}", label(answer.entry, one.field), plain(&one.value))).collect();
            @if !assumed.is_empty() { p.about { "Assumed: " (assumed.join("; ")) "." } }
            @if !own.is_empty() || !record.notes.is_empty() {
                details.more { summary { "Take care, and notes" }
                    ul {
                        @for caution in own { li.care-one { (in_words(&caution.says, answer.entry)) } }
                        @for note in &record.notes { li { (in_words(&note.says, answer.entry)) } }
                    }
                }
            }
        }
    }
}

/// What a calculator was filled with.
fn said(filled: &Further) -> String {
    filled
        .fields
        .iter()
        .map(|(name, text)| format!("{} {}", label(filled.described.entry, name), text.replace('|', " or ")))
        .collect::<Vec<_>>()
        .join(", ")
}

fn leads(answer: &Answer) -> Vec<(String, Cell)> {
    answer.result().map(|result| leads_of(answer.entry, result)).unwrap_or_default()
}

fn leads_of(entry: &Entry, result: &Node) -> Vec<(String, Cell)> {
    let members = entry.output.members;
    let cell = |path: String| Some((result_label(members, &path), Cell::of(result.at(&path)?)));
    leading(entry, result).into_iter().filter_map(cell).collect()
}

/// The leading values, then those that the words ask for or else the first ones; where a table leads, its first rows.
fn values(answer: &Answer, result: &Node, words: &str) -> Markup {
    let members = answer.entry.output.members;
    let leads = leads_of(answer.entry, result);
    let asked = parts(words);
    // Words are looked for in names as well as in labels: a person may know either.
    let is_asked = |path: &str, name: &str| {
        let of_name = parts(path);
        parts(name).iter().chain(&of_name).any(|part| asked.contains(part))
    };
    let singles = singles(result).into_iter().map(|(path, node)| (result_label(members, &path), path, node));
    let rest: Vec<(String, String, &Node)> =
        singles.filter(|(name, ..)| leads.iter().all(|(lead, _)| lead != name)).collect();
    let is_quantity = |node: &Node| matches!(node, Node::Quantity(_));
    let mut shown: Vec<&(String, String, &Node)> =
        rest.iter().filter(|(name, path, _)| is_asked(path, name)).take(MOST_WANTED).collect();
    if !shown.iter().any(|(.., node)| is_quantity(node)) {
        shown = rest.iter().filter(|(.., node)| is_quantity(node)).take(MOST_VALUES).collect();
    }
    let shown = shown.into_iter().map(|(name, _, node)| (name.clone(), Cell::of(node)));
    let shown: Vec<(String, Cell)> = leads.iter().skip(1).cloned().chain(shown).collect();
    html! {
        @if let Some((name, cell)) = leads.first() { p.lead { span.lead-name { (name) } " " b { (cell.text) } } }
        @if leads.is_empty() { (first_rows(answer.entry, result)) }
        @if !shown.is_empty() { (figures(&shown)) }
    }
}

/// The first rows of the first table of a result; a table of one row as its values.
fn first_rows(entry: &Entry, result: &Node) -> Markup {
    let Node::Record(members) = result else { return html! {} };
    let Some((name, Node::List(rows))) = members.iter().find(|(_, node)| is_table(node)) else { return html! {} };
    let of = entry.output.members.iter().find(|member| member.name == *name);
    let columns = of.map_or(&[][..], |member| member.of.shape.members());
    let cells = |row: &Node| row_cells(row, columns, false);
    html! {
        @if let [row] = rows.as_slice() {
            (figures(&cells(row)))
        } @else {
            (rows_table(&result_label(entry.output.members, name), rows.iter().take(MOST_ROWS).map(cells).collect()))
            @if rows.len() > MOST_ROWS { p.about { "And " (rows.len() - MOST_ROWS) " more rows." } }
        }
    }
}

fn goes_on(further: &Further) -> Markup {
    let entry = further.described.entry;
    let anchor = if further.is_answered { "#answer" } else { "" };
    html! {
        li {
            a href=(format!("{}{anchor}", further.address())) title=(entry.about) { (entry.title) }
            p {
                @if !further.fields.is_empty() { "With " (said(further)) ". " } @else { (entry.about) " " }
                @if !further.needs.is_empty() { "Needs " (further.needs.join(", ")) "." }
            }
        }
    }
}
