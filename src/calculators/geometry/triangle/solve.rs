//! The sides and angles of every triangle that has the three sizes given. What is computed keeps the digits that the
//! sizes have: differences are taken of sizes as they were given, and half angles stand in for cosines.

use super::refusal;
use crate::calculators::prelude::*;
use crate::quantity::angle;

/// Sizes nearer than this to the limit of what exists are taken to be at it: the rounding of the units' conversions.
const NOISE: f64 = 4.0 * f64::EPSILON;

/// What is given.
pub type GivenSizes = ([Option<Size>; 3], [Option<CornerAngle>; 3]);

/// A triangle: sides in meters, angles in degrees, area in square meters.
#[derive(Clone, Copy, Debug)]
pub struct Found {
    /// Sides.
    pub sides: [f64; 3],
    /// Angles opposite them.
    pub angles: [f64; 3],
    /// Area.
    pub area: f64,
}

/// Which three are given, by the places of the unknown and of the known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Case {
    /// Three sides.
    Sides,
    /// Two sides and the angle between them, which lies opposite this side.
    Between(usize),
    /// Two angles and a side: the third angle, and the side.
    Angles(usize, usize),
    /// An angle, the side opposite it, and another side; the third side.
    Opposite {
        /// The angle and the side opposite it.
        at: usize,
        /// The other side.
        other: usize,
        /// The side that is not given.
        third: usize,
    },
}

/// Which case it is; the rules made sure that it is one.
pub fn case_of((sides, angles): &GivenSizes) -> Case {
    let lacks = |of: usize| sides[of].is_none();
    match (0..3).filter(|of| angles[*of].is_some()).collect::<Vec<_>>().as_slice() {
        [] => Case::Sides,
        [at] if lacks(*at) => Case::Between(*at),
        [at] => {
            let third = (0..3).find(|of| lacks(*of)).unwrap_or(0);
            Case::Opposite { at: *at, other: 3 - at - third, third }
        }
        [first, second, ..] => {
            let side = (0..3).find(|of| sides[*of].is_some()).unwrap_or(0);
            Case::Angles(3 - first - second, side)
        }
    }
}

/// Every triangle, the one with the longest third side first.
pub fn solve(given: &GivenSizes) -> Result<Vec<Found>, Refusal> {
    let (unit, sides) = in_one_unit(&given.0);
    let angles = given.1.map(|angle| angle.map_or(0.0, |angle| angle.degrees()));
    let found = match case_of(given) {
        Case::Sides => by_sides(sides)?,
        Case::Between(at) => by_angle_between(at, sides, angles[at])?,
        Case::Angles(third, side) => by_angles((third, side), sides[side], angles)?,
        Case::Opposite { at, other, third } => {
            let both = by_opposite(given, (at, other, third), sides, angles[at])?;
            return Ok(both.into_iter().map(|one| one.times(unit)).collect());
        }
    };
    Ok(vec![found.times(unit)])
}

impl Found {
    fn times(self, unit: f64) -> Self {
        Self { sides: self.sides.map(|side| side * unit), angles: self.angles, area: self.area * unit * unit }
    }
}

/// The sides in one unit: as stated where they share one, so that 3 in, 4 in and 7 in are no triangle; with what the
/// unit is in meters.
fn in_one_unit(sides: &[Option<Size>; 3]) -> (f64, [f64; 3]) {
    let stated: Vec<Quantity> = sides.iter().flatten().map(|side| side.quantity()).collect();
    let alike = stated.windows(2).all(|pair| pair[0].unit == pair[1].unit);
    match stated.first().filter(|_| alike) {
        Some(first) => (first.unit.to_si(1.0), sides.map(|side| side.map_or(0.0, |side| side.quantity().value))),
        None => (1.0, sides.map(|side| side.map_or(0.0, |side| side.si()))),
    }
}

/// The angle opposite `c` in the triangle of sides a, b, c, and sixteen times the square of the area, both without
/// loss of digits (Kahan, Miscalculating Area and Angles of a Needle-like Triangle).
fn angle_opposite(a: f64, b: f64, c: f64) -> f64 {
    let (a, b) = if a < b { (b, a) } else { (a, b) };
    let between = if b >= c { c - (a - b) } else { b - (a - c) };
    let top = ((a - b) + c) * between;
    let bottom = (a + (b + c)) * ((a - c) + b);
    2.0 * top.max(0.0).sqrt().atan2(bottom.max(0.0).sqrt()).to_degrees()
}

fn by_sides([a, b, c]: [f64; 3]) -> Result<Found, Refusal> {
    let mut sorted = [a, b, c];
    sorted.sort_by(|a, b| b.total_cmp(a));
    let [x, y, z] = sorted;
    let over = z - (x - y);
    if over <= NOISE * x {
        return Err(refusal::too_long([a, b, c]));
    }
    let area = ((x + (y + z)) * over * (z + (x - y)) * (x + (y - z))).sqrt() / 4.0;
    let angles = [angle_opposite(b, c, a), angle_opposite(c, a, b), angle_opposite(a, b, c)];
    Ok(Found { sides: [a, b, c], angles, area })
}

/// The angle opposite the first side, where the second and the angle between the second and the third are known:
/// `other` and `third` are the sides that enclose `between`, and the angle lies opposite `other`.
fn angle_beside(other: f64, third: f64, between: f64) -> f64 {
    let half = angle::sin(between / 2.0);
    let along = (third - other) + 2.0 * other * half * half;
    (other * angle::sin(between)).atan2(along).to_degrees()
}

fn by_angle_between(at: usize, mut sides: [f64; 3], between: f64) -> Result<Found, Refusal> {
    let (p, q) = ((at + 1) % 3, (at + 2) % 3);
    let (b, c) = (sides[p], sides[q]);
    sides[at] = (b - c).hypot(2.0 * (b * c).sqrt() * angle::sin(between / 2.0));
    let mut angles = [between; 3];
    angles[p] = angle_beside(b, c, between);
    angles[q] = angle_beside(c, b, between);
    Ok(Found { sides, angles, area: b * c * angle::sin(between) / 2.0 })
}

fn by_angles((third, side): (usize, usize), length: f64, mut angles: [f64; 3]) -> Result<Found, Refusal> {
    let (p, q) = ((third + 1) % 3, (third + 2) % 3);
    angles[third] = 180.0 - angles[p] - angles[q];
    if angles[third] <= 0.0 {
        return Err(refusal::angles_too_wide((p, angles[p]), (q, angles[q])));
    }
    // The sine of the third angle is that of the other two together, which are given.
    let sine = |of: usize| if of == third { angle::sin(angles[p] + angles[q]) } else { angle::sin(angles[of]) };
    let per = length / sine(side);
    let sides = [0, 1, 2].map(|of| if of == side { length } else { per * sine(of) });
    let (b, c) = ((side + 1) % 3, (side + 2) % 3);
    Ok(Found { sides, angles, area: length * per * sine(b) * sine(c) / 2.0 })
}

fn by_opposite(
    given: &GivenSizes,
    (at, other, third): (usize, usize, usize),
    sides: [f64; 3],
    known: f64,
) -> Result<Vec<Found>, Refusal> {
    let (a, b) = (sides[at], sides[other]);
    let (sine, cosine) = (angle::sin(known), angle::cos(known));
    let height = b * sine;
    let is_right = (height / a - 1.0).abs() <= NOISE && known < 90.0;
    if (height > a && !is_right) || (known >= 90.0 && a <= b) {
        return Err(refusal::does_not_reach(given, (at, other)));
    }
    let root = if is_right { 0.0 } else { ((a - height) * (a + height)).sqrt() };
    let along = b * cosine;
    // The third side is along ± root; where that is a difference, the product of both gives it.
    let first = if along < 0.0 { (a - b) * (a + b) / (root - along) } else { along + root };
    let mut thirds = vec![(first, root)];
    if a < b && !is_right {
        thirds.push(((b - a) * (b + a) / (along + root), -root));
    }
    let found = thirds.into_iter().map(|(length, root)| {
        let mut found = Found { sides, angles: [known; 3], area: b * length * sine / 2.0 };
        found.sides[third] = length;
        found.angles[other] = if root == 0.0 { 90.0 } else { height.atan2(root).to_degrees() };
        found.angles[third] = angle_beside(length, b, known);
        found
    });
    Ok(found.collect())
}
