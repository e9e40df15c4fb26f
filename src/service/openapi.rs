//! The published description, OpenAPI 3.1, built from the register: the operations of each
//! calculator and the service's own.

mod common;

use crate::asking::{Described, Field, Form, described, reserved_fields, without_null};
use crate::calculators::Schemas;
use common::{asked, common_schemas, own_operations, problem_responses};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::sync::LazyLock;
use utoipa::openapi::path::{
    HttpMethod, OperationBuilder, ParameterBuilder, ParameterIn, ParameterStyle, PathItemBuilder, PathsBuilder,
};
use utoipa::openapi::request_body::RequestBodyBuilder;
use utoipa::openapi::schema::{ComponentsBuilder, Schema};
use utoipa::openapi::tag::TagBuilder;
use utoipa::openapi::{
    ContentBuilder, InfoBuilder, LicenseBuilder, OpenApiBuilder, Ref, RefOr, Required, ResponseBuilder, ServerBuilder,
};

/// The description as JSON text, made once.
pub fn text() -> &'static str {
    static TEXT: LazyLock<String> = LazyLock::new(|| {
        let mut text = serde_json::to_string_pretty(&document()).unwrap_or_default();
        text.push('\n');
        text
    });
    &TEXT
}

/// Every operation as `METHOD path operation_id`, sorted: the description at a glance.
pub fn operations() -> String {
    let document = document();
    let mut lines = Vec::new();
    for (path, item) in document["paths"].as_object().into_iter().flatten() {
        for (method, operation) in item.as_object().into_iter().flatten() {
            if let Some(id) = operation["operationId"].as_str() {
                lines.push(format!("{} {path} {id}", method.to_uppercase()));
            }
        }
    }
    lines.sort_by_key(|line| line.split(' ').nth(1).map(|path| (path.to_owned(), line.clone())));
    lines.join("\n") + "\n"
}

/// The description.
pub fn document() -> Value {
    let mut paths = PathsBuilder::new();
    for (path, item) in own_operations() {
        paths = paths.path(path, item);
    }
    let mut schemas = common_schemas();
    let mut tags: Vec<String> = Vec::new();
    for described in described() {
        let (topic, name) = described.entry.address();
        if !tags.iter().any(|tag| tag == topic) {
            tags.push(topic.to_owned());
        }
        let id = name.replace('-', "_");
        for (path, item) in calculator_operations(described, topic, &id) {
            paths = paths.path(path, item);
        }
        schemas.extend(calculator_schemas(described));
    }
    let tags = ["service"].into_iter().map(str::to_owned).chain(tags);
    let schemas: BTreeMap<String, RefOr<Schema>> = schemas.into_iter().collect();
    let document = OpenApiBuilder::new()
        .info(
            InfoBuilder::new()
                .title("Shop Reckoner")
                .version(crate::VERSION)
                .description(Some(
                    "The arithmetic of a machine shop: drills, patterns, arcs, threads, speeds. Every answer carries \
                     its inputs as understood, what was assumed, the working, sources and cautions. Starting points, \
                     not settings: the tool maker's data, the machine's manual and qualified people come first.",
                ))
                .license(Some(
                    LicenseBuilder::new().name("MIT OR Apache-2.0").identifier(Some("MIT OR Apache-2.0")).build(),
                ))
                .build(),
        )
        .servers(Some([ServerBuilder::new().url("/").description(Some("This service")).build()]))
        .tags(Some(tags.map(|tag| TagBuilder::new().name(&tag).description(Some(about_tag(&tag))).build())))
        .paths(paths)
        .components(Some(ComponentsBuilder::new().schemas_from_iter(schemas).build()))
        .build();
    let mut document = serde_json::to_value(document).unwrap_or_default();
    tidy(&mut document);
    document
}

fn about_tag(tag: &str) -> String {
    match tag {
        "service" => "The service itself: its calculators, description and health.".into(),
        topic => format!("Calculators under {topic}/."),
    }
}

/// Takes nulls out of optional fields: no request or answer has any.
fn tidy(value: &mut Value) {
    match value {
        Value::Object(map) => {
            let single = {
                let whole = Value::Object(std::mem::take(map));
                let single = without_null(&whole).clone();
                let changed = single != whole;
                if let Value::Object(back) = whole {
                    *map = back;
                }
                changed.then_some(single)
            };
            if let Some(Value::Object(single)) = single {
                map.shift_remove("oneOf");
                for (name, part) in single {
                    map.entry(name).or_insert(part);
                }
            }
            map.values_mut().for_each(tidy);
        }
        Value::Array(list) => list.iter_mut().for_each(tidy),
        _ => {}
    }
}

/// A schema given as JSON.
fn schema(value: Value) -> RefOr<Schema> {
    serde_json::from_value(value).unwrap_or_else(|_| RefOr::T(Schema::default()))
}

/// The schemas of a calculator's types, its request and its answer.
fn calculator_schemas(described: &Described) -> Schemas {
    let entry = described.entry;
    let mut schemas = Vec::new();
    (entry.parts)(&mut schemas);
    let (input_name, input) = (entry.input)();
    let (output_name, output) = (entry.output)();
    let stem = input_name.trim_end_matches("Input").to_owned();
    // A request is the input with the reserved fields beside it.
    let mut request = serde_json::to_value(&input).unwrap_or_default();
    request["description"] = json!(format!("What {} is asked: its fields and the reserved ones.", entry.id));
    for field in reserved_of(Form::Json) {
        let mut property = reserved_schema(field);
        property["description"] = json!(field.about);
        request["properties"][&field.name] = property;
    }
    request["examples"] = json!(entry.examples.iter().map(|e| common::inputs(e.fields)).collect::<Vec<_>>());
    schemas.push((format!("{stem}Request"), schema(request)));
    let mut output_value = serde_json::to_value(&output).unwrap_or_default();
    output_value["additionalProperties"] = json!(false);
    schemas.push((output_name.clone(), schema(output_value)));
    let mut answer = common::answer_schema(&output_name);
    answer["description"] = json!(format!("The answer of {}.", entry.id));
    schemas.push((format!("{stem}Answer"), schema(answer)));
    schemas
}

fn reserved_of(form: Form) -> impl Iterator<Item = &'static Field> {
    form.names().iter().filter_map(|name| reserved_fields().iter().find(|field| field.name == *name))
}

fn reserved_schema(field: &Field) -> Value {
    match field.form {
        "quantity" => json!({"$ref": "#/components/schemas/Resolution"}),
        _ => field.query_schema.clone(),
    }
}

fn calculator_operations(
    described: &'static Described,
    topic: &str,
    id: &str,
) -> Vec<(String, utoipa::openapi::path::PathItem)> {
    let entry = described.entry;
    let stem = (entry.input)().0.trim_end_matches("Input").to_owned();
    let path = format!("/v1/{}", entry.id);
    let example = &entry.examples[0];
    let answer = |fields: &[(&'static str, &'static str)]| {
        ContentBuilder::new()
            .schema(Some(Ref::from_schema_name(format!("{stem}Answer"))))
            .example(asked(entry, fields))
            .build()
    };
    let operation = |id: String, summary: String, about: String| {
        OperationBuilder::new().tag(topic).operation_id(Some(id)).summary(Some(summary)).description(Some(about))
    };
    let ok = |content| ResponseBuilder::new().description("The answer.").content("application/json", content).build();
    let get = with_parameters(
        operation(id.to_owned(), entry.title.to_owned(), format!("{} {}", entry.about, example.says)),
        described,
        Form::Json,
    )
    .response("200", ok(answer(example.fields)));
    let post = operation(
        format!("{id}_post"),
        format!("{}, asked by JSON", entry.title),
        format!("The same inputs and the same answer as GET. {}", example.says),
    )
    .request_body(Some(
        RequestBodyBuilder::new()
            .description(Some("The inputs and the reserved fields."))
            .required(Some(Required::True))
            .content(
                "application/json",
                ContentBuilder::new()
                    .schema(Some(Ref::from_schema_name(format!("{stem}Request"))))
                    .example(Some(common::inputs(example.fields)))
                    .build(),
            )
            .build(),
    ))
    .response("200", ok(answer(example.fields)));
    let text = |media: &str, about: &str, example: Value| {
        ResponseBuilder::new()
            .description(about)
            .content(
                media,
                ContentBuilder::new()
                    .schema(Some(schema(json!({"type": "string", "description": about}))))
                    .example(Some(example))
                    .build(),
            )
            .build()
    };
    let cell = with_parameters(
        operation(
            format!("{id}_cell"),
            format!("{}, one value for a cell", entry.title),
            "One value of the answer as bare text, for a cell of a spreadsheet: pick says which.".into(),
        ),
        described,
        Form::Cell,
    )
    .response("200", text("text/plain", "The value, or REFUSED and the reason.", json!("0.5")));
    let table = with_parameters(
        operation(
            format!("{id}_table"),
            format!("{}, as a table", entry.title),
            "The result as CSV with a header; the rows of its list, or one row.".into(),
        ),
        described,
        Form::Table,
    )
    .response("200", text("text/csv", "The table.", json!("number,x [in]\r\n1,2\r\n")));
    let item = |get: OperationBuilder| {
        PathItemBuilder::new().operation(HttpMethod::Get, problem_responses(get, false).build())
    };
    let mut operations = vec![
        (path.clone(), item(get).operation(HttpMethod::Post, problem_responses(post, true).build()).build()),
        (format!("{path}.txt"), item(cell).build()),
        (format!("{path}.csv"), item(table).build()),
    ];
    if entry.draw.is_some() {
        let about = "The answer drawn to scale and dimensioned in its units, as SVG with a title and a description. \
                     data-scale is the number of sheet units to a metre; data-zero-x and data-zero-y are where the \
                     model's zero lies; data-field, data-dimension and data-number say what a shape shows.";
        let drawing = operation(format!("{id}_drawing"), format!("{}, drawn", entry.title), about.into());
        let svg = json!("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 340 300\"></svg>");
        let drawing = with_parameters(drawing, described, Form::Drawing)
            .response("200", text(super::ask::SVG, "The drawing.", svg));
        operations.push((format!("{path}.svg"), item(drawing).build()));
    }
    operations
}

/// Adds one query parameter for each field that a query can state.
fn with_parameters(mut operation: OperationBuilder, described: &'static Described, form: Form) -> OperationBuilder {
    for field in described.fields.iter().chain(reserved_of(form)) {
        let is_list = field.query_schema["type"] == "array";
        let required = field.required || field.name == "pick";
        let mut parameter = ParameterBuilder::new()
            .name(&field.name)
            .parameter_in(ParameterIn::Query)
            .required(if required { Required::True } else { Required::False })
            .description(Some(&field.about))
            .schema(Some(schema(field.query_schema.clone())));
        if is_list {
            parameter = parameter.style(Some(ParameterStyle::Form)).explode(Some(false));
        }
        let example = match field.form {
            _ if is_list => json!(field.example.split(',').map(str::trim).collect::<Vec<_>>()),
            "count" => field.example.parse::<i64>().map_or(Value::Null, |count| json!(count)),
            "truth" => json!(field.example == "true"),
            _ => json!(field.example),
        };
        operation = operation.parameter(parameter.example(Some(example)));
    }
    operation
}
