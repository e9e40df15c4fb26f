//! The diameter of the counterbore: that of the standard, or what goes in with room all round.

use super::head::{Sizes, said};
use super::{CounterboreInput, HeadKind, WasherKind};
use crate::calculators::prelude::*;
use crate::reference::screws::counterbore_row;
use crate::suggestion::{Way, value};

/// The diameter, and the standard that gives it.
pub fn width(
    input: &CounterboreInput,
    head: HeadKind,
    sizes: &Sizes,
    record: &mut Record,
) -> Result<(FoundSize, Option<&'static str>), Refusal> {
    let screw = &input.hole.screw;
    let kind = if head == HeadKind::Hexagon { "hexagon" } else { "socket" };
    let flat = input.washer == Some(WasherKind::Flat);
    let row = counterbore_row(kind, flat, screw).filter(|_| input.room.is_none() && sizes.is_standard);
    if let Some(row) = row {
        let place = format!("{}: counterbore, {} head", row.screw, said(head));
        record.source_of_row(&row.source, place, &row.trust);
        let diameter = FoundSize::stated(row.diameter, screw.unit);
        let standard: &'static str = &row.standard;
        tell!(record.look_up("Standard of the counterbore", "that of the screw and its head") => standard);
        tell!(record.look_up("Diameter of the counterbore", format!("{standard}, row {}", row.screw)) => diameter);
        tell_differences(row.depth, head, screw.unit, standard, record);
        return Ok((diameter, Some(standard)));
    }
    if head == HeadKind::Hexagon && input.wrench_diameter.is_none() && input.room.is_none() {
        let says = "No spotface is listed for this head. Give the outside diameter of the socket wrench.";
        let over_flats = sizes.flats.unwrap_or(1.5 * screw.diameter);
        let good = value(screw.unit.to_si(1.4 * over_flats), screw.unit, Way::Up);
        return Err(Refusal::no_answer(says, &[("wrench_diameter", good)]));
    }
    let usual = if screw.unit == Unit::Inch { 0.03125 } else { 0.8 };
    let says = "A common practice: 0.8 mm or 1/32 in all round.";
    if input.room.is_none() {
        record.source("common_practice", "a counterbore with 0.8 mm (1/32 in) all round the head");
    }
    let room = record.or_assume(input.room, "room", Extent::stated(usual, screw.unit), says);
    let diameter: FoundSize = step!(record, "Diameter of the counterbore",
        D: diameter = w + 2.0 * r, w = "widest": sizes.widest, r = room);
    Ok((diameter, None))
}

/// Says what standards and lists add or differ in.
fn tell_differences(depth: Option<f64>, head: HeadKind, unit: Unit, standard: &str, record: &mut Record) {
    if unit == Unit::Inch {
        notes!(record => counterbores_differ:
            "Lists differ: some companies' counterbores are 1/64 to 1/16 in tighter than this handbook list.");
    }
    match depth {
        Some(depth) if head == HeadKind::Socket => {
            let depth = FoundSize::stated(depth, unit).quantity().text();
            record.note(
                "standard_depth",
                format!("For tolerances {standard} makes the counterbore {depth} deep without a washer."),
            );
        }
        _ => {}
    }
}
