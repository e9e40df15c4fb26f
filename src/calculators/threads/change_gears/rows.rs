//! Trains of change gears as rows of an answer, with the steps of each column.

use super::TrainRow;
use crate::arithmetic::gear_trains::Train;
use crate::calculators::prelude::*;

/// A train as a row.
pub fn row(train: &Train, wanted_ratio: f64, wanted: FoundSize, per_turn: f64) -> TrainRow {
    let unit = wanted.quantity().unit;
    let off = train.error_from(wanted_ratio);
    let off = if off.abs() < 1e-14 { 0.0 } else { off };
    TrainRow {
        train: train.text(),
        first_driver: train.first.0,
        first_driven: train.first.1,
        second_driver: train.second.map(|pair| pair.0),
        second_driven: train.second.map(|pair| pair.1),
        ratio: train.ratio(),
        lead: FoundSize::stated(unit.of_si(per_turn * train.ratio()), unit),
        lead_error: FoundDifference::stated(wanted.quantity().in_unit(unit) * off, unit),
        error: FoundFineDeviation::stated(100.0 * off, Unit::Percent),
        clears: train.clears,
    }
}

/// The rows on record, column by column.
pub fn tell(
    (wanted_lead, wanted_ratio): (FoundSize, f64),
    trains: &[TrainRow],
    (leadscrew_lead, stud_turns): (ThreadPitch, f64),
    record: &mut Record,
) {
    let nearest = "every simple and compound train of the gears you have, the nearest that clear first";
    tell!(record.look_up("Trains", nearest), q = wanted_ratio => trains.train);
    tell!(record.look_up("First drivers", "as the train says") => trains.first_driver);
    tell!(record.look_up("First driven gears", "as the train says") => trains.first_driven);
    if trains.iter().any(|train| train.second_driver.is_some()) {
        tell!(record.look_up("Second drivers", "of the compound trains") => trains.second_driver);
        tell!(record.look_up("Second driven gears", "of the compound trains") => trains.second_driven);
    }
    tell!(record.look_up("Ratios", "teeth of the drivers over teeth of the driven gears") => trains.ratio);
    tell!(record.step("Leads", "l = S × h × r"),
        S = leadscrew_lead, h = stud_turns, r = trains.ratio => trains.lead);
    tell!(record.step("Errors of the lead", "e = l - L"),
        l = trains.lead, L = wanted_lead => trains.lead_error);
    tell!(record.step("Errors as a share", "p = r / q - 1"),
        r = trains.ratio, q = wanted_ratio => trains.error);
    let clear = "compound: first pair together more teeth than the second driver by the clearance, second pair more \
        than the first driven";
    tell!(record.look_up("Clear each other", clear) => trains.clears);
}
