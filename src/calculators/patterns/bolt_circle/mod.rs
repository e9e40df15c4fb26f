//! Where the holes of a bolt circle lie, and how to check them with a caliper: plane geometry of the
//! circle, checked against printed chord factors and an arbitrary-precision library.

mod check;
mod distances;
mod drawing;
mod steps;

use crate::arithmetic::directions::{AngleFrom, Sense};
use crate::calculators::prelude::*;

/// The calculator.
pub struct BoltCircle;

/// Most holes of one circle.
pub const MOST_HOLES: u32 = 1000;

/// What the bolt circle calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check::between_fields)]
pub struct BoltCircleInput {
    /// Diameter of the circle through the centres of the holes.
    pub diameter: Size,
    /// How many holes the pattern has, 1 to 1000.
    pub holes: Count<1, MOST_HOLES>,
    /// X of the circle's centre.
    #[absent("0", like = diameter, "The centre is taken to be at the datum's zero.")]
    pub center_x: Option<Place>,
    /// Y of the circle's centre.
    #[absent("0", like = diameter, "The centre is taken to be at the datum's zero.")]
    pub center_y: Option<Place>,
    /// Angle of hole 1, measured as angle_from and angle_sense say.
    #[absent("0 deg", "Hole 1 is taken to lie where angles begin.")]
    pub start_angle: Option<Angle>,
    /// Angle from hole 1 to the last hole, in the direction of hole_order, backwards if negative; 360 deg if absent: a full circle, evenly spaced. Anything less has a hole at each end.
    #[absent("360 deg", "The holes are taken to go all the way round.")]
    pub sweep: Option<Sweep>,
    /// Numbers of the holes to list, in the order they are to be visited; all if absent.
    pub only: Option<Vec<u32>>,
    /// A hole as picked up on the part, x and y: hole 1 is put in its direction from the centre, in place of start_angle.
    pub through: Option<Point>,
    /// Diameter of the holes, for the gap between them and the check over pins.
    pub hole_diameter: Option<Size>,
    /// Where angles are 0: x_axis or y_axis.
    #[absent("x_axis", "Angles are taken to begin along +X.")]
    pub angle_from: Option<AngleFrom>,
    /// Which way angles grow: counterclockwise or clockwise.
    #[absent("counterclockwise", "Angles are taken to grow counterclockwise, seen with X to the right and Y up.")]
    pub angle_sense: Option<Sense>,
    /// Which way the numbers of the holes run: counterclockwise or clockwise.
    #[absent("counterclockwise", "Holes are taken to be numbered counterclockwise.")]
    pub hole_order: Option<Sense>,
}

/// What the bolt circle calculator gives.
#[derive(Debug, Gives)]
pub struct BoltCircleResult {
    /// The holes, in the order of their numbers or of only.
    pub positions: Vec<BoltCircleHole>,
    /// Angle from one hole of the pattern to the next, negative for a negative sweep; absent for one hole.
    pub step_angle: Option<FoundAngle>,
    /// The distances between neighbours.
    #[group]
    pub distances: Distances,
}

/// What a caliper can check between neighbouring holes.
#[derive(Debug, Default, Gives)]
pub struct Distances {
    /// Straight distance between the centres of neighbouring holes of the pattern; absent for one hole.
    pub adjacent_chord: Option<FoundExtent>,
    /// Metal between the edges of neighbouring holes; needs hole_diameter.
    pub gap: Option<FoundExtent>,
    /// Caliper outside pins in neighbouring holes: chord plus hole diameter; needs hole_diameter.
    pub over_pins: Option<FoundExtent>,
    /// Caliper inside pins in neighbouring holes: chord less hole diameter; needs hole_diameter.
    pub between_pins: Option<FoundExtent>,
}

/// A hole of a bolt circle.
#[derive(Debug, Gives)]
pub struct BoltCircleHole {
    /// Its number in the full pattern.
    pub number: u32,
    /// Where it is on X.
    pub x: FoundPlace,
    /// Where it is on Y.
    pub y: FoundPlace,
    /// Move on X from the hole listed before it; the first from datum zero.
    pub dx: FoundMove,
    /// Move on Y from the hole listed before it; the first from datum zero.
    pub dy: FoundMove,
    /// Its angle, measured as start_angle is, from 0 to below 360 deg.
    pub angle: FoundAngle,
}

impl Calculator for BoltCircle {
    const ID: &'static str = "patterns/bolt-circle";
    const TITLE: &'static str = "Bolt circle";
    const ABOUT: &'static str = "Where the holes of a full or partial bolt circle lie, as places and as moves from \
        hole to hole, and what a caliper must read between neighbours.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str =
        "Put pins into two neighbouring holes: over them a caliper reads the chord and one pin's diameter.";
    const WORDS: &'static str = "PCD, pitch circle, hole circle, flange, hole pattern, coordinates, equally spaced, \
        over pins";
    const NEAR: &'static str = "dividing head, indexing, dividing plate";
    const EXAMPLES: &'static [Example] = examples! {
        "Six holes on a 4 in circle in a winch flange, hole 1 on the X axis, with 1/2 in holes.":
            diameter = "4 in", holes = "6", start_angle = "0 deg", hole_diameter = "0.5 in";
        "Five cover bolts over part of a pump housing, from 15° through 200°, about a centre off the datum.":
            diameter = "150 mm", holes = "5", start_angle = "15 deg", sweep = "200 deg", center_x = "10 mm",
            center_y = "20 mm";
        "A hub has six holes of which one was picked up at X 1.5 in, Y 2 in; holes 2, 4 and 6 are to be drilled.":
            diameter = "5 in", holes = "6", through = "1.5 in,2 in", only = "2,4,6";
        "Eight holes counted clockwise from twelve o'clock, as on the drawing of a mill's dial plate.":
            diameter = "120 mm", holes = "8", angle_from = "y_axis", angle_sense = "clockwise",
            hole_order = "clockwise";
    };
    type Input = BoltCircleInput;
    type Output = BoltCircleResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "points of a circle by their angle; chord by the sine of half the angle");
        check::overlap(input)?;
        let result = steps::solve(input, record)?;
        record.caution(cautions::DRILLING);
        record.note(
            "one_side",
            "Come to every place from the same side on each axis, so that the play of the screws does not enter.",
        );
        Ok(result)
    }
}
