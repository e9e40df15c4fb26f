//! What each operation needs to be timed, and what it does not have.

use super::{CuttingTimeInput, TimedOperation};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// Most passes.
const MOST_PASSES: u32 = 10_000;

/// The rules between fields.
pub fn check(input: &CuttingTimeInput) -> Result<(), ValidationError> {
    if input.passes.is_some_and(|passes| !(1..=MOST_PASSES).contains(&passes)) {
        return Err(rule_broken(Code::ValueOutOfRange, "There are 1 to 10000 passes.", &[("passes", "1")]));
    }
    let fields = stated!(input: diameter = "12 mm", width = "40 mm", depth_of_cut = "2 mm", cut_offset, clear_out,
        point_angle, depth_to);
    let (needs, may): (&[&str], &[&str]) = match input.operation {
        TimedOperation::FaceMilling => (&["diameter", "width"], &["cut_offset", "clear_out"]),
        TimedOperation::SlabMilling => (&["diameter", "depth_of_cut"], &["clear_out"]),
        TimedOperation::Drilling => (&["diameter"], &["point_angle", "depth_to"]),
        TimedOperation::Turning => (&[], &[]),
    };
    let (needed, others): (Vec<Stated>, Vec<Stated>) =
        fields.into_iter().filter(|field| !may.contains(&field.0)).partition(|field| needs.contains(&field.0));
    let name = input.operation.as_str().replace('_', " ");
    let (missing, others) = (to_give(&needed), to_leave_out(&others));
    if !missing.is_empty() {
        return Err(rule_broken(Code::FieldMissing, format!("The time of {name} needs this."), &missing));
    }
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
