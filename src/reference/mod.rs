//! Typed rows of the published tables in data/, compiled in and read once; each row names its source.

pub mod drills;
