//! A face that slopes two ways: from the angles of two views or from its true angle and direction to the turn and tilt of a
//! vise and to two tilts one upon the other. Checked against turned vectors.

mod drawing;

use crate::arithmetic::directions::angle_of;
use crate::calculators::prelude::*;

/// The calculator.
pub struct CompoundAngle;

choice! {
    /// Which tilt is below and carries the other: the one seen in the `front` view or the one seen in the `side` view.
    LowerTilt {
        /// The lower plate tilts to the left and right.
        Front = "front",
        /// The lower plate tilts to the front and back.
        Side = "side",
    }
}

/// What the compound angle calculator asks for: the angles of two views, or the true angle and its direction.
#[derive(Debug, Asks)]
#[asks(check = check, check = check_level)]
pub struct CompoundAngleInput {
    /// Angle of the face to the level as the front view shows it; negative where it falls to the right.
    #[label("Angle in the front view, rising right")]
    pub front_angle: Option<Angle>,
    /// Angle of the face to the level as the side view shows it; negative where it falls to the back.
    #[label("Angle in the side view, rising back")]
    pub side_angle: Option<Angle>,
    /// True angle of the face to the level, where it is steepest.
    #[label("True angle")]
    pub true_angle: Option<CornerAngle>,
    /// Direction of the steepest rise, from above: counterclockwise from the right.
    #[label("Direction of the rise, from the right")]
    pub direction: Option<Sweep>,
    /// Which tilt is below and carries the other, where two are set: front or side.
    #[label("Lower tilt")]
    #[absent("front", "The lower tilt is assumed to be the one that the front view shows.")]
    pub lower: Option<LowerTilt>,
    /// Distance between the rolls of a compound sine plate, the same below and above.
    #[label("Center distance of the rolls")]
    pub plate_length: Option<Size>,
}

/// What the compound angle calculator gives.
#[derive(Debug, Gives)]
pub struct CompoundAngleResult {
    /// True angle of the face to the level: the tilt of a vise whose part is turned first.
    #[label("True angle, and tilt after the turn")]
    pub true_angle: FoundAngle,
    /// Direction of the steepest rise, from above: counterclockwise from the right.
    #[label("Direction of the rise, from the right")]
    pub direction: FoundAngle,
    /// Turn of the part on the tilting vise after which the face rises to the right: counterclockwise from above.
    #[label("Turn of the part, counterclockwise")]
    pub turn: FoundAngle,
    /// Tilt of the lower plate; positive where its right or back goes down.
    #[label("Tilt of the lower plate")]
    pub lower_tilt: FoundAngle,
    /// Tilt of the upper plate, which the lower one carries; positive where its back or right goes down.
    #[label("Tilt of the upper plate")]
    pub upper_tilt: FoundAngle,
    /// Stack under the lower plate; needs the center distance of the rolls.
    #[needs(plate_length)]
    #[label("Stack of the lower plate")]
    pub lower_stack: Option<FoundGaugeSize>,
    /// Stack under the upper plate; needs the center distance of the rolls.
    #[needs(plate_length)]
    #[label("Stack of the upper plate")]
    pub upper_stack: Option<FoundGaugeSize>,
    /// Angle of the face in the front view.
    #[label("Angle in the front view, rising right")]
    pub front_angle: FoundAngle,
    /// Angle of the face in the side view.
    #[label("Angle in the side view, rising back")]
    pub side_angle: FoundAngle,
    /// Angle in the metal between the face and the front of a square part.
    #[label("Corner with the front of the part")]
    pub front_corner: FoundAngle,
    /// Angle in the metal between the face and the left side of a square part.
    #[label("Corner with the left side of the part")]
    pub left_corner: FoundAngle,
}

const ONE_PAIR: &str = "Give the angles of both views, or the true angle and its direction.";

rules! { check(CompoundAngleInput) {
    never(|input| input.front_angle.or(input.side_angle).is_none() && input.true_angle.is_none() && input.direction.is_none(),
        Code::FieldMissing, front_angle = "10 deg", side_angle = "15 deg"): ONE_PAIR;
    never(|input| input.front_angle.or(input.side_angle).is_some() && input.true_angle.is_some(), Code::Conflict,
        true_angle = "leave out"): ONE_PAIR;
    never(|input| input.front_angle.or(input.side_angle).is_some() && input.direction.is_some(), Code::Conflict,
        direction = "leave out"): ONE_PAIR;
    needs(front_angle => side_angle = "15 deg"): ONE_PAIR;
    needs(side_angle => front_angle = "10 deg"): ONE_PAIR;
    needs(true_angle => direction = "30 deg"): ONE_PAIR;
    needs(direction => true_angle = "20 deg"): ONE_PAIR;
    never(|input| input.front_angle.is_some_and(|angle| angle.degrees().abs() >= STEEPEST), Code::ValueOutOfRange,
        front_angle = "10 deg"): TOO_STEEP;
    never(|input| input.side_angle.is_some_and(|angle| angle.degrees().abs() >= STEEPEST), Code::ValueOutOfRange,
        side_angle = "15 deg"): TOO_STEEP;
    never(|input| input.true_angle.is_some_and(|angle| angle.degrees() >= STEEPEST), Code::ValueOutOfRange,
        true_angle = "20 deg"): TOO_STEEP;
} }

const TOO_STEEP: &str = "The face must slope less than 89° from the level. Measure a steeper one from the upright.";
const STEEPEST: f64 = 89.0;

/// A face that slopes in neither view needs no tilt.
fn check_level(input: &CompoundAngleInput) -> Result<(), ValidationError> {
    let (Some(front), Some(side)) = (input.front_angle, input.side_angle) else { return Ok(()) };
    if front.degrees().abs().max(side.degrees().abs()) >= 1e-6 {
        return Ok(());
    }
    let says = "The face is level in both views: nothing is to be tilted.";
    Err(rule_broken(Code::Conflict, says, &[("front_angle", "10 deg"), ("side_angle", "15 deg")]))
}

impl Calculator for CompoundAngle {
    const ID: &'static str = "geometry/compound-angle";
    const TITLE: &'static str = "Compound angle";
    const ABOUT: &'static str = "Turn and tilt that bring a face level which slopes in two views: for a tilting vise, for two \
        tilts one upon the other, and for a compound sine plate.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Run an indicator over the face both ways: it reads the same everywhere when the \
        face is level.";
    const WORDS: &'static str = "compound angles, double angle, compound sine plate, tilting vise, universal vise, swivel, \
        tilt and rotate, true angle, angle between planes, bevel";
    const EXAMPLES: &'static [Example] = examples! {
        "A winch cheek slopes 20° in the front view and 30° in the side view; it is ground on a 10 in compound sine plate.":
            front_angle = "20 deg", side_angle = "30 deg", plate_length = "10 in";
        "The seat of a pump foot slopes 25° towards 40° from the right; it is milled in a tilting vise.":
            true_angle = "25 deg", direction = "40 deg", lower = "side";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A face slopes {front_angle} in the front view and {side_angle} in the side view. What is its true angle?"
            => "true_angle":
            { front_angle = "10 deg" | "15 deg" | "20 deg", side_angle = "10 deg" | "12 deg" | "30 deg" };
        2 "A face slopes {front_angle} in the front view and {side_angle} in the side view. How far do you turn the part \
            before you tilt it?" => "turn":
            { front_angle = "10 deg" | "15 deg", side_angle = "5 deg" | "20 deg" | "25 deg" };
        2 "The true angle is {true_angle}, towards {direction} from the right. What does the front view show?"
            => "front_angle":
            { true_angle = "15 deg" | "20 deg" | "30 deg", direction = "30 deg" | "45 deg" | "60 deg" };
        3 "You set a compound sine plate with rolls {plate_length} apart for {front_angle} in the front view and \
            {side_angle} in the side view, the front tilt below. How high is the lower stack?" => "lower_stack":
            { plate_length = "5 in" | "10 in", front_angle = "10 deg" | "20 deg", side_angle = "15 deg" | "30 deg" }
            { plate_length = "100 mm" | "200 mm", front_angle = "10 deg" | "20 deg", side_angle = "15 deg" | "30 deg" };
    };
    type Input = CompoundAngleInput;
    type Output = CompoundAngleResult;
    const LEADS: &'static [&'static str] = &["turn", "true_angle"];
    const CONTEXT: &'static [&'static str] = &["lower plate {lower_tilt}", "upper plate {upper_tilt}"];
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "the slopes of a plane in two directions, and turns of its upright");
        let (front_angle, side_angle, true_angle, direction) = slopes(input, record);
        let turn = turn_of(direction, record);
        let lower = input.lower(record);
        let (lower_tilt, upper_tilt): (FoundAngle, FoundAngle) = match lower {
            LowerTilt::Front => (
                step!(record, "Tilt of the lower plate", p: lower_tilt = asin(sin(T) * cos(d)),
                    T = true_angle, d = direction),
                step!(record, "Tilt of the upper plate: the side view's own", q: upper_tilt = b, b = side_angle),
            ),
            LowerTilt::Side => (
                step!(record, "Tilt of the lower plate", p: lower_tilt = asin(sin(T) * sin(d)),
                    T = true_angle, d = direction),
                step!(record, "Tilt of the upper plate: the front view's own", q: upper_tilt = a, a = front_angle),
            ),
        };
        let (mut lower_stack, mut upper_stack) = (None, None);
        if let Some(plate_length) = input.plate_length {
            lower_stack = Some(step!(record, "Stack of the lower plate", h: lower_stack = L * sin(abs(p)),
                L = plate_length, p = lower_tilt));
            upper_stack = Some(step!(record, "Stack of the upper plate", k: upper_stack = L * sin(abs(q)),
                L = plate_length, q = upper_tilt));
        }
        let front_corner = corner(
            "Corner with the front",
            "f = π / 2 + asin(sin(T) × sin(d))",
            "front_corner",
            (true_angle, direction),
            angle::sin(direction.degrees()),
            record,
        );
        let left_corner = corner(
            "Corner with the left side",
            "l = π / 2 + asin(sin(T) × cos(d))",
            "left_corner",
            (true_angle, direction),
            angle::cos(direction.degrees()),
            record,
        );
        notes!(record =>
            which_way: "Tilt so that the side to which the face rises goes down.";
            order: "The order counts. In a tilting vise turn the part first: a turn below the tilt changes nothing. Of two \
                tilts the upper one is the angle of its view, and the lower one is less than its own.");
        Ok(CompoundAngleResult {
            true_angle,
            direction,
            turn,
            lower_tilt,
            upper_tilt,
            lower_stack,
            upper_stack,
            front_angle,
            side_angle,
            front_corner,
            left_corner,
        })
    }
}

/// The turn that makes the face rise to the right, at most half a turn either way.
fn turn_of(direction: FoundAngle, record: &mut Record) -> FoundAngle {
    let degrees = direction.degrees();
    let (back, formula) = match degrees {
        _ if degrees > 180.0 => (360.0, "w = 2 × π - d"),
        _ if degrees < -180.0 => (-360.0, "w = -2 × π - d"),
        _ => (0.0, "w = -d"),
    };
    let turn = FoundAngle::stated(back - degrees, Unit::Degree);
    tell!(record.step("Turn that makes it rise to the right", formula), d = direction => turn);
    turn
}

/// The angle in the metal between the face and a side of the part.
fn corner(
    what: &'static str,
    formula: &'static str,
    field: &'static str,
    (true_angle, direction): (FoundAngle, FoundAngle),
    towards: f64,
    record: &mut Record,
) -> FoundAngle {
    let found =
        FoundAngle::stated(90.0 + (angle::sin(true_angle.degrees()) * towards).asin().to_degrees(), Unit::Degree);
    tell!(record.step(what, formula), T = true_angle, d = direction => (field): found);
    found
}

/// The angles of both views, the true angle and its direction.
fn slopes(input: &CompoundAngleInput, record: &mut Record) -> (FoundAngle, FoundAngle, FoundAngle, FoundAngle) {
    let as_found = |degrees: f64| FoundAngle::stated(degrees, Unit::Degree);
    if let (Some(front), Some(side)) = (input.front_angle, input.side_angle) {
        let (front_angle, side_angle) = (front.found(), side.found());
        tell!(record.choose("Angle in the front view", "as given"), a = front_angle: front => front_angle);
        tell!(record.choose("Angle in the side view", "as given"), b = side_angle: side => side_angle);
        let right: f64 = step!(record, "Rise for each length to the right", u: right = tan(a), a = front_angle);
        let back: f64 = step!(record, "Rise for each length to the back", v: back = tan(b), b = side_angle);
        let true_angle: FoundAngle =
            step!(record, "True angle", T: true_angle = atan(root(u * u + v * v)), u = right, v = back);
        let (degrees, formula) = angle_of(right, back);
        let direction = as_found(degrees);
        tell!(record.step("Direction of the steepest rise", formula), u = right, v = back => direction);
        return (front_angle, side_angle, true_angle, direction);
    }
    let stated = input.true_angle.map_or(0.0, |angle| angle.degrees());
    let (true_angle, direction) = (as_found(stated), as_found(input.direction.map_or(0.0, |angle| angle.degrees())));
    tell!(record.choose("True angle", "as given"), T = true_angle => true_angle);
    tell!(record.choose("Direction of the steepest rise", "as given"), d = direction => direction);
    let front_angle: FoundAngle = step!(record, "Angle in the front view", a: front_angle = atan(tan(T) * cos(d)),
        T = true_angle, d = direction);
    let side_angle: FoundAngle = step!(record, "Angle in the side view", b: side_angle = atan(tan(T) * sin(d)),
        T = true_angle, d = direction);
    (front_angle, side_angle, true_angle, direction)
}
