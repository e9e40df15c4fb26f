//! Lines that touch circles, and arcs of a given radius that touch lines and circles: every one there is, in numbers.

use super::circle_fit::{Circle, Xy};

/// What touching to within so little of a size counts as.
const TOUCHING: f64 = 1e-14;

/// A line that touches two circles, of which one may be a point.
#[derive(Clone, Copy, Debug)]
pub struct TouchingLine {
    /// 1 where it touches the first circle left of the way to the second, -1 where right of it.
    pub side: f64,
    /// 1 where it touches both circles on one side, -1 where it crosses the way.
    pub same: f64,
    /// How far the first radius reaches beyond the second along its normal.
    pub reach: f64,
    /// From the one tangent point to the other.
    pub length: f64,
    /// Its normal, of length one.
    pub normal: Xy,
    /// Where it touches the first circle.
    pub first: Xy,
    /// Where it touches the second.
    pub second: Xy,
}

/// How two circles lie that no line touches both of, or only outer lines do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Apart {
    /// Outer and crossing lines touch both.
    Clear,
    /// They cross or touch from outside: only outer lines.
    Crossing,
    /// The one lies in the other.
    Within,
}

/// How two circles lie.
pub fn apart(a: Circle, b: Circle) -> Apart {
    let c = (b.x - a.x).hypot(b.y - a.y);
    if c <= (a.r - b.r).abs() + TOUCHING * (c + a.r + b.r) {
        Apart::Within
    } else if c <= (a.r + b.r) * (1.0 + TOUCHING) {
        Apart::Crossing
    } else {
        Apart::Clear
    }
}

/// The lines that touch both circles, outer ones first, left before right. They do not lie within each other.
pub fn touching_lines(a: Circle, b: Circle) -> Vec<TouchingLine> {
    let (u, v) = (b.x - a.x, b.y - a.y);
    let c = u.hypot(v);
    let clear = b.r > 0.0 && apart(a, b) == Apart::Clear;
    let kinds: &[f64] = if clear { &[1.0, -1.0] } else { &[1.0] };
    let each = kinds.iter().flat_map(|same| [(1.0, *same), (-1.0, *same)]);
    each.map(|(side, same)| {
        let reach = a.r - same * b.r;
        let length = ((c - reach) * (c + reach)).sqrt();
        let normal = ((reach * u - side * length * v) / (c * c), (reach * v + side * length * u) / (c * c));
        let on = |circle: Circle, by: f64| (circle.x + by * circle.r * normal.0, circle.y + by * circle.r * normal.1);
        TouchingLine { side, same, reach, length, normal, first: on(a, 1.0), second: on(b, same) }
    })
    .collect()
}

/// How an arc lies at a circle that it touches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Beside {
    /// Outside of it.
    Outside,
    /// Inside of it.
    Inside,
    /// Round it.
    Around,
}

/// How an arc lies at a circle of that radius; `side` as in [`TouchingArc`].
pub fn beside(side: f64, circle: f64, arc: f64) -> Beside {
    match (side > 0.0, arc < circle) {
        (true, _) => Beside::Outside,
        (false, true) => Beside::Inside,
        (false, false) => Beside::Around,
    }
}

/// An arc's circle that touches two things; what its center is computed from.
#[derive(Clone, Copy, Debug)]
pub struct TouchingArc {
    /// 1 for the arc outside the first circle, -1 inside or around it; of a line, 1 on its left, -1 on its right.
    pub first_side: f64,
    /// The same of the second circle.
    pub second_side: f64,
    /// 1 or -1: left or right of the way, seen along it.
    pub branch: f64,
    /// Whether the two branches fall together.
    pub single: bool,
    /// From the base to the center, along the way.
    pub along: f64,
    /// From the base to the center; less than zero where the circle lies round the base's.
    pub from_base: f64,
    /// Radius of the second circle and the arc's; of a line the arc's.
    pub from_second: f64,
    /// From the way to the center.
    pub across: f64,
    /// Its center.
    pub center: Xy,
}

/// A way that arcs are found along: its base, its direction of length one.
#[derive(Clone, Copy, Debug)]
pub struct Base {
    /// Where it begins: a circle's center.
    pub at: Xy,
    /// Its direction.
    pub way: Xy,
}

impl Base {
    /// The two arcs with centers at `from_base` from the base, so far along the way; one where they fall together.
    fn arcs(
        &self,
        along: f64,
        from_base: f64,
        (first_side, second_side): (f64, f64),
        from_second: f64,
        out: &mut Vec<TouchingArc>,
    ) {
        let square = (from_base - along) * (from_base + along);
        let size = from_base.abs().max(along.abs());
        if square < -TOUCHING * size * size || from_base == 0.0 {
            return;
        }
        let across = square.abs().sqrt();
        let branches: &[f64] = if square <= TOUCHING * size * size { &[1.0] } else { &[1.0, -1.0] };
        for &branch in branches {
            let center = (
                self.at.0 + along * self.way.0 - branch * across * self.way.1,
                self.at.1 + along * self.way.1 + branch * across * self.way.0,
            );
            let single = branches.len() == 1;
            out.push(TouchingArc {
                first_side,
                second_side,
                branch,
                single,
                along,
                from_base,
                from_second,
                across,
                center,
            });
        }
    }
}

/// The arcs of radius `r` that touch two circles whose centers lie `c` apart.
pub fn arcs_at_circles(base: Base, c: f64, (first, second): (f64, f64), r: f64) -> Vec<TouchingArc> {
    let mut out = Vec::new();
    for (s, t) in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
        let (from_base, from_second) = (first + s * r, second + t * r);
        let along = (c * c + (from_base - from_second) * (from_base + from_second)) / (2.0 * c);
        if from_second != 0.0 {
            base.arcs(along, from_base, (s, t), from_second, &mut out);
        }
    }
    out
}

/// The arcs of radius `r` that touch a circle and a line; `base` has the circle's center and the line's left normal,
/// and the center lies `off` to the left of the line.
pub fn arcs_at_line(base: Base, off: f64, circle: f64, r: f64) -> Vec<TouchingArc> {
    let mut out = Vec::new();
    // On the circle's side of the line first.
    let near = if off < 0.0 { -1.0 } else { 1.0 };
    for (side, t) in [(near, 1.0), (near, -1.0), (-near, 1.0), (-near, -1.0)] {
        base.arcs(side * r - off, circle + t * r, (side, t), r, &mut out);
    }
    out
}
