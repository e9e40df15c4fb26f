//! What the size of a cutter, or the point of a drill, adds to the way of a pass.

use super::{ClearOut, CuttingTimeInput, DepthTo, TimedOperation};
use crate::quantity::{Difference, FoundExtent, PointAngle, SiValue, Size, Unit, angle};
use crate::working::Record;

/// The step that gives `tool_approach`.
pub fn find(input: &CuttingTimeInput, record: &mut Record) -> FoundExtent {
    match (input.operation, input.diameter, input.width, input.depth_of_cut) {
        (TimedOperation::FaceMilling, Some(diameter), Some(width), _) => face(input, diameter, width, record),
        (TimedOperation::SlabMilling, Some(diameter), _, Some(depth)) => slab(input, diameter, depth, record),
        (TimedOperation::Drilling, Some(diameter), _, _) => point(input, diameter, record),
        _ => nothing("A turning tool begins and ends with the work", record),
    }
}

fn nothing(what: &'static str, record: &mut Record) -> FoundExtent {
    let none = FoundExtent::of(SiValue::from_si(0.0));
    record.look_up(what, "nothing is added").gives("tool_approach", none);
    none
}

fn clear_out(input: &CuttingTimeInput, record: &mut Record) -> ClearOut {
    record.or_assume(
        input.clear_out,
        "clear_out",
        ClearOut::FullWidth,
        "The pass ends when the full width is cut, as in roughing; to finish a face the cutter goes clear.",
    )
}

fn face(input: &CuttingTimeInput, diameter: Size, width: Size, record: &mut Record) -> FoundExtent {
    let offset = record.or_assume(
        input.cut_offset,
        "cut_offset",
        Difference::stated(0.0, diameter.quantity().unit),
        "The cutter is taken to go over the middle of the work.",
    );
    let radius = diameter.get().si() / 2.0;
    let (off, half) = (offset.get().si().abs(), width.get().si() / 2.0);
    // Where the axis goes over the work, the rim meets it straight ahead.
    let near = FoundExtent::of(SiValue::from_si((off - half).max(0.0)));
    let far = FoundExtent::of(SiValue::from_si((off + half).min(radius)));
    record
        .step("Nearest side of the work to the axis' path", "u = max(abs(c) - w / 2, 0)")
        .with("c", "cut_offset", offset)
        .with("w", "width", width)
        .gives("near_side", near);
    let ahead = (radius * radius - near.get().si().powi(2)).max(0.0).sqrt();
    if clear_out(input, record) == ClearOut::Clear {
        let found = FoundExtent::of(SiValue::from_si(2.0 * ahead));
        record
            .step("What the cutter adds until it is clear", "A = √(D ^ 2 - 4 × u ^ 2)")
            .with("D", "diameter", diameter)
            .with("u", "near_side", near)
            .gives("tool_approach", found);
        return found;
    }
    record
        .step("Farthest side of the work from the axis' path", "v = min(abs(c) + w / 2, D / 2)")
        .with("c", "cut_offset", offset)
        .with("w", "width", width)
        .with("D", "diameter", diameter)
        .gives("far_side", far);
    let behind = (radius * radius - far.get().si().powi(2)).max(0.0).sqrt();
    let found = FoundExtent::of(SiValue::from_si(ahead - behind));
    record
        .step(
            "What the cutter adds until the full width is cut",
            "A = (√(D ^ 2 - 4 × u ^ 2) - √(max(D ^ 2 - 4 × v ^ 2, 0))) / 2",
        )
        .with("D", "diameter", diameter)
        .with("u", "near_side", near)
        .with("v", "far_side", far)
        .gives("tool_approach", found);
    found
}

fn slab(input: &CuttingTimeInput, diameter: Size, depth: Size, record: &mut Record) -> FoundExtent {
    let (across, deep) = (diameter.get().si(), depth.get().si());
    let once = (deep * (across - deep)).max(0.0).sqrt();
    let (times, what, formula) = match clear_out(input, record) {
        ClearOut::FullWidth => (1.0, "What the cutter adds until the full depth is cut", "A = √(d × (D - d))"),
        ClearOut::Clear => (2.0, "What the cutter adds until it is clear", "A = 2 × √(d × (D - d))"),
    };
    let found = FoundExtent::of(SiValue::from_si(times * once));
    record
        .step(what, formula)
        .with("d", "depth_of_cut", depth)
        .with("D", "diameter", diameter)
        .gives("tool_approach", found);
    found
}

fn point(input: &CuttingTimeInput, diameter: Size, record: &mut Record) -> FoundExtent {
    let depth_to = record.or_assume(
        input.depth_to,
        "depth_to",
        DepthTo::FullDiameter,
        "The depth is taken as that of the full diameter: the point goes farther.",
    );
    if depth_to == DepthTo::Point {
        if input.point_angle.is_some() {
            record.note("point_angle_without_effect", "point_angle matters only for a depth at full diameter.");
        }
        return nothing("The depth is that of the point", record);
    }
    let angle_of_point = record.or_assume(
        input.point_angle,
        "point_angle",
        PointAngle::stated(118.0, Unit::Degree),
        "118° is the general-purpose point; look at the drill.",
    );
    let (sin, cos) = angle::sin_cos(angle_of_point.degrees() / 2.0);
    let found = FoundExtent::of(SiValue::from_si(diameter.get().si() / 2.0 * cos / sin));
    record
        .step("Length of the drill's point", "A = D / (2 × tan(σ / 2))")
        .with("D", "diameter", diameter)
        .with("σ", "point_angle", angle_of_point)
        .gives("tool_approach", found);
    found
}
