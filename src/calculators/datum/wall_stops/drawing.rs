//! The walls from above, X to the right and Y up: the metal behind each, the cutter at its finishing stop,
//! and where the middle of it stops. Walls reach as far as the walls across them let see.

use super::{MaterialSide, Wall, WallStop, WallStopsInput, WallStopsResult};
use crate::arithmetic::touching::Axis;
use crate::drawing::{Beside, Drawing, Ink, Words, span, words};

/// Up to so many walls each has its stops written.
const WRITTEN: usize = 8;

/// Draws an answer.
pub fn draw(input: &WallStopsInput, result: &WallStopsResult) -> Drawing {
    let radius = input.cutter_diameter.si() / 2.0;
    let mut about = words!("A cutter {} in diameter at walls.": input.cutter_diameter);
    for stop in result.stops.iter().take(12) {
        let name = if stop.axis == Axis::XAxis.as_str() { "X" } else { "Y" };
        about = about.then(words!(" Wall {}: rough stop at {} {}, finishing stop at {}.":
            stop.number, name, stop.rough, stop.finish));
    }
    let mut drawing = Drawing::new("Stops at walls", about);

    let (across, up) = (spread(input, result, Axis::XAxis, radius), spread(input, result, Axis::YAxis, radius));
    let size = [across, up].into_iter().flatten().map(|(low, high)| high - low).fold(0.0, f64::max);
    let band = 0.1 * size;
    let (x, y) = (across.unwrap_or((0.0, 0.6 * size)), up.unwrap_or((0.0, 0.6 * size)));
    // Walls of the other axis, where there are any, end a wall.
    let reach = |axis: Axis| if axis == Axis::XAxis { y } else { x };
    let walls = || input.walls.0.iter().zip(&result.stops);
    let point = |axis: Axis, on: f64, along: f64| if axis == Axis::XAxis { (on, along) } else { (along, on) };
    for (wall, stop) in walls() {
        let (from, to) = reach(wall.axis);
        let place = wall.place.si();
        let deep = between(input, wall).unwrap_or(band);
        let behind = if wall.material_side == MaterialSide::Plus { place + deep } else { place - deep };
        let metal = [(place, from), (place, to), (behind, to), (behind, from)];
        let metal = metal.map(|(on, along)| point(wall.axis, on, along));
        drawing.closed(Ink::Tint, metal.to_vec());
        drawing.line(Ink::Outline, metal[0], metal[1]).of("walls.place").number(stop.number);
    }
    for (wall, stop) in walls() {
        let (from, to) = reach(wall.axis);
        let (finish, rough) = (stop.finish.si(), stop.rough.si());
        let middle = point(wall.axis, finish, (from + to) / 2.0);
        drawing.circle(Ink::Thin, middle, radius).of("cutter_diameter").number(stop.number);
        let ends = |on: f64| (point(wall.axis, on, from), point(wall.axis, on, to));
        let (low, high) = ends(finish);
        drawing.line(Ink::Centre, low, high).of("stops.finish").number(stop.number);
        if rough != finish {
            let (low, high) = ends(rough);
            drawing.line(Ink::Dashed, low, high).of("stops.rough").number(stop.number);
        }
    }
    if result.stops.len() <= WRITTEN {
        walls().for_each(|(wall, stop)| read(&mut drawing, wall, stop, (x, y)));
    }
    drawing
}

/// Half the metal between a wall and the next that has it on its other side, as of a tongue.
fn between(input: &WallStopsInput, wall: &Wall) -> Option<f64> {
    let apart = |other: &Wall| match wall.material_side {
        MaterialSide::Plus => other.place.si() - wall.place.si(),
        MaterialSide::Minus => wall.place.si() - other.place.si(),
    };
    let others = input.walls.0.iter().filter(|other| other.axis == wall.axis && apart(other) > 0.0);
    let next = others.min_by(|a, b| apart(a).total_cmp(&apart(b)))?;
    (next.material_side != wall.material_side).then(|| apart(next) / 2.0)
}

/// The stops of a wall, read off on the left for Y; for X below, or above where the metal is on the plus
/// side, so that the words of walls that face each other do not meet.
fn read(drawing: &mut Drawing, wall: &Wall, stop: &WallStop, (x, y): ((f64, f64), (f64, f64))) {
    let (rough, on) = (stop.rough.si(), stop.finish.si());
    let rough = if rough == on { Words::default() } else { words!("rough {}\n": stop.rough) };
    let words = rough.then(words!("finish {}": stop.finish));
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
    let (first, stop) = walls().next()?;
    let (low, high) = span(walls().map(|(wall, _)| wall.place.si()));
    if low < high {
        return Some((low, high));
    }
    let stop = stop.rough.si();
    Some(match first.material_side {
        MaterialSide::Minus => (low, stop + 0.8 * radius),
        MaterialSide::Plus => (stop - 0.8 * radius, high),
    })
}
