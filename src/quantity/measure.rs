//! A quantity of a known kind: [`Measure`] as it was asked, [`Found`] as it was computed, and
//! [`Quantity`], the same without its type for the machinery that treats all alike.

use super::kinds::{Inward, Kind, KindRow, Least, TINY, kind};
use super::misread::nearest_unit;
use super::read::{Written, number_and_rest, read, shown, threads_with_tolerance};
use super::text;
use super::units::{Dimension, System, Unit};
use crate::refusal::{Code, Unread, carry};
use serde::de::{self, Deserialize, Deserializer, MapAccess, Visitor};
use std::fmt;
use std::marker::PhantomData;

/// A number in SI base units with its dimension.
pub trait SiValue: Copy {
    /// From a number of base units.
    fn from_si(value: f64) -> Self;
    /// The number of base units.
    fn si(self) -> f64;
}

impl<D, U> SiValue for uom::si::Quantity<D, U, f64>
where
    D: uom::si::Dimension + ?Sized,
    U: uom::si::Units<f64> + ?Sized,
{
    fn from_si(value: f64) -> Self {
        Self { dimension: PhantomData, units: PhantomData, value }
    }

    fn si(self) -> f64 {
        self.value
    }
}

/// A value, its unit and its kind.
#[derive(Clone, Copy, Debug)]
pub struct Quantity {
    /// The number.
    pub value: f64,
    /// The unit of the number.
    pub unit: Unit,
    /// What kind of quantity it is.
    pub kind: &'static KindRow,
    /// Tolerance above and below, in the unit of the value.
    pub tolerance: Option<(f64, f64)>,
}

impl Quantity {
    /// In SI base units.
    pub fn si(&self) -> f64 {
        self.unit.to_si(self.value)
    }

    /// In `unit`, which has the same dimension.
    pub fn in_unit(&self, unit: Unit) -> f64 {
        if unit == self.unit { text::tidy(self.value) } else { text::tidy(unit.of_si(self.si())) }
    }

    /// Threads in an inch as the length they stand for; anything else as it is.
    pub fn as_length(&self) -> Quantity {
        match self.unit {
            Unit::ThreadsPerInch => Quantity { value: 1.0 / self.value, unit: Unit::Inch, ..*self },
            _ => *self,
        }
    }

    /// As an answer of `system` writes it; as stated if its kind has no system. A limit that comes
    /// from the other system is rounded inward at the places it is written to.
    pub fn in_system(&self, system: System) -> Quantity {
        let (value, unit) = self.value_in(system);
        let scale = |amount: f64| text::tidy(amount * self.unit.row().factor / unit.row().factor);
        let tolerance = self.tolerance.map(|(plus, minus)| (scale(plus), scale(minus)));
        Quantity { value, unit, tolerance, ..*self }
    }

    /// The same without its tolerance and kind.
    pub fn value_in(&self, system: System) -> (f64, Unit) {
        let (unit, places) = self.kind.written_in(system);
        let value = match self.kind.inward {
            Inward::Down if self.rounds_in(system) => text::round_down(self.in_unit(unit), places),
            Inward::Up if self.rounds_in(system) => -text::round_down(-self.in_unit(unit), places),
            _ => self.in_unit(unit),
        };
        (value, unit)
    }

    /// True for a limit of the other system, which is rounded on its way into `system`.
    pub fn rounds_in(&self, system: System) -> bool {
        self.kind.inward != Inward::No && self.unit.system() != self.kind.written_in(system).0.system()
    }

    /// A limit as it stands before it is rounded inward: a size like any other.
    pub fn as_printed(&self) -> Quantity {
        if self.kind.inward == Inward::No { *self } else { Quantity { kind: kind::Size::ROW, ..*self } }
    }

    /// Appends the text: rounded as the trade writes this kind, with its unit.
    pub fn write_text(&self, out: &mut Vec<u8>) {
        let begun = out.len();
        text::write_fixed(out, self.value, self.kind.places(self.unit));
        // Nobody writes 118.0000° for 118°, or 20.0000 threads.
        if matches!(self.unit, Unit::Degree | Unit::ThreadsPerInch) && out[begun..].contains(&b'.') {
            while out.pop_if(|last| *last == b'0').is_some() {}
            out.pop_if(|last| *last == b'.');
        }
        out.extend_from_slice(self.unit.row().suffix.as_bytes());
    }

    /// The text: rounded as the trade writes this kind, with its unit.
    pub fn text(&self) -> String {
        text::text_of(|out| self.write_text(out))
    }
}

/// A quantity asked for, kept as it was stated.
pub struct Measure<K: Kind> {
    value: f64,
    unit: Unit,
    tolerance: Option<(f64, f64)>,
    kind: PhantomData<K>,
}

impl<K: Kind> Clone for Measure<K> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<K: Kind> Copy for Measure<K> {}

impl<K: Kind> fmt::Debug for Measure<K> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.quantity().text())
    }
}

impl<K: Kind> Measure<K> {
    /// A value that the service itself states, such as a default.
    pub const fn stated(value: f64, unit: Unit) -> Self {
        Self { value, unit, tolerance: None, kind: PhantomData }
    }

    /// Reads `text` as a quantity of this kind.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let written = read(text, K::ROW.example).map_err(|unread| match (unread.code, number_and_rest(text)) {
            (Code::UnitUnknown, Some((value, name))) => unknown_unit(K::ROW, value, &name),
            _ => unread,
        })?;
        Self::from_written(written, text)
    }

    /// The quantity in base units, with its dimension.
    pub fn get(&self) -> K::Si {
        K::Si::from_si(self.unit.to_si(self.value))
    }

    /// The number of degrees of an angle, exact where it was stated in degrees.
    pub fn degrees(&self) -> f64 {
        self.quantity().in_degrees()
    }

    /// Without its type.
    pub fn quantity(&self) -> Quantity {
        Quantity { value: self.value, unit: self.unit, kind: K::ROW, tolerance: self.tolerance }
    }

    /// The same value as a result of this kind.
    pub fn found(&self) -> Found<K> {
        Found { value: self.value, unit: self.unit, kind: PhantomData }
    }

    /// Checks unit and bounds of what was read.
    pub fn from_written(written: Written, text: &str) -> Result<Self, Unread> {
        let row = K::ROW;
        if let (None, Some(unit)) = (written.unit, row.only_unit())
            && written.value != 0.0
            && written.value.abs() <= 1.0
        {
            return Err(share(row, unit, written.value, text));
        }
        // Nothing is the same in every unit, but a temperature of 0 is not.
        let is_nothing = written.value == 0.0 && row.dimension() != Dimension::Temperature;
        let alone = if is_nothing { Some(row.inch.0) } else { row.only_unit() };
        let Some(unit) = written.unit.or(alone) else {
            let unit = Unit::named(row.example.split_once(' ').map_or("in", |(_, unit)| unit)).unwrap_or(row.inch.0);
            let number = text::full(written.value);
            let other = other(row, unit);
            let question = if other == unit {
                format!("\"{}\" has no unit: {}?", shown(text), with(&number, unit))
            } else {
                format!("\"{}\" has no unit: {} or {}?", shown(text), with(&number, unit), with(&number, other))
            };
            return Err(Unread::new(Code::UnitMissing, question, with(&number, unit)));
        };
        if !row.units.contains(&unit) {
            let fits = row.units.iter().map(|unit| unit.spelling()).collect::<Vec<_>>().join(", ");
            let (code, says) = if unit.row().dimension == row.dimension() {
                (Code::KindWrong, format!("{} does not fit here; use {fits}.", unit.spelling()))
            } else {
                let is = unit.row().dimension.words();
                (Code::UnitWrong, format!("\"{}\" is {is}, not {}; use {fits}.", shown(text), row.dimension().words()))
            };
            return Err(Unread::new(code, says, row.example));
        }
        if unit == Unit::ThreadsPerInch && written.tolerance.is_some() {
            return Err(threads_with_tolerance(written.value));
        }
        let measure = Self { value: written.value, unit, tolerance: written.tolerance, kind: PhantomData };
        measure.check_bounds(text)?;
        Ok(measure)
    }

    fn check_bounds(&self, text: &str) -> Result<(), Unread> {
        let row = K::ROW;
        // No threads in an inch would be a pitch without end.
        let si = if self.value == 0.0 && self.unit == Unit::ThreadsPerInch { 0.0 } else { self.unit.to_si(self.value) };
        let refuse =
            |rule: String| Err(Unread::new(Code::ValueOutOfRange, format!("\"{}\" {rule}", shown(text)), row.example));
        match row.least {
            Least::AboveZero if si <= 0.0 => return refuse("is not more than 0.".into()),
            Least::AboveZero if si < TINY => return refuse("is too near 0.".into()),
            Least::From(least) if si < least => return refuse(format!("is below {}.", self.bound(least))),
            _ => {}
        }
        // A double's rounding of 180° in radians must not refuse 180° itself.
        let most = row.most * (1.0 + 4.0 * f64::EPSILON);
        if si > most || (row.least == Least::Any && si < -most) || !si.is_finite() {
            return refuse(format!("is beyond {}.", self.bound(row.most)));
        }
        Ok(())
    }

    /// A bound in the unit the caller used.
    fn bound(&self, si: f64) -> String {
        let unit = if self.unit == Unit::ThreadsPerInch { Unit::Inch } else { self.unit };
        with(&text::full(text::tidy(unit.of_si(si))), unit)
    }
}

/// A number that may be a share of one or of a hundred; what to try is the one nearer in size to what is usual.
fn share(row: &KindRow, unit: Unit, value: f64, text: &str) -> Unread {
    let amounts = [value, text::tidy(value * 100.0)].map(|amount| with(&text::full(amount), unit));
    let usual = row.example.split(' ').next().and_then(|number| number.parse::<f64>().ok()).unwrap_or(1.0);
    let off = |amount: f64| (amount / usual).abs().ln().abs();
    let nearer = usize::from(off(value * 100.0) < off(value) - 1e-9);
    let says = format!("\"{}\" has no unit: {} or {}?", shown(text), amounts[nearer], amounts[1 - nearer]);
    Unread::new(Code::ValueAmbiguous, says, amounts[nearer].clone())
}

/// A unit that there is none of; what to try is the nearest of the kind's own.
fn unknown_unit(row: &KindRow, value: f64, name: &str) -> Unread {
    let fits = row.units.iter().map(|unit| unit.spelling()).collect::<Vec<_>>().join(", ");
    let says = format!("\"{}\" is not a unit known here; use {fits}.", shown(name));
    let good = nearest_unit(name, row.units).map(|unit| with(&text::full(value), unit));
    Unread::new(Code::UnitUnknown, says, good.unwrap_or_else(|| row.example.to_owned()))
}

impl Measure<kind::ThreadPitch> {
    /// The pitch or lead as a length like any other: of 8 threads per inch, an eighth of an inch.
    pub fn length(&self) -> Measure<kind::Size> {
        let Quantity { value, unit, tolerance, .. } = self.quantity().as_length();
        Measure { value, unit, tolerance, kind: PhantomData }
    }
}

fn with(number: &str, unit: Unit) -> String {
    format!("{number} {}", unit.row().ascii)
}

/// The unit of the other system, for a question.
fn other(row: &KindRow, unit: Unit) -> Unit {
    if row.inch.0 != unit && row.units.contains(&row.inch.0) {
        row.inch.0
    } else if row.metric.0 != unit && row.units.contains(&row.metric.0) {
        row.metric.0
    } else {
        row.units.iter().copied().find(|u| *u != unit).unwrap_or(unit)
    }
}

impl Quantity {
    /// An angle's number of degrees, exact where it is in degrees.
    pub fn in_degrees(&self) -> f64 {
        if self.unit == Unit::Degree { self.value } else { Unit::Degree.of_si(self.si()) }
    }
}

/// A quantity computed.
pub struct Found<K: Kind> {
    value: f64,
    unit: Unit,
    kind: PhantomData<K>,
}

impl<K: Kind> Clone for Found<K> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<K: Kind> Copy for Found<K> {}

impl<K: Kind> fmt::Debug for Found<K> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.quantity().text())
    }
}

impl<K: Kind> Found<K> {
    /// A computed value.
    pub fn of(value: K::Si) -> Self {
        let unit = K::ROW.dimension().base_unit(K::ROW.metric.0);
        Self { value: unit.of_si(value.si()), unit, kind: PhantomData }
    }

    /// A value known in a unit, such as a table's or an angle kept in degrees.
    pub const fn stated(value: f64, unit: Unit) -> Self {
        Self { value, unit, kind: PhantomData }
    }

    /// In base units, with its dimension.
    pub fn get(&self) -> K::Si {
        K::Si::from_si(self.unit.to_si(self.value))
    }

    /// The number of degrees of an angle, exact where it is kept in degrees.
    pub fn degrees(&self) -> f64 {
        self.quantity().in_degrees()
    }

    /// Without its type.
    pub fn quantity(&self) -> Quantity {
        Quantity { value: self.value, unit: self.unit, kind: K::ROW, tolerance: None }
    }
}

impl<'de, K: Kind> Deserialize<'de> for Measure<K> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(MeasureVisitor(PhantomData))
    }
}

/// The part of an answer's `plus_minus` that is read when it is sent back.
#[derive(serde::Deserialize)]
struct Spread {
    worst_case: WorstCase,
}

#[derive(serde::Deserialize)]
struct WorstCase {
    plus: f64,
    minus: f64,
}

struct MeasureVisitor<K>(PhantomData<K>);

impl<'de, K: Kind> Visitor<'de> for MeasureVisitor<K> {
    type Value = Measure<K>;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "a quantity such as \"{}\"", K::ROW.example)
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Self::Value, E> {
        Measure::read(text).map_err(carry)
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Self::Value, E> {
        self.visit_str(&text::full(value))
    }

    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Self::Value, E> {
        self.visit_f64(value as f64)
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Self::Value, E> {
        self.visit_f64(value as f64)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Self::Value, A::Error> {
        let example = K::ROW.example;
        let refuse = |says: String| carry::<A::Error>(Unread::new(Code::ValueUnreadable, says, example));
        let (mut value, mut unit, mut plus, mut minus) = (None, None, 0.0, 0.0);
        let mut toleranced = false;
        let mut spread = None;
        while let Some(key) = map.next_key::<String>()? {
            match key.as_str() {
                "value" => value = Some(map.next_value::<f64>().map_err(|error| refuse(error.to_string()))?),
                "unit" => unit = Some(map.next_value::<String>()?),
                "plus" => (plus, toleranced) = (map.next_value::<f64>()?, true),
                "minus" => (minus, toleranced) = (map.next_value::<f64>()?, true),
                // An answer's quantity can be sent back as it is; the spread it has goes on as a tolerance.
                "plus_minus" => spread = Some(map.next_value::<Spread>()?.worst_case),
                "text" | "set_to" | "left_over" | "name" | "least" | "greatest" => {
                    map.next_value::<de::IgnoredAny>()?;
                }
                other => {
                    return Err(refuse(format!(
                        "\"{}\" is not part of a quantity; give value and unit.",
                        shown(other)
                    )));
                }
            }
        }
        let value = value.ok_or_else(|| refuse("A quantity as an object needs a value.".into()))?;
        if let Some(worst) = spread {
            if toleranced {
                return Err(refuse("Give plus and minus, or plus_minus, not both.".into()));
            }
            (plus, minus, toleranced) = (worst.plus, worst.minus, true);
        }
        if !value.is_finite() || plus < 0.0 || minus < 0.0 {
            return Err(refuse("The value must be a number, and a tolerance 0 or more.".into()));
        }
        let known = match &unit {
            Some(name) => Some(Unit::named(name).ok_or_else(|| carry::<A::Error>(unknown_unit(K::ROW, value, name)))?),
            None => None,
        };
        let text = format!("{} {}", text::full(value), unit.as_deref().unwrap_or("")).trim_end().to_owned();
        let tolerance = toleranced.then_some((plus, minus));
        Measure::from_written(Written { value, unit: known, tolerance }, &text).map_err(carry)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tolerance_goes_into_the_other_system_with_its_value() {
        let quantity =
            Quantity { value: 0.5, unit: Unit::Inch, kind: kind::Size::ROW, tolerance: Some((0.002, 0.001)) };
        let metric = quantity.in_system(System::Metric);
        assert_eq!((metric.value, metric.unit, metric.tolerance), (12.7, Unit::Millimetre, Some((0.0508, 0.0254))));
        assert_eq!(metric.in_system(System::Inch).tolerance, quantity.tolerance);
    }
}
