//! Trains of change gears as rows of an answer, with the steps of each column.

use super::trains::Train;
use super::{ChangeGearsInput, TrainRow};
use crate::calculators::prelude::*;

/// A train as a row.
pub fn row(train: &Train, ratio: f64, wanted: FoundSize, per_turn: f64, unit: Unit) -> TrainRow {
    let lead = FoundSize::stated(unit.of_si(per_turn * train.ratio()), unit);
    let off = train.error_from(ratio);
    let (off, error) = if off.abs() < 1e-14 { (0.0, 0.0) } else { (off, off) };
    let second = train.second;
    TrainRow {
        train: train.text(),
        first_driver: train.first.0,
        first_driven: train.first.1,
        second_driver: second.map(|pair| pair.0),
        second_driven: second.map(|pair| pair.1),
        ratio: train.ratio(),
        lead,
        lead_error: FoundDifference::stated(wanted.quantity().in_unit(unit) * off, unit),
        error: FoundFineDeviation::stated(100.0 * error, Unit::Percent),
        clears: train.clears,
    }
}

/// The rows on record, column by column.
pub fn tell(
    rows: &[TrainRow],
    wanted: FoundSize,
    ratio: f64,
    input: &ChangeGearsInput,
    stud: f64,
    record: &mut Record,
) {
    let numbers = |of: &dyn Fn(&TrainRow) -> Option<u32>| rows.iter().filter_map(of).map(f64::from).collect::<Vec<_>>();
    let owned = "every simple and compound train of the wheels owned, the nearest that clear first";
    let shown = crate::working::Shown::Texts(rows.iter().map(|row| row.train.clone().into()).collect());
    record.look_up("Trains", owned).with("q", "wanted_ratio", ratio).gives("trains.train", shown);
    record
        .look_up("First drivers", "as the train says")
        .gives("trains.first_driver", numbers(&|row| Some(row.first_driver)));
    record
        .look_up("First driven wheels", "as the train says")
        .gives("trains.first_driven", numbers(&|row| Some(row.first_driven)));
    if rows.iter().any(|row| row.second_driver.is_some()) {
        record
            .look_up("Second drivers", "of the compound trains")
            .gives("trains.second_driver", numbers(&|row| row.second_driver));
        record
            .look_up("Second driven wheels", "of the compound trains")
            .gives("trains.second_driven", numbers(&|row| row.second_driven));
    }
    let ratios: Vec<f64> = rows.iter().map(|row| row.ratio).collect();
    let leads: Vec<FoundSize> = rows.iter().map(|row| row.lead).collect();
    record
        .look_up("Ratios", "teeth of the drivers over teeth of the driven wheels")
        .gives("trains.ratio", ratios.clone());
    record
        .step("Leads", "l = S × h × r")
        .with("S", "leadscrew_lead", input.leadscrew_lead)
        .with("h", "stud_turns", stud)
        .with("r", "trains.ratio", ratios.clone())
        .gives("trains.lead", leads.clone());
    record
        .step("Errors of the lead", "e = l - L")
        .with("l", "trains.lead", leads)
        .with("L", "wanted_lead", wanted)
        .gives("trains.lead_error", rows.iter().map(|row| row.lead_error).collect::<Vec<_>>());
    record
        .step("Errors as a share", "p = r / q - 1")
        .with("r", "trains.ratio", ratios)
        .with("q", "wanted_ratio", ratio)
        .gives("trains.error", rows.iter().map(|row| row.error).collect::<Vec<_>>());
    record
        .look_up("Clear each other", "compound: first pair together more teeth than the second driver by the clearance, second pair more than the first driven")
        .gives("trains.clears", rows.iter().map(|row| if row.clears { "true" } else { "false" }).collect::<Vec<_>>());
}
