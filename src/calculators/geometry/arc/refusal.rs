//! What is wrong with the sizes given for an arc, with values to try that do give one.

use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

const NAMES: [&str; 6] = ["radius", "chord", "height", "arc_length", "angle", "segment_area"];

/// A size and its name.
type NamedSize = (&'static str, Quantity);

/// Refuses all but exactly two sizes, and an arc that is a full circle.
pub fn unless_two(given: &[NamedSize]) -> Result<(), ValidationError> {
    let says = "Give exactly two of radius, chord, height, arc length, central angle and segment area";
    let (code, says, ways): (_, String, Vec<(&'static str, String)>) = match given {
        [] => {
            let ways = vec![("chord", "21 mm".to_owned()), ("height", "6 mm".to_owned())];
            (Code::FieldMissing, format!("{says}; none is given."), ways)
        }
        [one] => {
            let rest = NAMES.into_iter().filter(|name| *name != one.0);
            let ways = rest.map(|name| (name, partner(one, name))).collect();
            (Code::FieldMissing, format!("{says}; only {} is given.", one.0), ways)
        }
        [_, _] => {
            let is_full = |(name, size): &NamedSize| *name == "angle" && size.in_unit(Unit::Degree) >= 360.0;
            if !given.iter().any(is_full) {
                return Ok(());
            }
            let says = "An arc spans less than 360 deg; a full turn has no chord.";
            (Code::ValueOutOfRange, says.to_owned(), vec![("angle", "180 deg".to_owned())])
        }
        many => {
            let names: Vec<&str> = many.iter().map(|(name, _)| *name).collect();
            let ways = many.iter().map(|(name, _)| (*name, "leave out".to_owned())).collect();
            (Code::Conflict, format!("{says}; {} are given: {}.", many.len(), names.join(", ")), ways)
        }
    };
    let ways: Vec<(&'static str, &str)> = ways.iter().map(|(name, value)| (*name, value.as_str())).collect();
    Err(rule_broken(code, says, &ways))
}

/// Two sizes that no arc has.
pub fn none_exists(given: &[NamedSize]) -> Refusal {
    let [a, b] = given else { return Refusal::default() };
    let says = match (a.0, b.0) {
        ("radius", "chord") => "A chord is at most as long as the diameter, twice the radius.",
        ("radius", "height") => "An arc is less high than the diameter, twice the radius.",
        ("radius", "arc_length") => "An arc is shorter than its full circle, 2 π times the radius.",
        ("radius", "segment_area") => "A segment is smaller than its full circle, π times the radius squared.",
        ("chord", "arc_length") => "An arc is longer than its chord.",
        ("height", "arc_length") => "An arc is at least 2.7601 times as long as it is high.",
        ("height", "segment_area") => "A segment is larger than the circle across its height, π / 4 times its square.",
        ("arc_length", "segment_area") => {
            "An arc encloses most as half a circle: its length squared over 2 π; this area is larger."
        }
        _ => "The arc would be so near a full circle that its angle cannot be told from 360 deg.",
    };
    Refusal::no_answer(says, &[(a.0, partner(b, a.0)), (b.0, partner(a, b.0))])
}

/// A value for the size `wanted` that makes an arc with the size `known`.
fn partner((known, quantity): &NamedSize, wanted: &str) -> String {
    let inch = quantity.unit.system() == Some(System::Inch);
    // A known length is multiplied in its own unit, a known area gives its square's side.
    let (length, unit) = match *known {
        "angle" => (0.05, Unit::Millimetre),
        "segment_area" => (quantity.si().sqrt(), if inch { Unit::Inch } else { Unit::Millimetre }),
        _ => (quantity.si(), quantity.unit),
    };
    let times = match (*known, wanted) {
        ("chord", "height") | ("arc_length", "height") => 0.25,
        ("chord", "arc_length") => 1.25,
        ("arc_length", "chord") => 0.8,
        ("height", "chord" | "arc_length") | ("segment_area", "arc_length") => 4.0,
        ("arc_length", "segment_area") => 0.1,
        _ => 1.0,
    };
    match wanted {
        "angle" => "90 deg".into(),
        "segment_area" => {
            let unit = if inch { Unit::SquareInch } else { Unit::SquareMillimetre };
            value(times * length * length, unit, Way::Near)
        }
        _ => value(times * length, unit, Way::Near),
    }
}
