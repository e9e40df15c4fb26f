//! Published feeds by operation, tool material, group of materials and diameter, from data/feeds.csv.

use super::cutting_speeds::{Operation, ToolMaterial};
use super::materials::Material;
use super::{rows_of, source_key};
use crate::quantity::Unit;
use crate::sources::Trust;
use serde::Deserialize;
use std::sync::LazyLock;

/// One published range of feeds.
#[derive(Debug)]
pub struct FeedRow {
    /// The operation.
    pub operation: Operation,
    /// Diameters in inches it holds for: over, up to.
    pub diameter: Option<(f64, f64)>,
    /// The lower end.
    pub low: f64,
    /// The upper end.
    pub high: f64,
    /// The unit of both, a feed per turn or per tooth.
    pub unit: Unit,
    /// Key of the source.
    pub source: &'static str,
    /// Where in it.
    pub place: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
    /// What else the source says.
    pub note: &'static str,
    tools: Vec<&'static str>,
    groups: Vec<&'static str>,
}

#[derive(Deserialize)]
struct Row {
    operation: Operation,
    tool_materials: String,
    groups: String,
    diameter_over_in: Option<f64>,
    diameter_up_to_in: Option<f64>,
    low: f64,
    high: f64,
    unit: String,
    source: String,
    place: String,
    trust: Trust,
    note: String,
}

/// Every published range of feeds.
pub fn feed_rows() -> &'static [FeedRow] {
    static ROWS: LazyLock<Vec<FeedRow>> =
        LazyLock::new(|| rows_of(include_str!("../../data/feeds.csv")).map(feed_row).collect());
    &ROWS
}

fn feed_row(row: Row) -> FeedRow {
    FeedRow {
        operation: row.operation,
        diameter: row.diameter_over_in.zip(row.diameter_up_to_in),
        low: row.low,
        high: row.high,
        unit: Unit::named(&row.unit).unwrap_or(Unit::InchPerRev),
        source: source_key(&row.source),
        place: row.place.leak(),
        trust: row.trust,
        note: row.note.leak(),
        tools: row.tool_materials.leak().split_whitespace().collect(),
        groups: row.groups.leak().split_whitespace().collect(),
    }
}

/// The best row for a material, a tool and a diameter in meters. A diameter on the edge of two bands
/// belongs to the band of smaller diameters.
pub fn feed_for(
    material: &Material,
    operation: Operation,
    tool: Option<ToolMaterial>,
    diameter: Option<f64>,
) -> Option<&'static FeedRow> {
    let tool = tool.map_or("bimetal", ToolMaterial::as_str);
    let holds = |row: &&FeedRow| {
        let fits = match (row.diameter, diameter) {
            // A double's rounding of 12.7 mm must not lift it over 1/2 in.
            (Some((over, up_to)), Some(diameter)) => {
                let inches = diameter / 0.0254;
                inches > over * (1.0 + 1e-12) && inches <= up_to * (1.0 + 1e-12)
            }
            (Some(_), None) => false,
            (None, _) => true,
        };
        row.operation == operation && row.tools.contains(&tool) && row.groups.contains(&material.feed_group) && fits
    };
    feed_rows().iter().filter(holds).min_by_key(|row| row.trust)
}

#[cfg(test)]
mod tests {
    use super::super::materials::{materials, search};
    use super::*;

    #[test]
    fn every_row_is_a_range_of_known_groups() {
        assert!(feed_rows().len() > 140);
        for row in feed_rows() {
            assert!(0.0 < row.low && row.low <= row.high && !row.source.is_empty(), "{row:?}");
            for group in &row.groups {
                assert!(materials().iter().any(|material| material.feed_group == *group), "{group}");
            }
        }
    }

    #[test]
    fn a_diameter_on_an_edge_belongs_to_the_smaller_band() {
        let steel = search("4140-annealed")[0];
        let drill = |inches: f64| {
            feed_for(steel, Operation::Drilling, Some(ToolMaterial::Hss), Some(inches * 0.0254)).map(|row| row.low)
        };
        assert_eq!(drill(0.5), Some(0.004));
        assert_eq!(drill(0.501), Some(0.007));
        assert_eq!(drill(0.0127 / 0.0254), Some(0.004));
        assert_eq!(drill(9.0), None);
    }
}
