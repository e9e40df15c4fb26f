//! The steps of a calculation: the values they show, and how an answer writes them.

use crate::quantity::{Dimension, Found, Kind, Measure, Quantity, System, text};
use serde::ser::{Serialize, SerializeMap, Serializer};
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

impl Serialize for StepIn<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self(step, system) = self;
        let mut map = serializer.serialize_map(Some(5))?;
        map.serialize_entry("what", &step.what)?;
        map.serialize_entry("by", step.by.as_str())?;
        map.serialize_entry("formula", &step.formula)?;
        let mut with = String::with_capacity(64);
        for part in &step.with {
            if !with.is_empty() {
                with.push_str("; ");
            }
            [part.symbol, " (", &part.of, ") = "].iter().for_each(|part| with.push_str(part));
            write_shown(&mut with, &part.value, *system);
        }
        map.serialize_entry("with", &with)?;
        map.serialize_entry("gives", &GivesIn(step, *system))?;
        map.end()
    }
}

fn tidied(quantity: &Quantity) -> Quantity {
    Quantity { value: text::tidy(quantity.value), ..*quantity }
}

/// The value must be tidied already.
fn write_quantity(out: &mut String, quantity: &Quantity) {
    text::write_full(out, quantity.value);
    out.push(' ');
    out.push_str(quantity.unit.spelling());
}

fn write_shown(out: &mut String, shown: &Shown, system: System) {
    let separate = |out: &mut String, at: usize| {
        if at > 0 {
            out.push_str(", ");
        }
    };
    match shown {
        Shown::Stated(quantity) => write_quantity(out, &tidied(quantity)),
        Shown::Quantity(quantity) => write_quantity(out, &quantity.in_system(system)),
        Shown::Number(number) => text::write_full(out, text::tidy(*number)),
        Shown::Text(words) => out.push_str(words),
        Shown::StatedList(list) => list.iter().enumerate().for_each(|(at, quantity)| {
            separate(out, at);
            write_quantity(out, &tidied(quantity));
        }),
        Shown::Quantities(list) => list.iter().enumerate().for_each(|(at, quantity)| {
            separate(out, at);
            write_quantity(out, &quantity.in_system(system));
        }),
        Shown::Numbers(list) => list.iter().enumerate().for_each(|(at, number)| {
            separate(out, at);
            text::write_full(out, text::tidy(*number));
        }),
        Shown::Texts(list) => list.iter().enumerate().for_each(|(at, words)| {
            separate(out, at);
            out.push_str(words);
        }),
    }
}

struct GivesIn<'s>(&'s Step, System);

impl Serialize for GivesIn<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Self(step, system) = self;
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("field", &step.field)?;
        match &step.gives {
            Shown::Stated(quantity) | Shown::Quantity(quantity) => {
                let quantity = quantity.in_system(*system);
                map.serialize_entry("value", &quantity.value)?;
                map.serialize_entry("unit", quantity.unit.spelling())?;
                map.serialize_entry("text", &quantity.text())?;
            }
            Shown::Number(number) => map.serialize_entry("value", &text::tidy(*number))?,
            Shown::Text(words) => map.serialize_entry("text", words)?,
            Shown::StatedList(list) | Shown::Quantities(list) => {
                let values: Vec<f64> = list.iter().map(|quantity| quantity.in_system(*system).value).collect();
                map.serialize_entry("values", &values)?;
                if let Some(first) = list.first() {
                    map.serialize_entry("unit", first.in_system(*system).unit.spelling())?;
                }
            }
            Shown::Numbers(list) => {
                map.serialize_entry("values", &list.iter().map(|n| text::tidy(*n)).collect::<Vec<_>>())?;
            }
            Shown::Texts(list) => map.serialize_entry("texts", list)?,
        }
        map.end()
    }
}
