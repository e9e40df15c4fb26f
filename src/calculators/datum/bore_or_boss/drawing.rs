//! The circle through the touches, from above with X to the right and Y up: what was touched of it as a
//! full line, the rest dashed where less than half was.

use super::{BoreOrBossInput, BoreOrBossResult};
use crate::arithmetic::touching::{Feature, across, metres};
use crate::drawing::{Beside, Drawing, Ink, Point, Words};
use crate::quantity::{SiValue, angle};

/// Up to so many touches each has its residual written.
const WRITTEN: usize = 12;

/// Draws an answer.
pub fn draw(input: &BoreOrBossInput, result: &BoreOrBossResult) -> Drawing {
    let centre = (result.center.x.get().si(), result.center.y.get().si());
    let (radius, tip) = (result.diameter.get().si() / 2.0, across(input.tip_diameter) / 2.0);
    let touches: Vec<Point> = input.points.0.iter().map(metres).collect();
    let mut drawing = Drawing::new("Centre of a bore or boss", about(input, result));

    match input.feature {
        Some(Feature::Bore) => {
            let outer = (radius * 1.14).max(radius + tip * 0.2);
            drawing.closed(Ink::Tint, [round(centre, radius, 1.0), round(centre, outer, -1.0)].concat());
        }
        Some(Feature::Boss) => {
            drawing.closed(Ink::Tint, round(centre, radius, 1.0));
        }
        None => {}
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
        if tip > 0.0 {
            drawing.circle(Ink::Thin, *touch, tip).of("tip_diameter");
        }
        drawing.dot(*touch).of("points").number(number);
    }
    drawing.dot(centre).of("center");
    drawing.cross(centre, radius * 0.12);

    let every = crate::drawing::every(touches.len());
    for (at, touch) in touches.iter().enumerate().filter(|(at, _)| at % every == 0) {
        let (dx, dy) = (touch.0 - centre.0, touch.1 - centre.1);
        let mut words = Words::of((at + 1).to_string());
        if touches.len() > 3 && touches.len() <= WRITTEN {
            words = words.then("\n").value(result.residuals[at]);
        }
        // In a bore there is room on the way to the centre.
        let inwards = if input.feature == Some(Feature::Boss) { 0.0 } else { 180.0 };
        drawing.note_near(*touch, tip, dy.atan2(dx).to_degrees() + inwards, words);
    }
    let below = Beside { from: centre.1 - radius, by: -24.0 };
    let words = Words::of("Ø ").value(result.diameter);
    drawing.across((centre.0 - radius, centre.1), (centre.0 + radius, centre.1), below, words).of("diameter");
    // Towards where nothing was touched.
    let towards = begin(&touches, centre) - (360.0 - sweep) / 2.0;
    let words = Words::of("X ").value(result.center.x).then("\nY ").value(result.center.y);
    drawing.leader(centre, towards, words);
    drawing
}

/// A circle as corners near enough together, one way round or the other.
fn round(centre: Point, radius: f64, sense: f64) -> Vec<Point> {
    let corner = |step: i32| {
        let (sin, cos) = angle::sin_cos(f64::from(step) * 5.0 * sense);
        (centre.0 + radius * cos, centre.1 + radius * sin)
    };
    (0..=72).map(corner).collect()
}

/// The direction of the touch that comes next, counter-clockwise, after the widest gap between two.
fn begin(touches: &[Point], centre: Point) -> f64 {
    let direction = |touch: &Point| (touch.1 - centre.1).atan2(touch.0 - centre.0).to_degrees();
    let mut directions: Vec<f64> = touches.iter().map(direction).collect();
    directions.sort_by(f64::total_cmp);
    let last = directions.last().map_or(0.0, |last| last - 360.0);
    let before = std::iter::once(last).chain(directions.iter().copied());
    let gaps = before.zip(&directions).map(|(before, next)| (next - before, *next));
    gaps.max_by(|a, b| a.0.total_cmp(&b.0)).map_or(0.0, |(_, next)| next)
}

fn about(input: &BoreOrBossInput, result: &BoreOrBossResult) -> Words {
    let count = input.points.0.len();
    let what = match input.feature {
        Some(Feature::Bore) => "A bore ",
        Some(Feature::Boss) => "A boss ",
        None => "A circle ",
    };
    let about = Words::of(what)
        .value(result.diameter)
        .then(format!(" in diameter, from {count} touches over "))
        .value(result.arc_angle)
        .then(". Its centre is at X ")
        .value(result.center.x)
        .then(", Y ")
        .value(result.center.y)
        .then(", known to about ")
        .value(result.center_uncertainty);
    match result.out_of_round {
        Some(form) => about.then("; the touches are out of round by ").value(form).then("."),
        None => about.then("."),
    }
}
