//! A helix round a hole.

use super::{EntryInput, EntryResult, refuse_others};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// More turns than this are no helix.
const MOST_TURNS: f64 = 10_000.0;

/// The rules of a helix.
pub fn check(input: &EntryInput) -> Result<(), ValidationError> {
    refuse_others("helix", &stated!(input: slot_length))?;
    let mut missing = to_give(&stated!(input: diameter = "12 mm", hole_diameter = "20 mm"));
    if input.pitch.is_none() && input.ramp_angle.is_none() {
        missing.extend([("pitch", "1 mm"), ("ramp_angle", "3 deg")]);
    }
    if !missing.is_empty() {
        let says = "For a helix, give the cutter diameter, the hole diameter, and the pitch or the ramp angle.";
        return Err(rule_broken(Code::FieldMissing, says, &missing));
    }
    check_slope(input)?;
    let (Some(cutter), Some(hole)) = (input.diameter, input.hole_diameter) else { return Ok(()) };
    let (d, h) = (cutter.quantity(), hole.quantity());
    if h.si() <= d.si() {
        let says = "The hole must be larger than the cutter.";
        let larger = value(d.si() * 1.5, h.unit, Way::Up);
        let smaller = value(h.si() / 1.5, d.unit, Way::Down);
        return Err(rule_broken(Code::Conflict, says, &[("hole_diameter", &larger), ("diameter", &smaller)]));
    }
    if let Some(corner) = input.corner_radius
        && 2.0 * corner.quantity().si() > d.si() * (1.0 + 1e-12)
    {
        let half = value(d.si() / 2.0, corner.quantity().unit, Way::Down);
        let says = "The corner radius is at most half the cutter diameter.";
        return Err(rule_broken(Code::Conflict, says, &[("corner_radius", &half)]));
    }
    Ok(())
}

rules! { check_slope(EntryInput) {
    not_both(pitch, ramp_angle): "Give the pitch or the ramp angle, not both; one follows from the other.";
} }

/// The helix.
pub fn solve(input: &EntryInput, record: &mut Record) -> Result<EntryResult, Refusal> {
    let (Some(cutter), Some(hole)) = (input.diameter, input.hole_diameter) else {
        return Err(Refusal::no_answer(
            "For a helix, give the cutter diameter and the hole diameter.",
            &[("diameter", "12 mm".to_owned())],
        ));
    };
    note_core(input, &cutter, &hole, record);
    let EntryInput { depth, feed_rate, .. } = *input;
    let path_diameter: FoundSize = step!(record, "Circle of the cutter's center", Dp: path_diameter = Dh - D,
        Dh = hole_diameter: hole, D = diameter: cutter);
    let (pitch, ramp_angle) = pitch_and_slope(input, path_diameter, record);
    let sloping = (depth.si() / pitch.si() * (1.0 - 1e-12)).ceil();
    if sloping > MOST_TURNS {
        let says = "The helix would need more than ten thousand turns.";
        let way = match input.pitch {
            Some(_) => ("pitch", value(depth.si() / 10.0, depth.quantity().unit, Way::Up)),
            None => ("ramp_angle", "3 deg".to_owned()),
        };
        return Err(Refusal::no_answer(says, &[way]));
    }
    let turns = sloping + 1.0;
    record
        .look_up("Turns", "the depth divided by the pitch, rounded up, and one flat turn")
        .with("T", "depth", depth)
        .with("p", "pitch", pitch)
        .gives("turns", turns);
    let path_length: FoundExtent = step!(record, "Length of the path, with a flat turn",
        L: path_length = T / p * root(squared(π * Dp) + squared(p)) + π * Dp,
        T = depth, p = pitch, Dp = path_diameter);
    let center_feed_rate: FoundFeedRate = step!(record, "Feed of the cutter's center",
        vc: center_feed_rate = vf * Dp / Dh, vf = feed_rate, Dp = path_diameter, Dh = hole_diameter: hole);
    let down_feed_rate = step!(record, "How fast it goes down", va: down_feed_rate = vc * sin(α),
        vc = center_feed_rate, α = ramp_angle);
    let cutting_time = step!(record, "Time for the path", t: cutting_time = L / vc,
        L = path_length, vc = center_feed_rate);
    record.note(
        "wall_runs_faster",
        "Inside a hole the cutter's edge moves along the wall faster than its center does: program the center with the \
         smaller feed.",
    );
    Ok(EntryResult {
        ramp_angle,
        path_length,
        down_feed_rate,
        cutting_time,
        ramp_length: None,
        passes: None,
        path_diameter: Some(path_diameter),
        pitch: Some(pitch),
        turns: Some(turns),
        center_feed_rate: Some(center_feed_rate),
    })
}

/// The pitch and the slope, one from the other.
fn pitch_and_slope(input: &EntryInput, path_diameter: FoundSize, record: &mut Record) -> (FoundSize, FoundAngle) {
    if let Some(pitch) = input.pitch {
        record.choose("Pitch", "as stated").with("p", "pitch", pitch).gives("pitch", pitch.found());
        let round = PI * path_diameter.si();
        let slope = FoundAngle::stated(text::tidy((pitch.si() / round).atan().to_degrees()), Unit::Degree);
        let step = record.step("Angle of the helix", "α = atan(p / (π × Dp))").with("p", "pitch", pitch);
        step.with("Dp", "path_diameter", path_diameter).gives("ramp_angle", slope);
        return (pitch.found(), slope);
    }
    let stated = input.ramp_angle.unwrap_or(RampAngle::stated(3.0, Unit::Degree)).quantity();
    let slope = FoundAngle::stated(stated.value, stated.unit);
    record.choose("Angle of the helix", "as stated").with("α", "ramp_angle", slope).gives("ramp_angle", slope);
    let pitch = step!(record, "Pitch", p: pitch = π * Dp * tan(α), Dp = path_diameter, α = ramp_angle: slope);
    (pitch, slope)
}

/// A hole much larger than the cutter keeps a core, which comes loose.
fn note_core(input: &EntryInput, cutter: &Size, hole: &Size, record: &mut Record) {
    let flat = input.corner_radius.map_or(0.0, |corner| 2.0 * corner.si());
    if hole.si() > 2.0 * cutter.si() - flat {
        record.note(
            "core_stays",
            "The hole is so large that a core stays in its middle. Keep it below twice the cutter's diameter less twice \
             its corner radius, or clear the middle.",
        );
    }
}
