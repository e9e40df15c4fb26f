//! What each source's rows are today: a hash of them, so that an answer can say which rows it rests on
//! and a later one whether they are still the same.

use super::TABLES;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The rows taken from one source.
#[derive(Debug)]
pub struct FromSource {
    /// The beginning of a SHA-256 over the rows.
    pub version: String,
    /// The tables they stand in, by name.
    pub tables: Vec<&'static str>,
}

static ALL: LazyLock<BTreeMap<String, FromSource>> = LazyLock::new(|| of(TABLES));

/// The rows of `tables` by the keys of their sources. A row of several sources counts for each.
fn of(tables: &[(&'static str, &'static str)]) -> BTreeMap<String, FromSource> {
    let mut hashes: BTreeMap<String, (Sha256, Vec<&'static str>)> = BTreeMap::new();
    for (file, text) in tables {
        let Some(name) = file.strip_suffix(".csv") else { continue };
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let headers = reader.headers().cloned().unwrap_or_default();
        let sources: Vec<usize> =
            (0..headers.len()).filter(|at| headers[*at] == *"source" || headers[*at].ends_with("_source")).collect();
        for row in reader.records().flatten() {
            let mut keys: Vec<&str> = sources.iter().filter_map(|at| row.get(*at)).collect();
            keys.sort_unstable();
            keys.dedup();
            for key in keys.into_iter().filter(|key| !key.is_empty()) {
                let (hash, tables) = hashes.entry(key.to_owned()).or_default();
                if tables.last() != Some(&name) {
                    tables.push(name);
                    hash.update(name.as_bytes());
                }
                // The marks keep cells from running into each other.
                row.iter().for_each(|cell| {
                    hash.update(cell.as_bytes());
                    hash.update(b"\x1f");
                });
                hash.update(b"\x1e");
            }
        }
    }
    let short = |hash: Sha256| hash.finalize().iter().take(6).map(|byte| format!("{byte:02x}")).collect();
    hashes.into_iter().map(|(key, (hash, tables))| (key, FromSource { version: short(hash), tables })).collect()
}

/// Reads all tables, so that the first answer need not wait for it.
pub fn prepare() {
    LazyLock::force(&ALL);
}

/// The rows taken from the source of that key; `None` where no table has any.
pub fn from_source(key: &str) -> Option<&'static FromSource> {
    ALL.get(key)
}

#[cfg(test)]
mod tests {
    use super::*;

    const ONE: &str = "name,diameter,source,trust\n#7,0.201,a,handbook\n#8,0.199,b,handbook\n";

    #[test]
    fn a_changed_row_changes_the_version_of_its_source_alone() {
        let before = of(&[("drills.csv", ONE)]);
        let changed: &'static str = ONE.replace("0.201", "0.202").leak();
        let after = of(&[("drills.csv", changed)]);
        assert_ne!(before["a"].version, after["a"].version);
        assert_eq!(before["b"].version, after["b"].version);
        assert_eq!(before["a"].tables, ["drills"]);
    }

    #[test]
    fn cells_do_not_run_into_each_other() {
        let a = of(&[("t.csv", "x,y,source\n1,23,a\n")]);
        let b = of(&[("t.csv", "x,y,source\n12,3,a\n")]);
        assert_ne!(a["a"].version, b["a"].version);
    }

    #[test]
    fn every_source_of_a_table_is_one_that_is_cited() {
        assert!(ALL.len() > 20, "{}", ALL.len());
        for key in ALL.keys() {
            assert!(crate::sources::source(key).is_some(), "{key} is no source");
        }
        assert!(from_source("geometry").is_none());
    }
}
