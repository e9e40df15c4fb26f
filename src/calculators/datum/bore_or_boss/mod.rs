//! The center of a bore or a boss from touches round it: exact through three, least squares through
//! more, with what is left over and how far an error of a touch moves the center.

mod circle;
mod drawing;
mod hold;

use crate::arithmetic::circle_fit::{Xy, fit, through};
use crate::arithmetic::touching::{Feature, across, metres};
use crate::calculators::prelude::*;
use crate::declared::HasUnit;
use crate::suggestion::{Way, value};
use circle::{prove_fit, prove_through};
use hold::find_hold;

/// The calculator.
pub struct BoreOrBoss;

/// What the bore or boss calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct BoreOrBossInput {
    /// X and Y of the tip's center at each touch; three touches or more, best spread all round.
    #[label("Touches", "touch")]
    pub points: Points,
    /// Diameter of the tip; 0 if absent, for points on the wall itself.
    #[label("Tip diameter")]
    #[absent(
        "0",
        like = points,
        "The points are assumed to lie on the wall itself. The center is right with any tip; the diameter needs the \
         tip's."
    )]
    pub tip_diameter: Option<Extent>,
    /// What was touched: a bore, from inside, or a boss, from outside; needed with a tip diameter.
    #[label("Bore or boss")]
    pub feature: Option<Feature>,
    /// How far a touch may be off, as one standard deviation.
    #[label("Error of one touch")]
    #[absent(
        "0.0005 in or 0.01 mm", value = self.usual_error(),
        "A careful touch repeats to about this. Touch one face a few times to see what yours does."
    )]
    pub touch_error: Option<Size>,
}

/// What the bore or boss calculator gives.
#[derive(Debug, Gives)]
pub struct BoreOrBossResult {
    /// Where the center is.
    #[label("Center")]
    pub center: BoreOrBossCenter,
    /// Diameter of the bore or boss.
    pub diameter: FoundSize,
    /// How far each touch lies from the circle found, outside positive, in the order given; all 0 for three touches.
    #[label("Off the circle", "off the circle, touch")]
    pub residuals: Vec<FoundDifference>,
    /// Spread of the touches in and out of the circle; absent for three touches, which always fit a circle.
    #[label("Out of round by")]
    pub out_of_round: Option<FoundExtent>,
    /// How far the error of the touches moves the center in its worst direction, as one standard deviation.
    #[label("Center may be off by")]
    pub center_uncertainty: FoundExtent,
    /// The arc that the touches span: a full turn less the widest gap between neighbors.
    #[label("Arc touched")]
    pub arc_angle: FoundAngle,
    /// How far that arc of the tip's path rises over its chord: the smaller the rise, the less sure the center.
    #[label("Rise of that arc")]
    pub arc_height: FoundExtent,
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

impl BoreOrBossInput {
    fn usual_error(&self) -> Size {
        match self.points.unit().system() {
            Some(System::Metric) => Size::stated(0.01, Unit::Millimetre),
            _ => Size::stated(0.0005, Unit::Inch),
        }
    }
}

/// Touches that make a circle.
const ROUND: &str = "1 in,0 in;0 in,1 in;-1 in,0 in;0 in,-1 in";

rules! { check(BoreOrBossInput) {
    never(|input| input.points.0.len() < 3, Code::ValueOutOfRange, points = ROUND):
        "Give three touches or more; fewer do not make a circle.";
    never(|input| across(input.tip_diameter) > 0.0 && input.feature.is_none(), Code::Conflict,
        feature = "bore", tip_diameter = "leave out"):
        "Say what was touched, a bore from inside or a boss from outside: with a tip diameter the size depends on it.";
} }

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
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let touches = &input.points.0;
        let points: Vec<Xy> = touches.iter().map(metres).collect();
        let exact = <[Xy; 3]>::try_from(points.as_slice()).ok();
        let circle = exact.map_or_else(|| fit(&points), |points| Ok(through(points)))?;
        let circle = circle.filter(|c| points.iter().all(|p| (p.0 - c.x).hypot(p.1 - c.y) >= TINY)).ok_or_else(flat)?;
        record.look_up("Number of touches", "how many are given").gives("count", points.len() as f64);
        let seen = if exact.is_some() {
            record.source("geometry", "circle through three points: the place equally far from all of them");
            prove_through(touches, circle, record)
        } else {
            record.source("circle_fit", "geometric fit: least sum of squares of the distances from the circle");
            prove_fit(touches, circle, record)
        };
        let path = FoundExtent::of_si(circle.r);
        let left_over = |d: &FoundExtent| if exact.is_some() { 0.0 } else { d.get().si() - circle.r };
        let residuals: Vec<FoundDifference> = seen.distances.iter().map(|d| Found::of_si(left_over(d))).collect();
        record
            .step("How far each touch lies outside the circle", "e = d - R")
            .with("d", "distances", seen.distances.clone())
            .with("R", "path_radius", path)
            .gives("residuals", residuals.clone());
        let out_of_round = exact.is_none().then(|| find_form(&residuals, record));
        if exact.is_some() {
            record.note(
                "nothing_checks",
                "Any three touches fit a circle, so nothing checks them: a slip in one moves the center unseen. Touch \
                 at a fourth place.",
            );
        }
        let tip = input.tip_diameter(record);
        let diameter = find_diameter(input.feature, tip, path, record)?;
        let error = input.touch_error(record);
        let (center_uncertainty, arc_angle, arc_height) = find_hold(&seen, path, error, record).ok_or_else(flat)?;
        if let Some(worst) = worst_of(&residuals, error) {
            record.note(
                "touch_off_circle",
                format!(
                    "Touch {worst} is off the circle by more than three times the error of one touch. Touch there \
                     again; if it repeats, the work is not round."
                ),
            );
        }
        record.caution(cautions::TOUCHING);
        record.caution(cautions::TURNING_SPINDLE);
        let center = BoreOrBossCenter { x: Found::of_si(circle.x), y: Found::of_si(circle.y) };
        Ok(BoreOrBossResult { center, diameter, residuals, out_of_round, center_uncertainty, arc_angle, arc_height })
    }
}

fn flat() -> Refusal {
    let says = "The touches lie on a straight line or nearly, or in fewer than three places, so no circle goes \
        through them. Touch farther round.";
    Refusal::no_answer(says, &[("points", ROUND.into())])
}

fn find_form(residuals: &[FoundDifference], record: &mut Record) -> FoundExtent {
    let si = || residuals.iter().map(|residual| residual.get().si());
    let form = FoundExtent::of_si(si().fold(f64::NEG_INFINITY, f64::max) - si().fold(f64::INFINITY, f64::min));
    record
        .step("Out of round", "f = greatest(e) - least(e)")
        .with("e", "residuals", residuals.to_vec())
        .gives("out_of_round", form);
    form
}

fn find_diameter(
    feature: Option<Feature>,
    tip: Extent,
    path: FoundExtent,
    record: &mut Record,
) -> Result<FoundSize, Refusal> {
    let diameter: FoundSize = match feature {
        Some(Feature::Bore) => step!(record, "Diameter",
            D: diameter = 2.0 * R + d, R = path_radius: path, d = tip_diameter: tip),
        Some(Feature::Boss) => step!(record, "Diameter",
            D: diameter = 2.0 * R - d, R = path_radius: path, d = tip_diameter: tip),
        None => step!(record, "Diameter", D: diameter = 2.0 * R, R = path_radius: path),
    };
    if diameter.get().si() < TINY {
        let says = "The tip is as large as the circle its center ran on, which leaves no boss. Check the tip, and \
         whether it is a bore.";
        let smaller = value(path.get().si(), tip.quantity().unit, Way::Down);
        return Err(Refusal(vec![
            Wrong::new("tip_diameter", Code::Conflict, says, smaller),
            Wrong::new("feature", Code::Conflict, says, "bore"),
        ]));
    }
    Ok(diameter)
}

/// The number of the touch that lies farthest off, if it lies beyond three errors.
fn worst_of(residuals: &[FoundDifference], error: Size) -> Option<usize> {
    let size = |residual: &FoundDifference| residual.get().si().abs();
    let (at, worst) = residuals.iter().enumerate().max_by(|a, b| size(a.1).total_cmp(&size(b.1)))?;
    (size(worst) > 3.0 * error.get().si()).then_some(at + 1)
}
