//! The threads that clean up a spoiled hole: for each the stock drill that is larger than what has to go,
//! keeps within the class, and comes nearest to the percentage of thread; with the steps of each column.

use super::{RescueLists, RescueRow};
use crate::quantity::{
    Extent, FoundDifference, FoundExtent, FoundSize, FoundThreadPercent, SiValue, Size, ThreadPercent, Unit,
};
use crate::reference::drills::Drill;
use crate::reference::threads::{
    Designation, FULL_THREAD, Listed, Thread, ThreadFamily, ThreadSystem, internal_limits, listed, published_tap_drill,
    unit_of,
};
use crate::sources::Trust;
use crate::working::{Record, Shown};

/// Where no limits say otherwise, a thread of less than this share of its height is none.
const LEAST_SHARE: f64 = 0.55;

/// The hole and what is wanted of it.
pub struct Hole<'i> {
    /// Diameter that the drill has to pass.
    pub clean: FoundSize,
    /// Height of thread wanted.
    pub wanted: ThreadPercent,
    /// Distance of the nearest edge, and the wall that has to stay.
    pub edge: Option<(Size, Extent)>,
    /// The old thread.
    pub old: Option<&'i Designation>,
}

/// A drill for a thread; lengths in metres.
struct Drilled {
    name: String,
    diameter: FoundSize,
    /// Full height of the thread on the diameter, where the drill is chosen by it.
    full: Option<f64>,
}

struct Found {
    listed: &'static Listed,
    drilled: Drilled,
}

/// Threads that clean up, the smallest first.
pub fn find(
    hole: &Hole,
    families: &[ThreadFamily],
    lists: RescueLists,
    drills: &[&'static Drill],
    count: usize,
    record: &mut Record,
) -> Vec<RescueRow> {
    let rarest = if lists == RescueLists::Common { 1 } else { u32::MAX };
    let major = |listed: &Listed| unit_of(listed.thread()).to_si(listed.basics().major);
    let clean = hole.clean.get().si();
    let mut possible: Vec<(f64, &'static Listed)> = listed()
        .iter()
        .filter(|one| families.contains(&ThreadFamily::of(one.thread())) && one.rareness <= rarest)
        .filter(|one| one.thread().has_internal())
        .map(|one| (major(one), one))
        .filter(|(major, _)| *major > clean)
        .collect();
    possible.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.rareness.cmp(&b.1.rareness)));
    let found: Vec<Found> = possible
        .into_iter()
        .filter_map(|(_, listed)| Some(Found { listed, drilled: hole.drilled(listed, drills, record)? }))
        .take(count)
        .collect();
    let rows: Vec<RescueRow> = found.iter().map(|found| hole.row(found)).collect();
    if !rows.is_empty() {
        hole.tell(&found, &rows, record);
    }
    rows
}

/// Full height on the diameter, as the percentage counts it, in metres.
fn full(listed: &Listed) -> f64 {
    let (thread, basics) = (listed.thread(), listed.basics());
    let amount = match thread.system {
        ThreadSystem::Unified | ThreadSystem::Metric => FULL_THREAD * thread.pitch,
        _ => basics.major - basics.minor_exact,
    };
    unit_of(thread).to_si(amount)
}

fn major_si(thread: &Thread) -> f64 {
    unit_of(thread).to_si(thread.diameter)
}

impl Hole<'_> {
    /// The drill for a thread, if one cleans up.
    fn drilled(&self, listed: &'static Listed, drills: &[&'static Drill], record: &mut Record) -> Option<Drilled> {
        let (thread, clean) = (listed.thread(), self.clean.get().si());
        if matches!(thread.system, ThreadSystem::Npt | ThreadSystem::PipeTaper) {
            return printed(thread, clean, record);
        }
        let full = full(listed);
        let limits = internal_limits(thread, None, None).ok();
        let unit = unit_of(thread);
        let share = |drill: &Drill| (major_si(thread) - drill.found().get().si()) / full;
        // What a sum of sizes in two units is off by, and far below any place that is printed.
        let near = 1e-12;
        let sound = |drill: &&'static Drill| {
            let diameter = drill.found().get().si();
            let within = match &limits {
                Some(limits) => {
                    diameter >= unit.to_si(limits.minor_min) - near && diameter <= unit.to_si(limits.minor_max) + near
                }
                None => (LEAST_SHARE..=1.0 + 1e-9).contains(&share(drill)),
            };
            within && diameter > clean + near
        };
        let wanted = self.wanted.get().si();
        let off = |drill: &Drill| (share(drill) - wanted).abs();
        let drill = drills.iter().copied().filter(sound).min_by(|a, b| off(a).total_cmp(&off(b)))?;
        if let Some(provenance) = thread.provenance {
            let trust = Trust::named(provenance.trust).unwrap_or(Trust::FromMemory);
            record.source_trusted(provenance.source, format!("list of {} threads", thread.system.words()), trust);
        }
        match &limits {
            Some(limits) => crate::threading::cite_limits(&limits.tolerances, record),
            None if record.notes.iter().any(|note| note.code == "no_limits") => {}
            None => record.note(
                "no_limits",
                "Whitworth threads have no limits here: their drills are those nearest to the percentage.",
            ),
        }
        if matches!(thread.system, ThreadSystem::Unified | ThreadSystem::Metric) {
            record.source("mh31", "p. 2155: the full height is three quarters of the triangle, 1.299 of the pitch");
        }
        record.source_trusted(drill.source, "diameters of stock drills", drill.trust);
        Some(Drilled { name: drill.name.to_owned(), diameter: drill.found(), full: Some(full) })
    }

    fn row(&self, found: &Found) -> RescueRow {
        let (thread, drilled) = (found.listed.thread(), &found.drilled);
        let own = unit_of(thread);
        let major = major_si(thread);
        let diameter = drilled.diameter.get().si();
        let wall = self.edge.map(|(edge, least)| {
            let left = edge.get().si() - major / 2.0;
            let shown = edge.quantity().unit;
            (FoundDifference::stated(shown.of_si(left), shown), left >= least.get().si() - 1e-12)
        });
        let clean = self.clean.quantity().unit;
        RescueRow {
            thread: found.listed.designation.text(),
            family: ThreadFamily::of(thread).as_str(),
            major_diameter: FoundSize::stated(thread.diameter, own),
            pitch: FoundSize::stated(thread.pitch, own),
            pitch_kept: self.old.map(|old| keeps_pitch(&old.thread, thread)),
            drill: drilled.name.clone(),
            drill_diameter: drilled.diameter,
            thread_percent: drilled
                .full
                .map(|full| FoundThreadPercent::stated(100.0 * (major - diameter) / full, Unit::Percent)),
            clears_by: FoundExtent::stated(clean.of_si(diameter - self.clean.get().si()), clean),
            wall_left: wall.map(|(left, _)| left),
            wall_enough: wall.map(|(_, enough)| enough),
        }
    }

    fn tell(&self, found: &[Found], rows: &[RescueRow], record: &mut Record) {
        let sizes = |of: fn(&RescueRow) -> FoundSize| rows.iter().map(of).collect::<Vec<_>>();
        let texts = |of: fn(&RescueRow) -> String| Shown::from(rows.iter().map(of).collect::<Vec<_>>());
        record
            .look_up(
                "Threads that clean up",
                "lists of threads, the smallest first: those for which a stock drill within the class is larger than c",
            )
            .with("c", "clean_diameter", self.clean)
            .gives("candidates.thread", texts(|row| row.thread.clone()));
        record.look_up("Their families", "as listed").gives("candidates.family", texts(|row| row.family.to_owned()));
        record
            .look_up("Their major diameters", "lists of threads; of NPT the pipe's outside diameter")
            .gives("candidates.major_diameter", sizes(|row| row.major_diameter));
        record.look_up("Their pitches", "lists of threads").gives("candidates.pitch", sizes(|row| row.pitch));
        if let Some(old) = self.old {
            record
                .look_up("The old pitch is kept", "true where pitch and flanks are those of the old thread")
                .with("T", "thread", old.text())
                .gives("candidates.pitch_kept", texts(|row| (row.pitch_kept == Some(true)).to_string()));
        }
        record
            .look_up(
                "Their drills",
                "of the drills larger than c whose hole lies within the class, the one nearest to the percentage; of \
                 taper and Rp threads the one that a table prints",
            )
            .with("q", "thread_percent", self.wanted)
            .gives("candidates.drill", texts(|row| row.drill.clone()));
        record
            .look_up("Their diameters", "tables of stock drills")
            .gives("candidates.drill_diameter", sizes(|row| row.drill_diameter));
        let by_height = || found.iter().zip(rows).filter_map(|(found, row)| Some((found, row, found.drilled.full?)));
        if by_height().next().is_some() {
            let height = |(found, _, full): (&Found, &RescueRow, f64)| {
                let unit = unit_of(found.listed.thread());
                FoundSize::stated(unit.of_si(full), unit)
            };
            let heights: Vec<FoundSize> = by_height().map(height).collect();
            record
                .look_up(
                    "Full heights of thread on the diameter",
                    "1.299 of the pitch for flanks of 60 degrees, else major less basic minor diameter",
                )
                .gives("full_height", heights.clone());
            let of = |of: fn(&RescueRow) -> FoundSize| by_height().map(|(_, row, _)| of(row)).collect::<Vec<_>>();
            record
                .look_up("Major diameters of those", "lists of threads")
                .gives("tapped.major_diameter", of(|row| row.major_diameter));
            record
                .look_up("Drills of those", "tables of stock drills")
                .gives("tapped.drill_diameter", of(|row| row.drill_diameter));
            record
                .step("Share of thread that the drill leaves", "q = (D - d) / H")
                .with("D", "tapped.major_diameter", of(|row| row.major_diameter))
                .with("d", "tapped.drill_diameter", of(|row| row.drill_diameter))
                .with("H", "full_height", heights)
                .gives(
                    "candidates.thread_percent",
                    rows.iter().filter_map(|row| row.thread_percent).collect::<Vec<_>>(),
                );
        }
        record
            .step("What the drill clears by", "x = d - c")
            .with("d", "candidates.drill_diameter", sizes(|row| row.drill_diameter))
            .with("c", "clean_diameter", self.clean)
            .gives("candidates.clears_by", rows.iter().map(|row| row.clears_by).collect::<Vec<_>>());
        if let Some((edge, least)) = self.edge {
            record.source("geometry", "the thread reaches half its diameter towards the edge");
            record
                .step("Wall that is left", "w = e - D / 2")
                .with("e", "edge_distance", edge)
                .with("D", "candidates.major_diameter", sizes(|row| row.major_diameter))
                .gives("candidates.wall_left", rows.iter().filter_map(|row| row.wall_left).collect::<Vec<_>>());
            record
                .look_up("Wall enough", "true where w is not below l")
                .with("l", "least_wall", least)
                .gives("candidates.wall_enough", texts(|row| (row.wall_enough == Some(true)).to_string()));
        }
    }
}

/// The drill that a table prints for a pipe thread, if it cleans up.
fn printed(thread: &Thread, clean: f64, record: &mut Record) -> Option<Drilled> {
    let row = published_tap_drill(thread)?;
    let unit = if row.unit == "mm" { Unit::Millimetre } else { Unit::Inch };
    let diameter = FoundSize::stated(row.diameter, unit);
    if diameter.get().si() <= clean + 1e-12 {
        return None;
    }
    let trust = Trust::named(&row.trust).unwrap_or(Trust::FromMemory);
    record.source_trusted(&row.source, "drills for pipe threads", trust);
    Some(Drilled { name: row.drill.clone(), diameter, full: None })
}

fn keeps_pitch(old: &Thread, new: &Thread) -> bool {
    let (a, b) = (unit_of(old).to_si(old.pitch), unit_of(new).to_si(new.pitch));
    (a / b - 1.0).abs() < 1e-4 && old.system.flank_angle() == new.system.flank_angle()
}
