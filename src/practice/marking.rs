//! Whether an answer is right: the rounding a shop would do is allowed, and a unit must be said.

use crate::fields::Given;
use crate::quantity::{Dimension, KindRow, Quantity, Setting, Unit, Written, read, shown, text};
use crate::refusal::{Code, Refusal, Unread, Wrong};

/// An answer as it was given, which has a unit unless it is zero.
#[derive(Clone, Copy, Debug)]
pub struct Answered {
    /// The number.
    pub value: f64,
    /// Its unit.
    pub unit: Unit,
}

impl Answered {
    /// Reads an answer to a question that asks for `wanted`.
    pub fn read(given: &Given, wanted: &Quantity) -> Result<Self, Refusal> {
        let good = || format!("{} {}", text::full(number_to_try(wanted)), wanted.unit.row().ascii);
        let wrong = |code, says: String, try_this: String| Refusal::one(Wrong::new("answer", code, says, try_this));
        let written = match given {
            Given::Text(text) if text.trim().is_empty() => {
                return Err(wrong(Code::ValueEmpty, "There is no answer yet.".into(), good()));
            }
            Given::Text(text) => {
                read(text, wanted.kind.example).map_err(|unread: Unread| wrong(unread.code, unread.says, good()))?
            }
            Given::Number(number) => Written { value: *number, unit: None, tolerance: None },
            Given::Object(members) => object(members).ok_or_else(|| {
                wrong(Code::ValueUnreadable, "An answer as an object has a value and a unit.".into(), good())
            })?,
            _ => return Err(wrong(Code::ValueUnreadable, "An answer is a number with its unit.".into(), good())),
        };
        if written.tolerance.is_some() {
            return Err(wrong(Code::ValueUnreadable, "An answer is one value, without a tolerance.".into(), good()));
        }
        match written.unit {
            Some(unit) => Ok(Self { value: written.value, unit }),
            None if written.value == 0.0 => Ok(Self { value: 0.0, unit: wanted.unit }),
            None => {
                let number = shown(&text::full(written.value));
                let unit = wanted.unit.row().ascii;
                let other =
                    wanted.kind.units.iter().find(|other| **other != wanted.unit).map(|other| other.row().ascii);
                let question = match other {
                    Some(other) => format!("{number} of what? Say the unit: {number} {unit} or {number} {other}?"),
                    None => format!("{number} of what? Say the unit: {number} {unit}?"),
                };
                Err(wrong(Code::UnitMissing, question, format!("{number} {unit}")))
            }
        }
    }

    /// In SI units.
    pub fn si(&self) -> f64 {
        self.unit.to_si(self.value)
    }

    /// Whether it measures the same thing as `wanted`: a plain length may stand for a feed.
    pub fn measures(&self, wanted: &Quantity) -> bool {
        self.unit.row().dimension == wanted.unit.row().dimension || wanted.kind.units.contains(&self.unit)
    }
}

fn object(members: &[(std::borrow::Cow<str>, Given)]) -> Option<Written> {
    let member = |wanted: &str| members.iter().find(|(name, _)| name == wanted).map(|(_, value)| value);
    let (Given::Number(value), Given::Text(unit)) = (member("value")?, member("unit")?) else { return None };
    Some(Written { value: *value, unit: Some(Unit::named(unit)?), tolerance: None })
}

/// How far from right an answer may be, in SI units: half of the last place the trade writes, or what
/// a shop would round to, the third digit, but no coarser than a thousandth of an inch or a hundredth
/// of a millimetre for lengths and a minute for angles; limits of size to the last place alone. Where
/// the readout's resolution is known, half of that for what is set.
pub fn allowed(wanted: &Quantity, resolution: Option<f64>) -> f64 {
    let unit = wanted.unit;
    let kind: &KindRow = wanted.kind;
    let scale = unit.row().factor;
    let half_place = 0.5 * 0.1f64.powi(kind.places(unit) as i32) * scale;
    if kind.inward != crate::quantity::Inward::No {
        return half_place;
    }
    let third = half_of_third_digit(wanted.value) * scale;
    let shop = match unit.row().dimension {
        Dimension::Length if unit == Unit::Inch => third.min(0.0005 * scale),
        Dimension::Length => third.min(5e-6),
        Dimension::Angle => third.min(Unit::Degree.to_si(1.0 / 120.0)),
        _ => third,
    };
    let readout = resolution.filter(|_| kind.setting != Setting::Never).map_or(0.0, |step| step / 2.0);
    half_place.max(shop).max(readout)
}

fn half_of_third_digit(value: f64) -> f64 {
    let mut first = 1.0;
    let size = value.abs();
    if size == 0.0 {
        return 0.0;
    }
    while size >= first * 10.0 {
        first *= 10.0;
    }
    while size < first {
        first /= 10.0;
    }
    first / 200.0
}

/// Whether two values, in SI units, are the same within what is allowed; what lies on the line is.
pub fn agree(a: f64, b: f64, allowed: f64) -> bool {
    (a - b).abs() <= allowed * (1.0 + 1e-6) + 1e-15
}

/// A good number of the unit, which is not the answer.
fn number_to_try(wanted: &Quantity) -> f64 {
    read(wanted.kind.example, "1 in").map_or(1.0, |written| written.value)
}
