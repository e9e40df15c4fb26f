//! The drills that a calculator chooses from: those in the shop's drawer, or all of the tables.

use super::inventory::installed;
use crate::reference::drills::{Drill, DrillSystem, drills};
use crate::refusal::{Code, Refusal, Wrong};
use crate::working::Record;
use std::sync::LazyLock;

crate::choice! {
    /// Which drills to choose from: those in the `shop`'s drawer, or all of the `tables`.
    DrillsFrom {
        /// The drawer.
        Shop = "shop",
        /// The tables.
        Tables = "tables",
    }
}

/// The drills that a calculator chooses from.
#[derive(Clone, Copy, Debug)]
pub struct DrillsToChoose<'s> {
    /// Where they are.
    pub from: DrillsFrom,
    /// The drills, smallest first.
    pub drills: &'s [&'static Drill],
}

impl DrillsToChoose<'_> {
    /// Those of some systems.
    pub fn of_systems(&self, systems: &[DrillSystem]) -> Vec<&'static Drill> {
        self.drills.iter().copied().filter(|drill| systems.contains(&drill.system)).collect()
    }

    /// Where they are, as a step of the working says it.
    pub const fn place(&self) -> &'static str {
        match self.from {
            DrillsFrom::Shop => "drills in the drawer",
            DrillsFrom::Tables => "drill sizes",
        }
    }
}

/// Those of the tables that are of some systems, owned or not.
pub fn of_tables(systems: &[DrillSystem]) -> Vec<&'static Drill> {
    drills().iter().filter(|drill| systems.contains(&drill.system)).collect()
}

/// The drills to choose from: those of the drawer where a shop with drills is set and the request
/// does not say otherwise. The choice is put on record.
pub fn drills_from(from: Option<DrillsFrom>, record: &mut Record) -> Result<DrillsToChoose<'static>, Refusal> {
    choose_from(from, installed().map(|shop| (shop.name.as_str(), shop.drills.as_slice())), record)
}

/// The same for a given shop: its name and its drills.
pub fn choose_from<'s>(
    from: Option<DrillsFrom>,
    shop: Option<(&str, &'s [&'static Drill])>,
    record: &mut Record,
) -> Result<DrillsToChoose<'s>, Refusal> {
    static ALL: LazyLock<Vec<&'static Drill>> = LazyLock::new(|| drills().iter().collect());
    let shop = shop.filter(|(_, drills)| !drills.is_empty());
    let (default, says) = match shop {
        Some((name, _)) => (DrillsFrom::Shop, format!("Drills are chosen from the drawer of {name}.")),
        None => (DrillsFrom::Tables, "No drill drawer is set up, so every drill of the tables is considered.".into()),
    };
    match (record.or_assume(from, "from", default, says), shop) {
        (from @ DrillsFrom::Tables, _) => Ok(DrillsToChoose { from, drills: &ALL }),
        (from @ DrillsFrom::Shop, Some((_, drills))) => Ok(DrillsToChoose { from, drills }),
        (DrillsFrom::Shop, None) => Err(Refusal::one(Wrong::new(
            "from",
            Code::NotOffered,
            "This service has no drill drawer: it was not started with --shop and a file that lists drills.",
            DrillsFrom::Tables.as_str(),
        ))),
    }
}
