//! The moves from above, X to the right and Y up, from the datum where it lies near the places.

use super::{MoveListInput, MoveListResult};
use crate::drawing::{Drawing, Ink, Point, Words, every, free_side, middle, words};

/// Up to so many moves each has its distance written.
const WRITTEN: usize = 8;

/// Draws an answer.
pub fn draw(_: &MoveListInput, result: &MoveListResult) -> Drawing {
    let places: Vec<Point> = result.moves.iter().map(|place| (place.x.si(), place.y.si())).collect();
    let mut about = words!("{} moves, {} in all.": places.len(), result.total.distance);
    // Beyond a dozen the table is the better thing to listen to.
    for listed in result.moves.iter().take(12) {
        about = about.then(words!(" Place {} at X {}, Y {}.": listed.number, listed.x, listed.y));
    }
    let mut drawing = Drawing::new("Moves from place to place", about);

    let middle = middle(&places);
    let reach = places.iter().map(|p| (p.0 - middle.0).hypot(p.1 - middle.1)).fold(0.0, f64::max);
    let datum_near = middle.0.hypot(middle.1) <= 4.0 * reach;
    let way: Vec<Point> = datum_near.then_some((0.0, 0.0)).into_iter().chain(places.iter().copied()).collect();
    let written = places.len() <= WRITTEN;
    for (pair, at) in way.windows(2).zip(usize::from(!datum_near)..) {
        if written && pair[0] != pair[1] {
            let distance = result.moves[at].distance;
            drawing.leg_of(Ink::Thin, pair[0], pair[1], distance).of("moves.distance").number(at as u32 + 1);
        } else {
            drawing.leg(Ink::Thin, pair[0], pair[1]).of("way");
        }
    }
    if datum_near {
        drawing.crossed_dot("datum", (0.0, 0.0));
    }
    drawing.dots("moves", &places);
    for (at, listed) in result.moves.iter().enumerate().step_by(every(places.len())) {
        // Its number, and where to go past it first.
        let mut words = Words::from(listed.number);
        for (axis, past) in [("X", listed.past_x), ("Y", listed.past_y)] {
            if let Some(past) = past.filter(|_| written) {
                words = words.then(words!("\npast {} {}": axis, past));
            }
        }
        drawing.note_near(places[at], 0.0, free_side(&way, at + usize::from(datum_near)), words);
    }
    if datum_near {
        drawing.note_near((0.0, 0.0), 0.0, free_side(&way, 0), "0, 0");
    }
    drawing
}
