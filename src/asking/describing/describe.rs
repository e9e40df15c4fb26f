//! A calculator's fields and results as the catalogue, the pages and the published description show
//! them, drawn from the schemas of its types.

use super::field_schema;
use super::places::Places;
use super::reserved::{self, Reserved};
use super::schema_reference::{reference, without_null};
use crate::calculators::{Entry, REGISTER, Schemas};
use crate::quantity::{KINDS, KindRow, Least, Unit, text};
use serde::Serialize;
use serde_json::{Map, Value, json};
use std::sync::{LazyLock, OnceLock};
use utoipa::{PartialSchema, ToSchema};

/// The forms a field can take.
pub const FORMS: [&str; 8] = ["quantity", "choice", "count", "number", "truth", "list", "objects", "words"];

/// One input field.
#[derive(Clone, Debug, Serialize)]
pub struct Field {
    /// Its name.
    pub name: String,
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
    /// The name of the schema it refers to.
    #[serde(skip)]
    pub schema_name: Option<String>,
    /// The schema of its text in a query.
    #[serde(skip)]
    pub query_schema: Value,
    /// The schema of its value in a JSON request.
    #[serde(skip)]
    pub body_schema: Value,
    /// The schema of its value as an answer repeats it.
    #[serde(skip)]
    pub stated_schema: Value,
}

impl Field {
    /// Whether it is a quantity, also where a name may stand for it.
    pub fn is_quantity(&self) -> bool {
        self.stated_schema == field_schema::stated_quantity()
    }

    /// `text` as JSON has a value of this field: a count as a number, a list as an array.
    pub fn as_json(&self, text: &str) -> Value {
        let whole = |text: &str| text.trim().parse::<i64>().map_or_else(|_| json!(text), |count| json!(count));
        match self.form {
            "count" => whole(text),
            "number" => text.parse::<f64>().map_or_else(|_| json!(text), |number| json!(number)),
            "truth" => json!(text == "true"),
            "list" if self.query_schema["items"]["type"] == "integer" => text.split(',').map(whole).collect(),
            "list" => text.split(',').map(str::trim).collect(),
            _ => json!(text),
        }
    }
}

/// One result field.
#[derive(Clone, Debug, Serialize)]
pub struct ResultField {
    /// Its name.
    pub name: String,
    /// What it is, in a sentence.
    pub about: String,
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
    /// The places of its results, for tables.
    pub(in crate::asking) places: Places,
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
    let at = REGISTER.iter().position(|known| known.id == entry.id)?;
    Some(EACH[at].get_or_init(|| describe(&REGISTER[at])))
}

/// The reserved fields described.
pub fn reserved_fields() -> &'static [Field] {
    static ALL: LazyLock<Vec<Field>> = LazyLock::new(|| {
        let schema = serde_json::to_value(Reserved::schema()).unwrap_or_default();
        fields_of(&schema, &parts_of(reserved_schemas()), reserved::good)
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
    let mut parts = Vec::new();
    (entry.parts)(&mut parts);
    let parts = parts_of(parts);
    let input = serde_json::to_value((entry.input)().1).unwrap_or_default();
    let output = serde_json::to_value((entry.output)().1).unwrap_or_default();
    let results = properties(&output)
        .map(|(name, schema)| ResultField { name: name.clone(), about: about(schema, &parts) })
        .collect();
    let places = Places::of(&output, &parts);
    Described { entry, fields: fields_of(&input, &parts, |name| entry.good(name)), results, places }
}

fn parts_of(parts: Schemas) -> Map<String, Value> {
    parts.into_iter().map(|(name, schema)| (name, serde_json::to_value(schema).unwrap_or_default())).collect()
}

fn properties(schema: &Value) -> impl Iterator<Item = (&String, &Value)> {
    schema.get("properties").and_then(Value::as_object).into_iter().flatten()
}

fn about(schema: &Value, parts: &Map<String, Value>) -> String {
    let own = schema.get("description").or_else(|| without_null(schema).get("description"));
    let part = reference(without_null(schema)).and_then(|name| parts.get(name)?.get("description"));
    own.or(part).and_then(Value::as_str).unwrap_or_default().replace('\n', " ")
}

fn fields_of(schema: &Value, parts: &Map<String, Value>, good: impl Fn(&str) -> Option<&'static str>) -> Vec<Field> {
    let required: Vec<&str> =
        schema.get("required").and_then(Value::as_array).into_iter().flatten().filter_map(Value::as_str).collect();
    properties(schema)
        .map(|(name, property)| {
            let schema = without_null(property);
            let part = reference(schema).and_then(|name| parts.get(name)).unwrap_or(schema);
            let kind = reference(schema).and_then(kind_named);
            let mut field = Field {
                name: name.clone(),
                about: about(property, parts),
                required: required.contains(&name.as_str()),
                example: good(name).unwrap_or_default().to_owned(),
                form: form(schema, part, kind),
                units: kind.map(|row| row.units.iter().map(|unit| unit.spelling()).collect()).unwrap_or_default(),
                choices: choices(part),
                least: None,
                most: None,
                schema_name: reference(schema).map(str::to_owned),
                query_schema: field_schema::query(schema, parts),
                body_schema: field_schema::body(schema, parts),
                stated_schema: field_schema::stated(schema, parts),
            };
            bounds(&mut field, part, kind);
            field
        })
        .collect()
}

fn kind_named(name: &str) -> Option<&'static KindRow> {
    KINDS.iter().copied().find(|row| row.name == name)
}

fn form(schema: &Value, part: &Value, kind: Option<&KindRow>) -> &'static str {
    let is = |schema: &Value, word: &str| match schema.get("type") {
        Some(Value::String(is)) => is == word,
        Some(Value::Array(any)) => any.iter().any(|is| is == word),
        _ => false,
    };
    if kind.is_some() {
        "quantity"
    } else if !choices(part).is_empty() {
        "choice"
    } else if is(part, "integer") {
        "count"
    } else if is(part, "boolean") {
        "truth"
    } else if is(schema, "array") {
        "list"
    } else if is(part, "number") {
        "number"
    } else if field_schema::row_of(part).is_some() || part["oneOf"][1]["type"] == "array" {
        "objects"
    } else {
        "words"
    }
}

fn choices(part: &Value) -> Vec<String> {
    let values = part.get("enum").and_then(Value::as_array);
    values.into_iter().flatten().filter_map(|word| word.as_str().map(str::to_owned)).collect()
}

fn bounds(field: &mut Field, part: &Value, kind: Option<&KindRow>) {
    if let Some(row) = kind {
        let unit = Unit::named(row.example.rsplit(' ').next().unwrap_or_default()).unwrap_or(row.inch.0);
        let words = |si: f64| format!("{} {}", text::full(text::round(unit.of_si(si), 3)), unit.spelling());
        field.least = match row.least {
            Least::Any => Some(words(-row.most)),
            Least::From(least) => Some(words(least)),
            Least::AboveZero => Some("more than 0".into()),
        };
        field.most = Some(words(row.most));
    }
    let number = |name: &str| part.get(name).and_then(Value::as_f64).map(text::full);
    if field.form == "count" {
        field.least = number("minimum");
        field.most = number("maximum");
    }
}
