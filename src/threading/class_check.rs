//! The rule that a class stated beside a thread is one of that thread.

use crate::reference::threads::{ClassOf, Thread};
use crate::refusal::{Code, rule_broken};
use validator::ValidationError;

/// The class must be one of the thread: a rule for a validator. Both come with the names of their fields.
pub fn check_class<const INTERNAL: bool>(
    (thread_field, thread): (&'static str, &Thread),
    (class_field, class): (&'static str, Option<&ClassOf<INTERNAL>>),
) -> Result<(), ValidationError> {
    ClassOf::clash(thread, class).map_or(Ok(()), |clash| {
        let fields = [(thread_field, clash.thread.as_str()), (class_field, clash.class.as_str())];
        Err(rule_broken(Code::Conflict, clash.says, &fields))
    })
}
