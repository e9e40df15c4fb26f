//! Choosing a feed rate that the machine has: at or below the one asked for.

use super::{Held, Limit, Names, SetSpeed, as_stated, at_most, check_some_within, check_steps, fall, si, steps_within};
use crate::declared::Gives;
use crate::quantity::{FeedRate, FoundFeedRate, FoundPercentage, SiValue, text};
use crate::working::Record;
use validator::ValidationError;

/// A step that lies below the published range by no more than this share of its least is as good as inside: tables do
/// not agree more nearly, and the step above it may be twice as much.
const AS_GOOD_AS_INSIDE: f64 = 0.9;

/// The feed rates a machine has, as a request states them.
#[derive(Clone, Copy, Debug, Default)]
pub struct Feeds<'a> {
    /// The fastest feed rate to be used.
    pub fastest: Option<FeedRate>,
    /// The steps of the feed gears; any feed if absent.
    pub available: Option<&'a [FeedRate]>,
    /// The field or step that the steps come from.
    pub list_of: &'static str,
    /// The least and the greatest rate that the published range comes to, where the feed is taken from it.
    pub published: Option<(f64, f64)>,
}

/// The feed rate chosen.
#[derive(Clone, Debug)]
pub struct ChosenFeed {
    /// The feed rate; the one asked for where even the slowest step is above it.
    pub rate: FoundFeedRate,
    /// The limits that do not allow the feed asked for.
    pub limited_by: Vec<Limit>,
}

/// How far what is set falls short of what was asked.
#[derive(Clone, Copy, Debug, Gives)]
pub struct Falls {
    /// How far the spindle speed is below the exact one.
    #[label("Speed below exact by")]
    pub speed_fall: Option<FoundPercentage>,
    /// How far the feed rate is below the one asked for.
    #[label("Feed below wanted by")]
    pub feed_fall: Option<FoundPercentage>,
}

impl ChosenFeed {
    /// How far speed and feed fall short, in the steps that give `speed_fall` and `feed_fall`; adds what limits the
    /// feed wanted, a step named `of`.
    pub fn falls(
        self,
        speed: &SetSpeed,
        (of, wanted): (&'static str, FoundFeedRate),
        held: &mut Held,
        record: &mut Record,
    ) -> Falls {
        let speed_fall = speed.fall(record);
        if self.limited_by.is_empty() {
            return Falls { speed_fall, feed_fall: None };
        }
        held.against.push(("v", of, wanted.into()));
        held.limits.extend(self.limited_by);
        let feed_fall = fall("feed_fall", (of, wanted), ("feed_rate", self.rate), record);
        Falls { speed_fall, feed_fall }
    }
}

// A feed has no slowest limit, so that name is never shown.
const NAMES: Names = Names { what: "feed", list: "available_feeds", least: "slowest_feed", most: "fastest_feed" };

impl<'a> Feeds<'a> {
    /// The feeds as the fields `fastest_feed` and `available_feeds` state them.
    pub fn of(fastest: Option<FeedRate>, available: Option<&'a [FeedRate]>) -> Self {
        Self { fastest, available, list_of: NAMES.list, published: None }
    }

    /// Refuses an empty list.
    pub fn check(&self) -> Result<(), ValidationError> {
        check_steps(&NAMES, self.available, None, self.fastest.as_ref())
    }

    /// The same of a machine itself, whose steps must not all lie above its fastest feed.
    pub fn check_machine(&self) -> Result<(), ValidationError> {
        self.check()?;
        check_some_within(&NAMES, self.available.unwrap_or_default(), None, self.fastest.as_ref())
    }

    /// The field that the feed asked for is given as: `feed_rate` itself where nothing limits it.
    pub fn wanted_field(&self) -> &'static str {
        if self.fastest.is_some() || self.available.is_some() { "wanted_feed_rate" } else { "feed_rate" }
    }

    /// Chooses the feed for `wanted`: itself where the machine has it, else the next below, or the next above where that
    /// one is inside the published range and the one below is not; by hand where even the slowest is above it. Records
    /// the step that gives `feed_rate`, unless there was nothing to choose.
    pub fn choose(&self, wanted: FoundFeedRate, record: &mut Record) -> ChosenFeed {
        let v = wanted.get().si();
        let mut limited_by = Vec::new();
        let mut rate = wanted;
        let mut rule = "the feed asked for, which is within every limit";
        if let Some(fastest) = self.fastest
            && v > si(&fastest)
        {
            rate = fastest.found();
            rule = "the fastest feed, because the feed asked for is above it";
            if !at_most(v, si(&fastest)) {
                limited_by.push(Limit::FastestFeed);
            }
        }
        if let Some(list) = self.available {
            let steps = steps_within(list, None, self.fastest.as_ref());
            if steps.len() < steps_within(list, None, None).len() {
                record.note("feeds_left_out", "Feeds of the machine above the fastest feed to use were left out.");
            }
            let below = steps.iter().rev().find(|step| at_most(si(*step), v));
            let above = steps.iter().find(|step| !at_most(si(*step), v));
            if !below.is_some_and(|step| at_most(v, si(step))) {
                limited_by.push(Limit::AvailableFeeds);
            }
            match (below, above.filter(|above| self.is_better(v, below, above))) {
                (_, Some(above)) => {
                    rate = above.found();
                    rule = "the next feed of the machine above the one asked for, which is within the published range";
                }
                (Some(below), None) => {
                    rate = below.found();
                    rule = "the fastest feed of the machine at or below the one asked for";
                }
                (None, None) => {
                    rule = "by hand, because the slowest feed of the machine is above it";
                    warn_too_slow(rate, list, record);
                }
            }
        }
        if self.wanted_field() != "feed_rate" {
            let mut step = record.choose("Feed rate to set", rule).with("v", "wanted_feed_rate", wanted);
            if let Some(fastest) = self.fastest {
                step = step.with("F", "fastest_feed", fastest);
            }
            if let Some(list) = self.available {
                step = step.with("A", self.list_of, list);
            }
            step.gives("feed_rate", rate);
        }
        ChosenFeed { rate, limited_by }
    }

    /// Whether the step above a feed taken from the tables keeps inside their range while the one below does not.
    fn is_better(&self, wanted: f64, below: Option<&FeedRate>, above: &FeedRate) -> bool {
        let Some((least, most)) = self.published else { return false };
        let too_little = below.is_none_or(|below| !at_most(least * AS_GOOD_AS_INSIDE, si(below)));
        at_most(least, wanted) && too_little && at_most(si(above), most)
    }
}

/// The machine feeds no slower than this, which is more than was asked for.
fn warn_too_slow(rate: FoundFeedRate, list: &[FeedRate], record: &mut Record) {
    let Some(slowest) = steps_within(list, None, None).first().copied() else { return };
    let times = text::full(text::round(si(&slowest) / rate.get().si(), 1));
    record.caution_first(
        "feed_by_hand",
        format!(
            "The slowest power feed, {}, is {times} times the feed rate given here and can break the tool: feed by hand at \
             the rate given, or do not make this cut.",
            as_stated(&slowest)
        ),
    );
}
