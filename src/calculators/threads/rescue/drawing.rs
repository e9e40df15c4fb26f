//! The hole from its end: what has to go of the old thread, the drill and the new thread round it, and the edge.

use super::{RescueInput, RescueResult, RescueRow};
use crate::drawing::{Beside, Drawing, Ink, Words};
use crate::quantity::SiValue;

/// Draws an answer.
pub fn draw(input: &RescueInput, result: &RescueResult) -> Drawing {
    let clean = result.clean_diameter.get().si() / 2.0;
    // Where none leaves wall enough the first shows by how much.
    let shown =
        result.candidates.iter().position(|row| Some(&row.thread) == result.thread.as_ref()).unwrap_or_default();
    let row = result.candidates.get(shown);
    let number = shown as u32 + 1;
    let mut drawing = Drawing::new("The next thread for a stripped hole", about(input, result, row));

    let words = Words::of("old thread gone Ø ").value(result.clean_diameter);
    let mut diameters = vec![(clean, words, "clean_diameter")];
    drawing.circle(Ink::Dashed, (0.0, 0.0), clean).of("clean_diameter");
    if let Some(row) = row {
        let (drill, major) = (row.drill_diameter.get().si() / 2.0, row.major_diameter.get().si() / 2.0);
        drawing.circle(Ink::Outline, (0.0, 0.0), drill).of("candidates.drill_diameter").number(number);
        // As threads are drawn from their end.
        drawing.arc(Ink::Thin, (0.0, 0.0), major, 100.0, 250.0).of("candidates.major_diameter").number(number);
        let words = Words::of("drill Ø ").value(row.drill_diameter);
        diameters.push((drill, words, "candidates.drill_diameter"));
        let words = Words::of(format!("{} Ø ", row.thread)).value(row.major_diameter);
        diameters.push((major, words, "candidates.major_diameter"));
    }
    let widest = row.map_or(clean, |row| (row.major_diameter.get().si() / 2.0).max(clean));
    drawing.cross((0.0, 0.0), widest);
    for (at, (radius, words, field)) in diameters.into_iter().enumerate() {
        let line = Beside { from: -widest, by: -20.0 - 24.0 * at as f64 };
        drawing.across((-radius, 0.0), (radius, 0.0), line, words).of(field).number(number);
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

fn about(input: &RescueInput, result: &RescueResult, row: Option<&RescueRow>) -> Words {
    let mut about = Words::of("The old thread is gone at ").value(result.clean_diameter).then(" in diameter");
    if let Some(row) = row {
        about = about
            .then(format!("; {} has ", row.thread))
            .value(row.major_diameter)
            .then(" and needs a hole of ")
            .value(row.drill_diameter);
        if let Some(left) = row.wall_left {
            about = about.then(", which leaves ").value(left).then(" to the edge");
        }
    }
    if let Some(distance) = input.edge_distance {
        about = about.then("; the edge is ").value(distance).then(" from the center");
    }
    about.then(".")
}
