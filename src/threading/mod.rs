//! What every calculator of threads begins with: the thread it is asked about, the class and limits of an
//! internal one, and the sources of limits, with their steps on record.

mod given_thread;
pub mod internal_class;
mod limit_sources;

pub use given_thread::{GivenThread, given_thread};
pub use limit_sources::cite_limits;
