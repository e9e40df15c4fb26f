//! The rules between the fields of the thread milling calculator.

use super::ThreadMillingInput;
use crate::calculators::prelude::*;
use crate::reference::threads::ThreadSystem;
use crate::suggestion::{Way, value};

/// Parallel threads of a V form only.
pub fn check_thread(input: &ThreadMillingInput) -> Result<(), ValidationError> {
    let thread = &input.thread.thread;
    match thread.system {
        ThreadSystem::Unified | ThreadSystem::Metric | ThreadSystem::PipeParallel | ThreadSystem::Whitworth => Ok(()),
        _ => {
            let says = format!(
                "Give a parallel Unified, metric, G or Whitworth thread; {} is not offered here.",
                thread.designation
            );
            Err(rule_broken(Code::NotOffered, says, &[("thread", "M16x1.5")]))
        }
    }
}

// A stud is come onto along a straight line.
rules! { pub check_entry(ThreadMillingInput) {
    never(|input| !input.internal() && input.entry.is_some(), Code::Conflict, entry = "leave out", side = "internal"):
        "The arc entry is for a hole; on a stud the cutter comes in straight. Leave it out.";
} }

/// Sizes that go together.
pub fn check_sizes(input: &ThreadMillingInput) -> Result<(), ValidationError> {
    if check_thread(input).is_err() {
        return Ok(());
    }
    input.spindle.check()?;
    let (start, contour) = input.diameters();
    let (start, contour) = (start.quantity().si(), contour.quantity().si());
    let internal = input.internal();
    if (internal && contour <= start) || (!internal && contour >= start) {
        let says = if internal {
            "The tips must cut to a larger diameter than the hole has before."
        } else {
            "The tips must cut to a smaller diameter than the stud has before."
        };
        let given = stated!(input: start_diameter, contour_diameter);
        return Err(rule_broken(Code::Conflict, says, &to_leave_out(&given)));
    }
    let cutter = input.cutter_diameter.quantity();
    if internal && cutter.si() >= start {
        let says = "The cutter is too large to go into the hole.";
        let smaller = value(start * 0.7, cutter.unit, Way::Down);
        return Err(rule_broken(Code::Conflict, says, &[("cutter_diameter", &smaller)]));
    }
    let Some(cutting) = input.cutting_length else { return Ok(()) };
    if input.length.is_none() {
        let says = "With the toothed length of the cutter, give the length of the thread too.";
        return Err(rule_broken(Code::Conflict, says, &[("length", "20 mm"), ("cutting_length", "leave out")]));
    }
    let lead = input.thread.unit().to_si(input.thread.thread.lead());
    if cutting.quantity().si() < lead {
        let longer = value(2.0 * lead, cutting.quantity().unit, Way::Up);
        let says = "A toothed length shorter than the lead counts as one row: leave it out, or give a longer one.";
        return Err(rule_broken(Code::Conflict, says, &[("cutting_length", &longer)]));
    }
    Ok(())
}
