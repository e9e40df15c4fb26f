//! A ramp to and fro along a slot.

use super::{EntryInput, EntryResult, refuse_others};
use crate::quantity::{FoundExtent, FoundFeedRate, FoundWorkTime, RampAngle, SiValue, Unit, angle};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::Record;
use validator::ValidationError;

/// More passes than this are no ramp.
const MOST_PASSES: f64 = 10_000.0;

/// The rules of a ramp.
pub fn check(input: &EntryInput) -> Result<(), ValidationError> {
    let others = [
        ("hole_diameter", input.hole_diameter.is_some()),
        ("pitch", input.pitch.is_some()),
        ("corner_radius", input.corner_radius.is_some()),
        ("diameter", input.diameter.is_some()),
    ];
    refuse_others("ramp", &others)?;
    if input.ramp_angle.is_none() {
        return Err(rule_broken(Code::FieldMissing, "A ramp needs its slope.", &[("ramp_angle", "3 deg")]));
    }
    Ok(())
}

/// The ramp.
pub fn solve(input: &EntryInput, record: &mut Record) -> Result<EntryResult, Refusal> {
    let slope = input.ramp_angle.unwrap_or(RampAngle::stated(3.0, Unit::Degree));
    record.choose("Slope", "as stated").with("α", "ramp_angle", slope).gives("ramp_angle", slope.found());
    let (sin, cos) = angle::sin_cos(slope.degrees());
    let along = input.depth.get().si() * cos / sin;
    let ramp_length = FoundExtent::of(SiValue::from_si(along));
    record
        .step("Length along the face", "l = T / tan(α)")
        .with("T", "depth", input.depth)
        .with("α", "ramp_angle", slope)
        .gives("ramp_length", ramp_length);
    let slope_length = FoundExtent::of(SiValue::from_si(input.depth.get().si() / sin));
    record
        .step("Length of the slope", "L1 = T / sin(α)")
        .with("T", "depth", input.depth)
        .with("α", "ramp_angle", slope)
        .gives("slope_length", slope_length);
    let (passes, path_length) = match input.slot_length {
        None => {
            record
                .choose("Length of the way", "the slope alone")
                .with("L1", "slope_length", slope_length)
                .gives("path_length", slope_length);
            (None, slope_length)
        }
        Some(slot) => {
            // A length that is a whole number of slots must not take one more for a double's rounding.
            let sloping = (along / slot.get().si() * (1.0 - 1e-12)).ceil();
            if sloping > MOST_PASSES {
                let says = "The ramp would need more than ten thousand passes.";
                let longer = crate::suggestion::value(along, slot.quantity().unit, crate::suggestion::Way::Up);
                return Err(Refusal::no_answer(says, &[("slot_length", longer)]));
            }
            let passes = sloping + 1.0;
            record
                .look_up("Passes", "as many as the ramp is slots long, rounded up, and one flat pass")
                .with("l", "ramp_length", ramp_length)
                .with("s", "slot_length", slot)
                .gives("passes", passes);
            let path = FoundExtent::of(SiValue::from_si(slope_length.get().si() + slot.get().si()));
            record
                .step("Length of the way, with a flat pass", "L = L1 + s")
                .with("L1", "slope_length", slope_length)
                .with("s", "slot_length", slot)
                .gives("path_length", path);
            (Some(passes), path)
        }
    };
    let down = FoundFeedRate::of(input.feed_rate.get() * sin);
    record
        .step("How fast it goes down", "va = vf × sin(α)")
        .with("vf", "feed_rate", input.feed_rate)
        .with("α", "ramp_angle", slope)
        .gives("down_feed_rate", down);
    let time = FoundWorkTime::of(path_length.get() / input.feed_rate.get());
    record
        .step("Time of the way", "t = L / vf")
        .with("L", "path_length", path_length)
        .with("vf", "feed_rate", input.feed_rate)
        .gives("cutting_time", time);
    Ok(EntryResult {
        ramp_angle: crate::quantity::FoundAngle::stated(slope.quantity().value, slope.quantity().unit),
        path_length,
        down_feed_rate: down,
        cutting_time: time,
        ramp_length: Some(ramp_length),
        passes,
        path_diameter: None,
        pitch: None,
        turns: None,
        center_feed_rate: None,
    })
}
