//! The pages: a list of the calculators and a form for each, drawn on the server from the register,
//! so that a new calculator appears without an edit here.

pub mod practice;
mod result;
mod shell;

pub use shell::{STYLE, STYLE_ADDRESS};

use crate::asking::{self, Body, Described, Field, Form, describe_entry, described, reserved_fields};
use crate::calculators::{Entry, Task};
use crate::drawing::Stands;
use crate::fields::Fields;
use crate::refusal::Refusal;
use crate::shop;
use maud::{Markup, PreEscaped, html};

/// The list of calculators, grouped by task.
pub fn list() -> String {
    let tasks = Task::ALL.iter().filter_map(|task| {
        let of_task: Vec<&Described> = described().iter().filter(|d| d.entry.task == *task).collect();
        (!of_task.is_empty()).then_some((task, of_task))
    });
    let body = html! {
        h1 { "Shop Reckoner" }
        p { "The sums of a machine shop, checked and with their sources." }
        @for (task, calculators) in tasks {
            section {
                h2 { (task.words()) }
                dl {
                    @for described in calculators {
                        dt { a href=(format!("/{}", described.entry.id)) { (described.entry.title) } }
                        dd { (described.entry.about) }
                    }
                }
            }
        }
    };
    shell::page("Shop Reckoner", body)
}

/// The page for an address that has no calculator.
pub fn missing(id: &str) -> String {
    let body = html! {
        h1 { "No such calculator" }
        p { "There is no calculator " (crate::quantity::shown(id)) "." }
        p { a href="/" { "All calculators" } }
    };
    shell::page("No such calculator", body)
}

/// A calculator's page filled from a query, and whether the query could be answered.
pub fn form(entry: &'static Entry, query: &str) -> (String, bool) {
    let fields = Fields::of_query(query);
    let broken = fields.is_none();
    let mut fields = fields.unwrap_or_default();
    // A form sends its empty fields too; on a page they count as not given.
    fields.0.retain(|(_, value)| !value.said().trim().is_empty());
    let outcome = if fields.0.is_empty() { None } else { Some(asking::ask(entry, fields.clone(), Form::Json)) };
    let refusal = match &outcome {
        Some(Err(refusal)) => refusal.clone(),
        _ => Refusal::default(),
    };
    let sound = refusal.0.is_empty() && !broken;
    let body = html! {
        nav { a href="/" { "All calculators" } }
        h1 { (entry.title) }
        p { (entry.about) }
        @if broken { p.wrong { "The address is not well percent-encoded; the form below is empty." } }
        @if let Some(Ok((answer, _))) = &outcome { (result::result(answer, drawing(entry, &fields, &answer.body))) }
        @if let Some(described) = describe_entry(entry) {
            (inputs(described, &fields, &refusal))
        }
        @if let Some(Ok((answer, _))) = &outcome { (result::grounds(answer)) }
        (examples(entry))
    };
    (shell::page(entry.title, body), sound)
}

/// The drawing of the answer, with the address it has by itself.
fn drawing(entry: &'static Entry, fields: &Fields, body: &Body) -> Markup {
    // A table of answers has no one drawing.
    if !matches!(body, Body::Result(_)) {
        return html! {};
    }
    let Some(Ok(svg)) = asking::drawing(entry, fields.clone(), Form::Json, Stands::InPage) else { return html! {} };
    let own = |name: &str| Form::Drawing.names().contains(&name) || !asking::RESERVED.contains(&name);
    let given = fields.0.iter().filter(|(name, _)| own(name)).map(|(name, value)| (name, value.said()));
    let query = form_urlencoded::Serializer::new(String::new()).extend_pairs(given).finish();
    html! {
        figure.drawing {
            (PreEscaped(svg))
            figcaption { a href=(format!("/v1/{}.svg?{query}", entry.id)) { "The drawing by itself" } }
        }
    }
}

fn inputs(described: &Described, fields: &Fields, refusal: &Refusal) -> Markup {
    let own = Form::Json.names().iter().filter(|name| **name != "working");
    let (machine, reserved): (Vec<&Field>, Vec<&Field>) = own
        .filter_map(|name| reserved_fields().iter().find(|field| field.name == *name))
        .partition(|field| field.name == "machine");
    let machine = machine.into_iter().find_map(machines);
    let stated = described.fields.iter().chain(&machine);
    let names: Vec<&str> = stated.clone().chain(reserved.iter().copied()).map(|f| f.name.as_str()).collect();
    let of = |wrong: &crate::refusal::Wrong| wrong.field.split('/').nth(1).unwrap_or_default().to_owned();
    let in_use = |field: &Field| {
        fields.0.iter().any(|(name, _)| *name == field.name) || refusal.0.iter().any(|wrong| of(wrong) == field.name)
    };
    html! {
        form method="get" action=(format!("/{}", described.entry.id)) {
            @for wrong in refusal.0.iter().filter(|wrong| !names.contains(&of(wrong).as_str())) {
                p.wrong { (of(wrong)) ": " (wrong.says) }
            }
            @for field in stated { (input(field, fields, refusal)) }
            details open[reserved.iter().any(|field| in_use(field))] {
                summary { "Units, readout, solving backwards" }
                @for field in &reserved { (input(field, fields, refusal)) }
            }
            p { button type="submit" { "Work it out" } }
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

fn input(field: &Field, fields: &Fields, refusal: &Refusal) -> Markup {
    let given = fields.0.iter().find(|(name, _)| *name == field.name).map(|(_, value)| value.said());
    let value = given.clone().unwrap_or_default();
    let wrong = refusal.0.iter().find(|wrong| wrong.field.split('/').nth(1) == Some(&field.name));
    let id = format!("field-{}", field.name);
    let hint = format!("{id}-about");
    let label = field.name.replace('_', " ");
    html! {
        div.field {
            label for=(id) { (label) @if field.required { " (needed)" } }
            @if field.choices.is_empty() {
                input id=(id) name=(field.name) value=(value) placeholder=(field.example) aria-describedby=(hint)
                    inputmode=[(field.form == "count").then_some("numeric")] autocomplete="off" autocapitalize="off"
                    spellcheck="false" aria-invalid=[wrong.map(|_| "true")];
            } @else {
                select id=(id) name=(field.name) aria-describedby=(hint) {
                    option value="" { "not stated" }
                    @for choice in &field.choices {
                        option value=(choice) selected[given.as_ref() == Some(choice)] { (choice.replace('_', " ")) }
                    }
                }
            }
            @if let Some(wrong) = wrong {
                p.wrong { (wrong.says) @if let Some(value) = &wrong.try_this { " Try " b { (value) } "." } }
            }
            p.about id=(hint) {
                (field.about)
                @if !field.units.is_empty() { " In " (field.units.join(", ")) "." }
            }
        }
    }
}

fn examples(entry: &Entry) -> Markup {
    html! {
        section {
            h2 { "Examples" }
            ul {
                @for example in entry.examples {
                    @let query = form_urlencoded::Serializer::new(String::new()).extend_pairs(example.fields).finish();
                    li { a href=(format!("/{}?{query}", entry.id)) { (example.says) } }
                }
            }
        }
    }
}
