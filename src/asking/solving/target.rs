//! The input that is to be found: any that is a quantity, and the values at which it is tried.

use crate::asking::describing::describe_entry;
use crate::calculators::Entry;
use crate::fields::nearest;
use crate::quantity::{Dimension, KindRow, Least, shown};
use crate::refusal::{Code, Refusal, Wrong};

/// Places at which the calculator is tried before roots are closed in on.
const TRIES: usize = 600;

/// The input to be found.
pub struct Target {
    /// Its name.
    pub field: &'static str,
    /// Its kind.
    pub kind: &'static KindRow,
}

/// The inputs that are quantities.
fn quantities(entry: &'static Entry) -> impl Iterator<Item = (&'static str, &'static KindRow)> {
    let fields = describe_entry(entry).into_iter().flat_map(|described| &described.fields);
    fields.filter_map(|field| Some((field.member.name, field.member.of.shape.kind()?)))
}

/// The names of the inputs that can be solved for and corrected.
pub fn targets(entry: &'static Entry) -> impl Iterator<Item = &'static str> {
    quantities(entry).map(|(name, _)| name)
}

/// Said where there are none.
pub fn no_target(asked_as: &str) -> Wrong {
    let says = "This calculator has no input with a unit, so none can be found or corrected.";
    Wrong::new(asked_as, Code::NoAnswer, says, "leave out")
}

impl Target {
    /// The input of that name; `asked_as` is the field that names it.
    pub fn named(entry: &'static Entry, name: &str, asked_as: &'static str) -> Result<Self, Refusal> {
        match quantities(entry).find(|(field, _)| *field == name) {
            Some((field, kind)) => Ok(Self { field, kind }),
            None => {
                let names: Vec<&str> = targets(entry).collect();
                if names.is_empty() {
                    return Err(Refusal::one(no_target(asked_as)));
                }
                let near = nearest(name, names.iter().copied()).or(names.first().copied()).unwrap_or_default();
                let says =
                    format!("\"{}\" is not an input that can be found; these can: {}.", shown(name), names.join(", "));
                Err(Refusal::one(Wrong::new(asked_as, Code::NotFound, says, near)))
            }
        }
    }

    /// Values of the field to try, in SI units, rising.
    pub fn tries(&self) -> Vec<f64> {
        let most = self.kind.most;
        let is_length = self.kind.dimension() == Dimension::Length;
        // Lengths of a shop span many powers of ten, angles and percentages few.
        let (low, high) = if is_length { (1e-7, most.min(100.0)) } else { (most * 1e-6, most) };
        let ratio = (high / low).ln() / (TRIES as f64);
        let mut rising: Vec<f64> = (0..=TRIES).map(|at| low * (ratio * at as f64).exp()).collect();
        rising.extend((1..=TRIES).map(|at| high.min(if is_length { 0.5 } else { high }) * at as f64 / TRIES as f64));
        let mut all: Vec<f64> = match self.kind.least {
            Least::Any => rising.iter().map(|value| -value).chain([0.0]).chain(rising.iter().copied()).collect(),
            Least::From(least) => {
                [least].into_iter().chain(rising.into_iter().filter(|value| *value > least)).collect()
            }
            Least::AboveZero => rising,
        };
        all.retain(|value| *value <= most);
        all.sort_by(f64::total_cmp);
        all.dedup();
        all
    }
}
