//! Where two edges meet, from touches on each with a round tip: the crossing of the tip's two paths,
//! carried by the tip's radius into the work.

mod drawing;
mod edge;
mod steps;

use crate::arithmetic::touching::{Axis, Touched, across};
use crate::calculators::prelude::*;

/// The calculator.
pub struct Corner;

/// What the corner calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct CornerInput {
    /// X and Y of the tip's center at two touches on one edge.
    #[label("Touches on the first edge", "first edge, touch")]
    pub first_edge: Points,
    /// X and Y of the tip's center at one or two touches on the other edge; with one, that edge is assumed square to the first.
    #[label("Touches on the second edge", "second edge, touch")]
    pub second_edge: Points,
    /// Diameter of the tip; 0 if absent, for points on the edges themselves.
    #[label("Tip diameter")]
    #[absent("0", like = first_edge, "The points are assumed to lie on the edges themselves.")]
    pub tip_diameter: Option<Extent>,
    /// Where the tip stood: outside, at a corner of a block, or inside, in a corner of a pocket; needed with a tip diameter. On which side of each edge the metal lies follows from the touches on the other edge.
    #[label("Touched from")]
    pub sides: Option<Touched>,
    /// The axis that the first edge should lie along, X or Y; the nearer one if absent.
    #[label("First edge should lie along")]
    pub along: Option<Axis>,
}

/// What the corner calculator gives.
#[derive(Debug, Gives)]
pub struct CornerResult {
    /// Where the corner is.
    #[label("Corner")]
    pub corner: CornerPoint,
    /// How far the first edge is turned from the axis, counterclockwise with X to the right and Y up, above -90 to 90 deg.
    #[label("First edge turned by")]
    pub angle: FoundAngle,
    /// Angle between the edges at the corner; needs two touches on the second edge.
    #[label("Angle between the edges")]
    pub corner_angle: Option<FoundAngle>,
}

/// A corner's place.
#[derive(Debug, Gives)]
pub struct CornerPoint {
    /// Corner on X.
    #[label("X")]
    pub x: FoundPlace,
    /// Corner on Y.
    #[label("Y")]
    pub y: FoundPlace,
}

rules! { check(CornerInput) {
    never(|input| input.first_edge.0.len() != 2, Code::ValueOutOfRange, first_edge = "1 in,-0.1 in;4 in,-0.1 in"):
        "Give two touches on the first edge.";
    never(|input| input.second_edge.0.len() > 2, Code::ValueOutOfRange, second_edge = "-0.1 in,1 in;-0.1 in,4 in"):
        "Give one or two touches on the second edge.";
    never(|input| across(input.tip_diameter) > 0.0 && input.sides.is_none(), Code::Conflict,
        sides = "outside", tip_diameter = "leave out"):
        "Say where the tip stood, outside at a corner of a block or inside in a corner of a pocket: with a tip \
         diameter the corner depends on it.";
} }

impl Calculator for Corner {
    const ID: &'static str = "datum/corner";
    const TITLE: &'static str = "Corner from edges";
    const ABOUT: &'static str = "Where a corner of the work is, even if it lies askew, from two touches on one \
        edge and one or two on the other, and how far the first edge is turned.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Touch both edges again at other places along them: the corner must come out the same.";
    const WORDS: &'static str = "edge finder, datum corner, intersection, skew, pocket corner, work zero, pick up, \
        squareness";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch plate lies a little askew: two touches with a 0.200 in tip on its long edge and one on its short edge.":
            first_edge = "1.0 in,-0.098 in;5.0 in,-0.082 in", second_edge = "-0.104 in,1.5 in",
            tip_diameter = "0.200 in", sides = "outside";
        "The corner of a pocket in a pump body whose walls may not be square, with a 6 mm tip; the first wall is to lie along Y.":
            first_edge = "53.2 mm,30 mm;53.5 mm,70 mm", second_edge = "60 mm,22.9 mm;110 mm,22.4 mm",
            tip_diameter = "6 mm", sides = "inside", along = "y_axis";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {tip_diameter} tip touches a block from {sides}: the lower edge at {first_edge}, the left edge at \
           {second_edge}. Where is the corner on X?" => "corner/x":
            { tip_diameter = "0.200 in" | "0.500 in", sides = "outside", first_edge = "1 in,-0.1 in;5 in,-0.1 in",
              second_edge = "-0.3 in,1.5 in" | "-0.352 in,1 in" | "0.4 in,2 in" }
            { tip_diameter = "4 mm" | "10 mm", sides = "outside", first_edge = "20 mm,-5 mm;80 mm,-5 mm",
              second_edge = "-7 mm,30 mm" | "-3.5 mm,25 mm" | "3.4 mm,30 mm" };
        2 "A {tip_diameter} tip stands {sides} a pocket. It touches the lower wall at {first_edge} and the left wall \
           at {second_edge}. Where is the corner on Y?" => "corner/y":
            { tip_diameter = "0.200 in" | "0.250 in", sides = "inside",
              first_edge = "1 in,0.6 in;3 in,0.6 in" | "1 in,0.845 in;3 in,0.845 in", second_edge = "0.5 in,1.5 in" }
            { tip_diameter = "4 mm" | "6 mm", sides = "inside",
              first_edge = "20 mm,12 mm;70 mm,12 mm" | "20 mm,23.5 mm;70 mm,23.5 mm", second_edge = "8 mm,40 mm" };
        2 "A winch plate lies a little askew. Its long edge is touched at {first_edge}. How far is that edge turned \
           from X, counterclockwise?" => "angle":
            { first_edge = "1 in,-0.1 in;5 in,-0.084 in" | "1 in,-0.1 in;6 in,-0.12 in" |
                  "0.5 in,-0.105 in;4.5 in,-0.075 in",
              second_edge = "-0.1 in,1.5 in" }
            { first_edge = "20 mm,-5 mm;120 mm,-4.2 mm" | "20 mm,-5 mm;100 mm,-5.6 mm", second_edge = "-5 mm,30 mm" };
        3 "The walls of a pocket are touched at two places each: {first_edge}, and {second_edge}. At what angle do \
           they meet?" => "corner_angle":
            { first_edge = "1 in,0.5 in;5 in,0.5 in" | "1 in,0.5 in;5 in,0.54 in",
              second_edge = "0.5 in,1 in;0.46 in,4 in" | "0.5 in,1 in;0.53 in,3 in" }
            { first_edge = "30 mm,10 mm;110 mm,10 mm" | "30 mm,10 mm;110 mm,10.6 mm",
              second_edge = "10 mm,30 mm;9.4 mm,80 mm" | "10 mm,30 mm;10.5 mm,90 mm" };
        3 "An askew plate is touched from {sides} with a {tip_diameter} tip: the long edge at {first_edge}, the short \
           edge, square to it, at {second_edge}. Where is the corner on X?" => "corner/x":
            { sides = "outside", tip_diameter = "0.200 in" | "0.500 in",
              first_edge = "1 in,-0.1 in;5 in,-0.02 in" | "1 in,-0.1 in;4 in,-0.16 in",
              second_edge = "-0.1 in,1.5 in" | "-0.15 in,2 in" }
            { sides = "outside", tip_diameter = "4 mm" | "10 mm",
              first_edge = "20 mm,-5 mm;100 mm,-3 mm" | "20 mm,-5 mm;120 mm,-8 mm",
              second_edge = "-5 mm,30 mm" | "-6 mm,50 mm" };
    };
    type Input = CornerInput;
    type Output = CornerResult;
    const LEADS: &'static [&'static str] = &["corner/x", "corner/y"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "crossing of two lines; a round tip's middle is its radius from the edge it touches");
        let result = steps::solve(input, record)?;
        record.note(
            "far_touches",
            "Keep the two touches on an edge far apart: their error grows on the way from touch to corner.",
        );
        record.note(
            "set_corner",
            "Move the spindle to the corner's readings and set zero there. Approach them from the side you will work \
             from.",
        );
        record.caution(cautions::TOUCHING);
        record.caution(cautions::TURNING_SPINDLE);
        Ok(result)
    }
}
