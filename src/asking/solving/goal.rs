//! The result that is wanted or was measured, as `point_length:0.152 in` says it.

use super::calculation::one;
use super::filled_by_machine::FilledByMachine;
use crate::asking::describing::Reserved;
use crate::calculators::Entry;
use crate::fields::Fields;
use crate::quantity::{Quantity, Unit, read, shown, text};
use crate::refusal::{Code, Refusal, Wrong};
use crate::tree::Node;

/// The result that an input is to give.
pub struct Goal {
    /// Its path in the result.
    pub path: String,
    /// Its number.
    pub value: f64,
    /// The unit of the number; a count has none, and a percentage needs none.
    pub unit: Option<Unit>,
}

/// How far from a wanted value counts as meeting it.
pub fn within(wanted: f64) -> f64 {
    wanted.abs() * 1e-9 + 1e-12
}

/// What a result has at a goal's path.
pub enum Reading {
    /// A quantity.
    Quantity(Quantity),
    /// A count or another plain number.
    Number(f64),
}

impl Reading {
    /// In SI units.
    pub fn si(&self) -> f64 {
        match self {
            Reading::Quantity(quantity) => quantity.si(),
            Reading::Number(number) => *number,
        }
    }
}

/// A result of the calculator's first example that has one, as `wanted` and `measured` name it.
pub fn good_goal(entry: &'static Entry) -> Option<String> {
    entry.examples.iter().find_map(|example| {
        let fields = Fields::of_texts(example.fields.iter().copied());
        let answer = one(entry, &fields, &Reserved::default(), &FilledByMachine::default(), false).ok()?;
        let (path, quantity) = answer.result()?.first_quantity()?;
        Some(written(&path, &quantity))
    })
}

/// A goal as a request has it.
pub fn written(path: &str, quantity: &Quantity) -> String {
    format!("{path}:{} {}", text::full(text::round(quantity.value, 4)), quantity.unit.spelling())
}

impl Goal {
    /// Reads a goal; `asked_as` is the field that has it.
    pub fn read(said: &str, asked_as: &'static str, entry: &'static Entry) -> Result<Self, Refusal> {
        let wrong = |code: Code, says: String| {
            Refusal::one(Wrong::new(asked_as, code, says, good_goal(entry).unwrap_or_default()))
        };
        let Some((name, value)) = said.split_once(':') else {
            return Err(wrong(
                Code::ValueUnreadable,
                format!("\"{}\" is not a result's name, a colon and its value.", shown(said)),
            ));
        };
        let written = read(value, "0.152 in").map_err(|unread| wrong(unread.code, unread.says))?;
        Ok(Self { path: name.trim().replace('.', "/"), value: written.value, unit: written.unit })
    }

    /// What is at the goal's path.
    pub fn of(&self, result: &Node) -> Option<Reading> {
        match result.at(&self.path)? {
            Node::Quantity(leaf) => Some(Reading::Quantity(leaf.quantity)),
            Node::Count(count) => Some(Reading::Number(*count as f64)),
            Node::Number(number) => Some(Reading::Number(*number)),
            _ => None,
        }
    }

    /// Its value in SI units for a result that reads like `reading`; what is wrong with its unit otherwise.
    pub fn si(&self, reading: &Reading, asked_as: &'static str) -> Result<f64, Refusal> {
        let wrong = |code, says: String, good: String| Err(Refusal::one(Wrong::new(asked_as, code, says, good)));
        let number = text::full(self.value);
        match (reading, self.unit) {
            (Reading::Quantity(quantity), Some(unit)) if quantity.unit.row().dimension != unit.row().dimension => {
                let is = quantity.unit.row().dimension.words();
                let says = format!("{} is {is}, which {} does not measure.", self.path, unit.spelling());
                wrong(Code::UnitWrong, says, written(&self.path, quantity))
            }
            (Reading::Quantity(_), Some(unit)) => Ok(unit.to_si(self.value)),
            (Reading::Quantity(quantity), None) => match quantity.kind.only_unit() {
                _ if self.value == 0.0 => Ok(quantity.unit.to_si(0.0)),
                Some(unit) if self.value.abs() > 1.0 => Ok(unit.to_si(self.value)),
                _ => {
                    let good = format!("{}:{number} {}", self.path, quantity.unit.row().ascii);
                    wrong(Code::UnitMissing, format!("\"{number}\" has no unit."), good)
                }
            },
            (Reading::Number(_), None) => Ok(self.value),
            (Reading::Number(_), Some(unit)) => {
                let says = format!("{} is a plain number, which has no unit such as {}.", self.path, unit.spelling());
                wrong(Code::UnitWrong, says, format!("{}:{number}", self.path))
            }
        }
    }

    /// Whether `result` has the goal's value.
    pub fn is_met(&self, result: Option<&Node>) -> bool {
        let reading = result.and_then(|result| self.of(result));
        reading.is_some_and(|reading| {
            self.si(&reading, "wanted").is_ok_and(|wanted| (reading.si() - wanted).abs() <= within(wanted))
        })
    }

    /// An amount in SI units as the goal's value was said.
    pub fn said(&self, si: f64) -> String {
        let rounded = |value: f64| text::full(text::round(value, 4));
        self.unit.map_or_else(|| rounded(si), |unit| format!("{} {}", rounded(unit.of_si(si)), unit.spelling()))
    }
}
