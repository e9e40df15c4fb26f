//! Limits of size in one form for all systems, and the tolerances of each system behind them.

use super::Provenance;
use super::classes::{MetricClass, UnifiedClass};
use super::other_series::ParallelRow;

/// Limits of an external thread, in its own unit; every value is the printed one.
#[derive(Debug, Clone, PartialEq)]
pub struct ExternalLimits {
    /// Class, such as `2A` or `6g`.
    pub class: String,
    /// How far the greatest thread stays below the basic profile.
    pub allowance: f64,
    /// Greatest major diameter.
    pub major_max: f64,
    /// Least major diameter.
    pub major_min: f64,
    /// Least major diameter of unfinished hot-rolled material; Unified 2A only.
    pub major_min_unfinished: Option<f64>,
    /// Greatest pitch diameter.
    pub pitch_max: f64,
    /// Least pitch diameter.
    pub pitch_min: f64,
    /// Greatest minor diameter, for Unified and metric a reference: UNR root, flat root.
    pub minor_max: f64,
    /// Least minor diameter: for metric a reference with a rounded root; Acme and trapezoidal.
    pub minor_min: Option<f64>,
    /// The tolerances behind the limits.
    pub tolerances: Tolerances,
}

/// Limits of an internal thread, in its own unit; every value is the printed one.
#[derive(Debug, Clone, PartialEq)]
pub struct InternalLimits {
    /// Class, such as `2B` or `6H`; empty for pipe threads G, which have one without a letter.
    pub class: String,
    /// Least minor diameter.
    pub minor_min: f64,
    /// Greatest minor diameter.
    pub minor_max: f64,
    /// Least pitch diameter.
    pub pitch_min: f64,
    /// Greatest pitch diameter.
    pub pitch_max: f64,
    /// Least major diameter.
    pub major_min: f64,
    /// Greatest major diameter; for metric a reference. Metric and Acme only.
    pub major_max: Option<f64>,
    /// The tolerances behind the limits.
    pub tolerances: Tolerances,
}

/// The tolerances behind limits, so that the working can be shown.
#[derive(Debug, Clone, PartialEq)]
pub enum Tolerances {
    /// After ASME B1.1, in inches.
    Unified(UnifiedTolerances),
    /// After ISO 965-1, in µm.
    Metric(MetricTolerances),
    /// After ISO 228-1, in millimeters.
    Pipe(PipeTolerances),
    /// After ASME B1.5, in inches.
    Acme(AcmeTolerances),
    /// After ISO 2903, in µm.
    Trapezoidal(TrapezoidalTolerances),
}

/// How Unified limits came about, for the working; inches.
#[derive(Debug, Clone, PartialEq)]
pub struct UnifiedTolerances {
    /// The class.
    pub class: UnifiedClass,
    /// Length of engagement in the formula.
    pub engagement: f64,
    /// True for the length that the printed tables are made for.
    pub engagement_of_tables: bool,
    /// False where the length is above 1.5 diameters, or outside 5 to 15 pitches for a series
    /// made for 9: the tables do not hold there, and neither may the formula.
    pub engagement_within_tables: bool,
    /// Diameter in the formula: above 2 in, for series made for 9 pitches, the next half inch.
    pub diameter_used: f64,
    /// 0.0015 times the cube root of the diameter, to six places.
    pub diameter_term: f64,
    /// 0.0015 times the square root of the length of engagement, to six places.
    pub engagement_term: f64,
    /// 0.015 times the pitch to the power 2/3, to six places.
    pub pitch_term: f64,
    /// Sum of the three terms: pitch diameter tolerance of class 2A before its last rounding.
    pub td2: f64,
    /// What the class multiplies it by.
    pub factor: f64,
    /// Pitch diameter tolerance.
    pub pitch_tolerance: f64,
    /// Crest tolerance: of the major diameter outside, of the minor diameter inside.
    pub crest_tolerance: f64,
    /// 0.3 times the tolerance of class 2A for 1A and 2A, else zero.
    pub allowance: f64,
}

/// How metric limits came about, for the working.
#[derive(Debug, Clone, PartialEq)]
pub struct MetricTolerances {
    /// The class.
    pub class: MetricClass,
    /// Distance of the zone from the basic profile, µm: below it outside, above it inside.
    pub deviation_um: i64,
    /// External pitch diameter tolerance of grade 6 from which the others step, µm.
    pub pitch_grade_6_um: i64,
    /// R40 steps from it.
    pub pitch_steps: i64,
    /// Pitch diameter tolerance, µm.
    pub pitch_um: i64,
    /// Crest diameter tolerance of grade 6, µm.
    pub crest_grade_6_um: i64,
    /// R40 steps from it.
    pub crest_steps: i64,
    /// Crest diameter tolerance (major outside, minor inside), µm.
    pub crest_um: i64,
    /// False where a cell is in no table and the standard's formula was used.
    pub tabulated: bool,
    /// Where the table cells are from.
    pub sources: Vec<Provenance>,
}

/// Tolerances of ISO 228-1, in millimeters.
#[derive(Debug, Clone, PartialEq)]
pub struct PipeTolerances {
    /// Of the pitch diameter.
    pub pitch: f64,
    /// Of the crest: major diameter outside, minor diameter inside.
    pub crest: f64,
    /// The row they stand in.
    pub row: &'static ParallelRow,
}

/// How Acme limits came about, for the working; inches.
#[derive(Debug, Clone, PartialEq)]
pub struct AcmeTolerances {
    /// Size in the allowance: the middle of the range that the tables give it for, else the size.
    pub allowance_size: f64,
    /// What the square root of that size is multiplied by.
    pub allowance_factor: f64,
    /// Pitch diameter allowance.
    pub allowance: f64,
    /// What the square root of the pitch is multiplied by in the pitch diameter tolerance.
    pub pitch_factor: f64,
    /// What the square root of the size is multiplied by in it.
    pub size_factor: f64,
    /// Pitch diameter tolerance before rounding.
    pub pitch_tolerance_exact: f64,
    /// Pitch diameter tolerance.
    pub pitch_tolerance: f64,
    /// Crest tolerance: of the major diameter outside, of the minor diameter inside.
    pub crest_tolerance: f64,
    /// Tolerance of the external minor diameter: one and a half of the pitch diameter tolerance.
    pub root_tolerance: f64,
    /// Clearance of crest and root, on the diameter.
    pub clearance: f64,
    /// Where the range is from; absent above the last one.
    pub range: Option<Provenance>,
}

/// How trapezoidal limits came about, for the working.
#[derive(Debug, Clone, PartialEq)]
pub struct TrapezoidalTolerances {
    /// Distance of the pitch diameter's zone below the basic profile, µm; zero inside.
    pub deviation_um: i64,
    /// External pitch diameter tolerance of grade 6 from which the others step, µm.
    pub pitch_grade_6_um: i64,
    /// R40 steps from it.
    pub pitch_steps: i64,
    /// Pitch diameter tolerance, µm.
    pub pitch_um: i64,
    /// Crest tolerance: of the major diameter outside, of the minor diameter inside, µm.
    pub crest_um: i64,
    /// Tolerance of the external minor diameter, µm.
    pub root_um: i64,
    /// Where the table cells are from.
    pub source: Provenance,
}
