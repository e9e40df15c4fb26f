//! The working of a bolt circle: angles, places, moves, and the settings of a rotary table.

use super::{BoltCircleInput, BoltCircleResult};
use crate::calculators::prelude::*;
use crate::hole_pattern::{HoleCircle, Start, find_distances, find_numbers, start_through};

/// The result, with its steps.
pub fn solve(input: &BoltCircleInput, record: &mut Record) -> Result<BoltCircleResult, Refusal> {
    let radius: FoundSize = step!(record, "Radius", R: radius = D / 2.0, D = diameter: input.diameter);
    let center = (input.center_x(record), input.center_y(record));
    let convention = input.words.convention(record);
    let start = match input.through {
        Some(point) => start_through(input.diameter, point, center, convention, record)?,
        None => {
            let start = input.start_angle(record);
            Start { degrees: start.degrees(), of: "start_angle", shown: start.into() }
        }
    };
    let numbers = find_numbers(&input.chosen, input.holes.get(), record);
    let step_angle = find_step_angle(input, record);
    let order = input.words.order(convention, input.holes.get(), record);
    let (sweep, steps) = (input.sweep_degrees(), input.steps());
    let circle = HoleCircle { radius, center, convention, order, numbers, sweep, steps, step_angle };
    let positions = circle.lay_out(start, record);
    let distances = find_distances(input.hole_diameter, sweep, radius, step_angle, record);
    let table = circle.find_settings(&input.table, record);
    let reach = input.travel.find_reach(&positions, record);
    Ok(BoltCircleResult { positions, step_angle, distances, table, reach })
}

fn find_step_angle(input: &BoltCircleInput, record: &mut Record) -> Option<FoundAngle> {
    let (sweep, holes) = (input.sweep(record), input.holes.get());
    if holes < 2 {
        return None;
    }
    let step = FoundAngle::stated(input.sweep_degrees() / f64::from(input.steps()), Unit::Degree);
    let (what, formula) = if input.steps() == holes {
        ("Angle from hole to hole around the full circle", "δ = S / n")
    } else {
        ("Angle from hole to hole, with a hole at each end", "δ = S / (n - 1)")
    };
    record.step(what, formula).with("S", "sweep", sweep).with("n", "holes", holes).gives("step_angle", step);
    Some(step)
}
