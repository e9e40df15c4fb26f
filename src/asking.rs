//! Asking a calculator: the fields that every request may carry, the reading and solving, the
//! system of the answer, the readout's resolution, tolerances, ranges, solving backwards, and the
//! answer as JSON, a cell, a table or a drawing. Each is a loop over the register's untyped entry; nothing here
//! knows a calculator.

mod describing;
mod receipts;
mod solving;
mod tables;

pub use describing::{
    Described, Digits, FORMS, Field, Form, RESERVED, RefusalsAs, Reserved, ResultField, Separator, XReads, ZPlus,
    describe_entry, described, reserved_fields, reserved_schemas,
};
pub use receipts::{Difference, DifferenceCause, GivenBy, Rechecked, Verdict, recheck};
pub use solving::{
    Answer, Body, Correction, LONGEST_LINK, Root, Row, Sources, ask, drawing, link, machine_named, targets,
};
pub use tables::{Answered, Sheet, cell, delimiter, separator, table};
