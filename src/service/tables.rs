//! `GET /v1/tables`: the reference tables that are compiled in, each row with its source and trust.

use super::problem::Problem;
use super::response::{CSV, JSON, tagged};
use crate::fields::nearest;
use crate::reference::TABLES;
use crate::refusal::{Code, Wrong};
use actix_web::http::StatusCode;
use actix_web::{HttpResponse, web};
use serde_json::{Map, Value, json};
use std::sync::LazyLock;

/// A table by its name.
struct Table {
    name: &'static str,
    text: &'static str,
    columns: Vec<String>,
    rows: usize,
}

static ALL: LazyLock<Vec<Table>> = LazyLock::new(|| {
    let csv_tables = TABLES.iter().filter_map(|(file, text)| Some((file.strip_suffix(".csv")?, *text)));
    csv_tables
        .map(|(name, text)| {
            let mut reader = csv::Reader::from_reader(text.as_bytes());
            let columns = reader.headers().map(|row| row.iter().map(str::to_owned).collect()).unwrap_or_default();
            Table { name, text, columns, rows: reader.records().count() }
        })
        .collect()
});

/// The names of the tables.
pub fn names() -> Vec<&'static str> {
    ALL.iter().map(|table| table.name).collect()
}

/// One table as CSV; nothing if there is none of that name.
pub fn csv(name: &str) -> &'static str {
    ALL.iter().find(|table| table.name == name).map_or("", |table| table.text)
}

/// The list of tables.
pub fn list() -> Value {
    let tables: Vec<Value> = ALL
        .iter()
        .map(|table| {
            let address = format!("/v1/tables/{}", table.name);
            json!({ "name": table.name, "columns": table.columns, "rows": table.rows, "address": address })
        })
        .collect();
    json!({ "data_version": crate::data_version(), "tables": tables })
}

/// One table with its rows, as JSON.
pub fn one(name: &str) -> Option<Value> {
    let table = ALL.iter().find(|table| table.name == name)?;
    let mut reader = csv::Reader::from_reader(table.text.as_bytes());
    let rows: Vec<Value> = reader
        .records()
        .flatten()
        .map(|record| {
            let cells = table.columns.iter().zip(record.iter());
            // An empty cell is absent.
            let cells =
                cells.filter(|(_, cell)| !cell.is_empty()).map(|(name, cell)| (name.clone(), value(name, cell)));
            Value::Object(cells.collect::<Map<_, _>>())
        })
        .collect();
    let data_version = crate::data_version();
    Some(json!({ "name": table.name, "data_version": data_version, "columns": table.columns, "rows": rows }))
}

/// Columns of names.
const NAMES: &[&str] = &["name", "size", "designation", "id", "alias", "material", "materials"];

/// A cell: a number where it is one. Names stay words, also where they look like a number.
fn value(column: &str, cell: &str) -> Value {
    match cell.parse::<f64>() {
        Ok(number) if number.is_finite() && !NAMES.contains(&column) => json!(number),
        _ => json!(cell),
    }
}

/// Answers `/v1/tables/{name}` and `/v1/tables/{name}.csv`.
pub async fn answer(path: web::Path<String>) -> HttpResponse {
    let asked = path.into_inner();
    let (name, as_csv) = asked.strip_suffix(".csv").map_or((asked.as_str(), false), |name| (name, true));
    let Some(table) = ALL.iter().find(|table| table.name == name) else {
        let near = nearest(name, ALL.iter().map(|table| table.name)).unwrap_or("drills_inch");
        let says = format!("There is no table {}. /v1/tables lists all of them.", crate::quantity::shown(name));
        let wrong = Wrong {
            field: String::new(),
            code: Code::NotFound,
            says: says.clone(),
            try_this: Some(format!("/v1/tables/{near}")),
        };
        return Problem::new(StatusCode::NOT_FOUND, says, vec![wrong]).respond();
    };
    let (media_type, body) =
        if as_csv { (CSV, table.text.to_owned()) } else { (JSON, one(name).unwrap_or_default().to_string()) };
    tagged(media_type, body.into_bytes())
}
