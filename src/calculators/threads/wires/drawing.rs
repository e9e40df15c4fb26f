//! The screw in section between the three wires: two above, one below. Of a screw that is thick for its
//! pitch only the upper side is shown. Crests and roots are drawn flat.

use super::{WiresInput, WiresResult};
use crate::drawing::{Beside, Drawing, Ink, Point, Words};
use crate::quantity::{SiValue, angle};
use crate::reference::threads::basics;

/// So many pitches thick a screw is still shown whole.
const WHOLE: f64 = 12.0;
/// How many pitches are shown to each side.
const SHOWN: f64 = 2.0;

/// Draws an answer.
pub fn draw(input: &WiresInput, result: &WiresResult) -> Drawing {
    let thread = &input.thread.thread;
    let basics = basics(thread);
    let (pitch, major) = (input.thread.found(thread.pitch), input.thread.found(basics.major).get().si() / 2.0);
    let middle = match input.pitch_diameter {
        Some(stated) => stated.get().si(),
        None => input.thread.found(basics.pitch_diameter_exact).get().si(),
    } / 2.0;
    let (wire, over) = (result.wires.wire_diameter.get().si() / 2.0, result.over_wires.get().si() / 2.0);
    let mut drawing = Drawing::new("Thread over wires", about(input, result));

    let p = pitch.get().si();
    let form = Form { pitch: p, middle, major, slope: angle::tan(thread.system.flank_angle() / 2.0) };
    // On the far side the groove of an odd number of starts lies half a pitch on.
    let odd = thread.starts % 2 == 1;
    let upper = form.side(if odd { 0.5 } else { 0.0 });
    let whole = 2.0 * major / p <= WHOLE;
    let end = SHOWN * p;
    let below: Vec<Point> = if whole {
        form.side(0.0).into_iter().rev().map(|(x, y)| (x, -y)).collect()
    } else {
        let deep = form.root() - 0.8 * p;
        vec![(end, deep), (-end, deep)]
    };
    drawing.closed(Ink::Tint, [upper.clone(), below.clone()].concat());
    drawing.path(Ink::Outline, upper).of("profile");
    let apart = if odd { 0.5 * p } else { p };
    let mut wires: Vec<Point> = vec![(-apart, over - wire), (apart, over - wire)];
    if whole {
        drawing.path(Ink::Outline, below).of("profile");
        drawing.line(Ink::Centre, (-end, 0.0), (end, 0.0));
        wires.push((0.0, wire - over));
    }
    for (at, number) in wires.iter().zip(1..) {
        drawing.circle(Ink::Outline, *at, wire).of("wire_diameter").number(number);
        drawing.dot(*at);
    }

    let grooves = if odd { (-0.5 * p, 0.5 * p) } else { (0.0, p) };
    let above = Beside { from: over, by: 20.0 };
    let words = Words::of("pitch ").value(pitch);
    drawing.across((grooves.0, over - wire), (grooves.1, over - wire), above, words).of("pitch");
    let words = Words::of("wire Ø ").value(result.wires.wire_diameter);
    if whole {
        let line = Beside { from: -over, by: -18.0 };
        drawing.across((-wire, wire - over), (wire, wire - over), line, words).of("wire_diameter");
        let words = Words::of("over wires\n").value(result.over_wires);
        drawing.upright((apart, over), (0.0, -over), Beside { from: end, by: 22.0 }, words).of("over_wires");
    } else {
        let line = Beside { from: form.root() - 0.8 * p, by: -18.0 };
        drawing.across((-apart - wire, over - wire), (wire - apart, over - wire), line, words).of("wire_diameter");
        drawing.line(Ink::Thin, (apart, over), (1.2 * end, over)).of("over_wires");
        drawing.note_kept((1.2 * end, over), 0.0, 0.0, Words::of("over wires\n").value(result.over_wires));
    }
    drawing
}

/// One side of a thread in section.
struct Form {
    pitch: f64,
    /// Radius of the pitch line.
    middle: f64,
    major: f64,
    slope: f64,
}

impl Form {
    /// As far below the pitch line as the crest is above it, where the groove is as deep.
    fn root(&self) -> f64 {
        let below = (self.major - self.middle).max(0.0).min(0.95 * self.pitch / 4.0 / self.slope);
        self.middle - below
    }

    /// The profile from left to right with a groove at so many pitches from the middle.
    fn side(&self, groove: f64) -> Vec<Point> {
        let root = self.root();
        let half = |y: f64| (self.pitch / 4.0 + (y - self.middle) * self.slope).clamp(0.0, self.pitch / 2.0);
        let (wide, narrow) = (half(self.major), half(root));
        let mut points: Vec<Point> = Vec::new();
        for at in -3..=3 {
            let x = (f64::from(at) + groove) * self.pitch;
            points.extend([(x - wide, self.major), (x - narrow, root), (x + narrow, root), (x + wide, self.major)]);
        }
        between(&points, SHOWN * self.pitch)
    }
}

/// The part of a line from left to right that lies between -end and end.
fn between(points: &[Point], end: f64) -> Vec<Point> {
    let mut out = Vec::new();
    for pair in points.windows(2) {
        let ((ax, ay), (bx, by)) = (pair[0], pair[1]);
        let (low, high) = (ax.max(-end), bx.min(end));
        if low > high || ax == bx {
            continue;
        }
        let on = |x: f64| (x, ay + (by - ay) * (x - ax) / (bx - ax));
        for point in [on(low), on(high)] {
            if out.last() != Some(&point) {
                out.push(point);
            }
        }
    }
    out
}

fn about(input: &WiresInput, result: &WiresResult) -> Words {
    let about = Words::of(format!("The thread {} in section between three wires ", input.thread.text()))
        .value(result.wires.wire_diameter)
        .then(" in diameter: over the wires ")
        .value(result.over_wires);
    match &result.limits {
        Some(limits) => about
            .then(format!("; for class {} from ", limits.class))
            .value(limits.over_wires_min)
            .then(" to ")
            .value(limits.over_wires_max)
            .then("."),
        None => about.then("."),
    }
}
