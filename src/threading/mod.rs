//! What every calculator of threads begins with: the thread it is asked about, the class and limits of one
//! side, a coat on it, what its drill cuts large, and the sources of threads and limits, with their steps on record.

mod blind_bottom;
mod coat;
mod drill_oversize;
mod given_thread;
mod lead_angle;
mod lead_to_cut;
mod side_limits;
mod sources;

pub use blind_bottom::{BelowTheHole, BlindBottom};
pub use coat::{COAT_MOVES, check_thickness, coat_changes};
pub use drill_oversize::{room_left, tell_usual_oversize, usual_oversize};
pub use given_thread::{GivenThread, INCH, given_thread};
pub use lead_angle::lead_angle;
pub use lead_to_cut::lead_to_cut;
pub use side_limits::{SideLimits, check_class, side_limits};
pub use sources::{cite_cells, cite_limits, cite_list, cite_row};
