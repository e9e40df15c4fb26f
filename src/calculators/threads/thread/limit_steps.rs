//! The steps from basic sizes and tolerances to the limits of a thread: the sums that the tables of
//! ASME B1.1 and ISO 965-1 print.

use super::limit_results::{ExternalThreadLimits, InternalThreadLimits};
use super::tolerances::{external_tolerances, internal_tolerances};
use crate::quantity::{FoundExtent, FoundLowerLimit, FoundUpperLimit};
use crate::reference::threads::{self, Chosen, Designation, ExternalLimits, InternalLimits, ThreadSystem};
use crate::working::Record;

/// The class that counts, as a step.
pub fn class(what: &'static str, gives: &'static str, chosen: Chosen, class: &str, text: String, record: &mut Record) {
    let rule = match chosen {
        Chosen::Field => "as its own field says",
        Chosen::Designation => "as the designation says",
        Chosen::Usual => "the usual one, as none is named",
    };
    record.look_up(what, rule).with("T", "designation", text).gives(gives, class.to_owned());
}

/// Limits of the external thread, step by step.
pub fn external_limits(
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
    let tolerance = external_tolerances(designation, limits, record);
    let allowance = FoundExtent::stated(limits.allowance, unit);
    let (major_max, major_min) = (upper(limits.major_max), lower(limits.major_min));
    record
        .step("Greatest major diameter", "d1 = D - es")
        .with("D", "major_diameter", designation.found(basics.major))
        .with("es", "limits.external.allowance", allowance)
        .gives("limits.external.major_max", major_max);
    record
        .step("Least major diameter", "d2 = d1 - Td")
        .with("d1", "limits.external.major_max", major_max)
        .with("Td", "external_major_tolerance", tolerance.crest)
        .gives("limits.external.major_min", major_min);
    let major_min_unfinished = limits.major_min_unfinished.map(lower);
    if let Some(unfinished) = major_min_unfinished {
        record
            .look_up(
                "Least major diameter as hot-rolled",
                "ASME B1.1: the greatest less 0.090 × ∛P² in inches, to 0.0001 in",
            )
            .with("d1", "limits.external.major_max", major_max)
            .with("P", "pitch", designation.found(designation.thread.pitch))
            .gives("limits.external.major_min_unfinished", unfinished);
    }
    let (pitch_max, pitch_min) = (upper(limits.pitch_max), lower(limits.pitch_min));
    record
        .step("Greatest pitch diameter", "e1 = E - es")
        .with("E", "pitch_diameter", designation.found(basics.pitch_diameter))
        .with("es", "limits.external.allowance", allowance)
        .gives("limits.external.pitch_max", pitch_max);
    record
        .step("Least pitch diameter", "e2 = e1 - Te")
        .with("e1", "limits.external.pitch_max", pitch_max)
        .with("Te", "external_pitch_tolerance", tolerance.pitch)
        .gives("limits.external.pitch_min", pitch_min);
    let minor_max = upper(limits.minor_max);
    match designation.thread.system {
        ThreadSystem::Unified => record
            .look_up(
                "Greatest minor diameter, UNR root",
                "ASME B1.1: the greatest major diameter less 5/8 √3 P and √3/16 P, each to 0.0001 in",
            )
            .with("d1", "limits.external.major_max", major_max)
            .with("P", "pitch", designation.found(designation.thread.pitch))
            .gives("limits.external.minor_max", minor_max),
        _ => record
            .step("Greatest minor diameter, flat root", "k = K - es")
            .with("K", "minor_diameter", designation.found(basics.minor))
            .with("es", "limits.external.allowance", allowance)
            .gives("limits.external.minor_max", minor_max),
    }
    let minor_min = limits.minor_min.map(lower);
    if let Some(minor_min) = minor_min {
        record
            .look_up(
                "Least minor diameter, root of the least radius",
                "the pitch diameter in full less es, its tolerance and 0.616025 P, to 0.001 mm; root radius P/8",
            )
            .with("E", "pitch_diameter_exact", designation.found(basics.pitch_diameter_exact))
            .with("es", "limits.external.allowance", allowance)
            .with("Te", "external_pitch_tolerance", tolerance.pitch)
            .with("P", "pitch", designation.found(designation.thread.pitch))
            .gives("limits.external.minor_min", minor_min);
    }
    ExternalThreadLimits {
        class: limits.class.clone(),
        allowance,
        major_max,
        major_min,
        major_min_unfinished,
        pitch_max,
        pitch_min,
        minor_max,
        minor_min,
    }
}

/// Limits of the internal thread, step by step.
pub fn internal_limits(
    designation: &Designation,
    chosen: Chosen,
    limits: &InternalLimits,
    record: &mut Record,
) -> InternalThreadLimits {
    class("Class of the internal thread", "limits.internal.class", chosen, &limits.class, designation.text(), record);
    let unit = designation.unit();
    let metric = designation.thread.system == ThreadSystem::Metric;
    let upper = |value: f64| FoundUpperLimit::stated(value, unit);
    let lower = |value: f64| FoundLowerLimit::stated(value, unit);
    let basics = threads::basics(&designation.thread);
    let tolerance = internal_tolerances(designation, limits, record);
    // The least sizes: basic for Unified, above it by the deviation for metric.
    let mut least = |what: &'static str, basic: (&'static str, f64), gives: &'static str, value: f64| {
        let basic_size = designation.found(basic.1);
        if metric {
            record
                .step(what, "b = B + EI")
                .with("B", basic.0, basic_size)
                .with("EI", "internal_deviation", tolerance.deviation)
                .gives(gives, lower(value));
        } else {
            record.step(what, "b = B").with("B", basic.0, basic_size).gives(gives, lower(value));
        }
        lower(value)
    };
    let major_min =
        least("Least major diameter", ("major_diameter", basics.major), "limits.internal.major_min", limits.major_min);
    let pitch_min = least(
        "Least pitch diameter",
        ("pitch_diameter", basics.pitch_diameter),
        "limits.internal.pitch_min",
        limits.pitch_min,
    );
    let pitch_max = upper(limits.pitch_max);
    let (minor_min, minor_max) = (lower(limits.minor_min), upper(limits.minor_max));
    if metric {
        least("Least minor diameter", ("minor_diameter", basics.minor), "limits.internal.minor_min", limits.minor_min);
        record
            .step("Greatest minor diameter", "k1 = k2 + Tk")
            .with("k2", "limits.internal.minor_min", minor_min)
            .with("Tk", "internal_minor_tolerance", tolerance.crest)
            .gives("limits.internal.minor_max", minor_max);
    } else {
        let rule = match (designation.thread.diameter < 0.138 - 1e-9, limits.class.starts_with('3')) {
            (true, _) => "ASME B1.1: the sum, to 0.0001 in below No. 6",
            (false, true) => "ASME B1.1: the sum, to 0.0001 in for class 3B",
            (false, false) => "ASME B1.1: the sum, to 0.001 in from No. 6 up, halves to the even digit",
        };
        record
            .look_up(
                "Least minor diameter",
                "ASME B1.1: the basic one, to 0.001 in from No. 6 up, halves to the even digit",
            )
            .with("K", "minor_diameter", designation.found(basics.minor))
            .gives("limits.internal.minor_min", minor_min);
        record
            .look_up("Greatest minor diameter", rule)
            .with("K", "minor_diameter", designation.found(basics.minor))
            .with("Tk", "internal_minor_tolerance", tolerance.crest)
            .gives("limits.internal.minor_max", minor_max);
    }
    record
        .step("Greatest pitch diameter", "e1 = e2 + Te")
        .with("e2", "limits.internal.pitch_min", pitch_min)
        .with("Te", "internal_pitch_tolerance", tolerance.pitch)
        .gives("limits.internal.pitch_max", pitch_max);
    let major_max = limits.major_max.map(upper);
    if let Some(major_max) = major_max {
        record
            .look_up(
                "Greatest major diameter, root of the nut",
                "the greatest pitch diameter in full and 0.793857 P, to 0.001 mm; a twelfth of the triangle left at the root",
            )
            .with("E", "pitch_diameter_exact", designation.found(basics.pitch_diameter_exact))
            .with("EI", "internal_deviation", tolerance.deviation)
            .with("Te", "internal_pitch_tolerance", tolerance.pitch)
            .with("P", "pitch", designation.found(designation.thread.pitch))
            .gives("limits.internal.major_max", major_max);
    }
    InternalThreadLimits {
        class: Some(limits.class.clone()),
        minor_min,
        minor_max,
        pitch_min,
        pitch_max,
        major_min,
        major_max,
    }
}
