//! Steps that threads of every system have: what the designation says, size, pitch, lead, the angle between
//! the flanks.

use crate::calculators::prelude::*;
use crate::reference::threads::ThreadSystem;
use crate::threading::{INCH, cite_list};
use crate::working::known_steps;

/// How the tables print basic diameters.
pub fn printed(system: ThreadSystem) -> &'static str {
    match system {
        ThreadSystem::Unified => "as ASME B1.1 prints it: to 0.0001 in, halves to the even digit",
        ThreadSystem::Metric => "as ISO 724 prints it: to 0.001 mm, halves up",
        ThreadSystem::Npt => "as ASME B1.20.1 prints it: to 0.00001 in",
        _ if system.in_inches() => "as tables print it: to 0.0001 in",
        _ => "as tables print it: to 0.001 mm",
    }
}

/// What the designation says, where the thread is listed, and its size.
pub fn name_and_size(designation: &Designation, record: &mut Record) {
    let thread = &designation.thread;
    cite_list(designation, record);
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
    say("Starts", "1 if the designation names none", "starts", thread.starts.into());
    let what = if thread.system == ThreadSystem::Npt { "Outside diameter of the pipe" } else { "Size" };
    let rule = match thread.system {
        ThreadSystem::Unified | ThreadSystem::Metric => "from the designation",
        _ => "from the list of the standard, else from the designation",
    };
    say(what, rule, "size", designation.found(thread.diameter).into());
}

/// The pitch, for threads that are counted in an inch how it comes from them, and the lead.
pub fn pitch_and_lead(designation: &Designation, record: &mut Record) -> (FoundSize, FoundSize) {
    let thread = &designation.thread;
    let (pitch, lead) = (designation.found(thread.pitch), designation.found(thread.lead()));
    if let Some(threads) = thread.threads_per_inch {
        known_steps! { record;
            look_up "Threads per inch", "from the designation or its series",
                T = "designation": designation.text() => "threads_per_inch", threads;
        }
    }
    match (thread.threads_per_inch, thread.system.in_inches()) {
        (Some(_), true) => known_steps! { record;
            step "Pitch", "P = I / n", I = "constant:inch": INCH, n = "threads_per_inch" => "pitch", pitch;
        },
        (Some(_), false) => known_steps! { record;
            look_up "Pitch", "an inch over the threads per inch, to 0.001 mm, as the standard computes it",
                n = "threads_per_inch" => "pitch", pitch;
        },
        (None, _) => known_steps! { record;
            look_up "Pitch", "from the designation, else that of the coarse series",
                T = "designation": designation.text() => "pitch", pitch;
        },
    }
    known_steps! { record; step "Lead", "L = N × P", N = "starts", P = "pitch" => "lead", lead; }
    (pitch, lead)
}

/// The last steps: the angle between the flanks, and the designation in one spelling, which bears the name of the
/// input that others use.
pub fn flanks_and_spelling(designation: &Designation, flank_angle: FoundAngle, record: &mut Record) {
    known_steps! { record;
        look_up "Angle between the flanks", "form of the thread in its standard", T = "designation": designation.text()
            => "flank_angle", flank_angle;
        look_up "Designation in one spelling", "as its standard writes it, without class, hand and starts",
            T = "designation": designation.text() => "designation", designation.thread.designation.clone();
    }
}
