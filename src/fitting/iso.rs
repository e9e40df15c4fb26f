//! The limits of a hole and a shaft by ISO 286, with their steps, sources and notes.

use super::fit::Fit;
use super::pair::{FittedPair, HOLE, PartLimits, Paths, SHAFT, pair, tell_sizes};
use crate::quantity::{FoundSize, System, Unit};
use crate::reference::fits::{ClassLimits, ToleranceClass};
use crate::refusal::Refusal;
use crate::working::{Record, known_steps};

/// The limits of the fit that the field `field` names; refused where the standard has none at this size.
pub fn iso_pair(fit: &Fit, field: &str, record: &mut Record) -> Result<FittedPair, Refusal> {
    let pair = deviations(fit, (field, "H7/h6"), record)?;
    for (part, paths) in [(&pair.hole, &HOLE), (&pair.shaft, &SHAFT)] {
        if let Some(part) = part {
            tell_sizes(part, paths, record);
        }
    }
    Ok(pair)
}

/// The same for what the two leave between them alone; no sizes are put on record. Where there are none, the classes to
/// try are `good`.
pub fn iso_clearances(fit: &Fit, (field, good): (&str, &str), record: &mut Record) -> Result<FittedPair, Refusal> {
    deviations(fit, (field, good), record)
}

/// The limits of one class at a nominal size in millimeters, which stands under `size`, under the paths that the caller
/// names; or why there are none.
pub fn iso_part(size: f64, class: ToleranceClass, paths: &Paths, record: &mut Record) -> Result<PartLimits, String> {
    let part = of_class(size, class, paths, record)?;
    tell_sizes(&part, paths, record);
    Ok(part)
}

fn of_class(size: f64, class: ToleranceClass, paths: &Paths, record: &mut Record) -> Result<PartLimits, String> {
    let limits = class.limits(size)?;
    let (over, to) = limits.band;
    record.source_trusted(limits.source, format!("{class}, sizes over {over} to {to} mm"), limits.trust);
    Ok(tell(size, class, &limits, paths, record))
}

fn deviations(fit: &Fit, (field, good): (&str, &str), record: &mut Record) -> Result<FittedPair, Refusal> {
    let size = fit.size.quantity().in_unit(Unit::Millimetre);
    if fit.size.quantity().unit.system() == Some(System::Inch) {
        record.note("size_in_inches", "ISO 286 counts sizes in millimeters; the size is converted exactly.");
    }
    record.note("at_20_degrees", "The limits hold at 20 °C (68 °F): let the part cool before you measure.");
    known_steps! { record;
        look_up "Nominal size", "as the fit names it" => "size", FoundSize::stated(size, Unit::Millimetre);
    }
    let mut part = |class: Option<ToleranceClass>, paths: &Paths| -> Result<Option<PartLimits>, Refusal> {
        let Some(class) = class else { return Ok(None) };
        let limits = of_class(size, class, paths, record).map_err(|says| {
            let size = if size > ToleranceClass::LARGEST { "500 mm".to_owned() } else { fit.size_text() };
            let alone = if class.is_hole { "H7" } else { "h6" };
            let classes = if fit.hole.is_some() && fit.shaft.is_some() { good } else { alone };
            Refusal::no_answer(&says, &[(field, format!("{size} {classes}"))])
        })?;
        Ok(Some(limits))
    };
    let hole = part(fit.hole, &HOLE)?;
    let shaft = part(fit.shaft, &SHAFT)?;
    Ok(pair(hole, shaft, record))
}

fn tell(size: f64, class: ToleranceClass, limits: &ClassLimits, paths: &Paths, record: &mut Record) -> PartLimits {
    let name = class.to_string();
    let mm = (limits.upper / 1000.0, limits.lower / 1000.0);
    let part = PartLimits::of(Some(name.clone()), size, mm, Unit::Millimetre);
    let band = format!("ISO 286-1, sizes over {} to {} mm", limits.band.0, limits.band.1);
    let letter = format!("{band}, letter {}", name.trim_end_matches(|c: char| c.is_ascii_digit()));
    let letter = match limits.delta {
        0.0 => letter,
        delta => format!("{letter}, with {delta} µm added, as for all such holes of a fine grade"),
    };
    known_steps! { record;
        look_up "Tolerance class", "as the fit names it" => paths.class, name;
        look_up "Width of the tolerance", format!("{band}, grade {}", class.grade()) => paths.tolerance, part.tolerance;
    }
    let (upper, lower) = (part.upper_deviation, part.lower_deviation);
    if class.letter() == "js" {
        if limits.width % 2.0 != 0.0 && limits.width > 3.0 {
            record.note(
                "half_micrometer",
                "The tolerance lies half on each side, to half a micrometer. Some printed tables round js7 to js11 to \
                 whole micrometers, inward.",
            );
        }
        known_steps! { record;
            step "Upper deviation, half the width", "e = T / 2", T = (paths.tolerance) => paths.upper, upper;
            step "Lower deviation, half the width below", "i = -T / 2", T = (paths.tolerance) => paths.lower, lower;
        }
    } else if limits.from_above {
        known_steps! { record;
            look_up "Upper deviation", letter => paths.upper, upper;
            step "Lower deviation", "i = e - T", e = (paths.upper), T = (paths.tolerance) => paths.lower, lower;
        }
    } else {
        known_steps! { record;
            look_up "Lower deviation", letter => paths.lower, lower;
            step "Upper deviation", "e = i + T", i = (paths.lower), T = (paths.tolerance) => paths.upper, upper;
        }
    }
    part
}
