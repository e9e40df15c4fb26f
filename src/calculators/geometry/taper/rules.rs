//! What states a taper, once.

use super::TaperInput;
use crate::calculators::prelude::*;

/// The taper is stated once, and its ends are the right way round.
pub fn check(input: &TaperInput) -> Result<(), ValidationError> {
    let stated = stated!(input: standard = "Morse 3", per_foot = "0.6 in", ratio = "20", included_angle = "10 deg",
        half_angle = "5 deg");
    let ends = stated!(input: large_diameter = "1.5 in", small_diameter = "1.25 in", length = "6 in");
    let of_ends = ends.iter().all(|(.., given)| *given);
    let given = to_leave_out(&stated);
    if given.is_empty() && !of_ends {
        let mut ways = vec![("standard", "Morse 3")];
        ways.extend(to_give(&ends));
        let says = "State the taper: by name, per foot, as a ratio or an angle, or by both ends and the length.";
        return Err(rule_broken(Code::FieldMissing, says, &ways));
    }
    if given.len() > 1 {
        return Err(rule_broken(Code::Conflict, "State the taper once.", &given));
    }
    if !given.is_empty() && of_ends {
        let says = "Both ends and the length are a taper already: leave out one of them, or the other statement.";
        return Err(rule_broken(Code::Conflict, says, &[given, to_leave_out(&ends)].concat()));
    }
    ways_round(input)
}

rules! { ways_round(TaperInput) {
    smaller(small_diameter < large_diameter, small_diameter = "leave out"):
        "The small end must be smaller than the large end.";
    never(|input| input.included_angle.is_some_and(|angle| angle.degrees() >= 180.0), Code::ValueOutOfRange,
        included_angle = "60 deg"): "The included angle of a taper is less than 180°.";
    never(|input| input.half_angle.is_some_and(|angle| angle.degrees() >= 90.0), Code::ValueOutOfRange,
        half_angle = "30 deg"): "The angle to the axis is less than 90°.";
} }
