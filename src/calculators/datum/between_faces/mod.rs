//! The middle and the width of a block or a slot from a touch on each of its two faces: the tip's
//! diameter falls out of the middle and is part of the width.

mod drawing;

use crate::arithmetic::touching::{Touched, across};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// The calculator.
pub struct BetweenFaces;

/// What the between faces calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct BetweenFacesInput {
    /// The reading while the tip touched the first face.
    pub first: Place,
    /// The reading on the same axis while it touched the second face.
    pub second: Place,
    /// Diameter of the tip; 0 if absent: the readings are those of the faces themselves.
    #[absent(
        "0",
        like = second,
        "The readings are taken to be those of the faces themselves; the middle is right with any tip, the width \
         only with its diameter."
    )]
    pub tip_diameter: Option<Extent>,
    /// Where the tip stood: outside, on a block, or inside, in a slot. Needed with a tip diameter.
    pub touched: Option<Touched>,
    /// The reading that the middle is to have.
    #[absent("0", like = second, "The middle is taken to be the datum.")]
    pub center_position: Option<Place>,
}

/// What the between faces calculator gives.
#[derive(Debug, Gives)]
pub struct BetweenFacesResult {
    /// The middle between the faces, on the readings as they stand.
    pub center: FoundPlace,
    /// The width of the block or the slot.
    pub width: FoundSize,
    /// What to make the readout show while the tip is still at the second face, so that the middle gets its reading.
    pub set_here: FoundPlace,
}

rules! { check(BetweenFacesInput) {
    never(|input| across(input.tip_diameter) > 0.0 && input.touched.is_none(), Code::Conflict,
        touched = "outside", tip_diameter = "leave out"):
        "With a tip diameter the width depends on where the tip stood: outside, on a block, or inside, in a slot.";
} }

/// Refuses readings that leave no width.
fn check_width(input: &BetweenFacesInput, width: f64) -> Result<(), Refusal> {
    if width >= TINY {
        return Ok(());
    }
    let unit = input.second.quantity().unit;
    let apart = (input.second.get() - input.first.get()).si();
    let tip = across(input.tip_diameter);
    let (way, usual) = if apart < 0.0 { (-1.0, Way::Down) } else { (1.0, Way::Up) };
    let farther = value(input.first.get().si() + way * (2.0 * tip).max(0.0254), unit, usual);
    let wrong = |field: &str, says: &str, try_this: &str| Wrong::new(field, Code::Conflict, says, try_this);
    if tip == 0.0 || input.touched == Some(Touched::Inside) {
        let says = "Both readings are the same: there is no width between them.";
        return Err(Refusal(vec![wrong("second", says, &farther)]));
    }
    let says = "The readings lie no farther apart than the tip's diameter, which leaves nothing for a block.";
    let smaller = value(apart.abs() / 2.0, unit, Way::Down);
    let ways = [("second", farther.as_str()), ("touched", "inside"), ("tip_diameter", &smaller)];
    Err(Refusal(ways.map(|(field, try_this)| wrong(field, says, try_this)).into()))
}

impl Calculator for BetweenFaces {
    const ID: &'static str = "datum/between-faces";
    const TITLE: &'static str = "Middle between two faces";
    const ABOUT: &'static str = "The middle and the width of a block or a slot from a touch on each face, and what to \
        set the readout to at the second face so that the middle is zero.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Sweep both faces with an indicator in the spindle: at the middle it reads the same on both.";
    const WORDS: &'static str = "centre, center, midpoint, halve, edge finder, width, slot, block, vise, two touches, \
        vice";
    const NEAR: &'static str = "keyway, keyseat";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch foot was touched on both sides with a 0.200 in tip; its middle is to be zero.":
            first = "-0.100 in", second = "3.104 in", tip_diameter = "0.200 in", touched = "outside";
        "A keyway in a pump coupling was touched on both walls with a 4 mm tip; its middle is to read 30 mm.":
            first = "41.35 mm", second = "33.27 mm", tip_diameter = "4 mm", touched = "inside",
            center_position = "30 mm";
    };
    type Input = BetweenFacesInput;
    type Output = BetweenFacesResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "two touches with one round tip from opposite sides");
        let (first, second) = (input.first, input.second);
        let tip = input.tip_diameter(record);
        let center: FoundPlace = step!(record, "Middle", m: center = (a + b) / 2.0, a = first, b = second);
        let width: FoundSize = match input.touched {
            Some(Touched::Outside) => step!(record, "Width: the tip stood outside",
                w: width = abs(b - a) - d, a = first, b = second, d = tip_diameter: tip),
            Some(Touched::Inside) => step!(record, "Width: the tip stood inside",
                w: width = abs(b - a) + d, a = first, b = second, d = tip_diameter: tip),
            None => step!(record, "Width", w: width = abs(b - a), a = first, b = second),
        };
        check_width(input, width.get().si())?;
        let wanted = input.center_position(record);
        let set_here: FoundPlace = step!(record, "Reading to enter at the second face",
            z: set_here = C + (b - a) / 2.0, C = center_position: wanted, a = first, b = second);
        record.note(
            "play",
            "The two faces are come up to from opposite sides. With dials in place of scales the play of the screw goes \
             into the width in full and into the middle by half.",
        );
        record.note("check_width", "Check the width with a caliper: it shows a wrong tip or a touch on a burr.");
        record.caution(cautions::TOUCHING);
        record.caution(cautions::TURNING_SPINDLE);
        Ok(BetweenFacesResult { center, width, set_here })
    }
}
