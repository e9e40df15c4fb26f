//! The arc on its chord: the chord lies on y = 0 about x = 0 and the arc above it.

use super::{ArcInput, ArcResult, ArcSolution};
use crate::drawing::{Beside, Drawing, Ink, Point, Reach, Words};
use crate::quantity::angle;

/// Draws an answer: the first arc in full, others dashed.
pub fn draw(_: &ArcInput, result: &ArcResult) -> Drawing {
    let mut about = Words::default();
    for (at, arc) in result.solutions.iter().enumerate() {
        about = about
            .then(if at == 0 { "An arc of radius " } else { " Dashed, the other arc: radius " })
            .value(arc.radius)
            .then(", chord ")
            .value(arc.chord)
            .then(", height ")
            .value(arc.height)
            .then(", length ")
            .value(arc.arc_length)
            .then(", angle ")
            .value(arc.angle)
            .then(", segment area ")
            .value(arc.segment_area)
            .then(".");
    }
    let mut drawing = Drawing::new("Arc, chord and segment", about);
    for (at, arc) in result.solutions.iter().enumerate().skip(1) {
        outline(&mut drawing, arc, Ink::Dashed, at as u32 + 1);
    }
    if let Some(arc) = result.solutions.first() {
        outline(&mut drawing, arc, Ink::Outline, 1);
        dimensions(&mut drawing, arc, &result.solutions[1..]);
    }
    drawing
}

/// The center of an arc, and the direction in which it begins.
fn place(arc: &ArcSolution) -> (Point, f64) {
    ((0.0, arc.height.si() - arc.radius.si()), 90.0 - arc.angle.degrees() / 2.0)
}

fn outline(drawing: &mut Drawing, arc: &ArcSolution, ink: Ink, number: u32) {
    let (centre, from) = place(arc);
    let half = arc.chord.si() / 2.0;
    drawing.arc(ink, centre, arc.radius.si(), from, arc.angle.degrees()).of("arc_length").number(number);
    drawing.line(ink, (-half, 0.0), (half, 0.0)).of("chord").number(number);
}

/// Below this angle the center lies too far off to be shown.
const FLAT: f64 = 30.0;

fn dimensions(drawing: &mut Drawing, arc: &ArcSolution, others: &[ArcSolution]) {
    let (centre, from) = place(arc);
    let (radius, height, half) = (arc.radius.si(), arc.height.si(), arc.chord.si() / 2.0);
    let sweep = arc.angle.degrees();
    let is_flat = sweep < FLAT && others.is_empty();
    drawing.line(Ink::Centre, (0.0, 0.0), (0.0, height)).of("height").number(1);
    if !is_flat {
        for side in [-1.0, 1.0] {
            drawing.line(Ink::Thin, centre, (side * half, 0.0));
        }
        drawing.cross(centre, 0.0);
        drawing.angle(centre, from, sweep, Reach::Model(radius * 0.3), arc.angle).of("angle").number(1);
    }
    // Below the chord and whatever hangs below it.
    let hangs = |arc: &ArcSolution| {
        let (centre, from) = place(arc);
        if from <= -90.0 { centre.1 - arc.radius.si() } else { centre.1 }
    };
    let lowest = if is_flat { 0.0 } else { others.iter().chain([arc]).map(hangs).fold(0.0, f64::min) };
    let below = Beside { from: lowest, by: -24.0 };
    drawing.across((-half, 0.0), (half, 0.0), below, arc.chord).of("chord").number(1);
    let right = Beside { from: if sweep > 180.0 { radius } else { half }, by: 24.0 };
    drawing.upright((half, 0.0), (0.0, height), right, arc.height).of("height").number(1);
    let leader = |drawing: &mut Drawing, direction: f64, words: Words, field: &'static str| {
        let (sin, cos) = angle::sin_cos(direction);
        drawing.leader((centre.0 + radius * cos, centre.1 + radius * sin), direction, words).of(field).number(1);
    };
    leader(drawing, from + sweep * 0.78, Words::of("along\n").value(arc.arc_length), "arc_length");
    if is_flat {
        let words = Words::of("R ").value(arc.radius).then("\nover ").value(arc.angle);
        leader(drawing, from + sweep * 0.22, words, "radius");
    } else {
        let directions = [0.3, 0.24, 0.36, 0.18, 0.62, 0.12].map(|part| from + sweep * part).to_vec();
        drawing.radius(centre, radius, directions, Words::of("R ").value(arc.radius)).of("radius").number(1);
    }
}
