//! The fits that the standards prefer, each with the job it is for, from data/preferred_fits.csv.

use super::{rows_of, source_key};
use crate::sources::Trust;
use serde::Deserialize;
use std::sync::LazyLock;

crate::choice! {
    /// What the fit is to do: run (`loose_running`, `free_running`, `running`), `sliding` by hand, `locating` by hand, `tapping` together
    /// with a mallet, `pressing` for location, `driving` or `shrinking` to hold by force.
    FitJob {
        /// Runs with much play.
        LooseRunning = "loose_running" | "loose",
        /// Runs freely.
        FreeRunning = "free_running" | "free",
        /// Runs closely.
        Running = "running" | "run",
        /// Moves and turns by hand.
        Sliding = "sliding" | "slide",
        /// Put together by hand.
        Locating = "locating" | "location",
        /// Put together with a mallet.
        Tapping = "tapping" | "transition",
        /// Pressed for location.
        Pressing = "pressing" | "press",
        /// Driven to hold.
        Driving = "driving" | "drive",
        /// Forced or shrunk to hold.
        Shrinking = "shrinking" | "shrink",
    }
}

crate::choice! {
    /// The standard whose fits are listed: `iso`, metric after ISO 286, or `ansi`, inch after ANSI B4.1.
    FitStandard {
        /// ISO 286.
        Iso = "iso",
        /// ANSI B4.1.
        Ansi = "ansi",
    }
}

/// A preferred fit.
#[derive(Debug)]
pub struct PreferredFit {
    /// Whose it is.
    pub standard: FitStandard,
    /// Its classes, such as H7/g6, or its name, such as RC5.
    pub name: &'static str,
    /// The job it is for.
    pub job: FitJob,
    /// The job in words.
    pub says: &'static str,
    /// Key of the source.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
}

#[derive(Deserialize)]
struct Row {
    standard: FitStandard,
    name: String,
    job: FitJob,
    says: String,
    source: String,
    trust: Trust,
}

static ROWS: LazyLock<Vec<PreferredFit>> = LazyLock::new(|| {
    rows_of(include_str!("../../data/preferred_fits.csv"))
        .map(|row: Row| PreferredFit {
            standard: row.standard,
            name: row.name.leak(),
            job: row.job,
            says: row.says.leak(),
            source: source_key(&row.source),
            trust: row.trust,
        })
        .collect()
});

/// Every preferred fit of a standard, from loose to tight, those on the hole first.
pub fn preferred_fits(standard: FitStandard) -> impl Iterator<Item = &'static PreferredFit> {
    ROWS.iter().filter(move |fit| fit.standard == standard)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reference::fits::ToleranceClass;
    use crate::reference::inch_fits::InchFitClass;

    #[test]
    fn every_preferred_fit_has_limits() {
        for fit in preferred_fits(FitStandard::Iso) {
            let (hole, shaft) = fit.name.split_once('/').expect("two classes");
            for (class, is_hole) in [(hole, true), (shaft, false)] {
                let class = ToleranceClass::read(class).expect("a class");
                assert!(class.is_hole == is_hole && class.limits(25.0).is_ok(), "{}", fit.name);
            }
        }
        let names: Vec<&str> = preferred_fits(FitStandard::Ansi).map(|fit| fit.name).collect();
        assert_eq!(names, InchFitClass::ALL.map(InchFitClass::as_str));
        assert!(ROWS.iter().all(|fit| !fit.source.is_empty()));
    }
}
