//! A question with its answer, in which slips are looked for: what went in, and what would come out with
//! an input or a formula misunderstood.

use crate::asking::{Answer, Field, Form, ask, describe_entry};
use crate::calculators::Entry;
use crate::declared::{in_sentence, label_of};
use crate::fields::Fields;
use crate::practice::formula::Misread;
use crate::practice::replay::replay;
use crate::practice::wanted::{Amount, Wanted, quantities, unnumbered};
use crate::quantity::{Quantity, text};
use crate::tree::Node;

/// A slip and what it would have given.
#[derive(Clone, Debug)]
pub struct Slip {
    /// One of [`CODES`](super::CODES).
    pub code: &'static str,
    /// What was misunderstood, in words.
    pub says: String,
    /// What comes out, in SI units.
    pub value: f64,
}

/// What slips are looked for in: a question and its answer; and those found.
pub struct Case<'q> {
    /// The calculator.
    pub entry: &'static Entry,
    /// The fields as they were asked.
    pub fields: &'q [(String, String)],
    /// The answer.
    pub answer: &'q Answer,
    /// The result asked for.
    pub wanted: &'q Wanted,
    /// The slips found, the likeliest first.
    pub found: Vec<Slip>,
}

impl Case<'_> {
    /// Notes a slip, unless it gives nothing.
    pub fn note(&mut self, code: &'static str, value: Option<f64>, says: impl Into<String>) {
        if let Some(value) = value.filter(|value| value.is_finite()) {
            self.found.push(Slip { code, says: says.into(), value });
        }
    }

    /// The calculator's fields.
    pub fn described(&self) -> &'static [Field] {
        describe_entry(self.entry).map(|described| described.fields.as_slice()).unwrap_or_default()
    }

    /// What a person calls a field, inside a sentence.
    pub fn label(&self, name: &str) -> String {
        in_sentence(&label_of(self.entry.input.members, name))
    }

    /// Every single quantity that went in, stated or assumed, with its name.
    pub fn inputs(&self) -> Vec<(&'static str, Quantity)> {
        let Node::Record(members) = &self.answer.inputs else { return Vec::new() };
        let stated = members.iter().map(|(name, node)| (*name, node));
        let assumed = self.answer.record.assumed.iter().map(|assumed| (assumed.field, &assumed.value));
        let is_field = |name: &str| self.described().iter().any(|field| field.name == name);
        stated
            .chain(assumed)
            .filter_map(|(name, node)| match node {
                Node::Quantity(leaf) if is_field(name) => Some((name, leaf.quantity)),
                _ => None,
            })
            .collect()
    }

    /// The text that a field was stated with.
    pub fn stated(&self, name: &str) -> Option<&str> {
        self.fields.iter().find(|(known, _)| known == name).map(|(_, value)| value.as_str())
    }

    /// A word that went in, stated or assumed.
    pub fn word(&self, name: &str) -> Option<String> {
        let assumed = || self.answer.record.assumed.iter().find(|assumed| assumed.field == name).map(|a| &a.value);
        match self.answer.inputs.member(name).or_else(assumed)? {
            Node::Text(word, _) => Some(word.to_string()),
            _ => None,
        }
    }

    /// A count that went in.
    pub fn count(&self, name: &str) -> Option<f64> {
        match self.answer.inputs.member(name)? {
            Node::Count(count) => Some(*count as f64),
            Node::Number(number) => Some(*number),
            _ => None,
        }
    }

    /// What the result asked for would be, in SI units, with one field changed.
    pub fn again(&self, name: &str, value: String) -> Option<f64> {
        let kept = self.fields.iter().filter(|(known, _)| known != name);
        let kept = kept.map(|(name, value)| (name.as_str(), value.as_str()));
        let fields = Fields::of_texts(kept.chain([(name, value.as_str()), ("working", "false")]));
        let (answer, _) = ask(self.entry, fields, Form::Json).ok()?;
        answer.result()?.at(&self.wanted.path).and_then(Amount::of).map(|amount| amount.si())
    }

    /// The same with a quantity changed to so many of its own unit.
    pub fn again_with(&self, name: &str, quantity: &Quantity, value: f64) -> Option<f64> {
        self.again(name, format!("{} {}", text::full(text::tidy(value)), quantity.unit.row().ascii))
    }

    /// What the result asked for would be with the working misread.
    pub fn misread(&self, misread: Misread) -> Option<f64> {
        let field = unnumbered(&self.wanted.path);
        let rows = quantities(self.answer.result()?);
        let row =
            rows.iter().filter(|(path, _)| unnumbered(path) == field).position(|(p, _)| *p == self.wanted.path)?;
        replay(&self.answer.record.steps, misread).get(&field)?.get(row).copied()
    }
}
