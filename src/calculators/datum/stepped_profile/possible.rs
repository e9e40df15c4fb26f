//! The profile and the steps that a request comes to, refused with a value to try where the points, the cutter or the
//! steps cannot be.

use super::corner::Ends;
use super::shape::{Arc, MOST_STEPS, Profile, Shape, steps_in};
use super::{ProfileCutter, ProfileSide, SteppedProfile, SteppedProfileInput};
use crate::arithmetic::directions::Sense;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// The profile asked for, refused where it or the cutter cannot be.
pub fn profile(input: &SteppedProfileInput, ends: &Ends) -> Result<Profile, Refusal> {
    let (from, to) = (ends.from, ends.to);
    let chord = (to.0 - from.0).hypot(to.1 - from.1);
    if chord < TINY {
        let says = "The first and the last point are the same. Give another last point.";
        let to = SteppedProfile::EXAMPLES[0].fields[1].1.to_owned();
        return Err(Refusal::no_answer(says, &[("to", to)]));
    }
    let left = ends.side == ProfileSide::Left;
    let half_cutter = input.diameter.si() / 2.0;
    let shape = match (input.radius, ends.sense) {
        (Some(radius), Some(sense)) => {
            if chord / 2.0 > radius.si() * (1.0 + 1e-12) {
                let says = "The points are farther apart than the diameter of the arc. Give a larger radius.";
                let wider = value(chord / 2.0, radius.quantity().unit, Way::Up);
                return Err(Refusal::no_answer(says, &[("radius", wider)]));
            }
            Shape::Arc(Arc::between(from, to, radius.si(), sense, left))
        }
        _ => Shape::Line,
    };
    let flat = input.cutter == ProfileCutter::Flat;
    let profile = Profile { from, to, shape, left, flat, half_cutter };
    let Shape::Arc(arc) = shape else { return Ok(profile) };
    if flat && profile.leaves_quadrant() {
        let says = "A square cutter changes the corner that cuts where an arc is highest, lowest or upright. Split \
                    the arc there and ask for each part.";
        let unit = input.radius.map_or(Unit::Millimetre, |radius| radius.quantity().unit);
        return Err(Refusal::no_answer(says, &[("to", quadrant_end(&arc, unit)), ("cutter", "ball".to_owned())]));
    }
    if profile.is_too_hollow(half_cutter) {
        let says = if half_cutter <= arc.radius * (1.0 + 1e-9) {
            "This cutter has the radius of the arc, so it makes it in one cut. Steps need a smaller diameter."
        } else {
            "The cutter is too large for this hollow arc. Give a smaller diameter."
        };
        let smaller = value(arc.radius, input.diameter.quantity().unit, Way::Down);
        return Err(Refusal::no_answer(says, &[("diameter", smaller)]));
    }
    Ok(profile)
}

/// The point where the arc first is highest, lowest or upright, as a request would state it.
fn quadrant_end(arc: &Arc, unit: Unit) -> String {
    let quarters = arc.start.0 / 90.0;
    let next = match arc.sense {
        Sense::Counterclockwise => (quarters + 1e-9).floor() + 1.0,
        Sense::Clockwise => (quarters - 1e-9).ceil() - 1.0,
    };
    let (x, y) = arc.point(arc.radius, next * 90.0);
    let text = |si: f64| format!("{} {}", text::full(text::round(unit.of_si(si), 6)), unit.row().ascii);
    format!("{},{}", text(x), text(y))
}

/// What makes a profile shorter.
fn nearer_end(input: &SteppedProfileInput) -> (&'static str, String) {
    let field = match (input.corner_at, input.chamfer) {
        (None, _) => return ("to", "a nearer point".to_owned()),
        (_, None) => "radius",
        (_, Some(_)) => "chamfer",
    };
    (field, input.diameter.quantity().text())
}

/// How many steps are needed.
pub fn steps(input: &SteppedProfileInput, profile: &Profile) -> Result<u32, Refusal> {
    let length = profile.length();
    if let Some(step) = input.step {
        let unit = step.quantity().unit;
        let steps = steps_in(length, step.si()).ceil();
        if steps > f64::from(MOST_STEPS) {
            let says = format!("That takes more than {MOST_STEPS} steps. Give a longer step.");
            return Err(Refusal::no_answer(&says, &[("step", value(length / f64::from(MOST_STEPS), unit, Way::Up))]));
        }
        let steps = (steps as u32).max(1);
        if profile.cusp(steps).is_some() {
            return Ok(steps);
        }
        let says = "Steps this long are wider than the cutter and would leave metal standing. Give a shorter step.";
        let smaller = value(2.0 * profile.half_cutter * 0.9, unit, Way::Down);
        let narrower = profile.fewest_wide_enough(steps)?;
        let fits = narrower.map_or(smaller, |steps| value(length / f64::from(steps), unit, Way::Down));
        return Err(Refusal::no_answer(says, &[("step", fits)]));
    }
    let wanted = input.cusp.map_or(0.0, |cusp| cusp.si());
    profile.fewest_steps(wanted * (1.0 + 1e-12))?.ok_or_else(|| {
        let says = format!(
            "Ridges that low take more than {MOST_STEPS} steps. Allow higher ones or use a larger \
         cutter."
        );
        let unit = input.cusp.map_or(Unit::Millimetre, |cusp| cusp.quantity().unit);
        match profile.cusp(MOST_STEPS) {
            Some(least) => Refusal::no_answer(&says, &[("cusp", value(least, unit, Way::Up))]),
            None => {
                let unit = input.diameter.quantity().unit;
                let larger = (1..40).map(|more| profile.half_cutter * 1.25f64.powi(more)).find(|half| {
                    let low = Profile { half_cutter: *half, ..*profile }.cusp(MOST_STEPS);
                    low.is_some_and(|cusp| cusp <= wanted) && !profile.is_too_hollow(*half)
                });
                let larger = larger.map(|half| ("diameter", value(2.0 * half, unit, Way::Up)));
                Refusal::no_answer(&says, &[larger.unwrap_or_else(|| nearer_end(input))])
            }
        }
    })
}
