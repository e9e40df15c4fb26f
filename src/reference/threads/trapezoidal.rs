//! Dimensions and limits of ISO metric trapezoidal threads: ISO 2901 and 2904 for the profile, ISO
//! 2903 for tolerances, which are recalled and were not compared with the standard.

use super::error::{DesignationError, ErrorKind};
use super::limit_values::{ExternalLimits, InternalLimits, Tolerances, TrapezoidalTolerances};
use super::metric_tolerances::{external_pitch_grade_6, pitch_steps, step};
use super::rounding::half_up;
use super::series::read_table;
use super::{Provenance, Thread};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    pitch_mm: f64,
    es_e_um: i64,
    es_c_um: i64,
    #[serde(rename = "Td_4_um")]
    td_4_um: i64,
    #[serde(rename = "TD1_4_um")]
    td1_4_um: i64,
    source: String,
    trust: String,
}

static ROWS: LazyLock<Vec<Row>> =
    LazyLock::new(|| read_table(include_str!("../../../data/trapezoidal_tolerances.csv")));

/// External classes of ISO 2903.
pub(super) const EXTERNAL: [&str; 4] = ["7e", "8e", "8c", "9c"];
/// Internal classes of ISO 2903.
pub(super) const INTERNAL: [&str; 3] = ["7H", "8H", "9H"];

/// Clearance at crest and root, in mm: 0.15 for pitch 1.5, 0.25 to 5, 0.5 to 12, 1 above.
pub fn crest_clearance(pitch: f64) -> f64 {
    match pitch {
        p if p < 2.0 => 0.15,
        p if p <= 5.0 => 0.25,
        p if p <= 12.0 => 0.5,
        _ => 1.0,
    }
}

/// A class in the standard's spelling.
pub(super) fn read_class(text: &str) -> Option<&'static str> {
    let text = text.trim();
    EXTERNAL.into_iter().chain(INTERNAL).find(|class| *class == text)
}

fn mm(um: i64) -> f64 {
    um as f64 / 1000.0
}

fn um(mm: f64) -> i64 {
    half_up(mm * 1000.0)
}

fn tolerances(thread: &Thread, class: &str) -> Result<TrapezoidalTolerances, DesignationError> {
    let (d, p) = (thread.diameter, thread.pitch);
    let row = ROWS.iter().find(|row| (row.pitch_mm - p).abs() < 1e-9);
    let Some(row) = row.filter(|_| (5.6..=355.0).contains(&d)) else {
        let says = format!(
            "{}: the tolerances of ISO 2903 that are known here are for its own pitches, 1.5 to 44 mm, over 5.6 up \
             to 355 mm",
            thread.designation
        );
        return Err(DesignationError::new(ErrorKind::ClassWithoutData, says, "Tr20x4"));
    };
    let internal = INTERNAL.contains(&class);
    let grade = class.bytes().next().map_or(7, |digit| digit - b'0');
    let deviation_um = match class.as_bytes().last() {
        Some(b'e') => row.es_e_um,
        Some(b'c') => row.es_c_um,
        _ => 0,
    };
    let six = external_pitch_grade_6(d, p).um;
    let steps = pitch_steps(grade, internal);
    let pitch_um = step(six, steps);
    Ok(TrapezoidalTolerances {
        deviation_um,
        pitch_grade_6_um: six,
        pitch_steps: steps,
        pitch_um,
        crest_um: if internal { row.td1_4_um } else { row.td_4_um },
        // 1.25 of the pitch diameter tolerance and the deviation.
        root_um: half_up(1.25 * pitch_um as f64) + deviation_um,
        source: Provenance { source: &row.source, trust: &row.trust },
    })
}

/// Limits of the external thread.
pub(super) fn external(thread: &Thread, class: &str) -> Result<ExternalLimits, DesignationError> {
    let t = tolerances(thread, class)?;
    let (d, p) = (thread.diameter, thread.pitch);
    let pitch_max = um(d - p / 2.0) - t.deviation_um;
    let minor_max = um(d - p - 2.0 * crest_clearance(p));
    Ok(ExternalLimits {
        class: class.to_owned(),
        allowance: mm(t.deviation_um),
        major_max: mm(um(d)),
        major_min: mm(um(d) - t.crest_um),
        major_min_unfinished: None,
        pitch_max: mm(pitch_max),
        pitch_min: mm(pitch_max - t.pitch_um),
        minor_max: mm(minor_max),
        minor_min: Some(mm(minor_max - t.root_um)),
        tolerances: Tolerances::Trapezoidal(t),
    })
}

/// Limits of the internal thread.
pub(super) fn internal(thread: &Thread, class: &str) -> Result<InternalLimits, DesignationError> {
    let t = tolerances(thread, class)?;
    let (d, p) = (thread.diameter, thread.pitch);
    let (minor_min, pitch_min) = (um(d - p), um(d - p / 2.0));
    Ok(InternalLimits {
        class: class.to_owned(),
        minor_min: mm(minor_min),
        minor_max: mm(minor_min + t.crest_um),
        pitch_min: mm(pitch_min),
        pitch_max: mm(pitch_min + t.pitch_um),
        major_min: mm(um(d + 2.0 * crest_clearance(p))),
        major_max: None,
        tolerances: Tolerances::Trapezoidal(t),
    })
}

#[cfg(test)]
mod tests {
    use super::super::{external_limits, internal_limits, read};
    use super::*;

    #[test]
    fn grades_step_as_those_of_metric_threads_do() {
        // ISO 2903, recalled: over 22.4 up to 45 mm, pitch 5: Td2 300, 375, 475; TD2 400, 500, 630.
        let thread = read("Tr28x5").unwrap();
        let outside = |class| external_limits(&thread, Some(class), None).unwrap();
        let inside = |class| internal_limits(&thread, Some(class), None).unwrap();
        for (class, um) in [("7e", 300), ("8e", 375), ("8c", 375), ("9c", 475)] {
            let limits = outside(class);
            assert_eq!(um_of(limits.pitch_max - limits.pitch_min), um, "{class}");
        }
        for (class, um) in [("7H", 400), ("8H", 500), ("9H", 630)] {
            let limits = inside(class);
            assert_eq!(um_of(limits.pitch_max - limits.pitch_min), um, "{class}");
        }
        assert_eq!(outside("7e").allowance, 0.106);
    }

    fn um_of(mm: f64) -> i64 {
        (mm * 1000.0).round() as i64
    }

    #[test]
    fn the_deviations_are_those_of_the_formula_but_for_three_fine_pitches() {
        // ISO 2903, recalled: es of c is 95 and of e 47.5 times the root of the pitch, to the R40
        // series; below pitch 4 position c has 140, 150 and 170.
        for row in ROWS.iter().filter(|row| row.pitch_mm >= 4.0) {
            let root = row.pitch_mm.sqrt();
            assert!((row.es_c_um as f64 / (95.0 * root) - 1.0).abs() < 0.03, "{}", row.pitch_mm);
            assert!((row.es_e_um as f64 / (47.5 * root) - 1.0).abs() < 0.035, "{}", row.pitch_mm);
        }
    }
}
