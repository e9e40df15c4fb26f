//! What a train that stands on the lathe cuts: its lead, and the listed threads whose pitch is nearest to it.

use super::gear_train::GearTrain;
use crate::calculators::prelude::*;
use crate::reference::threads::{Listed, listed, unit_of};
use crate::threading::cite_list;

/// So many pitches are listed.
const NEAREST: usize = 5;

/// What a train cuts.
#[derive(Debug, Gives)]
pub struct TrainCut {
    /// The train in one spelling.
    pub train: String,
    /// Turns of the lead screw for one of the stud.
    pub ratio: f64,
    /// The lead that it cuts.
    pub lead: FoundSize,
    /// The same as threads in one inch, of one start.
    pub threads_per_inch: f64,
    /// That lead less the one wanted; where one is.
    pub lead_error: Option<FoundDifference>,
    /// The same as a share of the one wanted.
    pub error: Option<FoundFineDeviation>,
    /// Listed threads of one start whose pitch is nearest, one for each pitch.
    pub nearest: Vec<NearestThread>,
}

/// A listed thread near a lead.
#[derive(Debug, Gives)]
pub struct NearestThread {
    /// The commonest thread of that pitch.
    pub thread: String,
    /// Its pitch.
    pub pitch: FoundSize,
    /// The lead that the train cuts less this pitch.
    pub lead_error: FoundDifference,
    /// The same as a share of the pitch.
    pub error: FoundFineDeviation,
}

/// Lead of the train on a lead screw whose stud turns so often for one turn of the spindle.
pub fn cut_by(
    train: &GearTrain,
    (screw, stud): (Size, f64),
    wanted: Option<FoundSize>,
    record: &mut Record,
) -> TrainCut {
    let text = train.text();
    tell!(record.look_up("The train", "as stated, in one spelling") => "cut.train": text.clone());
    let ratio = train.ratio();
    record.look_up("Its ratio", "teeth of the drivers over teeth of the driven wheels").gives("cut.ratio", ratio);
    let lead: FoundSize = step!(record, "Lead that it cuts", l: "cut.lead" = S * h * r,
        S = leadscrew_lead: screw, h = stud_turns: stud, r = "cut.ratio": ratio);
    let threads_per_inch: f64 = step!(record, "The same as threads in one inch", n: "cut.threads_per_inch" = number(I / l),
        I = "constant:inch": FoundSize::stated(1.0, Unit::Inch), l = "cut.lead": lead);
    let (lead_error, error) = wanted.map(|wanted| off(lead, wanted, record)).unzip();
    let nearest = nearest(lead, record);
    TrainCut { train: text, ratio, lead, threads_per_inch, lead_error, error, nearest }
}

/// A lead less another, and as a share of it, without the noise of their difference.
fn differ(lead: FoundSize, from: FoundSize) -> (FoundDifference, FoundFineDeviation) {
    let share = lead.get().si() / from.get().si() - 1.0;
    let share = if share.abs() < 1e-14 { 0.0 } else { share };
    let Quantity { value, unit, .. } = from.quantity();
    (FoundDifference::stated(value * share, unit), FoundFineDeviation::stated(100.0 * share, Unit::Percent))
}

/// How far the lead is off the one wanted.
fn off(lead: FoundSize, wanted: FoundSize, record: &mut Record) -> (FoundDifference, FoundFineDeviation) {
    let (lead_error, error) = differ(lead, wanted);
    tell!(record.step("Error of its lead", "e = l - L"), l = "cut.lead": lead, L = wanted_lead: wanted
        => "cut.lead_error": lead_error);
    tell!(record.step("The same as a share", "p = l / L - 1"), l = "cut.lead": lead, L = wanted_lead: wanted
        => "cut.error": error);
    (lead_error, error)
}

/// The listed threads whose pitch is nearest, the commonest of each pitch.
fn nearest(lead: FoundSize, record: &mut Record) -> Vec<NearestThread> {
    let pitch = |one: &Listed| unit_of(one.thread()).to_si(one.thread().pitch);
    let share = |one: &Listed| (pitch(one) / lead.get().si() - 1.0).abs();
    let mut all: Vec<&'static Listed> = listed().iter().filter(|one| one.thread().has_external()).collect();
    // Errors that differ by rounding alone are one, so that of one pitch the commonest thread comes first.
    let key = |one: &Listed| ((share(one) * 1e9).round(), one.rareness);
    all.sort_by(|a, b| key(a).0.total_cmp(&key(b).0).then(key(a).1.cmp(&key(b).1)));
    let mut found: Vec<&'static Listed> = Vec::new();
    for one in all {
        if found.len() == NEAREST {
            break;
        }
        if found.iter().all(|before| (pitch(before) / pitch(one) - 1.0).abs() > 1e-6) {
            found.push(one);
        }
    }
    let nearest: Vec<NearestThread> = found
        .iter()
        .map(|one| {
            cite_list(&one.designation, record);
            let pitch = one.designation.found(one.thread().pitch);
            let (lead_error, error) = differ(lead, pitch);
            NearestThread { thread: one.designation.text(), pitch, lead_error, error }
        })
        .collect();
    let place = "lists of threads, one for each pitch, the nearest first; of one pitch the commonest thread";
    record
        .look_up("Listed threads of the nearest pitches", place)
        .with("l", "cut.lead", lead)
        .gives("cut.nearest.thread", column(&nearest, |row| row.thread.clone()));
    let pitches = || column(&nearest, |row| row.pitch);
    record.look_up("Their pitches", "lists of threads").gives("cut.nearest.pitch", pitches());
    record
        .step("Errors of the lead for them", "e = l - P")
        .with("l", "cut.lead", lead)
        .with("P", "cut.nearest.pitch", pitches())
        .gives("cut.nearest.lead_error", column(&nearest, |row| row.lead_error));
    record
        .step("The same as shares", "p = l / P - 1")
        .with("l", "cut.lead", lead)
        .with("P", "cut.nearest.pitch", pitches())
        .gives("cut.nearest.error", column(&nearest, |row| row.error));
    nearest
}
