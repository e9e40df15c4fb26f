//! Trains of change gears as rows of an answer, with the steps of each column.

use super::trains::Train;
use super::{ChangeGearsResult, TrainRow};
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
pub fn tell(result: &ChangeGearsResult, leadscrew_lead: Size, stud: f64, record: &mut Record) {
    let rows = result.trains.as_slice();
    record
        .look_up("Trains", "every simple and compound train of the wheels owned, the nearest that clear first")
        .with("q", "wanted_ratio", result.wanted_ratio)
        .gives("trains.train", column(rows, |row| row.train.clone()));
    let wheels = "as the train says";
    record.look_up("First drivers", wheels).gives("trains.first_driver", column(rows, |row| row.first_driver));
    record.look_up("First driven wheels", wheels).gives("trains.first_driven", column(rows, |row| row.first_driven));
    if rows.iter().any(|row| row.second_driver.is_some()) {
        let wheels = "of the compound trains";
        record.look_up("Second drivers", wheels).gives("trains.second_driver", column(rows, |row| row.second_driver));
        record
            .look_up("Second driven wheels", wheels)
            .gives("trains.second_driven", column(rows, |row| row.second_driven));
    }
    record
        .look_up("Ratios", "teeth of the drivers over teeth of the driven wheels")
        .gives("trains.ratio", column(rows, |row| row.ratio));
    record
        .step("Leads", "l = S × h × r")
        .with("S", "leadscrew_lead", leadscrew_lead)
        .with("h", "stud_turns", stud)
        .with("r", "trains.ratio", column(rows, |row| row.ratio))
        .gives("trains.lead", column(rows, |row| row.lead));
    record
        .step("Errors of the lead", "e = l - L")
        .with("l", "trains.lead", column(rows, |row| row.lead))
        .with("L", "wanted_lead", result.wanted_lead)
        .gives("trains.lead_error", column(rows, |row| row.lead_error));
    record
        .step("Errors as a share", "p = r / q - 1")
        .with("r", "trains.ratio", column(rows, |row| row.ratio))
        .with("q", "wanted_ratio", result.wanted_ratio)
        .gives("trains.error", column(rows, |row| row.error));
    record
        .look_up("Clear each other", "compound: first pair together more teeth than the second driver by the clearance, second pair more than the first driven")
        .gives("trains.clears", column(rows, |row| row.clears));
}
