//! One field of a form: its label, the field with the unit beside it, what it is, and what is wrong with it.

use super::stated::{Stated, is_lines, kind, units};
use crate::asking::Field;
use crate::fields::Fields;
use crate::quantity::Unit;
use crate::refusal::{Code, Refusal, Wrong};
use maud::{Markup, html};

/// What a form shows: the calculator's address, what is stated and what is wrong with it.
pub struct Filled<'a> {
    /// The calculator's id.
    pub id: &'a str,
    /// What the address states.
    pub stated: &'a Stated,
    /// What is wrong.
    pub refusal: &'a Refusal,
}

impl Filled<'_> {
    /// What is wrong with the field `name`.
    pub fn wrongs<'w>(&'w self, name: &str) -> impl Iterator<Item = &'w Wrong> {
        let name = name.to_owned();
        self.refusal.0.iter().filter(move |wrong| field_of(wrong) == name)
    }

    /// Whether the field is stated or wrong.
    pub fn in_use(&self, name: &str) -> bool {
        self.stated.said(name).is_some() || self.wrongs(name).next().is_some()
    }

    /// The address of the page with `name` set to `value`, or without it.
    pub fn with(&self, name: &str, value: Option<&str>) -> String {
        format!("/{}?{}#field-{name}", self.id, self.stated.query_with(name, value))
    }
}

/// The top-level field an error is about.
pub fn field_of(wrong: &Wrong) -> &str {
    wrong.field.split('/').nth(1).unwrap_or_default()
}

/// A name as words.
pub fn words(name: &str) -> String {
    name.replace('_', " ")
}

/// A field.
pub fn field(field: &Field, filled: &Filled) -> Markup {
    let id = format!("field-{}", field.name);
    let about = format!("{id}-about");
    let is_wrong = filled.wrongs(&field.name).next().is_some();
    let described_by = if is_wrong { format!("{id}-wrong {about}") } else { about.clone() };
    html! {
        div.field data-field=(field.name) {
            label for=(id) { (words(&field.name)) @if field.required { " " span.needed { "needed" } } }
            div.entry { (control(field, filled, &id, &described_by, is_wrong)) }
            div.wrongs id=(format!("{id}-wrong")) {
                @for wrong in filled.wrongs(&field.name) { (wrong_one(field, wrong, filled)) }
            }
            p.about id=(about) { (field.about) }
        }
    }
}

fn control(field: &Field, filled: &Filled, id: &str, described_by: &str, is_wrong: bool) -> Markup {
    let invalid = is_wrong.then_some("true");
    let said = filled.stated.said(&field.name);
    let options: Vec<(String, String)> = match field.form {
        "truth" => [("true", "yes"), ("false", "no")].map(|(value, says)| (value.to_owned(), says.to_owned())).into(),
        _ => field.choices.iter().map(|choice| (choice.clone(), words(choice))).collect(),
    };
    // A choice stated several times over, for rows, is no option: it keeps its text.
    let listed = said.as_ref().is_none_or(|said| options.iter().any(|(value, _)| value == said));
    if !options.is_empty() && listed {
        return html! {
            select id=(id) name=(field.name) aria-describedby=(described_by) aria-invalid=[invalid] {
                option value="" { "not stated" }
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
                data-keys=(keys) placeholder=(lines(&field.example)) autocomplete="off" autocapitalize="off"
                spellcheck="false" { (lines(&value)) }
        } @else {
            input id=(id) name=(field.name) value=(value) placeholder=(placeholder(field)) type="text"
                aria-describedby=(described_by) aria-invalid=[invalid] data-keys=(keys) aria-required=[field.required.then_some("true")]
                data-inputmode=(inputmode(field)) autocomplete="off" autocapitalize="off" spellcheck="false";
        }
        @if !units(field).is_empty() { (unit_choice(field, unit)) }
    }
}

fn unit_choice(field: &Field, chosen: Option<Unit>) -> Markup {
    let label = format!("unit of {}", words(&field.name));
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

/// What is wrong and, to be tapped, what would be right.
fn wrong_one(field: &Field, wrong: &Wrong, filled: &Filled) -> Markup {
    let says = &wrong.says;
    html! {
        p.wrong.missing[wrong.code == Code::FieldMissing] { (says) }
        @let ways = ways_out(field, wrong, filled.stated);
        @if !ways.is_empty() {
            p.try {
                @for way in &ways {
                    @if way == "leave out" {
                        a.tap href=(filled.with(&field.name, None)) data-field=(field.name) data-value="" { "leave it out" }
                    } @else {
                        a.tap href=(filled.with(&field.name, Some(way))) data-field=(field.name) data-value=(way) { (way) }
                    }
                    " "
                }
            }
        }
    }
}

/// The values to tap: the one that the refusal tries; for a number without a unit one for each main unit.
fn ways_out(field: &Field, wrong: &Wrong, stated: &Stated) -> Vec<String> {
    let own = wrong.try_this.clone().filter(|value| !value.is_empty());
    if wrong.field.matches('/').count() > 1 {
        // What would be right in one row is not the whole field.
        return Vec::new();
    }
    if wrong.code == Code::UnitMissing
        && let Some(row) = kind(field)
        && let Some(said) = stated.said(&field.name)
        && !said.contains([',', ';', '|'])
        && !said.contains("..")
    {
        let mut units = vec![row.inch.0, row.metric.0];
        units.dedup();
        return units.iter().map(|unit| format!("{} {}", said.trim(), unit.row().ascii)).collect();
    }
    own.into_iter().collect()
}

fn placeholder(field: &Field) -> String {
    if field.example.is_empty() { String::new() } else { format!("such as {}", field.example) }
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

/// Values for a field to tap before anything is typed, from the register's examples.
pub fn values(field: &Field, examples: &[crate::calculators::Example]) -> Vec<&'static str> {
    let mut values = Vec::new();
    for example in examples {
        for (name, value) in example.fields {
            if *name == field.name && !values.contains(value) && value.len() <= 16 {
                values.push(*value);
            }
        }
    }
    values
}

/// The values that a request states, for a sheet of paper: name and value, in order.
pub fn given(fields: &Fields) -> Vec<(String, String)> {
    fields.0.iter().map(|(name, value)| (words(name), value.said())).collect()
}
