//! The steps to the position error: zones, deviations, bonus, what is left and the verdicts.

use super::{JudgedHole, MeasuredHole, PositionErrorInput, PositionErrorResult};
use crate::arithmetic::measured::HoleOrShaft;
use crate::arithmetic::verdict::{Verdict, verdict};
use crate::calculators::prelude::*;

/// The zones that go with the tolerance.
pub struct Zones {
    /// Plus or minus inside the round zone.
    pub plus_minus_inside: Option<FoundExtent>,
    /// The round zone around the square.
    pub around: Option<FoundSize>,
    /// The round zone inside the square.
    pub inside: Option<FoundSize>,
}

/// Finds the square inside of the round zone, or the round zones of the square.
pub fn find_zones(input: &PositionErrorInput, record: &mut Record) -> Zones {
    let plus_minus_inside = input.zone.map(|zone| -> FoundExtent {
        step!(record, "Plus or minus on each axis, inside the zone",
            t: plus_minus_inside = z / (2.0 * root(2.0)), z = zone)
    });
    let around = input.plus_minus.map(|plus_minus| -> FoundSize {
        step!(record, "Round zone through the corners of the square",
            z: zone_around = 2.0 * root(2.0) * t, t = plus_minus)
    });
    let inside = input.plus_minus.map(|plus_minus| -> FoundSize {
        step!(record, "Round zone inside the square", i: zone_inside = 2.0 * t, t = plus_minus)
    });
    Zones { plus_minus_inside, around, inside }
}

/// The holes as given, one by itself or a list, and what their fields are called.
pub struct Taken {
    holes: Vec<MeasuredHole>,
    fields: [&'static str; 5],
}

impl Taken {
    /// Those of a request; none where it asks for zones only.
    pub fn of(input: &PositionErrorInput) -> Option<Self> {
        if let Some(holes) = &input.holes {
            let fields =
                ["holes.basic_x", "holes.basic_y", "holes.measured_x", "holes.measured_y", "holes.measured_size"];
            return Some(Self { holes: holes.0.clone(), fields });
        }
        let one = MeasuredHole {
            basic_x: input.basic_x?,
            basic_y: input.basic_y?,
            measured_x: input.measured_x?,
            measured_y: input.measured_y?,
            measured_size: input.measured_size,
        };
        let fields = ["basic_x", "basic_y", "measured_x", "measured_y", "measured_size"];
        Some(Self { holes: vec![one], fields })
    }
}

/// A hole's size against its limits, and the bonus that it gives, never below none.
struct Bonus {
    is: f64,
    in_size: bool,
}

fn bonus(input: &PositionErrorInput, (feature, mmc): (HoleOrShaft, Size), size: Size) -> Bonus {
    let sign = if feature == HoleOrShaft::Hole { 1.0 } else { -1.0 };
    let from = |limit: Size| (sign * (size.get() - limit.get()).si() * 1e12).round() / 1e12;
    let in_size = from(mmc) >= 0.0 && input.lmc_size.is_none_or(|lmc| from(lmc) <= 0.0);
    Bonus { is: (sign * (size.get() - mmc.get()).si()).max(0.0), in_size }
}

/// Judges every hole, and all of them.
pub fn judge(input: &PositionErrorInput, taken: &Taken, found: &mut PositionErrorResult, record: &mut Record) {
    let rows = &taken.holes;
    let uncertainty = input.within.off_by(record);
    let mmc = input.feature.zip(input.mmc_size);
    // A zone's diameter counts a place that is off twice.
    let off = if input.zone.is_some() { 2.0 * uncertainty.si() } else { uncertainty.si() };
    let mut holes = Vec::with_capacity(rows.len());
    for (at, row) in rows.iter().enumerate() {
        let x = FoundDifference::of(row.measured_x.get() - row.basic_x.get());
        let y = FoundDifference::of(row.measured_y.get() - row.basic_y.get());
        let error = 2.0 * x.si().hypot(y.si());
        let extra = mmc.zip(row.measured_size).map(|(mmc, size)| bonus(input, mmc, size));
        let allowed = input.zone.map(|zone| zone.si() + extra.as_ref().map_or(0.0, |extra| extra.is));
        let left = match (allowed, input.plus_minus) {
            (Some(allowed), _) => allowed - error,
            (None, plus_minus) => plus_minus.map_or(0.0, |t| t.si()) - x.si().abs().max(y.si().abs()),
        };
        let in_size = extra.as_ref().is_none_or(|extra| extra.in_size);
        holes.push(JudgedHole {
            number: at as u32 + 1,
            x,
            y,
            position_error: FoundExtent::of_si(error),
            bonus: extra.map(|extra| FoundExtent::of_si(extra.is)),
            allowed: allowed.map(FoundSize::of_si),
            left: FoundDifference::of_si(left),
            verdict: if in_size { verdict(left, off) } else { Verdict::Outside },
        });
    }
    tell_holes(input, taken, &holes, record);
    tell_verdicts(input, uncertainty, &holes, found, record);
    found.holes = Some(holes);
}

/// Puts the steps of each hole on record.
fn tell_holes(input: &PositionErrorInput, taken: &Taken, holes: &[JudgedHole], record: &mut Record) {
    let rows = &taken.holes;
    let [basic_x, basic_y, measured_x, measured_y, measured_size] = taken.fields;
    record.look_up("Numbers", "in the order given").gives("holes.number", column(holes, |hole| hole.number));
    record
        .step("Off in X", "x = m - b")
        .with("m", measured_x, column(rows, |row| row.measured_x))
        .with("b", basic_x, column(rows, |row| row.basic_x))
        .gives("holes.x", column(holes, |hole| hole.x));
    record
        .step("Off in Y", "y = m - b")
        .with("m", measured_y, column(rows, |row| row.measured_y))
        .with("b", basic_y, column(rows, |row| row.basic_y))
        .gives("holes.y", column(holes, |hole| hole.y));
    tell!(record.step("Position error, as a diameter", "p = 2 × √(x × x + y × y)"),
        x = holes.x, y = holes.y => holes.position_error);
    if let Some((feature, mmc)) = input.feature.zip(input.mmc_size) {
        record.source("asme_y14_5", "bonus: what the feature departs from maximum material is added to the zone");
        let formula = match feature {
            HoleOrShaft::Hole => "B = max(s - M, 0)",
            HoleOrShaft::Shaft => "B = max(M - s, 0)",
        };
        record
            .step("Bonus", formula)
            .with("s", measured_size, column(rows, |row| row.measured_size))
            .with("M", "mmc_size", mmc)
            .gives("holes.bonus", column(holes, |hole| hole.bonus));
        if let Some(zone) = input.zone {
            tell!(record.step("Zone with bonus", "a = z + B"), z = zone, B = holes.bonus => holes.allowed);
        }
        record.note(
            "whole_feature",
            "The bonus goes by the largest pin that fits into the hole, or the smallest ring over the stud, square to the \
             face; a hole that leans or is out of round has less. The datum features' own bonus is not counted.",
        );
    } else if let Some(zone) = input.zone {
        let formula = record.look_up("Zone of each hole, no bonus", "the zone for every hole").with("z", "zone", zone);
        formula.gives("holes.allowed", column(holes, |hole| hole.allowed));
    }
    match input.plus_minus {
        Some(plus_minus) => tell!(record.step("Left on the worse axis", "l = t - max(abs(x), abs(y))"),
            t = plus_minus, x = holes.x, y = holes.y => holes.left),
        None => tell!(record.step("Left of the zone", "l = a - p"),
            a = holes.allowed, p = holes.position_error => holes.left),
    }
}

/// The verdicts: of each, and of all.
fn tell_verdicts(
    input: &PositionErrorInput,
    uncertainty: Extent,
    holes: &[JudgedHole],
    found: &mut PositionErrorResult,
    record: &mut Record,
) {
    let rule = if input.zone.is_some() {
        "within if l is 2 U or more, outside if l is below -2 U or the size is out, undecided in between"
    } else {
        "within if l is U or more, outside if l is below -U, undecided in between"
    };
    tell!(record.look_up("Verdict on each", rule), l = holes.left, U = uncertainty
        => "holes.verdict": column(holes, |hole| hole.verdict.as_str()));
    let is = |one: Verdict| holes.iter().any(|hole| hole.verdict == one);
    let all = [Verdict::Outside, Verdict::Undecided].into_iter().find(|one| is(*one)).unwrap_or(Verdict::Within);
    tell!(record.look_up("Verdict on all", "the worst of them"),
        v = "holes.verdict": column(holes, |hole| hole.verdict.as_str()) => verdict: all.as_str());
    let worst = holes.iter().map(|hole| hole.position_error.si()).fold(0.0, f64::max);
    let position_error = FoundExtent::of_si(worst);
    tell!(record.choose("Greatest position error", "the greatest"), p = holes.position_error => position_error);
    let left = FoundDifference::of_si(holes.iter().map(|hole| hole.left.si()).fold(f64::INFINITY, f64::min));
    tell!(record.choose("Least that is left", "the least"), l = holes.left => left);
    (found.verdict, found.position_error, found.left) = (Some(all), Some(position_error), Some(left));
    if uncertainty.si() > 0.0 {
        record.source("iso_14253_1", "limits are narrowed by the uncertainty to accept, and widened by it to reject");
    }
    if is(Verdict::Undecided) {
        record.note(
            "undecided",
            "One is so near its limit that this measurement proves neither. Measure it again with something better \
             before you pass or scrap the part.",
        );
    }
    let out_of_size = holes.iter().any(|hole| hole.verdict == Verdict::Outside && hole.left.si() >= 0.0);
    if out_of_size && input.mmc_size.is_some() {
        record.note(
            "out_of_size",
            "One has a diameter outside its limits: it is out whatever its position, and a diameter past maximum material \
             takes nothing off the zone here.",
        );
    }
}
