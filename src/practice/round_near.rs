//! Other numbers for the fields of an answer, near them and round, each in its own unit and way of writing.

use super::draw::Draw;
use crate::asking::{Field, RESERVED, describe_entry};
use crate::calculators::Entry;
use crate::quantity::{Dimension, Unit, read, text};
use crate::shop::MACHINE_FIELDS;

/// Shares, in percent, of the number that there was.
const SHARES: &[u32] = &[50, 60, 75, 80, 120, 125, 150, 200];

/// Fields that are a machine's own, beside those that stand in a shop's file.
const OF_A_MACHINE: &[&str] = &["gears", "dial_gear", "dial_marks", "spindle_wheel", "stud_wheel", "compound_angle"];

/// The fields with other numbers: all of them, or one.
pub fn near(entry: &Entry, fields: &[(String, String)], all: bool, draw: &mut Draw) -> Vec<(String, String)> {
    let described = describe_entry(entry).map(|described| described.fields.as_slice()).unwrap_or_default();
    let only = draw.below(fields.len() as u64) as usize;
    // The points of one figure grow or shrink together.
    let of_points = f64::from(draw.pick(SHARES).copied().unwrap_or(100)) / 100.0;
    let other = |(at, (name, value)): (usize, &(String, String))| {
        let left_alone = RESERVED.contains(&name.as_str())
            || OF_A_MACHINE.contains(&name.as_str())
            || MACHINE_FIELDS.iter().any(|field| field.name == name);
        let share = f64::from(draw.pick(SHARES).copied().unwrap_or(100)) / 100.0;
        let tool_angle = draw.below(3) as usize;
        let field = described.iter().find(|field| field.name == *name).filter(|_| !left_alone && (all || at == only));
        let number = field.and_then(|field| one(field, value, share, of_points, tool_angle));
        (name.clone(), number.unwrap_or_else(|| value.clone()))
    };
    fields.iter().enumerate().map(other).collect()
}

/// Another value; `None` where it stays.
fn one(field: &Field, value: &str, share: f64, of_points: f64, tool_angle: usize) -> Option<String> {
    match field.form {
        "count" => {
            let count: u32 = value.trim().parse().ok().filter(|count| (2..=12).contains(count))?;
            // `count` is how many rows an answer has.
            (field.name != "count").then(|| ((f64::from(count) * share).round() as u32).max(2).to_string())
        }
        "objects" => {
            let part = |part: &str| number(part, of_points, false).unwrap_or_else(|| part.trim().to_owned());
            let row = |row: &str| row.split(',').map(part).collect::<Vec<_>>().join(",");
            (!value.contains(['[', '{'])).then(|| value.split(';').map(row).collect::<Vec<_>>().join(";"))
        }
        _ if !field.is_quantity() => None,
        _ => match &*field.type_name() {
            "PointAngle" => Some(["90 deg", "118 deg", "135 deg"][tool_angle].to_owned()),
            "EdgeAngle" => Some(["45 deg", "60 deg", "90 deg"][tool_angle].to_owned()),
            _ => number(value, share, true),
        },
    }
}

/// A number with its unit, so much larger or smaller, and round where that is wanted.
fn number(value: &str, share: f64, round: bool) -> Option<String> {
    let (number, unit) = value.trim().rsplit_once(' ')?;
    let written = read(value, "1 in").ok().filter(|written| written.tolerance.is_none() && written.value != 0.0)?;
    let target = written.value * share;
    let size = target.abs();
    if number.contains('/') {
        let bottom: i64 = number.rsplit('/').next()?.parse().ok().filter(|bottom: &i64| bottom & (bottom - 1) == 0)?;
        let parts = if size < 0.25 {
            64
        } else if size < 1.0 {
            16
        } else {
            8
        }
        .max(bottom);
        return Some(format!("{} {unit}", fraction((target * parts as f64).round() as i64, parts)));
    }
    let is_angle = written.unit.is_some_and(|unit| unit.row().dimension == Dimension::Angle);
    let first = 10f64.powf(size.log10().floor());
    let step = match written.unit {
        _ if is_angle && size >= 20.0 => 5.0,
        _ if is_angle => 1.0,
        Some(Unit::Inch) if !round => 0.001,
        _ if !round => 0.01,
        _ if (1.0..10.0).contains(&size) && !number.contains('.') => 0.5,
        _ => first / 10.0,
    };
    let rounded = text::round((target / step).round() * step, 4);
    (rounded != 0.0).then(|| format!("{} {unit}", text::full(rounded)))
}

/// So many parts of an inch as it stands on a rule: `1-3/8`.
fn fraction(parts: i64, bottom: i64) -> String {
    let (mut top, mut bottom) = (parts.abs().max(1), bottom);
    while top % 2 == 0 && bottom > 1 {
        (top, bottom) = (top / 2, bottom / 2);
    }
    let sign = if parts < 0 { "-" } else { "" };
    match (top / bottom, top % bottom) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, top) => format!("{sign}{top}/{bottom}"),
        (whole, top) => format!("{sign}{whole}-{top}/{bottom}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_round_and_near() {
        for (value, share, near) in [
            ("1/2 in", 1.25, "5/8 in"),
            ("3/4 in", 2.0, "1-1/2 in"),
            ("0.200 in", 0.75, "0.15 in"),
            ("105 mm", 1.5, "160 mm"),
            ("5 mm", 1.25, "6.5 mm"),
            ("70 ft/min", 1.2, "84 ft/min"),
            ("30 deg", 0.75, "25 deg"),
        ] {
            assert_eq!(number(value, share, true).as_deref(), Some(near), "{value}");
        }
        assert_eq!(number("1/20 in", 1.5, true), None, "the pitch of a thread stays");
        assert_eq!(number("No.7", 1.5, true), None);
    }
}
