//! A slope or an arc made by going from place to place with one axis at a time: where the cutter
//! stands at each, and how high the ridges are that it leaves. Plane geometry of circles and square
//! corners, checked by tracing the cut surface numerically.

mod drawing;
mod places;
mod shape;
mod stepping;
mod steps;

use crate::arithmetic::directions::Sense;
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};
use shape::{Arc, MOST_STEPS, Profile, Shape, plane, steps_in};
use stepping::Stepping;

/// The calculator.
pub struct SteppedProfile;

choice! {
    /// Form of the cutter in the plane of the profile: `flat`, a square end whose corner cuts, its axis along Y; or `ball`, round there: a ball nose seen from the side, or any end mill seen along its axis.
    ProfileCutter {
        /// A square corner.
        Flat = "flat",
        /// Round.
        Ball = "ball",
    }
}

choice! {
    /// On which side of the profile the cutter is, going from the first point to the last: `left` or `right`.
    ProfileSide {
        /// Left of the way.
        Left = "left",
        /// Right of the way.
        Right = "right",
    }
}

/// What the stepped profile asks for.
#[derive(Debug, Asks)]
#[asks(check = check)]
pub struct SteppedProfileInput {
    /// First point of the finished profile.
    pub from: Point,
    /// Last point of the finished profile.
    pub to: Point,
    /// Radius of the arc between them, which is no more than half a circle; a straight line if absent.
    pub radius: Option<Size>,
    /// Which way the arc runs from the first point to the last: counterclockwise or clockwise. Needed with radius.
    pub sense: Option<Sense>,
    /// Form of the cutter in the plane of the profile: flat or ball.
    pub cutter: ProfileCutter,
    /// Diameter of the cutter.
    pub diameter: Size,
    /// On which side of the profile the cutter is, going from the first point to the last: left or right.
    pub side: ProfileSide,
    /// Greatest step along the profile; give this or cusp.
    pub step: Option<Size>,
    /// Greatest height of the ridges that may be left; give this or step.
    pub cusp: Option<Size>,
}

/// What the stepped profile gives.
#[derive(Debug, Gives)]
pub struct SteppedProfileResult {
    /// The cutter's places: the middle of a ball, or the middle of a square cutter's end.
    pub points: Vec<ProfilePlace>,
    /// Height of the greatest ridge left, square to the profile.
    pub cusp: FoundExtent,
    /// How many steps there are, all alike.
    pub steps: u32,
    /// Length of a step along the profile.
    pub step: FoundExtent,
    /// Length of the profile.
    pub length: FoundExtent,
}

/// A place of the cutter.
#[derive(Debug, Gives)]
pub struct ProfilePlace {
    /// Its number.
    pub number: u32,
    /// Reading on X.
    pub x: FoundPlace,
    /// Reading on Y.
    pub y: FoundPlace,
    /// Move on X from the place before; the first from datum zero.
    pub dx: FoundMove,
    /// Move on Y from the place before; the first from datum zero.
    pub dy: FoundMove,
}

rules! { check(SteppedProfileInput) {
    not_both(step, cusp): "The steps follow from their length or from the height of the ridges: give one of them.";
    one_of(step = "1 mm", cusp = "0.01 mm"):
        "Either the length of a step or the height of the ridges that may be left is needed.";
    never(|input| input.radius.is_some() && input.sense.is_none(), Code::FieldMissing, sense = "counterclockwise"):
        "An arc of that radius can bow to either side: say which way it runs.";
    needs(sense => radius = "25 mm", sense = "leave out"):
        "A straight line runs neither way round; an arc needs its radius.";
} }

impl Calculator for SteppedProfile {
    const ID: &'static str = "datum/stepped-profile";
    const TITLE: &'static str = "Slope or arc in steps";
    const ABOUT: &'static str = "A slope or an arc on a machine whose axes move one at a time: the places of the \
        cutter, in steps small enough for the ridges that may be left.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Lay a radius gauge or a protractor on the ridges and look at the light.";
    const WORDS: &'static str = "radius by coordinates, contour, scallop, cusp, ball nose, stair steps, \
        angle by steps, profile";
    const NEAR: &'static str = "taper, chamfer by steps, cam";
    const EXAMPLES: &'static [Example] = examples! {
        "A quarter round of 20 mm on the end of a winch pawl, by plunges of a 10 mm end mill, with ridges of no more than 0.02 mm.":
            from = "20 mm,0 mm", to = "0 mm,20 mm", radius = "20 mm", sense = "counterclockwise", cutter = "ball",
            diameter = "10 mm", side = "right", cusp = "0.02 mm";
        "A slope of 15° on a mill's jaw, seen from the front, in steps with the corner of a 1/2 in end mill.":
            from = "0 in,0 in", to = "1.500 in,0.402 in", cutter = "flat", diameter = "1/2 in", side = "left",
            step = "0.02 in";
    };
    type Input = SteppedProfileInput;
    type Output = SteppedProfileResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "places at half the cutter off the profile; ridges where two cuts cross");
        let profile = profile(input)?;
        let steps = steps(input, &profile)?;
        let result = Stepping { input, profile: &profile, steps, record }.solve();
        match input.cutter {
            ProfileCutter::Ball => notes!(record => middle_of_the_ball: "The places are those of the middle of the \
                round: the tip of a ball nose is half a diameter lower, and an end mill seen along its axis is at its \
                axis."),
            ProfileCutter::Flat => notes!(record => corner_cuts: "The places are those of the middle of the cutter's \
                end, its corner taken as sharp; a corner radius or a worn corner leaves more."),
        }
        notes! { record =>
            only_between_the_ends: "The cutter is held against the profile between its ends only: look at what stands \
                beyond them.";
            ridges_come_off: "The ridges stand proud of the finished profile and come off with a file or by blending; \
                a setting rounded to a readout's step can cut in by half that step.";
        }
        record.caution(cautions::MILLING);
        record.caution(cautions::TURNING_SPINDLE);
        Ok(result)
    }
}

/// The profile asked for, refused where it or the cutter cannot be.
fn profile(input: &SteppedProfileInput) -> Result<Profile, Refusal> {
    let (from, to) = (plane(&input.from), plane(&input.to));
    let chord = (to.0 - from.0).hypot(to.1 - from.1);
    if chord < TINY {
        let says = "The profile begins and ends in one point.";
        let to = SteppedProfile::EXAMPLES[0].fields[1].1.to_owned();
        return Err(Refusal::no_answer(says, &[("to", to)]));
    }
    let left = input.side == ProfileSide::Left;
    let half_cutter = input.diameter.si() / 2.0;
    let shape = match (input.radius, input.sense) {
        (Some(radius), Some(sense)) => {
            if chord / 2.0 > radius.si() * (1.0 + 1e-12) {
                let says = "The points lie farther apart than the diameter of the arc.";
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
        let says = "A square cutter changes the corner that cuts where an arc is highest, lowest or upright: part the \
                    arc there and ask for each part.";
        let unit = input.radius.map_or(Unit::Millimetre, |radius| radius.quantity().unit);
        return Err(Refusal::no_answer(says, &[("to", quadrant_end(&arc, unit)), ("cutter", "ball".to_owned())]));
    }
    if profile.is_too_hollow(half_cutter) {
        let says = "The cutter is too large for the hollow of the arc.";
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

/// How many steps are needed.
fn steps(input: &SteppedProfileInput, profile: &Profile) -> Result<u32, Refusal> {
    let length = profile.length();
    if let Some(step) = input.step {
        let unit = step.quantity().unit;
        let steps = steps_in(length, step.si()).ceil();
        if steps > f64::from(MOST_STEPS) {
            let says = format!("That would be more than {MOST_STEPS} steps.");
            return Err(Refusal::no_answer(&says, &[("step", value(length / f64::from(MOST_STEPS), unit, Way::Up))]));
        }
        let steps = (steps as u32).max(1);
        if profile.cusp(steps).is_some() {
            return Ok(steps);
        }
        let says = "Steps of that length are wider than the cutter, which would leave metal standing between them.";
        let smaller = value(2.0 * profile.half_cutter * 0.9, unit, Way::Down);
        let narrower = profile.fewest_wide_enough(steps)?;
        let fits = narrower.map_or(smaller, |steps| value(length / f64::from(steps), unit, Way::Down));
        return Err(Refusal::no_answer(says, &[("step", fits)]));
    }
    let wanted = input.cusp.map_or(0.0, |cusp| cusp.si());
    profile.fewest_steps(wanted * (1.0 + 1e-12))?.ok_or_else(|| {
        let says = format!("Ridges as low as that would take more than {MOST_STEPS} steps.");
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
                Refusal::no_answer(&says, &[larger.unwrap_or(("to", "a nearer point".to_owned()))])
            }
        }
    })
}
