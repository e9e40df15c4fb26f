//! Trains of change gears for a lead on a lathe, from the gears that are owned: simple and compound, what
//! lead they give, how far that is off, and whether the wheels clear each other. Kinematics of gear trains.

mod cut;
mod gear_train;
mod rows;
mod search;
mod trains;

use crate::calculators::prelude::*;
use crate::shop::change_gears;
use crate::threading::lead_to_cut;
use cut::{TrainCut, cut_by};
use gear_train::GearTrain;
use rows::{row, tell};
use trains::trains;

/// The calculator.
pub struct ChangeGears;

/// Most wheels of one set.
const MOST_GEARS: usize = 40;
/// Wheels have at least and at most so many teeth.
const TEETH: std::ops::RangeInclusive<u32> = 8..=400;

/// What the change gears calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check_lead, check = check_gears)]
pub struct ChangeGearsInput {
    /// The thread to cut; this, lead or train.
    pub thread: Option<Designation>,
    /// The lead to cut; this, thread or train.
    pub lead: Option<ThreadPitch>,
    /// A train as it stands on the lathe, to find what it cuts: drivers over driven wheels from the stud on, as 40/60 or
    /// 40/60 x 50/30. With thread or lead its error is told too.
    pub train: Option<GearTrain>,
    /// Lead of the lead screw: how far one turn of it moves the carriage.
    pub leadscrew_lead: ThreadPitch,
    /// Teeth of the wheels owned; a wheel that is there twice is named twice. If absent, those of the shop, where one with
    /// change gears is set.
    pub gears: Option<Vec<u32>>,
    /// Teeth of a fixed wheel on the spindle that drives the stud; with stud_wheel. If absent the stud turns as the
    /// spindle does.
    pub spindle_wheel: Option<Count<8, 300>>,
    /// Teeth of the fixed wheel on the stud; with spindle_wheel.
    pub stud_wheel: Option<Count<8, 300>>,
    /// Teeth by which two wheels in mesh must reach beyond a third beside them to clear its shaft.
    #[absent("15", "Common practice for the shafts and nuts of small lathes; look at the lathe.")]
    pub clearance_teeth: Option<Count<0, 100>>,
    /// How many trains to list, 1 to 50.
    #[absent("10", "The ten nearest trains.")]
    pub count: Option<Count<1, 50>>,
}

/// A train of wheels, from the stud to the lead screw.
#[derive(Debug, Gives)]
pub struct TrainRow {
    /// The train as it is set up: drivers over driven wheels.
    pub train: String,
    /// Wheel on the stud.
    pub first_driver: u32,
    /// Wheel that it drives: on the lead screw of a simple train, through an idler, on the middle shaft of a compound one.
    pub first_driven: u32,
    /// Second driver, on the middle shaft; compound trains only.
    pub second_driver: Option<u32>,
    /// Wheel on the lead screw; compound trains only.
    pub second_driven: Option<u32>,
    /// Turns of the lead screw for one of the stud.
    pub ratio: f64,
    /// The lead that it cuts.
    pub lead: FoundSize,
    /// That lead less the one wanted.
    pub lead_error: FoundDifference,
    /// The same as a share of the one wanted.
    pub error: FoundFineDeviation,
    /// Whether the wheels clear the shafts beside them.
    pub clears: bool,
}

/// What the change gears calculator gives.
#[derive(Debug, Gives)]
pub struct ChangeGearsResult {
    /// The lead wanted; absent where only a train is stated.
    pub wanted_lead: Option<FoundSize>,
    /// Turns of the lead screw wanted for one of the stud; absent where only a train is stated.
    pub wanted_ratio: Option<f64>,
    /// What the train stated cuts; only where one is.
    pub cut: Option<TrainCut>,
    /// Trains, those that clear first, and of them the nearest first; absent where only a train is stated.
    pub trains: Option<Vec<TrainRow>>,
}

rules! { check_lead(ChangeGearsInput) {
    one_of(thread = "M10", lead = "1.5 mm", train = "40/60 x 50/30"):
        "Name the thread, state its lead, or state the train whose lead is to be found.";
    not_both(thread, lead): "The thread already has its lead: leave one of the two out.";
} }

/// Wheels that are always right.
const GOOD: &str = "20,30,40,45,50,55,60,65,127";

/// What is wrong with a set of wheels.
fn wrong_gears(gears: &[u32]) -> Option<String> {
    if gears.len() < 2 || gears.len() > MOST_GEARS {
        return Some("Name 2 to 40 wheels.".into());
    }
    let wrong = gears.iter().find(|teeth| !TEETH.contains(teeth))?;
    Some(format!("A wheel of {wrong} teeth is none: they have 8 to 400."))
}

fn check_gears(input: &ChangeGearsInput) -> Result<(), ValidationError> {
    if let Some(says) = input.gears.as_deref().and_then(wrong_gears) {
        return Err(rule_broken(Code::ValueOutOfRange, says, &[("gears", GOOD)]));
    }
    let ((Some(wheel), None) | (None, Some(wheel))) = (input.spindle_wheel, input.stud_wheel) else { return Ok(()) };
    let says = "A fixed wheel on the spindle drives one on the stud: state spindle_wheel and stud_wheel, or neither.";
    let teeth = wheel.get().to_string();
    Err(rule_broken(Code::Conflict, says, &[("spindle_wheel", &teeth), ("stud_wheel", &teeth)]))
}

impl Calculator for ChangeGears {
    const ID: &'static str = "threads/change-gears";
    const TITLE: &'static str = "Change gears";
    const ABOUT: &'static str = "Trains of change gears from the wheels owned for the lead of a thread, what lead each \
        gives, how far it is off, and whether the wheels clear each other.";
    const TASK: Task = Task::Thread;
    const ANOTHER_CHECK: &'static str =
        "Take a scratch pass and measure over many threads with a rule: the length over their count is the pitch.";
    const WORDS: &'static str = "lathe, change wheels, gear train, lead screw, pitch, 127, metric thread, \
        compound train, idler";
    const NEAR: &'static str = "gear cutting, spur gear, gear tooth";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1.5 mm pitch on the shop's lathe, whose lead screw has 8 threads an inch, with its 127 wheel.":
            thread = "M10", leadscrew_lead = "1/8 in", gears = "20,30,40,45,50,55,60,65,80,127",
            clearance_teeth = "15", count = "5";
        "A lead of 4 mm for a two-start pump spindle on a lathe with a 3 mm lead screw.":
            lead = "4 mm", leadscrew_lead = "3 mm", gears = "20,25,30,35,40,50,60,75,80";
        "The same where the spindle turns the stud half as fast.":
            lead = "4 mm", leadscrew_lead = "3 mm", gears = "20,25,30,35,40,50,60,75,80", spindle_wheel = "30",
            stud_wheel = "60";
        "Somebody left 40/50 x 60/127 on the lathe, whose lead screw has 8 threads an inch: what does it cut?":
            train = "40/50 x 60/127", leadscrew_lead = "1/8 in";
    };
    type Input = ChangeGearsInput;
    type Output = ChangeGearsResult;
    const LEADS: &'static [&'static str] = &["cut/lead", "cut/threads_per_inch", "trains/0/train"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.caution((
            "change_gears",
            "Stop the lathe and switch it off at the wall before touching the wheels, and close the guard before it runs.",
        ));
        record.source("kinematics", "turns of a train go by drivers over driven wheels");
        let stud: f64 = match (input.spindle_wheel, input.stud_wheel) {
            (Some(spindle), Some(stud)) => step!(record, "Turns of the stud for one of the spindle",
                h: stud_turns = A / B, A = spindle_wheel: spindle.get(), B = stud_wheel: stud.get()),
            _ => {
                tell!(record.look_up("Turns of the stud for one of the spindle", "1 where no fixed wheels are stated")
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
                    "Wheels owned, their clearance and count matter only where a train is looked for: give thread or lead.");
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
        let place = "two wheels in mesh should have about 15 teeth more than the wheel beside them";
        record.source("common_practice", place);
    }
    let count = input.count(record).get() as usize;
    let screw = input.leadscrew_lead;
    let wanted_ratio: f64 = step!(record, "Turns of the lead screw for one of the stud",
            q: wanted_ratio = number(L / (S * h)), L = wanted_lead, S = leadscrew_lead: screw, h = stud_turns: stud);
    let gears = change_gears(input.gears.as_deref(), GOOD, record)?;
    if let Some(says) = wrong_gears(&gears) {
        return Err(Refusal::no_answer(&format!("The shop's file: {says}"), &[("gears", GOOD.into())]));
    }
    let found = trains(&gears, wanted_ratio, clearance, count)?;
    if found.is_empty() {
        return Err(Refusal::no_answer(
            "These wheels make no train: all have the same number of teeth.",
            &[("gears", GOOD.into())],
        ));
    }
    if !found[0].clears {
        notes!(record => none_clears:
                "None of these trains clears by the teeth asked for; try it on the lathe, or look for other wheels.");
    }
    if found[0].error_from(wanted_ratio).abs() > 1e-12 {
        notes!(record => not_exact:
                "No train of these wheels gives the lead exactly; an error of a few ten-thousandths does for a nut of \
                 usual length, not for a lead screw. Metric threads on an inch lead screw are exact with a wheel of \
                 127.");
    }
    notes!(record => train_order:
            "A simple train takes an idler of any size between its wheels, which changes the hand only; a compound \
             train runs first driver, first driven and second driver on one shaft, second driven.");
    let per_turn = screw.get().si() * stud;
    let trains: Vec<TrainRow> = found.iter().map(|train| row(train, wanted_ratio, wanted_lead, per_turn)).collect();
    tell((wanted_lead, wanted_ratio), &trains, (screw, stud), record);
    Ok((wanted_ratio, trains))
}
