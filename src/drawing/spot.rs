//! Spots of a sheet and the sizes that all drawings share: letters, heads, gaps, and how much room words take.

use super::area::Area;
use crate::quantity::angle;
use std::rc::Rc;

/// Width of a sheet, in sheet units: a phone's width, nearly. Only a very crowded sheet is wider.
pub const WIDTH: f64 = 340.0;
/// Height of the tallest sheet.
pub const HEIGHT: f64 = 420.0;
/// Empty border.
pub const MARGIN: f64 = 6.0;
/// Size of the letters.
pub const LETTERS: f64 = 14.0;
/// From one line of words to the next.
pub const LEADING: f64 = 16.0;
/// Length of an arrow's head.
pub const HEAD: f64 = 8.0;
/// Between a feature and the line that leads from it.
pub const GAP: f64 = 2.0;
/// How far such a line goes beyond the dimension's.
pub const BEYOND: f64 = 3.0;
/// Between a line and words beside it.
pub const CLEAR: f64 = 4.0;
/// What a unit further out counts against words being in the way.
pub const PUSH: f64 = 0.15;

/// A point of the sheet: x to the right, y downwards.
pub type Spot = (f64, f64);

/// The spot on a circle in a direction in degrees, counter-clockwise from the right.
pub fn on_circle((x, y): Spot, radius: f64, degrees: f64) -> Spot {
    let (sin, cos) = angle::sin_cos(degrees);
    (x + radius * cos, y - radius * sin)
}

/// The direction from a to b; `None` where they are one.
pub fn unit(a: Spot, b: Spot) -> Option<Spot> {
    let length = (b.0 - a.0).hypot(b.1 - a.1);
    (length > 1e-9).then(|| ((b.0 - a.0) / length, (b.1 - a.1) / length))
}

/// So far from a spot in a direction.
pub fn along(from: Spot, unit: Spot, by: f64) -> Spot {
    (from.0 + unit.0 * by, from.1 + unit.1 * by)
}

/// So far back.
pub fn back(from: Spot, unit: Spot, by: f64) -> Spot {
    along(from, unit, -by)
}

/// Words as they read, and the room they take.
#[derive(Clone, Debug)]
pub struct Text {
    /// Their lines.
    pub lines: Rc<[String]>,
    /// Width and height.
    pub size: Spot,
}

impl Text {
    /// Words measured by the widths of a common sans-serif letter, a little generous.
    pub fn of(text: &str) -> Self {
        let letter = |c: char| match c {
            'i' | 'j' | 'l' | 't' | 'f' | 'I' | '.' | ',' | ':' | ' ' | '\'' => 0.30,
            '-' | 'r' | '(' | ')' | '°' | '/' => 0.42,
            'm' | 'w' | 'M' | 'W' | '%' | 'Ø' => 0.88,
            c if c.is_uppercase() => 0.72,
            _ => 0.58,
        };
        let lines: Rc<[String]> = text.lines().map(str::to_owned).collect();
        let width = lines.iter().map(|line| line.chars().map(letter).sum::<f64>()).fold(0.0, f64::max);
        let size = (width * LETTERS + 2.0, lines.len().max(1) as f64 * LEADING);
        Self { lines, size }
    }

    /// How far they reach from their middle in a direction.
    pub fn half(&self, unit: Spot) -> f64 {
        let (width, height) = self.size;
        let (x, y) = (unit.0.abs(), unit.1.abs());
        // To the edge of the box, not to its corner.
        let to_side = if x > 1e-9 { width / 2.0 / x } else { f64::INFINITY };
        let to_top = if y > 1e-9 { height / 2.0 / y } else { f64::INFINITY };
        to_side.min(to_top)
    }

    /// The box they take round their middle, level or a quarter turn to the left.
    pub fn area(&self, middle: Spot, turned: bool) -> Area {
        let (width, height) = self.size;
        if turned { Area::round(middle, height, width) } else { Area::round(middle, width, height) }
    }
}
