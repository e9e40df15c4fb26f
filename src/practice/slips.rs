//! What a wrong answer comes from. Each slip is found by asking the same calculator again with an input
//! misunderstood, by going through its working again with a formula misunderstood, or by changing
//! the result; an answer that is what a slip would have given is told which. Nothing here knows a
//! calculator: what a slip fits is seen by the kinds and names of its fields.

mod case;
mod inputs;
mod results;

pub use case::{Case, Slip};

use super::marking::{agree, allowed};
use crate::budget::go_on;
use crate::quantity::Quantity;
use crate::refusal::Refusal;

/// What kinds of slips there are, with what each is.
pub const CODES: &[(&str, &str)] = &[
    ("wrong_unit", "a value in the wrong unit or system, or a conversion that is missing"),
    ("degrees_for_radians", "degrees taken for radians or radians for degrees"),
    ("drill_point_forgotten", "the point of the drill left out, or counted where it does not count"),
    ("feed_per_tooth", "a feed a tooth taken for a feed a turn, or the other way round"),
    ("included_angle", "an included angle taken for its half, or the half for the whole"),
    ("radius_for_diameter", "a radius taken for a diameter, or the other way round"),
    ("angle_zero", "an angle counted from another zero or the other way round"),
    ("sign", "the right amount on the other side of zero"),
    ("decimal_point", "the decimal point in another place"),
    ("other_result", "another result of the same calculation"),
];

/// Every slip that the question allows, in the order in which they are looked for; none gives what is
/// right, and none nothing.
pub fn slips(case: &Case) -> Result<Vec<Slip>, Refusal> {
    let mut all = Vec::new();
    results::units(case, &mut all);
    inputs::radians(case, &mut all);
    inputs::drill_point(case, &mut all);
    inputs::feed(case, &mut all);
    inputs::included(case, &mut all);
    inputs::radius(case, &mut all);
    inputs::zero_of_angles(case, &mut all);
    inputs::systems(case, &mut all);
    results::conversions(case, &mut all);
    results::sign(case, &mut all);
    results::decimal_point(case, &mut all);
    results::others(case, &mut all);
    // A slip that was not found for want of time would pass for none.
    go_on()?;
    let right = case.wanted.quantity;
    all.retain(|slip| {
        let room = allowed(&right, None) + allowed_at(&right, slip.value);
        slip.value.is_finite() && slip.value != 0.0 && !agree(slip.value, right.si(), room)
    });
    Ok(all)
}

/// How far from a slip an answer may be to count as it: as from what is right, but never so far that
/// near nothing is taken for it.
pub fn allowed_at(right: &Quantity, si: f64) -> f64 {
    allowed(&Quantity { value: right.unit.of_si(si), ..*right }, None).min(si.abs() * 0.02)
}

/// The first slip that gives what was answered, in SI units.
pub fn found<'s>(slips: &'s [Slip], right: &Quantity, answered: f64) -> Option<&'s Slip> {
    slips.iter().find(|slip| agree(answered, slip.value, allowed_at(right, slip.value)))
}
