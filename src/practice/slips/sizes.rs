//! Slips of sizes: a radius for a diameter, the diameter of the tool, the point of the drill, a pitch.

use super::case::Case;
use crate::quantity::{Dimension, Quantity, Setting, Unit};
use crate::tree::Node;

/// So small that it is none, where a size must be more than nothing.
const NONE: f64 = 1e-7;

/// Fields that hold the size of what touches or cuts.
const OF_A_TOOL: [&str; 5] = ["tip_diameter", "cutter_diameter", "tool_diameter", "wire_diameter", "probe_diameter"];

/// The point of the drill forgotten: a point of 180 degrees has no length.
pub fn drill_point(case: &mut Case) {
    const CODE: &str = "drill_point_forgotten";
    let wanted = case.wanted.amount;
    let is_way = matches!(wanted.dimension(), Some(Dimension::Length | Dimension::Time));
    if !is_way || wanted.quantity().is_some_and(|wanted| wanted.kind.name == "ChipThickness") {
        return;
    }
    let field = case.described().iter().find(|field| field.type_name() == "PointAngle");
    let none = field.and_then(|field| case.again(&field.name, "180 deg".into()));
    let says =
        "The drill's point was forgotten: the tip goes deeper than the full diameter by the length of the point.";
    case.note(CODE, none, says);
    let length = case.answer.result().and_then(|result| result.member("point_length"));
    if let (Some(Node::Quantity(length)), Some(none)) = (length, none)
        && wanted.dimension() == Some(Dimension::Length)
        && (none - wanted.si()).abs() < 1e-9
    {
        let says = "The drill's point was counted where it does not count: look at where zero was set.";
        case.note(CODE, Some(wanted.si() + length.quantity.si()), says);
    }
}

/// The diameter of the tool left out, taken whole where half of it belongs, or moved the wrong way.
pub fn tool(case: &mut Case) {
    for (name, quantity) in case.inputs().iter().filter(|(name, _)| OF_A_TOOL.contains(name)) {
        let words = case.label(name);
        let says = format!("The {words} was left out: what was touched or cut lies half of it from the middle.");
        case.note("tool_diameter", case.again_with(name, quantity, quantity.value * NONE), says);
        let none = case.found.last().map(|slip| slip.value);
        let right = case.wanted.amount;
        if let Some(none) = none.filter(|_| right.dimension() == Some(Dimension::Length)) {
            let says =
                format!("The {words} was moved the wrong way: taken off where it is added, or added for taken off.");
            case.note("tool_diameter", Some(2.0 * none - right.si()), says);
        }
    }
}

/// A radius taken for a diameter, or the other way round.
pub fn radius(case: &mut Case) {
    const CODE: &str = "radius_for_diameter";
    for (name, quantity) in case.inputs().iter().filter(|(_, quantity)| quantity.value != 0.0) {
        let words = case.label(name);
        let (double, half) = if name.contains("diameter") || ["swing", "distance_across"].contains(name) {
            (
                format!("The {words} was taken whole where its half, the radius, belongs."),
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
        case.note(CODE, case.again_with(name, quantity, quantity.value * 2.0), double);
        case.note(CODE, case.again_with(name, quantity, quantity.value / 2.0), half);
    }
    let Some(wanted) = case.wanted.amount.quantity().copied() else { return };
    let result = case.wanted.path.rsplit('/').next().unwrap_or_default();
    let right = wanted.si();
    let across = matches!(wanted.kind.setting, Setting::AcrossDiameter | Setting::AcrossRadius);
    if result.contains("diameter") || across || result == "infeed_left" {
        case.note(CODE, Some(right / 2.0), "This is half of what is asked for: a radius in place of a diameter.");
        case.note(CODE, Some(right * 2.0), "This is twice what is asked for: a diameter was taken for a radius.");
    } else if result.contains("radius") {
        case.note(CODE, Some(right * 2.0), "This is the diameter; the radius is asked for.");
        case.note(CODE, Some(right / 2.0), "This is half the radius: a radius was taken for a diameter.");
    }
    for field in case.described() {
        let counts = ["radius", "diameter"];
        if counts.iter().all(|word| field.choices.iter().any(|choice| choice == word))
            && let Some(word) = case.word(&field.name)
        {
            let other = if word == "radius" { "diameter" } else { "radius" };
            let says = format!(
                "This would be right if the {} counted the {other}; it counts the {word}.",
                case.label(&field.name)
            );
            case.note(CODE, case.again(&field.name, other.into()), says);
        }
    }
}

/// Threads per inch for a pitch.
pub fn pitch(case: &mut Case) {
    const CODE: &str = "threads_for_pitch";
    let over = |quantity: &Quantity| 1.0 / Unit::Inch.of_si(quantity.si());
    let Some(wanted) = case.wanted.amount.quantity().copied() else { return };
    let last = case.wanted.path.rsplit('/').next().unwrap_or_default();
    let is_advance = ["pitch", "lead", "feed_per_rev"].contains(&last);
    if is_advance || wanted.kind.name == "ThreadPitch" {
        let says = "These are the threads in an inch; the pitch is one inch over them.";
        case.note(CODE, Some(wanted.unit.to_si(over(&wanted))), says);
    }
    for (name, quantity) in case.inputs().iter().filter(|(_, quantity)| quantity.kind.name == "ThreadPitch") {
        let says = format!("The {} was turned over: a pitch is one inch over the threads in it.", case.label(name));
        let pitch = quantity.as_length();
        let inches = Quantity { unit: Unit::Inch, ..pitch };
        case.note(CODE, case.again_with(name, &inches, over(&pitch)), says);
    }
}
