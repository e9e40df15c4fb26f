//! A pattern of straight rows on the part: turned, put where hole 1 or the middle is to lie, with the moves between
//! its holes, what checks them, and the distances to the edges of the part.

use super::chosen::ChosenHoles;
use super::edges::{EdgeDistance, check_part, find_edges};
use super::hole::{PatternCheck, PatternHole};
use super::reach::{TableReach, TableTravel};
use super::row_spacing::{Spacing, find_spacing_checks};
use crate::arithmetic::directions::angle_of;
use crate::arithmetic::travel::{AxisColumns, find_moves};
use crate::cautions;
use crate::declared::{Asks, Gives};
use crate::fields::Points;
use crate::quantity::{Angle, Found, FoundAngle, FoundExtent, FoundPlace, Place, Size, Unit, angle, text};
use crate::refusal::{Code, Refusal, rule_broken};
use crate::working::{Record, StepDraft};
use validator::ValidationError;

/// Where a pattern of rows stands on the part, and which of its holes are drilled.
#[derive(Clone, Debug, Asks)]
pub struct RowsOnPart {
    /// X of hole 1; 0 if neither it nor the middle is given.
    #[label("Hole 1, X")]
    pub start_x: Option<Place>,
    /// Y of hole 1; 0 if neither it nor the middle is given.
    #[label("Hole 1, Y")]
    pub start_y: Option<Place>,
    /// X of the middle, in place of hole 1.
    #[label("Middle, X")]
    pub center_x: Option<Place>,
    /// Y of the middle, in place of hole 1.
    #[label("Middle, Y")]
    pub center_y: Option<Place>,
    /// How far the rows are turned, counterclockwise.
    #[absent("0 deg", "The rows are assumed to run along +X.")]
    #[label("Rows turned by")]
    pub rotation: Option<Angle>,
    /// Which holes are drilled.
    #[group]
    pub chosen: ChosenHoles,
    /// Diameter of the holes, for the gap between them and the check over pins.
    pub hole_diameter: Option<Size>,
    /// Two opposite corners of the part.
    #[label("Corners of the part", "corner")]
    pub part: Option<Points>,
    /// The travel of the machine's table.
    #[group]
    pub travel: TableTravel,
}

impl RowsOnPart {
    /// What can be wrong with it, whatever the pattern of so many holes.
    pub fn check(&self, holes: u32) -> Result<(), ValidationError> {
        let stated = [
            ("start_x", self.start_x.is_some()),
            ("start_y", self.start_y.is_some()),
            ("center_x", self.center_x.is_some()),
            ("center_y", self.center_y.is_some()),
        ];
        if stated[..2].iter().any(|one| one.1) && stated[2..].iter().any(|one| one.1) {
            let given = stated.iter().filter(|one| one.1).map(|one| (one.0, "leave out"));
            let says = "Give where hole 1 lies or where the middle lies, not both.";
            return Err(rule_broken(Code::Conflict, says, &given.collect::<Vec<_>>()));
        }
        self.chosen.check(holes)?;
        check_part(self.part.as_ref())?;
        self.travel.check()
    }

    /// X and Y of what is given, hole 1 or the middle, and whether it is the middle; what is lacking is 0 and said.
    fn anchor(&self, unit: Unit, record: &mut Record) -> ([&'static str; 2], [Place; 2], bool) {
        let at_middle = self.center_x.or(self.center_y).is_some();
        let (names, given) = if at_middle {
            (["center_x", "center_y"], [self.center_x, self.center_y])
        } else {
            (["start_x", "start_y"], [self.start_x, self.start_y])
        };
        let says = if at_middle { "The middle is assumed at zero." } else { "Hole 1 is assumed at zero." };
        let on = [0, 1].map(|on| record.or_assume(given[on], names[on], Place::stated(0.0, unit), says));
        (names, on, at_middle)
    }
}

/// A pattern of rows before it is put on the part: X along its rows, Y across them, hole 1 at zero.
pub struct RowPattern {
    /// The unit of its sizes.
    pub unit: Unit,
    /// The numbers of the holes drilled.
    pub numbers: Vec<u32>,
    /// How far along the rows each lies, on record as `pattern.along`.
    pub along: Vec<FoundPlace>,
    /// How far across the rows each lies, on record as `pattern.across`.
    pub across: Vec<FoundPlace>,
    /// First to last along the rows, on record as `length`; a single column has none.
    pub length: Option<FoundExtent>,
    /// First to last row, on record as `width`; a single row has none.
    pub width: Option<FoundExtent>,
    /// What can be measured: of each kind of check the pairs of holes that show it, the best first.
    pub pairs: Vec<Vec<(u32, u32)>>,
    /// The sizes that space the holes, with their fields.
    pub spaced_by: Vec<(&'static str, Size)>,
}

/// A pattern of rows on the part.
#[derive(Clone, Debug, Gives)]
pub struct LaidRows {
    /// The holes, in the order of their numbers, or as listed.
    #[label("Holes", "hole")]
    pub positions: Vec<PatternHole>,
    /// Least metal between two holes; needs the hole diameter.
    #[label("Least metal between holes")]
    pub gap: Option<FoundExtent>,
    /// Pairs of holes to measure over: neighbors, ends, corners.
    #[label("Checks", "check")]
    pub checks: Vec<PatternCheck>,
    /// The edges of the part with the nearest holes; needs its corners.
    #[label("Edges", "edge")]
    pub edges: Option<Vec<EdgeDistance>>,
    /// Whether the machine's table reaches the holes; needs its travel.
    #[label("Table")]
    pub reach: Option<TableReach>,
}

const X: AxisColumns = AxisColumns { symbol: "x", places: "positions.x", before: "before.x", moves: "positions.dx" };
const Y: AxisColumns = AxisColumns { symbol: "y", places: "positions.y", before: "before.y", moves: "positions.dy" };

/// Puts a pattern on the part.
pub fn lay_out(pattern: &RowPattern, on_part: &RowsOnPart, record: &mut Record) -> Result<LaidRows, Refusal> {
    let turn = on_part.rotation(record);
    let (names, anchor, at_middle) = on_part.anchor(pattern.unit, record);
    let (mut columns, mut of) = ([pattern.along.clone(), pattern.across.clone()], ["pattern.along", "pattern.across"]);
    let middle = [pattern.length, pattern.width].map(|size| size.map_or(0.0, |size| size.si() / 2.0));
    if at_middle {
        let (whats, to) =
            (["From the middle, along the rows", "From the middle, across the rows"], ["mid.along", "mid.across"]);
        for (on, (name, size)) in [("length", pattern.length), ("width", pattern.width)].into_iter().enumerate() {
            let Some(size) = size else { continue };
            let moved: Vec<FoundPlace> =
                columns[on].iter().map(|place| Found::of_si(place.si() - middle[on])).collect();
            let step = record.step(whats[on], "a = u - L / 2").with("u", of[on], columns[on].clone());
            step.with("L", name, size).gives(to[on], moved.clone());
            (columns[on], of[on]) = (moved, to[on]);
        }
    }
    let (sin, cos) = angle::sin_cos(turn.degrees());
    let turned =
        |on: usize, a: f64, b: f64| anchor[on].si() + if on == 0 { a * cos - b * sin } else { a * sin + b * cos };
    let [xs, ys] = [0, 1].map(|on| {
        let both = columns[0].iter().zip(&columns[1]);
        let places: Vec<FoundPlace> = both.map(|(a, b)| Found::of_si(turned(on, a.si(), b.si()))).collect();
        let formula = ["x = X + a × cos(ρ) - b × sin(ρ)", "y = Y + a × sin(ρ) + b × cos(ρ)"][on];
        let step = record.step(["X of each hole", "Y of each hole"][on], formula);
        let step = step.with(["X", "Y"][on], names[on], anchor[on]).with("ρ", "rotation", turn);
        let step = step.with("a", of[0], columns[0].clone()).with("b", of[1], columns[1].clone());
        step.gives([X, Y][on].places, places.clone());
        places
    });
    let datum = (FoundPlace::stated(0.0, Unit::Metre), "0, the datum,");
    let dxs = find_moves(&xs, datum, X, record);
    let dys = find_moves(&ys, datum, Y, record);
    let angles = find_directions(pattern, middle, turn, record);
    let rows = pattern.numbers.iter().copied().zip(xs).zip(ys).zip(dxs).zip(dys).zip(angles);
    let positions: Vec<PatternHole> =
        rows.map(|(((((number, x), y), dx), dy), angle)| PatternHole { number, x, y, dx, dy, angle }).collect();
    let Spacing { gap, checks } = find_spacing_checks(pattern, on_part.hole_diameter, record)?;
    let edges = match &on_part.part {
        Some(part) => Some(find_edges(&positions, part, on_part.hole_diameter, record)?),
        None => None,
    };
    let reach = on_part.travel.find_reach(&positions, record);
    record.caution(cautions::DRILLING);
    record
        .note("one_side", "Come up to every place from the same side on each axis, so that backlash does not matter.");
    Ok(LaidRows { positions, gap, checks, edges, reach })
}

/// The direction of each hole from the middle of the whole pattern.
fn find_directions(
    pattern: &RowPattern,
    [along, across]: [f64; 2],
    turn: Angle,
    record: &mut Record,
) -> Vec<Option<FoundAngle>> {
    let least = 1e-12 * along.hypot(across);
    let both = pattern.along.iter().zip(&pattern.across);
    let angles: Vec<Option<FoundAngle>> = both
        .map(|(u, v)| {
            let (u, v) = (u.si() - along, v.si() - across);
            (u.hypot(v) > least).then(|| {
                let degrees = text::tidy(angle_of(u, v).0 + turn.degrees());
                FoundAngle::stated(text::tidy(degrees - (degrees / 360.0).floor() * 360.0), Unit::Degree)
            })
        })
        .collect();
    let shown: Vec<FoundAngle> = angles.iter().flatten().copied().collect();
    if !shown.is_empty() {
        let step = record.look_up(
            "Angle of each hole",
            "the direction of the hole from the middle of the whole pattern, counterclockwise from +X, from 0 to below \
             360 deg; a hole at the middle has none",
        );
        with_columns(step, pattern).with("ρ", "rotation", turn).gives("positions.angle", shown);
    }
    angles
}

/// A step that begins with where the holes lie in the pattern.
pub fn with_columns<'a>(step: StepDraft<'a>, pattern: &RowPattern) -> StepDraft<'a> {
    step.with("u", "pattern.along", pattern.along.clone()).with("v", "pattern.across", pattern.across.clone())
}
