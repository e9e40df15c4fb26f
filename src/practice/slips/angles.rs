//! Slips of angles: radians, the half and the whole, zeros, minutes, and the sides of a triangle.

use super::case::Case;
use crate::declared::said_word;
use crate::practice::formula::Misread;
use crate::quantity::{Dimension, Quantity, Unit};
use std::f64::consts::TAU;

fn is_angle(quantity: &Quantity) -> bool {
    quantity.unit.row().dimension == Dimension::Angle
}

/// Degrees where radians belong, in the working.
pub fn radians(case: &mut Case) {
    let says = "This comes out with the pocket calculator set to radians: set it to degrees, or turn degrees into \
                radians first.";
    case.note("degrees_for_radians", case.misread(Misread::CalculatorInRadians), says);
    let says = "This comes out with degrees put where the formula needs radians: an arc is radius times angle only in \
                radians, that is degrees × π / 180.";
    case.note("degrees_for_radians", case.misread(Misread::DegreesForRadians), says);
}

/// An included angle taken for its half, or the other way round.
pub fn included(case: &mut Case) {
    const CODE: &str = "included_angle";
    let whole = "The whole angle was taken where the formula has its half: an included angle lies on both sides of the \
                 middle.";
    let half = "The angle was halved twice: what is stated is the whole, included angle.";
    if let Some(value) = case.misread(Misread::WholeForHalf) {
        case.note(CODE, Some(value), whole);
        // Past 90 degrees a tangent turns negative, and most would drop the sign.
        case.note(CODE, Some(value.abs()), whole);
    }
    case.note(CODE, case.misread(Misread::HalfOfHalf), half);
    for (name, quantity) in case.inputs().iter().filter(|(_, quantity)| is_angle(quantity)) {
        let about = case.described().iter().find(|field| field.name == *name).map_or("", |field| &field.about);
        if quantity.kind.name == "PointAngle" || about.to_lowercase().contains("included") {
            case.note(CODE, case.again_with(name, quantity, quantity.value / 2.0), half);
            case.note(CODE, case.again_with(name, quantity, quantity.value * 2.0), whole);
        }
    }
}

/// An angle from the wrong zero, or counted the other way.
pub fn zero(case: &mut Case) {
    const CODE: &str = "angle_zero";
    for (name, one, other) in [("angle_from", "x_axis", "y_axis"), ("angle_sense", "counterclockwise", "clockwise")] {
        let Some(word) = case.word(name) else { continue };
        let swapped = if word == one { other } else { one };
        let says = format!("The {} is {}, not {}.", case.label(name), said_word(&word), said_word(swapped));
        case.note(CODE, case.again(name, swapped.into()), says);
    }
    for (name, quantity) in case.inputs().iter().filter(|(_, quantity)| is_angle(quantity)) {
        let words = case.label(name);
        let turn = quantity.unit.of_si(TAU);
        let value = quantity.value;
        let mut other = |angle: f64, says: &str| {
            case.note(CODE, case.again_with(name, quantity, angle), format!("The {words} was counted {says}."));
        };
        match quantity.kind.name {
            "Angle" => {
                other(turn / 4.0 - value, "from the other axis, toward this one");
                other(-value, "the other way round");
                other(value + turn / 4.0, "from a zero a quarter turn away");
                other(value - turn / 4.0, "from a zero a quarter turn away");
                other(value + turn / 2.0, "from a zero half a turn away");
            }
            "EdgeAngle" | "RampAngle" => {
                other(turn / 4.0 - value, "from the line square to the one it is counted from");
            }
            _ => {}
        }
    }
    let wanted = case.wanted.amount;
    if wanted.quantity().is_some_and(|quantity| matches!(quantity.kind.name, "Angle" | "Sweep")) {
        let right = wanted.si();
        for (value, says) in [
            (TAU / 4.0 - right, "This is the angle to the other axis."),
            (right + TAU / 4.0, "This is counted from a zero a quarter turn away."),
            (right - TAU / 4.0, "This is counted from a zero a quarter turn away."),
            (TAU - right, "This is counted the other way round."),
            (-right, "This is counted the other way round."),
            (right + TAU / 2.0, "This is counted from a zero half a turn away."),
            (TAU / 2.0 - right, "This is counted from a zero half a turn away, the other way round."),
        ] {
            case.note(CODE, Some(value), says);
        }
    }
}

/// The cosine for the sine, and a tangent with its sides in each other's place.
pub fn cosine(case: &mut Case) {
    const CODE: &str = "cosine_for_sine";
    let says = "The cosine and the sine are in each other's place: the sine belongs to the side across from the angle.";
    case.note(CODE, case.misread(Misread::CosineForSine), says);
    let says = "The tangent is turned over: it is the side across from the angle over the side beside it.";
    case.note(CODE, case.misread(Misread::TangentTurnedOver), says);
}

/// Minutes of an angle or of an hour as if they were decimals: `12°30'` is 12.5°, not 12.30°.
pub fn minutes(case: &mut Case) {
    const CODE: &str = "minutes_as_decimals";
    let says = "The minutes were written as decimals: 30 minutes are half, which is .5.";
    for (name, quantity) in case.inputs().iter().filter(|(_, quantity)| is_angle(quantity)) {
        let in_minutes = case.stated(name).is_some_and(|text| text.contains(['\'', '′']));
        if in_minutes && let Some(value) = in_sixtieths(quantity.value) {
            case.note(CODE, case.again_with(name, quantity, value), says);
        }
    }
    let sixtieths = [Unit::Degree, Unit::Minute, Unit::Hour];
    if let Some(right) = case.wanted.amount.quantity().filter(|right| sixtieths.contains(&right.unit)) {
        case.note(CODE, in_sixtieths(right.value).map(|value| right.unit.to_si(value)), says);
    }
}

/// A value with its sixtieths written behind the point; none where there are none.
fn in_sixtieths(value: f64) -> Option<f64> {
    let sixtieths = (value.abs().fract() * 60.0).round();
    (sixtieths > 0.0 && sixtieths < 60.0).then(|| (value.abs().floor() + sixtieths / 100.0).copysign(value))
}
