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
    /// First point of the finished profile, X and Y.
    #[label("First point")]
    pub from: Point,
    /// Last point of the finished profile, X and Y.
    #[label("Last point")]
    pub to: Point,
    /// Radius of the arc between the points, which is at most half a circle; a straight line if absent.
    #[label("Radius of the arc")]
    pub radius: Option<Size>,
    /// Which way the arc runs from the first point to the last: counterclockwise or clockwise. Needed with the radius.
    #[label("Arc runs")]
    pub sense: Option<Sense>,
    /// Form of the cutter in the plane of the profile: flat, a square end, or ball, round.
    #[label("Form of the cutter")]
    pub cutter: ProfileCutter,
    /// Diameter of the cutter.
    #[label("Cutter diameter")]
    pub diameter: Size,
    /// On which side of the profile the cutter is, going from the first point to the last: left or right.
    #[label("Cutter on the side")]
    pub side: ProfileSide,
    /// Longest step along the profile; give this or the ridge height.
    #[label("Longest step")]
    pub step: Option<Size>,
    /// Greatest height of the ridges that may be left; give this or the longest step.
    #[label("Ridge height allowed")]
    pub cusp: Option<Size>,
}

/// What the stepped profile gives.
#[derive(Debug, Gives)]
pub struct SteppedProfileResult {
    /// The cutter's places: the center of a round cutter, or the middle of a square cutter's end.
    #[label("Places", "place")]
    pub points: Vec<ProfilePlace>,
    /// Height of the largest ridge left, square to the profile.
    #[label("Ridge height")]
    pub cusp: FoundExtent,
    /// How many steps there are, all of one length.
    #[label("Number of steps")]
    pub steps: u32,
    /// Length of one step along the profile.
    #[label("Length of one step")]
    pub step: FoundExtent,
    /// Length of the profile.
    #[label("Length of the profile")]
    pub length: FoundExtent,
}

/// A place of the cutter.
#[derive(Debug, Gives)]
pub struct ProfilePlace {
    /// Its number.
    #[label("Number")]
    pub number: u32,
    /// Reading on X.
    #[label("Reading on X")]
    pub x: FoundPlace,
    /// Reading on Y.
    #[label("Reading on Y")]
    pub y: FoundPlace,
    /// Move on X from the place before; the first from zero.
    #[label("Travel on X")]
    pub dx: FoundMove,
    /// Move on Y from the place before; the first from zero.
    #[label("Travel on Y")]
    pub dy: FoundMove,
}

rules! { check(SteppedProfileInput) {
    not_both(step, cusp): "Give the longest step or the ridge height, not both.";
    one_of(step = "1 mm", cusp = "0.01 mm"):
        "Give the longest step, or the height of the ridges that may be left.";
    never(|input| input.radius.is_some() && input.sense.is_none(), Code::FieldMissing, sense = "counterclockwise"):
        "Say which way the arc runs, counterclockwise or clockwise: it can bow to either side.";
    needs(sense => radius = "25 mm", sense = "leave out"):
        "Give the radius of the arc too. For a straight line leave out which way the arc runs.";
} }

impl Calculator for SteppedProfile {
    const ID: &'static str = "datum/stepped-profile";
    const TITLE: &'static str = "Slope or arc in steps";
    const ABOUT: &'static str = "A slope or an arc on a machine whose axes move one at a time: the places of the \
        cutter, in steps short enough for the ridges you allow.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Lay a radius gauge or a protractor on the ridges and look for light.";
    const WORDS: &'static str = "radius by coordinates, contour, scallop, cusp, ball nose, stair steps, \
        angle by steps, profile, \
        chamfer by steps, corner radius by steps, fillet by steps, stepped radius";
    const NEAR: &'static str = "cam";
    const EXAMPLES: &'static [Example] = examples! {
        "A quarter round of 20 mm on the end of a winch pawl, by plunges of a 10 mm end mill, with ridges of no more than 0.02 mm.":
            from = "20 mm,0 mm", to = "0 mm,20 mm", radius = "20 mm", sense = "counterclockwise", cutter = "ball",
            diameter = "10 mm", side = "right", cusp = "0.02 mm";
        "A slope of 15° on a mill's jaw, seen from the front, in steps with the corner of a 1/2 in end mill.":
            from = "0 in,0 in", to = "1.500 in,0.402 in", cutter = "flat", diameter = "1/2 in", side = "left",
            step = "0.02 in";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A straight slope runs from {from} to {to} and is cut in steps. How long is it?" => "length":
            { from = "0 in,0 in" | "0.5 in,0.25 in", to = "1.5 in,0.4 in" | "3 in,1 in" | "4 in,3 in",
              cutter = "flat", diameter = "1/2 in", side = "left", step = "0.02 in" }
            { from = "0 mm,0 mm" | "10 mm,5 mm", to = "40 mm,12 mm" | "60 mm,25 mm" | "80 mm,60 mm", cutter = "flat",
              diameter = "12 mm", side = "left", step = "0.5 mm" };
        1 "A quarter round from {from} to {to}, radius {radius}, is cut in steps of at most {step} along it. How many \
           steps is that?" => "steps":
            { from = "1 in,0 in", to = "0 in,1 in", radius = "1 in", sense = "counterclockwise", cutter = "ball",
              diameter = "1/2 in", side = "right", step = "0.02 in" | "0.03 in" | "0.05 in" }
            { from = "20 mm,0 mm", to = "0 mm,20 mm", radius = "20 mm", sense = "counterclockwise", cutter = "ball",
              diameter = "10 mm", side = "right", step = "0.5 mm" | "0.8 mm" | "1 mm" }
            { from = "12 mm,0 mm", to = "0 mm,12 mm", radius = "12 mm", sense = "counterclockwise", cutter = "ball",
              diameter = "8 mm", side = "right", step = "0.4 mm" | "0.6 mm" };
        2 "A slope from {from} to {to} is cut by a {diameter} ball end mill in even steps of at most {step}. How high \
           are the ridges it leaves?" => "cusp":
            { from = "0 in,0 in", to = "1.5 in,0.4 in" | "2 in,0.75 in", cutter = "ball",
              diameter = "1/4 in" | "3/8 in" | "1/2 in", side = "left", step = "0.03 in" | "0.05 in" }
            { from = "0 mm,0 mm", to = "40 mm,12 mm" | "50 mm,20 mm", cutter = "ball",
              diameter = "6 mm" | "10 mm" | "12 mm", side = "left", step = "0.8 mm" | "1 mm" };
        3 "A slope from {from} to {to} is cut by a {diameter} ball end mill, and its ridges may be {cusp} high. How \
           many even steps does it take?" => "steps":
            { from = "0 in,0 in", to = "1.5 in,0.4 in" | "2 in,0.75 in", cutter = "ball",
              diameter = "3/8 in" | "1/2 in", side = "left", cusp = "0.0005 in" | "0.001 in" | "0.002 in" }
            { from = "0 mm,0 mm", to = "40 mm,12 mm" | "50 mm,20 mm", cutter = "ball", diameter = "10 mm" | "12 mm",
              side = "left", cusp = "0.01 mm" | "0.02 mm" | "0.05 mm" };
        3 "A slope from {from} to {to} is cut with the corner of an end mill, in even steps of at most {step} along \
           it. How high are the ridges, square to the slope?" => "cusp":
            { from = "0 in,0 in", to = "1.5 in,0.4 in" | "2 in,0.5 in" | "1 in,0.5 in", cutter = "flat",
              diameter = "1/2 in", side = "left", step = "0.02 in" | "0.03 in" }
            { from = "0 mm,0 mm", to = "40 mm,12 mm" | "50 mm,20 mm" | "30 mm,15 mm", cutter = "flat",
              diameter = "12 mm", side = "left", step = "0.5 mm" | "0.8 mm" };
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
            ProfileCutter::Ball => notes!(record => middle_of_the_ball: "The places are those of the center of the \
                round. The tip of a ball nose is half a diameter lower; for an end mill seen along its axis it is the \
                spindle's center."),
            ProfileCutter::Flat => notes!(record => corner_cuts: "The places are those of the middle of the cutter's \
                end, with its corner assumed sharp. A corner radius or a worn corner leaves more metal."),
        }
        notes! { record =>
            only_between_the_ends: "Only the profile between its ends is looked at. Check that the cutter clears \
                what is beyond them.";
            ridges_come_off: "The ridges stand proud of the finished profile; file or blend them off. A setting \
                rounded to the readout's step can cut too deep by half that step.";
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
        let says = "The first and the last point are the same. Give another last point.";
        let to = SteppedProfile::EXAMPLES[0].fields[1].1.to_owned();
        return Err(Refusal::no_answer(says, &[("to", to)]));
    }
    let left = input.side == ProfileSide::Left;
    let half_cutter = input.diameter.si() / 2.0;
    let shape = match (input.radius, input.sense) {
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
        let says = "The cutter is too large for this hollow arc. Give a smaller diameter.";
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
                Refusal::no_answer(&says, &[larger.unwrap_or(("to", "a nearer point".to_owned()))])
            }
        }
    })
}
