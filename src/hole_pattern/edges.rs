//! How far the holes of a pattern lie from the edges of a rectangular part; holes that would break out are refused.

use super::hole::PatternHole;
use crate::declared::Gives;
use crate::fields::Points;
use crate::quantity::{FoundExtent, FoundPlace, Size};
use crate::refusal::{Code, Refusal, Wrong, rule_broken};
use crate::suggestion::{Way, value};
use crate::working::Record;
use validator::ValidationError;

/// An edge of the part and the hole nearest to it.
#[derive(Clone, Debug, Gives)]
pub struct EdgeDistance {
    /// Which edge: left, right, front or back, with X to the right and Y to the back.
    #[label("Side")]
    pub side: &'static str,
    /// Number of the hole nearest to it.
    #[label("Nearest hole")]
    pub hole: u32,
    /// From the center of that hole to the edge.
    #[label("Center to edge")]
    pub distance: FoundExtent,
    /// Metal between that hole and the edge; needs the hole diameter.
    #[label("Metal to edge")]
    pub metal: Option<FoundExtent>,
}

const CORNERS: &str = "0 in,0 in;6 in,4 in";
const SIDES: [&str; 4] = ["left", "right", "front", "back"];

/// Refuses what is no pair of opposite corners.
pub fn check_part(part: Option<&Points>) -> Result<(), ValidationError> {
    let refuse = |says: &'static str| Err(rule_broken(Code::ValueOutOfRange, says, &[("part", CORNERS)]));
    match part.map(|part| part.0.as_slice()) {
        None => Ok(()),
        Some([a, b]) if a.x.si() != b.x.si() && a.y.si() != b.y.si() => Ok(()),
        Some([_, _]) => refuse("Opposite corners differ on X and on Y."),
        Some(_) => refuse("Give two opposite corners of the part."),
    }
}

/// The edges with their nearest holes.
pub fn find_edges(
    holes: &[PatternHole],
    part: &Points,
    diameter: Option<Size>,
    record: &mut Record,
) -> Result<Vec<EdgeDistance>, Refusal> {
    let corner = |of: fn(f64, f64) -> f64| {
        let of = |on: fn(&crate::fields::Point) -> f64| part.0.iter().map(on).reduce(of).unwrap_or_default();
        (of(|point| point.x.si()), of(|point| point.y.si()))
    };
    let ((left, front), (right, back)) = (corner(f64::min), corner(f64::max));
    let edges = [left, right, front, back];
    // How far inside of an edge a hole lies.
    let inside = |side: usize, hole: &PatternHole| {
        let at = if side < 2 { hole.x.si() } else { hole.y.si() };
        if side.is_multiple_of(2) { at - edges[side] } else { edges[side] - at }
    };
    let nearest =
        [0, 1, 2, 3].map(|side| holes.iter().map(|hole| (hole, inside(side, hole))).min_by(|a, b| a.1.total_cmp(&b.1)));
    let radius = diameter.map_or(0.0, |diameter| diameter.si() / 2.0);
    let mut rows = Vec::new();
    for (side, found) in nearest.into_iter().enumerate() {
        let Some((hole, distance)) = found else { continue };
        if distance - radius < -1e-12 * (edges[side].abs() + radius) {
            return Err(breaks_out(holes, (SIDES[side], hole.number, distance), diameter, part));
        }
        let distance = FoundExtent::of_si(distance.max(0.0));
        let metal = diameter.map(|_| FoundExtent::of_si((distance.si() - radius).max(0.0)));
        rows.push(EdgeDistance { side: SIDES[side], hole: hole.number, distance, metal });
    }
    tell(holes, &rows, edges, diameter, record);
    Ok(rows)
}

fn tell(holes: &[PatternHole], rows: &[EdgeDistance], edges: [f64; 4], diameter: Option<Size>, record: &mut Record) {
    let list = |of: &dyn Fn(&EdgeDistance) -> String| rows.iter().map(of).collect::<Vec<String>>();
    record
        .look_up("Edges of the part", "left and right on X, front and back on Y")
        .gives("edges.side", list(&|row| row.side.to_owned()));
    let corners = edges.map(FoundPlace::of_si).to_vec();
    record.look_up("Readings of the edges", "the corners of the part").gives("edge_reading", corners.clone());
    let numbers: Vec<f64> = rows.iter().map(|row| f64::from(row.hole)).collect();
    let xs: Vec<FoundPlace> = holes.iter().map(|hole| hole.x).collect();
    let ys: Vec<FoundPlace> = holes.iter().map(|hole| hole.y).collect();
    let step = record.look_up("Hole nearest to each edge", "the least distance from its center");
    step.with("x", "positions.x", xs).with("y", "positions.y", ys).gives("edges.hole", numbers);
    let at = |row: &EdgeDistance, side: usize| {
        let hole = holes.iter().find(|hole| hole.number == row.hole)?;
        Some(if side < 2 { hole.x } else { hole.y })
    };
    let readings: Vec<FoundPlace> = rows.iter().enumerate().filter_map(|(side, row)| at(row, side)).collect();
    record.look_up("Reading of that hole", "on the axis of the edge").gives("edge_hole", readings.clone());
    let distances: Vec<FoundExtent> = rows.iter().map(|row| row.distance).collect();
    let step = record.step("Center to edge", "e = abs(p - q)").with("p", "edge_hole", readings);
    step.with("q", "edge_reading", corners).gives("edges.distance", distances.clone());
    if let Some(diameter) = diameter {
        let metal: Vec<FoundExtent> = rows.iter().filter_map(|row| row.metal).collect();
        let step = record.step("Metal to the edge", "m = e - d / 2").with("e", "edges.distance", distances);
        step.with("d", "hole_diameter", diameter).gives("edges.metal", metal);
    }
}

fn breaks_out(
    holes: &[PatternHole],
    (side, number, distance): (&str, u32, f64),
    diameter: Option<Size>,
    part: &Points,
) -> Refusal {
    let radius = diameter.map_or(0.0, |diameter| diameter.si() / 2.0);
    let says = if distance < 0.0 {
        format!("Hole {number} lies off the part, past its {side} edge.")
    } else {
        format!("Hole {number} would break out of the {side} edge of the part.")
    };
    let mut wrongs = Vec::new();
    if let (Some(diameter), true) = (diameter, distance > 0.0) {
        let smaller = value(1.6 * distance, diameter.quantity().unit, Way::Down);
        wrongs.push(Wrong::new("hole_diameter", Code::Conflict, says.clone(), smaller));
    }
    // A part with room for a hole more around the pattern.
    let unit = part.0.iter().flat_map(|point| [point.x, point.y]).find(|place| place.si() != 0.0);
    let unit = unit.map_or(crate::quantity::Unit::Inch, |place| place.quantity().unit);
    let span = |on: fn(&PatternHole) -> f64| {
        let all = holes.iter().map(on);
        all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)))
    };
    let ((left, right), (front, back)) = (span(|hole| hole.x.si()), span(|hole| hole.y.si()));
    let room = (3.0 * radius).max(0.1 * (right - left).max(back - front)).max(1e-3);
    // Outwards, whichever side of zero it is.
    let at = |place: f64, up: bool| value(place, unit, if up == (place > 0.0) { Way::Up } else { Way::Down });
    let [left, right, front, back] =
        [at(left - room, false), at(right + room, true), at(front - room, false), at(back + room, true)];
    wrongs.push(Wrong::new("part", Code::Conflict, says, format!("{left},{front};{right},{back}")));
    Refusal(wrongs)
}
