//! Speed and feed of a tool that feeds by the turn: drilling, reaming, turning, boring, countersinking.

use super::{
    CutDiameter, Falls, FeedStep, Feeds, Held, SetSpeed, SpindleLimits, Tooling, Toward, WantedSpeed, as_stated, to_try,
};
use crate::declared::{Asks, Gives, step};
use crate::quantity::{FeedPerRev, FeedRate, FoundFeedPerRev, FoundFeedRate, FoundSpindleSpeed, SiValue, Unit, kind};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::{Record, Shown};
use validator::ValidationError;

/// The feeds a machine has, as a request states them.
#[derive(Clone, Debug, Default, Asks)]
pub struct FeedLimits {
    /// Fastest feed rate to be used; no limit if absent.
    pub fastest_feed: Option<FeedRate>,
    /// The feeds that the machine has, all a turn or all a minute, in any order; any feed if absent.
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

/// What is set.
#[derive(Clone, Copy, Debug, Gives)]
pub struct TurnSet {
    /// The speed.
    #[group]
    pub speed: SetSpeed,
    /// Feed rate at that spindle speed.
    pub feed_rate: FoundFeedRate,
    /// Feed per turn to set.
    pub feed_per_rev: FoundFeedPerRev,
}

impl SpindleAndFeeds {
    /// Refuses a request that leaves no speed or no feed; of the feed per turn an example is told, and what is given.
    pub fn check(&self, tooling: &Tooling, feed: (&str, Option<FeedPerRev>)) -> Result<(), ValidationError> {
        tooling.check(Some(("feed_per_rev", feed.0, feed.1.is_some())))?;
        self.spindle.check()?;
        self.feeds.check()
    }

    /// Chooses speed and feed; records the steps that give `exact_speed`, `spindle_speed`, `cutting_speed`,
    /// `feed_rate`, `feed_per_rev`, `speed_fall` and `feed_fall`.
    pub fn set(
        &self,
        wanted: WantedSpeed,
        across: CutDiameter,
        (of, asked): (&'static str, FeedPerRev),
        record: &mut Record,
    ) -> Result<(TurnSet, Held, Falls), Refusal> {
        let (speed, mut held) = self.spindle.set(wanted, across, record)?;
        let spindle_speed = speed.spindle_speed;
        let (list_of, rates) = self.feeds.rates(spindle_speed, record);
        let feeds = Feeds { list_of, ..Feeds::of(self.feeds.fastest_feed, rates.as_deref()) };
        let name = feeds.wanted_field();
        let wanted: FoundFeedRate = step!(record, "Feed rate for that feed per turn",
            vf: (name) = f * n, f = (of): asked, n = spindle_speed);
        let feed = feeds.choose(wanted, record);
        let feed_rate = feed.rate.ok_or_else(|| self.feeds.no_feed(wanted))?;
        // Kept in the unit of the feed asked for.
        let unit = asked.quantity().unit;
        let per_rev: uom::si::f64::Length = feed_rate.get() / spindle_speed.get();
        let feed_per_rev = FoundFeedPerRev::stated(unit.of_si(per_rev.si()), unit);
        record
            .step("Feed per turn at that feed rate", "f = vf / n")
            .with("vf", "feed_rate", feed_rate)
            .with("n", "spindle_speed", spindle_speed)
            .gives("feed_per_rev", feed_per_rev);
        let falls = feed.falls(&speed, (name, wanted), &mut held, record);
        Ok((TurnSet { speed, feed_rate, feed_per_rev }, held, falls))
    }
}

impl FeedLimits {
    /// Refuses limits that leave no feed.
    fn check(&self) -> Result<(), ValidationError> {
        let Some(feeds) = &self.available_feeds else { return Ok(()) };
        let rates: Vec<FeedRate> = feeds.iter().filter_map(FeedStep::rate).collect();
        if feeds.is_empty() || (!rates.is_empty() && rates.len() < feeds.len()) {
            return Err(rule_broken(
                Code::Conflict,
                "available_feeds lists the machine's feeds, all a turn or all a minute.",
                &[("available_feeds", "0.1 mm/rev,0.2 mm/rev")],
            ));
        }
        if rates.is_empty() { Ok(()) } else { Feeds::of(self.fastest_feed, Some(&rates)).check() }
    }

    /// The machine's feeds as rates at the spindle's speed, and the field or step they come from.
    fn rates(&self, speed: FoundSpindleSpeed, record: &mut Record) -> (&'static str, Option<Vec<FeedRate>>) {
        let Some(steps) = &self.available_feeds else { return ("available_feeds", None) };
        let own: Vec<FeedRate> = steps.iter().filter_map(FeedStep::rate).collect();
        if own.len() == steps.len() {
            return ("available_feeds", Some(own));
        }
        let rates: Vec<FeedRate> = steps
            .iter()
            .map(|step| {
                let rate = step.quantity().si() * speed.get().si();
                FeedRate::stated(Unit::MillimetrePerMinute.of_si(rate), Unit::MillimetrePerMinute)
            })
            .collect();
        record
            .step("The machine's feeds at that speed", "vf = f × n")
            .with("f", "available_feeds", Shown::StatedList(steps.iter().map(FeedStep::quantity).collect()))
            .with("n", "spindle_speed", speed)
            .gives("available_feed_rates", Shown::Quantities(rates.iter().map(|rate| rate.quantity()).collect()));
        ("available_feed_rates", Some(rates))
    }

    /// Not even the slowest feed will do.
    fn no_feed(&self, wanted: FoundFeedRate) -> Refusal {
        let says = "The slowest feed of the machine is above the one asked for, and may be too much for the tool.";
        let by_size = |a: &&FeedStep, b: &&FeedStep| a.quantity().si().total_cmp(&b.quantity().si());
        let way = match self.available_feeds.iter().flatten().min_by(by_size) {
            Some(FeedStep::PerRev(step)) => Some(("feed_per_rev", as_stated(step))),
            Some(FeedStep::PerMinute(step)) => {
                to_try::<kind::FeedRate>(wanted.get().si(), step.quantity().unit, Toward::Less)
                    .map(|finer| ("available_feeds", format!("{finer},{}", as_stated(step))))
            }
            None => None,
        };
        Refusal::no_answer(says, &[way.unwrap_or_else(|| ("available_feeds", "leave out".to_owned()))])
    }
}
