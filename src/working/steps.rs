//! The steps of a calculation: the values they show, and how an answer writes them.

use crate::json::{Json, Text, ToJson};
use crate::quantity::{Dimension, Found, Kind, Measure, Quantity, System, Unit, text};
use std::borrow::Cow;

/// How a step comes to what it gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// By evaluating its formula.
    Formula,
    /// By looking it up in a table.
    Table,
    /// By choosing one of the values it shows.
    Choice,
}

impl By {
    /// The word in the answer.
    pub const fn as_str(self) -> &'static str {
        match self {
            By::Formula => "formula",
            By::Table => "table",
            By::Choice => "choice",
        }
    }
}

/// A value in a step.
#[derive(Clone, Debug)]
pub enum Shown {
    /// A quantity asked for, shown as it was stated.
    Stated(Quantity),
    /// A quantity found, shown in the answer's units.
    Quantity(Quantity),
    /// A plain number.
    Number(f64),
    /// Words.
    Text(Cow<'static, str>),
    /// One quantity asked for, for each row of a list.
    StatedList(Vec<Quantity>),
    /// One quantity found, for each row of a list.
    Quantities(Vec<Quantity>),
    /// One number for each row of a list.
    Numbers(Vec<f64>),
    /// One word for each row of a list.
    Texts(Vec<Cow<'static, str>>),
}

impl Shown {
    /// Its numbers, one or one for each row, in SI units; `None` for words.
    pub fn numbers(&self) -> Option<Vec<f64>> {
        let si = |list: &[Quantity]| list.iter().map(Quantity::si).collect();
        Some(match self {
            Shown::Stated(quantity) | Shown::Quantity(quantity) => vec![quantity.si()],
            Shown::StatedList(list) | Shown::Quantities(list) => si(list),
            Shown::Number(number) => vec![*number],
            Shown::Numbers(list) => list.clone(),
            Shown::Text(_) | Shown::Texts(_) => return None,
        })
    }

    /// Whether it is an angle, or a list of angles.
    pub fn is_angle(&self) -> bool {
        let one = match self {
            Shown::Stated(quantity) | Shown::Quantity(quantity) => Some(quantity),
            Shown::StatedList(list) | Shown::Quantities(list) => list.first(),
            _ => None,
        };
        one.is_some_and(|quantity| quantity.unit.row().dimension == Dimension::Angle)
    }

    pub(super) fn quantities(&self) -> &[Quantity] {
        match self {
            Shown::Quantity(quantity) => std::slice::from_ref(quantity),
            Shown::Quantities(list) => list,
            _ => &[],
        }
    }

    /// The same with limits as they are printed.
    pub(super) fn as_printed(&self) -> Self {
        match self {
            Shown::Quantity(quantity) => Shown::Quantity(quantity.as_printed()),
            Shown::Quantities(list) => Shown::Quantities(list.iter().map(Quantity::as_printed).collect()),
            other => other.clone(),
        }
    }
}

impl<K: Kind> From<Measure<K>> for Shown {
    fn from(measure: Measure<K>) -> Self {
        // A formula reckons with the length that threads in an inch stand for.
        Shown::Stated(measure.quantity().as_length())
    }
}

impl<K: Kind> From<Found<K>> for Shown {
    fn from(found: Found<K>) -> Self {
        Shown::Quantity(found.quantity())
    }
}

impl<K: Kind> From<Vec<Found<K>>> for Shown {
    fn from(found: Vec<Found<K>>) -> Self {
        Shown::Quantities(found.iter().map(Found::quantity).collect())
    }
}

impl<K: Kind> From<&[Measure<K>]> for Shown {
    fn from(measures: &[Measure<K>]) -> Self {
        Shown::StatedList(measures.iter().map(Measure::quantity).collect())
    }
}

impl From<f64> for Shown {
    fn from(number: f64) -> Self {
        Shown::Number(number)
    }
}

impl From<u32> for Shown {
    fn from(count: u32) -> Self {
        Shown::Number(f64::from(count))
    }
}

impl From<Vec<f64>> for Shown {
    fn from(numbers: Vec<f64>) -> Self {
        Shown::Numbers(numbers)
    }
}

impl From<&'static str> for Shown {
    fn from(text: &'static str) -> Self {
        Shown::Text(Cow::Borrowed(text))
    }
}

impl From<String> for Shown {
    fn from(text: String) -> Self {
        Shown::Text(text.into())
    }
}

impl From<bool> for Shown {
    fn from(truth: bool) -> Self {
        Shown::Text(Cow::Borrowed(if truth { "true" } else { "false" }))
    }
}

impl From<Vec<String>> for Shown {
    fn from(texts: Vec<String>) -> Self {
        Shown::Texts(texts.into_iter().map(Cow::Owned).collect())
    }
}

impl From<Vec<&'static str>> for Shown {
    fn from(texts: Vec<&'static str>) -> Self {
        Shown::Texts(texts.into_iter().map(Cow::Borrowed).collect())
    }
}

/// A symbol of a formula: what it stands for and its value.
#[derive(Clone, Debug)]
pub(super) struct With {
    pub(super) symbol: &'static str,
    pub(super) of: Cow<'static, str>,
    pub(super) value: Shown,
}

/// One step.
#[derive(Clone, Debug)]
pub struct Step {
    pub(super) what: Cow<'static, str>,
    pub(super) by: By,
    pub(super) formula: Cow<'static, str>,
    pub(super) with: Vec<With>,
    pub(super) field: Cow<'static, str>,
    pub(super) gives: Shown,
}

impl Step {
    /// How it comes to what it gives.
    pub fn by(&self) -> By {
        self.by
    }

    /// Its formula, table or rule.
    pub fn formula(&self) -> &str {
        &self.formula
    }

    /// Each symbol, what it stands for, and its value.
    pub fn symbols(&self) -> impl Iterator<Item = (&'static str, &str, &Shown)> {
        self.with.iter().map(|with| (with.symbol, with.of.as_ref(), &with.value))
    }

    /// The field it gives.
    pub fn field(&self) -> &str {
        &self.field
    }

    /// What it gives.
    pub fn gives(&self) -> &Shown {
        &self.gives
    }
}

/// A step as an answer of `system` writes it. Inputs stand as they were stated.
pub struct StepIn<'s>(pub &'s Step, pub System);

impl ToJson for StepIn<'_> {
    fn write(&self, json: &mut Json) {
        let Self(step, system) = self;
        json.object(|json| {
            json.member("what", &step.what);
            json.member("by", step.by.as_str());
            json.member("formula", &step.formula);
            json.name("with").text(|text| {
                for (at, part) in step.with.iter().enumerate() {
                    let before = if at > 0 { "; " } else { "" };
                    [before, part.symbol, " (", &part.of, ") = "].iter().for_each(|part| text.words(part));
                    write_shown(text, &part.value, *system);
                }
            });
            json.name("gives").object(|json| write_given(json, step, *system));
        });
    }
}

fn write_shown(out: &mut Text, shown: &Shown, system: System) {
    fn number(out: &mut Text, value: f64) {
        text::write_full_again(out.plain(), text::tidy(value));
    }
    fn quantity(out: &mut Text, (value, unit): (f64, Unit)) {
        // Tidied already.
        text::write_full_again(out.plain(), value);
        out.plain().push(b' ');
        out.plain().extend_from_slice(unit.spelling().as_bytes());
    }
    fn each<T>(out: &mut Text, list: &[T], mut write: impl FnMut(&mut Text, &T)) {
        for (at, one) in list.iter().enumerate() {
            if at > 0 {
                out.plain().extend_from_slice(b", ");
            }
            write(out, one);
        }
    }
    let stated = |out: &mut Text, one: &Quantity| quantity(out, (text::tidy(one.value), one.unit));
    let found = |out: &mut Text, one: &Quantity| quantity(out, one.value_in(system));
    match shown {
        Shown::Stated(one) => stated(out, one),
        Shown::Quantity(one) => found(out, one),
        Shown::Number(value) => number(out, *value),
        Shown::Text(words) => out.words(words),
        Shown::StatedList(list) => each(out, list, stated),
        Shown::Quantities(list) => each(out, list, found),
        Shown::Numbers(list) => each(out, list, |out, value| number(out, *value)),
        Shown::Texts(list) => each(out, list, |out, words| out.words(words)),
    }
}

/// The members of what a step gives.
fn write_given(json: &mut Json, step: &Step, system: System) {
    json.member("field", &step.field);
    match &step.gives {
        Shown::Stated(quantity) | Shown::Quantity(quantity) => {
            let quantity = quantity.in_system(system);
            json.quantity(quantity.value, quantity.unit, |out| quantity.write_text(out));
        }
        Shown::Number(number) => json.member("value", &text::tidy(*number)),
        Shown::Text(words) => json.member("text", words),
        Shown::StatedList(list) | Shown::Quantities(list) => {
            json.name("values").list(list, |json, quantity| quantity.value_in(system).0.write(json));
            json.member_if_some("unit", list.first().map(|first| first.value_in(system).1.spelling()));
        }
        Shown::Numbers(list) => json.name("values").list(list, |json, number| text::tidy(*number).write(json)),
        Shown::Texts(list) => json.member("texts", list),
    }
}
