//! What the work materials weigh, how they stretch and how they expand, from data/material_physical.csv; each property
//! is a range with a source and a trust of its own.

use super::materials::{Material, materials};
use super::{rows_of, source_key};
use crate::sources::Trust;
use crate::working::Record;
use serde::Deserialize;
use std::sync::LazyLock;

/// A published property, in SI units: from and to, the same where the source prints one value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Property {
    /// The least value.
    pub low: f64,
    /// The greatest value.
    pub high: f64,
    /// Key of the source.
    pub source: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
}

impl Property {
    /// The middle of the range.
    pub fn middle(&self) -> f64 {
        f64::midpoint(self.low, self.high)
    }

    /// Cites the source of this property of a material: `density`, say.
    pub fn cite(&self, record: &mut Record, property: &str, of: &Physical) {
        let note = if of.note.is_empty() { String::new() } else { format!(" ({})", of.note) };
        record.source_trusted(self.source, format!("{property} of {}{note}", of.material), self.trust);
    }
}

/// The physical properties of one work material.
#[derive(Debug)]
pub struct Physical {
    /// The material's short name.
    pub material: &'static str,
    /// Density, in kilograms per cubic meter.
    pub density: Property,
    /// Modulus of elasticity, in pascals.
    pub modulus: Property,
    /// Poisson's ratio.
    pub poisson: Property,
    /// Mean expansion from 20 to 100 °C, in meters per meter and kelvin.
    pub expansion: Property,
    /// Whose values these are, if not the material's own, and what other texts print; may be empty.
    pub note: &'static str,
}

#[derive(Deserialize)]
struct Row {
    material: String,
    density_low_g_cm3: f64,
    density_high_g_cm3: f64,
    density_source: String,
    density_trust: Trust,
    modulus_low_gpa: f64,
    modulus_high_gpa: f64,
    modulus_source: String,
    modulus_trust: Trust,
    poisson: f64,
    poisson_source: String,
    poisson_trust: Trust,
    expansion_low_um_m_k: f64,
    expansion_high_um_m_k: f64,
    expansion_source: String,
    expansion_trust: Trust,
    note: String,
}

/// Every row, in the order of the materials.
static ROWS: LazyLock<Vec<Physical>> = LazyLock::new(|| {
    let property =
        |(low, high): (f64, f64), source: &str, trust| Property { low, high, source: source_key(source), trust };
    rows_of(include_str!("../../data/material_physical.csv"))
        .map(|row: Row| Physical {
            material: row.material.leak(),
            density: property(
                (row.density_low_g_cm3 * 1e3, row.density_high_g_cm3 * 1e3),
                &row.density_source,
                row.density_trust,
            ),
            modulus: property(
                (row.modulus_low_gpa * 1e9, row.modulus_high_gpa * 1e9),
                &row.modulus_source,
                row.modulus_trust,
            ),
            poisson: property((row.poisson, row.poisson), &row.poisson_source, row.poisson_trust),
            expansion: property(
                (row.expansion_low_um_m_k / 1e6, row.expansion_high_um_m_k / 1e6),
                &row.expansion_source,
                row.expansion_trust,
            ),
            note: row.note.leak(),
        })
        .collect()
});

/// The physical properties of a material: every material has a row, in the order of the materials.
pub fn physical(material: &Material) -> &'static Physical {
    let at = materials().iter().position(|one| one.id == material.id).unwrap_or(0);
    &ROWS[at]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_material_has_its_row_in_its_place() {
        assert_eq!(ROWS.len(), materials().len());
        for material in materials() {
            assert_eq!(physical(material).material, material.id);
        }
    }

    #[test]
    fn every_property_is_a_range_that_matter_can_have_with_a_source() {
        for row in ROWS.iter() {
            for (property, least, most) in [
                (row.density, 900.0, 9000.0),
                (row.modulus, 0.3e9, 230e9),
                (row.poisson, 0.2, 0.5),
                (row.expansion, 5e-6, 400e-6),
            ] {
                assert!(least <= property.low && property.low <= property.high && property.high <= most, "{row:?}");
                assert!(
                    crate::sources::source(property.source).is_some_and(|it| it.trust <= property.trust),
                    "{row:?}"
                );
            }
        }
    }
}
