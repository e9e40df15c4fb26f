//! The passes of a thread: how the depth grows, what each chip is, and what the dial shows. Lengths in the
//! thread's unit.

use super::groove::Groove;
use super::plan::{Plan, plan};
use super::tip::Tip;
use super::{FeedDial, PassLaw, SinglePointInput, ThreadInfeed, ThreadPass};
use crate::quantity::{EdgeAngle, FoundAngle, FoundArea, FoundCrossDiameter, FoundExtent, FoundPlace, Unit};
use crate::refusal::Refusal;
use crate::threading::GivenThread;
use crate::working::Record;

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
    pub fn find(given: &GivenThread, input: &SinglePointInput, record: &mut Record) -> Self {
        let infeed = input.infeed.unwrap_or_else(|| {
            let usual = if input.compound_angle.is_some() { ThreadInfeed::Compound } else { ThreadInfeed::CrossSlide };
            let says = "The compound feeds where its angle is stated, else the cross slide.";
            record.assume("infeed", &usual, says);
            usual
        });
        let angle = (infeed == ThreadInfeed::Compound).then(|| {
            record.or_assume(
                input.compound_angle,
                "compound_angle",
                EdgeAngle::stated(given.half_angle.degrees() - 0.5, Unit::Degree),
                "Common practice: half a degree less than the flank, so that the trailing side is cleaned.",
            )
        });
        let dial = record.or_assume(
            input.dial,
            "dial",
            FeedDial::Radius,
            "The dial is taken to count as far as its slide moves; many cross slides count diameters.",
        );
        let found = angle.map(|angle| FoundAngle::stated(angle.degrees(), Unit::Degree));
        let from_axis = angle.zip(found).map(|(angle, found)| {
            let from_axis = FoundAngle::stated(90.0 - angle.degrees(), Unit::Degree);
            record.step("Compound angle", "θ = c").with("c", "compound_angle", angle).gives("compound_angle", found);
            record
                .step("The same from the axis", "φ = q - θ")
                .with("q", "constant:right_angle", FoundAngle::stated(90.0, Unit::Degree))
                .with("θ", "compound_angle", angle)
                .gives("compound_from_axis", from_axis);
            from_axis
        });
        Self { angle, found, from_axis, dial }
    }

    fn cos(&self) -> f64 {
        self.angle.map_or(1.0, |angle| crate::quantity::angle::cos(angle.degrees()))
    }

    /// Way of the slide to the whole depth.
    pub fn travel(&self, groove: &Groove) -> FoundExtent {
        FoundExtent::stated(groove.depth.quantity().in_unit(groove.unit) / self.cos(), groove.unit)
    }
}

/// The passes with their steps, and how many of them cut.
pub fn rows(
    given: &GivenThread,
    groove: &Groove,
    feed: &Feed,
    input: &SinglePointInput,
    record: &mut Record,
) -> Result<(u32, Vec<ThreadPass>), Refusal> {
    let plan = plan(groove, input, record)?;
    let unit = groove.unit;
    let cuts = plan.depths(unit);
    let springs = match input.spring_passes {
        Some(springs) => springs.get(),
        None => {
            record.source("common_practice", "passes at the end that take no more depth");
            record.assume("spring_passes", &2u32, "Common practice: work and tool give way, and come back.");
            2
        }
    };
    let count = cuts.len() as u32;
    let blank = groove.blank.quantity().in_unit(unit);
    let dial = if feed.dial == FeedDial::Diameter { 2.0 } else { 1.0 };
    let area_unit = if unit == Unit::Inch { Unit::SquareInch } else { Unit::SquareMillimetre };
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
            chip_area: matches!(groove.tip, Tip::Flat(_)).then(|| FoundArea::stated(area, area_unit)),
            tip_diameter: FoundCrossDiameter::stated(blank - groove.sign * 2.0 * depth, unit),
            dial_reading: FoundPlace::stated(dial * depth / feed.cos(), unit),
        });
        before = depth;
    }
    record
        .look_up("Passes that cut", "until the whole depth is reached")
        .with("h", "depth", groove.depth)
        .gives("pass_count", count);
    tell_depths(given, groove, &plan, &cuts, input, record);
    tell(given, groove, feed, &rows, record);
    Ok((count, rows))
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
    let unit = groove.unit;
    let numbers: Vec<f64> = (1..=cuts.len()).map(|n| n as f64).collect();
    let lengths = |list: &[f64]| list.iter().map(|depth| FoundExtent::stated(*depth, unit)).collect::<Vec<_>>();
    let parts = f64::from(plan.parts);
    let parts_field = if input.passes.is_some() { "passes" } else { "parts" };
    record.look_up("Numbers of the passes that cut", "one after the other").gives("cut_number", numbers.clone());
    let law: Vec<f64> = (1..=cuts.len()).map(|n| plan.at(n as u32)).collect();
    match plan.law {
        PassLaw::SquareRoot => record
            .step("Depths by the law", "h = a × √(n / N)")
            .with("a", "depth", groove.depth)
            .with("n", "cut_number", numbers)
            .with("N", parts_field, parts)
            .gives("law_depth", lengths(&law)),
        PassLaw::EqualArea => {
            let area_unit = if unit == Unit::Inch { Unit::SquareInch } else { Unit::SquareMillimetre };
            let area = FoundArea::stated(plan.area(plan.depth), area_unit);
            let Tip::Flat(flat) = groove.tip else { return };
            record
                .step("Section of the groove", "A = f × a + tan(α) × a^2")
                .with("f", "tip_flat", flat)
                .with("a", "depth", groove.depth)
                .with("α", "half_flank_angle", given.half_angle)
                .gives("groove_area", area);
            record
                .step("Depths by the law", "h = (√(f^2 + 4 × tan(α) × A × n / N) - f) / (2 × tan(α))")
                .with("f", "tip_flat", flat)
                .with("α", "half_flank_angle", given.half_angle)
                .with("A", "groove_area", area)
                .with("n", "cut_number", numbers)
                .with("N", parts_field, parts)
                .gives("law_depth", lengths(&law));
        }
    }
    let shifted =
        |list: &[f64]| -> Vec<f64> { std::iter::once(0.0).chain(list.iter().copied()).take(list.len()).collect() };
    match plan.least {
        None => record
            .step("Depths of the passes that cut", "h = l")
            .with("l", "law_depth", lengths(&law))
            .gives("cut_depth", lengths(cuts)),
        Some(least) => {
            record
                .look_up("Law before each", "of the pass before; 0 at first")
                .gives("law_before", lengths(&shifted(&law)));
            record
                .look_up("Depth before each", "of the pass before; 0 at first")
                .gives("cut_before", lengths(&shifted(cuts)));
            let steps: Vec<f64> = law.iter().zip(shifted(&law)).map(|(now, before)| now - before).collect();
            record
                .step("What the law adds", "s = l - k")
                .with("l", "law_depth", lengths(&law))
                .with("k", "law_before", lengths(&shifted(&law)))
                .gives("law_step", lengths(&steps));
            let floor = least.quantity().in_unit(unit);
            let steps_with: Vec<f64> = steps.iter().map(|step| step.max(floor)).collect();
            record
                .step("The same, but not less than the least", "g = (s + m + abs(s - m)) / 2")
                .with("s", "law_step", lengths(&steps))
                .with("m", "least_depth", least)
                .gives("pass_step", lengths(&steps_with));
            record
                .step("Depths of the passes that cut, to the whole depth", "h = (b + g + a - abs(b + g - a)) / 2")
                .with("b", "cut_before", lengths(&shifted(cuts)))
                .with("g", "pass_step", lengths(&steps_with))
                .with("a", "depth", groove.depth)
                .gives("cut_depth", lengths(cuts));
        }
    }
}

/// The steps of the rows.
fn tell(given: &GivenThread, groove: &Groove, feed: &Feed, rows: &[ThreadPass], record: &mut Record) {
    let unit = groove.unit;
    let depths: Vec<FoundExtent> = rows.iter().map(|row| row.depth).collect();
    let mut before: Vec<FoundExtent> = vec![FoundExtent::stated(0.0, unit)];
    before.extend(&depths[..depths.len() - 1]);
    record
        .look_up("Numbers of all passes", "one after the other")
        .gives("passes.number", rows.iter().map(|row| f64::from(row.number)).collect::<Vec<_>>());
    record
        .look_up("Kinds", "those that cut, then those that only clean")
        .gives("passes.kind", rows.iter().map(|row| row.kind).collect::<Vec<_>>());
    record.look_up("Depths", "as cut, and no deeper at the end").gives("passes.depth", depths.clone());
    record.look_up("Depths before", "of the pass before; 0 at first").gives("depth_before", before.clone());
    record
        .step("Added", "d = h - b")
        .with("h", "passes.depth", depths.clone())
        .with("b", "depth_before", before.clone())
        .gives("passes.added", rows.iter().map(|row| row.added).collect::<Vec<_>>());
    if let Tip::Flat(flat) = groove.tip {
        record
            .step("Sections of the chips", "q = f × (h - b) + tan(α) × (h^2 - b^2)")
            .with("f", "tip_flat", flat)
            .with("h", "passes.depth", depths.clone())
            .with("b", "depth_before", before)
            .with("α", "half_flank_angle", given.half_angle)
            .gives("passes.chip_area", rows.iter().filter_map(|row| row.chip_area).collect::<Vec<_>>());
    }
    record
        .step("Diameters at the tip", if groove.sign > 0.0 { "t = B - 2 × h" } else { "t = B + 2 × h" })
        .with("B", "blank_diameter", groove.blank)
        .with("h", "passes.depth", depths.clone())
        .gives("passes.tip_diameter", rows.iter().map(|row| row.tip_diameter).collect::<Vec<_>>());
    let twice = feed.dial == FeedDial::Diameter;
    let (travel, reading) = match (feed.angle.is_some(), twice) {
        (false, false) => ("v = h", "r = h"),
        (false, true) => ("v = h", "r = 2 × h"),
        (true, false) => ("v = h / cos(θ)", "r = h / cos(θ)"),
        (true, true) => ("v = h / cos(θ)", "r = 2 × h / cos(θ)"),
    };
    let step = record.step("Way of the slide", travel).with("h", "depth", groove.depth);
    match feed.angle {
        Some(angle) => step.with("θ", "compound_angle", angle),
        None => step,
    }
    .gives("slide_travel", feed.travel(groove));
    let step = record.step("Readings of the dial", reading).with("h", "passes.depth", depths);
    match feed.angle {
        Some(angle) => step.with("θ", "compound_angle", angle),
        None => step,
    }
    .gives("passes.dial_reading", rows.iter().map(|row| row.dial_reading).collect::<Vec<_>>());
}
