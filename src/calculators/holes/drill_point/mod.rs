//! How long a drill's point is and how deep its tip goes: plane geometry of the cone, checked
//! against handbook and textbook examples.

mod drawing;
mod step;

use crate::calculators::prelude::*;
use step::{StepDrill, StepDrillResult, check_step};

/// The calculator.
pub struct DrillPoint;

choice! {
    /// How the quill was zeroed on the face: with the drill's `tip` touching, or with its `lips` just at full diameter there.
    ZeroedAt {
        /// The tip touches the face.
        Tip = "tip",
        /// The outer corners of the lips are level with the face.
        Lips = "lips",
    }
}

/// What the drill point calculator asks for.
#[derive(Debug, Asks)]
#[asks(check = check, check = check_depths, check = check_step)]
pub struct DrillPointInput {
    /// Diameter of the drill, as a length or by its name.
    #[label("Drill")]
    pub diameter: DrillDiameter,
    /// Included angle of the point.
    #[absent("118 deg", "118° is the general-purpose point; look at the drill.")]
    pub point_angle: Option<PointAngle>,
    /// Depth wanted at full diameter, below the face.
    #[label("Depth at full diameter")]
    pub full_depth: Option<Extent>,
    /// Thickness to be drilled through.
    #[label("Thickness drilled through")]
    pub thickness: Option<Extent>,
    /// How far the lips come out below the far face. Needs the thickness.
    #[absent("0", like = thickness, "The lips are assumed to stop level with the far face; give some breakthrough for a clean exit.")]
    #[label("Lips out below by")]
    pub breakthrough: Option<Extent>,
    /// What touched the face when the quill was zeroed: tip or lips.
    #[absent("tip", "Zero is assumed where the tip touches the face.")]
    #[label("Zero set with")]
    pub zeroed_at: Option<ZeroedAt>,
    /// How far the face to be drilled stands above the face where zero was set.
    #[absent("0", like = diameter, "The face drilled is assumed to be the one where zero was set.")]
    #[label("Face above zero face")]
    pub face_height: Option<Place>,
    /// Width of the flat or chisel edge at the tip, as seen from the side.
    #[absent("0", like = diameter, "The point is assumed sharp; a chisel edge makes it a little shorter.")]
    #[label("Flat at the tip")]
    pub tip_flat: Option<Extent>,
    /// Width of a spot at the face.
    #[label("Spot wanted across")]
    pub mouth_diameter: Option<Size>,
    /// A step drill's larger diameter.
    #[group]
    pub step: StepDrill,
}

/// What the drill point calculator gives.
#[derive(Debug, Gives)]
pub struct DrillPointResult {
    /// Length of the point, from tip to full diameter.
    pub point_length: FoundExtent,
    /// Depth of the tip below the face drilled; needs a depth.
    pub tip_depth: Option<FoundDepthSetting>,
    /// How far the quill goes from zero; needs a depth.
    #[label("Quill travel from zero")]
    pub travel: Option<FoundDepthSetting>,
    /// What a step drill makes.
    #[group]
    pub step: StepDrillResult,
}

rules! { check(DrillPointInput) {
    not_both(full_depth, thickness): "Give the depth of a blind hole or the thickness drilled through, not both.";
    needs(breakthrough => thickness = "0.5 in"):
        "How far the lips come out below needs the thickness drilled through.";
    smaller(tip_flat < diameter, tip_flat = "0 in"): "The flat at the tip must be smaller than the drill.";
    smaller(tip_flat < mouth_diameter, tip_flat = "0 in"): "The flat at the tip must be smaller than the spot.";
    at_most(mouth_diameter <= diameter, mouth_diameter = "0.2 in"):
        "A spot is no wider than the drill: for more give the depth at full diameter.";
} }

/// Depths belong together, and something must be asked that they matter for.
fn check_depths(input: &DrillPointInput) -> Result<(), ValidationError> {
    let depths = [
        ("full_depth", "", input.full_depth.is_some()),
        ("thickness", "", input.thickness.is_some()),
        ("mouth_diameter", "", input.mouth_diameter.is_some()),
        ("step_floor", "", input.step.step_floor.is_some()),
    ];
    let given = to_leave_out(&depths);
    // The first two have a rule of their own.
    if given.len() > 1 && (depths[2].2 || depths[3].2) {
        let says = "Give one of these: depth at full diameter, thickness, spot, or depth of the step.";
        return Err(rule_broken(Code::Conflict, says, &given));
    }
    let zero = stated!(input: zeroed_at, face_height);
    if let Some((field, way)) = to_leave_out(&zero).first().filter(|_| given.is_empty()) {
        return Err(rule_broken(Code::Conflict, FOR_A_DEPTH, &[(*field, *way), ("full_depth", "0.75 in")]));
    }
    if input.mouth_diameter.is_some() && input.zeroed_at == Some(ZeroedAt::Lips) {
        let says = "The lips stay above the face of a spot, so zero is set with the tip.";
        return Err(rule_broken(Code::Conflict, says, &[("zeroed_at", "tip")]));
    }
    Ok(())
}

const FOR_A_DEPTH: &str = "This matters only for a depth: give the depth at full diameter or the thickness too.";

impl Calculator for DrillPoint {
    const ID: &'static str = "holes/drill-point";
    const TITLE: &'static str = "Drill point and depth";
    const ABOUT: &'static str = "How long a drill's point is, how deep the tip goes for a depth, a plate or a spot, and how far the quill travels.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Stand a flat-ended rod of nearly the drill's size in the hole: it measures the depth at full diameter.";
    const WORDS: &'static str = "drill tip, point length, depth, blind hole, breakthrough, cone, 118, 135, quill, \
        step drill, stepped drill, subland drill, spotting drill, spot, center mark";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2 in drill with a 118° point makes a blind hole 3/4 in deep at full diameter in a winch bracket.":
            diameter = "1/2 in", point_angle = "118 deg", full_depth = "3/4 in";
        "An 8.5 mm drill, 135°, goes through a 12 mm pump flange and 1 mm out below, zeroed at the lips.":
            diameter = "8.5 mm", point_angle = "135 deg", thickness = "12 mm", breakthrough = "1 mm",
            zeroed_at = "lips", face_height = "0 mm", tip_flat = "0.5 mm";
        "A 10 mm spotting drill of 90° marks an 8 mm spot for a hole in a winch frame.":
            diameter = "10 mm", point_angle = "90 deg", mouth_diameter = "8 mm";
        "A step drill of 6.6 and 11 mm, 8 mm long below its 180° shoulder, makes an 11 mm hole 6.5 mm deep in a pump cover.":
            diameter = "6.6 mm", step_diameter = "11 mm", step_length = "8 mm",
            step_angle = "180 deg", step_floor = "6.5 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A {diameter} drill has the usual {point_angle} point. How long is the point?" => "point_length":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in" | "5/8 in" | "3/4 in", point_angle = "118 deg" }
            { diameter = "6 mm" | "8 mm" | "10 mm" | "12 mm" | "16 mm", point_angle = "118 deg" };
        1 "A {diameter} drill is ground to {point_angle} for hard stock. How long is its point?" => "point_length":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in" | "3/4 in", point_angle = "135 deg" }
            { diameter = "5 mm" | "8.5 mm" | "10 mm" | "12 mm", point_angle = "135 deg" };
        2 "A winch bracket needs a {diameter} hole {full_depth} deep at full diameter. How deep does the tip of a            {point_angle} drill go?" => "tip_depth":
            { diameter = "3/8 in" | "1/2 in" | "5/8 in", full_depth = "3/4 in" | "1 in" | "1-1/4 in",
              point_angle = "118 deg" }
            { diameter = "8 mm" | "10 mm" | "12 mm", full_depth = "20 mm" | "25 mm" | "30 mm",
              point_angle = "118 deg" | "135 deg" };
        2 "You drill {diameter} through a {thickness} plate with a {point_angle} point, and the lips are to come out            {breakthrough} below. How deep does the tip go?" => "tip_depth":
            { diameter = "3/8 in" | "1/2 in", thickness = "1/2 in" | "3/4 in" | "1 in",
              breakthrough = "1/32 in" | "1/16 in", point_angle = "118 deg" }
            { diameter = "8.5 mm" | "10.2 mm", thickness = "12 mm" | "15 mm" | "20 mm", breakthrough = "1 mm" | "1.5 mm",
              point_angle = "118 deg" };
        2 "A {diameter} spotting drill of {point_angle} marks a spot {mouth_diameter} across. How deep does its tip go?"
            => "tip_depth":
            { diameter = "10 mm" | "12 mm", mouth_diameter = "6 mm" | "8 mm" | "9 mm", point_angle = "90 deg" | "120 deg" }
            { diameter = "1/2 in", mouth_diameter = "1/4 in" | "3/8 in", point_angle = "90 deg" };
        3 "You zeroed the quill with the lips of a {diameter}, {point_angle} drill level with the face. The plate is            {thickness} and the lips are to come out {breakthrough} below. How far does the quill travel?" => "travel":
            { diameter = "3/8 in" | "1/2 in", thickness = "1/2 in" | "3/4 in", breakthrough = "1/32 in" | "1/16 in",
              point_angle = "118 deg", zeroed_at = "lips" }
            { diameter = "8.5 mm" | "12 mm", thickness = "12 mm" | "16 mm", breakthrough = "1 mm" | "2 mm",
              point_angle = "135 deg", zeroed_at = "lips" };
        3 "The tip of a {diameter}, {point_angle} drill is zeroed on a step; the face to drill stands {face_height}            higher. The hole is {full_depth} deep at full diameter. How far does the quill travel from zero?" => "travel":
            { diameter = "1/4 in" | "3/8 in" | "1/2 in", point_angle = "118 deg", face_height = "1/4 in" | "1/2 in",
              full_depth = "3/4 in" | "1 in" }
            { diameter = "6 mm" | "10 mm", point_angle = "118 deg", face_height = "5 mm" | "10 mm",
              full_depth = "20 mm" | "25 mm" };
    };
    type Input = DrillPointInput;
    type Output = DrillPointResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "right triangle of the cone: half the diameter over the tangent of half the angle");
        let diameter = input.diameter.size;
        let point_angle = input.point_angle(record);
        let tip_flat = input.tip_flat(record);
        // At 180° the tangent is infinite and the length zero.
        let point_length: FoundExtent = step!(record, "Length of the point",
            h: point_length = (D - w) / (2.0 * tan(σ / 2.0)), D = diameter, w = tip_flat, σ = point_angle);
        let tip_depth: FoundDepthSetting = if let Some(full_depth) = input.full_depth {
            step!(record, "Depth of the tip", t: tip_depth = L + h, L = full_depth, h = point_length)
        } else if let Some(thickness) = input.thickness {
            let breakthrough = input.breakthrough(record);
            step!(record, "Depth of the tip", t: tip_depth = s + h + b,
                s = thickness, h = point_length, b = breakthrough)
        } else if let Some(mouth_diameter) = input.mouth_diameter {
            step!(record, "Depth of the tip for the spot", t: tip_depth = (M - w) / (2.0 * tan(σ / 2.0)),
                M = mouth_diameter, w = tip_flat, σ = point_angle)
        } else if let Some(depth) = input.step.tip_depth(diameter, point_length, record) {
            depth
        } else {
            let step = input.step.made(diameter, None, record);
            return Ok(DrillPointResult { point_length, tip_depth: None, travel: None, step });
        };
        let step = input.step.made(diameter, Some((tip_depth, point_length)), record);
        record.caution(cautions::DRILLING);
        record.caution(cautions::TURNING_SPINDLE);
        let zeroed_at = input.zeroed_at(record);
        let face_height = input.face_height(record);
        let travel: FoundDepthSetting = match zeroed_at {
            ZeroedAt::Tip => step!(record, "Travel from zero, the tip having touched",
                z: travel = t - f, t = tip_depth, f = face_height),
            ZeroedAt::Lips => step!(record, "Travel from zero, the lips having been level with the face",
                z: travel = t - h - f, t = tip_depth, h = point_length, f = face_height),
        };
        Ok(DrillPointResult { point_length, tip_depth: Some(tip_depth), travel: Some(travel), step })
    }
}
