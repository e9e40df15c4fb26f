//! The limits of a machine that bind, what they were held against, and how far what is set falls short.

use super::SAME;
use crate::quantity::{Found, FoundPercentage, FoundSpindleSpeed, Kind, SiValue};
use crate::working::{Record, Shown};

crate::choice! {
    /// A limit of the machine that rules out what was asked: the `slowest` or `fastest` speed, the `available` speeds, the `fastest_feed`, the `available_feeds`, or the `power` of the spindle.
    Limit {
        /// The exact speed is below the slowest.
        Slowest = "slowest",
        /// The exact speed is above the fastest.
        Fastest = "fastest",
        /// No speed available is the exact one.
        Available = "available",
        /// The feed rate asked for is above the fastest.
        FastestFeed = "fastest_feed",
        /// No feed available is the one asked for.
        AvailableFeeds = "available_feeds",
        /// The cut takes more power than the spindle gives at that speed.
        Power = "power",
    }
}

/// The limits that bind so far, and what the limits were held against: symbols, fields and values.
#[derive(Debug)]
pub struct Held {
    /// Those that do not allow what was asked.
    pub limits: Vec<Limit>,
    /// What was asked.
    pub against: Vec<(&'static str, &'static str, Shown)>,
}

impl Held {
    /// Of the exact spindle speed.
    pub fn of(exact: FoundSpindleSpeed, limits: Vec<Limit>) -> Self {
        Self { limits, against: vec![("n", "exact_speed", exact.into())] }
    }
}

/// Records the step that gives `limited_by`, where it gives anything; `asked` are the fields and
/// values that the limits were held against.
pub fn tell_limits(limits: &[Limit], asked: &[(&'static str, &'static str, Shown)], record: &mut Record) {
    if limits.is_empty() {
        return;
    }
    let mut step = record.look_up("Limits that apply", "every limit that alone rules out what was asked");
    for (symbol, of, value) in asked {
        step = step.with(symbol, of, value.clone());
    }
    step.gives("limited_by", limits.iter().map(|limit| limit.as_str()).collect::<Vec<_>>());
}

/// By what share a wanted value had to fall to what was chosen, in a step that gives `field`; nothing where
/// it did not fall.
pub fn fall<K: Kind>(
    field: &'static str,
    (of_wanted, wanted): (&'static str, Found<K>),
    (of_chosen, chosen): (&'static str, Found<K>),
    record: &mut Record,
) -> Option<FoundPercentage> {
    let share = 1.0 - chosen.get().si() / wanted.get().si();
    if share <= SAME {
        return None;
    }
    let fall = FoundPercentage::of(SiValue::from_si(share));
    record
        .step("How far that is below what was asked for", "δ = 1 - b / a")
        .with("a", of_wanted, wanted)
        .with("b", of_chosen, chosen)
        .gives(field, fall);
    Some(fall)
}
