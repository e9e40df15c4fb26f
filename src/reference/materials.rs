//! Work materials: their names, hardness, machinability and unit power from data/materials.csv, and
//! their specific cutting force by families from data/cutting_forces.csv.

pub use super::material_search::search;
use super::material_search::tokens;
use super::{rows_of, source_key};
use crate::sources::Trust;
use serde::Deserialize;
use std::collections::HashSet;
use std::sync::LazyLock;

crate::choice! {
    /// Group of work materials after ISO 513: P steel, M stainless steel, K cast iron, N non-ferrous, S heat-resistant, H hardened.
    MaterialGroup {
        /// Steel.
        P = "P" | "p",
        /// Stainless steel, austenitic.
        M = "M" | "m",
        /// Cast iron.
        K = "K" | "k",
        /// Non-ferrous metals and plastics.
        N = "N" | "n",
        /// Heat-resistant alloys and titanium.
        S = "S" | "s",
        /// Hardened steel.
        H = "H" | "h",
    }
}

crate::choice! {
    /// Family of tables that a specific cutting force belongs to: `modern` class values, the `older` table, `carbide_era` values, `vdi_3323` groups of a tool maker, or an `estimate`.
    ForceFamily {
        /// Class values of a present table book.
        Modern = "modern",
        /// The older table, which runs high for alloy steel.
        Older = "older",
        /// Values of carbide turning, which run low.
        CarbideEra = "carbide_era",
        /// A tool maker's values by groups after VDI 3323.
        Vdi3323 = "vdi_3323",
        /// Recalled or estimated.
        Estimate = "estimate",
    }
}

/// A number with who says so.
#[derive(Clone, Debug)]
pub struct Cited {
    /// The number.
    pub value: f64,
    /// Key of the source.
    pub source: &'static str,
    /// Where in the source.
    pub place: &'static str,
    /// How far it can be relied on.
    pub trust: Trust,
}

/// A specific cutting force: kc = kc1.1 / h^mc, h in millimeters, kc1.1 in N/mm².
#[derive(Clone, Debug)]
pub struct Force {
    /// The family of tables.
    pub family: ForceFamily,
    /// kc1.1, with its source.
    pub kc11: Cited,
    /// The exponent mc.
    pub mc: f64,
}

/// A work material.
#[derive(Debug)]
pub struct Material {
    /// The short name that does not change.
    pub id: &'static str,
    /// What it is, in words.
    pub name: &'static str,
    /// AISI, UNS or ASTM designation; empty if none.
    pub us: &'static str,
    /// EN designation and number; empty if none.
    pub en: &'static str,
    /// Group after ISO 513.
    pub group: MaterialGroup,
    /// Condition.
    pub condition: &'static str,
    /// Brinell hardness, from and to.
    pub hardness: Option<(f64, f64)>,
    /// The group of feeds it belongs to.
    pub feed_group: &'static str,
    /// Codes of its own cautions.
    pub cautions: Vec<&'static str>,
    /// Machinability in percent: of AISI B1112, of C36000 for copper alloys.
    pub machinability: Option<Cited>,
    /// Unit power in horsepower for each cubic inch per minute, from and to, for a sharp tool and 0.012 in feed.
    pub unit_power: (f64, f64),
    /// Who says so of the unit power.
    pub unit_power_cited: Cited,
    /// Specific cutting forces, the one to use by default first.
    pub forces: Vec<Force>,
    /// Words that name it.
    pub(super) names: HashSet<String>,
    /// Words of designations that stand beside it and may be only near it.
    pub(super) near: HashSet<String>,
}

impl Material {
    /// The middle of its hardness.
    pub fn mid_hardness(&self) -> Option<f64> {
        self.hardness.map(|(low, high)| (low + high) / 2.0)
    }

    /// The middle of its unit power.
    pub fn mid_unit_power(&self) -> f64 {
        (self.unit_power.0 + self.unit_power.1) / 2.0
    }
}

#[derive(Deserialize)]
struct Row {
    id: String,
    name: String,
    us_designation: String,
    en_designation: String,
    words: String,
    iso513_group: String,
    condition: String,
    hb_low: Option<f64>,
    hb_high: Option<f64>,
    feed_group: String,
    cautions: String,
    machinability_percent: Option<f64>,
    machinability_source: String,
    machinability_place: String,
    machinability_trust: Option<Trust>,
    unit_power_low: f64,
    unit_power_high: f64,
    unit_power_source: String,
    unit_power_place: String,
    unit_power_trust: Trust,
}

#[derive(Deserialize)]
struct ForceRow {
    material: String,
    family: ForceFamily,
    kc11_n_per_mm2: f64,
    mc: f64,
    source: String,
    place: String,
    trust: Trust,
}

static MATERIALS: LazyLock<Vec<Material>> = LazyLock::new(|| {
    let forces: Vec<ForceRow> = rows_of(include_str!("../../data/cutting_forces.csv")).collect();
    rows_of(include_str!("../../data/materials.csv")).map(|row| material(row, &forces)).collect()
});

fn group_named(letter: &str) -> MaterialGroup {
    use MaterialGroup::*;
    let all = [P, M, K, N, S, H];
    all.into_iter().find(|group| group.as_str().eq_ignore_ascii_case(letter)).unwrap_or(P)
}

fn material(row: Row, forces: &[ForceRow]) -> Material {
    let (us, en) = (tokens(&row.us_designation), tokens(&row.en_designation));
    // A cell that says near or close holds other alloys too.
    let is_own = !us.iter().any(|word| word == "near" || word == "close");
    let mut names: HashSet<String> =
        [&row.id, &row.name, &row.words, &row.condition].into_iter().flat_map(|text| tokens(text)).collect();
    let mut near: HashSet<String> = en.into_iter().collect();
    if is_own {
        names.extend(us)
    } else {
        near.extend(us)
    }
    near.retain(|word| word != "near" && word != "close" && word != "none");
    let own: Vec<Force> = forces
        .iter()
        .filter(|force| force.material == row.id)
        .map(|force| Force {
            family: force.family,
            kc11: Cited {
                value: force.kc11_n_per_mm2,
                source: source_key(&force.source),
                place: force.place.clone().leak(),
                trust: force.trust,
            },
            mc: force.mc,
        })
        .collect();
    let machinability = row.machinability_percent.zip(row.machinability_trust).map(|(value, trust)| Cited {
        value,
        source: source_key(&row.machinability_source),
        place: row.machinability_place.clone().leak(),
        trust,
    });
    Material {
        id: row.id.leak(),
        name: row.name.leak(),
        us: row.us_designation.leak(),
        en: row.en_designation.leak(),
        group: group_named(&row.iso513_group),
        condition: row.condition.leak(),
        hardness: row.hb_low.zip(row.hb_high),
        feed_group: row.feed_group.leak(),
        cautions: row.cautions.leak().split_whitespace().collect(),
        machinability,
        unit_power: (row.unit_power_low, row.unit_power_high),
        unit_power_cited: Cited {
            value: (row.unit_power_low + row.unit_power_high) / 2.0,
            source: source_key(&row.unit_power_source),
            place: row.unit_power_place.leak(),
            trust: row.unit_power_trust,
        },
        forces: own,
        names,
        near,
    }
}

/// Every material of the table.
pub fn materials() -> &'static [Material] {
    &MATERIALS
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn short_names_are_unique_and_every_number_has_a_source() {
        let mut seen = HashSet::new();
        assert_eq!(materials().len(), 107);
        for material in materials() {
            assert!(seen.insert(material.id));
            assert!(!material.forces.is_empty(), "{}", material.id);
            let cited = material.forces.iter().map(|force| &force.kc11).chain(material.machinability.as_ref());
            for one in cited.chain([&material.unit_power_cited]) {
                assert!(!one.source.is_empty() && one.value > 0.0, "{}", material.id);
            }
            assert!(material.unit_power.0 <= material.unit_power.1);
            assert!(material.hardness.is_none_or(|(low, high)| low < high));
        }
    }
}
