//! A taper measured over rolls or with two balls: plane geometry of tangent circles, checked against circles in the
//! complex plane and printed examples of disks.

mod drawing;
mod rules;

use crate::calculators::prelude::*;

/// The calculator.
pub struct RollsAndBalls;

choice! {
    /// What tapers: a `plug`, measured over two rolls at two heights, or a `hole`, measured with two balls.
    Tapered {
        /// A plug, small end down on a plate.
        Plug = "plug",
        /// A hole, narrow at its bottom.
        Hole = "hole",
    }
}

/// What the calculator of measured tapers asks for.
#[derive(Debug, Asks)]
#[asks(check = rules::check)]
pub struct RollsAndBallsInput {
    /// What tapers: a plug or a hole.
    #[label("What tapers")]
    pub taper: Tapered,
    /// Diameter of the two rolls beside a plug.
    #[label("Rolls")]
    pub roll_diameter: Option<Size>,
    /// Reading over the rolls on the plate that the small end of the plug stands on.
    #[label("Over the rolls, low")]
    pub over_low: Option<Size>,
    /// Reading over the same rolls on gauge blocks.
    #[label("Over the rolls, high")]
    pub over_high: Option<Size>,
    /// Height of the gauge blocks under the rolls.
    #[label("Gauge blocks")]
    pub blocks: Option<Size>,
    /// Diameter of the smaller ball in a hole.
    pub small_ball: Option<Size>,
    /// Diameter of the larger ball in the hole.
    pub large_ball: Option<Size>,
    /// Depth of the top of the smaller ball below the face of the hole.
    #[label("Top of small ball below face")]
    pub small_ball_depth: Option<Difference>,
    /// Depth of the top of the larger ball below the face, negative where it stands out.
    #[label("Top of large ball below face")]
    pub large_ball_depth: Option<Difference>,
}

/// What the calculator of measured tapers gives.
#[derive(Debug, Gives)]
pub struct RollsAndBallsResult {
    /// Angle between a side and the axis.
    #[label("Angle to the axis")]
    pub half_angle: FoundAngle,
    /// Angle between the sides.
    #[label("Included angle")]
    pub included_angle: FoundAngle,
    /// Change of diameter in a foot of length.
    #[label("Taper in a foot")]
    pub taper_per_foot: FoundSize,
    /// Length in which the diameter changes by one: 20 for a taper of 1 in 20.
    #[label("One in")]
    pub one_in: f64,
    /// Diameter of the plug at the plate, or of the hole at its face.
    #[label("Diameter at plate or face")]
    pub end_diameter: FoundSize,
    /// Half angle that 0.001 in more in the difference of the readings adds.
    #[label("Angle for 0.001 in of reading")]
    pub angle_per_thou: FoundAngle,
}

impl Calculator for RollsAndBalls {
    const ID: &'static str = "geometry/rolls-and-balls";
    const TITLE: &'static str = "Taper over rolls or balls";
    const ABOUT: &'static str = "The angle and the end diameter of a taper plug measured over two rolls at two heights, \
        or of a tapered hole measured with two balls.";
    const TASK: Task = Task::Check;
    const ANOTHER_CHECK: &'static str = "Blue a taper gauge and turn it in or on: it shows where the angle is off.";
    const WORDS: &'static str = "taper measurement, taper plug, tapered bore, gauge balls, rollers, pins, taper angle, \
        measure a taper, taper per foot";
    const EXAMPLES: &'static [Example] = examples! {
        "A taper plug of a windlass on the surface plate: 1/2 in rolls read 2.0000 in low and 2.2500 in on 3 in of blocks.":
            taper = "plug", roll_diameter = "0.5 in", over_low = "2 in", over_high = "2.25 in", blocks = "3 in";
        "The tapered bore of a propeller hub: a 25 mm ball lies 4 mm below the face, a 20 mm ball 55 mm below it.":
            taper = "hole", large_ball = "25 mm", large_ball_depth = "4 mm", small_ball = "20 mm", small_ball_depth = "55 mm";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A taper plug reads {over_low} over {roll_diameter} rolls on the plate and {over_high} over them on {blocks} of \
           blocks. What is its angle to the axis?" => "half_angle":
            { taper = "plug", roll_diameter = "1/2 in", over_low = "2 in", over_high = "2.125 in" | "2.25 in", blocks = "2 in" | "3 in" }
            { taper = "plug", roll_diameter = "10 mm", over_low = "50 mm", over_high = "53 mm" | "55 mm", blocks = "50 mm" | "60 mm" };
        2 "A taper plug reads {over_low} over {roll_diameter} rolls on the plate, and {over_high} on {blocks} of blocks. \
           What is its diameter at the plate?" => "end_diameter":
            { taper = "plug", roll_diameter = "1/2 in" | "3/8 in", over_low = "2 in", over_high = "2.25 in", blocks = "2 in" | "3 in" }
            { taper = "plug", roll_diameter = "8 mm" | "10 mm", over_low = "50 mm", over_high = "54 mm", blocks = "50 mm" | "60 mm" };
        2 "In a tapered hole a {large_ball} ball lies {large_ball_depth} below the face at its top, a {small_ball} ball \
           {small_ball_depth}. What is the angle of the hole to its axis?" => "half_angle":
            { taper = "hole", large_ball = "1 in", large_ball_depth = "1/8 in" | "1/4 in", small_ball = "3/4 in", small_ball_depth = "2 in" | "2-1/4 in" }
            { taper = "hole", large_ball = "25 mm", large_ball_depth = "4 mm" | "6 mm", small_ball = "20 mm", small_ball_depth = "50 mm" | "55 mm" };
        3 "In a tapered hole a {large_ball} ball lies {large_ball_depth} below the face at its top, a {small_ball} ball \
           {small_ball_depth}. How large is the hole at its face?" => "end_diameter":
            { taper = "hole", large_ball = "1 in", large_ball_depth = "1/8 in" | "1/4 in", small_ball = "3/4 in", small_ball_depth = "2 in" | "2-1/4 in" }
            { taper = "hole", large_ball = "25 mm", large_ball_depth = "4 mm" | "6 mm", small_ball = "20 mm", small_ball_depth = "50 mm" | "55 mm" };
    };
    type Input = RollsAndBallsInput;
    type Output = RollsAndBallsResult;
    const LEADS: &'static [&'static str] = &["half_angle", "end_diameter"];
    const CONTEXT: &'static [&'static str] = &["{included_angle} included", "{taper_per_foot} in a foot"];
    // A measurement; nothing is set or moved by it.
    const AT_THE_MACHINE: bool = false;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        rules::needed(input)?;
        let (half_angle, end_diameter, angle_per_thou) = match input.taper {
            Tapered::Plug => plug(input, record)?,
            Tapered::Hole => hole(input, record)?,
        };
        let included_angle: FoundAngle = step!(record, "Included angle", A: included_angle = 2.0 * a, a = half_angle);
        let foot = FoundSize::stated(1.0, Unit::Foot);
        let taper_per_foot: FoundSize = step!(record, "Taper in a foot",
            T: taper_per_foot = 2.0 * F * tan(a), F = "constant:foot": foot, a = half_angle);
        let one_in: f64 = step!(record, "One in", n: one_in = 1.0 / (2.0 * tan(a)), a = half_angle);
        notes!(record =>
            same_temperature: "Let work, blocks and rolls or balls come to one temperature, and use calibrated ones of equal size.");
        Ok(RollsAndBallsResult { half_angle, included_angle, taper_per_foot, one_in, end_diameter, angle_per_thou })
    }
}

/// One thousandth of an inch.
const THOU: FoundSize = FoundSize::stated(0.001, Unit::Inch);

fn plug(input: &RollsAndBallsInput, record: &mut Record) -> Result<(FoundAngle, FoundSize, FoundAngle), Refusal> {
    record.source(
        "geometry",
        "rolls raised by a height go apart by twice that height times the tangent of the half angle",
    );
    let fields = (input.roll_diameter, input.over_low, input.over_high, input.blocks);
    let (Some(roll), Some(low), Some(high), Some(blocks)) = fields else { return Err(Refusal::default()) };
    let half_angle: FoundAngle = step!(record, "Angle to the axis", a: half_angle = atan((N - M) / (2.0 * H)),
        N = over_high: high, M = over_low: low, H = blocks);
    rules::leaves_end(
        low.si() - roll.si() * (1.0 + 1.0 / angle::cos(half_angle.degrees()) + angle::tan(half_angle.degrees())),
        (roll, low),
    )?;
    let end: FoundSize = step!(record, "Diameter at the plate",
        D: end_diameter = M - d * (1.0 + 1.0 / cos(a) + tan(a)), M = over_low: low, d = roll_diameter: roll, a = half_angle);
    let per_thou: FoundAngle = step!(record, "Angle for a thousandth of an inch more",
        e: angle_per_thou = atan((N - M + t) / (2.0 * H)) - a,
        N = over_high: high, M = over_low: low, t = "constant:thou": THOU, H = blocks, a = half_angle);
    notes!(record => small_end_down: "The plug stands on its small end, square to the plate, with the rolls across from each other.");
    Ok((half_angle, end, per_thou))
}

fn hole(input: &RollsAndBallsInput, record: &mut Record) -> Result<(FoundAngle, FoundSize, FoundAngle), Refusal> {
    record.source("geometry", "two balls in a cone: the difference of their radii over the distance of their centers");
    let fields = (input.small_ball, input.large_ball, input.small_ball_depth, input.large_ball_depth);
    let (Some(small), Some(large), Some(deep), Some(high)) = fields else { return Err(Refusal::default()) };
    let low_center: FoundDifference = step!(record, "Center of the smaller ball below the face",
        z: "small_ball_center" = t + d / 2.0, t = small_ball_depth: deep, d = small_ball: small);
    let high_center: FoundDifference = step!(record, "Center of the larger ball below the face",
        y: "large_ball_center" = t + D / 2.0, t = large_ball_depth: high, D = large_ball: large);
    rules::balls_fit(input, (low_center.si() - high_center.si(), high_center.si()), (small, large))?;
    let half_angle: FoundAngle = step!(record, "Angle to the axis", a: half_angle = asin((D - d) / (2.0 * (z - y))),
        D = large_ball: large, d = small_ball: small, z = "small_ball_center": low_center, y = "large_ball_center": high_center);
    let end: FoundSize = step!(record, "Diameter at the face", E: end_diameter = D / cos(a) + 2.0 * y * tan(a),
        D = large_ball: large, a = half_angle, y = "large_ball_center": high_center);
    let per_thou: FoundAngle = step!(record, "Angle for a thousandth of an inch less between them",
        e: angle_per_thou = asin((D - d) / (2.0 * (z - y - t))) - a, D = large_ball: large, d = small_ball: small,
        z = "small_ball_center": low_center, y = "large_ball_center": high_center, t = "constant:thou": THOU, a = half_angle);
    notes!(record => balls_seat: "Drop each ball in by itself and seat it without force. Measure to its top with a depth micrometer.");
    Ok((half_angle, end, per_thou))
}
