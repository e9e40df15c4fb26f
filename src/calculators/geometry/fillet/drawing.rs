//! The lines and circles with the arcs that blend them, X to the right and Y up: the first arc full, the others dashed.

use super::{FilletInput, FilletResult};
use crate::arithmetic::touching::metres;
use crate::drawing::{Drawing, Ink, Point, Words, direction, on_circle, words};

/// Draws an answer.
pub fn draw(input: &FilletInput, result: &FilletResult) -> Drawing {
    let mut about = words!("{} arcs of {} radius that touch both": result.fillets.len(), input.radius);
    for arc in result.fillets.iter().take(2) {
        about = about.then(words!("; {}: center X {}, Y {}": arc.lies.clone(), arc.center.x, arc.center.y));
    }
    let mut drawing = Drawing::new("Radius that blends two edges", about.then("."));
    lines(&mut drawing, input, result);
    let circles = [(input.circles.first(), "first_diameter"), (input.circles.second(), "second_diameter")];
    for (stated, of) in circles {
        if let Some(circle) = stated.map(|stated| stated.circle()) {
            drawing.circle(Ink::Outline, (circle.x, circle.y), circle.r).of(of);
            drawing.cross((circle.x, circle.y), circle.r * 0.15);
        }
    }
    let radius = input.radius.si();
    for (arc, number) in result.fillets.iter().zip(1..) {
        let center = arc.center.at();
        let (from, to) = (direction(center, arc.first.at()), direction(center, arc.second.at()));
        let sweep = (to - from).rem_euclid(360.0);
        let (begin, sweep) = if sweep <= 180.0 { (from, sweep) } else { (to, 360.0 - sweep) };
        let ink = if number == 1 { Ink::Outline } else { Ink::Dashed };
        drawing.arc(ink, center, radius, begin, sweep).of("fillets").number(number);
        drawing.dot(center).of("fillets.center").number(number);
        drawing.dot(arc.first.at()).of("fillets.first").number(number);
        drawing.dot(arc.second.at()).of("fillets.second").number(number);
        let middle = begin + sweep / 2.0;
        drawing.note_near(center, 0.0, middle + 180.0, Words::from(number));
        if number == 1 {
            drawing.radius(center, radius, vec![middle], words!("R {}": input.radius)).of("radius");
        }
    }
    drawing
}

/// The lines, long enough for what touches them.
fn lines(drawing: &mut Drawing, input: &FilletInput, result: &FilletResult) {
    let corner = match (&result.corner, input.corner_angle) {
        (Some(corner), _) => Some(corner.at()),
        (None, Some(_)) => Some((0.0, 0.0)),
        _ => None,
    };
    for (line, of, first) in [(&input.first_line, "first_line", true), (&input.second_line, "second_line", false)] {
        let touches = result.fillets.iter().map(|arc| if first { arc.first.at() } else { arc.second.at() });
        let mut on: Vec<Point> = Vec::new();
        match (line, corner) {
            (Some(line), _) => on.extend(line.0.iter().map(metres)),
            (None, Some(_)) if input.corner_angle.is_some() => {}
            _ => continue,
        }
        on.extend(corner);
        on.extend(touches);
        // From one end to the other, by how far along the direction of the two that lie farthest apart.
        let far = |from: Point| on.iter().copied().max_by(|a, b| apart(from, *a).total_cmp(&apart(from, *b)));
        let Some(begin) = on.first().copied().and_then(far) else { continue };
        let Some(end) = far(begin) else { continue };
        let beyond = 0.3 * input.radius.si();
        let way = direction(begin, end);
        // An edge ends at its corner.
        let edge = input.corner_angle.is_some();
        let (begin, end) = if edge && apart(end, (0.0, 0.0)) == 0.0 { (end, begin) } else { (begin, end) };
        let way = if edge { direction(begin, end) } else { way };
        let from = if edge { begin } else { on_circle(begin, beyond, way + 180.0) };
        drawing.line(Ink::Thin, from, on_circle(end, beyond, way)).of(of);
    }
}

fn apart(a: Point, b: Point) -> f64 {
    (b.0 - a.0).hypot(b.1 - a.1)
}
