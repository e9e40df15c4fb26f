//! Where a ball-nose cutter cuts, and the cusps that its passes leave: plane geometry of a sphere.

mod drawing;

use crate::calculators::{Calculator, Draw, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::quantity::{
    Angle, CuttingSpeed, FoundCuttingSpeed, FoundExtent, FoundSize, FoundSpindleSpeed, Kind, SiValue, Size,
    SpindleSpeed, Unit, kind,
};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::suggestion::{Way, value};
use crate::working::Record;
use std::f64::consts::PI;
use validator::ValidationError;

/// The calculator.
pub struct BallNose;

/// What the ball nose calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct BallNoseInput {
    /// Diameter of the ball.
    pub diameter: Size,
    /// Depth of the cut, square to the surface; no more than half the diameter.
    pub axial_depth: Size,
    /// How far the cutter leans from square to the surface, from 0 below 90 deg; 0 if absent.
    pub tilt: Option<Angle>,
    /// Distance from one pass to the next; the cusp needs it.
    pub stepover: Option<Size>,
    /// Height of the cusp wanted between passes; the stepover needs it.
    pub cusp_height: Option<Size>,
    /// Cutting speed wanted where the ball cuts; the spindle speed needs it.
    pub cutting_speed: Option<CuttingSpeed>,
    /// Spindle speed as set; the cutting speed needs it.
    pub spindle_speed: Option<SpindleSpeed>,
}

/// What the ball nose calculator gives.
#[derive(Debug, Gives)]
pub struct BallNoseResult {
    /// Greatest diameter of the ball that cuts.
    pub effective_diameter: FoundSize,
    /// Height of the cusp between two passes on a flat.
    pub cusp_height: Option<FoundExtent>,
    /// Stepover that leaves the cusp wanted.
    pub stepover: Option<FoundExtent>,
    /// Spindle speed for the cutting speed.
    pub spindle_speed: Option<FoundSpindleSpeed>,
    /// Cutting speed at the spindle speed.
    pub cutting_speed: Option<FoundCuttingSpeed>,
}

fn check(input: &BallNoseInput) -> Result<(), ValidationError> {
    let across = input.diameter.quantity();
    let depth = input.axial_depth.quantity();
    if 2.0 * depth.si() > across.si() * (1.0 + 1e-12) {
        let less = value(across.si() / 2.0, depth.unit, Way::Down);
        let says = "The ball ends at half its diameter: a deeper cut is one of the shank.";
        return Err(rule_broken(Code::Conflict, says, &[("axial_depth", &less)]));
    }
    if let Some(tilt) = input.tilt
        && !(0.0..90.0).contains(&tilt.degrees())
    {
        return Err(rule_broken(
            Code::ValueOutOfRange,
            "A cutter leans from 0 to less than 90 degrees.",
            &[("tilt", "15 deg")],
        ));
    }
    for (given, field, limit) in
        [(input.stepover, "stepover", across.si()), (input.cusp_height, "cusp_height", across.si() / 2.0)]
    {
        if let Some(given) = given
            && given.quantity().si() > limit * (1.0 + 1e-12)
        {
            let less = value(limit / 10.0, given.quantity().unit, Way::Down);
            let says = "The passes would not meet: a stepover is at most the diameter, a cusp at most half of it.";
            return Err(rule_broken(Code::Conflict, says, &[(field, &less)]));
        }
    }
    let both = |a: bool, b: bool, names: [&'static str; 2], says: &'static str| {
        (a && b).then(|| rule_broken(Code::Conflict, says, &names.map(|name| (name, "leave out"))))
    };
    let cusp = "A stepover gives its cusp, or a cusp its stepover: give one of them.";
    let speed = "A cutting speed gives its spindle speed, or the other way: give one of them.";
    both(input.stepover.is_some(), input.cusp_height.is_some(), ["stepover", "cusp_height"], cusp)
        .or_else(|| {
            both(
                input.cutting_speed.is_some(),
                input.spindle_speed.is_some(),
                ["cutting_speed", "spindle_speed"],
                speed,
            )
        })
        .map_or(Ok(()), Err)
}

/// The diameter that cuts: at the depth, moved up the ball by the tilt.
fn effective(input: &BallNoseInput, tilt: Angle, record: &mut Record) -> FoundSize {
    let across = input.diameter.get().si();
    let share = (1.0 - 2.0 * input.axial_depth.get().si() / across).clamp(0.0, 1.0);
    // The half-angle keeps its figures in a shallow cut, where 1 - 2x does not.
    let contact = 2.0 * ((1.0 - share) / 2.0).sqrt().asin();
    let angle = contact + tilt.degrees().to_radians();
    if angle >= PI / 2.0 {
        let found = input.diameter.found();
        record
            .choose("Diameter that cuts", "the ball's own, as the cut reaches its widest part")
            .with("D", "diameter", input.diameter)
            .gives("effective_diameter", found);
        return found;
    }
    let found = FoundSize::of(SiValue::from_si(across * angle.sin()));
    record
        .step("Diameter that cuts", "De = D × sin(β + 2 × asin(√(ap / D)))")
        .with("D", "diameter", input.diameter)
        .with("β", "tilt", tilt)
        .with("ap", "axial_depth", input.axial_depth)
        .gives("effective_diameter", found);
    found
}

/// The cusp of a stepover, or the stepover of a cusp.
fn cusps(input: &BallNoseInput, record: &mut Record) -> (Option<FoundExtent>, Option<FoundExtent>) {
    let radius = input.diameter.get().si() / 2.0;
    if let Some(step) = input.stepover {
        let half = step.get().si() / 2.0;
        let height = half * half / (radius + (radius * radius - half * half).max(0.0).sqrt());
        let height = FoundExtent::of(SiValue::from_si(height));
        record
            .step("Height of the cusp", "h = s ^ 2 / (2 × D + 2 × √(D ^ 2 - s ^ 2))")
            .with("s", "stepover", step)
            .with("D", "diameter", input.diameter)
            .gives("cusp_height", height);
        return (Some(height), None);
    }
    let Some(cusp) = input.cusp_height else { return (None, None) };
    let height = cusp.get().si();
    let step = FoundExtent::of(SiValue::from_si(2.0 * (height * (2.0 * radius - height)).max(0.0).sqrt()));
    record
        .step("Stepover for that cusp", "s = 2 × √(h × (D - h))")
        .with("h", "cusp_height", cusp)
        .with("D", "diameter", input.diameter)
        .gives("stepover", step);
    (None, Some(step))
}

impl Calculator for BallNose {
    const ID: &'static str = "speeds/ball-nose";
    const TITLE: &'static str = "Ball nose: diameter that cuts, and cusps";
    const ABOUT: &'static str = "The diameter at which a ball-nose cutter cuts, upright or leaning, the speed there, and the \
        cusp between passes or the stepover for it.";
    const TASK: Task = Task::Cut;
    const ANOTHER_CHECK: &'static str = "Lay a straightedge across the passes and look at the light between the cusps.";
    const WORDS: &'static [&'static str] =
        &["ball end mill", "effective diameter", "scallop", "cusp", "stepover", "3d", "surface", "tilt"];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A 10 mm ball nose finishes a pump casing 0.5 mm deep, passes 0.4 mm apart, at 60 m/min where it cuts.",
            fields: &[
                ("diameter", "10 mm"),
                ("axial_depth", "0.5 mm"),
                ("stepover", "0.4 mm"),
                ("cutting_speed", "60 m/min"),
            ],
        },
        Example {
            says: "A 1/2 in ball nose leaning 15° leaves cusps of 0.0005 in on a winch fairing at 1250 rpm.",
            fields: &[
                ("diameter", "1/2 in"),
                ("axial_depth", "0.02 in"),
                ("tilt", "15 deg"),
                ("cusp_height", "0.0005 in"),
                ("spindle_speed", "1250 rpm"),
            ],
        },
    ];
    type Input = BallNoseInput;
    type Output = BallNoseResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "circles of a sphere cut by a plane");
        for caution in [cautions::STARTING_POINT, cautions::MILLING, cautions::SPEED_LIMIT] {
            record.caution(caution);
        }
        let tilt = record.or_assume(
            input.tilt,
            "tilt",
            Angle::stated(0.0, Unit::Degree),
            "The cutter is taken to stand square to the surface; then its tip rubs at no speed at all.",
        );
        let effective_diameter = effective(input, tilt, record);
        let (cusp_height, stepover) = cusps(input, record);
        let mut spindle_speed = None;
        let mut cutting_speed = None;
        if let Some(wanted) = input.cutting_speed {
            let turns = FoundSpindleSpeed::of(wanted.get() / (PI * effective_diameter.get()));
            if turns.get().si() > <kind::SpindleSpeed as Kind>::ROW.most {
                let says = "No spindle turns as fast as this cutting speed needs at the diameter that cuts.";
                let slower = <kind::SpindleSpeed as Kind>::ROW.most * PI * effective_diameter.get().si();
                let ways = [
                    ("cutting_speed", value(slower, wanted.quantity().unit, Way::Down)),
                    (
                        "axial_depth",
                        value(input.diameter.get().si() / 4.0, input.axial_depth.quantity().unit, Way::Down),
                    ),
                ];
                return Err(Refusal::no_answer(says, &ways));
            }
            record
                .step("Spindle speed", "n = V / (π × De)")
                .with("V", "cutting_speed", wanted)
                .with("De", "effective_diameter", effective_diameter)
                .gives("spindle_speed", turns);
            record.source("kinematics", "the rim of the diameter that cuts");
            spindle_speed = Some(turns);
        } else if let Some(turns) = input.spindle_speed {
            let speed = FoundCuttingSpeed::of(PI * effective_diameter.get() * turns.get());
            record
                .step("Cutting speed where the ball cuts", "V = π × De × n")
                .with("De", "effective_diameter", effective_diameter)
                .with("n", "spindle_speed", turns)
                .gives("cutting_speed", speed);
            record.source("kinematics", "the rim of the diameter that cuts");
            cutting_speed = Some(speed);
        }
        Ok(BallNoseResult { effective_diameter, cusp_height, stepover, spindle_speed, cutting_speed })
    }
}
