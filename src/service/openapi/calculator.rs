//! What the description says of one calculator: the schemas of its request and answer, and its
//! operations, with examples that are the service's own answers.

use super::json_schema::schema;
use super::parts::{self, problem_responses};
use crate::asking::{Answer, Described, Field, Form, Reserved, Sheet, ask, cell, reserved_fields, table, targets};
use crate::calculators::Entry;
use crate::declared::Schemas;
use crate::fields::Fields;
use crate::quantity::text;
use crate::service::response::SVG;
use crate::tree::Node;
use serde_json::{Map, Value, json};
use utoipa::openapi::path::{
    HttpMethod, OperationBuilder, ParameterBuilder, ParameterIn, ParameterStyle, PathItem, PathItemBuilder,
};
use utoipa::openapi::request_body::RequestBodyBuilder;
use utoipa::openapi::{Content, ContentBuilder, Ref, Required, ResponseBuilder};

/// The part of the schemas' names that is the calculator's.
fn stem(entry: &Entry) -> String {
    entry.input.name.trim_end_matches("Input").to_owned()
}

fn reference(name: &str) -> Value {
    json!({"$ref": format!("#/components/schemas/{name}")})
}

/// The reserved fields that mean something in `form` and to this calculator.
fn reserved_of(described: &Described, form: Form) -> impl Iterator<Item = &'static Field> {
    let backwards = targets(described.entry).next().is_some();
    form.names()
        .iter()
        .filter(move |name| backwards || !["solve_for", "wanted", "measured", "correct"].contains(*name))
        .filter_map(|name| reserved_fields().iter().find(|field| field.name == *name))
}

/// An example's fields as a JSON request.
fn inputs(described: &Described, fields: &[(&'static str, &'static str)]) -> Value {
    let typed = fields.iter().map(|(name, value)| {
        let field = described.fields.iter().find(|field| field.name == *name);
        ((*name).to_owned(), field.map_or_else(|| json!(value), |field| field.as_json(value)))
    });
    Value::Object(typed.collect::<Map<_, _>>())
}

/// The schemas of a calculator's types, its request and its answer.
pub fn schemas(described: &Described) -> Schemas {
    let entry = described.entry;
    let stem = stem(entry);
    let mut schemas = Vec::new();
    entry.input.collect(&mut schemas);
    entry.output.collect(&mut schemas);
    // A request is the input with the reserved fields beside it.
    let mut request = serde_json::to_value(entry.input.schema()).unwrap_or_default();
    request["description"] = json!(format!("What {} is asked: its fields and the reserved ones.", entry.id));
    for field in &described.fields {
        request["properties"][&field.name] = with_about(field.body_schema(), &field.about);
    }
    for field in reserved_of(described, Form::Json) {
        let property = match field.name.as_str() {
            "solve_for" | "correct" => reference(&format!("{stem}Sought")),
            _ => field.body_schema(),
        };
        request["properties"][&field.name] = with_about(property, &field.about);
    }
    request["examples"] = entry.examples.iter().map(|example| inputs(described, example.fields)).collect();
    schemas.push((format!("{stem}Request"), schema(request)));
    let names: Vec<&str> = targets(entry).collect();
    if !names.is_empty() {
        let about = format!("The inputs of {} that can be found backwards.", entry.id);
        schemas.push((format!("{stem}Sought"), schema(json!({"type": "string", "enum": names, "description": about}))));
    }
    let output_name = entry.output.name;
    let mut output = serde_json::to_value(entry.output.schema()).unwrap_or_default();
    output["additionalProperties"] = json!(false);
    schemas.push((output_name.to_owned(), schema(output)));
    let stated: Map<String, Value> = described
        .fields
        .iter()
        .map(|field| (field.name.clone(), with_about(field.stated_schema(), &field.about)))
        .collect();
    let about = format!("The inputs of {} as understood, value and unit as stated.", entry.id);
    schemas.push((
        format!("{stem}Inputs"),
        schema(json!({"type": "object", "description": about, "additionalProperties": false, "properties": stated})),
    ));
    schemas.extend(parts::answer_schemas(entry.id, &stem, output_name));
    schemas
}

fn with_about(mut schema: Value, about: &str) -> Value {
    schema["description"] = json!(about);
    schema
}

/// The first example and what the service answers to it.
struct Shown {
    answer: Option<Answer>,
    /// A quantity of the result, by its path.
    pick: String,
    /// The same with its value.
    goal: String,
    /// An input of the example that can be found backwards.
    sought: String,
}

impl Shown {
    fn of(described: &Described) -> Self {
        let fields = described.entry.examples[0].fields;
        let given = Fields::of_texts(fields.iter().copied());
        let answer = ask(described.entry, given, Form::Json).ok().map(|(answer, _)| answer);
        let first = answer.as_ref().and_then(Answer::result).and_then(Node::first_quantity);
        let (pick, goal) = first.map_or_else(Default::default, |(path, quantity)| {
            let (value, unit) = (text::full(text::round(quantity.value, 4)), quantity.unit.row().ascii);
            let goal = format!("{path}:{value} {unit}");
            (path, goal)
        });
        let all: Vec<&str> = targets(described.entry).collect();
        let stated = fields.iter().map(|(name, _)| *name).find(|name| all.contains(name));
        let sought = stated.or(all.first().copied()).unwrap_or_default().to_owned();
        Self { answer, pick, goal, sought }
    }

    fn json(&self) -> Option<Value> {
        serde_json::to_value(self.answer.as_ref()?).ok()
    }

    /// The same without the working, as `working=false` answers.
    fn brief(&self) -> Option<Value> {
        let mut answer = self.json()?;
        answer["working"] = json!([]);
        Some(answer)
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

/// The operations of a calculator, by address.
pub fn operations(described: &'static Described) -> Vec<(String, PathItem)> {
    let entry = described.entry;
    let (topic, _) = entry.address();
    let (id, stem, path) = (entry.operation(), stem(entry), format!("/v1/{}", entry.id));
    let (example, shown) = (&entry.examples[0], Shown::of(described));
    let operation = |id: String, summary: String, about: String| {
        OperationBuilder::new().tag(topic).operation_id(Some(id)).summary(Some(summary)).description(Some(about))
    };
    let answer = |example: Option<Value>| {
        let content = ContentBuilder::new().schema(Some(Ref::from_schema_name(format!("{stem}Answer"))));
        ResponseBuilder::new()
            .description("The answer.")
            .content("application/json", content.example(example).build())
            .build()
    };
    let get = operation(id.clone(), entry.title.to_owned(), format!("{} {}", entry.about, example.says));
    let get = with_parameters(get, described, &shown, Form::Json).response("200", answer(shown.json()));
    let mut request = inputs(described, example.fields);
    request["working"] = json!(false);
    let body = ContentBuilder::new()
        .schema(Some(Ref::from_schema_name(format!("{stem}Request"))))
        .example(Some(request))
        .build();
    let post = operation(
        format!("{id}_post"),
        format!("{}, asked by JSON", entry.title),
        format!("The same inputs and the same answer as GET. {}", example.says),
    )
    .request_body(Some(
        RequestBodyBuilder::new()
            .description(Some("The inputs and the reserved fields."))
            .required(Some(Required::True))
            .content("application/json", body)
            .build(),
    ))
    .response("200", answer(shown.brief()));
    let about = "One value of the answer as bare text, for a cell of a spreadsheet: pick says which.".to_owned();
    let one = operation(format!("{id}_cell"), format!("{}, one value for a cell", entry.title), about);
    let one = with_parameters(one, described, &shown, Form::Cell).response(
        "200",
        parts::text("text/plain", "The value; or with refusals=text REFUSED: and the reason.", shown.cell()),
    );
    let about = "The result as CSV with a header: the rows of its list, or one row.".to_owned();
    let rows = operation(format!("{id}_table"), format!("{}, as a table", entry.title), about);
    let rows = with_parameters(rows, described, &shown, Form::Table)
        .response("200", parts::text("text/csv", "The table.", shown.table()));
    let about = "A table of requests: the header names the fields, a unit may stand in it as in `diameter [in]`, and \
                 each row is one request. The same rows come back with the results beside them, a list's items one \
                 below the other; a refused row says why in its last column. Both stream. A parameter of the address \
                 holds for every row, pick chooses results."
        .to_owned();
    let many = operation(format!("{id}_rows"), format!("{}, many rows in and out", entry.title), about);
    let many = with_reserved(many, described, &shown, Form::Sheet)
        .request_body(Some(
            RequestBodyBuilder::new()
                .description(Some("The table."))
                .required(Some(Required::True))
                .content("text/csv; header=present", sheet_body(described))
                .build(),
        ))
        .response("200", parts::text("text/csv", "The table with its results.", sheet_answer(described)));
    let item = |get: OperationBuilder| {
        PathItemBuilder::new().operation(HttpMethod::Get, problem_responses(get, false).build())
    };
    let mut operations = vec![
        (path.clone(), item(get).operation(HttpMethod::Post, problem_responses(post, true).build()).build()),
        (format!("{path}.txt"), item(one).build()),
        (format!("{path}.csv"), item(rows).operation(HttpMethod::Post, problem_responses(many, true).build()).build()),
    ];
    if entry.draw.is_some() {
        let about = "The answer drawn to scale and dimensioned in its units, as SVG with a title and a description. \
                     data-scale is the number of sheet units to a metre; data-zero-x and data-zero-y are where the \
                     model's zero lies; data-field, data-dimension and data-number say what a shape shows.";
        let drawn = operation(format!("{id}_drawing"), format!("{}, drawn", entry.title), about.to_owned());
        let svg = json!("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 340 300\"></svg>");
        let drawn = with_parameters(drawn, described, &shown, Form::Drawing)
            .response("200", parts::text(SVG, "The drawing.", Some(svg)));
        operations.push((format!("{path}.svg"), item(drawn).build()));
    }
    operations
}

/// The first example as a table of one row.
fn sheet_example(described: &Described) -> String {
    let fields = described.entry.examples[0].fields;
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    let _ = writer.write_record(fields.iter().map(|(name, _)| name));
    let _ = writer.write_record(fields.iter().map(|(_, value)| value));
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

fn sheet_body(described: &Described) -> Content {
    let table = schema(json!({"type": "string", "description": "A header and a row for each request."}));
    ContentBuilder::new().schema(Some(table)).example(Some(sheet_example(described).into())).build()
}

/// What the service answers to that table.
fn sheet_answer(described: &'static Described) -> Option<Value> {
    let table = sheet_example(described);
    let sheet = Sheet::open(described.entry, Fields::default(), table.as_bytes()).ok()?;
    let (_, row) = table.split_once("\r\n")?;
    String::from_utf8([sheet.head(), sheet.rows(row.as_bytes(), 1, |_| false).lines].concat()).ok().map(Value::from)
}

/// Adds one query parameter for each field that a query can state.
fn with_parameters(
    operation: OperationBuilder,
    described: &'static Described,
    shown: &Shown,
    form: Form,
) -> OperationBuilder {
    let fields = described.fields.iter().chain(reserved_of(described, form));
    with(operation, described, shown, form, fields)
}

/// Adds one query parameter for each reserved field of the form.
fn with_reserved(
    operation: OperationBuilder,
    described: &'static Described,
    shown: &Shown,
    form: Form,
) -> OperationBuilder {
    with(operation, described, shown, form, reserved_of(described, form))
}

fn with(
    mut operation: OperationBuilder,
    described: &'static Described,
    shown: &Shown,
    form: Form,
    fields: impl Iterator<Item = &'static Field>,
) -> OperationBuilder {
    let sought_schema = format!("{}Sought", stem(described.entry));
    for field in fields {
        let (mut about, mut of) = (field.about.as_str(), field.query_schema());
        let mut example = field.as_json(&field.example);
        match field.name.as_str() {
            "pick" if form == Form::Sheet => {
                about = "The results to give, by their names, parted by commas; all if absent.";
                example = json!(described.results.first().map_or("", |result| result.name));
            }
            "pick" => example = json!(shown.pick),
            "wanted" | "measured" => example = json!(shown.goal),
            "solve_for" | "correct" => (of, example) = (reference(&sought_schema), json!(shown.sought)),
            "units" if form == Form::Cell => {
                about = "System of the value: inch or metric. Needed where the cell shows a quantity, so that its \
                         unit can never change.";
            }
            _ => {}
        }
        let is_list = of["type"] == "array";
        let required = field.required || (field.name == "pick" && form == Form::Cell);
        let mut parameter = ParameterBuilder::new()
            .name(&field.name)
            .parameter_in(ParameterIn::Query)
            .required(if required { Required::True } else { Required::False })
            .description(Some(about))
            .schema(Some(schema(of)))
            .example(Some(example));
        if is_list {
            parameter = parameter.style(Some(ParameterStyle::Form)).explode(Some(false));
        }
        operation = operation.parameter(parameter);
    }
    operation
}
