//! The drill for a clearance hole: the one that the standard names, else the smallest at hand that the screw's hole allows.

use super::ScrewAndFit;
use crate::declared::{Gives, step};
use crate::quantity::{FoundDifference, FoundSize, Unit};
use crate::reference::drills::{Drill, DrillSystem};
use crate::reference::screws::ClearanceHole;
use crate::refusal::Refusal;
use crate::shop::{DrillsFrom, drills_from};
use crate::tell;
use crate::working::Record;

/// What differs by less than this, in meters, is one size.
const SAME: f64 = 1e-9;

/// The drill for a clearance hole.
#[derive(Debug, Gives)]
pub struct HoleDrill {
    /// The trade's name for the drill.
    #[label("")]
    pub name: &'static str,
    /// Its diameter.
    #[label("Size")]
    pub diameter: FoundSize,
    /// How much larger it is than the hole of the standard.
    #[label("Larger by")]
    pub larger_by: FoundDifference,
    /// Whether it lies within the limits of the hole.
    #[label("Within the limits")]
    pub within: bool,
}

impl HoleDrill {
    /// The drill to take of those at hand, on record; none where all are too small.
    pub fn choose(of: &ScrewAndFit, hole: &ClearanceHole, record: &mut Record) -> Result<Option<Self>, Refusal> {
        let all = drills_from(of.from, record)?;
        let (own, says) = if all.from == DrillsFrom::Shop {
            (DrillSystem::ALL.to_vec(), "Every drill in the drawer is at hand.")
        } else if of.screw.unit == Unit::Inch {
            let inch = vec![DrillSystem::Fraction, DrillSystem::Number, DrillSystem::Letter];
            (inch, "Inch drills for an inch screw; name metric too if they are at hand.")
        } else {
            (vec![DrillSystem::Metric], "Metric drills for a metric screw; name more systems if they are at hand.")
        };
        let systems = record.or_assume(of.systems.clone(), "systems", own, says);
        let drills = all.of_systems(&systems);
        let size = |drill: &Drill| drill.size().quantity().si();
        let (least, greatest) = (hole.least.quantity().si(), hole.greatest.quantity().si());
        // A standard in thousandths names a drill that it rounds: 17/64 for .266.
        let named = drills.iter().find(|drill| Some(drill.name) == hole.drill);
        let Some(&drill) = named.or_else(|| drills.iter().find(|drill| size(drill) >= least - SAME)) else {
            let says = format!("Of the {}, none of these systems is large enough: bore or mill the hole.", all.place());
            record.note("no_drill_large_enough", says);
            return Ok(None);
        };
        let within = size(drill) <= greatest + SAME;
        if !within {
            record.note(
                "drill_over_limit",
                "No drill at hand lies within the limits of the hole. The next larger one leaves the head less to bear on: \
                 use a washer, or ream, bore or mill the hole.",
            );
        }
        record.source_trusted(drill.source, "diameter of the drill", drill.trust);
        let diameter = drill.found();
        let rule = format!("{}: the one that the standard names, else the smallest that is not below H", all.place());
        tell!(record.look_up("Drill for the hole", rule), H = hole_diameter: hole.least => "drill.name": drill.name);
        tell!(record.look_up("Its diameter", "drill sizes, row of that name") => "drill.diameter": diameter);
        let larger_by: FoundDifference = step!(record, "How much larger it is than the hole of the standard",
            Δ: "drill.larger_by" = d - H, d = "drill.diameter": diameter, H = hole_diameter: hole.least);
        tell!(record.look_up("Within the limits of the hole", "true where it is not above K"),
            d = "drill.diameter": diameter, K = hole_max: hole.greatest
            => "drill.within": if within { "true" } else { "false" });
        Ok(Some(Self { name: drill.name, diameter, larger_by, within }))
    }
}
