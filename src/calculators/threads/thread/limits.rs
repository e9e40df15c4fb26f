//! The limits of size of a thread's external and internal class, as its standard prints them, and
//! the choice of class.

use super::ThreadInput;
use super::engagement::{self, MetricEngagement};
use super::limit_results::ThreadLimits;
use super::{limit_steps, tolerances};
use crate::calculators::prelude::*;
use crate::reference::threads::{
    Chosen, ClassOf, DesignationError, EngagementGroup, ExternalLimits, Lacking, Thread, ThreadSystem, Tolerances,
    default_classes, external_limits, internal_limits,
};

/// What limits there are.
pub struct FoundLimits {
    /// Those of both sides.
    pub both: Option<ThreadLimits>,
    /// The length of engagement that Unified ones are worked out for.
    pub engagement: Option<FoundSize>,
}

/// The class of one side that counts, how it was chosen, and its limits or what is wrong.
struct Side<L> {
    class: Option<String>,
    chosen: Chosen,
    limits: Result<L, Wrong>,
}

type Find<L> = fn(&Thread, Option<&str>, Option<f64>) -> Result<L, DesignationError>;

/// Finds the limits of a side. A short or long engagement has a `usual` class of its own.
fn side<const INTERNAL: bool, L>(
    input: &ThreadInput,
    (field, class): (&'static str, Option<&ClassOf<INTERNAL>>),
    usual: Option<&'static str>,
    find: Find<L>,
) -> Side<L> {
    let thread = &input.designation.thread;
    let (class, chosen) = match ClassOf::counting(thread, class) {
        Some((class, chosen)) => (Some(class.as_str().to_owned()), chosen),
        None => (None, Chosen::Usual),
    };
    let class = usual.filter(|_| chosen == Chosen::Usual).map(str::to_owned).or(class);
    let limits = find(thread, class.as_deref(), engagement::unified(input)).map_err(|error| {
        let Lacking { in_class, unread } = ClassOf::<INTERNAL>::lacking(thread, chosen, error);
        Wrong::unread(if in_class { field } else { "designation" }, unread)
    });
    Side { class, chosen, limits }
}

/// Finds the limits of both sides and puts their steps on record; none where the standard has none and no class was
/// asked for.
pub fn find(
    input: &ThreadInput,
    metric: Option<&MetricEngagement>,
    record: &mut Record,
) -> Result<FoundLimits, Refusal> {
    let designation = &input.designation;
    let thread = &designation.thread;
    let (external_field, internal_field) =
        (("external_class", input.external_class.as_ref()), ("internal_class", input.internal_class.as_ref()));
    let external = side(input, external_field, metric.and_then(|metric| metric.external), external_limits);
    let internal = side(input, internal_field, metric.and_then(|metric| metric.internal), internal_limits);
    let sides = [
        (external_field.0, &external.class, external.chosen, external.limits.as_ref().err()),
        (internal_field.0, &internal.class, internal.chosen, internal.limits.as_ref().err()),
    ];
    let mut wrongs: Vec<Wrong> = Vec::new();
    let mut says = None;
    for (_, _, chosen, wrong) in sides {
        match (wrong, chosen) {
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
    let usual = match metric.map_or(EngagementGroup::Normal, |metric| metric.group) {
        EngagementGroup::Normal => default_classes(thread).says.to_owned(),
        group => format!("the usual one for an engagement of group {}", group.letter()),
    };
    for (field, class, chosen, wrong) in sides {
        if let (Some(class), Chosen::Usual) = (class, chosen)
            && (wrong.is_none() || matches!(thread.system, ThreadSystem::Unified | ThreadSystem::Metric))
        {
            record.assume(field, class, format!("No class is given: {usual}."));
        }
    }
    let engagement = match &external.limits {
        Ok(ExternalLimits { tolerances: Tolerances::Unified(t), .. }) => Some(tolerances::class_2a(input, t, record)),
        _ => None,
    };
    let outside =
        external.limits.ok().map(|limits| limit_steps::external(designation, external.chosen, limits, record));
    let inside = internal.limits.ok().map(|limits| limit_steps::internal(designation, internal.chosen, limits, record));
    let any = outside.is_some() || inside.is_some();
    Ok(FoundLimits { both: any.then_some(ThreadLimits { external: outside, internal: inside }), engagement })
}
