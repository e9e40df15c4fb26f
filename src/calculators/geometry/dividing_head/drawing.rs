//! The index plate of the first way: its circle of holes, the sector arms, and which way the pin goes.

use super::moves::IndexMethod;
use super::rows::sector_angle;
use super::{DividingHeadInput, DividingHeadResult};
use crate::drawing::{Drawing, Ink, Reach, Words, on_circle, words};

/// Radius of the circle of holes, in meters.
const CIRCLE: f64 = 0.05;
/// Radius of the second circle of compound indexing.
const SECOND: f64 = 0.036;
/// Radius of the plate.
const PLATE: f64 = 0.06;
/// Where the pin begins, in degrees.
const TOP: f64 = 90.0;

/// Draws an answer.
pub fn draw(_: &DividingHeadInput, result: &DividingHeadResult) -> Drawing {
    let way = &result.ways[0];
    let about = words!("An index plate. One step of {} is ": result.step_angle).then(way.setting.clone()).then(".");
    let mut drawing = Drawing::new("Index plate", about);
    drawing.circle(Ink::Outline, (0.0, 0.0), PLATE);
    drawing.cross((0.0, 0.0), 0.0);
    let Some(circle) = way.circle else {
        drawing.circle(Ink::Centre, (0.0, 0.0), CIRCLE);
        drawing.turning((0.0, 0.0), TOP, -300.0, Reach::Model(0.5 * CIRCLE));
        drawing.note_kept((0.0, -PLATE), 0.0, 270.0, Words::of(way.setting.clone()));
        return drawing;
    };
    let place =
        |radius: f64, hole: u32, of: u32| on_circle((0.0, 0.0), radius, TOP - 360.0 * f64::from(hole) / f64::from(of));
    drawing.circle(Ink::Centre, (0.0, 0.0), CIRCLE);
    for hole in 0..circle {
        drawing.dot(place(CIRCLE, hole, circle));
    }
    if let Some(second) = way.second_circle {
        drawing.circle(Ink::Centre, (0.0, 0.0), SECOND);
        for hole in 0..second {
            drawing.dot(place(SECOND, hole, second));
        }
    }
    drawing.note_kept((0.0, -PLATE), 0.0, 270.0, Words::of(format!("circle of {circle}")));
    if way.holes > 0 {
        for hole in [0, way.holes] {
            drawing.line(Ink::Outline, (0.0, 0.0), place(PLATE, hole, circle)).of("sector_arm");
        }
        let swept = sector_angle(circle, way.holes);
        // A direct plate has no arms: its holes span the step itself.
        let of = if way.method == IndexMethod::Direct { "step_angle" } else { "sector_angle" };
        if swept.degrees() < 360.0 {
            let reach = Reach::Model(0.45 * CIRCLE);
            drawing.angle((0.0, 0.0), TOP - swept.degrees(), swept.degrees(), reach, swept).of(of);
        }
        drawing.note_beside(place(PLATE, 0, circle), 0.0, TOP, Words::of("pin"));
        let end = TOP - swept.degrees();
        drawing.note_beside(place(PLATE, way.holes, circle), 0.0, end, words!("hole {}": way.holes));
    }
    drawing
}
