//! Which fields of a stepped profile go together: two points or a corner, and one bound on the steps.

use super::{ProfileCutter, SteppedProfileInput};
use crate::arithmetic::directions::BlendSide;
use crate::calculators::prelude::*;

rules! { pub check_steps(SteppedProfileInput) {
    not_both(step, cusp): "Give the longest step or the ridge height, not both.";
    one_of(step = "1 mm", cusp = "0.01 mm"):
        "Give the longest step, or the height of the ridges that may be left.";
} }

rules! { check_points(SteppedProfileInput) {
    never(|input| input.radius.is_some() && input.sense.is_none(), Code::FieldMissing, sense = "counterclockwise"):
        "Say which way the arc runs, counterclockwise or clockwise: it can bow to either side.";
    needs(sense => radius = "25 mm", sense = "leave out"):
        "Give the radius of the arc too. For a straight line leave out which way the arc runs.";
} }

rules! { check_corner(SteppedProfileInput) {
    never(|input| input.corner_at.is_none(), Code::FieldMissing, corner_at = "upper_right"):
        "Say which corner it is, such as upper right.";
    one_of(radius = "5 mm", chamfer = "2 mm"): "Give the radius of the corner, or the width of its chamfer.";
    not_both(radius, chamfer): "Give the corner a radius or a chamfer, not both.";
    never(|input| input.chamfer_angle.is_some() && input.chamfer.is_none(), Code::Conflict,
        chamfer_angle = "leave out"): "A radius has no chamfer angle. Leave the angle out.";
    never(|input| input.chamfer_angle.is_some_and(|angle| angle.degrees() >= 90.0), Code::ValueOutOfRange,
        chamfer_angle = "45 deg"): "A chamfer stands at less than 90° to the edge along X.";
    never(|input| input.chamfer.is_some() && input.corner_kind == Some(BlendSide::Inside)
        && input.cutter == ProfileCutter::Ball, Code::Conflict, cutter = "flat"):
        "A round cutter would cut into both edges beside an inside chamfer. Use the corner of a square cutter.";
} }

/// Two points or a corner, and what belongs to it.
pub fn check_way(input: &SteppedProfileInput) -> Result<(), ValidationError> {
    let points = stated!(input: from = "0 mm,0 mm", to = "30 mm,10 mm", side = "left", sense);
    let corner = stated!(input: corner_at, corner_kind, corner_point, chamfer, chamfer_angle);
    let any = |fields: &[Stated]| fields.iter().any(|(_, _, given)| *given);
    let ends = &points[..3];
    match (any(&points), any(&corner)) {
        (true, true) => {
            let says = "Give the first and last point, or the corner, not both.";
            let whole = ends.iter().all(|(_, _, given)| *given);
            Err(rule_broken(Code::Conflict, says, &to_leave_out(if whole { &corner } else { &points })))
        }
        (_, true) => check_corner(input),
        (false, false) => {
            let says = "Say where the profile runs: give its first and last point and the side of the cutter, or say \
                        which corner gets a radius or a chamfer.";
            let ways = [to_give(ends), vec![("corner_at", "upper_right")]].concat();
            Err(rule_broken(Code::FieldMissing, says, &ways))
        }
        (true, false) if ends.iter().all(|(_, _, given)| *given) => check_points(input),
        (true, false) => {
            let says = "A profile between two points needs the first point, the last point and the side of the cutter.";
            Err(rule_broken(Code::FieldMissing, says, &to_give(ends)))
        }
    }
}
