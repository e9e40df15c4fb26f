//! The rules between the fields of the thread milling calculator.

use super::{ThreadMillingInput, ThreadedSide};
use crate::quantity::{Quantity, Size};
use crate::reference::threads::{Thread, ThreadSystem, basics};
use crate::refusal::{Code, rule_broken};
use crate::suggestion::{Way, value};
use validator::ValidationError;

/// Diameter before threading, and that the tips cut to, where they are not stated; in the thread's unit.
pub fn defaults(thread: &Thread, side: ThreadedSide) -> (f64, f64) {
    let basics = basics(thread);
    match side {
        ThreadedSide::Internal => (basics.minor, basics.major),
        ThreadedSide::External => (basics.major, basics.minor),
    }
}

/// Parallel threads of a V form only.
pub fn check_thread(input: &ThreadMillingInput) -> Result<(), ValidationError> {
    let thread = &input.thread.thread;
    match thread.system {
        ThreadSystem::Unified | ThreadSystem::Metric | ThreadSystem::PipeParallel | ThreadSystem::Whitworth => Ok(()),
        _ => {
            let says = format!(
                "{} is not offered here: the helix is worked out for parallel Unified, metric, G and Whitworth threads.",
                thread.designation
            );
            Err(rule_broken(Code::NotOffered, says, &[("thread", "M16x1.5")]))
        }
    }
}

/// Sizes that go together.
pub fn check_sizes(input: &ThreadMillingInput) -> Result<(), ValidationError> {
    if check_thread(input).is_err() {
        return Ok(());
    }
    input.spindle().check()?;
    let thread = &input.thread.thread;
    let unit = input.thread.unit();
    let (start, contour) = defaults(thread, input.side);
    let or = |stated: Option<Size>, usual: f64| {
        stated.map_or(Quantity::si(&Size::stated(usual, unit).quantity()), |s| s.quantity().si())
    };
    let (start, contour) = (or(input.start_diameter, start), or(input.contour_diameter, contour));
    let internal = input.side == ThreadedSide::Internal;
    if (internal && contour <= start) || (!internal && contour >= start) {
        let says = if internal {
            "The tips must cut to a larger diameter than the hole has before."
        } else {
            "The tips must cut to a smaller diameter than the stud has before."
        };
        let given = [
            ("start_diameter", input.start_diameter.is_some()),
            ("contour_diameter", input.contour_diameter.is_some()),
        ];
        let fields: Vec<(&'static str, &str)> =
            given.iter().filter(|(_, given)| *given).map(|(field, _)| (*field, "leave out")).collect();
        return Err(rule_broken(Code::Conflict, says, &fields));
    }
    let cutter = input.cutter_diameter.quantity();
    if internal && cutter.si() >= start {
        let says = "The cutter does not go into the hole.";
        let smaller = value(start * 0.7, cutter.unit, Way::Down);
        return Err(rule_broken(Code::Conflict, says, &[("cutter_diameter", &smaller)]));
    }
    let Some(cutting) = input.cutting_length else { return Ok(()) };
    if input.length.is_none() {
        let says = "cutting_length says in how many places the thread is cut, so it needs its length.";
        return Err(rule_broken(Code::Conflict, says, &[("length", "20 mm"), ("cutting_length", "leave out")]));
    }
    let lead = Size::stated(thread.lead(), unit).quantity().si();
    if cutting.quantity().si() < lead {
        let longer = value(2.0 * lead, cutting.quantity().unit, Way::Up);
        let says = "A toothed part shorter than the lead is one row: leave cutting_length out.";
        return Err(rule_broken(Code::Conflict, says, &[("cutting_length", &longer)]));
    }
    Ok(())
}
