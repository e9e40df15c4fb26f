//! The hole from its end: what has to go of the old thread, the drill and the new thread round it, and the edge.

use super::{RescueInput, RescueResult};
use crate::drawing::{Beside, Drawing, Ink, Words};
use crate::quantity::SiValue;

/// Draws an answer.
pub fn draw(input: &RescueInput, result: &RescueResult) -> Drawing {
    let clean = result.clean_diameter.get().si() / 2.0;
    let is_taken = |thread: &String| Some(thread) == result.thread.as_ref();
    // Where none leaves wall enough the first shows by how much.
    let shown = result.candidates.iter().position(|row| is_taken(&row.thread)).unwrap_or_default();
    let row = result.candidates.get(shown);
    let number = shown as u32 + 1;
    let mut drawing = Drawing::new("The next thread for a spoiled hole", about(input, result));

    let widest = row.map_or(clean, |row| (row.major_diameter.get().si() / 2.0).max(clean));
    drawing.circle(Ink::Dashed, (0.0, 0.0), clean).of("clean_diameter");
    drawing.cross((0.0, 0.0), widest);
    let mut below = [-20.0, -44.0, -68.0].into_iter().map(|by| Beside { from: -widest, by });
    let mut across = |drawing: &mut Drawing, radius: f64, words: Words, field: &'static str| {
        let line = below.next().unwrap_or(Beside { from: -widest, by: -92.0 });
        drawing.across((-radius, 0.0), (radius, 0.0), line, words).of(field).number(number);
    };
    across(&mut drawing, clean, Words::of("to clean Ø ").value(result.clean_diameter), "clean_diameter");
    if let Some(row) = row {
        let (drill, major) = (row.drill_diameter.get().si() / 2.0, row.major_diameter.get().si() / 2.0);
        drawing.circle(Ink::Outline, (0.0, 0.0), drill).of("candidates.drill_diameter").number(number);
        // As threads are drawn from their end.
        drawing.arc(Ink::Thin, (0.0, 0.0), major, 100.0, 250.0).of("candidates.major_diameter").number(number);
        let words = Words::of("drill Ø ").value(row.drill_diameter);
        across(&mut drawing, drill, words, "candidates.drill_diameter");
        let words = Words::of(format!("{} Ø ", row.thread)).value(row.major_diameter);
        across(&mut drawing, major, words, "candidates.major_diameter");
    }
    if let Some(distance) = input.edge_distance {
        let edge = distance.get().si();
        drawing.line(Ink::Outline, (edge, -1.2 * widest), (edge, 1.2 * widest)).of("edge");
        let above = |by: f64| Beside { from: 1.2 * widest, by };
        let words = Words::of("edge ").value(distance);
        drawing.across((0.0, 0.0), (edge, 1.2 * widest), above(40.0), words).of("edge_distance");
        if let Some((row, left)) = row.and_then(|row| Some((row, row.wall_left?))) {
            let major = row.major_diameter.get().si() / 2.0;
            let words = Words::of("wall ").value(left);
            drawing
                .across((major, 0.0), (edge, 1.2 * widest), above(16.0), words)
                .of("candidates.wall_left")
                .number(number);
        }
    }
    drawing
}

fn about(input: &RescueInput, result: &RescueResult) -> Words {
    let mut about = Words::of("The old thread is gone at ").value(result.clean_diameter).then(" in diameter");
    let is_taken = |thread: &String| Some(thread) == result.thread.as_ref();
    let row = result.candidates.iter().find(|row| is_taken(&row.thread)).or(result.candidates.first());
    if let Some(row) = row {
        about = about
            .then(format!("; {} has ", row.thread))
            .value(row.major_diameter)
            .then(" and is tapped in a hole of ")
            .value(row.drill_diameter);
        if let Some(left) = row.wall_left {
            about = about.then(", which leaves ").value(left).then(" to the edge");
        }
    }
    if let Some(distance) = input.edge_distance {
        about = about.then("; the edge is ").value(distance).then(" from the axis");
    }
    about.then(".")
}
