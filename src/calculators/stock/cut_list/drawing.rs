//! The bars to scale, one below the other, with the pieces that come from each.

use super::{CutListInput, CutListResult};
use crate::calculators::prelude::*;
use crate::drawing::{Beside, Drawing, Ink, words};

/// Most bars drawn.
const MOST: usize = 10;

/// Draws an answer.
pub fn draw(input: &CutListInput, result: &CutListResult) -> Drawing {
    let rows = &result.cut_bars[..result.cut_bars.len().min(MOST)];
    let mut about = words!("{} bars are begun, {} in all.": result.bar_count, result.bar_length);
    for row in rows {
        about = about
            .then(" ")
            .value(row.alike)
            .then(" of ")
            .value(row.length)
            .then(": ")
            .then(row.cuts.text())
            .then(", remnant ")
            .value(row.remnant)
            .then(".");
    }
    let mut drawing = Drawing::new("Bars and their cuts", about);
    let longest = rows.iter().map(|row| row.length.si()).fold(0.0, f64::max);
    let (high, pitch) = (longest * 0.035, longest * 0.1);
    let silent = &mut Record::of_result_alone();
    let (trim, kerf) = (input.trim(silent).si(), input.kerf.si());
    let vise = input.vise(silent).si();
    for (at, row) in rows.iter().enumerate() {
        let low = -pitch * at as f64;
        let bar = row.length.si();
        drawing.block(Ink::Outline, (0.0, low), (bar, low + high)).of("cut_bars").number(row.number);
        let mut from = trim;
        for (number, piece) in row.cuts.0.iter().zip(&result.cuts) {
            let long = piece.saw_to.si();
            for turn in 0..*number {
                let to = (from + long).min(bar);
                drawing.block(Ink::Tint, (from, low), (to, low + high));
                for cut in [from, to] {
                    drawing.line(Ink::Thin, (cut, low), (cut, low + high));
                }
                if turn == 0 {
                    drawing.note_beside(((from + to) / 2.0, low + high / 2.0), 0.0, 0.0, words!("{}": piece.number));
                }
                from += long + kerf;
            }
        }
        if vise > 0.0 {
            drawing.line(Ink::Dashed, (bar - vise, low), (bar - vise, low + high));
        }
        let remnant = row.remnant.si();
        if remnant > 0.0 {
            let below = Beside { from: low, by: -9.0 };
            drawing
                .across((bar - remnant, low), (bar, low), below, row.remnant)
                .of("cut_bars.remnant")
                .number(row.number);
        }
        if at == 0 {
            let above = Beside { from: low + high, by: 16.0 };
            drawing.across((0.0, low + high), (bar, low + high), above, row.length).of("cut_bars.length").number(1);
        }
        drawing.note_kept((0.0, low + high / 2.0), 0.0, 180.0, words!("{} ×": row.alike));
    }
    drawing
}
