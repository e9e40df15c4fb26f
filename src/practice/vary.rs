//! Other numbers for the fields of an example, such as a shop would have: each keeps its unit, its
//! system and the way it is written.

mod names;
mod number;
mod sensible;

use super::draw::Draw;
use crate::asking::{Field, RESERVED, describe_entry};
use crate::calculators::Entry;
use crate::quantity::{Dimension, Unit};
use crate::shop::MACHINE_FIELDS;
use number::Stated;

/// How much may change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Freedom {
    /// Everything.
    All,
    /// Each field once in two times.
    Some,
    /// One field.
    One,
}

/// Shares, in percent, by which all lengths of a measured piece may change alike.
const SCALES: &[i64] = &[50, 75, 100, 100, 125, 150, 200];

/// Fields that are a machine's own, beside those that stand in a shop's file.
const OF_A_MACHINE: &[&str] = &["gears", "dial_gear", "dial_marks", "spindle_wheel", "stud_wheel", "compound_angle"];

/// The fields with other values.
pub fn varied(
    entry: &'static Entry,
    fields: &[(String, String)],
    freedom: Freedom,
    draw: &mut Draw,
) -> Vec<(String, String)> {
    let described = describe_entry(entry).map(|described| described.fields.as_slice()).unwrap_or_default();
    let known = |name: &str| described.iter().find(|field| field.name == name);
    let whole = Whole::of(fields, described, draw);
    let only = draw.below(fields.len() as u64) as usize;
    fields
        .iter()
        .enumerate()
        .map(|(at, (name, value))| {
            let left_alone = RESERVED.contains(&name.as_str())
                || OF_A_MACHINE.contains(&name.as_str())
                || MACHINE_FIELDS.iter().any(|field| field.name == name);
            let chosen = match freedom {
                Freedom::All => true,
                Freedom::Some => draw.once_in(2),
                Freedom::One => at == only,
            };
            let varied = match known(name) {
                Some(field) if !left_alone && chosen => one(field, value, &whole, freedom, draw),
                _ => None,
            };
            (name.clone(), varied.unwrap_or_else(|| value.clone()))
        })
        .collect()
}

/// What is the same for all fields of one question.
struct Whole {
    /// Where sizes were measured, all lengths change by this share and each measured one by a little.
    scale: Option<i64>,
    /// How points are moved together, in steps; none where other places would have to move too.
    shift: Option<(i64, i64)>,
}

impl Whole {
    fn of(fields: &[(String, String)], described: &[Field], draw: &mut Draw) -> Self {
        let lengths = || fields.iter().flat_map(|(_, value)| parts(value)).filter_map(Stated::read).filter(is_length);
        let kind = |name: &str| described.iter().find(|field| field.name == name).map(Field::type_name);
        let kinds = || fields.iter().filter_map(|(name, _)| kind(name));
        let named = kinds().any(|kind| kind == "Designation");
        let scale = draw.pick(SCALES).copied().unwrap_or(100);
        let shift = (draw.below(9) as i64, draw.below(9) as i64);
        let is_measured = lengths().any(|stated| stated.is_measured());
        Self {
            // A thread's own sizes do not follow.
            scale: is_measured.then_some(if named { 100 } else { scale }),
            shift: (!kinds().any(|kind| kind == "Place")).then_some(shift),
        }
    }
}

fn is_length(stated: &Stated) -> bool {
    stated.unit.is_some_and(|unit| unit.row().dimension == Dimension::Length)
}

/// The parts of a value: rows by semicolons, in each parts by commas.
fn parts(value: &str) -> impl Iterator<Item = &str> {
    value.split([';', ',']).map(str::trim)
}

/// Another value; `None` where it stays.
fn one(field: &Field, value: &str, whole: &Whole, freedom: Freedom, draw: &mut Draw) -> Option<String> {
    let kind = &*field.type_name();
    match field.form {
        "quantity" => scalar(field, value, whole, draw),
        "count" => count(field, value, draw),
        "choice" if freedom == Freedom::All && draw.once_in(3) => draw.pick(&field.choices).cloned(),
        "objects" => Some(rows(value, kind.starts_with("Point"), whole, draw)),
        "words" if kind == "Point" => Some(rows(value, true, whole, draw)),
        "words" if Stated::read(value).is_some() => scalar(field, value, whole, draw),
        "words" => names::other(kind, value, draw).or_else(|| leading(field, value, draw)),
        _ => None,
    }
}

fn scalar(field: &Field, value: &str, whole: &Whole, draw: &mut Draw) -> Option<String> {
    let stated = Stated::read(value)?;
    match whole.scale {
        Some(scale) if is_length(&stated) => Some(measured(&stated, scale, draw).text()),
        _ => Some(sensible::other(&stated, field, draw)),
    }
}

/// Words that begin with a size, such as a fit, `25 mm H7/g6`: another size before the same words.
fn leading(field: &Field, value: &str, draw: &mut Draw) -> Option<String> {
    let mut spaces = value.match_indices(' ').map(|(at, _)| at);
    let (size, rest) = value.split_at(spaces.nth(1)?);
    let stated = Stated::read(size).filter(is_length)?;
    Some(format!("{}{rest}", sensible::other(&stated, field, draw)))
}

/// A length of a measured piece: larger or smaller with the rest, and a measured one a little off.
fn measured<'t>(stated: &Stated<'t>, scale: i64, draw: &mut Draw) -> Stated<'t> {
    let scaled = stated.scaled(scale);
    if stated.is_measured() { scaled.nudged(1 + draw.below(20) as i64, draw.once_in(2)) } else { scaled }
}

fn count(field: &Field, value: &str, draw: &mut Draw) -> Option<String> {
    let count: i64 = value.trim().parse().ok()?;
    // Large counts are divisions of a dial and the like; `count` is how many rows an answer has.
    let varies = (2..=12).contains(&count) && field.name != "count";
    varies.then(|| (count - 2 + draw.below(6) as i64).max(2).to_string())
}

/// Rows of points or of richer objects: the whole figure larger or smaller, and moved.
fn rows(value: &str, are_points: bool, whole: &Whole, draw: &mut Draw) -> String {
    let own = [75, 100, 125, 150][draw.below(4) as usize];
    let scale = whole.scale.unwrap_or(own);
    let rows = value.split(';').map(|row| {
        let parts = row.split(',').enumerate().map(|(at, part)| {
            let Some(stated) = Stated::read(part).filter(is_length) else { return part.trim().to_owned() };
            let mut other = stated.scaled(scale);
            if stated.is_fine() {
                other = other.nudged(1 + draw.below(9) as i64, draw.once_in(2));
            }
            if let (true, Some((x, y))) = (are_points, whole.shift) {
                let steps = if at == 0 { x } else { y };
                other =
                    if stated.unit == Some(Unit::Inch) { other.plus(steps * 125, 3) } else { other.plus(steps * 5, 0) };
            }
            other.text()
        });
        parts.collect::<Vec<_>>().join(",")
    });
    rows.collect::<Vec<_>>().join(";")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_before_words_varies_and_the_words_stay() {
        let field = describe_entry(&crate::calculators::REGISTER[0]).unwrap().fields[0].clone();
        let field = Field { form: "words", ..field };
        let mut draw = Draw::new(3, "fits");
        let others: Vec<String> = (0..9).filter_map(|_| leading(&field, "25 mm H7/g6", &mut draw)).collect();
        assert!(others.len() == 9 && others.iter().all(|other| other.ends_with(" mm H7/g6")), "{others:?}");
        assert!(others.iter().any(|other| other != "25 mm H7/g6"));
        for words in ["stainless", "4140 annealed", "R 3/4", "a b c"] {
            assert_eq!(leading(&field, words, &mut draw), None, "{words}");
        }
    }
}
