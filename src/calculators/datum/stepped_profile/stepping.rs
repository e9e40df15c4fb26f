//! A stepped profile being worked out: what is asked, its geometry, how many steps, and the record; and how its
//! steps show lengths and points that were computed.

use super::SteppedProfileInput;
use super::corner::Ends;
use super::shape::{Plane, Profile};
use crate::calculators::prelude::*;
use crate::working::StepDraft;

/// What the working of one profile is about.
pub struct Stepping<'s> {
    /// What is asked.
    pub input: &'s SteppedProfileInput,
    /// Where the profile begins and ends.
    pub ends: &'s Ends,
    /// The profile and the cutter.
    pub profile: &'s Profile,
    /// How many steps.
    pub steps: u32,
    /// Where the working goes.
    pub record: &'s mut Record,
}

impl Stepping<'_> {
    /// Begins a step whose symbols are the ends of the profile.
    pub fn step_of_ends(&mut self, what: &'static str, formula: &'static str) -> StepDraft<'_> {
        let shown = ["X", "Y", "x", "y"].into_iter().zip(&self.ends.shown);
        let draft = self.record.step(what, formula);
        shown.fold(draft, |draft, (symbol, (field, value))| draft.with(symbol, field, value.clone()))
    }
}

/// The numbers of the places after so many steps.
pub fn numbers(steps: u32) -> Vec<f64> {
    (1..=steps + 1).map(f64::from).collect()
}

/// An angle kept in degrees.
pub fn degrees(value: f64) -> FoundAngle {
    Found::stated(value, Unit::Degree)
}

/// Which coordinate of a point.
pub type Axis = fn(&Plane) -> f64;
/// X.
pub const X: Axis = |point| point.0;
/// Y.
pub const Y: Axis = |point| point.1;

/// Places as they were meant: what rounding leaves of one at zero, so far below what lengths of `reach` can show, is
/// zero.
pub fn without_noise(places: impl IntoIterator<Item = Plane>, reach: f64) -> Vec<Plane> {
    let near = |value: f64| if value.abs() < 1e-14 * reach { 0.0 } else { value };
    places.into_iter().map(|(x, y)| (near(x), near(y))).collect()
}

/// One coordinate of several points.
pub fn on(points: &[Plane], axis: Axis) -> Vec<FoundPlace> {
    points.iter().map(|point| Found::of_si(axis(point))).collect()
}
