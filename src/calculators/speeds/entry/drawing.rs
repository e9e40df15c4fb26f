//! The way down into the work in section: a ramp to and fro along its slot, or a helix in its hole with
//! the cutter from above over it. The face is y = 0.

use super::{EntryInput, EntryResult, EntryWay};
use crate::drawing::{Beside, Drawing, Ink, Point, Reach, Words};
use crate::quantity::{FoundSize, Size, angle};

/// Up to so many passes or turns the way itself is drawn.
const DRAWN: f64 = 40.0;

/// Draws an answer.
pub fn draw(input: &EntryInput, result: &EntryResult) -> Drawing {
    match (input.way, input.diameter, input.hole_diameter, result.path_diameter) {
        (EntryWay::Helix, Some(cutter), Some(hole), Some(path)) => helix(input, result, (cutter, hole, path)),
        _ => ramp(input, result),
    }
}

fn ramp(input: &EntryInput, result: &EntryResult) -> Drawing {
    let depth = input.depth.si();
    let slope = result.ramp_angle.degrees();
    let length = result.ramp_length.map_or(0.0, |length| length.si());
    let mut about = Words::of("A ramp ").value(input.depth).then(" deep at ").value(result.ramp_angle);
    if let Some(slot) = input.slot_length {
        about = about.then(" back and forth along ").value(slot).then(" long");
    }
    about = about.then("; the path is ").value(result.path_length).then(" long.");
    let mut drawing = Drawing::new("Ramp into the work", about);

    let slot = input.slot_length.map_or(length, |slot| slot.si());
    let edge = 0.12 * slot.max(depth);
    let bottom = -depth - edge;
    if input.slot_length.is_some() {
        let pocket = [(0.0, 0.0), (0.0, -depth), (slot, -depth), (slot, 0.0)];
        let around = [(slot + edge, 0.0), (slot + edge, bottom), (-edge, bottom), (-edge, 0.0)];
        drawing.closed(Ink::Tint, [pocket, around].concat());
        drawing.path(Ink::Outline, [vec![(-edge, 0.0)], pocket.to_vec(), vec![(slot + edge, 0.0)]].concat()).of("face");
    } else {
        let around = [(-edge, 0.0), (0.0, 0.0), (slot, -depth), (slot + edge, -depth)];
        drawing.closed(Ink::Tint, [around.to_vec(), vec![(slot + edge, bottom), (-edge, bottom)]].concat());
        drawing.path(Ink::Outline, around[..2].to_vec()).of("face");
        drawing.line(Ink::Centre, (0.0, 0.0), (slot, 0.0));
    }
    if result.passes.is_none_or(|passes| passes <= DRAWN) {
        drawing.path(Ink::Thin, zigzag(slot, length, depth)).of("slope_length");
    }

    let (sin, cos) = angle::sin_cos(slope);
    // As long as the first pass lets it be.
    let first = slot.min(length);
    if first > 0.0 {
        drawing.line(Ink::Thin, (0.0, 0.0), (first * 0.5 * cos, -first * 0.5 * sin));
        drawing.angle((0.0, 0.0), 0.0, -slope, Reach::Model(0.45 * first), result.ramp_angle).of("ramp_angle");
    }
    let beside = Beside { from: slot + edge, by: 20.0 };
    drawing.upright((slot, 0.0), (slot, -depth), beside, input.depth).of("depth");
    let below = Beside { from: bottom, by: -18.0 };
    match (input.slot_length, result.ramp_length, result.passes) {
        (Some(stated), _, Some(passes)) => {
            let words = Words::of(format!("{passes} passes of ")).value(stated);
            drawing.across((0.0, -depth), (slot, -depth), below, words).of("slot_length");
        }
        (_, Some(found), _) => {
            drawing.across((0.0, 0.0), (slot, -depth), below, found).of("ramp_length");
        }
        _ => {}
    }
    drawing
}

/// The sloping way of a ramp that turns back at both ends of the slot; the flat pass is its floor.
fn zigzag(slot: f64, length: f64, depth: f64) -> Vec<Point> {
    let (mut way, mut gone, mut x, mut right) = (vec![(0.0, 0.0)], 0.0, 0.0, true);
    // Without the noise of what is left of a whole number of slots.
    while gone < length * (1.0 - 1e-9) && way.len() < 2 * DRAWN as usize {
        let run = slot.min(length - gone);
        gone += run;
        x += if right { run } else { -run };
        right = !right;
        way.push((x, -depth * gone / length));
    }
    way
}

fn helix(input: &EntryInput, result: &EntryResult, (cutter, hole, path): (Size, Size, FoundSize)) -> Drawing {
    let (depth, wide) = (input.depth.si(), hole.si() / 2.0);
    let (round, radius) = (path.si() / 2.0, cutter.si() / 2.0);
    let pitch = result.pitch.map_or(depth, |pitch| pitch.si());
    let mut about = Words::of("A cutter ")
        .value(cutter)
        .then(" in diameter goes down ")
        .value(input.depth)
        .then(" by a helix in a hole ")
        .value(hole)
        .then(" in diameter");
    if let (Some(pitch), Some(turns)) = (result.pitch, result.turns) {
        about = about.then(", ").value(pitch).then(format!(" a turn, {turns} turns"));
    }
    let mut drawing = Drawing::new("Helix into the work", about.then("."));

    let edge = 0.3 * wide;
    let (out, bottom) = (wide + edge, -depth - edge);
    let pocket = vec![(-wide, 0.0), (-wide, -depth), (wide, -depth), (wide, 0.0)];
    let around = vec![(out, 0.0), (out, bottom), (-out, bottom), (-out, 0.0)];
    drawing.closed(Ink::Tint, [pocket.clone(), around].concat());
    drawing.path(Ink::Outline, [vec![(-out, 0.0)], pocket, vec![(out, 0.0)]].concat()).of("face");
    drawing.line(Ink::Centre, (0.0, 0.0), (0.0, -depth));
    if depth / pitch <= DRAWN {
        let steps = (depth / pitch * 24.0).ceil();
        let on = |step: u32| {
            let gone = (f64::from(step) / 24.0 * pitch).min(depth);
            (-round * angle::cos(360.0 * gone / pitch), -gone)
        };
        let mut way: Vec<Point> = (0..=steps as u32).map(on).collect();
        way.extend([(-round, -depth), (round, -depth)]);
        drawing.path(Ink::Thin, way).of("path_length");
    }
    // From above, over the section.
    let centre = (0.0, 1.25 * wide);
    let at = (centre.0 - round, centre.1);
    drawing.circle(Ink::Outline, centre, wide).of("hole_diameter");
    drawing.circle(Ink::Centre, centre, round).of("path_diameter");
    drawing.circle(Ink::Thin, at, radius).of("diameter");
    drawing.cross(centre, 0.0);
    drawing.dot(at);

    let top = centre.1 + wide;
    let across = |drawing: &mut Drawing, middle: f64, half: f64, by: f64, words: Words, field: &'static str| {
        let line = Beside { from: top, by };
        drawing.across((middle - half, centre.1), (middle + half, centre.1), line, words).of(field);
    };
    across(&mut drawing, at.0, radius, 18.0, Words::of("cutter Ø ").value(cutter), "diameter");
    across(&mut drawing, 0.0, round, 40.0, Words::of("center Ø ").value(path), "path_diameter");
    across(&mut drawing, 0.0, wide, 62.0, Words::of("hole Ø ").value(hole), "hole_diameter");
    let right = Beside { from: out, by: 20.0 };
    drawing.upright((wide, 0.0), (wide, -depth), right, input.depth).of("depth");
    // A turn that goes deeper than the hole has no place in it to be measured.
    if let (Some(found), Some(turns)) = (result.pitch, result.turns)
        && pitch <= depth
    {
        let line = Beside { from: -out, by: -20.0 };
        let words = Words::of(format!("{turns} turns\nof ")).value(found);
        drawing.upright((-round, 0.0), (-round, -pitch), line, words).of("pitch");
    }
    drawing
}
