//! The ends of a profile: as they were given, or from a corner that gets a radius or a chamfer.

use super::shape::{Plane, plane};
use super::{PartCorner, ProfileSide, SteppedProfileInput};
use crate::arithmetic::directions::{BlendSide, Sense};
use crate::arithmetic::plane::ReadoutPoint;
use crate::calculators::prelude::*;

/// Where a profile begins and ends, and on which side of it the cutter is.
pub struct Ends {
    /// First point.
    pub from: Plane,
    /// Last point.
    pub to: Plane,
    /// X and Y of the first point and of the last, as the steps show them.
    pub shown: [(&'static str, Shown); 4],
    /// Which way an arc between them runs.
    pub sense: Option<Sense>,
    /// Where the cutter is.
    pub side: ProfileSide,
    /// The corner from which they come.
    pub corner: Option<Plane>,
}

impl Ends {
    /// The ends of the profile asked for; those of a corner with their steps.
    pub fn of(input: &SteppedProfileInput, record: &mut Record) -> Option<Self> {
        if let Some(at) = input.corner_at {
            return Some(Self::at_corner(input, at, input.radius.or(input.chamfer)?, record));
        }
        let (from, to) = (input.from?, input.to?);
        let shown =
            [("from.x", from.x.into()), ("from.y", from.y.into()), ("to.x", to.x.into()), ("to.y", to.y.into())];
        Some(Self { from: plane(&from), to: plane(&to), shown, sense: input.sense, side: input.side?, corner: None })
    }

    /// The first and the last point, where they come from a corner.
    pub fn of_corner(&self) -> [Option<ReadoutPoint>; 2] {
        [self.from, self.to].map(|end| self.corner.map(|_| ReadoutPoint::of(end)))
    }

    /// From the edge along X to the edge along Y.
    fn at_corner(input: &SteppedProfileInput, at: PartCorner, width: Size, record: &mut Record) -> Self {
        let (corner, kind) = (input.corner_point(record), input.corner_kind(record));
        // Both edges run back from the corner, of a part as of an opening.
        let (right, up) = at.towards();
        let (along_x, along_y) = (-right, -up);
        let says = "1 toward larger readings, -1 toward smaller";
        for (what, field, way) in [
            ("Which way the edge along X runs from the corner", "edge.x", along_x),
            ("Which way the edge along Y runs from the corner", "edge.y", along_y),
        ] {
            record.look_up(what, says).with("k", "corner_at", at.as_str()).gives(field, way);
        }
        let of = if input.chamfer.is_some() { "chamfer" } else { "radius" };
        let height: (&'static str, Shown, f64) = match input.chamfer {
            Some(chamfer) => {
                let angle = input.chamfer_angle(record);
                let height: FoundExtent = step!(record, "Height of the chamfer along Y",
                    h: chamfer_height = w * tan(A), w = chamfer, A = chamfer_angle: angle);
                ("chamfer_height", height.into(), height.si())
            }
            None => ("radius", width.into(), width.si()),
        };
        let sharp = plane(&corner);
        let (from, to) = ((sharp.0 + along_x * width.si(), sharp.1), (sharp.0, sharp.1 + along_y * height.2));
        let [first, last] = [from, to].map(ReadoutPoint::of);
        record
            .step("First point on X", "p = x + k × w")
            .with("x", "corner_point.x", corner.x)
            .with("k", "edge.x", along_x)
            .with("w", of, width)
            .gives("first_point.x", first.x);
        record.step("First point on Y", "p = y").with("y", "corner_point.y", corner.y).gives("first_point.y", first.y);
        record.step("Last point on X", "p = x").with("x", "corner_point.x", corner.x).gives("last_point.x", last.x);
        record
            .step("Last point on Y", "p = y + k × h")
            .with("y", "corner_point.y", corner.y)
            .with("k", "edge.y", along_y)
            .with("h", height.0, height.1)
            .gives("last_point.y", last.y);
        // Away from the corner, where an opening and the center of a radius are.
        let away_is_left = along_x * along_y < 0.0;
        let left = away_is_left == (kind == BlendSide::Inside);
        let side = if left { ProfileSide::Left } else { ProfileSide::Right };
        record
            .look_up("On which side of the way from first to last point the cutter is", "away from the metal")
            .with("k", "corner_at", at.as_str())
            .with("c", "corner_kind", kind.as_str())
            .gives("side", side.as_str());
        let sense = if away_is_left { Sense::Counterclockwise } else { Sense::Clockwise };
        if input.radius.is_some() {
            record
                .look_up("Which way the arc runs", "bowed toward the corner")
                .with("k", "corner_at", at.as_str())
                .with("c", "corner_kind", kind.as_str())
                .gives("sense", sense.as_str());
        }
        let shown = [
            ("first_point.x", first.x.into()),
            ("first_point.y", first.y.into()),
            ("last_point.x", last.x.into()),
            ("last_point.y", last.y.into()),
        ];
        Self { from, to, shown, sense: Some(sense), side, corner: Some(sharp) }
    }
}

impl PartCorner {
    /// On which side the corner lies, on X and on Y: 1 toward larger readings.
    fn towards(self) -> (f64, f64) {
        match self {
            PartCorner::UpperLeft => (-1.0, 1.0),
            PartCorner::UpperRight => (1.0, 1.0),
            PartCorner::LowerLeft => (-1.0, -1.0),
            PartCorner::LowerRight => (1.0, -1.0),
        }
    }
}
