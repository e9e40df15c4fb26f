//! The passes of a thread: how the depth grows, what each chip is, and what the dial shows. Lengths in the
//! thread's unit.

use super::groove::Groove;
use super::plan::{Plan, plan};
use super::tip::Tip;
use super::{FeedDial, PassLaw, SinglePointInput, ThreadInfeed, ThreadPass};
use crate::calculators::prelude::*;
use crate::threading::GivenThread;

/// The angle of the compound slide.
#[derive(Clone, Copy, Debug, Default, Gives)]
pub struct CompoundAngles {
    /// Angle of the compound slide from the direction of the cross slide; only where it feeds.
    pub compound_angle: Option<FoundAngle>,
    /// The same from the axis of the lathe, as some compound slides are marked.
    #[label("Compound angle from the axis")]
    pub compound_from_axis: Option<FoundAngle>,
}

/// How the tool is fed in.
pub struct Feed {
    /// Angle of the compound slide, where it feeds.
    pub angle: Option<EdgeAngle>,
    /// The same in the answer.
    pub shown: CompoundAngles,
    dial: FeedDial,
}

impl Feed {
    /// The slide, its angle and its dial.
    pub fn find(input: &SinglePointInput, record: &mut Record) -> Self {
        let infeed = input.infeed.unwrap_or_else(|| {
            let usual = if input.compound_angle.is_some() { ThreadInfeed::Compound } else { ThreadInfeed::CrossSlide };
            let says = "The compound feeds where its angle is given, else the cross slide.";
            record.assume("infeed", &usual, says);
            usual
        });
        let angle = (infeed == ThreadInfeed::Compound).then(|| input.compound_angle(record));
        let dial = input.dial(record);
        let shown = angle.map_or_else(CompoundAngles::default, |angle| {
            let square = FoundAngle::stated(90.0, Unit::Degree);
            CompoundAngles {
                compound_angle: Some(step!(record, "Compound angle", θ: compound_angle = c, c = compound_angle: angle)),
                compound_from_axis: Some(step!(record, "The same from the axis",
                    φ: compound_from_axis = q - θ, q = "constant:right_angle": square, θ = compound_angle: angle)),
            }
        });
        Self { angle, shown, dial }
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
    let plan = plan(given, groove, input, record)?;
    let unit = groove.unit;
    let cuts = plan.depths(unit);
    let springs = input.spring_passes(record).get();
    if input.spring_passes.is_none() {
        record.source("common_practice", "passes at the end that add no depth");
    }
    let count = cuts.len() as u32;
    let blank = groove.blank.quantity().in_unit(unit);
    let dial = if feed.dial == FeedDial::Diameter { 2.0 } else { 1.0 };
    let mut passes: Vec<ThreadPass> = Vec::new();
    let mut before = 0.0;
    for number in 1..=count + springs {
        let depth = cuts.get(number as usize - 1).copied().unwrap_or(plan.depth);
        let area = (plan.area(depth) - plan.area(before)).max(0.0);
        passes.push(ThreadPass {
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
    let (depth, until) = (groove.sizes.depth, "until the whole depth is reached");
    record.look_up("Passes that cut", until).with("h", "depth", depth).gives("pass_count", count);
    tell_depths(given, groove, &plan, &cuts, input, record);
    let travel = tell(given, groove, feed, &passes, record);
    Ok((travel, passes))
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
            tell!(record.step("Section of the groove", "A = f × a + tan(α) × a^2"),
                f = tip_flat: flat, a = depth, α = half_flank_angle: given.half_angle => groove_area: area);
            tell!(record.step("Depths by the rule", "h = (√(f^2 + 4 × tan(α) × A × n / N) - f) / (2 × tan(α))"),
                f = tip_flat: flat, α = half_flank_angle: given.half_angle, A = groove_area: area,
                n = cut_number: numbers, N = (parts_field): plan.parts => law_depth: lengths(&law));
        }
        _ => tell!(record.step("Depths by the rule", "h = a × √(n / N)"), a = depth,
            n = cut_number: numbers, N = (parts_field): plan.parts => law_depth: lengths(&law)),
    }
    let Some(least) = plan.least else {
        let step = record.step("Depths of the passes that cut", "h = l");
        return step.with("l", "law_depth", lengths(&law)).gives("cut_depth", lengths(cuts));
    };
    let before = "of the pass before; 0 at first";
    let (law_before, cut_before) = (shifted(&law), shifted(cuts));
    record.look_up("Depth by the rule before each", before).gives("law_before", lengths(&law_before));
    record.look_up("Depth before each", before).gives("cut_before", lengths(&cut_before));
    let steps: Vec<f64> = law.iter().zip(&law_before).map(|(now, before)| now - before).collect();
    tell!(record.step("What the rule adds", "s = l - k"),
        l = law_depth: lengths(&law), k = law_before: lengths(&law_before) => law_step: lengths(&steps));
    let floor = least.quantity().in_unit(unit);
    let floored: Vec<f64> = steps.iter().map(|step| step.max(floor)).collect();
    tell!(record.step("The same, but not less than the least", "g = (s + m + abs(s - m)) / 2"),
        s = law_step: lengths(&steps), m = least_depth: least => pass_step: lengths(&floored));
    let formula = "h = (b + g + a - abs(b + g - a)) / 2";
    tell!(record.step("Depths of the passes that cut, to the whole depth", formula),
        b = cut_before: lengths(&cut_before), g = pass_step: lengths(&floored), a = depth => cut_depth: lengths(cuts));
}

fn area_unit(unit: Unit) -> Unit {
    if unit == Unit::Inch { Unit::SquareInch } else { Unit::SquareMillimetre }
}

/// Each value in the place of the next, with 0 at first.
fn shifted(list: &[f64]) -> Vec<f64> {
    std::iter::once(0.0).chain(list.iter().copied()).take(list.len()).collect()
}

/// The steps of the rows; gives the whole way of the slide.
fn tell(given: &GivenThread, groove: &Groove, feed: &Feed, passes: &[ThreadPass], record: &mut Record) -> FoundExtent {
    let (blank, flanks, depth) = (groove.blank, given.half_angle, groove.sizes.depth);
    let start = std::iter::once(FoundExtent::stated(0.0, groove.unit));
    let before: Vec<_> = start.chain(passes.iter().map(|pass| pass.depth)).take(passes.len()).collect();
    tell!(record.look_up("Numbers of all passes", "one after the other") => passes.number);
    tell!(record.look_up("Kinds", "those that cut, then the spring passes") => passes.kind);
    tell!(record.look_up("Depths", "as cut; spring passes go no deeper") => passes.depth);
    record.look_up("Depths before", "of the pass before; 0 at first").gives("depth_before", before.clone());
    tell!(record.step("Added", "d = h - b"), h = passes.depth, b = depth_before: before.clone() => passes.added);
    if let Tip::Flat(flat) = groove.tip {
        tell!(record.step("Sections of the chips", "q = f × (h - b) + tan(α) × (h^2 - b^2)"), f = tip_flat: flat,
            h = passes.depth, b = depth_before: before, α = half_flank_angle: flanks => passes.chip_area);
    }
    let formula = if groove.sign > 0.0 { "t = B - 2 × h" } else { "t = B + 2 × h" };
    tell!(record.step("Diameters at the tip", formula),
        B = blank_diameter: blank, h = passes.depth => passes.tip_diameter);
    let travel = FoundExtent::stated(depth.quantity().in_unit(groove.unit) / feed.cos(), groove.unit);
    let twice = feed.dial == FeedDial::Diameter;
    let (way, readings) = ("Travel of the slide", "Readings of the dial");
    match feed.angle {
        None => {
            tell!(record.step(way, "v = h"), h = depth => slide_travel: travel);
            let formula = if twice { "r = 2 × h" } else { "r = h" };
            tell!(record.step(readings, formula), h = passes.depth => passes.dial_reading);
        }
        Some(angle) => {
            tell!(record.step(way, "v = h / cos(θ)"), h = depth, θ = compound_angle: angle => slide_travel: travel);
            let formula = if twice { "r = 2 × h / cos(θ)" } else { "r = h / cos(θ)" };
            tell!(record.step(readings, formula),
                h = passes.depth, θ = compound_angle: angle => passes.dial_reading);
        }
    }
    travel
}
