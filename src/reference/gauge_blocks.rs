//! Sets of gauge blocks by the number of their pieces, from data/gauge_block_sets.csv.

use super::{rows_of, source_key};
use crate::quantity::{GaugeSize, Unit, text};
use crate::working::Record;
use serde::Deserialize;
use std::sync::LazyLock;

crate::choice! {
    /// A set of gauge blocks, by its unit and the number of its pieces.
    BlockSet {
        /// 81 pieces.
        Inch81 = "inch_81",
        /// 81 pieces and two wear blocks.
        Inch83 = "inch_83",
        /// 36 pieces.
        Inch36 = "inch_36",
        /// 28 thin pieces.
        Inch28Thin = "inch_28_thin",
        /// 112 pieces.
        Metric112 = "metric_112",
        /// 103 pieces.
        Metric103 = "metric_103",
        /// 91 pieces.
        Metric91 = "metric_91",
        /// 88 pieces.
        Metric88 = "metric_88",
        /// 87 pieces.
        Metric87 = "metric_87",
        /// 83 pieces.
        Metric83 = "metric_83",
        /// 76 pieces.
        Metric76 = "metric_76",
        /// 47 pieces.
        Metric47 = "metric_47",
        /// 46 pieces.
        Metric46 = "metric_46",
        /// 45 pieces.
        Metric45 = "metric_45",
        /// 33 pieces from 2 mm.
        Metric33 = "metric_33",
        /// 32 pieces.
        Metric32 = "metric_32",
    }
}

/// What a block of a set is for.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq)]
#[serde(rename_all = "snake_case")]
enum Use {
    Stack,
    Wear,
}

/// Blocks of a set from a size to another, in even steps.
#[derive(Debug, Deserialize)]
struct Range {
    set: String,
    pieces: usize,
    unit: String,
    from: f64,
    to: f64,
    step: f64,
    count: usize,
    #[serde(rename = "use")]
    used: Use,
    source: String,
    trust: String,
}

static ROWS: LazyLock<Vec<Range>> =
    LazyLock::new(|| rows_of(include_str!("../../data/gauge_block_sets.csv")).collect());

impl Range {
    fn unit(&self) -> Unit {
        if self.unit == "in" { Unit::Inch } else { Unit::Millimetre }
    }

    fn sizes(&self) -> impl Iterator<Item = GaugeSize> {
        // The last as it is printed, the others by the step.
        let size = |at| if at + 1 == self.count { self.to } else { text::tidy(self.from + at as f64 * self.step) };
        (0..self.count).map(move |at| GaugeSize::stated(size(at), self.unit()))
    }
}

impl BlockSet {
    fn ranges(self) -> impl Iterator<Item = &'static Range> {
        ROWS.iter().filter(move |row| row.set == self.as_str())
    }

    /// Its blocks, wear blocks aside.
    pub fn sizes(self) -> Vec<GaugeSize> {
        self.ranges().filter(|row| row.used == Use::Stack).flat_map(Range::sizes).collect()
    }

    /// The size of its wear blocks, where it has some.
    pub fn wear_block(self) -> Option<GaugeSize> {
        self.ranges().find(|row| row.used == Use::Wear).and_then(|row| row.sizes().next())
    }

    /// As a person calls it.
    pub fn said(self) -> String {
        let Some(row) = self.ranges().next() else { return String::new() };
        format!("{} set of {}", if row.unit() == Unit::Inch { "inch" } else { "metric" }, row.pieces)
    }

    /// Puts its sources on record.
    pub fn cite(self, record: &mut Record) {
        for row in self.ranges() {
            record.source_of_row(source_key(&row.source), format!("the {}", self.said()), &row.trust);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_set_has_as_many_pieces_as_its_name_says_and_ends_where_its_rows_do() {
        let words: std::collections::BTreeSet<&str> = ROWS.iter().map(|row| row.set.as_str()).collect();
        assert_eq!(words.len(), 16);
        for row in ROWS.iter() {
            let set = <BlockSet as crate::declared::OfText>::of_text(String::leak(row.set.clone()));
            assert_eq!(set.ranges().map(|row| row.count).sum::<usize>(), row.pieces, "{}", row.set);
            assert!(row.set.contains(&row.pieces.to_string()));
            let last = row.from + (row.count - 1) as f64 * row.step;
            assert!((last - row.to).abs() < 1e-9, "{}", row.set);
        }
        assert_eq!(BlockSet::Inch83.wear_block().expect("a wear block").quantity().value, 0.05);
        assert!(BlockSet::Metric88.wear_block().is_none());
        assert_eq!(BlockSet::Inch83.sizes().len(), 81);
    }

    #[test]
    fn no_size_is_twice_in_a_set() {
        for row in ROWS.iter() {
            let set = <BlockSet as crate::declared::OfText>::of_text(String::leak(row.set.clone()));
            let mut sizes: Vec<i64> = set.sizes().iter().map(|size| (size.si() * 1e10).round() as i64).collect();
            sizes.sort_unstable();
            assert!(sizes.windows(2).all(|pair| pair[0] < pair[1]), "{}", row.set);
        }
    }
}
