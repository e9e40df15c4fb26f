//! The lists of pipe, Whitworth and power threads: data/pipe_npt.csv, pipe_parallel.csv,
//! pipe_taper.csv, whitworth_series.csv, acme_series.csv and trapezoidal_series.csv.

use super::series::read_table;
use serde::Deserialize;
use std::sync::LazyLock;

/// One pipe size of NPT.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct NptRow {
    /// Nominal size as written, `1 1/2`.
    pub size: String,
    /// Outside diameter of the pipe in inches.
    pub outside_diameter_in: f64,
    /// Threads per inch.
    pub threads_per_inch: f64,
    /// Length of hand-tight engagement, L1, which no formula gives.
    pub hand_tight_length_in: f64,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

/// One size of the pipe threads of ISO 228-1, which ISO 7-1 shares.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct ParallelRow {
    /// Nominal size as written, `1 1/2`.
    pub size: String,
    /// Threads per inch.
    pub threads_per_inch: f64,
    /// Pitch to 0.001 mm.
    pub pitch_mm: f64,
    /// Major diameter.
    pub major_mm: f64,
    /// Tolerance of the pitch diameter: internal, and external class A.
    pub pitch_tolerance_mm: f64,
    /// Tolerance of the internal minor diameter.
    pub minor_tolerance_mm: f64,
    /// Tolerance of the external major diameter.
    pub major_tolerance_mm: f64,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

/// Lengths of one size of the taper thread R of ISO 7-1.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct TaperRow {
    /// Nominal size as written.
    pub size: String,
    /// Length from the small end to the gauge plane.
    pub gauge_length_mm: f64,
    /// How far it may be off, either way.
    pub gauge_length_tolerance_mm: f64,
    /// Least useful thread for the basic gauge length.
    pub useful_thread_mm: f64,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

/// One size of BSW or BSF.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct WhitworthRow {
    /// `BSW` or `BSF`.
    pub series: String,
    /// Size as written, `1 1/2`.
    pub size: String,
    /// Basic major diameter in inches.
    pub diameter_in: f64,
    /// Threads per inch.
    pub threads_per_inch: f64,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

/// One standard size of the general purpose Acme thread.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct AcmeRow {
    /// Size as written, `1 1/2`.
    pub size: String,
    /// Basic major diameter in inches.
    pub diameter_in: f64,
    /// Threads per inch.
    pub threads_per_inch: f64,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

/// One size of the ISO metric trapezoidal thread.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct TrapezoidalRow {
    /// Designation, `Tr20x4`.
    pub designation: String,
    /// Basic major diameter in millimeters.
    pub diameter_mm: f64,
    /// Pitch in millimeters.
    pub pitch_mm: f64,
    /// Source key.
    pub source: String,
    /// How far the source can be trusted.
    pub trust: String,
}

static NPT: LazyLock<Vec<NptRow>> = LazyLock::new(|| read_table(include_str!("../../../data/pipe_npt.csv")));
static PARALLEL: LazyLock<Vec<ParallelRow>> =
    LazyLock::new(|| read_table(include_str!("../../../data/pipe_parallel.csv")));
static TAPER: LazyLock<Vec<TaperRow>> = LazyLock::new(|| read_table(include_str!("../../../data/pipe_taper.csv")));
static WHITWORTH: LazyLock<Vec<WhitworthRow>> =
    LazyLock::new(|| read_table(include_str!("../../../data/whitworth_series.csv")));
static ACME: LazyLock<Vec<AcmeRow>> = LazyLock::new(|| read_table(include_str!("../../../data/acme_series.csv")));
static TRAPEZOIDAL: LazyLock<Vec<TrapezoidalRow>> =
    LazyLock::new(|| read_table(include_str!("../../../data/trapezoidal_series.csv")));

/// All sizes of NPT.
pub fn npt_rows() -> &'static [NptRow] {
    &NPT
}

/// All sizes of the pipe threads of ISO 228-1.
pub fn parallel_rows() -> &'static [ParallelRow] {
    &PARALLEL
}

/// All sizes of BSW and BSF.
pub fn whitworth_rows() -> &'static [WhitworthRow] {
    &WHITWORTH
}

/// The standard sizes of the Acme thread.
pub fn acme_rows() -> &'static [AcmeRow] {
    &ACME
}

/// All sizes of the trapezoidal thread.
pub fn trapezoidal_rows() -> &'static [TrapezoidalRow] {
    &TRAPEZOIDAL
}

/// All sizes that ISO 7-1 has, with the lengths of R.
pub(super) fn taper_rows() -> &'static [TaperRow] {
    &TAPER
}

/// The lengths of the taper thread of a size.
pub fn taper_row(size: &str) -> Option<&'static TaperRow> {
    TAPER.iter().find(|row| row.size == size)
}

/// Row of a pipe size of NPT.
pub(super) fn npt_row(size: &str) -> Option<&'static NptRow> {
    NPT.iter().find(|row| row.size == size)
}

/// Row of a pipe size of ISO 228-1.
pub(super) fn parallel_row(size: &str) -> Option<&'static ParallelRow> {
    PARALLEL.iter().find(|row| row.size == size)
}

/// Two numbers that a table and a reader mean as one.
pub(super) fn same(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6
}

/// The designations whose size and pitch are nearest; a wrong size matters more than a wrong pitch.
pub(super) fn nearest<'r, R>(
    rows: impl Iterator<Item = &'r R>,
    of: impl Fn(&R) -> (f64, f64, String),
    (diameter, pitch): (f64, f64),
) -> Vec<String>
where
    R: 'r,
{
    let mut all: Vec<(f64, String)> = rows
        .map(|row| {
            let (d, p, name) = of(row);
            (8.0 * (d / diameter).ln().abs() + (p / pitch).ln().abs(), name)
        })
        .collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    all.into_iter().take(2).map(|(_, name)| name).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_names_a_known_source_and_trust() {
        let mut all: Vec<(&str, &str)> = Vec::new();
        all.extend(NPT.iter().map(|row| (row.source.as_str(), row.trust.as_str())));
        all.extend(PARALLEL.iter().map(|row| (row.source.as_str(), row.trust.as_str())));
        all.extend(TAPER.iter().map(|row| (row.source.as_str(), row.trust.as_str())));
        all.extend(WHITWORTH.iter().map(|row| (row.source.as_str(), row.trust.as_str())));
        all.extend(ACME.iter().map(|row| (row.source.as_str(), row.trust.as_str())));
        all.extend(TRAPEZOIDAL.iter().map(|row| (row.source.as_str(), row.trust.as_str())));
        for (source, trust) in all {
            assert!(crate::sources::source(source).is_some(), "{source}");
            assert!(crate::sources::Trust::named(trust).is_some(), "{trust}");
        }
    }

    #[test]
    fn a_taper_size_has_its_parallel_row_and_its_gauge_plane_lies_in_the_useful_thread() {
        for row in taper_rows() {
            assert!(parallel_row(&row.size).is_some(), "{}", row.size);
            assert!(row.gauge_length_mm < row.useful_thread_mm, "{}", row.size);
        }
    }

    #[test]
    fn the_pitch_of_a_pipe_thread_is_its_count_to_a_thousandth_of_a_millimetre() {
        // ISO 228-1: threads in 25.4 mm, pitch to 0.001 mm.
        for row in parallel_rows() {
            assert!((25.4 / row.threads_per_inch - row.pitch_mm).abs() <= 0.000_501, "{}", row.size);
        }
    }
}
