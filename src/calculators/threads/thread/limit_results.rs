//! The limits of size as the answer has them: of the screw, of the hole, of both.

use crate::calculators::prelude::*;
use crate::reference::threads::{ExternalLimits, InternalLimits};

/// Limits of size of both sides.
#[derive(Debug, Gives)]
pub struct ThreadLimits {
    /// Limits of the screw.
    #[label("Screw")]
    pub external: Option<ExternalThreadLimits>,
    /// Limits of the hole.
    #[label("Hole")]
    pub internal: Option<InternalThreadLimits>,
}

/// Limits of an external thread, as its standard prints them.
#[derive(Debug, Gives)]
pub struct ExternalThreadLimits {
    /// Class.
    pub class: String,
    /// How far the largest thread stays below the basic profile; on the flanks only for Acme and trapezoidal threads.
    pub allowance: FoundExtent,
    /// Greatest major diameter.
    #[label("Major diameter, greatest")]
    pub major_max: FoundUpperLimit,
    /// Least major diameter.
    #[label("Major diameter, least")]
    pub major_min: FoundLowerLimit,
    /// Least major diameter where the bar is left as hot-rolled; Unified 2A only.
    #[label("Major diameter, least, hot-rolled")]
    pub major_min_unfinished: Option<FoundLowerLimit>,
    /// Greatest pitch diameter.
    #[label("Pitch diameter, greatest")]
    pub pitch_max: FoundUpperLimit,
    /// Least pitch diameter.
    #[label("Pitch diameter, least")]
    pub pitch_min: FoundLowerLimit,
    /// Greatest minor diameter; only for reference for the UNR root of Unified and the flat root of metric threads.
    #[label("Minor diameter, greatest")]
    pub minor_max: FoundUpperLimit,
    /// Least minor diameter: of Acme and trapezoidal threads; of metric ones only for reference, with the least root
    /// radius.
    #[label("Minor diameter, least")]
    pub minor_min: Option<FoundLowerLimit>,
}

/// Limits of an internal thread, as its standard prints them.
#[derive(Debug, Gives)]
pub struct InternalThreadLimits {
    /// Class; absent for pipe threads G, which have only one.
    pub class: Option<String>,
    /// Least minor diameter.
    #[label("Minor diameter, least")]
    pub minor_min: FoundLowerLimit,
    /// Greatest minor diameter.
    #[label("Minor diameter, greatest")]
    pub minor_max: FoundUpperLimit,
    /// Least pitch diameter.
    #[label("Pitch diameter, least")]
    pub pitch_min: FoundLowerLimit,
    /// Greatest pitch diameter.
    #[label("Pitch diameter, greatest")]
    pub pitch_max: FoundUpperLimit,
    /// Least major diameter.
    #[label("Major diameter, least")]
    pub major_min: FoundLowerLimit,
    /// Greatest major diameter: of Acme threads; of metric ones only for reference, the root of the nut.
    #[label("Major diameter, greatest")]
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
