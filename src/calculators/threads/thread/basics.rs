//! The basic dimensions of a thread with their steps: sizes as printed, lead, depths, stress area.

use super::common_steps::{BasicSizes, lead_angle, name, pitch, printed};
use super::other;
use crate::quantity::{FoundArea, FoundSize, Unit};
use crate::reference::threads::{self, Basics, Designation, ThreadSystem};
use crate::working::Record;

/// Finds the basic dimensions and puts their steps on record.
pub fn find(designation: &Designation, record: &mut Record) -> BasicSizes {
    let thread = &designation.thread;
    if !matches!(thread.system, ThreadSystem::Unified | ThreadSystem::Metric) {
        return other::find(designation, record);
    }
    let basics = threads::basics(thread);
    name(designation, record);
    let found = |value: f64| designation.found(value);
    let size = found(thread.diameter);
    record
        .look_up("Size", "as the designation says it")
        .with("T", "designation", designation.text())
        .gives("size", size);
    let major_diameter = found(basics.major);
    record
        .look_up("Basic major diameter", printed(designation))
        .with("D", "size", size)
        .gives("major_diameter", major_diameter);
    let pitch = pitch(designation, record);
    let lead = found(basics.lead);
    record.step("Lead", "L = N × P").with("N", "starts", thread.starts).with("P", "pitch", pitch).gives("lead", lead);
    let (pitch_diameter, minor_diameter) = diameters(designation, &basics, size, pitch, record);
    let lead_angle = lead_angle(lead, pitch_diameter, record);
    let (external_depth, internal_depth) = depths(designation, pitch, record);
    let stress_area = stress_area(designation, &basics, size, pitch, record);
    BasicSizes {
        major_diameter,
        pitch,
        lead,
        lead_angle,
        pitch_diameter,
        minor_diameter,
        external_depth: Some(external_depth),
        internal_depth: Some(internal_depth),
        external_minor_diameter: None,
        internal_major_diameter: None,
        stress_area,
        gauging: None,
    }
}

/// Basic pitch and minor diameter, in full and as printed.
fn diameters(
    designation: &Designation,
    basics: &Basics,
    size: FoundSize,
    pitch: FoundSize,
    record: &mut Record,
) -> (FoundSize, FoundSize) {
    match designation.thread.system {
        ThreadSystem::Unified => record.source("asme_b1_1", "basic profile and dimensions"),
        _ => {
            record.source("iso_68_1", "basic profile");
            record.source("iso_724", "basic dimensions");
        }
    }
    let found = |value: f64| designation.found(value);
    let mut both = |what: &'static str, formula: &'static str, exact: (&'static str, f64), field, value| {
        record
            .step(format!("{what} in full"), formula)
            .with("D", "size", size)
            .with("P", "pitch", pitch)
            .gives(exact.0, found(exact.1));
        record.look_up(what, printed(designation)).with("E", exact.0, found(exact.1)).gives(field, found(value));
        found(value)
    };
    let pitch_diameter = both(
        "Basic pitch diameter",
        "E = D - 3 / 8 × √(3) × P",
        ("pitch_diameter_exact", basics.pitch_diameter_exact),
        "pitch_diameter",
        basics.pitch_diameter,
    );
    let minor_diameter = both(
        "Basic minor diameter",
        "E = D - 5 / 8 × √(3) × P",
        ("minor_diameter_exact", basics.minor_exact),
        "minor_diameter",
        basics.minor,
    );
    (pitch_diameter, minor_diameter)
}

/// Depth of the external and of the internal thread.
fn depths(designation: &Designation, pitch: FoundSize, record: &mut Record) -> (FoundSize, FoundSize) {
    let thread = &designation.thread;
    let root_3 = 3.0_f64.sqrt();
    let (what, formula, share) = match (thread.system, thread.rounded_root) {
        (ThreadSystem::Unified, false) => ("basic profile", "h = 5 / 16 × √(3) × P", 5.0 / 16.0),
        (ThreadSystem::Unified, true) => ("rounded root of UNR", "h = 11 / 32 × √(3) × P", 11.0 / 32.0),
        _ => ("root rounded to a sixth of the triangle", "h = 17 / 48 × √(3) × P", 17.0 / 48.0),
    };
    let external = designation.found(share * root_3 * thread.pitch);
    record
        .step(format!("Depth of the external thread, {what}"), formula)
        .with("P", "pitch", pitch)
        .gives("external_depth", external);
    let internal = designation.found(5.0 / 16.0 * root_3 * thread.pitch);
    record
        .step("Depth of the internal thread, basic profile", "h = 5 / 16 × √(3) × P")
        .with("P", "pitch", pitch)
        .gives("internal_depth", internal);
    (external, internal)
}

/// The tensile stress area by the formula of the thread's standard.
fn stress_area(
    designation: &Designation,
    basics: &Basics,
    size: FoundSize,
    pitch: FoundSize,
    record: &mut Record,
) -> Option<FoundArea> {
    let (formula, unit) = match designation.thread.system {
        ThreadSystem::Unified => {
            record.source("asme_b1_1", "appendix B, tensile stress area");
            ("A = π / 4 × (D - 9 / 16 × √(3) × P)^2", Unit::SquareInch)
        }
        _ => {
            record.source("iso_898_1_copy", "nominal stress areas, which the formula gives");
            ("A = π / 4 × (D - 13 / 24 × √(3) × P)^2", Unit::SquareMillimetre)
        }
    };
    let area = FoundArea::stated(basics.stress_area?, unit);
    record
        .step("Tensile stress area", formula)
        .with("D", "size", size)
        .with("P", "pitch", pitch)
        .gives("stress_area", area);
    Some(area)
}
