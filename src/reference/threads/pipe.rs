//! Dimensions and limits of the 55 degree pipe threads: G (ISO 228-1), R, Rp and Rc (ISO 7-1). The
//! pitch and the height are rounded to 0.001 mm before the diameters are taken from them.

use super::error::{DesignationError, ErrorKind};
use super::limit_values::{ExternalLimits, InternalLimits, PipeTolerances, Tolerances};
use super::other_series::{ParallelRow, parallel_row};
use super::profile::height_um;
use super::rounding::half_up;
use super::{Thread, ThreadSystem};

/// Major, pitch and minor diameter in whole micrometers.
fn diameters_um(row: &ParallelRow) -> (i64, i64, i64) {
    let major = half_up(row.major_mm * 1000.0);
    let height = height_um(row.pitch_mm);
    (major, major - height, major - 2 * height)
}

fn mm(um: i64) -> f64 {
    um as f64 / 1000.0
}

fn row_of(thread: &Thread) -> Result<&'static ParallelRow, DesignationError> {
    parallel_row(&thread.size)
        .filter(|_| thread.system == ThreadSystem::PipeParallel)
        .ok_or_else(|| no_tolerances(thread))
}

/// Refusal of limits where ISO 7-1 gives none on the diameters.
pub(super) fn no_tolerances(thread: &Thread) -> DesignationError {
    let says = match thread.series.as_deref() {
        Some("Rp") => format!(
            "{}: the tolerances of the internal threads of ISO 7-1 are not known here; the diameters are basic",
            thread.designation
        ),
        _ => format!("{} is gauged by the length that enters, not by limits of its diameters", thread.designation),
    };
    DesignationError::new(ErrorKind::ClassWithoutData, says, "G 1/2")
}

/// Limits of an external thread G, class A or B.
pub(super) fn external(thread: &Thread, class: &str) -> Result<ExternalLimits, DesignationError> {
    let row = row_of(thread)?;
    let (major, pitch, minor) = diameters_um(row);
    let um = |mm: f64| half_up(mm * 1000.0);
    // Class B has twice the tolerance of class A.
    let tolerance = um(row.pitch_tolerance_mm) * if class == "B" { 2 } else { 1 };
    let crest = um(row.major_tolerance_mm);
    Ok(ExternalLimits {
        class: class.to_owned(),
        allowance: 0.0,
        major_max: mm(major),
        major_min: mm(major - crest),
        major_min_unfinished: None,
        pitch_max: mm(pitch),
        pitch_min: mm(pitch - tolerance),
        minor_max: mm(minor),
        minor_min: None,
        tolerances: Tolerances::Pipe(PipeTolerances { pitch: mm(tolerance), crest: mm(crest), row }),
    })
}

/// Limits of an internal thread G, which has one class without a letter.
pub(super) fn internal(thread: &Thread) -> Result<InternalLimits, DesignationError> {
    let row = row_of(thread)?;
    let (major, pitch, minor) = diameters_um(row);
    let um = |mm: f64| half_up(mm * 1000.0);
    let (tolerance, crest) = (um(row.pitch_tolerance_mm), um(row.minor_tolerance_mm));
    Ok(InternalLimits {
        class: String::new(),
        minor_min: mm(minor),
        minor_max: mm(minor + crest),
        pitch_min: mm(pitch),
        pitch_max: mm(pitch + tolerance),
        major_min: mm(major),
        major_max: None,
        tolerances: Tolerances::Pipe(PipeTolerances { pitch: mm(tolerance), crest: mm(crest), row }),
    })
}

#[cfg(test)]
mod tests {
    use super::super::{external_limits, internal_limits, read};
    use super::*;

    #[test]
    fn the_minor_diameter_is_that_of_the_standard_and_not_that_of_an_unrounded_pitch() {
        // ISO 228-1 as transcribed in threadlib: G 1/2 minor 18.631; with 25.4/14 in full it
        // would be 18.632.
        let half = parallel_row("1/2").unwrap();
        assert_eq!(diameters_um(half), (20_955, 19_793, 18_631));
    }

    #[test]
    fn class_b_lies_below_the_same_zero_line_with_twice_the_tolerance() {
        // ISO 228-1: G 1 A 0.180 mm and B 0.360 mm on the pitch diameter.
        let thread = read("G 1").unwrap();
        let a = external_limits(&thread, Some("A"), None).unwrap();
        let b = external_limits(&thread, Some("B"), None).unwrap();
        assert_eq!((a.pitch_max, a.pitch_min, b.pitch_min), (31.770, 31.590, 31.410));
        let inside = internal_limits(&thread, None, None).unwrap();
        assert_eq!((inside.minor_min, inside.minor_max), (30.291, 30.931));
        assert!(inside.pitch_min >= a.pitch_max);
    }
}
