//! Limits and fits after ISO 286: what a hole H7 or a shaft g6 may measure, the clearance that the two leave, and what to
//! turn a shaft or bore a hole to where its mate is made already.

mod drawing;
mod made;

use crate::calculators::prelude::*;
use crate::fitting::{Fit, FittedPair, iso_pair};
use made::{clearance_as_made, mate};

/// The calculator.
pub struct FitLimits;

/// What the limits of a fit calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct FitLimitsInput {
    /// The size with its tolerance class, as the drawing has it: of a hole, of a shaft, or of both.
    #[label("Size and fit")]
    pub fit: Fit,
    /// The hole as it came out, to make the shaft to suit it.
    #[label("Hole as made")]
    pub measured_hole: Option<Size>,
    /// The shaft as it came out, to make the hole to suit it.
    #[label("Shaft as made")]
    pub measured_shaft: Option<Size>,
}

/// Sizes between which a part gives the clearances of the fit with its mate as made.
#[derive(Debug, Gives)]
pub struct SuitingSizes {
    /// Largest size.
    #[label("Largest")]
    pub greatest: FoundFineUpperLimit,
    /// Smallest size.
    #[label("Smallest")]
    pub least: FoundFineLowerLimit,
}

/// What the limits of a fit calculator gives.
#[derive(Debug, Gives)]
pub struct FitLimitsResult {
    /// The hole, the shaft and the clearance that they leave.
    #[group]
    pub pair: FittedPair,
    /// What the shaft may measure to leave the clearances of the fit in the hole as made; needs the hole as made.
    #[label("Shaft to suit")]
    #[needs(measured_hole)]
    pub shaft_to_suit: Option<SuitingSizes>,
    /// What the hole may measure to leave the clearances of the fit around the shaft as made; needs the shaft as made.
    #[label("Hole to suit")]
    #[needs(measured_shaft)]
    pub hole_to_suit: Option<SuitingSizes>,
    /// Hole less shaft as made; negative is interference; needs both as made.
    #[label("Clearance as made")]
    #[needs(measured_hole, measured_shaft)]
    pub clearance: Option<FoundFineDifference>,
}

rules! { check(FitLimitsInput) {
    never(|input| (input.measured_hole.is_some() || input.measured_shaft.is_some())
        && (input.fit.hole.is_none() || input.fit.shaft.is_none()), Code::Conflict,
        fit = "25 mm H7/g6", measured_hole = "leave out", measured_shaft = "leave out"):
        "A part to suit one as made needs the classes of both: name the whole fit.";
    never(|input| far_off(input, input.measured_hole), Code::Conflict, measured_hole = "leave out"): FAR_OFF;
    never(|input| far_off(input, input.measured_shaft), Code::Conflict, measured_shaft = "leave out"): FAR_OFF;
} }

const FAR_OFF: &str = "The part as made is more than a tenth off the nominal size: check which size is meant.";

fn far_off(input: &FitLimitsInput, made: Option<Size>) -> bool {
    made.is_some_and(|made| (made.si() / input.fit.size.si() - 1.0).abs() > 0.1)
}

impl Calculator for FitLimits {
    const ID: &'static str = "fits/limits";
    const TITLE: &'static str = "Limits of a fit";
    const ABOUT: &'static str = "What a hole and a shaft of an ISO tolerance class may measure, the sizes to aim at, \
        the clearance or interference that the two leave, and what suits a mate that is made already.";
    const TASK: Task = Task::Check;
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Try the hole with plug gauges of its smallest and largest size; check the shaft with a micrometer set on blocks.";
    const WORDS: &'static str = "fit, tolerance, H7, g6, hole basis, shaft basis, clearance, interference, transition, \
        ISO 286, IT grade, limits, deviation, bushing, bearing seat, upper limit, lower limit";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch shaft is to run in its bushing, 25 mm H7/g6: what may each measure, and what play is left?":
            fit = "25 mm H7/g6";
        "The bore of a pump's drive gear is marked 40 H7.": fit = "40 mm H7";
        "A bushing for 30 mm H7/f7 came out at 30.031 mm, and the pump shaft at 29.965 mm: what suits them?":
            fit = "30 mm H7/f7", measured_hole = "30.031 mm", measured_shaft = "29.965 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A bore is marked {fit}. How large may it be?" => "hole/greatest":
            { fit = "25 mm H7" | "40 mm H7" | "50 mm H7" | "30 mm H8" | "20 mm H9" | "60 mm H11" };
        1 "A winch shaft is marked {fit}. How small may it be?" => "shaft/least":
            { fit = "25 mm g6" | "40 mm h6" | "30 mm f7" | "20 mm e8" | "50 mm h9" | "16 mm h7" };
        2 "A shaft runs in its bushing, {fit}. How much play is there at most?" => "greatest_clearance":
            { fit = "25 mm H7/g6" | "30 mm H8/f7" | "40 mm H7/f7" | "20 mm H9/d9" | "50 mm H11/c11" };
        2 "A collar goes on its shaft, {fit}. What is the clearance at its greatest? Interference is negative."
            => "greatest_clearance":
            { fit = "40 mm H7/p6" | "30 mm H7/s6" | "50 mm H7/s6" | "25 mm H7/p6" };
        3 "You bore for {fit} and have no plug gauge. What size do you aim at?" => "hole/middle":
            { fit = "25 mm H7/g6" | "30 mm H7/k6" | "40 mm K7/h6" | "50 mm N7/h6" | "80 mm F8/h7" };
        3 "The bore for {fit} came out at {measured_hole}. How large may you leave the shaft and still have the \
           clearance of the fit?" => "shaft_to_suit/greatest":
            { fit = "30 mm H7/f7", measured_hole = "30.025 mm" | "30.03 mm" | "30.04 mm" }
            { fit = "50 mm H7/g6", measured_hole = "50.03 mm" | "50.05 mm" };
    };
    type Input = FitLimitsInput;
    type Output = FitLimitsResult;
    const LEADS: &'static [&'static str] =
        &["shaft_to_suit/greatest|hole_to_suit/greatest|hole/greatest|shaft/greatest"];
    const CONTEXT: &'static [&'static str] = &[
        "shaft to suit {shaft_to_suit/least} to {shaft_to_suit/greatest}",
        "hole {hole/least} to {hole/greatest}",
        "shaft {shaft/least} to {shaft/greatest}",
        "{kind}, {least_clearance} to {greatest_clearance}",
    ];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        let pair = iso_pair(&input.fit, "fit", record)?;
        let shaft_to_suit = mate(&pair, input.measured_hole, true, record);
        let hole_to_suit = mate(&pair, input.measured_shaft, false, record);
        let clearance = clearance_as_made(&pair, input.measured_hole, input.measured_shaft, record);
        Ok(FitLimitsResult { pair, shaft_to_suit, hole_to_suit, clearance })
    }
}
