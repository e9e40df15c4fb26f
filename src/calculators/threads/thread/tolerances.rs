//! The tolerances behind a Unified or metric thread's limits with their steps, as ASME B1.1 or
//! ISO 965-1 makes and rounds them; other systems have theirs beside their limits.

use super::ThreadInput;
use crate::quantity::{FoundExtent, FoundSize, Unit};
use crate::reference::threads::{
    Designation, ExternalLimits, InternalLimits, MetricTolerances, Tolerances, UnifiedTolerances, table_engagement,
};
use crate::sources::Trust;
use crate::working::Record;

/// Tolerances of one side.
pub struct SideTolerances {
    /// Of the pitch diameter.
    pub pitch: FoundExtent,
    /// Of the crest: major diameter outside, minor diameter inside.
    pub crest: FoundExtent,
    /// Distance of an internal thread from the basic profile; zero but for position G.
    pub deviation: FoundExtent,
}

/// Allowance and tolerances of the external thread.
pub fn external_tolerances(designation: &Designation, limits: &ExternalLimits, record: &mut Record) -> SideTolerances {
    let unit = designation.unit();
    let allowance = FoundExtent::stated(limits.allowance, unit);
    let pitch = designation.found(designation.thread.pitch);
    match &limits.tolerances {
        Tolerances::Unified(t) => {
            let class_2a = FoundExtent::stated(t.td2, unit);
            let rule = if t.class.number == 3 {
                "ASME B1.1: none for class 3A"
            } else {
                "ASME B1.1: 0.3 of the 2A tolerance taken to 0.00001 in, to 0.0001 in"
            };
            record
                .look_up("Allowance", rule)
                .with("T", "tolerance_2a", class_2a)
                .gives("limits.external.allowance", allowance);
            let share = if t.class.number == 1 { "0.090" } else { "0.060" };
            let crest = FoundExtent::stated(t.crest_tolerance, unit);
            record
                .look_up("Tolerance of the major diameter", format!("ASME B1.1: {share} × ∛P² in inches, to 0.0001 in"))
                .with("P", "pitch", pitch)
                .gives("external_major_tolerance", crest);
            let pitch = unified_pitch(t, class_2a, "external_pitch_tolerance", record);
            SideTolerances { pitch, crest, deviation: allowance }
        }
        Tolerances::Metric(t) => {
            metric_sources(t, record);
            record
                .look_up(
                    "Allowance",
                    format!("ISO 965-1: position {} at this pitch, below the basic profile", t.class.position),
                )
                .with("P", "pitch", pitch)
                .gives("limits.external.allowance", allowance);
            let crest = metric_crest(t, "major", "external_major_tolerance", pitch, record);
            let pitch = metric_pitch(designation, t, "external_pitch_tolerance", record);
            SideTolerances { pitch, crest, deviation: allowance }
        }
        _ => SideTolerances { pitch: allowance, crest: allowance, deviation: allowance },
    }
}

/// Tolerances of the internal thread.
pub fn internal_tolerances(designation: &Designation, limits: &InternalLimits, record: &mut Record) -> SideTolerances {
    let unit = designation.unit();
    let pitch = designation.found(designation.thread.pitch);
    match &limits.tolerances {
        Tolerances::Unified(t) => {
            let class_2a = FoundExtent::stated(t.td2, unit);
            let crest = FoundExtent::stated(t.crest_tolerance, unit);
            record
                .look_up("Tolerance of the minor diameter", unified_minor_rule(designation, t))
                .with("D", "size", designation.found(designation.thread.diameter))
                .with("P", "pitch", pitch)
                .gives("internal_minor_tolerance", crest);
            let pitch = unified_pitch(t, class_2a, "internal_pitch_tolerance", record);
            SideTolerances { pitch, crest, deviation: FoundExtent::stated(0.0, unit) }
        }
        Tolerances::Metric(t) => {
            metric_sources(t, record);
            let deviation = FoundExtent::stated(t.deviation_um as f64 / 1000.0, unit);
            record
                .look_up(
                    "Deviation of the internal thread",
                    format!("ISO 965-1: position {} at this pitch, above the basic profile", t.class.position),
                )
                .with("P", "pitch", pitch)
                .gives("internal_deviation", deviation);
            let crest = metric_crest(t, "minor", "internal_minor_tolerance", pitch, record);
            let pitch = metric_pitch(designation, t, "internal_pitch_tolerance", record);
            SideTolerances { pitch, crest, deviation }
        }
        _ => {
            let none = FoundExtent::stated(0.0, unit);
            SideTolerances { pitch: none, crest: none, deviation: none }
        }
    }
}

/// What all Unified pitch diameter tolerances of a thread rest on: its tolerance of class 2A.
pub fn class_2a(input: &ThreadInput, t: &UnifiedTolerances, record: &mut Record) -> FoundSize {
    record.source("asme_b1_1", "allowances and tolerances, and their rounding");
    let thread = &input.designation.thread;
    let inches = |value: f64| FoundSize::stated(value, Unit::Inch);
    let (size, pitch) = (inches(thread.diameter), inches(thread.pitch));
    let engagement = inches(t.engagement);
    match input.engagement {
        Some(stated) => {
            record
                .choose("Length of engagement", "as stated")
                .with("LE", "engagement", stated)
                .gives("engagement", engagement);
        }
        None => record
            .look_up(
                "Length of engagement",
                "ASME B1.1 tables: the size for UNC, UNF, 4-UN, 6-UN and 8-UN, nine pitches for the rest",
            )
            .with("D", "size", size)
            .with("P", "pitch", pitch)
            .gives("engagement", engagement),
    }
    let used = inches(t.diameter_used);
    record
        .look_up(
            "Size in the tolerance",
            "ASME B1.1 tables: the size; above 2 in, where the engagement is nine pitches, the next half inch",
        )
        .with("D", "size", size)
        .gives("tolerance_size", used);
    record
        .look_up(
            "Pitch diameter tolerance of class 2A before its last rounding",
            "ASME B1.1: 0.0015 × ∛D + 0.0015 × √LE + 0.015 × ∛P² in inches, each term to six places",
        )
        .with("D", "tolerance_size", used)
        .with("LE", "engagement", engagement)
        .with("P", "pitch", pitch)
        .gives("tolerance_2a", FoundExtent::stated(t.td2, Unit::Inch));
    let made_for = if table_engagement(thread) == thread.diameter { "one diameter" } else { "nine pitches" };
    if t.engagement_of_tables {
        record.note(
            "engagement",
            format!("The limits hold for the length of engagement that their tables are made for, here {made_for}."),
        );
    } else {
        record.note(
            "engagement_stated",
            format!(
                "The limits are worked out for the length stated, by the standard's formula; its tables, and most gauges, are \
                 made for {made_for}. The allowance is three tenths of the 2A tolerance at that length too."
            ),
        );
    }
    if !t.engagement_within_tables {
        record.note(
            "engagement_outside",
            "The tables of ASME B1.1 hold up to an engagement of one and a half diameters, where they are made for nine \
             pitches from five to fifteen; beyond that its formula is not known to hold.",
        );
    }
    engagement
}

fn unified_pitch(
    t: &UnifiedTolerances,
    class_2a: FoundExtent,
    gives: &'static str,
    record: &mut Record,
) -> FoundExtent {
    let tolerance = FoundExtent::stated(t.pitch_tolerance, Unit::Inch);
    record
        .look_up(
            "Tolerance of the pitch diameter",
            format!("ASME B1.1: {} × T for class {}, to 0.0001 in", t.factor, t.class.text()),
        )
        .with("T", "tolerance_2a", class_2a)
        .gives(gives, tolerance);
    tolerance
}

/// The formula that the minor diameter tolerance of an internal Unified thread comes from.
fn unified_minor_rule(designation: &Designation, t: &UnifiedTolerances) -> &'static str {
    let thread = &designation.thread;
    let threads = thread.threads_per_inch.unwrap_or(1.0 / thread.pitch);
    match t.class.number {
        3 if threads >= 13.0 => {
            "ASME B1.1: 0.05 ∛P² + 0.03 P / D - 0.002 in inches, from 0.23 P - 1.5 P² to 0.394 P, to 0.0001 in"
        }
        3 => "ASME B1.1: 0.05 ∛P² + 0.03 P / D - 0.002 in inches, from 0.120 P to 0.394 P, to 0.0001 in",
        _ if thread.diameter < 0.25 => {
            "ASME B1.1: 0.05 ∛P² + 0.03 P / D - 0.002 in inches, from 0.25 P - 0.40 P² to 0.394 P, to 0.0001 in"
        }
        _ if threads >= 4.0 => "ASME B1.1: 0.25 P - 0.40 P² in inches, to 0.0001 in",
        _ => "ASME B1.1: 0.15 P, to 0.0001 in",
    }
}

fn metric_sources(t: &MetricTolerances, record: &mut Record) {
    record.source("iso_965_1", "tolerances and deviations, and their R40 steps");
    for provenance in &t.sources {
        let trust = Trust::named(provenance.trust).unwrap_or(Trust::FromMemory);
        record.source_trusted(provenance.source, "cells of the tolerance tables", trust);
    }
    if !t.tabulated && !record.notes.iter().any(|note| note.code == "tolerance_by_formula") {
        record.note(
            "tolerance_by_formula",
            "A tolerance of this size and pitch stands in no table at hand; it comes from the formula of the standard.",
        );
    }
}

fn metric_pitch(
    designation: &Designation,
    t: &MetricTolerances,
    gives: &'static str,
    record: &mut Record,
) -> FoundExtent {
    let tolerance = FoundExtent::stated(t.pitch_um as f64 / 1000.0, Unit::Millimetre);
    let grade = t.class.pitch_grade;
    record
        .look_up(
            "Tolerance of the pitch diameter",
            format!(
                "ISO 965-1: {} µm for an external thread of grade 6, and {:+} steps of R40 from it for grade {grade}",
                t.pitch_grade_6_um, t.pitch_steps
            ),
        )
        .with("D", "size", designation.found(designation.thread.diameter))
        .with("P", "pitch", designation.found(designation.thread.pitch))
        .gives(gives, tolerance);
    tolerance
}

fn metric_crest(
    t: &MetricTolerances,
    crest: &'static str,
    gives: &'static str,
    pitch: FoundSize,
    record: &mut Record,
) -> FoundExtent {
    let tolerance = FoundExtent::stated(t.crest_um as f64 / 1000.0, Unit::Millimetre);
    record
        .look_up(
            format!("Tolerance of the {crest} diameter"),
            format!(
                "ISO 965-1: {} µm for grade 6, and {:+} steps of R40 from it for grade {}",
                t.crest_grade_6_um, t.crest_steps, t.class.crest_grade
            ),
        )
        .with("P", "pitch", pitch)
        .gives(gives, tolerance);
    tolerance
}
