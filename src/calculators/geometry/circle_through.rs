//! The circle through measured points: exact through three, best fit through more, or of a known radius through two;
//! the same mechanism as for a bore or a boss, for laying out and for inspection.

use crate::arithmetic::plane::ReadoutPoint;
use crate::calculators::prelude::*;
use crate::drawing::{Drawing, Ink};
use crate::round_touches::{ROUND, RoundFound, RoundTouches, check_enough, check_feature, draw_touches};

/// The calculator.
pub struct CircleThrough;

/// What the circle through points calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct CircleThroughInput {
    /// The points, and how they were touched.
    #[group]
    pub touches: RoundTouches,
    /// Radius of the circle, where it is known and only two points were taken.
    #[label("Known radius")]
    pub radius: Option<Size>,
}

/// What the circle through points calculator gives.
#[derive(Debug, Gives)]
pub struct CircleThroughResult {
    /// Radius of the circle on the work.
    pub radius: FoundSize,
    /// Where the center is; of two points, that on the left when you look from the first to the second.
    #[label("Center")]
    pub center: ReadoutPoint,
    /// The other center that two points and a radius have, on the right when you look from the first to the second.
    #[label("Other center")]
    pub other_center: Option<ReadoutPoint>,
    /// What else the points tell.
    #[group]
    pub found: RoundFound,
}

rules! { check_count(CircleThroughInput) {
    never(|input| input.radius.is_some() && input.touches.points.0.len() != 2, Code::Conflict,
        radius = "leave out", points = "1 in,0 in;0 in,1 in"):
        "A known radius goes with two points. Three or more tell the radius themselves.";
    never(|input| input.radius.is_none() && input.touches.points.0.len() == 2, Code::ValueOutOfRange,
        points = ROUND, radius = "2 in"):
        "Two points do not make a circle. Give a third point, or the radius.";
} }

fn check(input: &CircleThroughInput) -> Result<(), ValidationError> {
    check_count(input)?;
    if input.radius.is_none() {
        check_enough(&input.touches)?;
    }
    check_feature(&input.touches)
}

impl Calculator for CircleThrough {
    const ID: &'static str = "geometry/circle-through";
    const TITLE: &'static str = "Circle through points";
    const ABOUT: &'static str = "Center and radius of the circle through three points, of the best circle through \
        more, or of the two circles of a known radius through two points; how far each point is off, and how sure the \
        center is.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str =
        "Take one more point on the arc, away from the others: center and radius must come out the same.";
    const WORDS: &'static str = "best fit circle, circle from three points, circle through two points, radius of a \
        worn part, arc center, arc centre, worn cam, template, least squares, roundness";
    const EXAMPLES: &'static [Example] = examples! {
        "Three points on the worn cam of a bilge pump, touched with a 4 mm tip from outside.":
            points = "62 mm,15 mm;48 mm,38.5 mm;20 mm,47 mm", tip_diameter = "4 mm", feature = "boss",
            touch_error = "0.01 mm";
        "Five points scribed along the rim of a broken fan shroud: the best circle through them.":
            points = "8.003 in,1 in;6.948 in,4.949 in;4.952 in,6.949 in;1 in,8.002 in;-2.501 in,7.062 in";
        "The nose of a rudder fitting has 1.5 in radius by its drawing. Two points on it leave two centers.":
            points = "0 in,0 in;2 in,0.5 in", radius = "1.5 in";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "Three points on a template read {points}. What is its radius?" => "radius":
            { points = "3 in,0 in;0 in,3 in;-3 in,0 in" | "5 in,1 in;3 in,3 in;1 in,1 in" }
            { points = "70 mm,20 mm;45 mm,45 mm;20 mm,20 mm" | "42 mm,0 mm;0 mm,42 mm;-42 mm,0 mm" };
        2 "Three points on a worn cam read {points}. Where is its center on X?" => "center/x":
            { points = "5.5 in,2 in;5 in,3.5 in;4.5 in,4 in" | "3.5 in,2 in;3 in,3.5 in;-1 in,0.5 in" }
            { points = "65 mm,0 mm;52 mm,39 mm;25 mm,60 mm" | "110 mm,30 mm;100 mm,60 mm;90 mm,70 mm" };
        2 "A {tip_diameter} tip touches a {feature} at {points}. What is its radius?" => "radius":
            { tip_diameter = "0.200 in" | "0.250 in", feature = "bore",
              points = "1.25 in,0 in;1 in,0.75 in;0.35 in,1.2 in" | "3.25 in,1 in;2.75 in,2 in;2.35 in,2.2 in" }
            { tip_diameter = "4 mm" | "6 mm", feature = "boss",
              points = "65 mm,20 mm;40 mm,45 mm;15 mm,20 mm" | "50 mm,0 mm;40 mm,30 mm;14 mm,48 mm" };
        3 "A nose of {radius} radius runs through {points}. Where is its center on Y, left of the way from the first \
           point to the second?" => "center/y":
            { radius = "1.5 in" | "2 in" | "2-1/2 in", points = "0 in,0 in;2 in,0 in" | "0 in,0 in;2 in,0.5 in" }
            { radius = "30 mm" | "40 mm" | "50 mm", points = "0 mm,0 mm;48 mm,0 mm" | "10 mm,5 mm;50 mm,15 mm" };
    };
    type Input = CircleThroughInput;
    type Output = CircleThroughResult;
    const LEADS: &'static [&'static str] = &["radius", "center/x", "center/y"];
    const CONTEXT: &'static [&'static str] = &[
        "other center X {other_center/x}, Y {other_center/y}",
        "out of round by {out_of_round}",
        "center may be off by {center_uncertainty}",
    ];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let (circle, other_center, found) = match input.radius {
            Some(radius) => {
                let (circle, other, found) = input.touches.find_pair(radius, record)?;
                record.note(
                    "two_centers",
                    "Two circles of this radius go through the two points. Take the center on the side where the \
                     work is hollow.",
                );
                (circle, Some(ReadoutPoint::of(other)), found)
            }
            None => {
                let (circle, found) = input.touches.find_circle(record)?;
                (circle, None, found)
            }
        };
        let radius: FoundSize = step!(record, "Radius on the work",
            R: radius = D / 2.0, D = diameter: found.diameter);
        record.caution(cautions::TOUCHING);
        record.caution(cautions::TURNING_SPINDLE);
        Ok(CircleThroughResult { radius, center: ReadoutPoint::of((circle.x, circle.y)), other_center, found })
    }
}

fn draw(input: &CircleThroughInput, result: &CircleThroughResult) -> Drawing {
    let center = [result.center.x, result.center.y];
    let mut drawing = draw_touches("Circle through points", &input.touches, &result.found, center);
    if let Some(other) = &result.other_center {
        drawing.circle(Ink::Dashed, other.at(), result.radius.si()).of("other_center");
        drawing.dot(other.at()).of("other_center");
        drawing.cross(other.at(), result.radius.si() * 0.12);
    }
    drawing
}
