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

/// `text` with each quantity of the other system as one of `system`, rounded; where `keep` says so of its number, only
/// the unit is the other system's. What is no plain quantity stays as it is.
pub fn in_system(text: &str, system: System, keep: impl Fn(&str, f64) -> bool) -> String {
    let mut out = String::with_capacity(text.len());
    for piece in text.split_inclusive(PARTS) {
        let part = piece.trim_end_matches(PARTS);
        let other = stated(part).filter(|(written, of)| *of != system && written.tolerance.is_none());
        let units =
            other.and_then(|(written, _)| Some((written.value, written.unit?, written.unit?.counterpart(system)?)));
        match units {
            Some((number, _, to)) if keep(part, number) => {
                out.push_str(&format!("{} {}", text::full(number), to.row().ascii));
            }
            Some((number, from, to)) => out.push_str(&value(from.to_si(number), to, Way::Near)),
            None => out.push_str(part),
        }
        out.push_str(&piece[part.len()..]);
    }
    out
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
        let metric = |text: &str| in_system(text, System::Metric, |_, _| false);
        assert_eq!(metric("1/2 in"), "12.7 mm");
        assert_eq!(metric("70 ft/min"), "21.3 m/min");
        assert_eq!(metric("0 in,0 in;1 in,0 in"), "0 mm,0 mm;25.4 mm,0 mm");
        assert_eq!(metric("point_length:0.152 in"), "point_length:3.86 mm");
        for same in ["#7", "118 deg", "12 mm", "leave out", "1/4-20 UNC", "", "6", "1 in ±0.1 in"] {
            assert_eq!(metric(same), same);
        }
        assert_eq!(in_system("12 mm", System::Inch, |_, _| false), "0.472 in");
        assert_eq!(in_system("0.5 in", System::Metric, |_, number| number == 0.5), "0.5 mm");
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
