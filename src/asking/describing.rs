//! What is known of a calculator before it is asked: its fields, the places of its results, and the
//! fields that every request may carry, from their declarations.

mod describe;
mod field_schema;
mod reserved;

pub use describe::{
    Described, FORMS, Field, ResultField, describe_entry, described, reserved_fields, reserved_schemas,
};
pub use reserved::{Digits, Form, RESERVED, RefusalsAs, Reserved, Separator, XReads, ZPlus, good};
