//! What no dovetail can be, and pins that would not lie in it.

use super::DovetailInput;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

rules! { pub check(DovetailInput) {
    never(|input| input.corner_width.or(input.face_width).or(input.reading_now).is_none(), Code::FieldMissing,
        corner_width = "2 in", reading_now = "3.4 in"):
        "Give a width wanted, at the pins' corners or at the other face, or the reading over or between the pins.";
    not_both(corner_width, face_width): "Give one width, at the pins' corners or at the other face.";
    needs(face_width => depth = "1/2 in"):
        "The width at the other face needs the depth of the dovetail.";
    never(|input| input.flank_angle.is_some_and(|angle| !(20.0..=85.0).contains(&angle.degrees())),
        Code::ValueOutOfRange, flank_angle = "60 deg"): "The flanks of a dovetail stand at 20 to 85 deg.";
} }

/// Refuses pins that reach past the flank.
pub fn pins_fit(input: &DovetailInput, contact_height: FoundExtent) -> Result<(), Refusal> {
    let Some(depth) = input.depth.filter(|depth| contact_height.si() > depth.si()) else { return Ok(()) };
    let says = "The pins are too large: they would touch above the flank. A pin must touch it within its depth.";
    let pin = input.pin_diameter;
    let smaller = value(0.6 * pin.si() * depth.si() / contact_height.si(), pin.quantity().unit, Way::Down);
    let deeper = value(1.25 * contact_height.si(), depth.quantity().unit, Way::Up);
    Err(Refusal(vec![
        Wrong::new("pin_diameter", Code::Conflict, says, smaller),
        Wrong::new("depth", Code::Conflict, says, deeper),
    ]))
}

/// Refuses a slide that would have no width at its foot.
pub fn leaves_width(width: f64, (field, stated): (&str, Size)) -> Result<(), Refusal> {
    if width > TINY {
        return Ok(());
    }
    let says = "Nothing is left of the slide at its foot. Give a larger width or reading.";
    let larger = value(1.5 * (stated.si() - width), stated.quantity().unit, Way::Up);
    Err(Refusal(vec![Wrong::new(field, Code::Conflict, says, larger)]))
}

/// Refuses a way whose flanks would meet below its mouth.
pub fn leaves_mouth(input: &DovetailInput, mouth: f64, depth: Size) -> Result<(), Refusal> {
    if mouth > TINY {
        return Ok(());
    }
    let says = "The flanks would meet below the mouth of the way. Give a larger width or a smaller depth.";
    let (field, stated) = match (input.corner_width, input.reading_now) {
        (Some(width), _) => ("corner_width", width),
        (None, measured) => ("reading_now", measured.unwrap_or(depth)),
    };
    let wider = value(1.25 * (stated.si() - mouth), stated.quantity().unit, Way::Up);
    Err(Refusal(vec![Wrong::new(field, Code::Conflict, says, wider)]))
}

/// Refuses two pins that have no room beside each other in a way.
pub fn pins_apart(input: &DovetailInput, width: FoundSize, reach: FoundSize) -> Result<(), Refusal> {
    if width.si() - 2.0 * reach.si() > TINY {
        return Ok(());
    }
    let says = "The two pins have no room beside each other in this way. Take smaller pins.";
    let pin = input.pin_diameter;
    let smaller = value(0.3 * pin.si() * width.si() / reach.si(), pin.quantity().unit, Way::Down);
    Err(Refusal(vec![Wrong::new("pin_diameter", Code::Conflict, says, smaller)]))
}
