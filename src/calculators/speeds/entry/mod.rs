//! Going down into the work with a milling cutter, by a ramp or a helix: plane geometry and kinematics.

use crate::calculators::prelude::*;

mod drawing;
mod helix;
mod ramp;

/// The calculator.
pub struct CutterEntry;

choice! {
    /// How the cutter goes down: by a `ramp` to and fro along a slot, or by a `helix` round a hole.
    EntryWay {
        /// A straight slope.
        Ramp = "ramp",
        /// A screw line.
        Helix = "helix",
    }
}

/// What the entry calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct EntryInput {
    /// How the cutter goes down: ramp or helix.
    pub way: EntryWay,
    /// How deep it is to go.
    pub depth: Size,
    /// Feed rate: along the slope for a ramp, at the hole's wall for a helix.
    pub feed_rate: FeedRate,
    /// Diameter of the cutter; a helix needs it.
    pub diameter: Option<Size>,
    /// Slope that the cutter bears, as its maker says; a ramp needs it, a helix this or pitch.
    pub ramp_angle: Option<RampAngle>,
    /// Length of the way from one end of the ramp to the other, for the number of passes; one long pass if absent.
    pub slot_length: Option<Size>,
    /// Diameter of the hole that the helix makes; a helix needs it.
    pub hole_diameter: Option<Size>,
    /// How deep the helix goes in one turn; from ramp_angle if absent.
    pub pitch: Option<Size>,
    /// Radius of the cutter's corner; a sharp corner if absent.
    pub corner_radius: Option<Size>,
}

/// What the entry calculator gives.
#[derive(Debug, Gives)]
pub struct EntryResult {
    /// Slope of the way.
    pub ramp_angle: FoundAngle,
    /// Length of the way of the cutter's middle, with the flat turn or pass at the bottom where there is one.
    pub path_length: FoundExtent,
    /// How fast the cutter goes down.
    pub down_feed_rate: FoundFeedRate,
    /// Time of the way.
    pub cutting_time: FoundWorkTime,
    /// Length along the face that the whole ramp takes.
    pub ramp_length: Option<FoundExtent>,
    /// Passes to and fro of the ramp, the last one flat.
    pub passes: Option<f64>,
    /// Diameter of the circle of the cutter's middle.
    pub path_diameter: Option<FoundSize>,
    /// How deep the helix goes in one turn.
    pub pitch: Option<FoundSize>,
    /// Turns of the helix, the last one flat.
    pub turns: Option<f64>,
    /// Feed rate to program for the cutter's middle.
    pub center_feed_rate: Option<FoundFeedRate>,
}

fn check(input: &EntryInput) -> Result<(), ValidationError> {
    match input.way {
        EntryWay::Ramp => ramp::check(input),
        EntryWay::Helix => helix::check(input),
    }
}

/// Refuses fields that belong to the other way.
fn refuse_others(way: &str, fields: &[Stated]) -> Result<(), ValidationError> {
    match to_leave_out(fields) {
        others if others.is_empty() => Ok(()),
        others => Err(rule_broken(Code::Conflict, format!("A {way} does not have this."), &others)),
    }
}

impl Calculator for CutterEntry {
    const ID: &'static str = "speeds/entry";
    const TITLE: &'static str = "Entry by ramp or helix";
    const ABOUT: &'static str = "How long the way of a milling cutter down into the work is by a ramp or a helix, how fast it \
        goes down, the passes or turns, and the feed of its middle.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Measure the depth at both ends of the ramp: the difference over the length is the slope.";
    const WORDS: &'static str = "ramp, helix, helical, plunge, interpolation, pocket, spiral, going in";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2 in end mill ramps 3/8 in down into a pocket of a winch plate at 3°, in a slot 2 in long.":
            way = "ramp", depth = "3/8 in", feed_rate = "4 in/min", ramp_angle = "3 deg", slot_length = "2 in";
        "A 12 mm end mill with a 1 mm corner opens a 20 mm hole in a pump flange, 1 mm a turn.":
            way = "helix", depth = "10 mm", feed_rate = "200 mm/min", diameter = "12 mm", hole_diameter = "20 mm",
            pitch = "1 mm", corner_radius = "1 mm";
    };
    type Input = EntryInput;
    type Output = EntryResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "slopes and screw lines");
        record.source("kinematics", "feed of a wall and of the cutter's middle go as their circles");
        for caution in [cautions::TURNING_SPINDLE, cautions::MILLING, cautions::ENTRY, cautions::TIMES] {
            record.caution(caution);
        }
        match input.way {
            EntryWay::Ramp => ramp::solve(input, record),
            EntryWay::Helix => helix::solve(input, record),
        }
    }
}
