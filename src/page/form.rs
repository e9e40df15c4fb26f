//! A calculator's form: the fields of its main use open, the others and those of every calculator folded.

use super::field::{Filled, field, field_of, values, words};
use super::stated::{RANGE, kind};
use crate::asking::{Described, Field, Form, reserved_fields};
use crate::shop;
use maud::{Markup, html};

/// The form of a calculator.
pub fn form(described: &Described, filled: &Filled) -> Markup {
    let entry = described.entry;
    let main_use: Vec<&str> =
        entry.examples.first().into_iter().flat_map(|example| example.fields).map(|(name, _)| *name).collect();
    let (open, folded): (Vec<&Field>, Vec<&Field>) = described
        .fields
        .iter()
        .partition(|field| field.required || main_use.contains(&field.name.as_str()) || filled.in_use(&field.name));
    let reserved = |name: &str| reserved_fields().iter().find(|field| field.name == name);
    let readout: Vec<&Field> = ["resolution", "z_plus", "x_reads"].into_iter().filter_map(reserved).collect();
    let known =
        |name: &str| described.fields.iter().any(|field| field.name == name) || Form::Json.names().contains(&name);
    html! {
        form #form method="get" autocomplete="off" action=(format!("/{}#answer", entry.id)) data-id=(entry.id) {
            @for wrong in filled.refusal.0.iter().filter(|wrong| !known(field_of(wrong))) {
                p.wrong { (words(field_of(wrong))) ": " (wrong.says)
                    " " a.tap href=(filled.with(field_of(wrong), None)) { "leave it out" } }
            }
            (systems(filled))
            @for one in &open { (field(one, filled)) (to_tap(one, described, filled)) }
            @if let Some(machine) = reserved("machine").and_then(machines) { (field(&machine, filled)) }
            p.submit { button type="submit" { "Work it out" } }
            @if !folded.is_empty() {
                details.more open[folded.iter().any(|field| filled.in_use(&field.name))] {
                    summary { "More to state (" (folded.len()) ")" }
                    @for one in &folded { (field(one, filled)) }
                }
            }
            details.more open[readout.iter().any(|field| filled.in_use(&field.name))] {
                summary { "Readout and dials" }
                @for one in &readout { (field(one, filled)) }
            }
            (chart(described))
            (backwards(described, filled))
        }
    }
}

/// Inch or metric, for the answer and for units not chosen yet.
fn systems(filled: &Filled) -> Markup {
    let said = filled.stated.said("units");
    let options = [("", "as asked"), ("inch", "inch"), ("metric", "metric")];
    html! {
        fieldset.systems {
            legend { "Units" }
            @for (value, says) in options {
                label { input type="radio" name="units" value=(value) checked[said.as_deref().unwrap_or("") == value]; span { (says) } }
            }
            @for wrong in filled.wrongs("units") { p.wrong { (wrong.says) } }
        }
    }
}

/// Values to tap for a field that is filled with words, while it is empty.
fn to_tap(field: &Field, described: &Described, filled: &Filled) -> Markup {
    let named = field.form == "words" || field.takes_names();
    let values =
        if named && !filled.in_use(&field.name) { values(field, described.entry.examples) } else { Vec::new() };
    html! {
        @if values.len() > 1 {
            p.try { @for value in values {
                a.tap href=(filled.with(&field.name, Some(value))) data-field=(field.name) data-value=(value) { (value) } " "
            } }
        }
    }
}

/// The field `machine` as a choice among the shop's; none where there are none.
fn machines(field: &Field) -> Option<Field> {
    let shop = shop::installed().filter(|shop| !shop.machines.is_empty())?;
    let choices = shop.machines.iter().map(|machine| machine.name.clone()).collect();
    let about = format!("A machine of {}: its fields stand in for those not stated.", shop.name);
    Some(Field { choices, about, ..field.clone() })
}

/// One input over a range: the answer is then a chart for the wall.
fn chart(described: &Described) -> Markup {
    let fields: Vec<&Field> =
        described.fields.iter().filter(|field| field.is_quantity() || field.form == "count").collect();
    if fields.is_empty() {
        return html! {};
    }
    let [of, from, to, step] = RANGE;
    let part = |name: &str, says: &str, example: &str| {
        html! {
            div.field {
                label for=(name) { (says) }
                div.entry { input id=(name) name=(name) type="text" placeholder=(example) autocomplete="off"
                    autocapitalize="off" spellcheck="false" data-keys="/ - . ␣" data-inputmode="decimal"; }
            }
        }
    };
    html! {
        details.more {
            summary { "A chart for the wall" }
            p.about { "One input over a range, each value a row. The unit is that beside the input, or is typed with the first value." }
            div.field {
                label for=(of) { "input" }
                div.entry { select id=(of) name=(of) {
                    option value="" { "none" }
                    @for field in &fields { option value=(field.name) { (words(&field.name)) } }
                } }
            }
            div.three { (part(from, "from", "such as 1/4 in")) (part(to, "to", "such as 1")) (part(step, "step", "such as 1/16")) }
            p.submit { button type="submit" { "Make the chart" } }
        }
    }
}

/// From a wanted or a measured result back to an input.
fn backwards(described: &Described, filled: &Filled) -> Markup {
    let inputs: Vec<&Field> =
        described.fields.iter().filter(|field| kind(field).is_some() || field.form == "count").collect();
    let is_open = ["solve_for", "wanted", "measured", "correct"].iter().any(|name| filled.in_use(name));
    let pick = |name: &str, says: &str, options: &[(&str, bool)]| {
        html! {
            div.field data-field=(name) {
                label for=(format!("field-{name}")) { (says) }
                div.entry { select id=(format!("field-{name}")) name=(name) {
                    option value="" { "not stated" }
                    @for (option, chosen) in options { option value=(option) selected[*chosen] { (words(option)) } }
                } }
                div.wrongs { @for wrong in filled.wrongs(name) { p.wrong { (wrong.says) } } }
            }
        }
    };
    let value = |name: &str, says: &str| {
        let said = filled.stated.said(name).unwrap_or_default();
        let said = said.split_once(':').map_or(said.as_str(), |(_, value)| value).to_owned();
        let id = format!("field-{name}");
        html! {
            div.field data-field=(name) {
                label for=(id) { (says) }
                div.entry { input id=(id) name=(name) value=(said) type="text" placeholder="such as 0.152 in"
                    autocomplete="off" autocapitalize="off" spellcheck="false" data-keys="/ - . ␣" data-inputmode="text"; }
                div.wrongs { @for wrong in filled.wrongs(name) { p.wrong { (wrong.says) } } }
            }
        }
    };
    let result_of = |name: &str| {
        let said = filled.stated.said(name).unwrap_or_default();
        let of = said.split_once(':').map(|(of, _)| of.to_owned()).unwrap_or_default();
        described.results.iter().map(|result| (result.name, of == result.name)).collect::<Vec<_>>()
    };
    let input_of = |name: &str| {
        let said = filled.stated.said(name).unwrap_or_default();
        inputs.iter().map(|field| (field.name.as_str(), said == field.name)).collect::<Vec<_>>()
    };
    html! {
        details.more open[is_open] {
            summary { "Backwards: wanted or measured" }
            p.about { "Leave one input out and find the value that gives a wanted result." }
            (pick("solve_for", "find", &input_of("solve_for")))
            (pick("wanted.of", "so that", &result_of("wanted")))
            (value("wanted", "is"))
            p.about { "Or state every input as meant and a result as measured, and see what an input must have been." }
            (pick("measured.of", "measured", &result_of("measured")))
            (value("measured", "was"))
            (pick("correct", "correct", &input_of("correct")))
            p.submit { button type="submit" { "Work it out" } }
        }
    }
}
