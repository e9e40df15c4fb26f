//! A step drill: how long its shoulder is, and how deep its two diameters go.

use super::DrillPointInput;
use crate::calculators::prelude::*;

/// The larger part of a step drill, as a request states it.
#[derive(Debug, Asks)]
pub struct StepDrill {
    /// Large diameter of a step drill.
    #[label("Step drill, large diameter")]
    pub step_diameter: Option<Size>,
    /// From the lips to the shoulder.
    #[label("Step drill, lips to shoulder")]
    pub step_length: Option<Extent>,
    /// Included angle of the shoulder.
    #[label("Step drill, shoulder angle")]
    #[absent("90 deg", "Most step drills have a shoulder of 90°; those for cap screws have 180°.")]
    pub step_angle: Option<PointAngle>,
    /// How deep the large part goes.
    #[label("Step drill, large diameter deep")]
    pub step_floor: Option<Extent>,
}

/// What a step drill makes.
#[derive(Debug, Gives)]
pub struct StepDrillResult {
    /// Length of the shoulder.
    #[label("Length of the shoulder")]
    pub shoulder_length: Option<FoundExtent>,
    /// Depth at the large diameter.
    #[label("Large diameter deep to")]
    pub large_depth: Option<FoundDifference>,
}

const OF_A_STEP: &str = "This is of a step drill: give its large diameter too.";

/// The rules of a step drill.
pub fn check_step(input: &DrillPointInput) -> Result<(), ValidationError> {
    let step = &input.step;
    if let Some(large) = step.step_diameter {
        if large.get().si() <= input.diameter.size.get().si() {
            let says = "The large diameter must be larger than the drill's, which is that of the small part.";
            let fields = [("step_diameter", "11 mm"), ("diameter", "6.6 mm")];
            return Err(rule_broken(Code::Conflict, says, &fields));
        }
        if step.step_floor.is_some() && step.step_length.is_none() {
            let says = "The depth of the step needs the length of the small part, from the lips to the shoulder.";
            return Err(rule_broken(Code::Conflict, says, &[("step_length", "8 mm")]));
        }
        return Ok(());
    }
    let alone = stated!(step: step_length, step_angle, step_floor);
    match to_leave_out(&alone).first() {
        Some(first) => Err(rule_broken(Code::Conflict, OF_A_STEP, &[("step_diameter", "11 mm"), *first])),
        None => Ok(()),
    }
}

impl StepDrill {
    /// How long the shoulder is, in meters.
    pub fn shoulder(&self, diameter: Size) -> f64 {
        let Some(large) = self.step_diameter else { return 0.0 };
        let half = self.step_angle.map_or(45.0, |angle| angle.degrees() / 2.0);
        if half >= 90.0 {
            return 0.0;
        }
        (large.get().si() - diameter.get().si()) / 2.0 / crate::quantity::angle::tan(half)
    }

    /// How deep the tip goes for the depth of the step, on record.
    pub fn tip_depth(
        &self,
        diameter: Size,
        point_length: FoundExtent,
        record: &mut Record,
    ) -> Option<FoundDepthSetting> {
        let (step_floor, step_length) = (self.step_floor?, self.step_length?);
        let shoulder_length = FoundExtent::of_si(self.shoulder(diameter));
        self.tell_shoulder(diameter, record);
        let small_depth: FoundExtent = step!(record, "Depth of the small part",
            l: small_depth = e + c + s, e = step_floor, c = shoulder_length, s = step_length);
        Some(step!(record, "Depth of the tip", t: tip_depth = l + h, l = small_depth, h = point_length))
    }

    /// The step that gives the length of the shoulder.
    fn tell_shoulder(&self, diameter: Size, record: &mut Record) -> Option<FoundExtent> {
        let step_diameter = self.step_diameter?;
        let step_angle = self.step_angle(record);
        Some(step!(record, "Length of the shoulder", c: shoulder_length = (G - D) / (2.0 * tan(τ / 2.0)),
            G = step_diameter, D = diameter, τ = step_angle))
    }

    /// What the drill makes with its tip so deep.
    pub fn made(
        &self,
        diameter: Size,
        tip: Option<(FoundDepthSetting, FoundExtent)>,
        record: &mut Record,
    ) -> StepDrillResult {
        if self.step_diameter.is_none() {
            return StepDrillResult { shoulder_length: None, large_depth: None };
        }
        let of_step = self.step_floor.and(self.step_length).is_some() && tip.is_some();
        let shoulder_length = if of_step {
            Some(FoundExtent::of_si(self.shoulder(diameter)))
        } else {
            self.tell_shoulder(diameter, record)
        };
        let (Some((tip_depth, point_length)), Some(step_length), Some(shoulder)) =
            (tip, self.step_length, shoulder_length)
        else {
            return StepDrillResult { shoulder_length, large_depth: None };
        };
        let large_depth: FoundDifference = step!(record, "Depth at the full large diameter",
            g: large_depth = t - h - s - c, t = tip_depth, h = point_length, s = step_length,
            c = "shoulder_length": shoulder);
        StepDrillResult { shoulder_length, large_depth: Some(large_depth) }
    }
}
