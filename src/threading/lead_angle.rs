//! The lead angle of a thread, at its basic pitch diameter in full: one answer wherever it is asked for.

use crate::declared::step;
use crate::quantity::{FoundAngle, FoundSize};
use crate::working::Record;

/// The angle at which a thread of this lead climbs round its basic pitch diameter, which stands in the field `of`.
pub fn lead_angle(lead: FoundSize, (of, pitch_diameter): (&'static str, FoundSize), record: &mut Record) -> FoundAngle {
    step!(record, "Lead angle at the basic pitch diameter",
        λ: lead_angle = atan(L / (π * E)), L = lead, E = (of): pitch_diameter)
}
