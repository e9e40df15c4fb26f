//! How many threads the chamfer of a tap takes, from data/tap_chamfers.csv.

use super::{rows_of, source_key};
use crate::sources::Trust;
use serde::Deserialize;
use std::sync::LazyLock;

crate::choice! {
    /// Chamfer of a tap: `taper`, `plug` or `bottoming`.
    TapChamfer {
        /// The longest, to start by hand.
        Taper = "taper",
        /// The usual one.
        Plug = "plug",
        /// The shortest, to finish near the bottom.
        Bottoming = "bottoming",
    }
}

/// A row of the table.
#[derive(Debug)]
pub struct ChamferRow {
    /// Fewest threads on the chamfer.
    pub least: f64,
    /// Most threads on the chamfer.
    pub most: f64,
    /// Key of the source.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
}

#[derive(Deserialize)]
struct Row {
    chamfer: String,
    least_threads: f64,
    most_threads: f64,
    source: String,
    trust: Trust,
}

impl TapChamfer {
    /// What the table says of it.
    pub fn row(self) -> Option<&'static ChamferRow> {
        static ROWS: LazyLock<Vec<(String, ChamferRow)>> = LazyLock::new(|| {
            let row = |row: Row| {
                let source = source_key(&row.source);
                let (least, most) = (row.least_threads, row.most_threads);
                (row.chamfer, ChamferRow { least, most, source, trust: row.trust })
            };
            rows_of(include_str!("../../data/tap_chamfers.csv")).map(row).collect()
        });
        ROWS.iter().find(|(name, _)| name == self.as_str()).map(|(_, row)| row)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_chamfer_has_its_row() {
        for (chamfer, most) in [(TapChamfer::Taper, 10.0), (TapChamfer::Plug, 5.0), (TapChamfer::Bottoming, 2.0)] {
            let row = chamfer.row().expect("a row");
            assert!(row.most == most && row.least < row.most && !row.source.is_empty(), "{}", chamfer.as_str());
        }
    }
}
