//! What is written on a drawing: words and quantities, the quantities in the system asked for.

use crate::quantity::{Found, Kind, Measure, Quantity, System};
use std::borrow::Cow;

/// What stands on a drawing: words and quantities, in lines.
#[derive(Clone, Debug, Default)]
pub struct Words(Vec<Part>);

#[derive(Clone, Debug)]
enum Part {
    Text(Cow<'static, str>),
    Quantity(Quantity),
}

impl Words {
    /// Words that begin with `text`.
    pub fn of(text: impl Into<Cow<'static, str>>) -> Self {
        Self(vec![Part::Text(text.into())])
    }

    /// With `text` after it; a line break in it begins a new line.
    pub fn then(mut self, text: impl Into<Cow<'static, str>>) -> Self {
        self.0.push(Part::Text(text.into()));
        self
    }

    /// With a quantity after it.
    pub fn value(mut self, quantity: impl Into<Written>) -> Self {
        self.0.push(Part::Quantity(quantity.into().0));
        self
    }

    /// As they read in `system`.
    pub fn text(&self, system: System) -> String {
        let mut out = String::new();
        for part in &self.0 {
            match part {
                Part::Text(text) => out.push_str(text),
                Part::Quantity(quantity) => quantity.in_system(system).write_text(&mut out),
            }
        }
        out
    }
}

/// A quantity that can be written on a drawing.
#[derive(Clone, Copy, Debug)]
pub struct Written(Quantity);

impl From<Quantity> for Written {
    fn from(quantity: Quantity) -> Self {
        Self(quantity)
    }
}

impl<K: Kind> From<Found<K>> for Written {
    fn from(found: Found<K>) -> Self {
        Self(found.quantity())
    }
}

impl<K: Kind> From<Measure<K>> for Written {
    fn from(measure: Measure<K>) -> Self {
        Self(measure.quantity())
    }
}

impl<T: Into<Written>> From<T> for Words {
    fn from(value: T) -> Self {
        Words::default().value(value)
    }
}
