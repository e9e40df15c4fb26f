//! Points of a drawing carried to where the work lies, or readings carried to the drawing: mirrored,
//! shifted to an origin and turned, by plane geometry.

mod drawing;

use crate::arithmetic::touching::{columns, unit_of};
use crate::calculators::{Calculator, Draw, Example, Task};
use crate::declared::{Asks, Gives};
use crate::fields::{Point, Points};
use crate::quantity::{Angle, FoundPlace, Place, Unit, angle};
use crate::refusal::Refusal;
use crate::working::{Record, Shown};
use uom::si::f64::Length;

/// The calculator.
pub struct TurnAndShift;

crate::choice! {
    /// What is mirrored before anything else: `none`; `x`, which turns the sign of every X, or `y`, of every Y.
    Mirror {
        /// Nothing.
        None = "none",
        /// Left and right change places.
        X = "x",
        /// Near and far change places.
        Y = "y",
    }
}

crate::choice! {
    /// What comes first: `shift_first`, the origin taken off and then turned about it; or `turn_first`, turned about zero and then the origin taken off.
    TurnOrder {
        /// Shift, then turn.
        ShiftFirst = "shift_first",
        /// Turn, then shift.
        TurnFirst = "turn_first",
    }
}

/// What the turn and shift calculator asks for.
#[derive(Debug, Asks)]
pub struct TurnAndShiftInput {
    /// The points, each x and y.
    pub points: Points,
    /// The point that becomes zero, x and y: it is taken off every point; 0,0 if absent.
    pub origin: Option<Point>,
    /// How far everything is turned, counterclockwise with X to the right and Y up; 0 deg if absent. The angle of an edge with its sign changed lays that edge along its axis.
    pub angle: Option<Angle>,
    /// What is mirrored first: none, x (the sign of X changes) or y (the sign of Y); none if absent.
    pub mirror: Option<Mirror>,
    /// Whether the origin is taken off before the turn or after it: shift_first or turn_first; shift_first if absent.
    pub order: Option<TurnOrder>,
}

/// What the turn and shift calculator gives.
#[derive(Debug, Gives)]
pub struct TurnAndShiftResult {
    /// The points, in the order given.
    pub positions: Vec<TurnedPoint>,
}

/// A point carried over.
#[derive(Debug, Gives)]
pub struct TurnedPoint {
    /// Its number in the order given.
    pub number: u32,
    /// Where it is on X now.
    pub x: FoundPlace,
    /// Where it is on Y now.
    pub y: FoundPlace,
}

/// A column of places on its way, and the name under which the record has it.
struct Column {
    of: &'static str,
    shown: Shown,
    values: Vec<Length>,
}

impl Column {
    fn given(of: &'static str, places: &[Place]) -> Self {
        Self { of, shown: Shown::from(places), values: places.iter().map(Place::get).collect() }
    }

    /// The column that a step made, put on record.
    fn made(draft: crate::working::StepDraft<'_>, of: &'static str, values: Vec<Length>) -> Self {
        let found: Vec<FoundPlace> = values.iter().copied().map(FoundPlace::of).collect();
        draft.gives(of, found.clone());
        Self { of, shown: found.into(), values }
    }
}

impl Calculator for TurnAndShift {
    const ID: &'static str = "datum/turn-and-shift";
    const TITLE: &'static str = "Turn and shift points";
    const ABOUT: &'static str = "Carries points from a drawing to work that lies askew, or readings back to the \
        drawing: mirrored first, then shifted to an origin and turned, in the order asked for.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Take the points found back to the drawing: they must be those it gives.";
    const WORDS: &'static [&'static str] =
        &["rotate", "translate", "transform", "skew", "datum shift", "coordinates", "mirror", "other hand", "offset"];
    const EXAMPLES: &'static [Example] = &[
        Example {
            says: "The corner of a winch base lies at X 1.25 in, Y 0.75 in and its edge is turned 1.5°: three places \
                touched on it, as the drawing has them.",
            fields: &[
                ("points", "1.25 in,0.75 in;5.2486 in,0.8547 in;1.1715 in,3.749 in"),
                ("origin", "1.25 in,0.75 in"),
                ("angle", "-1.5 deg"),
            ],
        },
        Example {
            says: "Bolt holes of a pump cover of the other hand, mirrored left to right and set on a fixture at X 40 mm, \
                Y 25 mm, turned 30°.",
            fields: &[
                ("points", "0 mm,0 mm;60 mm,0 mm;60 mm,35 mm"),
                ("mirror", "x"),
                ("angle", "30 deg"),
                ("origin", "-40 mm,-25 mm"),
                ("order", "turn_first"),
            ],
        },
    ];
    type Input = TurnAndShiftInput;
    type Output = TurnAndShiftResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "turn of a point about zero by cosine and sine");
        let points = &input.points.0;
        let unit = unit_of(points);
        let zero = Place::stated(0.0, unit);
        let origin = record.or_assume(
            input.origin,
            "origin",
            Point { x: zero, y: zero },
            "Nothing is shifted where no origin is named.",
        );
        let none = Angle::stated(0.0, Unit::Degree);
        let turn = record.or_assume(input.angle, "angle", none, "Nothing is turned where no angle is named.");
        let mirror = record.or_assume(input.mirror, "mirror", Mirror::None, "Nothing is mirrored unless it is said.");
        let order = record.or_assume(
            input.order,
            "order",
            TurnOrder::ShiftFirst,
            "The origin is taken off first, so that everything turns about it.",
        );
        let (xs, ys) = columns(points);
        let numbers: Vec<f64> = (1..=points.len()).map(|number| number as f64).collect();
        record.look_up("Numbers", "the points in the order given").gives("positions.number", numbers);
        let (mut x, mut y) = (Column::given("points.x", &xs), Column::given("points.y", &ys));
        match mirror {
            Mirror::None => {}
            Mirror::X => x = mirrored(x, "mirrored.x", record),
            Mirror::Y => y = mirrored(y, "mirrored.y", record),
        }
        let (x, y) = match order {
            TurnOrder::ShiftFirst => {
                let x = shifted(x, origin.x, ["origin.x", "shifted.x"], record);
                let y = shifted(y, origin.y, ["origin.y", "shifted.y"], record);
                turned(&x, &y, turn, ["positions.x", "positions.y"], record)
            }
            TurnOrder::TurnFirst => {
                let (x, y) = turned(&x, &y, turn, ["turned.x", "turned.y"], record);
                let x = shifted(x, origin.x, ["origin.x", "positions.x"], record);
                (x, shifted(y, origin.y, ["origin.y", "positions.y"], record))
            }
        };
        if input.origin.is_none() && input.angle.is_none() && mirror == Mirror::None {
            record.note("unmoved", "Neither origin, angle nor mirror is given: the points stay where they are.");
        }
        if mirror != Mirror::None {
            record.note("one_mirror", "What is mirrored is the part of the other hand: see that it is meant.");
        }
        record.note(
            "prove",
            "Before cutting, run the spindle over two places that can be seen, such as a corner and a far hole: a wrong \
             sign of the angle shows there.",
        );
        let places = x.values.into_iter().zip(y.values).zip(1..);
        let positions =
            places.map(|((x, y), number)| TurnedPoint { number, x: FoundPlace::of(x), y: FoundPlace::of(y) }).collect();
        Ok(TurnAndShiftResult { positions })
    }
}

fn mirrored(column: Column, of: &'static str, record: &mut Record) -> Column {
    let values = column.values.iter().map(|value| -*value).collect();
    let draft = record.step("Mirrored", "m = -p").with("p", column.of, column.shown);
    Column::made(draft, of, values)
}

fn shifted(column: Column, origin: Place, [origin_of, of]: [&'static str; 2], record: &mut Record) -> Column {
    let values = column.values.iter().map(|value| *value - origin.get()).collect();
    let draft =
        record.step("From the origin", "q = p - o").with("p", column.of, column.shown).with("o", origin_of, origin);
    Column::made(draft, of, values)
}

fn turned(x: &Column, y: &Column, by: Angle, to: [&'static str; 2], record: &mut Record) -> (Column, Column) {
    let (sin, cos) = angle::sin_cos(by.degrees());
    let both = x.values.iter().zip(&y.values);
    let (xs, ys) = both.map(|(x, y)| (*x * cos - *y * sin, *x * sin + *y * cos)).unzip();
    let mut make = |what: &'static str, formula: &'static str, of, values| {
        let draft = record
            .step(what, formula)
            .with("p", x.of, x.shown.clone())
            .with("q", y.of, y.shown.clone())
            .with("θ", "angle", by);
        Column::made(draft, of, values)
    };
    (
        make("X after the turn", "x = p × cos(θ) - q × sin(θ)", to[0], xs),
        make("Y after the turn", "y = p × sin(θ) + q × cos(θ)", to[1], ys),
    )
}
