//! The passes of a thread: how the depth grows, what each chip is, and what the dial shows. Lengths in the
//! thread's unit.

use super::groove::Groove;
use super::plan::{Plan, plan};
use super::tip::Tip;
use super::{FeedDial, PassLaw, SinglePointInput, ThreadInfeed, ThreadPass};
use crate::calculators::prelude::*;
use crate::threading::GivenThread;

/// How the tool is fed in.
pub struct Feed {
    /// Angle of the compound slide, where it feeds.
    pub angle: Option<EdgeAngle>,
    /// The same as a result.
    pub found: Option<FoundAngle>,
    /// The same from the axis of the lathe.
    pub from_axis: Option<FoundAngle>,
    dial: FeedDial,
}

impl Feed {
    /// The slide, its angle and its dial.
    pub fn find(input: &SinglePointInput, record: &mut Record) -> Self {
        let infeed = input.infeed.unwrap_or_else(|| {
            let usual = if input.compound_angle.is_some() { ThreadInfeed::Compound } else { ThreadInfeed::CrossSlide };
            let says = "The compound feeds where its angle is stated, else the cross slide.";
            record.assume("infeed", &usual, says);
            usual
        });
        let angle = (infeed == ThreadInfeed::Compound).then(|| input.compound_angle(record));
        let dial = input.dial(record);
        let compound = angle.map(|angle| {
            let square = FoundAngle::stated(90.0, Unit::Degree);
            let found: FoundAngle = step!(record, "Compound angle", θ: compound_angle = c, c = compound_angle: angle);
            let from_axis: FoundAngle = step!(record, "The same from the axis",
                φ: compound_from_axis = q - θ, q = "constant:right_angle": square, θ = compound_angle: angle);
            (found, from_axis)
        });
        let (found, from_axis) = compound.unzip();
        Self { angle, found, from_axis, dial }
    }

    fn cos(&self) -> f64 {
        self.angle.map_or(1.0, |angle| crate::quantity::angle::cos(angle.degrees()))
    }
}

/// The whole way of the slide and the passes, with their steps.
pub fn rows(
    given: &GivenThread,
    groove: &Groove,
    feed: &Feed,
    input: &SinglePointInput,
    record: &mut Record,
) -> Result<(FoundExtent, Vec<ThreadPass>), Refusal> {
    let plan = plan(groove, input, record)?;
    let unit = groove.unit;
    let cuts = plan.depths(unit);
    let springs = input.spring_passes(record).get();
    if input.spring_passes.is_none() {
        record.source("common_practice", "passes at the end that take no more depth");
    }
    let count = cuts.len() as u32;
    let blank = groove.blank.quantity().in_unit(unit);
    let dial = if feed.dial == FeedDial::Diameter { 2.0 } else { 1.0 };
    let mut rows: Vec<ThreadPass> = Vec::new();
    let mut before = 0.0;
    for number in 1..=count + springs {
        let depth = cuts.get(number as usize - 1).copied().unwrap_or(plan.depth);
        let area = (plan.area(depth) - plan.area(before)).max(0.0);
        rows.push(ThreadPass {
            number,
            kind: if number <= count { "cut" } else { "spring" },
            depth: FoundExtent::stated(depth, unit),
            added: FoundExtent::stated(depth - before, unit),
            chip_area: matches!(groove.tip, Tip::Flat(_)).then(|| FoundArea::stated(area, area_unit(unit))),
            tip_diameter: FoundCrossDiameter::stated(blank - groove.sign * 2.0 * depth, unit),
            dial_reading: FoundPlace::stated(dial * depth / feed.cos(), unit),
        });
        before = depth;
    }
    record
        .look_up("Passes that cut", "until the whole depth is reached")
        .with("h", "depth", groove.sizes.depth)
        .gives("pass_count", count);
    tell_depths(given, groove, &plan, &cuts, input, record);
    let travel = tell(given, groove, feed, &rows, record);
    Ok((travel, rows))
}

/// The steps of the depths that the law and its floor give.
fn tell_depths(
    given: &GivenThread,
    groove: &Groove,
    plan: &Plan,
    cuts: &[f64],
    input: &SinglePointInput,
    record: &mut Record,
) {
    let (unit, depth) = (groove.unit, groove.sizes.depth);
    let lengths = |list: &[f64]| column(list, |depth| FoundExtent::stated(*depth, unit));
    let numbers: Vec<u32> = (1..=cuts.len() as u32).collect();
    let law: Vec<f64> = numbers.iter().map(|n| plan.at(*n)).collect();
    let numbers = column(&numbers, |n| *n);
    let parts_field = if input.passes.is_some() { "passes" } else { "parts" };
    record.look_up("Numbers of the passes that cut", "one after the other").gives("cut_number", numbers.clone());
    match (plan.law, groove.tip) {
        (PassLaw::EqualArea, Tip::Flat(flat)) => {
            let area = FoundArea::stated(plan.area(plan.depth), area_unit(unit));
            record
                .step("Section of the groove", "A = f × a + tan(α) × a^2")
                .with("f", "tip_flat", flat)
                .with("a", "depth", depth)
                .with("α", "half_flank_angle", given.half_angle)
                .gives("groove_area", area);
            record
                .step("Depths by the law", "h = (√(f^2 + 4 × tan(α) × A × n / N) - f) / (2 × tan(α))")
                .with("f", "tip_flat", flat)
                .with("α", "half_flank_angle", given.half_angle)
                .with("A", "groove_area", area)
                .with("n", "cut_number", numbers)
                .with("N", parts_field, plan.parts)
                .gives("law_depth", lengths(&law));
        }
        _ => record
            .step("Depths by the law", "h = a × √(n / N)")
            .with("a", "depth", depth)
            .with("n", "cut_number", numbers)
            .with("N", parts_field, plan.parts)
            .gives("law_depth", lengths(&law)),
    }
    let Some(least) = plan.least else {
        let step = record.step("Depths of the passes that cut", "h = l");
        return step.with("l", "law_depth", lengths(&law)).gives("cut_depth", lengths(cuts));
    };
    let before = "of the pass before; 0 at first";
    let (law_before, cut_before) = (shifted(&law), shifted(cuts));
    record.look_up("Law before each", before).gives("law_before", lengths(&law_before));
    record.look_up("Depth before each", before).gives("cut_before", lengths(&cut_before));
    let steps: Vec<f64> = law.iter().zip(&law_before).map(|(now, before)| now - before).collect();
    record
        .step("What the law adds", "s = l - k")
        .with("l", "law_depth", lengths(&law))
        .with("k", "law_before", lengths(&law_before))
        .gives("law_step", lengths(&steps));
    let floor = least.quantity().in_unit(unit);
    let floored: Vec<f64> = steps.iter().map(|step| step.max(floor)).collect();
    record
        .step("The same, but not less than the least", "g = (s + m + abs(s - m)) / 2")
        .with("s", "law_step", lengths(&steps))
        .with("m", "least_depth", least)
        .gives("pass_step", lengths(&floored));
    record
        .step("Depths of the passes that cut, to the whole depth", "h = (b + g + a - abs(b + g - a)) / 2")
        .with("b", "cut_before", lengths(&cut_before))
        .with("g", "pass_step", lengths(&floored))
        .with("a", "depth", depth)
        .gives("cut_depth", lengths(cuts));
}

fn area_unit(unit: Unit) -> Unit {
    if unit == Unit::Inch { Unit::SquareInch } else { Unit::SquareMillimetre }
}

/// Each value in the place of the next, with 0 at first.
fn shifted(list: &[f64]) -> Vec<f64> {
    std::iter::once(0.0).chain(list.iter().copied()).take(list.len()).collect()
}

/// The steps of the rows; gives the whole way of the slide.
fn tell(given: &GivenThread, groove: &Groove, feed: &Feed, rows: &[ThreadPass], record: &mut Record) -> FoundExtent {
    let depths = || column(rows, |row| row.depth);
    let start = FoundExtent::stated(0.0, groove.unit);
    let before: Vec<FoundExtent> =
        std::iter::once(start).chain(rows.iter().map(|row| row.depth)).take(rows.len()).collect();
    record
        .look_up("Numbers of all passes", "one after the other")
        .gives("passes.number", column(rows, |row| row.number));
    record
        .look_up("Kinds", "those that cut, then those that only clean")
        .gives("passes.kind", column(rows, |row| row.kind));
    record.look_up("Depths", "as cut, and no deeper at the end").gives("passes.depth", depths());
    record.look_up("Depths before", "of the pass before; 0 at first").gives("depth_before", before.clone());
    record
        .step("Added", "d = h - b")
        .with("h", "passes.depth", depths())
        .with("b", "depth_before", before.clone())
        .gives("passes.added", column(rows, |row| row.added));
    if let Tip::Flat(flat) = groove.tip {
        record
            .step("Sections of the chips", "q = f × (h - b) + tan(α) × (h^2 - b^2)")
            .with("f", "tip_flat", flat)
            .with("h", "passes.depth", depths())
            .with("b", "depth_before", before)
            .with("α", "half_flank_angle", given.half_angle)
            .gives("passes.chip_area", column(rows, |row| row.chip_area));
    }
    record
        .step("Diameters at the tip", if groove.sign > 0.0 { "t = B - 2 × h" } else { "t = B + 2 × h" })
        .with("B", "blank_diameter", groove.blank)
        .with("h", "passes.depth", depths())
        .gives("passes.tip_diameter", column(rows, |row| row.tip_diameter));
    let along = match (feed.angle, feed.dial) {
        (None, FeedDial::Radius) => ("v = h", "r = h"),
        (None, FeedDial::Diameter) => ("v = h", "r = 2 × h"),
        (Some(_), FeedDial::Radius) => ("v = h / cos(θ)", "r = h / cos(θ)"),
        (Some(_), FeedDial::Diameter) => ("v = h / cos(θ)", "r = 2 × h / cos(θ)"),
    };
    let depth = groove.sizes.depth;
    let travel = FoundExtent::stated(depth.quantity().in_unit(groove.unit) / feed.cos(), groove.unit);
    let mut step = record.step("Way of the slide", along.0).with("h", "depth", depth);
    if let Some(angle) = feed.angle {
        step = step.with("θ", "compound_angle", angle);
    }
    step.gives("slide_travel", travel);
    let mut step = record.step("Readings of the dial", along.1).with("h", "passes.depth", depths());
    if let Some(angle) = feed.angle {
        step = step.with("θ", "compound_angle", angle);
    }
    step.gives("passes.dial_reading", column(rows, |row| row.dial_reading));
    travel
}
