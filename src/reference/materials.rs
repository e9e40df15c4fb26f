//! Work materials: their names, hardness, machinability and unit power from data/materials.csv, and
//! their specific cutting force by families from data/cutting_forces.csv.

use super::{rows_of, source_key};
use crate::sources::Trust;
use serde::Deserialize;
use std::collections::HashSet;
use std::sync::LazyLock;

crate::choice! {
    /// Group of work materials after ISO 513: P steel, M stainless steel, K cast iron, N non-ferrous, S heat-resistant, H hardened.
    MaterialGroup {
        /// Steel.
        P = "p",
        /// Stainless steel, austenitic.
        M = "m",
        /// Cast iron.
        K = "k",
        /// Non-ferrous metals and plastics.
        N = "n",
        /// Heat-resistant alloys and titanium.
        S = "s",
        /// Hardened steel.
        H = "h",
    }
}

crate::choice! {
    /// Family of tables that a specific cutting force belongs to: `modern` class values, the `older` table, `carbide_era` values, or an `estimate`.
    ForceFamily {
        /// Class values of a present table book.
        Modern = "modern",
        /// The older table, which runs high for alloy steel.
        Older = "older",
        /// Values of carbide turning, which run low.
        CarbideEra = "carbide_era",
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

/// A specific cutting force: kc = kc1.1 / h^mc, h in millimetres, kc1.1 in N/mm².
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
    words: HashSet<String>,
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
    let text = [&row.id, &row.name, &row.us_designation, &row.en_designation, &row.words, &row.condition];
    let words = text.iter().flat_map(|text| tokens(text)).collect();
    let mut own: Vec<Force> = forces
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
    // A class value is preferred, then the older table; carbide-era values run low.
    let rank = |family| match family {
        ForceFamily::Modern => 0,
        ForceFamily::Older => 1,
        ForceFamily::Estimate => 2,
        ForceFamily::CarbideEra => 3,
    };
    own.sort_by_key(|force| rank(force.family));
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
        words,
    }
}

/// Every material of the table.
pub fn materials() -> &'static [Material] {
    &MATERIALS
}

/// Words and numbers of a text, in lower case; a number keeps its points.
fn tokens(text: &str) -> Vec<String> {
    text.to_lowercase()
        .split(|c: char| !(c.is_alphanumeric() || c == '.'))
        .map(|word| word.trim_matches('.').to_owned())
        .filter(|word| !word.is_empty())
        .collect()
}

/// Words before a designation that name only its system.
const SYSTEMS: &[&str] = &["aisi", "sae", "uns", "en", "astm", "din", "aw", "iso"];

/// The materials that a text means: by their short name, else those that have every word of it, else
/// those that have words beginning with every word of it.
pub fn search(text: &str) -> Vec<&'static Material> {
    let said = text.trim().to_lowercase();
    if let Some(one) = materials().iter().find(|material| material.id == said) {
        return vec![one];
    }
    let mut wanted = tokens(&said);
    if wanted.len() > 1 {
        wanted.retain(|word| !SYSTEMS.contains(&word.as_str()));
    }
    if wanted.is_empty() {
        return Vec::new();
    }
    let exactly: Vec<_> = materials().iter().filter(|m| wanted.iter().all(|word| m.words.contains(word))).collect();
    if !exactly.is_empty() {
        return exactly;
    }
    let begins = |m: &&Material| {
        wanted.iter().all(|word| word.len() > 1 && m.words.iter().any(|own| own.starts_with(word.as_str())))
    };
    materials().iter().filter(begins).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ids(text: &str) -> Vec<&'static str> {
        search(text).iter().map(|material| material.id).collect()
    }

    #[test]
    fn a_material_is_found_by_any_of_its_names() {
        for text in ["1018", "AISI 1018", "G10180", "C22", "1.0402"] {
            assert_eq!(ids(text), ["1018"], "{text}");
        }
        assert_eq!(ids("C45"), ["1045-normalised"]);
        assert_eq!(ids("1.1191"), ["1045-normalised", "1045-quenched"]);
        assert_eq!(ids("4140 annealed"), ["4140-annealed"]);
        assert_eq!(ids("42CrMo4"), ["4140-annealed", "4140-prehardened"]);
        assert_eq!(ids("6061-T6"), ["6061"]);
        assert_eq!(ids("brass"), ["c36000", "c26000", "c46400"]);
        assert!(ids("stainless").len() > 8);
        assert!(ids("unobtainium").is_empty() && ids("  ").is_empty() && ids("-").is_empty());
    }

    #[test]
    fn short_names_are_unique_and_every_number_has_a_source() {
        let mut seen = HashSet::new();
        assert_eq!(materials().len(), 96);
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
