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
    all: Vec<(Spot, f64)>,
    /// Spots that follow each other in one square: the first, the one behind the last, and the run before it there.
    runs: Vec<(usize, usize, Option<usize>)>,
    /// The last run of each square.
    last: RapidHashMap<(i32, i32), usize>,
    /// The square of the spot added last.
    square: Option<(i32, i32)>,
}

impl Spots {
    const SIDE: f64 = 16.0;

    fn square((x, y): Spot) -> (i32, i32) {
        ((x / Self::SIDE).floor() as i32, (y / Self::SIDE).floor() as i32)
    }

    /// Adds a spot.
    pub fn add(&mut self, spot: Spot, weight: f64) {
        let square = Self::square(spot);
        if self.square != Some(square) {
            let before = self.last.insert(square, self.runs.len());
            self.runs.push((self.all.len(), self.all.len(), before));
            self.square = Some(square);
        }
        self.all.push((spot, weight));
        if let Some((_, end, _)) = self.runs.last_mut() {
            *end = self.all.len();
        }
    }

    /// The weight of all spots in an area.
    pub fn within(&self, area: &Area) -> f64 {
        let ((left, top), (right, bottom)) =
            (Self::square((area.left, area.top)), Self::square((area.right, area.bottom)));
        let mut sum = 0.0;
        for square in (left..=right).flat_map(|x| (top..=bottom).map(move |y| (x, y))) {
            let mut run = self.last.get(&square);
            while let Some((from, to, before)) = run.and_then(|run| self.runs.get(*run)) {
                sum += self.all[*from..*to].iter().filter(|(spot, _)| area.holds(*spot)).map(|(_, w)| w).sum::<f64>();
                run = before.as_ref();
            }
        }
        sum
    }
}
