//! The way through the places from above, X to the right and Y up, with the numbers they were given.

use super::{VisitOrderInput, VisitOrderResult};
use crate::arithmetic::touching::metres;
use crate::drawing::{Drawing, Point, Words, every, free_side, words};

/// Draws an answer.
pub fn draw(input: &VisitOrderInput, result: &VisitOrderResult) -> Drawing {
    let places: Vec<Point> = result.places.iter().map(|place| (place.x.si(), place.y.si())).collect();
    let (start, finish) = (input.start.as_ref().map(metres), input.finish.as_ref().map(metres));
    let way: Vec<Point> = start.into_iter().chain(places.iter().copied()).chain(finish).collect();
    let order: Vec<String> = result.order.iter().take(40).map(u32::to_string).collect();
    let so_on = if result.order.len() > order.len() { " and so on" } else { "" };
    let about = words!("The way through {} places, in the order {}{}, {} long; in the order given it would be {}.":
        places.len(), order.join(", "), so_on, result.length, result.length_as_given);
    let mut drawing = Drawing::new("Way through the places", about);

    drawing.way(&way);
    for (at, place) in places.iter().zip(&result.places) {
        drawing.dot(*at).of("places").number(place.number);
    }
    for (end, name) in [(start, "start"), (finish, "finish")] {
        if let Some(end) = end {
            drawing.crossed_dot(name, end);
        }
    }
    let every = every(places.len());
    for (at, place) in result.places.iter().enumerate() {
        let (first, last) = (at == 0, at + 1 == places.len());
        let words = match (first, last) {
            (true, false) if start.is_none() => words!("{} first": place.number),
            (false, true) if finish.is_none() => words!("{} last": place.number),
            _ => Words::from(place.number),
        };
        let towards = free_side(&way, at + usize::from(start.is_some()));
        if first || last {
            drawing.note_near(places[at], 0.0, towards, words);
        } else if at % every == 0 {
            drawing.note_beside(places[at], 0.0, towards, words);
        }
    }
    for (end, name, at) in [(start, "start", 0), (finish, "finish", way.len() - 1)] {
        if let Some(end) = end {
            drawing.note_near(end, 0.0, free_side(&way, at), name);
        }
    }
    drawing
}
