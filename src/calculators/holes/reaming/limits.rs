//! Limits of the hole after ISO 286, and of a new reamer for it by the rule of DIN 1420.

use super::ReamedHoleInput;
use crate::calculators::prelude::*;
use crate::reference::hole_class::HoleClass;

/// Limits of a reamed hole.
#[derive(Debug, Gives)]
pub struct ReamedHoleLimits {
    /// Least diameter of the hole.
    #[label("Least")]
    pub least: FoundLowerLimit,
    /// Greatest diameter of the hole.
    #[label("Greatest")]
    pub greatest: FoundUpperLimit,
}

/// Limits of a new reamer.
#[derive(Debug, Gives)]
pub struct NewReamerLimits {
    /// Least diameter of a new reamer.
    #[label("Least")]
    pub least: FoundLowerLimit,
    /// Greatest diameter of a new reamer.
    #[label("Greatest")]
    pub greatest: FoundUpperLimit,
}

/// A number of micrometers rounded up to whole ones.
fn up(micrometres: f64) -> f64 {
    text::tidy(micrometres).ceil()
}

/// The limits of both.
pub fn find(
    input: &ReamedHoleInput,
    HoleClass(class): HoleClass,
    record: &mut Record,
) -> Result<(ReamedHoleLimits, NewReamerLimits), Refusal> {
    let size = input.diameter.quantity().in_unit(Unit::Millimetre);
    let limits = class.limits(size).map_err(|says| Refusal::no_answer(&says, &[("hole_class", "H7".into())]))?;
    record.source_trusted(limits.source, format!("limits of {class}"), limits.trust);
    record.source("reamer_limits_rule", "limits of a reamer from those of the hole");
    let at = |micrometres: f64| text::tidy(size + micrometres / 1000.0);
    let lower = |micrometres: f64| FoundLowerLimit::stated(at(micrometres), Unit::Millimetre);
    let upper = |micrometres: f64| FoundUpperLimit::stated(at(micrometres), Unit::Millimetre);
    let hole = ReamedHoleLimits { least: lower(limits.lower), greatest: upper(limits.upper) };
    let greatest = limits.upper - up(0.15 * limits.width);
    let least = greatest - up(0.35 * limits.width);
    let new_reamer = NewReamerLimits { least: lower(least), greatest: upper(greatest) };
    let text = || class.to_string();
    let (table, diameter) = ("ISO 286: limits of the class at the size", input.diameter);
    let rule = |record: &mut Record, what: &'static str, how: &'static str, field: &'static str, gives: Shown| {
        let step = record.look_up(what, how).with("D", "diameter", diameter);
        step.with("c", "hole_class", text()).gives(field, gives);
    };
    rule(record, "Least hole", table, "hole.least", hole.least.into());
    rule(record, "Greatest hole", table, "hole.greatest", hole.greatest.into());
    let how = "the greatest hole less 0.15 of its tolerance, rounded up to 0.001 mm";
    rule(record, "Greatest new reamer", how, "new_reamer.greatest", new_reamer.greatest.into());
    let how = "that less 0.35 of the tolerance, rounded up to 0.001 mm";
    rule(record, "Least new reamer", how, "new_reamer.least", new_reamer.least.into());
    notes!(record => reamers_cut_large: "A reamer cuts a little larger than it measures, more so with a dry cut or a spindle \
        out of line. The limits of a new reamer leave room for that and for wear.");
    Ok((hole, new_reamer))
}

/// What a reamer that was measured is good for.
pub fn judge(measured: Size, (hole, new): (&ReamedHoleLimits, &NewReamerLimits), record: &mut Record) -> &'static str {
    let size = measured.get().si();
    let nanometre = 1e-9;
    let verdict = if size > hole.greatest.get().si() + nanometre {
        "too large: the hole would be above its greatest size"
    } else if size > new.greatest.get().si() + nanometre {
        "at risk: larger than a new reamer may be, so that the hole can come out too large"
    } else if size >= new.least.get().si() - nanometre {
        "good: within the limits of a new reamer"
    } else if size >= hole.least.get().si() - nanometre {
        "worn: smaller than a new reamer, but not below the least hole; try it"
    } else {
        "too small: below the least hole"
    };
    tell!(record.look_up("What your reamer is good for", "compared with the limits of the new reamer and of the hole"),
        m = reamer_measured: measured, a = "new_reamer.least": new.least, b = "new_reamer.greatest": new.greatest,
        c = "hole.least": hole.least, e = "hole.greatest": hole.greatest => verdict);
    verdict
}
