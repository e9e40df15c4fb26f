//! The arithmetic that several calculators share, and its steps where it has some: circles through points, which way
//! angles run, the fewest sizes that add up, how tolerances spread, bracketed roots, what touches tell, moves from place
//! to place, verdicts on what was measured, whole-number fractions, trains of gears, involutes.

pub mod all_roots;
pub mod circle_fit;
pub mod directions;
mod extremes;
pub mod fewest;
pub mod fraction;
pub mod gear_trains;
pub mod involute;
pub mod measured;
pub mod plane;
pub mod propagation;
pub mod roots;
pub mod tangency;
pub mod touching;
pub mod travel;
pub mod verdict;
