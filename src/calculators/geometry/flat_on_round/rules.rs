//! What sizes of flats the round has room for.

use super::FlatOnRoundInput;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

const ONE_SIZE: &str = "Give one size of the flat: its depth, its width, what remains, or the size across flats.";

rules! { pub check(FlatOnRoundInput) {
    one_of(depth = "0.05 in", width = "0.25 in", remaining = "0.9 in", across_flats = "0.875 in"): ONE_SIZE;
    not_both(depth, width): ONE_SIZE;
    not_both(depth, remaining): ONE_SIZE;
    not_both(depth, across_flats): ONE_SIZE;
    not_both(width, remaining): ONE_SIZE;
    not_both(width, across_flats): ONE_SIZE;
    not_both(remaining, across_flats): ONE_SIZE;
    never(|input| input.across_flats.is_some()
            && !input.flats.is_some_and(|flats| flats.get().is_multiple_of(2)), Code::Conflict,
        flats = "2"): "Across flats needs an even number of flats: 2, 4, 6.";
} }

/// The flat lies within the round, and several leave something between them.
pub fn check_sizes(input: &FlatOnRoundInput) -> Result<(), ValidationError> {
    let diameter = input.diameter.si();
    let flats = input.flats.map_or(1, Count::get);
    let unit = |size: Size| size.quantity().unit;
    let refuse = |field: &'static str, says: &'static str, good: String| {
        Err(rule_broken(Code::Conflict, says, &[(field, good.as_str())]))
    };
    // A flat that reaches the far side of a single one, or the middle where flats lie all around.
    let most = if flats == 1 { diameter } else { diameter / 2.0 };
    if let Some(depth) = input.depth.filter(|depth| depth.si() >= most) {
        let says = "So deep a cut leaves nothing of the round.";
        return refuse("depth", says, value(most / 4.0, unit(depth), Way::Down));
    }
    if let Some(remaining) = input.remaining {
        let good = || value(diameter - most / 4.0, unit(remaining), Way::Down);
        if remaining.si() >= diameter {
            return refuse("remaining", "What remains must be less than the diameter.", good());
        }
        if diameter - remaining.si() >= most {
            return refuse("remaining", "So little cannot remain with this number of flats.", good());
        }
    }
    if let Some(across) = input.across_flats.filter(|across| across.si() >= diameter) {
        let says = "The size across flats must be less than the diameter.";
        return refuse("across_flats", says, value(diameter * 0.9, unit(across), Way::Down));
    }
    let Some(width) = input.width else { return Ok(()) };
    // Up to half a turn to each flat; beyond, flats overlap.
    let widest = if flats < 3 { diameter } else { diameter * crate::quantity::angle::sin(180.0 / f64::from(flats)) };
    if width.si() > widest * (1.0 + 1e-12) || (flats == 2 && width.si() >= widest) {
        let says = "No flat so wide fits: the flats would cut into each other or into the far side.";
        return refuse("width", says, value(widest * 0.9, unit(width), Way::Down));
    }
    Ok(())
}
