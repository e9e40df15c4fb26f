//! The thread from above: the hole or stud, the circle of the cutter's middle, the cutter at the end of its way
//! in, and that way.

use super::{PathTravel, PathTurn, ThreadMillingInput, ThreadMillingResult, ThreadedSide};
use crate::drawing::{Beside, Drawing, Ink, Reach, Words};
use crate::quantity::{SiValue, Size};

/// Draws an answer.
pub fn draw(input: &ThreadMillingInput, result: &ThreadMillingResult) -> Drawing {
    let (start, contour) = input.diameters();
    let radius = |size: &Size| size.get().si() / 2.0;
    let (bore, tips, cutter) = (radius(&start), radius(&contour), radius(&input.cutter_diameter));
    let path = result.path_diameter.get().si() / 2.0;
    let counterclockwise = result.helix.path_turns == PathTurn::Counterclockwise;
    let sign = if counterclockwise { 1.0 } else { -1.0 };
    let mut drawing = Drawing::new("Thread milling, seen along the spindle", about(input, result));

    drawing.cross((0.0, 0.0), 0.0);
    drawing.circle(Ink::Outline, (0.0, 0.0), bore).of("start_diameter");
    drawing.circle(Ink::Thin, (0.0, 0.0), tips).of("contour_diameter");
    drawing.circle(Ink::Centre, (0.0, 0.0), path).of("path_diameter");
    drawing.circle(Ink::Dashed, (path, 0.0), cutter).of("cutter_diameter");
    drawing.dot((path, 0.0));
    drawing.turning((0.0, 0.0), sign * 30.0, sign * 60.0, Reach::Model(path));

    let outermost = tips.max(bore).max(if input.side == ThreadedSide::External { path + cutter } else { 0.0 });
    let below = |by: f64| Beside { from: -outermost, by };
    drawing.across((-tips, 0.0), (tips, 0.0), below(-28.0), Words::of("Ø ").value(contour)).of("contour_diameter");
    drawing
        .across((-path, 0.0), (path, 0.0), below(-58.0), Words::of("path Ø ").value(result.path_diameter))
        .of("path_diameter");
    let above = Beside { from: outermost, by: 28.0 };
    drawing
        .across((path - cutter, 0.0), (path + cutter, 0.0), above, Words::of("cutter Ø ").value(input.cutter_diameter))
        .of("cutter_diameter");
    let way = if result.helix.path_travels == PathTravel::Up { "up" } else { "down" };
    let rise = Words::of(format!("entry: {way} ")).value(result.way_in.entry_rise);
    match (result.way_in.entry_arc_diameter, result.way_in.entry_length) {
        (Some(arc), _) => {
            let (half, turn) =
                (arc.get().si() / 2.0, result.way_in.entry_arc_angle.map_or(180.0, |turn| turn.degrees()));
            let middle = path - half;
            drawing.arc(Ink::Outline, (middle, 0.0), half, -sign * turn, sign * turn).of("entry_arc_diameter");
            let (sin, cos) = crate::quantity::angle::sin_cos(turn / 2.0);
            let on_arc = (middle + half * cos, -sign * half * sin);
            drawing.leader(on_arc, if counterclockwise { 225.0 } else { 135.0 }, rise);
        }
        (None, Some(length)) => {
            let long = length.get().si();
            let from = (path, -sign * long);
            drawing.line(Ink::Outline, from, (path, 0.0)).of("entry_length");
            let beside = Beside { from: path + cutter, by: 28.0 };
            let (low, high) = if counterclockwise { (from, (path, 0.0)) } else { ((path, 0.0), from) };
            drawing.upright(low, high, beside, length).of("entry_length");
            drawing.leader((path, -sign * long / 2.0), if counterclockwise { 225.0 } else { 135.0 }, rise);
        }
        (None, None) => {}
    }
    drawing
}

fn about(input: &ThreadMillingInput, result: &ThreadMillingResult) -> Words {
    let what = match input.side {
        ThreadedSide::Internal => "hole",
        ThreadedSide::External => "stud",
    };
    Words::of(format!("A {what} for {}: the center of a cutter of ", input.thread.thread.designation))
        .value(input.cutter_diameter)
        .then(format!(
            " goes {} and {} on a circle of ",
            result.helix.path_turns.as_str(),
            result.helix.path_travels.as_str()
        ))
        .value(result.path_diameter)
        .then(", ")
        .value(result.helix.rise_per_turn)
        .then(" in each turn")
}
