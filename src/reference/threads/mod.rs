//! Screw threads: reading designations, the standard series, basic dimensions and limits of
//! size, after ASME B1.1 (Unified inch) and ISO 68-1, 261, 724 and 965-1 (metric M); of pipe threads
//! after ASME B1.20.1, ISO 228-1 and ISO 7-1, of Whitworth threads after BS 84, and of power threads
//! after ASME B1.5 and ISO 2901 to 2904.

mod acme;
mod class_of_side;
mod classes;
mod counting_limits;
mod designation;
mod engagement;
mod error;
mod limit_values;
mod limits;
mod listed_threads;
mod metric;
mod metric_tolerances;
mod named_class;
mod named_thread;
mod npt;
mod other_series;
mod pipe;
mod profile;
mod rounding;
mod series;
mod size;
mod tap_drills;
mod taps;
mod thread;
mod trapezoidal;
mod unified;

pub use acme::clearance as acme_clearance;
pub use class_of_side::read_for;
pub use classes::{
    Classes, METRIC_CLASSES, MetricClass, UNIFIED_EXTERNAL_CLASSES, UNIFIED_INTERNAL_CLASSES, UnifiedClass,
    default_classes,
};
pub use designation::read;
pub use engagement::{EngagementGroup, NormalEngagement, classes_for_engagement, normal_engagement};
pub use error::{DesignationError, ErrorKind};
pub use limit_values::{
    AcmeTolerances, ExternalLimits, InternalLimits, MetricTolerances, PipeTolerances, Tolerances,
    TrapezoidalTolerances, UnifiedTolerances,
};
pub use limits::{external_limits, internal_limits};
pub use listed_threads::{Listed, ThreadFamily, listed, unit_of};
pub use named_class::{Chosen, Clash, ClassOf, ExternalClass, InternalClass, Lacking};
pub use named_thread::Designation;
pub use npt::{Npt, npt};
pub use other_series::{AcmeRow, NptRow, ParallelRow, TaperRow, TrapezoidalRow, WhitworthRow};
pub use other_series::{acme_rows, npt_rows, parallel_rows, taper_row, trapezoidal_rows, whitworth_rows};
pub use profile::{
    Basics, FULL_THREAD, METRIC_STRESS, TO_MINOR_DIAMETER, TO_PITCH_DIAMETER, TO_ROUNDED_ROOT, TRIANGLE_HEIGHT,
    UNIFIED_STRESS, WHITWORTH_HEIGHT, basics,
};
pub use series::{MetricRow, UnifiedRow, metric_rows, unified_rows};
pub use size::{decimal, inch_text, number_size, plain_inches};
pub use tap_drills::{TapDrillRow, published_tap_drill};
pub use taps::{
    TAP_PATTERN, TapClassRow, TapMarking, TapName, TapRecommendationRow, TapToleranceRow, grade_5, recommended_tap,
    tap_class_zone, tap_classes, tap_tolerance,
};
pub use thread::{Provenance, Thread, ThreadSystem};
pub use trapezoidal::crest_clearance;
pub use unified::table_engagement;
