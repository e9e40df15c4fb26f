//! Numbers as designations write them: whole, decimal, fractions of an inch; both ways.

/// Diameter of a number size in inches: 0.060 + 0.013 for each number (ASME B1.1), built from
/// whole thousandths so that it equals the listed value.
pub fn number_size(number: u32) -> f64 {
    f64::from(60 + 13 * number) / 1000.0
}

/// A whole number and a fraction, to nine places: so many are written back, and no fraction of an
/// inch that is used has more than six.
pub fn mixed(whole: f64, part: f64) -> f64 {
    ((whole + part) * 1e9).round() / 1e9
}

/// A size in inches as a fraction where it is a whole number of 64ths, else as a decimal.
pub fn inch_text(inches: f64) -> String {
    let parts = inches * 64.0;
    let whole_parts = parts.round();
    if (parts - whole_parts).abs() > 1e-9 {
        return inches.to_string();
    }
    let (mut over, mut under) = (whole_parts as u64, 64_u64);
    let whole = over / under;
    over %= under;
    if over == 0 {
        return whole.to_string();
    }
    while over % 2 == 0 {
        over /= 2;
        under /= 2;
    }
    if whole == 0 { format!("{over}/{under}") } else { format!("{whole} {over}/{under}") }
}

/// Inches as a whole number, a decimal, a fraction, or a whole number and a fraction: `1`, `.25`, `5/16`, `1-1/8`.
pub fn plain_inches(text: &str) -> Option<f64> {
    let text = text.trim();
    match text.split_once(['-', ' ']) {
        Some((whole, part)) => Some(mixed(decimal(whole).filter(|n| n.fract() == 0.0)?, fraction(part.trim())?)),
        None => decimal(text).or_else(|| fraction(text)),
    }
}

/// A plain decimal: digits with at most one point. No sign, exponent, `inf` or `nan`.
pub fn decimal(text: &str) -> Option<f64> {
    let digits = text.chars().filter(char::is_ascii_digit).count();
    let points = text.chars().filter(|c| *c == '.').count();
    if digits == 0 || digits > 12 || points > 1 || digits + points != text.chars().count() {
        return None;
    }
    text.parse().ok()
}

/// A fraction such as `5/16`; a denominator of zero is no fraction.
pub fn fraction(text: &str) -> Option<f64> {
    let (over, under) = text.split_once('/')?;
    if over.contains('.') || under.contains('.') {
        return None;
    }
    let (over, under) = (decimal(over)?, decimal(under)?);
    (under > 0.0).then(|| over / under)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_in_inches_is_written_as_the_fraction_it_is() {
        assert_eq!(inch_text(0.25), "1/4");
        assert_eq!(inch_text(1.125), "1 1/8");
        assert_eq!(inch_text(0.28125), "9/32");
        assert_eq!(inch_text(6.0), "6");
        assert_eq!(inch_text(0.3), "0.3");
    }

    #[test]
    fn a_fraction_without_end_is_written_so_that_it_reads_back() {
        let third = mixed(1.0, fraction("1/3").unwrap());
        assert_eq!(decimal(&inch_text(third)), Some(third));
        assert_eq!(mixed(1.0, fraction("17/64").unwrap()), 1.265625);
    }

    #[test]
    fn what_is_no_plain_number_is_not_read_as_one() {
        for text in ["", ".", "1.2.3", "-1", "1e5", "inf", "nan", "1/0", "1.5/2", "/2"] {
            assert_eq!(decimal(text).or_else(|| fraction(text)), None, "{text}");
        }
        assert_eq!(decimal(".250"), Some(0.25));
        assert_eq!(fraction("5/16"), Some(0.3125));
    }
}
