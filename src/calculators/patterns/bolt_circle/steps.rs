//! The working of a bolt circle: angles, places and moves.

use super::distances::find_distances;
use super::{BoltCircleHole, BoltCircleInput, BoltCircleResult};
use crate::arithmetic::directions::{AngleFrom, Convention, Sense, angle_of};
use crate::arithmetic::travel::{AxisColumns, find_moves};
use crate::fields::Point;
use crate::quantity::{Angle, FoundAngle, FoundPlace, FoundSize, Place, SiValue, Sweep, TINY, Unit, text};
use crate::refusal::Refusal;
use crate::suggestion::{Way, value};
use crate::working::{Record, Shown};

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
    let unit = input.diameter.quantity().unit;
    let radius = input.diameter.get() / 2.0;
    record.step("Radius", "R = D / 2").with("D", "diameter", input.diameter).gives("radius", FoundSize::of(radius));
    let origin = "The centre is taken to be at the datum's zero.";
    let center_x = record.or_assume(input.center_x, "center_x", Place::stated(0.0, unit), origin);
    let center_y = record.or_assume(input.center_y, "center_y", Place::stated(0.0, unit), origin);
    let begin = "Angles are taken to begin along +X.";
    let grow = "Angles are taken to grow counterclockwise, seen with X to the right and Y up.";
    let convention = Convention {
        from: record.or_assume(input.angle_from, "angle_from", AngleFrom::XAxis, begin),
        sense: record.or_assume(input.angle_sense, "angle_sense", Sense::Counterclockwise, grow),
    };
    let start = match input.through {
        Some(point) => start_through(input, point, (center_x, center_y), convention, record)?,
        None => {
            let says = "Hole 1 is taken to lie where angles begin.";
            let start = record.or_assume(input.start_angle, "start_angle", Angle::stated(0.0, Unit::Degree), says);
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

    let points: Vec<(f64, f64)> = degrees.iter().map(|degrees| convention.point(*degrees)).collect();
    let place = |center: Place, part: f64| FoundPlace::of(center.get() + radius * part);
    let xs: Vec<FoundPlace> = points.iter().map(|(x, _)| place(center_x, *x)).collect();
    let ys: Vec<FoundPlace> = points.iter().map(|(_, y)| place(center_y, *y)).collect();
    let shown: Vec<FoundAngle> = degrees.iter().map(|degrees| FoundAngle::stated(*degrees, Unit::Degree)).collect();
    let (x_formula, y_formula) = convention.point_formulas();
    for (what, formula, (symbol, of, center), field, places) in [
        ("X of each hole", x_formula, ("X", "center_x", center_x), "positions.x", &xs),
        ("Y of each hole", y_formula, ("Y", "center_y", center_y), "positions.y", &ys),
    ] {
        record
            .step(what, formula)
            .with(symbol, of, center)
            .with("R", "radius", FoundSize::of(radius))
            .with("θ", angles_of, shown.clone())
            .gives(field, places.clone());
    }
    let datum = (FoundPlace::stated(0.0, Unit::Metre), "0, the datum,");
    let dxs = find_moves(&xs, datum, X, record);
    let dys = find_moves(&ys, datum, Y, record);
    let rows = numbers.into_iter().zip(xs).zip(ys).zip(dxs).zip(dys).zip(angles);
    let positions =
        rows.map(|(((((number, x), y), dx), dy), angle)| BoltCircleHole { number, x, y, dx, dy, angle }).collect();
    let mut result = BoltCircleResult {
        positions,
        step_angle,
        adjacent_chord: None,
        gap: None,
        over_pins: None,
        between_pins: None,
    };
    find_distances(input, radius, &mut result, record);
    Ok(result)
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
        let radius = value(input.diameter.get().si() / 2.0, input.diameter.quantity().unit, Way::Near);
        let says = "The hole picked up lies at the centre of the circle, so it gives no direction.";
        return Err(Refusal::no_answer(says, &[("through", format!("{radius},{radius}"))]));
    }
    let (along, across) = convention.along_across(x, y);
    let (along_formula, across_formula) = convention.along_across_formulas();
    for (what, formula, field, found) in [
        ("Picked-up hole from the centre, along the axis where angles begin", along_formula, "along", along),
        ("Picked-up hole from the centre, across that axis", across_formula, "across", across),
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
            if off > 0.0 { "farther from the centre than the radius" } else { "nearer to the centre than the radius" };
        let percent = match text::fixed(off.abs() * 100.0, 2) {
            small if small == "0.00" => "less than 0.01".to_owned(),
            percent => percent,
        };
        record.note(
            "through_off_circle",
            format!(
                "The hole picked up lies {percent} percent {way}. Hole 1 is put on the circle in its direction; check \
                 the diameter and the centre."
            ),
        );
    }
    Ok(Start { degrees, of: "start", shown: shown.into() })
}

fn find_numbers(input: &BoltCircleInput, record: &mut Record) -> Vec<u32> {
    let numbers = input.numbers();
    let shown: Vec<f64> = numbers.iter().copied().map(f64::from).collect();
    if input.only.is_some() {
        record
            .choose("Holes to list", "those of only")
            .with("o", "only", shown.clone())
            .gives("positions.number", shown);
    } else {
        record
            .look_up("Holes to list", "every whole number from 1 to n")
            .with("n", "holes", input.holes.get())
            .gives("positions.number", shown);
    }
    numbers
}

fn find_step_angle(input: &BoltCircleInput, record: &mut Record) -> Option<FoundAngle> {
    let full = Sweep::stated(360.0, Unit::Degree);
    let sweep = record.or_assume(input.sweep, "sweep", full, "The holes are taken to go all the way round.");
    if input.holes.get() < 2 {
        return None;
    }
    let step = FoundAngle::stated(input.sweep_degrees() / f64::from(input.steps()), Unit::Degree);
    let (what, formula) = if input.steps() == input.holes.get() {
        ("Angle from hole to hole round the full circle", "δ = S / n")
    } else {
        ("Angle from hole to hole, with a hole at each end", "δ = S / (n - 1)")
    };
    record
        .step(what, formula)
        .with("S", "sweep", sweep)
        .with("n", "holes", input.holes.get())
        .gives("step_angle", step);
    Some(step)
}

fn find_order(input: &BoltCircleInput, convention: Convention, record: &mut Record) -> Sense {
    let says = "Holes are taken to be numbered counterclockwise.";
    let order = record.or_assume(input.hole_order, "hole_order", Sense::Counterclockwise, says);
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
    match step_angle {
        Some(step_angle) => record
            .step("Angle of each hole", if with_angles { "θ = α + (i - 1) × δ" } else { "θ = α - (i - 1) × δ" })
            .with("α", start.of, start.shown)
            .with("i", "positions.number", numbers.iter().copied().map(f64::from).collect::<Vec<f64>>())
            .with("δ", "step_angle", step_angle)
            .gives(field, reached.clone()),
        None => {
            record.step("Angle of the hole", "θ = α").with("α", start.of, start.shown).gives(field, reached.clone())
        }
    }
    if !folds {
        return (reached, field);
    }
    record
        .step("Whole turns in it", "k = floor(θ / (2 × π))")
        .with("θ", field, reached.clone())
        .gives("turns", turns.clone());
    let folded = degrees.iter().zip(&turns).map(|(degrees, turns)| text::tidy(text::tidy(*degrees) - turns * 360.0));
    let folded = angles(folded.collect());
    record
        .step("Angle from 0 to below a full turn", "φ = θ - 2 × π × k")
        .with("θ", field, reached)
        .with("k", "turns", turns)
        .gives("positions.angle", folded.clone());
    (folded, field)
}
