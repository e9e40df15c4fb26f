//! The threads that clean up a stripped hole: for each the stock drill that is no smaller than what has to go,
//! keeps within the class, and comes nearest to the percentage of thread; with the steps of each column.

use super::bore::{Bore, reaches};
use super::{RescueLists, RescueRow};
use crate::calculators::prelude::*;
use crate::reference::drills::Drill;
use crate::reference::threads::{
    FULL_THREAD, Listed, Thread, ThreadFamily, ThreadSystem, internal_limits, listed, published_tap_drill, unit_of,
};
use crate::threading::cite_limits;

/// The hole and what is wanted of it.
pub struct Hole<'i> {
    /// Diameter that the drill has to pass.
    pub clean: FoundSize,
    /// Whether that is the hole as it was measured.
    pub measured: bool,
    /// Height of thread wanted.
    pub wanted: ThreadPercent,
    /// Distance of the nearest edge, and the wall that has to stay.
    pub edge: Option<(Size, Extent)>,
    /// The old thread.
    pub old: Option<&'i Designation>,
    /// The drills at hand, of the systems named.
    pub drills: Vec<&'static Drill>,
    /// Those of the tables, where the drills at hand are a drawer's.
    pub others: Option<Vec<&'static Drill>>,
}

/// A thread and its drill.
struct Drilled {
    listed: &'static Listed,
    name: String,
    diameter: FoundSize,
    /// Whether it is in the drawer, where there is one.
    owned: Option<bool>,
    /// Full height of the thread on the diameter, where the drill is chosen by it.
    full: Option<FoundSize>,
    /// What its hole leaves up to the greatest minor diameter, where there are limits.
    room: Option<FoundDifference>,
}

/// Threads that clean up, the smallest first.
pub fn find(
    hole: &Hole,
    families: &[ThreadFamily],
    lists: RescueLists,
    count: usize,
    record: &mut Record,
) -> Vec<RescueRow> {
    let rarest = if lists == RescueLists::Common { 1 } else { u32::MAX };
    let clean = hole.clean.get().si();
    let mut possible: Vec<(f64, &'static Listed)> = listed()
        .iter()
        .filter(|one| families.contains(&ThreadFamily::of(one.thread())) && one.rareness <= rarest)
        .filter(|one| one.thread().has_internal())
        .map(|one| (one.designation.found(one.basics().major).get().si(), one))
        .filter(|(major, _)| *major > clean)
        .collect();
    possible.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.rareness.cmp(&b.1.rareness)));
    let drilled = possible.into_iter().filter_map(|(_, listed)| hole.drilled(listed, record));
    let drilled: Vec<Drilled> = drilled.take(count).collect();
    let rows: Vec<RescueRow> = drilled.iter().map(|drilled| hole.row(drilled)).collect();
    if !rows.is_empty() {
        hole.tell(&drilled, &rows, record);
    }
    rows
}

/// Full height on the diameter, as the percentage counts it.
fn full(listed: &Listed) -> FoundSize {
    let (thread, basics) = (listed.thread(), listed.basics());
    let amount = match thread.system {
        ThreadSystem::Unified | ThreadSystem::Metric => FULL_THREAD * thread.pitch,
        _ => basics.major - basics.minor_exact,
    };
    listed.designation.found(amount)
}

fn major_si(thread: &Thread) -> f64 {
    unit_of(thread).to_si(thread.diameter)
}

impl Hole<'_> {
    /// The drill for a thread, if one cleans up: one at hand, else one of the tables.
    fn drilled(&self, listed: &'static Listed, record: &mut Record) -> Option<Drilled> {
        let (thread, clean) = (listed.thread(), self.clean.get().si());
        let owned = |drill: &str| self.others.as_ref().map(|_| self.drills.iter().any(|own| own.name == drill));
        if matches!(thread.system, ThreadSystem::Npt | ThreadSystem::PipeTaper) {
            let printed = printed(listed, (clean, self.measured), record)?;
            return Some(Drilled { owned: owned(&printed.name), ..printed });
        }
        let full = full(listed);
        let limits = internal_limits(thread, None, None).ok();
        let bore = Bore {
            thread,
            full,
            limits: limits.as_ref(),
            clean,
            measured: self.measured,
            wanted: self.wanted.get().si(),
        };
        let of_tables = || self.others.as_ref().and_then(|others| bore.drill(others));
        let drill = bore.drill(&self.drills).or_else(of_tables)?;
        if let Some(provenance) = thread.provenance {
            let place = format!("list of {} threads", thread.system.words());
            record.source_of_row(provenance.source, place, provenance.trust);
        }
        match &limits {
            Some(limits) => cite_limits(&limits.tolerances, record),
            None if record.notes.iter().any(|note| note.code == "no_limits") => {}
            None => notes!(record => no_limits:
                "Whitworth threads have no limits here: their drills are the ones nearest to the percentage."),
        }
        if matches!(thread.system, ThreadSystem::Unified | ThreadSystem::Metric) {
            record.source("mh31", "p. 2155: the full height is three quarters of the triangle, 1.299 of the pitch");
        }
        record.source_trusted(drill.source, "diameters of stock drills", drill.trust);
        Some(Drilled {
            listed,
            name: drill.name.to_owned(),
            diameter: drill.found(),
            owned: owned(drill.name),
            full: Some(full),
            room: bore.room(drill),
        })
    }

    fn row(&self, drilled: &Drilled) -> RescueRow {
        let (thread, named) = (drilled.listed.thread(), &drilled.listed.designation);
        let major = major_si(thread);
        let diameter = drilled.diameter.get().si();
        let wall = self.edge.map(|(edge, least)| {
            let left = edge.get().si() - major / 2.0;
            let shown = edge.quantity().unit;
            (FoundDifference::stated(shown.of_si(left), shown), left >= least.get().si() - 1e-12)
        });
        let clean = self.clean.quantity().unit;
        let percent =
            |full: FoundSize| FoundThreadPercent::stated(100.0 * (major - diameter) / full.get().si(), Unit::Percent);
        RescueRow {
            thread: named.text(),
            family: ThreadFamily::of(thread).as_str(),
            major_diameter: named.found(thread.diameter),
            pitch: named.found(thread.pitch),
            pitch_kept: self.old.map(|old| keeps_pitch(&old.thread, thread)),
            drill: drilled.name.clone(),
            drill_diameter: drilled.diameter,
            drill_owned: drilled.owned,
            room: drilled.room,
            thread_percent: drilled.full.map(percent),
            clears_by: FoundExtent::stated(clean.of_si(diameter - self.clean.get().si()), clean),
            wall_left: wall.map(|(left, _)| left),
            wall_enough: wall.map(|(_, enough)| enough),
        }
    }

    fn tell(&self, drilled: &[Drilled], candidates: &[RescueRow], record: &mut Record) {
        let smallest =
            "lists of threads, smallest first: those with a stock drill within the class that cleans up to c";
        tell!(record.look_up("Threads that clean up", smallest),
            c = clean_diameter: self.clean => candidates.thread);
        tell!(record.look_up("Their families", "as listed") => candidates.family);
        let listed = "lists of threads; for NPT the pipe's outside diameter";
        tell!(record.look_up("Their major diameters", listed) => candidates.major_diameter);
        tell!(record.look_up("Their pitches", "lists of threads") => candidates.pitch);
        if let Some(old) = self.old {
            let kept = "true where pitch and flank angle are those of the old thread";
            tell!(record.look_up("The old pitch is kept", kept), T = thread: old.text() => candidates.pitch_kept);
        }
        let nearest = "of the drills that clean up to c and whose hole lies within the class with room for the usual \
            oversize, the one nearest to the percentage, sizes of the thread's own system first; for taper and Rp \
            threads the one that a table prints";
        tell!(record.look_up("Their drills", nearest), q = thread_percent: self.wanted => candidates.drill);
        tell!(record.look_up("Their diameters", "tables of stock drills") => candidates.drill_diameter);
        if self.others.is_some() {
            tell!(record.look_up("In the drawer", "true where the drill is in the drawer") => candidates.drill_owned);
        }
        if candidates.iter().any(|row| row.room.is_some()) {
            record.source("common_practice", "how much a drill cuts large");
            let room = "greatest minor diameter of the usual class less the drill";
            tell!(record.look_up("Room that the hole leaves", room) => candidates.room);
        }
        let tapped = drilled.iter().zip(candidates);
        let tapped: Vec<_> = tapped.filter_map(|(drilled, row)| Some(Tapped::of(row, drilled.full?))).collect();
        if !tapped.is_empty() {
            let height = "1.299 of the pitch for 60 degree threads, else major less basic minor diameter";
            let heights = || column(&tapped, |row| row.full_height);
            tell!(record.look_up("Full thread heights, on the diameter", height) => full_height: heights());
            tell!(record.look_up("Their major diameters, for the \
                percentage", "lists of threads") => tapped.major_diameter);
            tell!(record.look_up("Their drills, for the percentage", "tables of stock \
                drills") => tapped.drill_diameter);
            tell!(record.step("Thread percentage", "q = (D - d) / H"),
                D = tapped.major_diameter, d = tapped.drill_diameter, H = full_height: heights()
                => candidates.thread_percent);
        }
        tell!(record.step("How much larger than the old hole", "x = d - c"),
            d = candidates.drill_diameter, c = clean_diameter: self.clean => candidates.clears_by);
        if let Some((edge, least)) = self.edge {
            record.source("geometry", "the thread reaches half its diameter towards the edge");
            tell!(record.step("Wall that is left", "w = e - D / 2"),
                e = edge_distance: edge, D = candidates.major_diameter => candidates.wall_left);
            tell!(record.look_up("Enough wall", "true where w is at least l"),
                l = least_wall: least => candidates.wall_enough);
        }
    }
}

/// Of a candidate whose drill is chosen by the height of its thread.
struct Tapped {
    full_height: FoundSize,
    major_diameter: FoundSize,
    drill_diameter: FoundSize,
}

impl Tapped {
    fn of(row: &RescueRow, full_height: FoundSize) -> Self {
        Self { full_height, major_diameter: row.major_diameter, drill_diameter: row.drill_diameter }
    }
}

/// The drill that a table prints for a pipe thread, if it cleans up.
fn printed(listed: &'static Listed, (clean, measured): (f64, bool), record: &mut Record) -> Option<Drilled> {
    let row = published_tap_drill(listed.thread())?;
    let diameter = row.found();
    if !reaches(diameter.get().si(), clean, measured) {
        return None;
    }
    record.source_of_row(&row.source, "drills for pipe threads", &row.trust);
    Some(Drilled { listed, name: row.drill.clone(), diameter, owned: None, full: None, room: None })
}

fn keeps_pitch(old: &Thread, new: &Thread) -> bool {
    let (a, b) = (unit_of(old).to_si(old.pitch), unit_of(new).to_si(new.pitch));
    (a / b - 1.0).abs() < 1e-4 && old.system.flank_angle() == new.system.flank_angle()
}
