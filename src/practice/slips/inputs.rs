//! Slips of what goes in: the calculator is asked again with an input misunderstood, or its working is
//! gone through again with a formula misunderstood.

use super::case::{Case, Slip};
use crate::practice::formula::Misread;
use crate::quantity::{Dimension, Quantity, Unit};
use crate::tree::Node;

fn push(all: &mut Vec<Slip>, code: &'static str, value: Option<f64>, says: impl Into<String>) {
    if let Some(value) = value {
        all.push(Slip { code, says: says.into(), value });
    }
}

fn kind(quantity: &Quantity) -> &'static str {
    quantity.kind.name
}

fn is_angle(quantity: &Quantity) -> bool {
    quantity.unit.row().dimension == Dimension::Angle
}

/// Degrees where radians belong, in the working.
pub fn radians(case: &Case, all: &mut Vec<Slip>) {
    let says = "This comes out with the pocket calculator set to radians: set it to degrees, or turn degrees into \
                radians first.";
    push(all, "degrees_for_radians", case.misread(Misread::CalculatorInRadians), says);
    let says = "This comes out with degrees put where the formula needs radians: an arc is radius times angle only in \
                radians, that is degrees × π / 180.";
    push(all, "degrees_for_radians", case.misread(Misread::DegreesForRadians), says);
}

/// The point of the drill forgotten: a point of 180 degrees has no length.
pub fn drill_point(case: &Case, all: &mut Vec<Slip>) {
    const CODE: &str = "drill_point_forgotten";
    let wanted = &case.wanted.quantity;
    let is_way = matches!(wanted.unit.row().dimension, Dimension::Length | Dimension::Time);
    if !is_way || kind(wanted) == "ChipThickness" {
        return;
    }
    for field in case.described().iter().filter(|field| field.type_name() == "PointAngle") {
        let says =
            "The drill's point was forgotten: the tip goes deeper than the full diameter by the length of the point.";
        push(all, CODE, case.again(&field.name, "180 deg".into()), says);
    }
    let length = case.answer.result().and_then(|result| result.member("point_length"));
    if let Some(Node::Quantity(length)) = length
        && wanted.unit.row().dimension == Dimension::Length
        && case.wanted.path != "point_length"
    {
        let says = "The drill's point was counted where it does not count: look at where zero was set.";
        push(all, CODE, Some(wanted.si() + length.quantity.si()), says);
        let says = "The drill's point was forgotten, or taken off where it counts.";
        push(all, CODE, Some(wanted.si() - length.quantity.si()), says);
    }
}

/// A feed a tooth taken for a feed a turn.
pub fn feed(case: &Case, all: &mut Vec<Slip>) {
    const CODE: &str = "feed_per_tooth";
    let teeth = match case.answer.inputs.member("teeth") {
        Some(Node::Count(teeth)) => *teeth as f64,
        Some(Node::Number(teeth)) => *teeth,
        _ => return,
    };
    if teeth < 2.0 {
        return;
    }
    let turn = format!("A feed a tooth was taken for a feed a turn: in one turn all {teeth} teeth advance.");
    let tooth = format!("A feed a turn was taken for a feed a tooth: each of the {teeth} teeth takes its share of it.");
    let wanted = &case.wanted.quantity;
    // A feed that is left out the teeth of is too small; a feed a tooth that has all in it too large.
    match kind(wanted) {
        "FeedRate" | "FeedPerRev" => {
            push(all, CODE, Some(wanted.si() / teeth), &turn);
            push(all, CODE, Some(wanted.si() * teeth), &tooth);
        }
        "FeedPerTooth" => {
            push(all, CODE, Some(wanted.si() * teeth), &tooth);
            push(all, CODE, Some(wanted.si() / teeth), &turn);
        }
        _ => {
            for (name, quantity) in case.inputs().iter().filter(|(_, quantity)| kind(quantity) == "FeedPerTooth") {
                push(all, CODE, case.again_with(name, quantity, quantity.value / teeth), &turn);
                push(all, CODE, case.again_with(name, quantity, quantity.value * teeth), &tooth);
            }
        }
    }
}

/// An included angle taken for its half, or the other way round.
pub fn included(case: &Case, all: &mut Vec<Slip>) {
    const CODE: &str = "included_angle";
    let whole = "The whole angle was taken where the formula has its half: an included angle lies on both sides of the \
                 middle.";
    let half = "The angle was halved twice: what is stated is the whole, included angle.";
    if let Some(value) = case.misread(Misread::WholeForHalf) {
        push(all, CODE, Some(value), whole);
        // Past 90 degrees a tangent turns negative, and most would drop the sign.
        push(all, CODE, Some(value.abs()), whole);
    }
    push(all, CODE, case.misread(Misread::HalfOfHalf), half);
    for (name, quantity) in case.inputs().iter().filter(|(_, quantity)| is_angle(quantity)) {
        let about = case.described().iter().find(|field| field.name == *name).map_or("", |field| &field.about);
        if kind(quantity) == "PointAngle" || about.to_lowercase().contains("included") {
            push(all, CODE, case.again_with(name, quantity, quantity.value / 2.0), half);
            push(all, CODE, case.again_with(name, quantity, quantity.value * 2.0), whole);
        }
    }
}

/// A radius taken for a diameter, or the other way round.
pub fn radius(case: &Case, all: &mut Vec<Slip>) {
    const CODE: &str = "radius_for_diameter";
    for (name, quantity) in case.inputs().iter().filter(|(_, quantity)| quantity.value != 0.0) {
        let words = spaced(name);
        let (double, half) = if name.contains("diameter") || *name == "swing" {
            (
                format!("The {words} was taken where its half, the radius, belongs."),
                format!(
                    "The {words} was taken for a radius or halved once too often: what is stated goes right across."
                ),
            )
        } else if name.contains("radius") {
            (
                format!("The {words} was doubled: where a radius belongs, a diameter was taken."),
                format!("The {words} was halved: it is a radius already."),
            )
        } else {
            continue;
        };
        push(all, CODE, case.again_with(name, quantity, quantity.value * 2.0), double);
        push(all, CODE, case.again_with(name, quantity, quantity.value / 2.0), half);
    }
    let result = case.wanted.path.rsplit('/').next().unwrap_or_default();
    let right = case.wanted.quantity.si();
    if result.contains("diameter") {
        push(all, CODE, Some(right / 2.0), "This is the radius; the diameter is asked for.");
        push(all, CODE, Some(right * 2.0), "This is twice the diameter: a diameter was taken for a radius.");
    } else if result.contains("radius") {
        push(all, CODE, Some(right * 2.0), "This is the diameter; the radius is asked for.");
        push(all, CODE, Some(right / 2.0), "This is half the radius: a radius was taken for a diameter.");
    }
    for field in case.described() {
        let counts = ["radius", "diameter"];
        if counts.iter().all(|word| field.choices.iter().any(|choice| choice == word))
            && let Some(word) = case.word(&field.name)
        {
            let other = if word == "radius" { "diameter" } else { "radius" };
            let says = format!(
                "This would be right if the {} counted the {other}; it counts the {word}.",
                spaced(&field.name)
            );
            push(all, CODE, case.again(&field.name, other.into()), says);
        }
    }
}

/// An angle from the wrong zero, or counted the other way.
pub fn zero_of_angles(case: &Case, all: &mut Vec<Slip>) {
    const CODE: &str = "angle_zero";
    for (name, one, other) in [("angle_from", "x_axis", "y_axis"), ("angle_sense", "counterclockwise", "clockwise")] {
        let Some(word) = case.word(name) else { continue };
        let swapped = if word == one { other } else { one };
        let says = format!("The {} is {}, not {}.", spaced(name), spaced(&word), spaced(swapped));
        push(all, CODE, case.again(name, swapped.into()), says);
    }
    for (name, quantity) in case.inputs().iter().filter(|(_, quantity)| is_angle(quantity)) {
        let words = spaced(name);
        let turn = quantity.unit.of_si(std::f64::consts::TAU);
        let value = quantity.value;
        let mut other = |angle: f64, says: String| push(all, CODE, case.again_with(name, quantity, angle), says);
        match kind(quantity) {
            "Angle" => {
                other(value + turn / 4.0, format!("The {words} was counted from a zero a quarter turn away."));
                other(value - turn / 4.0, format!("The {words} was counted from a zero a quarter turn away."));
                other(value + turn / 2.0, format!("The {words} was counted from a zero half a turn away."));
                other(-value, format!("The {words} was counted the other way round."));
                other(turn / 4.0 - value, format!("The {words} was counted from the other axis, towards this one."));
            }
            "EdgeAngle" | "RampAngle" => {
                other(
                    turn / 4.0 - value,
                    format!("The {words} was counted from the line square to the one it is counted from."),
                );
            }
            _ => {}
        }
    }
    let wanted = &case.wanted.quantity;
    if matches!(kind(wanted), "Angle" | "Sweep") {
        let right = wanted.si();
        let turn = std::f64::consts::TAU;
        for (value, says) in [
            (turn / 4.0 - right, "This is the angle to the other axis."),
            (right + turn / 4.0, "This is counted from a zero a quarter turn away."),
            (right - turn / 4.0, "This is counted from a zero a quarter turn away."),
            (turn - right, "This is counted the other way round."),
            (-right, "This is counted the other way round."),
            (right + turn / 2.0, "This is counted from a zero half a turn away."),
            (turn / 2.0 - right, "This is counted from a zero half a turn away, the other way round."),
        ] {
            push(all, CODE, Some(value), says);
        }
    }
}

/// Where inches and millimetres stand side by side, one taken for the other.
pub fn systems(case: &Case, all: &mut Vec<Slip>) {
    let inputs = case.inputs();
    let has = |system| inputs.iter().any(|(_, quantity)| quantity.unit.system() == Some(system));
    if !(has(crate::quantity::System::Inch) && has(crate::quantity::System::Metric)) {
        return;
    }
    for (name, quantity) in &inputs {
        let (inch, metric) = (quantity.kind.inch.0, quantity.kind.metric.0);
        let other: Unit = match quantity.unit {
            unit if unit == inch && inch != metric => metric,
            unit if unit == metric && inch != metric => inch,
            _ => continue,
        };
        let (stated, taken) = (quantity.unit.spelling(), other.spelling());
        let says = format!("The {} is in {stated}; it was taken as if it were in {taken}.", spaced(name));
        let moved = Quantity { unit: other, ..*quantity };
        push(all, "wrong_unit", case.again_with(name, &moved, quantity.value), says);
    }
}

/// A name as words.
fn spaced(name: &str) -> String {
    name.replace('_', " ")
}
