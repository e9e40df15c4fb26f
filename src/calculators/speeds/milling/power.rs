//! What a milling cut takes of the machine, by both published ways.

use super::MillingInput;
use crate::machine::{CutPower, ProcessFactor, Removal, cut_power};
use crate::quantity::{FoundChipThickness, FoundFeedPerTooth, FoundRemovalRate, FoundSpindleSpeed, SiValue};
use crate::working::{Record, Shown};

/// The chip of milling is pressed more than that of turning.
const PROCESS: ProcessFactor = ProcessFactor {
    of: "constant:process_factor",
    value: 1.2,
    source: "tabellenbuch_zerspantechnik",
    place: "p. 215, factor of milling",
};

/// The power of the cut; needs a material.
pub fn find(
    input: &MillingInput,
    (rate, feed, chip): (FoundRemovalRate, FoundFeedPerTooth, FoundChipThickness),
    speed: FoundSpindleSpeed,
    held: &mut Vec<(&'static str, &'static str, Shown)>,
    record: &mut Record,
) -> Option<CutPower> {
    let removal =
        Removal { rate, feed_of: "feed_per_tooth", feed: feed.into(), feed_si: feed.get().si(), wear: "end_milling" };
    let work = (input.material.as_ref(), &input.drive());
    cut_power(work, &removal, ("mean_chip", chip, &PROCESS), speed, held, record)
}
