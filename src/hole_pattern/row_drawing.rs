//! Rows of holes as they lie on the part: X to the right, Y up.

use super::hole::PatternHole;
use super::rows::{LaidRows, RowsOnPart};
use crate::drawing::{Drawing, Ink, Point, Reach, Words, direction, every, middle, on_circle, span, words};

/// Draws a pattern of rows; `about` says what it is.
pub fn draw_rows(title: &'static str, about: Words, on_part: &RowsOnPart, laid: &LaidRows) -> Drawing {
    let holes = &laid.positions;
    let mut about = about;
    for hole in holes.iter().take(12) {
        about = about.then(words!(" Hole {} at X {}, Y {}.": hole.number, hole.x, hole.y));
    }
    let mut drawing = Drawing::new(title, about);
    let at: Vec<Point> = holes.iter().map(PatternHole::at).collect();
    let ((left, right), (low, high)) = (span(at.iter().map(|at| at.0)), span(at.iter().map(|at| at.1)));
    let size = (right - left).max(high - low);
    let radius = on_part.hole_diameter.map_or(0.0, |diameter| diameter.si() / 2.0);
    if let Some([a, b]) = on_part.part.as_ref().map(|part| part.0.as_slice()) {
        drawing.block(Ink::Outline, (a.x.si(), a.y.si()), (b.x.si(), b.y.si()));
    }
    for hole in holes {
        if radius > 0.0 {
            drawing.circle(Ink::Outline, hole.at(), radius).of("positions").number(hole.number);
            if holes.len() <= 60 {
                drawing.cross(hole.at(), radius);
            }
        } else {
            drawing.dot(hole.at()).of("positions").number(hole.number);
        }
    }
    let zero_near = at.iter().map(|at| at.0.hypot(at.1)).fold(f64::INFINITY, f64::min) <= 1.5 * size;
    if zero_near && at.iter().all(|at| *at != (0.0, 0.0)) {
        drawing.dot((0.0, 0.0)).of("datum");
        drawing.cross((0.0, 0.0), 0.0);
    }
    turn(&mut drawing, on_part, holes, size);
    let place = |number: u32| holes.iter().find(|hole| hole.number == number).map(PatternHole::at);
    let inside = middle(&at);
    // Neighbors along the rows and across them; what stands at the ends is in the table.
    for (check, number) in laid.checks.iter().zip(1..).take(2) {
        let (Some(a), Some(b)) = (place(check.from), place(check.to)) else { continue };
        if a != b && holes.len() <= 200 {
            let turns_left = (b.0 - a.0) * (inside.1 - a.1) - (b.1 - a.1) * (inside.0 - a.0) > 0.0;
            let by = if turns_left { -30.0 } else { 30.0 };
            drawing.along(a, b, by, check.centers).of("checks.centers").number(number);
        }
    }
    for (hole, row) in holes.iter().step_by(every(holes.len())).zip(0..) {
        let first = if row == 0 && holes.len() > 1 { " first" } else { "" };
        drawing.note_near(hole.at(), radius, direction(inside, hole.at()), words!("{}{}": hole.number, first));
    }
    if let (Some(diameter), Some(hole)) = (on_part.hole_diameter, holes.last()) {
        let away = if holes.len() > 1 { direction(inside, hole.at()) } else { 45.0 };
        let words = words!("{} × Ø {}": holes.len(), diameter);
        drawing.leader(on_circle(hole.at(), radius, away), away, words).of("hole_diameter");
    }
    if zero_near {
        drawing.note_near((0.0, 0.0), 0.0, 225.0, "0, 0");
    }
    drawing
}

/// How far the rows are turned.
fn turn(drawing: &mut Drawing, on_part: &RowsOnPart, holes: &[PatternHole], size: f64) {
    let turned = on_part.rotation.filter(|turn| turn.degrees() != 0.0 && turn.degrees().abs() < 360.0);
    let (Some(turned), Some(first)) = (turned, holes.first()) else { return };
    if size > 0.0 {
        for degrees in [0.0, turned.degrees()] {
            drawing.line(Ink::Centre, first.at(), on_circle(first.at(), 0.45 * size, degrees));
        }
        drawing.angle(first.at(), 0.0, turned.degrees(), Reach::Model(0.4 * size), turned).of("rotation");
    }
}
