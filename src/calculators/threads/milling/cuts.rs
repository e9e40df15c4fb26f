//! The cuts: each takes as much metal as the one before, since the area of a V grows as the square of its
//! depth; and their time.

use super::path::Sizes;
use super::{ThreadCut, ThreadMillingInput};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};
use crate::threading::GivenThread;

/// The cuts, and the feed of the cutter's center in the last, with their steps.
pub fn find(
    input: &ThreadMillingInput,
    sizes: &Sizes,
    edge: FoundFeedRate,
    record: &mut Record,
) -> (Vec<ThreadCut>, FoundFeedRate) {
    let (internal, count) = (input.internal(), input.passes(record).get());
    let sign = if internal { 1.0 } else { -1.0 };
    let (start, contour) = (sizes.start, sizes.contour);
    let what = "Depth of the thread on the radius";
    let depth: FoundSize = if internal {
        step!(record, what, h: thread_depth = (Dk - Ds) / 2.0,
            Dk = contour_diameter: contour, Ds = start_diameter: start)
    } else {
        step!(record, what, h: thread_depth = (Ds - Dk) / 2.0,
            Dk = contour_diameter: contour, Ds = start_diameter: start)
    };
    let size = |si: f64| FoundSize::of(SiValue::from_si(si));
    let row = |number| {
        let deep = depth.get().si() * (f64::from(number) / f64::from(count)).sqrt();
        let to = start.get().si() + sign * 2.0 * deep;
        let path = to - sign * input.cutter_diameter.get().si();
        ThreadCut {
            number,
            depth: size(deep),
            contour_diameter: size(to),
            path_diameter: size(path),
            center_feed_rate: FoundFeedRate::of(edge.get() * (path / to)),
        }
    };
    let cuts: Vec<ThreadCut> = (1..=count).map(row).collect();
    tell!(record.look_up("Cuts", "as many as asked for"), N = passes: count => cuts.number);
    tell!(record.step("Depths of the cuts", "a = h × √(i / N)"),
        h = thread_depth: depth, i = cuts.number, N = passes: count => cuts.depth);
    let formula = if internal { "d = Ds + 2 × a" } else { "d = Ds - 2 × a" };
    tell!(record.step("Diameters that the tips cut to", formula),
        Ds = start_diameter: start, a = cuts.depth => cuts.contour_diameter);
    let formula = if internal { "p = d - Dc" } else { "p = d + Dc" };
    tell!(record.step("Circles of the cutter's center", formula),
        d = cuts.contour_diameter, Dc = cutter_diameter: input.cutter_diameter => cuts.path_diameter);
    tell!(record.step("Feed rates of the cutter's center", "v = vf × p / d"), vf = edge_feed_rate: edge,
        p = cuts.path_diameter, d = cuts.contour_diameter => cuts.center_feed_rate);
    let center: FoundFeedRate = step!(record, "Feed rate of the cutter's center in the last cut",
        vc: center_feed_rate = vf * Dp / Dk,
        vf = edge_feed_rate: edge, Dp = path_diameter: sizes.path, Dk = contour_diameter: contour);
    record.note(
        "middle_and_tips",
        if internal {
            "In a hole the tips feed faster than the cutter's center: set the smaller feed, that of the center."
        } else {
            "Round a stud the tips feed slower than the cutter's center: set the larger feed, that of the center."
        },
    );
    (cuts, center)
}

/// How long it takes.
#[derive(Debug, Default, Gives)]
pub struct CutTime {
    /// Turns of the path in one cut; needs length.
    pub turns: Option<f64>,
    /// Time in the cut for all cuts, without the way in and out; needs length.
    pub cutting_time: Option<FoundWorkTime>,
}

/// More turns than this are no thread.
const MOST_TURNS: f64 = 100_000.0;

/// Turns and time, where the length is stated.
pub fn time(
    given: &GivenThread,
    input: &ThreadMillingInput,
    cuts: &[ThreadCut],
    record: &mut Record,
) -> Result<CutTime, Refusal> {
    let Some(length) = input.length else { return Ok(CutTime::default()) };
    let (lead, long) = (given.lead.get().si(), length.get().si());
    let starts = f64::from(given.thread().starts);
    let (turns, rule) = match input.cutting_length {
        None => {
            (starts * (long / lead + 1.0), "one row of teeth: for each start the length over the lead, plus one turn")
        }
        Some(cutting) => {
            let step = (cutting.get().si() / lead * (1.0 + 1e-12)).floor() * lead;
            let places =
                if cutting.get().si() >= long * (1.0 - 1e-12) { 1.0 } else { (long / step * (1.0 - 1e-12)).ceil() };
            (places, "rows of teeth: one turn at each place, the places whole leads apart")
        }
    };
    if turns > MOST_TURNS {
        let says = "That makes more than 100,000 turns. Give a shorter length.";
        let shorter = value(10.0 * lead, length.quantity().unit, Way::Up);
        return Err(Refusal::no_answer(says, &[("length", shorter)]));
    }
    tell!(record.look_up("Turns in one cut", rule), l = length, L = lead: given.lead => turns);
    let seconds = |cut: &ThreadCut| turns * PI * cut.path_diameter.get().si() / cut.center_feed_rate.get().si();
    let time = FoundWorkTime::of(SiValue::from_si(cuts.iter().map(seconds).sum()));
    tell!(record.step("Time of all cuts", "t = sum(w × π × p / v)"), w = turns,
        p = cuts.path_diameter, v = cuts.center_feed_rate => cutting_time: time);
    Ok(CutTime { turns: Some(turns), cutting_time: Some(time) })
}
