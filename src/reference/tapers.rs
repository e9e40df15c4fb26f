//! Standard tapers by name, from data/tapers.csv: Morse, Brown & Sharpe, Jarno, Jacobs, metric, 7/24 and pipe threads.

use super::material_aliases::bare;
use super::{rows_of, source_key};
use crate::declared::{FieldType, Shape, TypeFacts};
use crate::quantity::{FoundSize, System, Unit, shown};
use crate::refusal::{Code, Unread, carry};
use crate::tree::{IntoTree, Node};
use serde::de::{Deserialize, Deserializer};
use std::borrow::Cow;
use std::sync::LazyLock;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::{ObjectBuilder, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// A standard taper.
#[derive(Debug)]
pub struct Taper {
    /// Its name.
    pub name: &'static str,
    /// Other names, as they are compared.
    other: Vec<String>,
    /// Taper on the diameter, in inches a foot.
    pub per_foot: f64,
    /// Diameter at the gauge line.
    pub gauge_diameter: Option<FoundSize>,
    /// Diameter of the small end.
    pub small_diameter: Option<FoundSize>,
    /// Length between them.
    pub length: Option<FoundSize>,
    /// Key of the source.
    pub source: &'static str,
    /// How far it can be trusted.
    pub trust: &'static str,
    /// What to know of it; may be empty.
    pub note: &'static str,
    unit: Unit,
}

#[derive(serde::Deserialize)]
struct Row {
    name: String,
    other_names: String,
    taper_in_per_ft: f64,
    gauge_diameter: Option<f64>,
    small_diameter: Option<f64>,
    length: Option<f64>,
    unit: String,
    source: String,
    trust: String,
    note: String,
}

static TAPERS: LazyLock<Vec<Taper>> = LazyLock::new(|| {
    rows_of(include_str!("../../data/tapers.csv"))
        .map(|row: Row| {
            let unit = Unit::named(&row.unit).unwrap_or(Unit::Inch);
            let size = |value: Option<f64>| value.map(|value| FoundSize::stated(value, unit));
            Taper {
                other: row.other_names.split(';').chain([row.name.as_str()]).map(bare).collect(),
                name: row.name.leak(),
                per_foot: row.taper_in_per_ft,
                gauge_diameter: size(row.gauge_diameter),
                small_diameter: size(row.small_diameter),
                length: size(row.length),
                source: source_key(&row.source),
                trust: row.trust.leak(),
                note: row.note.leak(),
                unit,
            }
        })
        .collect()
});

/// A taper that was named.
#[derive(Clone, Copy, Debug)]
pub struct TaperName(pub &'static Taper);

impl TaperName {
    /// Finds the taper that `text` names.
    pub fn read(text: &str) -> Result<Self, Unread> {
        let said = bare(text);
        if let Some(taper) = TAPERS.iter().find(|taper| taper.other.contains(&said)) {
            return Ok(Self(taper));
        }
        let says = format!(
            "No taper is called \"{}\". Known are Morse 0 to 7, Brown & Sharpe 1 to 16, Jarno 2 to 20, Jacobs 0 to 33, \
             Metric 4 to 200, 7/24 No. 10 to 60 and NPT; all stand at /v1/tables/tapers.",
            shown(text)
        );
        Err(Unread::new(Code::NotFound, says, "Morse 3"))
    }
}

impl<'de> Deserialize<'de> for TaperName {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::read(&String::deserialize(deserializer)?).map_err(carry)
    }
}

impl IntoTree for TaperName {
    fn tree(&self) -> Option<Node> {
        let system = if self.0.unit == Unit::Inch { System::Inch } else { System::Metric };
        Some(Node::Text(self.0.name.into(), Some(system)))
    }
}

impl FieldType for TaperName {
    const TYPE: TypeFacts = TypeFacts::named::<Self>(Shape::Words);
}

impl PartialSchema for TaperName {
    fn schema() -> RefOr<Schema> {
        ObjectBuilder::new()
            .schema_type(Type::String)
            .min_length(Some(1))
            .description(Some("A standard taper by name: `Morse 3`, `MT3`, `B&S 9`, `Jarno 8`, `7/24 No. 40`, `NPT`."))
            .examples([serde_json::json!("Morse 3")])
            .into()
    }
}

impl ToSchema for TaperName {
    fn name() -> Cow<'static, str> {
        Cow::Borrowed("TaperName")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_is_one_taper_and_its_ends_agree_with_its_taper() {
        let mut names: Vec<&String> = TAPERS.iter().flat_map(|taper| &taper.other).collect();
        names.sort_unstable();
        assert!(names.windows(2).all(|pair| pair[0] != pair[1]), "two tapers have one name");
        for taper in TAPERS.iter() {
            assert!(crate::sources::source(taper.source).is_some(), "{taper:?}");
            let ends = taper.gauge_diameter.zip(taper.small_diameter).zip(taper.length);
            if let Some(((large, small), length)) = ends {
                let per_foot = (large.si() - small.si()) / length.si() * 12.0;
                assert!((per_foot / taper.per_foot - 1.0).abs() < 0.01, "{taper:?}: {per_foot} by its ends");
            }
        }
    }

    #[test]
    fn case_blanks_and_numbers_do_not_matter() {
        for (text, name) in [
            ("mt3", "Morse 3"),
            ("B&S 9", "Brown & Sharpe 9"),
            ("BT40", "7/24 No. 40"),
            ("morse no. 4-1/2", "Morse 4-1/2"),
        ] {
            assert_eq!(TaperName::read(text).map(|taper| taper.0.name).ok(), Some(name), "{text}");
        }
        assert_eq!(TaperName::read("Morse 9").unwrap_err().code, Code::NotFound);
    }
}
