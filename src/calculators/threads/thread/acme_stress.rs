//! The tensile stress area of an Acme thread, from the least pitch and least minor diameter of its class.

use super::ThreadInput;
use super::limit_results::ThreadLimits;
use crate::calculators::prelude::*;
use crate::reference::threads::ThreadSystem;
use crate::working::known_steps;

/// The area with its steps; `None` for another thread.
pub fn area(input: &ThreadInput, limits: Option<&ThreadLimits>, record: &mut Record) -> Option<FoundArea> {
    let external = limits.filter(|_| input.designation.thread.system == ThreadSystem::Acme)?.external.as_ref()?;
    let (pitch, minor) = (external.pitch_min, external.minor_min?);
    let inch = Unit::Inch.of_si((pitch.get().si() + minor.get().si()) / 2.0);
    let area = FoundArea::stated(std::f64::consts::FRAC_PI_4 * inch * inch, Unit::SquareInch);
    record.source("mh27", "p. 1831: stress areas of class 3G, which the least pitch and minor diameters give");
    // As sizes: limits in the other system are rounded, and the area is not.
    let size = |limit: FoundLowerLimit| FoundSize::stated(limit.quantity().value, Unit::Inch);
    known_steps! { record;
        look_up "Least pitch diameter before any conversion", "the limit as printed"
            => "stress_pitch_diameter", size(pitch);
        look_up "Least minor diameter before any conversion", "the limit as printed"
            => "stress_minor_diameter", size(minor);
        step "Tensile stress area", "A = π / 4 × ((e2 + k2) / 2)^2",
            e2 = "stress_pitch_diameter", k2 = "stress_minor_diameter" => "stress_area", area;
    }
    Some(area)
}
