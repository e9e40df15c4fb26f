//! The rule that a class stated beside a thread is one of that thread.

use crate::reference::threads::{ClassOf, Thread};
use crate::refusal::{Code, rule_broken};
use validator::ValidationError;

/// The class must be one of the thread; for a validator's schema function. Fields are `thread` and
/// `external_class` or `internal_class`.
pub fn check_class<const INTERNAL: bool>(
    thread: &Thread,
    class: Option<&ClassOf<INTERNAL>>,
) -> Result<(), ValidationError> {
    let field = if INTERNAL { "internal_class" } else { "external_class" };
    ClassOf::clash(thread, class).map_or(Ok(()), |clash| {
        Err(rule_broken(Code::Conflict, clash.says, &[("thread", &clash.thread), (field, &clash.class)]))
    })
}
