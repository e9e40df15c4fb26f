//! What people write that is not read, each with its own words and the value it probably means: decimal
//! commas, thousands marks, feet with inches, units slightly off.

use super::read::{decimal_end, read_number, shown};
use super::text::full;
use super::units::{Dimension, Unit, normal};
use crate::refusal::{Code, Unread};

/// The unit of an example.
fn unit_of(example: &str) -> Option<Unit> {
    Unit::named(example.trim_start_matches(|c: char| !c.is_alphabetic() && c != '°'))
}

/// `number` with the unit that follows it, or that of the example where that is none.
fn with_unit(number: &str, rest: &str, example: &str) -> String {
    let unit = Unit::named(rest.trim()).or_else(|| unit_of(example));
    unit.map_or_else(|| example.to_owned(), |unit| format!("{number} {}", unit.row().ascii))
}

/// A number with a comma: `first` stands before it and `tail` behind it.
pub(super) fn comma(text: &str, first: &str, tail: &str, negative: bool, example: &str) -> Unread {
    let sign = if negative { "-" } else { "" };
    let end = tail.bytes().take_while(|b| b.is_ascii_digit() || matches!(b, b',' | b'.')).count();
    let (more, rest) = tail.split_at(end);
    let ambiguous =
        |says: String, number: &str| Unread::new(Code::ValueAmbiguous, says, with_unit(number, rest, example));
    let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
    let text = shown(text);
    let thousands = |whole: &str| whole.split(',').all(|group| group.len() == 3 && digits(group).len() == 3);
    let is_whole = first.bytes().all(|b| b.is_ascii_digit());
    match (is_whole, more.split_once('.')) {
        (true, Some((whole, decimals))) if thousands(whole) && digits(decimals) == decimals => {
            let number = format!("{sign}{first}{}.{decimals}", digits(whole));
            ambiguous(format!("\"{text}\": leave out the thousands comma."), &number)
        }
        (true, None) if more.contains(',') && thousands(more) => {
            let number = format!("{sign}{first}{}", digits(more));
            ambiguous(format!("\"{text}\": leave out the thousands commas."), &number)
        }
        (true, None) if thousands(more) => {
            let (decimal, whole) = (format!("{sign}{first}.{more}"), format!("{sign}{first}{more}"));
            let number = if nearer(&whole, &decimal, rest, example) { &whole } else { &decimal };
            ambiguous(format!("\"{text}\": is the comma a decimal point or a thousands mark?"), number)
        }
        (_, None) if !more.is_empty() && !more.contains(',') => {
            let number = format!("{sign}{}.{more}", first.replace('.', ""));
            ambiguous(format!("\"{text}\": write a decimal point, not a comma."), &number)
        }
        _ => Unread::new(Code::ValueAmbiguous, format!("\"{text}\": write the number without commas."), example),
    }
}

/// Whether `one` is nearer to the example in size than `other`, both in the unit that follows them.
fn nearer(one: &str, other: &str, rest: &str, example: &str) -> bool {
    let Some(like) = unit_of(example) else { return false };
    let Ok((usual, _)) = read_number(example, "") else { return false };
    let unit = Unit::named(rest.trim()).unwrap_or(like);
    let off = |number: &str| (unit.to_si(number.parse().unwrap_or(1.0)) / like.to_si(usual)).abs().ln().abs();
    off(one) < off(other)
}

/// What stands behind a number and is no unit.
pub(super) fn no_unit(text: &str, number: &str, rest: &str, example: &str) -> Unread {
    let unreadable = |says: String, good: String| Unread::new(Code::ValueUnreadable, says, good);
    if let Some((whole, rest)) = grouped(number, rest) {
        let says = format!("\"{}\": leave out gaps and marks within a number.", shown(text));
        return unreadable(says, with_unit(&whole, rest, example));
    }
    if let Some((inches, feet, rest)) = feet_and_inches(text, number, rest) {
        return if unit_of(example).is_some_and(|unit| unit.row().dimension == Dimension::Angle) {
            let says = format!("\"{}\" has minutes or seconds without degrees; write the degrees too.", shown(text));
            unreadable(says, format!("0°{}'{}\"", full(feet), full(rest)))
        } else {
            let says = format!("\"{}\" is feet and inches; give it in one unit.", shown(text));
            unreadable(says, format!("{} in", full(inches)))
        };
    }
    if rest.starts_with('.') {
        let says = format!("\"{}\" has more than one decimal point.", shown(text));
        return unreadable(says, example.to_owned());
    }
    if rest.contains("/-") {
        let says =
            format!("\"{}\" is not a quantity. In an address the + of a tolerance must be written %2B.", shown(text));
        return unreadable(says, format!("{number} %2B0.002/-0.001 in"));
    }
    if rest.starts_with(|c: char| c.is_alphabetic() || matches!(c, '°' | '%' | '"' | '\'')) {
        return Unread::new(Code::UnitUnknown, format!("\"{}\" is not a unit known here.", shown(rest)), example);
    }
    unreadable(format!("\"{}\" is not a quantity.", shown(text)), example.to_owned())
}

/// `1 250`, `1'250`, `1_250`: groups of three digits behind a whole number; with what follows them.
fn grouped<'a>(number: &str, rest: &'a str) -> Option<(String, &'a str)> {
    let mut whole = number.to_owned();
    let mut rest = rest;
    let before = whole.len();
    while let Some(tail) =
        rest.strip_prefix(['\'', '_']).or_else(|| whole.ends_with(|c: char| c.is_ascii_digit()).then_some(rest))
    {
        let end = tail.bytes().take_while(u8::is_ascii_digit).count();
        if end != 3 {
            break;
        }
        whole.push_str(&tail[..end]);
        rest = tail[end..].trim_start_matches(' ');
    }
    let decimals = if rest.starts_with('.') { decimal_end(rest) } else { 0 };
    let is_one = whole.len() > before && !number.contains(['.', '/', 'e', 'E']) && !rest.starts_with(['/', '\'', '"']);
    is_one.then(|| (whole + &rest[..decimals], &rest[decimals..]))
}

/// `5' 6"`, `5 ft 6-1/2 in`: all of it in inches, the feet and the inches.
fn feet_and_inches(text: &str, number: &str, rest: &str) -> Option<(f64, f64, f64)> {
    let sign = ["feet", "foot", "ft", "'"]
        .into_iter()
        .find(|sign| rest.get(..sign.len()).is_some_and(|head| head.eq_ignore_ascii_case(sign)))?;
    let tail = rest[sign.len()..].trim_start_matches([' ', '-', '.']);
    let (inches, unit) = read_number(tail, "").ok()?;
    if !unit.trim().is_empty() && Unit::named(unit.trim()) != Some(Unit::Inch) {
        return None;
    }
    let feet: f64 = number.parse().ok()?;
    let sum = 12.0 * feet.abs() + inches;
    Some((if text.starts_with('-') { -sum } else { sum }, feet, inches))
}

/// The unit among `units` whose name is nearest to `name`, if one is near.
pub(super) fn nearest_unit(name: &str, units: &[Unit]) -> Option<Unit> {
    let name = normal(name);
    let mut best: Option<(f64, Unit)> = None;
    for unit in units.iter().copied() {
        let row = unit.row();
        let ascii = normal(row.ascii);
        for known in [ascii.as_str()].iter().chain(row.aliases) {
            let near = strsim::normalized_levenshtein(&name, known);
            if near > 0.6 && best.is_none_or(|(least, _)| near > least) {
                best = Some((near, unit));
            }
        }
    }
    best.map(|(_, unit)| unit)
}
