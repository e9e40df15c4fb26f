//! A helix round a hole.

use super::{EntryInput, EntryResult, refuse_others};
use crate::quantity::{
    FoundAngle, FoundExtent, FoundFeedRate, FoundSize, FoundWorkTime, SiValue, Size, Unit, angle, text,
};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::suggestion::{Way, value};
use crate::working::Record;
use std::f64::consts::PI;
use validator::ValidationError;

/// More turns than this are no helix.
const MOST_TURNS: f64 = 10_000.0;

/// The rules of a helix.
pub fn check(input: &EntryInput) -> Result<(), ValidationError> {
    refuse_others("helix", &[("slot_length", input.slot_length.is_some())])?;
    let mut missing = Vec::with_capacity(3);
    if input.diameter.is_none() {
        missing.push(("diameter", "12 mm"));
    }
    if input.hole_diameter.is_none() {
        missing.push(("hole_diameter", "20 mm"));
    }
    if input.pitch.is_none() && input.ramp_angle.is_none() {
        missing.push(("pitch", "1 mm"));
        missing.push(("ramp_angle", "3 deg"));
    }
    if !missing.is_empty() {
        let says = "A helix needs the cutter's diameter, the hole's, and pitch or ramp_angle.";
        return Err(rule_broken(Code::FieldMissing, says, &missing));
    }
    if input.pitch.is_some() && input.ramp_angle.is_some() {
        let ways = [("pitch", "leave out"), ("ramp_angle", "leave out")];
        return Err(rule_broken(
            Code::Conflict,
            "The pitch gives the slope, or the slope the pitch: give one of them.",
            &ways,
        ));
    }
    let (Some(cutter), Some(hole)) = (input.diameter, input.hole_diameter) else { return Ok(()) };
    let (d, h) = (cutter.quantity(), hole.quantity());
    if h.si() <= d.si() {
        let says = "The hole must be larger than the cutter.";
        let ways = [
            ("hole_diameter", value(d.si() * 1.5, h.unit, Way::Up)),
            ("diameter", value(h.si() / 1.5, d.unit, Way::Down)),
        ];
        return Err(rule_broken(Code::Conflict, says, &[(ways[0].0, &ways[0].1), (ways[1].0, &ways[1].1)]));
    }
    if let Some(corner) = input.corner_radius
        && 2.0 * corner.quantity().si() > d.si() * (1.0 + 1e-12)
    {
        let half = value(d.si() / 2.0, corner.quantity().unit, Way::Down);
        return Err(rule_broken(
            Code::Conflict,
            "A corner's radius is at most half the diameter.",
            &[("corner_radius", &half)],
        ));
    }
    Ok(())
}

/// The helix.
pub fn solve(input: &EntryInput, record: &mut Record) -> Result<EntryResult, Refusal> {
    let (Some(cutter), Some(hole)) = (input.diameter, input.hole_diameter) else {
        return Err(Refusal::no_answer("A helix needs cutter and hole.", &[("diameter", "12 mm".to_owned())]));
    };
    note_core(input, &cutter, &hole, record);
    let path_diameter = FoundSize::of(hole.get() - cutter.get());
    record
        .step("Circle of the cutter's middle", "Dp = Dh - D")
        .with("Dh", "hole_diameter", hole)
        .with("D", "diameter", cutter)
        .gives("path_diameter", path_diameter);
    let round = PI * path_diameter.get().si();
    let (pitch, slope) = pitch_and_slope(input, path_diameter, record);
    let deep = pitch.get().si();
    let sloping = (input.depth.get().si() / deep * (1.0 - 1e-12)).ceil();
    if sloping > MOST_TURNS {
        let says = "The helix would need more than ten thousand turns.";
        let field = if input.pitch.is_some() { "pitch" } else { "ramp_angle" };
        let better = if input.pitch.is_some() {
            value(input.depth.get().si() / 10.0, input.depth.quantity().unit, Way::Up)
        } else {
            "3 deg".to_owned()
        };
        return Err(Refusal::no_answer(says, &[(field, better)]));
    }
    let turns = sloping + 1.0;
    record
        .look_up("Turns", "as many as the depth has pitches, rounded up, and one flat turn")
        .with("T", "depth", input.depth)
        .with("p", "pitch", pitch)
        .gives("turns", turns);
    let screw = input.depth.get().si() / deep * (round * round + deep * deep).sqrt();
    let path_length = FoundExtent::of(SiValue::from_si(screw + round));
    record
        .step("Length of the way, with a flat turn", "L = T / p × √((π × Dp) ^ 2 + p ^ 2) + π × Dp")
        .with("T", "depth", input.depth)
        .with("p", "pitch", pitch)
        .with("Dp", "path_diameter", path_diameter)
        .gives("path_length", path_length);
    let center = FoundFeedRate::of(input.feed_rate.get() * (path_diameter.get() / hole.get()));
    record
        .step("Feed of the cutter's middle", "vc = vf × Dp / Dh")
        .with("vf", "feed_rate", input.feed_rate)
        .with("Dp", "path_diameter", path_diameter)
        .with("Dh", "hole_diameter", hole)
        .gives("center_feed_rate", center);
    let down = FoundFeedRate::of(center.get() * angle::sin(slope.degrees()));
    record
        .step("How fast it goes down", "va = vc × sin(α)")
        .with("vc", "center_feed_rate", center)
        .with("α", "ramp_angle", slope)
        .gives("down_feed_rate", down);
    let time = FoundWorkTime::of(path_length.get() / center.get());
    record
        .step("Time of the way", "t = L / vc")
        .with("L", "path_length", path_length)
        .with("vc", "center_feed_rate", center)
        .gives("cutting_time", time);
    record.note(
        "wall_runs_faster",
        "Inside a hole the cutter's rim runs over the wall faster than its middle: the feed to program for the middle is \
         the smaller one.",
    );
    Ok(EntryResult {
        ramp_angle: slope,
        path_length,
        down_feed_rate: down,
        cutting_time: time,
        ramp_length: None,
        passes: None,
        path_diameter: Some(path_diameter),
        pitch: Some(pitch),
        turns: Some(turns),
        center_feed_rate: Some(center),
    })
}

/// The pitch and the slope, one from the other.
fn pitch_and_slope(input: &EntryInput, path: FoundSize, record: &mut Record) -> (FoundSize, FoundAngle) {
    let round = PI * path.get().si();
    if let Some(pitch) = input.pitch {
        record.choose("Pitch", "as stated").with("p", "pitch", pitch).gives("pitch", pitch.found());
        let slope = FoundAngle::stated(text::tidy((pitch.get().si() / round).atan().to_degrees()), Unit::Degree);
        record
            .step("Slope of the way", "α = atan(p / (π × Dp))")
            .with("p", "pitch", pitch)
            .with("Dp", "path_diameter", path)
            .gives("ramp_angle", slope);
        return (pitch.found(), slope);
    }
    let stated = input.ramp_angle.map_or((3.0, Unit::Degree), |slope| (slope.quantity().value, slope.quantity().unit));
    let slope = FoundAngle::stated(stated.0, stated.1);
    record.choose("Slope of the way", "as stated").with("α", "ramp_angle", slope).gives("ramp_angle", slope);
    let pitch = FoundSize::of(SiValue::from_si(round * angle::tan(slope.degrees())));
    record
        .step("Pitch", "p = π × Dp × tan(α)")
        .with("Dp", "path_diameter", path)
        .with("α", "ramp_angle", slope)
        .gives("pitch", pitch);
    (pitch, slope)
}

/// A hole much larger than the cutter keeps a core, which comes loose.
fn note_core(input: &EntryInput, cutter: &Size, hole: &Size, record: &mut Record) {
    let flat = input.corner_radius.map_or(0.0, |corner| 2.0 * corner.get().si());
    if hole.get().si() > 2.0 * cutter.get().si() - flat {
        record.note(
            "core_stays",
            "The hole is so large that a core or a pip stays in its middle: keep it below twice the cutter's diameter less \
             twice its corner radius, or clear the middle.",
        );
    }
}
