//! Lines that touch circles: from a point, at an angle, and common to two circles as a belt runs over two pulleys,
//! with the places where they touch.

mod drawing;
mod steps;

use crate::arithmetic::plane::{ReadoutPoint, StatedCircle, TwoCircles, check_circles};
use crate::arithmetic::tangency::{Apart, apart};
use crate::arithmetic::touching::metres;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// The calculator.
pub struct Tangents;

/// What the tangent lines calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct TangentsInput {
    /// The circles.
    #[group]
    pub circles: TwoCircles,
    /// X and Y of a point that the lines start from, in place of the second circle.
    #[label("Point")]
    pub from_point: Option<Point>,
    /// Direction of the lines, counterclockwise from +X with X to the right and Y up, in place of the second circle.
    #[label("Angle of the lines")]
    pub angle: Option<Angle>,
}

/// What the tangent lines calculator gives.
#[derive(Debug, Gives)]
pub struct TangentsResult {
    /// Every line that touches: from a point and at an angle two, of two circles the outer ones and then the crossing ones.
    #[label("Lines", "line")]
    pub tangents: Vec<TangentLine>,
    /// From the center of the first circle to the second center or to the point.
    pub center_distance: Option<FoundSize>,
    /// Length of an open belt around both circles, along its line; needs two circles.
    pub open_belt: Option<FoundSize>,
    /// Length of a crossed belt around both circles; needs two circles clear of each other.
    pub crossed_belt: Option<FoundSize>,
}

/// A line that touches.
#[derive(Clone, Copy, Debug, Gives)]
pub struct TangentLine {
    /// Where it lies, looking from the first circle to the second, from the point to the circle, or along the angle.
    #[label("Lies")]
    pub lies: &'static str,
    /// Where it touches the first circle.
    #[label("Touches the first circle at")]
    pub first: ReadoutPoint,
    /// Where it touches the second circle; absent where there is no second circle.
    #[label("Touches the second circle at")]
    pub second: Option<ReadoutPoint>,
    /// From tangent point to tangent point, or from the point to the tangent point; absent where only its angle is known.
    #[label("Length")]
    pub length: Option<FoundExtent>,
    /// Its angle, counterclockwise from +X, above -90 to 90 deg.
    #[label("Angle from X")]
    pub angle: FoundAngle,
}

rules! { check_parts(TangentsInput) {
    never(|input| input.circles.first_center.is_none() && input.circles.first_diameter.is_none(), Code::FieldMissing,
        first_center = "0 in,0 in", first_diameter = "2 in"): "Give the circle: its center and its diameter.";
    not_both(from_point, angle): "Give a point or an angle, not both.";
    never(|input| input.circles.second_center.is_some() && input.from_point.is_some(), Code::Conflict,
        from_point = "leave out", second_center = "leave out", second_diameter = "leave out"):
        "Give a point or a second circle, not both.";
    never(|input| input.circles.second_center.is_some() && input.angle.is_some(), Code::Conflict,
        angle = "leave out", second_center = "leave out", second_diameter = "leave out"):
        "Give an angle or a second circle, not both.";
} }

fn check(input: &TangentsInput) -> Result<(), ValidationError> {
    check_parts(input)?;
    check_circles(&input.circles)?;
    if input.circles.second_center.is_none() && input.from_point.is_none() && input.angle.is_none() {
        let says = "Say what the lines touch beside the first circle: give a second circle, a point, or their angle.";
        let ways = [("from_point", "5 in,0 in"), ("angle", "30 deg"), ("second_center", "5 in,0 in")];
        return Err(rule_broken(Code::FieldMissing, says, &ways));
    }
    Ok(())
}

impl Calculator for Tangents {
    const ID: &'static str = "geometry/tangents";
    const TITLE: &'static str = "Lines that touch circles";
    const ABOUT: &'static str = "Tangent lines from a point to a circle, at an angle to a circle, or to two circles, \
        outer and crossing: where each touches, how long it is and its angle; and the length of a belt.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str =
        "Lay a straightedge along the line: it touches each circle in one place and shows light on both sides of it.";
    const WORDS: &'static str = "tangent line, tangent point, tangent to two circles, common tangent, belt length, \
        open belt, crossed belt, pulleys, line from a point to a circle, blend a flat into a round";
    const EXAMPLES: &'static [Example] = examples! {
        "The sides of a winch lever run from its 3 in hub to its 1 in eye, 8 in away.":
            first_center = "0 in,0 in", first_diameter = "3 in", second_center = "8 in,0 in", second_diameter = "1 in";
        "A scribed line on a pump plate starts at a dowel hole and just touches a 40 mm boss.":
            first_center = "60 mm,35 mm", first_diameter = "40 mm", from_point = "0 mm,0 mm";
        "A flat at 30° is to touch the 2 in boss of a bracket.":
            first_center = "4 in,3 in", first_diameter = "2 in", angle = "30 deg";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A circle of {first_diameter} stands at {first_center}. A line from {from_point} touches it. How far is it \
           from the point to where the line touches?" => "tangents/0/length":
            { first_center = "3 in,0 in" | "5 in,0 in", first_diameter = "2 in" | "3 in", from_point = "0 in,0 in" }
            { first_center = "60 mm,0 mm" | "100 mm,0 mm", first_diameter = "40 mm" | "50 mm",
              from_point = "0 mm,0 mm" };
        2 "Pulleys of {first_diameter} and {second_diameter} stand at {first_center} and {second_center}. How long is \
           the open belt around them?" => "open_belt":
            { first_center = "0 in,0 in", first_diameter = "4 in" | "6 in", second_center = "12 in,0 in" | "15 in,0 in",
              second_diameter = "2 in" | "3 in" }
            { first_center = "0 mm,0 mm", first_diameter = "100 mm" | "150 mm",
              second_center = "300 mm,0 mm" | "400 mm,0 mm", second_diameter = "50 mm" | "80 mm" };
        2 "A lever has a hub of {first_diameter} at {first_center} and an eye of {second_diameter} at {second_center}. \
           At what angle from X does its left side lie?" => "tangents/0/angle":
            { first_center = "0 in,0 in", first_diameter = "3 in" | "2 in", second_center = "8 in,0 in" | "6 in,0 in",
              second_diameter = "1 in" | "1-1/4 in" }
            { first_center = "0 mm,0 mm", first_diameter = "80 mm" | "60 mm",
              second_center = "200 mm,0 mm" | "160 mm,0 mm", second_diameter = "25 mm" | "30 mm" };
        3 "A flat at {angle} from X touches a boss of {first_diameter} at {first_center}. Where does it touch on X, on \
           the left side along the angle?" => "tangents/0/first/x":
            { angle = "30 deg" | "45 deg" | "15 deg", first_center = "4 in,3 in", first_diameter = "2 in" | "3 in" }
            { angle = "30 deg" | "45 deg" | "15 deg", first_center = "100 mm,80 mm",
              first_diameter = "40 mm" | "50 mm" };
    };
    type Input = TangentsInput;
    type Output = TangentsResult;
    const LEADS: &'static [&'static str] = &["tangents/0/first/x", "tangents/0/first/y"];
    const CONTEXT: &'static [&'static str] = &[
        "{tangents/0/lies}",
        "second at X {tangents/0/second/x}, Y {tangents/0/second/y}",
        "{tangents/0/length} long",
        "{tangents/0/angle} from X",
    ];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "a tangent is square to the radius at the place where it touches");
        let first = input.circles.first().ok_or_else(no_circle)?;
        let result = match (input.circles.second(), input.from_point, input.angle) {
            (Some(second), ..) => {
                if apart(first.circle(), second.circle()) == Apart::Within {
                    return Err(within(&first, &second));
                }
                steps::of_two(first, second, record)
            }
            (_, Some(point), _) => {
                let (x, y) = metres(&point);
                let circle = first.circle();
                let distance = (circle.x - x).hypot(circle.y - y);
                if distance <= circle.r * (1.0 + 1e-12) {
                    return Err(inside(&first, distance));
                }
                steps::from_point(first, point, record)
            }
            (_, _, Some(angle)) => steps::at_angle(first, angle, record),
            _ => return Err(no_circle()),
        };
        record.note(
            "cutter",
            "These are places on the line itself. To mill along it, keep the cutter's center half its diameter off, \
             square to the line.",
        );
        Ok(result)
    }
}

fn no_circle() -> Refusal {
    Refusal::no_answer("Give the first circle.", &[("first_center", "0 in,0 in".into())])
}

fn inside(circle: &StatedCircle, distance: f64) -> Refusal {
    let says = "The point lies inside the circle or on it, so no line from it touches the circle. Give a point outside, \
        or a smaller circle.";
    let unit = circle.diameter.quantity().unit;
    let at = circle.circle();
    let out = value(at.x + 2.0 * at.r, unit, if at.x + 2.0 * at.r > 0.0 { Way::Up } else { Way::Down });
    let across = value(at.y, unit, Way::Near);
    let mut ways = vec![("from_point", format!("{out},{across}"))];
    if distance > TINY {
        ways.push(("first_diameter", value(1.9 * distance, unit, Way::Down)));
    }
    Refusal::no_answer(says, &ways)
}

fn within(first: &StatedCircle, second: &StatedCircle) -> Refusal {
    let says = "One circle lies within the other, so no line touches both. Check the centers and the diameters.";
    let (a, b) = (first.circle(), second.circle());
    let unit = second.diameter.quantity().unit;
    let out = a.x + 1.5 * (a.r + b.r);
    let away = value(out, unit, if out > 0.0 { Way::Up } else { Way::Down });
    let ways = [("second_center", format!("{away},{}", value(a.y, unit, Way::Near)))];
    Refusal::no_answer(says, &ways)
}
