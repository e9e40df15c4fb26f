//! What a request may carry beside a calculator's own fields: their schemas, and the parameters that are
//! said once for all.

use super::operation::if_none_match;
use super::parts::{Named, of, reference};
use crate::asking::{Described, Field, Form, reserved_fields, reserved_schemas, targets};
use crate::service::openapi::values;
use serde_json::{Map, Value, json};

/// The fields for solving backwards, which mean something only where an input is a quantity.
const BACKWARDS: [&str; 4] = ["solve_for", "wanted", "measured", "correct"];

/// The schema of the reserved fields without those.
const FORWARDS: &str = "ReservedFields";
/// The schema of the reserved fields with those that mean the same to every calculator.
const BOTH_WAYS: &str = "ReservedFieldsBothWays";

/// The schema of a reserved field's value in a JSON request.
fn schema_of(field: &Field) -> Value {
    match field.name.as_str() {
        "working" => of("Working"),
        "machine" => of("MachineName"),
        "pick" => of("Pick"),
        "resolution" => of("Resolution"),
        "wanted" | "measured" => of("Goal"),
        "solve_for" | "correct" => of("FieldName"),
        _ => field.query_schema(),
    }
}

/// The schemas that reserved fields refer to.
pub fn schemas() -> Named {
    let about = |name: &str| field(name).map_or_else(Value::default, |field| json!(field.about));
    let mut all = values(reserved_schemas());
    all.extend(shared());
    let wanted = field("wanted").map(Field::query_schema).unwrap_or_default();
    all.extend(
        [
            ("Working", json!({"type": "boolean", "description": about("working")})),
            ("MachineName", json!({"type": "string", "minLength": 1, "description": about("machine")})),
            ("Pick", json!({"type": "string", "minLength": 1, "description": about("pick")})),
            ("FieldName", json!({"type": "string", "minLength": 1, "description": "The name of an input."})),
            (
                "Goal",
                json!({"type": "string", "pattern": wanted["pattern"], "examples": ["point_length:0.152 in"],
                       "description": "A result and its value, as name:value."}),
            ),
        ]
        .map(|(name, schema)| (name.to_owned(), schema)),
    );
    all
}

fn field(name: &str) -> Option<&'static Field> {
    reserved_fields().iter().find(|field| field.name == name)
}

/// The parameters, for the components.
pub fn parameters() -> Value {
    let mut all: Map<String, Value> = reserved_fields()
        .iter()
        .map(|field| {
            let schema = if field.is_quantity() { field.query_schema() } else { schema_of(field) };
            let parameter = json!({"name": field.name, "in": "query", "description": field.about, "schema": schema});
            (field.name.clone(), parameter)
        })
        .collect();
    all.insert("If-None-Match".to_owned(), if_none_match());
    all.into()
}

/// The names that mean something in `form` and to this calculator.
fn names(described: &Described, form: Form) -> impl Iterator<Item = &'static str> {
    let backwards = targets(described.entry).next().is_some();
    form.names().iter().copied().filter(move |name| backwards || !BACKWARDS.contains(name))
}

/// The query parameters of a form's reserved fields; `sought` is the schema of the inputs that can be found.
pub fn of_calculator(described: &Described, sought: &str) -> Vec<Value> {
    let one = |name: &str| match name {
        "solve_for" => {
            json!({"name": name, "in": "query", "description": "An input to find, not stated.", "schema": of(sought)})
        }
        "correct" => json!({"name": name, "in": "query", "description": "An input to correct.", "schema": of(sought)}),
        name => reference("parameters", name),
    };
    names(described, Form::Json).map(one).collect()
}

/// The query parameters of a form's reserved fields, for calculators of a topic together.
pub fn of_form(form: Form) -> Vec<Value> {
    form.names().iter().map(|name| reference("parameters", name)).collect()
}

/// The reserved fields in a JSON request: the schema of those that mean the same everywhere, and those beside it that
/// differ, by name.
pub fn of_request(described: &Described, sought: &str) -> (&'static str, Map<String, Value>) {
    if targets(described.entry).next().is_none() {
        return (FORWARDS, Map::new());
    }
    (BOTH_WAYS, ["solve_for", "correct"].map(|name| (name.to_owned(), of(sought))).into_iter().collect())
}

/// The same beside the inputs of one item of many, which may ask any calculator.
pub fn of_item() -> (&'static str, Map<String, Value>) {
    (BOTH_WAYS, properties(&["solve_for", "correct"]))
}

fn properties(names: &[&str]) -> Map<String, Value> {
    names.iter().map(|name| ((*name).to_owned(), field(name).map(schema_of).unwrap_or_default())).collect()
}

/// The schemas of the reserved fields that mean the same to every calculator that has them.
fn shared() -> Named {
    let forwards: Vec<&str> = Form::Json.names().iter().copied().filter(|name| !BACKWARDS.contains(name)).collect();
    let about = "What a request may say beside a calculator's own fields.";
    let one = json!({"type": "object", "description": about, "properties": properties(&forwards)});
    let more = json!({"type": "object", "properties": properties(&["wanted", "measured"])});
    let about = "The same where an input can be found or corrected.";
    let both = json!({"description": about, "allOf": [of(FORWARDS), more]});
    vec![(FORWARDS.to_owned(), one), (BOTH_WAYS.to_owned(), both)]
}
