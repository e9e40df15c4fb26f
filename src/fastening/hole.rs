//! The clearance hole of a screw, its limits, what it leaves the screw, and charts that differ.

use super::{HoleDrill, HoleFit, ScrewAndFit, not_listed};
use crate::declared::{Gives, in_sentence, step};
use crate::quantity::{FoundExtent, FoundSize, FoundUpperLimit, System};
use crate::reference::screws::{ClearanceHole, ClearanceRow, ScrewSize, clearance_row};
use crate::refusal::Refusal;
use crate::tell;
use crate::tree::{IntoTree, Node};
use crate::working::Record;

/// The hole that a screw passes through.
#[derive(Debug, Gives)]
pub struct ThroughHole {
    /// The drill to take: the smallest at hand within the limits of the hole, or the one that the standard names; where none
    /// lies within them, the next one over the hole. Absent where no drill at hand is that large.
    #[label("Drill")]
    pub drill: Option<HoleDrill>,
    /// Least diameter of the clearance hole, by which it is called.
    #[label("Clearance hole")]
    pub hole_diameter: FoundSize,
    /// Greatest diameter of the hole.
    #[label("Clearance hole, greatest")]
    pub hole_max: FoundUpperLimit,
    /// The standard that gives the hole.
    #[label("Standard of the hole")]
    pub hole_standard: &'static str,
    /// Play of the screw in the least hole.
    #[label("Play of the screw")]
    pub play: FoundExtent,
}

impl ScrewSize {
    /// The screw as answers write it.
    pub fn text(&self) -> String {
        match self.tree() {
            Some(Node::Text(text, _)) => text.into_owned(),
            _ => self.name.clone(),
        }
    }

    /// Its diameter as a step named `screw_diameter`.
    pub fn tell(&self, record: &mut Record) -> FoundSize {
        let screw_diameter = self.found();
        tell!(record.look_up("Diameter of the screw", format!("size of {}", self.text())) => screw_diameter);
        screw_diameter
    }
}

/// The row of a screw, or the refusal that there is none.
pub fn clearance_of(screw: &ScrewSize) -> Result<&'static ClearanceRow, Refusal> {
    clearance_row(screw).map_err(|nearest| not_listed("clearance hole", screw, &nearest))
}

impl ScrewAndFit {
    /// The hole and the drill for it, on record.
    pub fn hole(&self, record: &mut Record) -> Result<ThroughHole, Refusal> {
        let row = clearance_of(&self.screw)?;
        let fit = self.fit(record);
        let hole = row.hole(fit as usize);
        let screw_diameter = self.screw.tell(record);
        let table = format!("{}, row {}, {} fit", row.standard, row.screw, fit.as_str());
        record.source_of_row(&row.source, format!("{}: {} hole", row.screw, fit.as_str()), &row.trust);
        let trust = if fit == HoleFit::Free { &row.trust } else { &row.limits_trust };
        record.source_of_row(&row.source, format!("{}: greatest {} hole", row.screw, fit.as_str()), trust);
        let (hole_diameter, hole_max) = (hole.least, hole.greatest);
        let hole_standard: &'static str = &row.standard;
        tell!(record.look_up("Standard of the hole", "that of the screw") => hole_standard);
        tell!(record.look_up("Clearance hole", table.clone()) => hole_diameter);
        tell!(record.look_up("Clearance hole, greatest", table) => hole_max);
        let play: FoundExtent = step!(record, "Play of the screw in the least hole",
            p: play = H - d, H = hole_diameter, d = screw_diameter);
        tell_other(row, &hole, record);
        let drill = HoleDrill::choose(self, &hole, record)?;
        Ok(ThroughHole { drill, hole_diameter, hole_max, hole_standard, play })
    }
}

/// Says where another chart has another size.
fn tell_other(row: &'static ClearanceRow, hole: &ClearanceHole, record: &mut Record) {
    let Some(other) = hole.other.filter(|other| other.quantity().value != hole.least.quantity().value) else { return };
    record.source_of_row(&row.other_source, format!("{}: its hole, for comparison", row.screw), &row.other_trust);
    let says = format!(
        "Charts differ: {} {} {} here, and {} has {}. Say which standard the print means.",
        in_sentence_of(&row.other),
        if row.other.ends_with('s') { "have" } else { "has" },
        other.quantity().text(),
        row.standard,
        hole.least.quantity().text()
    );
    record.note("charts_differ", says);
}

/// The name of a chart at the beginning of a sentence's second part.
fn in_sentence_of(name: &str) -> String {
    if name.starts_with("BS") { name.to_owned() } else { in_sentence(name) }
}

impl ThroughHole {
    /// The system of its standard.
    pub fn system(&self) -> Option<System> {
        self.hole_diameter.quantity().unit.system()
    }
}
