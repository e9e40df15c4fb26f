//! The surface along the work, cut through its axis: one groove a turn, each with the shape of the tool's
//! nose. The floor of the grooves is y = 0, that of the nose x = 0.

use super::{FinishMethod, SurfaceFinishInput, SurfaceFinishResult, rise};
use crate::drawing::{Beside, Drawing, Ink, Point, Words};

/// Grooves to each side of the nose.
const GROOVES: i32 = 2;

/// Draws an answer.
pub fn draw(input: &SurfaceFinishInput, result: &SurfaceFinishResult) -> Drawing {
    let (radius, feed) = (input.nose_radius.si(), result.feed_per_rev.si());
    let height = result.theoretical_height.si();
    let method = input.method.unwrap_or(FinishMethod::Exact);
    let groove = |middle: f64, half: f64| -> Vec<Point> {
        (-16..=16).map(|at| f64::from(at) / 16.0 * half).map(|x| (middle + x, rise(method, radius, x))).collect()
    };
    let mut drawing = Drawing::new("Surface along the work", about(input, result));
    let surface: Vec<Point> = (-GROOVES..=GROOVES).flat_map(|at| groove(f64::from(at) * feed, feed / 2.0)).collect();
    let side = (f64::from(GROOVES) + 0.5) * feed;
    let bottom = -0.4 * feed;
    drawing.closed(Ink::Tint, [surface.clone(), vec![(side, bottom), (-side, bottom)]].concat());
    drawing.path(Ink::Outline, surface).of("surface");
    let wide = radius.min(2.0 * feed);
    let nose = groove(0.0, wide);
    drawing.path(Ink::Thin, nose.clone()).of("nose");
    drawing.leader(nose[4], 60.0, Words::of("nose radius ").value(input.nose_radius));

    let below = Beside { from: bottom, by: -18.0 };
    drawing.across((0.0, 0.0), (feed, 0.0), below, Words::of("feed\n").value(result.feed_per_rev)).of("feed_per_rev");
    let beside = Beside { from: side, by: 18.0 };
    let (top, floor) = ((1.5 * feed, height), (2.0 * feed, 0.0));
    let words = Words::of("height\n").value(result.theoretical_height);
    drawing.upright(top, floor, beside, words).of("theoretical_height");
    drawing
}

fn about(input: &SurfaceFinishInput, result: &SurfaceFinishResult) -> Words {
    let about = Words::of("Grooves ")
        .value(result.feed_per_rev)
        .then(" apart, cut by a nose with a radius of ")
        .value(input.nose_radius)
        .then(", are ")
        .value(result.theoretical_height)
        .then(" high from floor to peak; the mean deviation Ra is ")
        .value(result.roughness_ra);
    match result.expected_ra {
        Some(expected) => about.then("; expect about ").value(expected).then("."),
        None => about.then("."),
    }
}
