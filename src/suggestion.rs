//! Values to try in a refusal: rounded to three digits, in the unit the caller used.

use crate::quantity::{Unit, text};

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
    format!("{} {}", text::full(three_digits(unit.of_si(si), way)), unit.row().ascii)
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
    fn suggestions_are_short_and_on_the_right_side() {
        assert_eq!(value(0.0508, Unit::Inch, Way::Up), "2 in");
        assert_eq!(value(0.012345, Unit::Millimetre, Way::Near), "12.3 mm");
        assert_eq!(value(0.012345, Unit::Millimetre, Way::Up), "12.4 mm");
        assert_eq!(value(0.012395, Unit::Millimetre, Way::Down), "12.3 mm");
        assert_eq!(value(123.456, Unit::Metre, Way::Near), "123 m");
    }
}
