//! The shop: what it owns, from a small file read once at the start. Its machines stand in for
//! fields of a request, and its drawer of drills for the tables.

mod drawer;
mod fault;
mod machines;
mod owned;
mod pieces;
mod reader;
#[cfg(test)]
mod tests;

pub use drawer::{DrillsFrom, DrillsToChoose, drills_from};
pub use fault::{Fault, Faults};
pub use machines::{MACHINE_FIELDS, Machine};
pub use owned::{change_gears, tell_reamer, tell_tap};

use crate::quantity::Size;
use crate::reference::drill_diameter::DrillDiameter;
use crate::reference::drills::Drill;
use crate::reference::threads::Thread;
use sha2::{Digest, Sha256};
use std::path::Path;
use std::sync::OnceLock;

/// What a shop owns, as its file says. Gauge blocks are read and checked; no calculator chooses from them
/// yet.
#[derive(Debug)]
pub struct Shop {
    /// The shop's name.
    pub name: String,
    /// The beginning of a SHA-256 over the file.
    pub hash: String,
    /// Its machines, by name.
    pub machines: Vec<Machine>,
    /// The drills in the drawer, smallest first.
    pub drills: Vec<&'static Drill>,
    /// Its taps, by the thread they cut.
    pub taps: Vec<Thread>,
    /// Its reamers.
    pub reamers: Vec<DrillDiameter>,
    /// Its gauge blocks, piece by piece.
    pub gauge_blocks: Vec<Size>,
    /// Teeth of its change gears, piece by piece.
    pub change_gears: Vec<u32>,
}

impl Shop {
    /// Reads the text of a shop's file; all that is wrong with it is said at once.
    pub fn read(text: &str) -> Result<Self, Faults> {
        let hash = Sha256::digest(text).iter().take(6).map(|byte| format!("{byte:02x}")).collect();
        reader::read(text).map(|shop| Self { hash, ..shop })
    }

    /// Reads a shop's file; the error says which file, which line and why.
    pub fn load(path: &Path) -> Result<Self, String> {
        let name = path.display();
        let text = std::fs::read_to_string(path).map_err(|error| format!("--shop {name}: {error}"))?;
        Self::read(&text).map_err(|faults| format!("--shop {name}:\n{faults}"))
    }

    /// The machine of that name.
    pub fn machine(&self, name: &str) -> Option<&Machine> {
        self.machines.iter().find(|machine| machine.name == name)
    }
}

static SHOP: OnceLock<Shop> = OnceLock::new();

/// Makes `shop` the one that this process answers for. It is set once, before the first request;
/// a second one is given back.
pub fn install(shop: Shop) -> Result<(), Box<Shop>> {
    SHOP.set(shop).map_err(Box::new)
}

/// The shop that this process answers for, if a file was given.
pub fn installed() -> Option<&'static Shop> {
    SHOP.get()
}

/// The hash of the shop's file: what an answer depends on beside the request and the tables.
pub fn hash() -> Option<&'static str> {
    installed().map(|shop| shop.hash.as_str())
}

/// The drills in the drawer, smallest first; `None` where no shop with drills is set.
pub fn drawer() -> Option<&'static [&'static Drill]> {
    installed().map(|shop| shop.drills.as_slice()).filter(|drills| !drills.is_empty())
}
