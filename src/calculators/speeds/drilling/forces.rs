//! Thrust and torque of a drill: by the handbook's formula after Shaw and Oxford (Machinery's Handbook,
//! 31st edition, pp. 1152-1153), by specific cutting force, and by a tool maker's formula.

use super::{DrillGrind, DrillingInput};
use crate::calculators::prelude::*;
use crate::machine::{Load, ProcessFactor, SetSpeed, TurnFeed, process_factor, specific_force};
use crate::reference::drilling::{chisel_edge, drill_force};
use crate::reference::power::wear_factor;
use crate::sources::Trust;

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
const PROCESS: ProcessFactor = process_factor(1.2, "factor of drilling");

/// The forces found.
#[derive(Debug, Gives)]
pub struct Forces {
    /// Thrust by the handbook's formula; needs a material that the formula covers.
    pub thrust: Option<FoundCuttingForce>,
    /// Torque by the handbook's formula, or by specific cutting force where the formula does not cover the material.
    pub torque: Option<FoundTorque>,
    /// Power at the drill for that torque.
    #[label("Power at the drill")]
    pub power: Option<FoundPower>,
    /// Torque by specific cutting force, the second method.
    pub torque_by_specific_force: Option<FoundTorque>,
    /// Thrust by a tool maker's formula, where it lists the material.
    #[label("Thrust by tool maker")]
    pub thrust_by_catalogue: Option<FoundCuttingForce>,
    /// Torque by a tool maker's formula, where it lists the material.
    #[label("Torque by tool maker")]
    pub torque_by_catalogue: Option<FoundTorque>,
}

/// The forces of the cut; none without a material.
pub fn find(input: &DrillingInput, (speed, feed): (&SetSpeed, &TurnFeed), record: &mut Record) -> Option<Forces> {
    let material = input.wanted.work.material.as_ref()?;
    record.caution(cautions::FORCES);
    let (diameter, feed_per_rev) = (input.diameter.size, feed.feed_per_rev);
    let (thrust, by_handbook) = shaw_oxford(input, feed_per_rev, record).unzip();
    let point_angle = input.point_angle(record);
    let lip_chip = step!(record, "Chip thickness of each lip",
        h: lip_chip = f / 2.0 * sin(σ / 2.0), f = feed_per_rev, σ = point_angle);
    let by_force = specific_force(material, ("lip_chip", lip_chip), &PROCESS, record).map(|force| {
        step!(record, "Torque by specific cutting force", M: torque_by_specific_force = kc * f * squared(D) / 8.0,
            kc = specific_force: force, f = feed_per_rev, D = diameter)
    });
    let (thrust_by_catalogue, torque_by_catalogue) = by_catalogue(input, feed_per_rev, record).unzip();
    if let (None, Some(torque)) = (by_handbook, by_force) {
        record
            .choose(
                "Torque",
                "the one by specific cutting force, because the handbook's formula does not cover the material",
            )
            .with("M", "torque_by_specific_force", torque)
            .gives("torque", torque);
    }
    let torque = by_handbook.or(by_force);
    tell_spread([torque, by_force, torque_by_catalogue], record);
    let power = torque.map(|torque| {
        step!(record, "Power at the drill", P: power = 2.0 * π * n * M,
            n = spindle_speed: speed.spindle_speed, M = torque)
    });
    Some(Forces { thrust, torque, power, torque_by_specific_force: by_force, thrust_by_catalogue, torque_by_catalogue })
}

/// Thrust and torque by the handbook's formulas; none where they have no constant for the material.
fn shaw_oxford(
    input: &DrillingInput,
    feed_per_rev: FoundFeedPerRev,
    record: &mut Record,
) -> Option<(FoundCuttingForce, FoundTorque)> {
    let (torque_constant, thrust_constant, row) = drill_force(input.wanted.work.material?.0, "shaw_oxford")?;
    let (share, words) = match input.point(record) {
        DrillGrind::Standard => (0.18, "0.18 of the diameter, a standard point"),
        DrillGrind::Split => (0.03, "0.03 of the diameter, a split point"),
    };
    let edge = chisel_edge(share)?;
    record.source_trusted(row.source, row.place, row.trust);
    record.source_trusted("mh_power_memory", "wear factor of drilling", Trust::FromMemory);
    let table = || format!("drill_forces.csv, by hardness where the rows depend on it: {}", row.place);
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
    let diameter = input.diameter.size;
    let inch = Size::stated(1.0, Unit::Inch);
    let pound = FoundCuttingForce::stated(1.0, Unit::PoundForce);
    let torque = step!(record, "Torque by the handbook's formula",
        M: torque = F1 * i1 * Kd * power(f / i1, p) * power(D / i1, q) * A * W,
        F1 = "constant:one_pound": pound, i1 = "constant:one_inch": inch, Kd = torque_constant, f = feed_per_rev,
        p = const handbook("constant:feed_exponent", SLOW), D = diameter,
        q = const handbook("constant:torque_exponent", FAST), A = chisel_a: edge.a, W = const wear);
    let thrust = step!(record, "Thrust by the handbook's formula",
        T: thrust = F1 * Kd * W * (2.0 * power(f / i1, p) * power(D / i1, p) * B + squared(number(D / i1)) * J),
        F1 = "constant:one_pound": pound, i1 = "constant:one_inch": inch, Kd = thrust_constant, W = const wear,
        f = feed_per_rev, D = diameter, p = const handbook("constant:feed_exponent", SLOW),
        B = chisel_b: edge.b, J = chisel_j: edge.j);
    Some((thrust, torque))
}

/// Thrust and torque by a tool maker's formulas, where it lists the material.
fn by_catalogue(
    input: &DrillingInput,
    feed_per_rev: FoundFeedPerRev,
    record: &mut Record,
) -> Option<(FoundCuttingForce, FoundTorque)> {
    let (constant, _, row) = drill_force(input.wanted.work.material?.0, "catalogue")?;
    record.source_trusted(row.source, row.place, row.trust);
    record
        .look_up("The tool maker's constant of the material", format!("drill_forces.csv: {}", row.place))
        .gives("catalogue_constant", constant);
    let diameter = input.diameter.size;
    let millimetre = Size::stated(1.0, Unit::Millimetre);
    let torque = step!(record, "Torque by the tool maker's formula",
        M: torque_by_catalogue = M1 * K * squared(number(D / m1)) * (a + number(b * f / m1)) / 100.0,
        M1 = "constant:one_newton_metre": FoundTorque::stated(1.0, Unit::NewtonMetre), K = catalogue_constant: constant,
        D = diameter, m1 = "constant:one_millimetre": millimetre, a = const catalogue("constant:torque_start", 0.630),
        b = const catalogue("constant:torque_slope", 16.84), f = feed_per_rev);
    let thrust = step!(record, "Thrust by the tool maker's formula",
        T: thrust_by_catalogue = N1 * t * K * D / m1 * power(f / m1, q),
        N1 = "constant:one_newton": FoundCuttingForce::stated(1.0, Unit::Newton),
        t = const catalogue("constant:thrust_factor", 570.0), K = catalogue_constant: constant, D = diameter,
        m1 = "constant:one_millimetre": millimetre, f = feed_per_rev,
        q = const catalogue("constant:thrust_exponent", 0.85));
    Some((thrust, torque))
}

/// Notes how far the methods lie apart.
fn tell_spread(torques: [Option<FoundTorque>; 3], record: &mut Record) {
    let values: Vec<f64> = torques.into_iter().flatten().map(|torque| torque.get().si()).collect();
    let (Some(least), Some(most)) =
        (values.iter().copied().min_by(f64::total_cmp), values.iter().copied().max_by(f64::total_cmp))
    else {
        return;
    };
    if most > 1.2 * least {
        record.note(
            "methods_differ",
            format!(
                "The published methods differ: the highest torque is {} percent above the lowest. Clamp the work for the \
                 highest.",
                text::full(text::round(100.0 * (most / least - 1.0), 0))
            ),
        );
    }
}

/// By how much the feed would have to fall for the power that there is: power goes with a power of
/// the feed.
pub fn feed_fall(load: &Load, input: &DrillingInput, forces: &Forces, record: &mut Record) -> Option<FoundPercentage> {
    let load = load.too_much()?;
    let (value, source) = match forces.thrust {
        Some(_) => (SLOW, "mh31_drill_forces"),
        None => (1.0 - input.wanted.work.material?.0.forces.first()?.mc, "kinematics"),
    };
    let place = "power goes with the feed to this power";
    let exponent = Constant { of: "constant:power_exponent", value, source, place };
    Some(step!(record, "How much less the feed must be",
        δ: power_feed_fall = ratio(1.0 - power(1.0 / number(λ), 1.0 / p)), λ = load, p = const exponent))
}
