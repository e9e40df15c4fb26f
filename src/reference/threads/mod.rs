//! Screw threads: reading designations, the standard series, basic dimensions and limits of
//! size, after ASME B1.1 (Unified inch) and ISO 68-1, 261, 724 and 965-1 (metric M).

mod classes;
mod designation;
mod error;
mod foreign;
mod limits;
mod metric;
mod metric_designation;
mod metric_tolerances;
mod profile;
mod rounding;
mod series;
mod size;
mod unified;
mod unified_designation;
mod unified_name;

pub use classes::{
    Classes, METRIC_CLASSES, MetricClass, UNIFIED_EXTERNAL_CLASSES, UNIFIED_INTERNAL_CLASSES, UnifiedClass,
    default_classes,
};
pub use designation::read;
pub use error::{DesignationError, ErrorKind};
pub use limits::{ExternalLimits, InternalLimits, Tolerances, external_limits, internal_limits};
pub use metric::MetricTolerances;
pub use profile::{
    Basics, FULL_THREAD, METRIC_STRESS, TO_MINOR_DIAMETER, TO_PITCH_DIAMETER, TO_ROUNDED_ROOT, TRIANGLE_HEIGHT,
    UNIFIED_STRESS, basics,
};
pub use series::{MetricRow, UnifiedRow, metric_rows, unified_rows};
pub use unified::{UnifiedTolerances, table_engagement};

/// The system a thread belongs to, which also fixes its unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum System {
    /// Unified inch threads; every length is in inches.
    Unified,
    /// Metric M threads; every length is in millimetres.
    Metric,
}

/// Where a value was taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Provenance {
    /// Key of the source in data/sources.toml.
    pub source: &'static str,
    /// `standard`, `handbook`, `common practice` or `from memory`.
    pub trust: &'static str,
}

/// A thread as its designation was understood.
#[derive(Debug, Clone, PartialEq)]
pub struct Thread {
    /// Unified or metric.
    pub system: System,
    /// Basic major diameter, in the unit of the system.
    pub diameter: f64,
    /// Distance from one thread to the next; exactly 1/tpi for Unified threads.
    pub pitch: f64,
    /// Threads in one inch; Unified only.
    pub threads_per_inch: Option<f64>,
    /// `UNC`, `UNF`, `UNEF`, `8-UN`, `UNS`; `coarse` or `fine`; absent for a metric size in no list.
    pub series: Option<String>,
    /// The size alone: `#10`, `1 1/4`, `M8`.
    pub size: String,
    /// The designation as this project writes it, without class: `1/4-20 UNC`, `M8x1`.
    pub designation: String,
    /// True where UNR was written: the root of the external thread is rounded. The limits are
    /// those of UN.
    pub rounded_root: bool,
    /// External class named in the designation, such as `2A` or `6g`.
    pub external_class: Option<String>,
    /// Internal class named in the designation, such as `2B` or `6H`.
    pub internal_class: Option<String>,
    /// True for a left-hand thread.
    pub left_hand: bool,
    /// Number of starts, 1 unless said.
    pub starts: u32,
    /// True for a combination in the list of its standard; false where it is only computed.
    pub standard: bool,
    /// For a combination in no list: the nearest listed ones. Else empty.
    pub nearest: Vec<String>,
    /// Where the list row was taken from; absent for a combination in no list.
    pub provenance: Option<Provenance>,
}

impl Thread {
    /// Advance in one turn: pitch times starts.
    pub fn lead(&self) -> f64 {
        self.pitch * f64::from(self.starts)
    }
}
