//! Size, pitch and minor diameter limits of the thread in a tapped hole, with their steps, after the
//! standard of the thread.

use super::MinorLimits;
use crate::calculators::prelude::*;
use crate::reference::threads::{Chosen, Tolerances, default_classes};
use crate::threading::cite_list;

/// Limits of the minor diameter with their steps; `None` where the standard has none and no class
/// was asked for.
pub fn limits(
    designation: &Designation,
    field: Option<&InternalClass>,
    record: &mut Record,
) -> Result<Option<MinorLimits>, Refusal> {
    let thread = &designation.thread;
    let (chosen, found) = InternalClass::limits(thread, field);
    let found = match found {
        Ok(found) => found,
        Err(lacking) if chosen == Chosen::Usual => {
            record.note("no_limits", lacking.unread.says);
            return Ok(None);
        }
        Err(lacking) => return Err(lacking.refusal("internal_class")),
    };
    let rule = match chosen {
        Chosen::Field => "as its own field says",
        Chosen::Designation => "as the designation says",
        Chosen::Usual => {
            let says = format!("No class is named: {}.", default_classes(thread).says);
            if !found.class.is_empty() {
                record.assume("internal_class", &found.class, says);
            }
            "the usual one, as none is named"
        }
    };
    match &found.tolerances {
        Tolerances::Unified(_) => record.source("asme_b1_1", "limits of the minor diameter, and their rounding"),
        Tolerances::Pipe(of) => {
            record.source("iso_228_1", "limits of the minor diameter");
            record.source_of_row(&of.row.source, "cells of the tolerance table", &of.row.trust);
        }
        Tolerances::Acme(_) => record.source("asme_b1_5", "limits of the minor diameter"),
        Tolerances::Trapezoidal(of) => {
            record.source_of_row(of.source.source, "limits of the minor diameter", of.source.trust);
        }
        Tolerances::Metric(of) => {
            record.source("iso_965_1", "limits of the minor diameter, and their R40 steps");
            for provenance in &of.sources {
                record.source_of_row(provenance.source, "cells of the tolerance tables", provenance.trust);
            }
        }
    }
    let text = || designation.text();
    let named = (!found.class.is_empty()).then(|| found.class.clone());
    if let Some(class) = &named {
        tell!(record.look_up("Class of the hole's thread", rule), T = thread: text()
            => "minor_limits.class": class.clone());
    }
    let table = match &named {
        Some(class) => format!("{}: class {class} of the thread, as printed", designation.standard()),
        None => format!("{}: the one internal class, as printed", designation.standard()),
    };
    let minor_min = FoundLowerLimit::stated(found.minor_min, designation.unit());
    let minor_max = FoundUpperLimit::stated(found.minor_max, designation.unit());
    let step = record.look_up("Least minor diameter", table.clone());
    step.with("T", "thread", text()).gives("minor_limits.minor_min", minor_min);
    let step = record.look_up("Greatest minor diameter", table);
    step.with("T", "thread", text()).gives("minor_limits.minor_max", minor_max);
    Ok(Some(MinorLimits { class: named, minor_min, minor_max }))
}

/// Size and pitch with their steps.
pub fn size_and_pitch(designation: &Designation, record: &mut Record) -> (FoundSize, FoundSize) {
    let thread = &designation.thread;
    cite_list(designation, record);
    let (size, pitch) = (designation.found(thread.diameter), designation.found(thread.pitch));
    let text = || designation.text();
    record.look_up("Size", "as the designation says it").with("T", "thread", text()).gives("size", size);
    match thread.threads_per_inch {
        Some(threads) => {
            tell!(record.look_up("Threads in one inch", "as the designation or its series says it"),
                T = thread: text() => threads_per_inch: threads);
            if thread.system.in_inches() {
                tell!(record.step("Pitch", "P = I / n"), I = "constant:inch": FoundSize::stated(1.0, Unit::Inch),
                    n = threads_per_inch: threads => pitch);
            } else {
                tell!(record.look_up("Pitch", "an inch over the threads in it, to 0.001 mm"),
                    n = threads_per_inch: threads => pitch);
            }
        }
        None => tell!(record.look_up("Pitch", "as the designation says it, else that of the coarse series"),
            T = thread: text() => pitch),
    }
    (size, pitch)
}
