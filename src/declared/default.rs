//! Defaults: values that the service itself takes, written as text once and read by the field's own type.

use crate::quantity::{Kind, Measure, Unit};

/// A value that is written as a text in the source.
pub trait OfText: Sized {
    /// The value. Panics where the text is none: a test reads the defaults of every calculator.
    fn of_text(text: &'static str) -> Self;
}

/// A value with a unit that another can take over.
pub trait HasUnit {
    /// The unit.
    fn unit(&self) -> Unit;
}

impl<K: Kind> HasUnit for Measure<K> {
    fn unit(&self) -> Unit {
        self.quantity().unit
    }
}

impl HasUnit for Unit {
    fn unit(&self) -> Unit {
        *self
    }
}

impl<T: HasUnit> HasUnit for Option<T> {
    /// That of the value; without one there is nothing to be like, and any unit will do.
    fn unit(&self) -> Unit {
        self.as_ref().map_or(Unit::Inch, HasUnit::unit)
    }
}

impl<K: Kind> OfText for Measure<K> {
    fn of_text(text: &'static str) -> Self {
        Measure::read(text).unwrap_or_else(|unread| panic!("{text}: {}", unread.says))
    }
}

impl OfText for u32 {
    fn of_text(text: &'static str) -> Self {
        text.parse().unwrap_or_else(|_| panic!("{text} is no count"))
    }
}

impl OfText for bool {
    fn of_text(text: &'static str) -> Self {
        text == "true"
    }
}

impl<K: Kind> Measure<K> {
    /// The number `text` in the unit of another value.
    pub fn in_unit_of(other: &impl HasUnit, text: &'static str) -> Self {
        Self::stated(text.parse().unwrap_or_else(|_| panic!("{text} is no number")), other.unit())
    }
}
