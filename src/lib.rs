//! Shop Reckoner: the arithmetic of a machine shop as a stateless, unit-safe HTTP service.
//!
//! The layers from the top downwards, each knowing only those below it:
//!
//! - [`service`]: HTTP, the only place that knows it;
//! - [`page`]: the pages a person reads and fills in;
//! - [`practice`]: questions and their marking, made from the register;
//! - [`verification`]: the outside values that each calculator is checked against;
//! - [`asking`]: one request to one calculator, in units, on a resolution, as JSON, cell or table;
//! - [`calculators`]: the trade, one file or folder a calculator, and the register of them all;
//! - [`fastening`]: a screw's hole and the drill for it;
//! - [`shop`]: what one shop owns, from its file;
//! - [`machine`]: the speeds, feeds and power a machine has;
//! - [`hole_pattern`]: what every pattern of holes begins with and ends in;
//! - [`round_touches`]: the circle that touches round a bore or a boss lie on;
//! - [`threading`]: what every calculator of threads begins with;
//! - [`fitting`]: the limits of a hole and a shaft, for every calculator of fits;
//! - [`gauge_blocks`]: stacks of gauge blocks from those at hand;
//! - [`reference`]: typed rows of the published tables;
//! - [`suggestion`]: values to try, rounded;
//! - [`arithmetic`]: what several calculators compute alike;
//! - [`cautions`]: the usual cautions;
//! - [`drawing`]: the shapes of a drawing, to SVG;
//! - [`working`]: the record of a calculation;
//! - [`fields`]: a request read into typed inputs;
//! - [`declared`]: fields and results as data;
//! - [`tree`]: inputs and results without their types;
//! - [`sources`]: where numbers come from, and how far to trust them;
//! - [`json`]: JSON of answers, straight into one buffer;
//! - [`quantity`]: values with units;
//! - [`budget`]: how long the work of a request may go on;
//! - [`refusal`]: what can be wrong, and what to try.

#![forbid(unsafe_code)]
// Formulas are written with the trade's symbols, σ, κ, π.
#![allow(mixed_script_confusables, confusable_idents, uncommon_codepoints)]

pub mod arithmetic;
pub mod asking;
pub mod budget;
pub mod calculators;
pub mod cautions;
pub mod declared;
pub mod drawing;
pub mod fastening;
pub mod fields;
pub mod fitting;
pub mod gauge_blocks;
pub mod hole_pattern;
pub mod json;
pub mod machine;
pub mod page;
pub mod practice;
pub mod quantity;
pub mod reference;
pub mod refusal;
pub mod round_touches;
pub mod service;
pub mod shop;
pub mod sources;
pub mod suggestion;
pub mod threading;
pub mod tree;
pub mod verification;
pub mod working;

/// The version of the service.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

/// The version of the tables: the beginning of a SHA-256 over all that are compiled in.
pub fn data_version() -> &'static str {
    reference::data_version()
}
