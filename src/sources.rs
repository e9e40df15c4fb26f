//! Who says so: every source that a table, a formula or a check value rests on, from data/sources.toml.

use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// How far a value can be relied on, best first, so that the worst of several is their maximum.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Trust {
    /// Follows from geometry or physics.
    #[serde(rename = "derivation")]
    Derivation,
    /// As a published standard gives it.
    #[serde(rename = "standard")]
    Standard,
    /// Computed by a general-purpose library; used for check values only.
    #[serde(rename = "library")]
    Library,
    /// Printed in a handbook, a textbook or a reference article.
    #[serde(rename = "handbook")]
    Handbook,
    /// A rule of the trade without a published source.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// Recalled from a named source and not compared with it.
    #[serde(rename = "from memory")]
    FromMemory,
}

impl Trust {
    /// Every degree, best first.
    pub const ALL: [Trust; 6] =
        [Trust::Derivation, Trust::Standard, Trust::Library, Trust::Handbook, Trust::CommonPractice, Trust::FromMemory];

    /// The word that answers and tables use.
    pub const fn as_str(self) -> &'static str {
        match self {
            Trust::Derivation => "derivation",
            Trust::Standard => "standard",
            Trust::Library => "library",
            Trust::Handbook => "handbook",
            Trust::CommonPractice => "common practice",
            Trust::FromMemory => "from memory",
        }
    }

    /// The degree that a table's word names.
    pub fn named(word: &str) -> Option<Trust> {
        Trust::ALL.into_iter().find(|trust| trust.as_str() == word)
    }
}

impl std::fmt::Display for Trust {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.as_str())
    }
}

/// One source: what it is, which edition, and where in it to look.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Source {
    /// The short, stable name that tables and calculators cite.
    pub key: &'static str,
    /// What the source is called.
    pub title: &'static str,
    /// Edition or year, where one is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edition: Option<&'static str>,
    /// Page, table or clause, or what was taken from it.
    #[serde(rename = "where", skip_serializing_if = "Option::is_none")]
    pub place: Option<&'static str>,
    /// How far the source as a whole can be relied on; a row of a table may say less.
    pub trust: Trust,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Block {
    title: String,
    edition: Option<String>,
    #[serde(rename = "where")]
    place: Option<String>,
    trust: Trust,
}

static SOURCES: LazyLock<Vec<Source>> = LazyLock::new(|| {
    let blocks: BTreeMap<String, Block> = toml::from_str(include_str!("../data/sources.toml"))
        .expect("data/sources.toml is compiled in and read by the tests");
    blocks
        .into_iter()
        .map(|(key, block)| Source {
            key: key.leak(),
            title: block.title.leak(),
            edition: block.edition.map(|text| &*text.leak()),
            place: block.place.map(|text| &*text.leak()),
            trust: block.trust,
        })
        .collect()
});

/// The source that a key names.
pub fn source(key: &str) -> Option<&'static Source> {
    let found = SOURCES.binary_search_by(|source| source.key.cmp(key)).ok()?;
    SOURCES.get(found)
}

/// Every source, in the order of the keys.
pub fn all() -> &'static [Source] {
    &SOURCES
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn trust_runs_from_derivation_to_memory() {
        assert!(Trust::ALL.windows(2).all(|pair| pair[0] < pair[1]));
        let worst = [Trust::Standard, Trust::CommonPractice, Trust::Handbook].into_iter().max();
        assert_eq!(worst, Some(Trust::CommonPractice));
    }

    #[test]
    fn trust_is_written_and_read_as_the_same_word() {
        for trust in Trust::ALL {
            let written = serde_json::to_string(&trust).unwrap();
            assert_eq!(written, format!("\"{trust}\""));
            assert_eq!(serde_json::from_str::<Trust>(&written).unwrap(), trust);
            assert_eq!(Trust::named(trust.as_str()), Some(trust));
        }
        assert_eq!(Trust::named("hearsay"), None);
    }

    #[test]
    fn every_source_is_found_by_its_key() {
        assert!(all().len() > 20);
        for one in all() {
            assert_eq!(source(one.key), Some(one));
        }
        assert_eq!(source("no_such_source"), None);
    }

    #[test]
    fn every_source_says_what_it_is() {
        for one in all() {
            let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_';
            assert!(one.key.chars().all(plain), "key {}", one.key);
            assert!(one.title.len() > 5, "{} has no title", one.key);
            assert!(one.edition != Some("") && one.place != Some(""), "{}", one.key);
        }
    }

    #[test]
    fn a_standard_or_a_book_names_its_edition() {
        for one in all() {
            if matches!(one.trust, Trust::Standard | Trust::Handbook) {
                assert!(one.edition.is_some(), "{} has no edition", one.key);
            }
        }
    }

    #[test]
    fn a_source_is_written_with_where_and_without_nulls() {
        let written = serde_json::to_value(source("geometry").unwrap()).unwrap();
        assert_eq!(written["key"], "geometry");
        assert_eq!(written["trust"], "derivation");
        assert!(written["where"].is_string());
        assert!(written.get("edition").is_none());
    }
}
