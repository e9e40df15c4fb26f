//! One field of a form: its label, the field with the unit beside it, what it is, and what is wrong with it.

use super::control::control;
use super::stated::{Stated, kind};
use crate::asking::{Field, reserved_fields};
use crate::calculators::Entry;
use crate::declared::{Member, Shape, capital, in_sentence, label_of, said_word};
use crate::fields::Fields;
use crate::refusal::{Code, Refusal, Wrong};
use maud::{Markup, html};

/// What a form shows: the calculator, what is stated and what is wrong with it.
pub struct Filled<'a> {
    /// The calculator.
    pub entry: &'static Entry,
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
        format!("/{}?{}#field-{name}", self.entry.id, self.stated.query_with(name, value))
    }
}

/// The top-level field an error is about.
pub fn field_of(wrong: &Wrong) -> &str {
    wrong.field.split('/').nth(1).unwrap_or_default()
}

/// What a person calls the field `name` of a calculator, or a field that every request has.
pub fn label(entry: &Entry, name: &str) -> String {
    let reserved = reserved_fields().iter().find(|field| field.name == name);
    reserved.map_or_else(|| label_of(entry.input.members, name), |field| field.label.to_owned())
}

/// A text for a person, in which fields and words to choose from stand as a person calls them.
pub fn in_words(text: &str, entry: &Entry) -> String {
    let is_part = |c: char| c.is_ascii_alphanumeric() || c == '_';
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while !rest.is_empty() {
        let end = rest.find(|c| !is_part(c)).unwrap_or(rest.len());
        let (word, after) = rest.split_at(end);
        match word.contains('_') {
            true if out.is_empty() => out.push_str(&capital(&name_in_words(word, entry))),
            true => out.push_str(&name_in_words(word, entry)),
            false => out.push_str(word),
        }
        let next = after.find(is_part).unwrap_or(after.len());
        out.push_str(&after[..next]);
        rest = &after[next..];
    }
    out
}

fn name_in_words(name: &str, entry: &Entry) -> String {
    let known = |members: &[Member]| members.iter().find(|member| member.name == name).map(|member| member.label);
    let reserved = || reserved_fields().iter().find(|field| field.name == name).map(|field| field.label);
    let label = known(entry.input.members).or_else(|| known(entry.output.members)).or_else(reserved);
    label.filter(|label| !label.is_empty()).map_or_else(|| said_word(name), in_sentence)
}

/// A field.
pub fn field(field: &Field, filled: &Filled) -> Markup {
    let id = format!("field-{}", field.name);
    let about = format!("{id}-about");
    let is_wrong = filled.wrongs(&field.name).next().is_some();
    let described_by = if is_wrong { format!("{id}-wrong {about}") } else { about.clone() };
    html! {
        div.field.first[field.required] data-field=(field.name) {
            label for=(id) { (field.label) @if field.required { " " span.needed { "needed" } } }
            div.entry { (control(field, filled, &id, &described_by, is_wrong)) }
            div.wrongs id=(format!("{id}-wrong")) {
                @for wrong in filled.wrongs(&field.name) { (wrong_one(field, wrong, filled)) }
            }
            p.about id=(about) { (in_words(&field.about, filled.entry).replace("if absent", "if left empty")) }
        }
    }
}

/// What is wrong and, to be tapped, what would be right.
fn wrong_one(field: &Field, wrong: &Wrong, filled: &Filled) -> Markup {
    let says = in_words(&wrong.says, filled.entry);
    html! {
        p.wrong.missing[wrong.code == Code::FieldMissing] { (says) }
        @let ways = ways_out(field, wrong, filled.stated);
        @if !ways.is_empty() {
            p.try {
                @for way in &ways {
                    @if way == "leave out" {
                        a.tap href=(filled.with(&field.name, None)) data-field=(field.name) data-value="" { "leave it out" }
                    } @else {
                        a.tap href=(filled.with(&field.name, Some(way))) data-field=(field.name) data-value=(way) { (said_way(field, way)) }
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

/// A value to tap, in words where it is one of those to choose from.
fn said_way(field: &Field, way: &str) -> String {
    if field.choices.iter().any(|choice| choice == way) { said_word(way) } else { way.to_owned() }
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

/// The values that a request states, for a sheet of paper: label and value, in order.
pub fn given(entry: &Entry, fields: &Fields) -> Vec<(String, String)> {
    let said = |name: &str, value: String| {
        let member = entry.input.members.iter().find(|member| member.name == name);
        let is_choice = member.is_some_and(|member| matches!(member.of.shape, Shape::Choice(_)));
        if is_choice { said_word(&value) } else { value.replace(';', "; ") }
    };
    fields.0.iter().map(|(name, value)| (label(entry, name), said(name, value.said()))).collect()
}
