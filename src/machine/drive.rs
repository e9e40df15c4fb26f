//! What a cut takes of the machine's motor: power by unit power with its factors of feed and wear,
//! torque, and the power that the spindle has at its speed.

use super::{Held, Limit, at_most, si, tell_limits};
use crate::declared::{Asks, Gives, step};
use crate::quantity::{
    Efficiency, Found, FoundPercentage, FoundPower, FoundRemovalRate, FoundSpindleSpeed, FoundUnitPower, Kind, Power,
    SiValue, SpindleSpeed, Unit, text,
};
use crate::reference::material_name::WorkMaterial;
use crate::reference::power::{feed_factor, wear_factor};
use crate::sources::Trust;
use crate::working::{Constant, Record, Shown};

/// The motor as a request states it.
#[derive(Clone, Copy, Debug, Default, Asks)]
pub struct Motor {
    /// Rated power of the spindle motor, with which the power of the cut is compared; no comparison if absent.
    #[label("Motor power")]
    pub spindle_power: Option<Power>,
    /// Spindle speed below which the motor has less power, in proportion to the speed; full power at every speed if absent, as with gears or belts.
    #[label("Base speed of the drive")]
    pub base_speed: Option<SpindleSpeed>,
    /// Share of the motor's power that reaches the tool.
    #[label("Drive efficiency")]
    #[absent(
        "80 percent",
        "80 percent of the motor's power is assumed to reach the tool; a belt drive loses less, old gears lose more."
    )]
    pub efficiency: Option<Efficiency>,
}

/// The volume removed and the feed it is removed with.
#[derive(Clone, Debug)]
pub struct Removal {
    /// The volume rate, a step named `removal_rate`.
    pub rate: FoundRemovalRate,
    /// The field or step of the feed.
    pub feed_of: &'static str,
    /// The feed as shown.
    pub feed: Shown,
    /// The feed in meters a tooth or turn.
    pub feed_si: f64,
    /// The operation in the table of wear factors.
    pub wear: &'static str,
}

impl Removal {
    /// Of a feed that a step named `feed_of` gives.
    pub fn of<K: Kind>(rate: FoundRemovalRate, (feed_of, feed): (&'static str, Found<K>), wear: &'static str) -> Self {
        Self { rate, feed_of, feed: feed.into(), feed_si: feed.get().si(), wear }
    }
}

/// What the cut asks of the motor.
#[derive(Clone, Copy, Debug, Gives)]
pub struct Load {
    /// Power drawn from the motor for the power at the tool; needs a work material.
    #[label("Power drawn from the motor")]
    pub motor_power: FoundPower,
    /// Power available at the spindle at its speed.
    #[needs(spindle_power)]
    pub power_available: Option<FoundPower>,
    /// Power of the cut as a share of the power available.
    #[label("Spindle load")]
    #[needs(spindle_power)]
    pub load: Option<FoundPercentage>,
}

impl Load {
    /// The share, where it is more than all of the power.
    pub fn too_much(&self) -> Option<FoundPercentage> {
        self.load.filter(|load| !at_most(load.get().si(), 1.0))
    }

    /// By how much the depth of cut, to which power is proportional, would have to fall: the step that
    /// gives `depth_fall`.
    pub fn depth_fall(&self, record: &mut Record) -> Option<FoundPercentage> {
        let load = self.too_much()?;
        Some(step!(record, "How much less the depth of cut must be",
            δ: depth_fall = ratio(1.0 - 1.0 / number(λ)), λ = load))
    }

    /// Adds `power` to the limits where the cut takes more than the spindle has.
    pub fn limit(&self, limits: &mut Vec<Limit>) {
        if self.too_much().is_some() {
            limits.push(Limit::Power);
        }
    }
}

impl Held {
    /// The limits that bind, the power among them where the cut takes too much; records the step that gives
    /// `limited_by`.
    pub fn tell(mut self, load: Option<&Load>, record: &mut Record) -> Vec<Limit> {
        if let Some(load) = load {
            load.limit(&mut self.limits);
        }
        tell_limits(&self.limits, &self.against, record);
        self.limits
    }
}

impl Motor {
    /// Notes what is stated of the motor and changes nothing.
    pub fn note_unused(&self, material: Option<&WorkMaterial>, record: &mut Record) {
        let stated = self.spindle_power.is_some() || self.base_speed.is_some() || self.efficiency.is_some();
        if material.is_none() && stated {
            record.note(
                "power_needs_material",
                "The power of a cut depends on the material: give the work material to compare it with the motor.",
            );
        } else if self.base_speed.is_some() && self.spindle_power.is_none() {
            record.note("base_speed_without_power", "The base speed changes nothing without the motor power.");
        }
    }

    /// What the cut asks of the machine: the steps that give `motor_power`, `power_available` and
    /// `load`.
    pub fn load(&self, power: FoundPower, speed: Option<FoundSpindleSpeed>, record: &mut Record) -> Load {
        let efficiency = self.efficiency(record);
        if self.efficiency.is_none() {
            record.source_trusted("mh_power_memory", "machine efficiency 0.70 to 0.90", Trust::FromMemory);
        }
        let motor_power = step!(record, "Power drawn from the motor",
            Pm: motor_power = P / η, P = power, η = efficiency);
        let Some(motor) = self.spindle_power else {
            return Load { motor_power, power_available: None, load: None };
        };
        let base = match (self.base_speed, speed) {
            (Some(_), None) => return Load { motor_power, power_available: None, load: None },
            (Some(base), Some(speed)) if speed.get().si() < si(&base) => Some((base, speed)),
            _ => None,
        };
        let power_available = match base {
            None => step!(record, "Power available at the spindle",
                Pa: power_available = η * Pm, η = efficiency, Pm = spindle_power: motor),
            Some((base, speed)) => {
                let available = FoundPower::of(motor.get() * si(&efficiency) * (speed.get().si() / si(&base)));
                record
                    .step("Power available below the base speed", "Pa = η × Pm × n / nb")
                    .with("η", "efficiency", efficiency)
                    .with("Pm", "spindle_power", motor)
                    .with("n", "spindle_speed", speed)
                    .with("nb", "base_speed", base)
                    .gives("power_available", available);
                record.note(
                    "below_base_speed",
                    "Below its base speed the motor keeps its torque but has less power, in proportion to the speed.",
                );
                available
            }
        };
        let share = step!(record, "Spindle load, the share of the power available",
            λ: load = P / Pa, P = power, Pa = power_available);
        let load = Load { motor_power, power_available: Some(power_available), load: Some(share) };
        if load.too_much().is_some() {
            let percent = text::full(text::round(100.0 * share.get().si(), 0));
            record.caution_first(
                "would_stall",
                format!(
                    "The cut takes {percent} percent of the power available at this speed: the spindle would stall, and \
                     break the tool or throw the work. Take a shallower cut, or feed less."
                ),
            );
            record.note(
                "too_much_power",
                "The cut takes more power than the spindle has at this speed: the spindle would stall.",
            );
        }
        load
    }
}

/// The power of a cut by unit power: the steps that give `unit_power`, `feed_factor` and `power`.
pub fn unit_power(material: &WorkMaterial, removal: &Removal, record: &mut Record) -> FoundPower {
    let work = material.0;
    let cited = &work.unit_power_cited;
    let unit = FoundUnitPower::stated(work.mid_unit_power(), Unit::HorsepowerMinutePerCubicInch);
    record.source_trusted(cited.source, cited.place, cited.trust);
    let (low, high) = work.unit_power;
    let range = if low == high {
        "one value".to_owned()
    } else {
        "the middle of its range, which depends on the hardness".to_owned()
    };
    record
        .look_up(
            "Unit power of the material, sharp tool, feed 0.012 in",
            format!("materials.csv, {}: {range}", work.id),
        )
        .gives("unit_power", unit);
    let (factor, outside) = feed_factor(removal.feed_si);
    record.source_trusted("mh_power_memory", "feed factors and wear factors of unit power", Trust::FromMemory);
    record
        .look_up("Factor of the feed", "power_feed_factors.csv, linear between its rows")
        .with("f", removal.feed_of, removal.feed.clone())
        .gives("feed_factor", factor);
    if outside {
        record.note(
            "feed_outside_factors",
            "The feed is outside the table of feed factors, so its nearest row is used; very thin chips take more power \
             than that.",
        );
    }
    let wear = Constant {
        of: "constant:wear_factor",
        value: wear_factor(removal.wear),
        source: "mh_power_memory",
        place: "wear factors of unit power",
    };
    let power = step!(record, "Power at the cutter by unit power", P: power = u * Q * C * W,
        u = unit_power: unit, Q = removal_rate: removal.rate, C = feed_factor: factor, W = const wear);
    record.note(
        "power_scatter",
        "Cutting power varies by 15 to 25 percent from one bar and tool to the next, and a worn tool takes a third \
         more: leave a margin.",
    );
    power
}
