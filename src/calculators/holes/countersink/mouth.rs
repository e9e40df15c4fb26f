//! How large the countersink is at the face: as wanted, for a head, for a thread, or for how far the quill went.

use super::cone::{Cone, Tip};
use super::{CountersinkInput, FlatHead, ZeroedOn};
use crate::calculators::prelude::*;
use crate::fastening::not_listed;
use crate::reference::screws::{HeadRow, head_row};
use crate::suggestion::{Way, value};

/// How much larger than the thread the chamfer before tapping is.
const CHAMFER: Constant = Constant {
    of: "constant:chamfer_factor",
    value: 1.05,
    source: "din_76_memory",
    place: "the countersink of a tapped hole is from 1 to 1.05 times the thread's diameter",
};

/// The head of the screw, if one is asked about.
pub fn head_row_of(input: &CountersinkInput, record: &mut Record) -> Result<Option<&'static HeadRow>, Refusal> {
    let Some(screw) = &input.screw else { return Ok(None) };
    let (kind, said) = kind_of(input.head(record));
    let row = head_row(kind, screw).map_err(|nearest| not_listed(said, screw, &nearest))?;
    record.source_of_row(&row.source, format!("{}: {said}, {}", row.screw, row.standard), &row.trust);
    if kind == "flat_socket" && screw.unit == Unit::Millimetre {
        notes!(record => older_heads:
            "Flat heads by the older DIN 7991 are smaller and lie deeper in this countersink: choose that kind for them.");
    }
    Ok(Some(row))
}

/// A kind of head as the table and as a person names it.
fn kind_of(head: FlatHead) -> (&'static str, &'static str) {
    match head {
        FlatHead::Socket => ("flat_socket", "socket flat head"),
        FlatHead::Machine => ("flat", "flat machine screw head"),
        FlatHead::Machine100 => ("flat_100", "flat head of 100°"),
        FlatHead::Din7991 => ("flat_din_7991", "head of DIN 7991"),
    }
}

/// The angle of the tool: as given, else that of the head, else 90 degrees.
pub fn angle_of(input: &CountersinkInput) -> PointAngle {
    let (kind, _) = kind_of(input.head.unwrap_or(FlatHead::Socket));
    let of_head = || head_row(kind, input.screw.as_ref()?).ok()?.angle;
    input.point_angle.unwrap_or_else(|| PointAngle::stated(of_head().unwrap_or(90.0), Unit::Degree))
}

/// The diameter at the face.
pub fn mouth(
    input: &CountersinkInput,
    cone: &Cone,
    row: Option<&'static HeadRow>,
    record: &mut Record,
) -> Result<FoundSize, Refusal> {
    let point_angle = cone.angle;
    let mouth_diameter: FoundSize = if let (Some(screw), Some(row)) = (&input.screw, row) {
        let sharp_diameter = FoundSize::stated(row.diameter, screw.unit);
        tell!(record.look_up("Diameter at which the head would end sharp", format!("{}, row {}", row.standard, row.screw)) => sharp_diameter);
        let below = input.below(record);
        step!(record, "Countersink for the head", C: mouth_diameter = D + 2.0 * q * tan(σ / 2.0),
            D = sharp_diameter, q = below, σ = point_angle)
    } else if let Some(thread) = &input.thread {
        let size = thread.found(thread.thread.diameter);
        tell!(record.look_up("Diameter of the thread", "as the designation says it"), T = thread: thread.text() => size);
        notes!(record => chamfer_range:
            "The chamfer may be from the thread's diameter to 1.05 times it. The larger lets the tap start without a burr.");
        step!(record, "Chamfer for the thread", C: mouth_diameter = f * D, f = const &CHAMFER, D = size)
    } else if let Some(quill_travel) = input.quill_travel {
        went(input, cone, quill_travel, record)
    } else {
        let diameter = input.diameter.unwrap_or(Size::stated(1.0, Unit::Millimetre));
        step!(record, "Countersink as wanted", C: mouth_diameter = D, D = diameter)
    };
    if let Some(hole) = cone.hole.filter(|hole| hole.get().si() >= mouth_diameter.get().si()) {
        let says = format!(
            "The countersink is {} across, no larger than the hole: the tool would cut nothing.",
            mouth_diameter.quantity().text()
        );
        let good = value(mouth_diameter.get().si() * 0.6, hole.quantity().unit, Way::Down);
        return Err(Refusal::no_answer(&says, &[("hole_diameter", good)]));
    }
    Ok(mouth_diameter)
}

/// The diameter for how far the quill went.
fn went(input: &CountersinkInput, cone: &Cone, quill_travel: Extent, record: &mut Record) -> FoundSize {
    let point_angle = cone.angle;
    if let (ZeroedOn::Edge, Some(hole)) = (cone.touched, input.hole_diameter) {
        let hole_diameter = hole.size;
        return step!(record, "Countersink from the hole's edge", C: mouth_diameter = H + 2.0 * z * tan(σ / 2.0),
            H = hole_diameter, z = quill_travel, σ = point_angle);
    }
    match cone.tip {
        Tip::Flat(tip_flat) => {
            step!(record, "Countersink from the face", C: mouth_diameter = w + 2.0 * z * tan(σ / 2.0),
            w = tip_flat, z = quill_travel, σ = point_angle)
        }
        Tip::Round(tip_radius) => {
            let half = (point_angle.degrees() / 2.0).to_radians();
            if quill_travel.get().si() >= tip_radius.get().si() * (1.0 - half.sin()) {
                return step!(record, "Countersink of the round tip from the face",
                    C: mouth_diameter = 2.0 * tan(σ / 2.0) * (z + ρ * (1.0 / sin(σ / 2.0) - 1.0)),
                    σ = point_angle, z = quill_travel, ρ = tip_radius);
            }
            step!(record, "Mark of the round tip alone",
                C: mouth_diameter = 2.0 * root(2.0 * ρ * z - squared(z)), ρ = tip_radius, z = quill_travel)
        }
    }
}

/// How far the smallest head of the standard lies below the face.
pub fn smallest_head(
    input: &CountersinkInput,
    cone: &Cone,
    mouth_diameter: FoundSize,
    row: Option<&'static HeadRow>,
    record: &mut Record,
) -> Option<FoundExtent> {
    let screw = input.screw.as_ref()?;
    let row = row?;
    let least_head = FoundSize::stated(row.least_diameter?, screw.unit);
    let point_angle = cone.angle;
    tell!(record.look_up("Least diameter of the head", format!("{}, row {}", row.standard, row.screw)) => least_head);
    Some(step!(record, "How far the smallest head lies below the face",
        q: head_below_most = (C - h) / (2.0 * tan(σ / 2.0)), C = mouth_diameter, h = least_head, σ = point_angle))
}
