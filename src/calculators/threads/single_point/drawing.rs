//! One groove in section with the depths of its passes; y is the distance from the blank's surface, outwards
//! of the axis. The groove of a nut opens downwards.

use super::tip::{Tip, tip_of};
use super::{CutThread, SinglePointInput, SinglePointResult};
use crate::drawing::{Beside, Drawing, Ink, Point, Words};
use crate::quantity::{SiValue, angle};

/// Most passes that are drawn as lines; more would be a grey.
const MOST_LINES: usize = 25;
/// Points that a rounded tip is drawn with.
const ROUND: i32 = 12;

/// Draws an answer.
pub fn draw(input: &SinglePointInput, result: &SinglePointResult) -> Drawing {
    let thread = &input.thread.thread;
    let flanks = thread.system.flank_angle();
    let internal = input.cuts() == CutThread::Internal;
    let about = Words::of(format!("One groove of {} in section, with its passes: depth ", input.thread.text()))
        .value(result.groove.depth)
        .then(", pitch diameter aimed at ")
        .value(result.groove.aim)
        .then(format!(", flanks at {flanks}°."));
    let mut drawing = Drawing::new("Groove and passes", about);
    let (pitch, depth) = (result.pitch.get().si(), result.groove.depth.get().si());
    let crest = result.groove.crest_width.get().si();
    let slope = angle::tan(flanks / 2.0);
    // Half the groove at the surface: what the crests leave of half a pitch.
    let open = (pitch - crest) / 2.0;
    let inwards = if internal { 1.0 } else { -1.0 };
    let at = |x: f64, below: f64| (x, inwards * below);
    let groove = bottom(input, open, depth, slope);
    let half_at = |below: f64| half_width(&groove, open, below);
    let mut profile: Vec<Point> = vec![at(-open - crest, 0.0), at(-open, 0.0)];
    profile.extend(groove.iter().map(|(x, below)| at(*x, *below)));
    profile.extend([at(open, 0.0), at(open + crest, 0.0)]);
    let under = 1.3 * depth;
    let body = vec![at(open + crest, under), at(-open - crest, under)];
    drawing.closed(Ink::Tint, [profile.clone(), body].concat());
    let cuts = result.passes.iter().filter(|pass| pass.kind == "cut");
    if (result.pass_count as usize) <= MOST_LINES {
        for pass in cuts {
            let below = pass.depth.get().si();
            let half = half_at(below);
            drawing.line(Ink::Thin, at(-half, below), at(half, below)).of("passes").number(pass.number);
        }
    }
    drawing.path(Ink::Outline, profile).of("groove");
    let right = open + crest;
    let line = Beside { from: right, by: 30.0 };
    drawing.upright(at(0.0, depth), at(right, 0.0), line, Words::of("depth ").value(result.groove.depth)).of("depth");
    if crest > 0.05 * pitch {
        let above = Beside { from: 0.0, by: if internal { -26.0 } else { 26.0 } };
        drawing
            .across(at(-right, 0.0), at(-open, 0.0), above, Words::of("crest ").value(result.groove.crest_width))
            .of("crest_width");
    }
    let middle = half_pitch_line(open, pitch, slope);
    drawing.line(Ink::Centre, at(-right, middle), at(right, middle)).of("aim");
    drawing.note_kept(at(-right, middle), 0.0, 180.0, Words::of("pitch Ø ").value(result.groove.aim));
    drawing
}

/// How far below the surface the groove is half a pitch wide.
fn half_pitch_line(open: f64, pitch: f64, slope: f64) -> f64 {
    (open - pitch / 4.0) / slope
}

/// The groove's outline below the surface, from left to right: half widths and depths.
fn bottom(input: &SinglePointInput, open: f64, depth: f64, slope: f64) -> Vec<(f64, f64)> {
    let half_angle = input.thread.thread.system.flank_angle() / 2.0;
    match tip_of(input) {
        Tip::Flat(_) => {
            let half = (open - depth * slope).max(0.0);
            vec![(-half, depth), (half, depth)]
        }
        Tip::Round(radius) => {
            let r = radius.get().si();
            let centre = depth - r;
            // The flanks touch the tip where its radius stands square to them.
            let reach = 90.0 - half_angle;
            (-ROUND..=ROUND)
                .map(|step| {
                    let (sin, cos) = angle::sin_cos(reach * f64::from(step) / f64::from(ROUND));
                    (r * sin, centre + r * cos)
                })
                .collect()
        }
    }
}

/// Half the width of the groove at a depth.
fn half_width(groove: &[(f64, f64)], open: f64, below: f64) -> f64 {
    let right = groove.iter().filter(|(x, _)| *x >= 0.0).rev();
    let mut upper = (open, 0.0);
    for &(x, y) in right {
        if below <= y {
            let share = if y > upper.1 { (below - upper.1) / (y - upper.1) } else { 1.0 };
            return upper.0 + share * (x - upper.0);
        }
        upper = (x, y);
    }
    groove.last().map_or(0.0, |(x, _)| x.abs()).min(upper.0)
}
