//! What milling refuses, warns of and notes.

use super::{HoldChip, MillingInput, MillingWay};
use crate::calculators::prelude::*;
use crate::reference::cutting_speeds::Operation;
use crate::suggestion::{Way, value};

/// Greatest number of teeth.
const MOST_TEETH: u32 = 100;

/// A slot stated in two units may be wider than the cutter by a rounding.
const ROUNDING: f64 = 1e-12;

/// A cut off the rim that is narrower than this share of the cutter has an engagement of rounding errors.
const NARROWEST: f64 = 1e-6;

/// The rules between fields.
pub fn check(input: &MillingInput) -> Result<(), ValidationError> {
    if input.teeth.is_some_and(|teeth| !(1..=MOST_TEETH).contains(&teeth)) {
        return Err(rule_broken(Code::ValueOutOfRange, "A cutter has 1 to 100 teeth.", &[("teeth", "4")]));
    }
    check_depths(input)?;
    let cutter = input.diameter.quantity();
    let beyond = |si: f64| si > cutter.si() * (1.0 + ROUNDING);
    if let Some(wide) = input.radial_depth.map(|depth| depth.quantity()).filter(|wide| beyond(wide.si())) {
        return Err(rule_broken(
            Code::Conflict,
            "The cut cannot be wider than the cutter. Give a smaller width of cut, or a larger cutter.",
            &[("radial_depth", &as_stated(cutter)), ("diameter", &as_stated(wide))],
        ));
    }
    if input.corner_radius.is_some_and(|corner| beyond(2.0 * corner.quantity().si())) {
        let half = value(cutter.si() / 2.0, cutter.unit, Way::Down);
        let says = "The corner radius is at most half the cutter's diameter, as on a ball nose.";
        return Err(rule_broken(Code::Conflict, says, &[("corner_radius", &half)]));
    }
    if let (Some(offset), Some(wide)) = (input.cut_offset, input.radial_depth.map(|depth| depth.quantity().si())) {
        if wide < cutter.si() * NARROWEST {
            return Err(rule_broken(
                Code::ValueOutOfRange,
                "The cut is too narrow to calculate off center; leave the offset out for a side cut.",
                &[("cut_offset", "leave out")],
            ));
        }
        let far_side = 2.0 * offset.quantity().si().abs() + wide;
        if beyond(far_side) {
            let says = "The cut reaches past the edge of the cutter. Give a smaller offset, or a larger cutter.";
            let wider = value(far_side, cutter.unit, Way::Up);
            return Err(rule_broken(Code::Conflict, says, &[("cut_offset", "0 in"), ("diameter", &wider)]));
        }
    }
    input.wanted.tooling(Operation::Milling).check()?;
    input.spindle.check()?;
    input.feeds().check()
}

rules! { check_depths(MillingInput) {
    needs(cut_offset => radial_depth = "0.1 in", cut_offset = "leave out"):
        "With the cut off center, give the width of cut too.";
    never(|input| input.hold_chip.is_some_and(|hold| hold != HoldChip::None) && input.radial_depth.is_none(),
        Code::Conflict, radial_depth = "0.1 in", hold_chip = "none"):
        "To hold the chip thickness, give the width of cut too.";
} }

fn as_stated(quantity: Quantity) -> String {
    format!("{} {}", text::full(quantity.value), quantity.unit.row().ascii)
}

/// The cautions of milling, and what the way of milling means.
pub fn warn(input: &MillingInput, record: &mut Record) {
    record.cautions(&[cautions::TURNING_SPINDLE, cautions::MILLING, cautions::SPEED_LIMIT]);
    input.screws.warn(input.way == Some(MillingWay::Climb), record);
    if input.radial_depth.is_some_and(|depth| depth.get() >= input.diameter.get()) {
        record.note(
            "full_slot",
            "A slot as wide as the cutter is climb milled on one side and conventionally milled on the other side.",
        );
    }
    match input.way {
        Some(MillingWay::Climb) => record.note(
            "climb_side",
            "Climb milling with a right-hand cutter: seen from above, the work is on the right of the cutter's \
             path, clockwise around an outside and counter-clockwise inside a pocket.",
        ),
        Some(MillingWay::Conventional) => record.note(
            "conventional_side",
            "Conventional milling with a right-hand cutter: seen from above, the work is on the left of the cutter's \
             path, counter-clockwise around an outside and clockwise inside a pocket.",
        ),
        None => {}
    }
}

/// Notes a feed that the machine makes smaller.
pub fn note_feed(is_less: bool, record: &mut Record) {
    if is_less {
        record.note(
            "feed_limited",
            "The machine's feed makes the feed per tooth smaller than wanted; a tooth that takes too thin a chip rubs \
             and gets dull.",
        );
    }
}

/// What holding the mean chip means for the greatest.
pub fn note_chip((asked, hold): (FeedPerTooth, HoldChip), greatest: FoundChipThickness, record: &mut Record) {
    if hold == HoldChip::Mean && greatest.get() > asked.get() {
        record.note(
            "greatest_chip_above_asked",
            "With the mean chip held, the greatest chip is thicker than the feed per tooth asked for: make sure that the \
             cutter stands it.",
        );
    }
}
