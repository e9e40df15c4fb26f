//! Which fields of a blend go together, and the refusal of a radius that does not fit, with one that does.

use super::FilletInput;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

rules! { check_pairs(FilletInput) {
    never(|input| input.first_line.as_ref().is_some_and(|line| line.0.len() != 2), Code::ValueOutOfRange,
        first_line = "1 in,0 in;5 in,0 in"): "Give two points on the first line.";
    never(|input| input.second_line.as_ref().is_some_and(|line| line.0.len() != 2), Code::ValueOutOfRange,
        second_line = "0 in,1 in;0 in,4 in"): "Give two points on the second line.";
    needs(second_line => first_line = "1 in,0 in;5 in,0 in", second_line = "leave out"):
        "The second line needs a first line.";
    never(|input| input.corner_angle.is_some_and(|angle| angle.degrees() >= 180.0), Code::ValueOutOfRange,
        corner_angle = "90 deg"): "At 180° the edges are one line and leave no corner. Give a smaller angle.";
    needs(cutter_diameter => side = "inside", cutter_diameter = "leave out"):
        "Say which way the cutter cuts: inside for a hollow, outside for a rounded corner.";
    never(|input| input.edge_length.is_some() && input.corner_angle.is_none() && input.second_line.is_none(),
        Code::Conflict, edge_length = "leave out"): "The length of an edge goes with a corner of two edges.";
    never(|input| input.side == Some(super::BlendSide::Inside)
        && input.cutter_diameter.is_some_and(|cutter| cutter.si() > 2.0 * input.radius.si() * (1.0 + 1e-12)),
        Code::Conflict, cutter_diameter = "1/8 in", radius = "3 in"):
        "The cutter is too large: in a hollow it can be at most twice the radius across.";
} }

/// One pair of things to blend, and no more.
pub fn check_parts(input: &FilletInput) -> Result<(), ValidationError> {
    check_pairs(input)?;
    let circles = &input.circles;
    let all: [Stated; 5] = [
        ("corner_angle", "", input.corner_angle.is_some()),
        ("first_line", "", input.first_line.is_some()),
        ("second_line", "", input.second_line.is_some()),
        ("first_center", "", circles.first_center.is_some()),
        ("second_center", "", circles.second_center.is_some()),
    ];
    let given: Vec<&str> = all.iter().filter(|(_, _, given)| *given).map(|(name, ..)| *name).collect();
    match given.as_slice() {
        ["corner_angle"]
        | ["first_line", "second_line"]
        | ["first_line", "first_center"]
        | ["first_center", "second_center"] => Ok(()),
        [] => {
            let says =
                "Say what the radius blends: an angle at a corner, two lines, a line and a circle, or two circles.";
            let ways = [("corner_angle", "90 deg"), ("first_line", "1 in,0 in;5 in,0 in")];
            Err(rule_broken(Code::FieldMissing, says, &ways))
        }
        ["first_line"] => {
            let says = "Give what the radius blends with the line: a second line or a circle.";
            let ways = [("second_line", "0 in,1 in;0 in,4 in"), ("first_center", "0 in,1 in")];
            Err(rule_broken(Code::FieldMissing, says, &ways))
        }
        ["first_center"] => {
            let says = "Give what the radius blends with the circle: a line or a second circle.";
            let ways = [("first_line", "-5 in,0 in;5 in,0 in"), ("second_center", "5 in,0 in")];
            Err(rule_broken(Code::FieldMissing, says, &ways))
        }
        ["second_center"] => {
            let says = "A second circle goes with a first one.";
            Err(rule_broken(Code::FieldMissing, says, &[("first_center", "0 in,0 in")]))
        }
        _ => {
            let says = "Give one pair to blend: an angle at a corner, two lines, a line and a circle, or two circles.";
            Err(rule_broken(Code::Conflict, says, &to_leave_out(&all)))
        }
    }
}

/// A radius that touches nothing: the refusal with the nearest of `bounds`, in meters, at which arcs begin or end.
pub fn no_arc(radius: Size, bounds: &[f64], fits: impl Fn(f64) -> bool) -> Refusal {
    let unit = radius.quantity().unit;
    let tried = bounds
        .iter()
        .filter(|bound| **bound > TINY)
        .flat_map(|bound| [(*bound, Way::Up, 1.0 + 1e-9), (*bound, Way::Down, 1.0 - 1e-9)]);
    let good = tried.filter(|(bound, _, by)| fits(bound * by) && fits(bound * (1.0 + 2e4 * (by - 1.0))));
    let nearest = good.min_by(|a, b| (a.0 - radius.si()).abs().total_cmp(&(b.0 - radius.si()).abs()));
    let Some((bound, way, _)) = nearest else {
        return Refusal::no_answer(
            "No arc of any radius touches both.",
            &[("radius", value(radius.si(), unit, Way::Near))],
        );
    };
    let shown = value(bound, unit, way);
    let which = if bound > radius.si() { "smallest" } else { "largest" };
    let says = format!("No arc of this radius touches both. The {which} that does is about {shown}.");
    Refusal::no_answer(&says, &[("radius", shown)])
}
