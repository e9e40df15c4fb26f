//! Typed rows of the published tables in data/, compiled in and read once; each row names its source.

pub mod drill_diameter;
pub mod drills;
pub mod thread_class;
pub mod thread_designation;
pub mod threads;

use sha2::{Digest, Sha256};
use std::sync::LazyLock;

/// Every table that is compiled in, by file name.
pub static TABLES: &[(&str, &str)] = &[
    ("acme_ranges.csv", include_str!("../../data/acme_ranges.csv")),
    ("acme_series.csv", include_str!("../../data/acme_series.csv")),
    ("drills_inch.csv", include_str!("../../data/drills_inch.csv")),
    ("drills_metric.csv", include_str!("../../data/drills_metric.csv")),
    ("metric_series.csv", include_str!("../../data/metric_series.csv")),
    ("metric_tolerances.csv", include_str!("../../data/metric_tolerances.csv")),
    ("pipe_npt.csv", include_str!("../../data/pipe_npt.csv")),
    ("pipe_parallel.csv", include_str!("../../data/pipe_parallel.csv")),
    ("pipe_taper.csv", include_str!("../../data/pipe_taper.csv")),
    ("preferred_numbers_r40.csv", include_str!("../../data/preferred_numbers_r40.csv")),
    ("sources.toml", include_str!("../../data/sources.toml")),
    ("tap_drills.csv", include_str!("../../data/tap_drills.csv")),
    ("trapezoidal_series.csv", include_str!("../../data/trapezoidal_series.csv")),
    ("trapezoidal_tolerances.csv", include_str!("../../data/trapezoidal_tolerances.csv")),
    ("unified_series.csv", include_str!("../../data/unified_series.csv")),
    ("whitworth_series.csv", include_str!("../../data/whitworth_series.csv")),
];

static DATA_VERSION: LazyLock<String> = LazyLock::new(|| {
    let mut hash = Sha256::new();
    for (name, table) in TABLES {
        hash.update(name.as_bytes());
        hash.update(table.as_bytes());
    }
    hash.finalize().iter().take(6).map(|byte| format!("{byte:02x}")).collect()
});

/// The beginning of a SHA-256 over the tables.
pub fn data_version() -> &'static str {
    &DATA_VERSION
}
