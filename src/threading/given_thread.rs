//! The thread that a calculator is asked about: its size, pitch, lead and half flank angle, with their
//! steps and sources, under the names that further steps use.

use crate::quantity::{FoundAngle, FoundSize, Unit};
use crate::reference::threads::{self, Basics, Designation, Thread};
use crate::working::Record;

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

/// Cites the list that a thread stands in, or notes that it stands in none.
pub fn cite_list(designation: &Designation, record: &mut Record) {
    let thread = &designation.thread;
    if let Some(provenance) = thread.provenance {
        record.source_of_row(provenance.source, format!("series, {}", thread.designation), provenance.trust);
    }
    if let Some(unlisted) = designation.unlisted() {
        record.note("unlisted", unlisted);
    }
}

/// Takes the thread named in `field` and puts its steps on record.
pub fn given_thread<'d>(designation: &'d Designation, field: &'static str, record: &mut Record) -> GivenThread<'d> {
    let thread = &designation.thread;
    cite_list(designation, record);
    let basics = threads::basics(thread);
    let (size, pitch) = (designation.found(basics.major), designation.found(thread.pitch));
    let text = || designation.text();
    record.look_up("Size", "as the designation says it").with("T", field, text()).gives("size", size);
    match thread.threads_per_inch {
        Some(threads) if thread.system.in_inches() => {
            record
                .look_up("Threads in one inch", "as the designation or its series says it")
                .with("T", field, text())
                .gives("threads_per_inch", threads);
            record
                .step("Pitch", "P = I / n")
                .with("I", "constant:inch", FoundSize::stated(1.0, Unit::Inch))
                .with("n", "threads_per_inch", threads)
                .gives("pitch", pitch);
        }
        _ => record
            .look_up("Pitch", "as the designation or the list of its standard says it")
            .with("T", field, text())
            .gives("pitch", pitch),
    }
    record.look_up("Starts", "1 if the designation says none").with("T", field, text()).gives("starts", thread.starts);
    let lead = designation.found(thread.lead());
    record.step("Lead", "L = N × P").with("N", "starts", thread.starts).with("P", "pitch", pitch).gives("lead", lead);
    let half_angle = FoundAngle::stated(thread.system.flank_angle() / 2.0, Unit::Degree);
    record
        .look_up("Half the angle between the flanks", "form of the thread in its standard")
        .with("T", field, text())
        .gives("half_flank_angle", half_angle);
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
