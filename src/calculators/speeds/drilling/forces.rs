//! Thrust and torque of a drill: by the handbook's formula after Shaw and Oxford (Machinery's Handbook,
//! 31st edition, pp. 1152-1153), by specific cutting force, and by a tool maker's formula.

use super::{DrillGrind, DrillingInput};
use crate::cautions;
use crate::machine::{Load, ProcessFactor, TurnSet, specific_force};
use crate::quantity::{
    FoundChipThickness, FoundCuttingForce, FoundPercentage, FoundPower, FoundTorque, PointAngle, SiValue, Size, Unit,
    angle, text,
};
use crate::reference::drilling::{chisel_edge, drill_force};
use crate::reference::power::wear_factor;
use crate::sources::Trust;
use crate::working::{Constant, Record, Shown};
use std::f64::consts::TAU;

/// Exponent of feed, and of diameter in the thrust.
const SLOW: f64 = 0.8;
/// Exponent of diameter in the torque.
const FAST: f64 = 1.8;

const fn handbook(of: &'static str, value: f64) -> Constant {
    Constant { of, value, source: "mh31_drill_forces", place: "pp. 1152-1153, formulas, and factors as powers" }
}

const fn catalogue(of: &'static str, value: f64) -> Constant {
    Constant { of, value, source: "drill_power_catalogue", place: "formulas of torque and thrust" }
}

/// A chip of drilling is pressed more than one of turning.
const PROCESS: ProcessFactor = ProcessFactor {
    of: "constant:process_factor",
    value: 1.2,
    source: "process_factor_memory",
    place: "factor of drilling",
};

/// The forces found.
#[derive(Default)]
pub struct Forces {
    /// By the handbook.
    pub thrust: Option<FoundCuttingForce>,
    /// By the handbook, else by specific force.
    pub torque: Option<FoundTorque>,
    /// For that torque.
    pub power: Option<FoundPower>,
    /// By specific force.
    pub by_force: Option<FoundTorque>,
    /// By the tool maker's formula.
    pub catalogue: Option<(FoundCuttingForce, FoundTorque)>,
    by_handbook: bool,
    exponent: f64,
}

/// The forces of the cut; none without a material.
pub fn find(input: &DrillingInput, set: &TurnSet, record: &mut Record) -> Forces {
    let Some(material) = &input.material else { return Forces::default() };
    record.caution(cautions::FORCES);
    let size = input.diameter.size;
    let mut forces = Forces::default();
    forces.by_handbook = shaw_oxford(input, set, &mut forces, record);
    let point = record.or_assume(
        input.point_angle,
        "point_angle",
        PointAngle::stated(118.0, Unit::Degree),
        "118° is the general-purpose point; look at the drill.",
    );
    let chip = FoundChipThickness::of(set.feed_per_rev.get() / 2.0 * angle::sin(point.degrees() / 2.0));
    record
        .step("Thickness of the chip of each lip", "h = f / 2 × sin(σ / 2)")
        .with("f", "feed_per_rev", set.feed_per_rev)
        .with("σ", "point_angle", point)
        .gives("lip_chip", chip);
    if let Some(force) = specific_force(material, ("lip_chip", chip), &PROCESS, record) {
        let value = force.get().si() * set.feed_per_rev.get().si() * size.get().si().powi(2) / 8.0;
        let torque = FoundTorque::of(SiValue::from_si(value));
        record
            .step("Torque by specific cutting force", "M = kc × f × D ^ 2 / 8")
            .with("kc", "specific_force", force)
            .with("f", "feed_per_rev", set.feed_per_rev)
            .with("D", "diameter", size)
            .gives("torque_by_specific_force", torque);
        forces.by_force = Some(torque);
        forces.exponent = if forces.by_handbook { SLOW } else { 1.0 - material.0.forces[0].mc };
    }
    forces.catalogue = by_catalogue(input, set, record);
    if forces.torque.is_none() {
        forces.torque = forces.by_force;
        if let Some(torque) = forces.by_force {
            record
                .choose(
                    "Torque",
                    "that by specific cutting force, as the handbook's formula does not know the material",
                )
                .with("M", "torque_by_specific_force", torque)
                .gives("torque", torque);
        }
    }
    tell_spread(&forces, record);
    forces.power = forces.torque.map(|torque| {
        let power = FoundPower::of(SiValue::from_si(TAU * set.spindle_speed.get().si() * torque.get().si()));
        record
            .step("Power at the drill", "P = 2 × π × n × M")
            .with("n", "spindle_speed", set.spindle_speed)
            .with("M", "torque", torque)
            .gives("power", power);
        power
    });
    forces
}

/// The handbook's formulas; false where they have no constant for the material.
fn shaw_oxford(input: &DrillingInput, set: &TurnSet, forces: &mut Forces, record: &mut Record) -> bool {
    let material = input.material.as_ref().map(|material| material.0);
    let Some((torque_constant, thrust_constant, row)) = material.and_then(|one| drill_force(one, "shaw_oxford")) else {
        return false;
    };
    let grind = record.or_assume(
        input.point,
        "point",
        DrillGrind::Standard,
        "A standard point is taken; a split point takes much less thrust.",
    );
    let (share, words) = match grind {
        DrillGrind::Standard => (0.18, "0.18 of the diameter, a standard point"),
        DrillGrind::Split => (0.03, "0.03 of the diameter, a split point"),
    };
    let Some(edge) = chisel_edge(share) else { return false };
    record.source_trusted(row.source, row.place, row.trust);
    record.source_trusted("mh_power_memory", "wear factor of drilling", Trust::FromMemory);
    let table = || format!("drill_forces.csv, by hardness where its rows differ by it: {}", row.place);
    record.look_up("Work material factor of the torque", table()).gives("torque_constant", torque_constant);
    record.look_up("Work material factor of the thrust", table()).gives("thrust_constant", thrust_constant);
    let place = || format!("drill_chisel_edges.csv, chisel edge {words}");
    record.look_up("Chisel edge factor of the torque", place()).gives("chisel_a", edge.a);
    record.look_up("Chisel edge factor of the thrust of the lips", place()).gives("chisel_b", edge.b);
    record.look_up("Chisel edge factor of its own thrust", place()).gives("chisel_j", edge.j);
    let wear = Constant {
        of: "constant:wear_factor",
        value: wear_factor("drilling"),
        source: "mh_power_memory",
        place: "wear factor of drilling",
    };
    let (inch, pound) = (Unit::Inch.row().factor, Unit::PoundForce.row().factor);
    let across = input.diameter.size.get().si() / inch;
    let feed = set.feed_per_rev.get().si() / inch;
    let torque = pound * inch * torque_constant * feed.powf(SLOW) * across.powf(FAST) * edge.a * wear.value;
    let thrust = pound
        * thrust_constant
        * wear.value
        * (2.0 * feed.powf(SLOW) * across.powf(SLOW) * edge.b + across * across * edge.j);
    let one_inch = || Shown::from(Size::stated(1.0, Unit::Inch));
    let one_pound = || Shown::from(FoundCuttingForce::stated(1.0, Unit::PoundForce));
    let torque = FoundTorque::of(SiValue::from_si(torque));
    record
        .step("Torque by the handbook's formula", "M = F1 × i1 × Kd × (f / i1) ^ p × (D / i1) ^ q × A × W")
        .with("F1", "constant:one_pound", one_pound())
        .with("i1", "constant:one_inch", one_inch())
        .with("Kd", "torque_constant", torque_constant)
        .with("f", "feed_per_rev", set.feed_per_rev)
        .constant("p", &handbook("constant:feed_exponent", SLOW))
        .with("D", "diameter", input.diameter.size)
        .constant("q", &handbook("constant:torque_exponent", FAST))
        .with("A", "chisel_a", edge.a)
        .constant("W", &wear)
        .gives("torque", torque);
    let thrust = FoundCuttingForce::of(SiValue::from_si(thrust));
    record
        .step(
            "Thrust by the handbook's formula",
            "T = F1 × Kd × W × (2 × (f / i1) ^ p × (D / i1) ^ p × B + (D / i1) ^ 2 × J)",
        )
        .with("F1", "constant:one_pound", one_pound())
        .with("i1", "constant:one_inch", one_inch())
        .with("Kd", "thrust_constant", thrust_constant)
        .constant("W", &wear)
        .with("f", "feed_per_rev", set.feed_per_rev)
        .with("D", "diameter", input.diameter.size)
        .constant("p", &handbook("constant:feed_exponent", SLOW))
        .with("B", "chisel_b", edge.b)
        .with("J", "chisel_j", edge.j)
        .gives("thrust", thrust);
    forces.torque = Some(torque);
    forces.thrust = Some(thrust);
    true
}

/// A tool maker's formulas, where it lists the material.
fn by_catalogue(input: &DrillingInput, set: &TurnSet, record: &mut Record) -> Option<(FoundCuttingForce, FoundTorque)> {
    let (constant, _, row) = drill_force(input.material.as_ref()?.0, "catalogue")?;
    record.source_trusted(row.source, row.place, row.trust);
    record
        .look_up("The tool maker's constant of the material", format!("drill_forces.csv: {}", row.place))
        .gives("catalogue_constant", constant);
    let (d, f) = (input.diameter.size.get().si() / 1e-3, set.feed_per_rev.get().si() / 1e-3);
    let (a, b) = (catalogue("constant:torque_start", 0.630), catalogue("constant:torque_slope", 16.84));
    let torque = FoundTorque::of(SiValue::from_si(constant * d * d * (a.value + b.value * f) / 100.0));
    let one_millimetre = || Shown::from(Size::stated(1.0, Unit::Millimetre));
    record
        .step("Torque by the tool maker's formula", "M = M1 × K × (D / m1) ^ 2 × (a + b × f / m1) / 100")
        .with("M1", "constant:one_newton_metre", Shown::from(FoundTorque::stated(1.0, Unit::NewtonMetre)))
        .with("K", "catalogue_constant", constant)
        .with("D", "diameter", input.diameter.size)
        .with("m1", "constant:one_millimetre", one_millimetre())
        .constant("a", &a)
        .constant("b", &b)
        .with("f", "feed_per_rev", set.feed_per_rev)
        .gives("torque_by_catalogue", torque);
    let (t, q) = (catalogue("constant:thrust_factor", 570.0), catalogue("constant:thrust_exponent", 0.85));
    let thrust = FoundCuttingForce::of(SiValue::from_si(t.value * constant * d * f.powf(q.value)));
    record
        .step("Thrust by the tool maker's formula", "T = N1 × t × K × D / m1 × (f / m1) ^ q")
        .with("N1", "constant:one_newton", Shown::from(FoundCuttingForce::stated(1.0, Unit::Newton)))
        .constant("t", &t)
        .with("K", "catalogue_constant", constant)
        .with("D", "diameter", input.diameter.size)
        .with("m1", "constant:one_millimetre", one_millimetre())
        .with("f", "feed_per_rev", set.feed_per_rev)
        .constant("q", &q)
        .gives("thrust_by_catalogue", thrust);
    Some((thrust, torque))
}

/// Notes how far the methods lie apart.
fn tell_spread(forces: &Forces, record: &mut Record) {
    let all = [forces.torque, forces.by_force, forces.catalogue.map(|(_, torque)| torque)];
    let values: Vec<f64> = all.into_iter().flatten().map(|torque| torque.get().si()).collect();
    let (Some(least), Some(most)) =
        (values.iter().copied().min_by(f64::total_cmp), values.iter().copied().max_by(f64::total_cmp))
    else {
        return;
    };
    if most > 1.2 * least {
        record.note(
            "methods_differ",
            format!(
                "The published methods differ: the greatest torque is {} percent above the least; hold work and drill for \
                 the greatest.",
                text::full(text::round(100.0 * (most / least - 1.0), 0))
            ),
        );
    }
}

/// By how much the feed would have to fall for the power that there is: power goes with a power of
/// the feed.
pub fn feed_fall(load: &Load, forces: &Forces, record: &mut Record) -> Option<FoundPercentage> {
    let share = load.load.filter(|_| load.too_much)?;
    let exponent = Constant {
        of: "constant:power_exponent",
        value: forces.exponent,
        source: if forces.by_handbook { "mh31_drill_forces" } else { "kinematics" },
        place: "power goes with the feed to this power",
    };
    let fall = FoundPercentage::of(SiValue::from_si(1.0 - (1.0 / share.get().si()).powf(1.0 / exponent.value)));
    record
        .step("By how much the feed would have to fall", "δ = 1 - (1 / λ) ^ (1 / p)")
        .with("λ", "load", share)
        .constant("p", &exponent)
        .gives("power_feed_fall", fall);
    Some(fall)
}
