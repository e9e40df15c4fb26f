//! The reduction of speed and feed in deep holes, from the table of a drilling guide.

use super::DrillingInput;
use crate::calculators::prelude::*;
use crate::machine::{DeepHole, Wanted, WantedFeed};

/// How much less a deep hole is given.
#[derive(Debug, Default, Gives)]
pub struct Reductions {
    /// Reduction of the cutting speed for the depth of the hole.
    #[label("Speed reduced for depth by")]
    pub speed_reduction: Option<FoundPercentage>,
    /// Reduction of the feed for the depth of the hole.
    #[label("Feed reduced for depth by")]
    pub feed_reduction: Option<FoundPercentage>,
}

/// A feed per turn.
type Feed = WantedFeed<kind::FeedPerRev>;

/// Reduces what comes from the tables for a deep hole; what is stated is taken as it is.
pub fn reduce(
    input: &DrillingInput,
    mut wanted: Wanted,
    mut feed: Option<Feed>,
    record: &mut Record,
) -> (Wanted, Option<Feed>, Reductions) {
    let mut reductions = Reductions::default();
    let size = input.diameter.size;
    let deep = input.depth.and_then(|depth| DeepHole::find(depth, size, record));
    let Some(deep) = deep else { return (wanted, feed, reductions) };
    record.note(
        "deep_hole",
        "From three diameters on, a hole is deep: pull the drill back often, clear the chips and cool the point. Speed and \
         feed from the tables are reduced for it; those you give are used as they are.",
    );
    deep.note_beyond(record);
    if let (Wanted::Cutting(table), false) = (wanted, input.wanted.states_speed()) {
        let share = deep.speed_reduction(record);
        let reduced = table.times(1.0 - share.get().si(), "reduced_cutting_speed");
        record
            .step("Cutting speed after the reduction", "Vr = V × (1 - r)")
            .with("V", table.of, table.speed)
            .with("r", "speed_reduction", share)
            .gives(reduced.of, reduced.speed);
        wanted = Wanted::Cutting(reduced);
        reductions.speed_reduction = Some(share);
    }
    if let Some(table) = feed.filter(|_| input.feed_per_rev.is_none()) {
        let share = deep.feed_reduction(record);
        let quantity = table.feed.quantity();
        let reduced = FeedPerRev::stated(text::tidy(quantity.value * (1.0 - share.get().si())), quantity.unit);
        record
            .step("Feed after the reduction", "fr = f × (1 - r)")
            .with("f", table.of, table.feed)
            .with("r", "feed_reduction", share)
            .gives("reduced_feed_per_rev", reduced);
        feed = Some(Feed { of: "reduced_feed_per_rev", feed: reduced, ..table });
        reductions.feed_reduction = Some(share);
    }
    (wanted, feed, reductions)
}
