//! A calculator's form: units and machine, what is needed, what its main use states; the others and those of every
//! calculator folded.

use super::field::{Filled, field, field_of, label, values};
use super::stated::{RANGE, kind};
use crate::asking::{Described, Field, Form, reserved_fields};
use crate::shop;
use maud::{Markup, html};

/// What the machine has beside [`shop::MACHINE_FIELDS`], and what of those a job states oftener than a machine.
const ALSO_OF_A_MACHINE: &str = "may_exceed";
const OFTENER_OF_A_JOB: [&str; 2] = ["travel_per_turn", "divisions"];

fn is_of_the_machine(name: &str) -> bool {
    let listed = shop::MACHINE_FIELDS.iter().any(|field| field.name == name) && !OFTENER_OF_A_JOB.contains(&name);
    listed || name == ALSO_OF_A_MACHINE
}

/// The form of a calculator: what is needed first, then what its main use states; the rest folded.
pub fn form(described: &Described, filled: &Filled) -> Markup {
    let entry = described.entry;
    let main_use: Vec<&str> =
        entry.examples.first().into_iter().flat_map(|example| example.fields).map(|(name, _)| *name).collect();
    let is_open = |field: &Field| {
        let name = field.name.as_str();
        field.required || filled.in_use(name) || (main_use.contains(&name) && !is_of_the_machine(name))
    };
    let (mut open, folded): (Vec<&Field>, Vec<&Field>) = described.fields.iter().partition(|field| is_open(field));
    open.sort_by_key(|field| !field.required);
    let (of_machine, more): (Vec<&Field>, Vec<&Field>) =
        folded.into_iter().partition(|field| is_of_the_machine(&field.name));
    let reserved = |name: &str| reserved_fields().iter().find(|field| field.name == name);
    let known =
        |name: &str| described.fields.iter().any(|field| field.name == name) || Form::Json.names().contains(&name);
    html! {
        form #form method="get" autocomplete="off" action=(format!("/{}#answer", entry.id)) data-id=(entry.id) {
            @for wrong in filled.refusal.0.iter().filter(|wrong| !known(field_of(wrong))) {
                p.wrong { (label(entry, field_of(wrong))) ": " (wrong.says)
                    " " a.tap href=(filled.with(field_of(wrong), None)) { "leave it out" } }
            }
            (systems(filled))
            @if let Some(machine) = reserved("machine").and_then(machines) { (field(&machine, filled)) }
            @for one in &open { (field(one, filled)) (to_tap(one, described, filled)) }
            p.submit { button type="submit" { "Work it out" } }
            (folded_fields("More fields", &more, filled))
            (folded_fields("What the machine has", &of_machine, filled))
            (less_often(described, filled))
        }
    }
}

/// Fields that are rarely stated.
fn folded_fields(says: &str, fields: &[&Field], filled: &Filled) -> Markup {
    html! {
        @if !fields.is_empty() {
            details.more {
                summary { (says) " (" (fields.len()) ")" }
                @for one in fields { (field(one, filled)) }
            }
        }
    }
}

/// What every calculator has beside its own fields.
fn less_often(described: &Described, filled: &Filled) -> Markup {
    let names = ["resolution", "z_plus", "x_reads"];
    let readout: Vec<&Field> =
        names.iter().filter_map(|name| reserved_fields().iter().find(|field| field.name == *name)).collect();
    let is_open = |names: &[&str]| names.iter().any(|name| filled.in_use(name));
    html! {
        details.more open[is_open(&names) || is_open(&BACKWARDS)] {
            summary { "Readout, chart, backwards" }
            section {
                h2 { "Readout and dials" }
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
    let options = [("", "as typed"), ("inch", "inch"), ("metric", "metric")];
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

/// How many values at most stand to be tapped.
const TO_TAP: usize = 5;

/// Values to tap for a field that is filled with words, while it is empty.
fn to_tap(field: &Field, described: &Described, filled: &Filled) -> Markup {
    let named = field.form == "words" || field.takes_names();
    let values =
        if named && !filled.in_use(&field.name) { values(field, described.entry.examples) } else { Vec::new() };
    html! {
        @if values.len() > 1 {
            p.try.few { @for value in values.into_iter().take(TO_TAP) {
                a.tap href=(filled.with(&field.name, Some(value))) data-field=(field.name) data-value=(value) { (value) } " "
            } }
        }
    }
}

/// The field `machine` as a choice among the shop's; none where there are none.
fn machines(field: &Field) -> Option<Field> {
    let shop = shop::installed().filter(|shop| !shop.machines.is_empty())?;
    let choices = shop.machines.iter().map(|machine| machine.name.clone()).collect();
    let about =
        format!("A machine of {}: what it has stands in for fields not stated. This device remembers it.", shop.name);
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
        section {
            h2 { "A chart for the wall" }
            p.about { "One input over a range, each value a row. The unit is that beside the input, or is typed with the first value." }
            div.field {
                label for=(of) { "Input" }
                div.entry { select id=(of) name=(of) {
                    option value="" { "none" }
                    @for field in &fields { option value=(field.name) { (field.label) } }
                } }
            }
            div.three { (part(from, "From", "such as 1/4 in")) (part(to, "To", "such as 1")) (part(step, "Step", "such as 1/16")) }
            p.submit { button type="submit" { "Make the chart" } }
        }
    }
}

/// The fields by which an answer is found backwards.
const BACKWARDS: [&str; 4] = ["solve_for", "wanted", "measured", "correct"];

/// From a wanted or a measured result back to an input.
fn backwards(described: &Described, filled: &Filled) -> Markup {
    let inputs: Vec<&Field> =
        described.fields.iter().filter(|field| kind(field).is_some() || field.form == "count").collect();
    let pick = |name: &str, says: &str, options: &[(&str, &str, bool)]| {
        html! {
            div.field data-field=(name) {
                label for=(format!("field-{name}")) { (says) }
                div.entry { select id=(format!("field-{name}")) name=(name) {
                    option value="" { "not stated" }
                    @for (option, says, chosen) in options { option value=(option) selected[*chosen] { (says) } }
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
        described.results.iter().map(|result| (result.name, result.label, of == result.name)).collect::<Vec<_>>()
    };
    let input_of = |name: &str| {
        let said = filled.stated.said(name).unwrap_or_default();
        inputs.iter().map(|field| (field.name.as_str(), field.label, said == field.name)).collect::<Vec<_>>()
    };
    html! {
        section {
            h2 { "Backwards: wanted or measured" }
            p.about { "Leave one input out and find the value that gives a wanted result." }
            (pick("solve_for", "Find", &input_of("solve_for")))
            (pick("wanted.of", "So that", &result_of("wanted")))
            (value("wanted", "Is"))
            p.about { "Or state every input as meant and a result as measured, and see what an input must have been." }
            (pick("measured.of", "Measured", &result_of("measured")))
            (value("measured", "Was"))
            (pick("correct", "Correct", &input_of("correct")))
            p.submit { button type="submit" { "Work it out" } }
        }
    }
}
