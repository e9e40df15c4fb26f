//! The dovetail in section with its pins, the middle of the flat with the pins at zero.

use super::{DovetailHalf, DovetailInput, DovetailResult};
use crate::calculators::prelude::*;
use crate::drawing::{Beside, Drawing, Ink, Point, Reach, on_circle, words};

/// Draws an answer.
pub fn draw(input: &DovetailInput, result: &DovetailResult) -> Drawing {
    let flank = input.flank_angle(&mut Record::of_result_alone());
    let male = input.half == DovetailHalf::Male;
    let pin = input.pin_diameter.si();
    let half = result.corner_width.si() / 2.0;
    // Without a depth the flank goes a little past the pins.
    let high = input.depth.map_or(1.2 * pin, |depth| depth.si());
    let outwards = if male { 1.0 } else { -1.0 };
    let far = half + outwards * high / angle::tan(flank.degrees());
    let name = if male { "A male" } else { "A female" };
    let about = words!("{} dovetail of {}, {} wide at the pins' corners, with pins {} in diameter.":
        name, flank, result.corner_width, input.pin_diameter);
    let mut drawing = Drawing::new("Dovetail over pins", about);
    let edge = half.max(far) + 1.6 * pin;
    let low = -0.6 * high;
    let outline: Vec<Point> = if male {
        vec![(-edge, 0.0), (-half, 0.0), (-far, high), (far, high), (half, 0.0), (edge, 0.0)]
    } else {
        vec![(-edge, high), (-far, high), (-half, 0.0), (half, 0.0), (far, high), (edge, high)]
    };
    drawing.closed(Ink::Tint, [outline.clone(), vec![(edge, low), (-edge, low)]].concat());
    drawing.path(Ink::Outline, outline).of("dovetail");
    let inset = result.pin_reach.si() - pin / 2.0;
    for side in [-1.0, 1.0] {
        let at = (side * (half + outwards * inset), pin / 2.0);
        drawing.circle(Ink::Outline, at, pin / 2.0).of("pin_diameter");
        drawing.cross(at, pin / 2.0);
    }
    let over = half + outwards * result.pin_reach.si();
    let top = high.max(pin);
    let reading = result.reading.map(|reading| (reading.quantity(), "reading"));
    let reading = reading.or(input.reading_now.map(|now| (now.quantity(), "reading_now")));
    if let Some((reading, field)) = reading {
        drawing.across((-over, pin / 2.0), (over, pin / 2.0), Beside { from: top, by: 26.0 }, reading).of(field);
    }
    let below = Beside { from: low, by: -20.0 };
    drawing.across((-half, 0.0), (half, 0.0), below, result.corner_width).of("corner_width");
    if let Some(face) = result.face_width {
        drawing.across((-far, high), (far, high), Beside { from: top, by: 52.0 }, face).of("face_width");
    }
    if let Some(depth) = input.depth {
        drawing.upright((edge, 0.0), (far, high), Beside { from: edge, by: 24.0 }, depth).of("depth");
    }
    let corner = (-half, 0.0);
    let from = if male { 180.0 - flank.degrees() } else { 0.0 };
    drawing.angle(corner, from, flank.degrees(), Reach::Model(1.35 * pin.max(0.5 * high)), flank).of("flank_angle");
    let at = (half + outwards * inset, pin / 2.0);
    let away = if male { -40.0 } else { 250.0 };
    drawing.leader(on_circle(at, pin / 2.0, away), away, words!("Ø {}": input.pin_diameter)).of("pin_diameter");
    drawing
}
