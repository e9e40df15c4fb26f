//! The limits of size of a thread's external and internal class, as its standard prints them, and
//! the choice of class.

use super::ThreadInput;
use super::engagement::{self, MetricEngagement};
use super::limit_results::ThreadLimits;
use super::limit_steps::{external_limits, internal_limits};
use super::other_limits;
use super::tolerances::class_2a;
use crate::quantity::FoundSize;
use crate::reference::threads::{
    self, Chosen, ClassOf, Designation, DesignationError, EngagementGroup, ExternalLimits, Lacking, ThreadSystem,
    Tolerances, default_classes,
};
use crate::refusal::{Refusal, Wrong};
use crate::working::Record;

/// Finds the limits of both sides and puts their steps on record; `None` where the standard has
/// none and no class was asked for.
pub fn find(
    input: &ThreadInput,
    metric: Option<&MetricEngagement>,
    record: &mut Record,
) -> Result<(Option<ThreadLimits>, Option<FoundSize>), Refusal> {
    let designation = &input.designation;
    let thread = &designation.thread;
    let external_class = ClassOf::<false>::counting(thread, input.external_class.as_ref());
    let internal_class = ClassOf::<true>::counting(thread, input.internal_class.as_ref());
    let chosen = [
        external_class.as_ref().map_or(Chosen::Usual, |(_, chosen)| *chosen),
        internal_class.as_ref().map_or(Chosen::Usual, |(_, chosen)| *chosen),
    ];
    // A short or long engagement has usual classes of its own.
    let other = |chosen, class: Option<&'static str>| class.filter(|_| chosen == Chosen::Usual);
    let external_text = other(chosen[0], metric.and_then(|metric| metric.external))
        .or(external_class.as_ref().map(|(class, _)| class.as_str()));
    let internal_text = other(chosen[1], metric.and_then(|metric| metric.internal))
        .or(internal_class.as_ref().map(|(class, _)| class.as_str()));
    let engagement = engagement::unified(input);
    let external = threads::external_limits(thread, external_text, engagement)
        .map_err(|error| lacking::<false>(designation, chosen[0], error));
    let internal = threads::internal_limits(thread, internal_text, engagement)
        .map_err(|error| lacking::<true>(designation, chosen[1], error));
    let mut wrongs: Vec<Wrong> = Vec::new();
    let mut says = None;
    for (error, chosen) in [external.as_ref().err(), internal.as_ref().err()].into_iter().zip(chosen) {
        match (error, chosen) {
            (Some(wrong), Chosen::Usual) => says = Some(wrong.says.clone()),
            (Some(wrong), _) if !wrongs.contains(wrong) => wrongs.push(wrong.clone()),
            _ => {}
        }
    }
    if !wrongs.is_empty() {
        return Err(Refusal(wrongs));
    }
    if let Some(says) = says {
        record.note("no_limits", says);
    }
    let group = metric.map_or(EngagementGroup::Normal, |metric| metric.group);
    let usual = match group {
        EngagementGroup::Normal => default_classes(thread).says.to_owned(),
        group => format!("the one that is usual for an engagement of group {}", group.letter()),
    };
    for (field, class, chosen, found) in [
        ("external_class", external_text, chosen[0], external.is_ok()),
        ("internal_class", internal_text, chosen[1], internal.is_ok()),
    ] {
        if let (Some(class), Chosen::Usual) = (class, chosen)
            && (found || matches!(thread.system, ThreadSystem::Unified | ThreadSystem::Metric))
        {
            record.assume(field, &class.to_owned(), format!("No class is named: {usual}."));
        }
    }
    let engagement = match &external {
        Ok(ExternalLimits { tolerances: Tolerances::Unified(t), .. }) => Some(class_2a(input, t, record)),
        _ => None,
    };
    let two_systems = matches!(thread.system, ThreadSystem::Unified | ThreadSystem::Metric);
    let external = external.ok().map(|limits| match two_systems {
        true => external_limits(designation, chosen[0], &limits, record),
        false => other_limits::external(designation, chosen[0], &limits, record),
    });
    let internal = internal.ok().map(|limits| match two_systems {
        true => internal_limits(designation, chosen[1], &limits, record),
        false => other_limits::internal(designation, chosen[1], &limits, record),
    });
    Ok(((external.is_some() || internal.is_some()).then_some(ThreadLimits { external, internal }), engagement))
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
