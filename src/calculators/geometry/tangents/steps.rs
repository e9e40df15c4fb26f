//! The steps to the lines: the way between the centers, how far the radii reach across it, and the tangent points.

use super::{TangentLine, TangentsResult};
use crate::arithmetic::circle_fit::Circle;
use crate::arithmetic::plane::{ReadoutPoint, StatedCircle, find_way, named};
use crate::arithmetic::tangency::{TouchingLine, touching_lines};
use crate::arithmetic::touching::{Pair, line_angle, metres};
use crate::calculators::prelude::*;

const FIRST: [&str; 2] = ["first_center.x", "first_center.y"];

/// The lines that touch both circles, and the belts around them.
pub fn of_two(first: StatedCircle, second: StatedCircle, record: &mut Record) -> TangentsResult {
    let from = named(first.center, FIRST);
    let to = named(second.center, ["second_center.x", "second_center.y"]);
    let (way, c) = find_way(&from, &to, record);
    let lines = touching_lines(first.circle(), second.circle());
    let same = column(&lines, |line| line.same);
    record
        .look_up("Which side of both circles", "1 where a line touches both on one side, -1 where it crosses over")
        .gives("same_side", same.clone());
    let reach = column(&lines, |line| FoundPlace::of_si(line.reach));
    record
        .step("How far the first radius reaches beyond the second", "m = D / 2 - s × E / 2")
        .with("D", "first_diameter", first.diameter)
        .with("E", "second_diameter", second.diameter)
        .with("s", "same_side", same.clone())
        .gives("reach", reach.clone());
    prove_lines(&lines, (&from, first), (&way, c), reach, record);
    for (on, axis) in ["X", "Y"].into_iter().enumerate() {
        record
            .step(format!("Where it touches the second circle, on {axis}"), "x = X + s × E / 2 × n")
            .with("X", to.of[on], to.on[on])
            .with("s", "same_side", same.clone())
            .with("E", "second_diameter", second.diameter)
            .with("n", NORMAL[on], column(&lines, |line| [line.normal.0, line.normal.1][on]))
            .gives(
                ["tangents.second.x", "tangents.second.y"][on],
                column(&lines, |line| FoundPlace::of_si([line.second.0, line.second.1][on])),
            );
    }
    let words = |line: &TouchingLine| match (line.same > 0.0, line.side > 0.0) {
        (true, true) => "outer, left of both circles",
        (true, false) => "outer, right of both circles",
        (false, true) => "crossing, left of the first and right of the second",
        (false, false) => "crossing, right of the first and left of the second",
    };
    let tangents = tell_lines(&lines, words, true, record);
    let open_belt = lines.first().map(|line| find_belt(OPEN, line, (first, second), c, record));
    let crossed = lines.get(2).map(|line| find_belt(CROSSED, line, (first, second), c, record));
    if crossed.is_none() {
        record
            .note("no_crossing", "The circles meet, so no line crosses between them; only the outer lines touch both.");
    }
    record.note(
        "belt_line",
        "A belt's length is along its line of contact with no slack. A thick belt runs half its thickness farther out: \
         add its thickness to both diameters.",
    );
    TangentsResult { tangents, center_distance: Some(c), open_belt, crossed_belt: crossed }
}

/// The lines from a point.
pub fn from_point(first: StatedCircle, point: Point, record: &mut Record) -> TangentsResult {
    let from = named(first.center, FIRST);
    let to = named(point, ["from_point.x", "from_point.y"]);
    let (way, c) = find_way(&from, &to, record);
    let (x, y) = metres(&point);
    // Left as seen from the point is right as seen from the circle.
    let mut lines = touching_lines(first.circle(), Circle { x, y, r: 0.0 });
    lines.reverse();
    let reach = FoundPlace::of_si(first.circle().r);
    record
        .step("How far the radius reaches", "m = D / 2")
        .with("D", "first_diameter", first.diameter)
        .gives("reach", reach);
    prove_lines(&lines, (&from, first), (&way, c), reach.into(), record);
    let words =
        |line: &TouchingLine| if line.side < 0.0 { "left, seen from the point" } else { "right, seen from the point" };
    let tangents = tell_lines(&lines, words, false, record);
    TangentsResult { tangents, center_distance: Some(c), open_belt: None, crossed_belt: None }
}

/// The lines of a direction.
pub fn at_angle(first: StatedCircle, angle: Angle, record: &mut Record) -> TangentsResult {
    let (sin, cos) = angle::sin_cos(angle.degrees());
    let circle = first.circle();
    let sides = [1.0, -1.0];
    record
        .look_up("Which side of the circle", "1 on the left along the angle, -1 on the right")
        .gives("side", sides.to_vec());
    let places = sides.map(|side| (circle.x - side * circle.r * sin, circle.y + side * circle.r * cos));
    for (on, formula) in ["x = X - q × D / 2 × sin(α)", "x = X + q × D / 2 × cos(α)"].into_iter().enumerate() {
        record
            .step(["Where it touches, on X", "Where it touches, on Y"][on], formula)
            .with("X", FIRST[on], named(first.center, FIRST).on[on])
            .with("q", "side", sides.to_vec())
            .with("D", "first_diameter", first.diameter)
            .with("α", "angle", angle)
            .gives(TOUCH[on], column(&places, |place| FoundPlace::of_si([place.0, place.1][on])));
    }
    let (degrees, _) = line_angle(cos, sin);
    let words = ["left along the angle", "right along the angle"];
    let tangents: Vec<TangentLine> = places
        .iter()
        .zip(words)
        .map(|(place, lies)| TangentLine {
            lies,
            first: ReadoutPoint::of(*place),
            second: None,
            length: None,
            angle: FoundAngle::stated(degrees, Unit::Degree),
        })
        .collect();
    tell_places(&tangents, record);
    TangentsResult { tangents, center_distance: None, open_belt: None, crossed_belt: None }
}

const NORMAL: [&str; 2] = ["normal.x", "normal.y"];
const TOUCH: [&str; 2] = ["tangents.first.x", "tangents.first.y"];

/// Length, normal and first tangent point of the lines.
fn prove_lines(
    lines: &[TouchingLine],
    (from, first): (&Pair<Place>, StatedCircle),
    (way, c): (&Pair<FoundPlace>, FoundSize),
    reach: Shown,
    record: &mut Record,
) {
    let side = column(lines, |line| line.side);
    record
        .look_up("Which side of the first circle", "1 left of the way from its center, -1 right of it")
        .gives("side", side.clone());
    let length = column(lines, |line| FoundExtent::of_si(line.length));
    record
        .step("Length of the line", "t = √((c - m) × (c + m))")
        .with("c", "center_distance", c)
        .with("m", "reach", reach.clone())
        .gives("tangents.length", length.clone());
    let formulas = ["n = (m × u - q × t × v) / c^2", "n = (m × v + q × t × u) / c^2"];
    for (on, formula) in formulas.into_iter().enumerate() {
        let normal = column(lines, |line| [line.normal.0, line.normal.1][on]);
        record
            .step(["Square to the line, X part", "Square to the line, Y part"][on], formula)
            .with("m", "reach", reach.clone())
            .with_pair(["u", "v"], way)
            .with("q", "side", side.clone())
            .with("t", "tangents.length", length.clone())
            .with("c", "center_distance", c)
            .gives(NORMAL[on], normal.clone());
        record
            .step(
                ["Where it touches the first circle, on X", "Where it touches the first circle, on Y"][on],
                "x = X + D / 2 × n",
            )
            .with("X", from.of[on], from.on[on])
            .with("D", "first_diameter", first.diameter)
            .with("n", NORMAL[on], normal)
            .gives(TOUCH[on], column(lines, |line| FoundPlace::of_si([line.first.0, line.first.1][on])));
    }
}

fn tell_lines(
    lines: &[TouchingLine],
    words: impl Fn(&TouchingLine) -> &'static str,
    two: bool,
    record: &mut Record,
) -> Vec<TangentLine> {
    let each = lines.iter().map(|line| TangentLine {
        lies: words(line),
        first: ReadoutPoint::of(line.first),
        second: two.then(|| ReadoutPoint::of(line.second)),
        length: Some(Found::of_si(line.length)),
        angle: FoundAngle::stated(line_angle(-line.normal.1, line.normal.0).0, Unit::Degree),
    });
    let tangents: Vec<TangentLine> = each.collect();
    tell_places(&tangents, record);
    tangents
}

fn tell_places(tangents: &[TangentLine], record: &mut Record) {
    record
        .look_up("Where each lies", "by the side on which it touches")
        .gives("tangents.lies", column(tangents, |line| line.lies));
    record
        .look_up("Angle of each line", "square to the radius at the tangent point, from +X counterclockwise")
        .gives("tangents.angle", column(tangents, |line| line.angle));
}

/// A belt: the names of its lean and length, its formulas, and the sign of the second radius in it.
type Belt = (&'static str, &'static str, [&'static str; 2], f64);
const OPEN: Belt =
    ("open_lean", "open_belt", ["β = asin((D - E) / (2 × c))", "L = 2 × t + π × (D + E) / 2 + β × (D - E)"], -1.0);
const CROSSED: Belt =
    ("crossed_lean", "crossed_belt", ["β = asin((D + E) / (2 × c))", "L = 2 × t + (π / 2 + β) × (D + E)"], 1.0);

fn find_belt(
    (lean_of, of, formulas, sign): Belt,
    line: &TouchingLine,
    (first, second): (StatedCircle, StatedCircle),
    c: FoundSize,
    record: &mut Record,
) -> FoundSize {
    let (d, e) = (first.diameter.si(), second.diameter.si());
    let lean = ((d + sign * e) / (2.0 * c.si())).asin();
    let shown = FoundAngle::stated(lean.to_degrees(), Unit::Degree);
    let what = if sign < 0.0 { "open" } else { "crossed" };
    record
        .step(format!("How far the {what} belt leans from the way"), formulas[0])
        .with("D", "first_diameter", first.diameter)
        .with("E", "second_diameter", second.diameter)
        .with("c", "center_distance", c)
        .gives(lean_of, shown);
    let straight: FoundExtent = Found::of_si(line.length);
    let straight_of = if sign < 0.0 { "open_straight" } else { "crossed_straight" };
    record.look_up(format!("Straight part of the {what} belt"), "the length of its line").gives(straight_of, straight);
    let length = 2.0 * line.length + PI / 2.0 * (d + e) + lean * (d + sign * e);
    let length: FoundSize = Found::of_si(length);
    record
        .step(format!("Length of the {what} belt"), formulas[1])
        .with("t", straight_of, straight)
        .with("D", "first_diameter", first.diameter)
        .with("E", "second_diameter", second.diameter)
        .with("β", lean_of, shown)
        .gives(of, length);
    length
}
