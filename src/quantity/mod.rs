//! Values with units at the boundary: reading, bounds, kinds, printing. Dimensions come from `uom`,
//! factors from our own exact table; knows nothing of HTTP.

pub mod angle;
mod formula;
mod kinds;
mod measure;
mod misread;
pub mod pattern;
mod read;
#[cfg(test)]
mod read_tests;
mod schema;
pub mod text;
mod units;

pub use formula::{Degrees, InFormula, OfFormula};
pub use kinds::*;
pub use measure::{Found, Measure, Quantity, SiValue};
pub use read::{LONGEST, Written, may_have_tolerance, read, shown};
pub(crate) use schema::{text_name, value_name};
pub use units::{Dimension, System, UNITS, Unit, UnitRow};
