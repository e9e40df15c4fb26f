//! Going down into the work with a milling cutter, by a ramp or a helix: plane geometry and kinematics.

use crate::calculators::prelude::*;

mod drawing;
mod helix;
mod ramp;

/// The calculator.
pub struct CutterEntry;

choice! {
    /// How the cutter goes down: by a `ramp` back and forth along a slot, or by a `helix` around a hole.
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
    #[label("Ramp or helix")]
    pub way: EntryWay,
    /// Depth that the cutter goes down to.
    pub depth: Size,
    /// Feed rate: along the slope for a ramp, at the wall of the hole for a helix.
    pub feed_rate: FeedRate,
    /// Diameter of the cutter; a helix needs it.
    #[label("Cutter diameter")]
    pub diameter: Option<Size>,
    /// Angle of the ramp or helix that the cutter's maker allows. A ramp needs it; a helix needs it or the pitch.
    pub ramp_angle: Option<RampAngle>,
    /// Length of the cutter's path from one end of the slot to the other, for the number of passes; one long pass if absent.
    #[label("Length along the slot")]
    pub slot_length: Option<Size>,
    /// Diameter of the hole that the helix makes; a helix needs it.
    pub hole_diameter: Option<Size>,
    /// How deep the helix goes in one turn; found from the ramp angle if absent.
    #[label("Depth per turn (pitch)")]
    pub pitch: Option<Size>,
    /// Radius of the cutter's corner; a sharp corner if absent.
    #[label("Corner radius of cutter")]
    pub corner_radius: Option<Size>,
}

/// What the entry calculator gives.
#[derive(Debug, Gives)]
pub struct EntryResult {
    /// Angle of the ramp or helix.
    pub ramp_angle: FoundAngle,
    /// Length of the path of the cutter's center, with the flat turn or pass at the bottom where there is one.
    pub path_length: FoundExtent,
    /// How fast the cutter goes down.
    #[label("Downward feed rate")]
    pub down_feed_rate: FoundFeedRate,
    /// Time for the whole path.
    pub cutting_time: FoundWorkTime,
    /// Length along the face that the whole ramp takes.
    #[label("Ramp length along the face")]
    pub ramp_length: Option<FoundExtent>,
    /// Passes of the ramp, back and forth, the last one flat.
    pub passes: Option<f64>,
    /// Diameter of the circle that the cutter's center runs on.
    #[label("Diameter of center path")]
    pub path_diameter: Option<FoundSize>,
    /// How deep the helix goes in one turn.
    #[label("Depth per turn (pitch)")]
    pub pitch: Option<FoundSize>,
    /// Turns of the helix, the last one flat.
    pub turns: Option<f64>,
    /// Feed rate to program for the cutter's center.
    #[label("Feed rate of the center")]
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
        others => Err(rule_broken(Code::Conflict, format!("A {way} does not use this; leave it out."), &others)),
    }
}

impl Calculator for CutterEntry {
    const ID: &'static str = "speeds/entry";
    const TITLE: &'static str = "Entry by ramp or helix";
    const ABOUT: &'static str = "The path of a milling cutter down into the work by a ramp or a helix: its length and time, how \
        fast it goes down, the passes or turns, and the feed of its center.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Measure the depth at both ends of the ramp: the difference divided by the length is the slope.";
    const WORDS: &'static str = "ramp, helix, helical, plunge, interpolation, pocket, spiral, going in";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2 in end mill ramps 3/8 in down into a pocket of a winch plate at 3°, in a slot 2 in long.":
            way = "ramp", depth = "3/8 in", feed_rate = "4 in/min", ramp_angle = "3 deg", slot_length = "2 in";
        "A 12 mm end mill with a 1 mm corner opens a 20 mm hole in a pump flange, 1 mm a turn.":
            way = "helix", depth = "10 mm", feed_rate = "200 mm/min", diameter = "12 mm", hole_diameter = "20 mm",
            pitch = "1 mm", corner_radius = "1 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You ramp {depth} down into a winch plate at {ramp_angle}. How long is the ramp along the face?" => "ramp_length":
            { depth = "1/8 in" | "3/16 in" | "1/4 in" | "3/8 in", ramp_angle = "3 deg" | "4 deg" | "5 deg",
              feed_rate = "4 in/min", way = "ramp", units = "inch" }
            { depth = "3 mm" | "5 mm" | "8 mm" | "10 mm", ramp_angle = "3 deg" | "4 deg" | "5 deg",
              feed_rate = "100 mm/min", way = "ramp", units = "metric" };
        1 "A {diameter} end mill opens a {hole_diameter} hole by a helix. What circle does its center run on?"
            => "path_diameter":
            { diameter = "3/8 in" | "1/2 in", hole_diameter = "5/8 in" | "0.7 in" | "3/4 in", depth = "1/2 in",
              feed_rate = "4 in/min", pitch = "0.04 in", way = "helix", units = "inch" }
            { diameter = "10 mm" | "12 mm", hole_diameter = "16 mm" | "17 mm" | "20 mm", depth = "10 mm",
              feed_rate = "100 mm/min", pitch = "1 mm", way = "helix", units = "metric" };
        2 "You ramp down at {ramp_angle}, feeding {feed_rate} along the slope. How fast does the cutter go down?"
            => "down_feed_rate":
            { ramp_angle = "2 deg" | "3 deg" | "5 deg", feed_rate = "3 in/min" | "4 in/min" | "6 in/min", depth = "1/4 in",
              way = "ramp", units = "inch" }
            { ramp_angle = "2 deg" | "3 deg" | "5 deg", feed_rate = "80 mm/min" | "100 mm/min" | "160 mm/min",
              depth = "5 mm", way = "ramp", units = "metric" };
        2 "A {diameter} end mill goes down by a helix into a {hole_diameter} hole. How deep does it go in a turn at \
            {ramp_angle}?" => "pitch":
            { diameter = "1/2 in", hole_diameter = "0.7 in" | "3/4 in" | "13/16 in", ramp_angle = "1 deg" | "2 deg" | "3 deg",
              depth = "1/2 in", feed_rate = "4 in/min", way = "helix", units = "inch" }
            { diameter = "12 mm", hole_diameter = "16 mm" | "17 mm" | "20 mm", ramp_angle = "1 deg" | "2 deg" | "3 deg",
              depth = "10 mm", feed_rate = "100 mm/min", way = "helix", units = "metric" };
        3 "A {diameter} end mill runs around the wall of a {hole_diameter} hole at {feed_rate} at the wall. What feed do you \
            program for its center?" => "center_feed_rate":
            { diameter = "3/8 in" | "1/2 in", hole_diameter = "5/8 in" | "0.7 in" | "3/4 in",
              feed_rate = "4 in/min" | "6 in/min", depth = "1/2 in", pitch = "0.04 in", way = "helix", units = "inch" }
            { diameter = "10 mm" | "12 mm", hole_diameter = "16 mm" | "17 mm" | "20 mm",
              feed_rate = "100 mm/min" | "160 mm/min", depth = "10 mm", pitch = "1 mm", way = "helix", units = "metric" };
    };
    type Input = EntryInput;
    type Output = EntryResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "slopes and screw lines");
        record
            .source("kinematics", "the feeds of the wall and of the cutter's center are in the ratio of their circles");
        for caution in [cautions::TURNING_SPINDLE, cautions::MILLING, cautions::ENTRY, cautions::TIMES] {
            record.caution(caution);
        }
        match input.way {
            EntryWay::Ramp => ramp::solve(input, record),
            EntryWay::Helix => helix::solve(input, record),
        }
    }
}
