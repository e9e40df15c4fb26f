//! Where a ball-nose cutter cuts, and the cusps that its passes leave: plane geometry of a sphere.

mod drawing;

use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// The calculator.
pub struct BallNose;

/// What the ball nose calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct BallNoseInput {
    /// Diameter of the ball.
    #[label("Ball diameter")]
    pub diameter: Size,
    /// Depth of the cut, square to the surface; at most half the diameter.
    #[label("Depth of cut")]
    pub axial_depth: Size,
    /// How far the cutter leans from square to the surface, from 0 to less than 90 deg.
    #[absent("0", "The cutter is assumed square to the surface; its tip then rubs, because it has no cutting speed.")]
    pub tilt: Option<Angle>,
    /// Distance from one pass to the next; the cusp needs it.
    pub stepover: Option<Size>,
    /// Height of the cusp wanted between passes; the stepover needs it.
    pub cusp_height: Option<Size>,
    /// Cutting speed wanted where the ball cuts; the spindle speed needs it.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Spindle speed that is already set; the cutting speed needs it.
    #[label("Spindle speed already set")]
    pub spindle_speed: Option<SpindleSpeed>,
}

/// What the ball nose calculator gives.
#[derive(Debug, Gives)]
pub struct BallNoseResult {
    /// Largest diameter of the ball that cuts.
    #[label("Diameter that cuts")]
    pub effective_diameter: FoundSize,
    /// Height of the cusp between two passes on a flat.
    #[needs(stepover)]
    pub cusp_height: Option<FoundExtent>,
    /// Stepover that leaves the cusp wanted.
    #[needs(cusp_height)]
    pub stepover: Option<FoundExtent>,
    /// Spindle speed for the cutting speed.
    #[needs(cutting_speed)]
    pub spindle_speed: Option<FoundSpindleSpeed>,
    /// Cutting speed at the spindle speed.
    #[needs(spindle_speed)]
    pub cutting_speed: Option<FoundCuttingSpeed>,
}

fn check(input: &BallNoseInput) -> Result<(), ValidationError> {
    let across = input.diameter.quantity();
    let depth = input.axial_depth.quantity();
    if 2.0 * depth.si() > across.si() * (1.0 + 1e-12) {
        let less = value(across.si() / 2.0, depth.unit, Way::Down);
        let says = "The ball ends at half its diameter. Give a smaller depth of cut.";
        return Err(rule_broken(Code::Conflict, says, &[("axial_depth", &less)]));
    }
    if input.tilt.is_some_and(|tilt| !(0.0..90.0).contains(&tilt.degrees())) {
        let says = "A cutter tilts from 0 to less than 90 degrees.";
        return Err(rule_broken(Code::ValueOutOfRange, says, &[("tilt", "15 deg")]));
    }
    for (given, field, limit) in
        [(input.stepover, "stepover", across.si()), (input.cusp_height, "cusp_height", across.si() / 2.0)]
    {
        if let Some(given) = given
            && given.quantity().si() > limit * (1.0 + 1e-12)
        {
            let less = value(limit / 10.0, given.quantity().unit, Way::Down);
            let says =
                "The passes would not meet: the stepover is at most the diameter, and the cusp at most half of it.";
            return Err(rule_broken(Code::Conflict, says, &[(field, &less)]));
        }
    }
    check_pairs(input)
}

rules! { check_pairs(BallNoseInput) {
    not_both(stepover, cusp_height): "Give the stepover or the cusp height, not both; one follows from the other.";
    not_both(cutting_speed, spindle_speed):
        "Give the cutting speed or the spindle speed, not both; one follows from the other.";
} }

/// The diameter that cuts: at the depth, moved up the ball by the tilt.
fn effective(input: &BallNoseInput, tilt: Angle, record: &mut Record) -> FoundSize {
    let BallNoseInput { diameter, axial_depth, .. } = *input;
    // The half-angle keeps its figures in a shallow cut, where a cosine near 1 does not.
    let angle = 2.0 * (axial_depth.si() / diameter.si()).min(0.5).sqrt().asin() + tilt.degrees().to_radians();
    const WHAT: &str = "Diameter that cuts";
    let (found, step) = if angle >= PI / 2.0 {
        let rule = "the ball's own, because the cut reaches its widest part";
        (diameter.found(), record.choose(WHAT, rule).with("D", "diameter", diameter))
    } else {
        let step = record.step(WHAT, "De = D × sin(β + 2 × asin(√(ap / D)))").with("D", "diameter", diameter);
        let step = step.with("β", "tilt", tilt).with("ap", "axial_depth", axial_depth);
        (FoundSize::of(diameter.get() * angle.sin()), step)
    };
    step.gives("effective_diameter", found);
    found
}

/// The cusp of a stepover.
fn cusp(input: &BallNoseInput, step: Size, record: &mut Record) -> FoundExtent {
    step!(record, "Height of the cusp",
        h: cusp_height = squared(s) / (2.0 * D + 2.0 * root(not_negative(squared(D) - squared(s)))),
        s = stepover: step, D = diameter: input.diameter)
}

/// The spindle speed for the cutting speed where the ball cuts.
fn turns(
    input: &BallNoseInput,
    wanted: CuttingSpeed,
    effective_diameter: FoundSize,
    record: &mut Record,
) -> Result<FoundSpindleSpeed, Refusal> {
    let turns: FoundSpindleSpeed = step!(record, "Spindle speed", n: spindle_speed = V / (π * De),
        V = cutting_speed: wanted, De = effective_diameter);
    let most = <kind::SpindleSpeed as Kind>::ROW.most;
    if turns.si() > most {
        let says = "No spindle turns fast enough for this cutting speed at the diameter that cuts.";
        let slower = value(most * PI * effective_diameter.si(), wanted.quantity().unit, Way::Down);
        let less_deep = value(input.diameter.si() / 4.0, input.axial_depth.quantity().unit, Way::Down);
        return Err(Refusal::no_answer(says, &[("cutting_speed", slower), ("axial_depth", less_deep)]));
    }
    Ok(turns)
}

impl Calculator for BallNose {
    const ID: &'static str = "speeds/ball-nose";
    const TITLE: &'static str = "Ball nose: diameter that cuts, and cusps";
    const ABOUT: &'static str = "The diameter at which a ball-nose cutter cuts, upright or leaning, the speed there, and the \
        cusp between passes or the stepover for it.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str = "Lay a straightedge across the passes and look at the light between the cusps.";
    const WORDS: &'static str = "ball end mill, effective diameter, scallop, cusp, stepover, 3d, surface, tilt";
    const EXAMPLES: &'static [Example] = examples! {
        "A 10 mm ball nose finishes a pump casing 0.5 mm deep, passes 0.4 mm apart, at 60 m/min where it cuts.":
            diameter = "10 mm", axial_depth = "0.5 mm", stepover = "0.4 mm", cutting_speed = "60 m/min";
        "A 1/2 in ball nose leaning 15° leaves cusps of 0.0005 in on a winch fairing at 1250 rpm.":
            diameter = "1/2 in", axial_depth = "0.02 in", tilt = "15 deg", cusp_height = "0.0005 in",
            spindle_speed = "1250 rpm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "An upright {diameter} ball nose cuts {axial_depth} deep. At what diameter does it really cut?"
            => "effective_diameter":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in", axial_depth = "0.01 in" | "0.02 in" | "0.03 in", units = "inch" }
            { diameter = "6 mm" | "10 mm" | "12 mm", axial_depth = "0.3 mm" | "0.5 mm" | "1 mm", units = "metric" };
        2 "A {diameter} ball nose makes passes {stepover} apart on a flat. How high are the cusps between them?"
            => "cusp_height":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in", stepover = "0.05 in" | "0.08 in" | "0.1 in", axial_depth = "0.02 in",
              units = "inch" }
            { diameter = "6 mm" | "10 mm" | "12 mm", stepover = "1 mm" | "1.5 mm" | "2 mm", axial_depth = "0.5 mm",
              units = "metric" };
        2 "An upright {diameter} ball nose is {axial_depth} deep. How fast must it turn for {cutting_speed} where it cuts?"
            => "spindle_speed":
            { diameter = "3/8 in" | "1/2 in", axial_depth = "0.02 in" | "0.03 in" | "0.05 in",
              cutting_speed = "70 ft/min" | "100 ft/min" }
            { diameter = "10 mm" | "12 mm", axial_depth = "0.5 mm" | "0.8 mm" | "1 mm", cutting_speed = "25 m/min" | "30 m/min" };
        3 "The cusps on a pump casing may be {cusp_height} high. How far apart may you make the passes of a {diameter} ball \
            nose?" => "stepover":
            { cusp_height = "0.0005 in" | "0.001 in" | "0.002 in", diameter = "1/4 in" | "3/8 in" | "1/2 in",
              axial_depth = "0.02 in", units = "inch" }
            { cusp_height = "0.01 mm" | "0.02 mm" | "0.05 mm", diameter = "6 mm" | "10 mm" | "12 mm", axial_depth = "0.5 mm",
              units = "metric" };
        3 "A {diameter} ball nose leans {tilt} and cuts {axial_depth} deep. At what diameter does it really cut?"
            => "effective_diameter":
            { diameter = "3/8 in" | "1/2 in", tilt = "10 deg" | "15 deg" | "20 deg", axial_depth = "0.01 in" | "0.02 in",
              units = "inch" }
            { diameter = "10 mm" | "12 mm", tilt = "10 deg" | "15 deg" | "20 deg", axial_depth = "0.3 mm" | "0.5 mm",
              units = "metric" };
    };
    type Input = BallNoseInput;
    type Output = BallNoseResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "circles of a sphere cut by a plane");
        record.cautions(&[cautions::MILLING, cautions::SPEED_LIMIT]);
        let tilt = input.tilt(record);
        let effective_diameter = effective(input, tilt, record);
        let cusp_height = input.stepover.map(|step| cusp(input, step, record));
        let stepover = input.cusp_height.map(|cusp| {
            step!(record, "Stepover for that cusp", s: stepover = 2.0 * root(h * (D - h)),
                h = cusp_height: cusp, D = diameter: input.diameter)
        });
        let spindle_speed = match input.cutting_speed {
            Some(wanted) => Some(turns(input, wanted, effective_diameter, record)?),
            None => None,
        };
        let cutting_speed = input.spindle_speed.map(|turns| {
            step!(record, "Cutting speed where the ball cuts", V: cutting_speed = π * De * n,
                De = effective_diameter, n = spindle_speed: turns)
        });
        if input.cutting_speed.is_some() || input.spindle_speed.is_some() {
            record.source("kinematics", "the rim of the diameter that cuts");
        }
        Ok(BallNoseResult { effective_diameter, cusp_height, stepover, spindle_speed, cutting_speed })
    }
}
