//! Rounding and printing of numbers, as a shop writes them: half away from zero, fixed places.

use std::cell::RefCell;
use std::io::Write;

/// `value` to 15 significant digits, the number of decimal digits a double always keeps: it takes
/// off the last-place noise of a unit conversion (12.187500000000002 → 12.1875) and nothing a
/// caller could have meant. Negative zero becomes zero.
pub fn tidy(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return if value == 0.0 { 0.0 } else { value };
    }
    let power = 14 - magnitude(value.abs());
    if (0..=22).contains(&power) {
        let scale = POWERS[power as usize];
        whole(value * scale) / scale
    } else if (-22..0).contains(&power) {
        let scale = POWERS[(-power) as usize];
        whole(value / scale) * scale
    } else {
        format!("{value:.14e}").parse().unwrap_or(value)
    }
}

/// The power of ten of the first digit of `size`, which is above zero.
fn magnitude(size: f64) -> i32 {
    // The binary exponent gives it but for one, which the powers of ten decide.
    let binary = ((size.to_bits() >> 52) & 0x7ff) as i32 - 1023;
    let below = (binary * 1233) >> 12;
    let next = below + 1;
    let table = if next < 0 { &SMALL_POWERS } else { &POWERS };
    match table.get(next.unsigned_abs() as usize) {
        Some(power) => below + i32::from(size >= *power),
        None => size.log10().floor() as i32,
    }
}

/// `value` to the nearest whole number, halves away from zero, as [`f64::round`] but without a call.
fn whole(value: f64) -> f64 {
    if value.abs() >= 9e15 {
        return value;
    }
    let cut = value as i64 as f64;
    if (value - cut).abs() >= 0.5 { cut + 1f64.copysign(value) } else { cut }
}

/// `value` to 7 significant digits, all that a numeric derivative vouches for.
pub fn rough(value: f64) -> f64 {
    format!("{value:.6e}").parse().unwrap_or(value) + 0.0
}

/// Powers of ten that a double holds exactly.
static POWERS: [f64; 23] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20,
    1e21, 1e22,
];

/// The doubles nearest to the negative powers of ten.
static SMALL_POWERS: [f64; 23] = [
    1e0, 1e-1, 1e-2, 1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10, 1e-11, 1e-12, 1e-13, 1e-14, 1e-15, 1e-16, 1e-17,
    1e-18, 1e-19, 1e-20, 1e-21, 1e-22,
];

/// `value` as a whole number of `10^-places`, halves away from zero. The tidied value decides what
/// a half is, so that 0.00005 counts as one although its double lies a hair below.
fn counts(value: f64, places: usize) -> f64 {
    let scaled = value * POWERS[places];
    let nearest = whole(scaled);
    // Noise decides only near a half.
    let is_clear = scaled.abs() < 1e9 && (scaled - nearest).abs() < 0.499;
    if is_clear { nearest } else { whole(tidy(scaled)) }
}

/// `value` rounded to `places` decimals, halves away from zero.
pub fn round(value: f64, places: usize) -> f64 {
    tidy(counts(value, places) / POWERS[places])
}

/// `value` rounded to `places` decimals towards minus infinity; the tidied value decides, so that
/// the noise of a conversion takes nothing off.
pub fn round_down(value: f64, places: usize) -> f64 {
    tidy(tidy(value * POWERS[places]).floor() / POWERS[places])
}

/// Appends `value` with exactly `places` decimals, halves away from zero; never `-0.000`.
pub fn write_fixed(out: &mut Vec<u8>, value: f64, places: usize) {
    let counts = counts(value, places);
    if counts.abs() >= 9e15 {
        // Beyond whole-number doubles there are no decimals left to round.
        let _ = write!(out, "{value:.places$}");
        return;
    }
    let mut whole = counts.abs() as u64;
    let mut digits = [b'0'; 20];
    let mut at = digits.len();
    let mut written = 0;
    while whole > 0 || written <= places {
        at -= 1;
        digits[at] = b'0' + (whole % 10) as u8;
        whole /= 10;
        written += 1;
    }
    if counts < 0.0 {
        out.push(b'-');
    }
    let (whole, decimals) = digits[at..].split_at(digits.len() - at - places);
    out.extend_from_slice(whole);
    if places > 0 {
        out.push(b'.');
        out.extend_from_slice(decimals);
    }
}

/// What `write` appends, as text.
pub fn text_of(write: impl FnOnce(&mut Vec<u8>)) -> String {
    let mut out = Vec::with_capacity(24);
    write(&mut out);
    String::from_utf8(out).unwrap_or_default()
}

/// `value` with exactly `places` decimals.
pub fn fixed(value: f64, places: usize) -> String {
    text_of(|out| write_fixed(out, value, places))
}

/// How many numbers are kept with their digits by each thread.
const KEPT: usize = 1 << KEPT_BITS;
const KEPT_BITS: u32 = 7;

/// Room for the digits of any double.
const LONGEST: usize = 24;

/// A number and its digits.
#[derive(Clone, Copy)]
struct Digits {
    bits: u64,
    length: usize,
    text: [u8; LONGEST],
}

thread_local! {
    // An answer has most of its numbers several times: as an input or a result, and in the steps that give or use them.
    static WRITTEN: RefCell<[Digits; KEPT]> =
        const { RefCell::new([Digits { bits: u64::MAX, length: 0, text: [0; LONGEST] }; KEPT]) };
}

/// Appends `value`, which is finite, in full as JSON has it: with `.0` where it is whole.
pub fn write_digits(out: &mut Vec<u8>, value: f64) {
    WRITTEN.with_borrow_mut(|written| {
        let bits = value.to_bits();
        // The upper bits of such a product depend on all bits of the number.
        let kept = &mut written[(bits.wrapping_mul(0x9e37_79b9_7f4a_7c15) >> (64 - KEPT_BITS)) as usize];
        if kept.bits != bits {
            let mut buffer = zmij::Buffer::new();
            let text = buffer.format_finite(value).as_bytes();
            kept.bits = bits;
            kept.length = text.len();
            kept.text[..text.len()].copy_from_slice(text);
        }
        out.extend_from_slice(&kept.text[..kept.length]);
    });
}

/// Appends `value` in full: the shortest decimal that reads back as the same double.
pub fn write_full(out: &mut Vec<u8>, value: f64) {
    full_by(out, value, |out, value| {
        out.extend_from_slice(zmij::Buffer::new().format_finite(value).as_bytes());
    });
}

/// The same for a number that was written a moment ago, as an answer's steps have them.
pub fn write_full_again(out: &mut Vec<u8>, value: f64) {
    full_by(out, value, write_digits);
}

fn full_by(out: &mut Vec<u8>, value: f64, digits: impl FnOnce(&mut Vec<u8>, f64)) {
    let size = value.abs();
    if value == 0.0 {
        out.push(b'0');
    } else if (1e-4..1e15).contains(&size) {
        digits(out, value);
        if out.ends_with(b".0") {
            out.truncate(out.len() - 2);
        }
    } else {
        let _ = if (1e-7..1e-4).contains(&size) { write!(out, "{value}") } else { write!(out, "{value:e}") };
    }
}

/// `value` in full: the shortest decimal that reads back as the same double.
pub fn full(value: f64) -> String {
    text_of(|out| write_full(out, value))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn halves_go_away_from_zero() {
        assert_eq!(fixed(0.15625, 4), "0.1563");
        assert_eq!(fixed(-0.15625, 4), "-0.1563");
        assert_eq!(fixed(0.00005, 4), "0.0001");
        assert_eq!(fixed(2.675, 2), "2.68");
        assert_eq!(fixed(1.005, 2), "1.01");
    }

    #[test]
    fn rounding_down_takes_off_parts_of_a_place_and_no_noise() {
        assert_eq!(round_down(5.5245, 3), 5.524);
        assert_eq!(round_down(5.524, 3), 5.524);
        assert_eq!(round_down(0.1 + 0.2, 1), 0.3);
        assert_eq!(-round_down(-5.5241, 3), 5.525);
        assert_eq!(-round_down(-5.524, 3), 5.524);
    }

    #[test]
    fn places_are_kept_and_zero_has_no_sign() {
        assert_eq!(fixed(12.7, 3), "12.700");
        assert_eq!(fixed(-0.00001, 3), "0.000");
        assert_eq!(fixed(0.0, 0), "0");
        assert_eq!(fixed(450.0, 0), "450");
        assert_eq!(fixed(999.99999, 2), "1000.00");
        assert_eq!(fixed(1e18, 2), "1000000000000000000.00");
    }

    #[test]
    fn tidying_removes_noise_and_keeps_what_is_small() {
        assert_eq!(tidy(12.187500000000002), 12.1875);
        assert_eq!(tidy(0.1 + 0.2), 0.3);
        assert_eq!(tidy(3.490658503988659e-9), 3.49065850398866e-9);
        assert_eq!(tidy(1.2345678901234567e-30), 1.23456789012346e-30);
        assert!(tidy(-0.0).is_sign_positive());
        assert_eq!(tidy(123456789.0), 123456789.0);
    }

    #[test]
    fn full_text_reads_back_as_the_same_number() {
        for value in [0.375, 1e-9, -2.5e17, 1.0 / 3.0, 118.0] {
            assert_eq!(full(value).parse::<f64>(), Ok(value));
        }
    }

    proptest! {
        #[test]
        fn full_text_is_the_shortest_that_reads_back(digits in -1e16..1e16, power in -20..20) {
            let value: f64 = digits * 10f64.powi(power);
            let standard = |value: f64| {
                let plain = value == 0.0 || (1e-7..1e15).contains(&value.abs());
                if plain { format!("{value}") } else { format!("{value:e}") }
            };
            assert_eq!(full(tidy(value)), standard(tidy(value)));
            // Of 17 digits two can be as near; the standard library takes the other one.
            assert_eq!(full(value).parse::<f64>(), Ok(value));
            assert_eq!(full(value).len(), standard(value).len());
        }

        #[test]
        fn the_tidied_value_decides_how_a_number_is_rounded(value in -1e6..1e6, counts_of_half in -2_000_000..2_000_000, places in 0..7_usize) {
            let half = f64::from(counts_of_half) / 2.0 / POWERS[places];
            for value in [value, half, half.next_up(), half.next_down(), half * (1.0 + 4e-15)] {
                assert_eq!(counts(value, places), whole(tidy(value * POWERS[places])), "{value} at {places}");
            }
        }

        #[test]
        fn a_number_is_rounded_as_the_standard_library_rounds(value in -1e6..1e6, half in -1_000_000..1_000_000) {
            for value in [value, f64::from(half) + 0.5, (f64::from(half) + 0.5).next_down(), value * 1e12] {
                assert_eq!(whole(value), value.round());
            }
        }

        #[test]
        fn the_power_of_ten_is_that_of_the_first_digit(digits in 1.0..9.999_999, power in -40..40) {
            let value = format!("{digits}e{power}").parse::<f64>().unwrap();
            assert_eq!(magnitude(value), power);
        }
    }
}
