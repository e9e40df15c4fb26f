//! The play of a table's screws, and what it means for a cut that pulls the table.

use crate::cautions;
use crate::declared::Asks;
use crate::quantity::Extent;
use crate::working::Record;

/// The screws of a machine as a request states them.
#[derive(Clone, Copy, Debug, Default, Asks)]
pub struct Screws {
    /// Backlash of the table's screws, as the handwheel shows it; with any, the answer warns of climb milling. No warning for it if absent.
    #[label("Backlash of the table")]
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
