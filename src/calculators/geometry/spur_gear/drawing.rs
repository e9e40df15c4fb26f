//! The gear about zero, with its circles and two pins as far apart as its teeth allow.

use super::{SpurGearInput, SpurGearResult};
use crate::arithmetic::involute::involute;
use crate::calculators::prelude::*;
use crate::drawing::{Drawing, Ink, Point, words};

/// Points on a flank.
const FLANK: usize = 6;

/// Draws an answer: the pins one above the other.
pub fn draw(input: &SpurGearInput, result: &SpurGearResult) -> Drawing {
    let teeth = input.teeth.get();
    let measures = &result.measures;
    let about = words!("A gear of {} teeth, {} over the tips and {} over pins of {}.":
        teeth, result.blank_diameter, measures.over_pins, measures.pins);
    let mut drawing = Drawing::new("Spur gear over pins", about);
    let z = f64::from(teeth);
    // The first space; with odd teeth the second pin lies half a tooth beside the opposite.
    let first = PI / 2.0 * if teeth % 2 == 1 { 1.0 - 1.0 / z } else { 1.0 };
    drawing.closed(Ink::Outline, outline(input, result, first)).of("gear");
    drawing.circle(Ink::Centre, (0.0, 0.0), result.pitch_diameter.si() / 2.0).of("pitch_diameter");
    let pin = measures.pins.si() / 2.0;
    let reach = (measures.over_pins.si() / 2.0 - pin) / first.sin();
    let x = reach * first.cos();
    let y = measures.over_pins.si() / 2.0 - pin;
    for y in [y, -y] {
        drawing.circle(Ink::Outline, (x, y), pin).of("pins");
    }
    drawing.along((x, -y - pin), (x, y + pin), -40.0, measures.over_pins).of("over_pins");
    drawing
}

/// The teeth, counterclockwise, with a space at the angle `first`.
fn outline(input: &SpurGearInput, result: &SpurGearResult, first: f64) -> Vec<Point> {
    let z = f64::from(input.teeth.get());
    let alpha = input.pressure_angle(&mut Record::of_result_alone()).degrees().to_radians();
    let (pitch, outside, root) =
        (result.pitch_diameter.si(), result.blank_diameter.si() / 2.0, result.root_diameter.si() / 2.0);
    let base = pitch / 2.0 * alpha.cos();
    let half = result.tooth_thickness.si() / pitch;
    let low = base.max(root);
    let mut flank: Vec<(f64, f64)> = (0..FLANK)
        .map(|at| {
            let radius = low + (outside - low) * at as f64 / (FLANK - 1) as f64;
            // Teeth that come to a point end there.
            let off = half + involute(alpha) - involute((base / radius).min(1.0).acos());
            (radius, off.max(0.0))
        })
        .collect();
    if root < low {
        flank.insert(0, (root, flank[0].1));
    }
    let mut points = Vec::new();
    for tooth in 0..input.teeth.get() {
        let middle = first + (f64::from(tooth) + 0.5) * 2.0 * PI / z;
        let at = |(radius, off): (f64, f64), side: f64| {
            let angle = middle + side * off;
            (radius * angle.cos(), radius * angle.sin())
        };
        points.extend(flank.iter().map(|point| at(*point, -1.0)));
        points.extend(flank.iter().rev().map(|point| at(*point, 1.0)));
    }
    points
}
