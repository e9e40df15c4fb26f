//! Lengths of thread engagement of metric threads (ISO 965-1): the groups S, N and L, and the classes
//! that are usual in each.

use super::metric_tolerances::{external_grades, internal_grades, is_covered};
use super::series::read_table;
use super::{Provenance, Thread, ThreadSystem};
use serde::Deserialize;
use std::sync::LazyLock;

/// How long a metric thread engages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EngagementGroup {
    /// S.
    Short,
    /// N.
    Normal,
    /// L.
    Long,
}

impl EngagementGroup {
    /// Its letter.
    pub const fn letter(self) -> &'static str {
        match self {
            EngagementGroup::Short => "S",
            EngagementGroup::Normal => "N",
            EngagementGroup::Long => "L",
        }
    }
}

#[derive(Debug, Deserialize)]
struct Row {
    diameter_over_mm: f64,
    diameter_up_to_mm: f64,
    pitch_mm: f64,
    normal_over_mm: f64,
    normal_up_to_mm: f64,
    source: String,
    trust: String,
}

static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| read_table(include_str!("../../../data/metric_engagement.csv")));

/// The lengths of the normal group.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NormalEngagement {
    /// Over this, mm.
    pub over: f64,
    /// Up to this, mm.
    pub up_to: f64,
    /// Where the row is from; absent where the formula was used.
    pub provenance: Option<Provenance>,
}

impl NormalEngagement {
    /// The group of a length in mm.
    pub fn group(&self, length: f64) -> EngagementGroup {
        if length <= self.over * (1.0 + 1e-12) {
            EngagementGroup::Short
        } else if length <= self.up_to * (1.0 + 1e-12) {
            EngagementGroup::Normal
        } else {
            EngagementGroup::Long
        }
    }
}

/// Shortest and longest normal length over pitch times the fifth root of the diameter, in mm.
const SHORTEST: f64 = 2.24;
const LONGEST: f64 = 6.7;

/// The normal lengths of a metric thread, from the table, else by the formula behind it; none outside
/// the standard.
pub fn normal_engagement(thread: &Thread) -> Option<NormalEngagement> {
    let (d, p) = (thread.diameter, thread.pitch);
    if thread.system != ThreadSystem::Metric || !is_covered(d, p) {
        return None;
    }
    let row = ROWS
        .iter()
        .find(|row| d > row.diameter_over_mm && d <= row.diameter_up_to_mm && (row.pitch_mm - p).abs() < 1e-9);
    Some(match row {
        Some(row) => NormalEngagement {
            over: row.normal_over_mm,
            up_to: row.normal_up_to_mm,
            provenance: Some(Provenance { source: &row.source, trust: &row.trust }),
        },
        None => {
            let of = |ratio: f64| (ratio * p * d.powf(0.2) * 10.0).round() / 10.0;
            NormalEngagement { over: of(SHORTEST), up_to: of(LONGEST), provenance: None }
        }
    })
}

/// The classes that are usual for a group, where they differ from those of normal lengths and exist at the pitch:
/// one grade finer on the pitch diameter for S, one coarser for L.
pub fn classes_for_engagement(thread: &Thread, group: EngagementGroup) -> (Option<&'static str>, Option<&'static str>) {
    let small = thread.diameter <= 1.4;
    let (external, internal) = match (group, small) {
        (EngagementGroup::Normal, _) => return (None, None),
        (EngagementGroup::Short, false) => ((5, "5g6g"), (5, "5H")),
        (EngagementGroup::Short, true) => ((5, "5h6h"), (4, "4H")),
        (EngagementGroup::Long, false) => ((7, "7g6g"), (7, "7H")),
        (EngagementGroup::Long, true) => ((7, "7h6h"), (6, "6H")),
    };
    (
        external_grades(thread.pitch).contains(&external.0).then_some(external.1),
        internal_grades(thread.pitch).contains(&internal.0).then_some(internal.1),
    )
}

#[cfg(test)]
mod tests {
    use super::super::{external_limits, internal_limits, metric_rows, read};
    use super::*;

    #[test]
    fn the_table_follows_the_formula_with_the_smallest_size_that_has_the_pitch() {
        for row in ROWS.iter() {
            let sizes = metric_rows().iter().filter(|size| {
                size.diameter_mm > row.diameter_over_mm
                    && size.diameter_mm <= row.diameter_up_to_mm
                    && (size.pitch_mm - row.pitch_mm).abs() < 1e-9
            });
            let smallest = sizes.map(|size| size.diameter_mm).fold(f64::INFINITY, f64::min);
            assert!(smallest.is_finite(), "no size has pitch {} over {}", row.pitch_mm, row.diameter_over_mm);
            for (ratio, printed) in [(SHORTEST, row.normal_over_mm), (LONGEST, row.normal_up_to_mm)] {
                let formula = ratio * row.pitch_mm * smallest.powf(0.2);
                assert!((printed / formula - 1.0).abs() < 0.14, "pitch {}: {printed} for {formula}", row.pitch_mm);
            }
        }
    }

    #[test]
    fn the_ends_of_a_group_belong_to_it_as_the_table_says() {
        // A tap maker's catalogue, M10: S up to 5 mm, N over 5 up to 15 mm, L above.
        let normal = normal_engagement(&read("M10").unwrap()).unwrap();
        let letters: Vec<&str> = [4.0, 5.0, 5.1, 15.0, 15.1].map(|l| normal.group(l).letter()).to_vec();
        assert_eq!(letters, ["S", "S", "N", "N", "L"]);
        assert_eq!(normal_engagement(&read("1/4-20").unwrap()), None);
    }

    #[test]
    fn every_class_of_a_group_has_limits() {
        for row in metric_rows() {
            let thread = read(&row.designation).unwrap();
            for group in [EngagementGroup::Short, EngagementGroup::Normal, EngagementGroup::Long] {
                let (external, internal) = classes_for_engagement(&thread, group);
                assert!(external.is_none_or(|class| external_limits(&thread, Some(class), None).is_ok()));
                assert!(internal.is_none_or(|class| internal_limits(&thread, Some(class), None).is_ok()));
            }
        }
    }
}
