//! The basic dimensions of pipe, Whitworth and power threads with their steps.

use super::common_steps::{BasicSizes, lead_angle, name, pitch as pitch_step, printed};
use super::gauging::{HEIGHT, npt_diameters, npt_gauging, r_gauging};
use crate::quantity::{FoundAngle, FoundSize, Unit};
use crate::reference::threads::{self, Basics, Designation, ThreadSystem, crest_clearance};
use crate::working::Record;

/// The parts that every system has.
struct Parts<'d> {
    designation: &'d Designation,
    basics: Basics,
    size: FoundSize,
    pitch: FoundSize,
}

impl Parts<'_> {
    fn found(&self, value: f64) -> FoundSize {
        self.designation.found(value)
    }

    /// A size by formula from size and pitch.
    fn by(
        &self,
        what: &'static str,
        formula: &'static str,
        field: &'static str,
        value: f64,
        record: &mut Record,
    ) -> FoundSize {
        record
            .step(what, formula)
            .with("D", "size", self.size)
            .with("P", "pitch", self.pitch)
            .gives(field, self.found(value));
        self.found(value)
    }

    /// A size as printed, from the one in full.
    fn print(
        &self,
        what: &'static str,
        exact: (&'static str, f64),
        field: &'static str,
        value: f64,
        record: &mut Record,
    ) -> FoundSize {
        record
            .look_up(what, printed(self.designation))
            .with("x", exact.0, self.found(exact.1))
            .gives(field, self.found(value));
        self.found(value)
    }
}

/// What differs from system to system.
#[derive(Default)]
struct Own {
    major: Option<FoundSize>,
    depth: Option<FoundSize>,
    external_minor: Option<FoundSize>,
    internal_major: Option<FoundSize>,
}

/// Finds the basic dimensions and puts their steps on record.
pub fn find(designation: &Designation, record: &mut Record) -> BasicSizes {
    let thread = &designation.thread;
    name(designation, record);
    let size = designation.found(thread.diameter);
    record
        .look_up(
            match thread.system {
                ThreadSystem::Npt => "Outside diameter of the pipe",
                _ => "Size",
            },
            "as the list of the standard has it for the designation, else as the designation says it",
        )
        .with("T", "designation", designation.text())
        .gives("size", size);
    let pitch = pitch_step(designation, record);
    let lead = designation.found(thread.lead());
    record.step("Lead", "L = N × P").with("N", "starts", thread.starts).with("P", "pitch", pitch).gives("lead", lead);
    let parts = Parts { designation, basics: threads::basics(thread), size, pitch };
    let own = match thread.system {
        ThreadSystem::Npt => npt(&parts, record),
        ThreadSystem::PipeParallel | ThreadSystem::PipeTaper => pipe(&parts, record),
        ThreadSystem::Whitworth => whitworth(&parts, record),
        _ => power(&parts, record),
    };
    let basics = &parts.basics;
    let major_diameter = own.major.unwrap_or_else(|| {
        parts.print("Basic major diameter", ("size", thread.diameter), "major_diameter", basics.major, record)
    });
    let pitch_diameter = parts.print(
        "Basic pitch diameter",
        ("pitch_diameter_exact", basics.pitch_diameter_exact),
        "pitch_diameter",
        basics.pitch_diameter,
        record,
    );
    let minor_diameter = parts.print(
        "Basic minor diameter",
        ("minor_diameter_exact", basics.minor_exact),
        "minor_diameter",
        basics.minor,
        record,
    );
    let lead_angle = lead_angle(lead, pitch_diameter, record);
    let gauging = match threads::npt(thread) {
        Some(npt) => Some(npt_gauging(&npt, size, pitch, record)),
        None => r_gauging(designation, record),
    };
    BasicSizes {
        major_diameter,
        pitch,
        lead,
        lead_angle,
        pitch_diameter,
        minor_diameter,
        external_depth: own.depth.filter(|_| thread.has_external()),
        internal_depth: own.depth.filter(|_| thread.has_internal()),
        external_minor_diameter: own.external_minor,
        internal_major_diameter: own.internal_major,
        stress_area: None,
        gauging,
    }
}

/// The depth of both sides, from the height of the thread.
fn depths(parts: &Parts, height: (&'static str, FoundSize), record: &mut Record) -> Option<FoundSize> {
    let thread = &parts.designation.thread;
    for (has, what, field) in [
        (thread.has_external(), "Depth of the external thread", "external_depth"),
        (thread.has_internal(), "Depth of the internal thread", "internal_depth"),
    ] {
        if has {
            record.step(what, "t = h").with("h", height.0, height.1).gives(field, height.1);
        }
    }
    Some(height.1)
}

fn npt(parts: &Parts, record: &mut Record) -> Own {
    record.source("asme_b1_20_1", "basic dimensions");
    if let Some(npt) = threads::npt(&parts.designation.thread) {
        npt_diameters(&npt, parts.size, parts.pitch, record);
    }
    let (at, pitch) = (parts.basics.pitch_diameter_exact, parts.designation.thread.pitch);
    let height = parts.found(HEIGHT.value * pitch);
    record
        .step("Greatest height of the thread", "h = k × P")
        .constant("k", &HEIGHT)
        .with("P", "pitch", parts.pitch)
        .gives("height", height);
    let mut off = |what: &'static str, formula: &'static str, field: &'static str, value: f64| {
        record
            .step(what, formula)
            .with("E1", "pitch_diameter_exact", parts.found(at))
            .with("h", "height", height)
            .gives(field, parts.found(value));
    };
    off("Major diameter at the gauge plane in full", "D1 = E1 + h", "major_diameter_exact", at + HEIGHT.value * pitch);
    off("Minor diameter at the gauge plane in full", "K1 = E1 - h", "minor_diameter_exact", parts.basics.minor_exact);
    let exact = ("major_diameter_exact", at + HEIGHT.value * pitch);
    let major = parts.print("Major diameter at the gauge plane", exact, "major_diameter", parts.basics.major, record);
    Own { major: Some(major), depth: depths(parts, ("height", height), record), ..Own::default() }
}

fn pipe(parts: &Parts, record: &mut Record) -> Own {
    record.source("iso_228_1", "profile and basic diameters, which ISO 7-1 shares at its gauge plane");
    let basics = &parts.basics;
    let height = parts.found(parts.designation.thread.diameter - basics.pitch_diameter);
    record
        .look_up(
            "Height of the thread",
            "0.640327 of the pitch, to 0.001 mm: 55 degrees, a sixth rounded off each side",
        )
        .with("P", "pitch", parts.pitch)
        .gives("height", height);
    for (what, formula, field, value) in [
        ("Basic pitch diameter from the height", "E = D - h", "pitch_diameter_exact", basics.pitch_diameter_exact),
        ("Basic minor diameter from the height", "K = D - 2 × h", "minor_diameter_exact", basics.minor_exact),
    ] {
        record
            .step(what, formula)
            .with("D", "size", parts.size)
            .with("h", "height", height)
            .gives(field, parts.found(value));
    }
    if parts.designation.thread.system == ThreadSystem::PipeTaper {
        record.note(
            "gauge_plane",
            "The diameters of R and Rc hold at the gauge plane; R seals in Rc or Rp, with sealant.",
        );
    }
    Own { depth: depths(parts, ("height", height), record), ..Own::default() }
}

fn whitworth(parts: &Parts, record: &mut Record) -> Own {
    record.source("bs_84", "form and basic diameters");
    let basics = &parts.basics;
    let height = parts.found(parts.designation.thread.diameter - basics.pitch_diameter_exact);
    record
        .step("Height of the thread, a sixth rounded off each side", "h = P / (3 × tan(α))")
        .with("P", "pitch", parts.pitch)
        .with("α", "constant:half_flank_angle", FoundAngle::stated(27.5, Unit::Degree))
        .gives("height", height);
    for (what, formula, field, value) in [
        ("Basic pitch diameter in full", "E = D - h", "pitch_diameter_exact", basics.pitch_diameter_exact),
        ("Basic minor diameter in full", "K = D - 2 × h", "minor_diameter_exact", basics.minor_exact),
    ] {
        record
            .step(what, formula)
            .with("D", "size", parts.size)
            .with("h", "height", height)
            .gives(field, parts.found(value));
    }
    Own { depth: depths(parts, ("height", height), record), ..Own::default() }
}

fn power(parts: &Parts, record: &mut Record) -> Own {
    let thread = &parts.designation.thread;
    let (d, p) = (thread.diameter, thread.pitch);
    let acme = thread.system == ThreadSystem::Acme;
    // Clearance on the radius.
    let clearance = if acme { threads::acme_clearance(p) / 2.0 } else { crest_clearance(p) };
    if acme {
        record.source("asme_b1_5", "form, clearance and basic diameters");
    } else {
        record.source("iso_2904", "profile, clearance and basic diameters");
    }
    let rule = if acme {
        "half of 0.020 in to 10 threads an inch, of 0.010 in above"
    } else {
        "0.15 mm for pitch 1.5, 0.25 mm to 5, 0.5 mm to 12, 1 mm above"
    };
    let found = parts.found(clearance);
    record.look_up("Clearance at crest and root", rule).with("P", "pitch", parts.pitch).gives("clearance", found);
    parts.by("Basic pitch diameter in full", "E = D - P / 2", "pitch_diameter_exact", d - p / 2.0, record);
    parts.by("Basic minor diameter in full", "K = D - P", "minor_diameter_exact", d - p, record);
    let mut with_clearance = |what: &'static str, formula: &'static str, field: &'static str, value: f64| {
        let mut step = record.step(what, formula);
        for (symbol, of, value) in [("D", "size", parts.size), ("P", "pitch", parts.pitch), ("a", "clearance", found)] {
            if formula.split(' ').any(|word| word == symbol) {
                step = step.with(symbol, of, value);
            }
        }
        step.gives(field, parts.found(value));
        parts.found(value)
    };
    let external_minor = with_clearance(
        "Minor diameter of the external thread",
        "d3 = D - P - 2 × a",
        "external_minor_diameter",
        d - p - 2.0 * clearance,
    );
    let internal_major = with_clearance(
        "Major diameter of the internal thread",
        "D4 = D + 2 × a",
        "internal_major_diameter",
        d + 2.0 * clearance,
    );
    let depth =
        with_clearance("Height of the thread with its clearance", "h = P / 2 + a", "height", p / 2.0 + clearance);
    Own {
        depth: depths(parts, ("height", depth), record),
        external_minor: Some(external_minor),
        internal_major: Some(internal_major),
        ..Own::default()
    }
}
