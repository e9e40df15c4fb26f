//! The circle through the touches, from above with X to the right and Y up: what was touched of it as a
//! full line, the rest dashed where less than half was.

use super::{RoundFound, RoundTouches};
use crate::arithmetic::touching::{Feature, across, metres};
use crate::drawing::{Beside, Drawing, Ink, Point, Words, direction, every, on_circle, words};
use crate::quantity::FoundPlace;

/// Up to so many touches each has its residual written.
const WRITTEN: usize = 12;

/// Draws an answer with its center.
pub fn draw_touches(
    title: &'static str,
    input: &RoundTouches,
    result: &RoundFound,
    center: [FoundPlace; 2],
) -> Drawing {
    let centre = (center[0].si(), center[1].si());
    let (radius, tip) = (result.diameter.si() / 2.0, across(input.tip_diameter) / 2.0);
    let touches: Vec<Point> = input.points.0.iter().map(metres).collect();
    let mut drawing = Drawing::new(title, about(input, result, center));

    // A circle as corners near enough together, one way round or the other.
    let round = |radius: f64, sense: f64| -> Vec<Point> {
        (0..=72).map(|step| on_circle(centre, radius, f64::from(step) * 5.0 * sense)).collect()
    };
    if let Some(feature) = input.feature {
        let outer = (radius * 1.14).max(radius + tip * 0.2);
        let outside = if feature == Feature::Bore { round(outer, -1.0) } else { Vec::new() };
        drawing.closed(Ink::Tint, [round(radius, 1.0), outside].concat());
    }
    let sweep = result.arc_angle.degrees();
    if sweep >= 180.0 {
        drawing.circle(Ink::Outline, centre, radius).of("diameter");
    } else {
        let from = begin(&touches, centre);
        drawing.arc(Ink::Outline, centre, radius, from, sweep).of("touched");
        drawing.arc(Ink::Dashed, centre, radius, from + sweep, 360.0 - sweep).of("untouched");
    }
    for (touch, number) in touches.iter().zip(1..) {
        drawing.touch(*touch, tip).of("points").number(number);
    }
    drawing.dot(centre).of("center");
    drawing.cross(centre, radius * 0.12);

    for (at, touch) in touches.iter().enumerate().step_by(every(touches.len())) {
        let mut words = Words::from(at + 1);
        if result.out_of_round.is_some() && touches.len() <= WRITTEN {
            words = words.then(words!("\n{}": result.residuals[at]));
        }
        // In a bore there is room on the way to the center.
        let inwards = if input.feature == Some(Feature::Boss) { 0.0 } else { 180.0 };
        drawing.note_near(*touch, tip, direction(centre, *touch) + inwards, words);
    }
    let below = Beside { from: centre.1 - radius, by: -24.0 };
    let (left, right) = ((centre.0 - radius, centre.1), (centre.0 + radius, centre.1));
    drawing.across(left, right, below, words!("Ø {}": result.diameter)).of("diameter");
    // Towards where nothing was touched.
    let towards = begin(&touches, centre) - (360.0 - sweep) / 2.0;
    drawing.leader(centre, towards, words!("X {}\nY {}": center[0], center[1]));
    drawing
}

/// The direction of the touch that comes next, counter-clockwise, after the widest gap between two.
fn begin(touches: &[Point], centre: Point) -> f64 {
    let mut directions: Vec<f64> = touches.iter().map(|touch| direction(centre, *touch)).collect();
    directions.sort_by(f64::total_cmp);
    let last = directions.last().map_or(0.0, |last| last - 360.0);
    let before = std::iter::once(last).chain(directions.iter().copied());
    let gaps = before.zip(&directions).map(|(before, next)| (next - before, *next));
    gaps.max_by(|a, b| a.0.total_cmp(&b.0)).map_or(0.0, |(_, next)| next)
}

fn about(input: &RoundTouches, result: &RoundFound, center: [FoundPlace; 2]) -> Words {
    let what = match input.feature {
        Some(Feature::Bore) => "A bore",
        Some(Feature::Boss) => "A boss",
        None => "A circle",
    };
    let about = words!("{} {} in diameter, from {} touches over {}. Its center is at X {}, Y {}, known to about {}":
        what, result.diameter, input.points.0.len(), result.arc_angle, center[0], center[1],
        result.center_uncertainty);
    match result.out_of_round {
        Some(form) => about.then(words!("; the touches are out of round by {}.": form)),
        None => about.then("."),
    }
}
