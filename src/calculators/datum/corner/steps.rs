//! The working of a corner: the crossing of the tip's paths, the angle between the edges there, and the tip's
//! radius along both.

use super::edge::{Edge, distance};
use super::{CornerInput, CornerPoint, CornerResult};
use crate::arithmetic::directions::angle_of;
use crate::arithmetic::touching::{Axis, Pair, Touched, across, line_angle};
use crate::calculators::prelude::*;

/// Sine of the least angle at which two edges can be told apart.
const PARALLEL: f64 = 1e-6;

/// The result, with its steps.
pub fn solve(input: &CornerInput, record: &mut Record) -> Result<CornerResult, Refusal> {
    let tip = input.tip_diameter(record);
    let first = Edge::touched(0, &input.first_edge, record);
    let second = Edge::touched(1, &input.second_edge, record);
    let touched_twice = second.touches.len() == 2;
    let run = first.find_run(record)?;
    let second_run = if touched_twice {
        second.find_run(record)?
    } else {
        record.note(
            "taken_square",
            "The second edge was touched once and is assumed square to the first. If that is not sure, touch it twice.",
        );
        second.square_run(&run, record)
    };
    let crossing = find_crossing([&first, &second], [&run, &second_run], record)?;
    let angle = find_angle(input, &run, record);
    let [x, y] = crossing.on;
    let mut result = CornerResult { corner: CornerPoint { x, y }, angle, corner_angle: None };
    let touched = input.sides.filter(|_| across(input.tip_diameter) > 0.0);
    if touched.is_none() {
        for (on, field) in ["corner.x", "corner.y"].into_iter().enumerate() {
            record
                .choose("The corner: where the edges cross", "the crossing")
                .with("p", crossing.of[on], crossing.on[on])
                .gives(field, crossing.on[on]);
        }
        if !touched_twice {
            return Ok(result);
        }
    }
    let ways = [first.find_way(&crossing, record)?, second.find_way(&crossing, record)?];
    let sine = find_sine(&ways, record);
    if touched_twice {
        result.corner_angle = Some(find_corner_angle(&ways, sine, record));
    }
    if let Some(touched) = touched {
        one_side([&first, &second], &ways, &crossing)?;
        if touched == Touched::Outside {
            note_near([&first, &second], &ways, &crossing, (tip, sine), record);
        }
        result.corner = find_corner(tip, touched, &crossing, &ways, sine, record);
    }
    Ok(result)
}

/// Where the lines through the touches cross.
fn find_crossing(
    edges: [&Edge; 2],
    [run, second_run]: [&Pair<FoundPlace>; 2],
    record: &mut Record,
) -> Result<Pair<FoundPlace>, Refusal> {
    let [[u, v], [s, t]] = [run, second_run].map(|run| run.on.map(|part| part.get()));
    let cross = u * t - v * s;
    if cross.si().abs() <= PARALLEL * (u.hypot(v) * s.hypot(t)).si() {
        let says = "The edges are parallel, so they do not meet in a corner.";
        // The way out of an edge lies along its own axis; it helps where the other edge does not.
        let [first, second] = edges.map(Edge::way_out);
        let ways = if u.abs() > v.abs() { second } else { first };
        return Err(Refusal::no_answer(says, &[ways]));
    }
    let [from, to] = edges.map(|edge| &edge.touches[0]);
    let [p, q] = [from, to].map(|touch| touch.on.map(|place| place.get()));
    let share = (((q[0] - p[0]) * t - (q[1] - p[1]) * s) / cross).si();
    record
        .step(
            "First touch to the crossing, in distances between the touches of the first edge",
            "k = ((X - x) × t - (Y - y) × s) / (u × t - v × s)",
        )
        .with_pair(["x", "y"], from)
        .with_pair(["X", "Y"], to)
        .with_pair(["u", "v"], run)
        .with_pair(["s", "t"], second_run)
        .gives("share", share);
    let of = ["crossing.x", "crossing.y"];
    let on = [0, 1].map(|on| {
        step!(record, ["Crossing, on X", "Crossing, on Y"][on], p: (of[on]) = x + k * u,
            x = (from.of[on]): from.on[on], k = "share": share, u = (run.of[on]): run.on[on])
    });
    Ok(Pair { of, on })
}

fn find_angle(input: &CornerInput, first: &Pair<FoundPlace>, record: &mut Record) -> FoundAngle {
    let [x, y] = first.on.map(|run| run.get().si());
    let says = "The first edge lies nearer to this axis.";
    let along = record.or_assume(input.along, "along", Axis::nearer(x, y), says);
    let (u, v) = along.along_across(x, y);
    let (degrees, formula) = line_angle(u, v);
    let (formula, [on_u, on_v]) = match along {
        Axis::XAxis => (formula.to_owned(), [0, 1]),
        // Along Y the run on X counts the other way.
        Axis::YAxis => (formula.replace("v / u", "(-v) / u").replace("u / v", "u / (-v)"), [1, 0]),
    };
    let angle = FoundAngle::stated(degrees, Unit::Degree);
    record
        .step("Angle of the first edge from the axis, counterclockwise", formula)
        .with("u", first.of[on_u], first.on[on_u])
        .with("v", first.of[on_v], first.on[on_v])
        .gives("angle", angle);
    angle
}

/// The directions of both edges, of length one.
type Ways = [Pair<f64>; 2];

fn cosine([first, second]: &Ways) -> f64 {
    first.on[0] * second.on[0] + first.on[1] * second.on[1]
}

/// The sine of the angle between the edges.
fn find_sine([first, second]: &Ways, record: &mut Record) -> f64 {
    let sine = (first.on[0] * second.on[1] - first.on[1] * second.on[0]).abs();
    record
        .step("Sine of the angle between the edges", "s = abs(a × d - b × c)")
        .with_pair(["a", "b"], first)
        .with_pair(["c", "d"], second)
        .gives("sine", sine);
    sine
}

fn find_corner_angle(ways: &Ways, sine: f64, record: &mut Record) -> FoundAngle {
    let cosine = cosine(ways);
    record
        .step("Cosine of that angle", "k = a × c + b × d")
        .with_pair(["a", "b"], &ways[0])
        .with_pair(["c", "d"], &ways[1])
        .gives("cosine", cosine);
    let (degrees, formula) = angle_of(cosine, sine);
    let found = FoundAngle::stated(degrees, Unit::Degree);
    record
        .step("Angle between the edges", formula)
        .with("u", "cosine", cosine)
        .with("v", "sine", sine)
        .gives("corner_angle", found);
    found
}

/// Both touches of an edge lie to one side of the other edge, or it is no corner.
fn one_side([first, second]: [&Edge; 2], ways: &Ways, crossing: &Pair<FoundPlace>) -> Result<(), Refusal> {
    for (edge, way) in [(first, &ways[0]), (second, &ways[1])] {
        let along = |touch: &Pair<Place>| -> f64 {
            (0..2).map(|on| (touch.on[on].get() - crossing.on[on].get()).si() * way.on[on]).sum()
        };
        if edge.touches.iter().any(|touch| along(touch) < 0.0) && edge.touches.iter().any(|touch| along(touch) > 0.0) {
            let says = "The line of one edge passes between the two touches on the other. At a corner both lie to one \
                side of it.";
            let wrong = |(field, good): (&'static str, String)| Wrong::new(field, Code::Conflict, says, good);
            return Err(Refusal::one(wrong(edge.way_out())));
        }
    }
    Ok(())
}

/// Notes a touch so near to an outside corner that a tip would have run off the edge.
fn note_near(
    edges: [&Edge; 2],
    ways: &Ways,
    crossing: &Pair<FoundPlace>,
    (tip, sine): (Extent, f64),
    record: &mut Record,
) {
    let least = tip.get().si() / 2.0 * (1.0 + cosine(ways)) / sine;
    let near = |touch: &Pair<Place>| distance(touch, crossing) < least * (1.0 - 1e-9);
    if edges.into_iter().flat_map(|edge| &edge.touches).any(near) {
        record.note(
            "past_the_corner",
            "A touch is so near the corner that the tip would have met the point and not the flat of the edge. Check \
             that the tip stood outside, and touch farther away.",
        );
    }
}

/// The corner, the tip's radius on from the crossing of its paths.
fn find_corner(
    tip: Extent,
    touched: Touched,
    crossing: &Pair<FoundPlace>,
    [one, two]: &Ways,
    sine: f64,
    record: &mut Record,
) -> CornerPoint {
    let radius: FoundExtent = step!(record, "Tip's radius", r: tip_radius = d / 2.0, d = tip_diameter: tip);
    let of = ["corner.x", "corner.y"];
    let [x, y] = [0, 1].map(|on| match touched {
        Touched::Outside => step!(record, ["Corner on X: from the crossing into the work, along both edges", "Corner \
         on Y"][on],
            c: (of[on]) = p + r * (e + f) / s, p = (crossing.of[on]): crossing.on[on], r = tip_radius: radius,
            e = (one.of[on]): one.on[on], f = (two.of[on]): two.on[on], s = sine),
        Touched::Inside => {
            step!(record, ["Corner on X: from the crossing back along both edges", "Corner on Y"][on],
                c: (of[on]) = p - r * (e + f) / s, p = (crossing.of[on]): crossing.on[on], r = tip_radius: radius,
                e = (one.of[on]): one.on[on], f = (two.of[on]): two.on[on], s = sine)
        }
    });
    CornerPoint { x, y }
}
