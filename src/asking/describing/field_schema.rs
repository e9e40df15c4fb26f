//! The schemas of one field: of its text in a query, of its value in a JSON request, and of its value
//! as an answer repeats it; from the type that it is declared with.

use super::describe::Field;
use crate::declared::{Member, Shape, TypeFacts};
use serde_json::{Map, Value, json};
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::Schema;

impl Field {
    /// The schema of one text of a query; an array where the field is a list.
    pub fn query_schema(&self) -> Value {
        match self.member.of.shape {
            Shape::List(item) => json!({"type": "array", "minItems": 1, "items": single(item, item.referred())}),
            _ => self.or_numbers(single(self.member.of, self.member.schema())),
        }
    }

    /// The schema of the value in a JSON request.
    pub fn body_schema(&self) -> Value {
        match self.member.of.shape {
            Shape::Words => single(self.member.of, self.member.schema()),
            _ => self.or_numbers(as_json(self.member.schema())),
        }
    }

    /// The schema of the value as an answer repeats it.
    pub fn stated_schema(&self) -> Value {
        stated(&self.member)
    }

    /// A number, or several of them as text.
    fn or_numbers(&self, schema: Value) -> Value {
        match self.member.of.shape {
            Shape::Count { .. } => json!({"oneOf": [schema, reference("Counts")]}),
            Shape::Number => json!({"oneOf": [schema, reference("Numbers")]}),
            _ => schema,
        }
    }
}

fn as_json(schema: impl serde::Serialize) -> Value {
    serde_json::to_value(schema).unwrap_or_default()
}

fn reference(name: &str) -> Value {
    json!({"$ref": format!("#/components/schemas/{name}")})
}

fn stated(member: &Member) -> Value {
    let of = member.of;
    match of.shape {
        Shape::List(item) => json!({"type": "array", "items": stated(&Member { of: item, ..*member })}),
        Shape::Rows(row) => json!({"type": "array", "items": stated(&Member { of: row, ..*member })}),
        Shape::Record(members) => stated_record(members),
        Shape::Quantity(_) | Shape::QuantityOrName(_) => reference("Stated"),
        Shape::Point => reference("StatedPoint"),
        Shape::Points => json!({"type": "array", "items": reference("StatedPoint")}),
        // Words are repeated as understood, which a pattern of the request does not bind.
        Shape::Words if of.name.is_some() => json!({"type": "string"}),
        _ => single(of, member.schema()),
    }
}

fn stated_record(members: &[Member]) -> Value {
    let required: Vec<&str> = members.iter().filter(|member| !member.optional).map(|member| member.name).collect();
    let properties: Map<String, Value> = members
        .iter()
        .map(|member| {
            let mut schema = stated(member);
            schema["description"] = json!(member.about);
            (member.name.to_owned(), schema)
        })
        .collect();
    json!({"type": "object", "required": required, "additionalProperties": false, "properties": properties})
}

/// The schema of a single value's text, where it has one, else its own.
fn single(of: &TypeFacts, own: RefOr<Schema>) -> Value {
    if let Some(text) = of.text {
        return as_json(text());
    }
    let mut single = as_json(own);
    if of.name.is_none() && matches!(of.shape, Shape::Words) {
        single["minLength"] = json!(1);
    }
    single
}
