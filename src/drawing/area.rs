//! Boxes on the sheet, and the boxes that words need.

use super::spot::Spot;
use rapidhash::RapidHashMap;

/// A box on the sheet.
#[derive(Clone, Copy, Debug)]
pub struct Area {
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
}

impl Area {
    /// Nothing yet.
    pub const NONE: Area =
        Area { left: f64::INFINITY, top: f64::INFINITY, right: f64::NEG_INFINITY, bottom: f64::NEG_INFINITY };

    /// The box of that size round its middle.
    pub fn round(middle: Spot, width: f64, height: f64) -> Self {
        let (x, y) = middle;
        Self { left: x - width / 2.0, top: y - height / 2.0, right: x + width / 2.0, bottom: y + height / 2.0 }
    }

    /// Grows to hold a spot and so much round it.
    pub fn take_in(&mut self, (x, y): Spot, by: f64) {
        self.left = self.left.min(x - by);
        self.right = self.right.max(x + by);
        self.top = self.top.min(y - by);
        self.bottom = self.bottom.max(y + by);
    }

    /// The area that both cover.
    pub fn shared(&self, other: &Area) -> f64 {
        let width = self.right.min(other.right) - self.left.max(other.left);
        let height = self.bottom.min(other.bottom) - self.top.max(other.top);
        width.max(0.0) * height.max(0.0)
    }

    /// Whether a line from a to b passes through.
    pub fn is_crossed(&self, a: Spot, b: Spot) -> bool {
        // The part of the line, from 0 to 1, that lies between each pair of sides.
        let (mut first, mut last) = (0.0f64, 1.0f64);
        for (from, to, low, high) in [(a.0, b.0, self.left, self.right), (a.1, b.1, self.top, self.bottom)] {
            let way = to - from;
            if way == 0.0 {
                if from <= low || from >= high {
                    return false;
                }
                continue;
            }
            let (one, other) = ((low - from) / way, (high - from) / way);
            (first, last) = (first.max(one.min(other)), last.min(one.max(other)));
        }
        first < last
    }

    /// Whether a spot lies inside.
    pub fn holds(&self, (x, y): Spot) -> bool {
        self.left < x && x < self.right && self.top < y && y < self.bottom
    }
}

/// Spots with weights, in squares, so that those in an area are soon found.
#[derive(Default)]
pub struct Spots {
    /// Each with its weight, and the one before it in its square.
    all: Vec<(Spot, f64, Option<usize>)>,
    /// The last one of each square.
    last: RapidHashMap<(i32, i32), usize>,
}

impl Spots {
    const SIDE: f64 = 16.0;

    fn square((x, y): Spot) -> (i32, i32) {
        ((x / Self::SIDE).floor() as i32, (y / Self::SIDE).floor() as i32)
    }

    /// Adds a spot.
    pub fn add(&mut self, spot: Spot, weight: f64) {
        let before = self.last.insert(Self::square(spot), self.all.len());
        self.all.push((spot, weight, before));
    }

    /// The weight of all spots in an area.
    pub fn within(&self, area: &Area) -> f64 {
        let ((left, top), (right, bottom)) =
            (Self::square((area.left, area.top)), Self::square((area.right, area.bottom)));
        let squares = (left..=right).flat_map(|x| (top..=bottom).filter_map(move |y| self.last.get(&(x, y))));
        let spots = squares.flat_map(|last| {
            std::iter::successors(self.all.get(*last), |(.., before)| before.and_then(|before| self.all.get(before)))
        });
        spots.filter(|(spot, ..)| area.holds(*spot)).map(|(_, weight, _)| weight).sum()
    }
}
