//! The step of holes along an arc and where it begins, and holes that would not fit.

use super::PitchArcInput;
use crate::calculators::prelude::*;
use crate::hole_pattern::{Start, gap, least_separation};
use crate::suggestion::{Way, value};

/// The angle from hole to hole, from what is stated.
pub fn find_step(input: &PitchArcInput, radius: FoundSize, record: &mut Record) -> Result<FoundAngle, Refusal> {
    const WHAT: &str = "Angle from hole to hole";
    if let Some(chord) = input.chord {
        let ratio = chord.si() / input.diameter.si();
        if ratio > 1.0 {
            let says = "No two holes of a circle lie farther apart than its diameter.";
            let unit = input.diameter.quantity().unit;
            return Err(Refusal(vec![
                Wrong::new(
                    "chord",
                    Code::Conflict,
                    says,
                    value(input.diameter.si() / 8.0, chord.quantity().unit, Way::Down),
                ),
                Wrong::new("diameter", Code::Conflict, says, value(chord.si() * 4.0, unit, Way::Up)),
            ]));
        }
        let step = FoundAngle::stated(text::tidy(2.0 * ratio.asin().to_degrees()), Unit::Degree);
        let draft = record.step(WHAT, "δ = 2 × asin(c / (2 × R))").with("c", "chord", chord);
        draft.with("R", "radius", radius).gives("step_angle", step);
        return Ok(step);
    }
    if let Some(arc) = input.arc_pitch {
        let step = FoundAngle::stated(text::tidy((arc.si() / radius.si()).to_degrees()), Unit::Degree);
        record
            .step(WHAT, "δ = l / R")
            .with("l", "arc_pitch", arc)
            .with("R", "radius", radius)
            .gives("step_angle", step);
        return Ok(step);
    }
    let degrees = input.step_angle.map_or(0.0, |angle| angle.degrees());
    let step = FoundAngle::stated(text::tidy(degrees), Unit::Degree);
    if let Some(angle) = input.step_angle {
        record.choose(WHAT, "as given").with("δ", "step_angle", angle).gives("step_angle", step);
    }
    Ok(step)
}

/// Refuses holes past a full turn, and holes that would run into each other.
pub fn fits(input: &PitchArcInput, step: FoundAngle) -> Result<(), Refusal> {
    let holes = input.holes.get();
    let spacing = ["chord", "arc_pitch", "step_angle"]
        .into_iter()
        .zip([input.chord.is_some(), input.arc_pitch.is_some(), input.step_angle.is_some()])
        .find_map(|(field, given)| given.then_some(field));
    let spacing = spacing.unwrap_or("step_angle");
    // A spacing of so many degrees, in the way in which it was stated.
    let spaced = |degrees: f64, way: Way| {
        let radius = input.diameter.si() / 2.0;
        match (input.chord, input.arc_pitch) {
            (Some(chord), _) => value(2.0 * radius * angle::sin(degrees / 2.0), chord.quantity().unit, way),
            (_, Some(arc)) => value(radius * degrees.to_radians(), arc.quantity().unit, way),
            _ => value(degrees.to_radians(), Unit::Degree, way),
        }
    };
    if step.degrees() * f64::from(holes - 1) > 360.0 - step.degrees() * 1e-9 {
        let says = "The holes would run past a full turn. For a full circle of holes use the bolt circle.";
        let fewer = ((359.0 / step.degrees()).floor() + 1.0).max(2.0);
        let mut wrongs = vec![Wrong::new(spacing, Code::Conflict, says, spaced(300.0 / f64::from(holes), Way::Down))];
        if step.degrees() < 360.0 {
            wrongs.push(Wrong::new("holes", Code::Conflict, says, fewer.to_string()));
        }
        return Err(Refusal(wrongs));
    }
    let apart = |count: u32| f64::from(count) * step.degrees();
    let nearest = least_separation(input.chosen.numbers(holes), apart);
    let (Some(hole), Some((between, from, to))) = (input.hole_diameter, nearest) else { return Ok(()) };
    let chord = input.diameter.get() * angle::sin(between / 2.0).abs();
    if gap(chord, hole.get()).si() >= 0.0 {
        return Ok(());
    }
    let says = format!(
        "Holes {from} and {to} would run into each other: they are larger than the distance between their centers."
    );
    let smaller = value(0.8 * chord.si(), hole.quantity().unit, Way::Down);
    Err(Refusal(vec![Wrong::new("hole_diameter", Code::Conflict, says, smaller)]))
}

/// The angle of hole 1: as given, or half the sweep before the middle.
pub fn find_start(input: &PitchArcInput, sweep: FoundAngle, with_angles: bool, record: &mut Record) -> Start {
    if let Some(middle) = input.middle_angle {
        let half = if with_angles { -0.5 } else { 0.5 } * sweep.degrees();
        let degrees = text::tidy(middle.degrees() + half);
        let shown = FoundAngle::stated(degrees, Unit::Degree);
        let formula = if with_angles { "α = μ - S / 2" } else { "α = μ + S / 2" };
        let step = record.step("Angle of hole 1", formula).with("μ", "middle_angle", middle);
        step.with("S", "sweep", sweep).gives("start", shown);
        return Start { degrees, of: "start", shown: shown.into() };
    }
    let zero = Angle::stated(0.0, Unit::Degree);
    let start =
        record.or_assume(input.start_angle, "start_angle", zero, "Hole 1 is assumed to lie where angles start.");
    Start { degrees: start.degrees(), of: "start_angle", shown: start.into() }
}
