//! Specific cutting force after Kienzle, kc = kc1.1 / h^mc: the second way to the power of a cut.
//! Families of tables disagree; the material's first one is taken and the spread is told.

use crate::quantity::{FoundChipThickness, FoundPower, FoundSpecificForce, SiValue, Unit, text};
use crate::reference::material_name::WorkMaterial;
use crate::reference::materials::ForceFamily;
use crate::working::{Constant, Record};

/// Factor of the process on a specific force that was measured in outside turning.
pub type ProcessFactor = Constant;

/// A factor of the process, at its place in the tables.
pub const fn process_factor(value: f64, place: &'static str) -> ProcessFactor {
    Constant { of: "constant:process_factor", value, source: "process_factor_memory", place }
}

/// Chips are thinner or thicker than the tables were made for.
const THINNEST: f64 = 50e-6;
const THICKEST: f64 = 2.5e-3;

/// The specific cutting force at a chip thickness: the steps that give `specific_force_one`,
/// `force_exponent` and `specific_force`.
pub fn specific_force(
    material: &WorkMaterial,
    (of, chip): (&'static str, FoundChipThickness),
    process: &ProcessFactor,
    record: &mut Record,
) -> Option<FoundSpecificForce> {
    let force = material.0.forces.first()?;
    let cited = &force.kc11;
    record.source_trusted(cited.source, cited.place, cited.trust);
    let one = FoundSpecificForce::stated(cited.value, Unit::NewtonPerSquareMillimetre);
    let table = format!("cutting_forces.csv, {}, family {}", material.0.id, force.family.as_str());
    record.look_up("Specific force at a chip of 1 mm by 1 mm", table.clone()).gives("specific_force_one", one);
    record.look_up("Exponent of that force", table).gives("force_exponent", force.mc);
    let millimetre = FoundChipThickness::stated(1.0, Unit::Millimetre);
    let thickness = chip.get().si();
    let value = one.get().si() * (thickness / 1e-3).powf(-force.mc) * process.value;
    let found = FoundSpecificForce::of(SiValue::from_si(value));
    record
        .step("Specific cutting force at that chip", "kc = k1 × (h1 / h)^m × K")
        .with("k1", "specific_force_one", one)
        .with("h1", "constant:one_millimetre", millimetre)
        .with("h", of, chip)
        .with("m", "force_exponent", force.mc)
        .constant("K", process)
        .gives("specific_force", found);
    tell_spread(material, thickness, record);
    if !(THINNEST..=THICKEST).contains(&thickness) {
        record.note(
            "chip_outside_force",
            "Specific cutting force was measured on chips of 0.05 to 2.5 mm, and this chip is outside; on thinner chips \
             the force rises faster than the formula says.",
        );
    }
    Some(found)
}

/// Notes how far the families of tables lie apart at this chip.
fn tell_spread(material: &WorkMaterial, thickness: f64, record: &mut Record) {
    let at = |kc11: f64, mc: f64| kc11 * (thickness / 1e-3).powf(-mc);
    let forces = &material.0.forces;
    let Some(first) = forces.first() else { return };
    let base = at(first.kc11.value, first.mc);
    let shares: Vec<String> = forces[1..]
        .iter()
        .map(|force| {
            let percent = text::full(text::round(100.0 * at(force.kc11.value, force.mc) / base, 0));
            format!("{} gives {percent} percent", family_words(force.family))
        })
        .collect();
    if !shares.is_empty() {
        record.note(
            "force_families",
            format!(
                "Published specific forces disagree. The answer uses {}; compared with it, at this chip: {}.",
                family_words(first.family),
                shares.join(" and ")
            ),
        );
    }
}

fn family_words(family: ForceFamily) -> &'static str {
    match family {
        ForceFamily::Modern => "the class value of a current handbook",
        ForceFamily::Older => "an older handbook",
        ForceFamily::CarbideEra => "a table of carbide turning",
        ForceFamily::Vdi3323 => "a tool maker's material group",
        ForceFamily::Estimate => "an estimate",
    }
}

/// Notes where the two ways to the power differ by more than a fifth of the smaller.
pub fn compare_methods(by_unit: FoundPower, by_force: FoundPower, record: &mut Record) {
    let (a, b) = (by_unit.get().si(), by_force.get().si());
    let difference = (a - b).abs() / a.min(b);
    if difference > 0.2 {
        record.note(
            "methods_differ",
            format!(
                "Specific cutting force gives a power {} percent {} than unit power does; use the larger.",
                text::full(text::round(100.0 * (b / a - 1.0).abs(), 0)),
                if b > a { "larger" } else { "smaller" }
            ),
        );
    }
}
