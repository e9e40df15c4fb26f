//! The basic dimensions of a thread as results, and the steps that threads of every system have: what
//! the designation says, pitch, lead angle, angle between the flanks.

use super::gauging::TaperGauging;
use crate::quantity::{FoundAngle, FoundArea, FoundSize, SiValue, Unit};
use crate::reference::threads::{Designation, ThreadSystem};
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
        ThreadSystem::Unified => "as ASME B1.1 prints it: to 0.0001 in, halves to the even digit",
        ThreadSystem::Metric => "as ISO 724 prints it: to 0.001 mm, halves up",
        ThreadSystem::Npt => "as ASME B1.20.1 prints it: to 0.00001 in",
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
        ThreadSystem::Unified => "list of the Unified series",
        ThreadSystem::Metric => "list of the metric series",
        ThreadSystem::Npt => "list of the pipe sizes of ASME B1.20.1",
        ThreadSystem::PipeParallel | ThreadSystem::PipeTaper => "list of the pipe sizes of ISO 228-1 and ISO 7-1",
        ThreadSystem::Whitworth => "list of BSW and BSF",
        ThreadSystem::Acme => "list of the standard Acme sizes",
        ThreadSystem::Trapezoidal => "list of the trapezoidal sizes",
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
