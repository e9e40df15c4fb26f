//! The lead angle of a thread, by its definition at the basic pitch diameter: one angle for one thread, whatever diameter
//! within its tolerance is cut or measured.

use crate::declared::step;
use crate::quantity::{FoundAngle, FoundSize};
use crate::working::Record;

/// The step that gives `lead_angle`, of the lead, a step named `lead`, and the basic pitch diameter, a step named `of`.
pub fn lead_angle(lead: FoundSize, (of, basic): (&'static str, FoundSize), record: &mut Record) -> FoundAngle {
    step!(record, "Lead angle at the basic pitch diameter", λ: lead_angle = atan(L / (π * E)),
        L = lead, E = (of): basic)
}
