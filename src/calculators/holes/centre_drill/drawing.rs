//! The center hole in section: pilot and cone.

use super::{CentreDrillInput, CentreDrillResult};
use crate::calculators::prelude::*;
use crate::drawing::{Beside, Drawing, Ink, Point, Words};

/// Draws an answer: the face at y = 0, the axis at x = 0.
pub fn draw(_: &CentreDrillInput, result: &CentreDrillResult) -> Drawing {
    let (mouth, pilot) = (result.cone_diameter.get().si() / 2.0, result.pilot_diameter.get().si() / 2.0);
    let about = Words::of(format!("A center hole of {}: a pilot of ", result.name))
        .value(result.pilot_diameter)
        .then(" and a mouth of ")
        .value(result.cone_diameter);
    let mut drawing = Drawing::new("Center hole in section", about.then("."));
    let cone = result.cone_depth.map_or(mouth - pilot, |depth| depth.get().si());
    // Without a known length the pilot is drawn as long as it is wide.
    let tip = result.tip_depth.map_or(cone + 2.0 * pilot, |depth| depth.get().si());
    let point = (tip - cone).min(pilot * 0.6);
    let edge = mouth * 1.9;
    let bottom = tip + mouth;
    let hole: Vec<Point> = vec![
        (-mouth, 0.0),
        (-pilot, -cone),
        (-pilot, point - tip),
        (0.0, -tip),
        (pilot, point - tip),
        (pilot, -cone),
        (mouth, 0.0),
    ];
    let outside = vec![(edge, 0.0), (edge, -bottom), (-edge, -bottom), (-edge, 0.0)];
    drawing.closed(Ink::Tint, [hole.clone(), outside].concat());
    drawing.path(Ink::Outline, hole).of("center_hole");
    for side in [-1.0, 1.0] {
        drawing.line(Ink::Outline, (side * mouth, 0.0), (side * edge, 0.0)).of("face");
    }
    drawing.line(Ink::Thin, (-pilot, -cone), (pilot, -cone));
    drawing.line(Ink::Centre, (0.0, 0.0), (0.0, -bottom));
    let above = Beside { from: 0.0, by: 22.0 };
    drawing.across((-mouth, 0.0), (mouth, 0.0), above, Words::of("Ø ").value(result.cone_diameter)).of("cone_diameter");
    let below = Beside { from: -bottom, by: -22.0 };
    let words = Words::of("pilot Ø ").value(result.pilot_diameter);
    drawing.across((-pilot, point - tip), (pilot, point - tip), below, words).of("pilot_diameter");
    if let Some(depth) = result.cone_depth {
        drawing.upright((-edge, 0.0), (-pilot, -cone), Beside { from: -edge, by: -16.0 }, depth).of("cone_depth");
    }
    if let Some(depth) = result.tip_depth {
        drawing.upright((edge, 0.0), (0.0, -tip), Beside { from: edge, by: 16.0 }, depth).of("tip_depth");
    }
    drawing
}
