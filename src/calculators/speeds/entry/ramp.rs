//! A ramp to and fro along a slot.

use super::{EntryInput, EntryResult, refuse_others};
use crate::calculators::prelude::*;

/// More passes than this are no ramp.
const MOST_PASSES: f64 = 10_000.0;

/// The rules of a ramp.
pub fn check(input: &EntryInput) -> Result<(), ValidationError> {
    refuse_others("ramp", &stated!(input: hole_diameter, pitch, corner_radius, diameter))?;
    if input.ramp_angle.is_none() {
        return Err(rule_broken(Code::FieldMissing, "For a ramp, give the ramp angle.", &[("ramp_angle", "3 deg")]));
    }
    Ok(())
}

/// The ramp.
pub fn solve(input: &EntryInput, record: &mut Record) -> Result<EntryResult, Refusal> {
    let EntryInput { depth, feed_rate, .. } = *input;
    let ramp_angle = input.ramp_angle.unwrap_or(RampAngle::stated(3.0, Unit::Degree));
    record
        .choose("Angle of the ramp", "as stated")
        .with("α", "ramp_angle", ramp_angle)
        .gives("ramp_angle", ramp_angle.found());
    let ramp_length: FoundExtent = step!(record, "Length along the face", l: ramp_length = T / tan(α),
        T = depth, α = ramp_angle);
    let slope_length: FoundExtent = step!(record, "Length of the slope", L1: slope_length = T / sin(α),
        T = depth, α = ramp_angle);
    let (passes, path_length) = match input.slot_length {
        None => {
            record
                .choose("Length of the path", "the slope alone")
                .with("L1", "slope_length", slope_length)
                .gives("path_length", slope_length);
            (None, slope_length)
        }
        Some(slot) => {
            // A length that is a whole number of slots must not take one more for a double's rounding.
            let sloping = (ramp_length.si() / slot.si() * (1.0 - 1e-12)).ceil();
            if sloping > MOST_PASSES {
                let says = "The ramp would need more than ten thousand passes.";
                let longer =
                    crate::suggestion::value(ramp_length.si(), slot.quantity().unit, crate::suggestion::Way::Up);
                return Err(Refusal::no_answer(says, &[("slot_length", longer)]));
            }
            let passes = sloping + 1.0;
            record
                .look_up("Passes", "the ramp's length divided by the slot's, rounded up, and one flat pass")
                .with("l", "ramp_length", ramp_length)
                .with("s", "slot_length", slot)
                .gives("passes", passes);
            let path = step!(record, "Length of the path, with a flat pass", L: path_length = L1 + s,
                L1 = slope_length, s = slot_length: slot);
            (Some(passes), path)
        }
    };
    let down_feed_rate = step!(record, "How fast it goes down", va: down_feed_rate = vf * sin(α),
        vf = feed_rate, α = ramp_angle);
    let cutting_time = step!(record, "Time for the path", t: cutting_time = L / vf, L = path_length, vf = feed_rate);
    Ok(EntryResult {
        ramp_angle: FoundAngle::stated(ramp_angle.quantity().value, ramp_angle.quantity().unit),
        path_length,
        down_feed_rate,
        cutting_time,
        ramp_length: Some(ramp_length),
        passes,
        path_diameter: None,
        pitch: None,
        turns: None,
        center_feed_rate: None,
    })
}
