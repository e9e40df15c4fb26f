//! The points before, dashed, and after, on the readings of both: X to the right, Y up. Too many to be
//! joined, those before are crosses.

use super::{TurnAndShiftInput, TurnAndShiftResult};
use crate::arithmetic::touching::metres;
use crate::drawing::{Drawing, Ink, Point, Reach, Words, direction, every, middle, on_circle, span, words};

/// Up to so many points they are joined in their order, and each with where it comes from.
const JOINED: usize = 12;

/// Draws an answer.
pub fn draw(input: &TurnAndShiftInput, result: &TurnAndShiftResult) -> Drawing {
    let before: Vec<Point> = input.points.0.iter().map(metres).collect();
    let after: Vec<Point> = result.positions.iter().map(|place| (place.x.si(), place.y.si())).collect();
    let mut about = words!("{} points before and after": before.len());
    if let Some(turn) = input.angle {
        about = about.then(words!(", turned by {}": turn));
    }
    about = about.then(".");
    for place in result.positions.iter().take(12) {
        about = about.then(words!(" Point {} is at X {}, Y {}.": place.number, place.x, place.y));
    }
    let mut drawing = Drawing::new("Points turned and shifted", about);

    let all = || before.iter().chain(&after);
    let ((left, right), (low, high)) = (span(all().map(|point| point.0)), span(all().map(|point| point.1)));
    let size = (right - left).max(high - low);
    let moved = before.iter().zip(&after).any(|(a, b)| a != b);
    let joined = before.len() <= JOINED;
    if joined {
        drawing.closed(Ink::Outline, after.clone());
    }
    drawing.dots("positions", &after);
    if moved && joined {
        drawing.closed(Ink::Dashed, before.clone());
        for ((from, to), number) in before.iter().zip(&after).zip(1..) {
            drawing.leg(Ink::Thin, *from, *to);
            drawing.dot(*from).of("points").number(number);
        }
    } else if moved {
        // Many are told apart by their marks alone.
        for from in &before {
            drawing.cross(*from, 0.0);
        }
    }
    let zero_near = all().map(|point| point.0.hypot(point.1)).fold(f64::INFINITY, f64::min) <= 1.5 * size;
    if zero_near {
        drawing.cross((0.0, 0.0), 0.08 * size);
    }
    // What lay along X lies along this now.
    let turn = input.angle.filter(|angle| angle.degrees() != 0.0 && angle.degrees().abs() < 360.0);
    if let (Some(turn), Some(from)) = (turn, after.first())
        && size > 0.0
    {
        for degrees in [0.0, turn.degrees()] {
            drawing.line(Ink::Centre, *from, on_circle(*from, 0.45 * size, degrees));
        }
        drawing.angle(*from, 0.0, turn.degrees(), Reach::Model(0.4 * size), turn).of("angle");
    }
    let (inside, was) = (middle(&after), middle(&before));
    for (point, place) in after.iter().zip(&result.positions).step_by(every(after.len())) {
        let mut words = Words::from(place.number);
        if after.len() <= 4 {
            words = words.then(words!("\nX {}\nY {}": place.x, place.y));
        }
        drawing.note_near(*point, 0.0, direction(inside, *point), words);
    }
    if moved && joined {
        for (at, point) in before.iter().enumerate() {
            drawing.note_near(*point, 0.0, direction(was, *point), words!("{} before": at + 1));
        }
    }
    if zero_near {
        drawing.note_beside((0.0, 0.0), 0.0, 225.0, "0, 0");
    }
    drawing
}
