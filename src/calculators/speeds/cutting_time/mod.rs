//! The time of a cut, with the way of the tool before and after the work: plane geometry and kinematics.
//! Textbooks differ on how far a cutter goes out and what a drill's depth means; the request says which.

use crate::calculators::prelude::*;

mod approach;
mod rules;

/// The calculator.
pub struct CuttingTime;

choice! {
    /// What is timed: `face_milling`, `slab_milling`, `drilling` or `turning`.
    TimedOperation {
        /// With the cutter's end.
        FaceMilling = "face_milling",
        /// With the cutter's rim, the cutter lying on its side.
        SlabMilling = "slab_milling",
        /// With a drill.
        Drilling = "drilling",
        /// Along the work, boring and facing too.
        Turning = "turning",
    }
}

choice! {
    /// How far a milling cutter goes out: until the work is cut at its full width (`full_width`), or until it is `clear` of the work.
    ClearOut {
        /// The last bit of the full width is cut.
        FullWidth = "full_width",
        /// The whole cutter is off the work.
        Clear = "clear",
    }
}

choice! {
    /// What the length of a drilled hole means: the depth at `full_diameter`, or that of the drill's `point`.
    DepthTo {
        /// The hole has its full diameter to that depth.
        FullDiameter = "full_diameter",
        /// The point of the drill reaches that depth.
        Point = "point",
    }
}

/// What the cutting time calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = rules::check)]
pub struct CuttingTimeInput {
    /// What is timed: face_milling, slab_milling, drilling or turning.
    pub operation: TimedOperation,
    /// Length of the work along the feed; of a hole its depth, or the thickness gone through.
    pub length: Size,
    /// Feed rate of the cut.
    pub feed_rate: FeedRate,
    /// Diameter of the cutter or drill; milling and drilling need it.
    pub diameter: Option<Size>,
    /// Width of the work across the feed; face milling needs it.
    pub width: Option<Size>,
    /// How far the middle of the work lies from the path of the cutter's axis, in face milling.
    #[absent("0", like = diameter, "The cutter is taken to go over the middle of the work.")]
    pub cut_offset: Option<Difference>,
    /// Depth of the cut; slab milling needs it.
    pub depth_of_cut: Option<Size>,
    /// How far a milling cutter goes out: full_width or clear.
    #[absent(
        "full_width",
        "The pass ends when the full width is cut, as in roughing; to finish a face the cutter goes clear."
    )]
    pub clear_out: Option<ClearOut>,
    /// Included angle of the drill's point.
    #[absent("118 deg", "118° is the general-purpose point; look at the drill.")]
    pub point_angle: Option<PointAngle>,
    /// What the depth of a hole means: full_diameter or point.
    #[absent("full_diameter", "The depth is taken as that of the full diameter: the point goes farther.")]
    pub depth_to: Option<DepthTo>,
    /// Room before the work at feed.
    #[absent("0", like = length, "No room before the work is reckoned at feed.")]
    pub approach: Option<Extent>,
    /// Way beyond the work at feed.
    #[absent("0", like = length, "No way beyond the work is reckoned.")]
    pub overtravel: Option<Extent>,
    /// Number of passes of that length, 1 to 10000.
    #[absent("1", "One pass.")]
    pub passes: Option<u32>,
}

/// What the cutting time calculator gives.
#[derive(Debug, Gives)]
pub struct CuttingTimeResult {
    /// What the size of the cutter or the point of the drill adds to the way.
    pub tool_approach: FoundExtent,
    /// Way of one pass at feed.
    pub travel: FoundExtent,
    /// Time of one pass.
    pub time_per_pass: FoundWorkTime,
    /// Time of all passes.
    pub cutting_time: FoundWorkTime,
}

impl Calculator for CuttingTime {
    const ID: &'static str = "speeds/cutting-time";
    const TITLE: &'static str = "Cutting time";
    const ABOUT: &'static str = "How long a cut takes at a feed rate, with the way that cutter or drill needs before and \
        after the work.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str = "Time one pass by the clock: times the passes it is the time of the cut.";
    const WORDS: &'static [&'static str] = &[
        "minutes",
        "cycle time",
        "estimate",
        "approach",
        "overtravel",
        "milling time",
        "drilling time",
        "turning time",
    ];
    const EXAMPLES: &'static [Example] = examples! {
        "A 2 in face mill goes over a winch plate 6 in long and 1-1/4 in wide, twice.":
            operation = "face_milling", length = "6 in", feed_rate = "5 in/min", diameter = "2 in",
            width = "1-1/4 in", cut_offset = "0.25 in", clear_out = "clear", approach = "0.1 in", passes = "2";
        "A 15 mm drill goes through a 50 mm pump flange from 2 mm above to 2 mm below.":
            operation = "drilling", length = "50 mm", feed_rate = "60 mm/min", diameter = "15 mm",
            point_angle = "118 deg", depth_to = "full_diameter", approach = "2 mm", overtravel = "2 mm";
        "A slab mill of 80 mm takes 5 mm off a mill gear housing 400 mm long.":
            operation = "slab_milling", length = "400 mm", feed_rate = "348 mm/min", diameter = "80 mm",
            depth_of_cut = "5 mm";
    };
    type Input = CuttingTimeInput;
    type Output = CuttingTimeResult;
    const LEADS: &'static [&'static str] = &["cutting_time"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "where a cutter's circle or a drill's cone meets and leaves the work");
        record.source("kinematics", "time is way over feed");
        record.caution(cautions::TIMES);
        let tool_approach = approach::find(input, record);
        let (approach, overtravel) = (input.approach(record), input.overtravel(record));
        let travel: FoundExtent = step!(record, "Way of one pass", W: travel = a + L + A + b,
            a = approach, L = length: input.length, A = tool_approach, b = overtravel);
        let time_per_pass: FoundWorkTime = step!(record, "Time of one pass", t1: time_per_pass = W / vf,
            W = travel, vf = feed_rate: input.feed_rate);
        let passes = input.passes(record);
        let cutting_time = step!(record, "Time of all passes", t: cutting_time = t1 * i,
            t1 = time_per_pass, i = passes);
        Ok(CuttingTimeResult { tool_approach, travel, time_per_pass, cutting_time })
    }
}
