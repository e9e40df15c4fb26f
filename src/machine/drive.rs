//! What a cut takes of the machine's motor: power by unit power with its factors of feed and wear,
//! torque, and the power that the spindle has at its speed.

use super::{Limit, at_most, si};
use crate::declared::Asks;
use crate::quantity::{
    Efficiency, FoundPercentage, FoundPower, FoundRemovalRate, FoundSpindleSpeed, FoundTorque, FoundUnitPower, Power,
    SiValue, SpindleSpeed, Unit,
};
use crate::reference::material_name::WorkMaterial;
use crate::reference::power::{feed_factor, wear_factor};
use crate::sources::Trust;
use crate::working::{Constant, Record, Shown};
use std::f64::consts::TAU;

/// The motor as a request states it.
#[derive(Clone, Copy, Debug, Default, Asks)]
pub struct Motor {
    /// Power of the spindle's motor; the power of the cut is held against nothing if absent.
    pub spindle_power: Option<Power>,
    /// Speed below which the motor has less power, in proportion to the speed; full power at every speed if absent, as behind gears or belts.
    pub base_speed: Option<SpindleSpeed>,
    /// Share of the motor's power that comes to the tool.
    #[absent(
        "80 percent",
        "80 percent of the motor's power is taken to come to the cutter; a belt drive loses less, old gears more."
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
    /// The feed in metres a tooth or turn.
    pub feed_si: f64,
    /// The operation in the table of wear factors.
    pub wear: &'static str,
}

/// What the cut asks of the machine.
#[derive(Clone, Copy, Debug)]
pub struct Load {
    /// Power that the motor gives.
    pub motor_power: FoundPower,
    /// Power that the spindle has at its speed.
    pub power_available: Option<FoundPower>,
    /// Power of the cut over the power available.
    pub load: Option<FoundPercentage>,
    /// Whether that is more than all of it.
    pub too_much: bool,
}

impl Load {
    /// By how much the depth of cut, to which power is proportional, would have to fall: the step that
    /// gives `depth_fall`.
    pub fn depth_fall(&self, record: &mut Record) -> Option<FoundPercentage> {
        let load = self.load.filter(|_| self.too_much)?;
        let fall = FoundPercentage::of(SiValue::from_si(1.0 - 1.0 / load.get().si()));
        record
            .step("By how much the depth of cut would have to fall", "δ = 1 - 1 / λ")
            .with("λ", "load", load)
            .gives("depth_fall", fall);
        Some(fall)
    }

    /// Adds `power` to the limits where the cut takes more than the spindle has.
    pub fn limit(&self, limits: &mut Vec<Limit>) {
        if self.too_much {
            limits.push(Limit::Power);
        }
    }
}

impl Motor {
    /// Notes what is stated of the motor and changes nothing.
    pub fn note_unused(&self, material: Option<&WorkMaterial>, record: &mut Record) {
        let stated = self.spindle_power.is_some() || self.base_speed.is_some() || self.efficiency.is_some();
        if material.is_none() && stated {
            record.note(
                "power_needs_material",
                "What power a cut takes depends on the material: the motor is held against nothing until material is given.",
            );
        } else if self.base_speed.is_some() && self.spindle_power.is_none() {
            record.note("base_speed_without_power", "base_speed matters only with spindle_power.");
        }
    }

    /// The power of a cut by unit power: the steps that give `unit_power`, `feed_factor`,
    /// `wear_factor` and `power`.
    pub fn power(material: &WorkMaterial, removal: &Removal, record: &mut Record) -> FoundPower {
        unit_power_steps(material, removal, "power", record)
    }

    /// The torque at the spindle: the step that gives `torque`.
    pub fn torque(power: FoundPower, speed: FoundSpindleSpeed, record: &mut Record) -> FoundTorque {
        let torque = FoundTorque::of(SiValue::from_si(power.get().si() / (TAU * speed.get().si())));
        record
            .step("Torque at the spindle", "M = P / (2 × π × n)")
            .with("P", "power", power)
            .with("n", "spindle_speed", speed)
            .gives("torque", torque);
        torque
    }

    /// What the cut asks of the machine: the steps that give `motor_power`, `power_available` and
    /// `load`.
    pub fn load(&self, power: FoundPower, speed: FoundSpindleSpeed, record: &mut Record) -> Load {
        let efficiency = self.efficiency(record);
        if self.efficiency.is_none() {
            record.source_trusted("mh_power_memory", "machine efficiency 0.70 to 0.90", Trust::FromMemory);
        }
        let motor_power = FoundPower::of(power.get() / si(&efficiency));
        record
            .step("Power that the motor gives", "Pm = P / η")
            .with("P", "power", power)
            .with("η", "efficiency", efficiency)
            .gives("motor_power", motor_power);
        let Some(motor) = self.spindle_power else {
            return Load { motor_power, power_available: None, load: None, too_much: false };
        };
        let available = self.available(&motor, &efficiency, speed, record);
        let share = power.get().si() / available.get().si();
        let load = FoundPercentage::of(SiValue::from_si(share));
        record
            .step("Share of the power available", "λ = P / Pa")
            .with("P", "power", power)
            .with("Pa", "power_available", available)
            .gives("load", load);
        let too_much = !at_most(share, 1.0);
        if too_much {
            record
                .note("too_much_power", "The cut takes more power than the spindle has at this speed: it would stall.");
        }
        Load { motor_power, power_available: Some(available), load: Some(load), too_much }
    }

    fn available(
        &self,
        motor: &Power,
        efficiency: &Efficiency,
        speed: FoundSpindleSpeed,
        record: &mut Record,
    ) -> FoundPower {
        let below = self.base_speed.filter(|base| speed.get().si() < si(base));
        let Some(base) = below else {
            let available = FoundPower::of(motor.get() * si(efficiency));
            record
                .step("Power that the spindle has", "Pa = η × Pm")
                .with("η", "efficiency", *efficiency)
                .with("Pm", "spindle_power", *motor)
                .gives("power_available", available);
            return available;
        };
        let available = FoundPower::of(motor.get() * si(efficiency) * (speed.get().si() / si(&base)));
        record
            .step("Power that the spindle has below its base speed", "Pa = η × Pm × n / nb")
            .with("η", "efficiency", *efficiency)
            .with("Pm", "spindle_power", *motor)
            .with("n", "spindle_speed", speed)
            .with("nb", "base_speed", base)
            .gives("power_available", available);
        record.note(
            "below_base_speed",
            "Below base_speed the motor has its torque but less power, in proportion to the speed.",
        );
        available
    }
}

/// The steps of unit power; the last gives `field`.
fn unit_power_steps(
    material: &WorkMaterial,
    removal: &Removal,
    field: &'static str,
    record: &mut Record,
) -> FoundPower {
    let work = material.0;
    let cited = &work.unit_power_cited;
    let unit = FoundUnitPower::stated(work.mid_unit_power(), Unit::HorsepowerMinutePerCubicInch);
    record.source_trusted(cited.source, cited.place, cited.trust);
    let (low, high) = work.unit_power;
    let range =
        if low == high { "one value".to_owned() } else { "the middle of its range, which goes by hardness".to_owned() };
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
            "The feed lies outside the table of feed factors, whose nearest row is taken; very thin chips take more power \
             than that.",
        );
    }
    let wear = Constant {
        of: "constant:wear_factor",
        value: wear_factor(removal.wear),
        source: "mh_power_memory",
        place: "wear factors of unit power",
    };
    let power = FoundPower::of(unit.get() * removal.rate.get() * factor * wear.value);
    record
        .step("Power at the cutter by unit power", "P = u × Q × C × W")
        .with("u", "unit_power", unit)
        .with("Q", "removal_rate", removal.rate)
        .with("C", "feed_factor", factor)
        .constant("W", &wear)
        .gives(field, power);
    record.note(
        "power_scatter",
        "Power of cutting scatters by 15 to 25 percent from one bar and tool to the next, and a worn tool takes a third \
         more: leave room.",
    );
    power
}
