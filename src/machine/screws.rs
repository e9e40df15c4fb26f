//! The play of a table's screws, and what it means for a cut that pulls the table.

use crate::cautions;
use crate::declared::Asks;
use crate::quantity::Extent;
use crate::working::Record;

/// The screws of a machine as a request states them.
#[derive(Clone, Copy, Debug, Default, Asks)]
pub struct Screws {
    /// Play of the table's screws, as the handwheel shows it; climb cuts are warned of where there is any, and nothing is said of it if absent.
    pub backlash: Option<Extent>,
}

impl Screws {
    /// Warns of climb cuts: where the cut climbs, and on screws with play always, since a slot or a pocket climbs on one
    /// of its sides whichever way is meant.
    pub fn warn(&self, climbs: bool, record: &mut Record) {
        if climbs || self.backlash.is_some_and(|play| play.quantity().si() > 0.0) {
            record.caution(cautions::CLIMB_MILLING);
        }
    }
}
