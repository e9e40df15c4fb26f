//! A part that is made already: whether it is within its limits, and what its mate may measure.

use super::SuitingSizes;
use crate::calculators::prelude::*;
use crate::fitting::{FittedPair, PartLimits};
use crate::working::known_steps;

/// What the mate of the part as made may measure: of the shaft for a hole, of the hole for a shaft.
pub fn mate(pair: &FittedPair, made: Option<Size>, is_hole: bool, record: &mut Record) -> Option<SuitingSizes> {
    let (made, least, greatest) = (made?, pair.least_clearance?, pair.greatest_clearance?);
    tell_whether_within(if is_hole { pair.hole.as_ref()? } else { pair.shaft.as_ref()? }, made, is_hole, record);
    let size = made.quantity().in_unit(Unit::Millimetre);
    let (c, g) = (least.quantity().in_unit(Unit::Millimetre), greatest.quantity().in_unit(Unit::Millimetre));
    let at = |size: f64| text::tidy(size);
    let sizes = |greatest: f64, least: f64| SuitingSizes {
        greatest: FoundFineUpperLimit::stated(at(greatest), Unit::Millimetre),
        least: FoundFineLowerLimit::stated(at(least), Unit::Millimetre),
    };
    Some(if is_hole {
        let suits = sizes(size - c, size - g);
        known_steps! { record;
            step "Largest shaft for the hole as made", "d = D - c", D = "measured_hole": made, c = "least_clearance"
                => "shaft_to_suit.greatest", suits.greatest;
            step "Smallest shaft for the hole as made", "s = D - C", D = "measured_hole": made, C = "greatest_clearance"
                => "shaft_to_suit.least", suits.least;
        }
        suits
    } else {
        let suits = sizes(size + g, size + c);
        known_steps! { record;
            step "Largest hole for the shaft as made", "D = d + C", d = "measured_shaft": made, C = "greatest_clearance"
                => "hole_to_suit.greatest", suits.greatest;
            step "Smallest hole for the shaft as made", "B = d + c", d = "measured_shaft": made, c = "least_clearance"
                => "hole_to_suit.least", suits.least;
        }
        suits
    })
}

fn tell_whether_within(part: &PartLimits, made: Size, is_hole: bool, record: &mut Record) {
    let size = made.quantity().in_unit(Unit::Millimetre);
    let (name, code) = if is_hole { ("hole", "hole_outside_its_class") } else { ("shaft", "shaft_outside_its_class") };
    let (least, greatest) = (part.least.quantity().value, part.greatest.quantity().value);
    let (off, side) = if size > greatest + 1e-9 {
        (size - greatest, "larger")
    } else if size < least - 1e-9 {
        (least - size, "smaller")
    } else {
        return;
    };
    let unit = made.quantity().unit;
    let off = FoundFineDifference::stated(text::tidy(unit.of_si(off / 1000.0)), unit);
    record.note(
        code,
        format!(
            "The {name} as made is {} {side} than its class allows. A mate made to suit gives the clearance of the fit, \
             but spare parts will not: ask whether that is allowed, and mark the parts as a pair.",
            off.quantity().text()
        ),
    );
}

/// What the two parts as made leave between them.
pub fn clearance_as_made(
    pair: &FittedPair,
    measured_hole: Option<Size>,
    measured_shaft: Option<Size>,
    record: &mut Record,
) -> Option<FoundFineDifference> {
    let (measured_hole, measured_shaft) = (measured_hole?, measured_shaft?);
    let clearance: FoundFineDifference = step!(record, "Clearance of the two as made",
        a: clearance = D - d, D = measured_hole, d = measured_shaft);
    let (least, greatest) = (pair.least_clearance?.si(), pair.greatest_clearance?.si());
    if clearance.si() < least - 1e-12 || clearance.si() > greatest + 1e-12 {
        let says = "The two as made leave a clearance outside that of the fit.";
        record.note("clearance_outside_the_fit", says);
    }
    Some(clearance)
}
