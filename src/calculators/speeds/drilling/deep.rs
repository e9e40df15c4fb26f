//! The reduction of speed and feed in deep holes, from the table of a drilling guide.

use super::DrillingInput;
use crate::calculators::prelude::*;
use crate::machine::{WantedSpeed, reduced_speed};
use crate::reference::drilling::deep_hole;

/// Speed and feed wanted, reduced for a deep hole, and the reductions.
pub struct Reduced {
    /// The cutting speed.
    pub wanted: WantedSpeed,
    /// The feed, and the field or step it comes from.
    pub feed: (&'static str, FeedPerRev),
    /// Reduction of the speed.
    pub speed_reduction: Option<FoundPercentage>,
    /// Reduction of the feed.
    pub feed_reduction: Option<FoundPercentage>,
}

/// Reduces what comes from the tables for a deep hole; what is stated is taken as it is.
pub fn reduce(input: &DrillingInput, wanted: WantedSpeed, asked: FeedPerRev, record: &mut Record) -> Reduced {
    let stated = Reduced { wanted, feed: ("feed_per_rev", asked), speed_reduction: None, feed_reduction: None };
    let Some(depth) = input.depth else { return stated };
    let size = input.diameter.size;
    let ratio = (depth.get() / size.get()).si();
    let Some(reduction) = deep_hole(ratio) else { return stated };
    record
        .step("Depth in diameters", "l = L / D")
        .with("L", "depth", depth)
        .with("D", "diameter", size)
        .gives("depth_in_diameters", ratio);
    record.note(
        "deep_hole",
        "From three diameters on a hole is deep: draw the drill back often, clear the chips and cool the point. Speed and \
         feed from the tables are reduced for it; what is stated is taken as it is.",
    );
    if reduction.beyond {
        record.note(
            "deeper_than_table",
            "The hole is deeper than the six diameters that the table of reductions ends at; its last row is taken, and \
             less may be needed.",
        );
    }
    let mut reduced = stated;
    let look_up = |what: &'static str, field: &'static str, share: f64, record: &mut Record| {
        record.source("drill_guide", "reduction of speed and feed in deep holes");
        let share = FoundPercentage::stated(text::tidy(100.0 * share), Unit::Percent);
        record
            .look_up(what, "deep_hole_reduction.csv, linear between its rows")
            .with("l", "depth_in_diameters", ratio)
            .gives(field, share);
        share
    };
    if input.cutting_speed.is_none() {
        let share = look_up("Reduction of the cutting speed", "speed_reduction", reduction.speed, record);
        reduced.wanted = reduced_speed(wanted, ("speed_reduction", share), "reduced_cutting_speed", record);
        reduced.speed_reduction = Some(share);
    }
    if input.feed_per_rev.is_none() {
        let share = look_up("Reduction of the feed", "feed_reduction", reduction.feed, record);
        let quantity = asked.quantity();
        let feed = FeedPerRev::stated(text::tidy(quantity.value * (1.0 - share.get().si())), quantity.unit);
        record
            .step("Feed after the reduction", "fr = f × (1 - r)")
            .with("f", "feed_per_rev", asked)
            .with("r", "feed_reduction", share)
            .gives("reduced_feed_per_rev", feed);
        reduced.feed = ("reduced_feed_per_rev", feed);
        reduced.feed_reduction = Some(share);
    }
    reduced
}
