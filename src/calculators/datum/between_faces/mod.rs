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
    /// Reading with the tip touching the first face.
    #[label("Reading at the first face")]
    pub first: Place,
    /// Reading on the same axis with the tip touching the second face.
    #[label("Reading at the second face")]
    pub second: Place,
    /// Diameter of the tip; 0 if absent, for readings of the faces themselves.
    #[label("Tip diameter")]
    #[absent(
        "0",
        like = second,
        "The readings are assumed to be those of the faces themselves. The middle is right with any tip; the width \
         needs the tip's diameter."
    )]
    pub tip_diameter: Option<Extent>,
    /// Where the tip stood: outside, on a block, or inside, in a slot; needed with a tip diameter.
    #[label("Touched from")]
    pub touched: Option<Touched>,
    /// Reading that the middle should have.
    #[label("Reading wanted at the middle")]
    #[absent("0", like = second, "The middle is assumed to be the datum.")]
    pub center_position: Option<Place>,
}

/// What the between faces calculator gives.
#[derive(Debug, Gives)]
pub struct BetweenFacesResult {
    /// Where the middle between the faces is, on the readings as they stand.
    #[label("Reading at the middle")]
    pub center: FoundPlace,
    /// Width of the block or the slot.
    #[label("Width")]
    pub width: FoundSize,
    /// What to set the readout to with the tip still at the second face, so that the middle gets its reading.
    #[label("Set the readout to")]
    pub set_here: FoundPlace,
}

rules! { check(BetweenFacesInput) {
    never(|input| across(input.tip_diameter) > 0.0 && input.touched.is_none(), Code::Conflict,
        touched = "outside", tip_diameter = "leave out"):
        "Say where the tip stood, outside on a block or inside in a slot: with a tip diameter the width depends on it.";
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
        let says = "Both readings are the same, so there is no width between them. Give the reading at the other face.";
        return Err(Refusal(vec![wrong("second", says, &farther)]));
    }
    let says = "The readings are no farther apart than the tip's diameter, which leaves no width for a block.";
    let smaller = value(apart.abs() / 2.0, unit, Way::Down);
    let ways = [("second", farther.as_str()), ("touched", "inside"), ("tip_diameter", &smaller)];
    Err(Refusal(ways.map(|(field, try_this)| wrong(field, says, try_this)).into()))
}

impl Calculator for BetweenFaces {
    const ID: &'static str = "datum/between-faces";
    const TITLE: &'static str = "Middle between two faces";
    const ABOUT: &'static str = "The middle and the width of a block or a slot from a touch on each face, and what to \
        set the readout to at the second face so that the middle reads what you want.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Sweep both faces with an indicator in the spindle: at the middle it reads the same on both.";
    const WORDS: &'static str = "centre, center, midpoint, halve, edge finder, width, slot, block, vise, two touches, \
        vice";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch foot was touched on both sides with a 0.200 in tip; its middle is to be zero.":
            first = "-0.100 in", second = "3.104 in", tip_diameter = "0.200 in", touched = "outside";
        "A keyway in a pump coupling was touched on both walls with a 4 mm tip; its middle is to read 30 mm.":
            first = "41.35 mm", second = "33.27 mm", tip_diameter = "4 mm", touched = "inside",
            center_position = "30 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "An edge finder reads {first} at the left side of a block and {second} at the right. What does it read at \
           the middle?" => "center":
            { first = "-0.100 in" | "0.500 in" | "1.000 in", second = "3.104 in" | "4.250 in" | "4.876 in" }
            { first = "-2 mm" | "5 mm" | "20 mm", second = "63.4 mm" | "82 mm" | "98.3 mm" };
        1 "A {tip_diameter} tip touches both sides of a winch foot from {touched}: the readings are {first} and \
           {second}. How wide is the foot?" => "width":
            { tip_diameter = "0.200 in" | "0.500 in", touched = "outside", first = "0.250 in" | "1.000 in",
              second = "3.104 in" | "4.700 in" }
            { tip_diameter = "4 mm" | "10 mm", touched = "outside", first = "10 mm" | "15 mm",
              second = "64 mm" | "95.5 mm" };
        2 "A {tip_diameter} tip touches both walls of a slot from {touched}, at {first} and {second}. How wide is the \
           slot?" => "width":
            { tip_diameter = "0.200 in" | "0.250 in", touched = "inside", first = "1.000 in" | "1.125 in",
              second = "1.550 in" | "1.800 in" }
            { tip_diameter = "4 mm" | "6 mm", touched = "inside", first = "30 mm" | "33.2 mm",
              second = "41.3 mm" | "45 mm" };
        2 "You touched the left side of a pump foot at {first}, and now the tip touches the right side at {second}. \
           What do you set the readout to so that the middle is zero?" => "set_here":
            { first = "-0.100 in" | "0.400 in" | "1.000 in", second = "3.104 in" | "4.250 in" }
            { first = "0 mm" | "5 mm" | "12 mm", second = "63 mm" | "88.4 mm" };
        3 "The middle of a keyway is to read {center_position}. Its walls were touched at {first} and then at \
           {second}, where the tip still is. What do you set the readout to?" => "set_here":
            { center_position = "1.500 in" | "2.000 in", first = "1.260 in" | "1.300 in",
              second = "0.940 in" | "0.880 in" }
            { center_position = "30 mm" | "45 mm", first = "41.4 mm" | "43 mm", second = "33.2 mm" | "32.6 mm" };
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
            Some(Touched::Outside) => step!(record, "Width of the block: less the tip, which stood outside",
                w: width = abs(b - a) - d, a = first, b = second, d = tip_diameter: tip),
            Some(Touched::Inside) => step!(record, "Width of the slot: plus the tip, which stood inside",
                w: width = abs(b - a) + d, a = first, b = second, d = tip_diameter: tip),
            None => step!(record, "Width", w: width = abs(b - a), a = first, b = second),
        };
        check_width(input, width.get().si())?;
        let wanted = input.center_position(record);
        let set_here: FoundPlace = step!(record, "Reading to set at the second face",
            z: set_here = C + (b - a) / 2.0, C = center_position: wanted, a = first, b = second);
        record.note(
            "play",
            "You approach the two faces from opposite sides. With dials in place of scales, the width is off by the \
             whole backlash and the middle by half of it.",
        );
        record.note("check_width", "Check the width with calipers: a wrong tip diameter or a burr shows there.");
        record.caution(cautions::TOUCHING);
        record.caution(cautions::TURNING_SPINDLE);
        Ok(BetweenFacesResult { center, width, set_here })
    }
}
