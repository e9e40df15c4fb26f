//! The tool's cone: its angle, its tip, what it touched, how deep it goes for a diameter, and a ball in it.

use super::mouth::angle_of;
use super::{CountersinkInput, ZeroedOn};
use crate::calculators::prelude::*;
use crate::reference::screws::HeadRow;
use crate::suggestion::{Way, value};

/// The tool at the work.
pub struct Cone {
    /// Included angle.
    pub angle: PointAngle,
    /// The hole there is.
    pub hole: Option<Size>,
    /// What it touched.
    pub touched: ZeroedOn,
    /// The end of the tool.
    pub tip: Tip,
}

/// How the tool ends.
#[derive(Clone, Copy)]
pub enum Tip {
    /// In a flat, or sharp where that is zero.
    Flat(Extent),
    /// In a ball.
    Round(Size),
}

impl Cone {
    /// The tool of a request, on record.
    pub fn of(input: &CountersinkInput, row: Option<&HeadRow>, record: &mut Record) -> Result<Self, Refusal> {
        let of_head = row.and_then(|row| row.angle);
        let why = match of_head {
            Some(_) => "The angle of the head by its standard; look at the tool.",
            None => "90° is the usual countersink; look at the tool.",
        };
        let angle = record.or_assume(input.point_angle, "point_angle", angle_of(input), why);
        if of_head.is_some_and(|degrees| (angle.degrees() - degrees).abs() > 1e-9) {
            let says = format!(
                "The head has {}° and the tool {}: it will bear on its rim or on its neck alone.",
                of_head.unwrap_or_default(),
                angle.quantity().text()
            );
            record.note_first("angles_differ", says);
        }
        let tip = match input.tip_radius {
            Some(radius) => Tip::Round(radius),
            None => Tip::Flat(input.tip_flat(record)),
        };
        let hole = input.hole_diameter.map(|hole| hole.size);
        let cone = Self { angle, hole, touched: ZeroedOn::Face, tip };
        let reaches = hole.is_some_and(|hole| hole.get().si() >= cone.least_touch() - 1e-12);
        let (usual, why) = match (hole, reaches) {
            (Some(_), true) => (ZeroedOn::Edge, "The cone is assumed to have touched the edge of the hole."),
            (Some(_), false) => (ZeroedOn::Face, "The tip is wider than the hole, so it touches the face."),
            (None, _) => (ZeroedOn::Face, "There is no hole, so the tip touches the face."),
        };
        let touched = record.or_assume(input.touched, "touched", usual, why);
        if touched == ZeroedOn::Edge && !reaches {
            let says = match hole {
                Some(_) => "The tip is wider than the hole, so the cone cannot touch its edge.",
                None => "Without a hole there is no edge to touch: give the hole.",
            };
            return Err(Refusal::no_answer(says, &[("touched", "face".into())]));
        }
        Ok(Self { touched, ..cone })
    }

    /// Half the angle in radians.
    fn half(&self) -> f64 {
        (self.angle.degrees() / 2.0).to_radians()
    }

    /// The least diameter at which the tool is a cone, in meters.
    pub fn least_touch(&self) -> f64 {
        match self.tip {
            Tip::Flat(flat) => flat.get().si(),
            Tip::Round(radius) => 2.0 * radius.get().si() * self.half().cos(),
        }
    }

    /// How deep the tip goes for a diameter at the face.
    pub fn tip_depth(&self, mouth_diameter: FoundSize, record: &mut Record) -> Result<FoundExtent, Refusal> {
        let point_angle = self.angle;
        let mouth = mouth_diameter.get().si();
        Ok(match self.tip {
            Tip::Flat(tip_flat) => {
                if mouth < tip_flat.get().si() {
                    let says = "The tool's flat is wider than the countersink.";
                    return Err(Refusal::no_answer(says, &[("tip_flat", "0 in".into())]));
                }
                step!(record, "Depth of the tip", t: tip_depth = (C - w) / (2.0 * tan(σ / 2.0)),
                    C = mouth_diameter, w = tip_flat, σ = point_angle)
            }
            Tip::Round(tip_radius) if mouth >= self.least_touch() => {
                step!(record, "Depth of the round tip",
                    t: tip_depth = not_negative(C / (2.0 * tan(σ / 2.0)) - ρ * (1.0 / sin(σ / 2.0) - 1.0)),
                    C = mouth_diameter, σ = point_angle, ρ = tip_radius)
            }
            Tip::Round(tip_radius) => {
                notes!(record => on_the_radius: "The mark is made by the round tip alone; the cone does not cut.");
                step!(record, "Depth of the round tip, which alone is in the work",
                    t: tip_depth = ρ - root(squared(ρ) - squared(C / 2.0)), C = mouth_diameter, ρ = tip_radius)
            }
        })
    }

    /// How far the top of a ball stands above the face; a ball that the cone does not hold is refused.
    pub fn ball(
        &self,
        ball_diameter: Size,
        mouth_diameter: FoundSize,
        record: &mut Record,
    ) -> Result<FoundDifference, Refusal> {
        let point_angle = self.angle;
        let (ball, mouth) = (ball_diameter.get().si(), mouth_diameter.get().si());
        let contact = ball * self.half().cos();
        let least = self.hole.map_or(0.0, |hole| hole.get().si()).max(self.least_touch());
        if contact > mouth || contact < least {
            let fits = (mouth + least) / 2.0 / self.half().cos();
            let good = value(fits, ball_diameter.quantity().unit, Way::Near);
            let says = if contact > mouth {
                "The ball is too large: it would rest on the rim of the countersink."
            } else {
                "The ball is too small: it would fall below the cone."
            };
            return Err(Refusal::no_answer(says, &[("ball_diameter", good)]));
        }
        Ok(step!(record, "How far the ball's top stands above the face",
            a: ball_above = D / 2.0 + D / (2.0 * sin(σ / 2.0)) - C / (2.0 * tan(σ / 2.0)),
            D = ball_diameter, C = mouth_diameter, σ = point_angle))
    }
}
