//! What each operation needs to be timed, and what it does not have.

use super::{CuttingTimeInput, TimedOperation};
use crate::refusal::{Code, rule_broken};
use crate::suggestion::{Way, value};
use validator::ValidationError;

/// Most passes.
const MOST_PASSES: u32 = 10_000;

/// The rules between fields.
pub fn check(input: &CuttingTimeInput) -> Result<(), ValidationError> {
    if input.passes.is_some_and(|passes| !(1..=MOST_PASSES).contains(&passes)) {
        return Err(rule_broken(Code::ValueOutOfRange, "There are 1 to 10000 passes.", &[("passes", "1")]));
    }
    let given = [
        ("diameter", "12 mm", input.diameter.is_some()),
        ("width", "40 mm", input.width.is_some()),
        ("cut_offset", "leave out", input.cut_offset.is_some()),
        ("depth_of_cut", "2 mm", input.depth_of_cut.is_some()),
        ("clear_out", "leave out", input.clear_out.is_some()),
        ("point_angle", "leave out", input.point_angle.is_some()),
        ("depth_to", "leave out", input.depth_to.is_some()),
    ];
    let (needs, may): (&[&str], &[&str]) = match input.operation {
        TimedOperation::FaceMilling => (&["diameter", "width"], &["cut_offset", "clear_out"]),
        TimedOperation::SlabMilling => (&["diameter", "depth_of_cut"], &["clear_out"]),
        TimedOperation::Drilling => (&["diameter"], &["point_angle", "depth_to"]),
        TimedOperation::Turning => (&[], &[]),
    };
    let missing: Vec<(&'static str, &str)> = given
        .iter()
        .filter(|(field, _, is)| !is && needs.contains(field))
        .map(|(field, value, _)| (*field, *value))
        .collect();
    let name = input.operation.as_str().replace('_', " ");
    if !missing.is_empty() {
        return Err(rule_broken(Code::FieldMissing, format!("The time of {name} needs this."), &missing));
    }
    let others: Vec<(&'static str, &str)> = given
        .iter()
        .filter(|(field, _, is)| *is && !needs.contains(field) && !may.contains(field))
        .map(|(field, _, _)| (*field, "leave out"))
        .collect();
    if !others.is_empty() {
        return Err(rule_broken(Code::Conflict, format!("The time of {name} does not depend on this."), &others));
    }
    sizes(input)
}

fn sizes(input: &CuttingTimeInput) -> Result<(), ValidationError> {
    let Some(cutter) = input.diameter.map(|diameter| diameter.quantity()) else { return Ok(()) };
    if let Some(width) = input.width.map(|width| width.quantity()) {
        let off = input.cut_offset.map_or(0.0, |offset| offset.quantity().si().abs());
        let reach = 2.0 * off + width.si();
        if reach > cutter.si() * (1.0 + 1e-12) {
            let larger = value(reach, cutter.unit, Way::Up);
            let says = "The cutter does not reach over the whole width of the work.";
            return Err(rule_broken(Code::Conflict, says, &[("diameter", &larger)]));
        }
    }
    if let Some(depth) = input.depth_of_cut.map(|depth| depth.quantity())
        && depth.si() > cutter.si() / 2.0 * (1.0 + 1e-12)
    {
        let less = value(cutter.si() / 10.0, depth.unit, Way::Down);
        let says = "A slab mill cuts no deeper than its radius.";
        return Err(rule_broken(Code::Conflict, says, &[("depth_of_cut", &less)]));
    }
    Ok(())
}
