//! The limits of size as the answer has them: of the screw, of the hole, of both.

use crate::declared::Gives;
use crate::quantity::{FoundExtent, FoundLowerLimit, FoundUpperLimit};

/// Limits of size of both sides.
#[derive(Debug, Gives)]
pub struct ThreadLimits {
    /// Limits of the screw.
    pub external: Option<ExternalThreadLimits>,
    /// Limits of the hole.
    pub internal: Option<InternalThreadLimits>,
}

/// Limits of an external thread, as its standard prints them.
#[derive(Debug, Gives)]
pub struct ExternalThreadLimits {
    /// Class.
    pub class: String,
    /// How far the greatest thread stays below the basic profile; of Acme and trapezoidal threads on the flanks only.
    pub allowance: FoundExtent,
    /// Greatest major diameter.
    pub major_max: FoundUpperLimit,
    /// Least major diameter.
    pub major_min: FoundLowerLimit,
    /// Least major diameter where the bar is left as hot-rolled; Unified 2A only.
    pub major_min_unfinished: Option<FoundLowerLimit>,
    /// Greatest pitch diameter.
    pub pitch_max: FoundUpperLimit,
    /// Least pitch diameter.
    pub pitch_min: FoundLowerLimit,
    /// Greatest minor diameter; for reference where it is the UNR root of Unified or the flat root of metric threads.
    pub minor_max: FoundUpperLimit,
    /// Least minor diameter: for reference the root of the least radius for metric; Acme and trapezoidal.
    pub minor_min: Option<FoundLowerLimit>,
}

/// Limits of an internal thread, as its standard prints them.
#[derive(Debug, Gives)]
pub struct InternalThreadLimits {
    /// Class; absent for pipe threads G, which have one without a letter.
    pub class: Option<String>,
    /// Least minor diameter.
    pub minor_min: FoundLowerLimit,
    /// Greatest minor diameter.
    pub minor_max: FoundUpperLimit,
    /// Least pitch diameter.
    pub pitch_min: FoundLowerLimit,
    /// Greatest pitch diameter.
    pub pitch_max: FoundUpperLimit,
    /// Least major diameter.
    pub major_min: FoundLowerLimit,
    /// Greatest major diameter: for reference the root of the nut for metric; Acme.
    pub major_max: Option<FoundUpperLimit>,
}
