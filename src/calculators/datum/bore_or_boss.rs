//! The center of a bore or a boss from touches round it: exact through three, least squares through
//! more, with what is left over and how far an error of a touch moves the center.

use crate::calculators::prelude::*;
use crate::drawing::Drawing;
use crate::round_touches::{RoundFound, RoundTouches, check_enough, check_feature, draw_touches};

/// The calculator.
pub struct BoreOrBoss;

/// What the bore or boss calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct BoreOrBossInput {
    /// What was touched, and with what.
    #[group]
    pub touches: RoundTouches,
}

/// What the bore or boss calculator gives.
#[derive(Debug, Gives)]
pub struct BoreOrBossResult {
    /// Where the center is.
    #[label("Center")]
    pub center: BoreOrBossCenter,
    /// What else the touches tell.
    #[group]
    pub found: RoundFound,
}

/// A center's place.
#[derive(Debug, Gives)]
pub struct BoreOrBossCenter {
    /// Center on X.
    #[label("X")]
    pub x: FoundPlace,
    /// Center on Y.
    #[label("Y")]
    pub y: FoundPlace,
}

fn check(input: &BoreOrBossInput) -> Result<(), ValidationError> {
    check_enough(&input.touches)?;
    check_feature(&input.touches)
}

impl Calculator for BoreOrBoss {
    const ID: &'static str = "datum/bore-or-boss";
    const TITLE: &'static str = "Center of a bore or boss";
    const ABOUT: &'static str = "Center and diameter of a bore or boss from three or more touches, how far each touch \
        is off the circle, and how sure the center is.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Sweep it with an indicator in the spindle: at the center the needle stands still.";
    const WORDS: &'static str = "circle, hole center, hole centre, three points, least squares, edge finder, probe, \
        pick up a hole, roundness";
    const EXAMPLES: &'static [Example] = examples! {
        "Four touches with a 0.200 in tip inside the bearing bore of a winch frame.":
            points = "3.1502 in,2.0000 in;2.0003 in,3.1497 in;0.8499 in,2.0004 in;1.9999 in,0.8501 in",
            tip_diameter = "0.200 in", feature = "bore", touch_error = "0.0005 in";
        "Only a third of a broken pump flange is left: three touches with a 10 mm tip round its rim.":
            points = "105 mm,0 mm;90.93 mm,52.5 mm;52.5 mm,90.93 mm", tip_diameter = "10 mm", feature = "boss";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {tip_diameter} tip touches a {feature} at {points}. What is its diameter?" => "diameter":
            { tip_diameter = "0.200 in" | "0.250 in" | "0.500 in", feature = "bore",
              points = "3.15 in,2 in;2 in,3.15 in;0.85 in,2 in" | "1.9 in,1 in;1 in,1.9 in;0.1 in,1 in" }
            { tip_diameter = "4 mm" | "6 mm" | "10 mm", feature = "boss",
              points = "65 mm,20 mm;40 mm,45 mm;15 mm,20 mm" | "42 mm,0 mm;0 mm,42 mm;-42 mm,0 mm" };
        1 "Four touches in the bearing bore of a winch frame: {points}. Where is its center on X?" => "center/x":
            { points = "3.15 in,2 in;2.02 in,3.13 in;0.89 in,2 in;2.02 in,0.87 in" |
                  "2.6 in,1.5 in;1.5 in,2.6 in;0.4 in,1.5 in;1.5 in,0.4 in" |
                  "4.125 in,3 in;3 in,4.125 in;1.875 in,3 in;3 in,1.875 in" }
            { points = "85 mm,30 mm;55 mm,60 mm;25 mm,30 mm;55 mm,0 mm" |
                  "70.4 mm,40 mm;40 mm,70.4 mm;9.6 mm,40 mm;40 mm,9.6 mm" };
        2 "Three touches round a pump boss read {points}. Where is its center on Y?" => "center/y":
            { points = "3.5 in,2 in;3 in,3.5 in;-1 in,0.5 in" | "3.25 in,1 in;3 in,1.75 in;2.75 in,0 in" }
            { points = "70 mm,30 mm;60 mm,60 mm;-20 mm,0 mm" | "45 mm,10 mm;40 mm,25 mm;35 mm,-10 mm" |
                  "90 mm,20 mm;80 mm,50 mm;70 mm,-20 mm" };
        3 "Only part of a broken pump flange is left. A {tip_diameter} tip touches its rim from outside at {points}. \
           What was its diameter?" => "diameter":
            { tip_diameter = "0.200 in" | "0.500 in", feature = "boss",
              points = "5.5 in,2 in;5 in,3.5 in;4.5 in,4 in" | "2.5 in,0 in;2 in,1.5 in;1.5 in,2 in" }
            { tip_diameter = "4 mm" | "10 mm", feature = "boss",
              points = "65 mm,0 mm;52 mm,39 mm;25 mm,60 mm" | "110 mm,30 mm;100 mm,60 mm;90 mm,70 mm" };
        3 "Part of a bore is touched with a {tip_diameter} tip at {points}. What is the bore's diameter?"
            => "diameter":
            { tip_diameter = "0.200 in" | "0.250 in", feature = "bore",
              points = "1.25 in,0 in;1 in,0.75 in;0.35 in,1.2 in" | "3.25 in,1 in;2.75 in,2 in;2.35 in,2.2 in" }
            { tip_diameter = "4 mm" | "6 mm", feature = "bore",
              points = "50 mm,0 mm;40 mm,30 mm;14 mm,48 mm" | "25 mm,0 mm;20 mm,15 mm;7 mm,24 mm" };
    };
    type Input = BoreOrBossInput;
    type Output = BoreOrBossResult;
    const LEADS: &'static [&'static str] = &["center/x", "center/y"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let (circle, found) = input.touches.find_circle(record)?;
        record.caution(cautions::TOUCHING);
        record.caution(cautions::TURNING_SPINDLE);
        let center = BoreOrBossCenter { x: Found::of_si(circle.x), y: Found::of_si(circle.y) };
        Ok(BoreOrBossResult { center, found })
    }
}

fn draw(input: &BoreOrBossInput, result: &BoreOrBossResult) -> Drawing {
    let center = [result.center.x, result.center.y];
    draw_touches("Center of a bore or boss", &input.touches, &result.found, center)
}
