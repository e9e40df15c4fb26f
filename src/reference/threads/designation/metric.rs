//! Reads metric M designations: diameter, pitch or lead and pitch, classes, hand and starts
//! (ISO 965-1, and the ways shops write it).

use super::said::{left_over, refuse_coarse, said_twice, set_once, starts};
use crate::reference::threads::classes::MetricClass;
use crate::reference::threads::error::{DesignationError, ErrorKind};
use crate::reference::threads::size::decimal;
use crate::reference::threads::{Thread, ThreadSystem, series};

const EXAMPLE: &str = "M8x1";

/// One piece of a designation.
#[derive(Debug, Clone, PartialEq)]
enum Piece {
    /// A number as written.
    Number(String, f64),
    /// Grades with letters, such as `6g` or `4g6g`.
    Class(String),
    /// Letters, in capitals.
    Word(String),
}

/// Reads what stands after the M; `plain` is what refusals quote.
pub(super) fn read(rest: &str, plain: &str) -> Result<Thread, DesignationError> {
    let pieces = pieces(rest).ok_or_else(|| unreadable(plain))?;
    let [Piece::Number(_, diameter), tail @ ..] = pieces.as_slice() else {
        return Err(unreadable(plain));
    };
    let tail = read_tail(tail, plain)?;
    let (pitch, starts) = pitch_and_starts(*diameter, &tail, plain)?;
    if !(0.25..=1000.0).contains(diameter) || !(0.05..=50.0).contains(&pitch) {
        return Err(DesignationError::new(
            ErrorKind::OutOfRange,
            format!("`{plain}`: give a diameter from 0.25 to 1000 mm and a pitch from 0.05 to 50 mm"),
            EXAMPLE,
        ));
    }
    let read_as = format!("pitch {pitch} mm on {diameter} mm");
    refuse_coarse(*diameter, pitch, &read_as, plain, EXAMPLE)?;
    let row = series::metric(*diameter, pitch);
    Ok(Thread {
        system: ThreadSystem::Metric,
        diameter: *diameter,
        pitch,
        threads_per_inch: None,
        series: row.map(|row| row.series.clone()),
        size: format!("M{diameter}"),
        designation: row.map_or_else(|| format!("M{diameter}x{pitch}"), |row| row.designation.clone()),
        rounded_root: false,
        external_class: tail.external,
        internal_class: tail.internal,
        left_hand: tail.left_hand.unwrap_or(false),
        starts,
        standard: row.is_some(),
        nearest: match row {
            Some(_) => Vec::new(),
            None => series::nearest_metric(*diameter, pitch, 2),
        },
        provenance: row.map(|row| crate::reference::threads::Provenance { source: &row.source, trust: &row.trust }),
    })
}

fn unreadable(plain: &str) -> DesignationError {
    DesignationError::new(
        ErrorKind::Unreadable,
        format!("`{plain}` cannot be read as a metric thread: give M with diameter and pitch"),
        EXAMPLE,
    )
}

fn pieces(text: &str) -> Option<Vec<Piece>> {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        if first.is_ascii_digit() || first == '.' {
            let mut end = class_length(rest);
            if end > 0 {
                pieces.push(Piece::Class(rest[..end].to_owned()));
            } else {
                end = rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(rest.len());
                pieces.push(Piece::Number(rest[..end].to_owned(), decimal(&rest[..end])?));
            }
            rest = &rest[end..];
        } else if first.is_ascii_alphabetic() {
            let end = rest.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(rest.len());
            let word = rest[..end].to_ascii_uppercase();
            // The x parts diameter and pitch; `xPh` is that and the sign of the lead.
            let word = word.strip_prefix('X').filter(|_| pieces.len() == 1).unwrap_or(&word);
            if !word.is_empty() {
                pieces.push(Piece::Word(word.to_owned()));
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

/// Length of a class at the front: digits each followed by one letter from a to h.
fn class_length(text: &str) -> usize {
    let bytes = text.as_bytes();
    let mut end = 0;
    while let [digit, letter, ..] = bytes[end..]
        && digit.is_ascii_digit()
        && matches!(letter.to_ascii_lowercase(), b'a'..=b'h')
    {
        end += 2;
    }
    match bytes.get(end) {
        Some(next) if next.is_ascii_alphabetic() => 0,
        _ => end,
    }
}

/// What stands after the diameter.
#[derive(Debug, Default)]
struct Tail {
    pitch: Option<f64>,
    lead: Option<f64>,
    external: Option<String>,
    internal: Option<String>,
    left_hand: Option<bool>,
    starts: Option<u32>,
}

fn read_tail(mut pieces: &[Piece], plain: &str) -> Result<Tail, DesignationError> {
    let mut tail = Tail::default();
    let mut first = true;
    while !pieces.is_empty() {
        let is_first = std::mem::take(&mut first);
        match pieces {
            [Piece::Number(_, value), Piece::Word(word), rest @ ..] if word == "START" || word == "STARTS" => {
                let count = starts(*value, plain, EXAMPLE)?;
                set_once(&mut tail.starts, count, "the starts", plain, EXAMPLE)?;
                pieces = rest;
            }
            [Piece::Word(word), Piece::Number(_, value), rest @ ..] if word == "P" => {
                set_once(&mut tail.pitch, *value, "the pitch", plain, EXAMPLE)?;
                pieces = rest;
            }
            [Piece::Word(word), Piece::Number(_, value), rest @ ..] if word == "PH" => {
                set_once(&mut tail.lead, *value, "the lead", plain, EXAMPLE)?;
                pieces = rest;
            }
            [Piece::Number(_, value), rest @ ..] if is_first => {
                set_once(&mut tail.pitch, *value, "the pitch", plain, EXAMPLE)?;
                pieces = rest;
            }
            [Piece::Word(word), rest @ ..] if word == "LH" || word == "RH" => {
                set_once(&mut tail.left_hand, word == "LH", "the hand", plain, EXAMPLE)?;
                pieces = rest;
            }
            [Piece::Class(text), rest @ ..] => {
                read_classes(text, &mut tail, plain)?;
                pieces = rest;
            }
            [Piece::Number(text, _) | Piece::Word(text), ..] => {
                return Err(left_over(text, plain, EXAMPLE));
            }
            [] => {}
        }
    }
    Ok(tail)
}

/// A class, or an internal and an external one run together (`6H6g`).
fn read_classes(text: &str, tail: &mut Tail, plain: &str) -> Result<(), DesignationError> {
    let sides = |text: &str| text.chars().filter(char::is_ascii_uppercase).count();
    let split = (1..text.len() / 2).map(|pairs| text.split_at(2 * pairs)).find(|(front, back)| {
        (sides(front) * 2 == front.len() && sides(back) == 0) || (sides(front) == 0 && sides(back) * 2 == back.len())
    });
    let (front, back) = match split {
        Some((front, back)) => (front, Some(back)),
        None => (text, None),
    };
    for text in std::iter::once(front).chain(back) {
        let class = MetricClass::read(text)?;
        let place = if class.internal() { &mut tail.internal } else { &mut tail.external };
        if place.replace(class.text()).is_some() {
            return Err(said_twice("a class", plain, EXAMPLE));
        }
    }
    Ok(())
}

/// Pitch from the designation or, for a bare size, from the coarse series; starts as said, or
/// from lead and pitch.
fn pitch_and_starts(diameter: f64, tail: &Tail, plain: &str) -> Result<(f64, u32), DesignationError> {
    let Some(pitch) = tail.pitch else {
        let of_size: Vec<_> =
            series::metric_rows().iter().filter(|row| (row.diameter_mm - diameter).abs() < 1e-6).collect();
        return match of_size.iter().find(|row| row.series == "coarse") {
            Some(row) if tail.lead.is_none() => Ok((row.pitch_mm, tail.starts.unwrap_or(1))),
            _ if of_size.is_empty() => {
                let near = series::nearest_metric_sizes(diameter, 2);
                let says = format!(
                    "`{plain}`: no list of metric threads has M{diameter}; the nearest are {}. For a thread outside \
                     the lists write the pitch after an x",
                    near.join(" and ")
                );
                Err(DesignationError::new(ErrorKind::PitchMissing, says, EXAMPLE).with_nearest(near))
            }
            _ => {
                let of_size: Vec<String> = of_size.iter().map(|row| row.designation.clone()).collect();
                let says = format!(
                    "`{plain}` names no pitch, and the coarse series has none for it: there are {}",
                    of_size.join(", ")
                );
                Err(DesignationError::new(ErrorKind::PitchMissing, says, EXAMPLE).with_nearest(of_size))
            }
        };
    };
    let Some(lead) = tail.lead else {
        return Ok((pitch, tail.starts.unwrap_or(1)));
    };
    let from_lead = lead / pitch;
    let count = starts(from_lead.round(), plain, EXAMPLE)?;
    if (from_lead - f64::from(count)).abs() > 1e-6 || tail.starts.is_some_and(|said| said != count) {
        return Err(DesignationError::new(
            ErrorKind::Ambiguous,
            format!("`{plain}`: the lead is the pitch times the number of starts"),
            "M16xPh4P2",
        ));
    }
    Ok((pitch, count))
}
