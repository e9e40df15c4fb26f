//! Where the holes of a bolt circle lie, and how to check them with a caliper: plane geometry of the
//! circle, checked against printed chord factors and an arbitrary-precision library.

mod check;
mod drawing;
mod steps;

use crate::calculators::prelude::*;
use crate::hole_pattern::{
    ChosenHoles, CircleWords, Distances, MOST_HOLES, PatternHole, RotaryTable, TableReach, TableSetting, TableTravel,
};

/// The calculator.
pub struct BoltCircle;

/// What the bolt circle calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check::between_fields)]
pub struct BoltCircleInput {
    /// Diameter of the circle through the centers of the holes.
    #[label("Circle diameter")]
    pub diameter: Size,
    /// How many holes the pattern has, 1 to 1000.
    #[label("How many holes")]
    pub holes: Count<1, MOST_HOLES>,
    /// X of the circle's center.
    #[absent("0", like = diameter, "The center is assumed at zero.")]
    #[label("Center, X")]
    pub center_x: Option<Place>,
    /// Y of the circle's center.
    #[absent("0", like = diameter, "The center is assumed at zero.")]
    #[label("Center, Y")]
    pub center_y: Option<Place>,
    /// Angle of hole 1.
    #[absent("0 deg", "Hole 1 is assumed to lie where angles start.")]
    #[label("Angle of hole 1")]
    pub start_angle: Option<Angle>,
    /// Angle from hole 1 to the last hole, the way the holes run, backwards if negative; 360 deg if absent: a full circle, evenly spaced. Anything less has a hole at each end.
    #[absent("360 deg", "The holes are assumed to go all the way around.")]
    #[label("Angle first to last hole")]
    pub sweep: Option<Sweep>,
    /// Which holes are drilled.
    #[group]
    pub chosen: ChosenHoles,
    /// A hole as picked up on the part, X and Y: hole 1 lies in its direction from the center, in place of an angle.
    #[label("Hole as picked up")]
    pub through: Option<Point>,
    /// Diameter of the holes, for the gap between them and the check over pins.
    pub hole_diameter: Option<Size>,
    /// Which way angles are measured and holes counted.
    #[group]
    pub words: CircleWords,
    /// A rotary table, for its settings.
    #[group]
    pub table: RotaryTable,
    /// The travel of the machine's table.
    #[group]
    pub travel: TableTravel,
}

/// What the bolt circle calculator gives.
#[derive(Debug, Gives)]
pub struct BoltCircleResult {
    /// The holes, in the order of their numbers, or as listed.
    #[label("Holes", "hole")]
    pub positions: Vec<PatternHole>,
    /// Angle from one hole of the pattern to the next, negative for a negative sweep; absent for one hole.
    #[label("Angle hole to hole")]
    pub step_angle: Option<FoundAngle>,
    /// The distances between neighbors.
    #[group]
    pub distances: Distances,
    /// Settings of a rotary table under hole 1 at zero, one for each hole listed; needs the turns of its handwheel for one turn.
    #[label("Settings of the rotary table", "setting")]
    pub table: Option<Vec<TableSetting>>,
    /// Whether the machine's table reaches the holes; needs its travel.
    #[label("Table")]
    pub reach: Option<TableReach>,
}

impl Calculator for BoltCircle {
    const ID: &'static str = "patterns/bolt-circle";
    const TITLE: &'static str = "Bolt circle";
    const ABOUT: &'static str = "Where the holes of a full or partial bolt circle lie, as places and as moves from \
        hole to hole, and what a caliper must read between neighbors.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str =
        "Put pins into two neighboring holes: over them a caliper reads the chord and one pin's diameter.";
    const WORDS: &'static str = "PCD, pitch circle, hole circle, flange, hole pattern, coordinates, equally spaced, \
        over pins, rotary table";
    const EXAMPLES: &'static [Example] = examples! {
        "Six holes on a 4 in circle in a winch flange, hole 1 on the X axis, with 1/2 in holes.":
            diameter = "4 in", holes = "6", start_angle = "0 deg", hole_diameter = "0.5 in";
        "Five cover bolts over part of a pump housing, from 15° through 200°, about a center off the datum.":
            diameter = "150 mm", holes = "5", start_angle = "15 deg", sweep = "200 deg", center_x = "10 mm",
            center_y = "20 mm";
        "A hub has six holes of which one was picked up at X 1.5 in, Y 2 in; holes 2, 4 and 6 are to be drilled.":
            diameter = "5 in", holes = "6", through = "1.5 in,2 in", only = "2,4,6";
        "Eight holes counted clockwise from twelve o'clock, as on the drawing of a mill's dial plate.":
            diameter = "120 mm", holes = "8", angle_from = "y_axis", angle_sense = "clockwise",
            hole_order = "clockwise";
        "Seven holes in a clutch plate, drilled on a rotary table of 90 turns with 120 divisions and a vernier of 12.":
            diameter = "90 mm", holes = "7", skip = "4", worm_ratio = "90", dial_divisions = "120", vernier = "12";
        "Eight holes of a 250 mm flange on a mill that travels 600 mm by 240 mm, zero with 280 mm left and 100 mm in front.":
            diameter = "220 mm", holes = "8", travel_x = "600 mm", travel_y = "240 mm", travel_left = "280 mm",
            travel_front = "100 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A winch flange has {holes} holes evenly spaced on a {diameter} circle. What angle lies from hole to hole?"
            => "step_angle": { diameter = "4 in" | "120 mm", holes = "5" | "6" | "8" | "9" | "10" | "12" };
        1 "{holes} holes lie on a {diameter} circle, evenly spaced. What does a caliper read center to center of neighbors?"
            => "adjacent_chord":
            { diameter = "3 in" | "4 in" | "4-1/2 in" | "6 in", holes = "3" | "5" | "6" | "8" }
            { diameter = "80 mm" | "100 mm" | "120 mm" | "150 mm", holes = "3" | "5" | "6" | "8" };
        2 "{holes} holes on a {diameter} circle about zero, hole 1 on +X, counterclockwise. Where is hole 2 on X?"
            => "positions/1/x":
            { diameter = "2 in" | "4 in" | "5 in" | "6 in", holes = "5" | "6" | "8" | "10" }
            { diameter = "80 mm" | "100 mm" | "150 mm", holes = "5" | "6" | "8" | "10" };
        2 "{holes} holes on a {diameter} circle about zero, hole 1 at {start_angle} from +X, counterclockwise. Where is            hole 1 on Y?" => "positions/0/y":
            { diameter = "4 in" | "5 in" | "6 in", holes = "4" | "6", start_angle = "15 deg" | "22.5 deg" | "30 deg" }
            { diameter = "90 mm" | "120 mm", holes = "4" | "6", start_angle = "15 deg" | "22.5 deg" | "30 deg" };
        2 "A pump cover has {holes} holes of {hole_diameter} on a {diameter} circle. How much metal is left between            neighbors?" => "gap":
            { diameter = "4 in" | "5 in", holes = "6" | "8", hole_diameter = "3/8 in" | "1/2 in" }
            { diameter = "100 mm" | "125 mm", holes = "6" | "8", hole_diameter = "9 mm" | "11 mm" };
        3 "You check a flange with two {hole_diameter} pins in neighboring holes: {holes} holes on a {diameter} circle.            What must a caliper read over the pins?" => "over_pins":
            { diameter = "4 in" | "5 in" | "6 in", holes = "5" | "6" | "8", hole_diameter = "3/8 in" | "1/2 in" }
            { diameter = "100 mm" | "140 mm", holes = "5" | "6" | "8", hole_diameter = "8 mm" | "10 mm" };
        3 "{holes} bolts hold part of a pump cover, from hole 1 on +X through {sweep} counterclockwise, a hole at each            end, on a {diameter} circle. What angle lies from hole to hole?" => "step_angle":
            { diameter = "150 mm" | "6 in", holes = "4" | "5" | "6", sweep = "90 deg" | "120 deg" | "200 deg" };
        3 "{holes} holes on a {diameter} circle, hole 1 on +X, counterclockwise. You stand at hole 1. How far do you            move on Y for hole 2?" => "positions/1/dy":
            { diameter = "3 in" | "4 in" | "5 in", holes = "5" | "6" | "8" }
            { diameter = "80 mm" | "100 mm", holes = "5" | "6" | "8" };
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
            "Come up to every place from the same side on each axis, so that backlash does not matter.",
        );
        Ok(result)
    }
}
