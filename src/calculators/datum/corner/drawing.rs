//! The corner from above, X to the right and Y up: both edges, the tip at each touch, the metal, and how
//! far the first edge is turned from its axis.

use super::{CornerInput, CornerResult};
use crate::arithmetic::touching::{Axis, Touched, across, metres};
use crate::calculators::prelude::*;
use crate::drawing::{Drawing, Ink, Point, Reach, Words, direction, on_circle, words};

/// An edge from the corner to beyond where it was touched.
struct Edge {
    field: &'static str,
    touches: Vec<Point>,
    /// Its direction, in degrees.
    towards: f64,
    /// The same, of length one.
    way: Point,
    length: f64,
    /// Where it begins: at the corner, or before it where a touch lies there.
    begins: f64,
}

impl Edge {
    fn new(field: &'static str, touches: Vec<Point>, run: Point, corner: Point, tip: f64) -> Self {
        let size = run.0.hypot(run.1);
        let along = |touch: &Point| ((touch.0 - corner.0) * run.0 + (touch.1 - corner.1) * run.1) / size;
        let far = touches.iter().map(along).fold(0.0, |far: f64, one| if one.abs() > far.abs() { one } else { far });
        let sense = if far < 0.0 { -1.0 } else { 1.0 };
        let begins = touches.iter().map(|touch| sense * along(touch)).fold(0.0, f64::min);
        let way = (sense * run.0 / size, sense * run.1 / size);
        let length = (1.2 * far.abs()).max(2.0 * tip);
        Self { field, towards: direction((0.0, 0.0), way), touches, way, length, begins }
    }
}

/// Both edges; one that was touched once lies square to the other.
fn edges(input: &CornerInput, corner: Point, tip: f64) -> (Edge, Edge) {
    let touches = |points: &Points| points.0.iter().map(metres).collect::<Vec<Point>>();
    let (one, two) = (touches(&input.first_edge), touches(&input.second_edge));
    let run = |touches: &[Point]| match touches {
        [a, b, ..] => Some((b.0 - a.0, b.1 - a.1)),
        _ => None,
    };
    let first = run(&one).unwrap_or((1.0, 0.0));
    let second = run(&two).unwrap_or((-first.1, first.0));
    (Edge::new("first_edge", one, first, corner, tip), Edge::new("second_edge", two, second, corner, tip))
}

/// Draws an answer.
pub fn draw(input: &CornerInput, result: &CornerResult) -> Drawing {
    let corner = (result.corner.x.si(), result.corner.y.si());
    let tip = across(input.tip_diameter) / 2.0;
    let (first, second) = edges(input, corner, tip);
    let mut drawing = Drawing::new("Corner from its edges", about(result));
    let at = |one: f64, two: f64| {
        (corner.0 + one * first.way.0 + two * second.way.0, corner.1 + one * first.way.1 + two * second.way.1)
    };
    if let Some(touched) = input.sides.filter(|_| tip > 0.0) {
        let (long, high) = (first.length, second.length);
        let wall = 0.14 * long.max(high);
        let metal = match touched {
            Touched::Outside => vec![at(0.0, 0.0), at(long, 0.0), at(long, high), at(0.0, high)],
            Touched::Inside => {
                let edges = [at(long, 0.0), at(0.0, 0.0), at(0.0, high)];
                [edges, [at(-wall, high), at(-wall, -wall), at(long, -wall)]].concat()
            }
        };
        drawing.closed(Ink::Tint, metal);
    }
    drawing.line(Ink::Outline, at(first.begins, 0.0), at(first.length, 0.0)).of("first_edge");
    drawing.line(Ink::Outline, at(0.0, second.begins), at(0.0, second.length)).of("second_edge");
    for edge in [&first, &second] {
        for (touch, number) in edge.touches.iter().zip(1..) {
            drawing.touch(*touch, tip).of(edge.field).number(number);
        }
    }
    drawing.dot(corner).of("corner");
    let turned = result.angle.degrees();
    if turned != 0.0 {
        // Of the axis's two directions, that which the edge follows from the corner.
        let along = input.along.unwrap_or_else(|| Axis::nearer(first.way.0, first.way.1));
        let axis = if along == Axis::XAxis { 0.0 } else { 90.0 };
        let apart = (axis + turned - first.towards).rem_euclid(360.0);
        let axis = if (90.0..270.0).contains(&apart) { axis + 180.0 } else { axis };
        drawing.line(Ink::Centre, corner, on_circle(corner, first.length, axis));
        drawing.angle(corner, axis, turned, Reach::Model(0.8 * first.length), result.angle).of("angle");
    }
    if let Some(between) = result.corner_angle {
        let sweep = (second.towards - first.towards + 540.0).rem_euclid(360.0) - 180.0;
        let reach = Reach::Model(0.3 * first.length.min(second.length));
        drawing.angle(corner, first.towards, between.degrees().copysign(sweep), reach, between).of("corner_angle");
    }
    let into = direction((0.0, 0.0), (first.way.0 + second.way.0, first.way.1 + second.way.1));
    drawing.leader(corner, into + 180.0, words!("X {}\nY {}": result.corner.x, result.corner.y));
    drawing
}

fn about(result: &CornerResult) -> Words {
    let about = words!("The corner is at X {}, Y {}; the first edge is turned by {}":
        result.corner.x, result.corner.y, result.angle);
    match result.corner_angle {
        Some(between) => about.then(words!(" and the edges meet at {}.": between)),
        None => about.then("."),
    }
}
