//! The steps from basic sizes and tolerances to the limits of a thread: the sums that the tables of
//! ASME B1.1, ISO 965-1, ISO 228-1, ASME B1.5 and ISO 2903 print.

use super::limit_results::{ExternalThreadLimits, InternalThreadLimits};
use super::tolerances::{self, EXTERNAL, INTERNAL, tell_one};
use crate::calculators::prelude::*;
use crate::reference::threads::{Chosen, ExternalLimits, InternalLimits, ThreadSystem};
use crate::working::known_steps;

/// The class that counts, as a step.
fn class(
    side: &'static str,
    gives: &'static str,
    (chosen, class): (Chosen, &str),
    designation: &Designation,
    record: &mut Record,
) {
    let rule = match chosen {
        Chosen::Field => "as given",
        Chosen::Designation => "from the designation",
        Chosen::Usual => "the usual one, as none is given",
    };
    known_steps! { record;
        look_up format!("Class of the {side} thread"), rule, T = "designation": designation.text()
            => gives, class.to_owned();
    }
}

/// Limits of the external thread, step by step.
pub fn external(
    designation: &Designation,
    chosen: Chosen,
    limits: ExternalLimits,
    record: &mut Record,
) -> ExternalThreadLimits {
    class("external", "limits.external.class", (chosen, &limits.class), designation, record);
    let root = tolerances::tell(designation, &EXTERNAL, &limits.tolerances, limits.allowance, record);
    let found = ExternalThreadLimits::of(limits, designation.unit());
    let system = designation.thread.system;
    match system {
        ThreadSystem::Unified | ThreadSystem::Metric => known_steps! { record;
            step "Greatest major diameter", "d1 = D - es", D = "major_diameter", es = "limits.external.allowance"
                => "limits.external.major_max", found.major_max;
        },
        // Acme and trapezoidal threads have their allowance on the flanks only, pipe threads have none.
        _ => known_steps! { record;
            step "Greatest major diameter", "d1 = D", D = "major_diameter"
                => "limits.external.major_max", found.major_max;
        },
    }
    known_steps! { record;
        step "Least major diameter", "d2 = d1 - Td", d1 = "limits.external.major_max", Td = "external_major_tolerance"
            => "limits.external.major_min", found.major_min;
    }
    if let Some(unfinished) = found.major_min_unfinished {
        known_steps! { record;
            look_up "Least major diameter as hot-rolled",
                "ASME B1.1: the greatest less 0.090 × ∛P² in inches, to 0.0001 in",
                d1 = "limits.external.major_max", P = "pitch" => "limits.external.major_min_unfinished", unfinished;
        }
    }
    known_steps! { record;
        step "Greatest pitch diameter", "e1 = E - es", E = "pitch_diameter", es = "limits.external.allowance"
            => "limits.external.pitch_max", found.pitch_max;
        step "Least pitch diameter", "e2 = e1 - Te", e1 = "limits.external.pitch_max", Te = "external_pitch_tolerance"
            => "limits.external.pitch_min", found.pitch_min;
    }
    match system {
        ThreadSystem::Unified => known_steps! { record;
            look_up "Greatest minor diameter, UNR root",
                "ASME B1.1: the greatest major diameter less 5/8 √3 P and √3/16 P, each to 0.0001 in",
                d1 = "limits.external.major_max", P = "pitch" => "limits.external.minor_max", found.minor_max;
        },
        ThreadSystem::Metric => known_steps! { record;
            step "Greatest minor diameter, flat root", "k = K - es",
                K = "minor_diameter", es = "limits.external.allowance" => "limits.external.minor_max", found.minor_max;
        },
        _ => known_steps! { record;
            look_up "Greatest minor diameter", "the basic one of the external thread, as printed",
                D = "size", P = "pitch" => "limits.external.minor_max", found.minor_max;
        },
    }
    match (found.minor_min, root) {
        (Some(minor_min), Some(root)) => {
            tell_one(("Tolerance of the minor diameter", "external_minor_tolerance"), root, designation, record);
            known_steps! { record;
                step "Least minor diameter", "k2 = k1 - Tk",
                    k1 = "limits.external.minor_max", Tk = "external_minor_tolerance"
                    => "limits.external.minor_min", minor_min;
            }
        }
        (Some(minor_min), None) => known_steps! { record;
            look_up "Least minor diameter, root of the least radius",
                "the pitch diameter in full less es, its tolerance and 0.616025 P, to 0.001 mm; root radius P/8",
                E = "pitch_diameter_exact", es = "limits.external.allowance", Te = "external_pitch_tolerance",
                P = "pitch"
                => "limits.external.minor_min", minor_min;
        },
        (None, _) => {}
    }
    found
}

/// Limits of the internal thread, step by step.
pub fn internal(
    designation: &Designation,
    chosen: Chosen,
    limits: InternalLimits,
    record: &mut Record,
) -> InternalThreadLimits {
    if !limits.class.is_empty() {
        class("internal", "limits.internal.class", (chosen, &limits.class), designation, record);
    }
    let third = limits.class.starts_with('3');
    let root = tolerances::tell(designation, &INTERNAL, &limits.tolerances, 0.0, record);
    let found = InternalThreadLimits::of(limits, designation.unit());
    let system = designation.thread.system;
    let major = ("Least major diameter", "major_diameter", "limits.internal.major_min", found.major_min);
    let pitch = ("Least pitch diameter", "pitch_diameter", "limits.internal.pitch_min", found.pitch_min);
    let minor = ("Least minor diameter", "minor_diameter", "limits.internal.minor_min", found.minor_min);
    let least = match system {
        ThreadSystem::Unified => vec![major, pitch],
        ThreadSystem::Metric => vec![major, pitch, minor],
        _ => vec![minor, pitch],
    };
    for (what, basic, field, value) in least {
        match system {
            ThreadSystem::Metric => known_steps! { record;
                step what, "b = B + EI", B = basic, EI = "internal_deviation" => field, value;
            },
            _ => known_steps! { record; step what, "b = B", B = basic => field, value; },
        }
    }
    if system == ThreadSystem::Unified {
        let rule = match (designation.thread.diameter < 0.138 - 1e-9, third) {
            (true, _) => "ASME B1.1: the sum, to 0.0001 in below No. 6",
            (false, true) => "ASME B1.1: the sum, to 0.0001 in for class 3B",
            (false, false) => "ASME B1.1: the sum, to 0.001 in from No. 6 up, halves to the even digit",
        };
        known_steps! { record;
            look_up "Least minor diameter",
                "ASME B1.1: the basic one, to 0.001 in from No. 6 up, halves to the even digit", K = "minor_diameter"
                => "limits.internal.minor_min", found.minor_min;
            look_up "Greatest minor diameter", rule, K = "minor_diameter", Tk = "internal_minor_tolerance"
                => "limits.internal.minor_max", found.minor_max;
        }
    } else {
        known_steps! { record;
            step "Greatest minor diameter", "k1 = k2 + Tk",
                k2 = "limits.internal.minor_min", Tk = "internal_minor_tolerance"
                => "limits.internal.minor_max", found.minor_max;
        }
    }
    known_steps! { record;
        step "Greatest pitch diameter", "e1 = e2 + Te",
            e2 = "limits.internal.pitch_min", Te = "internal_pitch_tolerance"
            => "limits.internal.pitch_max", found.pitch_max;
    }
    if !matches!(system, ThreadSystem::Unified | ThreadSystem::Metric) {
        known_steps! { record;
            look_up "Least major diameter", "the basic one of the internal thread, as printed", D = "size", P = "pitch"
                => "limits.internal.major_min", found.major_min;
        }
    }
    match (found.major_max, root) {
        (Some(major_max), Some(root)) => {
            tell_one(("Tolerance of the major diameter", "internal_major_tolerance"), root, designation, record);
            known_steps! { record;
                step "Greatest major diameter", "d1 = d2 + T",
                    d2 = "limits.internal.major_min", T = "internal_major_tolerance"
                    => "limits.internal.major_max", major_max;
            }
        }
        (Some(major_max), None) => known_steps! { record;
            look_up "Greatest major diameter, root of the nut",
                "the greatest pitch diameter in full and 0.793857 P, to 0.001 mm; a twelfth of the triangle left at the root",
                E = "pitch_diameter_exact", EI = "internal_deviation", Te = "internal_pitch_tolerance", P = "pitch"
                => "limits.internal.major_max", major_max;
        },
        (None, _) => {}
    }
    found
}
