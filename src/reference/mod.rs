//! Typed rows of the published tables in data/, compiled in and read once; each row names its source.

pub mod cutting_speeds;
pub mod drill_diameter;
pub mod drilling;
pub mod drills;
pub mod feeds;
pub mod material_aliases;
pub mod material_name;
pub mod material_search;
pub mod materials;
pub mod power;
pub mod sawing;
pub mod screws;
pub mod threads;
pub mod versions;

use sha2::{Digest, Sha256};
use std::sync::LazyLock;

/// Reads a compiled-in table into rows; the tests read every table, so that a row cannot be wrong.
fn rows_of<R: serde::de::DeserializeOwned>(table: &'static str) -> impl Iterator<Item = R> {
    csv::Reader::from_reader(table.as_bytes())
        .into_deserialize()
        .map(|row| row.expect("the tables are compiled in and read by the tests"))
}

/// The key of a source as sources.toml holds it, so that text is kept once.
fn source_key(key: &str) -> &'static str {
    crate::sources::source(key).map_or("", |source| source.key)
}

/// Every table that is compiled in, by file name.
pub static TABLES: &[(&str, &str)] = &[
    ("acme_ranges.csv", include_str!("../../data/acme_ranges.csv")),
    ("acme_series.csv", include_str!("../../data/acme_series.csv")),
    ("clearance_holes.csv", include_str!("../../data/clearance_holes.csv")),
    ("counterbores.csv", include_str!("../../data/counterbores.csv")),
    ("cutting_forces.csv", include_str!("../../data/cutting_forces.csv")),
    ("cutting_speeds.csv", include_str!("../../data/cutting_speeds.csv")),
    ("deep_hole_reduction.csv", include_str!("../../data/deep_hole_reduction.csv")),
    ("drill_chisel_edges.csv", include_str!("../../data/drill_chisel_edges.csv")),
    ("drill_forces.csv", include_str!("../../data/drill_forces.csv")),
    ("drills_inch.csv", include_str!("../../data/drills_inch.csv")),
    ("drills_metric.csv", include_str!("../../data/drills_metric.csv")),
    ("feeds.csv", include_str!("../../data/feeds.csv")),
    ("material_aliases.csv", include_str!("../../data/material_aliases.csv")),
    ("materials.csv", include_str!("../../data/materials.csv")),
    ("metric_engagement.csv", include_str!("../../data/metric_engagement.csv")),
    ("metric_series.csv", include_str!("../../data/metric_series.csv")),
    ("metric_tolerances.csv", include_str!("../../data/metric_tolerances.csv")),
    ("pipe_npt.csv", include_str!("../../data/pipe_npt.csv")),
    ("pipe_parallel.csv", include_str!("../../data/pipe_parallel.csv")),
    ("pipe_taper.csv", include_str!("../../data/pipe_taper.csv")),
    ("power_feed_factors.csv", include_str!("../../data/power_feed_factors.csv")),
    ("power_wear_factors.csv", include_str!("../../data/power_wear_factors.csv")),
    ("preferred_numbers_r40.csv", include_str!("../../data/preferred_numbers_r40.csv")),
    ("reaming_stock.csv", include_str!("../../data/reaming_stock.csv")),
    ("saw_section_factors.csv", include_str!("../../data/saw_section_factors.csv")),
    ("screw_heads.csv", include_str!("../../data/screw_heads.csv")),
    ("sources.toml", include_str!("../../data/sources.toml")),
    ("tap_classes.csv", include_str!("../../data/tap_classes.csv")),
    ("tap_drills.csv", include_str!("../../data/tap_drills.csv")),
    ("tap_recommendations.csv", include_str!("../../data/tap_recommendations.csv")),
    ("tap_tolerances.csv", include_str!("../../data/tap_tolerances.csv")),
    ("trapezoidal_series.csv", include_str!("../../data/trapezoidal_series.csv")),
    ("trapezoidal_tolerances.csv", include_str!("../../data/trapezoidal_tolerances.csv")),
    ("unified_series.csv", include_str!("../../data/unified_series.csv")),
    ("washers.csv", include_str!("../../data/washers.csv")),
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
