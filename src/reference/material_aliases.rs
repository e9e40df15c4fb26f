//! Designations of other standards and names of the shop, from data/material_aliases.csv: which material of the
//! tables one is, is near, or leaves open.

use super::rows_of;
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

/// How a name stands to the materials of the tables.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Relation {
    /// Another name of the same alloy.
    Same,
    /// An alloy of another standard that is near it, with limits of its own.
    Near,
    /// A word that leaves open which of several is meant.
    Ask,
    /// A material that is known by name, of which the tables have nothing.
    Known,
}

/// A name that is not a short name of the tables.
#[derive(Debug)]
pub struct Alias {
    /// The name as its standard writes it.
    pub name: &'static str,
    /// How it stands to the materials.
    pub relation: Relation,
    /// Short names of the materials, none for one that is only known.
    pub materials: Vec<&'static str>,
    /// The question to ask, what a known material is, or in what a near one differs; may be empty.
    pub says: &'static str,
}

#[derive(Deserialize)]
struct Row {
    alias: String,
    relation: Relation,
    materials: String,
    says: String,
}

static ALIASES: LazyLock<HashMap<String, Alias>> = LazyLock::new(|| {
    rows_of(include_str!("../../data/material_aliases.csv"))
        .map(|row: Row| {
            let alias = Alias {
                name: row.alias.leak(),
                relation: row.relation,
                materials: row.materials.leak().split_whitespace().collect(),
                says: row.says.leak(),
            };
            (bare(alias.name), alias)
        })
        .collect()
});

/// A name without case, blanks, hyphens and dots, by which names are compared.
pub fn bare(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric() || *c == '+').flat_map(char::to_lowercase).collect()
}

/// Every alias, in no order.
pub fn aliases() -> impl Iterator<Item = &'static Alias> {
    ALIASES.values()
}

/// Words before a designation that name only its system.
pub(super) const SYSTEMS: &[&str] =
    &["aisi", "sae", "uns", "en", "astm", "din", "bs", "jis", "aa", "aw", "iso", "wnr", "werkstoff"];

/// The alias that a text is, with or without the name of its system before it. The whole is tried first: SAE 660 is
/// a bronze and AISI 660 a heat-resistant alloy.
pub fn alias(text: &str) -> Option<&'static Alias> {
    let mut rest = text.trim();
    loop {
        if let Some(found) = ALIASES.get(&bare(rest)) {
            return Some(found);
        }
        let (first, after) = rest.split_once(char::is_whitespace)?;
        if !SYSTEMS.contains(&bare(first).as_str()) {
            return None;
        }
        rest = after.trim();
    }
}

#[cfg(test)]
mod tests {
    use super::super::materials::materials;
    use super::*;

    #[test]
    fn every_alias_is_one_name_of_materials_that_are_there() {
        let lines = include_str!("../../data/material_aliases.csv").lines().count() - 1;
        assert_eq!(ALIASES.len(), lines, "two rows are the same name once blanks, hyphens and dots are gone");
        for alias in aliases() {
            assert!(materials().iter().all(|material| bare(material.id) != bare(alias.name)), "{alias:?}");
            for id in &alias.materials {
                assert!(materials().iter().any(|material| material.id == *id), "{alias:?}");
            }
            match alias.relation {
                Relation::Same | Relation::Near => assert!(!alias.materials.is_empty(), "{alias:?}"),
                Relation::Ask => assert!(!alias.says.is_empty(), "{alias:?}"),
                Relation::Known => assert!(alias.materials.is_empty() && !alias.says.is_empty(), "{alias:?}"),
            }
        }
    }

    #[test]
    fn case_blanks_hyphens_dots_and_the_system_do_not_matter() {
        for text in ["Ti64", "TI 64", "Grade-5", "UNS R56400", "r56400", "TiAl6V4", "W.Nr. 3.7165"] {
            assert_eq!(alias(text).map(|alias| alias.materials.as_slice()), Some(&["ti-6al-4v"][..]), "{text}");
        }
        assert_eq!(alias("SAE 660").unwrap().materials, ["c93200"]);
        assert_eq!(alias("AISI 660").unwrap().materials, ["a286"]);
        assert_eq!(alias("660").unwrap().relation, Relation::Ask);
        assert!(alias("unobtainium").is_none() && alias("").is_none() && alias("AISI").is_none());
    }
}
