//! The walls from above, X to the right and Y up: the metal behind each, the cutter at its finishing stop,
//! and where the middle of it stops. Walls reach as far as the walls across them let see.

use super::{MaterialSide, Wall, WallStop, WallStopsInput, WallStopsResult};
use crate::arithmetic::touching::Axis;
use crate::drawing::{Beside, Drawing, Ink, Point, Words};
use crate::quantity::SiValue;

/// Up to so many walls each has its stops written.
const WRITTEN: usize = 8;

/// Draws an answer.
pub fn draw(input: &WallStopsInput, result: &WallStopsResult) -> Drawing {
    let radius = input.cutter_diameter.get().si() / 2.0;
    let mut about = Words::of("A cutter ").value(input.cutter_diameter).then(" in diameter at walls.");
    for stop in result.stops.iter().take(12) {
        let name = if stop.axis == Axis::XAxis.as_str() { "X" } else { "Y" };
        about = about
            .then(format!(" Wall {}: rough stop at {name} ", stop.number))
            .value(stop.rough)
            .then(", finishing stop at ")
            .value(stop.finish)
            .then(".");
    }
    let mut drawing = Drawing::new("Stops at walls", about);

    let (across, up) = (spread(input, result, Axis::XAxis, radius), spread(input, result, Axis::YAxis, radius));
    let size = [across, up].into_iter().flatten().map(|(low, high)| high - low).fold(0.0, f64::max);
    let band = 0.1 * size;
    let (x, y) = (across.unwrap_or((0.0, 0.6 * size)), up.unwrap_or((0.0, 0.6 * size)));
    // Walls of the other axis, where there are any, end a wall.
    let reach = |axis: Axis| if axis == Axis::XAxis { y } else { x };
    let point = |axis: Axis, on: f64, along: f64| if axis == Axis::XAxis { (on, along) } else { (along, on) };
    for (wall, number) in input.walls.0.iter().zip(1..) {
        let (from, to) = reach(wall.axis);
        let place = wall.place.get().si();
        let deep = between(input, wall).unwrap_or(band);
        let behind = if wall.material_side == MaterialSide::Plus { place + deep } else { place - deep };
        let metal = [(place, from), (place, to), (behind, to), (behind, from)];
        drawing.closed(Ink::Tint, metal.map(|(on, along)| point(wall.axis, on, along)).to_vec());
        let ends: [Point; 2] = [point(wall.axis, place, from), point(wall.axis, place, to)];
        drawing.line(Ink::Outline, ends[0], ends[1]).of("walls.place").number(number);
    }
    for (wall, stop) in input.walls.0.iter().zip(&result.stops) {
        let (from, to) = reach(wall.axis);
        let (finish, rough) = (stop.finish.get().si(), stop.rough.get().si());
        drawing
            .circle(Ink::Thin, point(wall.axis, finish, (from + to) / 2.0), radius)
            .of("cutter_diameter")
            .number(stop.number);
        drawing
            .line(Ink::Centre, point(wall.axis, finish, from), point(wall.axis, finish, to))
            .of("stops.finish")
            .number(stop.number);
        if rough != finish {
            drawing
                .line(Ink::Dashed, point(wall.axis, rough, from), point(wall.axis, rough, to))
                .of("stops.rough")
                .number(stop.number);
        }
    }
    if result.stops.len() <= WRITTEN {
        for (wall, stop) in input.walls.0.iter().zip(&result.stops) {
            read(&mut drawing, wall, stop, (x, y));
        }
    }
    drawing
}

/// Half the metal between a wall and the next that has it on its other side, as of a tongue.
fn between(input: &WallStopsInput, wall: &Wall) -> Option<f64> {
    let place = |wall: &Wall| wall.place.get().si();
    let apart = |other: &Wall| match wall.material_side {
        MaterialSide::Plus => place(other) - place(wall),
        MaterialSide::Minus => place(wall) - place(other),
    };
    let others = input.walls.0.iter().filter(|other| other.axis == wall.axis && apart(other) > 0.0);
    let next = others.min_by(|a, b| apart(a).total_cmp(&apart(b)))?;
    (next.material_side != wall.material_side).then(|| apart(next) / 2.0)
}

/// The stops of a wall, read off on the left for Y; for X below, or above where the metal is on the plus
/// side, so that the words of walls that face each other do not meet.
fn read(drawing: &mut Drawing, wall: &Wall, stop: &WallStop, (x, y): ((f64, f64), (f64, f64))) {
    let mut words = Words::default();
    if stop.rough.get() != stop.finish.get() {
        words = words.then("rough ").value(stop.rough).then("\n");
    }
    let words = words.then("finish ").value(stop.finish);
    let on = stop.finish.get().si();
    let mark = if wall.axis == Axis::XAxis {
        let (edge, by) = if wall.material_side == MaterialSide::Plus { (y.1, 14.0) } else { (y.0, -14.0) };
        drawing.x_reading((on, edge), Beside { from: edge, by }, words)
    } else {
        drawing.y_reading((x.0, on), Beside { from: x.0, by: -14.0 }, words)
    };
    mark.of("stops.finish").number(stop.number);
}

/// From where to where what lies across an axis is shown; `None` without walls there. From wall to wall; of
/// a single one, from its metal to beyond the cutter.
fn spread(input: &WallStopsInput, result: &WallStopsResult, axis: Axis, radius: f64) -> Option<(f64, f64)> {
    let walls = || input.walls.0.iter().zip(&result.stops).filter(move |(wall, _)| wall.axis == axis);
    let places = || walls().map(|(wall, _)| wall.place.get().si());
    let (first, stop) = walls().next()?;
    let (low, high) = (places().fold(f64::INFINITY, f64::min), places().fold(f64::NEG_INFINITY, f64::max));
    if low < high {
        return Some((low, high));
    }
    let stop = stop.rough.get().si();
    Some(match first.material_side {
        MaterialSide::Minus => (low, stop + 0.8 * radius),
        MaterialSide::Plus => (stop - 0.8 * radius, high),
    })
}
