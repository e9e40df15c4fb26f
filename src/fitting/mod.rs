//! What every calculator of fits begins with: a fit as a drawing names it, the limits of a hole and a shaft, and the
//! clearance that the two leave, with their steps on record.

mod bands;
mod fit;
mod inch;
mod iso;
mod pair;

pub use bands::draw_bands;
pub use fit::Fit;
pub use inch::{FitBasis, inch_pair, inch_row};
pub use iso::{iso_clearances, iso_pair, iso_part};
pub(crate) use pair::paths;
pub use pair::{FitKind, FittedPair, PartLimits, Paths, clearances};
