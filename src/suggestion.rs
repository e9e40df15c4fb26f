//! Values to try in a refusal: rounded to three digits, in the unit the caller used.

use crate::quantity::{System, Unit, Written, read, text};

/// Which way a suggestion may be rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// To the nearest.
    Near,
    /// Not above the bound it comes from.
    Down,
    /// Not below the bound it comes from.
    Up,
}

/// `si` base units as a value in `unit`, as a request would state it.
pub fn value(si: f64, unit: Unit, way: Way) -> String {
    // Threads in an inch fall as the pitch grows; a length has its bounds the right way round.
    let unit = if unit == Unit::ThreadsPerInch { Unit::Inch } else { unit };
    format!("{} {}", text::full(three_digits(unit.of_si(si), way)), unit.row().ascii)
}

/// What parts the values of a list, of a point, of a row, or a result's name from its value.
pub const PARTS: [char; 5] = [',', ';', '|', ':', '\n'];

/// A plain quantity that has a system, if `part` is one.
pub fn stated(part: &str) -> Option<(Written, System)> {
    let written = read(part, "").ok()?;
    Some((written, written.unit?.system()?))
}

/// How a quantity goes into the other system.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Into {
    /// With its number, in the other unit: it was only the unit that was missing.
    SameNumber,
    /// Of the same size, to six digits: it follows from other values.
    SameSize,
    /// Of about the size, in a number that a person would choose: any such value would do.
    RoundNumber,
}

/// `text` with each quantity of the other system as one of `system`; `how` says how, by its number. What is no plain
/// quantity stays as it is.
pub fn in_system(text: &str, system: System, how: impl Fn(f64) -> Into) -> String {
    let mut out = String::with_capacity(text.len());
    for piece in text.split_inclusive(PARTS) {
        let part = piece.trim_end_matches(PARTS);
        let other = stated(part).filter(|(written, of)| *of != system && written.tolerance.is_none());
        let units =
            other.and_then(|(written, _)| Some((written.value, written.unit?, written.unit?.counterpart(system)?)));
        match units {
            Some((number, from, to)) => {
                let same = to.of_si(from.to_si(number));
                let number = match how(number) {
                    Into::SameNumber => number,
                    Into::SameSize => format!("{same:.5e}").parse().unwrap_or(same),
                    Into::RoundNumber => round_number(same),
                };
                out.push_str(&format!("{} {}", text::full(text::tidy(number)), to.row().ascii));
            }
            None => out.push_str(part),
        }
        out.push_str(&piece[part.len()..]);
    }
    out
}

/// The number nearest to `value` that a person would choose for an example.
fn round_number(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return 0.0;
    }
    let scale = 10f64.powi(value.abs().log10().floor() as i32);
    let size = value.abs() / scale;
    let off = |number: &f64| (number / size).ln().abs();
    let round = [1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0];
    let nearest = round.into_iter().min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(1.0);
    text::tidy(nearest * scale).copysign(value)
}

fn three_digits(value: f64, way: Way) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return 0.0;
    }
    let scale = 10f64.powi(2 - value.abs().log10().floor() as i32);
    // Tidied, so that 2.00 does not become 2.01 for the last bit of a unit conversion.
    let counts = text::tidy(value * scale);
    let counts = match way {
        Way::Near => counts.round(),
        Way::Down => counts.floor(),
        Way::Up => counts.ceil(),
    };
    text::tidy(counts / scale)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_suggestion_goes_into_the_other_system() {
        let metric = |text: &str| in_system(text, System::Metric, |_| Into::RoundNumber);
        assert_eq!(metric("1/2 in"), "12 mm");
        assert_eq!(metric("70 ft/min"), "20 m/min");
        assert_eq!(metric("0 in,0 in;1 in,0 in"), "0 mm,0 mm;25 mm,0 mm");
        assert_eq!(metric("point_length:0.152 in"), "point_length:4 mm");
        for same in ["#7", "118 deg", "12 mm", "leave out", "1/4-20 UNC", "", "6", "1 in ±0.1 in"] {
            assert_eq!(metric(same), same);
        }
        assert_eq!(metric("-0.0005 in"), "-0.012 mm");
        let inch = |how: Into| in_system("12 mm", System::Inch, |_| how);
        assert_eq!(inch(Into::SameNumber), "12 in");
        assert_eq!(inch(Into::SameSize), "0.472441 in");
        assert_eq!(inch(Into::RoundNumber), "0.5 in");
    }

    #[test]
    fn suggestions_are_short_and_on_the_right_side() {
        assert_eq!(value(0.0508, Unit::Inch, Way::Up), "2 in");
        assert_eq!(value(0.012345, Unit::Millimetre, Way::Near), "12.3 mm");
        assert_eq!(value(0.012345, Unit::Millimetre, Way::Up), "12.4 mm");
        assert_eq!(value(0.012395, Unit::Millimetre, Way::Down), "12.3 mm");
        assert_eq!(value(123.456, Unit::Metre, Way::Near), "123 m");
    }
}
