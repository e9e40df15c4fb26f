//! The round from its end, the first flat on top.

use super::{FlatOnRoundInput, FlatOnRoundResult};
use crate::calculators::prelude::*;
use crate::drawing::{Beside, Drawing, Ink, Point, Reach, on_circle, words};

/// Draws an answer: the middle of the round at zero.
pub fn draw(input: &FlatOnRoundInput, result: &FlatOnRoundResult) -> Drawing {
    let flats = input.flats(&mut Record::of_result_alone()).get();
    let diameter = input.diameter;
    let about = words!("A round of {} with {} flats, each {} deep and {} wide.":
        diameter, flats, result.set_depth, result.flat_width);
    let mut drawing = Drawing::new("Flats on round work", about);
    let (radius, depth, half) = (diameter.si() / 2.0, result.set_depth.si(), result.flat_width.si() / 2.0);
    let turn = 360.0 / f64::from(flats);
    drawing.circle(Ink::Thin, (0.0, 0.0), radius).of("diameter");
    drawing.cross((0.0, 0.0), radius * 0.1);
    let (height, meet) = (radius - depth, result.flats_meet == Some(true));
    let ends = |at: u32| -> [Point; 2] {
        let direction = 90.0 + turn * f64::from(at);
        let middle = on_circle((0.0, 0.0), height, direction);
        [-90.0, 90.0].map(|side| on_circle(middle, half, direction + side))
    };
    let span = 2.0 * (half.atan2(height)).to_degrees();
    for at in 0..flats {
        let [from, to] = ends(at);
        drawing.line(Ink::Outline, from, to).of("flat_width");
        if !meet {
            let begin = 90.0 + turn * f64::from(at) + span / 2.0;
            drawing.arc(Ink::Outline, (0.0, 0.0), radius, begin, turn - span);
        }
    }
    let right = |by: f64| Beside { from: radius, by };
    drawing.upright((half, height), (0.0, radius), right(20.0), result.set_depth).of("set_depth");
    drawing
        .upright((0.0, -radius), (-half, height), Beside { from: -radius, by: -20.0 }, result.to_far_side)
        .of("to_far_side");
    let above = Beside { from: radius, by: 20.0 };
    drawing.across((-half, height), (half, height), above, result.flat_width).of("flat_width");
    if let Some(across) = result.between_flats {
        drawing.upright((half, -height), (half, height), right(46.0), across).of("between_flats");
    }
    let below = Beside { from: -radius, by: -22.0 };
    drawing.across((-radius, 0.0), (radius, 0.0), below, words!("Ø {}": diameter)).of("diameter");
    if let Some(angle) = result.turn.filter(|_| (3..=12).contains(&flats)) {
        drawing.angle((0.0, 0.0), 90.0, turn, Reach::Model(radius * 0.4), angle).of("turn");
    }
    drawing
}
