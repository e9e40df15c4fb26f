//! Trains of change gears for a lead on a lathe, from the gears that are owned: simple and compound, what
//! lead they give, how far that is off, and whether the gears clear each other. Kinematics of gear trains.

mod cut;
mod gear_train;
mod rows;

use crate::arithmetic::gear_trains::{trains, wrong_gears};
use crate::calculators::prelude::*;
use crate::shop::change_gears;
use crate::threading::lead_to_cut;
use cut::{TrainCut, cut_by};
use gear_train::GearTrain;
use rows::{row, tell};

/// The calculator.
pub struct ChangeGears;

/// What the change gears calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_lead, check = check_gears)]
pub struct ChangeGearsInput {
    /// The thread to cut. Give this, the lead or a train.
    #[label("Thread to cut")]
    pub thread: Option<Designation>,
    /// The lead to cut: how far the thread goes in one turn. Give this, the thread or a train.
    #[label("Lead to cut")]
    pub lead: Option<ThreadPitch>,
    /// A train that stands on the lathe, to find what it cuts: drivers over driven gears, from the stud on, as 40/60 or
    /// 40/60 x 50/30. With a thread or lead the answer says how far it is off.
    #[label("Train on the lathe")]
    pub train: Option<GearTrain>,
    /// Lead of the lead screw: how far one turn of it moves the carriage.
    #[label("Lead of the lead screw")]
    pub leadscrew_lead: ThreadPitch,
    /// Teeth of the gears you have; name a gear twice if you have two. If absent, those in the shop's file.
    #[label("Gears you have", "gear")]
    pub gears: Option<Vec<u32>>,
    /// Teeth of a fixed gear on the spindle that drives the stud; give the stud gear too. If absent, the stud turns as
    /// fast as the spindle.
    #[label("Spindle gear")]
    pub spindle_wheel: Option<Count<8, 300>>,
    /// Teeth of the fixed gear on the stud; give the spindle gear too.
    #[label("Stud gear")]
    pub stud_wheel: Option<Count<8, 300>>,
    /// Teeth by which two gears in mesh must together exceed the gear beside them, so that it clears their shafts.
    #[absent("15", "Common practice for the shafts and nuts of small lathes; look at yours.")]
    #[label("Clearance in teeth")]
    pub clearance_teeth: Option<Count<0, 100>>,
    /// Trains to list, 1 to 50.
    #[absent("10", "The ten nearest trains.")]
    #[label("How many trains")]
    pub count: Option<Count<1, 50>>,
}

/// A train of gears, from the stud to the lead screw.
#[derive(Debug, Gives)]
pub struct TrainRow {
    /// The train as it is set up: drivers over driven gears.
    #[label("Gears")]
    pub train: String,
    /// Gear on the stud.
    pub first_driver: u32,
    /// Gear it drives: in a simple train the one on the lead screw, through an idler; in a compound train the one on
    /// the middle shaft.
    #[label("First driven gear")]
    pub first_driven: u32,
    /// Second driver, on the middle shaft; compound trains only.
    pub second_driver: Option<u32>,
    /// Gear on the lead screw; compound trains only.
    #[label("Second driven gear")]
    pub second_driven: Option<u32>,
    /// Turns of the lead screw for one turn of the stud.
    pub ratio: f64,
    /// The lead that it cuts.
    #[label("Lead it cuts")]
    pub lead: FoundSize,
    /// That lead less the one wanted.
    #[label("Lead off by")]
    pub lead_error: FoundDifference,
    /// The same as a share of the lead wanted.
    #[label("Lead off by, percent")]
    pub error: FoundFineDeviation,
    /// Whether the gears clear the shafts beside them.
    #[label("Gears clear")]
    pub clears: bool,
}

/// What the change gears calculator gives.
#[derive(Debug, Gives)]
pub struct ChangeGearsResult {
    /// The lead wanted; absent where only a train is given.
    #[label("Lead wanted")]
    pub wanted_lead: Option<FoundSize>,
    /// Turns of the lead screw wanted for one turn of the stud; absent where only a train is given.
    #[label("Ratio wanted")]
    pub wanted_ratio: Option<f64>,
    /// What the train on the lathe cuts; only where one is given.
    #[label("")]
    pub cut: Option<TrainCut>,
    /// Trains: those that clear come first, the nearest to the lead before the others. Absent where only a train is
    /// given.
    pub trains: Option<Vec<TrainRow>>,
}

rules! { check_lead(ChangeGearsInput) {
    one_of(thread = "M10", lead = "1.5 mm", train = "40/60 x 50/30"):
        "Give the thread, its lead, or a train to find what it cuts.";
    not_both(thread, lead): "Give the thread or the lead, not both: the thread already has its lead.";
} }

/// Gears that are always right.
const GOOD: &str = "20,30,40,45,50,55,60,65,127";

fn check_gears(input: &ChangeGearsInput) -> Result<(), ValidationError> {
    if let Some(says) = input.gears.as_deref().and_then(wrong_gears) {
        return Err(rule_broken(Code::ValueOutOfRange, says, &[("gears", GOOD)]));
    }
    let ((Some(wheel), None) | (None, Some(wheel))) = (input.spindle_wheel, input.stud_wheel) else { return Ok(()) };
    let says = "Give the teeth of both fixed gears, on the spindle and on the stud, or of neither.";
    let teeth = wheel.get().to_string();
    Err(rule_broken(Code::Conflict, says, &[("spindle_wheel", &teeth), ("stud_wheel", &teeth)]))
}

impl Calculator for ChangeGears {
    const ID: &'static str = "threads/change-gears";
    const TITLE: &'static str = "Change gears";
    const ABOUT: &'static str = "Trains of change gears for the lead of a thread from the gears you have, the lead \
        each cuts, how far it is off, and whether the gears clear each other; or what a train on the lathe cuts.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str = "Take a scratch pass and measure over many threads with a rule: the length \
        divided by their number is the pitch.";
    const WORDS: &'static str = "lathe, change wheels, gear train, lead screw, pitch, 127, metric thread, \
        compound train, idler";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1.5 mm pitch on the shop's lathe, whose lead screw has 8 threads per inch, with its 127 gear.":
            thread = "M10", leadscrew_lead = "1/8 in", gears = "20,30,40,45,50,55,60,65,80,127",
            clearance_teeth = "15", count = "5";
        "A lead of 4 mm for a two-start pump spindle on a lathe with a 3 mm lead screw.":
            lead = "4 mm", leadscrew_lead = "3 mm", gears = "20,25,30,35,40,50,60,75,80";
        "The same where the spindle turns the stud half as fast.":
            lead = "4 mm", leadscrew_lead = "3 mm", gears = "20,25,30,35,40,50,60,75,80", spindle_wheel = "30",
            stud_wheel = "60";
        "Somebody left 40/50 x 60/127 on the lathe, whose lead screw has 8 threads per inch: what does it cut?":
            train = "40/50 x 60/127", leadscrew_lead = "1/8 in";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You find {train} on the lathe, and the lead screw is {leadscrew_lead}. What lead does that \
            cut?" => "cut/lead":
            { train = "40/80" | "40/50" | "20/40" | "20/50" | "50/40", leadscrew_lead = "8 tpi", units = "inch" }
            { train = "20/60" | "25/60" | "35/60" | "40/60" | "50/60", leadscrew_lead = "3 mm", units = "metric" };
        2 "Inch lathe, lead screw {leadscrew_lead}. Somebody has left {train} on it. What metric lead does that cut?"
            => "cut/lead":
            { train = "60/127" | "50/127" | "40/80 x 70/127" | "50/40 x 80/127" | "30/60 x 40/127",
              leadscrew_lead = "8 tpi" | "4 tpi", units = "metric" };
        2 "{spindle_wheel} teeth on the spindle drive {stud_wheel} on the stud, then {train} drives the \
            {leadscrew_lead} lead screw. What lead does that cut?" => "cut/lead":
            { train = "40/50" | "50/40" | "40/65", spindle_wheel = "30", stud_wheel = "60", leadscrew_lead = "8 tpi",
              units = "inch" }
            { train = "50/60" | "40/60" | "35/60", spindle_wheel = "30", stud_wheel = "60", leadscrew_lead = "6 mm",
              units = "metric" };
        3 "There is no 127 gear. You cut {thread} with {train} on the {leadscrew_lead} lead screw. By how much is the \
            lead off, as a share of the pitch?" => "cut/error":
            { thread = "M10", train = "30/50 x 37/47" | "30/50 x 63/80", leadscrew_lead = "8 tpi",
              gears = "20,25,30,35,40,50,37,47,63,80" }
            { thread = "M12", train = "35/50 x 37/47" | "35/50 x 63/80" | "30/45 x 38/46", leadscrew_lead = "8 tpi",
              gears = "20,25,30,35,40,50,37,47,63,80" }
            { thread = "M16", train = "40/50 x 37/47" | "40/50 x 63/80" | "40/65", leadscrew_lead = "8 tpi",
              gears = "20,25,30,35,40,50,37,47,63,80" };
        3 "You want {thread}, but {train} stands on the lathe with the {leadscrew_lead} lead screw. By how much is \
            each thread off?" => "cut/lead_error":
            { thread = "1/2-13 UNC", train = "40/60" | "40/70" | "40/55", leadscrew_lead = "8 tpi",
              gears = "20,40,60,65",
              units = "inch" }
            { thread = "3/4-10 UNC", train = "40/55" | "40/45" | "45/50", leadscrew_lead = "8 tpi",
              gears = "20,40,50,60",
              units = "inch" };
    };
    type Input = ChangeGearsInput;
    type Output = ChangeGearsResult;
    const LEADS: &'static [&'static str] = &["cut/lead", "cut/threads_per_inch", "trains/0/train"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution((
            "change_gears",
            "Stop the lathe and switch it off at the wall before touching the gears, and close the guard before it \
             runs.",
        ));
        record.source("kinematics", "a train turns by the teeth of its drivers over those of its driven gears");
        let stud: f64 = match (input.spindle_wheel, input.stud_wheel) {
            (Some(spindle), Some(stud)) => step!(record, "Turns of the stud for one of the spindle",
                h: stud_turns = A / B, A = spindle_wheel: spindle.get(), B = stud_wheel: stud.get()),
            _ => {
                tell!(record.look_up("Turns of the stud for one of the spindle", "1 where no fixed gears are given")
                    => stud_turns: 1.0);
                1.0
            }
        };
        let is_wanted = input.thread.is_some() || input.lead.is_some();
        let wanted = is_wanted.then(|| {
            let lead = (input.thread.as_ref(), input.lead);
            lead_to_cut(lead, ("Lead wanted", "wanted_lead"), record)
        });
        let cut = input.train.as_ref().map(|train| cut_by(train, (input.leadscrew_lead, stud), wanted, record));
        let Some(wanted_lead) = wanted else {
            if input.gears.is_some() || input.count.is_some() || input.clearance_teeth.is_some() {
                notes!(record => gears_without_effect:
                    "The gears you have, the clearance and how many trains to list matter only for finding a train. \
                     Give a thread or a lead to find one.");
            }
            return Ok(ChangeGearsResult { wanted_lead: None, wanted_ratio: None, cut, trains: None });
        };
        let (wanted_ratio, trains) = find_trains(input, wanted_lead, stud, record)?;
        Ok(ChangeGearsResult {
            wanted_lead: Some(wanted_lead),
            wanted_ratio: Some(wanted_ratio),
            cut,
            trains: Some(trains),
        })
    }
}

/// The ratio wanted, and the trains for it.
fn find_trains(
    input: &ChangeGearsInput,
    wanted_lead: FoundSize,
    stud: f64,
    record: &mut Record,
) -> Result<(f64, Vec<TrainRow>), Refusal> {
    let clearance = input.clearance_teeth(record).get();
    if input.clearance_teeth.is_none() {
        let place = "two gears in mesh should together have about 15 teeth more than the gear beside them";
        record.source("common_practice", place);
    }
    let count = input.count(record).get() as usize;
    let screw = input.leadscrew_lead;
    let wanted_ratio: f64 = step!(record, "Turns of the lead screw for one of the stud",
            q: wanted_ratio = number(L / (S * h)), L = wanted_lead, S = leadscrew_lead: screw, h = stud_turns: stud);
    let gears = change_gears(input.gears.as_deref(), GOOD, record)?;
    if let Some(says) = wrong_gears(&gears) {
        return Err(Refusal::no_answer(&format!("In the shop's file: {says}"), &[("gears", GOOD.into())]));
    }
    let found = trains(&gears, wanted_ratio, clearance, count)?;
    if found.is_empty() {
        return Err(Refusal::no_answer(
            "These gears make no train: all have the same number of teeth.",
            &[("gears", GOOD.into())],
        ));
    }
    if !found[0].clears {
        notes!(record => none_clears:
                "None of these trains clears by the teeth asked for. Try one on the lathe, or look for other gears.");
    }
    if found[0].error_from(wanted_ratio).abs() > 1e-12 {
        notes!(record => not_exact:
                "No train of these gears cuts the lead exactly. An error of a few parts in ten thousand will do for a \
                 nut of usual length, but not for a lead screw. With a 127 gear, metric threads on an inch lead screw \
                 are exact.");
    }
    notes!(record => train_order:
            "A simple train takes an idler of any size between its gears; the idler changes only the hand. In a \
             compound train the first driver drives the first driven gear, the second driver turns with it on one \
             shaft, and drives the second driven gear.");
    let per_turn = screw.get().si() * stud;
    let trains: Vec<TrainRow> = found.iter().map(|train| row(train, wanted_ratio, wanted_lead, per_turn)).collect();
    tell((wanted_lead, wanted_ratio), &trains, (screw, stud), record);
    Ok((wanted_ratio, trains))
}
