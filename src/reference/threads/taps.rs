//! Pitch diameters that ground taps are made to: H and L limits in half thousandths of an inch and D
//! limits in steps of 0.013 mm (ASME B94.9), classes 1 to 3 (ISO 2857), and what published lists name
//! for a class of thread.

use super::rounding::half_up;
use super::series::read_table;
use super::{Provenance, Thread, ThreadSystem, internal_limits};
use crate::quantity::shown;
use crate::refusal::{Code, Unread};
use serde::Deserialize;
use std::sync::LazyLock;

crate::choice! {
    /// How the taps are marked: by an `h_limit` (H or L), by a `d_limit` (D), or by an `iso_class` (ISO 1 to ISO 3).
    TapMarking {
        /// H and L limits, in half thousandths of an inch.
        HLimit = "h_limit",
        /// D limits, in steps of 0.013 mm.
        DLimit = "d_limit",
        /// Classes of ISO 2857.
        IsoClass = "iso_class",
    }
}

impl TapMarking {
    /// What a tap so marked has on it, in words.
    pub const fn words(self) -> &'static str {
        match self {
            TapMarking::HLimit => "an H or L limit",
            TapMarking::DLimit => "a D limit",
            TapMarking::IsoClass => "an ISO class",
        }
    }

    /// True where taps for threads of `system` are marked so.
    pub const fn suits(self, system: ThreadSystem) -> bool {
        match self {
            TapMarking::HLimit => matches!(system, ThreadSystem::Unified),
            TapMarking::DLimit | TapMarking::IsoClass => matches!(system, ThreadSystem::Metric),
        }
    }

    /// The usual marking for threads of `system`, if one is known.
    pub const fn usual(system: ThreadSystem) -> Option<Self> {
        match system {
            ThreadSystem::Unified => Some(TapMarking::HLimit),
            ThreadSystem::Metric => Some(TapMarking::IsoClass),
            _ => None,
        }
    }

    /// A thread that has taps so marked.
    pub const fn thread(self) -> &'static str {
        match self {
            TapMarking::HLimit => "1/4-20 UNC",
            TapMarking::DLimit | TapMarking::IsoClass => "M8",
        }
    }

    /// What one step of the limit number is worth, in the thread's unit; 0 for classes.
    pub const fn step(self) -> f64 {
        match self {
            TapMarking::HLimit => 0.0005,
            TapMarking::DLimit => 0.013,
            TapMarking::IsoClass => 0.0,
        }
    }
}

/// A tap by what is marked on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TapName {
    /// How it is marked.
    pub marking: TapMarking,
    /// Steps from the basic pitch diameter to the tap's greatest: H3 3, L1 0, D5 5; of a class its number.
    pub number: i32,
}

/// The greatest limit number that is read.
const MOST: i32 = 200;

/// The form of a name, for a description.
pub const TAP_PATTERN: &str = "(?:[Gg]?[HhLlDd][1-9][0-9]?|[Ii][Ss][Oo] ?[123])";

impl TapName {
    /// The tap with this number.
    pub const fn new(marking: TapMarking, number: i32) -> Self {
        Self { marking, number }
    }

    /// Reads `H3`, `GH3`, `L1`, `D5`, `ISO 2`.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let upper = text.trim().to_ascii_uppercase();
        let bare = upper.strip_prefix('G').unwrap_or(&upper);
        let number = |text: &str| text.trim().parse::<i32>().ok().filter(|n| (1..=MOST).contains(n));
        let found = [("H", TapMarking::HLimit), ("L", TapMarking::HLimit), ("D", TapMarking::DLimit)]
            .into_iter()
            .find_map(|(letter, marking)| {
                let number = number(bare.strip_prefix(letter)?)?;
                Some(Self::new(marking, if letter == "L" { 1 - number } else { number }))
            })
            .or_else(|| {
                let class = number(upper.strip_prefix("ISO")?).filter(|class| *class <= 3)?;
                Some(Self::new(TapMarking::IsoClass, class))
            });
        found.ok_or_else(|| Unread {
            code: Code::ValueUnreadable,
            says: format!(
                "\"{}\" is not a tap marking known here. Known are H3 or GH3, L1, D5, ISO 1 to ISO 3.",
                shown(text)
            ),
            try_this: "H3".into(),
        })
    }

    /// As it is marked.
    pub fn text(self) -> String {
        match (self.marking, self.number) {
            (TapMarking::HLimit, number @ 1..) => format!("H{number}"),
            (TapMarking::HLimit, number) => format!("L{}", 1 - number),
            (TapMarking::DLimit, number) => format!("D{number}"),
            (TapMarking::IsoClass, number) => format!("ISO {number}"),
        }
    }
}

/// A class of taps of ISO 2857.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct TapClassRow {
    /// `ISO 1` to `ISO 3`.
    pub name: String,
    /// Share of the pitch diameter tolerance of grade 5 at which its zone begins.
    pub lower_share: f64,
    /// Share at which it ends.
    pub upper_share: f64,
    /// Internal classes that it is meant for.
    pub internal_classes: String,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

/// What a tap with a D limit may be below its greatest pitch diameter.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct TapToleranceRow {
    /// Pitch.
    pub pitch_mm: f64,
    /// Tolerance of the pitch diameter.
    pub tolerance_mm: f64,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

/// The tap that a published list names for a class of thread.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct TapRecommendationRow {
    /// The thread.
    pub thread: String,
    /// The internal class.
    pub internal_class: String,
    /// The tap.
    pub tap: String,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

static CLASSES: LazyLock<Vec<TapClassRow>> =
    LazyLock::new(|| read_table(include_str!("../../../data/tap_classes.csv")));
static TOLERANCES: LazyLock<Vec<TapToleranceRow>> =
    LazyLock::new(|| read_table(include_str!("../../../data/tap_tolerances.csv")));
static RECOMMENDATIONS: LazyLock<Vec<TapRecommendationRow>> =
    LazyLock::new(|| read_table(include_str!("../../../data/tap_recommendations.csv")));

/// The classes of ISO 2857, 1 first.
pub fn tap_classes() -> &'static [TapClassRow] {
    &CLASSES
}

/// The tolerance of a tap with a D limit at a pitch, if the table has it.
pub fn tap_tolerance(pitch: f64) -> Option<&'static TapToleranceRow> {
    TOLERANCES.iter().find(|row| (row.pitch_mm - pitch).abs() < 1e-9)
}

/// The tolerance by which the zones of ISO 2857 are laid out: that of the internal pitch diameter,
/// grade 5, in whole micrometers; with where its cells are from.
pub fn grade_5(thread: &Thread) -> Option<(i64, Vec<Provenance>)> {
    let limits = internal_limits(thread, Some("5H"), None).ok()?;
    match limits.tolerances {
        super::Tolerances::Metric(t) => Some((t.pitch_um, t.sources)),
        _ => None,
    }
}

/// The zone of an ISO class above the basic pitch diameter, in whole micrometers, halves upward.
pub fn tap_class_zone(row: &TapClassRow, grade_5_um: i64) -> (i64, i64) {
    let at = |share: f64| half_up(share * grade_5_um as f64);
    (at(row.lower_share), at(row.upper_share))
}

/// What a published list, or ISO 2857 itself, names for the class of a thread.
pub fn recommended_tap(thread: &Thread, class: &str, marking: TapMarking) -> Option<(TapName, Provenance)> {
    let from = |source: &'static str, trust: &'static str| Provenance { source, trust };
    if marking == TapMarking::IsoClass {
        let row = CLASSES.iter().find(|row| row.internal_classes.split(' ').any(|one| one == class))?;
        return Some((TapName::read(&row.name).ok()?, from(&row.source, &row.trust)));
    }
    let same = |row: &&TapRecommendationRow| {
        row.internal_class == class
            && super::read(&row.thread)
                .is_ok_and(|listed| listed.system == thread.system && listed.designation == thread.designation)
    };
    RECOMMENDATIONS.iter().filter(same).find_map(|row| {
        let name = TapName::read(&row.tap).ok().filter(|name| name.marking == marking)?;
        Some((name, from(&row.source, &row.trust)))
    })
}

#[cfg(test)]
mod tests {
    use super::super::read;
    use super::*;

    #[test]
    fn a_marking_is_read_and_written_back() {
        for text in ["H1", "H12", "L1", "L2", "D5", "ISO 1", "ISO 3"] {
            assert_eq!(TapName::read(text).unwrap().text(), text);
        }
        assert_eq!(TapName::read("gh3").unwrap().text(), "H3");
        assert_eq!(TapName::read("iso2").unwrap().text(), "ISO 2");
        for text in ["", "3", "H0", "H", "ISO 4", "DU4", "6H", "H3.5"] {
            assert!(TapName::read(text).is_err(), "{text}");
        }
    }

    #[test]
    fn every_row_of_the_tables_reads_and_suits_its_thread() {
        assert_eq!(tap_classes().iter().map(|row| row.name.as_str()).collect::<Vec<_>>(), ["ISO 1", "ISO 2", "ISO 3"]);
        assert!(TOLERANCES.windows(2).all(|w| w[0].pitch_mm < w[1].pitch_mm && w[0].tolerance_mm <= w[1].tolerance_mm));
        for row in RECOMMENDATIONS.iter() {
            let thread = read(&row.thread).unwrap();
            let name = TapName::read(&row.tap).unwrap();
            assert!(name.marking.suits(thread.system), "{}", row.thread);
            let found = recommended_tap(&thread, &row.internal_class, name.marking);
            assert_eq!(found.map(|(name, _)| name), Some(name), "{}", row.thread);
            assert!(crate::sources::source(&row.source).is_some(), "{}", row.source);
        }
    }

    #[test]
    fn what_a_list_names_leaves_a_hole_of_its_own_size_within_the_class() {
        for row in RECOMMENDATIONS.iter() {
            let thread = read(&row.thread).unwrap();
            let name = TapName::read(&row.tap).unwrap();
            let limits = internal_limits(&thread, Some(&row.internal_class), None).unwrap();
            let top = f64::from(name.number) * name.marking.step();
            assert!(top <= limits.pitch_max - limits.pitch_min + 1e-9, "{} {}", row.thread, row.internal_class);
        }
    }
}
