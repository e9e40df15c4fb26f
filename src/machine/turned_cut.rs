//! A cut along the work, outside or inside: its chip, the metal removed, the force and the power.

use super::{CutPower, Falls, Held, Limit, Motor, PowerTaken, ProcessFactor, Removal, TurnSet, cut_power};
use crate::declared::{Gives, step};
use crate::quantity::{
    EdgeAngle, FoundChipThickness, FoundCuttingForce, FoundFeedRate, FoundPercentage, FoundRemovalRate, FoundSize, Size,
};
use crate::reference::material_name::WorkMaterial;
use crate::working::Record;

/// A cut along the work.
pub struct AlongTheWork<'a> {
    /// The largest diameter that is cut.
    pub diameter: Size,
    /// Depth of the cut on the radius.
    pub depth_of_cut: Option<Size>,
    /// Angle between cutting edge and feed.
    pub edge: EdgeAngle,
    /// The work and the motor of the spindle.
    pub drive: (Option<&'a WorkMaterial>, &'a Motor),
    /// The factor of the process on the specific force.
    pub process: &'static ProcessFactor,
    /// The operation in the table of wear factors.
    pub wear: &'static str,
}

/// What it comes to.
#[derive(Debug, Gives)]
pub struct TurnedCut {
    /// What is set.
    #[group]
    pub set: TurnSet,
    /// Thickness of the chip.
    #[needs(feed_per_rev)]
    pub chip_thickness: Option<FoundChipThickness>,
    /// Diameter in the middle of the depth of cut.
    #[needs(depth_of_cut)]
    pub mean_diameter: Option<FoundSize>,
    /// Metal removed in a minute.
    #[label("Metal removal rate")]
    #[needs(depth_of_cut, feed_per_rev)]
    pub removal_rate: Option<FoundRemovalRate>,
    /// The limits that rule out the exact speed, the feed asked for or the power of the cut.
    pub limited_by: Vec<Limit>,
    /// How far what is set falls short.
    #[group]
    pub falls: Falls,
    /// Cutting force by specific cutting force.
    #[needs(material, depth_of_cut, feed_per_rev)]
    pub cutting_force: Option<FoundCuttingForce>,
    /// What it takes of the machine.
    #[group]
    #[needs(material, depth_of_cut, feed_per_rev)]
    pub power: Option<PowerTaken>,
    /// How much less the depth of cut must be for the power available.
    #[label("Reduce depth of cut by")]
    pub depth_fall: Option<FoundPercentage>,
}

impl AlongTheWork<'_> {
    /// What the cut comes to with what is set; `removal` records the step that gives `removal_rate`, of the depth, the
    /// mean diameter and the feed rate.
    pub fn cut(
        &self,
        (set, mut held, falls): (TurnSet, Held, Falls),
        removal: impl FnOnce(Size, FoundSize, FoundFeedRate, &mut Record) -> FoundRemovalRate,
        record: &mut Record,
    ) -> TurnedCut {
        let feed = set.feed;
        let chip_thickness = feed.map(|feed| {
            step!(record, "Thickness of the chip", h: chip_thickness = f * sin(κ),
                f = feed_per_rev: feed.feed_per_rev, κ = cutting_edge_angle: self.edge)
        });
        let mean_diameter = self.depth_of_cut.map(|depth| {
            step!(record, "Diameter in the middle of the cut", Dm: mean_diameter = D - ap,
                D = diameter: self.diameter, ap = depth_of_cut: depth)
        });
        let whole = feed.zip(chip_thickness).zip(self.depth_of_cut.zip(mean_diameter));
        let taken = whole.map(|((feed, chip), (depth, mean))| {
            let rate = removal(depth, mean, feed.feed_rate, record);
            let removed = Removal::of(rate, ("feed_per_rev", feed.feed_per_rev), self.wear);
            let chip = ("chip_thickness", chip, self.process);
            let power = cut_power(self.drive, &removed, chip, set.speed.spindle_speed, &mut held.against, record);
            let cutting_force = power.as_ref().and_then(|power| power.force).map(|force| {
                step!(record, "Cutting force", Fc: cutting_force = kc * ap * f,
                    kc = specific_force: force, ap = depth_of_cut: depth, f = feed_per_rev: feed.feed_per_rev)
            });
            (rate, power, cutting_force)
        });
        let (removal_rate, power, cutting_force) = match taken {
            Some((rate, power, force)) => (Some(rate), power, force),
            None => (None, None, None),
        };
        TurnedCut {
            set,
            chip_thickness,
            mean_diameter,
            removal_rate,
            limited_by: held.tell(power.as_ref().map(|power| &power.load), record),
            falls,
            cutting_force,
            power: power.as_ref().map(CutPower::taken),
            depth_fall: power.and_then(|power| power.depth_fall),
        }
    }
}
