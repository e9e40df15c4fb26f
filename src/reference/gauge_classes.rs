//! Tolerances of plain plug and ring gauges by class and diameter, from data/gauge_classes.csv.

use super::{rows_of, source_key};
use serde::Deserialize;
use std::sync::LazyLock;

/// One cell of the chart.
#[derive(Debug, Deserialize)]
pub struct GaugeClass {
    /// The class, `X`.
    pub class: String,
    over_in: f64,
    up_to_in: f64,
    /// Its tolerance, in inches, to one side.
    pub tolerance_in: f64,
    source: String,
    /// How far the cell can be relied on.
    pub trust: String,
}

impl GaugeClass {
    /// Key of the source.
    pub fn source(&self) -> &'static str {
        source_key(&self.source)
    }
}

static ROWS: LazyLock<Vec<GaugeClass>> =
    LazyLock::new(|| rows_of(include_str!("../../data/gauge_classes.csv")).collect());

/// The classes for a diameter in meters, the closest first; none where the chart does not reach.
pub fn classes(diameter: f64) -> Vec<&'static GaugeClass> {
    let inches = diameter / 0.0254;
    ROWS.iter().filter(|row| row.over_in < inches && inches <= row.up_to_in).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn classes_go_from_close_to_coarse() {
        let half = classes(0.0127);
        let names: Vec<&str> = half.iter().map(|row| row.class.as_str()).collect();
        assert_eq!(names, ["XXX", "XX", "X", "Y", "Z", "ZZ"]);
        assert!(half.windows(2).all(|pair| pair[0].tolerance_in < pair[1].tolerance_in));
        assert!(classes(0.5).is_empty());
    }
}
