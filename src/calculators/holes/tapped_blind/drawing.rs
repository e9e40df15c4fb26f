//! The hole in section: full thread, the room below it, the drill's point and the floor.

use super::{TappedBlindInput, TappedBlindResult};
use crate::calculators::prelude::*;
use crate::drawing::{Beside, Drawing, Ink, Point, Words};
use crate::reference::threads::basics;

/// Draws an answer: the face at y = 0, the axis at x = 0.
pub fn draw(input: &TappedBlindInput, result: &TappedBlindResult) -> Drawing {
    let basics = basics(&input.thread.thread);
    let major = input.thread.found(basics.major).get().si() / 2.0;
    let minor = input.thread.found(basics.minor).get().si() / 2.0;
    let radius = input.drill.map_or(minor, |drill| drill.size.get().si() / 2.0);
    let depths = &result.depths;
    let mut about = Words::of(format!("A blind hole for {}: full thread to ", input.thread.text()))
        .value(depths.full_thread_depth)
        .then(", the tap's end at ")
        .value(depths.tap_depth)
        .then(", full diameter to ")
        .value(depths.full_depth);
    let below = result.below.as_ref();
    if let Some(below) = below {
        about = about.then(", the drill's tip at ").value(below.tip_depth);
    }
    if let Some(left) = below.and_then(|below| below.floor_left) {
        about = about.then("; the floor left is ").value(left);
    }
    let mut drawing = Drawing::new("Tapped blind hole in section", about.then("."));

    let full = depths.full_depth.get().si();
    let thread = depths.full_thread_depth.get().si();
    let tip = below.map_or(full, |below| below.tip_depth.get().si());
    let thickness = input.bottom.thickness.filter(|_| below.is_some());
    let bottom = thickness.map_or(tip + major, |thickness| thickness.get().si());
    let edge = major * 2.2;
    let hole: Vec<Point> = vec![(-radius, 0.0), (-radius, -full), (0.0, -tip), (radius, -full), (radius, 0.0)];
    let outside = vec![(edge, 0.0), (edge, -bottom), (-edge, -bottom), (-edge, 0.0)];
    drawing.closed(Ink::Tint, [hole.clone(), outside].concat());
    for side in [-1.0, 1.0] {
        drawing.line(Ink::Outline, (side * radius, 0.0), (side * edge, 0.0)).of("face");
        drawing.line(Ink::Thin, (side * major, 0.0), (side * major, -thread)).of("major");
    }
    drawing.path(Ink::Outline, hole).of("drill");
    drawing.line(Ink::Outline, (-major, -thread), (major, -thread)).of("thread_end");
    drawing.line(Ink::Thin, (-radius, -full), (radius, -full)).of("lips");
    drawing.line(Ink::Centre, (0.0, 0.0), (0.0, -tip));

    let left = |by: f64| Beside { from: -edge, by: -by };
    let right = |by: f64| Beside { from: edge, by };
    let tap_end = depths.tap_depth.get().si();
    drawing.line(Ink::Dashed, (-radius, -tap_end), (radius, -tap_end)).of("tap_end");
    let words = Words::of("thread ").value(depths.full_thread_depth);
    drawing.upright((-major, 0.0), (-major, -thread), left(16.0), words).of("full_thread_depth");
    let words = Words::of("tap ").value(depths.tap_depth);
    drawing.upright((-edge, 0.0), (-radius, -tap_end), left(40.0), words).of("tap_depth");
    let words = Words::of("full diameter ").value(depths.full_depth);
    drawing.upright((edge, 0.0), (radius, -full), right(16.0), words).of("full_depth");
    let Some(below) = below else { return drawing };
    let words = Words::of("tip ").value(below.tip_depth);
    drawing.upright((edge, 0.0), (0.0, -tip), right(40.0), words).of("tip_depth");
    if let (Some(thickness), Some(_)) = (thickness, below.floor_left) {
        for side in [-1.0, 1.0] {
            drawing.line(Ink::Outline, (0.0, -bottom), (side * edge, -bottom)).of("far_face");
        }
        drawing.upright((-edge, 0.0), (-edge, -bottom), left(64.0), thickness).of("thickness");
    }
    drawing
}
