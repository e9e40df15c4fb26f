//! Shop Reckoner.
pub mod fields;
pub mod quantity;
pub mod refusal;
pub mod tree;
