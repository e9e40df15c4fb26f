//! What a schema refers to, and what it is without its null.

use serde_json::{Value, json};

/// An optional field's schema without its null, which no request or answer has.
pub fn without_null(schema: &Value) -> &Value {
    let Some(Value::Array(of)) = schema.get("oneOf") else { return schema };
    let mut real = of.iter().filter(|one| one.get("type") != Some(&json!("null")));
    match (real.next(), real.next(), of.len()) {
        (Some(one), None, 2) => one,
        _ => schema,
    }
}

/// The name of the schema that a reference points at.
pub fn reference(schema: &Value) -> Option<&str> {
    schema.get("$ref")?.as_str()?.rsplit('/').next()
}
