//! The working of a corner: the crossing of the tip's paths, the directions of the edges from it,
//! and the tip's radius along both.

use super::corner::{CornerInput, CornerPoint, CornerResult};
use crate::directions::angle_of;
use crate::fields::Point;
use crate::quantity::{Extent, FoundAngle, FoundExtent, FoundPlace, Place, SiValue, TINY, Unit};
use crate::refusal::{Code, Refusal, Wrong};
use crate::touching::{Axis, Touched, line_angle, take, unit_of};
use crate::working::Record;
use uom::si::f64::Length;

type Xy = (f64, f64);

fn place(value: f64) -> FoundPlace {
    FoundPlace::of(Length::from_si(value))
}

fn extent(value: f64) -> FoundExtent {
    FoundExtent::of(Length::from_si(value))
}

fn xy(point: Point) -> Xy {
    (point.x.get().si(), point.y.get().si())
}

/// Sine of the least angle at which two edges can be told apart.
const PARALLEL: f64 = 1e-6;

/// An edge: a touch on it, its direction, the names under which the record has both.
struct Edge {
    field: &'static str,
    touches: Vec<Point>,
    direction: Xy,
    touch_names: [[&'static str; 2]; 2],
    direction_names: [&'static str; 2],
}

/// Writes the steps and gives the result.
pub fn write(input: &CornerInput, record: &mut Record) -> Result<CornerResult, Refusal> {
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
    write_run(&mut first, record)?;
    if second.touches.len() == 2 {
        write_run(&mut second, record)?;
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
    let crossing = write_crossing(&first, &second, record)?;
    let angle = write_angle(input, &first, record);
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
    let one = write_direction(
        &first,
        crossing,
        ["first_far.x", "first_far.y", "first_reach", "first_way.x", "first_way.y"],
        record,
    )?;
    let two = write_direction(
        &second,
        crossing,
        ["second_far.x", "second_far.y", "second_reach", "second_way.x", "second_way.y"],
        record,
    )?;
    let cross = write_product(one, two, record);
    let dot = one.0 * two.0 + one.1 * two.1;
    if second.touches.len() == 2 {
        result.corner_angle = Some(write_corner_angle(one, two, cross, record));
    }
    if let Some(touched) = touched {
        one_side(&first, &second, crossing)?;
        let radius = tip.get().si() / 2.0;
        if touched == Touched::Outside {
            note_near(&first, &second, crossing, radius * (1.0 + dot) / cross, record);
        }
        result.corner = write_offset(tip, touched, crossing, (one, two), cross, record);
    }
    Ok(result)
}

/// The run of an edge from its first touch to its second.
fn write_run(edge: &mut Edge, record: &mut Record) -> Result<(), Refusal> {
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
fn write_crossing(first: &Edge, second: &Edge, record: &mut Record) -> Result<Xy, Refusal> {
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

fn write_angle(input: &CornerInput, first: &Edge, record: &mut Record) -> FoundAngle {
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

/// Direction of length one from the crossing along an edge, to where it was touched.
fn write_direction(edge: &Edge, crossing: Xy, names: [&'static str; 5], record: &mut Record) -> Result<Xy, Refusal> {
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
    record
        .step("How far it is from the crossing", "r = √((x - p)^2 + (y - q)^2)")
        .with("x", names[0], far.x)
        .with("y", names[1], far.y)
        .with("p", "crossing.x", place(crossing.0))
        .with("q", "crossing.y", place(crossing.1))
        .gives(names[2], extent(distance));
    let mut write = |what, of, value: Place, from_of, from, field, found: f64| {
        record
            .step(what, "e = (x - p) / r")
            .with("x", of, value)
            .with("p", from_of, place(from))
            .with("r", names[2], extent(distance))
            .gives(field, found);
    };
    write("Direction along the edge, X part", names[0], far.x, "crossing.x", crossing.0, names[3], direction.0);
    write("Direction along the edge, Y part", names[1], far.y, "crossing.y", crossing.1, names[4], direction.1);
    Ok(direction)
}

/// The sine of the angle between the edges.
fn write_product(one: Xy, two: Xy, record: &mut Record) -> f64 {
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

fn write_corner_angle(one: Xy, two: Xy, cross: f64, record: &mut Record) -> FoundAngle {
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
fn one_side(first: &Edge, second: &Edge, crossing: Xy) -> Result<(), Refusal> {
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
fn note_near(first: &Edge, second: &Edge, crossing: Xy, least: f64, record: &mut Record) {
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
fn write_offset(
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

/// Touches that make a corner.
fn good(field: &str) -> &'static str {
    if field == "first_edge" { "1 in,-0.1 in;5 in,-0.1 in" } else { "-0.1 in,1 in" }
}
