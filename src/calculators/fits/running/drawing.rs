//! The limits of the fit as bands.

use super::{InchFitInput, InchFitResult};
use crate::drawing::Drawing;
use crate::fitting::draw_bands;

/// Draws an answer.
pub fn draw(input: &InchFitInput, result: &InchFitResult) -> Drawing {
    draw_bands(input.class.as_str().to_owned(), input.size.si(), &result.pair)
}
