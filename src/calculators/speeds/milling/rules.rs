//! What milling refuses, warns of and notes.

use super::{HoldChip, MillingInput, MillingWay};
use crate::calculators::prelude::*;
use crate::machine::{Limit, Toward, WantedSpeed, to_try};
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
    if !(1..=MOST_TEETH).contains(&input.teeth) {
        return Err(rule_broken(Code::ValueOutOfRange, "A cutter has 1 to 100 teeth.", &[("teeth", "4")]));
    }
    let (wide, cutter) = (input.radial_depth.quantity(), input.diameter.quantity());
    let beyond = |si: f64| si > cutter.si() * (1.0 + ROUNDING);
    if beyond(wide.si()) {
        return Err(rule_broken(
            Code::Conflict,
            "The cut cannot be wider than the cutter: radial_depth is above diameter.",
            &[("radial_depth", &as_stated(cutter)), ("diameter", &as_stated(wide))],
        ));
    }
    if input.corner_radius.is_some_and(|corner| beyond(2.0 * corner.quantity().si())) {
        let half = value(cutter.si() / 2.0, cutter.unit, Way::Down);
        let says = "A corner's radius is at most half the diameter, that of a ball nose.";
        return Err(rule_broken(Code::Conflict, says, &[("corner_radius", &half)]));
    }
    if input.cut_offset.is_some() && wide.si() < cutter.si() * NARROWEST {
        return Err(rule_broken(
            Code::ValueOutOfRange,
            "The cut is too narrow to reckon with off the rim; leave cut_offset out for a cut at the rim.",
            &[("cut_offset", "leave out")],
        ));
    }
    let far_side = input.cut_offset.map(|offset| 2.0 * offset.quantity().si().abs() + wide.si());
    if let Some(far_side) = far_side.filter(|far_side| beyond(*far_side)) {
        let says = "The cut does not lie within the cutter: its far side is beyond the rim.";
        let wider = value(far_side, cutter.unit, Way::Up);
        return Err(rule_broken(Code::Conflict, says, &[("cut_offset", "0 in"), ("diameter", &wider)]));
    }
    let feed = ("feed_per_tooth", "0.002 in/tooth", input.feed_per_tooth.is_some());
    input.wanted.tooling(Operation::Milling).check(Some(feed))?;
    input.spindle.check()?;
    input.feeds().check()
}

fn as_stated(quantity: Quantity) -> String {
    format!("{} {}", text::full(quantity.value), quantity.unit.row().ascii)
}

/// Not even the slowest speed will do.
pub fn no_speed(
    input: &MillingInput,
    wanted: WantedSpeed,
    speeds: (FoundSpindleSpeed, Option<SpindleSpeed>),
) -> Refusal {
    let mut refusal = input.spindle.no_speed(speeds, &wanted.speed, input.diameter.into());
    // A smaller cutter is no way out of a cut that is wider than it.
    let narrow = |value: &str| Size::read(value).is_ok_and(|size| size.get() < input.radial_depth.get());
    if refusal.0.len() > 1 {
        refusal.0.retain(|wrong| wrong.field != "/diameter" || !wrong.try_this.as_deref().is_some_and(narrow));
    }
    refusal
}

/// Not even the slowest feed will do.
pub fn no_feed(input: &MillingInput, asked: FeedPerTooth, rate: FoundFeedRate) -> Refusal {
    let says = "The slowest of available_feeds is above the feed rate asked for; a feed per tooth that reaches it may \
                be too much for the cutter.";
    let mut ways = Vec::with_capacity(2);
    if let Some(slowest) = input.feeds().slowest() {
        let unit = slowest.quantity().unit;
        if let Some(feed) = to_try::<kind::FeedRate>(rate.get().si(), unit, Toward::Less) {
            ways.push(("available_feeds", format!("{feed},{}", as_stated(slowest.quantity()))));
        }
        let raised = asked.get().si() * (slowest.get() / rate.get()).si();
        if let Some(feed) = to_try::<kind::FeedPerTooth>(raised, asked.quantity().unit, Toward::More) {
            ways.push(("feed_per_tooth", feed));
        }
    }
    if ways.is_empty() {
        ways.push(("available_feeds", "leave out".to_owned()));
    }
    Refusal::no_answer(says, &ways)
}

/// The cautions of milling, and what the way of milling means.
pub fn warn(input: &MillingInput, record: &mut Record) {
    for caution in [cautions::STARTING_POINT, cautions::TURNING_SPINDLE, cautions::MILLING, cautions::SPEED_LIMIT] {
        record.caution(caution);
    }
    if input.radial_depth.get() >= input.diameter.get() {
        record.note(
            "full_slot",
            "A slot as wide as the cutter is climb milled on one side and conventionally milled on the other.",
        );
    }
    match input.way {
        Some(MillingWay::Climb) => {
            record.caution(cautions::CLIMB_MILLING);
            record.note(
                "climb_side",
                "Climb milling with a right-hand cutter: seen from above, the work is on the right of the cutter's \
                 path, clockwise round an outside and counter-clockwise inside a pocket.",
            );
        }
        Some(MillingWay::Conventional) => record.note(
            "conventional_side",
            "Conventional milling with a right-hand cutter: seen from above, the work is on the left of the cutter's \
             path, counter-clockwise round an outside and clockwise inside a pocket.",
        ),
        None => {}
    }
}

/// What the feed found means for the chip.
pub fn note_feed(
    (asked, hold): (FeedPerTooth, HoldChip),
    limits: &[Limit],
    greatest: FoundChipThickness,
    record: &mut Record,
) {
    if !limits.is_empty() {
        record.note(
            "feed_limited",
            "The machine's feed makes the feed per tooth smaller than wanted; a tooth that takes too thin a chip rubs \
             and dulls.",
        );
    }
    if hold == HoldChip::Mean && greatest.get() > asked.get() {
        record.note(
            "greatest_chip_above_asked",
            "Where the mean chip is held, the greatest chip is thicker than the feed per tooth asked for: see that the \
             cutter bears it.",
        );
    }
}
