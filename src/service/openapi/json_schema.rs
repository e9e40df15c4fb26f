//! A schema of the description, from JSON.

use serde_json::Value;
use utoipa::openapi::RefOr;
use utoipa::openapi::schema::Schema;

/// A schema given as JSON.
pub fn schema(value: Value) -> RefOr<Schema> {
    serde_json::from_value(value).unwrap_or_else(|_| RefOr::T(Schema::default()))
}
