//! The steps to the circle of the tip's path: exact through three touches, least squares through more.

use super::seen::{POINTS, Seen, WAYS};
use crate::arithmetic::circle_fit::Circle;
use crate::arithmetic::touching::{Pair, columns, take};
use crate::calculators::prelude::*;

const CENTER: [&str; 2] = ["center.x", "center.y"];

fn center_of(circle: Circle, of: [&'static str; 2]) -> Pair<FoundPlace> {
    Pair { of, on: [circle.x, circle.y].map(Found::of_si) }
}

/// The exact circle through three touches.
pub(super) fn prove_through(touches: &[Point], circle: Circle, record: &mut Record) -> Seen {
    let names = [["touch_1.x", "touch_1.y"], ["touch_2.x", "touch_2.y"], ["touch_3.x", "touch_3.y"]];
    let taken = [0, 1, 2].map(|at| take(touches, at, POINTS, names[at], record));
    let [a, b, c] = &taken;
    let mut from_first = |what: &'static str, b: &Pair<Place>, of: [&'static str; 2]| -> [FoundPlace; 2] {
        [0, 1].map(|on| step!(record, what, p: (of[on]) = b - a, a = (a.of[on]): a.on[on], b = (b.of[on]): b.on[on]))
    };
    let [p, q] = from_first("Second touch from the first", b, ["second.x", "second.y"]);
    let [s, t] = from_first("Third touch from the first", c, ["third.x", "third.y"]);
    let _: FoundPlace = step!(record, "Centre on X, as far from all three", x: "center.x" =
        X + (t * (squared(p) + squared(q)) - q * (squared(s) + squared(t))) / (2.0 * (p * t - q * s)),
        X = (a.of[0]): a.on[0], p = "second.x": p, q = "second.y": q, s = "third.x": s, t = "third.y": t);
    let _: FoundPlace = step!(record, "Centre on Y, as far from all three", y: "center.y" =
        X + (p * (squared(s) + squared(t)) - s * (squared(p) + squared(q))) / (2.0 * (p * t - q * s)),
        X = (a.of[1]): a.on[1], p = "second.x": p, q = "second.y": q, s = "third.x": s, t = "third.y": t);
    let seen = Seen::from(&center_of(circle, CENTER), touches, record);
    record
        .step("Radius of the circle of the tip's path", "R = sum(d) / 3")
        .with("d", "distances", seen.distances.clone())
        .gives("path_radius", FoundExtent::of_si(circle.r));
    seen
}

/// The least squares circle: found by steps, shown to be at the bottom by the sums that vanish there.
pub(super) fn prove_fit(touches: &[Point], circle: Circle, record: &mut Record) -> Seen {
    let columns = columns(touches);
    let count = touches.len() as f64;
    let settled = center_of(circle, ["settled.x", "settled.y"]);
    for (on, axis) in ["X", "Y"].into_iter().enumerate() {
        record
            .look_up(
                format!("Centre on {axis}, by steps to the least sum of squares"),
                "damped Newton steps from the algebraic circle; the steps below show that the sum is least here",
            )
            .with("x", POINTS[0], columns[0].as_slice())
            .with("y", POINTS[1], columns[1].as_slice())
            .gives(settled.of[on], settled.on[on]);
    }
    let seen = Seen::from(&settled, touches, record);
    let radius = FoundExtent::of_si(circle.r);
    record
        .step("Radius of the circle of the tip's path: the mean distance", "R = sum(d) / n")
        .with("d", "distances", seen.distances.clone())
        .with("n", "count", count)
        .gives("path_radius", radius);
    for (on, (axis, symbol, formula)) in
        [("X", "x", "a = (sum(x) - R × sum(u)) / n"), ("Y", "y", "b = (sum(y) - R × sum(u)) / n")]
            .into_iter()
            .enumerate()
    {
        record
            .step(format!("Centre on {axis}, where the sum of squares is least"), formula)
            .with(symbol, POINTS[on], columns[on].as_slice())
            .with("R", "path_radius", radius)
            .with("u", WAYS[on], seen.ways[on].clone())
            .with("n", "count", count)
            .gives(CENTER[on], settled.on[on]);
    }
    seen
}
