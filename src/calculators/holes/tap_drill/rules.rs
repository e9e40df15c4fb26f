//! The rules between the fields of the tap drill calculator.

use super::{TapDrillInput, TapKind};
use crate::reference::threads::{InternalClass, ThreadSystem};
use crate::refusal::{Code, rule_broken};
use validator::ValidationError;

/// The class must be one of the thread.
pub fn check_class(input: &TapDrillInput) -> Result<(), ValidationError> {
    match InternalClass::clash(&input.thread.thread, input.internal_class.as_ref()) {
        None => Ok(()),
        Some(clash) => {
            let fields = [("thread", clash.thread.as_str()), ("internal_class", clash.class.as_str())];
            Err(rule_broken(Code::Conflict, clash.says, &fields))
        }
    }
}

/// A list of systems names some.
pub fn check_systems(input: &TapDrillInput) -> Result<(), ValidationError> {
    match &input.systems {
        Some(systems) if systems.is_empty() => {
            Err(rule_broken(Code::ValueEmpty, "systems names no drills.", &[("systems", "number")]))
        }
        _ => Ok(()),
    }
}

/// Some threads have no hole, no forming tap or no percentage.
pub fn check_kind(input: &TapDrillInput) -> Result<(), ValidationError> {
    let thread = &input.thread.thread;
    if !thread.has_internal() {
        let says = "R is an external thread, and no hole is made for it; the hole is Rc or Rp.";
        let hole = thread.designation.replacen('R', "Rc", 1);
        return Err(rule_broken(Code::Conflict, says, &[("thread", &hole)]));
    }
    let pipe = !matches!(thread.system, ThreadSystem::Unified | ThreadSystem::Metric);
    if pipe && input.tap == Some(TapKind::Forming) {
        let says = "For forming taps only the holes of Unified and metric threads are known here.";
        return Err(rule_broken(Code::Conflict, says, &[("tap", "cutting"), ("thread", "M8")]));
    }
    if thread.is_taper() && input.thread_percent.is_some() {
        let says = "A taper thread changes its height along the hole, so that it has no percentage.";
        return Err(rule_broken(Code::Conflict, says, &[("thread_percent", "leave out"), ("thread", "G 1/2")]));
    }
    Ok(())
}
