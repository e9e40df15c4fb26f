//! The working of a bore or boss: the circle of the tip's path, what is left over, and the bore or
//! boss a tip's radius away.

use super::circle::{prove_fit, prove_through};
use super::hold::find_hold;
use super::{BoreOrBossCenter, BoreOrBossInput, BoreOrBossResult};
use crate::arithmetic::circle_fit::{Xy, fit, through};
use crate::arithmetic::touching::{Feature, metres};
use crate::calculators::prelude::*;
use crate::suggestion::{Way, value};

/// The result, with its steps.
pub fn solve(input: &BoreOrBossInput, record: &mut Record) -> Result<BoreOrBossResult, Refusal> {
    let touches = &input.points.0;
    let points: Vec<Xy> = touches.iter().map(metres).collect();
    let exact = <[Xy; 3]>::try_from(points.as_slice()).ok();
    let circle = exact.map_or_else(|| fit(&points), through);
    let circle = circle.filter(|c| points.iter().all(|p| (p.0 - c.x).hypot(p.1 - c.y) >= TINY)).ok_or_else(flat)?;
    record.look_up("Number of touches", "the rows of points").gives("count", points.len() as f64);
    let seen = if exact.is_some() {
        record.source("geometry", "circle through three points: where it is as far from all of them");
        prove_through(touches, circle, record)
    } else {
        record.source("circle_fit", "geometric fit: least sum of squares of the distances from the circle");
        prove_fit(touches, circle, record)
    };
    let path = FoundExtent::of_si(circle.r);
    let left_over = |d: &FoundExtent| if exact.is_some() { 0.0 } else { d.get().si() - circle.r };
    let residuals: Vec<FoundDifference> = seen.distances.iter().map(|d| Found::of_si(left_over(d))).collect();
    record
        .step("How far each touch lies outside the circle", "e = d - R")
        .with("d", "distances", seen.distances.clone())
        .with("R", "path_radius", path)
        .gives("residuals", residuals.clone());
    let out_of_round = if exact.is_some() {
        record.note(
            "nothing_checks",
            "A circle passes through any three touches, so nothing checks them: a slip in one moves the centre unseen. \
             Touch at a fourth place.",
        );
        None
    } else {
        Some(find_form(&residuals, record))
    };
    let tip = input.tip_diameter(record);
    let diameter = find_diameter(input.feature, tip, path, record)?;
    let error = input.touch_error(record);
    let (center_uncertainty, arc_angle, arc_height) = find_hold(&seen, path, error, record).ok_or_else(flat)?;
    if let Some(worst) = worst_of(&residuals, error) {
        record.note(
            "touch_off_circle",
            format!(
                "Touch {worst} lies farther from the circle than three times touch_error: touch it again; if it \
                 repeats, the work is not round."
            ),
        );
    }
    let center = BoreOrBossCenter { x: Found::of_si(circle.x), y: Found::of_si(circle.y) };
    Ok(BoreOrBossResult { center, diameter, residuals, out_of_round, center_uncertainty, arc_angle, arc_height })
}

fn flat() -> Refusal {
    let says = "The touches lie on a straight line, or as good as, or in fewer than three places, so no circle goes \
        through them.";
    Refusal::no_answer(says, &[("points", "1 in,0 in;0 in,1 in;-1 in,0 in;0 in,-1 in".into())])
}

fn find_form(residuals: &[FoundDifference], record: &mut Record) -> FoundExtent {
    let si = || residuals.iter().map(|residual| residual.get().si());
    let form = FoundExtent::of_si(si().fold(f64::NEG_INFINITY, f64::max) - si().fold(f64::INFINITY, f64::min));
    record
        .step("Out of round", "f = greatest(e) - least(e)")
        .with("e", "residuals", residuals.to_vec())
        .gives("out_of_round", form);
    form
}

fn find_diameter(
    feature: Option<Feature>,
    tip: Extent,
    path: FoundExtent,
    record: &mut Record,
) -> Result<FoundSize, Refusal> {
    let diameter: FoundSize = match feature {
        Some(Feature::Bore) => step!(record, "Diameter",
            D: diameter = 2.0 * R + d, R = path_radius: path, d = tip_diameter: tip),
        Some(Feature::Boss) => step!(record, "Diameter",
            D: diameter = 2.0 * R - d, R = path_radius: path, d = tip_diameter: tip),
        None => step!(record, "Diameter", D: diameter = 2.0 * R, R = path_radius: path),
    };
    if diameter.get().si() < TINY {
        let says = "The tip is as wide as its path round the boss or wider, which leaves no boss.";
        let smaller = value(path.get().si(), tip.quantity().unit, Way::Down);
        return Err(Refusal(vec![
            Wrong::new("tip_diameter", Code::Conflict, says, smaller),
            Wrong::new("feature", Code::Conflict, says, "bore"),
        ]));
    }
    Ok(diameter)
}

/// The number of the touch that lies farthest off, if it lies beyond three errors.
fn worst_of(residuals: &[FoundDifference], error: Size) -> Option<usize> {
    let size = |residual: &FoundDifference| residual.get().si().abs();
    let (at, worst) = residuals.iter().enumerate().max_by(|a, b| size(a.1).total_cmp(&size(b.1)))?;
    (size(worst) > 3.0 * error.get().si()).then_some(at + 1)
}
