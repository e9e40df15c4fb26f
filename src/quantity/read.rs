//! Reads a quantity as people write it: `0.5 in`, `1-1/2 in`, `12°30'`, `2.000 ±0.001 in`. What can
//! be meant two ways is refused with a question; nothing is guessed.

use super::misread;
use super::units::Unit;
use crate::refusal::{Code, Unread};
use std::borrow::Cow;

/// Longest text a quantity may have.
pub const LONGEST: usize = 64;

/// A number with its unit and tolerance, as written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Written {
    /// The number.
    pub value: f64,
    /// The unit, if one was given.
    pub unit: Option<Unit>,
    /// Upper and lower tolerance in the unit of the value, `minus` as a positive amount.
    pub tolerance: Option<(f64, f64)>,
}

/// Reads `text`; `example` is a good value for this place, shown where nothing better can be.
pub fn read(text: &str, example: &str) -> Result<Written, Unread> {
    if let Some(written) = plainly_written(text) {
        return Ok(written);
    }
    let clean = cleaned(text);
    let text = clean.trim();
    if text.is_empty() {
        return Err(Unread::new(
            Code::ValueEmpty,
            "The value is empty. In an address a # must be written %23 and a + must be written %2B.",
            example,
        ));
    }
    if text.len() > LONGEST {
        return Err(Unread::new(
            Code::ValueUnreadable,
            format!("The value is longer than {LONGEST} characters."),
            example,
        ));
    }
    let (main, tolerance) = split_tolerance(text);
    let mut written = read_plain(main, example)?;
    if let Some(tolerance) = tolerance {
        apply_tolerance(&mut written, tolerance, example)?;
    }
    Ok(written)
}

/// A plain decimal with its unit spelled plainly or none, as most are written, soon read; `None` for anything else.
fn plainly_written(text: &str) -> Option<Written> {
    if text.len() > LONGEST {
        return None;
    }
    let digits = text.strip_prefix('-').unwrap_or(text);
    let end = digits.bytes().take_while(|byte| byte.is_ascii_digit() || *byte == b'.').count();
    let (number, rest) = text.split_at(text.len() - digits.len() + end);
    let rest = rest.strip_prefix(' ').unwrap_or(rest);
    let unit = if rest.is_empty() { None } else { Some(Unit::spelled(rest)?) };
    Some(Written { value: number.parse().ok()?, unit, tolerance: None })
}

/// Whether a text may have a tolerance, which a look at its bytes tells.
pub fn may_have_tolerance(text: &str) -> bool {
    text.bytes().any(|byte| !byte.is_ascii() || byte == b'+')
}

/// Typographic signs as plain ones; the rest is left as it is.
fn cleaned(text: &str) -> Cow<'_, str> {
    if text.is_ascii() && !text.contains('\t') {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut after_fraction = false;
    for c in text.chars() {
        // A digit behind ½ is no part of it.
        if after_fraction && c.is_ascii_digit() {
            out.push(' ');
        }
        let fraction = match c {
            '½' => "1/2",
            '¼' => "1/4",
            '¾' => "3/4",
            '⅛' => "1/8",
            '⅜' => "3/8",
            '⅝' => "5/8",
            '⅞' => "7/8",
            '⅓' => "1/3",
            '⅔' => "2/3",
            _ => "",
        };
        after_fraction = !fraction.is_empty();
        match c {
            _ if after_fraction => {
                if out.ends_with(|c: char| c.is_ascii_digit()) {
                    out.push(' ');
                }
                out.push_str(fraction);
            }
            '−' | '–' | '‐' | '‑' => out.push('-'),
            '⁄' | '∕' => out.push('/'),
            '″' | '”' | '“' => out.push('"'),
            '′' | '’' | '‘' => out.push('\''),
            '\u{a0}' | '\u{202f}' | '\u{2009}' | '\t' => out.push(' '),
            'º' => out.push('°'),
            c => out.push(c),
        }
    }
    Cow::Owned(out)
}

/// Splits `2.000 ±0.001 in` into the part before and the part from the tolerance on.
fn split_tolerance(text: &str) -> (&str, Option<&str>) {
    if !may_have_tolerance(text) {
        return (text, None);
    }
    if let Some(at) = text.find('±').or_else(|| text.find("+/-")) {
        return (text[..at].trim_end(), Some(&text[at..]));
    }
    // `2.000 +0.002/-0.000 in`: a plus that neither begins the text nor follows an exponent's e.
    let bytes = text.as_bytes();
    let plus = (1..bytes.len())
        .find(|&at| bytes[at] == b'+' && !matches!(bytes[at - 1], b'e' | b'E') && text[at..].contains("/-"));
    match plus {
        Some(at) => (text[..at].trim_end(), Some(&text[at..])),
        None => (text, None),
    }
}

fn apply_tolerance(written: &mut Written, text: &str, example: &str) -> Result<(), Unread> {
    let stated = written.unit.unwrap_or(Unit::Inch).spelling();
    let wrong = || {
        Unread::new(
            Code::ValueUnreadable,
            format!("The tolerance \"{}\" cannot be read.", shown(text)),
            format!("{} ±0.001 {stated}", written.value),
        )
    };
    let counted = |part: Option<Unit>| part == Some(Unit::ThreadsPerInch);
    let (plus, minus) = if let Some(rest) = text.strip_prefix('±').or_else(|| text.strip_prefix("+/-")) {
        let both = read_plain(rest.trim(), example)?;
        (both, both)
    } else {
        let (upper, lower) = text.split_once("/-").ok_or_else(wrong)?;
        let upper = read_plain(upper.trim_start_matches('+').trim(), example)?;
        let lower = read_plain(lower.trim(), example)?;
        (upper, lower)
    };
    if counted(written.unit) || counted(plus.unit) || counted(minus.unit) {
        return Err(threads_with_tolerance(written.value));
    }
    // The unit may stand once at the very end, or at each number.
    let unit = written.unit.or(minus.unit).or(plus.unit);
    written.unit = unit;
    let amount = |part: Written, other: Option<Unit>| -> Option<f64> {
        match (part.unit.or(other).or(unit), unit) {
            (Some(from), Some(to)) if from.row().dimension == to.row().dimension => {
                if from == to {
                    Some(part.value)
                } else {
                    Some(super::text::tidy(part.value * from.row().factor / to.row().factor))
                }
            }
            (None, None) => Some(part.value),
            _ => None,
        }
    };
    let plus_amount = amount(plus, minus.unit).ok_or_else(wrong)?;
    let minus_amount = amount(minus, minus.unit).ok_or_else(wrong)?;
    if plus_amount < 0.0 || minus_amount < 0.0 {
        return Err(wrong());
    }
    written.tolerance = Some((plus_amount, minus_amount));
    Ok(())
}

/// Threads in an inch are counted: a tolerance belongs to the pitch as a length.
pub(super) fn threads_with_tolerance(count: f64) -> Unread {
    let says = "Threads per inch take no tolerance; give the pitch or lead as a length with one.";
    let good = if count > 0.0 { format!("{} tpi", super::text::full(count)) } else { "20 tpi".into() };
    Unread::new(Code::ValueUnreadable, says, good)
}

/// A number and what stands behind it, where it begins with a number.
pub(super) fn number_and_rest(text: &str) -> Option<(f64, String)> {
    let clean = cleaned(text);
    let (value, rest) = read_number(clean.trim(), "").ok()?;
    Some((value, rest.trim().to_owned()))
}

/// A number and a unit, without a tolerance.
fn read_plain(text: &str, example: &str) -> Result<Written, Unread> {
    if let Some(written) = read_sexagesimal(text, example)? {
        return Ok(written);
    }
    let (value, rest) = read_number(text, example)?;
    let rest = rest.trim();
    if rest.is_empty() {
        return Ok(Written { value, unit: None, tolerance: None });
    }
    if rest.eq_ignore_ascii_case("mil") || rest.eq_ignore_ascii_case("mils") {
        return Err(Unread::new(
            Code::ValueAmbiguous,
            format!("\"{}\": is a mil a thousandth of an inch (thou) or a millimeter (mm)?", shown(text)),
            format!("{} thou", super::text::full(value)),
        ));
    }
    match Unit::named(rest) {
        Some(unit) => Ok(Written { value, unit: Some(unit), tolerance: None }),
        None => Err(misread::no_unit(text, text[..text.len() - rest.len()].trim_end(), rest, example)),
    }
}

/// Reads the number at the start of `text`: decimal, fraction or whole number and fraction.
pub(super) fn read_number<'a>(text: &'a str, example: &str) -> Result<(f64, &'a str), Unread> {
    let not_a_number =
        || Unread::new(Code::ValueUnreadable, format!("\"{}\" does not begin with a number.", shown(text)), example);
    let (negative, body) = match text.as_bytes().first() {
        Some(b'-') => (true, &text[1..]),
        Some(b'+') => (false, &text[1..]),
        _ => (false, text),
    };
    let end = decimal_end(body);
    if end == 0 {
        return Err(not_a_number());
    }
    let (first, rest) = body.split_at(end);
    if let Some(tail) = rest.strip_prefix(',') {
        return Err(misread::comma(text, first, tail, negative, example));
    }
    let is_whole = first.bytes().all(|b| b.is_ascii_digit());
    let (value, rest) = if is_whole && rest.starts_with('/') {
        fraction(first, rest, example)?
    } else if is_whole && let Some((top, tail)) = fraction_after(rest) {
        let (part, tail) = fraction(top, tail, example)?;
        if part >= 1.0 {
            return Err(Unread::new(
                Code::ValueAmbiguous,
                format!("\"{}\": the fraction after a whole number must be below one.", shown(text)),
                example,
            ));
        }
        (number(first, example)? + part, tail)
    } else {
        (number(first, example)?, rest)
    };
    Ok((if negative { -value } else { value }, rest))
}

/// The length of the decimal number, with exponent, at the start of `text`.
pub(super) fn decimal_end(text: &str) -> usize {
    let bytes = text.as_bytes();
    let digits = |from: usize| bytes[from..].iter().take_while(|b| b.is_ascii_digit()).count();
    let whole = digits(0);
    let mut end = whole;
    let mut fraction = 0;
    if bytes.get(end) == Some(&b'.') {
        fraction = digits(end + 1);
        if whole + fraction > 0 {
            end += 1 + fraction;
        }
    }
    if whole + fraction == 0 {
        return 0;
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let exponent = if end + 1 + sign <= bytes.len() { digits(end + 1 + sign) } else { 0 };
        if exponent > 0 {
            end += 1 + sign + exponent;
        }
    }
    end
}

/// After a whole number: `-1/2` or ` 1/2`; gives the numerator and the text from the stroke on.
fn fraction_after(rest: &str) -> Option<(&str, &str)> {
    let tail = rest.strip_prefix('-').or_else(|| rest.starts_with(' ').then(|| rest.trim_start()))?;
    let end = tail.bytes().take_while(u8::is_ascii_digit).count();
    (end > 0 && tail[end..].starts_with('/')).then(|| tail.split_at(end))
}

/// `top` over the denominator that follows the stroke in `rest`.
fn fraction<'a>(top: &str, rest: &'a str, example: &str) -> Result<(f64, &'a str), Unread> {
    let tail = &rest[1..];
    let end = tail.bytes().take_while(u8::is_ascii_digit).count();
    let (bottom, tail) = tail.split_at(end);
    if bottom.is_empty() || tail.starts_with(['.', '/', ',']) {
        return Err(Unread::new(
            Code::ValueUnreadable,
            format!("\"{}\" is not a fraction of two whole numbers.", shown(&format!("{top}{rest}"))),
            example,
        ));
    }
    let (numerator, denominator) = (number(top, example)?, number(bottom, example)?);
    if denominator == 0.0 {
        return Err(Unread::new(Code::ValueUnreadable, "A fraction cannot have 0 below the line.", example));
    }
    Ok((numerator / denominator, tail))
}

fn number(digits: &str, example: &str) -> Result<f64, Unread> {
    match digits.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(value),
        Ok(_) => Err(Unread::new(Code::ValueOutOfRange, format!("{} is too large.", shown(digits)), example)),
        Err(_) => Err(Unread::new(Code::ValueUnreadable, format!("\"{}\" is not a number.", shown(digits)), example)),
    }
}

/// Degrees with minutes and seconds: `12°30'`, `12deg 30min`, `12d30m15s`. `None` if the text is
/// not in that form.
fn read_sexagesimal(text: &str, example: &str) -> Result<Option<Written>, Unread> {
    let negative = text.starts_with('-');
    let body = text.trim_start_matches(['-', '+']);
    let mut parts: Vec<(f64, bool)> = Vec::new();
    let mut rest = body;
    // One number alone is no angle in parts.
    if body.bytes().filter(|byte| byte.is_ascii_digit() || *byte == b'.').count() == decimal_end(body) {
        return Ok(None);
    }
    for signs in [
        &["degrees", "degree", "deg", "°", "d"][..],
        &["minutes", "minute", "min", "'", "m"],
        &["seconds", "second", "sec", "\"", "''", "s"],
    ] {
        let end = decimal_end(rest);
        if end == 0 {
            break;
        }
        let after = rest[end..].trim_start();
        let is_next = |sign: &&&str| after.get(..sign.len()).is_some_and(|head| head.eq_ignore_ascii_case(sign));
        let Some(sign) = signs.iter().find(is_next) else { break };
        parts.push((number(&rest[..end], example)?, rest[..end].bytes().all(|b| b.is_ascii_digit())));
        // The signs are ASCII or `°`, the same length in either case.
        rest = after.get(sign.len()..).unwrap_or("").trim_start();
    }
    if parts.len() < 2 || !rest.is_empty() {
        return Ok(None);
    }
    let whole_but_last = parts[..parts.len() - 1].iter().all(|part| part.1);
    let in_sixty = parts[1..].iter().all(|part| part.0 < 60.0);
    if !whole_but_last || !in_sixty {
        return Err(Unread::new(
            Code::ValueUnreadable,
            format!(
                "\"{}\": minutes and seconds of angle are below 60, and only the last may have decimals.",
                shown(text)
            ),
            "12°30'15\"",
        ));
    }
    let value = parts.iter().rev().fold(0.0, |sum, part| sum / 60.0 + part.0);
    let value = super::text::tidy(if negative { -value } else { value });
    Ok(Some(Written { value, unit: Some(Unit::Degree), tolerance: None }))
}

/// Text from outside, cut short for a message.
pub fn shown(text: &str) -> String {
    let clean: String = text.chars().map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect();
    if clean.chars().count() <= 40 {
        return clean;
    }
    let cut: String = clean.chars().take(39).collect();
    format!("{cut}…")
}
