//! The steps to the circle of the tip's path, exact through three touches, least squares through more, and the
//! touches as they are seen from its center.

use crate::arithmetic::circle_fit::{Circle, Xy};
use crate::arithmetic::plane::find_way;
use crate::arithmetic::touching::{Pair, columns, take};
use crate::declared::step;
use crate::fields::Point;
use crate::quantity::{Found, FoundExtent, FoundPlace, Place, SiValue};
use crate::working::Record;

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

/// The two circles of a known radius through two touches: the one with its center left of the way from the first to the
/// second, and the other center.
pub(super) fn prove_pair(touches: &[Point], path: FoundExtent, record: &mut Record) -> (Circle, Xy, Seen) {
    let names = [["touch_1.x", "touch_1.y"], ["touch_2.x", "touch_2.y"]];
    let [a, b] = [0, 1].map(|at| take(touches, at, POINTS, names[at], record));
    let (way, chord) = find_way(&a, &b, record);
    let rise: FoundExtent = step!(record, "How far the centers lie from the chord",
        h: rise = root((R - c / 2.0) * (R + c / 2.0)), R = path_radius: path, c = center_distance: chord);
    let [u, v] = way.on;
    let mut center = |of: [&'static str; 2], left: bool| -> Xy {
        let shift = if left { 1.0 } else { -1.0 } * rise.get().si() / chord.get().si();
        let middle = |on: usize| (a.on[on].si() + b.on[on].si()) / 2.0;
        let at = [middle(0) - shift * v.si(), middle(1) + shift * u.si()];
        let signs = if left { ["-", "+"] } else { ["+", "-"] };
        for (on, part) in [(0, "v"), (1, "u")] {
            let side = if left { "left" } else { "right" };
            record
                .step(
                    format!("Center {side} of the way from the first touch to the second, on {}", ["X", "Y"][on]),
                    format!("a = (p + q) / 2 {} h × {part} / c", signs[on]),
                )
                .with("p", a.of[on], a.on[on])
                .with("q", b.of[on], b.on[on])
                .with("h", "rise", rise)
                .with(part, way.of[1 - on], way.on[1 - on])
                .with("c", "center_distance", chord)
                .gives(of[on], FoundPlace::of_si(at[on]));
        }
        (at[0], at[1])
    };
    let left = center(CENTER, true);
    let right = center(["other_center.x", "other_center.y"], false);
    let circle = Circle { x: left.0, y: left.1, r: path.get().si() };
    let seen = Seen::from(&center_of(circle, CENTER), touches, record);
    (circle, right, seen)
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
