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
    /// The unit of the number.
    pub unit: Unit,
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
        let Some(unit) = written.unit else {
            return Err(wrong(Code::UnitMissing, format!("\"{}\" has no unit.", shown(value.trim()))));
        };
        Ok(Self { path: name.trim().replace('.', "/"), value: written.value, unit })
    }

    /// Its value in SI units.
    pub fn si(&self) -> f64 {
        self.unit.to_si(self.value)
    }

    /// The quantity at the goal's path.
    pub fn of(&self, result: &Node) -> Option<Quantity> {
        match result.at(&self.path)? {
            Node::Quantity(leaf) => Some(leaf.quantity),
            _ => None,
        }
    }
}
