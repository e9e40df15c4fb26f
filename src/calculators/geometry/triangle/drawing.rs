//! The triangle on its longest side; where two fit, both on the angle that they share.

use super::{TriangleInput, TriangleResult, TriangleSolution};
use crate::drawing::{Drawing, Ink, Point, Reach, Words, direction, words};
use crate::quantity::{FoundCornerAngle, FoundSize, angle};

const SIDES: [&str; 3] = ["side_a", "side_b", "side_c"];
const ANGLES: [&str; 3] = ["angle_a", "angle_b", "angle_c"];
const LETTERS: [&str; 3] = ["A", "B", "C"];

fn sides(one: &TriangleSolution) -> [FoundSize; 3] {
    [one.side_a, one.side_b, one.side_c]
}

fn angles(one: &TriangleSolution) -> [FoundCornerAngle; 3] {
    [one.angle_a, one.angle_b, one.angle_c]
}

/// The corners of a triangle whose corner `at` lies at zero, the next along X.
fn corners(one: &TriangleSolution, at: usize) -> [Point; 3] {
    let (next, last) = ((at + 1) % 3, (at + 2) % 3);
    let (sin, cos) = angle::sin_cos(angles(one)[at].degrees());
    let mut corners = [(0.0, 0.0); 3];
    corners[next] = (sides(one)[last].si(), 0.0);
    let side = sides(one)[next].si();
    corners[last] = (side * cos, side * sin);
    corners
}

/// Draws an answer: the first triangle in full, another dashed.
pub fn draw(input: &TriangleInput, result: &TriangleResult) -> Drawing {
    let mut about = Words::default();
    for one in &result.solutions {
        let ([a, b, c], [alpha, beta, gamma]) = (sides(one), angles(one));
        let words = words!(" A triangle of sides a {}, b {}, c {} and angles A {}, B {}, C {}.":
            a, b, c, alpha, beta, gamma);
        about = about.then(words);
    }
    let mut drawing = Drawing::new("Triangle", about);
    let Some(first) = result.solutions.first() else { return drawing };
    let shared = [input.angle_a, input.angle_b, input.angle_c].iter().position(Option::is_some);
    let base = match result.solutions.get(1) {
        Some(_) => shared.unwrap_or(0),
        // The longest side lies from the corner after it to the one before it.
        None => {
            let longest = (0..3).max_by(|a, b| sides(first)[*a].si().total_cmp(&sides(first)[*b].si())).unwrap_or(2);
            (longest + 1) % 3
        }
    };
    for (at, other) in result.solutions.iter().enumerate().skip(1) {
        outline(&mut drawing, &corners(other, base), Ink::Dashed, at as u32 + 1);
    }
    let placed = corners(first, base);
    outline(&mut drawing, &placed, Ink::Outline, 1);
    dimensions(&mut drawing, first, &placed);
    drawing
}

fn outline(drawing: &mut Drawing, corners: &[Point; 3], ink: Ink, number: u32) {
    for (of, side) in SIDES.into_iter().enumerate() {
        let (from, to) = ((of + 1) % 3, (of + 2) % 3);
        drawing.line(ink, corners[from], corners[to]).of(side).number(number);
    }
}

fn dimensions(drawing: &mut Drawing, one: &TriangleSolution, corners: &[Point; 3]) {
    for (of, side) in SIDES.into_iter().enumerate() {
        let (from, to) = ((of + 1) % 3, (of + 2) % 3);
        let words = words!("{} {}": ["a", "b", "c"][of], sides(one)[of]);
        // Counter-clockwise corners have the outside on the right.
        drawing.along(corners[from], corners[to], -20.0, words).of(side).number(1);
        let sweep = angles(one)[of];
        let start = direction(corners[of], corners[from]);
        let words = words!("{} {}": LETTERS[of], sweep);
        drawing.angle(corners[of], start, sweep.degrees(), Reach::Sheet(34.0), words).of(ANGLES[of]).number(1);
    }
}
