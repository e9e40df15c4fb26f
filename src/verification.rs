//! What each calculator is checked against: the rows of data/checks, which tests compare with the
//! answers. This is their only reader in the service, and calculators lie below it, so that none can
//! reach the value it must give.

use crate::sources::source;
use include_dir::{Dir, include_dir};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::LazyLock;

static FILES: Dir = include_dir!("$CARGO_MANIFEST_DIR/data/checks");

/// One value that an answer must give.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Check {
    /// The calculator.
    #[serde(skip_serializing)]
    pub calculator: String,
    /// The request as query text, not percent-encoded.
    pub inputs: String,
    /// Where in the result, as a JSON Pointer.
    pub field: String,
    /// The value: a number, or words where there is no tolerance.
    pub expected: String,
    /// Unit of the number.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub unit: String,
    /// Greatest difference allowed.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub tolerance: String,
    /// Key of the source.
    pub source: String,
    /// Where in the source, or the script that made it.
    pub place: String,
    /// `published`, `library`, `second hand`, `common practice` or `from memory`; the first two come from outside.
    pub kind: String,
}

impl Check {
    /// Whether it is printed somewhere or computed by a general-purpose library.
    pub fn is_outside(&self) -> bool {
        matches!(self.kind.as_str(), "published" | "library")
    }
}

/// The checks of one calculator.
#[derive(Debug)]
pub struct Checked {
    /// The calculator.
    pub calculator: String,
    /// Its checks, as the file has them.
    pub checks: Vec<Check>,
}

/// How many checks of one kind come from one source.
#[derive(Debug, PartialEq, Serialize)]
pub struct BySource<'c> {
    /// What kind of check.
    pub kind: &'c str,
    /// Key of the source.
    pub source: &'c str,
    /// What the source is called.
    pub title: &'static str,
    /// How many.
    pub count: usize,
    /// Where in it, without repetition.
    pub places: Vec<&'c str>,
}

impl Checked {
    /// How many come from outside.
    pub fn outside(&self) -> usize {
        self.checks.iter().filter(|check| check.is_outside()).count()
    }

    /// Counted by kind and source, the outside ones first.
    pub fn by_source(&self) -> Vec<BySource<'_>> {
        let mut counts: BTreeMap<(usize, &str, &str), (usize, Vec<&str>)> = BTreeMap::new();
        for check in &self.checks {
            let rank = KINDS.iter().position(|kind| *kind == check.kind).unwrap_or(KINDS.len());
            let (count, places) = counts.entry((rank, &check.kind, &check.source)).or_default();
            *count += 1;
            if !places.contains(&check.place.as_str()) {
                places.push(&check.place);
            }
        }
        let each = counts.into_iter().map(|((_, kind, key), (count, places))| BySource {
            kind,
            source: key,
            title: source(key).map_or("", |source| source.title),
            count,
            places,
        });
        each.collect()
    }
}

/// The kinds of check, those from outside first.
pub const KINDS: [&str; 5] = ["published", "library", "second hand", "common practice", "from memory"];

/// The checks of every calculator, by its id.
pub fn all() -> &'static [Checked] {
    static ALL: LazyLock<Vec<Checked>> = LazyLock::new(|| {
        let mut checks: BTreeMap<String, Vec<Check>> = BTreeMap::new();
        for file in FILES.files().filter(|file| file.path().extension().is_some_and(|ending| ending == "csv")) {
            for row in csv::Reader::from_reader(file.contents()).into_deserialize::<Check>() {
                let row = row.expect("the checks are compiled in and read by the tests");
                checks.entry(row.calculator.clone()).or_default().push(row);
            }
        }
        checks.into_iter().map(|(calculator, checks)| Checked { calculator, checks }).collect()
    });
    &ALL
}

/// The checks of the calculator `id`.
pub fn of(id: &str) -> Option<&'static Checked> {
    all().iter().find(|checked| checked.calculator == id)
}
