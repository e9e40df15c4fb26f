//! Seeds and tasks as a request states them.

use crate::calculators::Task;
use crate::fields::nearest;
use crate::quantity::{shown, text};
use crate::refusal::{Code, Unread, carry};
use serde::de::{self, Deserialize, Deserializer, Visitor};
use std::fmt;

/// A seed: a whole number, as text or as a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Seed(pub u64);

/// The largest whole number below which JSON readers keep every one.
const EXACT: f64 = 9_007_199_254_740_992.0;

impl<'de> Deserialize<'de> for Seed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(SeedVisitor)
    }
}

struct SeedVisitor;

fn refused<E: de::Error>(code: Code, says: String) -> E {
    carry(Unread { code, says, try_this: String::new() })
}

impl Visitor<'_> for SeedVisitor {
    type Value = Seed;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a seed, a whole number such as 7")
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Seed, E> {
        if text.is_empty() || !text.bytes().all(|b| b.is_ascii_digit()) {
            return Err(refused(
                Code::ValueUnreadable,
                format!("\"{}\" is not a whole number of 0 or more.", shown(text)),
            ));
        }
        let large = || refused(Code::ValueOutOfRange, format!("A seed is at most {}.", u64::MAX));
        text.parse().map(Seed).map_err(|_| large())
    }

    fn visit_f64<E: de::Error>(self, number: f64) -> Result<Seed, E> {
        if number < 0.0 || number.fract() != 0.0 {
            return self.visit_str(&text::full(number));
        }
        if number >= EXACT {
            return Err(refused(Code::ValueOutOfRange, "Write so large a seed as text, or it loses digits.".into()));
        }
        Ok(Seed(number as u64))
    }

    fn visit_u64<E: de::Error>(self, number: u64) -> Result<Seed, E> {
        Ok(Seed(number))
    }
}

/// A task by its words, `make the hole`, also with underscores or hyphens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TaskNamed(pub Task);

impl TaskNamed {
    /// The word that addresses use.
    pub fn word(task: Task) -> String {
        task.words().to_lowercase().replace(' ', "_")
    }
}

impl<'de> Deserialize<'de> for TaskNamed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let said = String::deserialize(deserializer)?;
        let wanted = said.trim().to_lowercase().replace([' ', '-'], "_");
        let words: Vec<String> = Task::ALL.iter().map(|task| TaskNamed::word(*task)).collect();
        match Task::ALL.into_iter().find(|task| TaskNamed::word(*task) == wanted) {
            Some(task) => Ok(TaskNamed(task)),
            None => {
                let near = nearest(&wanted, words.iter().map(String::as_str)).unwrap_or("cut").to_owned();
                let says = format!("\"{}\" is not a task; the tasks are {}.", shown(&said), words.join(", "));
                Err(carry(Unread { code: Code::NotFound, says, try_this: near }))
            }
        }
    }
}
