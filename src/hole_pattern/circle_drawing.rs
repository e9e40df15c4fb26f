//! Holes on their circle, as they lie on the part: X to the right, Y up.

use super::circle::CircleWords;
use super::hole::PatternHole;
use crate::arithmetic::directions::{AngleFrom, Sense};
use crate::drawing::{Beside, Drawing, Ink, Point, Reach, Words};
use crate::quantity::{Angle, FoundAngle, FoundExtent, Place, Size, angle};

/// A circle of holes to be drawn.
pub struct CircleView<'a> {
    /// What the drawing is called.
    pub title: &'static str,
    /// The circle.
    pub diameter: Size,
    /// How many holes the pattern has.
    pub holes: u32,
    /// X and Y of its center; zero if not given.
    pub center: (Option<Place>, Option<Place>),
    /// The angle of hole 1, where one was stated.
    pub start_angle: Option<Angle>,
    /// Diameter of the holes.
    pub hole_diameter: Option<Size>,
    /// How angles are measured.
    pub words: CircleWords,
    /// The holes listed.
    pub positions: &'a [PatternHole],
    /// From one hole of the pattern to the next.
    pub step_angle: Option<FoundAngle>,
    /// Center to center of neighbors.
    pub adjacent_chord: Option<FoundExtent>,
}

/// Draws a circle of holes.
pub fn draw_circle(view: &CircleView) -> Drawing {
    let centre = (view.center.0.map_or(0.0, |x| x.si()), view.center.1.map_or(0.0, |y| y.si()));
    let radius = view.diameter.si() / 2.0;
    let hole = view.hole_diameter.map_or(0.0, |diameter| diameter.si() / 2.0);
    let mut drawing = Drawing::new(view.title, about(view));

    drawing.circle(Ink::Centre, centre, radius).of("diameter");
    drawing.cross(centre, 0.0);
    let datum_near = centre.0.hypot(centre.1) <= 2.5 * radius;
    if datum_near && centre != (0.0, 0.0) {
        drawing.dot((0.0, 0.0)).of("datum");
        drawing.cross((0.0, 0.0), 0.0);
    }
    for place in view.positions {
        let at = place.at();
        if hole > 0.0 {
            drawing.circle(Ink::Outline, at, hole).of("positions").number(place.number);
            if view.positions.len() <= 60 {
                drawing.cross(at, hole);
            }
        } else {
            drawing.dot(at).of("positions").number(place.number);
        }
    }
    let every = every(view);
    if every == 1 {
        first_steps(&mut drawing, view, (centre, radius));
    }
    start(&mut drawing, view, (centre, radius));
    let below = Beside { from: centre.1 - radius - hole, by: -30.0 };
    let words = Words::of("Ø ").value(view.diameter);
    drawing.across((centre.0 - radius, centre.1), (centre.0 + radius, centre.1), below, words).of("diameter");
    for (listed, place) in view.positions.iter().enumerate() {
        if listed > 0 && place.number % every != 0 {
            continue;
        }
        let first = if listed == 0 && view.positions.len() > 1 { " first" } else { "" };
        let words = Words::of(format!("{}{first}", place.number));
        drawing.note_beside(place.at(), hole, away(place.at(), centre), words);
    }
    if let Some(diameter) = view.hole_diameter
        && let Some(place) = view.positions.get(view.positions.len() / 2)
    {
        // Into the circle, where there is room.
        let (from, inwards) = (place.at(), away(place.at(), centre) + 180.0);
        let (sin, cos) = angle::sin_cos(inwards);
        let words = Words::of(format!("{} × Ø ", view.positions.len())).value(diameter);
        drawing.leader((from.0 + hole * cos, from.1 + hole * sin), inwards, words).of("hole_diameter");
    }
    if datum_near {
        drawing.note_beside((0.0, 0.0), 0.0, 225.0, Words::of("0, 0"));
    }
    drawing
}

/// The direction of a point from the center, in degrees.
fn away(point: Point, centre: Point) -> f64 {
    (point.1 - centre.1).atan2(point.0 - centre.0).to_degrees()
}

/// Every how many holes a number can stand, about thirty round the circle.
fn every(view: &CircleView) -> u32 {
    let round = view.step_angle.map_or(1.0, |step| 360.0 / step.degrees().abs());
    [1, 2, 5, 10, 20, 25, 50, 100].into_iter().find(|every| round / f64::from(*every) <= 30.0).unwrap_or(200)
}

/// The angle of hole 1, where one was stated.
fn start(drawing: &mut Drawing, view: &CircleView, (centre, radius): (Point, f64)) {
    let Some(stated) = view.start_angle.filter(|angle| angle.degrees() != 0.0 && angle.degrees().abs() < 360.0) else {
        return;
    };
    if view.positions.iter().all(|hole| hole.number != 1) {
        return;
    }
    let from = if view.words.angle_from == Some(AngleFrom::YAxis) { 90.0 } else { 0.0 };
    let sense = if view.words.angle_sense == Some(Sense::Clockwise) { -1.0 } else { 1.0 };
    let reach = Reach::Model(radius * 0.6);
    drawing.angle(centre, from, sense * stated.degrees(), reach, stated).of("start_angle");
}

/// The step from the first hole listed to the next of the pattern, where both are listed.
fn first_steps(drawing: &mut Drawing, view: &CircleView, (centre, radius): (Point, f64)) {
    let next = |hole: &PatternHole| view.positions.iter().find(|other| other.number == hole.number + 1);
    let pair = view.positions.iter().find_map(|hole| Some((hole, next(hole)?)));
    let (Some((one, two)), Some(step), Some(chord)) = (pair, view.step_angle, view.adjacent_chord) else {
        return;
    };
    let ((ax, ay), (bx, by)) = (one.at(), two.at());
    let from = away((ax, ay), centre);
    let turns_left = (ax - centre.0) * (by - centre.1) - (ay - centre.1) * (bx - centre.0);
    let size = step.degrees().abs();
    let counterclockwise = if size == 180.0 { true } else { turns_left > 0.0 };
    let sweep = if counterclockwise == (size <= 180.0) { size } else { -size };
    let inwards = if counterclockwise { 16.0 } else { -16.0 };
    if view.holes > 2 {
        drawing.along((ax, ay), (bx, by), inwards, chord).of("adjacent_chord");
    }
    drawing.angle(centre, from, sweep, Reach::Model(radius * 0.3), step).of("step_angle");
}

fn about(view: &CircleView) -> Words {
    let count = view.positions.len();
    let mut about = Words::of(format!("{count} {} on a circle ", if count == 1 { "hole" } else { "holes" }))
        .value(view.diameter)
        .then(" in diameter");
    if let Some(diameter) = view.hole_diameter {
        about = about.then(", each ").value(diameter).then(" in diameter");
    }
    if let Some(chord) = view.adjacent_chord {
        about = about.then(", neighbors ").value(chord).then(" apart");
    }
    about = about.then(".");
    // Beyond a dozen the table is the better thing to listen to.
    for place in view.positions.iter().take(12) {
        about =
            about.then(format!(" Hole {} at X ", place.number)).value(place.x).then(", Y ").value(place.y).then(".");
    }
    about
}
