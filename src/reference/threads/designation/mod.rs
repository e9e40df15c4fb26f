//! Reads a thread designation as people type it, after the ways its standard writes one, and says
//! what is wrong where it cannot.

use super::error::{DesignationError, ErrorKind};
use super::foreign::refuse_foreign;
use super::{Thread, metric_designation, other_designation, unified_designation};

/// Longer than any designation with class, hand and starts.
const LONGEST: usize = 80;

/// Reads a designation such as `1/4-20 UNC-2A`, `#10-32`, `M8x1-6g`, `G 1/2 A` or `Tr20x4`.
pub fn read(text: &str) -> Result<Thread, DesignationError> {
    if text.chars().count() > LONGEST {
        return Err(DesignationError::new(
            ErrorKind::Unreadable,
            format!("a thread designation has at most {LONGEST} characters"),
            "1/4-20 UNC",
        ));
    }
    let plain = plain_characters(text);
    let plain = plain.trim();
    if plain.is_empty() {
        return Err(DesignationError::new(
            ErrorKind::Empty,
            "no thread is named (in an address, `#` must be written `%23`)",
            "1/4-20 UNC",
        ));
    }
    refuse_decimal_comma(plain)?;
    if let Some(read) = other_designation::read(plain) {
        return read;
    }
    let upper = plain.to_ascii_uppercase();
    refuse_foreign(&upper)?;
    match upper.strip_prefix('M').map(str::trim_start) {
        Some(rest) if rest.starts_with(|c: char| c.is_ascii_digit() || c == '.') => {
            metric_designation::read(plain[1..].trim_start(), plain)
        }
        _ => unified_designation::read(&upper, plain),
    }
}

/// The ASCII spelling of signs that print better than they type.
fn plain_characters(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '×' | '✕' | '⨯' => plain.push('x'),
            '–' | '—' | '‑' | '−' | '‐' => plain.push('-'),
            '″' | '“' | '”' | '"' => plain.push(' '),
            '⁄' => plain.push('/'),
            '½' => plain.push_str(" 1/2"),
            '¼' => plain.push_str(" 1/4"),
            '¾' => plain.push_str(" 3/4"),
            '⅛' => plain.push_str(" 1/8"),
            '⅜' => plain.push_str(" 3/8"),
            '⅝' => plain.push_str(" 5/8"),
            '⅞' => plain.push_str(" 7/8"),
            c if c.is_whitespace() => plain.push(' '),
            c => plain.push(c),
        }
    }
    plain
}

/// A comma between digits may part decimals or thousands; only the writer knows.
fn refuse_decimal_comma(plain: &str) -> Result<(), DesignationError> {
    let bytes = plain.as_bytes();
    let between_digits = bytes.windows(3).any(|w| w[1] == b',' && w[0].is_ascii_digit() && w[2].is_ascii_digit());
    if !between_digits {
        return Ok(());
    }
    Err(DesignationError::new(
        ErrorKind::Ambiguous,
        format!("`{plain}` has a comma between digits; write a decimal point"),
        plain.replace(',', "."),
    ))
}

/// Refusal of what stands after size and pitch and is neither series, class, hand nor starts.
pub(super) fn left_over(what: &str, plain: &str, example: &str) -> DesignationError {
    DesignationError::new(
        ErrorKind::Unreadable,
        format!(
            "in `{plain}`, `{what}` is not a series, a class, a hand or a number of starts; \
             leave lengths and notes out"
        ),
        example,
    )
}

/// Refusal of a second value where one has been read already.
pub(super) fn said_twice(what: &str, plain: &str, example: &str) -> DesignationError {
    DesignationError::new(ErrorKind::Ambiguous, format!("`{plain}` names {what} more than once"), example)
}

/// Sets a part of a designation, refusing to set it twice.
pub(super) fn set_once<T>(
    place: &mut Option<T>,
    value: T,
    what: &str,
    plain: &str,
    example: &str,
) -> Result<(), DesignationError> {
    if place.replace(value).is_some() {
        return Err(said_twice(what, plain, example));
    }
    Ok(())
}

/// Number of starts from the number written before `start` or `starts`.
pub(super) fn starts(value: f64, plain: &str, example: &str) -> Result<u32, DesignationError> {
    if (1.0..=12.0).contains(&value) && value.fract() == 0.0 {
        return Ok(value as u32);
    }
    Err(DesignationError::new(
        ErrorKind::OutOfRange,
        format!("`{plain}`: the number of starts is a whole number from 1 to 12"),
        example,
    ))
}

/// A root deeper than half the diameter is no thread; most often the number read as the pitch
/// was a length.
pub(super) fn refuse_coarse(
    diameter: f64,
    pitch: f64,
    read_as: &str,
    plain: &str,
    example: &str,
) -> Result<(), DesignationError> {
    if super::TO_MINOR_DIAMETER * pitch <= diameter / 2.0 {
        return Ok(());
    }
    Err(DesignationError::new(
        ErrorKind::OutOfRange,
        format!(
            "`{plain}` reads as {read_as}: the thread would take more than half of the diameter; \
             leave a length out, or check size and pitch"
        ),
        example,
    ))
}

#[cfg(test)]
mod tests;
