//! The stripped hole: what a request must say of it, and the diameter up to which the old thread has to go.

use super::RescueInput;
use crate::calculators::prelude::*;
use crate::reference::threads::{ThreadFamily, ThreadSystem, acme_clearance, crest_clearance};

// The hole is known by its thread or its diameter.
rules! { pub check_hole(RescueInput) {
    one_of(thread = "1/4-20 UNC", hole_diameter = "0.255 in"):
        "Give the thread that was in the hole, or the hole's widest diameter.";
    never(|input| input.thread.as_ref().is_some_and(|old| !old.thread.has_internal()), Code::Conflict,
        thread = "Rc 1/2"): "R is an external thread: no hole has it.";
    never(|input| input.is_taper() && input.hole_diameter.is_none(), Code::Conflict, hole_diameter = "21 mm"):
        "A taper hole has no single diameter. Give the widest diameter of the hole as well.";
} }

// Power nuts are not tapped larger.
const POWER: [ThreadFamily; 2] = [ThreadFamily::Acme, ThreadFamily::Trapezoidal];
rules! { pub check_families(RescueInput) {
    never(|input| input.families.iter().flatten().any(|family| POWER.contains(family)), Code::NotOffered,
        families = "unified,metric"):
        "Do not tap a worn power nut larger: its screw would no longer fit. Bore it and press in a bush.";
} }

// A wall needs an edge.
rules! { pub check_wall(RescueInput) {
    needs(least_wall => edge_distance = "0.5 in", least_wall = "leave out"):
        "The least wall needs the distance to the edge. Give both, or leave the wall out.";
} }

impl RescueInput {
    fn is_taper(&self) -> bool {
        self.thread.as_ref().is_some_and(|old| old.thread.is_taper())
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
        tell!(record.look_up("Major diameter of the old thread",
            "from the designation; for a power nut with its clearance"),
            T = thread: old.text() => old_major_diameter: size);
        size
    });
    // A taper thread's size is not that of its hole.
    let old = old.filter(|_| !input.is_taper());
    let (what, field) = ("Diameter to clean up", "clean_diameter");
    match (old, input.hole_diameter) {
        (Some(old), Some(hole)) => {
            let larger = if hole.get().si() > old.get().si() { hole.found() } else { old };
            tell!(record.choose(what, "the larger of the two"), D = old_major_diameter: old, h = hole_diameter: hole
                => (field): larger);
            larger
        }
        (Some(old), None) => {
            notes!(record => as_nominal:
                "The old thread is assumed to reach its nominal diameter. Taps cut a little larger and a torn hole is \
                 larger still: measure it.");
            record.step(what, "c = D").with("D", "old_major_diameter", old).gives(field, old);
            old
        }
        (None, hole) => {
            let hole = hole.unwrap_or(Size::stated(1.0, Unit::Millimetre));
            record.step(what, "c = h").with("h", "hole_diameter", hole).gives(field, hole.found());
            hole.found()
        }
    }
}

/// Whether what has to go is the hole as it was measured, and not the old thread.
pub fn is_measured(input: &RescueInput, clean: FoundSize) -> bool {
    input.hole_diameter.is_some_and(|hole| hole.get().si() >= clean.get().si() - 1e-12)
}
