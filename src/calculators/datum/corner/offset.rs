//! The working of a corner from the directions of its edges on: the angle between them, and the tip's radius
//! along both.

use super::CornerPoint;
use super::edge::{Edge, distance};
use crate::arithmetic::directions::angle_of;
use crate::arithmetic::touching::{Pair, Touched};
use crate::calculators::prelude::*;

/// The directions of both edges, of length one.
type Ways = [Pair<f64>; 2];

fn cosine([first, second]: &Ways) -> f64 {
    first.on[0] * second.on[0] + first.on[1] * second.on[1]
}

/// The sine of the angle between the edges.
pub fn find_sine([first, second]: &Ways, record: &mut Record) -> f64 {
    let sine = (first.on[0] * second.on[1] - first.on[1] * second.on[0]).abs();
    record
        .step("Sine of the angle between the edges", "s = abs(a × d - b × c)")
        .with_pair(["a", "b"], first)
        .with_pair(["c", "d"], second)
        .gives("sine", sine);
    sine
}

pub fn find_corner_angle(ways: &Ways, sine: f64, record: &mut Record) -> FoundAngle {
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
pub fn one_side([first, second]: [&Edge; 2], ways: &Ways, crossing: &Pair<FoundPlace>) -> Result<(), Refusal> {
    for (edge, other, way) in [(first, second, &ways[0]), (second, first, &ways[1])] {
        let along = |touch: &Pair<Place>| -> f64 {
            (0..2).map(|on| (touch.on[on].get() - crossing.on[on].get()).si() * way.on[on]).sum()
        };
        if edge.touches.iter().any(|touch| along(touch) < 0.0) && edge.touches.iter().any(|touch| along(touch) > 0.0) {
            let says = "The line of one edge passes between the two touches of the other; at a corner they lie to one \
                side of it.";
            let wrong = |(field, good): (&'static str, String)| Wrong::new(field, Code::Conflict, says, good);
            return Err(Refusal([edge, other].map(|edge| wrong(edge.way_out())).into()));
        }
    }
    Ok(())
}

/// Notes a touch so near to an outside corner that a tip would have run off the edge.
pub fn note_near(
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
            "A touch lies so near to the corner that the tip would have met its point and not the flat of the edge: \
             see whether sides is right, and touch farther away.",
        );
    }
}

/// The corner, the tip's radius on from the crossing of its paths.
pub fn find_corner(
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
        Touched::Outside => step!(record, ["Corner on X: into the work, along both edges", "Corner on Y"][on],
            c: (of[on]) = p + r * (e + f) / s, p = (crossing.of[on]): crossing.on[on], r = tip_radius: radius,
            e = (one.of[on]): one.on[on], f = (two.of[on]): two.on[on], s = sine),
        Touched::Inside => {
            step!(record, ["Corner on X: away from the tip, back along both edges", "Corner on Y"][on],
                c: (of[on]) = p - r * (e + f) / s, p = (crossing.of[on]): crossing.on[on], r = tip_radius: radius,
                e = (one.of[on]): one.on[on], f = (two.of[on]): two.on[on], s = sine)
        }
    });
    CornerPoint { x, y }
}
