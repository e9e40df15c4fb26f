//! The answer to a request: read and calculated once, for each case of a range, or backwards; in the
//! system of units asked for, with tolerances carried through and settings on the readout's resolution.

mod answer;
mod ask;
mod backwards;
mod calculation;
mod filled_by_machine;
mod goal;
mod link;
mod ranges;
mod resolution;
mod sources;
mod system;
mod take_reserved;
mod target;
mod tolerance;
mod way_out;

pub use answer::{Answer, Body, Correction, Root, Row};
pub use ask::{ask, drawing};
pub use calculation::on_record;
pub use filled_by_machine::{FilledByMachine, machine_named};
pub use link::{LONGEST_LINK, link};
pub use ranges::ranges_of;
pub use sources::Sources;
pub use take_reserved::take_reserved;
pub use target::targets;
pub use tolerance::is_toleranced;
