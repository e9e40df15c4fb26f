//! Limits of size of Unified inch threads (ASME B1.1): allowance and tolerance by formula, each
//! part rounded to 0.0001 in before it is added, as the printed tables are made.

use super::Thread;
use super::classes::UnifiedClass;
use super::error::{DesignationError, ErrorKind};
use super::limit_values::{ExternalLimits, InternalLimits, Tolerances, UnifiedTolerances};
use super::profile::{TO_MINOR_DIAMETER, TO_PITCH_DIAMETER, TRIANGLE_HEIGHT};
use super::rounding::{divide_half_even, half_even};
use super::series;

/// The length of engagement that the printed tolerances of a thread are for: the diameter for
/// UNC, UNF, 4-UN, 6-UN and 8-UN, nine pitches for the rest.
pub fn table_engagement(thread: &Thread) -> f64 {
    if is_made_for_diameter(thread) { thread.diameter } else { 9.0 * thread.pitch }
}

/// Limits of an external Unified thread.
pub(super) fn external(
    thread: &Thread,
    class: UnifiedClass,
    engagement: Option<f64>,
) -> Result<ExternalLimits, DesignationError> {
    let p = thread.pitch;
    let parts = Parts::of(thread, class, engagement)?;
    let allowance = match class.number {
        3 => 0,
        // Three tenths of the 2A tolerance taken to five places.
        _ => divide_half_even(3 * divide_half_even(parts.td2_millionths, 10), 100),
    };
    let major_tolerance = |ratio: f64| half_even(ratio * p.powf(2.0 / 3.0) * 1e4);
    let crest = major_tolerance(if class.number == 1 { 0.090 } else { 0.060 });
    let major_max = parts.basic_major - allowance;
    let pitch_max = parts.basic_pitch - allowance;
    let root = half_even(TO_MINOR_DIAMETER * p * 1e4) + half_even(TRIANGLE_HEIGHT / 8.0 * p * 1e4);
    Ok(ExternalLimits {
        class: class.text(),
        allowance: inches(allowance),
        major_max: inches(major_max),
        major_min: inches(major_max - crest),
        major_min_unfinished: (class.number == 2).then(|| inches(major_max - major_tolerance(0.090))),
        pitch_max: inches(pitch_max),
        pitch_min: inches(pitch_max - parts.pitch_tolerance),
        minor_max: inches(major_max - root),
        minor_min: None,
        tolerances: Tolerances::Unified(parts.record(thread, class, crest, allowance)),
    })
}

/// Limits of an internal Unified thread.
pub(super) fn internal(
    thread: &Thread,
    class: UnifiedClass,
    engagement: Option<f64>,
) -> Result<InternalLimits, DesignationError> {
    let parts = Parts::of(thread, class, engagement)?;
    let crest = half_even(minor_tolerance(thread, class) * 1e4);
    let minor_min = parts.basic_minor;
    let minor_max = minor_min + crest;
    let three_places = |n: i64| 10 * divide_half_even(n, 10);
    // From No. 6 up the tables print minor diameters to three places, 3B only its minimum.
    let (minor_min, minor_max) = match (thread.diameter >= 0.138 - 1e-9, class.number) {
        (false, _) => (minor_min, minor_max),
        (true, 3) => (three_places(minor_min), minor_max),
        (true, _) => (three_places(minor_min), three_places(minor_max)),
    };
    Ok(InternalLimits {
        class: class.text(),
        minor_min: inches(minor_min),
        minor_max: inches(minor_max),
        pitch_min: inches(parts.basic_pitch),
        pitch_max: inches(parts.basic_pitch + parts.pitch_tolerance),
        major_min: inches(parts.basic_major),
        major_max: None,
        tolerances: Tolerances::Unified(parts.record(thread, class, crest, 0)),
    })
}

/// Minor diameter tolerance of an internal thread, before rounding.
fn minor_tolerance(thread: &Thread, class: UnifiedClass) -> f64 {
    let (d, p) = (thread.diameter, thread.pitch);
    let n = 1.0 / p;
    let general = 0.05 * p.powf(2.0 / 3.0) + 0.03 * p / d - 0.002;
    let parabola = 0.25 * p - 0.4 * p * p;
    let most = 0.394 * p;
    match class.number {
        3 => {
            let least = if n >= 13.0 - 1e-9 { 0.23 * p - 1.5 * p * p } else { 0.120 * p };
            general.max(least).min(most)
        }
        _ if d < 0.25 - 1e-9 => general.max(parabola).min(most),
        _ if n >= 4.0 - 1e-9 => parabola,
        _ => 0.15 * p,
    }
}

/// Rounded parts: ten-thousandths of an inch, the 2A tolerance in millionths.
struct Parts {
    engagement: f64,
    diameter_used: f64,
    terms: [i64; 3],
    td2_millionths: i64,
    factor_thousandths: i64,
    pitch_tolerance: i64,
    basic_major: i64,
    basic_pitch: i64,
    basic_minor: i64,
}

impl Parts {
    fn of(thread: &Thread, class: UnifiedClass, engagement: Option<f64>) -> Result<Self, DesignationError> {
        let (d, p) = (thread.diameter, thread.pitch);
        let engagement = engagement.unwrap_or_else(|| table_engagement(thread));
        if !(engagement > 0.0 && engagement <= 1000.0) {
            return Err(DesignationError::new(
                ErrorKind::EngagementUnusable,
                "the length of engagement is above zero and at most 1000 in",
                format!("{} in", table_engagement(thread)),
            ));
        }
        let diameter_used = if d > 2.0 && !is_made_for_diameter(thread) { (2.0 * d - 1e-9).ceil() / 2.0 } else { d };
        let terms = [
            half_even(0.0015 * diameter_used.cbrt() * 1e6),
            half_even(0.0015 * engagement.sqrt() * 1e6),
            half_even(0.015 * p.powf(2.0 / 3.0) * 1e6),
        ];
        let td2_millionths: i64 = terms.iter().sum();
        let factor_thousandths = match (class.number, class.internal) {
            (1, false) => 1500,
            (2, false) => 1000,
            (_, false) => 750,
            (1, true) => 1950,
            (2, true) => 1300,
            (_, true) => 975,
        };
        Ok(Self {
            engagement,
            diameter_used,
            terms,
            td2_millionths,
            factor_thousandths,
            pitch_tolerance: divide_half_even(td2_millionths * factor_thousandths, 100_000),
            basic_major: half_even(d * 1e4),
            basic_pitch: half_even((d - TO_PITCH_DIAMETER * p) * 1e4),
            basic_minor: half_even((d - TO_MINOR_DIAMETER * p) * 1e4),
        })
    }

    fn record(&self, thread: &Thread, class: UnifiedClass, crest: i64, allowance: i64) -> UnifiedTolerances {
        let millionths = |n: i64| n as f64 / 1e6;
        let pitches = self.engagement / thread.pitch;
        let within = if is_made_for_diameter(thread) {
            self.engagement <= 1.5 * thread.diameter + 1e-9
        } else {
            (5.0 - 1e-9..=15.0 + 1e-9).contains(&pitches)
        };
        UnifiedTolerances {
            class,
            engagement: self.engagement,
            engagement_of_tables: (self.engagement - table_engagement(thread)).abs() < 1e-9,
            engagement_within_tables: within,
            diameter_used: self.diameter_used,
            diameter_term: millionths(self.terms[0]),
            engagement_term: millionths(self.terms[1]),
            pitch_term: millionths(self.terms[2]),
            td2: millionths(self.td2_millionths),
            factor: self.factor_thousandths as f64 / 1000.0,
            pitch_tolerance: inches(self.pitch_tolerance),
            crest_tolerance: inches(crest),
            allowance: inches(allowance),
        }
    }
}

fn is_made_for_diameter(thread: &Thread) -> bool {
    thread
        .threads_per_inch
        .and_then(|tpi| series::unified(thread.diameter, tpi))
        .is_some_and(|row| row.engagement == "D")
}

fn inches(ten_thousandths: i64) -> f64 {
    ten_thousandths as f64 / 1e4
}
