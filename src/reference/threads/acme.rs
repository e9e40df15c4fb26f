//! Limits of general purpose Acme threads, classes 2G, 3G and 4G (ASME B1.5). Allowances are
//! tabulated by ranges of size, with the middle of the range in the formula; every part is rounded
//! to 0.0001 in before it is added, the crest tolerance of 8 threads per inch, which is a tie, down.

use super::error::{DesignationError, ErrorKind};
use super::limit_values::{AcmeTolerances, ExternalLimits, InternalLimits, Tolerances};
use super::rounding::{half_even, half_up};
use super::series::read_table;
use super::{Provenance, Thread};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Range {
    over_in: f64,
    up_to_in: f64,
    source: String,
    trust: String,
}

static RANGES: LazyLock<Vec<Range>> = LazyLock::new(|| read_table(include_str!("../../../data/acme_ranges.csv")));

/// The classes of general purpose threads.
pub(super) const CLASSES: [&str; 3] = ["2G", "3G", "4G"];

/// Clearance of crest and root on the diameter: 0.020 in to 10 threads per inch, 0.010 in above.
pub fn clearance(pitch: f64) -> f64 {
    if pitch >= 0.1 - 1e-9 { 0.020 } else { 0.010 }
}

/// A class in the standard's spelling.
pub(super) fn read_class(text: &str) -> Option<&'static str> {
    let upper = text.trim().to_ascii_uppercase();
    CLASSES.into_iter().find(|class| *class == upper)
}

/// Ten-thousandths of an inch.
fn parts(inches: f64) -> i64 {
    half_up(inches * 1e4)
}

fn inches(parts: i64) -> f64 {
    parts as f64 / 1e4
}

fn tolerances(thread: &Thread, class: &str) -> Result<AcmeTolerances, DesignationError> {
    let (d, p) = (thread.diameter, thread.pitch);
    let (allowance_factor, pitch_factor, size_factor) = match class {
        "2G" => (0.008, 0.030, 0.006),
        "3G" => (0.006, 0.014, 0.0028),
        "4G" => (0.004, 0.010, 0.002),
        other => {
            let says = format!("`{other}` is not a class of general purpose Acme threads; those are 2G, 3G and 4G");
            let mut error = DesignationError::new(ErrorKind::ClassUnknown, says, "2G");
            error.nearest = CLASSES.map(str::to_owned).to_vec();
            return Err(error);
        }
    };
    let range = RANGES.iter().find(|range| d > range.over_in + 1e-9 && d <= range.up_to_in + 1e-9);
    let allowance_size = range.map_or(d, |range| (range.over_in + range.up_to_in) / 2.0);
    let exact = pitch_factor * p.sqrt() + size_factor * d.sqrt();
    Ok(AcmeTolerances {
        allowance_size,
        allowance_factor,
        allowance: inches(parts(allowance_factor * allowance_size.sqrt())),
        pitch_factor,
        size_factor,
        pitch_tolerance_exact: exact,
        pitch_tolerance: inches(parts(exact)),
        // Of 8 threads per inch 0.00625 in, a tie: printed tables have 0.0062 in, the closer of the two.
        crest_tolerance: inches(half_even((0.05 * p).max(0.005) * 1e4)),
        root_tolerance: inches(parts(1.5 * exact)),
        clearance: clearance(p),
        range: range.map(|range| Provenance { source: &range.source, trust: &range.trust }),
    })
}

/// Limits of the external thread.
pub(super) fn external(thread: &Thread, class: &str) -> Result<ExternalLimits, DesignationError> {
    let t = tolerances(thread, class)?;
    let (d, p) = (thread.diameter, thread.pitch);
    let major = parts(d);
    let pitch_max = parts(d - p / 2.0) - parts(t.allowance);
    let minor_max = parts(d - p - t.clearance);
    Ok(ExternalLimits {
        class: class.to_owned(),
        allowance: t.allowance,
        major_max: inches(major),
        major_min: inches(major - parts(t.crest_tolerance)),
        major_min_unfinished: None,
        pitch_max: inches(pitch_max),
        pitch_min: inches(pitch_max - parts(t.pitch_tolerance)),
        minor_max: inches(minor_max),
        minor_min: Some(inches(minor_max - parts(t.root_tolerance))),
        tolerances: Tolerances::Acme(t),
    })
}

/// Limits of the internal thread.
pub(super) fn internal(thread: &Thread, class: &str) -> Result<InternalLimits, DesignationError> {
    let t = tolerances(thread, class)?;
    let (d, p) = (thread.diameter, thread.pitch);
    let (minor_min, pitch_min) = (parts(d - p), parts(d - p / 2.0));
    let major_min = parts(d + t.clearance);
    Ok(InternalLimits {
        class: class.to_owned(),
        minor_min: inches(minor_min),
        minor_max: inches(minor_min + parts(t.crest_tolerance)),
        pitch_min: inches(pitch_min),
        pitch_max: inches(pitch_min + parts(t.pitch_tolerance)),
        major_min: inches(major_min),
        major_max: Some(inches(major_min + parts(t.clearance))),
        tolerances: Tolerances::Acme(t),
    })
}

#[cfg(test)]
mod tests {
    use super::super::{external_limits, internal_limits, read};
    use super::*;

    #[test]
    fn ranges_follow_on_each_other() {
        assert!(RANGES.windows(2).all(|w| w[0].up_to_in == w[1].over_in));
    }

    #[test]
    fn the_allowance_takes_the_middle_of_the_range() {
        // Machinery's Handbook, 27th ed., p. 1841, table 10: over 5/16 to 7/16, 2G .0049; over
        // 1 7/8 to 2 1/8, 4G .0057.
        let at = |text: &str| external_limits(&read(text).unwrap(), None, None).unwrap().allowance;
        assert_eq!(at("3/8-12 Acme-2G"), 0.0049);
        assert_eq!(at("2-4 Acme-4G"), 0.0057);
    }

    #[test]
    fn standard_sizes_of_class_2g_are_those_that_a_maker_of_threaded_rod_prints() {
        // A rod maker's table of class 2G: 3/4-6 and 1-5.
        let rod = external_limits(&read("3/4-6 Acme-2G").unwrap(), None, None).unwrap();
        assert_eq!((rod.pitch_max, rod.pitch_min), (0.6598, 0.6424));
        assert_eq!((rod.minor_max, rod.minor_min), (0.5633, Some(0.5371)));
    }

    #[test]
    fn the_crest_tolerance_of_eight_threads_an_inch_rounds_down() {
        // The same table: 7/8-8 from .8688 and 1-8 from .9938 in; so 5/8-8 from .6188, and the nut, whose tolerance is
        // the same sum, to .5062.
        for (text, least) in [("7/8-8", 0.8688), ("1-8", 0.9938), ("5/8-8", 0.6188), ("3/4-8", 0.7438)] {
            let thread = read(&format!("{text} Acme-2G")).unwrap();
            assert_eq!(external_limits(&thread, None, None).unwrap().major_min, least, "{text}");
        }
        let nut = internal_limits(&read("5/8-8 Acme-2G").unwrap(), None, None).unwrap();
        assert_eq!((nut.minor_min, nut.minor_max), (0.5, 0.5062));
    }
}
