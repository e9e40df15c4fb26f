//! Arcs that blend two lines: at a corner of a given angle, and in each of the four corners that two lines make.

use super::FilletInput;
use super::tell::Blend;
use crate::arithmetic::plane::ReadoutPoint;
use crate::arithmetic::touching::{Pair, metres, take};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

const POINTS: [[&str; 2]; 4] =
    [["point_1.x", "point_1.y"], ["point_2.x", "point_2.y"], ["point_3.x", "point_3.y"], ["point_4.x", "point_4.y"]];
const CORNER: [&str; 2] = ["corner.x", "corner.y"];
const CENTER: [&str; 2] = ["fillets.center.x", "fillets.center.y"];
const FIRST: [&str; 2] = ["fillets.first.x", "fillets.first.y"];
const SECOND: [&str; 2] = ["fillets.second.x", "fillets.second.y"];

/// The arc at a corner of which the angle alone is known: the corner at zero, the first edge along +X.
pub fn at_angle(input: &FilletInput, angle: CornerAngle, record: &mut Record) -> Result<Vec<Blend>, Refusal> {
    let r = input.radius;
    let half = angle.degrees() / 2.0;
    let reach = r.si() / angle::tan(half);
    fit_edge(input, reach, 1.0 / angle::tan(half))?;
    let reach: FoundExtent = step!(record, "From the corner to each tangent point",
        T: "fillets.to_tangents" = r / tan(φ / 2.0), r = radius: r, φ = corner_angle: angle);
    let to_center: FoundExtent = step!(record, "From the corner to the center",
        c: to_center = r / sin(φ / 2.0), r = radius: r, φ = corner_angle: angle);
    let to_arc: FoundExtent = step!(record, "From the corner to the arc",
        g: "fillets.to_arc" = c - r, c = to_center, r = radius: r);
    let _: FoundAngle =
        step!(record, "Angle of the arc", β: "fillets.arc_angle" = radians(π) - φ, φ = corner_angle: angle);
    let _: FoundPlace = step!(record, "Center on X, along the first edge",
        x: "fillets.center.x" = T, T = "fillets.to_tangents": reach);
    let _: FoundPlace =
        step!(record, "Center on Y, square to the first edge", y: "fillets.center.y" = r, r = radius: r);
    let _: FoundPlace = step!(record, "Tangent point on the first edge, on X",
        x: "fillets.first.x" = T, T = "fillets.to_tangents": reach);
    record
        .look_up("Tangent point on the first edge, on Y", "the first edge lies along X")
        .gives(FIRST[1], FoundPlace::of_si(0.0));
    let x: FoundPlace = step!(record, "Tangent point on the second edge, on X",
        x: "fillets.second.x" = T * cos(φ), T = "fillets.to_tangents": reach, φ = corner_angle: angle);
    let y: FoundPlace = step!(record, "Tangent point on the second edge, on Y",
        y: "fillets.second.y" = T * sin(φ), T = "fillets.to_tangents": reach, φ = corner_angle: angle);
    record.note(
        "from_corner",
        "Readings count from the corner as zero, with the first edge along +X and the second edge counterclockwise from \
         it.",
    );
    Ok(vec![Blend {
        lies: "in the corner".into(),
        center: (reach.si(), r.si()),
        first: (reach.si(), 0.0),
        second: (x.si(), y.si()),
        arc_angle: Some(180.0 - angle.degrees()),
        to_tangents: Some(reach),
        to_arc: Some(to_arc),
    }])
}

/// Refuses a radius that needs more than the shorter edge; `share` is what it needs of the edge, by its own length.
fn fit_edge(input: &FilletInput, reach: f64, share: f64) -> Result<(), Refusal> {
    let Some(edge) = input.edge_length.filter(|edge| reach > edge.si() * (1.0 + 1e-12)) else { return Ok(()) };
    let largest = value(edge.si() / share, input.radius.quantity().unit, Way::Down);
    let longer = value(reach, edge.quantity().unit, Way::Up);
    let says = format!(
        "The radius does not fit: it would begin past the end of the edge. The largest that fits is about {largest}."
    );
    Err(Refusal::no_answer(&says, &[("radius", largest), ("edge_length", longer)]))
}

struct Line {
    points: [Pair<Place>; 2],
    from: (f64, f64),
    way: (f64, f64),
    length: f64,
}

fn line(points: &Points, first: bool, record: &mut Record) -> Result<Line, Refusal> {
    let field = if first { "first_line" } else { "second_line" };
    let list = if first { ["first_line.x", "first_line.y"] } else { ["second_line.x", "second_line.y"] };
    let from = if first { 0 } else { 2 };
    let (a, b) = (metres(&points.0[0]), metres(&points.0[1]));
    let way = (b.0 - a.0, b.1 - a.1);
    let length = way.0.hypot(way.1);
    if length < TINY {
        let says = "Both points of the line are in one place. Take the second farther along it.";
        let other = if first { "1 in,0 in;5 in,0 in" } else { "0 in,1 in;0 in,4 in" };
        return Err(Refusal::no_answer(says, &[(field, other.into())]));
    }
    let taken = [0, 1].map(|at| take(&points.0, at, list, POINTS[from + at], record));
    Ok(Line { points: taken, from: a, way, length })
}

/// The arcs in the four corners of two lines, that between the points given first.
pub fn of_lines(
    input: &FilletInput,
    first: &Points,
    second: &Points,
    record: &mut Record,
) -> Result<(Vec<Blend>, Option<ReadoutPoint>), Refusal> {
    let (one, two) = (line(first, true, record)?, line(second, false, record)?);
    let cross = one.way.0 * two.way.1 - one.way.1 * two.way.0;
    if cross.abs() <= 1e-9 * one.length * two.length {
        let says = "The lines are parallel or nearly, so they have no corner to blend. Check the points.";
        return Err(Refusal::no_answer(says, &[("second_line", turned(first))]));
    }
    let at = along(&one, &two, cross, record);
    let corner = (one.from.0 + at * one.way.0, one.from.1 + at * one.way.1);
    let corner_point = ReadoutPoint::of(corner);
    for (on, value) in [corner.0, corner.1].into_iter().enumerate() {
        record
            .step(["Corner on X", "Corner on Y"][on], "x = a + k × u")
            .with("a", one.points[0].of[on], one.points[0].on[on])
            .with("k", "share", at)
            .with("u", LEGS[0][on], FoundPlace::of_si([one.way.0, one.way.1][on]))
            .gives(CORNER[on], FoundPlace::of_si(value));
    }
    // Each line runs from the corner to whichever of its points lies farther off.
    let towards = |line: &Line| {
        let middle = (line.from.0 + line.way.0 / 2.0 - corner.0, line.from.1 + line.way.1 / 2.0 - corner.1);
        if middle.0 * line.way.0 + middle.1 * line.way.1 >= 0.0 { 1.0 } else { -1.0 }
    };
    let signs = [(1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)];
    let (f, g) = (towards(&one), towards(&two));
    let ways = [signs.map(|sign| f * sign.0), signs.map(|sign| g * sign.1)];
    let unit = |line: &Line, sign: f64| (sign * line.way.0 / line.length, sign * line.way.1 / line.length);
    let legs: Vec<[(f64, f64); 2]> = (0..4).map(|row| [unit(&one, ways[0][row]), unit(&two, ways[1][row])]).collect();
    prove_legs([&one, &two], &ways, &legs, record);
    let r = input.radius.si();
    let numbers: Vec<(f64, f64)> =
        legs.iter().map(|[a, b]| ((a.0 * b.1 - a.1 * b.0).abs(), a.0 * b.0 + a.1 * b.1)).collect();
    fit_edge(input, r * (1.0 + numbers[0].1) / numbers[0].0, (1.0 + numbers[0].1) / numbers[0].0)?;
    let names = [
        "in the corner between the points given", "past the corner on the first line",
        "past the corner on the second line", "past the corner on both lines",
    ];
    let blends: Vec<Blend> = legs
        .iter()
        .zip(&numbers)
        .zip(names)
        .map(|(([a, b], (k, dot)), lies)| {
            let reach = r * (1.0 + dot) / k;
            let from = |way: (f64, f64), by: f64| (corner.0 + by * way.0, corner.1 + by * way.1);
            let to_arc = reach.hypot(r) - r;
            Blend {
                lies: lies.into(),
                center: from((a.0 + b.0, a.1 + b.1), r / k),
                first: from(*a, reach),
                second: from(*b, reach),
                arc_angle: Some(180.0 - 2.0 * k.atan2(1.0 + dot).to_degrees()),
                to_tangents: Some(Found::of_si(reach)),
                to_arc: Some(Found::of_si(to_arc)),
            }
        })
        .collect();
    prove_arcs(input, &legs, &numbers, &blends, corner_point, record);
    let farther = |line: &Line| {
        let end = |by: f64| (line.from.0 + by * line.way.0 - corner.0).hypot(line.from.1 + by * line.way.1 - corner.1);
        end(0.0).max(end(1.0))
    };
    let reach = blends[0].to_tangents.map_or(0.0, |reach| reach.si());
    if reach > farther(&one).min(farther(&two)) {
        record.note(
            "past_points",
            "The first arc begins beyond the points given. Check that the edges are long enough for it.",
        );
    }
    Ok((blends, Some(corner_point)))
}

const LEGS: [[&str; 2]; 2] = [["first_way.x", "first_way.y"], ["second_way.x", "second_way.y"]];
const UNITS: [[&str; 2]; 2] = [["first_leg.x", "first_leg.y"], ["second_leg.x", "second_leg.y"]];

/// How far along the first line, as a share of the way between its points, the second crosses it.
fn along(one: &Line, two: &Line, cross: f64, record: &mut Record) -> f64 {
    for (line, of) in [one, two].into_iter().zip(LEGS) {
        for (on, value) in [line.way.0, line.way.1].into_iter().enumerate() {
            record
                .step(
                    ["From point to point of the line, on X", "From point to point of the line, on Y"][on],
                    "u = b - a",
                )
                .with("a", line.points[0].of[on], line.points[0].on[on])
                .with("b", line.points[1].of[on], line.points[1].on[on])
                .gives(of[on], FoundPlace::of_si(value));
        }
    }
    let apart = (two.from.0 - one.from.0, two.from.1 - one.from.1);
    let share = (apart.0 * two.way.1 - apart.1 * two.way.0) / cross;
    record
        .step(
            "How far along the first line they cross, as a share of the way between its points",
            "k = ((c - a) × q - (d - b) × p) / (u × q - v × p)",
        )
        .with_pair(["a", "b"], &one.points[0])
        .with_pair(["c", "d"], &two.points[0])
        .with("u", LEGS[0][0], FoundPlace::of_si(one.way.0))
        .with("v", LEGS[0][1], FoundPlace::of_si(one.way.1))
        .with("p", LEGS[1][0], FoundPlace::of_si(two.way.0))
        .with("q", LEGS[1][1], FoundPlace::of_si(two.way.1))
        .gives("share", share);
    share
}

fn prove_legs(lines: [&Line; 2], ways: &[[f64; 4]; 2], legs: &[[(f64, f64); 2]], record: &mut Record) {
    for (which, line) in lines.into_iter().enumerate() {
        let sign_of = ["first_sign", "second_sign"][which];
        record
            .look_up(
                ["Which way each arc lies along the first line", "Which way each arc lies along the second line"][which],
                "1 toward the line's second point, -1 toward its first; the first row toward the point farther from the corner",
            )
            .gives(sign_of, ways[which].to_vec());
        for on in [0, 1] {
            record
                .step(
                    ["Direction of length one, X part", "Direction of length one, Y part"][on],
                    ["e = s × u / √(u^2 + v^2)", "e = s × v / √(u^2 + v^2)"][on],
                )
                .with("s", sign_of, ways[which].to_vec())
                .with("u", LEGS[which][0], FoundPlace::of_si(line.way.0))
                .with("v", LEGS[which][1], FoundPlace::of_si(line.way.1))
                .gives(UNITS[which][on], column(legs, |leg| [leg[which].0, leg[which].1][on]));
        }
    }
}

fn prove_arcs(
    input: &FilletInput,
    legs: &[[(f64, f64); 2]],
    numbers: &[(f64, f64)],
    blends: &[Blend],
    corner: ReadoutPoint,
    record: &mut Record,
) {
    let leg = |which: usize, on: usize| column(legs, move |leg| [leg[which].0, leg[which].1][on]);
    record
        .step("Sine of the angle at the corner", "k = abs(a × d - b × c)")
        .with("a", UNITS[0][0], leg(0, 0))
        .with("b", UNITS[0][1], leg(0, 1))
        .with("c", UNITS[1][0], leg(1, 0))
        .with("d", UNITS[1][1], leg(1, 1))
        .gives("corner_sine", column(numbers, |number| number.0));
    record
        .step("Cosine of the angle at the corner", "g = a × c + b × d")
        .with("a", UNITS[0][0], leg(0, 0))
        .with("b", UNITS[0][1], leg(0, 1))
        .with("c", UNITS[1][0], leg(1, 0))
        .with("d", UNITS[1][1], leg(1, 1))
        .gives("corner_cosine", column(numbers, |number| number.1));
    let (sine, cosine) = (column(numbers, |number| number.0), column(numbers, |number| number.1));
    let reach = column(blends, |blend| blend.to_tangents);
    record
        .step("From the corner to each tangent point", "T = r × (1 + g) / k")
        .with("r", "radius", input.radius)
        .with("g", "corner_cosine", cosine.clone())
        .with("k", "corner_sine", sine.clone())
        .gives("fillets.to_tangents", reach.clone());
    record
        .step("From the corner to the arc", "g = √(T^2 + r^2) - r")
        .with("T", "fillets.to_tangents", reach.clone())
        .with("r", "radius", input.radius)
        .gives("fillets.to_arc", column(blends, |blend| blend.to_arc));
    record
        .step("Angle of the arc", "β = π - 2 × atan(k / (1 + g))")
        .with("k", "corner_sine", sine.clone())
        .with("g", "corner_cosine", cosine)
        .gives("fillets.arc_angle", column(blends, |blend| FoundAngle::stated(blend.arc_degrees(), Unit::Degree)));
    let corner = [corner.x, corner.y];
    for on in [0, 1] {
        record
            .step(["Center on X", "Center on Y"][on], "x = X + r × (a + b) / k")
            .with("X", CORNER[on], corner[on])
            .with("r", "radius", input.radius)
            .with("a", UNITS[0][on], leg(0, on))
            .with("b", UNITS[1][on], leg(1, on))
            .with("k", "corner_sine", sine.clone())
            .gives(CENTER[on], column(blends, |blend| FoundPlace::of_si([blend.center.0, blend.center.1][on])));
        for (which, of) in [FIRST, SECOND].into_iter().enumerate() {
            let at = |blend: &Blend| [blend.first, blend.second][which];
            record
                .step(["Tangent point on X", "Tangent point on Y"][on], "x = X + T × a")
                .with("X", CORNER[on], corner[on])
                .with("T", "fillets.to_tangents", reach.clone())
                .with("a", UNITS[which][on], leg(which, on))
                .gives(of[on], column(blends, |blend| FoundPlace::of_si([at(blend).0, at(blend).1][on])));
        }
    }
}

/// A line across the first one.
fn turned(first: &Points) -> String {
    let (a, b) = (metres(&first.0[0]), metres(&first.0[1]));
    let unit = crate::arithmetic::touching::unit_of(&first.0);
    let (u, v) = (b.0 - a.0, b.1 - a.1);
    let show = |x: f64, y: f64| format!("{},{}", value(x, unit, Way::Near), value(y, unit, Way::Near));
    format!("{};{}", show(a.0, a.1), show(a.0 - v, a.1 + u))
}
