//! Another number in place of one, such as a shop would have: fractions of the rule, drills' angles, the
//! speeds of a gear head, the pitches that are cut.

use super::super::draw::Draw;
use super::number::{Form, Stated, nearest, power};
use crate::asking::Field;
use crate::quantity::{Dimension, Unit};

/// The speeds of a gear head, by the preferred numbers R20/3 of ISO 3.
const GEAR_SPEEDS: &[i64] = &[112, 160, 224, 315, 450, 630, 900, 1250];

/// Another number of its kind.
pub fn other(stated: &Stated, field: &Field, draw: &mut Draw) -> String {
    let kind = &*field.type_name();
    let dimension = stated.unit.map(|unit| unit.row().dimension);
    match (dimension, stated.form) {
        (Some(Dimension::Angle), Form::Decimal(_)) => angle(stated, kind, &field.name, draw),
        (Some(Dimension::TurningSpeed), _) => {
            let value = stated.counts / power(stated.places());
            let near: Vec<i64> =
                GEAR_SPEEDS.iter().copied().filter(|speed| (value / 3..=value * 3).contains(speed)).collect();
            let speed = draw.pick(&near).copied().unwrap_or(value);
            format!("{speed}{}", stated.suffix)
        }
        _ if stated.counts == 0 => stated.text(),
        (Some(Dimension::Length), _) if is_of_a_screw(&field.name) => screw(stated, draw),
        (_, Form::Fraction(bottom)) => fraction(stated, bottom, draw),
        (Some(Dimension::Ratio), _) => share(stated, kind, draw),
        _ => decimal(stated, draw),
    }
}

fn percent(draw: &mut Draw) -> i64 {
    60 + draw.below(101) as i64
}

fn is_of_a_screw(name: &str) -> bool {
    name == "lead" || name == "pitch" || name.ends_with("_lead")
}

/// The lead or pitch of a screw, one of those that are cut.
fn screw(stated: &Stated, draw: &mut Draw) -> String {
    match stated.form {
        Form::Fraction(_) => {
            let threads = draw.pick(&[4, 5, 6, 8, 10, 12]).copied().unwrap_or(8);
            format!("1/{threads}{}", stated.suffix)
        }
        Form::Decimal(_) if stated.unit == Some(Unit::Millimetre) => {
            let pitch = draw.pick(&["1", "1.25", "1.5", "1.75", "2", "2.5", "3", "4", "5"]).copied().unwrap_or("2");
            format!("{pitch}{}", stated.suffix)
        }
        Form::Decimal(_) => stated.text(),
    }
}

fn fraction(stated: &Stated, bottom: i64, draw: &mut Draw) -> String {
    let halves_down = bottom & (bottom - 1) == 0;
    if !halves_down {
        // A pitch, one part of so many.
        let parts = nearest(bottom * percent(draw), 100).max(2);
        return if stated.counts.abs() == 1 { format!("1/{parts}{}", stated.suffix) } else { stated.text() };
    }
    let size = stated.counts.abs();
    let finest = if size * 4 < bottom {
        64
    } else if size < bottom {
        16
    } else if size < 4 * bottom {
        8
    } else {
        4
    }
    .max(bottom);
    let counts = nearest(size * (finest / bottom) * percent(draw), 100).max(1) * stated.counts.signum();
    stated.with(counts, Form::Fraction(finest)).text()
}

/// To a step that fits the size and the way it is written.
fn decimal(stated: &Stated, draw: &mut Draw) -> String {
    let (step, places) = step(stated);
    let finer = stated.with_places(places);
    let step = step * power(finer.places() - places);
    let size = finer.counts.abs() * percent(draw);
    let counts = (nearest(size, 100 * step) * step).max(step) * finer.counts.signum();
    finer.with(counts, finer.form).text()
}

/// The step of a decimal and the places it is counted in.
fn step(stated: &Stated) -> (i64, u32) {
    let places = stated.places();
    let size = stated.counts.abs();
    let whole = size / power(places);
    match (stated.unit, places) {
        (Some(Unit::Inch), 0) => (if whole < 8 { 125 } else { 250 }, 3),
        (Some(Unit::Inch), 1) => (if whole >= 1 { 50 } else { 10 }, 3),
        (Some(Unit::Inch), 2) if size >= 10 => (5, 3),
        (Some(Unit::Inch), _) => (1, places),
        (Some(Unit::Millimetre), 0) => (if whole < 20 { 5 } else { 10 }, 1),
        (Some(Unit::Millimetre), 1) if whole >= 2 => (5, 1),
        (Some(Unit::Millimetre), 2) if size >= 10 => (5, 2),
        (Some(Unit::Millimetre), _) => (1, places),
        _ => {
            // Two digits; where the number is a round one, to the half of the first.
            let mut first = 1;
            while first * 10 <= size {
                first *= 10;
            }
            if first == 1 {
                // One digit: to the half.
                (5, places + 1)
            } else if size % (first / 2) == 0 {
                (first / 2, places)
            } else {
                ((first / 10).max(1), places)
            }
        }
    }
}

fn share(stated: &Stated, kind: &str, draw: &mut Draw) -> String {
    if kind == "ThreadPercent" {
        let share = draw.pick(&[60, 65, 70, 75, 80]).copied().unwrap_or(75);
        return format!("{share}{}", stated.suffix);
    }
    let places = power(stated.places());
    let step = if stated.counts % (5 * places) == 0 { 5 * places } else { places };
    let counts = (nearest(stated.counts * percent(draw), 100 * step) * step).max(step);
    let most = 100 * places;
    stated.with(if stated.counts <= most { counts.min(most) } else { counts }, stated.form).text()
}

/// Whole or half degrees; those that tools are ground to, where it is a tool's.
fn angle(stated: &Stated, kind: &str, name: &str, draw: &mut Draw) -> String {
    if stated.unit != Some(Unit::Degree) {
        return stated.text();
    }
    let half_degrees = 2 * stated.counts / power(stated.places());
    let from: &[i64] = match kind {
        "PointAngle" if half_degrees >= 180 => &[180, 236, 240, 260, 270, 280],
        "PointAngle" => &[120, 164, 180],
        "EdgeAngle" => &[90, 120, 150, 180],
        "RampAngle" => &[3, 4, 5, 6, 7, 8, 10],
        _ if name.starts_with("lever") => &[10, 20, 30, 40, 50, 60],
        _ if half_degrees == 0 => &[0, 20, 30, 45, 60, 90],
        _ => &[],
    };
    let step = if half_degrees % 10 == 0 { 10 } else { 1 };
    let wanted = nearest(half_degrees.abs() * percent(draw), 100 * step) * step;
    let chosen = draw.pick(from).copied().unwrap_or(wanted.max(1) * if half_degrees < 0 { -1 } else { 1 });
    let sign = if chosen < 0 { "-" } else { "" };
    let half = if chosen % 2 == 0 { "" } else { ".5" };
    format!("{sign}{}{half}{}", chosen.abs() / 2, stated.suffix)
}
