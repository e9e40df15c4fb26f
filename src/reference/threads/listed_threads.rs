//! Every listed thread of every system, once, with how often it is met: what a thread found on a part
//! can be, and what a spoiled hole can be tapped to.

use super::named_thread::Designation;
use super::{
    self as threads, MetricRow, Thread, ThreadSystem, acme_rows, metric_rows, npt_rows, parallel_rows, taper_row,
    trapezoidal_rows, unified_rows, whitworth_rows,
};
use crate::quantity::Unit;
use std::sync::LazyLock;

crate::choice! {
    /// A family of threads: `unified`, `metric`, `npt`, `pipe_parallel` (G), `pipe_taper` (R, Rp, Rc), `whitworth` (BSW, BSF), `acme` or `trapezoidal`.
    ThreadFamily {
        /// Unified inch threads.
        Unified = "unified",
        /// Metric threads M.
        Metric = "metric",
        /// National pipe taper threads.
        Npt = "npt",
        /// Parallel pipe threads G.
        PipeParallel = "pipe_parallel",
        /// Pipe threads R, Rp and Rc.
        PipeTaper = "pipe_taper",
        /// BSW and BSF.
        Whitworth = "whitworth",
        /// General purpose Acme threads.
        Acme = "acme",
        /// Metric trapezoidal threads.
        Trapezoidal = "trapezoidal",
    }
}

impl ThreadFamily {
    /// The family of a thread.
    pub const fn of(thread: &Thread) -> Self {
        match thread.system {
            ThreadSystem::Unified => ThreadFamily::Unified,
            ThreadSystem::Metric => ThreadFamily::Metric,
            ThreadSystem::Npt => ThreadFamily::Npt,
            ThreadSystem::PipeParallel => ThreadFamily::PipeParallel,
            ThreadSystem::PipeTaper => ThreadFamily::PipeTaper,
            ThreadSystem::Whitworth => ThreadFamily::Whitworth,
            ThreadSystem::Acme => ThreadFamily::Acme,
            ThreadSystem::Trapezoidal => ThreadFamily::Trapezoidal,
        }
    }
}

/// A listed thread.
#[derive(Debug)]
pub struct Listed {
    /// The thread.
    pub designation: Designation,
    /// How rarely it is met: 0 everywhere, 1 often, 2 here and there, 3 seldom. A judgement of the trade; for
    /// metric threads after the selection of ISO 262 and the choices of ISO 261.
    pub rareness: u32,
}

/// The source of the rows that stand in the selection of ISO 262.
const ISO_262: &str = "iso_262_data";

static LISTED: LazyLock<Vec<Listed>> = LazyLock::new(|| {
    let unified = unified_rows().iter().filter(|row| row.same_thread_as.is_none()).map(|row| {
        let rareness = match row.series.as_str() {
            "UNC" | "UNF" => 0,
            "UNEF" | "8-UN" => 2,
            _ => 3,
        };
        (row.designation(), rareness)
    });
    let metric = metric_rows().iter().map(|row| (row.designation.clone(), rareness(row)));
    let npt = npt_rows().iter().map(|row| (format!("{}-{} NPT", row.size, row.threads_per_inch), 0));
    let parallel = parallel_rows().iter().map(|row| (format!("G {}", row.size), 0));
    let taper = parallel_rows().iter().filter(|row| taper_row(&row.size).is_some());
    let taper = taper.flat_map(|row| ["R", "Rp", "Rc"].map(|series| (format!("{series} {}", row.size), 1)));
    let whitworth =
        whitworth_rows().iter().map(|row| (format!("{}-{} {}", row.size, row.threads_per_inch, row.series), 1));
    let acme = acme_rows().iter().map(|row| (format!("{}-{} Acme", row.size, row.threads_per_inch), 1));
    let trapezoidal = trapezoidal_rows().iter().map(|row| (row.designation.clone(), 2));
    unified
        .chain(metric)
        .chain(npt)
        .chain(parallel)
        .chain(taper)
        .chain(whitworth)
        .chain(acme)
        .chain(trapezoidal)
        .filter_map(|(name, rareness)| Some(Listed { designation: Designation::read(&name).ok()?, rareness }))
        .collect()
});

fn rareness(row: &MetricRow) -> u32 {
    match (row.series.as_str(), row.choice) {
        ("coarse", 1) => 0,
        _ if row.source == ISO_262 => 1,
        (_, 3) => 3,
        _ => 2,
    }
}

/// The unit of a thread's standard.
pub const fn unit_of(thread: &Thread) -> Unit {
    if thread.system.in_inches() { Unit::Inch } else { Unit::Millimetre }
}

/// Every listed thread.
pub fn listed() -> &'static [Listed] {
    &LISTED
}

impl Listed {
    /// The thread.
    pub fn thread(&self) -> &Thread {
        &self.designation.thread
    }

    /// Its basic sizes, in its own unit.
    pub fn basics(&self) -> threads::Basics {
        threads::basics(self.thread())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_of_every_table_is_listed_and_none_twice() {
        let unified = unified_rows().iter().filter(|row| row.same_thread_as.is_none()).count();
        let taper = parallel_rows().iter().filter(|row| taper_row(&row.size).is_some()).count();
        let rows = unified
            + metric_rows().len()
            + npt_rows().len()
            + parallel_rows().len()
            + 3 * taper
            + whitworth_rows().len()
            + acme_rows().len()
            + trapezoidal_rows().len();
        assert_eq!(listed().len(), rows);
        let mut names: Vec<String> = listed().iter().map(|listed| listed.designation.text()).collect();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), rows);
        assert!(listed().iter().all(|listed| listed.thread().standard));
    }
}
