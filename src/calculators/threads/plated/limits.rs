//! The limits of a plated thread after the coat and before it, with their steps.

use super::{PlatedInput, PlatedLimit, PlatedLimits, PlatedSide};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};
use crate::threading::{GivenThread, side_limits};
use crate::working::known_steps;

/// The class, the limits that hold after plating, and that of the root: those of the class, on the side of the coat up
/// to the basic profile.
pub fn after(
    given: &GivenThread,
    input: &PlatedInput,
    reach: PlatedLimit,
    record: &mut Record,
) -> Result<(Option<String>, PlatedLimits, f64), Refusal> {
    let external = input.side == PlatedSide::External;
    let found = match external {
        true => side_limits(given, ("external_class", input.external_class.as_ref()), "class", record),
        false => side_limits(given, ("internal_class", input.internal_class.as_ref()), "class", record),
    };
    let mut found = found.map_err(|(_, wrong)| Refusal::one(wrong))?;
    let basics = &given.basics;
    let mut rule = format!("{}: limits of the class, as printed", given.designation.standard());
    if reach == PlatedLimit::Basic {
        if external {
            // As far as the allowance, which all three diameters of a thread of 60 degrees have alike; others have none
            // in the root.
            if given.half_angle.degrees() == 30.0 {
                found.root += (basics.pitch_diameter - found.pitch_max).max(0.0);
            }
            found.pitch_max = found.pitch_max.max(basics.pitch_diameter);
            found.crest_max = found.crest_max.max(basics.major);
        } else {
            if given.half_angle.degrees() == 30.0 {
                found.root -= (found.pitch_min - basics.pitch_diameter).max(0.0);
            }
            found.pitch_min = found.pitch_min.min(basics.pitch_diameter);
            found.crest_min = found.crest_min.min(basics.minor);
        }
        rule.push_str("; where the coat grows, up to the basic profile");
    }
    let limits = PlatedLimits {
        pitch_max: given.stated(found.pitch_max),
        pitch_min: given.stated(found.pitch_min),
        crest_max: given.stated(found.crest_max),
        crest_min: given.stated(found.crest_min),
    };
    known_steps! { record;
        look_up "Greatest pitch diameter after plating", rule.clone() => "after.pitch_max", limits.pitch_max;
        look_up "Least pitch diameter after plating", rule.clone() => "after.pitch_min", limits.pitch_min;
        look_up "Greatest crest diameter after plating", rule.clone() => "after.crest_max", limits.crest_max;
        look_up "Least crest diameter after plating", rule => "after.crest_min", limits.crest_min;
    }
    Ok((found.class, limits, found.root))
}

/// The limits before plating: the thickest coat counts at the limit it approaches, the thinnest at the other.
pub fn before(
    given: &GivenThread,
    after: &PlatedLimits,
    input: &PlatedInput,
    (least, greatest): (FoundExtent, FoundExtent),
    record: &mut Record,
) -> Result<PlatedLimits, Refusal> {
    let (thin, thick) = (input.thickness_min, input.thickness_max);
    let thinnest = ("pitch_change_min", least, "thickness_min", thin);
    let thickest = ("pitch_change_max", greatest, "thickness_max", thick);
    // On a screw the thick coat takes from the greatest size, in a nut it adds to the least.
    let (way, pitch, crest, top, bottom) = match input.side {
        PlatedSide::External => (-1.0, "p = P - Δ", "c = C - 2 × t", thickest, thinnest),
        PlatedSide::Internal => (1.0, "p = P + Δ", "c = C + 2 × t", thinnest, thickest),
    };
    let moved = |after: Quantity, by: FoundExtent| after.value + way * by.quantity().value;
    let grown = |after: Quantity, by: Extent| after.value + way * 2.0 * by.quantity().in_unit(given.unit());
    let found = PlatedLimits {
        pitch_max: given.stated(moved(after.pitch_max.quantity(), top.1)),
        pitch_min: given.stated(moved(after.pitch_min.quantity(), bottom.1)),
        crest_max: given.stated(grown(after.crest_max.quantity(), top.3)),
        crest_min: given.stated(grown(after.crest_min.quantity(), bottom.3)),
    };
    if found.pitch_max.quantity().value <= found.pitch_min.quantity().value
        || found.crest_max.quantity().value <= found.crest_min.quantity().value
    {
        let says =
            "The coat is too uneven: it uses up the whole tolerance of the class and leaves no limits to cut to.";
        let thinner = value(thin.get().si(), thick.quantity().unit, Way::Up);
        return Err(Refusal::no_answer(says, &[("thickness_max", thinner)]));
    }
    known_steps! { record;
        step "Greatest pitch diameter before plating", pitch, P = "after.pitch_max", Δ = (top.0): top.1
            => "before.pitch_max", found.pitch_max;
        step "Least pitch diameter before plating", pitch, P = "after.pitch_min", Δ = (bottom.0): bottom.1
            => "before.pitch_min", found.pitch_min;
        step "Greatest crest diameter before plating", crest, C = "after.crest_max", t = (top.2): top.3
            => "before.crest_max", found.crest_max;
        step "Least crest diameter before plating", crest, C = "after.crest_min", t = (bottom.2): bottom.3
            => "before.crest_min", found.crest_min;
    }
    Ok(found)
}
