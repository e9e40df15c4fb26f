//! A calculator's fields and results as the catalogue, the pages and the published description show
//! them, from their declarations.

use super::reserved::{Reserved, good};
use crate::calculators::{Entry, REGISTER};
use crate::declared::{Declared, Member, Narrowed, Schemas, Shape, TypeFacts};
use crate::quantity::{KindRow, Least, Unit, text};
use serde::Serialize;
use serde_json::{Value, json};
use std::sync::{LazyLock, OnceLock};
use utoipa::ToSchema;

/// The forms a field can take.
pub const FORMS: [&str; 8] = ["quantity", "choice", "count", "number", "truth", "list", "objects", "words"];

/// One input field.
#[derive(Clone, Debug, Serialize)]
pub struct Field {
    /// Its name.
    pub name: String,
    /// What a person calls it.
    pub label: &'static str,
    /// What it is, in a sentence.
    pub about: String,
    /// Whether it must be given.
    pub required: bool,
    /// A good value.
    pub example: String,
    /// The form it takes, one of [`FORMS`].
    pub form: &'static str,
    /// Units it is read in.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub units: Vec<&'static str>,
    /// Words to choose from.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub choices: Vec<String>,
    /// Lower bound, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub least: Option<String>,
    /// Upper bound, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub most: Option<String>,
    /// Its declaration.
    #[serde(skip)]
    pub member: Member,
}

impl Field {
    fn of(member: &Member, example: Option<&'static str>) -> Self {
        let mut field = Self {
            name: member.name.to_owned(),
            label: member.label,
            about: member.about.to_owned(),
            required: !member.optional,
            example: example.unwrap_or_default().to_owned(),
            form: member.of.shape.form(),
            units: Vec::new(),
            choices: Vec::new(),
            least: None,
            most: None,
            member: *member,
        };
        match member.of.shape {
            Shape::Quantity(row) => {
                field.units = row.units.iter().map(|unit| unit.spelling()).collect();
                (field.least, field.most) = bounds(row);
            }
            Shape::Choice(words) => field.choices = words.iter().map(|word| (*word).to_owned()).collect(),
            Shape::Count { least, most } => {
                let (least, most) = match member.narrowed {
                    Some(Narrowed::Count(least, most)) => (least, Some(most)),
                    _ => (least, most),
                };
                (field.least, field.most) = (Some(least.to_string()), most.map(|most| most.to_string()));
            }
            _ => {}
        }
        field
    }

    /// Whether it is a quantity, also where a name may stand for it.
    pub fn is_quantity(&self) -> bool {
        matches!(self.member.of.shape, Shape::Quantity(_) | Shape::QuantityOrName(_))
    }

    /// Whether it takes words for a quantity, such as the name of a drill.
    pub fn takes_names(&self) -> bool {
        matches!(self.member.of.shape, Shape::QuantityOrName(_))
    }

    /// Whether it is one point.
    pub fn is_point(&self) -> bool {
        matches!(self.member.of.shape, Shape::Point)
    }

    /// The name of its type.
    pub fn type_name(&self) -> String {
        self.member.of.name.map(|name| name().into_owned()).unwrap_or_default()
    }

    /// `text` as JSON has a value of this field: a count as a number, a list as an array.
    pub fn as_json(&self, text: &str) -> Value {
        let whole = |text: &str| text.trim().parse::<i64>().map_or_else(|_| json!(text), |count| json!(count));
        match self.member.of.shape {
            Shape::Count { .. } => whole(text),
            Shape::Number => text.parse::<f64>().map_or_else(|_| json!(text), |number| json!(number)),
            Shape::Truth => json!(text == "true"),
            Shape::List(TypeFacts { shape: Shape::Count { .. }, .. }) => text.split(',').map(whole).collect(),
            Shape::List(_) => text.split(',').map(str::trim).collect(),
            _ => json!(text),
        }
    }
}

/// The bounds of a kind in words.
fn bounds(row: &KindRow) -> (Option<String>, Option<String>) {
    let unit = Unit::named(row.example.rsplit(' ').next().unwrap_or_default()).unwrap_or(row.inch.0);
    let words = |si: f64| format!("{} {}", text::full(text::round(unit.of_si(si), 3)), unit.spelling());
    let least = match row.least {
        Least::Any => words(-row.most),
        Least::From(least) => words(least),
        Least::AboveZero => "more than 0".into(),
    };
    (Some(least), Some(words(row.most)))
}

/// One result field.
#[derive(Clone, Debug, Serialize)]
pub struct ResultField {
    /// Its name.
    pub name: &'static str,
    /// What a person calls it.
    pub label: &'static str,
    /// What it is, in a sentence.
    pub about: &'static str,
}

/// A calculator described.
#[derive(Debug)]
pub struct Described {
    /// The entry.
    pub entry: &'static Entry,
    /// Its fields, in declared order.
    pub fields: Vec<Field>,
    /// Its results, in declared order.
    pub results: Vec<ResultField>,
}

/// Every calculator described, in the register's order.
pub fn described() -> &'static [&'static Described] {
    static ALL: LazyLock<Vec<&'static Described>> =
        LazyLock::new(|| REGISTER.iter().filter_map(describe_entry).collect());
    &ALL
}

/// The description of one entry, made when first asked for, so that an answer need not wait for all the others'.
pub fn describe_entry(entry: &Entry) -> Option<&'static Described> {
    static EACH: LazyLock<Vec<OnceLock<Described>>> =
        LazyLock::new(|| REGISTER.iter().map(|_| OnceLock::new()).collect());
    let at = entry.place()?;
    Some(EACH[at].get_or_init(|| describe(&REGISTER[at])))
}

/// The reserved fields described.
pub fn reserved_fields() -> &'static [Field] {
    static ALL: LazyLock<Vec<Field>> = LazyLock::new(|| {
        Reserved::DECLARATION.members.iter().map(|member| Field::of(member, good(member.name))).collect()
    });
    &ALL
}

/// The schemas that the reserved fields refer to.
pub fn reserved_schemas() -> Schemas {
    let mut parts = Vec::new();
    Reserved::schemas(&mut parts);
    parts
}

fn describe(entry: &'static Entry) -> Described {
    let results = entry
        .output
        .members
        .iter()
        .map(|member| ResultField { name: member.name, label: member.label, about: member.about })
        .collect();
    let fields = entry.input.members.iter().map(|member| Field::of(member, entry.good(member.name))).collect();
    Described { entry, fields, results }
}
