//! Answers for spreadsheets: one value for a cell, a result as a table, and a table of requests answered
//! row by row.

mod cell;
mod cells;
mod layout;
mod separator;
mod sheet;
mod sheet_header;
mod table;

pub use cell::cell;
pub use separator::{delimiter, separator};
pub use sheet::{Answered, Sheet};
pub use table::table;
