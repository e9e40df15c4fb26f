//! The spoiled hole: what a request must say of it, and the diameter up to which the old thread has to go.

use super::RescueInput;
use crate::quantity::{FoundSize, SiValue, Size, Unit};
use crate::reference::threads::{ThreadFamily, ThreadSystem, acme_clearance, crest_clearance};
use crate::refusal::{Code, rule_broken};
use crate::working::Record;
use validator::ValidationError;

/// The hole is known by its thread or its diameter.
pub fn check_hole(input: &RescueInput) -> Result<(), ValidationError> {
    match (&input.thread, &input.hole_diameter) {
        (None, None) => Err(rule_broken(
            Code::FieldMissing,
            "Name the thread that was in the hole, or state the hole's largest diameter.",
            &[("thread", "1/4-20 UNC"), ("hole_diameter", "0.255 in")],
        )),
        (Some(old), _) if !old.thread.has_internal() => {
            let says = "R is an external thread only: no hole has it.";
            Err(rule_broken(Code::Conflict, says, &[("thread", "Rc 1/2")]))
        }
        (Some(old), _) if old.thread.is_taper() && input.hole_diameter.is_none() => {
            let says = "A taper thread has no one diameter: measure the largest in the spoiled hole as well.";
            Err(rule_broken(Code::Conflict, says, &[("hole_diameter", "21 mm")]))
        }
        _ => Ok(()),
    }
}

/// Power nuts are not tapped larger.
pub fn check_families(input: &RescueInput) -> Result<(), ValidationError> {
    let power = |family: &ThreadFamily| matches!(family, ThreadFamily::Acme | ThreadFamily::Trapezoidal);
    if input.families.iter().flatten().any(power) {
        let says = "A worn power nut is not tapped larger: its screw fits no other. Bore it and press in a bush.";
        return Err(rule_broken(Code::NotOffered, says, &[("families", "unified,metric")]));
    }
    Ok(())
}

/// A wall needs an edge.
pub fn check_wall(input: &RescueInput) -> Result<(), ValidationError> {
    match (input.edge_distance, input.least_wall) {
        (None, Some(_)) => Err(rule_broken(
            Code::Conflict,
            "least_wall is what has to stay up to an edge: it needs edge_distance.",
            &[("least_wall", "leave out"), ("edge_distance", "0.5 in")],
        )),
        _ => Ok(()),
    }
}

/// What has to go: the old thread up to its major diameter, and the hole as it was measured.
pub fn clean_diameter(input: &RescueInput, record: &mut Record) -> FoundSize {
    let old = input.thread.as_ref().map(|old| {
        // A power nut is cut as much deeper as its screw has clearance.
        let deeper = match old.thread.system {
            ThreadSystem::Acme => acme_clearance(old.thread.pitch),
            ThreadSystem::Trapezoidal => 2.0 * crest_clearance(old.thread.pitch),
            _ => 0.0,
        };
        let size = old.found(old.thread.diameter + deeper);
        record
            .look_up(
                "Major diameter of the old thread",
                "as the designation says it; of a power nut with its clearance",
            )
            .with("T", "thread", old.text())
            .gives("old_major_diameter", size);
        size
    });
    // A taper thread's size is not that of its hole.
    let old = old.filter(|_| !input.thread.as_ref().is_some_and(|old| old.thread.is_taper()));
    let field = "clean_diameter";
    match (old, input.hole_diameter) {
        (Some(old), Some(hole)) => {
            let larger = if hole.get().si() > old.get().si() { hole.found() } else { old };
            record
                .choose("What the drill has to pass", "the larger of the two")
                .with("D", "old_major_diameter", old)
                .with("h", "hole_diameter", hole)
                .gives(field, larger);
            larger
        }
        (Some(old), None) => {
            record.note(
                "as_nominal",
                "The old thread is taken to reach to its nominal diameter; taps cut a little wider, and a torn hole is \
                 wider still: measure it.",
            );
            record.step("What the drill has to pass", "c = D").with("D", "old_major_diameter", old).gives(field, old);
            old
        }
        (None, hole) => {
            let hole = hole.unwrap_or(Size::stated(1.0, Unit::Millimetre));
            record
                .step("What the drill has to pass", "c = h")
                .with("h", "hole_diameter", hole)
                .gives(field, hole.found());
            hole.found()
        }
    }
}
