//! The area of a section of stock.

use super::{ONE, StockForm, StockMassInput};
use crate::calculators::prelude::*;

/// The area, with its step.
pub fn find_area(input: &StockMassInput, record: &mut Record) -> FoundArea {
    let diameter = input.diameter.unwrap_or(ONE);
    let width = input.width.unwrap_or(ONE);
    let wall = input.wall.unwrap_or(ONE);
    match input.form {
        StockForm::Round => step!(record, "Area of the circle", A: section_area = π * squared(D) / 4.0, D = diameter),
        StockForm::Tube => match input.bore {
            Some(bore) => step!(record, "Area between the circles",
                A: section_area = π * (D - d) * (D + d) / 4.0, D = diameter, d = bore),
            None => step!(record, "Area of the wall", A: section_area = π * t * (D - t), t = wall, D = diameter),
        },
        StockForm::Square => step!(record, "Area of the square", A: section_area = squared(w), w = width),
        StockForm::Rectangle => {
            let thickness = input.thickness.unwrap_or(ONE);
            step!(record, "Area of the rectangle", A: section_area = w * t, w = width, t = thickness)
        }
        StockForm::RectangularTube => {
            let height = input.height(record);
            step!(record, "Area of the walls",
                A: section_area = 2.0 * t * (w + h - 2.0 * t), t = wall, w = width, h = height)
        }
        StockForm::Hexagon => step!(record, "Area of the hexagon",
            A: section_area = root(3.0) / 2.0 * squared(w), w = width),
        StockForm::Octagon => step!(record, "Area of the octagon",
            A: section_area = 2.0 * (root(2.0) - 1.0) * squared(w), w = width),
        StockForm::Angle => {
            let height = input.height(record);
            step!(record, "Area of both legs", A: section_area = t * (w + h - t), t = wall, w = width, h = height)
        }
    }
}
