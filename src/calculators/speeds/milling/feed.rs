//! What the machine allows, and the feed per tooth wanted: as asked, or raised to hold the chip of a
//! light cut, within a bound that is common practice.

use super::engagement::Engagement;
use super::{HoldChip, MillingInput};
use crate::calculators::prelude::*;
use crate::machine::Feeds;

/// Beyond this the feed is not raised to hold a chip: a light cut is never as even as its drawing.
const GREATEST_FACTOR: Constant = Constant {
    of: "constant:greatest_feed_factor",
    value: 3.0,
    source: "common_practice",
    place: "the feed per tooth is raised no more than threefold to hold the chip of a light cut",
};

/// A feed per tooth, kept in the unit of the one asked for.
pub fn feed_found(asked: &FeedPerTooth, si: f64) -> FoundFeedPerTooth {
    let unit = asked.quantity().unit;
    FoundFeedPerTooth::stated(unit.of_si(si), unit)
}

impl MillingInput {
    /// The feeds of the machine.
    pub fn feeds(&self) -> Feeds<'_> {
        Feeds::of(self.fastest_feed, self.available_feeds.as_deref())
    }
}

/// The feed per tooth to cut with, before the machine's limits, and the field that gives it.
pub fn feed_wanted(
    cut: &Engagement,
    (asked, hold): (FeedPerTooth, HoldChip),
    record: &mut Record,
) -> (&'static str, FoundFeedPerTooth) {
    let Some(factor) = cut.factor_to_hold(hold, record) else { return ("feed_per_tooth", asked.found()) };
    let (of, factor) = if factor > GREATEST_FACTOR.value {
        record
            .choose("Factor on the feed, bounded", "the smaller")
            .with("k", "chip_factor", factor)
            .constant("K", &GREATEST_FACTOR)
            .gives("feed_factor", GREATEST_FACTOR.value);
        record.note(
            "feed_factor_bounded",
            "To hold the chip the feed per tooth would have to be more than three times as large; it is raised \
             threefold and the chip stays thinner than asked.",
        );
        ("feed_factor", GREATEST_FACTOR.value)
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
