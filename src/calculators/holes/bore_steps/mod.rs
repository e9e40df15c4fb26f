//! A bore opened up with a boring head: the list of cuts with what to set on the head's screw. Arithmetic of diameters and
//! divisions.

mod cuts;
mod questions;

use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};
use cuts::{BoreCut, Head};

/// The calculator.
pub struct BoreSteps;

choice! {
    /// What one division of the head counts: the `diameter` of the bore or the `radius`.
    HeadCounts {
        /// The bore grows by the division.
        Diameter = "diameter",
        /// The bore grows by twice the division.
        Radius = "radius",
    }
}

/// What the bore steps calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct BoreStepsInput {
    /// Diameter of the bore as measured now.
    #[label("Bore now")]
    pub now: Size,
    /// Diameter of the bore wanted.
    #[label("Bore wanted")]
    pub target: Size,
    /// Depth of each roughing cut, on the radius.
    #[label("Depth of cut, on radius")]
    pub depth_of_cut: Size,
    /// What is left on the diameter for the last cut.
    #[label("Left for the last cut, on diameter")]
    #[absent(
        "0.2 mm",
        "A last cut of 0.2 mm on the diameter is common practice: enough for the tool to cut and not to rub."
    )]
    pub finish: Option<Size>,
    /// What one division of the boring head counts.
    #[label("One division of the head")]
    pub division: Option<Size>,
    /// Whether the division counts the diameter or the radius; look at the head.
    #[label("Division counts")]
    #[absent(
        "radius",
        "The head is assumed to count the radius. If yours counts the diameter, the bore comes out too small \
        and not too large, so look at the head."
    )]
    pub head_counts: Option<HeadCounts>,
    /// Passes to repeat without a new setting before the last cut and after it.
    #[absent("1", "The bar springs: one pass more without a new setting takes off what it left.")]
    pub spring_passes: Option<Count<0, 5>>,
    /// Diameter that the cut before was set for.
    #[label("Bore that was set")]
    pub set_for: Option<Size>,
}

/// What the bore steps calculator gives.
#[derive(Debug, Gives)]
pub struct BoreStepsResult {
    /// What has to come off, on the diameter.
    #[label("To come off, on diameter")]
    pub stock: FoundExtent,
    /// The cuts, one after the other.
    #[label("Cuts", "cut")]
    pub cuts: Vec<BoreCut>,
    /// How many cuts.
    #[label("Number of cuts")]
    pub count: u32,
    /// What whole divisions leave on the diameter.
    #[label("Left between marks")]
    #[needs(division)]
    pub left_over: Option<FoundExtent>,
    /// How much smaller the bore came out than set; negative if larger.
    #[label("Came out smaller by")]
    #[needs(set_for)]
    pub came_out_smaller: Option<FoundDifference>,
    /// The same in divisions of the head.
    #[label("The same in divisions")]
    #[needs(set_for, division)]
    pub smaller_by_divisions: Option<f64>,
}

fn check(input: &BoreStepsInput) -> Result<(), ValidationError> {
    let (now, target, unit) = (input.now.get().si(), input.target.get().si(), input.target.quantity().unit);
    if target > now {
        return check_head(input);
    }
    let over = now - target;
    let says = match over > 1e-9 {
        true => format!(
            "The bore is already {} larger than wanted, and boring cannot make it smaller. Measure again, or bush it.",
            value(over, unit, Way::Near)
        ),
        false => "The bore already has the size wanted.".to_owned(),
    };
    let (larger, smaller) =
        (value(now * 1.05, unit, Way::Up), value(target * 0.95, input.now.quantity().unit, Way::Down));
    Err(rule_broken(Code::Conflict, says, &[("target", &larger), ("now", &smaller)]))
}

rules! { check_head(BoreStepsInput) {
    needs(head_counts => division = "0.001 in", head_counts = "leave out"): FOR_THE_HEAD;
} }

const FOR_THE_HEAD: &str = "This matters only for the settings of the head: give what one division counts too.";

impl Calculator for BoreSteps {
    const ID: &'static str = "holes/bore-steps";
    const TITLE: &'static str = "Boring to size";
    const ABOUT: &'static str = "The cuts with a boring head from the bore as it is to the bore wanted, with what to set in \
        divisions of the head, and the correction from the size last measured.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Measure with the bore cold and clean, in two directions and at both ends, before you set the last cut.";
    const WORDS: &'static str = "boring head, bore, offset boring, depth of cut, spring pass, finish cut, dial, divisions, \
        creep up, bearing seat";
    const EXAMPLES: &'static [Example] = examples! {
        "A bearing seat in a winch housing goes from 1.000 in to 1.2505 in; a division of the head counts 0.001 in on the diameter.":
            now = "1.000 in", target = "1.2505 in", depth_of_cut = "0.040 in", finish = "0.010 in", division = "0.001 in",
            head_counts = "diameter";
        "A pump bore was set for 39.80 mm and measures 39.77 mm; it is to be 40.00 mm. A division counts 0.01 mm on the radius.":
            now = "39.77 mm", target = "40 mm", depth_of_cut = "0.5 mm", set_for = "39.8 mm", division = "0.01 mm",
            head_counts = "radius", spring_passes = "1";
        "A mill gear hub is opened from 20 mm to 28 mm; only the diameters are wanted.":
            now = "20 mm", target = "28 mm", depth_of_cut = "0.8 mm", finish = "0.4 mm";
    };
    const EXERCISES: &'static [Exercise] = questions::QUESTIONS;
    type Input = BoreStepsInput;
    type Output = BoreStepsResult;
    const LEADS: &'static [&'static str] = &["cuts/0/divisions|cuts/0/diameter", "count"];
    const CONTEXT: &'static [&'static str] =
        &["first cut to {cuts/0/diameter}", "{stock} to come off", "came out smaller by {came_out_smaller}"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.cautions(&[cautions::BORING, cautions::TURNING_SPINDLE, cautions::BORING_HEAD]);
        record.source("geometry", "a bore grows by twice what the tool is moved out");
        let stock: FoundExtent = step!(record, "To come off, on the diameter", s: stock = t - n, t = target: input.target, n = now: input.now);
        let head = Head::of(input, record)?;
        let (cuts, left_over) = cuts::cuts(input, stock, head.as_ref(), record)?;
        let count = cuts.len() as u32;
        tell!(record.look_up("Number of cuts", "as many as the list has"), d = cuts.diameter => count);
        let came_out_smaller: Option<FoundDifference> = input.set_for.map(|set_for| {
            step!(record, "How much smaller the bore came out", e: came_out_smaller = z - n, z = set_for,
                n = now: input.now)
        });
        let smaller_by_divisions = came_out_smaller.zip(head).map(|(smaller, head)| {
            let divisions = text::round((smaller.get() / head.growth.get()).si(), 9);
            tell!(record.step("The same in divisions", "c = e / v"), e = came_out_smaller: smaller,
                v = "growth_of_division": head.growth => smaller_by_divisions: divisions);
            divisions
        });
        note(came_out_smaller, record);
        Ok(BoreStepsResult { stock, cuts, count, left_over, came_out_smaller, smaller_by_divisions })
    }
}

fn note(came_out_smaller: Option<FoundDifference>, record: &mut Record) {
    notes!(record => turn_outward: "Turn the head's screw outward only, and lock the slide after each setting. If you have \
        gone too far, back off a full turn and come up again, so that play does not matter.");
    notes!(record => measure_before_the_last: "Measure before the last cut and ask again with that size.");
    match came_out_smaller.map(|smaller| smaller.get().si()) {
        Some(1e-9..) => {
            notes!(record => sprang: "The bore came out smaller than it was set for: the bar sprang, or the \
            tool is dull. A cut as heavy as that one comes out as much smaller again; a lighter one comes out \
            closer. The list does not count on it, so that the bore cannot come out too large.")
        }
        Some(..-1e-9) => {
            notes!(record => came_out_larger: "The bore came out larger than it was set for. Find out why before \
            the next cut: a slide that is not locked, chips packed on the tool, or a head that counts the radius.")
        }
        _ => {}
    }
}
