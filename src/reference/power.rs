//! Factors of cutting power: by feed and by wear, from data/power_feed_factors.csv and
//! data/power_wear_factors.csv.

use super::{rows_of, source_key};
use crate::sources::Trust;
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
struct FeedFactorRow {
    feed_in: f64,
    factor: f64,
}

static FEED_FACTORS: LazyLock<Vec<FeedFactorRow>> =
    LazyLock::new(|| rows_of(include_str!("../../data/power_feed_factors.csv")).collect());

/// The factor of unit power for a feed in meters, linear between the rows of the table, and whether
/// the feed lies outside them, where the nearest row is taken.
pub fn feed_factor(feed: f64) -> (f64, bool) {
    let inches = feed / 0.0254;
    let rows = &*FEED_FACTORS;
    let (first, last) = (&rows[0], &rows[rows.len() - 1]);
    // A double's rounding is not outside.
    if inches <= first.feed_in {
        return (first.factor, inches < first.feed_in * (1.0 - 1e-9));
    }
    if inches >= last.feed_in {
        return (last.factor, inches > last.feed_in * (1.0 + 1e-9));
    }
    let at = rows.partition_point(|row| row.feed_in <= inches);
    let (below, above) = (&rows[at - 1], &rows[at]);
    let share = (inches - below.feed_in) / (above.feed_in - below.feed_in);
    (below.factor + share * (above.factor - below.factor), false)
}

/// A factor of wear: what it is for, from and to.
#[derive(Debug)]
pub struct WearFactor {
    /// The operation and state.
    pub operation: &'static str,
    /// From.
    pub low: f64,
    /// To.
    pub high: f64,
    /// Key of the source.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
}

#[derive(Deserialize)]
struct WearRow {
    operation: String,
    low: f64,
    high: f64,
    source: String,
    trust: Trust,
}

/// Every factor of wear.
pub fn wear_factors() -> &'static [WearFactor] {
    static ROWS: LazyLock<Vec<WearFactor>> = LazyLock::new(|| {
        rows_of(include_str!("../../data/power_wear_factors.csv"))
            .map(|row: WearRow| WearFactor {
                operation: row.operation.leak(),
                low: row.low,
                high: row.high,
                source: source_key(&row.source),
                trust: row.trust,
            })
            .collect()
    });
    &ROWS
}

/// The factor of wear for an operation: the upper end, which is the careful one.
pub fn wear_factor(operation: &str) -> f64 {
    wear_factors().iter().find(|row| row.operation == operation).map_or(1.0, |row| row.high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_feed_factor_is_the_tables_and_linear_between() {
        let at = |inches: f64| feed_factor(inches * 0.0254);
        assert_eq!(at(0.002), (1.40, false));
        assert_eq!(at(0.012), (1.0, false));
        assert!((at(0.0025).0 - 1.35).abs() < 1e-12);
        assert_eq!(at(0.0005), (1.60, true));
        assert_eq!(at(0.1), (0.72, true));
    }

    #[test]
    fn the_factors_fall_as_the_feed_grows() {
        assert!(FEED_FACTORS.windows(2).all(|w| w[0].feed_in < w[1].feed_in && w[0].factor > w[1].factor));
        assert_eq!(wear_factor("end_milling"), 1.10);
        assert_eq!(wear_factor("sharp"), 1.0);
        assert_eq!(wear_factors().len(), 9);
        for row in wear_factors() {
            assert!(row.low <= row.high && !row.source.is_empty() && row.trust == Trust::FromMemory);
        }
    }
}
