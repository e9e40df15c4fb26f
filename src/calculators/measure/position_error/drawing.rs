//! The zone around the true place at zero, with each hole's axis as a dot where it was measured.

use super::{PositionErrorInput, PositionErrorResult};
use crate::drawing::{Beside, Drawing, Ink, Words, every, words};

/// Draws an answer.
pub fn draw(input: &PositionErrorInput, result: &PositionErrorResult) -> Drawing {
    let half = input.zone.map_or(0.0, |zone| zone.si()) / 2.0;
    let around = result.zone_around.map_or(0.0, |zone| zone.si()) / 2.0;
    let side = input.plus_minus.map_or(result.plus_minus_inside.map_or(0.0, |t| t.si()), |t| t.si());
    let mut about = match (input.zone, input.plus_minus) {
        (Some(zone), _) => words!("A round position zone {} across, seen along the hole": zone),
        (_, Some(plus_minus)) => words!("A position square, {} either way on each axis": plus_minus),
        _ => Words::of("A position zone"),
    };
    let holes = result.holes.as_deref().unwrap_or_default();
    for hole in holes {
        about = about.then(words!("; hole {} is off by {} in X and {} in Y": hole.number, hole.x, hole.y));
    }
    let mut drawing = Drawing::new("Position zone", about.then("."));
    let reach = half.max(around);
    drawing.cross((0.0, 0.0), reach);
    let corners = vec![(-side, -side), (side, -side), (side, side), (-side, side)];
    if let Some(zone) = input.zone {
        drawing.circle(Ink::Outline, (0.0, 0.0), half).of("zone");
        drawing.closed(Ink::Dashed, corners);
        let below = Beside { from: -half, by: -20.0 };
        drawing.across((-half, 0.0), (half, 0.0), below, words!("zone\n{}": zone)).of("zone");
        if let [hole] = holes
            && let Some(allowed) = hole.allowed.filter(|_| hole.bonus.is_some_and(|bonus| bonus.si() > 0.0))
        {
            drawing.circle(Ink::Thin, (0.0, 0.0), allowed.si() / 2.0).of("holes.allowed").number(1);
        }
    } else if let Some(zone) = result.zone_around {
        drawing.closed(Ink::Outline, corners);
        drawing.circle(Ink::Dashed, (0.0, 0.0), around).of("zone_around");
        let below = Beside { from: -around, by: -20.0 };
        drawing.across((-around, 0.0), (around, 0.0), below, words!("round zone\n{}": zone)).of("zone_around");
    }
    let named = every(holes.len().max(1));
    for (at, hole) in holes.iter().enumerate() {
        let place = (hole.x.si(), hole.y.si());
        drawing.dot(place).of("holes").number(hole.number);
        if holes.len() > 1 && at % named == 0 {
            drawing.note_beside(place, 0.02 * reach, 45.0, Words::of(hole.number.to_string()));
        }
    }
    drawing
}
