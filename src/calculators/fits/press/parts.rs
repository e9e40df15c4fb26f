//! What hub and shaft are made of: stiffness, Poisson's ratio and expansion, with their steps and sources.

use super::PressFitInput;
use crate::calculators::prelude::*;
use crate::reference::material_name::WorkMaterial;
use crate::reference::material_physical::physical;
use crate::reference::material_search::with_id;
use crate::reference::materials::materials;
use crate::working::known_steps;

/// One part's constants, with the fields that they stand under.
pub struct Part {
    /// The modulus of elasticity at its least and at its greatest.
    pub modulus: [(&'static str, FoundStrength); 2],
    /// Poisson's ratio.
    pub poisson: (&'static str, f64),
    /// Expansion for each kelvin, at its least.
    pub expansion: (&'static str, f64),
}

/// Both parts.
pub struct Parts {
    /// The part outside.
    pub hub: Part,
    /// The part inside.
    pub shaft: Part,
}

/// Plain carbon steel, the usual material.
pub fn carbon_steel() -> WorkMaterial {
    WorkMaterial(with_id("1040").unwrap_or(&materials()[0]))
}

/// The diameter of the joint, in meters.
pub fn joint(input: &PressFitInput) -> f64 {
    input.fit.as_ref().map(|fit| fit.size).or(input.diameter).map_or(0.0, |size| size.si())
}

/// Names of the steps of one part.
struct Names {
    what: &'static str,
    given: &'static str,
    low: &'static str,
    high: &'static str,
    poisson: &'static str,
    expansion: &'static str,
}

macro_rules! names {
    ($part:literal) => {
        Names {
            what: $part,
            given: concat!($part, "_modulus"),
            low: concat!($part, ".modulus_low"),
            high: concat!($part, ".modulus_high"),
            poisson: concat!($part, ".poisson"),
            expansion: concat!($part, ".expansion"),
        }
    };
}

/// The constants of both parts.
pub fn read(input: &PressFitInput, record: &mut Record) -> Parts {
    let (hub, shaft) = (input.hub_material(record), input.shaft_material(record));
    Parts {
        hub: part(&names!("hub"), hub, input.hub_modulus, record),
        shaft: part(&names!("shaft"), shaft, input.shaft_modulus, record),
    }
}

fn part(names: &Names, material: WorkMaterial, modulus: Option<Strength>, record: &mut Record) -> Part {
    let row = physical(material.0);
    let table = format!("material_physical.csv, row {}", row.material);
    row.poisson.cite(record, "Poisson's ratio", row);
    row.expansion.cite(record, "expansion", row);
    let modulus = match modulus {
        Some(modulus) => [(names.given, modulus.found()), (names.given, modulus.found())],
        None => {
            row.modulus.cite(record, "modulus of elasticity", row);
            let [low, high] = [row.modulus.low, row.modulus.high].map(FoundStrength::of_si);
            known_steps! { record;
                look_up format!("Modulus of the {}, at its least", names.what), table.clone()
                    => names.low, low;
                look_up format!("Modulus of the {}, at its greatest", names.what), table.clone()
                    => names.high, high;
            }
            if row.modulus.high > row.modulus.low {
                record.note(
                    "modulus_is_a_range",
                    "The material's modulus is a range: the joint holds by its low end, and stress and force of the \
                     press go by its high end.",
                );
            }
            [(names.low, low), (names.high, high)]
        }
    };
    if row.expansion.high > row.expansion.low {
        record.note("expansion_is_a_range", "The material's expansion is a range: the temperatures go by its low end.");
    }
    known_steps! { record;
        look_up format!("Poisson's ratio of the {}", names.what), table.clone()
            => names.poisson, row.poisson.middle();
        look_up format!("Expansion of the {} for each kelvin", names.what), table
            => names.expansion, row.expansion.low;
    }
    Part { modulus, poisson: (names.poisson, row.poisson.middle()), expansion: (names.expansion, row.expansion.low) }
}
