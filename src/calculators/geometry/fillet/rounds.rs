//! Arcs that blend a line and a circle, or two circles: up to eight.

use super::FilletInput;
use super::rules::no_arc;
use super::tell::Blend;
use crate::arithmetic::plane::{StatedCircle, find_way, named};
use crate::arithmetic::tangency::{Base, Beside, TouchingArc, arcs_at_circles, arcs_at_line, beside};
use crate::arithmetic::touching::{Pair, take};
use crate::calculators::prelude::*;

const WAY: [&str; 2] = ["unit_way.x", "unit_way.y"];
const CENTER: [&str; 2] = ["fillets.center.x", "fillets.center.y"];
const FIRST: [&str; 2] = ["fillets.first.x", "fillets.first.y"];
const SECOND: [&str; 2] = ["fillets.second.x", "fillets.second.y"];
const FIRST_CENTER: [&str; 2] = ["first_center.x", "first_center.y"];

fn missing() -> Refusal {
    Refusal::no_answer("Give the circle.", &[("first_center", "0 in,0 in".into())])
}

/// The arcs that touch a line and the first circle.
pub fn at_line(input: &FilletInput, line: &Points, record: &mut Record) -> Result<Vec<Blend>, Refusal> {
    let stated = input.circles.first().ok_or_else(missing)?;
    let circle = stated.circle();
    let list = ["first_line.x", "first_line.y"];
    let names = [["point_1.x", "point_1.y"], ["point_2.x", "point_2.y"]];
    let [a, b] = [0, 1].map(|at| take(&line.0, at, list, names[at], record));
    let (x, y) = (a.on[0].si(), a.on[1].si());
    let (u, v) = (b.on[0].si() - x, b.on[1].si() - y);
    let length = u.hypot(v);
    if length < TINY {
        let says = "Both points of the line are in one place. Take the second farther along it.";
        return Err(Refusal::no_answer(says, &[("first_line", "-5 in,0 in;5 in,0 in".into())]));
    }
    let (way, length) = find_way(&a, &b, record);
    let base = Base { at: (circle.x, circle.y), way: (-v / length.si(), u / length.si()) };
    record
        .step("Square to the line, to its left, X part", "n = -v / c")
        .with("v", way.of[1], way.on[1])
        .with("c", "center_distance", length)
        .gives(WAY[0], base.way.0);
    record
        .step("Square to the line, to its left, Y part", "n = u / c")
        .with("u", way.of[0], way.on[0])
        .with("c", "center_distance", length)
        .gives(WAY[1], base.way.1);
    let off = (circle.x - x) * base.way.0 + (circle.y - y) * base.way.1;
    let center = named(stated.center, FIRST_CENTER);
    let shown_off = FoundPlace::of_si(off);
    record
        .step("How far the circle's center lies left of the line", "h = (X - a) × m + (Y - b) × n")
        .with_pair(["X", "Y"], &center)
        .with_pair(["a", "b"], &a)
        .with_pair(["m", "n"], &Pair { of: WAY, on: [base.way.0, base.way.1] })
        .gives("off_line", shown_off);
    let r = input.radius.si();
    let find = |r: f64| arcs_at_line(base, off, circle.r, r);
    let arcs = find(r);
    if arcs.is_empty() {
        let bounds = [(off.abs() - circle.r) / 2.0, (off.abs() + circle.r) / 2.0];
        return Err(no_arc(input.radius, &bounds, |r| !find(r).is_empty()));
    }
    tell_sides(&arcs, ["Side of the line: 1 left, -1 right", SECOND_SIDE], record);
    record
        .step("From the circle's center to the arc's, square to the line", "a = q × r - h")
        .with("q", "first_side", column(&arcs, |arc| arc.first_side))
        .with("r", "radius", input.radius)
        .with("h", "off_line", shown_off)
        .gives("along", along(&arcs));
    prove_reach("from_base", "second_side", &stated, "first_diameter", input, &arcs, record);
    prove_centers(&center, base.way, &arcs, record);
    let near = if off < 0.0 { -1.0 } else { 1.0 };
    let on_line = |arc: &TouchingArc| {
        let by = arc.first_side * r;
        (arc.center.0 - by * base.way.0, arc.center.1 - by * base.way.1)
    };
    for on in [0, 1] {
        record
            .step(["Tangent point on the line, on X", "Tangent point on the line, on Y"][on], "z = x - q × r × n")
            .with("x", CENTER[on], centers(&arcs, on))
            .with("q", "first_side", column(&arcs, |arc| arc.first_side))
            .with("r", "radius", input.radius)
            .with("n", WAY[on], [base.way.0, base.way.1][on])
            .gives(FIRST[on], column(&arcs, |arc| FoundPlace::of_si([on_line(arc).0, on_line(arc).1][on])));
    }
    prove_touch(SECOND, &center, &stated, ("first_diameter", "from_base"), &arcs, |arc| arc.from_base, record);
    let words = |arc: &TouchingArc| {
        let at = match beside(arc.second_side, circle.r, r) {
            Beside::Outside => "outside the circle",
            Beside::Inside => "inside the circle",
            Beside::Around => "around the circle",
        };
        let side = match (off.abs() <= TINY, arc.first_side > 0.0, arc.first_side == near) {
            (true, true, _) => "left of the line",
            (true, false, _) => "right of the line",
            (_, _, true) => "on the circle's side of the line",
            (_, _, false) => "on the other side of the line",
        };
        let end = match (arc.single, arc.branch > 0.0) {
            (true, _) => "",
            (_, true) => ", toward the line's first point",
            (_, false) => ", toward the line's second point",
        };
        format!("{at}, {side}{end}")
    };
    let touch = |arc: &TouchingArc| touch_of(&stated, arc.center, arc.from_base);
    Ok(arcs.iter().map(|arc| Blend::round(words(arc), arc.center, on_line(arc), touch(arc))).collect())
}

/// The arcs that touch both circles.
pub fn at_circles(input: &FilletInput, record: &mut Record) -> Result<Vec<Blend>, Refusal> {
    let (first, second) = input.circles.first().zip(input.circles.second()).ok_or_else(missing)?;
    let (one, two) = (first.circle(), second.circle());
    if (two.x - one.x).hypot(two.y - one.y) <= 1e-12 * (one.r + two.r) {
        let says =
            "The circles have one center, so an arc that touches both could lie anywhere round it. Check the centers.";
        let unit = first.diameter.quantity().unit;
        let away = crate::suggestion::value(one.x + one.r + two.r, unit, crate::suggestion::Way::Near);
        let across = crate::suggestion::value(one.y, unit, crate::suggestion::Way::Near);
        return Err(Refusal::no_answer(says, &[("second_center", format!("{away},{across}"))]));
    }
    let center = named(first.center, FIRST_CENTER);
    let other = named(second.center, ["second_center.x", "second_center.y"]);
    let (way, distance) = find_way(&center, &other, record);
    let c = distance.si();
    let base = Base { at: (one.x, one.y), way: (way.on[0].si() / c, way.on[1].si() / c) };
    for on in [0, 1] {
        record
            .step(["The way of length one, X part", "The way of length one, Y part"][on], "n = u / c")
            .with("u", way.of[on], way.on[on])
            .with("c", "center_distance", distance)
            .gives(WAY[on], [base.way.0, base.way.1][on]);
    }
    let r = input.radius.si();
    let find = |r: f64| arcs_at_circles(base, c, (one.r, two.r), r);
    let arcs = find(r);
    if arcs.is_empty() {
        let signs = [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)];
        let bounds: Vec<f64> =
            signs.iter().flat_map(|(s, t)| [c, -c].map(|c| (c + s * one.r + t * two.r) / 2.0)).collect();
        return Err(no_arc(input.radius, &bounds, |r| !find(r).is_empty()));
    }
    tell_sides(&arcs, [FIRST_SIDE, SECOND_SIDE], record);
    prove_reach("from_base", "first_side", &first, "first_diameter", input, &arcs, record);
    prove_reach("from_second", "second_side", &second, "second_diameter", input, &arcs, record);
    record
        .step(
            "From the first center along the way to where the arc's center lies beside it",
            "a = (c^2 + (d - e) × (d + e)) / (2 × c)",
        )
        .with("c", "center_distance", distance)
        .with("d", "from_base", column(&arcs, |arc| FoundPlace::of_si(arc.from_base)))
        .with("e", "from_second", column(&arcs, |arc| FoundPlace::of_si(arc.from_second)))
        .gives("along", along(&arcs));
    prove_centers(&center, base.way, &arcs, record);
    prove_touch(FIRST, &center, &first, ("first_diameter", "from_base"), &arcs, |arc| arc.from_base, record);
    prove_touch(SECOND, &other, &second, ("second_diameter", "from_second"), &arcs, |arc| arc.from_second, record);
    let words = |arc: &TouchingArc| {
        let at = |which: Beside| match which {
            Beside::Outside => "outside",
            Beside::Inside => "inside",
            Beside::Around => "around",
        };
        let (a, b) = (at(beside(arc.first_side, one.r, r)), at(beside(arc.second_side, two.r, r)));
        let lies = if a == b { format!("{a} both circles") } else { format!("{a} the first, {b} the second circle") };
        match (arc.single, arc.branch > 0.0) {
            (true, _) => lies,
            (_, true) => format!("{lies}, left from first to second"),
            (_, false) => format!("{lies}, right from first to second"),
        }
    };
    let blend = |arc: &TouchingArc| {
        let (a, b) = (touch_of(&first, arc.center, arc.from_base), touch_of(&second, arc.center, arc.from_second));
        Blend::round(words(arc), arc.center, a, b)
    };
    Ok(arcs.iter().map(blend).collect())
}

const FIRST_SIDE: &str = "At the first circle: 1 outside, -1 inside or around it";
const SECOND_SIDE: &str = "At the circle: 1 outside, -1 inside or around it";

fn along(arcs: &[TouchingArc]) -> Shown {
    column(arcs, |arc| FoundPlace::of_si(arc.along))
}

fn centers(arcs: &[TouchingArc], on: usize) -> Shown {
    column(arcs, |arc| FoundPlace::of_si([arc.center.0, arc.center.1][on]))
}

fn tell_sides(arcs: &[TouchingArc], [first, second]: [&'static str; 2], record: &mut Record) {
    const EVERY: &str = "every combination for which there is an arc";
    record.look_up(first, EVERY).gives("first_side", column(arcs, |arc| arc.first_side));
    record.look_up(second, EVERY).gives("second_side", column(arcs, |arc| arc.second_side));
    record.look_up("Side of the way: 1 left, -1 right", EVERY).gives("branch", column(arcs, |arc| arc.branch));
}

/// From a circle's center to the arc's; less than zero where the arc lies around the circle.
fn prove_reach(
    of: &'static str,
    side: &'static str,
    circle: &StatedCircle,
    diameter: &'static str,
    input: &FilletInput,
    arcs: &[TouchingArc],
    record: &mut Record,
) {
    let first = of == "from_base";
    let sides = column(arcs, |arc| if side == "first_side" { arc.first_side } else { arc.second_side });
    record
        .step("From the circle's center to the arc's", "d = D / 2 + s × r")
        .with("D", diameter, circle.diameter)
        .with("s", side, sides)
        .with("r", "radius", input.radius)
        .gives(of, column(arcs, |arc| FoundPlace::of_si(if first { arc.from_base } else { arc.from_second })));
}

fn prove_centers(base: &Pair<Place>, way: (f64, f64), arcs: &[TouchingArc], record: &mut Record) {
    record
        .step("From the way to the arc's center", "w = √(abs((d - a) × (d + a)))")
        .with("d", "from_base", column(arcs, |arc| FoundPlace::of_si(arc.from_base)))
        .with("a", "along", along(arcs))
        .gives("across_way", column(arcs, |arc| FoundPlace::of_si(arc.across)));
    for (on, formula) in ["x = X + a × m - p × w × n", "x = X + a × n + p × w × m"].into_iter().enumerate() {
        record
            .step(["Center on X", "Center on Y"][on], formula)
            .with("X", base.of[on], base.on[on])
            .with("a", "along", along(arcs))
            .with_pair(["m", "n"], &Pair { of: WAY, on: [way.0, way.1] })
            .with("p", "branch", column(arcs, |arc| arc.branch))
            .with("w", "across_way", column(arcs, |arc| FoundPlace::of_si(arc.across)))
            .gives(CENTER[on], centers(arcs, on));
    }
}

fn touch_of(circle: &StatedCircle, center: (f64, f64), from: f64) -> (f64, f64) {
    let at = circle.circle();
    let by = at.r / from;
    (at.x + (center.0 - at.x) * by, at.y + (center.1 - at.y) * by)
}

/// Where the arcs touch a circle.
fn prove_touch(
    of: [&'static str; 2],
    center: &Pair<Place>,
    circle: &StatedCircle,
    (diameter, from_of): (&'static str, &'static str),
    arcs: &[TouchingArc],
    from: impl Fn(&TouchingArc) -> f64,
    record: &mut Record,
) {
    for on in [0, 1] {
        let touch = |arc: &TouchingArc| touch_of(circle, arc.center, from(arc));
        record
            .step(
                ["Tangent point on the circle, on X", "Tangent point on the circle, on Y"][on],
                "z = X + (x - X) × D / 2 / d",
            )
            .with("X", center.of[on], center.on[on])
            .with("x", CENTER[on], centers(arcs, on))
            .with("D", diameter, circle.diameter)
            .with("d", from_of, column(arcs, |arc| FoundPlace::of_si(from(arc))))
            .gives(of[on], column(arcs, |arc| FoundPlace::of_si([touch(arc).0, touch(arc).1][on])));
    }
}
