//! What a train that stands on the lathe cuts: its lead, and the listed threads whose pitch is nearest to it.

use super::gear_train::GearTrain;
use crate::calculators::prelude::*;
use crate::reference::threads::{Listed, ThreadSystem, listed, unit_of};
use crate::threading::cite_list;

/// What a train cuts.
#[derive(Debug, Gives)]
pub struct TrainCut {
    /// The train in one spelling.
    #[label("Train")]
    pub train: String,
    /// Turns of the lead screw for one turn of the stud.
    #[label("Ratio of the train")]
    pub ratio: f64,
    /// The lead that it cuts.
    #[label("Lead it cuts")]
    pub lead: FoundSize,
    /// The same as threads per inch of one start.
    #[label("Threads per inch it cuts")]
    pub threads_per_inch: f64,
    /// That lead less the one wanted, where a thread or lead is given.
    #[label("Lead off by")]
    pub lead_error: Option<FoundDifference>,
    /// The same as a share of the lead wanted.
    #[label("Lead off by, percent")]
    pub error: Option<FoundFineDeviation>,
    /// The inch thread of one start whose pitch is nearest.
    #[label("Nearest inch thread")]
    pub nearest_inch: Option<NearestThread>,
    /// The metric thread of one start whose pitch is nearest.
    #[label("Nearest metric thread")]
    pub nearest_metric: Option<NearestThread>,
}

/// A listed thread near a lead.
#[derive(Debug, Gives)]
pub struct NearestThread {
    /// The commonest thread of that pitch.
    #[label("Designation")]
    pub thread: String,
    /// Its pitch.
    pub pitch: FoundSize,
    /// The lead that the train cuts less this pitch.
    #[label("Lead off by")]
    pub lead_error: FoundDifference,
    /// The same as a share of the pitch.
    #[label("Lead off by, percent")]
    pub error: FoundFineDeviation,
}

/// Lead of the train on a lead screw whose stud turns so often for one turn of the spindle.
pub fn cut_by(
    train: &GearTrain,
    (screw, stud): (ThreadPitch, f64),
    wanted: Option<FoundSize>,
    record: &mut Record,
) -> TrainCut {
    let text = train.text();
    tell!(record.look_up("The train", "as given, in one spelling") => "cut.train": text.clone());
    let ratio = train.ratio();
    record.look_up("Its ratio", "teeth of the drivers over teeth of the driven gears").gives("cut.ratio", ratio);
    let lead: FoundSize = step!(record, "Lead that it cuts", l: "cut.lead" = S * h * r,
        S = leadscrew_lead: screw, h = stud_turns: stud, r = "cut.ratio": ratio);
    let threads_per_inch: f64 = step!(record, "The same as threads per inch", n: "cut.threads_per_inch" = number(I / l),
        I = "constant:inch": FoundSize::stated(1.0, Unit::Inch), l = "cut.lead": lead);
    let (lead_error, error) = wanted.map(|wanted| off(lead, wanted, record)).unzip();
    let nearest_inch =
        nearest(lead, &[ThreadSystem::Unified, ThreadSystem::Whitworth, ThreadSystem::Acme], &INCH, record);
    let nearest_metric = nearest(lead, &[ThreadSystem::Metric, ThreadSystem::Trapezoidal], &METRIC, record);
    TrainCut { train: text, ratio, lead, threads_per_inch, lead_error, error, nearest_inch, nearest_metric }
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

/// What the steps of a nearest thread are called.
struct Names {
    thread: &'static str,
    pitch: &'static str,
    lead_error: &'static str,
    error: &'static str,
}

const INCH: Names = Names {
    thread: "cut.nearest_inch.thread",
    pitch: "cut.nearest_inch.pitch",
    lead_error: "cut.nearest_inch.lead_error",
    error: "cut.nearest_inch.error",
};
const METRIC: Names = Names {
    thread: "cut.nearest_metric.thread",
    pitch: "cut.nearest_metric.pitch",
    lead_error: "cut.nearest_metric.lead_error",
    error: "cut.nearest_metric.error",
};

/// The commonest of the listed threads of these systems whose pitch is nearest to a lead.
fn nearest(lead: FoundSize, systems: &[ThreadSystem], names: &Names, record: &mut Record) -> Option<NearestThread> {
    let off = |one: &Listed| {
        let pitch = unit_of(one.thread()).to_si(one.thread().pitch);
        // Errors that differ by rounding alone are one, so that of one pitch the commonest thread comes first.
        ((pitch / lead.get().si() - 1.0).abs() * 1e9).round()
    };
    let of_systems = listed().iter().filter(|one| systems.contains(&one.thread().system));
    let key = |a: &&Listed, b: &&Listed| off(a).total_cmp(&off(b)).then(a.rareness.cmp(&b.rareness));
    let one = of_systems.min_by(key)?;
    cite_list(&one.designation, record);
    let pitch = one.designation.found(one.thread().pitch);
    let (lead_error, error) = differ(lead, pitch);
    let place = "lists of threads: the pitch nearest to the lead; of threads with that pitch the commonest";
    tell!(record.look_up("Listed thread of the nearest pitch", place), l = "cut.lead": lead
        => (names.thread): one.designation.text());
    record.look_up("Its pitch", "lists of threads").gives(names.pitch, pitch);
    tell!(record.step("Error of the lead for it", "e = l - P"), l = "cut.lead": lead, P = (names.pitch): pitch
        => (names.lead_error): lead_error);
    tell!(record.step("The same as a share", "p = l / P - 1"), l = "cut.lead": lead, P = (names.pitch): pitch
        => (names.error): error);
    Some(NearestThread { thread: one.designation.text(), pitch, lead_error, error })
}
