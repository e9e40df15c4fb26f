//! What the size of a cutter, or the point of a drill, adds to the way of a pass.

use super::{ClearOut, CuttingTimeInput, DepthTo, TimedOperation};
use crate::calculators::prelude::*;

/// The step that gives `tool_approach`.
pub fn find(input: &CuttingTimeInput, record: &mut Record) -> FoundExtent {
    match (input.operation, input.diameter, input.width, input.depth_of_cut) {
        (TimedOperation::FaceMilling, Some(diameter), Some(width), _) => face(input, diameter, width, record),
        (TimedOperation::SlabMilling, Some(diameter), _, Some(depth)) => slab(input, diameter, depth, record),
        (TimedOperation::Drilling, Some(diameter), _, _) => point(input, diameter, record),
        _ => nothing("A turning tool starts and ends with the work", record),
    }
}

fn nothing(what: &'static str, record: &mut Record) -> FoundExtent {
    let none = FoundExtent::stated(0.0, Unit::Metre);
    record.look_up(what, "nothing is added").gives("tool_approach", none);
    none
}

fn face(input: &CuttingTimeInput, diameter: Size, width: Size, record: &mut Record) -> FoundExtent {
    let cut_offset = input.cut_offset(record);
    // Where the axis goes over the work, the rim meets it straight ahead.
    let near: FoundExtent = step!(record, "From the path of the axis to the nearer side of the work",
        u: near_side = max(abs(c) - w / 2.0, si(0.0)), c = cut_offset, w = width);
    if input.clear_out(record) == ClearOut::Clear {
        return step!(record, "What the cutter adds until it is clear",
            A: tool_approach = root(not_negative(squared(D) - 4.0 * squared(u))), D = diameter, u = near_side: near);
    }
    let far: FoundExtent = step!(record, "From the path of the axis to the farther side of the work",
        v: far_side = min(abs(c) + w / 2.0, D / 2.0), c = cut_offset, w = width, D = diameter);
    step!(record, "What the cutter adds until the full width is cut",
        A: tool_approach = (root(not_negative(squared(D) - 4.0 * squared(u)))
            - root(max(squared(D) - 4.0 * squared(v), si(0.0)))) / 2.0,
        D = diameter, u = near_side: near, v = far_side: far)
}

fn slab(input: &CuttingTimeInput, diameter: Size, depth: Size, record: &mut Record) -> FoundExtent {
    match input.clear_out(record) {
        ClearOut::FullWidth => step!(record, "What the cutter adds until the full depth is cut",
            A: tool_approach = root(d * (D - d)), d = depth_of_cut: depth, D = diameter),
        ClearOut::Clear => step!(record, "What the cutter adds until it is clear",
            A: tool_approach = 2.0 * root(d * (D - d)), d = depth_of_cut: depth, D = diameter),
    }
}

fn point(input: &CuttingTimeInput, diameter: Size, record: &mut Record) -> FoundExtent {
    if input.depth_to(record) == DepthTo::Point {
        if input.point_angle.is_some() {
            record.note(
                "point_angle_without_effect",
                "The point angle changes nothing where the depth is that of the point.",
            );
        }
        return nothing("The depth is that of the point", record);
    }
    let point_angle = input.point_angle(record);
    step!(record, "Length of the drill's point", A: tool_approach = D / (2.0 * tan(σ / 2.0)),
        D = diameter, σ = point_angle)
}
