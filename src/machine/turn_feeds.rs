//! Speed and feed of a tool that feeds by the turn: drilling, reaming, turning, boring, countersinking.

use super::{CutDiameter, Falls, FeedStep, Feeds, Held, SetSpeed, SpindleLimits, Tooling, Wanted, WantedFeed};
use crate::declared::{Asks, Gives, step};
use crate::quantity::{FeedRate, FoundFeedPerRev, FoundFeedRate, FoundSpindleSpeed, SiValue, Unit, kind};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::{Record, Shown};
use validator::ValidationError;

/// The feeds a machine has, as a request states them.
#[derive(Clone, Debug, Default, Asks)]
pub struct FeedLimits {
    /// Fastest feed rate to use; no limit if absent.
    #[label("Fastest feed rate")]
    pub fastest_feed: Option<FeedRate>,
    /// The feeds that the machine has, all per revolution or all per minute, in any order; any feed if absent.
    #[label("Feeds the machine has")]
    pub available_feeds: Option<Vec<FeedStep>>,
}

/// The speeds and the feeds a machine has, as a request states them.
#[derive(Clone, Debug, Default, Asks)]
pub struct SpindleAndFeeds {
    /// The speeds.
    #[group]
    pub spindle: SpindleLimits,
    /// The feeds.
    #[group]
    pub feeds: FeedLimits,
}

/// The speeds of a machine and the feeds of its quill, as a request states them. The feeds of its table are not the
/// quill's: no machine's stand in for them.
#[derive(Clone, Debug, Default, Asks)]
pub struct SpindleAndQuill {
    /// The speeds and the feeds.
    #[group]
    pub machine: SpindleAndFeeds,
    /// The power feeds of the quill, all per revolution or all per minute, in any order; the quill is fed by hand if absent.
    #[label("Power feeds of the quill")]
    pub quill_feeds: Option<Vec<FeedStep>>,
}

/// What is set.
#[derive(Clone, Copy, Debug, Gives)]
pub struct TurnSet {
    /// The speed.
    #[group]
    pub speed: SetSpeed,
    /// The feed.
    #[group]
    #[needs(feed_per_rev)]
    pub feed: Option<TurnFeed>,
}

/// The feed that is set.
#[derive(Clone, Copy, Debug, Gives)]
pub struct TurnFeed {
    /// Feed rate at that spindle speed.
    pub feed_rate: FoundFeedRate,
    /// Feed per revolution to set.
    #[label("Feed per revolution")]
    pub feed_per_rev: FoundFeedPerRev,
}

/// The list of feeds to choose from, and its field.
struct Listed<'a> {
    of: &'static str,
    steps: Option<&'a [FeedStep]>,
}

impl SpindleAndFeeds {
    /// Refuses a request that leaves no speed, and feeds of two sorts.
    pub fn check(&self, tooling: &Tooling) -> Result<(), ValidationError> {
        tooling.check()?;
        self.spindle.check()?;
        check_listed(&self.listed(), self.feeds.fastest_feed)
    }

    fn listed(&self) -> Listed<'_> {
        Listed { of: "available_feeds", steps: self.feeds.available_feeds.as_deref() }
    }

    /// Chooses speed and feed; records the steps that give `exact_speed`, `spindle_speed`, `cutting_speed`,
    /// `feed_rate`, `feed_per_rev`, `speed_fall` and `feed_fall`.
    pub fn set(
        &self,
        wanted: Wanted,
        across: CutDiameter,
        feed: Option<WantedFeed<kind::FeedPerRev>>,
        record: &mut Record,
    ) -> Result<(TurnSet, Held, Falls), Refusal> {
        self.set_from(self.listed(), (wanted, across, feed), record)
    }

    fn set_from(
        &self,
        listed: Listed,
        (wanted, across, feed): (Wanted, CutDiameter, Option<WantedFeed<kind::FeedPerRev>>),
        record: &mut Record,
    ) -> Result<(TurnSet, Held, Falls), Refusal> {
        let (speed, mut held) = self.spindle.set(wanted, across, record)?;
        let Some(feed) = feed else {
            let falls = Falls { speed_fall: speed.fall(record), feed_fall: None };
            return Ok((TurnSet { speed, feed: None }, held, falls));
        };
        let spindle_speed = speed.spindle_speed;
        let (list_of, rates) = rates(&listed, spindle_speed, record);
        let published = feed.published.map(|range| {
            let rate = |end: &crate::quantity::FeedPerRev| end.get().si() * spindle_speed.get().si();
            (rate(&range.low), rate(&range.high))
        });
        let feeds = Feeds { list_of, published, ..Feeds::of(self.feeds.fastest_feed, rates.as_deref()) };
        let name = feeds.wanted_field();
        let wanted: FoundFeedRate = step!(record, "Feed rate for that feed per revolution",
            vf: (name) = f * n, f = (feed.of): feed.feed, n = spindle_speed);
        let chosen = feeds.choose(wanted, record);
        let feed_rate = chosen.rate;
        // Kept in the unit of the feed asked for.
        let unit = feed.feed.quantity().unit;
        let per_rev: uom::si::f64::Length = feed_rate.get() / spindle_speed.get();
        let feed_per_rev = FoundFeedPerRev::stated(unit.of_si(per_rev.si()), unit);
        record
            .step("Feed per revolution at that feed rate", "f = vf / n")
            .with("vf", "feed_rate", feed_rate)
            .with("n", "spindle_speed", spindle_speed)
            .gives("feed_per_rev", feed_per_rev);
        feed.tell_if_below(per_rev.si(), record);
        let falls = chosen.falls(&speed, (name, wanted), &mut held, record);
        Ok((TurnSet { speed, feed: Some(TurnFeed { feed_rate, feed_per_rev }) }, held, falls))
    }
}

impl SpindleAndQuill {
    /// Refuses a request that leaves no speed, feeds of two sorts, and two lists of feeds.
    pub fn check(&self, tooling: &Tooling) -> Result<(), ValidationError> {
        self.machine.check(tooling)?;
        if self.quill_feeds.is_none() {
            // The machine's own list has been looked at.
            return Ok(());
        }
        if self.machine.feeds.available_feeds.is_some() {
            let ways = [("available_feeds", "leave out"), ("quill_feeds", "leave out")];
            let says =
                "Give the power feeds of the quill or the feeds of the machine, not both; the quill has its own.";
            return Err(rule_broken(Code::Conflict, says, &ways));
        }
        check_listed(&self.listed(), self.machine.feeds.fastest_feed)
    }

    fn listed(&self) -> Listed<'_> {
        match &self.quill_feeds {
            Some(quill) => Listed { of: "quill_feeds", steps: Some(quill) },
            None => self.machine.listed(),
        }
    }

    /// Chooses speed and feed as [`SpindleAndFeeds::set`] does; without a list of feeds the feed is one to come near by
    /// hand.
    pub fn set(
        &self,
        wanted: Wanted,
        across: CutDiameter,
        feed: Option<WantedFeed<kind::FeedPerRev>>,
        record: &mut Record,
    ) -> Result<(TurnSet, Held, Falls), Refusal> {
        let listed = self.listed();
        if listed.steps.is_none() && feed.is_some() {
            record.note(
                "fed_by_hand",
                "No power feeds of the quill are given: feed by hand, and come near this feed by feel and by the chip.",
            );
        }
        self.machine.set_from(listed, (wanted, across, feed), record)
    }
}

/// Refuses an empty list, and one with feeds of both sorts.
fn check_listed(listed: &Listed, fastest: Option<FeedRate>) -> Result<(), ValidationError> {
    let Some(feeds) = listed.steps else { return Ok(()) };
    let rates: Vec<FeedRate> = feeds.iter().filter_map(FeedStep::rate).collect();
    if feeds.is_empty() || (!rates.is_empty() && rates.len() < feeds.len()) {
        let says = "List at least one feed, and give all of them per revolution or all of them per minute.";
        return Err(rule_broken(Code::Conflict, says, &[(listed.of, "0.1 mm/rev,0.2 mm/rev")]));
    }
    if rates.is_empty() { Ok(()) } else { Feeds::of(fastest, Some(&rates)).check() }
}

/// The machine's feeds as rates at the spindle's speed, and the field or step they come from.
fn rates(listed: &Listed, speed: FoundSpindleSpeed, record: &mut Record) -> (&'static str, Option<Vec<FeedRate>>) {
    let Some(steps) = listed.steps else { return (listed.of, None) };
    let own: Vec<FeedRate> = steps.iter().filter_map(FeedStep::rate).collect();
    if own.len() == steps.len() {
        return (listed.of, Some(own));
    }
    let rates: Vec<FeedRate> = steps
        .iter()
        .map(|step| {
            let rate = step.quantity().si() * speed.get().si();
            FeedRate::stated(Unit::MillimetrePerMinute.of_si(rate), Unit::MillimetrePerMinute)
        })
        .collect();
    record
        .step("Feeds of the machine at that speed", "vf = f × n")
        .with("f", listed.of, Shown::StatedList(steps.iter().map(FeedStep::quantity).collect()))
        .with("n", "spindle_speed", speed)
        .gives("available_feed_rates", Shown::Quantities(rates.iter().map(|rate| rate.quantity()).collect()));
    ("available_feed_rates", Some(rates))
}
