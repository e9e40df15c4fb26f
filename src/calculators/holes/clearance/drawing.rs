//! The hole or the slot seen along the screw, with the screw in it.

use super::{ClearanceInput, ClearanceResult};
use crate::drawing::{Beside, Drawing, Ink, Words};
use crate::quantity::SiValue;

/// Draws an answer.
pub fn draw(input: &ClearanceInput, result: &ClearanceResult) -> Drawing {
    let hole = result.hole.hole_diameter;
    let screw = input.hole.screw.found();
    let mut about =
        Words::of(format!("The {} clearance hole of ", input.hole.screw.text())).value(hole).then(" around the screw");
    if let Some(slot) = &result.slot {
        about = about.then("; as a slot it is ").value(slot.slot_length).then(" long");
    }
    let mut drawing = Drawing::new("Hole and screw along the axis", about.then("."));
    let (radius, of_screw) = (hole.get().si() / 2.0, screw.get().si() / 2.0);
    let reach = input.adjustment.map_or(0.0, |adjustment| adjustment.get().si() / 2.0);
    if reach > 0.0 {
        drawing.arc(Ink::Outline, (-reach, 0.0), radius, 90.0, 180.0);
        drawing.arc(Ink::Outline, (reach, 0.0), radius, 270.0, 180.0);
        for y in [-radius, radius] {
            drawing.line(Ink::Outline, (-reach, y), (reach, y)).of("slot_width");
        }
        for x in [-reach, reach] {
            drawing.circle(Ink::Dashed, (x, 0.0), of_screw).of("screw_diameter");
            drawing.cross((x, 0.0), radius);
        }
    } else {
        drawing.circle(Ink::Outline, (0.0, 0.0), radius).of("hole_diameter");
        drawing.circle(Ink::Dashed, (0.0, 0.0), of_screw).of("screw_diameter");
        drawing.cross((0.0, 0.0), radius);
    }
    let below = |by: f64| Beside { from: -radius, by: -by };
    match (&result.slot, input.adjustment) {
        (Some(slot), Some(adjustment)) => {
            let beside = Beside { from: reach + radius, by: 24.0 };
            drawing.upright((reach, -radius), (reach, radius), beside, slot.slot_width).of("slot_width");
            drawing.across((-reach, 0.0), (reach, 0.0), below(22.0), adjustment).of("adjustment");
            drawing
                .across((-reach - radius, 0.0), (reach + radius, 0.0), below(48.0), slot.slot_length)
                .of("slot_length");
        }
        _ => {
            drawing
                .across((-radius, 0.0), (radius, 0.0), below(22.0), Words::of("hole Ø ").value(hole))
                .of("hole_diameter");
        }
    }
    let above = Beside { from: radius, by: 22.0 };
    let words = Words::of("screw Ø ").value(screw);
    drawing.across((-reach - of_screw, 0.0), (-reach + of_screw, 0.0), above, words).of("screw_diameter");
    drawing
}
