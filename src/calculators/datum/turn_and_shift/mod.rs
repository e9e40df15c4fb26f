//! Points of a drawing carried to where the work lies, or readings carried to the drawing: mirrored,
//! shifted to an origin and turned, by plane geometry.

mod drawing;

use crate::arithmetic::touching::columns;
use crate::calculators::prelude::*;
use crate::working::StepDraft;
use uom::si::f64::Length;

/// The calculator.
pub struct TurnAndShift;

choice! {
    /// What is mirrored first: `none`; `x`, which changes the sign of every X; or `y`, which changes that of every Y.
    Mirror {
        /// Nothing.
        None = "none",
        /// Left and right change places.
        X = "x",
        /// Near and far change places.
        Y = "y",
    }
}

choice! {
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
    /// The points, X and Y of each.
    #[label("Points", "point")]
    pub points: Points,
    /// X and Y of the point that becomes zero: it is taken off every point.
    #[label("Point that becomes zero")]
    #[absent("0,0", value = self.zero(), "No origin is given, so nothing is shifted.")]
    pub origin: Option<Point>,
    /// How far everything is turned, counterclockwise with X to the right and Y up. To lay an edge along its axis, give the angle of the edge with its sign changed.
    #[label("Turn counterclockwise by")]
    #[absent("0 deg", "No angle is given, so nothing is turned.")]
    pub angle: Option<Angle>,
    /// What is mirrored first: none, x (every X changes sign) or y (every Y changes sign).
    #[label("Mirror first")]
    #[absent("none", "Nothing is mirrored unless you ask for it.")]
    pub mirror: Option<Mirror>,
    /// Whether the origin is taken off before the turn or after it: shift first or turn first.
    #[label("Order of shift and turn")]
    #[absent("shift_first", "The origin is taken off first, so everything turns about it.")]
    pub order: Option<TurnOrder>,
}

impl TurnAndShiftInput {
    fn zero(&self) -> Point {
        let zero = Place::in_unit_of(&self.points, "0");
        Point { x: zero, y: zero }
    }
}

/// What the turn and shift calculator gives.
#[derive(Debug, Gives)]
pub struct TurnAndShiftResult {
    /// The points, in the order given.
    #[label("Points", "point")]
    pub positions: Vec<TurnedPoint>,
}

/// A point carried over.
#[derive(Debug, Gives)]
pub struct TurnedPoint {
    /// Its number in the order given.
    #[label("Number")]
    pub number: u32,
    /// Where the point is on X now.
    #[label("X")]
    pub x: FoundPlace,
    /// Where the point is on Y now.
    #[label("Y")]
    pub y: FoundPlace,
}

/// The places on their way, on X and on Y, and the names under which the record has them.
struct Columns {
    of: [&'static str; 2],
    shown: [Shown; 2],
    values: [Vec<Length>; 2],
}

impl Columns {
    /// What a step made of the places on one axis takes their place and goes on record.
    fn made(&mut self, on: usize, draft: StepDraft<'_>, of: &'static str, values: Vec<Length>) {
        let found: Vec<FoundPlace> = values.iter().copied().map(FoundPlace::of).collect();
        draft.gives(of, found.clone());
        (self.of[on], self.shown[on], self.values[on]) = (of, found.into(), values);
    }

    fn mirror(&mut self, on: usize, record: &mut Record) {
        let values = self.values[on].iter().map(|value| -*value).collect();
        let draft = record.step("Mirrored", "m = -p").with("p", self.of[on], self.shown[on].clone());
        self.made(on, draft, ["mirrored.x", "mirrored.y"][on], values);
    }

    fn shift(&mut self, origin: Point, to: [&'static str; 2], record: &mut Record) {
        for (on, (origin_of, origin)) in [("origin.x", origin.x), ("origin.y", origin.y)].into_iter().enumerate() {
            let values = self.values[on].iter().map(|value| *value - origin.get()).collect();
            let draft = record.step("From the origin", "q = p - o").with("p", self.of[on], self.shown[on].clone());
            self.made(on, draft.with("o", origin_of, origin), to[on], values);
        }
    }

    fn turn(&mut self, by: Angle, to: [&'static str; 2], record: &mut Record) {
        let (sin, cos) = angle::sin_cos(by.degrees());
        let ([p_of, q_of], [p, q]) = (self.of, self.shown.clone());
        let both = self.values[0].iter().zip(&self.values[1]);
        let (xs, ys) = both.map(|(x, y)| (*x * cos - *y * sin, *x * sin + *y * cos)).unzip();
        let made = [
            ("X after the turn", "x = p × cos(θ) - q × sin(θ)", xs),
            ("Y after the turn", "y = p × sin(θ) + q × cos(θ)", ys),
        ];
        for (on, (what, formula, values)) in made.into_iter().enumerate() {
            let draft = record.step(what, formula).with("p", p_of, p.clone()).with("q", q_of, q.clone());
            self.made(on, draft.with("θ", "angle", by), to[on], values);
        }
    }
}

impl Calculator for TurnAndShift {
    const ID: &'static str = "datum/turn-and-shift";
    const TITLE: &'static str = "Turn and shift points";
    const ABOUT: &'static str = "Carries points from a drawing to work that lies askew, or readings back to the \
        drawing: mirrors them first, then shifts and turns them in the order you ask for.";
    const TASK: Task = Task::LayOut;
    const ANOTHER_CHECK: &'static str = "Carry the points found back again: they must be those of the drawing.";
    const WORDS: &'static str = "rotate, translate, transform, skew, datum shift, coordinates, mirror, other hand, \
        offset";
    const EXAMPLES: &'static [Example] = examples! {
        "The corner of a winch base lies at X 1.25 in, Y 0.75 in and its edge is turned 1.5°: three places touched on it, as the drawing has them.":
            points = "1.25 in,0.75 in;5.2486 in,0.8547 in;1.1715 in,3.749 in", origin = "1.25 in,0.75 in",
            angle = "-1.5 deg";
        "Bolt holes of a pump cover of the other hand, mirrored left to right and set on a fixture at X 40 mm, Y 25 mm, turned 30°.":
            points = "0 mm,0 mm;60 mm,0 mm;60 mm,35 mm", mirror = "x", angle = "30 deg", origin = "-40 mm,-25 mm",
            order = "turn_first";
    };
    const EXERCISES: &'static [Exercise] = exercises! {
        1 "A hole of a pump cover is at {points} on the drawing. Zero moves to the corner at {origin}. Where is the \
           hole on X?" => "positions/0/x":
            { points = "1.25 in,0.75 in" | "3.5 in,2 in" | "0.25 in,1.5 in",
              origin = "0.5 in,0.25 in" | "2 in,1.125 in" }
            { points = "40 mm,25 mm" | "112 mm,60 mm" | "8 mm,35 mm", origin = "12 mm,10 mm" | "75 mm,40 mm" };
        2 "A hole is at {points} from the corner. The part is turned {angle} counterclockwise about that corner. \
           Where is the hole on X then?" => "positions/0/x":
            { points = "4 in,0 in" | "3 in,2 in" | "2 in,1.5 in", angle = "5°" | "15°" | "30°" }
            { points = "100 mm,0 mm" | "80 mm,50 mm" | "60 mm,35 mm", angle = "5°" | "15°" | "30°" };
        2 "A hole is at {points} from the corner, and the part lies turned by {angle}, counterclockwise positive. \
           Where is the hole on Y as it lies?" => "positions/0/y":
            { points = "4 in,1 in" | "6 in,2 in" | "5 in,0 in", angle = "2°" | "-3°" | "-10°" }
            { points = "100 mm,20 mm" | "150 mm,60 mm" | "120 mm,0 mm", angle = "2°" | "-3°" | "-10°" };
        3 "The corner of a winch base lies at {origin}. To get from the table to the drawing you take that off and \
           then turn by {angle}, counterclockwise positive. You touch a hole at {points}. Where is it on the drawing, \
           on X?" => "positions/0/x":
            { origin = "1.25 in,0.75 in" | "0.5 in,1 in", angle = "-1.5°" | "4°",
              points = "5.25 in,0.875 in" | "3 in,2.5 in" }
            { origin = "20 mm,15 mm" | "35 mm,10 mm", angle = "-1.5°" | "4°",
              points = "120 mm,22 mm" | "80 mm,65 mm" };
        3 "For the cover of the other hand you change the sign of X, then turn it {angle} counterclockwise about \
           zero. Where does the hole at {points} come to on Y?" => "positions/0/y":
            { mirror = "x", angle = "30°" | "45°" | "90°", points = "2 in,1 in" | "1.5 in,0.5 in" }
            { mirror = "x", angle = "30°" | "45°" | "90°", points = "60 mm,35 mm" | "40 mm,10 mm" };
    };
    type Input = TurnAndShiftInput;
    type Output = TurnAndShiftResult;
    const DRAW: Option<Draw<Self::Input, Self::Output>> = Some(drawing::draw);

    fn solve(input: &Self::Input, record: &mut Record) -> Result<Self::Output, Refusal> {
        record.source("geometry", "turn of a point about zero by cosine and sine");
        let points = &input.points.0;
        let origin = input.origin(record);
        let turn = input.angle(record);
        let mirror = input.mirror(record);
        let order = input.order(record);
        let numbers: Vec<f64> = (1..=points.len()).map(|number| number as f64).collect();
        record.look_up("Numbers", "the points in the order given").gives("positions.number", numbers);
        let given = columns(points);
        let mut places = Columns {
            of: ["points.x", "points.y"],
            shown: [0, 1].map(|on| Shown::from(given[on].as_slice())),
            values: given.map(|places| places.iter().map(Place::get).collect()),
        };
        match mirror {
            Mirror::None => {}
            Mirror::X => places.mirror(0, record),
            Mirror::Y => places.mirror(1, record),
        }
        match order {
            TurnOrder::ShiftFirst => {
                places.shift(origin, ["shifted.x", "shifted.y"], record);
                places.turn(turn, ["positions.x", "positions.y"], record);
            }
            TurnOrder::TurnFirst => {
                places.turn(turn, ["turned.x", "turned.y"], record);
                places.shift(origin, ["positions.x", "positions.y"], record);
            }
        }
        if input.origin.is_none() && input.angle.is_none() && mirror == Mirror::None {
            record.note("unmoved", "No origin, angle or mirror is given, so the points stay where they are.");
        }
        if mirror != Mirror::None {
            record.note("one_mirror", "Mirrored points make the part of the other hand. Check that you want it.");
        }
        record.note(
            "prove",
            "Before cutting, run the spindle over two places you can see, such as a corner and a far hole: a wrong \
             sign of the angle shows there.",
        );
        let [xs, ys] = places.values.map(|values| values.into_iter().map(FoundPlace::of));
        let positions = xs.zip(ys).zip(1..).map(|((x, y), number)| TurnedPoint { number, x, y }).collect();
        Ok(TurnAndShiftResult { positions })
    }
}
