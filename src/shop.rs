//! The shop: what it owns, from a small file read once at the start. Its machines stand in for
//! fields of a request, and its drawer of drills for the tables.

mod drawer;
mod drills_to_choose;
mod fault;
mod inventory;
mod machines;
mod owned;
mod pieces;
mod reader;
#[cfg(test)]
mod tests;

pub use drills_to_choose::{DrillsFrom, DrillsToChoose, drills_from, of_tables};
pub use fault::{Fault, Faults};
pub use inventory::{Shop, install, installed};
pub use machines::{FEEDS_OF_THE_TABLE, MACHINE_FIELDS, Machine};
pub use owned::{change_gears, tell_reamer, tell_tap};
