//! The hole before a taper pipe tap without reaming: for NPT near the minor diameter at the small
//! end, K0 of ASME B1.20.1, and the drill that a tap maker prints; for Rc a printed list alone.

use super::steps::{drill_for, printed_drill, tell_drills};
use super::thread::size_and_pitch;
use super::{AROUND, TapDrillChosen, TapDrillPublished, TapDrillResult, TapDrillRow};
use crate::calculators::prelude::*;
use crate::reference::drills::{Drill, DrillSystem};
use crate::reference::threads::{basics, npt, published_tap_drill};
use crate::shop::DrillsToChoose;

/// Finds the hole of a taper thread.
pub fn solve(
    designation: &Designation,
    (all, systems): (DrillsToChoose, &[DrillSystem]),
    oversize: Extent,
    record: &mut Record,
) -> Result<TapDrillResult, Refusal> {
    let (thread, unit) = (&designation.thread, designation.unit());
    size_and_pitch(designation, record);
    let printed = published_tap_drill(thread);
    let diameter = printed.map(|printed| printed_drill(printed, designation, record));
    let over = oversize.quantity().in_unit(unit);
    let hole_diameter: FoundSize = match (npt(thread), diameter) {
        (Some(npt), _) => {
            let minor = designation.found(npt.small_end_minor);
            record.source("asme_b1_20_1", "minor diameter at the small end, K0, near which the hole should be");
            record
                .look_up(
                    "Hole: the minor diameter at the small end, K0",
                    "ASME B1.20.1: E0 less 0.8 of the pitch, to 0.00001 in",
                )
                .with("T", "thread", designation.text())
                .gives("hole_diameter", minor);
            let of = "Diameter of the thread at its gauge plane";
            record
                .look_up(of, "ASME B1.20.1: E1 and 0.8 of the pitch, to 0.00001 in")
                .with("T", "thread", designation.text())
                .gives("thread_diameter", designation.found(basics(thread).major));
            minor
        }
        (None, Some(diameter)) => {
            step!(record, "Hole: that of the printed drill", h: hole_diameter = d + o,
                d = "published.diameter": diameter, o = expected_oversize: oversize)
        }
        (None, None) => {
            return Err(Refusal::no_answer(
                "No drill is known here for this size of Rc; bore the hole after the tap maker's data.",
                &[("thread", "Rc 1".into())],
            ));
        }
    };
    let drill = hole_diameter.quantity().in_unit(unit) - over;
    if drill <= 0.0 {
        return Err(Refusal::no_answer(
            "The hole for this thread is no larger than the expected oversize, so no drill would make it.",
            &[("expected_oversize", "0 in".into())],
        ));
    }
    let drill_diameter = drill_for(hole_diameter, oversize, record);
    record.note(
        "taper_without_reaming",
        "The hole is drilled straight and the taper tap cuts the cone; the drill is for tapping without a taper reamer, \
         which needs a smaller one. Try how far the plug gauge goes in by hand.",
    );
    let near = near(all.drills, systems, |found: &Drill| found.size().quantity().in_unit(unit), drill);
    let hole_of = |found: FoundSize| designation.found(found.quantity().in_unit(unit) + over);
    let candidates: Vec<_> = near.iter().map(|drill| TapDrillRow::of(drill, hole_of(drill.found()))).collect();
    if !candidates.is_empty() {
        let table = format!("{}: three each side of the exact size", all.place());
        tell_drills(&candidates, &near, table, (drill_diameter, oversize), record);
    }
    if let Some(diameter) = diameter {
        let _: FoundSize = step!(record, "Hole of the printed drill", h: "published.hole_diameter" = d + o,
            d = "published.diameter": diameter, o = expected_oversize: oversize);
    }
    let published = printed.zip(diameter).map(|(printed, diameter)| TapDrillPublished {
        name: &printed.drill,
        diameter,
        hole_diameter: hole_of(diameter),
        thread_percent: None,
        within_class: None,
    });
    let drill = match &published {
        Some(published) => {
            record
                .choose("Drill to take", "the one that the table prints")
                .with("d", "published.diameter", published.diameter)
                .gives("drill.diameter", published.diameter);
            record.look_up("Its name", "table of tap drills").gives("drill.name", published.name);
            Some(TapDrillChosen { name: published.name, diameter: published.diameter, thread_percent: None })
        }
        None => nearest(&candidates, drill, unit, record),
    };
    Ok(TapDrillResult { drill_diameter, hole_diameter, minor_limits: None, drill, published, candidates })
}

/// Three stock drills each side of a size.
fn near(
    all: &[&'static Drill],
    systems: &[DrillSystem],
    size: impl Fn(&Drill) -> f64,
    wanted: f64,
) -> Vec<&'static Drill> {
    let of_systems: Vec<&'static Drill> = all.iter().copied().filter(|drill| systems.contains(&drill.system)).collect();
    let below = of_systems.iter().filter(|drill| size(drill) <= wanted).count();
    let (first, last) = (below.saturating_sub(AROUND), (below + AROUND).min(of_systems.len()));
    of_systems[first.min(last)..last].to_vec()
}

fn nearest(candidates: &[TapDrillRow], wanted: f64, unit: Unit, record: &mut Record) -> Option<TapDrillChosen> {
    let off = |row: &&TapDrillRow| (row.diameter.quantity().in_unit(unit) - wanted).abs();
    // Beyond the largest drills the nearest is not near.
    let row = candidates.iter().min_by(|a, b| off(a).total_cmp(&off(b))).filter(|row| off(row) < 0.02 * wanted);
    let Some(row) = row else {
        record.note("no_stock_drill", "No stock drill of the systems named is near this hole; bore it.");
        return None;
    };
    let nearest = "the stock drill nearest to the exact size, as no table prints one";
    tell!(record.choose("Drill to take", nearest), d = candidates.diameter => "drill.diameter": row.diameter);
    record.look_up("Its name", "that of the same drill").gives("drill.name", row.name);
    Some(TapDrillChosen { name: row.name, diameter: row.diameter, thread_percent: None })
}
