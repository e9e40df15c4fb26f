//! The joint: its diameter, and how much larger the shaft is than the hole, as measured and as it presses.

use super::PressFitInput;
use crate::calculators::prelude::*;
use crate::fitting::{Fit, iso_clearances};
use crate::working::known_steps;

/// The joint, with the fields that its values stand under.
pub struct Joint {
    /// Its diameter.
    pub diameter: (&'static str, FoundSize),
    /// The greatest interference as measured before the parts are together.
    pub measured: (&'static str, FoundFineDifference),
    /// The greatest interference that presses.
    pub greatest: FoundFineDifference,
    /// The least interference that presses.
    pub least: FoundFineDifference,
}

/// The joint as asked for; refused where nothing presses.
pub fn joint(input: &PressFitInput, record: &mut Record) -> Result<Joint, Refusal> {
    let (diameter, greatest, least) = match (&input.fit, input.diameter, input.interference) {
        (Some(fit), ..) => of_fit(fit, record)?,
        (None, Some(diameter), Some(interference)) => {
            let fine = |by: Size| FoundFineDifference::stated(by.quantity().value, by.quantity().unit);
            let least = input
                .least_interference
                .map_or(("interference", fine(interference)), |least| ("least_interference", fine(least)));
            (("diameter", diameter.found()), ("interference", fine(interference)), least)
        }
        _ => return Err(Refusal::no_answer("Give an ISO fit with its size.", &[("fit", "50 mm H7/s6".into())])),
    };
    let smoothing = input.smoothing(record);
    let pressing = |by: FoundFineDifference| FoundFineDifference::of_si(by.si() - smoothing.si());
    let joint = Joint { diameter, measured: greatest, greatest: pressing(greatest.1), least: pressing(least.1) };
    if joint.greatest.si() <= 0.0 {
        let says = "The smoothing of the rough surfaces takes all of the interference: the joint holds nothing.";
        return Err(Refusal::no_answer(says, &[("smoothing", "0 mm".into())]));
    }
    let formula = "u = i - r";
    known_steps! { record;
        step "Interference that presses, at its greatest", formula, i = (greatest.0): greatest.1, r = "smoothing": smoothing
            => "greatest_interference", joint.greatest;
        step "Interference that presses, at its least", formula, i = (least.0): least.1, r = "smoothing": smoothing
            => "least_interference", joint.least;
    }
    if joint.least.si() <= 0.0 {
        let says = "At its least interference the joint is loose and holds nothing: measure the parts and pair them, or \
                    take a tighter fit.";
        record.note_first("may_be_loose", says);
    }
    Ok(joint)
}

type Named<T> = (&'static str, T);
/// Diameter, greatest and least interference.
type Sizes = (Named<FoundSize>, Named<FoundFineDifference>, Named<FoundFineDifference>);

/// Diameter, greatest and least interference of an ISO fit.
fn of_fit(fit: &Fit, record: &mut Record) -> Result<Sizes, Refusal> {
    let tighter = |says: String| Refusal::no_answer(&says, &[("fit", format!("{} H7/s6", fit.size_text()))]);
    let pair = iso_clearances(fit, ("fit", "H7/s6"), record)?;
    let (Some(least), Some(most)) = (pair.least_clearance, pair.greatest_clearance) else {
        return Err(tighter("A press fit needs the classes of the hole and of the shaft.".to_owned()));
    };
    if least.si() >= 0.0 {
        return Err(tighter(format!("{} always leaves clearance: nothing presses.", fit.text())));
    }
    let turned = |clearance: FoundFineDifference| {
        FoundFineDifference::stated(text::tidy(-clearance.quantity().value), clearance.quantity().unit)
    };
    let (tight, loose) = (turned(least), turned(most));
    known_steps! { record;
        step "Greatest interference of the fit", "i = -c", c = "least_clearance" => "fit_greatest", tight;
        step "Least interference of the fit", "i = -C", C = "greatest_clearance" => "fit_least", loose;
    }
    let size = fit.size.quantity().in_unit(Unit::Millimetre);
    Ok((("size", FoundSize::stated(size, Unit::Millimetre)), ("fit_greatest", tight), ("fit_least", loose)))
}
