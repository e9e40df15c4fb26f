//! What the machine allows, and the feed per tooth wanted: as asked, or raised to hold the chip of a
//! light cut, within a bound that is common practice.

use super::engagement::Engagement;
use super::{HoldChip, MillingInput, rules};
use crate::calculators::prelude::*;
use crate::machine::{Falls, Feeds, Held, SetSpeed, WantedFeed};

/// Beyond this the feed is not raised to hold a chip: a light cut is never as even as its drawing.
const GREATEST_FACTOR: Constant = Constant {
    of: "constant:greatest_feed_factor",
    value: 3.0,
    source: "common_practice",
    place: "the feed per tooth is raised no more than threefold to hold the chip of a light cut",
};

/// Cutters with edges from this angle on are made for their high feeds: what the edge's own angle takes off the chip is
/// given back in full.
const HIGH_FEED_FROM: f64 = 10.0;

/// A feed per tooth asked for.
type Asked = WantedFeed<kind::FeedPerTooth>;

/// The feed that is set.
pub struct SetFeed {
    /// Of the table.
    pub feed_rate: FoundFeedRate,
    /// Of a tooth.
    pub feed_per_tooth: FoundFeedPerTooth,
    /// As asked for.
    pub asked: FeedPerTooth,
}

/// A feed per tooth, kept in the unit of the one asked for.
fn feed_found(asked: &FeedPerTooth, si: f64) -> FoundFeedPerTooth {
    let unit = asked.quantity().unit;
    FoundFeedPerTooth::stated(unit.of_si(si), unit)
}

impl MillingInput {
    /// The feeds of the machine.
    pub fn feeds(&self) -> Feeds<'_> {
        Feeds::of(self.fastest_feed, self.available_feeds.as_deref())
    }
}

/// Chooses the feed; records the steps that give `feed_rate`, `feed_per_tooth`, `speed_fall` and `feed_fall`.
pub fn set(
    input: &MillingInput,
    (speed, cut): (&SetSpeed, Option<&Engagement>),
    (asked, hold, teeth): (Asked, HoldChip, u32),
    held: &mut Held,
    record: &mut Record,
) -> (SetFeed, Falls) {
    let spindle_speed = speed.spindle_speed;
    let (of, wanted) = match cut {
        Some(cut) => feed_wanted(cut, (asked.feed, hold), record),
        None => (asked.of, asked.feed.found()),
    };
    // A feed that is raised to hold the chip is no longer the table's.
    let rate = |feed: &FeedPerTooth| feed.si() * f64::from(teeth) * spindle_speed.si();
    let of_table = asked.published.filter(|_| of == asked.of);
    let published = of_table.map(|range| (rate(&range.low), rate(&range.high)));
    let feeds = Feeds { published, ..input.feeds() };
    let name = feeds.wanted_field();
    let wanted_rate = step!(record, "Feed rate for that feed per tooth",
        vf: (name) = fz * z * n, fz = (of): wanted, z = teeth, n = spindle_speed);
    let chosen = feeds.choose(wanted_rate, record);
    let feed_rate = chosen.rate;
    let feed_per_tooth = feed_found(&asked.feed, (feed_rate.get() / (f64::from(teeth) * spindle_speed.get())).si());
    record
        .step("Feed per tooth at that feed rate", "fz = vf / (z × n)")
        .with("vf", "feed_rate", feed_rate)
        .with("z", "teeth", teeth)
        .with("n", "spindle_speed", spindle_speed)
        .gives("feed_per_tooth", feed_per_tooth);
    asked.tell_if_below(feed_per_tooth.si(), record);
    rules::note_feed(feed_rate.si() < wanted_rate.si() * (1.0 - 1e-9), record);
    let falls = chosen.falls(speed, (name, wanted_rate), held, record);
    (SetFeed { feed_rate, feed_per_tooth, asked: asked.feed }, falls)
}

/// The feed per tooth to cut with, before the machine's limits, and the field that gives it.
fn feed_wanted(
    cut: &Engagement,
    (asked, hold): (FeedPerTooth, HoldChip),
    record: &mut Record,
) -> (&'static str, FoundFeedPerTooth) {
    let Some(factor) = cut.factor_to_hold(hold, record) else { return ("feed_per_tooth", asked.found()) };
    let (bound_of, bound) = greatest_factor(cut, factor, record);
    let (of, factor) = if factor > bound * (1.0 + 1e-12) {
        record
            .choose("Factor on the feed, limited", "the smaller")
            .with("k", "chip_factor", factor)
            .with("K", bound_of, bound)
            .gives("feed_factor", bound);
        if bound_of == GREATEST_FACTOR.of {
            record.source(GREATEST_FACTOR.source, GREATEST_FACTOR.place);
        }
        let times = text::full(text::round(bound, 2));
        record.note(
            "feed_factor_bounded",
            format!(
                "To hold the chip, the feed per tooth would have to be more than {times} times as large; it is raised \
                 only {times} times, and the chip stays thinner than asked for."
            ),
        );
        ("feed_factor", bound)
    } else {
        ("chip_factor", factor)
    };
    let wanted = feed_found(&asked, (asked.get() * factor).si());
    record
        .step("Feed per tooth that holds the chip", "fw = fz × k")
        .with("fz", "feed_per_tooth", asked)
        .with("k", of, factor)
        .gives("wanted_feed_per_tooth", wanted);
    ("wanted_feed_per_tooth", wanted)
}

/// The greatest factor on the feed: threefold, or what the edge's own angle takes off the chip where that is more, as it
/// is on a high-feed cutter.
fn greatest_factor(cut: &Engagement, factor: f64, record: &mut Record) -> (&'static str, f64) {
    let own = cut.edge_factor();
    if factor <= GREATEST_FACTOR.value
        || cut.edge_degrees() < HIGH_FEED_FROM * (1.0 - 1e-12)
        || own <= GREATEST_FACTOR.value
    {
        return (GREATEST_FACTOR.of, GREATEST_FACTOR.value);
    }
    record
        .step("Factor by which the edge's angle thins the chip", "k = 1 / sin(κ)")
        .with("κ", "cutting_edge_angle", cut.edge())
        .gives("edge_factor", own);
    record.note(
        "high_feed",
        "A cutting edge this flat is that of a high-feed cutter, so the feed makes up in full for the chip that its angle \
         thins. Keep the depth within what its maker allows.",
    );
    ("edge_factor", own)
}
