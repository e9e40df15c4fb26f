//! What a wrong answer comes from. Each slip is found by asking the same calculator again with an input
//! misunderstood, by going through its working again with a formula misunderstood, or by changing
//! the result; an answer that is what a slip would have given is told which. Nothing here knows a
//! calculator: what a slip fits is seen by the kinds and names of its fields.

mod inputs;
mod results;

use super::formula::Misread;
use super::marking::{agree, allowed};
use super::replay::replay;
use super::wanted::{Wanted, quantities, unnumbered};
use crate::asking::{Answer, Field, Form, ask, describe_entry};
use crate::calculators::Entry;
use crate::fields::Fields;
use crate::quantity::{Quantity, text};
use crate::tree::Node;

/// What kinds of slips there are, with what each is.
pub const CODES: &[(&str, &str)] = &[
    ("wrong_unit", "a value in the wrong unit or system, or a conversion that is missing"),
    ("degrees_for_radians", "degrees taken for radians or radians for degrees"),
    ("drill_point_forgotten", "the point of the drill left out, or counted where it does not count"),
    ("feed_per_tooth", "a feed a tooth taken for a feed a turn, or the other way round"),
    ("included_angle", "an included angle taken for its half, or the half for the whole"),
    ("radius_for_diameter", "a radius taken for a diameter, or the other way round"),
    ("angle_zero", "an angle counted from another zero or the other way round"),
    ("sign", "the right amount on the other side of zero"),
    ("decimal_point", "the decimal point in another place"),
    ("other_result", "another result of the same calculation"),
];

/// A slip and what it would have given.
#[derive(Clone, Debug)]
pub struct Slip {
    /// One of [`CODES`].
    pub code: &'static str,
    /// What was misunderstood, in words.
    pub says: String,
    /// What comes out, in SI units.
    pub value: f64,
}

/// What slips are looked for in: a question and its answer.
pub struct Case<'q> {
    /// The calculator.
    pub entry: &'static Entry,
    /// The fields as they were asked.
    pub fields: &'q [(String, String)],
    /// The answer.
    pub answer: &'q Answer,
    /// The result asked for.
    pub wanted: &'q Wanted,
}

impl Case<'_> {
    /// The calculator's fields.
    fn described(&self) -> &'static [Field] {
        describe_entry(self.entry).map(|described| described.fields.as_slice()).unwrap_or_default()
    }

    /// Every single quantity that went in, stated or assumed, with its name.
    fn inputs(&self) -> Vec<(&'static str, Quantity)> {
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

    /// A word that went in, stated or assumed.
    fn word(&self, name: &str) -> Option<String> {
        let assumed = || self.answer.record.assumed.iter().find(|assumed| assumed.field == name).map(|a| &a.value);
        match self.answer.inputs.member(name).or_else(assumed)? {
            Node::Text(word, _) => Some(word.to_string()),
            _ => None,
        }
    }

    /// What the result asked for would be, in SI units, with one field changed.
    fn again(&self, name: &str, value: String) -> Option<f64> {
        let kept = self.fields.iter().filter(|(known, _)| known != name);
        let kept = kept.map(|(name, value)| (name.as_str(), value.as_str()));
        let fields = Fields::of_texts(kept.chain([(name, value.as_str()), ("working", "false")]));
        let (answer, _) = ask(self.entry, fields, Form::Json).ok()?;
        match answer.result()?.at(&self.wanted.path)? {
            Node::Quantity(leaf) => Some(leaf.quantity.si()),
            _ => None,
        }
    }

    /// The same with a quantity changed to so many of its own unit.
    fn again_with(&self, name: &str, quantity: &Quantity, value: f64) -> Option<f64> {
        self.again(name, format!("{} {}", text::full(text::tidy(value)), quantity.unit.row().ascii))
    }

    /// What the result asked for would be with the working misread.
    fn misread(&self, misread: Misread) -> Option<f64> {
        let field = unnumbered(&self.wanted.path);
        let rows = quantities(self.answer.result()?);
        let row =
            rows.iter().filter(|(path, _)| unnumbered(path) == field).position(|(p, _)| *p == self.wanted.path)?;
        replay(&self.answer.record.steps, misread).get(&field)?.get(row).copied()
    }
}

/// Every slip that the question allows, in the order in which they are looked for; none gives what is
/// right, and none nothing.
pub fn slips(case: &Case) -> Vec<Slip> {
    let mut all = Vec::new();
    results::units(case, &mut all);
    inputs::radians(case, &mut all);
    inputs::drill_point(case, &mut all);
    inputs::feed(case, &mut all);
    inputs::included(case, &mut all);
    inputs::radius(case, &mut all);
    inputs::zero_of_angles(case, &mut all);
    inputs::systems(case, &mut all);
    results::conversions(case, &mut all);
    results::sign(case, &mut all);
    results::decimal_point(case, &mut all);
    results::others(case, &mut all);
    let right = case.wanted.quantity;
    all.retain(|slip| {
        let room = allowed(&right, None) + allowed_at(&right, slip.value);
        slip.value.is_finite() && slip.value != 0.0 && !agree(slip.value, right.si(), room)
    });
    all
}

/// How far from a slip an answer may be to count as it: as from what is right, but never so far that
/// near nothing is taken for it.
pub fn allowed_at(right: &Quantity, si: f64) -> f64 {
    allowed(&Quantity { value: right.unit.of_si(si), ..*right }, None).min(si.abs() * 0.02)
}

/// The first slip that gives what was answered, in SI units.
pub fn found<'s>(slips: &'s [Slip], right: &Quantity, answered: f64) -> Option<&'s Slip> {
    slips.iter().find(|slip| agree(answered, slip.value, allowed_at(right, slip.value)))
}

/// A name as words.
fn spaced(name: &str) -> String {
    name.replace('_', " ")
}
