//! The working of a corner from the crossing of the tip's paths on: the directions of the edges from
//! it, the angle between them, and the tip's radius along both.

use super::CornerPoint;
use super::edge::{Edge, Xy, extent, good, place, xy};
use crate::arithmetic::directions::angle_of;
use crate::arithmetic::touching::Touched;
use crate::fields::Point;
use crate::quantity::{Extent, FoundAngle, SiValue, TINY, Unit};
use crate::refusal::{Code, Refusal, Wrong};
use crate::working::Record;

/// Direction of length one from the crossing along an edge, to where it was touched.
pub fn find_direction(edge: &Edge, crossing: Xy, names: [&'static str; 7], record: &mut Record) -> Result<Xy, Refusal> {
    let reach = |point: &Point| (point.x.get().si() - crossing.0).hypot(point.y.get().si() - crossing.1);
    let far = edge.touches.iter().enumerate().max_by(|a, b| reach(a.1).total_cmp(&reach(b.1)));
    let (at, far) = far.map_or((0, edge.touches[0]), |(at, far)| (at, *far));
    let distance = reach(&far);
    if distance < TINY {
        let says = "The edge was touched only in the corner itself, which gives it no direction.";
        return Err(Refusal::no_answer(says, &[(edge.field, good(edge.field).into())]));
    }
    let direction = ((far.x.get().si() - crossing.0) / distance, (far.y.get().si() - crossing.1) / distance);
    for (axis, from) in ["X", "Y"].into_iter().enumerate() {
        let pick = |point: Point| if axis == 0 { point.x } else { point.y };
        let mut step = record.choose(
            format!("{from} of the touch of {} farthest from the crossing", edge.field.replace('_', " ")),
            "the farther of its touches",
        );
        for (touch, symbol) in edge.touches.iter().zip(["a", "b"]) {
            let of = edge.touch_names[usize::from(symbol == "b")][axis];
            step = step.with(symbol, of, pick(*touch));
        }
        step.gives(names[axis], pick(edge.touches[at]));
    }
    let run = [far.x.get().si() - crossing.0, far.y.get().si() - crossing.1];
    for (what, of, value, from_of, from, field, found) in [
        ("From the crossing to it, on X", names[0], far.x, "crossing.x", crossing.0, names[5], run[0]),
        ("From the crossing to it, on Y", names[1], far.y, "crossing.y", crossing.1, names[6], run[1]),
    ] {
        record.step(what, "u = x - p").with("x", of, value).with("p", from_of, place(from)).gives(field, place(found));
    }
    record
        .step("How far that is", "r = √(u^2 + v^2)")
        .with("u", names[5], place(run[0]))
        .with("v", names[6], place(run[1]))
        .gives(names[2], extent(distance));
    for (what, of, part, field, found) in [
        ("Direction along the edge, X part", names[5], run[0], names[3], direction.0),
        ("Direction along the edge, Y part", names[6], run[1], names[4], direction.1),
    ] {
        record
            .step(what, "e = u / r")
            .with("u", of, place(part))
            .with("r", names[2], extent(distance))
            .gives(field, found);
    }
    Ok(direction)
}

/// The sine of the angle between the edges.
pub fn find_sine(one: Xy, two: Xy, record: &mut Record) -> f64 {
    let cross = (one.0 * two.1 - one.1 * two.0).abs();
    record
        .step("Sine of the angle between the edges", "s = abs(a × d - b × c)")
        .with("a", "first_way.x", one.0)
        .with("b", "first_way.y", one.1)
        .with("c", "second_way.x", two.0)
        .with("d", "second_way.y", two.1)
        .gives("sine", cross);
    cross
}

pub fn find_corner_angle(one: Xy, two: Xy, cross: f64, record: &mut Record) -> FoundAngle {
    let dot = one.0 * two.0 + one.1 * two.1;
    record
        .step("Cosine of that angle", "k = a × c + b × d")
        .with("a", "first_way.x", one.0)
        .with("b", "first_way.y", one.1)
        .with("c", "second_way.x", two.0)
        .with("d", "second_way.y", two.1)
        .gives("cosine", dot);
    let (degrees, formula) = angle_of(dot, cross);
    let found = FoundAngle::stated(degrees, Unit::Degree);
    record
        .step("Angle between the edges", formula)
        .with("u", "cosine", dot)
        .with("v", "sine", cross)
        .gives("corner_angle", found);
    found
}

/// Both touches of an edge lie to one side of the other edge, or it is no corner.
pub fn one_side(first: &Edge, second: &Edge, crossing: Xy) -> Result<(), Refusal> {
    for (edge, other) in [(first, second), (second, first)] {
        let ways: Vec<f64> = edge
            .touches
            .iter()
            .map(|point| {
                (xy(*point).0 - crossing.0) * edge.direction.0 + (xy(*point).1 - crossing.1) * edge.direction.1
            })
            .collect();
        let least = ways.iter().copied().fold(f64::INFINITY, f64::min);
        let greatest = ways.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        if least < 0.0 && greatest > 0.0 {
            let says = "The line of one edge passes between the two touches of the other; at a corner they lie to one \
                side of it.";
            let wrong = |field: &str| Wrong::new(field, Code::Conflict, says, good(field));
            return Err(Refusal(vec![wrong(edge.field), wrong(other.field)]));
        }
    }
    Ok(())
}

/// Notes a touch so near to an outside corner that a tip would have run off the edge.
pub fn note_near(first: &Edge, second: &Edge, crossing: Xy, least: f64, record: &mut Record) {
    let near = |point: &Point| (xy(*point).0 - crossing.0).hypot(xy(*point).1 - crossing.1) < least * (1.0 - 1e-9);
    if first.touches.iter().chain(&second.touches).any(near) {
        record.note(
            "past_the_corner",
            "A touch lies so near to the corner that the tip would have met its point and not the flat of the edge: \
             see whether sides is right, and touch farther away.",
        );
    }
}

/// The corner, the tip's radius on from the crossing of its paths.
pub fn find_corner(
    tip: Extent,
    touched: Touched,
    crossing: Xy,
    (one, two): (Xy, Xy),
    sine: f64,
    record: &mut Record,
) -> CornerPoint {
    let radius = tip.get().si() / 2.0;
    record.step("Tip's radius", "r = d / 2").with("d", "tip_diameter", tip).gives("tip_radius", extent(radius));
    let (formula, sign) = match touched {
        Touched::Outside => ("c = p + r × (e + f) / s", 1.0),
        Touched::Inside => ("c = p - r × (e + f) / s", -1.0),
    };
    let mut write = |what, of, from, [e_of, f_of]: [&'static str; 2], e: f64, f: f64, field| {
        let found = place(from + sign * radius * (e + f) / sine);
        record
            .step(what, formula)
            .with("p", of, place(from))
            .with("r", "tip_radius", extent(radius))
            .with("e", e_of, e)
            .with("f", f_of, f)
            .with("s", "sine", sine)
            .gives(field, found);
        found
    };
    let (on_x, on_y) = match touched {
        Touched::Outside => ("Corner on X: into the work, along both edges", "Corner on Y"),
        Touched::Inside => ("Corner on X: away from the tip, back along both edges", "Corner on Y"),
    };
    let x = write(on_x, "crossing.x", crossing.0, ["first_way.x", "second_way.x"], one.0, two.0, "corner.x");
    let y = write(on_y, "crossing.y", crossing.1, ["first_way.y", "second_way.y"], one.1, two.1, "corner.y");
    CornerPoint { x, y }
}
