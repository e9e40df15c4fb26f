//! How far an edge or a vise jaw is turned from an axis, from two touches on it, and how far its end
//! is to be tapped: the tip's diameter falls out, since both touches are off by the same.

mod drawing;

use crate::arithmetic::touching::{Axis, Pair, line_angle, unit_of};
use crate::calculators::prelude::*;

/// The calculator.
pub struct EdgeAngle;

/// What the edge angle calculator asks for.
#[derive(Debug, Asks)]
pub struct EdgeAngleInput {
    /// X and Y of the tip's center at the first touch.
    #[label("First touch")]
    pub first: Point,
    /// X and Y of the tip's center at the second touch, on the same edge and from the same side.
    #[label("Second touch")]
    pub second: Point,
    /// The axis that the edge should lie along, X or Y; the nearer one if absent.
    #[label("Edge should lie along")]
    pub along: Option<Axis>,
    /// Length of the jaw, or of the work, from the pivot to the end that is tapped.
    #[label("Length of the jaw")]
    pub jaw_length: Option<Size>,
}

/// What the edge angle calculator gives.
#[derive(Debug, Gives)]
pub struct EdgeAngleResult {
    /// How far the edge is turned from the axis, counterclockwise with X to the right and Y up, above -90 to 90 deg.
    #[label("Edge turned by")]
    pub angle: FoundAngle,
    /// Distance between the two touches.
    #[label("Between the touches")]
    pub distance: FoundExtent,
    /// How far the end of the jaw must go; needs the length of the jaw.
    #[label("Tap the end by")]
    pub tap: Option<FoundExtent>,
    /// Which way to tap the end that has the larger readings along the axis: toward growing or falling readings of the other axis.
    #[label("Tap toward readings")]
    pub tap_toward: Option<&'static str>,
}

impl Calculator for EdgeAngle {
    const ID: &'static str = "datum/edge-angle";
    const TITLE: &'static str = "Angle of an edge";
    const ABOUT: &'static str = "How far an edge, a fence or a vise jaw is turned from an axis, from two touches, and \
        how far to tap its end to true it.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Run an indicator along the edge for the length of the jaw: it moves by the tap.";
    const WORDS: &'static str = "skew, square up, align, vise, fixed jaw, dial in, tap, crooked, rotation, two touches";
    const EXAMPLES: &'static [Example] = examples! {
        "The fixed jaw of the mill's vise was touched at two places 5 in apart along X; the jaw is 6 in long.":
            first = "0 in,0.100 in", second = "5 in,0.112 in", along = "x_axis", jaw_length = "6 in";
        "A pump bed too heavy to shift lies askew along Y; its angle goes into turn-and-shift.":
            first = "12.40 mm,10 mm", second = "10.85 mm,410 mm", along = "y_axis";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "An edge is touched at {first} and {second}. How far is it turned from the X axis, counterclockwise?"
            => "angle":
            { first = "0 in,0.100 in" | "0 in,0.095 in" | "0 in,0.120 in",
              second = "5 in,0.112 in" | "6 in,0.084 in" }
            { first = "10 mm,2 mm" | "10 mm,2.4 mm", second = "110 mm,3.1 mm" | "130 mm,1.5 mm" };
        2 "The vise jaw is {jaw_length} long. An edge finder touches it at {first} and {second}. How far do you tap \
           its end to bring it along X?" => "tap":
            { jaw_length = "4 in" | "6 in", first = "0 in,0.100 in" | "0 in,0.105 in",
              second = "3 in,0.112 in" | "4 in,0.094 in", along = "x_axis" }
            { jaw_length = "100 mm" | "150 mm", first = "0 mm,2 mm" | "0 mm,2.1 mm",
              second = "80 mm,2.3 mm" | "100 mm,1.6 mm", along = "x_axis" };
        2 "A pump bed too heavy to shift is touched at {first} and {second}. How far is it turned from the Y axis, \
           counterclockwise?" => "angle":
            { first = "1.200 in,1 in" | "1.150 in,1 in", second = "1.100 in,13 in" | "1.250 in,16 in",
              along = "y_axis" }
            { first = "12.4 mm,10 mm" | "11 mm,10 mm", second = "10.8 mm,410 mm" | "13 mm,310 mm", along = "y_axis" };
        3 "A fence {jaw_length} long is to lie along Y. You touch it at {first} and {second}. How far must its end \
           go?" => "tap":
            { jaw_length = "12 in" | "18 in", first = "2.000 in,0 in" | "2.010 in,0 in",
              second = "2.030 in,10 in" | "1.985 in,8 in", along = "y_axis" }
            { jaw_length = "300 mm" | "400 mm", first = "50 mm,0 mm" | "50.2 mm,0 mm",
              second = "50.6 mm,250 mm" | "49.7 mm,200 mm", along = "y_axis" };
    };
    type Input = EdgeAngleInput;
    type Output = EdgeAngleResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "right triangle of the two touches");
        let (first, second) = (input.first, input.second);
        let (x, y) = (second.x.get() - first.x.get(), second.y.get() - first.y.get());
        let distance = x.hypot(y);
        if distance.si() < TINY {
            let says = "Both touches are in one place, so they give no direction. Touch the edge again farther along.";
            return Err(Refusal::no_answer(says, &[("second", another(first))]));
        }
        let nearer = Axis::nearer(x.si(), y.si());
        let along = record.or_assume(input.along, "along", nearer, "The edge lies nearer to this axis.");
        let on_axes = [("first.x", first.x, "second.x", second.x), ("first.y", first.y, "second.y", second.y)];
        let [(a_of, a, b_of, b), across] = if along == Axis::XAxis { on_axes } else { [on_axes[1], on_axes[0]] };
        let run: FoundPlace = step!(record, "Along the axis", p: run = b - a, a = (a_of): a, b = (b_of): b);
        let (a_of, a, b_of, b) = across;
        let rise: FoundPlace = match along {
            Axis::XAxis => step!(record, "Across the axis", p: rise = b - a, a = (a_of): a, b = (b_of): b),
            Axis::YAxis => step!(record, "Across the axis", p: rise = a - b, a = (a_of): a, b = (b_of): b),
        };
        let way = Pair { of: ["run", "rise"], on: [run, rise] };
        let (degrees, formula) = line_angle(run.get().si(), rise.get().si());
        let angle = FoundAngle::stated(degrees, Unit::Degree);
        record.step("Angle from the axis, counterclockwise", formula).with_pair(["u", "v"], &way).gives("angle", angle);
        let distance = FoundExtent::of(distance);
        record
            .step("Distance between the touches", "c = √(u^2 + v^2)")
            .with_pair(["u", "v"], &way)
            .gives("distance", distance);
        if degrees.abs() > 45.0 {
            record.note("other_axis", "The edge lies nearer to the other axis. Check which axis it should lie along.");
        }
        record.note(
            "base",
            "An error in one touch turns the angle by that error over the distance between the touches. Touch as far \
             apart as the edge allows, both times from the same side, on clean metal.",
        );
        let mut result = EdgeAngleResult { angle, distance, tap: None, tap_toward: None };
        if let Some(jaw) = input.jaw_length {
            find_tap(jaw, along, &mut result, record);
        }
        Ok(result)
    }
}

fn find_tap(jaw: Size, along: Axis, result: &mut EdgeAngleResult, record: &mut Record) {
    let degrees = result.angle.degrees();
    let tap: FoundExtent = step!(record, "How far off the end of the jaw is",
        t: tap = L * abs(sin(α)), L = jaw_length: jaw, α = angle: result.angle);
    result.tap = Some(tap);
    if jaw.get() > result.distance.get() {
        record.note(
            "longer_than_base",
            "The jaw is longer than the distance between the touches, so their error grows toward its end.",
        );
    }
    if degrees == 0.0 {
        return;
    }
    // Counterclockwise from +X the end lies toward +Y, and from +Y toward -X.
    let toward = if (degrees > 0.0) == (along == Axis::YAxis) { "growing" } else { "falling" };
    record
        .choose(
            "Which way to tap the end",
            "against the turn: from X counterclockwise toward falling Y, from Y counterclockwise toward growing X",
        )
        .with("α", "angle", result.angle)
        .gives("tap_toward", toward);
    result.tap_toward = Some(toward);
    record.note("pivot", "Leave the bolt at the other end snug as a pivot, tap, tighten both bolts, and touch again.");
}

/// A point away from `first`, in its unit.
fn another(first: Point) -> String {
    match (unit_of(&[first]), first.x.get().si().abs() > 0.05) {
        (Unit::Inch, false) => "5 in,0 in".into(),
        (Unit::Inch, true) => "0 in,0 in".into(),
        (_, false) => "100 mm,0 mm".into(),
        (_, true) => "0 mm,0 mm".into(),
    }
}
