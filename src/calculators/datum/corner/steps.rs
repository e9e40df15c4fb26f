//! The working of a corner up to the crossing of the tip's paths.

use super::edge::{Edge, Xy, good, place, xy};
use super::offset::{find_corner, find_corner_angle, find_direction, find_sine, note_near, one_side};
use super::{CornerInput, CornerPoint, CornerResult};
use crate::arithmetic::touching::{Axis, Touched, line_angle, take, unit_of};
use crate::fields::Point;
use crate::quantity::{Extent, FoundAngle, Place, SiValue, TINY, Unit};
use crate::refusal::Refusal;
use crate::working::Record;

/// Sine of the least angle at which two edges can be told apart.
const PARALLEL: f64 = 1e-6;

/// The result, with its steps.
pub fn solve(input: &CornerInput, record: &mut Record) -> Result<CornerResult, Refusal> {
    let tip = record.or_assume(
        input.tip_diameter,
        "tip_diameter",
        Extent::stated(0.0, unit_of(&input.first_edge.0)),
        "The places are taken to lie on the edges themselves.",
    );
    let mut first = Edge {
        field: "first_edge",
        touches: input.first_edge.0.clone(),
        direction: (0.0, 0.0),
        touch_names: [["first_edge_1.x", "first_edge_1.y"], ["first_edge_2.x", "first_edge_2.y"]],
        direction_names: ["first_run.x", "first_run.y"],
    };
    let mut second = Edge {
        field: "second_edge",
        touches: input.second_edge.0.clone(),
        direction: (0.0, 0.0),
        touch_names: [["second_edge_1.x", "second_edge_1.y"], ["second_edge_2.x", "second_edge_2.y"]],
        direction_names: ["second_run.x", "second_run.y"],
    };
    for edge in [&first, &second] {
        let columns = if edge.field == "first_edge" {
            ["first_edge.x", "first_edge.y"]
        } else {
            ["second_edge.x", "second_edge.y"]
        };
        for at in 0..edge.touches.len() {
            take(record, &edge.touches, at, columns, edge.touch_names[at]);
        }
    }
    find_run(&mut first, record)?;
    if second.touches.len() == 2 {
        find_run(&mut second, record)?;
    } else {
        second.direction = (-first.direction.1, first.direction.0);
        for (what, formula, from, found, field) in [
            ("Along the second edge, square to the first, on X", "u = -v", 1, second.direction.0, "second_run.x"),
            ("Along the second edge, square to the first, on Y", "u = v", 0, second.direction.1, "second_run.y"),
        ] {
            let of = first.direction_names[from];
            let value = if from == 0 { first.direction.0 } else { first.direction.1 };
            record.step(what, formula).with("v", of, place(value)).gives(field, place(found));
        }
        record.note(
            "taken_square",
            "The second edge was touched once and is taken square to the first; touch it twice if that is not sure.",
        );
    }
    let crossing = find_crossing(&first, &second, record)?;
    let angle = find_angle(input, &first, record);
    let mut result =
        CornerResult { corner: CornerPoint { x: place(crossing.0), y: place(crossing.1) }, angle, corner_angle: None };
    let touched = input.sides.filter(|_| input.tip() > 0.0);
    if touched.is_none() {
        for (value, of, field) in [(crossing.0, "crossing.x", "corner.x"), (crossing.1, "crossing.y", "corner.y")] {
            record
                .choose("The corner: where the edges cross", "the crossing")
                .with("p", of, place(value))
                .gives(field, place(value));
        }
    }
    if touched.is_none() && second.touches.len() == 1 {
        return Ok(result);
    }
    let one = find_direction(
        &first,
        crossing,
        ["first_far.x", "first_far.y", "first_reach", "first_way.x", "first_way.y", "first_from.x", "first_from.y"],
        record,
    )?;
    let two = find_direction(
        &second,
        crossing,
        [
            "second_far.x",
            "second_far.y",
            "second_reach",
            "second_way.x",
            "second_way.y",
            "second_from.x",
            "second_from.y",
        ],
        record,
    )?;
    let cross = find_sine(one, two, record);
    let dot = one.0 * two.0 + one.1 * two.1;
    if second.touches.len() == 2 {
        result.corner_angle = Some(find_corner_angle(one, two, cross, record));
    }
    if let Some(touched) = touched {
        one_side(&first, &second, crossing)?;
        let radius = tip.get().si() / 2.0;
        if touched == Touched::Outside {
            note_near(&first, &second, crossing, radius * (1.0 + dot) / cross, record);
        }
        result.corner = find_corner(tip, touched, crossing, (one, two), cross, record);
    }
    Ok(result)
}

/// The run of an edge from its first touch to its second.
fn find_run(edge: &mut Edge, record: &mut Record) -> Result<(), Refusal> {
    let (a, b) = (edge.touches[0], edge.touches[1]);
    let ((ax, ay), (bx, by)) = (xy(a), xy(b));
    edge.direction = (bx - ax, by - ay);
    if edge.direction.0.hypot(edge.direction.1) < TINY {
        let says = "Both touches of the edge are in one place, so they give it no direction.";
        return Err(Refusal::no_answer(says, &[(edge.field, good(edge.field).into())]));
    }
    let [from, to] = edge.touch_names;
    for (axis, what) in ["Along the edge, on X", "Along the edge, on Y"].into_iter().enumerate() {
        let pick = |point: Point| if axis == 0 { point.x } else { point.y };
        let run = if axis == 0 { edge.direction.0 } else { edge.direction.1 };
        record
            .step(what, "u = b - a")
            .with("a", from[axis], pick(a))
            .with("b", to[axis], pick(b))
            .gives(edge.direction_names[axis], place(run));
    }
    Ok(())
}

/// Where the lines through the touches cross.
fn find_crossing(first: &Edge, second: &Edge, record: &mut Record) -> Result<Xy, Refusal> {
    let ((u, v), (s, t)) = (first.direction, second.direction);
    let cross = u * t - v * s;
    if cross.abs() <= PARALLEL * u.hypot(v) * s.hypot(t) {
        let says = "The edges are parallel, so they meet in no corner.";
        let fields = [(first.field, good(first.field).into()), (second.field, good(second.field).into())];
        return Err(Refusal::no_answer(says, &fields));
    }
    let (p, q) = (xy(first.touches[0]), xy(second.touches[0]));
    let share = ((q.0 - p.0) * t - (q.1 - p.1) * s) / cross;
    let [px, py] = [first.touches[0].x, first.touches[0].y];
    let [qx, qy] = [second.touches[0].x, second.touches[0].y];
    record
        .step(
            "How many runs of the first edge it is from its first touch to the crossing",
            "k = ((X - x) × t - (Y - y) × s) / (u × t - v × s)",
        )
        .with("x", "first_edge_1.x", px)
        .with("y", "first_edge_1.y", py)
        .with("X", "second_edge_1.x", qx)
        .with("Y", "second_edge_1.y", qy)
        .with("u", "first_run.x", place(u))
        .with("v", "first_run.y", place(v))
        .with("s", "second_run.x", place(s))
        .with("t", "second_run.y", place(t))
        .gives("share", share);
    let crossing = (p.0 + share * u, p.1 + share * v);
    let mut write = |what, of, from: Place, run_of, run, field, found| {
        record
            .step(what, "p = x + k × u")
            .with("x", of, from)
            .with("k", "share", share)
            .with("u", run_of, place(run))
            .gives(field, place(found));
    };
    write("Crossing, on X", "first_edge_1.x", px, "first_run.x", u, "crossing.x", crossing.0);
    write("Crossing, on Y", "first_edge_1.y", py, "first_run.y", v, "crossing.y", crossing.1);
    Ok(crossing)
}

fn find_angle(input: &CornerInput, first: &Edge, record: &mut Record) -> FoundAngle {
    let (x, y) = first.direction;
    let says = "The first edge lies nearer to this axis.";
    let along = record.or_assume(input.along, "along", Axis::nearer(x, y), says);
    let (u, v) = along.along_across(x, y);
    let (degrees, formula) = line_angle(u, v);
    let formula = match along {
        Axis::XAxis => formula.to_owned(),
        // Along Y the run on X counts the other way.
        Axis::YAxis => formula.replace("v / u", "(-v) / u").replace("u / v", "u / (-v)"),
    };
    let angle = FoundAngle::stated(degrees, Unit::Degree);
    let [u_of, v_of] = match along {
        Axis::XAxis => ["first_run.x", "first_run.y"],
        Axis::YAxis => ["first_run.y", "first_run.x"],
    };
    let across = if along == Axis::XAxis { v } else { x };
    record
        .step("Angle of the first edge from the axis, counterclockwise", formula)
        .with("u", u_of, place(u))
        .with("v", v_of, place(across))
        .gives("angle", angle);
    angle
}
