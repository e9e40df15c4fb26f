//! Indexing on a dividing head: which holes of which circle, and where one circle will not do, two circles or change
//! gears. Whole-number arithmetic, checked against printed examples of indexing.

mod choosing;
mod drawing;
mod moves;
mod places;
mod rows;

use crate::arithmetic::fraction::Fraction;
use crate::arithmetic::gear_trains::wrong_gears;
use crate::calculators::prelude::*;
use crate::hole_pattern::TableSetting;
use crate::reference::index_plates::IndexPlates;
use moves::{IndexMethod, Wanted};
use rows::IndexingWay;

/// The calculator.
pub struct DividingHead;

/// What the dividing head calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check, check = check_gears)]
pub struct DividingHeadInput {
    /// Into how many equal parts to divide; give this or the angle.
    pub divisions: Option<Count<2, 10_000>>,
    /// Angle from one place to the next.
    #[label("Angle from place to place")]
    pub angle: Option<ArcAngle>,
    /// Turns of the crank for one of the spindle.
    #[absent(
        "40",
        "Most dividing heads take 40 turns of the crank for one of the spindle; look at yours, or count them."
    )]
    #[label("Crank turns for one turn")]
    pub worm_ratio: Option<Count<1, 10_000>>,
    /// Index plates: three plates, two sides, wide range, high numbers; or the holes of your circles, a semicolon
    /// between sides of plates.
    #[absent("three plates", value = IndexPlates::usual(), "The usual set of three plates; the circles are stamped on yours.")]
    #[label("Index plates")]
    pub plates: Option<IndexPlates>,
    /// Holes of the direct plate on the spindle, often 24.
    #[label("Direct plate, holes")]
    pub direct_holes: Option<Count<2, 400>>,
    /// Ways to look for; if absent, the simplest that is exact.
    #[label("Methods", "method")]
    pub methods: Option<Vec<IndexMethod>>,
    /// Teeth of your change gears, a gear twice if you have two; if absent, the usual set.
    #[label("Change gears you have", "gear")]
    pub gears: Option<Vec<u32>>,
}

/// What the dividing head calculator gives.
#[derive(Debug, Gives)]
pub struct DividingHeadResult {
    /// Angle of one step.
    pub step_angle: FoundAngle,
    /// Turns of the crank for it, exact.
    #[label("Crank turns of one step, exact")]
    pub step_turns: f64,
    /// Angle of one turn of the crank.
    #[label("One turn of the crank")]
    pub turn_angle: FoundAngle,
    /// Ways to make the step, the simplest first.
    #[label("Ways", "way")]
    pub ways: Vec<IndexingWay>,
    /// The crank at each place, by simple indexing, to the nearest hole; divisions are holes of the circle.
    #[label("Places", "place")]
    pub table: Option<Vec<TableSetting>>,
}

rules! { check(DividingHeadInput) {
    one_of(divisions = "28", angle = "35 deg"): "Give into how many parts to divide the turn, or the angle of one step.";
    not_both(divisions, angle): "Give the divisions or the angle, not both.";
    never(|input| input.methods.as_ref().is_some_and(Vec::is_empty), Code::ValueEmpty, methods = "simple"):
        "No method is named; leave the field out for the simplest.";
    never(|input| allows(input, IndexMethod::Direct) == Some(true) && input.direct_holes.is_none(),
        Code::FieldMissing, direct_holes = "24"): "Direct indexing needs the holes of the direct plate.";
    never(|input| allows(input, IndexMethod::Direct) == Some(false) && input.direct_holes.is_some(),
        Code::Conflict, direct_holes = "leave out", methods = "direct,simple"):
        "The direct plate is only for direct indexing, which is not among the methods.";
    never(|input| input.angle.is_some() && allows(input, IndexMethod::Differential) == Some(true),
        Code::Conflict, methods = "simple,compound", divisions = "51", angle = "leave out"):
        "Differential indexing divides a whole turn evenly: give the divisions in place of the angle.";
    never(|input| input.gears.is_some() && (input.angle.is_some()
        || allows(input, IndexMethod::Differential) == Some(false)), Code::Conflict, gears = "leave out"):
        "Change gears are only for differential indexing of a whole turn.";
} }

/// Whether a method is among those named; nothing where none are.
fn allows(input: &DividingHeadInput, method: IndexMethod) -> Option<bool> {
    input.methods.as_ref().map(|methods| methods.contains(&method))
}

fn check_gears(input: &DividingHeadInput) -> Result<(), ValidationError> {
    match input.gears.as_deref().and_then(wrong_gears) {
        Some(says) => Err(rule_broken(Code::ValueOutOfRange, says, &[("gears", "24,28,32,40,44,48,56,64,72,86,100")])),
        None => Ok(()),
    }
}

impl Calculator for DividingHead {
    const ID: &'static str = "geometry/dividing-head";
    const TITLE: &'static str = "Dividing head";
    const ABOUT: &'static str = "How to index divisions or an angle on a dividing head: turns, holes and circle; where \
        no circle fits, two circles, change gears, or the nearest hole.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Index all the way around before you cut, marking the work lightly with the \
        cutter: the last step must bring it back to the first mark.";
    const WORDS: &'static str = "indexing, index plate, dividing plate, index crank, sector arms, index head, \
        differential indexing, compound indexing, direct indexing, spiral head, divisions";
    const EXAMPLES: &'static [Example] = examples! {
        "A pinion of 28 teeth for the mill gear, on the shop's head of 40 turns.":
            divisions = "28", worm_ratio = "40", plates = "three plates";
        "A ratchet wheel of 51 teeth: no circle divides it, so the plate is geared to the spindle.":
            divisions = "51", methods = "differential", gears = "24,24,28,32,40,44,48,56,64,72,86,100";
        "Keyways of a winch drum 35° apart, with the crank at each.": angle = "35 deg";
        "A wrench square of four sides by the 24 holes on the spindle nose.": divisions = "4", direct_holes = "24";
        "A wheel of 127 teeth on a head of 60 turns with one plate: the nearest hole, and what it is off.":
            divisions = "127", worm_ratio = "60", plates = "24 25 28 30 34 37", methods = "simple";
        "69 divisions by two circles of one plate.":
            divisions = "69", methods = "compound", plates = "21 23 27 29 31 33";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The head takes {worm_ratio} turns of its crank for one of its spindle. What angle is one turn of the crank?"
            => "turn_angle": { divisions = "8", worm_ratio = "30" | "40" | "60" | "90" | "120" };
        1 "You cut {divisions} teeth on a head of 40 turns. How many whole turns of the crank is one step?"
            => "ways/0/turns": { divisions = "6" | "7" | "9" | "11" | "12" | "13" | "15" | "16" | "18", worm_ratio = "40" };
        2 "You divide into {divisions} on a head of 40 turns, with the circle of {plates} holes. How many holes come \
           after the whole turns?" => "ways/0/holes":
            { divisions = "6" | "7" | "9" | "14" | "18" | "21" | "28", worm_ratio = "40", plates = "21" | "63",
              methods = "simple" }
            { divisions = "11" | "12" | "15" | "18" | "22" | "24" | "36", worm_ratio = "40", plates = "33" | "66",
              methods = "simple" };
        2 "The next flat is {angle} on. The head takes 40 turns and its circle has {plates} holes. How many holes come \
           after the whole turns?" => "ways/0/holes":
            { angle = "35 deg" | "11.5 deg" | "22.5 deg" | "41 deg" | "50 deg", worm_ratio = "40", plates = "18" }
            { angle = "30 deg" | "12 deg" | "15 deg" | "33 deg", worm_ratio = "40", plates = "27" | "54" };
        3 "No plate at hand divides {divisions}. On a head of 40 turns you set each place from zero to the nearest hole of \
           the {plates} circle. Which hole is the pin in at place 3, if hole 0 is the first?" => "table/2/divisions":
            { divisions = "51" | "53" | "57" | "59" | "61" | "63", worm_ratio = "40", plates = "20" | "37" | "49",
              methods = "simple" };
        3 "You divide into {divisions} by differential indexing on a head of 40 turns, with the circle of {plates} holes \
           and no change gears but {gears}. How many idlers turn the plate the right way?" => "ways/0/idlers":
            { divisions = "51", worm_ratio = "40", plates = "17", methods = "differential", gears = "24,48" }
            { divisions = "57", worm_ratio = "40", plates = "49", methods = "differential", gears = "40,56" }
            { divisions = "79" | "81", worm_ratio = "40", plates = "20", methods = "differential", gears = "24,48" };
    };
    type Input = DividingHeadInput;
    type Output = DividingHeadResult;
    const LEADS: &'static [&'static str] = &["ways/0/setting"];
    const CONTEXT: &'static [&'static str] =
        &["{ways/0/plate}", "one step is {step_angle}", "sector arms over {ways/0/sector_holes} holes"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "a turn of the spindle is so many turns of the worm; a hole is the even part of one");
        let worm_ratio = input.worm_ratio(record);
        let ratio = worm_ratio.get();
        let turn_angle = FoundAngle::stated(text::tidy(360.0 / f64::from(ratio)), Unit::Degree);
        record
            .step("One turn of the crank", "τ = 2 × π / W")
            .with("W", "worm_ratio", ratio)
            .gives("turn_angle", turn_angle);
        let divisions = input.divisions.map(Count::get);
        let share = match (divisions, input.angle) {
            (None, Some(angle)) => Fraction::of_turn(angle.degrees()),
            (divisions, _) => Fraction::of(1, i128::from(divisions.unwrap_or(1))),
        };
        let wanted = Wanted { share, ratio, divisions };
        let step_angle = FoundAngle::stated(text::tidy(share.get() * 360.0), Unit::Degree);
        match (divisions, input.angle) {
            (None, Some(angle)) => {
                record
                    .choose("Angle of one step", "as given")
                    .with("θ", "angle", angle)
                    .gives("step_angle", step_angle);
            }
            (divisions, _) => {
                let step =
                    record.step("Angle of one step", "θ = 2 × π / N").with("N", "divisions", divisions.unwrap_or(1));
                step.gives("step_angle", step_angle);
            }
        }
        let step_turns = text::tidy(wanted.turns().get());
        let step = record.step("Turns of the crank for it", "t = θ × W / (2 × π)").with("θ", "step_angle", step_angle);
        step.with("W", "worm_ratio", ratio).gives("step_turns", step_turns);
        let moves = choosing::choose(input, &wanted, record)?;
        let exact = moves.first().is_some_and(|way| way.worm == wanted.turns());
        let ways = rows::rows(&moves, &wanted, record);
        let table = places::places(&moves, &wanted, record);
        choosing::tell(&moves, exact, record);
        Ok(DividingHeadResult { step_angle, step_turns, turn_angle, ways, table })
    }
}
