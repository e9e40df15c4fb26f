//! The working of a bore or boss: the circle of the tip's path, what is left over, and the bore or
//! boss a tip's radius away.

use super::hold::find_hold;
use super::seen::{Seen, extent, place};
use super::{BoreOrBossCenter, BoreOrBossInput, BoreOrBossResult};
use crate::arithmetic::circle_fit::{Xy, fit, through};
use crate::arithmetic::touching::{Feature, columns, take, unit_of};
use crate::fields::Point;
use crate::quantity::{
    Extent, FoundDifference, FoundExtent, FoundPlace, FoundSize, Place, SiValue, Size, System, TINY, Unit,
};
use crate::refusal::{Code, Refusal, Wrong};
use crate::suggestion::{Way, value};
use crate::working::Record;
use uom::si::f64::Length;

/// The result, with its steps.
pub fn solve(input: &BoreOrBossInput, record: &mut Record) -> Result<BoreOrBossResult, Refusal> {
    let touches = &input.points.0;
    let points: Vec<Xy> = touches.iter().map(|point| (point.x.get().si(), point.y.get().si())).collect();
    let exact = <[Xy; 3]>::try_from(points.as_slice()).ok();
    let circle = match exact {
        Some(three) => through(three),
        None => fit(&points),
    };
    let circle = circle.filter(|c| points.iter().all(|p| (p.0 - c.x).hypot(p.1 - c.y) >= TINY)).ok_or_else(flat)?;
    let seen = Seen::new(circle, &points);
    record.look_up("Number of touches", "the rows of points").gives("count", points.len() as f64);
    if exact.is_some() {
        record.source("geometry", "circle through three points: where it is as far from all of them");
        prove_through(touches, &seen, record);
    } else {
        record.source("circle_fit", "geometric fit: least sum of squares of the distances from the circle");
        prove_fit(touches, &seen, record);
    }
    let path = extent(seen.circle.r);
    let residuals: Vec<FoundDifference> = seen
        .distances
        .iter()
        .map(|d| FoundDifference::of(Length::from_si(if exact.is_some() { 0.0 } else { d - seen.circle.r })))
        .collect();
    record
        .step("How far each touch lies outside the circle", "e = d - R")
        .with("d", "distances", column(&seen.distances))
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
    let tip = record.or_assume(
        input.tip_diameter,
        "tip_diameter",
        Extent::stated(0.0, unit_of(touches)),
        "The places are taken to lie on the wall itself; the centre is right with any tip, the diameter only with its own.",
    );
    let diameter = find_diameter(input, tip, circle.r, record)?;
    let (usual, unit) = match unit_of(touches).system() {
        Some(System::Metric) => (0.01, Unit::Millimetre),
        _ => (0.0005, Unit::Inch),
    };
    let error = record.or_assume(
        input.touch_error,
        "touch_error",
        Size::stated(usual, unit),
        "About what a careful touch repeats to; touch one face a few times to see what yours does.",
    );
    let (center_uncertainty, arc_angle, arc_height) = find_hold(&seen, error, record).ok_or_else(flat)?;
    if let Some(worst) = worst_of(&residuals, error) {
        record.note(
            "touch_off_circle",
            format!(
                "Touch {worst} lies farther from the circle than three times touch_error: touch it again; if it \
                 repeats, the work is not round."
            ),
        );
    }
    Ok(BoreOrBossResult {
        center: BoreOrBossCenter { x: place(circle.x), y: place(circle.y) },
        diameter,
        residuals,
        out_of_round,
        center_uncertainty,
        arc_angle,
        arc_height,
    })
}

pub(super) fn column(values: &[f64]) -> Vec<FoundExtent> {
    values.iter().copied().map(extent).collect()
}

fn flat() -> Refusal {
    let says = "The touches lie on a straight line, or as good as, or in fewer than three places, so no circle goes \
        through them.";
    Refusal::no_answer(says, &[("points", "1 in,0 in;0 in,1 in;-1 in,0 in;0 in,-1 in".into())])
}

/// The exact circle through three touches.
fn prove_through(touches: &[Point], seen: &Seen, record: &mut Record) {
    let names = [["touch_1.x", "touch_1.y"], ["touch_2.x", "touch_2.y"], ["touch_3.x", "touch_3.y"]];
    for (at, names) in names.into_iter().enumerate() {
        take(record, touches, at, ["points.x", "points.y"], names);
    }
    let pick = |at: usize, axis: usize| if axis == 0 { touches[at].x } else { touches[at].y };
    let mut from_first = [[0.0; 2]; 2];
    for (row, (at, fields)) in [(1, ["second.x", "second.y"]), (2, ["third.x", "third.y"])].into_iter().enumerate() {
        for (axis, field) in fields.into_iter().enumerate() {
            let run = pick(at, axis).get() - pick(0, axis).get();
            from_first[row][axis] = run.si();
            record
                .step(if row == 0 { "Second touch from the first" } else { "Third touch from the first" }, "p = b - a")
                .with("a", names[0][axis], pick(0, axis))
                .with("b", names[at][axis], pick(at, axis))
                .gives(field, FoundPlace::of(run));
        }
    }
    let [[p, q], [s, t]] = from_first;
    let twice = 2.0 * (p * t - q * s);
    for (what, formula, field, from_of, from, found) in [
        (
            "Centre on X, as far from all three",
            "x = X + (t × (p^2 + q^2) - q × (s^2 + t^2)) / (2 × (p × t - q × s))",
            "center.x",
            names[0][0],
            touches[0].x,
            (t * (p * p + q * q) - q * (s * s + t * t)) / twice,
        ),
        (
            "Centre on Y, as far from all three",
            "y = X + (p × (s^2 + t^2) - s × (p^2 + q^2)) / (2 × (p × t - q × s))",
            "center.y",
            names[0][1],
            touches[0].y,
            (p * (s * s + t * t) - s * (p * p + q * q)) / twice,
        ),
    ] {
        record
            .step(what, formula)
            .with("X", from_of, from)
            .with("p", "second.x", place(p))
            .with("q", "second.y", place(q))
            .with("s", "third.x", place(s))
            .with("t", "third.y", place(t))
            .gives(field, place(from.get().si() + found));
    }
    prove_seen(touches, seen, "center.x", "center.y", record);
    record
        .step("Radius of the circle of the tip's path", "R = sum(d) / 3")
        .with("d", "distances", column(&seen.distances))
        .gives("path_radius", extent(seen.circle.r));
}

/// The least squares circle: found by steps, shown to be at the bottom by the sums that vanish there.
fn prove_fit(touches: &[Point], seen: &Seen, record: &mut Record) {
    let (xs, ys) = columns(touches);
    let count = touches.len() as f64;
    for (what, field, value) in [
        ("Centre on X, by steps to the least sum of squares", "settled.x", seen.circle.x),
        ("Centre on Y, by steps to the least sum of squares", "settled.y", seen.circle.y),
    ] {
        record
            .look_up(
                what,
                "damped Newton steps from the algebraic circle; the steps below show that the sum is least here",
            )
            .with("x", "points.x", xs.as_slice())
            .with("y", "points.y", ys.as_slice())
            .gives(field, place(value));
    }
    prove_seen(touches, seen, "settled.x", "settled.y", record);
    record
        .step("Radius of the circle of the tip's path: the mean distance", "R = sum(d) / n")
        .with("d", "distances", column(&seen.distances))
        .with("n", "count", count)
        .gives("path_radius", extent(seen.circle.r));
    let directions =
        |axis: usize| -> Vec<f64> { seen.directions.iter().map(|d| if axis == 0 { d.0 } else { d.1 }).collect() };
    let mut write = |what, (symbol, of, places): (&'static str, _, &[Place]), way_of, axis, field, value| {
        record
            .step(what, if symbol == "x" { "a = (sum(x) - R × sum(u)) / n" } else { "b = (sum(y) - R × sum(u)) / n" })
            .with(symbol, of, places)
            .with("R", "path_radius", extent(seen.circle.r))
            .with("u", way_of, directions(axis))
            .with("n", "count", count)
            .gives(field, place(value));
    };
    write(
        "Centre on X, where the sum of squares is least",
        ("x", "points.x", &xs),
        "ways.x",
        0,
        "center.x",
        seen.circle.x,
    );
    write(
        "Centre on Y, where the sum of squares is least",
        ("y", "points.y", &ys),
        "ways.y",
        1,
        "center.y",
        seen.circle.y,
    );
}

/// Distances and directions of the touches from the centre.
fn prove_seen(touches: &[Point], seen: &Seen, x_of: &'static str, y_of: &'static str, record: &mut Record) {
    let (xs, ys) = columns(touches);
    let from_centre = |places: &[Place], from: f64| -> Vec<FoundPlace> {
        places.iter().map(|place| FoundPlace::of(place.get() - Length::from_si(from))).collect()
    };
    let (on_x, on_y) = (from_centre(&xs, seen.circle.x), from_centre(&ys, seen.circle.y));
    for (what, of, places, from_of, from, field, found) in [
        ("Each touch from the centre, on X", "points.x", xs, x_of, seen.circle.x, "from_center.x", &on_x),
        ("Each touch from the centre, on Y", "points.y", ys, y_of, seen.circle.y, "from_center.y", &on_y),
    ] {
        record
            .step(what, "p = x - a")
            .with("x", of, places.as_slice())
            .with("a", from_of, place(from))
            .gives(field, found.clone());
    }
    record
        .step("Distance of each touch from the centre", "d = √(p^2 + q^2)")
        .with("p", "from_center.x", on_x.clone())
        .with("q", "from_center.y", on_y.clone())
        .gives("distances", column(&seen.distances));
    let (us, vs): (Vec<f64>, Vec<f64>) = seen.directions.iter().copied().unzip();
    for (what, of, parts, field, ways) in [
        ("Direction of each touch, X part", "from_center.x", on_x, "ways.x", us),
        ("Direction of each touch, Y part", "from_center.y", on_y, "ways.y", vs),
    ] {
        record
            .step(what, "u = p / d")
            .with("p", of, parts)
            .with("d", "distances", column(&seen.distances))
            .gives(field, ways);
    }
}

fn find_form(residuals: &[FoundDifference], record: &mut Record) -> FoundExtent {
    let si = || residuals.iter().map(|residual| residual.get().si());
    let form = extent(si().fold(f64::NEG_INFINITY, f64::max) - si().fold(f64::INFINITY, f64::min));
    record
        .step("Out of round", "f = greatest(e) - least(e)")
        .with("e", "residuals", residuals.to_vec())
        .gives("out_of_round", form);
    form
}

fn find_diameter(input: &BoreOrBossInput, tip: Extent, radius: f64, record: &mut Record) -> Result<FoundSize, Refusal> {
    let (formula, sign) = match input.feature {
        Some(Feature::Bore) => ("D = 2 × R + d", 1.0),
        Some(Feature::Boss) => ("D = 2 × R - d", -1.0),
        None => ("D = 2 × R", 0.0),
    };
    let diameter = 2.0 * radius + sign * tip.get().si();
    if diameter < TINY {
        let says = "The tip is as wide as its path round the boss or wider, which leaves no boss.";
        let smaller = value(radius, tip.quantity().unit, Way::Down);
        return Err(Refusal(vec![
            Wrong::new("tip_diameter", Code::Conflict, says, smaller),
            Wrong::new("feature", Code::Conflict, says, "bore"),
        ]));
    }
    let diameter = FoundSize::of(Length::from_si(diameter));
    let step = record.step("Diameter", formula).with("R", "path_radius", extent(radius));
    let step = if sign == 0.0 { step } else { step.with("d", "tip_diameter", tip) };
    step.gives("diameter", diameter);
    Ok(diameter)
}

/// The number of the touch that lies farthest off, if it lies beyond three errors.
fn worst_of(residuals: &[FoundDifference], error: Size) -> Option<usize> {
    let size = |residual: &FoundDifference| residual.get().si().abs();
    let (at, worst) = residuals.iter().enumerate().max_by(|a, b| size(a.1).total_cmp(&size(b.1)))?;
    (size(worst) > 3.0 * error.get().si()).then_some(at + 1)
}
