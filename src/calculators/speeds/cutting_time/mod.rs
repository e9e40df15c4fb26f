//! The time of a cut, with the way of the tool before and after the work: plane geometry and kinematics.
//! Textbooks differ on how far a cutter goes out and what a drill's depth means; the request says which.

use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

mod approach;

/// The calculator.
pub struct CuttingTime;

choice! {
    /// The kind of cut: `face_milling`, `slab_milling`, `drilling` or `turning`.
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
    /// How far a milling cutter runs past the work: until the full width is cut (`full_width`), or until it is `clear` of the work.
    ClearOut {
        /// The last bit of the full width is cut.
        FullWidth = "full_width",
        /// The whole cutter is off the work.
        Clear = "clear",
    }
}

choice! {
    /// What the depth of a drilled hole means: the depth at `full_diameter`, or the depth of the drill's `point`.
    DepthTo {
        /// The hole has its full diameter to that depth.
        FullDiameter = "full_diameter",
        /// The point of the drill reaches that depth.
        Point = "point",
    }
}

/// What the cutting time calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct CuttingTimeInput {
    /// The kind of cut: face_milling, slab_milling, drilling or turning.
    pub operation: TimedOperation,
    /// Length of the work along the feed; in drilling, the depth of the hole or the thickness drilled through.
    #[label("Length or depth of cut")]
    pub length: Size,
    /// Feed rate of the cut.
    pub feed_rate: FeedRate,
    /// Diameter of the cutter or drill; milling and drilling need it.
    #[label("Cutter or drill diameter")]
    pub diameter: Option<Size>,
    /// Width of the work across the feed; face milling needs it.
    #[label("Width of work")]
    pub width: Option<Size>,
    /// Distance from the path of the cutter's axis to the middle of the work, in face milling.
    #[label("Cut off center by")]
    #[absent("0", like = diameter, "The cutter is assumed to run over the middle of the work.")]
    pub cut_offset: Option<Difference>,
    /// Depth of the cut; slab milling needs it.
    #[label("Depth of the slab cut")]
    pub depth_of_cut: Option<Size>,
    /// How far a milling cutter runs past the work: full_width or clear.
    #[label("Cutter runs out to")]
    #[absent(
        "full_width",
        "The pass ends when the full width is cut, as in roughing; to finish a face, run the cutter clear."
    )]
    pub clear_out: Option<ClearOut>,
    /// Included angle of the drill's point.
    #[absent("118 deg", "The usual 118° point is assumed; look at the drill.")]
    pub point_angle: Option<PointAngle>,
    /// What the depth of a hole means: full_diameter or point.
    #[label("Hole depth measured to")]
    #[absent("full_diameter", "The depth is assumed to be at full diameter: the point goes deeper.")]
    pub depth_to: Option<DepthTo>,
    /// Distance before the work that the tool covers at feed.
    #[label("Approach before the work")]
    #[absent("0", like = length, "No distance before the work is counted.")]
    pub approach: Option<Extent>,
    /// Distance beyond the work that the tool covers at feed.
    #[label("Overtravel past the work")]
    #[absent("0", like = length, "No distance beyond the work is counted.")]
    pub overtravel: Option<Extent>,
    /// Number of passes of that length, 1 to 10000.
    #[label("Number of passes")]
    #[absent("1", "One pass is assumed.")]
    pub passes: Option<u32>,
}

/// What the cutting time calculator gives.
#[derive(Debug, Gives)]
pub struct CuttingTimeResult {
    /// Travel that the size of the cutter or the point of the drill adds.
    #[label("Added by cutter or point")]
    pub tool_approach: FoundExtent,
    /// Travel of one pass at feed.
    #[label("Travel per pass")]
    pub travel: FoundExtent,
    /// Time of one pass.
    #[label("Time per pass")]
    pub time_per_pass: FoundWorkTime,
    /// Time of all passes.
    pub cutting_time: FoundWorkTime,
}

/// Most passes.
const MOST_PASSES: u32 = 10_000;

/// The rules between fields.
fn check(input: &CuttingTimeInput) -> Result<(), ValidationError> {
    if input.passes.is_some_and(|passes| !(1..=MOST_PASSES).contains(&passes)) {
        return Err(rule_broken(Code::ValueOutOfRange, "Give 1 to 10000 passes.", &[("passes", "1")]));
    }
    let fields = stated!(input: diameter = "12 mm", width = "40 mm", depth_of_cut = "2 mm", cut_offset,
        clear_out, point_angle, depth_to);
    let (needs, may): (&[&str], &[&str]) = match input.operation {
        TimedOperation::FaceMilling => (&["diameter", "width"], &["cut_offset", "clear_out"]),
        TimedOperation::SlabMilling => (&["diameter", "depth_of_cut"], &["clear_out"]),
        TimedOperation::Drilling => (&["diameter"], &["point_angle", "depth_to"]),
        TimedOperation::Turning => (&[], &[]),
    };
    let (needed, others): (Vec<Stated>, Vec<Stated>) =
        fields.into_iter().filter(|field| !may.contains(&field.0)).partition(|field| needs.contains(&field.0));
    let name = input.operation.as_str().replace('_', " ");
    let (missing, others) = (to_give(&needed), to_leave_out(&others));
    if !missing.is_empty() {
        return Err(rule_broken(Code::FieldMissing, format!("To time {name}, give this too."), &missing));
    }
    if !others.is_empty() {
        return Err(rule_broken(
            Code::Conflict,
            format!("The time of {name} does not depend on this; leave it out."),
            &others,
        ));
    }
    sizes(input)
}

fn sizes(input: &CuttingTimeInput) -> Result<(), ValidationError> {
    let Some(cutter) = input.diameter.map(|diameter| diameter.quantity()) else { return Ok(()) };
    if let Some(width) = input.width.map(|width| width.quantity()) {
        let off = input.cut_offset.map_or(0.0, |offset| offset.quantity().si().abs());
        let reach = 2.0 * off + width.si();
        if reach > cutter.si() * (1.0 + 1e-12) {
            let larger = value(reach, cutter.unit, Way::Up);
            let says = "The cutter does not cover the whole width of the work. Give a larger cutter.";
            return Err(rule_broken(Code::Conflict, says, &[("diameter", &larger)]));
        }
    }
    if let Some(depth) = input.depth_of_cut.map(|depth| depth.quantity())
        && depth.si() > cutter.si() / 2.0 * (1.0 + 1e-12)
    {
        let less = value(cutter.si() / 10.0, depth.unit, Way::Down);
        let says = "A slab mill cuts no deeper than its radius.";
        return Err(rule_broken(Code::Conflict, says, &[("depth_of_cut", &less)]));
    }
    Ok(())
}

impl Calculator for CuttingTime {
    const ID: &'static str = "speeds/cutting-time";
    const TITLE: &'static str = "Cutting time";
    const ABOUT: &'static str = "How long a cut takes at a feed rate, with the travel that cutter or drill needs before and \
        after the work.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str =
        "Time one pass by the clock: multiplied by the number of passes, it is the time of the cut.";
    const WORDS: &'static str = "minutes, cycle time, estimate, approach, overtravel, milling time, drilling time, \
        turning time";
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
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "You turn {length} of a winch shaft at {feed_rate}. How long does a pass take?" => "cutting_time":
            { length = "6 in" | "9 in" | "12 in", feed_rate = "1.5 in/min" | "2 in/min" | "3 in/min", operation = "turning" }
            { length = "150 mm" | "240 mm" | "300 mm", feed_rate = "40 mm/min" | "60 mm/min" | "75 mm/min",
              operation = "turning" };
        2 "A {diameter} drill with the usual 118° point goes {length} deep at full diameter, feeding {feed_rate}. How long does \
            it take?" => "cutting_time":
            { diameter = "3/8 in" | "1/2 in" | "3/4 in", length = "1 in" | "1-1/2 in" | "2 in",
              feed_rate = "2 in/min" | "3 in/min", operation = "drilling" }
            { diameter = "9 mm" | "10 mm" | "12 mm", length = "25 mm" | "30 mm" | "40 mm",
              feed_rate = "50 mm/min" | "75 mm/min", operation = "drilling" };
        2 "You rough {length} of shaft in {passes} passes at {feed_rate}, each from {approach} before the work. How long is the \
            tool cutting at feed?" => "cutting_time":
            { length = "6 in" | "8 in", passes = "3" | "4" | "5", feed_rate = "2 in/min" | "3 in/min", approach = "0.1 in",
              operation = "turning" }
            { length = "150 mm" | "200 mm", passes = "3" | "4" | "5", feed_rate = "50 mm/min" | "80 mm/min", approach = "3 mm",
              operation = "turning" };
        3 "A {diameter} face mill feeds at {feed_rate} down the middle of a plate {length} long and {width} wide. How long from \
            its first touch until the full width is cut?" => "cutting_time":
            { diameter = "2 in" | "3 in", length = "6 in" | "8 in", width = "1-1/4 in" | "1-1/2 in",
              feed_rate = "3 in/min" | "5 in/min", operation = "face_milling", clear_out = "full_width" }
            { diameter = "50 mm" | "63 mm", length = "150 mm" | "200 mm", width = "30 mm" | "40 mm",
              feed_rate = "80 mm/min" | "100 mm/min", operation = "face_milling", clear_out = "full_width" };
        3 "A slab mill of {diameter} takes {depth_of_cut} off a gear housing. How far must it travel at the start before it cuts \
            the full depth?" => "tool_approach":
            { diameter = "2-1/2 in" | "3 in" | "4 in", depth_of_cut = "0.05 in" | "0.1 in" | "0.2 in", length = "10 in",
              feed_rate = "4 in/min", operation = "slab_milling", units = "inch" }
            { diameter = "63 mm" | "80 mm" | "100 mm", depth_of_cut = "1 mm" | "2 mm" | "5 mm", length = "250 mm",
              feed_rate = "100 mm/min", operation = "slab_milling", units = "metric" };
    };
    type Input = CuttingTimeInput;
    type Output = CuttingTimeResult;
    const LEADS: &'static [&'static str] = &["cutting_time"];

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "where a cutter's circle or a drill's cone meets and leaves the work");
        record.source("kinematics", "time is travel divided by feed");
        record.caution(cautions::TIMES);
        let tool_approach = approach::find(input, record);
        let (approach, overtravel) = (input.approach(record), input.overtravel(record));
        let travel: FoundExtent = step!(record, "Travel of one pass", W: travel = a + L + A + b,
            a = approach, L = length: input.length, A = tool_approach, b = overtravel);
        let time_per_pass: FoundWorkTime = step!(record, "Time of one pass", t1: time_per_pass = W / vf,
            W = travel, vf = feed_rate: input.feed_rate);
        let passes = input.passes(record);
        let cutting_time = step!(record, "Time of all passes", t: cutting_time = t1 * i,
            t1 = time_per_pass, i = passes);
        Ok(CuttingTimeResult { tool_approach, travel, time_per_pass, cutting_time })
    }
}
