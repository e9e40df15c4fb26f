//! Diameters of round bar that dealers usually stock, from data/round_bars.csv.

use super::rows_of;
use serde::Deserialize;
use std::sync::LazyLock;

/// A stock size.
#[derive(Debug, Deserialize)]
pub struct RoundBar {
    /// Its diameter.
    pub diameter: f64,
    /// Unit of the diameter, `in` or `mm`.
    pub unit: String,
    /// Key of the source.
    pub source: String,
    /// How far the row can be relied on.
    pub trust: String,
}

static ROWS: LazyLock<Vec<RoundBar>> = LazyLock::new(|| rows_of(include_str!("../../data/round_bars.csv")).collect());

/// Every stock size, inch sizes first.
pub fn round_bars() -> &'static [RoundBar] {
    &ROWS
}
