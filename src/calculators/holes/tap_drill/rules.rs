//! The rules between the fields of the tap drill calculator.

use super::{TapDrillInput, TapKind};
use crate::calculators::prelude::*;
use crate::reference::threads::ThreadSystem;
use crate::threading;

/// The class must be one of the thread.
pub fn check_class(input: &TapDrillInput) -> Result<(), ValidationError> {
    threading::check_class(("thread", &input.thread.thread), ("internal_class", input.internal_class.as_ref()))
}

rules! { pub check_systems(TapDrillInput) {
    never(|input| input.systems.as_ref().is_some_and(Vec::is_empty), Code::ValueEmpty, systems = "number"):
        "No drill system is named; leave the field out for the usual ones.";
} }

/// Some threads have no hole, no forming tap or no percentage.
pub fn check_kind(input: &TapDrillInput) -> Result<(), ValidationError> {
    let thread = &input.thread.thread;
    if !thread.has_internal() {
        let says = "R is an external thread. The hole for it is Rc or Rp.";
        let hole = thread.designation.replacen('R', "Rc", 1);
        return Err(rule_broken(Code::Conflict, says, &[("thread", &hole)]));
    }
    check_tap(input)
}

rules! { check_tap(TapDrillInput) {
    never(|input| input.tap == Some(TapKind::Forming)
        && !matches!(input.thread.thread.system, ThreadSystem::Unified | ThreadSystem::Metric),
        Code::Conflict, tap = "cutting", thread = "M8"):
        "Holes for forming taps are known here for Unified and metric threads only.";
    never(|input| input.thread.thread.is_taper() && input.thread_percent.is_some(), Code::Conflict,
        thread_percent = "leave out", thread = "G 1/2"):
        "A taper thread has no percentage of thread: its height changes along the hole.";
} }
