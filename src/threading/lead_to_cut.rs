//! The lead that a lathe is to cut: that of a thread named by its designation, or one stated by itself.

use crate::quantity::{FoundSize, ThreadPitch, Unit};
use crate::reference::threads::Designation;
use crate::working::Record;

/// The lead of `thread`, else `lead` as stated, in a step that gives `field`; one of the two is there.
pub fn lead_to_cut(
    (thread, lead): (Option<&Designation>, Option<ThreadPitch>),
    (what, field): (&'static str, &'static str),
    record: &mut Record,
) -> FoundSize {
    if let Some(thread) = thread {
        let lead = thread.found(thread.thread.lead());
        let step = record.look_up(what, "pitch times starts, from the designation");
        step.with("T", "thread", thread.text()).gives(field, lead);
        return lead;
    }
    let lead = lead.unwrap_or(ThreadPitch::stated(1.0, Unit::Millimetre)).length();
    record.step(what, "L = l").with("l", "lead", lead).gives(field, lead.found());
    lead.found()
}
