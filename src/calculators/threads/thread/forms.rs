//! What pipe, Whitworth and power threads have of their own among the basic dimensions: diameters in full, depth
//! and clearance, with their steps.

use super::common_steps::printed;
use super::gauging::{HEIGHT, npt_diameters};
use crate::calculators::prelude::*;
use crate::reference::threads::{self, Basics, ThreadSystem, crest_clearance};
use crate::working::known_steps;

/// What differs from system to system.
pub struct Form {
    pub external_depth: FoundSize,
    pub internal_depth: FoundSize,
    /// Where clearance makes it another than the basic one.
    pub external_minor: Option<FoundSize>,
    /// Likewise.
    pub internal_major: Option<FoundSize>,
}

impl Form {
    /// A thread that is as deep outside as inside, with the steps of the sides it has.
    fn of_height(designation: &Designation, height: FoundSize, record: &mut Record) -> Self {
        let thread = &designation.thread;
        for (has, what, field) in [
            (thread.has_external(), "Depth of the external thread", "external_depth"),
            (thread.has_internal(), "Depth of the internal thread", "internal_depth"),
        ] {
            if has {
                known_steps! { record; step what, "t = h", h = "height" => field, height; }
            }
        }
        Self { external_depth: height, internal_depth: height, external_minor: None, internal_major: None }
    }
}

/// National pipe taper threads.
pub fn npt(designation: &Designation, basics: &Basics, record: &mut Record) -> Form {
    let thread = &designation.thread;
    let found = |value: f64| designation.found(value);
    record.source("asme_b1_20_1", "basic dimensions");
    if let Some(npt) = threads::npt(thread) {
        npt_diameters(&npt, record);
    }
    let height = HEIGHT.value * thread.pitch;
    known_steps! { record;
        step "Greatest height of the thread", "h = k × P", k = const: HEIGHT, P = "pitch" => "height", found(height);
        step "Major diameter at the gauge plane in full", "D1 = E1 + h", E1 = "pitch_diameter_exact", h = "height"
            => "major_diameter_exact", found(basics.pitch_diameter_exact + height);
        step "Minor diameter at the gauge plane in full", "K1 = E1 - h", E1 = "pitch_diameter_exact", h = "height"
            => "minor_diameter_exact", found(basics.minor_exact);
        look_up "Major diameter at the gauge plane", printed(thread.system), x = "major_diameter_exact"
            => "major_diameter", found(basics.major);
    }
    Form::of_height(designation, found(height), record)
}

/// Pipe threads G, R, Rp and Rc.
pub fn pipe(designation: &Designation, basics: &Basics, record: &mut Record) -> Form {
    let thread = &designation.thread;
    let found = |value: f64| designation.found(value);
    let height = found(thread.diameter - basics.pitch_diameter);
    record.source("iso_228_1", "profile and basic diameters, which ISO 7-1 shares at its gauge plane");
    known_steps! { record;
        look_up "Height of the thread", "0.640327 of the pitch, to 0.001 mm: 55 degrees, a sixth rounded off each side",
            P = "pitch" => "height", height;
        step "Basic pitch diameter from the height", "E = D - h", D = "size", h = "height"
            => "pitch_diameter_exact", found(basics.pitch_diameter_exact);
        step "Basic minor diameter from the height", "K = D - 2 × h", D = "size", h = "height"
            => "minor_diameter_exact", found(basics.minor_exact);
    }
    if thread.system == ThreadSystem::PipeTaper {
        record.note(
            "gauge_plane",
            "The diameters of R and Rc hold at the gauge plane. R seals in Rc or Rp, with sealant.",
        );
    }
    Form::of_height(designation, height, record)
}

/// BSW and BSF.
pub fn whitworth(designation: &Designation, basics: &Basics, record: &mut Record) -> Form {
    let found = |value: f64| designation.found(value);
    let height = found(designation.thread.diameter - basics.pitch_diameter_exact);
    record.source("bs_84", "form and basic diameters");
    known_steps! { record;
        step "Height of the thread, a sixth rounded off each side", "h = P / (3 × tan(α))",
            P = "pitch", α = "constant:half_flank_angle": FoundAngle::stated(27.5, Unit::Degree) => "height", height;
        step "Basic pitch diameter in full", "E = D - h", D = "size", h = "height"
            => "pitch_diameter_exact", found(basics.pitch_diameter_exact);
        step "Basic minor diameter in full", "K = D - 2 × h", D = "size", h = "height"
            => "minor_diameter_exact", found(basics.minor_exact);
    }
    Form::of_height(designation, height, record)
}

/// Acme and trapezoidal threads, which have clearance at crest and root.
pub fn power(designation: &Designation, basics: &Basics, record: &mut Record) -> Form {
    let thread = &designation.thread;
    let (d, p) = (thread.diameter, thread.pitch);
    let found = |value: f64| designation.found(value);
    // On the radius.
    let (clearance, rule) = if thread.system == ThreadSystem::Acme {
        record.source("asme_b1_5", "form, clearance and basic diameters");
        (threads::acme_clearance(p) / 2.0, "half of 0.020 in to 10 threads per inch, of 0.010 in above")
    } else {
        record.source("iso_2904", "profile, clearance and basic diameters");
        (crest_clearance(p), "0.15 mm for pitch 1.5, 0.25 mm to 5, 0.5 mm to 12, 1 mm above")
    };
    let (external_minor, internal_major) = (found(d - p - 2.0 * clearance), found(d + 2.0 * clearance));
    let height = found(p / 2.0 + clearance);
    known_steps! { record;
        look_up "Clearance at crest and root", rule, P = "pitch" => "clearance", found(clearance);
        step "Basic pitch diameter in full", "E = D - P / 2", D = "size", P = "pitch"
            => "pitch_diameter_exact", found(basics.pitch_diameter_exact);
        step "Basic minor diameter in full", "K = D - P", D = "size", P = "pitch"
            => "minor_diameter_exact", found(basics.minor_exact);
        step "Minor diameter of the external thread", "d3 = D - P - 2 × a", D = "size", P = "pitch", a = "clearance"
            => "external_minor_diameter", external_minor;
        step "Major diameter of the internal thread", "D4 = D + 2 × a", D = "size", a = "clearance"
            => "internal_major_diameter", internal_major;
        step "Height of the thread with its clearance", "h = P / 2 + a", P = "pitch", a = "clearance"
            => "height", height;
    }
    let (external_minor, internal_major) = (Some(external_minor), Some(internal_major));
    Form { external_minor, internal_major, ..Form::of_height(designation, height, record) }
}
