//! An answer as a receipt: held against what would be answered today.

mod difference_cause;
mod given_by;
mod recheck;

pub use difference_cause::DifferenceCause;
pub use given_by::GivenBy;
pub use recheck::{Difference, Rechecked, Verdict, recheck};
