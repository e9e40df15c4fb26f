//! What the machine allows, and the feed per tooth wanted: as asked, or raised to hold the chip of a
//! light cut, within a bound that is common practice.

use super::engagement::Engagement;
use super::{HoldChip, MillingInput};
use crate::machine::{Feeds, Spindle};
use crate::quantity::{FoundFeedPerTooth, SiValue};
use crate::working::{Constant, Record};

/// Beyond this the feed is not raised to hold a chip: a light cut is never as even as its drawing.
const GREATEST_FACTOR: Constant = Constant {
    of: "constant:greatest_feed_factor",
    value: 3.0,
    source: "common_practice",
    place: "the feed per tooth is raised no more than threefold to hold the chip of a light cut",
};

impl MillingInput {
    /// The speeds of the machine.
    pub fn spindle(&self) -> Spindle<'_> {
        Spindle {
            slowest: self.slowest,
            fastest: self.fastest,
            available: self.available.as_deref(),
            may_exceed: self.may_exceed,
        }
    }

    /// The feeds of the machine.
    pub fn feeds(&self) -> Feeds<'_> {
        Feeds { fastest: self.fastest_feed, available: self.available_feeds.as_deref() }
    }

    /// A feed per tooth, kept in the unit of the one asked for.
    pub fn feed_found(&self, si: f64) -> FoundFeedPerTooth {
        let unit = self.feed_per_tooth.quantity().unit;
        FoundFeedPerTooth::stated(unit.of_si(si), unit)
    }

    /// The feed per tooth to cut with, before the machine's limits, and the field that gives it.
    pub fn feed_wanted(
        &self,
        cut: &Engagement,
        hold: HoldChip,
        record: &mut Record,
    ) -> (&'static str, FoundFeedPerTooth) {
        let asked = self.feed_per_tooth;
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
        let wanted = self.feed_found((asked.get() * factor).si());
        record
            .step("Feed per tooth that holds the chip", "fw = fz × k")
            .with("fz", "feed_per_tooth", asked)
            .with("k", of, factor)
            .gives("wanted_feed_per_tooth", wanted);
        ("wanted_feed_per_tooth", wanted)
    }
}
