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
    /// Where the tip touched first, x and y.
    pub first: Point,
    /// Where it touched the same edge again, from the same side, x and y.
    pub second: Point,
    /// The axis that the edge is to lie along: x_axis or y_axis; the one it lies nearer to if absent.
    pub along: Option<Axis>,
    /// Length of the jaw, or of the work, from where it pivots to where it is tapped.
    pub jaw_length: Option<Size>,
}

/// What the edge angle calculator gives.
#[derive(Debug, Gives)]
pub struct EdgeAngleResult {
    /// How far the edge is turned from the axis, counterclockwise with X to the right and Y up, above -90 to 90 deg.
    pub angle: FoundAngle,
    /// Distance between the two touches.
    pub distance: FoundExtent,
    /// How far the end of the jaw must go; needs jaw_length.
    pub tap: Option<FoundExtent>,
    /// Which way the end that has the greater readings along the axis must go: toward growing or falling readings of the other axis.
    pub tap_toward: Option<&'static str>,
}

impl Calculator for EdgeAngle {
    const ID: &'static str = "datum/edge-angle";
    const TITLE: &'static str = "Angle of an edge";
    const ABOUT: &'static str = "How far an edge, a fence or a vise jaw is turned from an axis, from two touches, and \
        how far to tap its end to bring it true.";
    const TASK: Task = Task::FindZero;
    const ANOTHER_CHECK: &'static str =
        "Run an indicator along the edge for the length of the jaw: it moves by the tap.";
    const WORDS: &'static str = "skew, square up, align, vise, fixed jaw, dial in, tap, crooked, rotation, two touches";
    const NEAR: &'static str = "sine bar, sine plate, taper";
    const EXAMPLES: &'static [Example] = examples! {
        "The fixed jaw of the mill's vise was touched at two places 5 in apart along X; the jaw is 6 in long.":
            first = "0 in,0.100 in", second = "5 in,0.112 in", along = "x_axis", jaw_length = "6 in";
        "A pump bed too heavy to shift lies askew along Y; its angle goes into turn-and-shift.":
            first = "12.40 mm,10 mm", second = "10.85 mm,410 mm", along = "y_axis";
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
            let says = "Both touches are in one place, so they give no direction.";
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
            .step("Distance of the touches", "c = √(u^2 + v^2)")
            .with_pair(["u", "v"], &way)
            .gives("distance", distance);
        if degrees.abs() > 45.0 {
            record.note("other_axis", "The edge lies nearer to the other axis: see whether along names the right one.");
        }
        record.note(
            "base",
            "An error of one touch turns the angle by that error over the distance of the touches: touch as far apart \
             as the edge allows, both times from the same side, on clean metal.",
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
    let tap: FoundExtent = step!(record, "What the end of the jaw is off by",
        t: tap = L * abs(sin(α)), L = jaw_length: jaw, α = angle: result.angle);
    result.tap = Some(tap);
    if jaw.get() > result.distance.get() {
        record.note(
            "longer_than_base",
            "The jaw is longer than the distance of the touches, so their error grows on the way to its end.",
        );
    }
    if degrees == 0.0 {
        return;
    }
    // Counterclockwise from +X the end lies toward +Y, and from +Y toward -X.
    let toward = if (degrees > 0.0) == (along == Axis::YAxis) { "growing" } else { "falling" };
    record
        .choose(
            "Which way its end goes back",
            "against the turn: from X counterclockwise toward falling Y, from Y counterclockwise toward growing X",
        )
        .with("α", "angle", result.angle)
        .gives("tap_toward", toward);
    result.tap_toward = Some(toward);
    record.note("pivot", "Leave the bolt at the other end snug as a pivot, tap, tighten both, and touch again.");
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
