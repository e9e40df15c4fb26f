//! The cutter from above, turning clockwise as a right-hand cutter does, at (0, 0); the work below it.

use super::{MillingInput, MillingResult, MillingWay};
use crate::drawing::{Beside, Drawing, Ink, Point, Reach, Words};
use crate::quantity::{FoundAngle, SiValue, Size, angle};

/// Draws an answer.
pub fn draw(input: &MillingInput, result: &MillingResult) -> Drawing {
    match (input.radial_depth, result.engagement_angle) {
        (Some(depth), Some(engaged)) => in_cut(input, depth, engaged),
        _ => alone(input),
    }
}

/// The cutter without a cut.
fn alone(input: &MillingInput) -> Drawing {
    let radius = input.diameter.si() / 2.0;
    let about = Words::of("A cutter ").value(input.diameter).then(" in diameter, from above.");
    let mut drawing = Drawing::new("Cutter from above", about);
    drawing.circle(Ink::Outline, (0.0, 0.0), radius).of("diameter");
    drawing.cross((0.0, 0.0), 0.0);
    drawing.turning((0.0, 0.0), 150.0, -75.0, Reach::Model(radius * 0.72));
    diameter(&mut drawing, input, radius);
    drawing
}

fn diameter(drawing: &mut Drawing, input: &MillingInput, radius: f64) {
    let beside = Beside { from: radius, by: 20.0 };
    let words = Words::of("Ø ").value(input.diameter);
    drawing.across((-radius, 0.0), (radius, 0.0), beside, words).of("diameter");
}

fn in_cut(input: &MillingInput, radial_depth: Size, engagement_angle: FoundAngle) -> Drawing {
    let radius = input.diameter.get().si() / 2.0;
    let depth = radial_depth.get().si();
    let engaged = engagement_angle.degrees();
    let teeth = input.teeth.map_or(String::new(), |teeth| format!(" with {teeth} teeth"));
    let mut about = Words::of("A cutter ")
        .value(input.diameter)
        .then(format!(" in diameter{teeth}, from above, takes "))
        .value(radial_depth)
        .then(" off the side of the work; each tooth cuts over ")
        .value(engagement_angle);
    if let Some(way) = input.way {
        about = about.then(match way {
            MillingWay::Climb => ", climb milling",
            MillingWay::Conventional => ", conventional milling",
        });
    }
    let mut drawing = Drawing::new("Cutter and work from above", about.then("."));

    // Climbing, the uncut work lies to the right of a clockwise cutter, else to the left.
    let ahead = if input.way == Some(MillingWay::Conventional) { -1.0 } else { 1.0 };
    let side = |(x, y): Point| (ahead * x, y);
    // Off the rim the cut begins where its lower side meets the circle.
    let middle = input.cut_offset.map_or(depth / 2.0 - radius, |offset| offset.get().si());
    let (low, top) = ((middle - depth / 2.0).max(-radius), (middle + depth / 2.0).min(radius));
    let begin = (-low / radius).clamp(-1.0, 1.0).acos().to_degrees();
    let at_rim = input.cut_offset.is_none();
    let on_rim = |from_below: f64| {
        let (sin, cos) = angle::sin_cos(from_below);
        side((radius * sin, -radius * cos))
    };
    let (below, far) = (-radius * 1.45, radius * 1.5);
    let (enters, leaves) = (on_rim(begin), on_rim(begin + engaged));
    let steps = (engaged / 3.0).ceil().max(2.0);
    let mut work = vec![side((far, top)), leaves];
    work.extend((1..steps as u32).rev().map(|step| on_rim(begin + engaged * f64::from(step) / steps)));
    if at_rim {
        work.extend([(0.0, -radius), side((-far, -radius)), side((-far, below)), side((far, below))]);
    } else {
        work.extend([enters, side((far, low))]);
    }
    drawing.closed(Ink::Tint, work);
    drawing.line(Ink::Outline, leaves, side((far, top))).of("uncut");
    if at_rim {
        drawing.line(Ink::Outline, (0.0, -radius), side((-far, -radius))).of("cut");
    } else {
        drawing.line(Ink::Outline, enters, side((far, low))).of("cut");
    }
    drawing.circle(Ink::Outline, (0.0, 0.0), radius).of("diameter");
    if let Some(teeth) = input.teeth.filter(|teeth| *teeth <= 24) {
        for tooth in 0..teeth {
            let at = (begin + engaged * 0.5) * ahead - 90.0 + 360.0 * f64::from(tooth) / f64::from(teeth);
            let (sin, cos) = angle::sin_cos(at);
            let inner = radius * 0.86;
            drawing.line(Ink::Thin, (inner * cos, inner * sin), (radius * cos, radius * sin)).of("teeth");
        }
    }
    drawing.cross((0.0, 0.0), 0.0);
    drawing.turning((0.0, 0.0), 150.0, -75.0, Reach::Model(radius * 0.72));
    // A wide angle's words need the room beside a smaller arc.
    let reach = Reach::Model(radius * if engaged > 75.0 { 0.2 } else { 0.4 });
    drawing.angle((0.0, 0.0), -90.0 + ahead * begin, ahead * engaged, reach, engagement_angle).of("engagement_angle");
    let rim = leaves;
    drawing.line(Ink::Thin, (0.0, 0.0), rim);
    drawing.line(Ink::Thin, (0.0, 0.0), enters);
    drawing
        .upright(
            if at_rim { (0.0, -radius) } else { enters },
            side((far, top)),
            Beside { from: ahead * far, by: 18.0 * ahead },
            radial_depth,
        )
        .of("radial_depth");
    diameter(&mut drawing, input, radius);
    // The cutter goes towards what is uncut.
    let towards = if ahead > 0.0 { 0.0 } else { 180.0 };
    drawing.direction(side((radius * 1.05, radius * 0.75)), towards, Words::of("feed"));
    drawing
}
