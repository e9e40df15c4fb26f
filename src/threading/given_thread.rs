//! The thread that a calculator is asked about: its size, pitch, lead and half flank angle, with their
//! steps and sources, under the names that further steps use.

use super::cite_list;
use crate::quantity::{Found, FoundAngle, FoundSize, Kind, Unit};
use crate::reference::threads::{self, Basics, Designation, Thread};
use crate::working::{Record, known_steps};

/// An inch, which pitches are counted in.
pub const INCH: FoundSize = FoundSize::stated(1.0, Unit::Inch);

/// A thread with what every calculation on it needs.
pub struct GivenThread<'d> {
    /// The designation.
    pub designation: &'d Designation,
    /// Its basic sizes.
    pub basics: Basics,
    /// Basic major diameter, `size`.
    pub size: FoundSize,
    /// Pitch, `pitch`.
    pub pitch: FoundSize,
    /// Advance in one turn, `lead`.
    pub lead: FoundSize,
    /// Half the angle between the flanks, `half_flank_angle`.
    pub half_angle: FoundAngle,
    /// The field that names the thread.
    field: &'static str,
}

/// Takes the thread named in `field` and puts its steps on record.
pub fn given_thread<'d>(designation: &'d Designation, field: &'static str, record: &mut Record) -> GivenThread<'d> {
    let thread = &designation.thread;
    cite_list(designation, record);
    let basics = threads::basics(thread);
    let (size, pitch) = (designation.found(basics.major), designation.found(thread.pitch));
    let (lead, text) = (designation.found(thread.lead()), || designation.text());
    let half_angle = FoundAngle::stated(thread.system.flank_angle() / 2.0, Unit::Degree);
    known_steps! { record; look_up "Size", "from the designation", T = field: text() => "size", size; }
    match thread.threads_per_inch {
        Some(threads) if thread.system.in_inches() => known_steps! { record;
            look_up "Threads in one inch", "from the designation or its series", T = field: text()
                => "threads_per_inch", threads;
            step "Pitch", "P = I / n", I = "constant:inch": INCH, n = "threads_per_inch" => "pitch", pitch;
        },
        _ => known_steps! { record;
            look_up "Pitch", "from the designation or the list of its standard", T = field: text()
                => "pitch", pitch;
        },
    }
    known_steps! { record;
        look_up "Starts", "1 if the designation names none", T = field: text() => "starts", thread.starts;
        step "Lead", "L = N × P", N = "starts", P = "pitch" => "lead", lead;
        look_up "Half the angle between the flanks", "form of the thread in its standard", T = field: text()
            => "half_flank_angle", half_angle;
    }
    GivenThread { designation, basics, size, pitch, lead, half_angle, field }
}

impl<'d> GivenThread<'d> {
    /// The thread.
    pub fn thread(&self) -> &'d Thread {
        &self.designation.thread
    }

    /// The unit of its standard.
    pub fn unit(&self) -> Unit {
        self.designation.unit()
    }

    /// A length of the thread as a result.
    pub fn found(&self, value: f64) -> FoundSize {
        self.designation.found(value)
    }

    /// The same as a result of the kind that is wanted, such as a limit.
    pub fn stated<K: Kind>(&self, value: f64) -> Found<K> {
        Found::stated(value, self.unit())
    }

    /// The basic pitch diameter in full, as a step named `basic_pitch_diameter`.
    pub fn pitch_diameter(&self, record: &mut Record) -> FoundSize {
        let found = self.found(self.basics.pitch_diameter_exact);
        record
            .look_up("Basic pitch diameter", "form of the thread in its standard, before rounding")
            .with("T", self.field, self.designation.text())
            .gives("basic_pitch_diameter", found);
        found
    }
}
