//! Start.
fn main() {}
