//! A slope or an arc, or the chamfer or radius of a corner, made by going from place to place with one axis at a time: where the cutter
//! stands at each, and how high the ridges are that it leaves. Plane geometry of circles and square
//! corners, checked by tracing the cut surface numerically.

mod corner;
mod drawing;
mod places;
mod possible;
mod rules;
mod shape;
mod stepping;
mod steps;

use crate::arithmetic::directions::{BlendSide, Sense};
use crate::arithmetic::plane::ReadoutPoint;
use crate::calculators::prelude::*;
use corner::Ends;
use possible::{profile, steps};
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

choice! {
    /// Which corner, with X to the right and Y up: of the part if outside, of the opening if inside.
    PartCorner {
        /// Left on X, up on Y.
        UpperLeft = "upper_left",
        /// Right on X, up on Y.
        UpperRight = "upper_right",
        /// Left on X, down on Y.
        LowerLeft = "lower_left",
        /// Right on X, down on Y.
        LowerRight = "lower_right",
    }
}

/// What the stepped profile asks for.
#[derive(Debug, Asks)]
#[asks(check = rules::check_way, check = rules::check_steps)]
pub struct SteppedProfileInput {
    /// First point of the finished profile, X and Y. Give two points, or a corner.
    #[label("First point")]
    pub from: Option<Point>,
    /// Last point of the finished profile, X and Y.
    #[label("Last point")]
    pub to: Option<Point>,
    /// Which corner gets a radius or a chamfer, with X to the right and Y up: of the part if it is outside, of the opening if inside. In place of two points.
    #[label("Which corner")]
    pub corner_at: Option<PartCorner>,
    /// Whether it is an inside or an outside corner.
    #[label("Inside or outside")]
    #[absent("outside", "An outside corner is assumed.")]
    pub corner_kind: Option<BlendSide>,
    /// X and Y of the sharp corner.
    #[label("Sharp corner")]
    #[absent("0,0", value = self.at_zero(), "The sharp corner is assumed at X 0, Y 0.")]
    pub corner_point: Option<Point>,
    /// Radius of the corner, or of the arc between the points, which is at most half a circle; a straight line if absent.
    #[label("Radius of the arc")]
    pub radius: Option<Size>,
    /// Width of the corner's chamfer, along the edge that runs along X.
    #[label("Chamfer")]
    pub chamfer: Option<Size>,
    /// Angle between the chamfer and the edge along X.
    #[label("Angle of the chamfer")]
    #[absent("45 deg", "A chamfer of 45° is assumed.")]
    pub chamfer_angle: Option<CornerAngle>,
    /// Which way the arc runs from the first point to the last: counterclockwise or clockwise. Needed with points and a radius.
    #[label("Arc runs")]
    pub sense: Option<Sense>,
    /// Form of the cutter in the plane of the profile: flat, a square end, or ball, round.
    #[label("Form of the cutter")]
    pub cutter: ProfileCutter,
    /// Diameter of the cutter.
    #[label("Cutter diameter")]
    pub diameter: Size,
    /// On which side of the profile the cutter is, going from the first point to the last: left or right. Needed with points.
    #[label("Cutter on the side")]
    pub side: Option<ProfileSide>,
    /// Longest step along the profile; give this or the ridge height.
    #[label("Longest step")]
    pub step: Option<Size>,
    /// Greatest height of the ridges that may be left; give this or the longest step.
    #[label("Ridge height allowed")]
    pub cusp: Option<Size>,
}

impl SteppedProfileInput {
    fn at_zero(&self) -> Point {
        let zero = Place::in_unit_of(&self.diameter, "0");
        Point { x: zero, y: zero }
    }
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
    /// Where the corner's profile begins, on the edge along X.
    #[label("Profile begins")]
    pub first_point: Option<ReadoutPoint>,
    /// Where the corner's profile ends, on the edge along Y.
    #[label("Profile ends")]
    pub last_point: Option<ReadoutPoint>,
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

impl Calculator for SteppedProfile {
    const ID: &'static str = "datum/stepped-profile";
    const TITLE: &'static str = "Slope or arc in steps";
    const ABOUT: &'static str = "A slope, an arc, or the chamfer or radius of a corner on a machine whose axes move one \
        at a time: the places of the cutter, in steps short enough for the ridges you allow.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Lay a radius gauge or a protractor on the ridges and look for light.";
    const WORDS: &'static str = "radius by coordinates, contour, scallop, cusp, ball nose, stair steps, \
        angle by steps, profile, \
        chamfer by steps, corner radius by steps, fillet by steps, fillet in steps, stepped radius, break an edge, \
        break a corner, corner rounding, inside corner";
    const NEAR: &'static str = "cam";
    const EXAMPLES: &'static [Example] = examples! {
        "A quarter round of 20 mm on the end of a winch pawl, by plunges of a 10 mm end mill, with ridges of no more than 0.02 mm.":
            from = "20 mm,0 mm", to = "0 mm,20 mm", radius = "20 mm", sense = "counterclockwise", cutter = "ball",
            diameter = "10 mm", side = "right", cusp = "0.02 mm";
        "A slope of 15° on a mill's jaw, seen from the front, in steps with the corner of a 1/2 in end mill.":
            from = "0 in,0 in", to = "1.500 in,0.402 in", cutter = "flat", diameter = "1/2 in", side = "left",
            step = "0.02 in";
        "The upper right corner of a rudder block gets a 1/4 in radius, by plunges of a 3/8 in end mill.":
            corner_at = "upper_right", radius = "1/4 in", cutter = "ball", diameter = "3/8 in", cusp = "0.001 in";
        "The inside corner of a pump's foot, at X 40 mm, gets a 6 mm radius with an 8 mm ball nose.":
            corner_at = "lower_left", corner_kind = "inside", corner_point = "40 mm,0 mm", radius = "6 mm",
            cutter = "ball", diameter = "8 mm", cusp = "0.02 mm";
        "The upper left edge of a cleat is broken by 2 mm at 30° with the corner of an end mill.":
            corner_at = "upper_left", chamfer = "2 mm", chamfer_angle = "30 deg", cutter = "flat",
            diameter = "10 mm", step = "0.2 mm";
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
        1 "The {corner_at} edge of a block is broken by {chamfer} at 45°. How long is the slope of the chamfer?"
            => "length":
            { corner_at = "upper_left" | "upper_right", chamfer = "1/16 in" | "1/8 in" | "3/16 in", cutter = "flat",
              diameter = "1/2 in", step = "0.01 in" }
            { corner_at = "upper_left" | "upper_right", chamfer = "1 mm" | "2 mm" | "3 mm", cutter = "flat",
              diameter = "12 mm", step = "0.2 mm" };
        2 "The {corner_at} edge of a block gets a chamfer {chamfer} wide on top, at {chamfer_angle} to the top. How \
           long is its slope?" => "length":
            { corner_at = "upper_left" | "upper_right", chamfer = "1/8 in" | "1/4 in", chamfer_angle = "30 deg" | "60 deg",
              cutter = "flat", diameter = "1/2 in", step = "0.01 in" }
            { corner_at = "upper_left" | "upper_right", chamfer = "2 mm" | "5 mm", chamfer_angle = "30 deg" | "60 deg",
              cutter = "flat", diameter = "12 mm", step = "0.2 mm" };
        2 "The outside corner at {corner_point}, {corner_at}, gets a radius of {radius} from a {diameter} end mill \
           seen along its axis. Where does the spindle stand on Y at the first place, on the edge along X?"
            => "points/0/y":
            { corner_at = "upper_right", corner_point = "2 in,1 in" | "3 in,1.5 in", radius = "1/4 in" | "3/8 in",
              cutter = "ball", diameter = "3/8 in" | "1/2 in", step = "0.02 in" }
            { corner_at = "upper_right", corner_point = "50 mm,30 mm" | "80 mm,40 mm", radius = "6 mm" | "10 mm",
              cutter = "ball", diameter = "8 mm" | "12 mm", step = "0.5 mm" };
        3 "A ball nose of {diameter} makes a radius of {radius} in the inside corner at {corner_point}, {corner_at} as \
           you see the opening. Where is the center of the ball on X at the first place, on the edge along X?"
            => "points/0/x":
            { corner_at = "lower_left", corner_kind = "inside", corner_point = "1 in,0 in" | "1.5 in,0 in",
              radius = "3/8 in" | "1/2 in", cutter = "ball", diameter = "1/4 in" | "1/2 in", step = "0.02 in" };
    };
    type Input = SteppedProfileInput;
    type Output = SteppedProfileResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "places at half the cutter off the profile; ridges where two cuts cross");
        let no_ends = || Refusal::no_answer("Say where the profile runs.", &[("corner_at", "upper_right".to_owned())]);
        let ends = Ends::of(input, record).ok_or_else(no_ends)?;
        let profile = profile(input, &ends)?;
        let steps = steps(input, &profile)?;
        let result = Stepping { input, ends: &ends, profile: &profile, steps, record }.solve();
        match input.cutter {
            ProfileCutter::Ball => notes!(record => middle_of_the_ball: "The places are those of the center of the \
                round. The tip of a ball nose is half a diameter lower; for an end mill seen along its axis it is the \
                spindle's center."),
            ProfileCutter::Flat => notes!(record => corner_cuts: "The places are those of the middle of the cutter's \
                end, with its corner assumed sharp. A corner radius or a worn corner leaves more metal."),
        }
        if ends.corner.is_some() {
            notes!(record => from_edge_to_edge: "The places run from the edge along X to the edge along Y. The cutter \
                starts and stops where the profile meets the edges.");
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
