//! Start.
fn main(){}
