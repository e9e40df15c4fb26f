//! What every calculator of threads begins with: the thread it is asked about, the class and limits of an
//! internal one, and the sources of limits, with their steps on record.

mod class_check;
mod given_thread;
pub mod internal_class;
mod lead_to_cut;
mod limit_sources;

pub use class_check::check_class;
pub use given_thread::{GivenThread, cite_list, given_thread};
pub use lead_to_cut::lead_to_cut;
pub use limit_sources::cite_limits;
