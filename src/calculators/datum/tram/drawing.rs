//! The sweep from the side: the line through the tip's lowest and highest places over the level table, and
//! the spindle square to it. The end that is read second lies on the right.

use super::{TramInput, TramResult};
use crate::drawing::{Beside, Drawing, Ink, Reach, words};
use crate::quantity::angle;

/// Draws an answer.
pub fn draw(input: &TramInput, result: &TramResult) -> Drawing {
    let (sweep, off) = (input.sweep_diameter.si(), input.difference.si());
    let mut about = words!("Over a sweep of {} the readings differ by {}: the spindle is out of square by {}":
        input.sweep_diameter, input.difference, result.tilt);
    if let Some(hollow) = result.hollow {
        about = about.then(words!("; fed along the tilt the cut is hollow by {}": hollow));
    }
    if let Some(step) = result.step {
        about = about.then(words!("; fed across it passes step by {}": step));
    }
    let mut drawing = Drawing::new("Tram of a mill's head", about.then("."));

    let half = sweep / 2.0;
    let (low, high) = ((-half, -off / 2.0), (half, off / 2.0));
    let table = -off.abs() / 2.0 - 0.12 * sweep;
    let (end, deep) = (0.62 * sweep, table - 0.1 * sweep);
    drawing.block(Ink::Tint, (-end, table), (end, deep));
    drawing.line(Ink::Outline, (-end, table), (end, table)).of("table");
    drawing.line(Ink::Outline, low, high).of("sweep");
    drawing.dot(low);
    drawing.dot(high);
    let (sin, cos) = angle::sin_cos(result.tilt.degrees());
    let up = 0.4 * sweep;
    drawing.line(Ink::Centre, (0.0, 0.0), (-up * sin, up * cos));
    let below = Beside { from: deep, by: -18.0 };
    drawing.across(low, high, below, words!("sweep Ø {}": input.sweep_diameter)).of("sweep_diameter");
    if off != 0.0 {
        drawing.line(Ink::Thin, low, (half, low.1));
        drawing.angle(low, 0.0, result.tilt.degrees(), Reach::Model(0.7 * sweep), result.tilt).of("tilt");
        let beside = Beside { from: end, by: 14.0 };
        drawing.upright((half, low.1), high, beside, input.difference).of("difference");
    }
    drawing.note_beside((-up * sin, up * cos), 0.0, 0.0, "spindle");
    drawing.note_beside((0.0, table), 0.0, 270.0, "table");
    drawing
}
