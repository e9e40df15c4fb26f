//! Holes on a circle: the angle of each, its place, and the moves from one to the next.

use super::chosen::as_numbers;
use super::hole::PatternHole;
use super::rotary::{RotaryTable, TableSetting, find_settings};
use crate::arithmetic::directions::{AngleFrom, Convention, Sense, angle_of};
use crate::arithmetic::travel::{AxisColumns, find_moves};
use crate::declared::Asks;
use crate::fields::Point;
use crate::quantity::{FoundAngle, FoundPlace, FoundSize, Place, SiValue, Size, TINY, Unit, text};
use crate::refusal::Refusal;
use crate::suggestion::{Way, value};
use crate::working::{Record, Shown};

const X: AxisColumns = AxisColumns { symbol: "x", places: "positions.x", before: "before.x", moves: "positions.dx" };
const Y: AxisColumns = AxisColumns { symbol: "y", places: "positions.y", before: "before.y", moves: "positions.dy" };

/// Which way angles are measured and holes counted.
#[derive(Clone, Copy, Debug, Asks)]
pub struct CircleWords {
    /// Where angles are 0: x_axis or y_axis.
    #[absent("x_axis", "Angles are assumed to start along +X.")]
    #[label("Angles start at")]
    pub angle_from: Option<AngleFrom>,
    /// Which way angles grow: counterclockwise or clockwise.
    #[absent("counterclockwise", "Angles are assumed to grow counterclockwise, seen with X to the right and Y up.")]
    #[label("Angles grow")]
    pub angle_sense: Option<Sense>,
    /// Which way the numbers of the holes run: counterclockwise or clockwise.
    #[absent("counterclockwise", "Holes are assumed to run counterclockwise.")]
    #[label("Holes run")]
    pub hole_order: Option<Sense>,
}

impl CircleWords {
    /// How angles are measured, defaults on record.
    pub fn convention(&self, record: &mut Record) -> Convention {
        Convention { from: self.angle_from(record), sense: self.angle_sense(record) }
    }

    /// Which way the holes run; says so where that is against the angles and nobody asked for it.
    pub fn order(&self, convention: Convention, holes: u32, record: &mut Record) -> Sense {
        let order = self.hole_order(record);
        if self.hole_order.is_none() && convention.sense == Sense::Clockwise && holes > 1 {
            record.note(
                "order_against_angles",
                "Angles grow clockwise here, but the holes are numbered counterclockwise; hole_order=clockwise numbers \
                 them the way the angles grow.",
            );
        }
        order
    }
}

/// The angle of hole 1, as a step shows it.
pub struct Start {
    /// The angle.
    pub degrees: f64,
    /// The field that it is.
    pub of: &'static str,
    /// How a step shows it.
    pub shown: Shown,
}

/// Holes on a circle, each a step from the one before.
pub struct HoleCircle {
    /// The radius, on record as `radius`.
    pub radius: FoundSize,
    /// X and Y of the center.
    pub center: (Place, Place),
    /// How angles are measured.
    pub convention: Convention,
    /// Which way the holes run.
    pub order: Sense,
    /// The numbers of the holes listed, on record.
    pub numbers: Vec<u32>,
    /// Degrees that so many steps take.
    pub sweep: f64,
    /// How many steps those are.
    pub steps: u32,
    /// One step, on record as `step_angle`; none for one hole.
    pub step_angle: Option<FoundAngle>,
}

impl HoleCircle {
    /// How far a hole is from hole 1, the way the holes run, in degrees.
    pub fn turned(&self, number: u32) -> f64 {
        match self.steps {
            0 => 0.0,
            // Multiplied before it is divided, so that what comes out even is exact.
            steps => f64::from(number - 1) * self.sweep / f64::from(steps),
        }
    }

    /// The holes, with their steps.
    pub fn lay_out(&self, start: Start, record: &mut Record) -> Vec<PatternHole> {
        let with_angles = self.order == self.convention.sense;
        let way = if with_angles { 1.0 } else { -1.0 };
        let degrees: Vec<f64> = self.numbers.iter().map(|number| start.degrees + way * self.turned(*number)).collect();
        let (angles, angles_of) = self.find_angles(&degrees, start, with_angles, record);
        let shown: Vec<FoundAngle> = degrees.iter().map(|degrees| FoundAngle::stated(*degrees, Unit::Degree)).collect();
        let (x_formula, y_formula) = self.convention.point_formulas();
        let (center_x, center_y) = self.center;
        let [xs, ys] = [
            ("X of each hole", x_formula, ("X", "center_x", center_x), X, 0),
            ("Y of each hole", y_formula, ("Y", "center_y", center_y), Y, 1),
        ]
        .map(|(what, formula, (symbol, of, center), axis, part)| {
            let parts = degrees.iter().map(|degrees| <[f64; 2]>::from(self.convention.point(*degrees))[part]);
            let places: Vec<FoundPlace> =
                parts.map(|part| FoundPlace::of(center.get() + self.radius.get() * part)).collect();
            let step = record.step(what, formula).with(symbol, of, center).with("R", "radius", self.radius);
            step.with("θ", angles_of, shown.clone()).gives(axis.places, places.clone());
            places
        });
        let datum = (FoundPlace::stated(0.0, Unit::Metre), "0, the datum,");
        let dxs = find_moves(&xs, datum, X, record);
        let dys = find_moves(&ys, datum, Y, record);
        let rows = self.numbers.iter().copied().zip(xs).zip(ys).zip(dxs).zip(dys).zip(angles);
        let hole = |(((((number, x), y), dx), dy), angle)| PatternHole { number, x, y, dx, dy, angle: Some(angle) };
        rows.map(hole).collect()
    }

    /// The settings of a rotary table that stands at zero with hole 1 under the spindle.
    pub fn find_settings(&self, table: &RotaryTable, record: &mut Record) -> Option<Vec<TableSetting>> {
        table.worm_ratio?;
        let turned: Vec<f64> = self.numbers.iter().map(|number| self.turned(*number).abs()).collect();
        let turned: Vec<FoundAngle> =
            turned.into_iter().map(|turned| FoundAngle::stated(turned, Unit::Degree)).collect();
        const WHAT: &str = "Turned from where hole 1 stands under the spindle";
        match self.step_angle {
            Some(step) => record
                .step(WHAT, "θ = (i - 1) × abs(δ)")
                .with("i", "positions.number", as_numbers(&self.numbers))
                .with("δ", "step_angle", step)
                .gives("table.turned", turned.clone()),
            None => record.look_up(WHAT, "a single hole stands at zero").gives("table.turned", turned.clone()),
        }
        find_settings(&self.numbers, turned, table, Some(("radius", self.radius)), record)
    }

    /// The angles as they are printed, and the step whose angles the places are computed from: those
    /// before whole turns are taken off, which keep every digit of a small negative angle.
    fn find_angles(
        &self,
        degrees: &[f64],
        start: Start,
        with_angles: bool,
        record: &mut Record,
    ) -> (Vec<FoundAngle>, &'static str) {
        let angles = |list: Vec<f64>| -> Vec<FoundAngle> {
            list.into_iter().map(|degrees| FoundAngle::stated(degrees, Unit::Degree)).collect()
        };
        let turns: Vec<f64> = degrees.iter().map(|degrees| (text::tidy(*degrees) / 360.0).floor()).collect();
        let folds = turns.iter().any(|turns| *turns != 0.0);
        let field = if folds { "direction" } else { "positions.angle" };
        let reached = angles(degrees.to_vec());
        let step = match self.step_angle {
            Some(step_angle) => record
                .step("Angle of each hole", if with_angles { "θ = α + (i - 1) × δ" } else { "θ = α - (i - 1) × δ" })
                .with("α", start.of, start.shown)
                .with("i", "positions.number", as_numbers(&self.numbers))
                .with("δ", "step_angle", step_angle),
            None => record.step("Angle of the hole", "θ = α").with("α", start.of, start.shown),
        };
        step.gives(field, reached.clone());
        if !folds {
            return (reached, field);
        }
        let step = record.step("Whole turns in it", "k = floor(θ / (2 × π))").with("θ", field, reached.clone());
        step.gives("turns", turns.clone());
        let folded =
            degrees.iter().zip(&turns).map(|(degrees, turns)| text::tidy(text::tidy(*degrees) - turns * 360.0));
        let folded = angles(folded.collect());
        let step = record.step("Angle from 0 to below a full turn", "φ = θ - 2 × π × k").with("θ", field, reached);
        step.with("k", "turns", turns).gives("positions.angle", folded.clone());
        (folded, field)
    }
}

/// The angle of hole 1 from a hole picked up at `through`, on a circle of that diameter.
pub fn start_through(
    diameter: Size,
    point: Point,
    (center_x, center_y): (Place, Place),
    convention: Convention,
    record: &mut Record,
) -> Result<Start, Refusal> {
    let (x, y) = (point.x.get() - center_x.get(), point.y.get() - center_y.get());
    let distance = x.hypot(y);
    if distance.si() < TINY {
        let radius = value(diameter.si() / 2.0, diameter.quantity().unit, Way::Near);
        let says = "The hole picked up lies at the center of the circle, so it gives no direction.";
        return Err(Refusal::no_answer(says, &[("through", format!("{radius},{radius}"))]));
    }
    let (along, across) = convention.along_across(x, y);
    let (along_formula, across_formula) = convention.along_across_formulas();
    for (what, formula, field, found) in [
        ("Picked-up hole from the center, along the axis where angles start", along_formula, "along", along),
        ("Picked-up hole from the center, across that axis", across_formula, "across", across),
    ] {
        let step = record.step(what, formula);
        let step = if formula.contains('x') {
            step.with("x", "through.x", point.x).with("X", "center_x", center_x)
        } else {
            step.with("y", "through.y", point.y).with("Y", "center_y", center_y)
        };
        step.gives(field, FoundPlace::of(found));
    }
    let (degrees, formula) = angle_of(along.si(), across.si());
    let shown = FoundAngle::stated(degrees, Unit::Degree);
    record
        .step("Angle of hole 1, in the direction of the hole picked up", formula)
        .with("u", "along", FoundPlace::of(along))
        .with("v", "across", FoundPlace::of(across))
        .gives("start", shown);
    let off = (distance / (diameter.get() / 2.0)).value - 1.0;
    if off.abs() > 1e-9 {
        let way =
            if off > 0.0 { "farther from the center than the radius" } else { "nearer to the center than the radius" };
        let percent = match text::fixed(off.abs() * 100.0, 2) {
            small if small == "0.00" => "less than 0.01".to_owned(),
            percent => percent,
        };
        record.note(
            "through_off_circle",
            format!(
                "The hole picked up lies {percent} percent {way}. Hole 1 is put on the circle in its direction; check \
                 the diameter and the center."
            ),
        );
    }
    Ok(Start { degrees, of: "start", shown: shown.into() })
}
