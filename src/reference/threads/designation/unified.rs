//! Reads Unified designations: size, threads per inch, series, classes, hand and starts
//! (ASME B1.1, and the ways shops write it).

use super::said::{left_over, refuse_coarse, said_twice, set_once, starts};
use super::unified_name::{self, Named, Size};
use crate::reference::threads::classes::UnifiedClass;
use crate::reference::threads::error::{DesignationError, ErrorKind};
use crate::reference::threads::size::{decimal, fraction, mixed, number_size};
use crate::reference::threads::{Thread, ThreadSystem, series};

const EXAMPLE: &str = "1/4-20 UNC";

/// One piece of a designation.
#[derive(Debug, Clone, PartialEq)]
enum Piece {
    /// A number as written.
    Number(String, f64),
    /// A fraction as written.
    Fraction(String, f64),
    /// A digit with A or B.
    Class(String),
    /// Letters.
    Word(String),
}

/// Reads a designation given in capitals; `plain` is what refusals quote.
pub(super) fn read(upper: &str, plain: &str) -> Result<Thread, DesignationError> {
    let (numbered, rest) = strip_number_sign(upper);
    let pieces = pieces(rest).ok_or_else(|| unreadable(plain))?;
    let mut pieces = pieces.as_slice();
    let size = read_size(&mut pieces, numbered, plain)?;
    let threads_per_inch = read_threads_per_inch(&mut pieces, plain)?;
    let tail = read_tail(pieces, plain)?;
    let named = match threads_per_inch {
        Some(tpi) if !(1.0..=200.0).contains(&tpi) => {
            return Err(DesignationError::new(
                ErrorKind::OutOfRange,
                format!("`{plain}`: give 1 to 200 threads per inch, not {tpi}"),
                EXAMPLE,
            ));
        }
        Some(tpi) => unified_name::with_pitch(&size, tpi, tail.series.as_deref(), plain)?,
        None => unified_name::without_pitch(&size, tail.series.as_deref(), plain)?,
    };
    build(named, tail, plain)
}

fn build(named: Named, tail: Tail, plain: &str) -> Result<Thread, DesignationError> {
    let (diameter, tpi) = (named.diameter, named.threads_per_inch);
    if !(0.02..=24.0).contains(&diameter) {
        return Err(DesignationError::new(
            ErrorKind::OutOfRange,
            format!("`{plain}`: give a diameter from 0.02 to 24 in, not {diameter} in"),
            EXAMPLE,
        ));
    }
    let read_as = format!("{tpi} threads per inch on {} ({diameter} in)", named.size);
    let example = named.in_inches.as_deref().unwrap_or(EXAMPLE);
    refuse_coarse(diameter, 1.0 / tpi, &read_as, plain, example)?;
    let nearest = match named.row {
        Some(_) => Vec::new(),
        None => series::nearest_unified(diameter, tpi, 2),
    };
    Ok(Thread {
        system: ThreadSystem::Unified,
        diameter,
        pitch: 1.0 / tpi,
        threads_per_inch: Some(tpi),
        series: Some(named.series),
        size: named.size,
        designation: if tail.rounded_root { named.designation.replace("UN", "UNR") } else { named.designation },
        rounded_root: tail.rounded_root,
        external_class: tail.external,
        internal_class: tail.internal,
        left_hand: tail.left_hand.unwrap_or(false),
        starts: tail.starts.unwrap_or(1),
        standard: named.row.is_some(),
        nearest,
        provenance: named
            .row
            .map(|row| crate::reference::threads::Provenance { source: &row.source, trust: &row.trust }),
    })
}

fn unreadable(plain: &str) -> DesignationError {
    DesignationError::new(
        ErrorKind::Unreadable,
        format!(
            "`{plain}` cannot be read as a thread: give size and threads per inch, or M with \
             diameter and pitch"
        ),
        EXAMPLE,
    )
}

/// Takes `#`, `No.` or `number` off the front.
fn strip_number_sign(upper: &str) -> (bool, &str) {
    for sign in ["#", "NUMBER", "NO.", "NO"] {
        if let Some(rest) = upper.strip_prefix(sign) {
            return (true, rest.trim_start());
        }
    }
    (false, upper)
}

/// Cuts a designation into pieces; `None` where a character belongs to no designation.
fn pieces(text: &str) -> Option<Vec<Piece>> {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let length = |test: fn(char) -> bool, of: &str| of.find(|c| !test(c)).unwrap_or(of.len());
        if first.is_ascii_digit() || first == '.' {
            let is_number = |c: char| c.is_ascii_digit() || c == '.';
            let mut end = length(is_number, rest);
            let after_slash = rest[end..].strip_prefix('/').unwrap_or("");
            if after_slash.starts_with(|c: char| c.is_ascii_digit()) {
                end += 1 + length(is_number, after_slash);
                let text = &rest[..end];
                pieces.push(Piece::Fraction(text.to_owned(), fraction(text)?));
            } else if let Some(side) = class_letter(&rest[end..]).filter(|_| end == 1) {
                pieces.push(Piece::Class(format!("{first}{side}")));
                end += 1;
            } else {
                let text = &rest[..end];
                pieces.push(Piece::Number(text.to_owned(), decimal(text)?));
            }
            rest = &rest[end..];
        } else if first.is_ascii_alphabetic() {
            let end = length(|c| c.is_ascii_alphabetic(), rest);
            // An x between size and pitch parts them as a hyphen does.
            if &rest[..end] != "X" || pieces.len() != 1 {
                pieces.push(Piece::Word(rest[..end].to_owned()));
            }
            rest = &rest[end..];
        } else if " -/()".contains(first) {
            rest = &rest[1..];
        } else {
            return None;
        }
    }
    Some(pieces)
}

/// The A or B of a class: not the first letter of a word.
fn class_letter(rest: &str) -> Option<char> {
    let mut letters = rest.chars();
    let side = letters.next().filter(|c| "AB".contains(*c))?;
    match letters.next() {
        Some(c) if c.is_ascii_alphabetic() => None,
        _ => Some(side),
    }
}

fn read_size(pieces: &mut &[Piece], numbered: bool, plain: &str) -> Result<Size, DesignationError> {
    let size = match *pieces {
        [Piece::Number(text, value), rest @ ..] if numbered => {
            if !text.chars().all(|c| c.is_ascii_digit()) || *value > 12.0 {
                return Err(DesignationError::new(
                    ErrorKind::OutOfRange,
                    format!("`{plain}`: number sizes go from 0 to 12"),
                    "#10-32 UNF",
                ));
            }
            *pieces = rest;
            let number = *value as u32;
            return Ok(Size::Number(number, number_size(number)));
        }
        _ if numbered => return Err(unreadable(plain)),
        [Piece::Number(whole, value), Piece::Fraction(_, part), rest @ ..]
            if value.fract() == 0.0 && !whole.contains('.') && *part < 1.0 =>
        {
            *pieces = rest;
            Size::Inches(mixed(*value, *part))
        }
        [Piece::Fraction(_, value), rest @ ..] => {
            *pieces = rest;
            Size::Inches(mixed(0.0, *value))
        }
        [Piece::Number(text, value), rest @ ..] => {
            *pieces = rest;
            match text.split_once('.') {
                Some((_, places)) => Size::Decimal(*value, places.len()),
                None => Size::Bare(*value as u32),
            }
        }
        _ => return Err(unreadable(plain)),
    };
    if let [Piece::Word(word), rest @ ..] = *pieces
        && (word == "IN" || word == "INCH")
    {
        *pieces = rest;
        // Said in inches, so it is no number size.
        if let Size::Bare(whole) = size {
            return Ok(Size::Inches(f64::from(whole)));
        }
    }
    Ok(size)
}

fn read_threads_per_inch(pieces: &mut &[Piece], plain: &str) -> Result<Option<f64>, DesignationError> {
    let value = match *pieces {
        [Piece::Number(_, _), Piece::Word(word), ..] if word.starts_with("START") => None,
        [Piece::Number(whole, value), Piece::Fraction(_, part), rest @ ..] if !whole.contains('.') && *part < 1.0 => {
            *pieces = rest;
            Some(mixed(*value, *part))
        }
        [Piece::Number(_, value), rest @ ..] => {
            *pieces = rest;
            Some(*value)
        }
        [Piece::Fraction(text, _), ..] => return Err(left_over(text, plain, EXAMPLE)),
        _ => None,
    };
    if let [Piece::Word(word), rest @ ..] = *pieces
        && word == "TPI"
        && value.is_some()
    {
        *pieces = rest;
    }
    Ok(value)
}

/// What stands after size and pitch.
#[derive(Debug, Default)]
struct Tail {
    series: Option<String>,
    rounded_root: bool,
    external: Option<String>,
    internal: Option<String>,
    left_hand: Option<bool>,
    starts: Option<u32>,
}

fn read_tail(mut pieces: &[Piece], plain: &str) -> Result<Tail, DesignationError> {
    let mut tail = Tail::default();
    while let [piece, rest @ ..] = pieces {
        pieces = rest;
        match piece {
            Piece::Word(word) => match word.as_str() {
                "UNC" | "UNF" | "UNEF" | "UN" | "UNS" => {
                    set_once(&mut tail.series, word.clone(), "a series", plain, EXAMPLE)?;
                }
                "UNR" | "UNRC" | "UNRF" | "UNREF" | "UNRS" => {
                    tail.rounded_root = true;
                    let series = word.replacen("UNR", "UN", 1);
                    set_once(&mut tail.series, series, "a series", plain, EXAMPLE)?;
                }
                "LH" => set_once(&mut tail.left_hand, true, "the hand", plain, EXAMPLE)?,
                "RH" => set_once(&mut tail.left_hand, false, "the hand", plain, EXAMPLE)?,
                _ => return Err(left_over(word, plain, EXAMPLE)),
            },
            Piece::Class(class) => {
                let class = UnifiedClass::read(class)?;
                let place = if class.internal { &mut tail.internal } else { &mut tail.external };
                if place.replace(class.text()).is_some() {
                    return Err(said_twice("a class", plain, EXAMPLE));
                }
            }
            Piece::Number(_, value) if matches!(rest, [Piece::Word(w), ..] if w == "START" || w == "STARTS") => {
                pieces = &rest[1..];
                let count = starts(*value, plain, EXAMPLE)?;
                set_once(&mut tail.starts, count, "the starts", plain, EXAMPLE)?;
            }
            Piece::Number(text, _) | Piece::Fraction(text, _) => {
                return Err(left_over(text, plain, EXAMPLE));
            }
        }
    }
    Ok(tail)
}
