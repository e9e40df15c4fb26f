//! The countersink in section, with the hole there is and the ball in it.

use super::mouth::angle_of;
use super::{CountersinkInput, CountersinkResult};
use crate::drawing::{Beside, Drawing, Ink, Point, Words};
use crate::quantity::SiValue;

/// Draws an answer.
pub fn draw(input: &CountersinkInput, result: &CountersinkResult) -> Drawing {
    let about = Words::of("A countersink of ")
        .value(result.mouth_diameter)
        .then(" at the face; the quill travels ")
        .value(result.travel)
        .then(" from the touch.");
    let mut drawing = Drawing::new("Countersink in section", about);
    let mouth = result.mouth_diameter.get().si() / 2.0;
    let tip = result.tip_depth.get().si();
    let flat = input.tip_flat.map_or(0.0, |flat| flat.get().si() / 2.0);
    let edge = mouth * 1.7;
    let hole = input.hole_diameter.map(|hole| hole.size);
    let bottom = tip + mouth * 0.9;
    // From the face down, on one side.
    let inside: Vec<Point> = match (hole, &result.chamfer) {
        (Some(hole), Some(chamfer)) => {
            let radius = hole.get().si() / 2.0;
            vec![(mouth, 0.0), (radius, chamfer.chamfer_depth.get().si()), (radius, bottom)]
        }
        _ => match input.tip_radius {
            Some(radius) => round_tip(mouth, tip, radius.get().si(), angle_of(input).degrees() / 2.0),
            None => vec![(mouth, 0.0), (flat, tip), (0.0, tip)],
        },
    };
    for side in [-1.0, 1.0] {
        let at = |(x, y): Point| -> Point { (side * x, -y) };
        let wall: Vec<Point> = [vec![(edge, 0.0)], inside.clone()].concat().into_iter().map(at).collect();
        let rest = if hole.is_some() { vec![at((edge, bottom))] } else { vec![at((0.0, bottom)), at((edge, bottom))] };
        drawing.closed(Ink::Tint, [wall.clone(), rest].concat());
        drawing.path(Ink::Outline, wall).of("countersink");
    }
    drawing.line(Ink::Centre, (0.0, mouth * 0.15), (0.0, -bottom));
    if let (Some(ball), Some(above)) = (input.ball_diameter, result.ball_above) {
        let (radius, top) = (ball.get().si() / 2.0, above.get().si());
        drawing.circle(Ink::Dashed, (0.0, top - radius), radius).of("ball_diameter");
        if top != 0.0 {
            let left = Beside { from: -edge, by: -18.0 };
            drawing.upright((-mouth, 0.0), (0.0, top), left, above).of("ball_above");
        }
    }
    let top = result.ball_above.map_or(0.0, |above| above.get().si().max(0.0));
    let face = Beside { from: top, by: 24.0 };
    drawing
        .across((-mouth, 0.0), (mouth, 0.0), face, Words::of("Ø ").value(result.mouth_diameter))
        .of("mouth_diameter");
    let right = |by: f64| Beside { from: edge, by };
    match (hole, &result.chamfer) {
        (Some(hole), Some(chamfer)) => {
            let radius = hole.get().si() / 2.0;
            let depth = chamfer.chamfer_depth;
            drawing.upright((mouth, 0.0), (radius, -depth.get().si()), right(18.0), depth).of("chamfer_depth");
            let below = Beside { from: -bottom, by: -24.0 };
            drawing
                .across((-radius, -bottom), (radius, -bottom), below, Words::of("hole Ø ").value(hole))
                .of("hole_diameter");
        }
        _ => {
            drawing.upright((mouth, 0.0), (flat, -tip), right(18.0), result.tip_depth).of("tip_depth");
        }
    }
    drawing
}

/// The cone down to a round tip: radius and depth from the face to the middle, the arc as short straight lines.
fn round_tip(mouth: f64, tip: f64, radius: f64, half: f64) -> Vec<Point> {
    const LINES: u32 = 8;
    // Where the cone goes over into the ball, or where the face cuts the ball.
    let begins = (90.0 - half).min((mouth / radius).min(1.0).asin().to_degrees());
    let on_ball = |degrees: f64| {
        let turned = degrees.to_radians();
        (radius * turned.sin(), tip - radius * (1.0 - turned.cos()))
    };
    let arc = (0..=LINES).map(|at| on_ball(begins * f64::from(LINES - at) / f64::from(LINES)));
    std::iter::once((mouth, 0.0)).chain(arc).collect()
}
