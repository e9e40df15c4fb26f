//! The circles with the lines that touch them, X to the right and Y up.

use super::{TangentsInput, TangentsResult};
use crate::arithmetic::touching::metres;
use crate::drawing::{Drawing, Ink, Point, Words, words};

/// Draws an answer.
pub fn draw(input: &TangentsInput, result: &TangentsResult) -> Drawing {
    let count = result.tangents.len();
    let mut about = words!("{} lines that touch": count);
    about = about.then(if input.circles.second().is_some() { " two circles" } else { " a circle" });
    for line in &result.tangents {
        about = about.then(words!("; {}: at X {}, Y {}": line.lies, line.first.x, line.first.y));
        if let Some(second) = &line.second {
            about = about.then(words!(" and X {}, Y {}": second.x, second.y));
        }
    }
    let mut drawing = Drawing::new("Lines that touch circles", about.then("."));
    let circles = [(input.circles.first(), "first"), (input.circles.second(), "second")];
    let mut size = 0.0_f64;
    let mut ends: Vec<Point> = Vec::new();
    for (circle, name) in circles.into_iter().filter_map(|(stated, name)| Some((stated?.circle(), name))) {
        let of = if name == "first" { "first_diameter" } else { "second_diameter" };
        drawing.circle(Ink::Outline, (circle.x, circle.y), circle.r).of(of);
        drawing.dot((circle.x, circle.y)).of(if name == "first" { "first_center" } else { "second_center" });
        drawing.cross((circle.x, circle.y), circle.r * 0.15);
        size = size.max(circle.r);
        ends.push((circle.x, circle.y));
    }
    if let Some(point) = &input.from_point {
        drawing.dot(metres(point)).of("from_point");
        drawing.note_near(metres(point), 0.0, 180.0, Words::of("point"));
        ends.push(metres(point));
    }
    let middle = crate::drawing::middle(&ends);
    for (line, number) in result.tangents.iter().zip(1..) {
        let first = line.first.at();
        let end = match (&line.second, &input.from_point) {
            (Some(second), _) => second.at(),
            (None, Some(point)) => metres(point),
            (None, None) => crate::drawing::on_circle(first, 1.5 * size, line.angle.degrees()),
        };
        let begin = match (&line.second, &input.from_point) {
            (None, None) => crate::drawing::on_circle(first, 1.5 * size, line.angle.degrees() + 180.0),
            _ => first,
        };
        let ink = if line.lies.starts_with("crossing") { Ink::Dashed } else { Ink::Outline };
        drawing.line(ink, begin, end).of("tangents").number(number);
        drawing.dot(first).of("tangents.first").number(number);
        if let Some(second) = &line.second {
            drawing.dot(second.at()).of("tangents.second").number(number);
        }
        drawing.note_near(first, 0.0, crate::drawing::direction(middle, first), Words::from(number as usize));
    }
    drawing
}
