//! Limits of pipe threads G, Acme and trapezoidal threads with their steps, after ISO 228-1,
//! ASME B1.5 and ISO 2903.

use super::limit_results::{ExternalThreadLimits, InternalThreadLimits, ThreadLimits};
use super::limit_steps::class;
use crate::quantity::{FoundArea, FoundExtent, FoundLowerLimit, FoundSize, FoundUpperLimit, SiValue, Unit};
use crate::reference::threads::{self, Chosen, Designation, ExternalLimits, InternalLimits, ThreadSystem, Tolerances};
use crate::sources::Trust;
use crate::working::Record;

/// Tolerances of one side as looked up, and the rules they come from.
struct Side {
    allowance: (f64, String),
    pitch: (f64, String),
    crest: (f64, String),
    root: Option<(f64, String)>,
    clearance: f64,
}

fn side(designation: &Designation, tolerances: &Tolerances, allowance: f64, record: &mut Record) -> Side {
    match tolerances {
        Tolerances::Pipe(t) => {
            let trust = Trust::named(&t.row.trust).unwrap_or(Trust::FromMemory);
            record.source("iso_228_1", "limits; class B has twice the pitch diameter tolerance of class A");
            record.source_trusted(&t.row.source, "cells of the tolerance table", trust);
            let table = || format!("ISO 228-1: table for size {}", designation.thread.size);
            Side {
                allowance: (0.0, "ISO 228-1: none".into()),
                pitch: (t.pitch, table()),
                crest: (t.crest, table()),
                root: None,
                clearance: 0.0,
            }
        }
        Tolerances::Acme(t) => {
            record.source("asme_b1_5", "allowances and tolerances of general purpose threads");
            if let Some(range) = t.range {
                let trust = Trust::named(range.trust).unwrap_or(Trust::FromMemory);
                record.source_trusted(range.source, "range of size of the allowance", trust);
            }
            let (pitch, size) = (t.pitch_factor, t.size_factor);
            Side {
                allowance: (
                    t.allowance,
                    format!(
                        "ASME B1.5: {} √D in inches with D = {} in, the middle of its range of sizes, to 0.0001 in",
                        t.allowance_factor, t.allowance_size
                    ),
                ),
                pitch: (t.pitch_tolerance, format!("ASME B1.5: {pitch} √P + {size} √D in inches, to 0.0001 in")),
                crest: (t.crest_tolerance, "ASME B1.5: 0.05 P, at least 0.005 in, to 0.0001 in".into()),
                root: Some((t.root_tolerance, format!("ASME B1.5: 1.5 × ({pitch} √P + {size} √D), to 0.0001 in"))),
                clearance: t.clearance,
            }
        }
        Tolerances::Trapezoidal(t) => {
            let trust = Trust::named(t.source.trust).unwrap_or(Trust::FromMemory);
            record.source_trusted(t.source.source, "deviations and tolerances", trust);
            if !record.notes.iter().any(|note| note.code == "not_compared") {
                record.note(
                    "not_compared",
                    "The tolerances of ISO 2903 are recalled and were not compared with the standard: use them to plan, \
                     not to accept or reject work.",
                );
            }
            let mm = |um: i64| um as f64 / 1000.0;
            Side {
                allowance: (allowance, "ISO 2903: deviation of the position at this pitch, recalled".into()),
                pitch: (
                    mm(t.pitch_um),
                    format!(
                        "ISO 2903: {} µm of ISO 965-1 grade 6 and {:+} steps of R40",
                        t.pitch_grade_6_um, t.pitch_steps
                    ),
                ),
                crest: (mm(t.crest_um), "ISO 2903: grade 4 at this pitch, recalled".into()),
                root: Some((mm(t.root_um), "ISO 2903: 1.25 of the pitch diameter tolerance, and the deviation".into())),
                clearance: 0.0,
            }
        }
        Tolerances::Unified(_) | Tolerances::Metric(_) => Side {
            allowance: (allowance, String::new()),
            pitch: (0.0, String::new()),
            crest: (0.0, String::new()),
            root: None,
            clearance: 0.0,
        },
    }
}

/// Looks a tolerance up.
fn tolerance(
    designation: &Designation,
    what: &'static str,
    (value, rule): &(f64, String),
    field: &'static str,
    record: &mut Record,
) -> FoundExtent {
    let found = FoundExtent::stated(*value, designation.unit());
    record
        .look_up(what, rule.clone())
        .with("D", "size", designation.found(designation.thread.diameter))
        .with("P", "pitch", designation.found(designation.thread.pitch))
        .gives(field, found);
    found
}

/// Limits of the external thread, step by step.
pub fn external(
    designation: &Designation,
    chosen: Chosen,
    limits: &ExternalLimits,
    record: &mut Record,
) -> ExternalThreadLimits {
    class("Class of the external thread", "limits.external.class", chosen, &limits.class, designation.text(), record);
    let unit = designation.unit();
    let upper = |value: f64| FoundUpperLimit::stated(value, unit);
    let lower = |value: f64| FoundLowerLimit::stated(value, unit);
    let basics = threads::basics(&designation.thread);
    let side = side(designation, &limits.tolerances, limits.allowance, record);
    let allowance = tolerance(designation, "Allowance", &side.allowance, "limits.external.allowance", record);
    let pitch =
        tolerance(designation, "Tolerance of the pitch diameter", &side.pitch, "external_pitch_tolerance", record);
    let crest =
        tolerance(designation, "Tolerance of the major diameter", &side.crest, "external_major_tolerance", record);
    let (major_max, major_min) = (upper(limits.major_max), lower(limits.major_min));
    record
        .step("Greatest major diameter", "d1 = D")
        .with("D", "major_diameter", designation.found(basics.major))
        .gives("limits.external.major_max", major_max);
    record
        .step("Least major diameter", "d2 = d1 - Td")
        .with("d1", "limits.external.major_max", major_max)
        .with("Td", "external_major_tolerance", crest)
        .gives("limits.external.major_min", major_min);
    let (pitch_max, pitch_min) = (upper(limits.pitch_max), lower(limits.pitch_min));
    record
        .step("Greatest pitch diameter", "e1 = E - es")
        .with("E", "pitch_diameter", designation.found(basics.pitch_diameter))
        .with("es", "limits.external.allowance", allowance)
        .gives("limits.external.pitch_max", pitch_max);
    record
        .step("Least pitch diameter", "e2 = e1 - Te")
        .with("e1", "limits.external.pitch_max", pitch_max)
        .with("Te", "external_pitch_tolerance", pitch)
        .gives("limits.external.pitch_min", pitch_min);
    let minor_max = upper(limits.minor_max);
    record
        .look_up("Greatest minor diameter", "the basic one of the external thread, as printed")
        .with("D", "size", designation.found(designation.thread.diameter))
        .with("P", "pitch", designation.found(designation.thread.pitch))
        .gives("limits.external.minor_max", minor_max);
    let minor_min = limits.minor_min.map(lower);
    if let (Some(minor_min), Some(root)) = (minor_min, &side.root) {
        let root = tolerance(designation, "Tolerance of the minor diameter", root, "external_minor_tolerance", record);
        record
            .step("Least minor diameter", "k2 = k1 - Tk")
            .with("k1", "limits.external.minor_max", minor_max)
            .with("Tk", "external_minor_tolerance", root)
            .gives("limits.external.minor_min", minor_min);
    }
    ExternalThreadLimits {
        class: limits.class.clone(),
        allowance,
        major_max,
        major_min,
        major_min_unfinished: None,
        pitch_max,
        pitch_min,
        minor_max,
        minor_min,
    }
}

/// Limits of the internal thread, step by step.
pub fn internal(
    designation: &Designation,
    chosen: Chosen,
    limits: &InternalLimits,
    record: &mut Record,
) -> InternalThreadLimits {
    let named = (!limits.class.is_empty()).then(|| limits.class.clone());
    if let Some(named) = &named {
        class("Class of the internal thread", "limits.internal.class", chosen, named, designation.text(), record);
    }
    let unit = designation.unit();
    let upper = |value: f64| FoundUpperLimit::stated(value, unit);
    let lower = |value: f64| FoundLowerLimit::stated(value, unit);
    let basics = threads::basics(&designation.thread);
    let side = side(designation, &limits.tolerances, 0.0, record);
    let pitch =
        tolerance(designation, "Tolerance of the pitch diameter", &side.pitch, "internal_pitch_tolerance", record);
    let crest =
        tolerance(designation, "Tolerance of the minor diameter", &side.crest, "internal_minor_tolerance", record);
    let (minor_min, minor_max) = (lower(limits.minor_min), upper(limits.minor_max));
    let (pitch_min, pitch_max) = (lower(limits.pitch_min), upper(limits.pitch_max));
    for (what, basic, field, least) in [
        ("Least minor diameter", ("minor_diameter", basics.minor), "limits.internal.minor_min", minor_min),
        ("Least pitch diameter", ("pitch_diameter", basics.pitch_diameter), "limits.internal.pitch_min", pitch_min),
    ] {
        record.step(what, "b = B").with("B", basic.0, designation.found(basic.1)).gives(field, least);
    }
    record
        .step("Greatest minor diameter", "k1 = k2 + Tk")
        .with("k2", "limits.internal.minor_min", minor_min)
        .with("Tk", "internal_minor_tolerance", crest)
        .gives("limits.internal.minor_max", minor_max);
    record
        .step("Greatest pitch diameter", "e1 = e2 + Te")
        .with("e2", "limits.internal.pitch_min", pitch_min)
        .with("Te", "internal_pitch_tolerance", pitch)
        .gives("limits.internal.pitch_max", pitch_max);
    let major_min = lower(limits.major_min);
    record
        .look_up("Least major diameter", "the basic one of the internal thread, as printed")
        .with("D", "size", designation.found(designation.thread.diameter))
        .with("P", "pitch", designation.found(designation.thread.pitch))
        .gives("limits.internal.major_min", major_min);
    let major_max = limits.major_max.map(upper);
    if let Some(major_max) = major_max {
        let clearance = tolerance(
            designation,
            "Tolerance of the major diameter",
            &(side.clearance, "ASME B1.5: as much again as the clearance".to_owned()),
            "internal_major_tolerance",
            record,
        );
        record
            .step("Greatest major diameter", "d1 = d2 + T")
            .with("d2", "limits.internal.major_min", major_min)
            .with("T", "internal_major_tolerance", clearance)
            .gives("limits.internal.major_max", major_max);
    }
    InternalThreadLimits { class: named, minor_min, minor_max, pitch_min, pitch_max, major_min, major_max }
}

/// The tensile stress area of an Acme thread, from the least pitch and least minor diameter of its
/// class; `None` for another thread.
pub fn acme_stress_area(
    designation: &Designation,
    limits: Option<&ThreadLimits>,
    record: &mut Record,
) -> Option<FoundArea> {
    if designation.thread.system != ThreadSystem::Acme {
        return None;
    }
    let external = limits?.external.as_ref()?;
    let (pitch, minor) = (external.pitch_min, external.minor_min?);
    let across = (pitch.get().si() + minor.get().si()) / 2.0;
    let inch = Unit::Inch.of_si(across);
    let area = FoundArea::stated(std::f64::consts::FRAC_PI_4 * inch * inch, Unit::SquareInch);
    record.source("mh27", "p. 1831: stress areas of class 3G, which the least pitch and minor diameters give");
    // As sizes: limits in the other system are rounded, and the area is not.
    let size = |limit: FoundLowerLimit| FoundSize::stated(limit.quantity().value, Unit::Inch);
    record
        .look_up("Least pitch diameter before any conversion", "the limit as printed")
        .gives("stress_pitch_diameter", size(pitch));
    record
        .look_up("Least minor diameter before any conversion", "the limit as printed")
        .gives("stress_minor_diameter", size(minor));
    record
        .step("Tensile stress area", "A = π / 4 × ((e2 + k2) / 2)^2")
        .with("e2", "stress_pitch_diameter", size(pitch))
        .with("k2", "stress_minor_diameter", size(minor))
        .gives("stress_area", area);
    Some(area)
}
