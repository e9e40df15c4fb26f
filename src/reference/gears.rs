//! Standard pitches of gears and the sets of form cutters for their teeth, from data/gear_pitches.csv and
//! data/gear_cutters.csv.

use super::{rows_of, source_key};
use serde::Deserialize;
use std::sync::LazyLock;

/// A standard module or diametral pitch.
#[derive(Debug, Deserialize)]
pub struct GearPitch {
    /// `module` in mm, or `diametral pitch` in teeth for each inch.
    pub system: String,
    /// The series that it belongs to.
    pub series: String,
    /// Its value.
    pub value: f64,
    source: String,
    /// How far the row can be relied on.
    pub trust: String,
}

impl GearPitch {
    /// Key of its source.
    pub fn source(&self) -> &'static str {
        source_key(&self.source)
    }

    /// Whether it is a module.
    pub fn is_module(&self) -> bool {
        self.system == "module"
    }

    /// The module in meters.
    pub fn module(&self) -> f64 {
        if self.is_module() { self.value / 1000.0 } else { 0.0254 / self.value }
    }

    /// What the trade calls it.
    pub fn name(&self) -> String {
        if self.is_module() { format!("module {}", self.value) } else { format!("{} pitch", self.value) }
    }
}

/// A form cutter of a set.
#[derive(Debug, Deserialize)]
pub struct GearCutter {
    /// Its number in a set for diametral pitch.
    pub number: String,
    /// Fewest teeth that it cuts.
    pub teeth_from: u32,
    /// Most teeth that it cuts; none for the cutter that goes to the rack.
    pub teeth_to: Option<u32>,
    /// Its number in a module set; half numbers have none.
    pub module_number: Option<u32>,
    source: String,
    /// How far the row can be relied on.
    pub trust: String,
}

impl GearCutter {
    /// Key of its source.
    pub fn source(&self) -> &'static str {
        source_key(&self.source)
    }

    fn cuts(&self, teeth: u32) -> bool {
        self.teeth_from <= teeth && self.teeth_to.is_none_or(|most| teeth <= most)
    }
}

static PITCHES: LazyLock<Vec<GearPitch>> =
    LazyLock::new(|| rows_of(include_str!("../../data/gear_pitches.csv")).collect());

static CUTTERS: LazyLock<Vec<GearCutter>> =
    LazyLock::new(|| rows_of(include_str!("../../data/gear_cutters.csv")).collect());

/// Every standard pitch.
pub fn gear_pitches() -> &'static [GearPitch] {
    &PITCHES
}

/// The cutter of the set of eight for so many teeth; none cuts fewer than 12.
pub fn cutter_for(teeth: u32) -> Option<&'static GearCutter> {
    CUTTERS.iter().find(|row| row.module_number.is_some() && row.cuts(teeth))
}

/// The half number of the set of fifteen, where it comes nearer to so many teeth.
pub fn half_cutter_for(teeth: u32) -> Option<&'static GearCutter> {
    CUTTERS.iter().find(|row| row.module_number.is_none() && row.cuts(teeth))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_has_a_source_and_every_count_from_12_a_cutter() {
        for key in gear_pitches().iter().map(GearPitch::source).chain(CUTTERS.iter().map(GearCutter::source)) {
            assert!(!key.is_empty());
        }
        for teeth in 12..=400 {
            let of_eight = CUTTERS.iter().filter(|row| row.module_number.is_some() && row.cuts(teeth)).count();
            assert_eq!(of_eight, 1, "{teeth}");
        }
        assert!(cutter_for(11).is_none());
        let both = |teeth| {
            (cutter_for(teeth).map(|row| row.number.as_str()), half_cutter_for(teeth).map(|row| row.number.as_str()))
        };
        assert_eq!(both(12), (Some("8"), None));
        assert_eq!(both(34), (Some("4"), Some("3-1/2")));
        assert_eq!(both(135), (Some("1"), None));
    }

    #[test]
    fn cutter_numbers_of_the_two_systems_count_against_each_other() {
        for row in CUTTERS.iter() {
            match row.module_number {
                Some(module) => assert_eq!(row.number.parse::<u32>().ok(), Some(9 - module)),
                None => assert!(row.number.ends_with("-1/2")),
            }
        }
    }
}
