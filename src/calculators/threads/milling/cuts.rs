//! The cuts: each takes as much metal as the one before, since the area of a V grows as the square of its
//! depth; and their time.

use super::path::Sizes;
use super::{ThreadCut, ThreadMillingInput, ThreadedSide};
use crate::quantity::{FoundFeedRate, FoundSize, FoundWorkTime, SiValue};
use crate::refusal::Refusal;
use crate::suggestion::{Way, value};
use crate::threading::GivenThread;
use crate::working::Record;
use std::f64::consts::PI;

/// The cuts.
pub struct Cuts {
    /// One row each.
    pub rows: Vec<ThreadCut>,
    /// Feed of the cutter's middle in the last.
    pub center_feed_rate: FoundFeedRate,
}

/// The cuts, with their steps.
pub fn find(input: &ThreadMillingInput, sizes: &Sizes, edge: FoundFeedRate, record: &mut Record) -> Cuts {
    let internal = input.side == ThreadedSide::Internal;
    let sign = if internal { 1.0 } else { -1.0 };
    let count = match input.passes {
        Some(passes) => passes.get(),
        None => {
            record.assume("passes", &1u32, "One cut, as short threads in soft metal allow.");
            1
        }
    };
    let (start, contour, cutter) = (sizes.start.get().si(), sizes.contour.get().si(), input.cutter_diameter.get().si());
    let whole = sign * (contour - start) / 2.0;
    let depth = FoundSize::of(SiValue::from_si(whole));
    record
        .step("Depth of the thread on the radius", if internal { "h = (Dk - Ds) / 2" } else { "h = (Ds - Dk) / 2" })
        .with("Dk", "contour_diameter", sizes.contour)
        .with("Ds", "start_diameter", sizes.start)
        .gives("thread_depth", depth);
    let size = |si: f64| FoundSize::of(SiValue::from_si(si));
    let rows: Vec<ThreadCut> = (1..=count)
        .map(|number| {
            let deep = whole * (f64::from(number) / f64::from(count)).sqrt();
            let to = start + sign * 2.0 * deep;
            let path = to - sign * cutter;
            ThreadCut {
                number,
                depth: size(deep),
                contour_diameter: size(to),
                path_diameter: size(path),
                center_feed_rate: FoundFeedRate::of(edge.get() * (path / to)),
            }
        })
        .collect();
    let numbers = || rows.iter().map(|row| f64::from(row.number)).collect::<Vec<_>>();
    let column = |of: fn(&ThreadCut) -> FoundSize| rows.iter().map(of).collect::<Vec<_>>();
    record.look_up("Cuts", "one for each of passes").with("N", "passes", count).gives("cuts.number", numbers());
    record
        .step("Depths of the cuts", "a = h × √(i / N)")
        .with("h", "thread_depth", depth)
        .with("i", "cuts.number", numbers())
        .with("N", "passes", count)
        .gives("cuts.depth", column(|row| row.depth));
    record
        .step("Diameters that the tips cut to", if internal { "d = Ds + 2 × a" } else { "d = Ds - 2 × a" })
        .with("Ds", "start_diameter", sizes.start)
        .with("a", "cuts.depth", column(|row| row.depth))
        .gives("cuts.contour_diameter", column(|row| row.contour_diameter));
    record
        .step("Circles of the cutter's middle", if internal { "p = d - Dc" } else { "p = d + Dc" })
        .with("d", "cuts.contour_diameter", column(|row| row.contour_diameter))
        .with("Dc", "cutter_diameter", input.cutter_diameter)
        .gives("cuts.path_diameter", column(|row| row.path_diameter));
    record
        .step("Feed rates of the cutter's middle", "v = vf × p / d")
        .with("vf", "edge_feed_rate", edge)
        .with("p", "cuts.path_diameter", column(|row| row.path_diameter))
        .with("d", "cuts.contour_diameter", column(|row| row.contour_diameter))
        .gives("cuts.center_feed_rate", rows.iter().map(|row| row.center_feed_rate).collect::<Vec<_>>());
    let center = FoundFeedRate::of(edge.get() * (sizes.path.get() / sizes.contour.get()));
    record
        .step("Feed rate of the cutter's middle in the last cut", "vc = vf × Dp / Dk")
        .with("vf", "edge_feed_rate", edge)
        .with("Dp", "path_diameter", sizes.path)
        .with("Dk", "contour_diameter", sizes.contour)
        .gives("center_feed_rate", center);
    record.note(
        "middle_and_tips",
        if internal {
            "In a hole the tips run over the work faster than the cutter's middle: the feed of the middle is the smaller one."
        } else {
            "Round a stud the tips run over the work slower than the cutter's middle: the feed of the middle is the larger one."
        },
    );
    Cuts { rows, center_feed_rate: center }
}

/// Turns of one cut and the time of all.
pub struct CutTime {
    /// Turns of one cut.
    pub turns: f64,
    /// Time of all cuts.
    pub time: FoundWorkTime,
}

/// More turns than this are no thread.
const MOST_TURNS: f64 = 100_000.0;

/// Turns and time, where the length is stated.
pub fn time(
    given: &GivenThread,
    input: &ThreadMillingInput,
    cuts: &Cuts,
    record: &mut Record,
) -> Result<Option<CutTime>, Refusal> {
    let Some(length) = input.length else { return Ok(None) };
    let (lead, long) = (given.lead.get().si(), length.get().si());
    let starts = f64::from(given.thread().starts);
    let (turns, rule) = match input.cutting_length {
        None => {
            (starts * (long / lead + 1.0), "one row of teeth: for each start the length over the lead, and one turn")
        }
        Some(cutting) => {
            let step = (cutting.get().si() / lead * (1.0 + 1e-12)).floor() * lead;
            let places =
                if cutting.get().si() >= long * (1.0 - 1e-12) { 1.0 } else { (long / step * (1.0 - 1e-12)).ceil() };
            (places, "rows of teeth: one turn for each place, which are whole leads apart")
        }
    };
    if turns > MOST_TURNS {
        let says = "That would be more than a hundred thousand turns.";
        let shorter = value(10.0 * lead, length.quantity().unit, Way::Up);
        return Err(Refusal::no_answer(says, &[("length", shorter)]));
    }
    record
        .look_up("Turns in one cut", rule)
        .with("l", "length", length)
        .with("L", "lead", given.lead)
        .gives("turns", turns);
    let seconds =
        cuts.rows.iter().map(|row| turns * PI * row.path_diameter.get().si() / row.center_feed_rate.get().si());
    let time = FoundWorkTime::of(SiValue::from_si(seconds.sum()));
    record
        .step("Time of all cuts", "t = sum(w × π × p / v)")
        .with("w", "turns", turns)
        .with("p", "cuts.path_diameter", cuts.rows.iter().map(|row| row.path_diameter).collect::<Vec<_>>())
        .with("v", "cuts.center_feed_rate", cuts.rows.iter().map(|row| row.center_feed_rate).collect::<Vec<_>>())
        .gives("cutting_time", time);
    Ok(Some(CutTime { turns, time }))
}
