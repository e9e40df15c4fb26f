//! The limits of the fit as bands.

use super::{FitLimitsInput, FitLimitsResult};
use crate::drawing::Drawing;
use crate::fitting::draw_bands;

/// Draws an answer.
pub fn draw(input: &FitLimitsInput, result: &FitLimitsResult) -> Drawing {
    draw_bands(input.fit.classes(), input.fit.size.si(), &result.pair)
}
