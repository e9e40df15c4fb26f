//! Reads a thread designation as people type it, after the ways its standard writes one, and says
//! what is wrong where it cannot.

mod foreign;
mod metric;
mod other;
mod pieces;
mod power;
mod said;
#[cfg(test)]
mod tests;
mod unified;
mod unified_name;

use super::Thread;
use super::error::{DesignationError, ErrorKind};
use foreign::refuse_foreign;

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
            "no thread is given (in an address, write `#` as `%23`)",
            "1/4-20 UNC",
        ));
    }
    refuse_decimal_comma(plain)?;
    if let Some(read) = other::read(plain) {
        return read;
    }
    let upper = plain.to_ascii_uppercase();
    refuse_foreign(&upper)?;
    match upper.strip_prefix('M').map(str::trim_start) {
        Some(rest) if rest.starts_with(|c: char| c.is_ascii_digit() || c == '.') => {
            metric::read(plain[1..].trim_start(), plain)
        }
        _ => unified::read(&upper, plain),
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
