//! What is known of a calculator before it is asked: its fields, the places of its results, and the
//! fields that every request may carry, drawn from the schemas of their types.

mod describe;
mod field_schema;
mod places;
mod reserved;
mod schema_reference;

pub use describe::{
    Described, FORMS, Field, ResultField, describe_entry, described, reserved_fields, reserved_schemas,
};
pub use places::{Part, Places};
pub use reserved::{Digits, Form, RESERVED, RefusalsAs, Reserved, Separator, XReads, ZPlus, good};
pub use schema_reference::without_null;
