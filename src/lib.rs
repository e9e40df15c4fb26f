//! Shop Reckoner: the arithmetic of a machine shop as a stateless, unit-safe HTTP service.
//!
//! The layers, each knowing only those below it:
//!
//! - [`service`]: HTTP, the only place that knows it; [`page`]: the pages a person reads and fills in;
//! - [`practice`]: questions and their marking, made from the register;
//! - [`verification`]: the outside values that each calculator is checked against;
//! - [`asking`]: one request to one calculator, in units, on a resolution, as JSON, cell or table;
//! - [`calculators`]: the trade, one file a calculator, and the register of them all;
//! - [`shop`]: what one shop owns, from its file; [`machine`]: the speeds and feeds a machine has;
//! - [`reference`]: typed rows of the published tables; [`working`]: the record of a calculation;
//!   [`cautions`]; [`propagation`]: how tolerances spread; [`roots`]: bracketed roots;
//!   [`circle_fit`]: circles through points; [`drawing`]: the shapes of a drawing, to SVG;
//!   [`directions`]: which way angles run; [`touching`]: what is seen while touching work;
//!   [`travel`]: moves from place to place; [`suggestion`]: values to try; [`fields`]: a request
//!   read into typed inputs; [`tree`]: inputs and results without their types;
//! - [`quantity`]: values with units; [`sources`]: who says so;
//! - [`refusal`]: what can be wrong, and what to try.

#![forbid(unsafe_code)]
// Formulas are written with the trade's symbols, σ, κ, π.
#![allow(mixed_script_confusables, confusable_idents, uncommon_codepoints)]

pub mod asking;
pub mod calculators;
pub mod cautions;
pub mod circle_fit;
pub mod declared;
pub mod directions;
pub mod drawing;
pub mod fields;
pub mod machine;
pub mod page;
pub mod practice;
pub mod propagation;
pub mod quantity;
pub mod reference;
pub mod refusal;
pub mod roots;
pub mod service;
pub mod shop;
pub mod sources;
pub mod suggestion;
pub mod touching;
pub mod travel;
pub mod tree;
pub mod verification;
pub mod working;

/// The version of the service.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

/// The version of the tables: the beginning of a SHA-256 over all that are compiled in.
pub fn data_version() -> &'static str {
    reference::data_version()
}
