//! The time of a cut, with the way of the tool before and after the work: plane geometry and kinematics.
//! Textbooks differ on how far a cutter goes out and what a drill's depth means; the request says which.

use crate::calculators::{Calculator, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::quantity::{Difference, Extent, FeedRate, FoundExtent, FoundWorkTime, PointAngle, SiValue, Size};
use crate::refusal::Refusal;
use crate::working::Record;

mod approach;
mod rules;

/// The calculator.
pub struct CuttingTime;

crate::choice! {
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

crate::choice! {
    /// How far a milling cutter goes out: until the work is cut at its full width (`full_width`), or until it is `clear` of the work.
    ClearOut {
        /// The last bit of the full width is cut.
        FullWidth = "full_width",
        /// The whole cutter is off the work.
        Clear = "clear",
    }
}

crate::choice! {
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
    /// How far the middle of the work lies from the path of the cutter's axis, in face milling; 0 if absent.
    pub cut_offset: Option<Difference>,
    /// Depth of the cut; slab milling needs it.
    pub depth_of_cut: Option<Size>,
    /// How far a milling cutter goes out: full_width or clear; full_width if absent.
    pub clear_out: Option<ClearOut>,
    /// Included angle of the drill's point; 118 deg if absent.
    pub point_angle: Option<PointAngle>,
    /// What the depth of a hole means: full_diameter or point; full_diameter if absent.
    pub depth_to: Option<DepthTo>,
    /// Room before the work at feed; 0 if absent.
    pub approach: Option<Extent>,
    /// Way beyond the work at feed; 0 if absent.
    pub overtravel: Option<Extent>,
    /// Number of passes of that length, 1 to 10000; 1 if absent.
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
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A 2 in face mill goes over a winch plate 6 in long and 1-1/4 in wide, twice.",
            fields: &[
                ("operation", "face_milling"),
                ("length", "6 in"),
                ("feed_rate", "5 in/min"),
                ("diameter", "2 in"),
                ("width", "1-1/4 in"),
                ("cut_offset", "0.25 in"),
                ("clear_out", "clear"),
                ("approach", "0.1 in"),
                ("passes", "2"),
            ],
        },
        Example {
            says: "A 15 mm drill goes through a 50 mm pump flange from 2 mm above to 2 mm below.",
            fields: &[
                ("operation", "drilling"),
                ("length", "50 mm"),
                ("feed_rate", "60 mm/min"),
                ("diameter", "15 mm"),
                ("point_angle", "118 deg"),
                ("depth_to", "full_diameter"),
                ("approach", "2 mm"),
                ("overtravel", "2 mm"),
            ],
        },
        Example {
            says: "A slab mill of 80 mm takes 5 mm off a mill gear housing 400 mm long.",
            fields: &[
                ("operation", "slab_milling"),
                ("length", "400 mm"),
                ("feed_rate", "348 mm/min"),
                ("diameter", "80 mm"),
                ("depth_of_cut", "5 mm"),
            ],
        },
    ];
    type Input = CuttingTimeInput;
    type Output = CuttingTimeResult;
    const LEADS: &'static [&'static str] = &["cutting_time"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "where a cutter's circle or a drill's cone meets and leaves the work");
        record.source("kinematics", "time is way over feed");
        record.caution(cautions::TIMES);
        let tool_approach = approach::find(input, record);
        let none = Extent::stated(0.0, input.length.quantity().unit);
        let approach =
            record.or_assume(input.approach, "approach", none, "No room before the work is reckoned at feed.");
        let overtravel = record.or_assume(input.overtravel, "overtravel", none, "No way beyond the work is reckoned.");
        let travel = FoundExtent::of(approach.get() + input.length.get() + tool_approach.get() + overtravel.get());
        record
            .step("Way of one pass", "W = a + L + A + b")
            .with("a", "approach", approach)
            .with("L", "length", input.length)
            .with("A", "tool_approach", tool_approach)
            .with("b", "overtravel", overtravel)
            .gives("travel", travel);
        let time_per_pass = FoundWorkTime::of(travel.get() / input.feed_rate.get());
        record
            .step("Time of one pass", "t1 = W / vf")
            .with("W", "travel", travel)
            .with("vf", "feed_rate", input.feed_rate)
            .gives("time_per_pass", time_per_pass);
        let passes = record.or_assume(input.passes, "passes", 1, "One pass.");
        let cutting_time = FoundWorkTime::of(SiValue::from_si(time_per_pass.get().si() * f64::from(passes)));
        record
            .step("Time of all passes", "t = t1 × i")
            .with("t1", "time_per_pass", time_per_pass)
            .with("i", "passes", passes)
            .gives("cutting_time", cutting_time);
        Ok(CuttingTimeResult { tool_approach, travel, time_per_pass, cutting_time })
    }
}
