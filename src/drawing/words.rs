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

/// Words with values in their gaps: `words!("{} wide and {} deep": width, depth)`.
macro_rules! words {
    ($text:literal: $($value:expr),+) => {{
        const { assert!($crate::drawing::gaps($text) == [$(stringify!($value)),+].len(), "a value for each gap") };
        $crate::drawing::Words::filled($text, [$($crate::drawing::Written::from($value)),+])
    }};
}

pub(crate) use words;

/// How many gaps, written `{}`, a text has.
pub const fn gaps(text: &str) -> usize {
    let (bytes, mut count, mut at) = (text.as_bytes(), 0, 1);
    while at < bytes.len() {
        count += (bytes[at - 1] == b'{' && bytes[at] == b'}') as usize;
        at += 1;
    }
    count
}

impl Words {
    /// Words that begin with `text`.
    pub fn of(text: impl Into<Cow<'static, str>>) -> Self {
        Self(vec![Part::Text(text.into())])
    }

    /// A text with its gaps filled.
    pub fn filled<const COUNT: usize>(text: &'static str, values: [Written; COUNT]) -> Self {
        let mut texts = text.split("{}");
        let mut words = Self::of(texts.next().unwrap_or_default());
        for (Written(value), text) in values.into_iter().zip(texts) {
            words.0.extend([value, Part::Text(text.into())]);
        }
        words
    }

    /// With more after them; a line break in it begins a new line.
    pub fn then(mut self, more: impl Into<Words>) -> Self {
        self.0.extend(more.into().0);
        self
    }

    /// With a quantity after it.
    pub fn value(self, quantity: impl Into<Written>) -> Self {
        self.then(quantity)
    }

    /// As they read in `system`.
    pub fn text(&self, system: System) -> String {
        let mut out = String::new();
        for part in &self.0 {
            match part {
                Part::Text(text) => out.push_str(text),
                Part::Quantity(quantity) => out.push_str(&quantity.in_system(system).text()),
            }
        }
        out
    }
}

/// What can be written on a drawing: a quantity, a count or a text.
#[derive(Clone, Debug)]
pub struct Written(Part);

impl From<Quantity> for Written {
    fn from(quantity: Quantity) -> Self {
        Self(Part::Quantity(quantity))
    }
}

impl<K: Kind> From<Found<K>> for Written {
    fn from(found: Found<K>) -> Self {
        found.quantity().into()
    }
}

impl<K: Kind> From<Measure<K>> for Written {
    fn from(measure: Measure<K>) -> Self {
        measure.quantity().into()
    }
}

impl From<&'static str> for Written {
    fn from(text: &'static str) -> Self {
        Self(Part::Text(text.into()))
    }
}

impl From<String> for Written {
    fn from(text: String) -> Self {
        Self(Part::Text(text.into()))
    }
}

impl From<u32> for Written {
    fn from(count: u32) -> Self {
        count.to_string().into()
    }
}

impl From<usize> for Written {
    fn from(count: usize) -> Self {
        count.to_string().into()
    }
}

impl<T: Into<Written>> From<T> for Words {
    fn from(value: T) -> Self {
        Words(vec![value.into().0])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Extent, Unit};

    #[test]
    fn gaps_are_filled_in_their_order() {
        let words = words!("{} of {} moves\n{} in all": 2u32, 12usize, Extent::stated(1.5, Unit::Inch));
        assert_eq!(words.text(System::Inch), "2 of 12 moves\n1.5000 in in all");
    }
}
