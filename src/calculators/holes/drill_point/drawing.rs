//! The drill in section: the hole with its point, the face, the depths.

use super::{DrillPointInput, DrillPointResult, ZeroedAt};
use crate::calculators::prelude::*;
use crate::drawing::{Beside, Drawing, Ink, Point, Reach, Words};

/// Draws an answer: the face at y = 0, the axis at x = 0.
pub fn draw(input: &DrillPointInput, result: &DrillPointResult) -> Drawing {
    let size = input.diameter.size;
    let radius = size.get().si() / 2.0;
    let flat = input.tip_flat.map_or(0.0, |flat| flat.get().si()) / 2.0;
    let point = result.point_length.get().si();
    let angle = input.point_angle(&mut Record::of_result_alone());
    let mut about = Words::of("A drill ")
        .value(size)
        .then(" in diameter with a point of ")
        .value(angle)
        .then(", ")
        .value(result.point_length)
        .then(" long");
    if let Some(depth) = input.full_depth {
        about = about.then(", in a blind hole ").value(depth).then(" deep at full diameter");
    }
    if let Some(thickness) = input.thickness {
        about = about.then(", through a part ").value(thickness).then(" thick");
    }
    if let Some(tip) = result.tip_depth {
        about = about.then("; its tip is ").value(tip).then(" below the face");
    }
    if let Some(travel) = result.travel {
        about = about.then(" and the quill travels ").value(travel).then(" from zero");
    }
    let mut drawing = Drawing::new("Drill in section", about.then("."));

    let tip = result.tip_depth.map_or(point, |tip| tip.get().si());
    let lips = tip - point;
    let large = input.step.step_diameter.map(|large| large.get().si() / 2.0);
    let edge = large.unwrap_or(radius) * 1.75;
    let thickness = input.thickness.map(|thickness| thickness.get().si());
    let shoulder = outline_above(input, lips, radius);
    let above = shoulder.iter().map(|(_, y)| *y).fold(-lips, f64::max).max(0.0);
    // Without a depth there is no part to show, only the drill's end.
    let top = match (result.tip_depth.is_some(), above > 0.0 || large.is_some()) {
        (true, false) => 0.0,
        (true, true) => above + radius * 0.6,
        (false, _) => above.max(radius) + radius * 0.6,
    };
    let bottom = match (thickness, result.tip_depth) {
        (Some(thickness), _) => thickness,
        _ => tip + radius * 1.3,
    };
    let end: Vec<Point> = vec![(-radius, -lips), (-flat, -tip), (flat, -tip), (radius, -lips)];
    let wide = large.unwrap_or(radius);
    let right: Vec<Point> = [vec![(flat, -tip), (radius, -lips)], shoulder.clone(), vec![(wide, top)]].concat();
    if result.tip_depth.is_some() {
        let plain = large.is_none() && lips >= 0.0;
        match plain {
            true => section(&mut drawing, &end, thickness, (radius, edge, bottom)),
            false => section_below(&mut drawing, &right, thickness, (edge, bottom)),
        }
    }
    let mirrored = |points: &[Point]| points.iter().map(|(x, y)| (-x, *y)).collect::<Vec<Point>>();
    let left: Vec<Point> = [vec![(wide, top)], shoulder.iter().rev().copied().collect()].concat();
    let profile: Vec<Point> = [mirrored(&left), end, shoulder, vec![(wide, top)]].concat();
    let ink = if thickness.is_some() { Ink::Thin } else { Ink::Outline };
    drawing.path(ink, profile).of("drill");
    drawing.line(Ink::Thin, (-radius, -lips), (radius, -lips)).of("lips");
    drawing.line(Ink::Centre, (0.0, top), (0.0, -tip));

    let face = |by: f64| Beside { from: top, by };
    match input.step.step_diameter {
        Some(large) => {
            drawing.across((-wide, top), (wide, top), face(22.0), Words::of("Ø ").value(large)).of("step_diameter");
            let low = Beside { from: -bottom.max(tip), by: -26.0 };
            drawing.across((-radius, -lips), (radius, -lips), low, Words::of("Ø ").value(size)).of("diameter");
        }
        None => {
            drawing.across((-radius, top), (radius, top), face(22.0), Words::of("Ø ").value(size)).of("diameter");
        }
    }
    if let Some(mouth) = input.mouth_diameter {
        let half = mouth.get().si() / 2.0;
        let low = Beside { from: -bottom, by: -24.0 };
        drawing.across((-half, 0.0), (half, 0.0), low, Words::of("spot Ø ").value(mouth)).of("mouth_diameter");
    }
    if let (Some(depth), Some(_)) = (input.step.step_floor, result.tip_depth) {
        let line = Beside { from: -edge, by: -16.0 };
        drawing.upright((-wide, 0.0), (-wide, -depth.get().si()), line, depth).of("step_floor");
    }
    let right = |by: f64| Beside { from: edge, by };
    let left = |by: f64| Beside { from: -edge, by: -by };
    if point > 0.0 {
        let line = if result.tip_depth.is_some() { right(16.0) } else { Beside { from: radius, by: 22.0 } };
        drawing.upright((radius, -lips), (flat, -tip), line, result.point_length).of("point_length");
    }
    if let Some(depth) = input.full_depth {
        drawing.upright((-radius, 0.0), (-radius, -lips), left(16.0), depth).of("full_depth");
    }
    if let (Some(thickness), Some(down)) = (input.thickness, thickness) {
        drawing.upright((-edge, 0.0), (-edge, -down), left(16.0), thickness).of("thickness");
        if let Some(out) = input.breakthrough.filter(|out: &Extent| out.get().si() > 0.0) {
            drawing.upright((edge, -down), (radius, -lips), right(16.0), out).of("breakthrough");
        }
    }
    if let Some(tip_depth) = result.tip_depth {
        drawing.upright((edge, 0.0), (flat, -tip), right(40.0), tip_depth).of("tip_depth");
    }
    travel(&mut drawing, input, result, (tip, lips, radius, edge));
    // The flanks meet below a flat tip.
    let half = angle.degrees() / 2.0;
    let apex = if half < 90.0 { flat / crate::quantity::angle::tan(half) } else { 0.0 };
    if apex > 0.0 {
        drawing.path(Ink::Thin, vec![(-flat, -tip), (0.0, -tip - apex), (flat, -tip)]);
    }
    drawing.angle((0.0, -tip - apex), 270.0 - half, 2.0 * half, Reach::Sheet(30.0), angle).of("point_angle");
    drawing
}

/// The outline of a step drill's right side above the lips: up the small part, then out along the shoulder.
fn outline_above(input: &DrillPointInput, lips: f64, radius: f64) -> Vec<Point> {
    let Some(large) = input.step.step_diameter else { return Vec::new() };
    let small = input.step.step_length.map_or(radius * 2.0, |length| length.get().si());
    let begins = small - lips;
    vec![(radius, begins), (large.get().si() / 2.0, begins + input.step.shoulder(input.diameter.size))]
}

/// The part around a drill whose outline is not straight up to the face; `right` runs from the tip upwards.
fn section_below(drawing: &mut Drawing, right: &[Point], thickness: Option<f64>, (edge, bottom): (f64, f64)) {
    let mut wall: Vec<Point> = Vec::new();
    for pair in right.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        if from.1 >= 0.0 {
            break;
        }
        wall.push(from);
        if to.1 >= 0.0 {
            let share = from.1 / (from.1 - to.1);
            wall.push((from.0 + (to.0 - from.0) * share, 0.0));
        }
    }
    let mouth = wall.last().map_or(0.0, |(x, _)| *x);
    let low = thickness.unwrap_or(bottom);
    // Through a part the wall begins at the far face.
    if let (Some(thickness), Some(first)) = (thickness, right.get(1)) {
        wall.retain(|(_, y)| -y < thickness - 1e-12);
        let from = if -first.1 >= thickness { first.0 } else { wall.first().map_or(first.0, |(x, _)| *x) };
        wall.insert(0, (from, -thickness));
    } else {
        wall.insert(0, (0.0, right[0].1));
        wall.insert(0, (0.0, -low));
    }
    for side in [-1.0, 1.0] {
        let at = |(x, y): Point| (side * x, y);
        let block: Vec<Point> = [wall.clone(), vec![(edge, 0.0), (edge, -low)]].concat().into_iter().map(at).collect();
        drawing.closed(Ink::Tint, block);
        drawing.line(Ink::Outline, at((mouth, 0.0)), at((edge, 0.0))).of("face");
    }
}

/// The part that is drilled: blind with the bottom of the hole, or through.
fn section(drawing: &mut Drawing, end: &[Point], thickness: Option<f64>, (radius, edge, bottom): (f64, f64, f64)) {
    for side in [-1.0, 1.0] {
        drawing.line(Ink::Outline, (side * radius, 0.0), (side * edge, 0.0)).of("face");
    }
    match thickness {
        Some(thickness) => {
            for side in [-1.0, 1.0] {
                let corner = |x: f64, y: f64| (side * x, -y);
                let block = vec![corner(radius, 0.0), corner(edge, 0.0), corner(edge, bottom), corner(radius, bottom)];
                drawing.closed(Ink::Tint, block);
                drawing.line(Ink::Outline, corner(radius, 0.0), corner(radius, thickness));
                drawing.line(Ink::Outline, corner(radius, thickness), corner(edge, thickness)).of("far_face");
            }
        }
        None => {
            let outside =
                vec![(radius, 0.0), (edge, 0.0), (edge, -bottom), (-edge, -bottom), (-edge, 0.0), (-radius, 0.0)];
            drawing.closed(Ink::Tint, [outside, end.to_vec()].concat());
        }
    }
}

/// How far the quill goes, where that is not the depth of the tip; with the place of zero.
fn travel(
    drawing: &mut Drawing,
    input: &DrillPointInput,
    result: &DrillPointResult,
    (tip, lips, radius, edge): (f64, f64, f64, f64),
) {
    let Some(travel) = result.travel else { return };
    let height = input.face_height.map_or(0.0, |height| height.get().si());
    let at_lips = input.zeroed_at == Some(ZeroedAt::Lips);
    if !at_lips && height == 0.0 {
        return;
    }
    let goes_to = if at_lips { lips } else { tip };
    // One chain: from the face to zero, from zero to the end.
    let line = Beside { from: -edge, by: -40.0 };
    if height != 0.0 {
        drawing.line(Ink::Centre, (-edge, -height), (edge, -height)).of("face_height");
        drawing.note_beside((-(radius + edge) / 2.0, -height), 0.0, 90.0, Words::of("zero"));
        if let Some(height) = input.face_height {
            drawing.upright((-edge, 0.0), (-edge, -height.get().si()), line, height).of("face_height");
        }
    }
    let words = Words::of("travel\n").value(travel);
    drawing.upright((-edge, -height), (0.0, -goes_to), line, words).of("travel");
}
