//! The gauge blocks under the high roll, and the angle that they set, since blocks come in steps.

use super::{SineBarInput, SineBarResult};
use crate::calculators::prelude::*;
use crate::gauge_blocks::{BlockStack, counts, meters, note_blocks, tell_blocks};

/// The blocks of the stack, and the angle that they set.
#[derive(Debug, Gives)]
pub struct BarBlocks {
    /// The stack under the high roll.
    #[group]
    pub stack: BlockStack,
    /// Angle that the blocks set.
    #[label("Angle that the blocks set")]
    pub set_angle: FoundCornerAngle,
    /// The angle that the blocks set less the one wanted, in seconds of arc.
    #[label("Off by, seconds of arc")]
    pub error_seconds: f64,
}

/// The rules of the blocks at hand, to which wear blocks, missing blocks and a number of blocks belong.
pub fn check(input: &SineBarInput) -> Result<(), ValidationError> {
    input.at_hand.check()?;
    let strange = input.at_hand.without_blocks();
    if strange.is_empty() {
        return Ok(());
    }
    let ways: Vec<_> = [("set", "inch_81")].into_iter().chain(strange).collect();
    Err(rule_broken(Code::Conflict, "This is of gauge blocks: name the set or your own blocks too.", &ways))
}

/// From this error on, in seconds of arc, the blocks do not set the angle.
const TOO_FAR: f64 = 60.0;

/// The stack nearest to the one under the high roll.
pub fn find(
    input: &SineBarInput,
    result: &SineBarResult,
    low_stack: Extent,
    record: &mut Record,
) -> Result<BarBlocks, Refusal> {
    let rack = input.at_hand.rack(None, record)?;
    let wanted = counts(result.high_stack.si());
    let (below, above) = rack.nearest(wanted)?;
    let nearest = below.into_iter().chain(above).min_by_key(|height| (height - wanted).abs());
    let taken = match nearest {
        Some(height) => rack.fewest(height)?.map(|taken| (height, taken)),
        None => None,
    };
    let bar_length = input.bar_length;
    let seconds = |height: i64| {
        let sine = (meters(height) - low_stack.si()) / bar_length.si();
        (sine.asin().to_degrees() - result.bar_angle.degrees()) * 3600.0
    };
    let Some((height, taken)) = taken.filter(|(height, _)| seconds(*height).abs() < TOO_FAR) else {
        return Err(refuse(input, nearest));
    };
    let reached = FoundGaugeSize::of_si(meters(height));
    let rule = "heights that the blocks make";
    tell!(record.look_up("Nearest height that the blocks make", rule), h = high_stack: result.high_stack
        => nearest_height: reached);
    let stack = tell_blocks((&input.at_hand, &rack), "nearest_height", (height, &taken), record);
    let set_angle: FoundCornerAngle = step!(record, "Angle that the blocks set",
        a: set_angle = asin((s - u) / L), s = "stack_height": stack.stack_height, u = low_stack, L = bar_length);
    let bar_angle = result.bar_angle;
    let angle_error: FoundAngle = step!(record, "Angle that it is off by",
        e: angle_error = a - θ, a = set_angle, θ = bar_angle);
    let error_seconds = angle_error.degrees() * 3600.0;
    tell!(record.step("The same in seconds of arc", "q = e × 180 × 60 × 60 / π"), e = angle_error => error_seconds);
    note_blocks(record);
    Ok(BarBlocks { stack, set_angle, error_seconds })
}

/// No stack sets the angle: blocks under both rolls where it is too low, more or other blocks where it is too high.
fn refuse(input: &SineBarInput, nearest: Option<i64>) -> Refusal {
    let unit = input.bar_length.quantity().unit;
    let low = crate::suggestion::value(0.2 * input.bar_length.si(), unit, crate::suggestion::Way::Near);
    let made = nearest.map(|height| format!(" The nearest they make is {}.", crate::gauge_blocks::said(height, unit)));
    let says = format!(
        "These blocks make no stack that sets this angle within a minute.{} Put blocks under both rolls, or name more blocks.",
        made.unwrap_or_default()
    );
    Refusal::no_answer(&says, &[("low_stack", low)])
}
