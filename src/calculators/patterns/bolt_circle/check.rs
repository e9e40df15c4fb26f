//! What can be wrong with a bolt circle: rules between its fields, and holes that would overlap,
//! with values to try that do not.

use super::BoltCircleInput;
use crate::calculators::prelude::*;
use crate::hole_pattern::{MOST_HOLES, gap, least_separation};
use crate::suggestion::{Way, value};

impl BoltCircleInput {
    /// The sweep in degrees; 360 if not given.
    pub(super) fn sweep_degrees(&self) -> f64 {
        // Tidied, so that a full turn in radians is one.
        self.sweep.map_or(360.0, |sweep| text::tidy(sweep.degrees()))
    }

    /// Into how many steps the sweep is divided: a full circle closes on itself.
    pub(super) fn steps(&self) -> u32 {
        if self.sweep_degrees().abs() == 360.0 { self.holes.get() } else { self.holes.get() - 1 }
    }
}

rules! { check_turning(BoltCircleInput) {
    never(|input| input.sweep_degrees() == 0.0, Code::ValueOutOfRange, sweep = "180 deg"):
        "A sweep of 0 puts every hole in one place.";
    never(|input| input.sweep_degrees().abs() != 360.0 && input.holes.get() < 2, Code::Conflict,
        holes = "2", sweep = "360 deg"):
        "Part of a circle has a hole at each end, so it needs two holes or more.";
    not_both(through, start_angle):
        "Give the hole as picked up or the angle of hole 1, not both: each sets where hole 1 lies.";
} }

/// The rules between fields.
pub fn between_fields(input: &BoltCircleInput) -> Result<(), ValidationError> {
    check_turning(input)?;
    input.chosen.check(input.holes.get())?;
    input.table.check()?;
    input.travel.check()
}

/// Refuses holes that would run into each other.
pub fn overlap(input: &BoltCircleInput) -> Result<(), Refusal> {
    let apart = |count: u32| f64::from(count) * input.sweep_degrees().abs() / f64::from(input.steps());
    let apart = least_separation(input.chosen.numbers(input.holes.get()), apart);
    let (Some(hole), Some((apart, ..))) = (input.hole_diameter, apart) else { return Ok(()) };
    let half_sine = angle::sin(apart / 2.0).abs();
    let chord = input.diameter.get() * half_sine;
    if gap(chord, hole.get()).si() >= 0.0 {
        return Ok(());
    }
    let says = "The holes would run into each other: they are larger than the distance between their centers.";
    let wrong = |field: &str, try_this: String| Wrong::new(field, Code::Conflict, says, try_this);
    let smaller = value(0.8 * chord.si(), hole.quantity().unit, Way::Down);
    let larger = value(1.25 * hole.si() / half_sine, input.diameter.quantity().unit, Way::Up);
    let mut wrongs = vec![wrong("hole_diameter", smaller), wrong("diameter", larger)];
    let fewer = fitting(input);
    if let Some(fewer) = fewer {
        wrongs.push(wrong("holes", fewer.to_string()));
    }
    Err(Refusal(wrongs))
}

/// How many holes of the size would fit round the circle or part of it, if more than one does.
fn fitting(input: &BoltCircleInput) -> Option<u32> {
    if !input.chosen.is_all() {
        return None;
    }
    let ratio = (input.hole_diameter?.get() / input.diameter.get()).value;
    let apart = 2.0 * ratio.min(1.0).asin().to_degrees();
    let sweep = input.sweep_degrees().abs();
    let closes = sweep == 360.0;
    if ratio > 1.0 || (!closes && 360.0 - sweep < apart) {
        return None;
    }
    // A hair less than a whole number of steps is not that number.
    let steps = (sweep / apart * (1.0 - 1e-9)).floor();
    let holes = if closes { steps } else { steps + 1.0 };
    (holes >= 2.0).then_some(holes.min(f64::from(MOST_HOLES)) as u32)
}
