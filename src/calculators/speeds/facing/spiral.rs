//! The way of the tool over the face: how long it takes, and what happens where it ends.

use super::FacingInput;
use crate::calculators::prelude::*;
use crate::machine::{CutDiameter, TurnFeed, TurnSet, Wanted, WantedSpeed, cutting_speed_at};

/// What the way comes to.
#[derive(Debug, Gives)]
pub struct Path {
    /// Time of the cut from the outer to the inner diameter.
    #[needs(feed_per_rev)]
    pub cutting_time: Option<FoundWorkTime>,
    /// Spindle speed where the cut ends; the fastest speed where the spindle reaches it before.
    #[label("Spindle speed at the end")]
    pub inner_spindle_speed: FoundSpindleSpeed,
    /// Cutting speed where the cut ends; absent at the center, where it is zero.
    #[label("Cutting speed at the end")]
    pub inner_cutting_speed: Option<FoundCuttingSpeed>,
    /// Diameter at which a spindle that keeps the surface speed constant reaches its fastest speed.
    #[label("Fastest reached at diameter")]
    pub limit_diameter: Option<FoundExtent>,
}

/// The cutting speed where the cut ends, unless that is the center.
fn ending(inner: Extent, speed: FoundSpindleSpeed, record: &mut Record) -> Option<FoundCuttingSpeed> {
    let Quantity { value, unit, .. } = inner.quantity();
    let across = CutDiameter { of: "inner_diameter", size: Size::stated(value, unit) };
    (value > 0.0).then(|| cutting_speed_at("inner_cutting_speed", ("inner_spindle_speed", speed), across, record))
}

/// With the spindle's speed held.
pub fn at_one_speed(input: &FacingInput, inner: Extent, set: &TurnSet, record: &mut Record) -> Path {
    let speed = set.speed.spindle_speed;
    record
        .choose("Spindle speed where the cut ends", "the same for the whole cut")
        .with("n", "spindle_speed", speed)
        .gives("inner_spindle_speed", speed);
    let inner_cutting_speed = ending(inner, speed, record);
    let cutting_time = set.feed.map(|feed| {
        step!(record, "Time of the cut", t: cutting_time = (D - d) / (2.0 * vf),
            D = outer_diameter: input.outer_diameter, d = inner_diameter: inner, vf = feed_rate: feed.feed_rate)
    });
    Path { cutting_time, inner_spindle_speed: speed, inner_cutting_speed, limit_diameter: None }
}

/// With the surface speed held until the spindle reaches its fastest.
pub fn at_surface_speed(
    input: &FacingInput,
    (wanted, inner): (Wanted, Extent),
    set: &TurnSet,
    record: &mut Record,
) -> Path {
    // A speed that is set does not hold; the rules between fields refuse it.
    let Wanted::Cutting(wanted) = wanted else { return at_one_speed(input, inner, set, record) };
    let (outer, least) = (input.outer_diameter.get().si(), inner.get().si());
    let limit = |fastest: SpindleSpeed| wanted.speed.get().si() / (PI * fastest.get().si());
    match input.machine.spindle.fastest {
        Some(fastest) if limit(fastest) >= outer => at_one_speed(input, inner, set, record),
        Some(fastest) if limit(fastest) > least => held_to_the_limit(input, (wanted, inner), fastest, set, record),
        // Without a fastest speed the rules between fields see to it that the cut ends before the center.
        _ => held_all_the_way(input, (wanted, inner), set, record),
    }
}

fn held_all_the_way(
    input: &FacingInput,
    (wanted, inner): (WantedSpeed, Extent),
    set: &TurnSet,
    record: &mut Record,
) -> Path {
    let speed = step!(record, "Spindle speed where the cut ends", n: inner_spindle_speed = V / (π * d),
        V = (wanted.of): wanted.speed, d = inner_diameter: inner);
    let inner_cutting_speed = ending(inner, speed, record);
    note_feed(input, speed, set, record);
    let cutting_time = set.feed.map(|feed| {
        step!(record, "Time of the cut",
            t: cutting_time = π * (squared(D) - squared(d)) / (4.0 * f * V), D = outer_diameter: input.outer_diameter,
            d = inner_diameter: inner, f = feed_per_rev: feed.feed_per_rev, V = (wanted.of): wanted.speed)
    });
    Path { cutting_time, inner_spindle_speed: speed, inner_cutting_speed, limit_diameter: None }
}

fn held_to_the_limit(
    input: &FacingInput,
    (wanted, inner): (WantedSpeed, Extent),
    fastest: SpindleSpeed,
    set: &TurnSet,
    record: &mut Record,
) -> Path {
    let limit_diameter: FoundExtent = step!(record, "Diameter at which the spindle reaches its fastest speed",
        Dc: limit_diameter = V / (π * N), V = (wanted.of): wanted.speed, N = fastest);
    let speed = fastest.found();
    record
        .choose("Spindle speed where the cut ends", "the fastest speed, which the spindle reaches before")
        .with("N", "fastest", fastest)
        .gives("inner_spindle_speed", speed);
    let inner_cutting_speed = ending(inner, speed, record);
    note_feed(input, speed, set, record);
    let cutting_time = set.feed.map(|TurnFeed { feed_per_rev, .. }| {
        let held_time: FoundWorkTime = step!(record, "Time with the surface speed constant",
            t1: held_time = π * (squared(D) - squared(Dc)) / (4.0 * f * V), D = outer_diameter: input.outer_diameter,
            Dc = limit_diameter, f = feed_per_rev, V = (wanted.of): wanted.speed);
        step!(record, "Time of the cut", t: cutting_time = t1 + (Dc - d) / (2.0 * f * N),
            t1 = held_time, Dc = limit_diameter, d = inner_diameter: inner, f = feed_per_rev, N = fastest)
    });
    Path { cutting_time, inner_spindle_speed: speed, inner_cutting_speed, limit_diameter: Some(limit_diameter) }
}

/// The feed rate grows with the spindle's speed, and may pass what the slide can do.
fn note_feed(input: &FacingInput, speed: FoundSpindleSpeed, set: &TurnSet, record: &mut Record) {
    let Some(feed) = set.feed else { return };
    let rate = feed.feed_per_rev.get().si() * speed.get().si();
    if input.machine.feeds.fastest_feed.is_some_and(|fastest| rate > fastest.get().si()) {
        record.note(
            "feed_grows_inward",
            "The feed rate grows with the spindle speed and passes the fastest feed rate before the cut ends; from there \
             the feed per revolution falls, and the cut takes longer than given.",
        );
    }
}
