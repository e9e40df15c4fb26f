//! Whether an answer is right: what a shop would round to is, and a unit must be said. How close each kind of quantity is
//! wanted stands here alone.

use super::wanted::{Amount, Wanted};
use crate::fields::Given;
use crate::quantity::{Dimension, Inward, Quantity, Setting, Unit, Written, read, shown, text};
use crate::reference::drills;
use crate::refusal::{Code, Refusal, Unread, Wrong};

/// An answer as it was understood.
#[derive(Clone, Debug)]
pub struct Answered {
    /// The number.
    pub value: f64,
    /// Its unit; none for a count.
    pub unit: Option<Unit>,
    /// As a person reads it again.
    pub said: String,
    /// Half of the last place it was written to, in its unit.
    half_place: f64,
}

impl Answered {
    /// Reads an answer to a question that asks for `wanted`.
    pub fn read(given: &Given, wanted: &Wanted) -> Result<Self, Refusal> {
        if let (Given::Text(text), Some(_)) = (given, wanted.drill)
            && let Some(drill) = drills::named(text).filter(|_| text.trim().parse::<f64>().is_err())
        {
            let inch = wanted.amount.quantity().is_some_and(|quantity| quantity.unit == Unit::Inch);
            let (value, unit) =
                if inch { (drill.inches(), Unit::Inch) } else { (drill.millimetres(), Unit::Millimetre) };
            return Ok(Self { value, unit: Some(unit), said: drill.name.to_owned(), half_place: 0.0 });
        }
        match wanted.amount {
            Amount::Quantity(right) => quantity(given, &right),
            Amount::Count(_) => count(given),
        }
    }

    fn new(value: f64, unit: Option<Unit>, written: &str) -> Self {
        let number = written.trim().trim_end_matches(|c: char| !c.is_ascii_digit());
        let decimals = number
            .split_once('.')
            .map_or(0, |(_, rest)| rest.chars().take_while(char::is_ascii_digit).count() as i32 - exponent(rest));
        // Fractions, minutes of an angle and numbers with commas are taken as exact.
        let is_exact = number.contains(['/', '°', '\'', ',']);
        let half_place = if is_exact { 0.0 } else { 0.5 * 0.1f64.powi(decimals) };
        let suffix = unit.map_or("", |unit| unit.row().suffix);
        Self { value, unit, said: format!("{}{suffix}", text::full(value)), half_place }
    }

    /// In SI units; a count as it is.
    pub fn si(&self) -> f64 {
        self.unit.map_or(self.value, |unit| unit.to_si(self.value))
    }

    /// Half of the last place it was written to, in SI units.
    pub fn half_place(&self) -> f64 {
        self.half_place * self.unit.map_or(1.0, |unit| unit.row().factor)
    }

    /// The unit it was answered in, where that measures something else than is asked for.
    pub fn wrong_dimension(&self, wanted: &Amount) -> Option<Unit> {
        let right = wanted.quantity()?;
        self.unit.filter(|unit| {
            // A plain length may stand for a feed.
            unit.row().dimension != right.unit.row().dimension && !right.kind.units.contains(unit)
        })
    }
}

fn exponent(rest: &str) -> i32 {
    rest.split_once(['e', 'E']).and_then(|(_, power)| power.parse().ok()).unwrap_or(0)
}

fn wrong(code: Code, says: impl Into<String>, try_this: String) -> Refusal {
    Refusal::one(Wrong::new("answer", code, says, try_this))
}

fn quantity(given: &Given, right: &Quantity) -> Result<Answered, Refusal> {
    let ascii = right.unit.row().ascii;
    let number = read(right.kind.example, "1 in").map_or(1.0, |written| written.value);
    let good = || format!("{} {ascii}", text::full(number));
    let (written, text) = match given {
        Given::Text(text) if text.trim().is_empty() => {
            return Err(wrong(Code::ValueEmpty, "There is no answer yet.", good()));
        }
        Given::Text(text) => {
            let read = read(text, right.kind.example).map_err(|unread: Unread| wrong(unread.code, unread.says, good()));
            (read?, text.to_string())
        }
        Given::Number(number) => (Written { value: *number, unit: None, tolerance: None }, text::full(*number)),
        Given::Object(members) => match object(members) {
            Some(written) => (written, text::full(written.value)),
            None => {
                return Err(wrong(Code::ValueUnreadable, "An answer as an object has a value and a unit.", good()));
            }
        },
        _ => return Err(wrong(Code::ValueUnreadable, "An answer is a number with its unit.", good())),
    };
    if written.tolerance.is_some() {
        return Err(wrong(Code::ValueUnreadable, "An answer is one value, without a tolerance.", good()));
    }
    let unit = match written.unit {
        Some(unit) => unit,
        None if written.value == 0.0 => right.unit,
        None => {
            let number = shown(&text::full(written.value));
            let other = right.kind.units.iter().find(|other| **other != right.unit).map(|other| other.row().ascii);
            let question = match other {
                Some(other) => format!("{number} of what? Say the unit: {number} {ascii} or {number} {other}?"),
                None => format!("{number} of what? Say the unit: {number} {ascii}?"),
            };
            return Err(wrong(Code::UnitMissing, question, format!("{number} {ascii}")));
        }
    };
    let number = text.trim().trim_end_matches(|c: char| !c.is_ascii_digit() && c != '.');
    Ok(Answered::new(written.value, Some(unit), number))
}

/// A count, with or without a word behind it: `6`, `6 holes`.
fn count(given: &Given) -> Result<Answered, Refusal> {
    let number = match given {
        Given::Number(number) => Some(*number),
        Given::Text(text) if text.trim().is_empty() => {
            return Err(wrong(Code::ValueEmpty, "There is no answer yet.", "6".into()));
        }
        Given::Text(text) => text.split_whitespace().next().and_then(|word| word.parse::<f64>().ok()),
        Given::Object(members) => members.iter().find(|(name, _)| name == "value").and_then(|(_, value)| match value {
            Given::Number(number) => Some(*number),
            _ => None,
        }),
        _ => None,
    };
    match number.filter(|number| number.is_finite()) {
        Some(number) => Ok(Answered { half_place: 0.0, ..Answered::new(number, None, "") }),
        None => Err(wrong(Code::ValueUnreadable, "The answer is a count: a whole number.", "6".into())),
    }
}

fn object(members: &[(std::borrow::Cow<str>, Given)]) -> Option<Written> {
    let member = |wanted: &str| members.iter().find(|(name, _)| name == wanted).map(|(_, value)| value);
    let (Given::Number(value), Given::Text(unit)) = (member("value")?, member("unit")?) else { return None };
    Some(Written { value: *value, unit: Some(Unit::named(unit)?), tolerance: None })
}

/// How close an answer is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Closeness {
    /// Counts: exactly. Five holes are not six.
    Exactly,
    /// So much either way, in SI units. What is set or measured: a place to half a step of the readout, if that is
    /// stated, or half of the last place written; a limit of size and what a thread is measured by to half of the last
    /// place, since a part is accepted or refused by it; any other size to half a thousandth of an inch or a hundredth
    /// of a millimeter, the least that a micrometer is read to; an angle to 0.04 of a degree, half of the five minutes
    /// of a vernier protractor.
    Within(f64),
    /// To two digits, or 1 %, whichever is more. Speeds, feeds, powers, forces, times and shares come from tables that
    /// are rounder than that, and so do small sizes and angles, which would lose all their digits otherwise.
    TwoDigits,
}

/// Names of results by which a thread is accepted: wanted to the last place, also where no standard limits them.
const OF_A_THREAD: [&str; 3] = ["pitch_diameter", "over_wires", "pitch_m"];

impl Closeness {
    /// How close a result is wanted, with the step of the readout in meters where it is known.
    pub fn of(wanted: &Wanted, step: Option<f64>) -> Self {
        let Amount::Quantity(right) = wanted.amount else { return Self::Exactly };
        let scale = right.unit.row().factor;
        let half_place = half_place(&right);
        let last = wanted.path.rsplit('/').next().unwrap_or_default();
        if !matches!(right.kind.setting, Setting::Never | Setting::Depth) {
            return Self::Within(half_place.max(step.unwrap_or_default() / 2.0));
        }
        if right.kind.inward != Inward::No || OF_A_THREAD.iter().any(|name| last.contains(name)) {
            return Self::Within(half_place);
        }
        let most = match right.unit.row().dimension {
            Dimension::Length if right.unit == Unit::Inch => 0.0005 * scale,
            Dimension::Length => 1e-5,
            Dimension::Angle => Unit::Degree.to_si(0.04),
            _ => f64::INFINITY,
        };
        // The depth of a hole is a size, which need be no finer than the quill can be set.
        let step = step.filter(|_| right.kind.setting == Setting::Depth).unwrap_or_default() / 2.0;
        let (most, half_place) = (most.max(step), half_place.max(step));
        let share = share(right.value) * scale;
        if share < half_place {
            Self::Within(half_place)
        } else if share < most {
            Self::TwoDigits
        } else {
            Self::Within(most)
        }
    }

    /// How far from right an answer may be, in SI units.
    pub fn room(&self, right: &Amount) -> f64 {
        match (self, right) {
            (Self::Within(room), _) => *room,
            (Self::TwoDigits, Amount::Quantity(right)) => share(right.value) * right.unit.row().factor,
            _ => 0.0,
        }
    }

    /// The same before one answers: it must not give the answer away.
    pub fn words(&self, right: &Amount) -> String {
        match self {
            Self::Exactly => "exactly".to_owned(),
            Self::TwoDigits => "within 1%, or rounded to two digits".to_owned(),
            Self::Within(room) => {
                let value = text::rough(right.quantity().map_or(*room, |right| room / right.unit.row().factor));
                format!("within ±{}{}", text::full(text::round(value, 6)), right.suffix())
            }
        }
    }
}

/// Half of the last place that a quantity is written to, in SI units.
pub fn half_place(right: &Quantity) -> f64 {
    0.5 * 0.1f64.powi(right.kind.places(right.unit) as i32) * right.unit.row().factor
}

/// Half of the second digit, or a hundredth if that is more.
fn share(value: f64) -> f64 {
    let size = value.abs();
    if size == 0.0 || !size.is_finite() {
        return 0.0;
    }
    let first = 10f64.powf((size * (1.0 + 1e-12)).log10().floor());
    (first / 20.0).max(size / 100.0)
}

/// The answers that count as right, in words: `from 473 to 482 rpm`. Rounded inward, so that none of them is refused.
pub fn accepted(right: &Amount, room: f64) -> String {
    let Some(quantity) = right.quantity() else { return format!("{} only", right.text()) };
    let unit = quantity.unit;
    let room = room / unit.row().factor;
    let places = (-room.log10()).ceil().clamp(0.0, 9.0) as usize;
    let value = quantity.value;
    let (low, high) = (-text::round_down(room - value, places), text::round_down(value + room, places));
    format!("from {} to {}{}", text::fixed(low, places), text::fixed(high, places), unit.row().suffix)
}

/// Whether two values, in SI units, are the same within what is allowed; what lies on the line is.
pub fn agree(a: f64, b: f64, allowed: f64) -> bool {
    (a - b).abs() <= allowed * (1.0 + 1e-6) + 1e-15
}
