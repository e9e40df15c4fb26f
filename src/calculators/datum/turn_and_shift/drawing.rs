//! The points before, dashed, and after, on the readings of both: X to the right, Y up. Too many to be
//! joined, those before are crosses.

use super::{TurnAndShiftInput, TurnAndShiftResult};
use crate::arithmetic::touching::metres;
use crate::drawing::{Drawing, Ink, Point, Reach, Words, every};
use crate::quantity::{SiValue, angle};

/// Up to so many points they are joined in their order, and each with where it comes from.
const JOINED: usize = 12;

/// Draws an answer.
pub fn draw(input: &TurnAndShiftInput, result: &TurnAndShiftResult) -> Drawing {
    let before: Vec<Point> = input.points.0.iter().map(metres).collect();
    let after: Vec<Point> = result.positions.iter().map(|place| (place.x.get().si(), place.y.get().si())).collect();
    let mut about = Words::of(format!("{} points before and after", before.len()));
    if let Some(turn) = input.angle {
        about = about.then(", turned by ").value(turn);
    }
    about = about.then(".");
    for place in result.positions.iter().take(12) {
        about = about
            .then(format!(" Point {} is at X ", place.number))
            .value(place.x)
            .then(", Y ")
            .value(place.y)
            .then(".");
    }
    let mut drawing = Drawing::new("Points turned and shifted", about);

    let all = || before.iter().chain(&after);
    let span = |pick: fn(&Point) -> f64| {
        let low = all().map(pick).fold(f64::INFINITY, f64::min);
        all().map(pick).fold(f64::NEG_INFINITY, f64::max) - low
    };
    let size = span(|point| point.0).max(span(|point| point.1));
    let moved = before.iter().zip(&after).any(|(a, b)| a != b);
    let joined = before.len() <= JOINED;
    if joined {
        drawing.closed(Ink::Outline, after.clone());
    }
    for (at, number) in after.iter().zip(1..) {
        drawing.dot(*at).of("positions").number(number);
    }
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
        let (sin, cos) = angle::sin_cos(turn.degrees());
        let reach = 0.45 * size;
        drawing.line(Ink::Centre, *from, (from.0 + reach, from.1));
        drawing.line(Ink::Centre, *from, (from.0 + reach * cos, from.1 + reach * sin));
        drawing.angle(*from, 0.0, turn.degrees(), Reach::Model(0.4 * size), turn).of("angle");
    }
    let every = every(after.len());
    let (inside, was) = (middle(&after), middle(&before));
    for (at, point) in after.iter().enumerate().filter(|(at, _)| at % every == 0) {
        let mut words = Words::of((at + 1).to_string());
        if after.len() <= 4 {
            let place = &result.positions[at];
            words = words.then("\nX ").value(place.x).then("\nY ").value(place.y);
        }
        drawing.note_near(*point, 0.0, away(*point, inside), words);
    }
    if moved && joined {
        for (at, point) in before.iter().enumerate() {
            drawing.note_near(*point, 0.0, away(*point, was), Words::of(format!("{} before", at + 1)));
        }
    }
    if zero_near {
        drawing.note_beside((0.0, 0.0), 0.0, 225.0, Words::of("0, 0"));
    }
    drawing
}

fn middle(points: &[Point]) -> Point {
    let count = points.len().max(1) as f64;
    (points.iter().map(|p| p.0).sum::<f64>() / count, points.iter().map(|p| p.1).sum::<f64>() / count)
}

/// The direction of a point from the middle of all, in degrees.
fn away(point: Point, middle: Point) -> f64 {
    (point.1 - middle.1).atan2(point.0 - middle.0).to_degrees()
}
