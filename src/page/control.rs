//! The control of one field: a choice, a box with its unit, or a text of rows that the script makes into boxes; with what
//! a number pad lacks for it.

use super::field::Filled;
use super::stated::{is_lines, kind, units};
use crate::asking::Field;
use crate::declared::{Shape, in_sentence, said_word};
use crate::quantity::{Unit, read};
use maud::{Markup, html};
use serde_json::{Value, json};

/// The control of a field.
pub fn control(field: &Field, filled: &Filled, id: &str, described_by: &str, is_wrong: bool) -> Markup {
    let invalid = is_wrong.then_some("true");
    let said = filled.stated.said(&field.name);
    let options: Vec<(String, String)> = match field.form {
        "truth" => [("true", "yes"), ("false", "no")].map(|(value, says)| (value.to_owned(), says.to_owned())).into(),
        _ => field.choices.iter().map(|choice| (choice.clone(), said_word(choice))).collect(),
    };
    // A choice stated several times over, for rows, is no option: it keeps its text.
    let listed = said.as_ref().is_none_or(|said| options.iter().any(|(value, _)| value == said));
    if !options.is_empty() && listed {
        return html! {
            select id=(id) name=(field.name) aria-describedby=(described_by) aria-invalid=[invalid] {
                option value="" { (unstated(field)) }
                @for (value, says) in &options {
                    option value=(value) selected[said.as_ref() == Some(value)] { (says) }
                }
            }
        };
    }
    let (value, unit) = filled.stated.shown(field);
    let keys = keys(field);
    html! {
        @if is_lines(field) {
            textarea id=(id) name=(field.name) rows="4" aria-describedby=(described_by) aria-invalid=[invalid]
                data-keys=(keys) data-columns=[columns(field)] data-row=(row(field)) placeholder=(lines(&field.example))
                autocomplete="off" autocapitalize="off"
                spellcheck="false" { (lines(&value)) }
        } @else {
            input id=(id) name=(field.name) value=(value) placeholder=(placeholder(field)) type="text"
                aria-describedby=(described_by) aria-invalid=[invalid] data-keys=(keys) aria-required=[field.required.then_some("true")]
                data-columns=[columns(field)] data-inputmode=(inputmode(field)) autocomplete="off" autocapitalize="off" spellcheck="false";
        }
        @if !units(field).is_empty() { (unit_choice(field, unit)) }
    }
}

fn unit_choice(field: &Field, chosen: Option<Unit>) -> Markup {
    let label = format!("Unit of {}", in_sentence(field.label));
    let row = kind(field);
    html! {
        @if let [only] = units(field) {
            span.unit { (only.row().spelling.replace("percent", "%")) }
        } @else {
            select.unit name=(format!("{}.unit", field.name)) aria-label=(label)
                data-inch=[row.map(|row| row.inch.0.row().ascii)] data-metric=[row.map(|row| row.metric.0.row().ascii)] {
                option value="" { "unit…" }
                @for unit in units(field) {
                    option value=(unit.row().ascii) selected[chosen == Some(*unit)] { (unit.spelling()) }
                }
            }
        }
    }
}

/// What stands in an empty box: what is taken then, where that is known beforehand, else a good value; without the unit
/// that is chosen beside it.
fn placeholder(field: &Field) -> String {
    let bare = |value: &str| match read(value, "") {
        Ok(written) if written.unit.is_some() && !units(field).is_empty() => {
            value.trim_end_matches(|c: char| !c.is_ascii_digit()).to_owned()
        }
        _ => value.to_owned(),
    };
    match field.member.absent {
        Some(absent) if absent.shown.len() <= 10 => format!("{} if empty", bare(absent.shown)),
        _ if field.example.is_empty() => String::new(),
        _ => format!("e.g. {}", bare(&field.example)),
    }
}

/// What stands for a choice that is not made, with what is taken then.
fn unstated(field: &Field) -> String {
    match field.member.absent {
        Some(absent) if absent.shown.len() <= 20 => format!("not stated: {}", said_word(absent.shown)),
        _ => "not stated".to_owned(),
    }
}

/// The columns of a field that holds points or rows, as the script reads them to make boxes of its text.
fn columns(field: &Field) -> Option<String> {
    let column = |label: &str, choices: &[&str], is_number: bool| {
        let choices: Vec<Value> = choices.iter().map(|choice| json!([choice, said_word(choice)])).collect();
        json!({"label": label, "choices": choices, "number": is_number})
    };
    let shape = field.member.of.shape;
    let columns: Vec<Value> = match shape {
        Shape::Point | Shape::Points => vec![column("X", &[], true), column("Y", &[], true)],
        Shape::Rows(_) => {
            let one = |member: &crate::declared::Member| match member.of.shape {
                Shape::Choice(words) => column(member.label, words, false),
                shape => column(member.label, &[], shape.kind().is_some()),
            };
            shape.members().iter().map(one).collect()
        }
        _ => return None,
    };
    Some(Value::from(columns).to_string())
}

/// What one row of it is called.
fn row(field: &Field) -> &str {
    if matches!(field.member.of.shape, Shape::Points) { "point" } else { field.member.row }
}

/// Rows parted by semicolons, one a line.
fn lines(text: &str) -> String {
    if text.trim_start().starts_with(['[', '{']) {
        return text.to_owned();
    }
    text.split(';').map(str::trim).collect::<Vec<_>>().join("\n")
}

/// Whether a number pad will do where the script offers what it lacks.
fn inputmode(field: &Field) -> &'static str {
    match field.form {
        "count" => "numeric",
        "number" => "decimal",
        _ if kind(field).is_some() => "decimal",
        _ => "text",
    }
}

/// What a number pad lacks for this field, parted by spaces; `␣` stands for a space.
fn keys(field: &Field) -> &'static str {
    match kind(field) {
        Some(_) if is_lines(field) => "- . , / ↵",
        Some(_) if field.form == "list" => ". / ,",
        Some(_) if field.is_point() => "- . , /",
        Some(_) if field.takes_names() => "/ . # ␣ ±",
        Some(row) if row.units.contains(&Unit::Degree) => "- . ° ' \"",
        Some(row) if row.units.len() > 1 => "/ - . ␣ ±",
        Some(_) => ". / -",
        None if is_lines(field) => "- . , / ↵",
        None => match field.form {
            "number" => ". -",
            "words" => "- / . # x",
            _ => "",
        },
    }
}
