//! How long a drill's point is and how deep its tip goes: plane geometry of the cone, checked
//! against handbook and textbook examples.

mod drawing;

use crate::calculators::prelude::*;

/// The calculator.
pub struct DrillPoint;

choice! {
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
    /// Included angle of the point.
    #[absent("118 deg", "118° is the general-purpose point; look at the drill.")]
    pub point_angle: Option<PointAngle>,
    /// Depth wanted at full diameter, below the face.
    pub full_depth: Option<Extent>,
    /// Thickness to be drilled through.
    pub thickness: Option<Extent>,
    /// How far the lips are to come out below the far face. Needs thickness.
    #[absent("0", like = thickness, "The lips are taken to stop level with the far face; give some breakthrough for a clean exit.")]
    pub breakthrough: Option<Extent>,
    /// Where the quill was zeroed: tip or lips.
    #[absent("tip", "Zero is taken where the tip touches the face.")]
    pub zeroed_at: Option<ZeroedAt>,
    /// How far the face to be drilled stands above the face where zero was set.
    #[absent("0", like = diameter, "The face drilled is taken to be the face where zero was set.")]
    pub face_height: Option<Place>,
    /// Width of the flat or chisel edge at the tip, as seen from the side.
    #[absent("0", like = diameter, "The point is taken as sharp; a chisel edge makes it a little shorter.")]
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

rules! { check(DrillPointInput) {
    not_both(full_depth, thickness): "A hole is either blind (full_depth) or through (thickness), not both.";
    needs(breakthrough => thickness = "0.5 in"):
        "breakthrough says how far the lips come out below, so it needs thickness.";
    smaller(tip_flat < diameter, tip_flat = "0 in"): "The flat at the tip must be smaller than the drill.";
    needs_any(zeroed_at => full_depth | thickness, zeroed_at = "leave out", full_depth = "0.75 in"): FOR_A_DEPTH;
    needs_any(face_height => full_depth | thickness, face_height = "leave out", full_depth = "0.75 in"): FOR_A_DEPTH;
} }

const FOR_A_DEPTH: &str = "This matters only for a depth: give full_depth or thickness too.";

impl Calculator for DrillPoint {
    const ID: &'static str = "holes/drill-point";
    const TITLE: &'static str = "Drill point and depth";
    const ABOUT: &'static str = "How long a drill's point is, how deep the tip goes for a wanted depth at full \
        diameter or to come through, and how far the quill travels from zero.";
    const TASK: Task = Task::MakeTheHole;
    const ANOTHER_CHECK: &'static str =
        "Stand a flat-ended rod of nearly the drill's size in the hole: it measures the depth at full diameter.";
    const WORDS: &'static str = "drill tip, point length, depth, blind hole, breakthrough, cone, 118, 135, quill";
    const EXAMPLES: &'static [Example] = examples! {
        "A 1/2 in drill with a 118° point makes a blind hole 3/4 in deep at full diameter in a winch bracket.":
            diameter = "1/2 in", point_angle = "118 deg", full_depth = "3/4 in";
        "An 8.5 mm drill, 135°, goes through a 12 mm pump flange and 1 mm out below, zeroed at the lips.":
            diameter = "8.5 mm", point_angle = "135 deg", thickness = "12 mm", breakthrough = "1 mm",
            zeroed_at = "lips", face_height = "0 mm", tip_flat = "0.5 mm";
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
        } else {
            return Ok(DrillPointResult { point_length, tip_depth: None, travel: None });
        };
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
        Ok(DrillPointResult { point_length, tip_depth: Some(tip_depth), travel: Some(travel) })
    }
}
