//! The moves from above, X to the right and Y up, from the datum where it lies near the places.

use super::{ListedMove, MoveListInput, MoveListResult};
use crate::drawing::{Drawing, Ink, Point, Words, every, free_side};
use crate::quantity::SiValue;

/// Up to so many moves each has its distance written.
const WRITTEN: usize = 8;

/// Draws an answer.
pub fn draw(_: &MoveListInput, result: &MoveListResult) -> Drawing {
    let places: Vec<Point> = result.moves.iter().map(|place| (place.x.get().si(), place.y.get().si())).collect();
    let mut drawing = Drawing::new("Moves from place to place", about(result));

    let middle = {
        let count = places.len().max(1) as f64;
        (places.iter().map(|p| p.0).sum::<f64>() / count, places.iter().map(|p| p.1).sum::<f64>() / count)
    };
    let reach = places.iter().map(|p| (p.0 - middle.0).hypot(p.1 - middle.1)).fold(0.0, f64::max);
    let datum_near = middle.0.hypot(middle.1) <= 4.0 * reach;
    let way: Vec<Point> = datum_near.then_some((0.0, 0.0)).into_iter().chain(places.iter().copied()).collect();
    let at_place = |at: usize| at + usize::from(datum_near);
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
        drawing.cross((0.0, 0.0), 0.0);
        drawing.dot((0.0, 0.0)).of("datum");
    }
    for (at, number) in places.iter().zip(1..) {
        drawing.dot(*at).of("moves").number(number);
    }
    let every = every(places.len());
    for (at, listed) in result.moves.iter().enumerate().filter(|(at, _)| at % every == 0) {
        let words = note(listed, written);
        drawing.note_near(places[at], 0.0, free_side(&way, at_place(at)), words);
    }
    if datum_near {
        drawing.note_near((0.0, 0.0), 0.0, free_side(&way, 0), Words::of("0, 0"));
    }
    drawing
}

/// The number of a place, and where to go past it first.
fn note(listed: &ListedMove, with_past: bool) -> Words {
    let mut words = Words::of(listed.number.to_string());
    for (axis, past) in [("X", listed.past_x), ("Y", listed.past_y)] {
        if let Some(past) = past.filter(|_| with_past) {
            words = words.then(format!("\npast {axis} ")).value(past);
        }
    }
    words
}

fn about(result: &MoveListResult) -> Words {
    let mut about = Words::of(format!("{} moves, ", result.moves.len())).value(result.total.distance).then(" in all.");
    // Beyond a dozen the table is the better thing to listen to.
    for listed in result.moves.iter().take(12) {
        about = about
            .then(format!(" Place {} at X ", listed.number))
            .value(listed.x)
            .then(", Y ")
            .value(listed.y)
            .then(".");
    }
    about
}
