//! Limits of go and no-go gauges for a hole or a shaft by the ten percent rule, the class to order, and when a worn go
//! gauge is done (gauge makers' notes and chart after ASME B89.1.5).

mod drawing;

use crate::arithmetic::measured::{HoleOrShaft, MeasuredWithin};
use crate::arithmetic::verdict::{Verdict, tell_verdict};
use crate::calculators::prelude::*;
use crate::reference::gauge_classes::classes;

/// The calculator.
pub struct GaugeMakers;

/// What the gauge limits ask for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct GaugeMakersInput {
    /// A hole, checked by plugs, or a shaft, by rings or snap gauges.
    #[label("Hole or shaft")]
    pub feature: HoleOrShaft,
    /// Least size of the part.
    #[label("Part, least size")]
    pub least: Size,
    /// Greatest size of the part.
    #[label("Part, greatest size")]
    pub greatest: Size,
    /// Share of the part's tolerance for both gauges, half each.
    #[label("Share for both gauges")]
    #[absent("10 percent", "The ten percent rule: a tenth of the part's tolerance, half for each gauge.")]
    pub gauge_share: Option<Percentage>,
    /// Share of it set aside for wear of the go gauge.
    #[label("Share for wear")]
    #[absent("0 percent", "Nothing is set aside for wear; the go gauge then wears only within its own tolerance.")]
    pub wear_share: Option<Percentage>,
    /// Size of a go gauge in use, for the wear it has left.
    #[label("Go gauge measured")]
    pub go_measured: Option<Size>,
    /// How far off that measurement may be.
    #[group]
    pub within: MeasuredWithin,
}

/// What the gauge limits give.
#[derive(Debug, Gives)]
pub struct GaugeMakersResult {
    /// New go gauge, least.
    #[label("Go, least")]
    pub go_least: FoundGaugeSize,
    /// New go gauge, greatest.
    #[label("Go, greatest")]
    pub go_greatest: FoundGaugeSize,
    /// No-go gauge, least.
    #[label("No-go, least")]
    pub no_go_least: FoundGaugeSize,
    /// No-go gauge, greatest.
    #[label("No-go, greatest")]
    pub no_go_greatest: FoundGaugeSize,
    /// Tolerance of each gauge.
    pub gauge_tolerance: FoundGaugeSize,
    /// The coarsest class whose tolerance is no greater.
    #[label("Class to order")]
    pub class: Option<&'static str>,
    /// Tolerance of that class.
    pub class_tolerance: Option<FoundGaugeSize>,
    /// Where the go gauge is worn out: the part's limit.
    #[label("Go gauge worn out at")]
    pub wear_limit: FoundGaugeSize,
    /// The part's tolerance.
    #[label("Part's tolerance")]
    pub tolerance: FoundExtent,
    /// Wear left on the go gauge; negative if worn out.
    #[label("Wear left")]
    #[needs(go_measured)]
    pub wear_left: Option<FoundDifference>,
    /// Whether the go gauge is still good.
    #[label("Go gauge still good")]
    #[needs(go_measured)]
    pub verdict: Option<Verdict>,
}

rules! { check(GaugeMakersInput) {
    smaller(least < greatest, least = "0.499 in", greatest = "0.501 in"):
        "The least size of the part must be smaller than the greatest.";
    never(|input| input.gauge_share.is_some_and(|share| share.si() <= 0.0 || share.si() > 0.5),
        Code::ValueOutOfRange, gauge_share = "10 percent"):
        "Give the gauges more than 0 and up to 50 percent of the part's tolerance.";
    never(|input| input.wear_share.is_some_and(|share| share.si() > 0.25), Code::ValueOutOfRange,
        wear_share = "5 percent"): "Give wear up to 25 percent of the part's tolerance.";
    never(|input| input.within.uncertainty.is_some() && input.go_measured.is_none(), Code::Conflict,
        go_measured = "0.49905 in", uncertainty = "leave out"): "How far off the measurement may be needs the gauge's size.";
} }

impl Calculator for GaugeMakers {
    const ID: &'static str = "measure/gauge-makers";
    const TITLE: &'static str = "Go and no-go gauge limits";
    const ABOUT: &'static str = "The limits of a go and a no-go plug, ring or snap gauge for a hole or a shaft, by the \
        ten percent rule, which class to order, and when a go gauge is worn out.";
    const TASK: Task = Task::Check;
    const AT_THE_MACHINE: bool = false;
    const ANOTHER_CHECK: &'static str = "Measure the part itself where a gauge says no by a hair: gauges of this rule \
        refuse some parts that are good.";
    const WORDS: &'static str = "plug gage, ring gage, snap gage, go no-go, gagemaker tolerance, class X, class ZZ, ten \
        percent rule, wear allowance, limit gauge, gage";
    const EXAMPLES: &'static [Example] = examples! {
        "A plug gauge for the bore of a winch bracket, 0.500 in, a thousandth either way.":
            feature = "hole", least = "0.4990 in", greatest = "0.5010 in";
        "A ring gauge for a pump shaft of 25 mm, with an allowance for wear; the go ring in the drawer is worn.":
            feature = "shaft", least = "24.959 mm", greatest = "24.98 mm", gauge_share = "10 percent",
            wear_share = "5 percent", go_measured = "24.9795 mm", uncertainty = "0.0005 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {feature} may be {least} to {greatest}. By the ten percent rule, what tolerance does each gauge get?"
            => "gauge_tolerance":
            { feature = "hole", least = "0.4990 in", greatest = "0.5010 in" | "0.5000 in" | "0.5030 in", units = "inch" }
            { feature = "shaft", least = "24.9 mm", greatest = "25 mm" | "24.96 mm", units = "metric" };
        2 "A {feature} may be {least} to {greatest}. By the ten percent rule, what is the greatest size of a new go plug?"
            => "go_greatest":
            { feature = "hole", least = "0.2500 in" | "0.7500 in", greatest = "0.7540 in" | "0.7520 in", units = "inch" }
            { feature = "hole", least = "10 mm" | "12 mm", greatest = "12.1 mm" | "12.2 mm", units = "metric" };
        2 "A {feature} may be {least} to {greatest}. By the ten percent rule, what is the greatest size of the no-go ring?"
            => "no_go_greatest":
            { feature = "shaft", least = "0.4980 in" | "0.4960 in", greatest = "0.5000 in", units = "inch" }
            { feature = "shaft", least = "24.9 mm" | "24.95 mm", greatest = "25 mm", units = "metric" };
        3 "A {feature} may be {least} to {greatest}, and {wear_share} is set aside for wear. What is the least size of a \
            new go ring?" => "go_least":
            { feature = "shaft", least = "0.4980 in" | "0.4960 in", greatest = "0.5000 in", wear_share = "5 percent",
              units = "inch" }
            { feature = "shaft", least = "24.9 mm" | "24.8 mm", greatest = "25 mm", wear_share = "5 percent",
              units = "metric" };
    };
    type Input = GaugeMakersInput;
    type Output = GaugeMakersResult;
    const LEADS: &'static [&'static str] = &["go_least", "go_greatest", "no_go_least", "no_go_greatest"];
    const CONTEXT: &'static [&'static str] =
        &["go {go_least} to {go_greatest}", "no-go {no_go_least} to {no_go_greatest}", "class {class}", "{verdict}"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("ten_percent_rule", "which way each tolerance lies, and how much each gauge gets");
        let (least, greatest) = (input.least, input.greatest);
        let gauge_share = input.gauge_share(record);
        let wear_share = input.wear_share(record);
        let tolerance: FoundExtent =
            step!(record, "Tolerance of the part", T: tolerance = g - l, g = greatest, l = least);
        let gauge_tolerance: FoundGaugeSize = step!(record, "Tolerance of each gauge",
            H: gauge_tolerance = p * T / 2.0, p = gauge_share, T = tolerance);
        let wear: FoundExtent = step!(record, "Allowance for wear", W: wear = w * T, w = wear_share, T = tolerance);
        let go_least: FoundGaugeSize;
        let go_greatest: FoundGaugeSize;
        let no_go_least: FoundGaugeSize;
        let no_go_greatest: FoundGaugeSize;
        let wear_limit: FoundGaugeSize;
        match input.feature {
            HoleOrShaft::Hole => {
                go_least = step!(record, "Go plug, least", a: go_least = l + W, l = least, W = wear);
                go_greatest = step!(record, "Go plug, greatest: its tolerance lies upward",
                    b: go_greatest = l + W + H, l = least, W = wear, H = gauge_tolerance);
                no_go_least = step!(record, "No-go plug, least: its tolerance lies downward",
                    c: no_go_least = g - H, g = greatest, H = gauge_tolerance);
                no_go_greatest = step!(record, "No-go plug, greatest", d: no_go_greatest = g, g = greatest);
                wear_limit = step!(record, "Go plug worn out", k: wear_limit = l, l = least);
            }
            HoleOrShaft::Shaft => {
                go_least = step!(record, "Go ring, least: its tolerance lies downward",
                    a: go_least = g - W - H, g = greatest, W = wear, H = gauge_tolerance);
                go_greatest = step!(record, "Go ring, greatest", b: go_greatest = g - W, g = greatest, W = wear);
                no_go_least = step!(record, "No-go ring, least", c: no_go_least = l, l = least);
                no_go_greatest = step!(record, "No-go ring, greatest: its tolerance lies upward",
                    d: no_go_greatest = l + H, l = least, H = gauge_tolerance);
                wear_limit = step!(record, "Go ring worn out", k: wear_limit = g, g = greatest);
            }
        }
        let class = tell_class(greatest, gauge_tolerance, record);
        let judged = input.go_measured.map(|measured| judge(input, (measured, wear_limit), record));
        tell_notes(input.feature, record);
        Ok(GaugeMakersResult {
            go_least,
            go_greatest,
            no_go_least,
            no_go_greatest,
            gauge_tolerance,
            class: class.map(|(class, _)| class),
            class_tolerance: class.map(|(_, tolerance)| tolerance),
            wear_limit,
            tolerance,
            wear_left: judged.map(|(left, _)| left),
            verdict: judged.map(|(_, verdict)| verdict),
        })
    }
}

/// The coarsest class whose tolerance is no greater than what the rule leaves, with its tolerance.
fn tell_class(
    greatest: Size,
    gauge_tolerance: FoundGaugeSize,
    record: &mut Record,
) -> Option<(&'static str, FoundGaugeSize)> {
    let all = classes(greatest.si());
    if all.is_empty() {
        record.note(
            "no_chart",
            "The chart of classes runs from 0.010 to 12.010 in, 0.25 to 305 mm; order by the limits.",
        );
        return None;
    }
    let most = gauge_tolerance.si() / 0.0254 * (1.0 + 1e-9);
    let Some(row) = all.iter().rev().find(|row| row.tolerance_in <= most) else {
        record.note(
            "no_class",
            "No class of gauges is close enough for this tolerance. Measure the part instead, with an instrument good to a \
             tenth of its tolerance.",
        );
        return None;
    };
    record.source_of_row(row.source(), format!("class {}", row.class), &row.trust);
    let class: &'static str = &row.class;
    let class_tolerance = FoundGaugeSize::stated(row.tolerance_in, Unit::Inch);
    let table = "tolerances of plain gauges by class and diameter, the coarsest that is no more than H";
    tell!(record.look_up("Class to order", table), D = greatest, H = gauge_tolerance => class);
    tell!(record.look_up("Its tolerance", "the same row") => class_tolerance);
    Some((class, class_tolerance))
}

/// What wear a go gauge has left, and whether it is good.
fn judge(
    input: &GaugeMakersInput,
    (measured, wear_limit): (Size, FoundGaugeSize),
    record: &mut Record,
) -> (FoundDifference, Verdict) {
    let wear_left: FoundDifference = match input.feature {
        HoleOrShaft::Hole => step!(record, "Wear left on the go plug, which wears smaller",
            v: wear_left = m - k, m = go_measured: measured, k = wear_limit),
        HoleOrShaft::Shaft => step!(record, "Wear left on the go ring, which wears larger",
            v: wear_left = k - m, m = go_measured: measured, k = wear_limit),
    };
    let uncertainty = input.within.off_by(record);
    (wear_left, tell_verdict(record, ["wear_left", "verdict"], wear_left, ("uncertainty", uncertainty)))
}

fn tell_notes(feature: HoleOrShaft, record: &mut Record) {
    match feature {
        HoleOrShaft::Hole => notes!(record => which_way: "The go plug is made to the least hole and upward, the no-go \
            plug to the greatest hole and downward: no bad hole passes, and some that are good by a hair do not."),
        HoleOrShaft::Shaft => {
            notes!(record => which_way: "The go ring is made to the greatest shaft and downward, the \
            no-go ring to the least shaft and upward: no bad shaft passes, and some that are good by a hair do not.")
        }
    }
    notes!(record =>
        other_rules: "Some shops give each gauge a whole tenth, which is 20 percent for both. ISO 1938-1 has tables of its \
            own, and lets some gauges lie outside the part's limits; they are not used here. Follow the one your \
            contract names.";
        at_20: "The sizes hold at 20 °C. Let part and gauge lie together until both are as warm, wipe them, and do not \
            force the go gauge.");
}
