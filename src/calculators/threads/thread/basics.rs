//! The basic dimensions of a thread with their steps: sizes as printed, lead, depths, stress area.

use super::ThreadResult;
use super::common_steps::{name_and_size, pitch_and_lead, printed};
use super::forms::{Form, npt, pipe, power, whitworth};
use super::gauging::{npt_gauging, r_gauging};
use crate::calculators::prelude::*;
use crate::reference::threads::{self, Basics, ThreadSystem};
use crate::threading::lead_angle;
use crate::working::known_steps;

/// Finds the basic dimensions and puts their steps on record; what belongs to limits is left open.
pub fn find(designation: &Designation, record: &mut Record) -> ThreadResult {
    let thread = &designation.thread;
    let (system, basics) = (thread.system, threads::basics(thread));
    let sixty_degrees = matches!(system, ThreadSystem::Unified | ThreadSystem::Metric);
    let found = |value: f64| designation.found(value);
    let printed = printed(system);
    let (major_diameter, pitch_diameter, minor_diameter) =
        (found(basics.major), found(basics.pitch_diameter), found(basics.minor));
    name_and_size(designation, record);
    if sixty_degrees {
        known_steps! { record;
            look_up "Basic major diameter", printed, D = "size" => "major_diameter", major_diameter;
        }
    }
    let (pitch, lead) = pitch_and_lead(designation, record);
    let form = match system {
        ThreadSystem::Unified | ThreadSystem::Metric => sixty_degree_diameters(designation, &basics, record),
        ThreadSystem::Npt => npt(designation, &basics, record),
        ThreadSystem::PipeParallel | ThreadSystem::PipeTaper => pipe(designation, &basics, record),
        ThreadSystem::Whitworth => whitworth(designation, &basics, record),
        ThreadSystem::Acme | ThreadSystem::Trapezoidal => power(designation, &basics, record),
    };
    if !sixty_degrees {
        if system != ThreadSystem::Npt {
            known_steps! { record;
                look_up "Basic major diameter", printed, x = "size" => "major_diameter", major_diameter;
            }
        }
        known_steps! { record;
            look_up "Basic pitch diameter", printed, x = "pitch_diameter_exact" => "pitch_diameter", pitch_diameter;
            look_up "Basic minor diameter", printed, x = "minor_diameter_exact" => "minor_diameter", minor_diameter;
        }
    }
    let lead_angle = lead_angle(lead, ("pitch_diameter_exact", found(basics.pitch_diameter_exact)), record);
    let stress_area = if sixty_degrees { depths_and_stress(designation, &basics, &form, record) } else { None };
    let gauging = match threads::npt(thread) {
        Some(npt) => Some(npt_gauging(&npt, record)),
        None => r_gauging(designation, &basics, record),
    };
    ThreadResult {
        designation: thread.designation.clone(),
        series: thread.series.clone(),
        standard: thread.standard,
        left_hand: thread.left_hand,
        starts: thread.starts,
        major_diameter,
        threads_per_inch: thread.threads_per_inch,
        pitch,
        lead,
        lead_angle,
        flank_angle: FoundAngle::stated(system.flank_angle(), Unit::Degree),
        pitch_diameter,
        minor_diameter,
        external_minor_diameter: form.external_minor,
        internal_major_diameter: form.internal_major,
        external_depth: Some(form.external_depth).filter(|_| thread.has_external()),
        internal_depth: Some(form.internal_depth).filter(|_| thread.has_internal()),
        stress_area,
        gauging,
        engagement: None,
        engagement_group: None,
        limits: None,
    }
}

/// Pitch and minor diameter of Unified and metric threads, in full and as printed.
fn sixty_degree_diameters(designation: &Designation, basics: &Basics, record: &mut Record) -> Form {
    let thread = &designation.thread;
    let unified = thread.system == ThreadSystem::Unified;
    if unified {
        record.source("asme_b1_1", "basic profile and dimensions");
    } else {
        record.source("iso_68_1", "basic profile");
        record.source("iso_724", "basic dimensions");
    }
    let (found, printed) = (|value: f64| designation.found(value), printed(thread.system));
    known_steps! { record;
        step "Basic pitch diameter in full", "E = D - 3 / 8 × √(3) × P", D = "size", P = "pitch"
            => "pitch_diameter_exact", found(basics.pitch_diameter_exact);
        look_up "Basic pitch diameter", printed, E = "pitch_diameter_exact"
            => "pitch_diameter", found(basics.pitch_diameter);
        step "Basic minor diameter in full", "E = D - 5 / 8 × √(3) × P", D = "size", P = "pitch"
            => "minor_diameter_exact", found(basics.minor_exact);
        look_up "Basic minor diameter", printed, E = "minor_diameter_exact" => "minor_diameter", found(basics.minor);
    }
    let share = match (unified, thread.rounded_root) {
        (true, false) => 5.0 / 16.0,
        (true, true) => 11.0 / 32.0,
        (false, _) => 17.0 / 48.0,
    };
    let depth = |share: f64| found(share * 3.0_f64.sqrt() * thread.pitch);
    Form { external_depth: depth(share), internal_depth: depth(5.0 / 16.0), external_minor: None, internal_major: None }
}

/// Depths and tensile stress area of Unified and metric threads, by the formulas of their standards.
fn depths_and_stress(
    designation: &Designation,
    basics: &Basics,
    form: &Form,
    record: &mut Record,
) -> Option<FoundArea> {
    let thread = &designation.thread;
    let unified = thread.system == ThreadSystem::Unified;
    let (what, formula) = match (unified, thread.rounded_root) {
        (true, false) => ("Depth of the external thread, basic profile", "h = 5 / 16 × √(3) × P"),
        (true, true) => ("Depth of the external thread, rounded root of UNR", "h = 11 / 32 × √(3) × P"),
        (false, _) => {
            ("Depth of the external thread, root rounded to a sixth of the triangle", "h = 17 / 48 × √(3) × P")
        }
    };
    known_steps! { record;
        step what, formula, P = "pitch" => "external_depth", form.external_depth;
        step "Depth of the internal thread, basic profile", "h = 5 / 16 × √(3) × P", P = "pitch"
            => "internal_depth", form.internal_depth;
    }
    let (source, place, formula, unit) = if unified {
        let formula = "A = π / 4 × (D - 9 / 16 × √(3) × P)^2";
        ("asme_b1_1", "appendix B, tensile stress area", formula, Unit::SquareInch)
    } else {
        let formula = "A = π / 4 × (D - 13 / 24 × √(3) × P)^2";
        ("iso_898_1_copy", "nominal stress areas, which the formula gives", formula, Unit::SquareMillimetre)
    };
    record.source(source, place);
    let area = FoundArea::stated(basics.stress_area?, unit);
    known_steps! { record; step "Tensile stress area", formula, D = "size", P = "pitch" => "stress_area", area; }
    Some(area)
}
