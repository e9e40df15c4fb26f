//! The drill for one new thread: no smaller than what has to go, within the class with room for the usual oversize
//! if any has it, of the thread's own system of sizes if any is, and then nearest to the percentage.

use crate::calculators::prelude::*;
use crate::reference::drills::{Drill, DrillSystem};
use crate::reference::threads::{InternalLimits, Thread, unit_of};
use crate::threading::{room_left, usual_oversize};

/// Where no limits say otherwise, a thread of less than this share of its height is none.
const LEAST_SHARE: f64 = 0.55;
/// What a sum of sizes in two units is off by, and far below any place that is printed.
const NEAR: f64 = 1e-12;

/// What a hole for one new thread must keep to; lengths in meters.
pub struct Bore<'t> {
    /// The new thread.
    pub thread: &'t Thread,
    /// Its full height on the diameter.
    pub full: FoundSize,
    /// Its limits in the usual class.
    pub limits: Option<&'t InternalLimits>,
    /// Diameter of what has to go.
    pub clean: f64,
    /// Whether that was measured: a drill as large as the hole would go through without cutting.
    pub measured: bool,
    /// Share of thread wanted.
    pub wanted: f64,
}

/// Whether a drill takes away what has to go: the old thread if it is as large, a hole that was measured if it is larger.
pub fn reaches(drill: f64, clean: f64, measured: bool) -> bool {
    if measured { drill > clean + NEAR } else { drill >= clean - NEAR }
}

impl Bore<'_> {
    /// The drill to take of these, if one will do.
    pub fn drill(&self, drills: &[&'static Drill]) -> Option<&'static Drill> {
        let sound: Vec<&'static Drill> = drills.iter().copied().filter(|drill| self.is_sound(drill)).collect();
        let off = |drill: &Drill| (self.share(drill) - self.wanted).abs();
        let nearest = sound
            .iter()
            .copied()
            .filter(|drill| self.has_room(drill))
            .min_by(|a, b| self.is_foreign(a).cmp(&self.is_foreign(b)).then(off(a).total_cmp(&off(b))));
        // Without room in any the smallest leaves the most.
        let size = |drill: &Drill| drill.found().get().si();
        nearest.or_else(|| {
            let key =
                |a: &Drill, b: &Drill| self.is_foreign(a).cmp(&self.is_foreign(b)).then(size(a).total_cmp(&size(b)));
            sound.iter().copied().min_by(|a, b| key(a, b))
        })
    }

    /// What the hole leaves up to the greatest minor diameter.
    pub fn room(&self, drill: &Drill) -> Option<FoundDifference> {
        let unit = unit_of(self.thread);
        self.limits.map(|limits| room_left(limits.minor_max, unit.of_si(drill.found().get().si()), unit))
    }

    fn share(&self, drill: &Drill) -> f64 {
        (unit_of(self.thread).to_si(self.thread.diameter) - drill.found().get().si()) / self.full.get().si()
    }

    fn is_sound(&self, drill: &Drill) -> bool {
        let (diameter, unit) = (drill.found().get().si(), unit_of(self.thread));
        let within = match self.limits {
            Some(limits) => {
                diameter >= unit.to_si(limits.minor_min) - NEAR && diameter <= unit.to_si(limits.minor_max) + NEAR
            }
            None => (LEAST_SHARE..=1.0 + 1e-9).contains(&self.share(drill)),
        };
        within && reaches(diameter, self.clean, self.measured)
    }

    fn has_room(&self, drill: &Drill) -> bool {
        let usual = usual_oversize(drill.found()).get().si();
        self.room(drill).is_none_or(|room| room.get().si() >= usual - NEAR)
    }

    /// Whether a drill is of the other system of sizes: an inch thread is tapped in the hole of an inch drill.
    fn is_foreign(&self, drill: &Drill) -> bool {
        (drill.system == DrillSystem::Metric) == self.thread.system.in_inches()
    }
}
