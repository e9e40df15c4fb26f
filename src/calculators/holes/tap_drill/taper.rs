//! The hole before a taper pipe tap without reaming: for NPT near the minor diameter at the small
//! end, K0 of ASME B1.20.1, and the drill that a tap maker prints; for Rc a printed list alone.

use super::steps::{drill_for, printed_drill, tell_drills};
use super::thread::size_and_pitch;
use super::{TapDrillChosen, TapDrillPublished, TapDrillResult, TapDrillRow, around};
use crate::calculators::prelude::*;
use crate::reference::drills::Drill;
use crate::reference::threads::{basics, npt, published_tap_drill};

/// Finds the hole of a taper thread.
pub fn solve(
    designation: &Designation,
    mut drills: Vec<&'static Drill>,
    place: &'static str,
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
            tell!(record.look_up("Hole: the minor diameter at the small end, K0",
                "ASME B1.20.1: E0 less 0.8 of the pitch, to 0.00001 in"),
                T = thread: designation.text() => hole_diameter: minor);
            let of = "Diameter of the thread at its gauge plane";
            tell!(record.look_up(of, "ASME B1.20.1: E1 and 0.8 of the pitch, to 0.00001 in"),
                T = thread: designation.text() => thread_diameter: designation.found(basics(thread).major));
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
    let drill_diameter = drill_for(hole_diameter, oversize, record)?;
    notes!(record => taper_without_reaming:
        "The hole is drilled straight and the taper tap cuts the cone; the drill is for tapping without a taper \
         reamer, which needs a smaller one. Try how far the plug gauge goes in by hand.");
    // Three stock drills each side of the size.
    let wanted = drill_diameter.quantity().in_unit(unit);
    let below = drills.iter().filter(|drill| drill.size().quantity().in_unit(unit) <= wanted).count();
    let near = drills.drain(around(below, drills.len())).collect::<Vec<_>>();
    let hole_of = |found: FoundSize| designation.found(found.quantity().in_unit(unit) + over);
    let candidates: Vec<_> = near.iter().map(|drill| TapDrillRow::of(drill, hole_of(drill.found()))).collect();
    if !candidates.is_empty() {
        let table = format!("{place}: three each side of the exact size");
        tell_drills(&candidates, &near, table, (drill_diameter, oversize), record);
    }
    let published = printed.zip(diameter).map(|(printed, diameter)| TapDrillPublished {
        name: &printed.drill,
        diameter,
        hole_diameter: step!(record, "Hole of the printed drill", h: "published.hole_diameter" = d + o,
            d = "published.diameter": diameter, o = expected_oversize: oversize),
        thread_percent: None,
        within_class: None,
    });
    let drill = match &published {
        Some(published) => {
            tell!(record.choose("Drill to take", "the one that the table prints"),
                d = "published.diameter": published.diameter => "drill.diameter": published.diameter);
            record.look_up("Its name", "table of tap drills").gives("drill.name", published.name);
            Some(TapDrillChosen::of(published.name, published.diameter))
        }
        None => nearest(&candidates, wanted, unit, record),
    };
    Ok(TapDrillResult { drill_diameter, hole_diameter, minor_limits: None, drill, published, candidates })
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
    Some(TapDrillChosen::of(row.name, row.diameter))
}
