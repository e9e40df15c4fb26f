//! The way onto the path and off it, which keeps step with the thread: a half circle from the middle of a
//! hole, a straight line that touches the circle round a stud.

use super::ThreadMillingInput;
use super::path::{Helix, Sizes};
use crate::calculators::prelude::*;
use crate::threading::GivenThread;

/// The way in.
#[derive(Debug, Gives)]
pub struct WayIn {
    /// How far it moves along the axis on the way in, in the same direction; the way out takes as much again.
    pub entry_rise: FoundSize,
    /// Diameter of the half circle that leads from the middle of a hole onto the path; holes only.
    pub entry_arc_diameter: Option<FoundSize>,
    /// Length of the straight way that leads onto the path of a stud from clear of it; studs only.
    pub entry_length: Option<FoundSize>,
}

/// The way in, with its steps.
pub fn find(
    given: &GivenThread,
    input: &ThreadMillingInput,
    sizes: &Sizes,
    helix: &Helix,
    record: &mut Record,
) -> WayIn {
    let (lead, path) = (given.lead, sizes.path);
    if input.internal() {
        let arc: FoundSize = step!(record, "Half circle from the middle of the hole onto the path",
            A: entry_arc_diameter = Dp / 2.0, Dp = path_diameter: path);
        let entry_rise: FoundSize = step!(record, "Rise along the half circle", q: entry_rise = L / 4.0, L = lead);
        record.note(
            "entry_quarter",
            format!(
                "The half circle through the middle of the hole goes a quarter of the way round the thread's axis, {}: with a \
                 quarter of the lead, {}wards and evenly along it, the cutter comes onto the helix in step. Out it goes the same \
                 way, on by another quarter.",
                helix.path_turns.as_str(),
                helix.path_travels.as_str()
            ),
        );
        return WayIn { entry_rise, entry_arc_diameter: Some(arc), entry_length: None };
    }
    let length: FoundSize = step!(record, "Straight way from clear of the stud onto the path",
        s: entry_length = root(squared((Ds + Dc) / 2.0) - squared(Dp / 2.0)),
        Ds = start_diameter: sizes.start, Dc = cutter_diameter: input.cutter_diameter, Dp = path_diameter: path);
    let entry_rise: FoundSize = step!(record, "Rise along it, as steep as the helix",
        q: entry_rise = L * s / (π * Dp), L = lead, s = entry_length: length, Dp = path_diameter: path);
    notes!(record => entry_clear:
        "At the beginning of that way the cutter just touches the stud: begin further out along the same line, on the \
         same slope.");
    WayIn { entry_rise, entry_arc_diameter: None, entry_length: Some(length) }
}
