//! Drilling: constants of thrust and torque, chisel edges, the reduction in deep holes, and the
//! stock that reamers want, from data/drill_forces.csv, drill_chisel_edges.csv,
//! deep_hole_reduction.csv, reaming_stock.csv and hand_reaming_stock.csv.

use super::materials::Material;
use super::{rows_of, source_key};
use crate::sources::Trust;
use serde::Deserialize;
use std::sync::LazyLock;

/// The constants of a model of drilling forces for one material.
#[derive(Debug)]
pub struct DrillForce {
    /// `shaw_oxford` or `catalogue`.
    pub model: &'static str,
    /// Constant of the torque.
    pub torque: f64,
    /// Constant of the thrust.
    pub thrust: f64,
    /// Brinell hardness it was given for.
    pub hardness: Option<f64>,
    /// Key of the source.
    pub source: &'static str,
    /// Where in it.
    pub place: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
    materials: Vec<&'static str>,
}

#[derive(Deserialize)]
struct ForceRow {
    model: String,
    torque_constant: f64,
    thrust_constant: f64,
    hb: Option<f64>,
    source: String,
    place: String,
    trust: Trust,
    materials: String,
}

/// Every row of constants.
pub fn drill_forces() -> &'static [DrillForce] {
    static ROWS: LazyLock<Vec<DrillForce>> = LazyLock::new(|| {
        rows_of(include_str!("../../data/drill_forces.csv"))
            .map(|row: ForceRow| DrillForce {
                model: row.model.leak(),
                torque: row.torque_constant,
                thrust: row.thrust_constant,
                hardness: row.hb,
                source: source_key(&row.source),
                place: row.place.leak(),
                trust: row.trust,
                materials: row.materials.leak().split_whitespace().collect(),
            })
            .collect()
    });
    &ROWS
}

/// The constants of a model for a material: torque, thrust and the row they come from. Where rows
/// differ by hardness, linear between them and the nearest row outside.
pub fn drill_force(material: &Material, model: &str) -> Option<(f64, f64, &'static DrillForce)> {
    let rows: Vec<&DrillForce> =
        drill_forces().iter().filter(|row| row.model == model && row.materials.contains(&material.id)).collect();
    let (first, last) = (*rows.first()?, *rows.last()?);
    let hardness = material.mid_hardness();
    let (Some(at), Some(least), Some(most)) = (hardness, first.hardness, last.hardness) else {
        return Some((first.torque, first.thrust, first));
    };
    if rows.len() == 1 || at <= least {
        return Some((first.torque, first.thrust, first));
    }
    if at >= most {
        return Some((last.torque, last.thrust, last));
    }
    let pair = rows.windows(2).find(|pair| pair[1].hardness.is_some_and(|hardness| at <= hardness))?;
    let (low, high) = (pair[0].hardness?, pair[1].hardness?);
    let between = |a: f64, b: f64| a + (at - low) / (high - low) * (b - a);
    Some((between(pair[0].torque, pair[1].torque), between(pair[0].thrust, pair[1].thrust), pair[0]))
}

/// The factors of a chisel edge: its share of the diameter, A of the torque, B and J of the thrust.
#[derive(Debug, Deserialize)]
pub struct ChiselEdge {
    /// Length of the chisel edge over the diameter.
    #[serde(rename = "chisel_over_diameter")]
    pub share: f64,
    /// Factor of the torque.
    pub a: f64,
    /// Factor of the thrust of the lips.
    pub b: f64,
    /// Factor of the thrust of the chisel edge.
    pub j: f64,
}

/// The chisel edge of a drill point by its share of the diameter, which must stand in the table.
pub fn chisel_edge(share: f64) -> Option<&'static ChiselEdge> {
    static ROWS: LazyLock<Vec<ChiselEdge>> =
        LazyLock::new(|| rows_of(include_str!("../../data/drill_chisel_edges.csv")).collect());
    ROWS.iter().find(|row| row.share == share)
}

#[derive(Deserialize)]
struct DeepRow {
    depth_over_diameter: f64,
    speed_percent: f64,
    feed_percent: f64,
}

/// By how much speed and feed are reduced at a depth in diameters, as shares; linear between rows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reduction {
    /// Of the speed.
    pub speed: f64,
    /// Of the feed.
    pub feed: f64,
    /// Whether the depth lies beyond the table, whose last row is then taken.
    pub beyond: bool,
}

/// The reduction in a deep hole; none below 3 diameters.
pub fn deep_hole(depth_over_diameter: f64) -> Option<Reduction> {
    static ROWS: LazyLock<Vec<DeepRow>> =
        LazyLock::new(|| rows_of(include_str!("../../data/deep_hole_reduction.csv")).collect());
    let at = depth_over_diameter;
    let rows = &*ROWS;
    let (first, last) = (&rows[0], &rows[rows.len() - 1]);
    let share = |speed: f64, feed: f64, beyond| Some(Reduction { speed: speed / 100.0, feed: feed / 100.0, beyond });
    if at < first.depth_over_diameter * (1.0 - 1e-12) {
        return None;
    }
    if at >= last.depth_over_diameter {
        return share(last.speed_percent, last.feed_percent, at > last.depth_over_diameter * (1.0 + 1e-12));
    }
    let next = rows.partition_point(|row| row.depth_over_diameter <= at).max(1);
    let (a, b) = (&rows[next - 1], &rows[next]);
    let part = ((at - a.depth_over_diameter) / (b.depth_over_diameter - a.depth_over_diameter)).max(0.0);
    let between = |x: f64, y: f64| x + part * (y - x);
    share(between(a.speed_percent, b.speed_percent), between(a.feed_percent, b.feed_percent), false)
}

#[derive(Deserialize)]
struct StockRow {
    diameter_over_in: f64,
    diameter_up_to_in: f64,
    low_in: f64,
    high_in: f64,
}

/// Stock on the diameter that machine reaming wants for a hole, in inches from and to; a diameter on
/// the edge of two bands belongs to the smaller one. The diameter is in meters.
pub fn reaming_stock(diameter: f64) -> Option<(f64, f64)> {
    static ROWS: LazyLock<Vec<StockRow>> =
        LazyLock::new(|| rows_of(include_str!("../../data/reaming_stock.csv")).collect());
    let inches = diameter / 0.0254;
    let holds = |row: &&StockRow| {
        inches >= row.diameter_over_in * (1.0 - 1e-12) && inches <= row.diameter_up_to_in * (1.0 + 1e-12)
    };
    ROWS.iter().find(holds).map(|row| (row.low_in, row.high_in))
}

#[derive(Deserialize)]
struct HandStockRow {
    diameter_over_mm: f64,
    diameter_up_to_mm: f64,
    low_mm: f64,
    high_mm: f64,
}

/// Stock on the diameter that hand reaming wants for a hole, in millimeters from and to, read as in [`reaming_stock`].
pub fn hand_reaming_stock(diameter: f64) -> Option<(f64, f64)> {
    static ROWS: LazyLock<Vec<HandStockRow>> =
        LazyLock::new(|| rows_of(include_str!("../../data/hand_reaming_stock.csv")).collect());
    let size = diameter / 0.001;
    let holds = |row: &&HandStockRow| size > row.diameter_over_mm && size <= row.diameter_up_to_mm * (1.0 + 1e-12);
    ROWS.iter().find(holds).map(|row| (row.low_mm, row.high_mm))
}

#[cfg(test)]
mod tests {
    use super::super::materials::{materials, search};
    use super::*;

    #[test]
    fn deep_holes_are_reduced_by_the_table_and_linearly_between() {
        assert_eq!(deep_hole(2.9), None);
        assert_eq!(deep_hole(3.0), Some(Reduction { speed: 0.10, feed: 0.10, beyond: false }));
        let half = deep_hole(4.5).unwrap();
        assert!((half.speed - 0.25).abs() < 1e-12 && (half.feed - 0.15).abs() < 1e-12);
        assert_eq!(deep_hole(6.0), Some(Reduction { speed: 0.35, feed: 0.20, beyond: false }));
        assert!(deep_hole(8.0).unwrap().beyond);
    }

    #[test]
    fn the_constant_of_a_steel_follows_its_hardness() {
        let (torque, thrust, row) = drill_force(search("4140-annealed")[0], "shaw_oxford").unwrap();
        assert_eq!((torque, thrust, row.source), (24_560.0, 24_560.0, "kd_memory"));
        assert_eq!(drill_force(search("304")[0], "shaw_oxford").map(|f| (f.0, f.1)), Some((24_000.0, 35_000.0)));
        assert!(drill_force(search("nylon")[0], "shaw_oxford").is_none());
        assert_eq!(drill_force(search("1018")[0], "catalogue").map(|f| f.0), Some(2.22));
        for row in drill_forces() {
            assert!(!row.source.is_empty());
            assert!(row.materials.iter().all(|id| materials().iter().any(|material| material.id == *id)));
        }
    }

    #[test]
    fn chisel_edges_and_stock_are_the_tables() {
        let edge = chisel_edge(0.18).unwrap();
        assert_eq!((edge.a, edge.b, edge.j), (1.085, 1.355, 0.030));
        assert!(chisel_edge(0.19).is_none());
        assert_eq!(reaming_stock(0.0127), Some((0.01, 0.016)));
        assert_eq!(reaming_stock(0.001), None);
        assert_eq!(hand_reaming_stock(0.005), Some((0.1, 0.2)));
        assert_eq!(hand_reaming_stock(0.25), None);
    }
}
