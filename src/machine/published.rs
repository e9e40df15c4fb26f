//! What is published for a cut as a range, and whether what is set lies in it.

use super::{SAME, as_stated, si};
use crate::quantity::{Kind, Measure, text};
use crate::working::Record;

/// A published range.
#[derive(Clone, Copy, Debug)]
pub struct Published<K: Kind> {
    /// Its lower end.
    pub low: Measure<K>,
    /// Its upper end.
    pub high: Measure<K>,
}

impl<K: Kind> Published<K> {
    /// Both ends in words.
    pub fn words(&self) -> String {
        if si(&self.low) == si(&self.high) {
            return as_stated(&self.low);
        }
        format!("{} to {}", as_stated(&self.low), as_stated(&self.high))
    }

    /// Whether a value lies below it.
    pub fn is_above(&self, value: f64) -> bool {
        value < si(&self.low) * (1.0 - SAME)
    }

    /// Whether a value lies above it.
    pub fn is_below(&self, value: f64) -> bool {
        value > si(&self.high) * (1.0 + SAME)
    }

    /// Says first of all that what is set lies below it: limits and reductions each take a little, and together much.
    pub fn tell_if_below(&self, value: f64, (code, what): (&'static str, &str), means: &str, record: &mut Record) {
        if self.is_above(value) {
            let percent = text::full(text::round(100.0 * value / si(&self.low), 0));
            record.note_first(
                code,
                format!("{what} is {percent} percent of the lowest published, {}: {means}", self.words()),
            );
        }
    }
}
