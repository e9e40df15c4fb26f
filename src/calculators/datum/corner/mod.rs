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
    /// Two places of the middle of the tip as it touched one edge, each x and y.
    pub first_edge: Points,
    /// One or two places of it as it touched the other edge; with one, that edge is taken square to the first.
    pub second_edge: Points,
    /// Diameter of the tip; 0 if absent: the places lie on the edges themselves.
    #[absent("0", like = first_edge, "The places are taken to lie on the edges themselves.")]
    pub tip_diameter: Option<Extent>,
    /// Where the tip stood: outside, on a corner of a block, or inside, in a corner of a pocket. Needed with a tip diameter; on which side of each edge the metal lies then follows from where the other edge was touched.
    pub sides: Option<Touched>,
    /// The axis that the first edge is to lie along: x_axis or y_axis; the one it lies nearer to if absent.
    pub along: Option<Axis>,
}

/// What the corner calculator gives.
#[derive(Debug, Gives)]
pub struct CornerResult {
    /// Where the corner is.
    pub corner: CornerPoint,
    /// How far the first edge is turned from the axis, counterclockwise with X to the right and Y up, above -90 to 90 deg.
    pub angle: FoundAngle,
    /// The angle between the edges at the corner; needs two touches on the second edge.
    pub corner_angle: Option<FoundAngle>,
}

/// A corner's place.
#[derive(Debug, Gives)]
pub struct CornerPoint {
    /// Where it is on X.
    pub x: FoundPlace,
    /// Where it is on Y.
    pub y: FoundPlace,
}

rules! { check(CornerInput) {
    never(|input| input.first_edge.0.len() != 2, Code::ValueOutOfRange, first_edge = "1 in,-0.1 in;4 in,-0.1 in"):
        "The first edge is touched at two places.";
    never(|input| input.second_edge.0.len() > 2, Code::ValueOutOfRange, second_edge = "-0.1 in,1 in;-0.1 in,4 in"):
        "The second edge is touched at one place or two.";
    never(|input| across(input.tip_diameter) > 0.0 && input.sides.is_none(), Code::Conflict,
        sides = "outside", tip_diameter = "leave out"):
        "With a tip diameter it matters where the tip stood: outside, on a corner of a block, or inside, in a corner \
         of a pocket.";
} }

impl Calculator for Corner {
    const ID: &'static str = "datum/corner";
    const TITLE: &'static str = "Corner from edges";
    const ABOUT: &'static str = "Where a corner of the work is, however it lies on the table, from two touches on one \
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
    type Input = CornerInput;
    type Output = CornerResult;
    const LEADS: &'static [&'static str] = &["corner/x", "corner/y"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "crossing of two lines; a round tip's middle is its radius from the edge it touches");
        let result = steps::solve(input, record)?;
        record.note(
            "far_touches",
            "Touch far from the corner and the two touches of an edge far apart: what they err by grows on the way \
             from touch to corner.",
        );
        record.note(
            "set_corner",
            "Move the spindle to the corner's readings and set zero there, or set its readings \
             as the datum; come to it from the side from which you will work.",
        );
        record.caution(cautions::TOUCHING);
        record.caution(cautions::TURNING_SPINDLE);
        Ok(result)
    }
}
