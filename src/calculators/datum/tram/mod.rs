//! How far a mill's head is out of square with its table, from an indicator swept round the spindle,
//! and how hollow a face cutter then cuts: the cutting circle seen from the tilt is an ellipse.

mod drawing;

use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// The calculator.
pub struct Tram;

/// What the tram calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct TramInput {
    /// Difference between the indicator's readings at opposite ends of the sweep.
    #[label("Difference of the readings")]
    pub difference: Difference,
    /// Diameter of the circle that the indicator's tip sweeps on the table.
    #[label("Sweep diameter")]
    pub sweep_diameter: Size,
    /// Diameter of the face cutter, for the hollow and the step it leaves.
    #[label("Cutter diameter")]
    pub cutter_diameter: Option<Size>,
    /// Width of the cut, centered on the cutter; the cutter's diameter if absent. Needs the cutter's diameter.
    #[label("Width of cut")]
    pub width: Option<Size>,
}

/// What the tram calculator gives.
#[derive(Debug, Gives)]
pub struct TramResult {
    /// How far the spindle is out of square with the table, with the sign of the difference.
    #[label("Spindle out of square by")]
    pub tilt: FoundAngle,
    /// How much lower the middle of the cut is than its sides when the spindle tilts along the feed; needs the cutter's diameter.
    #[label("Hollow left by the cut")]
    pub hollow: Option<FoundExtent>,
    /// How much lower one side of the cut is than the other when the spindle tilts across the feed, which is the step between passes; needs the cutter's diameter.
    #[label("Step between passes")]
    pub step: Option<FoundExtent>,
}

rules! { stated(TramInput) {
    never(|input| input.difference.get().abs() > input.sweep_diameter.get(), Code::Conflict,
        difference = "0.002 in"):
        "The readings differ by more than the diameter of the sweep. Give a smaller difference.";
    needs(width => cutter_diameter = "2.5 in", width = "leave out"):
        "Give the cutter's diameter too, or leave out the width of cut.";
} }

fn check(input: &TramInput) -> Result<(), ValidationError> {
    stated(input)?;
    match (input.cutter_diameter, input.width) {
        (Some(cutter), Some(width)) if width.get().si() > cutter.get().si() * (1.0 + 1e-12) => {
            let wider = value(width.get().si(), cutter.quantity().unit, Way::Up);
            let says = "The cut is wider than the cutter. Give a width of at most the cutter's diameter.";
            Err(rule_broken(Code::Conflict, says, &[("width", "leave out"), ("cutter_diameter", &wider)]))
        }
        _ => Ok(()),
    }
}

impl Calculator for Tram {
    const ID: &'static str = "datum/tram";
    const TITLE: &'static str = "Tram of a mill's head";
    const ABOUT: &'static str = "How far a mill's spindle is out of square with the table, from an indicator swept \
        round it, and how hollow a cut that leaves.";
    const TASK: Task = Task::Check;
    const ANOTHER_CHECK: &'static str =
        "Take a light cut over scrap: marks that cross both ways show that the head is square.";
    const WORDS: &'static str = "tramming, head, square, nod, spindle tilt, sweep, dish, concave, face mill, indicator";
    const EXAMPLES: &'static [Example] = examples! {
        "The mill's head was swept on an 8 in circle after a belt change: left and right differ by 0.003 in. A 2.5 in face cutter is to clean a winch base 2 in wide.":
            difference = "0.003 in", sweep_diameter = "8 in", cutter_diameter = "2.5 in", width = "2 in";
        "Near and far differ by 0.05 mm on a 250 mm sweep.":
            difference = "-0.05 mm", sweep_diameter = "250 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "The indicator sweeps a circle of {sweep_diameter} on the table, and left and right differ by {difference}. \
           How far is the spindle out of square?" => "tilt":
            { sweep_diameter = "6 in" | "8 in" | "10 in", difference = "0.002 in" | "0.003 in" | "0.005 in" }
            { sweep_diameter = "150 mm" | "200 mm" | "250 mm", difference = "0.04 mm" | "0.06 mm" | "0.1 mm" };
        2 "Over a sweep of {sweep_diameter} the readings differ by {difference} across the feed. A {cutter_diameter} \
           face mill takes full-width passes. How high is the step between them?" => "step":
            { sweep_diameter = "8 in" | "10 in", difference = "0.003 in" | "0.004 in",
              cutter_diameter = "2 in" | "2-1/2 in" | "3 in" }
            { sweep_diameter = "200 mm" | "250 mm", difference = "0.05 mm" | "0.08 mm",
              cutter_diameter = "50 mm" | "63 mm" | "100 mm" };
        2 "The head was swept on {sweep_diameter}: the readings differ by {difference} along the feed. How hollow \
           does a {cutter_diameter} face mill cut at full width?" => "hollow":
            { sweep_diameter = "8 in" | "10 in", difference = "0.004 in" | "0.006 in",
              cutter_diameter = "2-1/2 in" | "3 in" }
            { sweep_diameter = "200 mm" | "250 mm", difference = "0.08 mm" | "0.1 mm",
              cutter_diameter = "50 mm" | "63 mm" };
        3 "A {cutter_diameter} face mill cleans a winch base {width} wide, centered. Over a sweep of {sweep_diameter} \
           the readings differ by {difference} along the feed. How hollow is the base?" => "hollow":
            { cutter_diameter = "2-1/2 in" | "3 in", width = "1-1/2 in" | "2 in", sweep_diameter = "8 in",
              difference = "0.008 in" | "0.012 in" | "0.020 in" }
            { cutter_diameter = "63 mm" | "100 mm", width = "40 mm" | "50 mm", sweep_diameter = "200 mm",
              difference = "0.2 mm" | "0.3 mm" | "0.5 mm" };
    };
    type Input = TramInput;
    type Output = TramResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "right triangle of difference and sweep; a tilted circle seen along its tilt");
        let (difference, sweep_diameter) = (input.difference, input.sweep_diameter);
        let tilt: FoundAngle = step!(record, "Tilt", τ: tilt = atan(e / S), e = difference, S = sweep_diameter);
        record.note(
            "both_ways",
            "Sweep left to right and near to far: each pair is a tilt of its own. Adjust the head until both readings \
             agree; each changes by about half the difference. Sweep again after the last bolt is tight.",
        );
        record.note(
            "sweep_clean",
            "Sweep a clean, stoned table or a ground plate, not the slots, with the quill locked.",
        );
        record.caution(cautions::INDICATING);
        let mut result = TramResult { tilt, hollow: None, step: None };
        let Some(cutter) = input.cutter_diameter else { return Ok(result) };
        let ratio = difference.get().si() / sweep_diameter.get().si();
        let width = record.or_assume(input.width, "width", cutter, "The cut is assumed to be as wide as the cutter.");
        let (d, w) = (cutter.get().si(), width.get().si().min(cutter.get().si()));
        // Of a width equal to the diameter nothing is left under the root.
        let share = w / d;
        let sine = ratio.abs() / ratio.hypot(1.0);
        let flat = 1.0 - ((1.0 - share) * (1.0 + share)).sqrt();
        let hollow = FoundExtent::of_si(d / 2.0 * flat * sine);
        record
            .step(
                "Hollow, with the tilt along the feed",
                "h = D / 2 × (1 - √((1 - w / D) × (1 + w / D))) × abs(sin(τ))",
            )
            .with("D", "cutter_diameter", cutter)
            .with("w", "width", width)
            .with("τ", "tilt", tilt)
            .gives("hollow", hollow);
        let step = FoundExtent::of_si(w * ratio.abs());
        record
            .step("Step, with the tilt across the feed", "s = w × abs(tan(τ))")
            .with("w", "width", width)
            .with("τ", "tilt", tilt)
            .gives("step", step);
        (result.hollow, result.step) = (Some(hollow), Some(step));
        record.note(
            "trailing_edge",
            "With the tilt along the feed, feed so that the low edge leads. The trailing edge then runs clear and \
             does not cut a second time.",
        );
        record.caution(cautions::MILLING);
        Ok(result)
    }
}
