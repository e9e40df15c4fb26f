//! A designation of a pipe, Whitworth or power thread cut into pieces, and what all of them may say
//! alike: size in inches, threads per inch, hand and starts.

use super::said::{said_twice, set_once, starts};
use crate::reference::threads::error::{DesignationError, ErrorKind};
use crate::reference::threads::size::{decimal, fraction, mixed};
use crate::reference::threads::{Thread, ThreadSystem};

/// One piece of a designation.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Piece {
    /// A number as written.
    Number(String, f64),
    /// A fraction as written.
    Fraction(String, f64),
    /// Letters as written.
    Word(String),
}

impl Piece {
    pub(super) fn text(&self) -> &str {
        match self {
            Piece::Number(text, _) | Piece::Fraction(text, _) | Piece::Word(text) => text,
        }
    }

    pub(super) fn is(&self, word: &str) -> bool {
        matches!(self, Piece::Word(text) if text.eq_ignore_ascii_case(word))
    }
}

/// A designation in pieces, with the letters that name its system taken out.
#[derive(Debug)]
pub(super) struct Pieces<'p> {
    rest: Vec<Piece>,
    plain: &'p str,
    example: &'static str,
    /// True for a left-hand thread.
    pub(super) left_hand: bool,
    /// Number of starts, if it is said.
    pub(super) starts: Option<u32>,
}

impl<'p> Pieces<'p> {
    /// Cuts `plain` and takes out the letters `name`, the hand and the starts.
    pub(super) fn of(plain: &'p str, name: &str, example: &'static str) -> Result<Self, DesignationError> {
        let mut all = cut(plain).ok_or_else(|| unreadable(plain, example))?;
        if let Some(at) = all.iter().position(|piece| piece.is(name)) {
            all.remove(at);
        }
        all.retain(|piece| !["in", "inch", "OD"].iter().any(|word| piece.is(word)));
        let mut hand = None;
        let mut count = None;
        let mut rest: Vec<Piece> = Vec::with_capacity(all.len());
        for piece in all {
            match piece {
                Piece::Word(word) if word.eq_ignore_ascii_case("LH") || word.eq_ignore_ascii_case("RH") => {
                    set_once(&mut hand, word.eq_ignore_ascii_case("LH"), "the hand", plain, example)?;
                }
                Piece::Word(word) if word.eq_ignore_ascii_case("START") || word.eq_ignore_ascii_case("STARTS") => {
                    let Some(Piece::Number(_, value)) = rest.pop() else { return Err(unreadable(plain, example)) };
                    set_once(&mut count, starts(value, plain, example)?, "the starts", plain, example)?;
                }
                piece => rest.push(piece),
            }
        }
        Ok(Self { rest, plain, example, left_hand: hand.unwrap_or(false), starts: count })
    }

    fn next_is(&self, test: impl Fn(&Piece) -> bool) -> bool {
        self.rest.first().is_some_and(test)
    }

    /// Takes the next piece if it is this word.
    pub(super) fn word(&mut self, word: &str) -> bool {
        let found = self.next_is(|piece| piece.is(word));
        if found {
            self.rest.remove(0);
        }
        found
    }

    /// Takes a number, whole with a fraction, fraction alone or decimal.
    pub(super) fn number(&mut self) -> Option<f64> {
        let (taken, value) = match self.rest.as_slice() {
            [Piece::Number(whole, value), Piece::Fraction(_, part), ..] if !whole.contains('.') && *part < 1.0 => {
                (2, mixed(*value, *part))
            }
            [Piece::Fraction(_, value), ..] => (1, mixed(0.0, *value)),
            [Piece::Number(_, value), ..] => (1, *value),
            _ => return None,
        };
        self.rest.drain(..taken);
        Some(value)
    }

    /// Takes a number that this word follows, such as `0.4L`.
    pub(super) fn number_before(&mut self, word: &str) -> Option<f64> {
        match self.rest.as_slice() {
            [Piece::Number(_, value), next, ..] if next.is(word) => {
                let value = *value;
                self.rest.drain(..2);
                Some(value)
            }
            _ => None,
        }
    }

    /// Takes the size, which must be above zero.
    pub(super) fn size(&mut self) -> Result<f64, DesignationError> {
        self.number().filter(|size| *size > 0.0).ok_or_else(|| unreadable(self.plain, self.example))
    }

    /// Takes the threads per inch, if they are said.
    pub(super) fn threads_per_inch(&mut self) -> Result<Option<f64>, DesignationError> {
        // A digit with a letter behind it is a class.
        let is_class = matches!(self.rest.as_slice(), [Piece::Number(_, _), Piece::Word(word), ..]
            if word.len() == 1 && !word.eq_ignore_ascii_case("x"));
        let Some(count) = (if is_class { None } else { self.number() }) else { return Ok(None) };
        self.word("TPI");
        if (0.5..=200.0).contains(&count) {
            return Ok(Some(count));
        }
        Err(DesignationError::new(
            ErrorKind::OutOfRange,
            format!("`{}`: give 0.5 to 200 threads per inch, not {count}", self.plain),
            self.example,
        ))
    }

    /// Takes every class: a digit and a letter, or two such.
    pub(super) fn classes(&mut self) -> Vec<String> {
        let mut found = Vec::new();
        while let [Piece::Number(digit, _), Piece::Word(letter), ..] = self.rest.as_slice() {
            found.push(format!("{digit}{letter}"));
            self.rest.drain(..2);
        }
        found
    }

    /// Takes single letters that stand for a class.
    pub(super) fn letter(&mut self, letters: &[&str]) -> Result<Option<String>, DesignationError> {
        let mut found = None;
        while let Some(letter) = letters.iter().find(|letter| self.next_is(|piece| piece.is(letter))) {
            self.rest.remove(0);
            if found.replace((*letter).to_owned()).is_some() {
                return Err(said_twice("a class", self.plain, self.example));
            }
        }
        Ok(found)
    }

    /// Nothing may be left.
    pub(super) fn done(&self) -> Result<(), DesignationError> {
        match self.rest.first() {
            None => Ok(()),
            Some(piece) => Err(super::said::left_over(piece.text(), self.plain, self.example)),
        }
    }
}

fn unreadable(plain: &str, example: &'static str) -> DesignationError {
    DesignationError::new(
        ErrorKind::Unreadable,
        format!("`{plain}` cannot be read as a thread; write it like `{example}`"),
        example,
    )
}

fn cut(text: &str) -> Option<Vec<Piece>> {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let is_number = |c: char| c.is_ascii_digit() || c == '.';
        let length = |of: &str, test: &dyn Fn(char) -> bool| of.find(|c| !test(c)).unwrap_or(of.len());
        if is_number(first) {
            let mut end = length(rest, &is_number);
            let after = rest[end..].strip_prefix('/').unwrap_or("");
            // A slash between classes, as in 7H/7e, parts nothing but them.
            let under = length(after, &is_number);
            let is_class = after[under..].starts_with(|c: char| c.is_ascii_alphabetic()) && pieces.len() > 2;
            if under > 0 && !is_class {
                end += 1 + under;
                pieces.push(Piece::Fraction(rest[..end].to_owned(), fraction(&rest[..end])?));
            } else {
                pieces.push(Piece::Number(rest[..end].to_owned(), decimal(&rest[..end])?));
            }
            rest = &rest[end..];
        } else if first.is_ascii_alphabetic() {
            let end = length(rest, &|c: char| c.is_ascii_alphabetic());
            pieces.push(Piece::Word(rest[..end].to_owned()));
            rest = &rest[end..];
        } else if " -/()".contains(first) {
            rest = &rest[1..];
        } else {
            return None;
        }
    }
    Some(pieces)
}

pub(super) fn no_such(plain: &str, what: &str, near: Vec<String>) -> DesignationError {
    let says = format!("`{plain}`: {what}; there are {}", near.join(", "));
    DesignationError::new(ErrorKind::SeriesMismatch, says, "").with_nearest(near)
}

/// A thread with what most of these have in common.
pub(super) fn thread(system: ThreadSystem, series: &str, diameter: f64, pitch: f64, pieces: &Pieces) -> Thread {
    Thread {
        system,
        diameter,
        pitch,
        threads_per_inch: None,
        series: Some(series.to_owned()),
        size: String::new(),
        designation: String::new(),
        rounded_root: false,
        external_class: None,
        internal_class: None,
        left_hand: pieces.left_hand,
        starts: pieces.starts.unwrap_or(1),
        standard: true,
        nearest: Vec::new(),
        provenance: None,
    }
}

pub(super) fn check_inches(diameter: f64, plain: &str, example: &'static str) -> Result<(), DesignationError> {
    if (0.05..=24.0).contains(&diameter) {
        return Ok(());
    }
    let says = format!("`{plain}`: give a diameter from 0.05 to 24 in, not {diameter} in");
    Err(DesignationError::new(ErrorKind::OutOfRange, says, example))
}
