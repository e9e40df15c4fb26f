//! What lies below the full diameter of a blind hole: the drill's point, the floor left under it, and the thickness
//! that the part needs.

use crate::declared::{Asks, Gives, step};
use crate::quantity::{Extent, FoundDepthSetting, FoundExtent, PointAngle, SiValue, Size};
use crate::refusal::{Code, Refusal, Wrong};
use crate::suggestion::{Way, value};
use crate::working::Record;

/// The drill's point and the part, as a request states them.
#[derive(Clone, Copy, Debug, Default, Asks)]
pub struct BlindBottom {
    /// Included angle of the drill's point.
    #[label("Point angle of the drill")]
    #[absent("118 deg", "The usual 118° point is assumed; look at the drill.")]
    pub point_angle: Option<PointAngle>,
    /// Thickness of the part below the face, where the hole must not come through.
    #[label("Part thickness")]
    pub thickness: Option<Size>,
    /// Least floor to leave below the drill's tip.
    #[label("Least floor")]
    pub floor: Option<Extent>,
}

/// How deep the drill's tip goes and what is left below it.
#[derive(Debug, Gives)]
pub struct BelowTheHole {
    /// Depth of the drill's tip below the face, to set where the tip touched the face at zero.
    #[label("Drill depth at the tip")]
    pub tip_depth: FoundDepthSetting,
    /// Metal left below the drill's tip.
    #[label("Floor left")]
    #[needs(thickness)]
    pub floor_left: Option<FoundExtent>,
    /// Least thickness of the part for this hole with the floor asked for.
    #[label("Thickness needed")]
    #[needs(floor)]
    pub thickness_needed: Option<FoundExtent>,
}

impl BlindBottom {
    /// How deep the tip goes where the hole has its full diameter to `full_depth`, and what is left. Refuses a part that
    /// is too thin; `shallower` says what else to try, from how many meters are lacking.
    pub fn below(
        &self,
        (field, drill): (&'static str, Size),
        full_depth: FoundDepthSetting,
        shallower: impl Fn(f64) -> Vec<(&'static str, String)>,
        record: &mut Record,
    ) -> Result<BelowTheHole, Refusal> {
        record.source(
            "geometry",
            "right triangle of the drill's point: half the diameter over the tangent of half the angle",
        );
        let point_angle = self.point_angle(record);
        let point_length: FoundExtent = step!(record, "Length of the drill's point",
            h: point_length = d / (2.0 * tan(σ / 2.0)), d = (field): drill, σ = point_angle);
        let tip_depth: FoundDepthSetting = step!(record, "Depth of the drill's tip",
            t: tip_depth = L + h, L = full_depth, h = point_length);
        let thickness_needed = self.floor.map(
            |floor| step!(record, "Thickness of part needed", s: thickness_needed = t + f, t = tip_depth, f = floor),
        );
        let Some(thickness) = self.thickness else {
            return Ok(BelowTheHole { tip_depth, floor_left: None, thickness_needed });
        };
        let least = self.floor.map_or(0.0, |floor| floor.get().si());
        let left = thickness.get().si() - tip_depth.get().si();
        let lacking = least - left;
        // Without a floor asked for the tip must at least stay inside.
        let is_open = self.floor.is_none_or(|floor| floor.get().si() == 0.0) && left <= 1e-12;
        if lacking > 1e-12 || is_open {
            return Err(self.too_thin(thickness, left, lacking, shallower(lacking)));
        }
        let floor_left = step!(record, "Metal left below the tip", r: floor_left = s - t, s = thickness, t = tip_depth);
        Ok(BelowTheHole { tip_depth, floor_left: Some(floor_left), thickness_needed })
    }

    fn too_thin(&self, thickness: Size, left: f64, lacking: f64, shallower: Vec<(&'static str, String)>) -> Refusal {
        let unit = thickness.quantity().unit;
        let needed = value(thickness.get().si() + lacking, unit, Way::Up);
        let says = if left > 1e-12 {
            let left = value(left, unit, Way::Down);
            format!("This would leave only {left} below the drill's tip. The part needs a thickness of {needed}.")
        } else {
            format!("The drill would come through. The part needs a thickness of at least {needed}.")
        };
        let mut ways = vec![("thickness", needed)];
        if left > 1e-12 {
            ways.push(("floor", value(left, unit, Way::Down)));
        }
        ways.extend(shallower);
        Refusal(
            ways.iter().map(|(field, try_this)| Wrong::new(field, Code::NoAnswer, says.clone(), try_this)).collect(),
        )
    }
}
