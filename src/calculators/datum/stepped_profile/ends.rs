//! The ends of a stepped profile in its steps, and lengths that were computed.

use super::SteppedProfileInput;
use crate::quantity::{Found, Kind, Unit};
use crate::working::StepDraft;

/// A computed length.
pub(super) fn metres<K: Kind>(value: f64) -> Found<K> {
    Found::stated(value, Unit::Metre)
}

/// The ends of the profile as the symbols of a step.
pub(super) fn ends<'r>(draft: StepDraft<'r>, input: &SteppedProfileInput) -> StepDraft<'r> {
    draft
        .with("X", "from.x", input.from.x)
        .with("Y", "from.y", input.from.y)
        .with("x", "to.x", input.to.x)
        .with("y", "to.y", input.to.y)
}
