//! What can be wrong with a bolt circle: rules between its fields, and holes that would overlap,
//! with values to try that do not.

use super::{BoltCircleInput, MOST_HOLES};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};
use uom::si::f64::Length;

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

    /// The numbers of the holes listed.
    pub(super) fn numbers(&self) -> Vec<u32> {
        self.only.clone().unwrap_or_else(|| (1..=self.holes.get()).collect())
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
    let Some(only) = &input.only else { return Ok(()) };
    let holes = input.holes.get();
    let refuse = |says: String| {
        let mut fit: Vec<u32> = Vec::new();
        for number in only.iter().copied().filter(|number| (1..=holes).contains(number)) {
            if !fit.contains(&number) {
                fit.push(number);
            }
        }
        let fit: Vec<String> = fit.iter().map(u32::to_string).collect();
        let try_this = if fit.is_empty() { "1".to_owned() } else { fit.join(",") };
        Err(rule_broken(Code::ValueOutOfRange, says, &[("only", &try_this)]))
    };
    if only.is_empty() || only.len() > MOST_HOLES as usize {
        return refuse(format!("List 1 to {holes} holes."));
    }
    if let Some(number) = only.iter().find(|number| !(1..=holes).contains(number)) {
        return refuse(format!("There is no hole {number}; the holes are numbered 1 to {holes}."));
    }
    let mut sorted = only.clone();
    sorted.sort_unstable();
    match sorted.windows(2).find(|pair| pair[0] == pair[1]) {
        Some(pair) => refuse(format!("Hole {} is listed twice.", pair[0])),
        None => Ok(()),
    }
}

/// The smallest angle between two of the holes listed, in degrees; `None` for a single hole.
pub fn least_separation(input: &BoltCircleInput) -> Option<f64> {
    let mut numbers = input.numbers();
    numbers.sort_unstable();
    let (first, last) = (*numbers.first()?, *numbers.last()?);
    let apart = |count: u32| f64::from(count) * input.sweep_degrees().abs() / f64::from(input.steps());
    let inside = numbers.windows(2).map(|pair| apart(pair[1] - pair[0]));
    // The last and the first may be nearest across the gap that a sweep leaves open.
    inside.chain((first != last).then(|| 360.0 - apart(last - first))).reduce(f64::min)
}

/// What is left between two holes with centers so far apart; the rounding of the subtraction is none.
pub fn gap(chord: Length, hole: Length) -> Length {
    let gap = chord - hole;
    if gap.si().abs() <= 4.0 * f64::EPSILON * hole.si() { Length::from_si(0.0) } else { gap }
}

/// Refuses holes that would run into each other.
pub fn overlap(input: &BoltCircleInput) -> Result<(), Refusal> {
    let (Some(hole), Some(apart)) = (input.hole_diameter, least_separation(input)) else { return Ok(()) };
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
    if input.only.is_some() {
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
