//! The way of the tool over the face: how long it takes, and what happens where it ends.

use super::FacingInput;
use crate::calculators::prelude::*;
use crate::machine::{CutDiameter, TurnSet, WantedSpeed, cutting_speed_at};

/// What the way comes to.
pub struct Path {
    /// Time of the cut.
    pub time: FoundWorkTime,
    /// Spindle speed where it ends.
    pub inner_speed: FoundSpindleSpeed,
    /// Cutting speed where it ends, unless that is the centre.
    pub inner_cutting_speed: Option<FoundCuttingSpeed>,
    /// Where the spindle reaches its fastest.
    pub limit_diameter: Option<FoundExtent>,
}

/// The inner diameter as one at which a cutting speed counts.
fn inside(inner: Extent) -> Option<CutDiameter> {
    let quantity = inner.quantity();
    (quantity.si() > 0.0)
        .then(|| CutDiameter { of: "inner_diameter", size: Size::stated(quantity.value, quantity.unit) })
}

fn ending(inner: Extent, speed: FoundSpindleSpeed, record: &mut Record) -> Option<FoundCuttingSpeed> {
    inside(inner).map(|across| cutting_speed_at("inner_cutting_speed", ("inner_spindle_speed", speed), across, record))
}

/// With the spindle's speed held.
pub fn at_one_speed(input: &FacingInput, inner: Extent, set: &TurnSet, record: &mut Record) -> Path {
    let speed = set.spindle_speed;
    record
        .choose("Spindle speed where the cut ends", "the same all the way")
        .with("n", "spindle_speed", speed)
        .gives("inner_spindle_speed", speed);
    let inner_cutting_speed = ending(inner, speed, record);
    let time = straight(input.outer_diameter.get().si() - inner.get().si(), set.feed_rate.get().si());
    record
        .step("Time of the cut", "t = (D - d) / (2 × vf)")
        .with("D", "outer_diameter", input.outer_diameter)
        .with("d", "inner_diameter", inner)
        .with("vf", "feed_rate", set.feed_rate)
        .gives("cutting_time", time);
    Path { time, inner_speed: speed, inner_cutting_speed, limit_diameter: None }
}

fn straight(across: f64, rate: f64) -> FoundWorkTime {
    FoundWorkTime::of(SiValue::from_si(across / (2.0 * rate)))
}

/// With the surface speed held until the spindle reaches its fastest.
pub fn at_surface_speed(
    input: &FacingInput,
    (wanted, inner): (WantedSpeed, Extent),
    set: &TurnSet,
    record: &mut Record,
) -> Path {
    let (outer, least) = (input.outer_diameter.get().si(), inner.get().si());
    let surface = wanted.speed.get().si();
    let Some(fastest) = input.spindle.fastest else {
        // The rules between fields see to it that the cut ends before the centre.
        let speed = FoundSpindleSpeed::of(SiValue::from_si(surface / (PI * least)));
        record
            .step("Spindle speed where the cut ends", "n = V / (π × d)")
            .with("V", wanted.of, wanted.speed)
            .with("d", "inner_diameter", inner)
            .gives("inner_spindle_speed", speed);
        return held_all_the_way(input, (wanted, inner), speed, set, record);
    };
    let limit = surface / (PI * fastest.get().si());
    if limit >= outer {
        return at_one_speed(input, inner, set, record);
    }
    if limit <= least {
        let speed = FoundSpindleSpeed::of(SiValue::from_si(surface / (PI * least)));
        record
            .step("Spindle speed where the cut ends", "n = V / (π × d)")
            .with("V", wanted.of, wanted.speed)
            .with("d", "inner_diameter", inner)
            .gives("inner_spindle_speed", speed);
        return held_all_the_way(input, (wanted, inner), speed, set, record);
    }
    held_to_the_limit(input, (wanted, inner), (fastest, limit), set, record)
}

fn held_all_the_way(
    input: &FacingInput,
    (wanted, inner): (WantedSpeed, Extent),
    speed: FoundSpindleSpeed,
    set: &TurnSet,
    record: &mut Record,
) -> Path {
    let inner_cutting_speed = ending(inner, speed, record);
    note_feed(input, speed, set, record);
    let (outer, least) = (input.outer_diameter.get().si(), inner.get().si());
    let turns = PI * (outer * outer - least * least) / (4.0 * set.feed_per_rev.get().si());
    let time = FoundWorkTime::of(SiValue::from_si(turns / wanted.speed.get().si()));
    record
        .step("Time of the cut", "t = π × (D ^ 2 - d ^ 2) / (4 × f × V)")
        .with("D", "outer_diameter", input.outer_diameter)
        .with("d", "inner_diameter", inner)
        .with("f", "feed_per_rev", set.feed_per_rev)
        .with("V", wanted.of, wanted.speed)
        .gives("cutting_time", time);
    Path { time, inner_speed: speed, inner_cutting_speed, limit_diameter: None }
}

fn held_to_the_limit(
    input: &FacingInput,
    (wanted, inner): (WantedSpeed, Extent),
    (fastest, limit): (SpindleSpeed, f64),
    set: &TurnSet,
    record: &mut Record,
) -> Path {
    let (outer, least) = (input.outer_diameter.get().si(), inner.get().si());
    let limit_diameter = FoundExtent::of(SiValue::from_si(limit));
    record
        .step("Diameter at which the spindle reaches its fastest", "Dc = V / (π × N)")
        .with("V", wanted.of, wanted.speed)
        .with("N", "fastest", fastest)
        .gives("limit_diameter", limit_diameter);
    let speed = fastest.found();
    record
        .choose("Spindle speed where the cut ends", "the fastest, which is reached before")
        .with("N", "fastest", fastest)
        .gives("inner_spindle_speed", speed);
    let inner_cutting_speed = ending(inner, speed, record);
    note_feed(input, speed, set, record);
    let feed = set.feed_per_rev.get().si();
    let held = PI * (outer * outer - limit * limit) / (4.0 * feed * wanted.speed.get().si());
    let held_time = FoundWorkTime::of(SiValue::from_si(held));
    record
        .step("Time with the surface speed held", "t1 = π × (D ^ 2 - Dc ^ 2) / (4 × f × V)")
        .with("D", "outer_diameter", input.outer_diameter)
        .with("Dc", "limit_diameter", limit_diameter)
        .with("f", "feed_per_rev", set.feed_per_rev)
        .with("V", wanted.of, wanted.speed)
        .gives("held_time", held_time);
    let time = FoundWorkTime::of(SiValue::from_si(held + (limit - least) / (2.0 * feed * fastest.get().si())));
    record
        .step("Time of the cut", "t = t1 + (Dc - d) / (2 × f × N)")
        .with("t1", "held_time", held_time)
        .with("Dc", "limit_diameter", limit_diameter)
        .with("d", "inner_diameter", inner)
        .with("f", "feed_per_rev", set.feed_per_rev)
        .with("N", "fastest", fastest)
        .gives("cutting_time", time);
    Path { time, inner_speed: speed, inner_cutting_speed, limit_diameter: Some(limit_diameter) }
}

/// The feed rate grows with the spindle's speed, and may pass what the slide can do.
fn note_feed(input: &FacingInput, speed: FoundSpindleSpeed, set: &TurnSet, record: &mut Record) {
    let rate = set.feed_per_rev.get().si() * speed.get().si();
    if input.feeds.fastest_feed.is_some_and(|fastest| rate > fastest.get().si()) {
        record.note(
            "feed_grows_inward",
            "The feed rate grows with the spindle's speed and passes fastest_feed before the cut ends; there the feed per \
             turn falls and the cut takes longer than given.",
        );
    }
}
