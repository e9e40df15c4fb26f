//! Published cutting speeds by material, operation and tool material, from data/cutting_speeds.csv.
//! A source that prints one value has it at both ends of the range; no range is made up.

use super::materials::Material;
use super::{rows_of, source_key};
use crate::quantity::{CuttingSpeed, SiValue, Unit};
use crate::sources::Trust;
use serde::Deserialize;
use std::sync::LazyLock;

crate::choice! {
    /// What the tool is made of: high-speed steel (`hss`), high-speed steel with cobalt (`cobalt`), `carbide` without or with a coating (`coated_carbide`).
    ToolMaterial {
        /// High-speed steel.
        Hss = "hss",
        /// High-speed steel with cobalt.
        Cobalt = "cobalt",
        /// Carbide without a coating.
        Carbide = "carbide",
        /// Carbide with a coating.
        CoatedCarbide = "coated_carbide",
    }
}

/// The operation of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Operation {
    /// Turning, rough or finish.
    Turning,
    /// Rough turning.
    TurningRough,
    /// Finish turning.
    TurningFinish,
    /// Boring.
    Boring,
    /// Threading with a single point.
    Threading,
    /// Parting and grooving; has feeds only.
    Parting,
    /// Milling.
    Milling,
    /// Drilling.
    Drilling,
    /// Reaming.
    Reaming,
    /// Countersinking; has feeds only.
    Countersinking,
    /// Tapping.
    Tapping,
    /// Sawing with a band.
    Sawing,
}

impl Operation {
    /// The word in tables and notes.
    pub const fn words(self) -> &'static str {
        match self {
            Operation::Turning => "turning",
            Operation::TurningRough => "rough turning",
            Operation::TurningFinish => "finish turning",
            Operation::Boring => "boring",
            Operation::Threading => "threading",
            Operation::Parting => "parting",
            Operation::Milling => "milling",
            Operation::Drilling => "drilling",
            Operation::Reaming => "reaming",
            Operation::Countersinking => "countersinking",
            Operation::Tapping => "tapping",
            Operation::Sawing => "sawing",
        }
    }
}

/// One published range.
#[derive(Debug)]
pub struct SpeedRow {
    /// The operation.
    pub operation: Operation,
    /// What the tool is made of; none for a saw band of two metals.
    pub tool: Option<ToolMaterial>,
    /// Whether the source names the material itself, not only its class.
    pub named: bool,
    /// Brinell hardness it holds for: over, up to.
    pub hardness: Option<(f64, f64)>,
    /// The lower end.
    pub low: CuttingSpeed,
    /// The upper end, equal to the lower where one value is printed.
    pub high: CuttingSpeed,
    /// Key of the source.
    pub source: &'static str,
    /// Where in it.
    pub place: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
    /// What else the source says.
    pub note: &'static str,
    materials: Vec<&'static str>,
}

#[derive(Deserialize)]
struct Row {
    operation: Operation,
    tool_material: String,
    fit: String,
    hb_over: Option<f64>,
    hb_up_to: Option<f64>,
    low: f64,
    high: f64,
    unit: String,
    source: String,
    place: String,
    trust: Trust,
    note: String,
    materials: String,
}

/// Every published range.
pub fn speed_rows() -> &'static [SpeedRow] {
    static ROWS: LazyLock<Vec<SpeedRow>> =
        LazyLock::new(|| rows_of(include_str!("../../data/cutting_speeds.csv")).map(speed_row).collect());
    &ROWS
}

/// The tool material that a word names.
pub fn tool_named(word: &str) -> Option<ToolMaterial> {
    use ToolMaterial::*;
    [Hss, Cobalt, Carbide, CoatedCarbide].into_iter().find(|tool| tool.as_str() == word)
}

fn speed_row(row: Row) -> SpeedRow {
    let unit = Unit::named(&row.unit).unwrap_or(Unit::FootPerMinute);
    SpeedRow {
        operation: row.operation,
        tool: tool_named(&row.tool_material),
        named: row.fit == "named",
        hardness: row.hb_over.zip(row.hb_up_to),
        low: CuttingSpeed::stated(row.low, unit),
        high: CuttingSpeed::stated(row.high, unit),
        source: source_key(&row.source),
        place: row.place.leak(),
        trust: row.trust,
        note: row.note.leak(),
        materials: row.materials.leak().split_whitespace().collect(),
    }
}

impl SpeedRow {
    /// Whether the range holds for the material at the middle of its hardness. A hardness on the edge
    /// of two bands belongs to the softer one, as `over … up to` says.
    fn serves(&self, material: &Material) -> bool {
        let hard_enough = match (self.hardness, material.mid_hardness()) {
            (Some((over, up_to)), Some(hardness)) => hardness > over && hardness <= up_to,
            _ => true,
        };
        hard_enough && self.materials.contains(&material.id)
    }
}

/// What is published for a material, best first: by trust, then rows that name the material before those of its
/// class, of these the ones that state its hardness, then the slower.
pub fn speeds_for(material: &Material, operation: Operation, tool: Option<ToolMaterial>) -> Vec<&'static SpeedRow> {
    let mut rows: Vec<&SpeedRow> = speed_rows()
        .iter()
        .filter(|row| row.operation == operation && row.tool == tool && row.serves(material))
        .collect();
    rows.sort_by(|a, b| {
        let key = |row: &SpeedRow| (row.trust, !row.named, !row.named && row.hardness.is_none());
        key(a).cmp(&key(b)).then(a.low.get().si().total_cmp(&b.low.get().si()))
    });
    rows
}

/// The range that stands among what is published, and the row that differs from it most, if any does.
#[derive(Clone, Copy, Debug)]
pub struct Standing {
    /// The row whose lower end stands.
    pub low: &'static SpeedRow,
    /// The row whose upper end stands.
    pub high: &'static SpeedRow,
    /// The fastest row that differs by more than a third.
    pub faster: Option<&'static SpeedRow>,
}

/// Which of the rows, best first, stands. Where sources differ by more than a third, at either end of their ranges,
/// the slower stands, whatever its trust.
pub fn standing(rows: &[&'static SpeedRow]) -> Option<Standing> {
    let best = *rows.first()?;
    let ends = |row: &SpeedRow| (row.low.get().si(), row.high.get().si());
    // A rounding of units is no difference.
    let slower = |one: f64, other: f64| one < other * (2.0 / 3.0) * (1.0 - 1e-9);
    let (low, high) = ends(best);
    let candidates = || rows.iter().copied().filter(|row| slower(ends(row).0, low) || slower(ends(row).1, high));
    let lowest = candidates().chain([best]).min_by(|a, b| ends(a).0.total_cmp(&ends(b).0)).unwrap_or(best);
    let least = candidates().chain([best]).min_by(|a, b| ends(a).1.total_cmp(&ends(b).1)).unwrap_or(best);
    let differs = |row: &&&SpeedRow| slower(ends(lowest).0, ends(row).0) || slower(ends(least).1, ends(row).1);
    let faster = rows.iter().filter(differs).max_by(|a, b| ends(a).1.total_cmp(&ends(b).1)).copied();
    Some(Standing { low: lowest, high: least, faster })
}

/// Everything published for a material, in the order of the table.
pub fn all_speeds_for(material: &Material) -> impl Iterator<Item = &'static SpeedRow> {
    speed_rows().iter().filter(|row| row.serves(material))
}

#[cfg(test)]
mod tests {
    use super::super::materials::{materials, search};
    use super::*;

    #[test]
    fn every_row_is_a_range_with_a_source_and_known_materials() {
        assert!(speed_rows().len() > 600);
        for row in speed_rows() {
            assert!(row.low.get() <= row.high.get() && row.low.get().si() > 0.0, "{row:?}");
            assert!(!row.source.is_empty() && !row.place.is_empty(), "{row:?}");
            assert!(row.tool.is_some() || row.operation == Operation::Sawing, "{row:?}");
            for id in &row.materials {
                assert!(materials().iter().any(|material| material.id == *id), "{id}");
            }
        }
    }

    #[test]
    fn a_printed_value_comes_before_a_recalled_one_and_a_name_before_a_class() {
        let best = |text: &str, operation| {
            let row = speeds_for(search(text)[0], operation, Some(ToolMaterial::Hss))[0];
            (row.source, row.low.quantity().value, row.high.quantity().value)
        };
        assert_eq!(best("4140-annealed", Operation::Milling), ("course_sheet", 60.0, 80.0));
        assert_eq!(best("4140-annealed", Operation::Drilling), ("navy_14345", 50.0, 70.0));
        assert_eq!(best("304", Operation::Drilling), ("mh_speeds", 55.0, 55.0));
        assert_eq!(best("1018", Operation::Milling), ("course_sheet", 80.0, 100.0));
        assert_eq!(best("brass c36000", Operation::Tapping), ("tap_hardness_table", 82.0, 115.0));
        assert_eq!(best("6061", Operation::Drilling), ("mh_speeds", 350.0, 350.0));
    }

    #[test]
    fn the_slower_stands_where_sources_differ_by_more_than_a_third() {
        let stands =
            |text: &str, operation, tool| standing(&speeds_for(search(text)[0], operation, Some(tool))).unwrap();
        let drilled = stands("6061", Operation::Drilling, ToolMaterial::Hss);
        assert_eq!((drilled.low.source, drilled.high.source), ("navy_14345", "navy_14345"));
        assert_eq!(drilled.faster.unwrap().source, "mh_speeds");
        let turned = stands("ti-6al-4v", Operation::Turning, ToolMaterial::Hss);
        assert_eq!((turned.low.low.quantity().value, turned.high.high.quantity().value), (40.0, 40.0));
        assert!(turned.faster.is_none() && standing(&[]).is_none());
        // A third exactly is no difference.
        let milled = stands("1018", Operation::Milling, ToolMaterial::Hss);
        assert_eq!(milled.low.source, "course_sheet");
    }
}
