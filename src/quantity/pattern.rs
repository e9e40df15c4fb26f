//! Regular expressions of the published description: what a text must look like for the reader to
//! take it as a quantity of a kind. All that is documented matches; what matches can still be
//! refused, for what no pattern can say: a bound, a missing unit, a question.

use super::kinds::KindRow;
use super::units::{Dimension, Unit};

/// Nobody writes more spaces than two; the reader takes any number.
const GAP: &str = r"\s{0,2}";
const MINUS: &str = "[-−–‐‑]";
const DECIMAL: &str = r"(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+−–‐‑]?[0-9]+)?";
/// Between the parts of a list, a range or a tolerance.
const BETWEEN: &str = r"\||\.\.|step|±|\+[/⁄∕][-−–‐‑]|\+|[/⁄∕][-−–‐‑]";

/// A decimal number, a fraction, or a whole number and a fraction.
fn number() -> String {
    format!(r"(?:(?:[0-9]+(?:{MINUS}|\s{{1,2}}))?[0-9]+[/⁄∕][0-9]+|(?:[0-9]+{GAP}{MINUS}?)?[½¼¾⅛⅜⅝⅞⅓⅔]|{DECIMAL})")
}

/// The pattern of a quantity of this kind as text: a number and one of the kind's units, a tolerance
/// if there is one; or several such parted by `|`, or a range.
pub fn pattern(row: &KindRow) -> String {
    pattern_of(&[row])
}

/// The pattern of a quantity of any of these kinds, which are no angles.
pub fn pattern_of(rows: &[&KindRow]) -> String {
    format!("^(?:{}(?:{BETWEEN}|$))+$", one(rows))
}

/// The pattern of a quantity or of another text, each alone or as a list.
pub fn pattern_or(row: &KindRow, other: &str) -> String {
    format!(r"^(?:(?:{}|{GAP}{other}{GAP})(?:{BETWEEN}|$))+$", one(&[row]))
}

/// The pattern of several plain numbers in place of one.
pub fn numbers() -> String {
    several(DECIMAL)
}

/// The same of whole numbers.
pub fn counts() -> String {
    several("[0-9]+")
}

/// Numbers parted by `|`, or a range; one alone is a number, with bounds of its own.
fn several(number: &str) -> String {
    let one = format!(r"{GAP}\+?{number}{GAP}");
    format!(r"^(?:{one}(?:\|{one})+|{one}\.\.{one}step{one})$")
}

/// The pattern of a text, alone or as a list.
pub fn listed(one: &str) -> String {
    format!(r"^(?:{GAP}{one}{GAP}(?:\||$))+$")
}

fn one(rows: &[&KindRow]) -> String {
    let units = alternatives(rows.iter().flat_map(|row| row.units).flat_map(|unit| names(*unit)).collect());
    let plain = format!(r"{}{GAP}(?:{units}{GAP})?", number());
    if rows.iter().any(|row| row.dimension() != Dimension::Angle) {
        return format!(r"{GAP}[-+−–‐‑]?{plain}");
    }
    let sign = |words: &[&str]| alternatives(words.iter().map(|word| atoms(word, false)).collect());
    let degrees = sign(&["degrees", "degree", "deg", "°", "d"]);
    let minutes = sign(&["minutes", "minute", "min", "'", "m"]);
    let seconds = sign(&["seconds", "second", "sec", "\"", "''", "s"]);
    let parts = format!(r"{DECIMAL}{GAP}{degrees}{GAP}{DECIMAL}{GAP}{minutes}{GAP}(?:{DECIMAL}{GAP}{seconds}{GAP})?");
    format!(r"{GAP}[-+−–‐‑]?(?:{parts}|{plain})")
}

/// The spellings of a unit, each as a list of small expressions.
fn names(unit: Unit) -> Vec<Vec<String>> {
    let row = unit.row();
    // A raised dot joins two units, also where an alias leaves it out.
    let joined = row.ascii.contains('.');
    [row.ascii, row.spelling].iter().chain(row.aliases).map(|name| atoms(name, joined)).collect()
}

fn atoms(name: &str, joined: bool) -> Vec<String> {
    let micro = name.starts_with(['u', 'µ']);
    let square_or_cubic = name.starts_with("sq") || name.starts_with("cu");
    let mut atoms = Vec::new();
    for (at, c) in name.char_indices() {
        if (joined && at > 0) || (square_or_cubic && at == 2) {
            atoms.push("[ .·*⋅-]?".to_owned());
        }
        atoms.push(match c {
            'u' | 'µ' if micro && at == 0 => "[Uuµμ]".to_owned(),
            '.' | '·' => continue,
            '/' => " ?/ ?".to_owned(),
            '2' | '²' => r"\^?[2²]".to_owned(),
            '3' | '³' => r"\^?[3³]".to_owned(),
            '°' => "[°º]".to_owned(),
            '"' => "[\"″”“]".to_owned(),
            '\'' => "['′’‘]".to_owned(),
            c if c.is_ascii_alphabetic() => format!("[{}{}]", c.to_ascii_uppercase(), c.to_ascii_lowercase()),
            c => c.to_string(),
        });
    }
    atoms
}

/// One expression for all the words, with what they begin with in common written once.
fn alternatives(mut words: Vec<Vec<String>>) -> String {
    words.sort();
    words.dedup();
    let may_end = words.first().is_some_and(Vec::is_empty);
    let mut groups: Vec<(String, Vec<Vec<String>>)> = Vec::new();
    for mut word in words.into_iter().filter(|word| !word.is_empty()) {
        let first = word.remove(0);
        match groups.last_mut() {
            Some((known, rests)) if *known == first => rests.push(word),
            _ => groups.push((first, vec![word])),
        }
    }
    let parts: Vec<String> = groups.into_iter().map(|(first, rests)| first + &alternatives(rests)).collect();
    match (parts.len(), may_end) {
        (0, _) => String::new(),
        (1, false) => parts.concat(),
        (_, false) => format!("(?:{})", parts.join("|")),
        (_, true) => format!("(?:{})?", parts.join("|")),
    }
}

#[cfg(test)]
mod tests {
    use super::super::kinds::{KINDS, Kind, kind};
    use super::super::read::read;
    use super::*;
    use proptest::prelude::*;
    use regex::Regex;
    use std::sync::LazyLock;

    fn of(row: &KindRow) -> Regex {
        Regex::new(&pattern(row)).expect("a regular expression")
    }

    static ALL: LazyLock<Vec<Regex>> = LazyLock::new(|| KINDS.iter().map(|row| of(row)).collect());

    #[test]
    fn every_spelling_of_every_unit_of_a_kind_matches() {
        for (row, pattern) in KINDS.iter().zip(ALL.iter()) {
            assert!(pattern.is_match(row.example), "{}: {}", row.name, row.example);
            for unit in row.units {
                let unit = unit.row();
                for name in [unit.ascii, unit.spelling].iter().chain(unit.aliases) {
                    for text in [format!("1.5 {name}"), format!("1.5{}", name.to_ascii_uppercase())] {
                        assert!(pattern.is_match(&text), "{}: {text}", row.name);
                    }
                }
            }
        }
    }

    #[test]
    fn every_form_that_is_documented_matches() {
        let length = of(kind::Size::ROW);
        for text in [
            "0.5 in", "1/2 in", "1-1/2 in", "1 1/2\"", "1½ in", "½\"", ".25in", "+2. inches", "-1-1/2 in", "3.5e-3 in",
            "−0.25 in", "27⁄64 in", "12.7mm", "0", " 5 µm ", "2.000 ±0.001 in", "2.000 +/-0.001 in", "2 in ±1 thou",
            "2.000 in ±0.001 in", "2.000 +0.002/-0.000 in", "1/4 in|3/8 in", "1/4 in..1 in step 1/16 in",
            "1..3 step 1 mm",
        ] {
            assert!(length.is_match(text), "{text}");
        }
        let angle = of(kind::Angle::ROW);
        for text in
            ["12°30'", "12deg 30min", "12d30m15s", "-1° 30′", "12°30'36\"", "118°", "118 deg|135 deg", "0.5 rad"]
        {
            assert!(angle.is_match(text), "{text}");
        }
        for text in ["2 in³/min", "2 in^3/min", "2 cu in/min", "2cc/min"] {
            assert!(of(kind::RemovalRate::ROW).is_match(text), "{text}");
        }
        let (numbers, counts) = (Regex::new(&numbers()).expect("a pattern"), Regex::new(&counts()).expect("a pattern"));
        for text in ["4..12 step 2", "4|6", "0.5|1|2"] {
            assert!(numbers.is_match(text), "{text}");
            assert_eq!(counts.is_match(text), !text.contains("0."), "{text}");
        }
        // One alone is a number with its bounds, and a range has a step.
        for text in ["6.0", "6", "4..12", "4|", "|4"] {
            assert!(!numbers.is_match(text) && !counts.is_match(text), "{text}");
        }
    }

    #[test]
    fn what_is_of_another_kind_or_no_quantity_does_not_match() {
        let length = of(kind::Size::ROW);
        for text in ["", " ", "in", "x", "NaN in", "118 deg", "5 mil", "1,250 mm", "1_000 in", "3 furlong", "0x10 in"] {
            assert!(!length.is_match(text), "{text}");
        }
        assert!(!of(kind::FeedPerTooth::ROW).is_match("0.004 in/rev"));
        assert!(!of(kind::Percentage::ROW).is_match("75 in"));
    }

    proptest! {
        #[test]
        fn what_the_reader_takes_matches(
            number in "[-+−]?([0-9]{1,3}|[0-9]{0,2}\\.[0-9]{1,3}(e[-+]?[0-9])?|([0-9][- ])?[0-9]{1,2}/[0-9]{1,2}|[0-9]?[½¾])",
            gap in " {0,2}",
            unit in 0usize..12,
            name in 0usize..8,
            more in "( ?(±|\\+/-)0\\.00[0-9]|[ ]{0,2})",
        ) {
            for (row, pattern) in KINDS.iter().zip(ALL.iter()) {
                let unit = row.units[unit % row.units.len()].row();
                let names: Vec<&str> = [unit.ascii, unit.spelling].into_iter().chain(unit.aliases.iter().copied()).collect();
                let text = format!("{number}{gap}{}{more}", names[name % names.len()]);
                if read(&text, row.example).is_ok() {
                    prop_assert!(pattern.is_match(&text), "{}: {}", row.name, text);
                }
            }
        }
    }
}
