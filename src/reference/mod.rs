//! Typed rows of the published tables in data/, compiled in and read once; each row names its source.

pub mod center_drills;
pub mod cutting_speeds;
pub mod drill_diameter;
pub mod drilling;
pub mod drills;
pub mod feeds;
pub mod fits;
pub mod gauge_blocks;
pub mod gauge_classes;
pub mod gears;
pub mod general_tolerances;
pub mod hardness;
pub mod hole_class;
pub mod inch_fits;
pub mod index_plates;
pub mod insert_drills;
pub mod keys;
pub mod material_aliases;
pub mod material_name;
pub mod material_physical;
pub mod material_search;
pub mod materials;
pub mod power;
pub mod preferred_fits;
pub mod round_bars;
pub mod sawing;
pub mod screws;
pub mod stock_material;
pub mod surface_grades;
pub mod tap_chamfers;
pub mod tapers;
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

/// Makes a type that holds something with a name a field of words: it has `read`, and `name` as answers say it.
macro_rules! by_name {
    ($name:ident, $about:literal, $example:literal) => {
        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                Self::read(&<String as serde::Deserialize>::deserialize(deserializer)?).map_err(crate::refusal::carry)
            }
        }

        impl crate::tree::IntoTree for $name {
            fn tree(&self) -> Option<crate::tree::Node> {
                Some(crate::tree::Node::Text(self.name().into(), None))
            }
        }

        impl crate::declared::FieldType for $name {
            const TYPE: crate::declared::TypeFacts =
                crate::declared::TypeFacts::named::<Self>(crate::declared::Shape::Words);
        }

        impl utoipa::PartialSchema for $name {
            fn schema() -> utoipa::openapi::RefOr<utoipa::openapi::Schema> {
                utoipa::openapi::schema::ObjectBuilder::new()
                    .schema_type(utoipa::openapi::schema::Type::String)
                    .min_length(Some(1))
                    .description(Some($about))
                    .examples([serde_json::json!($example)])
                    .into()
            }
        }

        impl utoipa::ToSchema for $name {}
    };
}
use by_name;

/// Every table that is compiled in, by file name.
pub static TABLES: &[(&str, &str)] = &[
    ("acme_ranges.csv", include_str!("../../data/acme_ranges.csv")),
    ("acme_series.csv", include_str!("../../data/acme_series.csv")),
    ("ansi_b41_fits.csv", include_str!("../../data/ansi_b41_fits.csv")),
    ("center_drills.csv", include_str!("../../data/center_drills.csv")),
    ("center_holes.csv", include_str!("../../data/center_holes.csv")),
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
    ("hand_reaming_stock.csv", include_str!("../../data/hand_reaming_stock.csv")),
    ("index_plates.csv", include_str!("../../data/index_plates.csv")),
    ("insert_drills.csv", include_str!("../../data/insert_drills.csv")),
    ("iso286_grades.csv", include_str!("../../data/iso286_grades.csv")),
    ("iso286_holes.csv", include_str!("../../data/iso286_holes.csv")),
    ("iso286_shafts.csv", include_str!("../../data/iso286_shafts.csv")),
    ("gauge_block_sets.csv", include_str!("../../data/gauge_block_sets.csv")),
    ("keys.csv", include_str!("../../data/keys.csv")),
    ("gauge_classes.csv", include_str!("../../data/gauge_classes.csv")),
    ("gear_cutters.csv", include_str!("../../data/gear_cutters.csv")),
    ("gear_pitches.csv", include_str!("../../data/gear_pitches.csv")),
    ("general_tolerances.csv", include_str!("../../data/general_tolerances.csv")),
    ("hardness.csv", include_str!("../../data/hardness.csv")),
    ("material_aliases.csv", include_str!("../../data/material_aliases.csv")),
    ("material_physical.csv", include_str!("../../data/material_physical.csv")),
    ("materials.csv", include_str!("../../data/materials.csv")),
    ("metric_engagement.csv", include_str!("../../data/metric_engagement.csv")),
    ("metric_series.csv", include_str!("../../data/metric_series.csv")),
    ("metric_tolerances.csv", include_str!("../../data/metric_tolerances.csv")),
    ("pipe_npt.csv", include_str!("../../data/pipe_npt.csv")),
    ("pipe_parallel.csv", include_str!("../../data/pipe_parallel.csv")),
    ("pipe_taper.csv", include_str!("../../data/pipe_taper.csv")),
    ("power_feed_factors.csv", include_str!("../../data/power_feed_factors.csv")),
    ("power_wear_factors.csv", include_str!("../../data/power_wear_factors.csv")),
    ("preferred_fits.csv", include_str!("../../data/preferred_fits.csv")),
    ("preferred_numbers_r40.csv", include_str!("../../data/preferred_numbers_r40.csv")),
    ("reaming_stock.csv", include_str!("../../data/reaming_stock.csv")),
    ("round_bars.csv", include_str!("../../data/round_bars.csv")),
    ("saw_section_factors.csv", include_str!("../../data/saw_section_factors.csv")),
    ("screw_heads.csv", include_str!("../../data/screw_heads.csv")),
    ("sources.toml", include_str!("../../data/sources.toml")),
    ("tap_chamfers.csv", include_str!("../../data/tap_chamfers.csv")),
    ("surface_grades.csv", include_str!("../../data/surface_grades.csv")),
    ("surface_processes.csv", include_str!("../../data/surface_processes.csv")),
    ("tap_classes.csv", include_str!("../../data/tap_classes.csv")),
    ("tap_drills.csv", include_str!("../../data/tap_drills.csv")),
    ("tap_recommendations.csv", include_str!("../../data/tap_recommendations.csv")),
    ("tap_tolerances.csv", include_str!("../../data/tap_tolerances.csv")),
    ("tapers.csv", include_str!("../../data/tapers.csv")),
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
