//! The steps to the circle of the tip's path, exact through three touches, least squares through more, and the
//! touches as they are seen from its center.

use crate::arithmetic::circle_fit::Circle;
use crate::arithmetic::touching::{Pair, columns, take};
use crate::calculators::prelude::*;

/// The names of the touches' columns.
const POINTS: [&str; 2] = ["points.x", "points.y"];
/// The names of the directions' columns.
pub(super) const WAYS: [&str; 2] = ["ways.x", "ways.y"];
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
    let _: FoundPlace = step!(record, "Center on X, equally far from all three", x: "center.x" =
        X + (t * (squared(p) + squared(q)) - q * (squared(s) + squared(t))) / (2.0 * (p * t - q * s)),
        X = (a.of[0]): a.on[0], p = "second.x": p, q = "second.y": q, s = "third.x": s, t = "third.y": t);
    let _: FoundPlace = step!(record, "Center on Y, equally far from all three", y: "center.y" =
        X + (p * (squared(s) + squared(t)) - s * (squared(p) + squared(q))) / (2.0 * (p * t - q * s)),
        X = (a.of[1]): a.on[1], p = "second.x": p, q = "second.y": q, s = "third.x": s, t = "third.y": t);
    let seen = Seen::from(&center_of(circle, CENTER), touches, record);
    record
        .step("Radius of the circle that the tip's center ran on", "R = sum(d) / 3")
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
                format!("Center on {axis}, by steps to the least sum of squares"),
                "damped Newton steps from the algebraic circle; the steps below show that the sum is least here",
            )
            .with("x", POINTS[0], columns[0].as_slice())
            .with("y", POINTS[1], columns[1].as_slice())
            .gives(settled.of[on], settled.on[on]);
    }
    let seen = Seen::from(&settled, touches, record);
    let radius = FoundExtent::of_si(circle.r);
    record
        .step("Radius of the circle that the tip's center ran on: the mean distance", "R = sum(d) / n")
        .with("d", "distances", seen.distances.clone())
        .with("n", "count", count)
        .gives("path_radius", radius);
    for (on, symbol) in ["x", "y"].into_iter().enumerate() {
        let what = ["Center on X, where the sum of squares is least", "Center on Y, where the sum of squares is least"];
        record
            .step(what[on], ["a = (sum(x) - R × sum(u)) / n", "b = (sum(y) - R × sum(u)) / n"][on])
            .with(symbol, POINTS[on], columns[on].as_slice())
            .with("R", "path_radius", radius)
            .with("u", WAYS[on], seen.ways[on].clone())
            .with("n", "count", count)
            .gives(CENTER[on], settled.on[on]);
    }
    seen
}

/// The touches seen from the center.
pub(super) struct Seen {
    pub(super) distances: Vec<FoundExtent>,
    /// Directions of length one.
    pub(super) ways: [Vec<f64>; 2],
}

impl Seen {
    /// Distances and directions of the touches from the center.
    pub(super) fn from(centre: &Pair<FoundPlace>, touches: &[Point], record: &mut Record) -> Self {
        let columns = columns(touches);
        let of = ["from_center.x", "from_center.y"];
        let on = [0, 1].map(|on| {
            let from_centre = |place: &Place| FoundPlace::of(place.get() - centre.on[on].get());
            let runs: Vec<FoundPlace> = columns[on].iter().map(from_centre).collect();
            record
                .step(["Each touch from the center, on X", "Each touch from the center, on Y"][on], "p = x - a")
                .with("x", POINTS[on], columns[on].as_slice())
                .with("a", centre.of[on], centre.on[on])
                .gives(of[on], runs.clone());
            runs
        });
        let runs = Pair { of, on };
        let both = runs.on[0].iter().zip(&runs.on[1]);
        let distances: Vec<FoundExtent> = both.map(|(p, q)| Found::of(p.get().hypot(q.get()))).collect();
        record
            .step("Distance of each touch from the center", "d = √(p^2 + q^2)")
            .with_pair(["p", "q"], &runs)
            .gives("distances", distances.clone());
        let ways = [0, 1].map(|on| {
            let ways: Vec<f64> = runs.on[on].iter().zip(&distances).map(|(p, d)| (p.get() / d.get()).si()).collect();
            record
                .step(["Direction of each touch, X part", "Direction of each touch, Y part"][on], "u = p / d")
                .with("p", of[on], runs.on[on].clone())
                .with("d", "distances", distances.clone())
                .gives(WAYS[on], ways.clone());
            ways
        });
        Self { distances, ways }
    }
}
