//! The working of a bolt circle: angles, places and moves.

use super::distances::find_distances;
use super::{BoltCircleHole, BoltCircleInput, BoltCircleResult};
use crate::arithmetic::directions::{Convention, Sense, angle_of};
use crate::arithmetic::travel::{AxisColumns, find_moves};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

const X: AxisColumns = AxisColumns { symbol: "x", places: "positions.x", before: "before.x", moves: "positions.dx" };
const Y: AxisColumns = AxisColumns { symbol: "y", places: "positions.y", before: "before.y", moves: "positions.dy" };

/// The angle of hole 1, as a step shows it.
struct Start {
    degrees: f64,
    of: &'static str,
    shown: Shown,
}

/// The result, with its steps.
pub fn solve(input: &BoltCircleInput, record: &mut Record) -> Result<BoltCircleResult, Refusal> {
    let radius: FoundSize = step!(record, "Radius", R: radius = D / 2.0, D = diameter: input.diameter);
    let (center_x, center_y) = (input.center_x(record), input.center_y(record));
    let convention = Convention { from: input.angle_from(record), sense: input.angle_sense(record) };
    let start = match input.through {
        Some(point) => start_through(input, point, (center_x, center_y), convention, record)?,
        None => {
            let start = input.start_angle(record);
            Start { degrees: start.degrees(), of: "start_angle", shown: start.into() }
        }
    };
    let numbers = find_numbers(input, record);
    let step_angle = find_step_angle(input, record);
    let order = find_order(input, convention, record);
    let degrees: Vec<f64> = numbers
        .iter()
        // Multiplied before it is divided, so that what comes out even is exact.
        .map(|number| {
            let turned = match input.steps() {
                0 => 0.0,
                steps => f64::from(number - 1) * input.sweep_degrees() / f64::from(steps),
            };
            if order == convention.sense { start.degrees + turned } else { start.degrees - turned }
        })
        .collect();
    let (angles, angles_of) = find_angles(&degrees, &numbers, start, step_angle, order == convention.sense, record);

    let shown: Vec<FoundAngle> = degrees.iter().map(|degrees| FoundAngle::stated(*degrees, Unit::Degree)).collect();
    let (x_formula, y_formula) = convention.point_formulas();
    let [xs, ys] = [
        ("X of each hole", x_formula, ("X", "center_x", center_x), X, 0),
        ("Y of each hole", y_formula, ("Y", "center_y", center_y), Y, 1),
    ]
    .map(|(what, formula, (symbol, of, center), axis, part)| {
        let parts = degrees.iter().map(|degrees| <[f64; 2]>::from(convention.point(*degrees))[part]);
        let places: Vec<FoundPlace> = parts.map(|part| FoundPlace::of(center.get() + radius.get() * part)).collect();
        let step = record.step(what, formula).with(symbol, of, center).with("R", "radius", radius);
        step.with("θ", angles_of, shown.clone()).gives(axis.places, places.clone());
        places
    });
    let datum = (FoundPlace::stated(0.0, Unit::Metre), "0, the datum,");
    let dxs = find_moves(&xs, datum, X, record);
    let dys = find_moves(&ys, datum, Y, record);
    let rows = numbers.into_iter().zip(xs).zip(ys).zip(dxs).zip(dys).zip(angles);
    let positions =
        rows.map(|(((((number, x), y), dx), dy), angle)| BoltCircleHole { number, x, y, dx, dy, angle }).collect();
    let distances = find_distances(input, radius, step_angle, record);
    Ok(BoltCircleResult { positions, step_angle, distances })
}

/// The angle of the hole picked up.
fn start_through(
    input: &BoltCircleInput,
    point: Point,
    (center_x, center_y): (Place, Place),
    convention: Convention,
    record: &mut Record,
) -> Result<Start, Refusal> {
    let (x, y) = (point.x.get() - center_x.get(), point.y.get() - center_y.get());
    let distance = x.hypot(y);
    if distance.si() < TINY {
        let radius = value(input.diameter.si() / 2.0, input.diameter.quantity().unit, Way::Near);
        let says = "The hole picked up lies at the center of the circle, so it gives no direction.";
        return Err(Refusal::no_answer(says, &[("through", format!("{radius},{radius}"))]));
    }
    let (along, across) = convention.along_across(x, y);
    let (along_formula, across_formula) = convention.along_across_formulas();
    for (what, formula, field, found) in [
        ("Picked-up hole from the center, along the axis where angles start", along_formula, "along", along),
        ("Picked-up hole from the center, across that axis", across_formula, "across", across),
    ] {
        let step = record.step(what, formula);
        let step = if formula.contains('x') {
            step.with("x", "through.x", point.x).with("X", "center_x", center_x)
        } else {
            step.with("y", "through.y", point.y).with("Y", "center_y", center_y)
        };
        step.gives(field, FoundPlace::of(found));
    }
    let (degrees, formula) = angle_of(along.si(), across.si());
    let shown = FoundAngle::stated(degrees, Unit::Degree);
    record
        .step("Angle of hole 1, in the direction of the hole picked up", formula)
        .with("u", "along", FoundPlace::of(along))
        .with("v", "across", FoundPlace::of(across))
        .gives("start", shown);
    let off = (distance / (input.diameter.get() / 2.0)).value - 1.0;
    if off.abs() > 1e-9 {
        let way =
            if off > 0.0 { "farther from the center than the radius" } else { "nearer to the center than the radius" };
        let percent = match text::fixed(off.abs() * 100.0, 2) {
            small if small == "0.00" => "less than 0.01".to_owned(),
            percent => percent,
        };
        record.note(
            "through_off_circle",
            format!(
                "The hole picked up lies {percent} percent {way}. Hole 1 is put on the circle in its direction; check \
                 the diameter and the center."
            ),
        );
    }
    Ok(Start { degrees, of: "start", shown: shown.into() })
}

fn find_numbers(input: &BoltCircleInput, record: &mut Record) -> Vec<u32> {
    let numbers = input.numbers();
    let shown: Vec<f64> = numbers.iter().copied().map(f64::from).collect();
    const WHAT: &str = "Holes to list";
    let step = match input.only {
        Some(_) => record.choose(WHAT, "the holes listed").with("o", "only", shown.clone()),
        None => record.look_up(WHAT, "every whole number from 1 to n").with("n", "holes", input.holes.get()),
    };
    step.gives("positions.number", shown);
    numbers
}

fn find_step_angle(input: &BoltCircleInput, record: &mut Record) -> Option<FoundAngle> {
    let (sweep, holes) = (input.sweep(record), input.holes.get());
    if holes < 2 {
        return None;
    }
    let step = FoundAngle::stated(input.sweep_degrees() / f64::from(input.steps()), Unit::Degree);
    let (what, formula) = if input.steps() == holes {
        ("Angle from hole to hole around the full circle", "δ = S / n")
    } else {
        ("Angle from hole to hole, with a hole at each end", "δ = S / (n - 1)")
    };
    record.step(what, formula).with("S", "sweep", sweep).with("n", "holes", holes).gives("step_angle", step);
    Some(step)
}

fn find_order(input: &BoltCircleInput, convention: Convention, record: &mut Record) -> Sense {
    let order = input.hole_order(record);
    if input.hole_order.is_none() && convention.sense == Sense::Clockwise && input.holes.get() > 1 {
        record.note(
            "order_against_angles",
            "Angles grow clockwise here, but the holes are numbered counterclockwise; hole_order=clockwise numbers them \
             the way the angles grow.",
        );
    }
    order
}

/// The angles as they are printed, and the step whose angles the places are computed from: those
/// before whole turns are taken off, which keep every digit of a small negative angle.
fn find_angles(
    degrees: &[f64],
    numbers: &[u32],
    start: Start,
    step_angle: Option<FoundAngle>,
    with_angles: bool,
    record: &mut Record,
) -> (Vec<FoundAngle>, &'static str) {
    let angles = |list: Vec<f64>| -> Vec<FoundAngle> {
        list.into_iter().map(|degrees| FoundAngle::stated(degrees, Unit::Degree)).collect()
    };
    let turns: Vec<f64> = degrees.iter().map(|degrees| (text::tidy(*degrees) / 360.0).floor()).collect();
    let folds = turns.iter().any(|turns| *turns != 0.0);
    let field = if folds { "direction" } else { "positions.angle" };
    let reached = angles(degrees.to_vec());
    let step = match step_angle {
        Some(step_angle) => record
            .step("Angle of each hole", if with_angles { "θ = α + (i - 1) × δ" } else { "θ = α - (i - 1) × δ" })
            .with("α", start.of, start.shown)
            .with("i", "positions.number", numbers.iter().copied().map(f64::from).collect::<Vec<f64>>())
            .with("δ", "step_angle", step_angle),
        None => record.step("Angle of the hole", "θ = α").with("α", start.of, start.shown),
    };
    step.gives(field, reached.clone());
    if !folds {
        return (reached, field);
    }
    let step = record.step("Whole turns in it", "k = floor(θ / (2 × π))").with("θ", field, reached.clone());
    step.gives("turns", turns.clone());
    let folded = degrees.iter().zip(&turns).map(|(degrees, turns)| text::tidy(text::tidy(*degrees) - turns * 360.0));
    let folded = angles(folded.collect());
    let step = record.step("Angle from 0 to below a full turn", "φ = θ - 2 × π × k").with("θ", field, reached);
    step.with("k", "turns", turns).gives("positions.angle", folded.clone());
    (folded, field)
}
