//! The basic dimensions of a thread with their steps: sizes as printed, lead, depths, stress area.

use super::gauging::TaperGauging;
use super::other;
use crate::quantity::{FoundAngle, FoundArea, FoundSize, SiValue, Unit};
use crate::reference::threads::{self, Basics, Designation, System};
use crate::sources::Trust;
use crate::working::{Record, Shown};
use std::f64::consts::PI;

/// Basic dimensions as results.
pub struct BasicSizes {
    pub major_diameter: FoundSize,
    pub pitch: FoundSize,
    pub lead: FoundSize,
    pub lead_angle: FoundAngle,
    pub pitch_diameter: FoundSize,
    pub minor_diameter: FoundSize,
    pub external_depth: Option<FoundSize>,
    pub internal_depth: Option<FoundSize>,
    pub external_minor_diameter: Option<FoundSize>,
    pub internal_major_diameter: Option<FoundSize>,
    pub stress_area: Option<FoundArea>,
    pub gauging: Option<TaperGauging>,
}

/// Finds the basic dimensions and puts their steps on record.
pub fn find(designation: &Designation, record: &mut Record) -> BasicSizes {
    let thread = &designation.thread;
    if !matches!(thread.system, System::Unified | System::Metric) {
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

/// The angle of the thread at its pitch diameter.
pub fn lead_angle(lead: FoundSize, pitch_diameter: FoundSize, record: &mut Record) -> FoundAngle {
    let angle = (lead.get().si() / (PI * pitch_diameter.get().si())).atan().to_degrees();
    let lead_angle = FoundAngle::stated(angle, Unit::Degree);
    record
        .step("Lead angle at the pitch diameter", "λ = atan(L / (π × E))")
        .with("L", "lead", lead)
        .with("E", "pitch_diameter", pitch_diameter)
        .gives("lead_angle", lead_angle);
    lead_angle
}

/// The angle between the flanks.
pub fn flank_angle(designation: &Designation, record: &mut Record) -> FoundAngle {
    let angle = FoundAngle::stated(designation.thread.system.flank_angle(), Unit::Degree);
    record
        .look_up("Angle between the flanks", "form of the thread in its standard")
        .with("T", "designation", designation.text())
        .gives("flank_angle", angle);
    angle
}

/// How the tables print basic diameters.
pub fn printed(designation: &Designation) -> &'static str {
    match designation.thread.system {
        System::Unified => "as ASME B1.1 prints it: to 0.0001 in, halves to the even digit",
        System::Metric => "as ISO 724 prints it: to 0.001 mm, halves up",
        System::Npt => "as ASME B1.20.1 prints it: to 0.00001 in",
        _ if designation.thread.system.in_inches() => "as tables print it: to 0.0001 in",
        _ => "as tables print it: to 0.001 mm",
    }
}

/// What the designation says, and where the thread is listed.
pub fn name(designation: &Designation, record: &mut Record) {
    let thread = &designation.thread;
    if let Some(provenance) = thread.provenance {
        let trust = Trust::named(provenance.trust).unwrap_or(Trust::FromMemory);
        record.source_trusted(provenance.source, format!("series, {}", thread.designation), trust);
    }
    if let Some(unlisted) = designation.unlisted() {
        record.note("unlisted", unlisted);
    }
    let list = match thread.system {
        System::Unified => "list of the Unified series",
        System::Metric => "list of the metric series",
        System::Npt => "list of the pipe sizes of ASME B1.20.1",
        System::PipeParallel | System::PipeTaper => "list of the pipe sizes of ISO 228-1 and ISO 7-1",
        System::Whitworth => "list of BSW and BSF",
        System::Acme => "list of the standard Acme sizes",
        System::Trapezoidal => "list of the trapezoidal sizes",
    };
    let mut say = |what: &'static str, table: &'static str, field: &'static str, value: Shown| {
        record.look_up(what, table).with("T", "designation", designation.text()).gives(field, value);
    };
    if let Some(series) = &thread.series {
        say("Series", list, "series", series.clone().into());
    }
    say("In the list of its standard", list, "standard", thread.standard.into());
    say("Left hand", "LH in the designation", "left_hand", thread.left_hand.into());
    say("Starts", "1 if the designation says none", "starts", thread.starts.into());
}

/// The designation in one spelling. The last step: it bears the name of the input that others use.
pub fn respelled(designation: &Designation, record: &mut Record) {
    record
        .look_up("Designation in one spelling", "as its standard writes it, without class, hand and starts")
        .with("T", "designation", designation.text())
        .gives("designation", designation.thread.designation.clone());
}

/// The pitch, and for Unified threads how it comes from the threads in an inch.
pub fn pitch(designation: &Designation, record: &mut Record) -> FoundSize {
    let thread = &designation.thread;
    let pitch = designation.found(thread.pitch);
    match thread.threads_per_inch {
        Some(threads) => {
            record
                .look_up("Threads in one inch", "as the designation or its series says it")
                .with("T", "designation", designation.text())
                .gives("threads_per_inch", threads);
            if thread.system.in_inches() {
                record
                    .step("Pitch", "P = I / n")
                    .with("I", "constant:inch", FoundSize::stated(1.0, Unit::Inch))
                    .with("n", "threads_per_inch", threads)
                    .gives("pitch", pitch);
            } else {
                record
                    .look_up("Pitch", "an inch over the threads in it, to 0.001 mm, from which the standard computes")
                    .with("n", "threads_per_inch", threads)
                    .gives("pitch", pitch);
            }
        }
        None => record
            .look_up("Pitch", "as the designation says it, else that of the coarse series")
            .with("T", "designation", designation.text())
            .gives("pitch", pitch),
    }
    pitch
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
        System::Unified => record.source("asme_b1_1", "basic profile and dimensions"),
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
        (System::Unified, false) => ("basic profile", "h = 5 / 16 × √(3) × P", 5.0 / 16.0),
        (System::Unified, true) => ("rounded root of UNR", "h = 11 / 32 × √(3) × P", 11.0 / 32.0),
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
        System::Unified => {
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
