//! The limits of a plated thread after the coat and before it, with their steps.

use super::{PlatedInput, PlatedLimit, PlatedLimits, PlatedSide};
use crate::quantity::{Extent, FoundExtent, FoundLowerLimit, FoundUpperLimit, SiValue, Unit};
use crate::reference::threads::{
    Chosen, ExternalClass, InternalClass, Lacking, Tolerances, default_classes, external_limits, internal_limits,
};
use crate::refusal::{Refusal, Wrong};
use crate::suggestion::{Way, value};
use crate::threading::{GivenThread, cite_limits};
use crate::working::Record;

/// What must hold after plating.
pub struct After {
    /// Class of the plated side.
    pub class: Option<String>,
    /// The limits.
    pub limits: PlatedLimits,
}

/// The limits that hold after plating: those of the class, on the side of the coat up to the basic profile.
pub fn after(
    given: &GivenThread,
    input: &PlatedInput,
    reach: PlatedLimit,
    record: &mut Record,
) -> Result<After, Refusal> {
    let thread = given.thread();
    let external = input.side == PlatedSide::External;
    let refuse = |in_class: bool, unread| {
        let field = match (in_class, external) {
            (false, _) => "thread",
            (true, true) => "external_class",
            (true, false) => "internal_class",
        };
        Refusal::one(Wrong::unread(field, unread))
    };
    let (class, chosen, tolerances, [mut pitch_max, mut pitch_min, mut crest_max, mut crest_min]): (
        String,
        Chosen,
        Tolerances,
        [f64; 4],
    ) = if external {
        let counting = ExternalClass::counting(thread, input.external_class.as_ref());
        let chosen = counting.as_ref().map_or(Chosen::Usual, |(_, chosen)| *chosen);
        let found =
            external_limits(thread, counting.as_ref().map(|(class, _)| class.as_str()), None).map_err(|error| {
                let Lacking { in_class, unread } = ExternalClass::lacking(thread, chosen, error);
                refuse(in_class, unread)
            })?;
        (found.class, chosen, found.tolerances, [found.pitch_max, found.pitch_min, found.major_max, found.major_min])
    } else {
        let counting = InternalClass::counting(thread, input.internal_class.as_ref());
        let chosen = counting.as_ref().map_or(Chosen::Usual, |(_, chosen)| *chosen);
        let found =
            internal_limits(thread, counting.as_ref().map(|(class, _)| class.as_str()), None).map_err(|error| {
                let Lacking { in_class, unread } = InternalClass::lacking(thread, chosen, error);
                refuse(in_class, unread)
            })?;
        (found.class, chosen, found.tolerances, [found.pitch_max, found.pitch_min, found.minor_max, found.minor_min])
    };
    cite_limits(&tolerances, record);
    let named = (!class.is_empty()).then(|| class.clone());
    if let Some(class) = &named {
        if chosen == Chosen::Usual {
            let says = format!("No class is named: {}.", default_classes(thread).says);
            record.assume(if external { "external_class" } else { "internal_class" }, class, says);
        }
        record
            .look_up("Class", "as it is named, else the usual one")
            .with("T", "thread", given.designation.text())
            .gives("class", class.clone());
    }
    let basics = &given.basics;
    let mut rule = format!("{}: limits of the class, as printed", given.designation.standard());
    if reach == PlatedLimit::Basic {
        if external {
            (pitch_max, crest_max) = (pitch_max.max(basics.pitch_diameter), crest_max.max(basics.major));
        } else {
            (pitch_min, crest_min) = (pitch_min.min(basics.pitch_diameter), crest_min.min(basics.minor));
        }
        rule.push_str("; on the side of the coat up to the basic profile");
    }
    let unit = given.unit();
    let limits = PlatedLimits {
        pitch_max: FoundUpperLimit::stated(pitch_max, unit),
        pitch_min: FoundLowerLimit::stated(pitch_min, unit),
        crest_max: FoundUpperLimit::stated(crest_max, unit),
        crest_min: FoundLowerLimit::stated(crest_min, unit),
    };
    record.look_up("Greatest pitch diameter after plating", rule.clone()).gives("after.pitch_max", limits.pitch_max);
    record.look_up("Least pitch diameter after plating", rule.clone()).gives("after.pitch_min", limits.pitch_min);
    record.look_up("Greatest crest diameter after plating", rule.clone()).gives("after.crest_max", limits.crest_max);
    record.look_up("Least crest diameter after plating", rule).gives("after.crest_min", limits.crest_min);
    Ok(After { class: named, limits })
}

/// The limits before plating: the thickest coat counts at the limit it approaches, the thinnest at the other.
pub fn before(
    after: &After,
    input: &PlatedInput,
    (least, greatest): (FoundExtent, FoundExtent),
    unit: Unit,
    record: &mut Record,
) -> Result<PlatedLimits, Refusal> {
    let external = input.side == PlatedSide::External;
    let limits = &after.limits;
    let (thin, thick) = (input.thickness_min, input.thickness_max);
    let number = |extent: Extent| extent.quantity().in_unit(unit);
    let (pitch_least, pitch_greatest) = (least.quantity().value, greatest.quantity().value);
    let top = |value: f64| FoundUpperLimit::stated(value, unit);
    let bottom = |value: f64| FoundLowerLimit::stated(value, unit);
    let (p1, p2) = (limits.pitch_max.quantity().value, limits.pitch_min.quantity().value);
    let (c1, c2) = (limits.crest_max.quantity().value, limits.crest_min.quantity().value);
    let found = if external {
        PlatedLimits {
            pitch_max: top(p1 - pitch_greatest),
            pitch_min: bottom(p2 - pitch_least),
            crest_max: top(c1 - 2.0 * number(thick)),
            crest_min: bottom(c2 - 2.0 * number(thin)),
        }
    } else {
        PlatedLimits {
            pitch_max: top(p1 + pitch_least),
            pitch_min: bottom(p2 + pitch_greatest),
            crest_max: top(c1 + 2.0 * number(thin)),
            crest_min: bottom(c2 + 2.0 * number(thick)),
        }
    };
    if found.pitch_max.quantity().value <= found.pitch_min.quantity().value
        || found.crest_max.quantity().value <= found.crest_min.quantity().value
    {
        let says = "So uneven a coat uses up the whole tolerance of the class: no limits are left to cut to.";
        let thinner = value(thin.get().si(), thick.quantity().unit, Way::Up);
        return Err(Refusal::no_answer(says, &[("thickness_max", thinner), ("may_reach", "basic".into())]));
    }
    let (pitch, crest) = if external { ("p = P - Δ", "c = C - 2 × t") } else { ("p = P + Δ", "c = C + 2 × t") };
    // On a screw the thick coat takes from the greatest size, in a nut it adds to the least.
    let (of_top, of_bottom) = if external {
        (("pitch_change_max", greatest, "thickness_max", thick), ("pitch_change_min", least, "thickness_min", thin))
    } else {
        (("pitch_change_min", least, "thickness_min", thin), ("pitch_change_max", greatest, "thickness_max", thick))
    };
    record
        .step("Greatest pitch diameter before plating", pitch)
        .with("P", "after.pitch_max", limits.pitch_max)
        .with("Δ", of_top.0, of_top.1)
        .gives("before.pitch_max", found.pitch_max);
    record
        .step("Least pitch diameter before plating", pitch)
        .with("P", "after.pitch_min", limits.pitch_min)
        .with("Δ", of_bottom.0, of_bottom.1)
        .gives("before.pitch_min", found.pitch_min);
    record
        .step("Greatest crest diameter before plating", crest)
        .with("C", "after.crest_max", limits.crest_max)
        .with("t", of_top.2, of_top.3)
        .gives("before.crest_max", found.crest_max);
    record
        .step("Least crest diameter before plating", crest)
        .with("C", "after.crest_min", limits.crest_min)
        .with("t", of_bottom.2, of_bottom.3)
        .gives("before.crest_min", found.crest_min);
    Ok(found)
}
