//! The limits of size of a thread's external and internal class, as ASME B1.1 or ISO 965-1 prints
//! them, and the choice of class.

use super::thread::ThreadInput;
use super::thread_limit_steps::{external_limits, internal_limits};
use super::thread_tolerances::class_2a;
use crate::quantity::{FoundExtent, FoundLowerLimit, FoundUpperLimit};
use crate::reference::thread_class::{Chosen, ClassOf, Lacking};
use crate::reference::thread_designation::Designation;
use crate::reference::threads::{self, DesignationError, ExternalLimits, Tolerances, default_classes};
use crate::refusal::{Refusal, Wrong};
use crate::working::Record;
use utoipa::ToSchema;

/// Limits of size of both sides.
#[derive(Debug, ToSchema)]
pub struct ThreadLimits {
    /// Limits of the screw.
    pub external: Option<ExternalThreadLimits>,
    /// Limits of the hole.
    pub internal: Option<InternalThreadLimits>,
}

crate::tree!(ThreadLimits { external, internal });

/// Limits of an external thread, as its standard prints them.
#[derive(Debug, ToSchema)]
pub struct ExternalThreadLimits {
    /// Class.
    pub class: String,
    /// How far the greatest thread stays below the basic profile.
    pub allowance: FoundExtent,
    /// Greatest major diameter.
    pub major_max: FoundUpperLimit,
    /// Least major diameter.
    pub major_min: FoundLowerLimit,
    /// Least major diameter where the bar is left as hot-rolled; Unified 2A only.
    pub major_min_unfinished: Option<FoundLowerLimit>,
    /// Greatest pitch diameter.
    pub pitch_max: FoundUpperLimit,
    /// Least pitch diameter.
    pub pitch_min: FoundLowerLimit,
    /// Greatest minor diameter, for reference: UNR root for Unified, flat root for metric.
    pub minor_max: FoundUpperLimit,
    /// Least minor diameter, for reference: root of the least radius; metric only.
    pub minor_min: Option<FoundLowerLimit>,
}

crate::tree!(ExternalThreadLimits {
    class,
    allowance,
    major_max,
    major_min,
    major_min_unfinished,
    pitch_max,
    pitch_min,
    minor_max,
    minor_min
});

/// Limits of an internal thread, as its standard prints them.
#[derive(Debug, ToSchema)]
pub struct InternalThreadLimits {
    /// Class.
    pub class: String,
    /// Least minor diameter.
    pub minor_min: FoundLowerLimit,
    /// Greatest minor diameter.
    pub minor_max: FoundUpperLimit,
    /// Least pitch diameter.
    pub pitch_min: FoundLowerLimit,
    /// Greatest pitch diameter.
    pub pitch_max: FoundUpperLimit,
    /// Least major diameter.
    pub major_min: FoundLowerLimit,
    /// Greatest major diameter, for reference: the root of the nut; metric only.
    pub major_max: Option<FoundUpperLimit>,
}

crate::tree!(InternalThreadLimits { class, minor_min, minor_max, pitch_min, pitch_max, major_min, major_max });

/// Finds the limits of both sides and puts their steps on record; `None` where the standard has
/// none and no class was asked for.
pub fn find(input: &ThreadInput, record: &mut Record) -> Result<Option<ThreadLimits>, Refusal> {
    let thread = &input.designation.thread;
    let (external_class, external_chosen) = ClassOf::counting(thread, input.external_class.as_ref());
    let (internal_class, internal_chosen) = ClassOf::counting(thread, input.internal_class.as_ref());
    let external = threads::external_limits(thread, Some(external_class.as_str()), None)
        .map_err(|error| lacking::<false>(&input.designation, external_chosen, error));
    let internal = threads::internal_limits(thread, Some(internal_class.as_str()), None)
        .map_err(|error| lacking::<true>(&input.designation, internal_chosen, error));
    let mut wrongs: Vec<Wrong> = Vec::new();
    let mut keep = |wrong: Wrong| {
        if !wrongs.contains(&wrong) {
            wrongs.push(wrong);
        }
    };
    let mut says = None;
    for (error, chosen) in [(external.as_ref().err(), external_chosen), (internal.as_ref().err(), internal_chosen)] {
        match (error, chosen) {
            (Some(wrong), Chosen::Usual) => says = Some(wrong.says.clone()),
            (Some(wrong), _) => keep(wrong.clone()),
            (None, _) => {}
        }
    }
    if !wrongs.is_empty() {
        return Err(Refusal(wrongs));
    }
    if let Some(says) = says {
        record.note("no_limits", says);
    }
    let usual = default_classes(thread).says;
    for (field, class, chosen) in [
        ("external_class", external_class.as_str(), external_chosen),
        ("internal_class", internal_class.as_str(), internal_chosen),
    ] {
        if chosen == Chosen::Usual {
            record.assume(field, &class.to_owned(), format!("No class is named: {usual}."));
        }
    }
    if let Ok(ExternalLimits { tolerances: Tolerances::Unified(t), .. }) = &external {
        class_2a(&input.designation, t, record);
    }
    let external = external.ok().map(|limits| external_limits(&input.designation, external_chosen, &limits, record));
    let internal = internal.ok().map(|limits| internal_limits(&input.designation, internal_chosen, &limits, record));
    Ok((external.is_some() || internal.is_some()).then_some(ThreadLimits { external, internal }))
}

fn lacking<const INTERNAL: bool>(designation: &Designation, chosen: Chosen, error: DesignationError) -> Wrong {
    let Lacking { in_class, unread } = ClassOf::<INTERNAL>::lacking(&designation.thread, chosen, error);
    let field = match (in_class, INTERNAL) {
        (false, _) => "designation",
        (true, true) => "internal_class",
        (true, false) => "external_class",
    };
    Wrong::unread(field, unread)
}
