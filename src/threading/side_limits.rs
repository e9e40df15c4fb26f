//! The class that counts on one side of a thread and its limits, for calculators that use them, with their steps.

use super::{GivenThread, cite_limits};
use crate::reference::threads::{
    Chosen, ClassOf, ExternalLimits, InternalLimits, Lacking, Thread, Tolerances, default_classes, external_limits,
    internal_limits,
};
use crate::refusal::{Code, Wrong, rule_broken};
use crate::working::{Record, known_steps};
use validator::ValidationError;

/// The class must be one of the thread: a rule for a validator. Both come with the names of their fields.
pub fn check_class<const INTERNAL: bool>(
    (thread_field, thread): (&'static str, &Thread),
    (class_field, class): (&'static str, Option<&ClassOf<INTERNAL>>),
) -> Result<(), ValidationError> {
    ClassOf::clash(thread, class).map_or(Ok(()), |clash| {
        let thread = clash.thread.as_deref().map(|thread| (thread_field, thread));
        let fields: Vec<_> = thread.into_iter().chain([(class_field, clash.class.as_str())]).collect();
        Err(rule_broken(Code::Conflict, clash.says, &fields))
    })
}

/// Limits of one side in the class that counts, in the thread's unit.
pub struct SideLimits {
    /// The class; absent for the nut of a pipe thread G.
    pub class: Option<String>,
    /// Greatest pitch diameter.
    pub pitch_max: f64,
    /// Least pitch diameter.
    pub pitch_min: f64,
    /// Greatest crest diameter: major of a screw, minor of a nut.
    pub crest_max: f64,
    /// Least crest diameter.
    pub crest_min: f64,
    /// Limit of the root: greatest minor diameter of a screw, least major of a nut.
    pub root: f64,
    tolerances: Tolerances,
}

impl From<ExternalLimits> for SideLimits {
    fn from(limits: ExternalLimits) -> Self {
        let ExternalLimits { class, pitch_max, pitch_min, major_max, major_min, minor_max, tolerances, .. } = limits;
        let (crest_max, crest_min) = (major_max, major_min);
        Self { class: Some(class), pitch_max, pitch_min, crest_max, crest_min, root: minor_max, tolerances }
    }
}

impl From<InternalLimits> for SideLimits {
    fn from(limits: InternalLimits) -> Self {
        let InternalLimits { class, pitch_max, pitch_min, minor_max, minor_min, major_min, tolerances, .. } = limits;
        let class = Some(class).filter(|class| !class.is_empty());
        let (crest_max, crest_min) = (minor_max, minor_min);
        Self { class, pitch_max, pitch_min, crest_max, crest_min, root: major_min, tolerances }
    }
}

/// The limits of the class that counts, cited, and the class as a step that gives the field `gives`; without any,
/// how the class was found and what is wrong with the field `thread` or that of the class.
pub fn side_limits<const INTERNAL: bool>(
    given: &GivenThread,
    (field, class): (&'static str, Option<&ClassOf<INTERNAL>>),
    gives: &'static str,
    record: &mut Record,
) -> Result<SideLimits, (Chosen, Wrong)> {
    let thread = given.thread();
    let counting = ClassOf::counting(thread, class);
    let chosen = counting.as_ref().map_or(Chosen::Usual, |(_, chosen)| *chosen);
    let text = counting.as_ref().map(|(class, _)| class.as_str());
    let found = match INTERNAL {
        true => internal_limits(thread, text, None).map(SideLimits::from),
        false => external_limits(thread, text, None).map(SideLimits::from),
    };
    let limits = found.map_err(|error| {
        let Lacking { in_class, unread } = ClassOf::<INTERNAL>::lacking(thread, chosen, error);
        (chosen, Wrong::unread(if in_class { field } else { "thread" }, unread))
    })?;
    cite_limits(&limits.tolerances, record);
    if let Some(class) = &limits.class {
        if chosen == Chosen::Usual {
            record.assume(field, class, format!("No class is given: {}.", default_classes(thread).says));
        }
        known_steps! { record;
            look_up "Class", "as given, else the usual one", T = "thread": given.designation.text()
                => gives, class.clone();
        }
    }
    Ok(limits)
}
