//! A screw's hole and the drill for it, with their steps: what every calculator of screw holes begins with (holes after
//! ISO 273 and ASME B18.2.8).

mod drill;
mod hole;

pub use drill::HoleDrill;
pub use hole::{ThroughHole, clearance_of};

use crate::choice;
use crate::declared::Asks;
use crate::quantity::Unit;
use crate::reference::drills::DrillSystem;
use crate::reference::screws::ScrewSize;
use crate::refusal::{Code, Refusal, Wrong};
use crate::rules;
use crate::shop::DrillsFrom;

choice! {
    /// How much room the hole leaves the screw: `close` needs holes placed well, `medium` is usual, `free` takes rough work.
    HoleFit {
        /// Little room.
        Close = "close" | "fine",
        /// The usual room.
        Medium = "medium" | "normal",
        /// Much room.
        Free = "free" | "loose" | "coarse",
    }
}

impl HoleFit {
    /// Every fit, the closest first.
    pub const ALL: [HoleFit; 3] = [HoleFit::Close, HoleFit::Medium, HoleFit::Free];
}

/// A screw and the hole it passes through, as a request states them.
#[derive(Debug, Asks)]
#[asks(check = check_systems)]
pub struct ScrewAndFit {
    /// The screw by its size or its thread: M8, 1/4, No.10, 1/4-20 UNC.
    pub screw: ScrewSize,
    /// How much room the hole leaves the screw: close, medium or free.
    #[label("Fit of the hole")]
    #[absent("medium", "The medium fit is the usual one.")]
    pub fit: Option<HoleFit>,
    /// Systems of drill sizes to choose from: fraction, number, letter, metric; if absent every one of the drawer, or of the
    /// tables the inch ones for an inch screw and metric for a metric one.
    #[label("Drill systems")]
    pub systems: Option<Vec<DrillSystem>>,
    /// Which drills to choose from: those in the shop's drawer, or all of the tables; shop if one with drills is set.
    #[label("Choose from")]
    pub from: Option<DrillsFrom>,
}

rules! { check_systems(ScrewAndFit) {
    never(|input| input.systems.as_ref().is_some_and(Vec::is_empty), Code::ValueEmpty, systems = "metric"):
        "No drill system is named; leave the field out for the usual ones.";
} }

/// The refusal of a screw for which a table has no row: what is lacking, and the nearest that have one, the larger first.
pub fn not_listed(what: &str, screw: &ScrewSize, nearest: &[&str]) -> Refusal {
    let listed = match nearest {
        [] if screw.unit == Unit::Inch => "It is a metric one.".to_owned(),
        [] => "It is an inch one.".to_owned(),
        [one] => format!("The nearest listed is {one}."),
        [larger, smaller, ..] => format!("The nearest listed are {smaller} and {larger}."),
    };
    let other = if screw.unit == Unit::Inch { "M8" } else { "1/4" };
    let good = nearest.first().map_or_else(|| other.to_owned(), |name| stated(name));
    let says = format!("No {what} is listed for {}. {listed}", screw.name);
    Refusal::one(Wrong::new("screw", Code::NotFound, says, good))
}

/// A screw of a table as a request states it.
fn stated(name: &str) -> String {
    let plain = name.starts_with(['M', '#']) || name.contains('/');
    if plain { name.to_owned() } else { format!("{name} in") }
}
