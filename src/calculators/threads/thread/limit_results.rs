//! The limits of size as the answer has them: of the screw, of the hole, of both.

use crate::calculators::prelude::*;
use crate::reference::threads::{ExternalLimits, InternalLimits};

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

impl ExternalThreadLimits {
    /// The limits of the standard in its unit.
    pub fn of(limits: ExternalLimits, unit: Unit) -> Self {
        let upper = |value: f64| FoundUpperLimit::stated(value, unit);
        let lower = |value: f64| FoundLowerLimit::stated(value, unit);
        Self {
            class: limits.class,
            allowance: FoundExtent::stated(limits.allowance, unit),
            major_max: upper(limits.major_max),
            major_min: lower(limits.major_min),
            major_min_unfinished: limits.major_min_unfinished.map(lower),
            pitch_max: upper(limits.pitch_max),
            pitch_min: lower(limits.pitch_min),
            minor_max: upper(limits.minor_max),
            minor_min: limits.minor_min.map(lower),
        }
    }
}

impl InternalThreadLimits {
    /// The limits of the standard in its unit.
    pub fn of(limits: InternalLimits, unit: Unit) -> Self {
        let upper = |value: f64| FoundUpperLimit::stated(value, unit);
        let lower = |value: f64| FoundLowerLimit::stated(value, unit);
        Self {
            class: Some(limits.class).filter(|class| !class.is_empty()),
            minor_min: lower(limits.minor_min),
            minor_max: upper(limits.minor_max),
            pitch_min: lower(limits.pitch_min),
            pitch_max: upper(limits.pitch_max),
            major_min: lower(limits.major_min),
            major_max: limits.major_max.map(upper),
        }
    }
}
