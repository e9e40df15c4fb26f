//! Limits of size of metric M threads (ISO 965-1): basic diameters rounded to 0.001 mm, then
//! whole micrometers of deviation and tolerance.

use super::classes::{MetricClass, metric_classes_at};
use super::error::{DesignationError, ErrorKind};
use super::limit_values::{ExternalLimits, InternalLimits, MetricTolerances, Tolerances};
use super::metric_tolerances::{
    Cell, crest_steps, deviation, external_grades, external_major_grade_6, external_pitch_grade_6, internal_grades,
    internal_minor_grade_6, is_covered, pitch_steps, step,
};
use super::profile::{TO_MINOR_DIAMETER, TO_PITCH_DIAMETER, TRIANGLE_HEIGHT};
use super::rounding::half_up;
use super::{Provenance, Thread};

/// Limits of an external metric thread.
pub(super) fn external(thread: &Thread, class: MetricClass) -> Result<ExternalLimits, DesignationError> {
    let t = tolerances(thread, class)?;
    let basic = Basic::of(thread);
    let pitch_max = basic.pitch - t.deviation_um;
    let major_max = basic.major - t.deviation_um;
    // From diameters that are not rounded: reference only, within 0.001 mm of the tables.
    let root_min = micrometres(thread.diameter - TO_PITCH_DIAMETER * thread.pitch)
        - (t.deviation_um + t.pitch_um) as f64
        - micrometres(ROOT_BELOW_PITCH * thread.pitch);
    Ok(ExternalLimits {
        class: class.text(),
        allowance: mm(t.deviation_um),
        major_max: mm(major_max),
        major_min: mm(major_max - t.crest_um),
        major_min_unfinished: None,
        pitch_max: mm(pitch_max),
        pitch_min: mm(pitch_max - t.pitch_um),
        minor_max: mm(basic.minor - t.deviation_um),
        minor_min: Some(mm(half_up(root_min))),
        tolerances: Tolerances::Metric(t),
    })
}

/// Limits of an internal metric thread.
pub(super) fn internal(thread: &Thread, class: MetricClass) -> Result<InternalLimits, DesignationError> {
    let t = tolerances(thread, class)?;
    let basic = Basic::of(thread);
    let pitch_min = basic.pitch + t.deviation_um;
    let minor_min = basic.minor + t.deviation_um;
    let major_max =
        micrometres(thread.diameter + SHARP_ABOVE_MAJOR * thread.pitch) + (t.deviation_um + t.pitch_um) as f64;
    Ok(InternalLimits {
        class: class.text(),
        minor_min: mm(minor_min),
        minor_max: mm(minor_min + t.crest_um),
        pitch_min: mm(pitch_min),
        pitch_max: mm(pitch_min + t.pitch_um),
        major_min: mm(basic.major + t.deviation_um),
        major_max: Some(mm(half_up(major_max))),
        tolerances: Tolerances::Metric(t),
    })
}

/// Pitch diameter less least minor diameter over the pitch for a root of the least radius,
/// P/8: a circle in the 60 degree V stands off the apex by its radius, so H - 2 P/8 (0.616025).
const ROOT_BELOW_PITCH: f64 = TRIANGLE_HEIGHT - 0.25;
/// Greatest major diameter of a nut over its pitch diameter is 0.793857 P (11H/12), which is
/// H/6 above the basic major diameter.
const SHARP_ABOVE_MAJOR: f64 = TRIANGLE_HEIGHT / 6.0;

/// Rounded basic diameters in whole µm.
struct Basic {
    major: i64,
    pitch: i64,
    minor: i64,
}

impl Basic {
    fn of(thread: &Thread) -> Self {
        let below = |ratio: f64| half_up(micrometres(thread.diameter - ratio * thread.pitch));
        Self { major: below(0.0), pitch: below(TO_PITCH_DIAMETER), minor: below(TO_MINOR_DIAMETER) }
    }
}

fn micrometres(millimetres: f64) -> f64 {
    millimetres * 1000.0
}

fn mm(micrometres: i64) -> f64 {
    micrometres as f64 / 1000.0
}

fn tolerances(thread: &Thread, class: MetricClass) -> Result<MetricTolerances, DesignationError> {
    let (d, p) = (thread.diameter, thread.pitch);
    if !is_covered(d, p) {
        return Err(DesignationError::new(
            ErrorKind::ClassWithoutData,
            format!(
                "{} has no tolerances: ISO 965-1 gives them over 0.99 up to 355 mm, pitch 0.2 to 8 mm",
                thread.designation
            ),
            "M8",
        ));
    }
    let internal = class.internal();
    let grades = if internal { internal_grades(p) } else { external_grades(p) };
    for (grade, what) in [
        (class.pitch_grade, "pitch diameter"),
        (class.crest_grade, if internal { "minor diameter" } else { "major diameter" }),
    ] {
        if !grades.contains(&grade) {
            let why = format!("no grade {grade} exists for the {what} at pitch {p} mm");
            return Err(without_data(thread, class, &why));
        }
    }
    let Some(deviation) = deviation(class.position, p) else {
        let why = format!("no deviation is known for position {} at pitch {p} mm", class.position);
        return Err(without_data(thread, class, &why));
    };
    let pitch = external_pitch_grade_6(d, p);
    let crest = if internal { internal_minor_grade_6(p) } else { external_major_grade_6(p) };
    let (pitch_steps, crest_steps) = (pitch_steps(class.pitch_grade, internal), crest_steps(class.crest_grade));
    Ok(MetricTolerances {
        class,
        deviation_um: deviation.um,
        pitch_grade_6_um: pitch.um,
        pitch_steps,
        pitch_um: step(pitch.um, pitch_steps),
        crest_grade_6_um: crest.um,
        crest_steps,
        crest_um: step(crest.um, crest_steps),
        tabulated: pitch.provenance.is_some()
            && crest.provenance.is_some()
            && (deviation.um == 0 || deviation.provenance.is_some()),
        sources: provenances([pitch, crest, deviation]),
    })
}

fn provenances(cells: [Cell; 3]) -> Vec<Provenance> {
    let mut all = Vec::new();
    for found in cells.into_iter().filter_map(|cell| cell.provenance) {
        if !all.contains(&found) {
            all.push(found);
        }
    }
    all
}

fn without_data(thread: &Thread, class: MetricClass, why: &str) -> DesignationError {
    let exist = metric_classes_at(thread.pitch, class.internal());
    let says = format!("{}-{}: {why}; classes that exist: {}", thread.designation, class.text(), exist.join(", "));
    let usual = if class.internal() { "6H" } else { "6g" };
    let mut error = DesignationError::new(ErrorKind::ClassWithoutData, says, usual);
    if !exist.iter().any(|class| class == usual) {
        error.try_this = exist.last().cloned().unwrap_or_default();
    }
    error.nearest = exist;
    error
}
