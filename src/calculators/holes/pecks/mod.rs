//! A deep hole in pecks: how far each goes, where the readout stands and how long it takes. The first step comes from a
//! drill maker's tips, the later ones are common practice.

mod plan;
mod questions;

use crate::calculators::prelude::*;
use crate::machine::DeepHole;
use crate::reference::material_name::WorkMaterial;
use plan::{Peck, Plan};

/// The calculator.
pub struct Pecks;

choice! {
    /// What to do after a peck: pull the drill out of the hole to `clear` the chips, or only `break` them where the hole is still shallow.
    Retract {
        /// Out of the hole each time.
        Clear = "clear",
        /// Back off a little as far as three diameters deep, then out of the hole.
        Break = "break",
    }
}

/// What the pecks calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct PecksInput {
    /// Diameter of the drill, or the drill's name.
    #[label("Drill")]
    pub diameter: DrillDiameter,
    /// Depth of the hole to the drill's tip, below the face.
    #[label("Depth at the tip")]
    pub depth: Size,
    /// Work material; if absent the short pecks of tough metal are taken.
    #[label("Work material")]
    pub material: Option<WorkMaterial>,
    /// First peck; if absent 1 or 2 diameters by the work material and the drill.
    pub first_peck: Option<Size>,
    /// Second peck, after which each is smaller; if absent half the usual first one.
    #[label("Second peck")]
    pub next_peck: Option<Size>,
    /// Smallest peck; if absent a quarter of the usual first one.
    pub smallest_peck: Option<Size>,
    /// By how much each peck is smaller than the one before.
    #[label("Each peck smaller by")]
    #[absent("20 percent", "Common practice makes each peck 10 to 30 percent smaller than the one before.")]
    pub shrink: Option<Percentage>,
    /// What to do after each peck: clear or break.
    #[label("After each peck")]
    #[absent("clear", "The drill is assumed to come out of the hole after each peck, which clears the chips.")]
    pub retract: Option<Retract>,
    /// Feed rate of the drill.
    pub feed_rate: Option<FeedRate>,
    /// Time to come out, clear the chips and go back.
    #[label("Time for each retract")]
    pub retract_time: Option<ShortTime>,
}

/// What the pecks calculator gives.
#[derive(Debug, Gives)]
pub struct PecksResult {
    /// How many pecks.
    #[label("Number of pecks")]
    pub count: u32,
    /// Each peck.
    #[label("Pecks", "peck")]
    pub pecks: Vec<Peck>,
    /// Depth of the hole in diameters.
    pub depth_in_diameters: f64,
    /// By how much a drilling guide reduces the cutting speed for the depth; absent below three diameters.
    #[label("Reduce speed by")]
    pub speed_reduction: Option<FoundPercentage>,
    /// By how much it reduces the feed.
    #[label("Reduce feed by")]
    pub feed_reduction: Option<FoundPercentage>,
    /// Time of the cut, with the retracts if the time for each is given.
    #[label("Time")]
    #[needs(feed_rate)]
    pub time: Option<FoundDuration>,
}

rules! { check(PecksInput) {
    at_most(smallest_peck <= next_peck, smallest_peck = "leave out"):
        "The smallest peck cannot be larger than the second one.";
    never(|input| input.shrink.is_some_and(|shrink| shrink.get().si() > 0.9), Code::ValueOutOfRange,
        shrink = "20 percent"): "Make each peck at most 90 percent smaller than the one before.";
} }

impl Calculator for Pecks {
    const ID: &'static str = "holes/pecks";
    const TITLE: &'static str = "Pecks of a deep hole";
    const ABOUT: &'static str = "How far to drill before each retract, as a list of depths to read off, with the number of \
        pecks and the time.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Look at the flutes after the first pecks: chips packed to the top of the hole mean shorter pecks.";
    const WORDS: &'static str = "peck, peck drilling, deep hole, chip breaking, retract, clear chips, woodpecker, \
        long drill, oil hole, depth to diameter";
    const EXAMPLES: &'static [Example] = examples! {
        "An oil hole of 1/4 in, 2 in deep, in 1018 of a winch shaft.":
            diameter = "1/4 in", depth = "2 in", material = "1018";
        "An 8 mm hole 60 mm deep in a 304 pump shaft at 60 mm/min, with 8 s for each retract.":
            diameter = "8 mm", depth = "60 mm", material = "304", feed_rate = "60 mm/min", retract_time = "8 s",
            retract = "clear";
        "Brass of a mill gear bushing breaks its chips: a 5 mm hole 40 mm deep, with pecks of one's own.":
            diameter = "5 mm", depth = "40 mm", material = "c36000", first_peck = "12 mm", next_peck = "6 mm",
            smallest_peck = "3 mm", shrink = "25 percent", retract = "break";
    };
    const EXERCISES: &'static [Exercise] = questions::QUESTIONS;
    type Input = PecksInput;
    type Output = PecksResult;
    const LEADS: &'static [&'static str] = &["count"];
    const CONTEXT: &'static [&'static str] =
        &["{depth_in_diameters} diameters deep", "first to {pecks/0/depth}", "{time}"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.cautions(&[cautions::DRILLING, cautions::TURNING_SPINDLE]);
        record.source("geometry", "each peck begins where the one before ended");
        let material = input.material.map(|WorkMaterial(material)| material);
        for caution in material.into_iter().flat_map(|material| &material.cautions) {
            record.cautions(cautions::of_material(caution).as_slice());
        }
        let Quantity { value, unit, .. } = input.depth.quantity();
        let diameter = input.diameter.size;
        let ratio = (input.depth.get() / diameter.get()).si();
        let deep = DeepHole::find(Extent::stated(value, unit), diameter, record);
        if deep.is_none() {
            let step = record.step("Depth in diameters", "l = L / D").with("L", "depth", input.depth);
            step.with("D", "diameter", diameter).gives("depth_in_diameters", ratio);
        }
        let plan = Plan::of(input, record);
        let pecks = plan.pecks(input, record)?;
        let count = pecks.len() as u32;
        tell!(record.look_up("Number of pecks", "as many as the list has"), z = pecks.depth => count);
        if let Some(deep) = deep {
            deep.note_beyond(record);
        }
        let speed_reduction = deep.map(|deep| deep.speed_reduction(record));
        let feed_reduction = deep.map(|deep| deep.feed_reduction(record));
        let time = input.feed_rate.map(|feed_rate| time(input, feed_rate, count, record));
        Ok(PecksResult { count, pecks, depth_in_diameters: ratio, speed_reduction, feed_reduction, time })
    }
}

/// The time of the cut, with the retracts where their time is given.
fn time(input: &PecksInput, feed_rate: FeedRate, count: u32, record: &mut Record) -> FoundDuration {
    record.source("kinematics", "depth over feed rate");
    record.caution(cautions::TIMES);
    let Some(retract_time) = input.retract_time else {
        notes!(record => without_retracts: "The time is that of the cut alone. Give the time for each retract to have them in.");
        return step!(record, "Time of the cut", t: time = L / F, L = depth: input.depth, F = feed_rate);
    };
    step!(record, "Time of the cut with the retracts", t: time = L / F + (n - 1.0) * r, L = depth: input.depth,
        F = feed_rate, n = count, r = retract_time)
}
