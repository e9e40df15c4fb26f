//! How long a drill's point is and how deep its tip goes: plane geometry of the cone, checked
//! against handbook and textbook examples.

mod drawing;

use crate::calculators::{Calculator, Draw, Example, Task};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::quantity::{Extent, FoundDepthSetting, FoundExtent, Place, PointAngle, SiValue, Unit, angle};
use crate::reference::drill_diameter::DrillDiameter;
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::Record;
use validator::ValidationError;

/// The calculator.
pub struct DrillPoint;

/// The angle of a point that is not stated.
const DEFAULT_ANGLE: PointAngle = PointAngle::stated(118.0, Unit::Degree);

crate::choice! {
    /// Where the quill was zeroed on the face: with the drill's `tip` touching, or with its `lips` just cutting full diameter there.
    ZeroedAt {
        /// The tip touches the face.
        Tip = "tip",
        /// The outer corners of the lips are level with the face.
        Lips = "lips",
    }
}

/// What the drill point calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct DrillPointInput {
    /// Diameter of the drill, as a length or by its name.
    pub diameter: DrillDiameter,
    /// Included angle of the point; 118 deg if absent.
    pub point_angle: Option<PointAngle>,
    /// Depth wanted at full diameter, below the face.
    pub full_depth: Option<Extent>,
    /// Thickness to be drilled through.
    pub thickness: Option<Extent>,
    /// How far the lips are to come out below the far face; 0 if absent. Needs thickness.
    pub breakthrough: Option<Extent>,
    /// Where the quill was zeroed: tip or lips; tip if absent.
    pub zeroed_at: Option<ZeroedAt>,
    /// How far the face to be drilled stands above the face where zero was set; 0 if absent.
    pub face_height: Option<Place>,
    /// Width of the flat or chisel edge at the tip, as seen from the side; 0 if absent.
    pub tip_flat: Option<Extent>,
}

/// What the drill point calculator gives.
#[derive(Debug, Gives)]
pub struct DrillPointResult {
    /// Length of the point, from tip to full diameter.
    pub point_length: FoundExtent,
    /// Depth of the tip below the face drilled; needs full_depth or thickness.
    pub tip_depth: Option<FoundDepthSetting>,
    /// How far the quill goes from zero; needs full_depth or thickness.
    pub travel: Option<FoundDepthSetting>,
}

fn check(input: &DrillPointInput) -> Result<(), ValidationError> {
    if input.full_depth.is_some() && input.thickness.is_some() {
        return Err(rule_broken(
            Code::Conflict,
            "A hole is either blind (full_depth) or through (thickness), not both.",
            &[("full_depth", "leave out"), ("thickness", "leave out")],
        ));
    }
    if input.breakthrough.is_some() && input.thickness.is_none() {
        return Err(rule_broken(
            Code::Conflict,
            "breakthrough says how far the lips come out below, so it needs thickness.",
            &[("thickness", "0.5 in")],
        ));
    }
    if let Some(flat) = input.tip_flat
        && flat.get() >= input.diameter.size.get()
    {
        return Err(rule_broken(
            Code::Conflict,
            "The flat at the tip must be smaller than the drill.",
            &[("tip_flat", "0 in")],
        ));
    }
    if input.full_depth.is_none() && input.thickness.is_none() {
        let given = [input.zeroed_at.map(|_| "zeroed_at"), input.face_height.map(|_| "face_height")];
        if let Some(given) = given.into_iter().flatten().next() {
            return Err(rule_broken(
                Code::Conflict,
                "This matters only for a depth: give full_depth or thickness too.",
                &[(given, "leave out"), ("full_depth", "0.75 in")],
            ));
        }
    }
    Ok(())
}

impl Calculator for DrillPoint {
    const ID: &'static str = "holes/drill-point";
    const TITLE: &'static str = "Drill point and depth";
    const ABOUT: &'static str = "How long a drill's point is, how deep the tip goes for a wanted depth at full \
        diameter or to come through, and how far the quill travels from zero.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Stand a flat-ended rod of nearly the drill's size in the hole: it measures the depth at full diameter.";
    const WORDS: &'static [&'static str] =
        &["drill tip", "point length", "depth", "blind hole", "breakthrough", "cone", "118", "135", "quill"];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "A 1/2 in drill with a 118° point makes a blind hole 3/4 in deep at full diameter in a winch bracket.",
            fields: &[("diameter", "1/2 in"), ("point_angle", "118 deg"), ("full_depth", "3/4 in")],
        },
        Example {
            says: "An 8.5 mm drill, 135°, goes through a 12 mm pump flange and 1 mm out below, zeroed at the lips.",
            fields: &[
                ("diameter", "8.5 mm"),
                ("point_angle", "135 deg"),
                ("thickness", "12 mm"),
                ("breakthrough", "1 mm"),
                ("zeroed_at", "lips"),
                ("face_height", "0 mm"),
                ("tip_flat", "0.5 mm"),
            ],
        },
    ];
    type Input = DrillPointInput;
    type Output = DrillPointResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "right triangle of the cone: half the diameter over the tangent of half the angle");
        let size = input.diameter.size;
        let point_angle = record.or_assume(
            input.point_angle,
            "point_angle",
            DEFAULT_ANGLE,
            "118° is the general-purpose point; look at the drill.",
        );
        let half = angle::tan(point_angle.degrees() / 2.0);
        let step = record.step("Length of the point", "h = (D - w) / (2 × tan(σ / 2))").with("D", "diameter", size);
        let flat = input.tip_flat.unwrap_or(Extent::stated(0.0, size.quantity().unit));
        // At 180° the point is flat: the tangent is infinite and the length zero.
        let length = if point_angle.degrees() >= 180.0 {
            SiValue::from_si(0.0)
        } else {
            (size.get() - flat.get()) / (2.0 * half)
        };
        let point_length = FoundExtent::of(length);
        step.with("w", "tip_flat", flat).with("σ", "point_angle", point_angle).gives("point_length", point_length);
        if input.tip_flat.is_none() {
            record.assume("tip_flat", &flat, "The point is taken as sharp; a chisel edge makes it a little shorter.");
        }
        if input.full_depth.is_none() && input.thickness.is_none() {
            return Ok(DrillPointResult { point_length, tip_depth: None, travel: None });
        }
        record.caution(cautions::DRILLING);
        record.caution(cautions::TURNING_SPINDLE);
        let tip = match (input.full_depth, input.thickness) {
            (Some(depth), _) => {
                let tip = depth.get() + length;
                record
                    .step("Depth of the tip", "t = L + h")
                    .with("L", "full_depth", depth)
                    .with("h", "point_length", point_length)
                    .gives("tip_depth", FoundDepthSetting::of(tip));
                tip
            }
            (None, thickness) => {
                let thickness = thickness.unwrap_or(Extent::stated(0.0, Unit::Inch));
                let out = record.or_assume(
                    input.breakthrough,
                    "breakthrough",
                    Extent::stated(0.0, thickness.quantity().unit),
                    "The lips are taken to stop level with the far face; give some breakthrough for a clean exit.",
                );
                let tip = thickness.get() + length + out.get();
                record
                    .step("Depth of the tip", "t = s + h + b")
                    .with("s", "thickness", thickness)
                    .with("h", "point_length", point_length)
                    .with("b", "breakthrough", out)
                    .gives("tip_depth", FoundDepthSetting::of(tip));
                tip
            }
        };
        let zeroed_at = record.or_assume(
            input.zeroed_at,
            "zeroed_at",
            ZeroedAt::Tip,
            "Zero is taken where the tip touches the face.",
        );
        let unit = size.quantity().unit;
        let height = record.or_assume(
            input.face_height,
            "face_height",
            Place::stated(0.0, unit),
            "The face drilled is taken to be the face where zero was set.",
        );
        let tip_depth = FoundDepthSetting::of(tip);
        let travel = match zeroed_at {
            ZeroedAt::Tip => {
                let travel = FoundDepthSetting::of(tip - height.get());
                record
                    .step("Travel from zero, the tip having touched", "z = t - f")
                    .with("t", "tip_depth", tip_depth)
                    .with("f", "face_height", height)
                    .gives("travel", travel);
                travel
            }
            ZeroedAt::Lips => {
                let travel = FoundDepthSetting::of(tip - length - height.get());
                record
                    .step("Travel from zero, the lips having been level with the face", "z = t - h - f")
                    .with("t", "tip_depth", tip_depth)
                    .with("h", "point_length", point_length)
                    .with("f", "face_height", height)
                    .gives("travel", travel);
                travel
            }
        };
        Ok(DrillPointResult { point_length, tip_depth: Some(tip_depth), travel: Some(travel) })
    }
}
