//! The exact hole for a percentage of thread, each drill's share of thread, and whether its hole keeps
//! within the class: percentage as Machinery's Handbook counts it, of 55 degree, Acme and trapezoidal
//! threads as a share of their own height; forming taps as tap makers print it.

use super::height::Full;
use super::{MinorLimits, TapDrillPublished, TapDrillRow, TapKind};
use crate::calculators::prelude::*;
use crate::reference::drills::Drill;
use crate::reference::threads::{TapDrillRow as Printed, ThreadSystem};
use crate::threading::room_left;

const WITHIN: &str = "true where the hole is neither below k2 nor above k1";

/// The exact hole, and what any drill would leave; lengths in the thread's unit.
pub struct Hole {
    /// The exact hole.
    pub exact: f64,
    /// The exact hole as a result.
    pub hole_diameter: FoundSize,
    /// The drill for it.
    pub drill_diameter: FoundSize,
    oversize: Extent,
    size: FoundSize,
    pitch: FoundSize,
    /// The diameter that a full thread takes.
    full: f64,
    height: Full,
    unit: Unit,
    bounds: Option<(FoundLowerLimit, FoundUpperLimit)>,
}

impl Hole {
    /// Works out the exact hole.
    pub fn find(
        designation: &Designation,
        (size, pitch): (FoundSize, FoundSize),
        tap: TapKind,
        wanted: ThreadPercent,
        oversize: Extent,
        limits: Option<&MinorLimits>,
        record: &mut Record,
    ) -> Result<Self, Refusal> {
        let thread = &designation.thread;
        let unit = designation.unit();
        let height = Full::of(designation, tap, pitch, record);
        let full = height.amount(thread.pitch);
        let exact = thread.diameter - full * wanted.get().si();
        let hole_diameter = designation.found(exact);
        match height {
            Full::Triangle => {
                record.source("mh31", "p. 2155: the full height is three quarters of the triangle, 1.299 of the pitch");
            }
            Full::Forming => notes!(record => class_after_forming:
                "A forming tap raises the crests out of the metal, so the hole before it lies outside the class: check \
                 the minor diameter against its limits after tapping, first on a trial piece."),
            Full::Height(_) => {
                let source = if thread.system == ThreadSystem::Whitworth { "bs_84" } else { "iso_228_1" };
                record.source(source, "height of the thread, which counts as the full one");
            }
            Full::Pitch => record.source("geometry", "half the pitch on each side counts as the full height"),
        }
        height
            .step("Hole for the percentage", "H = D - # × q", pitch, record)
            .with("D", "size", size)
            .with("q", "thread_percent", wanted)
            .gives("hole_diameter", hole_diameter);
        let drill_diameter = drill_for(hole_diameter, oversize, record)?;
        let bounds = limits.map(|limits| (limits.minor_min, limits.minor_max));
        let hole = Self {
            exact,
            hole_diameter,
            drill_diameter,
            oversize,
            size,
            pitch,
            full,
            height,
            unit,
            bounds: bounds.filter(|_| tap == TapKind::Cutting),
        };
        if hole.keeps(exact) == Some(false) {
            notes!(record => percentage_outside_class:
                "The hole for exactly this percentage lies outside the limits of the class; the class comes first.");
        }
        Ok(hole)
    }

    /// The hole that a drill leaves.
    pub fn of(&self, drill: &Drill) -> f64 {
        drill.size().quantity().in_unit(self.unit) + self.oversize.quantity().in_unit(self.unit)
    }

    /// The share of the full thread that a drill leaves.
    pub fn share(&self, drill: &Drill) -> f64 {
        (self.size.quantity().value - self.of(drill)) / self.full
    }

    /// Whether a drill's hole lies within the class; `None` where that does not count.
    pub fn within(&self, drill: &Drill) -> Option<bool> {
        self.keeps(self.of(drill))
    }

    fn keeps(&self, hole: f64) -> Option<bool> {
        let (least, greatest) = self.bounds?;
        // Far below any place that is printed, and above what a sum of two sizes is off by.
        Some(hole >= least.quantity().value - 1e-9 && hole <= greatest.quantity().value + 1e-9)
    }

    /// The rows of the drills, column by column.
    /// `place` says where the drills are.
    pub fn rows(&self, drills: &[&'static Drill], place: &str, record: &mut Record) -> Vec<TapDrillRow> {
        if drills.is_empty() {
            return Vec::new();
        }
        let row = |drill: &&'static Drill| TapDrillRow {
            thread_percent: Some(FoundThreadPercent::stated(100.0 * self.share(drill), Unit::Percent)),
            within_class: self.within(drill),
            room: self.bounds.map(|(_, greatest)| room_left(greatest.quantity().value, self.of(drill), self.unit)),
            ..TapDrillRow::of(drill, FoundSize::stated(self.of(drill), self.unit))
        };
        let candidates: Vec<TapDrillRow> = drills.iter().map(row).collect();
        let table = match self.bounds {
            Some(_) => {
                format!("{place}: those whose hole lies within the class, and three each side of the exact size")
            }
            None => format!("{place}: three each side of the exact size"),
        };
        tell_drills(&candidates, drills, table, (self.drill_diameter, self.oversize), record);
        tell!(self.height.step("Their share of thread", "q = (D - h) / (#)", self.pitch, record),
            D = size: self.size, h = candidates.hole_diameter => candidates.thread_percent);
        if let Some((least, greatest)) = self.bounds {
            tell!(record.look_up("Within the class", WITHIN), h = candidates.hole_diameter,
                k2 = "minor_limits.minor_min": least, k1 = "minor_limits.minor_max": greatest
                => candidates.within_class);
            tell!(record.step("Room up to the greatest minor diameter", "r = k1 - h"), h = candidates.hole_diameter,
                k1 = "minor_limits.minor_max": greatest => candidates.room);
        }
        candidates
    }

    /// The drill that a table prints for the thread, with what it leaves.
    pub fn published(
        &self,
        printed: &'static Printed,
        designation: &Designation,
        record: &mut Record,
    ) -> TapDrillPublished {
        let diameter = printed_drill(printed, designation, record);
        let hole = diameter.quantity().in_unit(self.unit) + self.oversize.quantity().in_unit(self.unit);
        let share = (self.size.quantity().value - hole) / self.full;
        if !(1e-9..=1.0 + 1e-9).contains(&share) {
            record.note("printed_drill_unfit", "The drill that a table prints for this thread leaves no thread here.");
        }
        let hole_diameter: FoundSize = step!(record, "Its hole", h: "published.hole_diameter" = d + o,
            d = "published.diameter": diameter, o = expected_oversize: self.oversize);
        let thread_percent = FoundThreadPercent::stated(100.0 * share, Unit::Percent);
        tell!(self.height.step("Its share of thread", "q = (D - h) / (#)", self.pitch, record),
            D = size: self.size, h = "published.hole_diameter": hole_diameter
            => "published.thread_percent": thread_percent);
        let within_class = self.keeps(hole);
        if let (Some(within), Some((least, greatest))) = (within_class, self.bounds) {
            tell!(record.look_up("Within the class", WITHIN), h = "published.hole_diameter": hole_diameter,
                k2 = "minor_limits.minor_min": least, k1 = "minor_limits.minor_max": greatest
                => "published.within_class": within);
        }
        let (name, thread_percent) = (printed.drill.as_str(), Some(thread_percent));
        TapDrillPublished { name, diameter, hole_diameter, thread_percent, within_class }
    }
}

/// Name and diameter of a printed drill, on record.
pub fn printed_drill(printed: &'static Printed, designation: &Designation, record: &mut Record) -> FoundSize {
    record.source_of_row(&printed.source, format!("drill for {}", designation.thread.designation), &printed.trust);
    let diameter = printed.found();
    tell!(record.look_up("Drill that a table prints for the thread", "table of tap drills"),
        T = thread: designation.text() => "published.name": printed.drill.as_str());
    record.look_up("Its diameter", "table of tap drills").gives("published.diameter", diameter);
    diameter
}

/// The drill for a hole.
pub fn drill_for(hole_diameter: FoundSize, oversize: Extent, record: &mut Record) -> Result<FoundSize, Refusal> {
    let Quantity { value, unit, .. } = hole_diameter.quantity();
    let drill = value - oversize.quantity().in_unit(unit);
    // The reader takes no thread that is deeper than half its size, so only the oversize can use up the hole.
    if drill <= 0.0 {
        let says = "The hole for this thread is no larger than the expected oversize, so no drill would make it.";
        return Err(Refusal::no_answer(says, &[("expected_oversize", "0 in".into())]));
    }
    let drill_diameter = FoundSize::stated(drill, unit);
    tell!(record.step("Drill for that hole", "d = H - o"),
        H = hole_diameter, o = expected_oversize: oversize => drill_diameter);
    Ok(drill_diameter)
}

/// The rows of drills as far as they do not depend on the thread, column by column.
pub fn tell_drills(
    candidates: &[TapDrillRow],
    drills: &[&'static Drill],
    table: String,
    (drill_diameter, oversize): (FoundSize, Extent),
    record: &mut Record,
) {
    for drill in drills {
        record.source_trusted(drill.source, "diameters of stock drills", drill.trust);
    }
    let stock = "tables of stock drills";
    tell!(record.look_up("Stock drills near", table), d = drill_diameter => candidates.name);
    tell!(record.look_up("Their systems", stock) => candidates.system);
    tell!(record.look_up("Their diameters", stock) => candidates.diameter);
    tell!(record.step("Their holes", "h = d + o"),
        d = candidates.diameter, o = expected_oversize: oversize => candidates.hole_diameter);
}

impl TapDrillRow {
    /// A drill and its hole, without what depends on the thread.
    pub fn of(drill: &'static Drill, hole_diameter: FoundSize) -> Self {
        let (name, system) = (drill.name, drill.system.as_str());
        Self {
            name,
            system,
            diameter: drill.found(),
            hole_diameter,
            thread_percent: None,
            within_class: None,
            room: None,
        }
    }
}
