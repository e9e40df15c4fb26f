//! What is needed for a plug or a hole, and readings that no taper gives.

use super::{RollsAndBallsInput, Tapered};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// The rules between fields.
pub fn check(input: &RollsAndBallsInput) -> Result<(), ValidationError> {
    let plug = stated!(input: roll_diameter, over_low, over_high, blocks);
    let hole = stated!(input: small_ball, large_ball, small_ball_depth, large_ball_depth);
    let strange = to_leave_out(if input.taper == Tapered::Plug { &hole } else { &plug });
    if !strange.is_empty() {
        let says = "Rolls, readings over them and gauge blocks belong to a plug, balls and their depths to a hole.";
        return Err(rule_broken(Code::Conflict, says, &strange));
    }
    let larger = |size: Size, by: f64, way: Way| value(by * size.si(), size.quantity().unit, way);
    if let (Some(low), Some(high)) = (input.over_low, input.over_high)
        && high.si() <= low.si()
    {
        let says = "The reading grows as the rolls are raised. Stand the plug on its small end.";
        return Err(rule_broken(Code::Conflict, says, &[("over_high", &larger(low, 1.1, Way::Up))]));
    }
    if let (Some(small), Some(large)) = (input.small_ball, input.large_ball)
        && large.si() <= small.si()
    {
        let says = "The smaller ball must be smaller than the larger one.";
        return Err(rule_broken(Code::Conflict, says, &[("small_ball", &larger(large, 0.75, Way::Down))]));
    }
    Ok(())
}

/// Refuses each field that the measurement lacks.
pub fn needed(input: &RollsAndBallsInput) -> Result<(), Refusal> {
    let (whole, fields) = match input.taper {
        Tapered::Plug => (
            "A plug is measured over two rolls, low and high",
            [
                ("roll_diameter", "the diameter of the rolls", "0.5 in", input.roll_diameter.is_some()),
                ("over_low", "the reading over the rolls low on the plate", "2 in", input.over_low.is_some()),
                ("over_high", "the reading over the rolls on gauge blocks", "2.25 in", input.over_high.is_some()),
                ("blocks", "the height of the gauge blocks", "3 in", input.blocks.is_some()),
            ],
        ),
        Tapered::Hole => (
            "A hole is measured with two balls",
            [
                ("small_ball", "the diameter of the smaller ball", "0.75 in", input.small_ball.is_some()),
                ("large_ball", "the diameter of the larger ball", "1 in", input.large_ball.is_some()),
                (
                    "small_ball_depth",
                    "the depth of the top of the smaller ball",
                    "2 in",
                    input.small_ball_depth.is_some(),
                ),
                (
                    "large_ball_depth",
                    "the depth of the top of the larger ball",
                    "0.25 in",
                    input.large_ball_depth.is_some(),
                ),
            ],
        ),
    };
    let missing = fields.into_iter().filter(|field| !field.3);
    let wrong = |(field, what, good, _)| Wrong::new(field, Code::FieldMissing, format!("{whole}: give {what}."), good);
    let wrongs: Vec<Wrong> = missing.map(wrong).collect();
    if wrongs.is_empty() { Ok(()) } else { Err(Refusal(wrongs)) }
}

/// Refuses a plug that would end in nothing at the plate.
pub fn leaves_end(end: f64, (roll, low): (Size, Size)) -> Result<(), Refusal> {
    if end > TINY {
        return Ok(());
    }
    let says = "Nothing is left of the plug between the rolls at the plate. Check the readings and the rolls.";
    let smaller = value(0.2 * low.si(), roll.quantity().unit, Way::Down);
    Err(Refusal(vec![Wrong::new("roll_diameter", Code::Conflict, says, smaller)]))
}

/// Refuses balls whose centers no taper of less than 60 degrees to the axis holds, or that lie on the edge of the hole.
pub fn balls_fit(
    input: &RollsAndBallsInput,
    (apart, center): (f64, f64),
    (small, large): (Size, Size),
) -> Result<(), Refusal> {
    let radii = (large.si() - small.si()) / 2.0;
    let thou = Unit::Inch.to_si(0.001);
    let Some(deep) = input.small_ball_depth else { return Ok(()) };
    if apart <= radii * 1.2 + thou {
        let says = "The balls lie too near to each other for a taper: the smaller one must go clearly deeper.";
        let deeper = value(deep.si() + 8.0 * radii - apart, deep.quantity().unit, Way::Up);
        return Err(Refusal(vec![Wrong::new("small_ball_depth", Code::Conflict, says, deeper)]));
    }
    if center + large.si() / 2.0 * radii / apart < 0.0 {
        let says = "The larger ball would lie on the edge of the hole, not on its flank. Take a smaller one.";
        let (field, depth) = ("large_ball_depth", value(0.1 * large.si(), large.quantity().unit, Way::Down));
        return Err(Refusal(vec![Wrong::new(field, Code::Conflict, says, depth)]));
    }
    Ok(())
}
