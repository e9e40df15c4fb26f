//! The other forms of an answer, `.txt`, `.csv` and `.svg`, and tables of requests: described once for the
//! calculators of a topic, with the calculator as a part of the address.

use super::operation::{Operation, tagged};
use super::parts::{Named, of, reference, text};
use super::refusals::{NAMED, READS_FIELDS};
use super::reserved;
use crate::asking::{Described, Form, Reserved, Sheet, ask, cell, table};
use crate::fields::Fields;
use crate::quantity::System;
use crate::service::response::SVG;
use crate::tree::Node;
use serde_json::{Map, Value, json};

/// The calculators of a topic.
pub struct Topic {
    /// Its name.
    pub name: &'static str,
    /// Its calculators, in the register's order.
    pub calculators: Vec<&'static Described>,
}

/// A table's media type as it is sent.
pub const TABLE: &str = "text/csv; header=present";

const CELL: &str = "Cell";
const RESULT_TABLE: &str = "ResultTable";
const SHEET: &str = "TableWithResults";
const DRAWING: &str = "Drawing";

/// The responses in these forms, which are alike for all topics; the examples are the first calculator's.
pub fn responses(described: &'static Described) -> Map<String, Value> {
    let shown = Shown::of(described);
    let sheet = sheet_answer(described, &sheet_example(described));
    let svg = json!("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 340 300\"></svg>");
    let said = "The value; with refusals=text a refusal is REFUSED: and the reason.";
    [
        (CELL, tagged(text("text/plain", said, shown.cell()))),
        (RESULT_TABLE, tagged(text("text/csv", "The table.", shown.table()))),
        (SHEET, text("text/csv", "The table with its results.", sheet)),
        (DRAWING, tagged(text(SVG, "The drawing.", Some(svg)))),
    ]
    .map(|(name, response)| (name.to_owned(), response))
    .into_iter()
    .collect()
}

impl Topic {
    /// The topic's part of the names of schemas.
    fn stem(&self) -> String {
        let (first, rest) = self.name.split_at(1);
        first.to_uppercase() + rest
    }

    fn drawn(&self) -> impl Iterator<Item = &&'static Described> {
        self.calculators.iter().filter(|described| described.entry.draw.is_some())
    }

    /// The schemas of the calculators' names.
    pub fn schemas(&self) -> Named {
        let names = |calculators: &mut dyn Iterator<Item = &&'static Described>| -> Vec<&str> {
            calculators.map(|described| described.entry.address().1).collect()
        };
        let all = names(&mut self.calculators.iter());
        let drawn = names(&mut self.drawn());
        let schema = |about: &str, names: Vec<&str>| json!({"type": "string", "description": about, "enum": names});
        let mut schemas = vec![(format!("{}Calculator", self.stem()), schema("The calculator.", all))];
        if !drawn.is_empty() {
            schemas.push((format!("{}Drawing", self.stem()), schema("A calculator that draws its answer.", drawn)));
        }
        schemas
    }

    /// The operations by address.
    pub fn operations(&self) -> Vec<(String, Value)> {
        let name = self.name;
        let path = |form: &str| format!("/v1/{name}/{{calculator}}.{form}");
        let operation = |id: &str, summary: &str, about: &str| {
            Operation::new(name, &format!("{name}_{id}"), &format!("{summary}: {name}"), about)
        };
        let Some(first) = self.calculators.first() else { return Vec::new() };
        let one_of = format!("{}Calculator", self.stem());
        let shown = Shown::of(first);
        let about = "One value of the answer as bare text, for a cell of a spreadsheet: pick says which. units is needed \
                     where it is a quantity, so that its unit can never change.";
        let mut parameters = vec![named(first, &one_of), own_fields(first)];
        parameters.extend(reserved::of_form(Form::Cell));
        shown.put_into(&mut parameters);
        let one = operation("cell", "One value for a cell", about)
            .parameters(parameters)
            .reads(reference("responses", CELL), &[READS_FIELDS, NAMED]);
        let mut parameters = vec![named(first, &one_of), own_fields(first)];
        parameters.extend(reserved::of_form(Form::Table));
        let about = "The result as CSV with a header: the rows of its list, or one row.";
        let rows = operation("table", "The result as a table", about)
            .parameters(parameters)
            .reads(reference("responses", RESULT_TABLE), &[READS_FIELDS, NAMED]);
        let about = "A table of requests: the header names the fields, a unit may stand in it as in `diameter [in]`, and \
                     each row is one request. The same rows come back with the results beside them, a list's items one \
                     below the other; a refused row says why in its last column. Both stream. A parameter of the \
                     address holds for every row, pick chooses results by their names, parted by commas.";
        let mut parameters = vec![named(first, &one_of)];
        parameters.extend(reserved::of_form(Form::Sheet));
        let body = json!({TABLE: {"schema": of("TableText"), "example": sheet_example(first)}});
        let many = operation("rows", "Many rows in and out", about)
            .parameters(parameters)
            .body(body)
            .answers(reference("responses", SHEET), &[READS_FIELDS, NAMED]);
        let mut operations =
            vec![(path("txt"), json!({"get": one})), (path("csv"), json!({"get": rows, "post": many}))];
        if let Some(first) = self.drawn().next() {
            let about = "The answer drawn to scale and dimensioned in its units, as SVG with a title and a description. \
                         data-scale is the number of sheet units to a metre; data-zero-x and data-zero-y are where the \
                         model's zero lies; data-field, data-dimension and data-number say what a shape shows.";
            let mut parameters = vec![named(first, &format!("{}Drawing", self.stem())), own_fields(first)];
            parameters.extend(reserved::of_form(Form::Drawing));
            let drawn = operation("drawing", "The answer drawn", about)
                .parameters(parameters)
                .reads(reference("responses", DRAWING), &[READS_FIELDS, NAMED]);
            operations.push((path("svg"), json!({"get": drawn})));
        }
        operations
    }
}

/// The schemas of what every form takes.
pub fn schemas() -> Named {
    let fields = json!({
        "type": "object", "description": "A calculator's own fields by their names, each as a query states it.",
        "additionalProperties": {"type": "string", "minLength": 1} });
    let table =
        json!({"type": "string", "minLength": 1, "description": "A header, and a row for each request, as CSV."});
    vec![("OwnFields".to_owned(), fields), ("TableText".to_owned(), table)]
}

fn named(first: &Described, schema: &str) -> Value {
    json!({"name": "calculator", "in": "path", "required": true, "description": "The calculator.",
           "schema": of(schema), "example": first.entry.address().1})
}

/// The calculator's own fields: an object of which each member is a query parameter by itself.
fn own_fields(first: &Described) -> Value {
    let fields: Map<String, Value> =
        first.entry.examples[0].fields.iter().map(|(name, value)| ((*name).to_owned(), json!(value))).collect();
    json!({"name": "fields", "in": "query", "style": "form", "explode": true,
           "description": "The calculator's own fields, each a query parameter of its own, as its own address has them.",
           "schema": of("OwnFields"), "example": fields})
}

/// The first example's answer, and a quantity of it by its path.
struct Shown {
    answer: Option<crate::asking::Answer>,
    pick: String,
}

impl Shown {
    fn of(described: &Described) -> Self {
        let given = Fields::of_texts(described.entry.examples[0].fields.iter().copied());
        let answer = ask(described.entry, given, Form::Json).ok().map(|(answer, _)| answer);
        let first = answer.as_ref().and_then(crate::asking::Answer::result).and_then(Node::first_quantity);
        let pick = first.map_or_else(String::new, |(path, _)| path);
        Self { answer, pick }
    }

    /// States pick, which a cell needs, and units as the example's answer has them.
    fn put_into(&self, parameters: &mut [Value]) {
        let units = self.answer.as_ref().map_or(System::Metric, |answer| answer.system);
        let about = "System of the value: inch or metric. Needed where the cell shows a quantity.";
        for parameter in parameters {
            match parameter["$ref"].as_str().and_then(|name| name.rsplit('/').next()) {
                Some("pick") => {
                    *parameter = json!({
                        "name": "pick", "in": "query", "required": true,
                        "description": "What the cell shows: the name of a result, or with a leading slash a JSON \
                                        Pointer into the answer.",
                        "schema": of("Pick"), "example": self.pick });
                }
                Some("units") => {
                    *parameter = json!({"name": "units", "in": "query", "description": about,
                                        "schema": of("Units"), "example": units.as_str() });
                }
                _ => {}
            }
        }
    }

    fn cell(&self) -> Option<Value> {
        let answer = self.answer.as_ref()?;
        let reserved = Reserved { pick: Some(self.pick.clone()), units: Some(answer.system), ..Reserved::default() };
        cell(answer, &reserved).ok().map(Value::from)
    }

    fn table(&self) -> Option<Value> {
        Some(table(self.answer.as_ref()?, &Reserved::default()).into())
    }
}

/// The first example as a table of one row.
fn sheet_example(described: &Described) -> String {
    let fields = described.entry.examples[0].fields;
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    let _ = writer.write_record(fields.iter().map(|(name, _)| name));
    let _ = writer.write_record(fields.iter().map(|(_, value)| value));
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

/// What the service answers to that table.
fn sheet_answer(described: &'static Described, table: &str) -> Option<Value> {
    let sheet = Sheet::open(described.entry, Fields::default(), table.as_bytes()).ok()?;
    let (_, row) = table.split_once("\r\n")?;
    String::from_utf8([sheet.head(), sheet.rows(row.as_bytes(), 1, |_, _| false).lines].concat()).ok().map(Value::from)
}
