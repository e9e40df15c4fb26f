//! How deep a hole is in diameters of its drill, and by how much a drilling guide reduces speed and feed for it.

use crate::quantity::{Extent, FoundPercentage, SiValue, Size, Unit, text};
use crate::reference::drilling::{Reduction, deep_hole};
use crate::working::Record;

/// A hole deep enough to need less speed and feed.
#[derive(Clone, Copy, Debug)]
pub struct DeepHole {
    ratio: f64,
    reduction: Reduction,
}

impl DeepHole {
    /// The hole of a drill, if it is deep; its depth in diameters goes on record as `depth_in_diameters`.
    pub fn find(depth: Extent, diameter: Size, record: &mut Record) -> Option<Self> {
        let ratio = (depth.get() / diameter.get()).si();
        let reduction = deep_hole(ratio)?;
        let step = record.step("Depth in diameters", "l = L / D").with("L", "depth", depth);
        step.with("D", "diameter", diameter).gives("depth_in_diameters", ratio);
        Some(Self { ratio, reduction })
    }

    /// Notes that the hole is deeper than the table knows, if it is.
    pub fn note_beyond(&self, record: &mut Record) {
        if self.reduction.beyond {
            record.note(
                "deeper_than_table",
                "The table of reductions ends at a depth of six diameters, and this hole is deeper; its last row is used, and \
                 you may need to go slower.",
            );
        }
    }

    /// By how much the cutting speed is reduced, as `speed_reduction`.
    pub fn speed_reduction(&self, record: &mut Record) -> FoundPercentage {
        self.look_up("Reduction of the cutting speed", "speed_reduction", self.reduction.speed, record)
    }

    /// By how much the feed is reduced, as `feed_reduction`.
    pub fn feed_reduction(&self, record: &mut Record) -> FoundPercentage {
        self.look_up("Reduction of the feed", "feed_reduction", self.reduction.feed, record)
    }

    fn look_up(&self, what: &'static str, field: &'static str, share: f64, record: &mut Record) -> FoundPercentage {
        record.source("drill_guide", "reduction of speed and feed in deep holes");
        let share = FoundPercentage::stated(text::tidy(100.0 * share), Unit::Percent);
        record
            .look_up(what, "deep_hole_reduction.csv, linear between its rows")
            .with("l", "depth_in_diameters", self.ratio)
            .gives(field, share);
        share
    }
}
