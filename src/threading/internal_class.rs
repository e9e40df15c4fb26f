//! The class and the limits of an internal thread for calculators that use them, with their steps.

use crate::reference::threads::{Chosen, InternalClass, InternalLimits, Thread, default_classes};
use crate::refusal::Refusal;
use crate::threading::{GivenThread, check_class, cite_limits};
use crate::working::Record;
use validator::ValidationError;

/// The class must be one of the thread; for a validator's schema function.
pub fn check(thread: &Thread, class: Option<&InternalClass>) -> Result<(), ValidationError> {
    check_class(("thread", thread), ("internal_class", class))
}

/// The limits of the class that counts, cited and named on record; fields are `thread` and `internal_class`.
pub fn limits(
    given: &GivenThread,
    class: Option<&InternalClass>,
    record: &mut Record,
) -> Result<InternalLimits, Refusal> {
    let thread = given.thread();
    let (chosen, found) = InternalClass::limits(thread, class);
    let found = found.map_err(|lacking| lacking.refusal("internal_class"))?;
    cite_limits(&found.tolerances, record);
    if chosen == Chosen::Usual {
        let says = format!("No class is named: {}.", default_classes(thread).says);
        record.assume("internal_class", &found.class, says);
    }
    record
        .look_up("Class", "as it is named, else the usual one")
        .with("T", "thread", given.designation.text())
        .gives("class", found.class.clone());
    Ok(found)
}
