//! One number with its unit, taken apart as it is written, so that another can be written the same
//! way. Decimals are counted in whole numbers, so that no rounding of a computer shows.

use crate::quantity::{Unit, read};

/// How a number is written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Form {
    /// A fraction, in parts of an inch or another unit.
    Fraction(i64),
    /// A decimal with so many places.
    Decimal(u32),
}

/// A number with its unit, as written.
#[derive(Clone, Debug, PartialEq)]
pub struct Stated<'t> {
    /// In the smallest parts that are written.
    pub counts: i64,
    /// How it is written.
    pub form: Form,
    /// Places that were written at first.
    written: u32,
    /// Digits that were written, without zeros in front.
    digits: usize,
    /// Its unit, if it has one.
    pub unit: Option<Unit>,
    /// What stands behind the number.
    pub suffix: &'t str,
}

/// Ten to the power of so many places.
pub fn power(places: u32) -> i64 {
    10i64.pow(places)
}

impl<'t> Stated<'t> {
    /// Takes a text apart; `None` where it is no plain number with a unit.
    pub fn read(text: &'t str) -> Option<Self> {
        let text = text.trim();
        let written = read(text, "1 in").ok()?;
        if written.tolerance.is_some() || (written.unit.is_none() && written.value != 0.0) {
            return None;
        }
        let end = text.find(|c: char| !(c.is_ascii_digit() || "-+./ ".contains(c))).unwrap_or(text.len());
        let (number, suffix) = text.split_at(text[..end].trim_end().len());
        let body = number.trim_start_matches(['-', '+']);
        let sign = if number.starts_with('-') { -1 } else { 1 };
        let (counts, form) = match body.split_once('/') {
            Some((top, bottom)) => {
                let bottom: i64 = bottom.trim().parse().ok().filter(|bottom| (1..=1000).contains(bottom))?;
                let (whole, top) = top.rsplit_once(['-', ' ']).unwrap_or(("0", top));
                let (whole, top): (i64, i64) = (whole.trim().parse().ok()?, top.trim().parse().ok()?);
                let counts = whole.checked_mul(bottom)?.checked_add(top)?;
                (Some(counts).filter(|counts| *counts < 1_000_000_000)?, Form::Fraction(bottom))
            }
            None => {
                let places = body.split_once('.').map_or(0, |(_, decimals)| decimals.len() as u32);
                let digits: String = body.chars().filter(char::is_ascii_digit).collect();
                // Longer numbers are nobody's drawing, and would not fit when scaled.
                (digits.parse().ok().filter(|_| digits.len() <= 9 && places <= 6)?, Form::Decimal(places))
            }
        };
        // What the reader understood decides; anything else, such as an exponent, is left alone.
        let value = match form {
            Form::Fraction(bottom) => counts as f64 / bottom as f64,
            Form::Decimal(places) => counts as f64 / power(places) as f64,
        };
        if (value * f64::from(sign) - written.value).abs() > 1e-12 * value.abs() {
            return None;
        }
        let digits = body.trim_start_matches(['0', '.']).chars().filter(char::is_ascii_digit).count();
        let written_places = if let Form::Decimal(places) = form { places } else { 0 };
        Some(Self {
            counts: counts * i64::from(sign),
            form,
            written: written_places,
            digits,
            unit: written.unit,
            suffix,
        })
    }

    /// Whether it was measured, not chosen: four digits or more.
    pub fn is_measured(&self) -> bool {
        self.digits >= 4 && matches!(self.form, Form::Decimal(1..))
    }

    /// Whether it is written to a thousandth of an inch or a hundredth of a millimetre.
    pub fn is_fine(&self) -> bool {
        match (self.form, self.unit) {
            (Form::Decimal(places), Some(Unit::Inch)) => places >= 3 && self.counts != 0,
            (Form::Decimal(places), _) => places >= 2 && self.counts != 0,
            _ => false,
        }
    }

    /// Its decimal places; none of a fraction.
    pub fn places(&self) -> u32 {
        if let Form::Decimal(places) = self.form { places } else { 0 }
    }

    /// The same counted in finer parts.
    pub fn with_places(&self, places: u32) -> Self {
        let own = self.places();
        match self.form {
            Form::Decimal(_) if places > own => {
                Self { counts: self.counts * power(places - own), form: Form::Decimal(places), ..self.clone() }
            }
            _ => self.clone(),
        }
    }

    /// Larger or smaller by a share in percent, to the places that such a size is written to.
    pub fn scaled(&self, percent: i64) -> Self {
        match self.form {
            Form::Fraction(bottom) => {
                let finer = if bottom >= 64 || bottom % 2 != 0 { bottom } else { bottom.max(32) };
                let counts = nearest(self.counts * (finer / bottom) * percent, 100);
                Self { counts, form: Form::Fraction(finer), ..self.clone() }
            }
            Form::Decimal(places) => {
                let wanted = if self.unit == Some(Unit::Inch) { 3 } else { 2 };
                let finer = self.with_places(places.max(wanted));
                Self { counts: nearest(finer.counts * percent, 100), ..finer }
            }
        }
    }

    /// A little off, by so many of the last place.
    pub fn nudged(&self, by: i64, down: bool) -> Self {
        // Only the places that were written at first count as read off.
        let finer = self.places().saturating_sub(self.written);
        let by = by * power(finer) * if down { -1 } else { 1 };
        let counts = nearest(self.counts, power(finer)) * power(finer) + by;
        Self { counts, ..self.clone() }
    }

    /// Moved by so many parts of so many places; a fraction by as many eighths as that has.
    pub fn plus(&self, parts: i64, places: u32) -> Self {
        if let Form::Fraction(bottom) = self.form {
            if bottom & (bottom - 1) != 0 {
                return self.clone();
            }
            let finer = bottom.max(8);
            let eighths = parts * 8 / power(places);
            return self.with(self.counts * (finer / bottom) + eighths * (finer / 8), Form::Fraction(finer));
        }
        let finer = self.with_places(places);
        let counts = finer.counts + parts * power(finer.places() - places.min(finer.places()));
        finer.with(counts, finer.form)
    }

    /// Another number of the same unit.
    pub fn with(&self, counts: i64, form: Form) -> Self {
        Self { counts, form, ..self.clone() }
    }

    /// As it is written.
    pub fn text(&self) -> String {
        let sign = if self.counts < 0 { "-" } else { "" };
        let counts = self.counts.abs();
        let number = match self.form {
            Form::Fraction(bottom) => {
                let (whole, top) = (counts / bottom, counts % bottom);
                let common = divisor(top, bottom);
                match (whole, top) {
                    (_, 0) => whole.to_string(),
                    (0, _) => format!("{}/{}", top / common, bottom / common),
                    _ => format!("{whole}-{}/{}", top / common, bottom / common),
                }
            }
            Form::Decimal(places) => {
                let (whole, part) = (counts / power(places), counts % power(places));
                let mut decimals =
                    if places > 0 { format!("{part:0width$}", width = places as usize) } else { String::new() };
                while decimals.len() > self.written as usize && decimals.ends_with('0') {
                    decimals.pop();
                }
                if decimals.is_empty() { whole.to_string() } else { format!("{whole}.{decimals}") }
            }
        };
        format!("{sign}{number}{}", self.suffix)
    }
}

fn divisor(a: i64, b: i64) -> i64 {
    if a == 0 { b.max(1) } else { divisor(b % a, a) }
}

/// To the nearest multiple's count, halves away from zero.
pub fn nearest(number: i64, step: i64) -> i64 {
    let half = step / 2 * number.signum();
    (number + half) / step
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_written_back_as_it_was() {
        for text in ["1/2 in", "1-1/4 in", "0.200 in", "-12.40 mm", "118 deg", "70 ft/min", "0.002 in/tooth", "7/64 in"]
        {
            assert_eq!(Stated::read(text).map(|stated| stated.text()).as_deref(), Some(text));
        }
        for text in ["4", "No.7", "2.000 ±0.001 in", "1e-3 in", "12°30'", "x"] {
            assert_eq!(Stated::read(text), None, "{text}");
        }
    }

    #[test]
    fn four_digits_are_a_measurement() {
        let measured = |text| Stated::read(text).is_some_and(|stated| stated.is_measured());
        assert!(measured("1.2620 in") && measured("41.35 mm") && measured("0.8499 in"));
        assert!(!measured("0.250 in") && !measured("1/2 in") && !measured("1250 mm"));
    }

    #[test]
    fn scaling_and_moving_keep_what_was_written() {
        let text =
            |text: &str, act: fn(Stated) -> Stated| Stated::read(text).map(|s| act(s).text()).unwrap_or_default();
        assert_eq!(text("105 mm", |s| s.scaled(150)), "157.5 mm");
        assert_eq!(text("0.200 in", |s| s.scaled(75)), "0.150 in");
        assert_eq!(text("1-1/4 in", |s| s.scaled(50)), "5/8 in");
        assert_eq!(text("-0.098 in", |s| s.nudged(3, true)), "-0.101 in");
        assert_eq!(text("12.40 mm", |s| s.plus(15, 0)), "27.40 mm");
        assert_eq!(text("0.5 in", |s| s.plus(125, 3)), "0.625 in");
        assert_eq!(text("1/2 in", |s| s.plus(375, 3)), "7/8 in");
        assert_eq!(text("9/64 in", |s| s.plus(125, 3)), "17/64 in");
    }
}
